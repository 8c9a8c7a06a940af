// actions.ts: the buttons beside and below a result and what they copy, and the report of whoever finds it wrong.
// Knows the result shown and its link; knows no engine.
import { copy } from "./copy";
import type { Reply } from "../engine/client";
import * as link from "./link";
import { putOnScreen } from "../screen/on_screen";
import * as words from "../shared/words";

/** The result on the page, with the inputs that gave it. Holds no private input. */
export interface Shown {
  name: string;
  version: string;
  inputs: Record<string, string>;
  digest: string;
  text: string;
}

export class Actions {
  #buttons: HTMLButtonElement[] = [];
  #held = false;
  #pressed: (() => Promise<void>) | undefined; // what was pressed meanwhile
  #status = status(); // beside the buttons: what became of the one pressed
  #statuses: HTMLElement[];
  #report: HTMLElement;
  #reportText: HTMLTextAreaElement;

  /**
   * @param row the element that holds the buttons
   * @param doubt the element right below the result, for who finds it wrong
   * @param shown what is on the page now
   * @param draw has the frames of the result's card drawn
   */
  constructor(
    private readonly row: HTMLElement,
    private readonly doubt: HTMLElement,
    private readonly shown: () => Shown,
    private readonly draw: (options: object) => Promise<Reply | undefined>,
  ) {
    row.replaceChildren();
    const linkStatus = status();
    this.#add(words.COPY_LINK, async () => this.#copy(this.link(), words.COPIED_LINK, linkStatus), doubt);
    this.#add(words.COPY_TEXT, async () => this.#copy(`${this.shown().text}\n\n${this.link()}`, words.COPIED_TEXT));
    this.#add(words.PUT_ON_SCREEN, async () => this.#screen()).classList.add("wa-to-screen");
    const toggle = this.#add(words.THIS_IS_WRONG, async () => this.#toggleReport(toggle), doubt);
    this.#reportText = document.createElement("textarea");
    this.#report = this.#makeReport();
    row.append(this.#status);
    doubt.append(linkStatus);
    this.#statuses = [this.#status, linkStatus];
    toggle.setAttribute("aria-expanded", "false");
    toggle.setAttribute("aria-controls", this.#report.id);
    row.hidden = doubt.hidden = false;
  }

  /** While the result does not match the inputs there is nothing to hand on. With the one that does, what was pressed is done. */
  set enabled(on: boolean) {
    this.#held = !on;
    for (const button of this.#buttons) button.disabled = !on;
    if (on) void this.#pressed?.();
    if (on) this.#pressed = undefined;
  }

  /** Another result is on its way. The buttons wait for it from now on, but look as they did: it may be there in a moment. */
  hold(): void {
    this.#held = true;
    this.#pressed = undefined;
    if (!this.#report.hidden) this.#close();
    for (const line of this.#statuses) line.textContent = "";
  }

  /** The page's address with the inputs of the result shown, without ticks: whoever gets it starts a plan anew. */
  link(): string {
    return location.href.split("#")[0] + link.write(this.shown());
  }

  #add(label: string, act: () => Promise<void>, into = this.row): HTMLButtonElement {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "wa-action";
    button.textContent = label;
    button.addEventListener("click", () => void (this.#held ? (this.#pressed = act) : act()));
    into.append(button);
    this.#buttons.push(button);
    return button;
  }

  async #copy(text: string, done: string, beside = this.#status): Promise<void> {
    beside.textContent = (await copy(text)) ? done : words.NOT_COPIED;
  }

  async #screen(): Promise<void> {
    const heading = document.querySelector("h1")?.firstChild?.textContent?.trim() ?? "";
    try {
      await putOnScreen({ question: heading, link: this.link(), draw: this.draw });
    } catch {
      this.#status.textContent = words.NOT_ON_SCREEN;
    }
  }

  #makeReport(): HTMLElement {
    const box = document.createElement("div");
    box.className = "wa-report";
    box.id = `${this.row.closest<HTMLElement>(".wa-calculator")?.dataset["prefix"] ?? "wa"}-report`;
    box.hidden = true;
    const label = document.createElement("label");
    label.htmlFor = `${box.id}-text`;
    label.textContent = words.REPORT_LABEL;
    this.#reportText.id = label.htmlFor;
    this.#reportText.rows = 8;
    const intro = document.createElement("p");
    const address = document.body.dataset["corrections"] ?? "";
    intro.textContent = address ? words.REPORT_INTRO : words.REPORT_INTRO_NOWHERE;
    const button = document.createElement("button");
    button.type = "button";
    button.className = "wa-action";
    button.textContent = words.COPY_REPORT;
    const reportStatus = status();
    button.addEventListener("click", () => void this.#copy(this.#reportText.value, words.COPIED_REPORT, reportStatus));
    box.append(intro, label, this.#reportText);
    if (address) box.append(this.#sending(address));
    box.append(button, reportStatus);
    this.doubt.after(box);
    return box;
  }

  /** A link to the programme's address for corrections; an e-mail comes filled in. */
  #sending(address: string): HTMLElement {
    const link = document.createElement("a");
    link.className = "wa-action";
    link.textContent = words.SEND_REPORT;
    link.addEventListener("click", () => (link.href = sendTo(address, this.#reportText.value)));
    link.href = sendTo(address, "");
    if (!link.href.startsWith("mailto:")) link.target = "_blank";
    link.rel = "noopener";
    return link;
  }

  #toggleReport(toggle: HTMLButtonElement): Promise<void> {
    this.#report.hidden = !this.#report.hidden;
    toggle.setAttribute("aria-expanded", String(!this.#report.hidden));
    if (!this.#report.hidden) this.#reportText.value = renewed(this.#reportText.value, report(this.shown(), this.link()));
    return Promise.resolve();
  }

  #close(): void {
    this.#report.hidden = true;
    for (const button of this.#buttons) if (button.ariaExpanded) button.ariaExpanded = "false";
  }
}

/** A report of the result shown now, with what its reader has already written on top of the last one. */
function renewed(before: string, now: string): string {
  const filledIn = (text: string): number => text.indexOf(document.title);
  return filledIn(before) < 0 ? now : before.slice(0, filledIn(before)) + now.slice(filledIn(now));
}

/** Where a report goes: an e-mail with it, or a page that takes it by the name of `text`. */
function sendTo(address: string, text: string): string {
  const title = document.querySelector("h1")?.textContent?.trim() ?? document.title;
  const query = (parts: Record<string, string>): string =>
    Object.entries(parts).map(([key, value]) => `${key}=${encodeURIComponent(value)}`).join("&");
  if (!/^https?:/.test(address)) {
    return `mailto:${address.replace(/^mailto:/, "")}?${query({ subject: words.REPORT_SUBJECT(title), body: text })}`;
  }
  return `${address}${address.includes("?") ? "&" : "?"}${query({ page: title, text })}`;
}

/** A line that a screen reader hears when it changes. */
function status(): HTMLElement {
  const line = document.createElement("span");
  line.className = "wa-told";
  line.setAttribute("role", "status");
  return line;
}

function report(shown: Shown, address: string): string {
  const inputs = Object.entries(shown.inputs).map(([key, value]) => `  ${key} = ${value}`);
  return [
    words.REPORT_ASK,
    "",
    "",
    document.title,
    address,
    `${shown.name}, version ${shown.version}, result ${shown.digest}`,
    ...(inputs.length ? ["Given:", ...inputs] : ["Nothing given: all values are assumed."]),
    "",
    shown.text,
    "",
  ].join("\n");
}
