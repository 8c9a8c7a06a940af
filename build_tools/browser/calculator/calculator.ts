// calculator.ts: one calculator on the page: typing, common cases, links, and what the reader is told. Knows no Python.
import { Actions, type Shown } from "./actions";
import type { Engine, Reply } from "../engine/client";
import { Form } from "./form";
import { Glance } from "./headline_strip";
import * as link from "./link";
import { Outcome } from "./outcome";
import { afterFrame } from "../shared/after_frame";
import { remember } from "./history_entry";
import { EngineTrouble } from "../engine/start";
import * as words from "../shared/words";

interface Case {
  inputs: Record<string, string>;
  html: string;
  text: string;
  digest: string;
}

interface Data {
  inputs: Record<string, string>;
  presets: Record<string, Case>;
  text: string;
  digest: string;
}

const PAUSE_BEFORE_COMPLAINT_MS = 500; // "1" on the way to "16" is not a mistake yet
const PAUSE_BEFORE_MARKING_MS = 50; // three frames: a mark that comes and goes within these costs two layouts, and flickers
const PAUSE_BEFORE_TELLING_MS = 250; // a result that comes sooner needs no "working"
const PAUSE_BEFORE_SLOWLY_MS = 1500;
const PROGRESS_EVERY_MS = 1000;

export class Calculator {
  readonly name: string;
  #version: string;
  #prefix: string;
  #data: Data;
  #form: Form;
  #state: HTMLElement;
  #linkNote: HTMLElement; // above the result, where one who followed a link looks first
  #result: HTMLElement; // the first part of the result, above the form
  #outcome: Outcome;
  #rehearsed: WeakRef<Outcome> | undefined; // a picture in it need not stay in memory for ever
  #actions: Actions | undefined;
  #glance: Glance | undefined;
  #opened = false; // whether the reader opened the form, and not a message or a link
  #shown: Shown;
  #isBuilt = true; // whether what stands here is what was built: other inputs may have an answer of the same digest
  #isWhole = true; // whether nothing is put off of the answer to the newest question
  #asked = 0;
  #complaint = 0;
  #progress: number[] = [];
  #carried: link.Carried | undefined;

  constructor(
    private readonly section: HTMLElement,
    private readonly engine: Engine,
  ) {
    this.name = section.dataset["calculator"] ?? "";
    this.#version = section.dataset["version"] ?? "";
    this.#prefix = section.dataset["prefix"] ?? "";
    this.#data = JSON.parse(one(section, "script.wa-data").textContent ?? "{}") as Data;
    this.#form = new Form(one<HTMLFormElement>(section, "form.wa-form"), this.#data.inputs);
    this.#state = one(section, ".wa-state");
    this.#result = one(section, ".wa-result");
    this.#outcome = new Outcome(this.#result, one(section, ".wa-details"), (rest) => this.#putOff(rest));
    this.#linkNote = one(section, ".wa-link-note");
    this.#shown = this.#hold(this.#showing(this.#form.publicValues(), this.#data));
    engine.expect(this.name);
    // A private input stands in the page as it was understood, not as it was pasted, so the words of the result can differ.
    if (!this.#form.isPrivate) engine.mustGive(this.name, { inputs: this.#data.inputs, prefix: this.#prefix, same: this.#builtAnswer() });
    this.#wire();
    section.querySelector(".wa-noscript")?.remove(); // it says what works without this script, and stays where that fails
  }

  /** Compares a reply with the answer that stands in the page as it was built, but for which folds are open. */
  #builtAnswer(): (reply: Reply) => boolean {
    const { digest, text } = this.#data;
    const plain = (html: string): string => html.replaceAll(' open=""', "");
    const html = plain(this.#outcome.result.innerHTML + this.#outcome.details.innerHTML);
    return (reply) => {
      const template = document.createElement("template");
      template.innerHTML = reply.html ?? "";
      return reply.digest === digest && reply.text === text && plain(template.innerHTML) === html;
    };
  }

  #wire(): void {
    const form = this.#form.form;
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.#ask(0);
    });
    form.addEventListener("input", (event) => {
      const key = this.#form.keyOf(event.target);
      if (key) this.#edited(key, PAUSE_BEFORE_COMPLAINT_MS);
    });
    form.addEventListener("change", () => this.#complainNow());
    form.addEventListener("click", ({ target }) => {
      const button = target instanceof Element ? target.closest<HTMLButtonElement>("button.wa-unsure") : null;
      const key = this.#form.keyOf(button);
      if (!button || !key) return;
      this.#form.put(key, button.dataset["value"] ?? "");
      this.#edited(key, 0);
    });
    // Whoever puts the cursor into a field is about to type: what has rested is woken meanwhile.
    const ready = (): unknown => this.engine.busy || this.rehearse(0);
    form.addEventListener("focusin", () => void this.engine.start().then(ready).catch(() => undefined));
    for (const button of this.section.querySelectorAll<HTMLButtonElement>(".wa-preset")) {
      button.setAttribute("aria-pressed", "false");
      button.addEventListener("click", () => this.#showCase(button));
    }
    const row = this.section.querySelector<HTMLElement>(".wa-actions");
    const doubt = this.section.querySelector<HTMLElement>(".wa-doubt");
    if (row && doubt) this.#actions = new Actions(row, doubt, () => this.#shown, (options) =>
      this.engine.card(`${this.#prefix}-card`, this.name, this.#form.values(), options));
    this.#form.enable();
    this.#glance = new Glance(this.section, this.#result, form);
    const opener = this.section.querySelector<HTMLDetailsElement>("details.wa-asks");
    opener?.querySelector("summary")?.addEventListener("click", () => (this.#opened = true));
    opener?.addEventListener("toggle", () => {
      if (!opener.open || !this.#opened) return; // a form that the page came with open is told of late, too
      void this.engine.start().catch(() => undefined); // whoever opens the form is about to type
      // On a phone it would open below the window's foot, as if nothing had happened.
      if (opener.getBoundingClientRect().top > innerHeight / 3) opener.scrollIntoView({ block: "start" });
    });
  }

  #edited(key: string, patience: number): void {
    this.#form.given.add(key);
    this.#form.letFollow(key);
    this.#linkNote.textContent = "";
    this.#carried = undefined;
    this.#press(undefined);
    this.#ask(patience);
  }

  /**
   * Warm up: have one answer worked out and put where nobody sees it, so that the reader's first ones need not wait for
   * preparations. The common cases take their turns, since each goes its own way.
   */
  async rehearse(turn: number): Promise<void> {
    const cases = [this.#data, ...Object.values(this.#data.presets)];
    const { inputs } = cases[turn % cases.length]!;
    const reply = await this.engine.answer(`${this.#prefix}-rehearsal`, this.name, inputs, this.#prefix);
    if (!reply?.html) return;
    const unseen = this.#rehearsed?.deref() ?? this.#outcome.copy();
    this.#rehearsed = new WeakRef(unseen);
    unseen.put(reply.html);
  }

  /** Take up the inputs that this page had when the reader left it. */
  resume(inputs: Record<string, string>): void {
    this.#form.fill(inputs);
    if (!this.#showKnown(inputs)) this.#ask(0);
  }

  /** What was computed when the page was built needs no engine: the example, or a common case. */
  #showKnown(inputs: Record<string, string>): boolean {
    const built = this.#isBuilt && same(inputs, this.#data.inputs);
    const known = built ? undefined : Object.values(this.#data.presets).find((each) => same(inputs, each.inputs));
    if (!built && !known) return false;
    this.#asked++; // an answer that is still on its way is no longer wanted
    this.engine.forget(this.#prefix);
    if (known) {
      this.#show(known.html, this.#showing(this.#form.publicValues(), known));
    } else {
      clearTimeout(this.#complaint);
      this.#form.showErrors([]);
      this.#mismatch(false);
      this.#settled();
      this.#say("");
    }
    return true;
  }

  /** The result on the page is the one that was asked for. */
  #settled(): void {
    this.section.classList.remove("wa-waiting");
    const moved = this.#carried?.digest && this.#carried.digest !== this.#shown.digest;
    if (moved) this.#linkNote.textContent = `${this.#linkNote.textContent} ${words.LINK_MOVED}`;
    this.#carried = undefined; // the link's answer is compared once: later results have other inputs
  }

  /** Take the inputs from a link; what is unknown is said, what is invalid is said beside its input. */
  restore(carried: link.Carried): void {
    const unknown = this.#form.fill(carried.inputs);
    this.#carried = carried;
    this.section.dataset["ticks"] = carried.ticks ?? ""; // plan.ts reads it where there is a plan
    this.#press(undefined);
    this.tellOfLink([words.FROM_LINK, unknown.length ? words.LINK_UNKNOWN(unknown) : ""].filter(Boolean).join(" "));
    if (unknown.length || !this.#showKnown(carried.inputs)) this.#ask(0);
  }

  /** Say above the inputs what there is to say about the link that brought the reader here, until the first edit. */
  tellOfLink(sentence: string): void {
    this.#linkNote.textContent = sentence;
    // Another calculator than the first stands further down, perhaps in a fold; the first is on the first screen anyway.
    for (let fold = this.section.closest("details"); fold; fold = fold.parentElement?.closest("details") ?? null) {
      fold.open = true;
    }
    if (document.querySelector("section.wa-calculator") !== this.section) this.section.scrollIntoView({ block: "start" });
  }

  #showCase(button: HTMLButtonElement): void {
    const preset = this.#data.presets[button.dataset["preset"] ?? ""];
    if (!preset) return;
    this.#asked++; // an answer that is still on its way is no longer wanted
    this.engine.forget(this.#prefix);
    this.#linkNote.textContent = "";
    this.#carried = undefined;
    this.#form.fill(preset.inputs);
    this.#press(button);
    this.#show(preset.html, this.#showing(this.#form.publicValues(), preset));
    void this.engine.start().catch(() => undefined);
  }

  #ask(patience: number): void {
    const turn = ++this.#asked;
    this.#isWhole = true;
    const inputs = this.#form.values();
    const publicInputs = this.#form.publicValues();
    clearTimeout(this.#complaint);
    this.#result.setAttribute("aria-busy", "true");
    this.#actions?.hold();
    if (!this.engine.ready) this.#mismatch(true);
    else this.#marking ||= window.setTimeout(() => this.#mismatch(true), PAUSE_BEFORE_MARKING_MS);
    this.#tellProgress();
    this.engine.answer(this.#prefix, this.name, inputs, this.#prefix).then(
      (reply) => {
        if (turn === this.#asked && reply) this.#take(reply, publicInputs, patience);
      },
      (trouble: unknown) => {
        if (turn === this.#asked) this.#say(trouble instanceof EngineTrouble ? trouble.message : words.FAULT);
      },
    );
  }

  #take(reply: Reply, inputs: Record<string, string>, patience: number): void {
    if (reply.errors?.length) {
      this.#complain(reply.errors, patience);
    } else if (reply.html !== undefined) {
      this.#show(reply.html, this.#showing(inputs, { text: reply.text ?? "", digest: reply.digest ?? "" }));
    } else {
      this.#say(words.FAULT);
    }
  }

  /**
   * The rest of an answer goes into the frame after that of the result, which is not kept waiting. On a phone it is a screen
   * further down; where both are in view, the result is there a hundredth of a second sooner.
   */
  #putOff(rest: () => void): void {
    const turn = this.#asked;
    this.#isWhole = false;
    afterFrame(() => {
      rest();
      if (turn !== this.#asked) return; // another answer has been asked for, or stands here
      this.#isWhole = true;
      this.#result.setAttribute("aria-busy", "false");
    });
  }

  #show(html: string, shown: Shown): void {
    clearTimeout(this.#complaint);
    this.#form.showErrors([]);
    this.#isWhole = true;
    this.#outcome.put(html);
    this.#isBuilt = false;
    this.#shown = this.#hold(shown);
    remember(this.#prefix, shown.inputs);
    const example = this.section.querySelector<HTMLElement>(".wa-example");
    if (example && example.dataset["own"] === undefined) {
      example.textContent = words.OWN_RESULT; // from now on the result is the reader's own
      example.dataset["own"] = "";
      const correction = example.parentElement?.querySelector<HTMLElement>(".wa-correction");
      if (correction) correction.hidden = true; // it is about the numbers that were asked on air
    }
    this.#mismatch(false);
    this.#settled();
    this.#say("");
  }

  #waitingErrors: (() => void) | undefined;

  #complain(errors: { input: string; message: string }[], patience: number): void {
    const say = (): void => {
      this.#waitingErrors = undefined;
      const homeless = this.#form.showErrors(errors);
      const count = new Set(errors.map(({ input }) => input)).size;
      this.#say([words.MEND_INPUTS(count), ...homeless].join(" "));
      this.#glance?.update();
    };
    this.#quiet();
    this.#waitingErrors = say;
    this.#complaint = window.setTimeout(say, patience);
  }

  /** The reader has left the input: no reason to wait any longer. */
  #complainNow(): void {
    clearTimeout(this.#complaint);
    this.#waitingErrors?.();
  }

  #marking = 0; // the timer after which the result is marked as not matching

  #mismatch(on: boolean): void {
    clearTimeout(this.#marking);
    this.#marking = 0;
    this.section.classList.toggle("wa-stale", on);
    if (this.#actions) this.#actions.enabled = !on;
    this.#glance?.update();
  }

  #tellProgress(): void {
    this.#quiet();
    this.#waitingErrors = undefined;
    const later = (ms: number, sentence: () => string): void => {
      this.#progress.push(window.setTimeout(() => this.#tell(sentence()), ms));
    };
    if (this.engine.ready) {
      later(PAUSE_BEFORE_TELLING_MS, () => words.WORKING);
    } else {
      this.#tell(words.STARTING);
      const slowly = (): void => {
        const { come, all } = this.engine.progress;
        this.#tell(words.STARTING_SLOWLY(come, all));
        this.#progress.push(window.setTimeout(slowly, PROGRESS_EVERY_MS));
      };
      this.#progress.push(window.setTimeout(slowly, PAUSE_BEFORE_SLOWLY_MS));
      const turn = this.#asked;
      const started = (): void => {
        if (turn !== this.#asked || this.#progress.length === 0) return; // answered, or asked anew
        this.#quiet();
        later(PAUSE_BEFORE_TELLING_MS, () => words.WORKING);
      };
      this.engine.start().then(started, () => undefined); // a trouble is told where the answer is awaited
    }
  }

  #quiet(): void {
    for (const timer of this.#progress) clearTimeout(timer);
    this.#progress = [];
  }

  #say(sentence: string): void {
    if (this.#marking) this.#mismatch(true);
    this.#quiet();
    this.#result.setAttribute("aria-busy", String(!this.#isWhole));
    this.section.classList.remove("wa-waiting"); // no answer will come for these inputs: the words say what stands here
    this.#tell(sentence);
    this.#glance?.update();
  }

  #tell(sentence: string): void {
    if (this.#state.textContent !== sentence) this.#state.textContent = sentence;
  }

  #press(pressed: HTMLButtonElement | undefined): void {
    for (const button of this.section.querySelectorAll(".wa-preset")) {
      const now = String(button === pressed);
      if (button.getAttribute("aria-pressed") !== now) button.setAttribute("aria-pressed", now);
    }
  }

  /** What the result's link is, readable in the page: a plan's own script adds its ticks to it. */
  #hold(shown: Shown): Shown {
    this.section.dataset["link"] = link.write(shown);
    return shown;
  }

  #showing(inputs: Record<string, string>, { text, digest }: { text: string; digest: string }): Shown {
    return { name: this.name, version: this.#version, inputs, text, digest };
  }
}

/** Whether two sets of inputs, as typed, are the same. */
function same(one: Record<string, string>, other: Record<string, string>): boolean {
  const keys = Object.keys(one);
  return keys.length === Object.keys(other).length && keys.every((key) => one[key] === other[key]);
}

function one<T extends HTMLElement>(section: HTMLElement, selector: string): T {
  const element = section.querySelector<T>(selector);
  if (!element) throw new Error(`no ${selector} in ${section.dataset["calculator"]}`);
  return element;
}
