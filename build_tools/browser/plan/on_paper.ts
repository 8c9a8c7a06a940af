// on_paper.ts: the plan on paper: boxes to tick, lines to write on, one or two pages. Knows the plan's markup and its link.
// What comes only if the first plan failed is printed short: its headings, its steps and their commands.
import { headingOf, isDeeper } from "./parts";
import * as words from "./words";
import { qr } from "../page/qr";
import { leadsHere } from "../screen/address";

const CODE_LIMIT = 2000; // characters: about what a code of two by two inches still shows a phone

/** Lay the plan out on a sheet of its own, print that sheet alone, and take it away again. */
export function print(section: HTMLElement, address: string): void {
  const sheet = make(section, address);
  const page = document.documentElement;
  document.body.append(sheet);
  page.classList.add("wa-printing-plan");
  const clear = (): void => {
    page.classList.remove("wa-printing-plan");
    sheet.remove();
  };
  window.addEventListener("afterprint", clear, { once: true });
  window.print();
}

function make(section: HTMLElement, address: string): HTMLElement {
  const [first, rest] = [section.querySelector(".wa-result"), section.querySelector(".wa-details")];
  const sheet = element("div", "wa-sheet");
  const head = element("header", "wa-sheet-head");
  if (address.length < CODE_LIMIT && !leadsHere(address)) head.append(qr(address, words.QR_LABEL));
  head.append(
    element("h1", "", document.querySelector("h1")?.firstChild?.textContent ?? document.title),
    element("p", "wa-sheet-headline", text(first, ".wa-headline")),
    element("p", "", text(first, ".wa-verdict")),
    element("p", "wa-sheet-address", address),
  );
  sheet.append(head, cautions(rest), notes(rest), steps(rest));
  return sheet;
}

function cautions(result: Element | null): HTMLElement {
  const list = element("ul", "wa-sheet-cautions");
  for (const each of result?.querySelectorAll(".wa-cautions li") ?? []) list.append(element("li", "", each.textContent));
  return list;
}

/** A line to write on for each thing that some step asks to note. */
function notes(result: Element | null): HTMLElement {
  const box = element("section", "wa-sheet-notes");
  const asked = new Set<string>();
  for (const step of result?.querySelectorAll<HTMLElement>(".wa-step") ?? []) {
    for (const tag of (step.dataset["tags"] ?? "").split(" ")) if (tag.startsWith("notes:")) asked.add(tag.slice(6));
  }
  const lines = Object.entries(words.NOTES).flatMap(([thing, labels]) => (asked.has(thing) ? labels : []));
  if (lines.length === 0) return box;
  box.append(element("h2", "", words.NOTES_TITLE));
  for (const label of lines) {
    const line = element("p", "wa-sheet-line", label);
    line.append(element("span", ""));
    box.append(line);
  }
  return box;
}

function steps(result: Element | null): HTMLElement {
  const all = element("div", "wa-sheet-steps");
  const before = new Map<string, number>(); // the numbers of the steps printed in full, by their titles
  let number = 0;
  for (const list of result?.querySelectorAll(".wa-steps") ?? []) {
    const heading = headingOf(list);
    if (heading) all.append(element("h2", "", heading));
    for (const step of list.querySelectorAll<HTMLElement>(".wa-step")) {
      const last = (step.dataset["tags"] ?? "").split(" ").includes("reports");
      const again = before.get(titleOf(step));
      all.append(one(step, ++number, isDeeper(list) && !last, again));
      if (!isDeeper(list) && !again) before.set(titleOf(step), number);
    }
  }
  return all;
}

function titleOf(step: Element): string {
  return step.querySelector(".wa-step-title")?.firstChild?.textContent?.trim() ?? "";
}

/** One step; a short one without its words, and one that stands in full above with that step's number alone. */
function one(step: Element, number: number, short: boolean, again?: number): HTMLElement {
  const ticked = step.querySelector<HTMLInputElement>(".wa-tick input")?.checked ?? false;
  const made = element("div", short ? "wa-sheet-step wa-sheet-short" : "wa-sheet-step");
  const title = `${number}. ${titleOf(step)}`;
  made.append(element("span", "wa-sheet-box", ticked ? "✓" : ""), element("b", "", title));
  if (again) made.lastElementChild?.append(` ${words.AS_STEP(again)}`);
  if (!again) {
    // what can go wrong, and the way back where it stands open on the screen too, before anything is to be done
    for (const part of step.querySelectorAll(BEFORE_DOING)) {
      if (!short || read(part).label === words.CAREFUL) made.append(partOf(part));
    }
  }
  const inside = ":scope > p:not(.wa-step-title), :scope > .wa-step-fold > p"; // the later steps' words stand in a fold
  for (const line of step.querySelectorAll(inside)) {
    if (!(short || again) || line.textContent?.startsWith(words.SAFE_CONSOLE)) made.append(element("p", "", line.textContent));
  }
  if (again) return made;
  for (const command of step.querySelectorAll(".wa-command")) made.append(element("code", "", command.textContent));
  if (short) return made;
  const said = element("p", ""); // all of it in one paragraph: paper is short
  for (const part of step.querySelectorAll(".wa-step-parts > div")) {
    if (part.matches(BEFORE_DOING)) continue;
    const { label, sentence } = read(part);
    if (!words.ON_PAPER.includes(label) || sentence.startsWith(words.NOTHING_TO_SAY)) continue;
    said.append(element("i", "", `${label} `), `${sentence} `);
  }
  made.append(said);
  return made;
}

// The parts that stand before what is to be done; those behind it come after a paragraph or a command.
const BEFORE_DOING =
  ":is(.wa-step-title, summary) + .wa-step-parts > div, .wa-step > .wa-step-parts:first-child > div";

function read(part: Element): { label: string; sentence: string } {
  return { label: `${part.querySelector("dt")?.textContent ?? ""}:`, sentence: part.querySelector("dd")?.textContent ?? "" };
}

function partOf(part: Element): HTMLElement {
  const { label, sentence } = read(part);
  const line = element("p", "wa-sheet-before");
  line.append(element("i", "", `${label} `), sentence);
  return line;
}

function text(from: Element | null, selector: string): string {
  return from?.querySelector(selector)?.textContent ?? "";
}

function element(name: string, kind: string, said: string | null = null): HTMLElement {
  const made = document.createElement(name);
  if (kind) made.className = kind;
  if (said !== null) made.textContent = said;
  return made;
}
