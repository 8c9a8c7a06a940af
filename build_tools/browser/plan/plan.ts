// plan.ts: a plan with steps to tick off. The page's address holds the ticks; a QR code of it takes them to a phone, and
// the plan can be printed.
// Loaded only by pages that have such a plan. Knows the plan's markup; knows no inputs and no engine. What it adds to the
// result stands in a shadow root, so that the result's own markup stays what Python made.
import { copy } from "../calculator/copy";
import * as link from "../calculator/link";
import { NARROW } from "../shared/fold_rules";
import { isDeeper } from "./parts";
import * as words from "./words";
import { qr } from "../shared/qr";
import { leadsHere } from "../screen/address";
import { print } from "./on_paper";
import * as ticks from "./ticks";

const HERE = document.currentScript instanceof HTMLScriptElement ? document.currentScript.src : document.baseURI;
const STYLE = new URL("plan.css", HERE).href;
const CODE_LIMIT = 2000; // characters; a longer address makes a code that no phone reads from a screen
const SAID_MS = 2000; // how long a button says whether copying worked
const awake = new WeakSet<Element>();

class Plan {
  #ticked: Set<string>;
  #written: string; // the ticks as last read from, or written to, the section's data-ticks
  #tools: ShadowRoot | undefined;
  #late = false; // whether the address is to be changed as soon as the result fits the form again
  #drawn = ""; // the address that the code on the page shows

  constructor(
    private readonly section: HTMLElement,
    private readonly result: HTMLElement,
  ) {
    const carried = link.read(location.hash);
    if (section.dataset["ticks"] === undefined && carried?.name === section.dataset["calculator"]) {
      section.dataset["ticks"] = carried?.ticks ?? "";
    }
    this.#written = section.dataset["ticks"] ?? "";
    this.#ticked = ticks.read(this.#written);
    section.classList.add("wa-ticking");
    result.addEventListener("change", ({ target }) => {
      if (target instanceof HTMLInputElement && target.closest(".wa-tick")) this.#tick(target);
    });
    result.addEventListener("click", ({ target }) => {
      if (target instanceof HTMLButtonElement && target.matches(".wa-copy")) void this.#copy(target);
    });
    // A step that has only other numbers keeps its box, and that has another name.
    new MutationObserver(() => this.#show()).observe(result, { childList: true, subtree: true, attributeFilter: ["aria-label"] });
    new MutationObserver(() => this.#take()).observe(section, { attributeFilter: ["data-ticks", "data-link"] });
    this.#show();
  }

  /** Called when the section's ticks or link have changed: a link was followed, whose ticks count now, or inputs changed. */
  #take(): void {
    const given = this.section.dataset["ticks"] ?? "";
    if (given !== this.#written) {
      this.#written = given;
      this.#ticked = ticks.read(given);
    }
    this.#show();
    if (this.#ticked.size || this.#late) this.#address();
  }

  #tick(box: HTMLInputElement): void {
    if (box.checked) this.#ticked.add(ticks.code(box.value));
    else this.#ticked.delete(ticks.code(box.value));
    this.#keep();
    if (box.checked) this.#openNext(box);
  }

  /** Whoever has done a step wants to see the next. */
  #openNext(done: HTMLInputElement): void {
    const boxes = this.#boxes();
    const next = boxes.slice(boxes.indexOf(done) + 1).find((box) => !box.checked);
    const fold = next?.closest(".wa-step")?.querySelector<HTMLDetailsElement>("details.wa-step-fold");
    if (fold) fold.open = true;
  }

  /** Put the ticks into the page's address, where a restart, a bookmark and a copied link find them. */
  #keep(): void {
    this.#written = ticks.write(this.#keys(), this.#ticked);
    this.section.dataset["ticks"] = this.#written;
    this.#address();
    this.#show();
  }

  /** The page's address follows, but not while the result still belongs to other inputs than the form. */
  #address(): void {
    this.#late = this.section.classList.contains("wa-stale");
    if (!this.#late) history.replaceState(history.state, "", this.#fragment());
  }

  #show(): void {
    const boxes = this.#boxes();
    for (const box of boxes) box.checked = this.#ticked.has(ticks.code(box.value));
    const place = this.result.querySelector<HTMLElement>(".wa-plan-tools");
    if (!place) return;
    this.#tools = place.shadowRoot ?? this.#furnish(place);
    const deeper = boxes.findIndex((box) => isDeeper(box.closest(".wa-steps") ?? box));
    const first = deeper < 0 ? boxes : boxes.slice(0, deeper); // only the first plan's steps count
    const done = first.filter((box) => box.checked).length;
    const next = (done < first.length ? first : []).find((box) => !box.checked)?.ariaLabel?.replace(/^[^:]*: /, "");
    this.#say("progress", [words.DONE(done, first.length), next ? words.NEXT(next) : ""].filter(Boolean).join(" "));
    this.#draw(this.#link());
  }

  /** Copy the command before this button. The button says for a moment whether that worked. */
  async #copy(pressed: HTMLButtonElement): Promise<void> {
    const done = await copy(pressed.previousElementSibling?.textContent ?? "");
    pressed.textContent = done ? words.COPIED : words.NOT_COPIED;
    window.setTimeout(() => (pressed.textContent = words.COPY), SAID_MS);
  }

  /** Put the progress line, the buttons and the place for the QR code into a shadow root. */
  #furnish(place: HTMLElement): ShadowRoot {
    const root = place.attachShadow({ mode: "open" });
    const style = document.createElement("link");
    style.rel = "stylesheet";
    style.href = STYLE;
    const buttons = row("buttons");
    buttons.append(
      button(words.PRINT, () => print(this.section, this.#link())),
      button(words.UNTICK, () => {
        this.#ticked.clear();
        this.#keep();
      }),
    );
    const left = row("left");
    left.append(row("progress", "status"), row("kept"), buttons);
    const code = document.createElement("figure");
    code.className = "code";
    root.append(style, left, code);
    left.querySelector(".kept")!.textContent = words.KEPT;
    this.#drawn = "";
    return root;
  }

  /** Draw the QR code of an address, or say why there is none. */
  #draw(address: string): void {
    if (address === this.#drawn) return;
    this.#drawn = address;
    const figure = this.#tools?.querySelector(".code");
    if (!figure) return;
    if (leadsHere(address) || address.length > CODE_LIMIT) {
      const caption = document.createElement("figcaption");
      caption.textContent = leadsHere(address) ? words.THIS_MACHINE_ONLY : words.TOO_LONG;
      figure.replaceChildren(caption);
      return;
    }
    const fold = document.createElement("details");
    const summary = document.createElement("summary");
    summary.textContent = words.TAKE_ALONG;
    fold.open = figure.querySelector("details")?.open ?? !matchMedia(NARROW).matches; // a phone has no use for its own code
    fold.append(summary, qr(address, words.QR_LABEL));
    figure.replaceChildren(fold);
  }

  #say(place: string, sentence: string): void {
    const line = this.#tools?.querySelector(`.${place}`);
    if (line && line.textContent !== sentence) line.textContent = sentence;
  }

  #boxes(): HTMLInputElement[] {
    return [...this.result.querySelectorAll<HTMLInputElement>(".wa-tick input")];
  }

  #keys(): string[] {
    return this.#boxes().map((box) => box.value);
  }

  #fragment(): string {
    const carried = link.read(this.section.dataset["link"] ?? "") ?? { name: this.section.dataset["calculator"] ?? "", inputs: {} };
    return link.write({ ...carried, ticks: ticks.write(this.#keys(), this.#ticked) });
  }

  /** The page's address with inputs and ticks; where it is served from this machine, the published one that the page names. */
  #link(): string {
    const here = location.href.split("#")[0] ?? "";
    const named = document.querySelector<HTMLLinkElement>("link[rel=canonical]")?.href ?? "";
    const base = leadsHere(here) && named && !leadsHere(named) ? named : here;
    return base + this.#fragment();
  }
}

function row(kind: string, role = ""): HTMLElement {
  const made = document.createElement("div");
  made.className = kind;
  if (role) made.setAttribute("role", role);
  return made;
}

function button(label: string, act: () => void): HTMLButtonElement {
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = label;
  made.addEventListener("click", act);
  return made;
}

function wake(root: ParentNode): void {
  for (const section of root.querySelectorAll<HTMLElement>("section.wa-calculator")) {
    const result = section.querySelector<HTMLElement>(".wa-details");
    if (!result?.querySelector(".wa-plan-tools") || awake.has(section)) continue;
    awake.add(section);
    new Plan(section, result);
  }
}

if (!document.querySelector(`link[href="${CSS.escape(STYLE)}"]`)) {
  const style = document.createElement("link");
  style.rel = "stylesheet";
  style.href = STYLE;
  document.head.append(style);
}
wake(document);
