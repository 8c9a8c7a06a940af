// paste.ts: the place in a calculator's own form where one pastes what a system prints. Fetched once such a place is opened.
// What was pasted stands in no field: it is held here until it was read, and what was read is shown before it is used.
import type { Field } from "./reader";
import { Reader } from "./reader";
import * as words from "./words";

const HERE = document.currentScript instanceof HTMLScriptElement ? document.currentScript.src : document.baseURI;
const ROOT = new URL("../../", HERE).href;
const PAUSE_MS = 400;
const SLOWLY_MS = 1500;
const UNSURE = ["unsure", "unknown"]; // as calculators call it among the options of a choice
let reader: Reader | undefined; // one for all forms of the page, and of the pages after it

function wake(place: HTMLElement): void {
  if (place.dataset["awake"]) return;
  place.dataset["awake"] = "";
  const section = place.closest<HTMLElement>("section.wa-calculator");
  const box = place.querySelector("textarea");
  const status = place.querySelector<HTMLElement>(".wa-paste-told");
  const shown = place.querySelector<HTMLElement>(".wa-paste-read");
  if (!section || !box || !status || !shown) return;
  section.addEventListener("input", notice);
  let turn = 0;
  let timer = 0;
  const tell = (sentence: string): void => void (status.textContent = sentence);

  async function read(text: string): Promise<void> {
    const mine = ++turn;
    shown?.replaceChildren();
    if (!text.trim()) return tell("");
    reader ??= new Reader(ROOT);
    const known = reader;
    tell(words.READING_LISTING);
    const slowly = setInterval(() => {
      if (mine === turn && !known.ready) tell(words.READING_SLOWLY(known.progress.come, known.progress.all));
    }, SLOWLY_MS);
    try {
      const reply = await known.form(section?.dataset["calculator"] ?? "", text);
      if (mine !== turn || !reply) return;
      tell(reply.refused ?? reply.fault ?? (reply.read?.length ? words.PASTED(reply.pasted ?? words.A_LABEL) : words.NO_LISTING));
      if (reply.read?.length) shown?.append(...labels(section as HTMLElement, reply.read, tell));
    } catch (trouble) {
      console.warn("What was pasted could not be read:", trouble);
      if (mine === turn) tell(words.NO_READER_HERE);
    } finally {
      clearInterval(slowly);
    }
  }

  box.addEventListener("paste", (event) => {
    const text = event.clipboardData?.getData("text/plain") ?? "";
    if (!text.includes("\n")) return; // a label's line may stand there
    event.preventDefault();
    clearTimeout(timer);
    void read(text);
  });
  box.addEventListener("input", () => {
    clearTimeout(timer);
    timer = window.setTimeout(() => void read(box.value), PAUSE_MS);
  });
}

/** What was read, each as a label that can be thrown out, and the one press that puts the rest into the form. */
function labels(section: HTMLElement, read: Field[], tell: (sentence: string) => void): Node[] {
  const list = document.createElement("ul");
  const left = new Map(read.map((field) => [field.key, field]));
  for (const field of read) {
    const item = document.createElement("li");
    const out = document.createElement("button");
    out.type = "button";
    out.textContent = "×";
    out.setAttribute("aria-label", words.THROW_OUT(name(field)));
    out.addEventListener("click", () => {
      left.delete(field.key);
      item.remove();
    });
    item.append(`${name(field)}: ${field.said ?? ""} `, out);
    list.append(item);
  }
  const use = document.createElement("button");
  use.type = "button";
  use.className = "wa-paste-use";
  use.textContent = words.PUT_IN;
  use.addEventListener("click", () => {
    put(section, [...left.values()]);
    tell(words.PUT_IN_DONE(left.size));
    list.remove();
    use.remove();
  });
  return [list, use];
}

function name(field: Field): string {
  return field.group ? `${field.group}: ${field.label.toLowerCase()}` : field.label;
}

/**
 * Put what was read into the form. Nothing of the example may pass for the reader's own: a field that was not read, and
 * that nobody has typed in, says 'not sure' where it can, is empty where it may be, or is marked as assumed.
 */
function put(section: HTMLElement, fields: Field[]): void {
  const boxes = new Map([...section.querySelectorAll<HTMLElement>("[data-input]")].map((box) => [box.dataset["input"] ?? "", box]));
  const values = new Map(fields.map(({ key, value }) => [key, value ?? ""]));
  for (const [key, box] of boxes) {
    const control = box.querySelector<HTMLInputElement | HTMLSelectElement>("input, select");
    if (!control || (!values.has(key) && "typed" in box.dataset)) continue;
    const value = values.get(key) ?? notGiven(box, control);
    mark(box, !values.has(key) && value !== "" && !UNSURE.includes(value) && !box.querySelector(".wa-unsure"));
    if (control.value === value) continue;
    control.value = value;
    control.dispatchEvent(new Event("input", { bubbles: true }));
  }
}

/** What stands in a field that nobody told: 'not sure' if it offers that, else what is assumed. */
function notGiven(box: HTMLElement, control: HTMLInputElement | HTMLSelectElement): string {
  const unsure = control instanceof HTMLSelectElement ? [...control.options].find(({ value }) => UNSURE.includes(value)) : undefined;
  return unsure?.value ?? box.querySelector<HTMLElement>(".wa-unsure")?.dataset["value"] ?? box.dataset["default"] ?? "";
}

function mark(box: HTMLElement, assumed: boolean): void {
  box.querySelector(".wa-not-told")?.remove();
  if (!assumed) return;
  const note = document.createElement("span");
  note.className = "wa-not-told";
  note.textContent = words.NOT_TOLD;
  box.querySelector("label")?.append(" ", note);
}

/** Somebody's own typing is never replaced by what is assumed, and is marked no longer. */
function notice(event: Event): void {
  const box = event.isTrusted && event.target instanceof Element ? event.target.closest<HTMLElement>("[data-input]") : null;
  if (!box) return;
  box.dataset["typed"] = "";
  mark(box, false);
}

function wakeAll(): void {
  for (const place of document.querySelectorAll<HTMLElement>(".wa-paste")) wake(place);
}

const style = document.createElement("link");
Object.assign(style, { rel: "stylesheet", href: new URL("asking.css", HERE).href });
document.head.append(style);
wakeAll();
document.addEventListener("toggle", ({ target }) => target instanceof HTMLElement && target.matches(".wa-paste") && wake(target), true);
