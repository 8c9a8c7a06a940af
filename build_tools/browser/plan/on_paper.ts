// on_paper.ts: the plan on paper: boxes to tick, lines to write on, one or two pages. Knows the plan's markup and its link.
// What comes only if the first plan failed is printed short: its headings, its steps and their commands.
import { headingOf, isDeeper } from "./parts";
import * as words from "./words";
import { qr } from "../shared/qr";
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
  const commands = [...step.querySelectorAll(".wa-command")].map(({ textContent }) => textContent);
  // What can go wrong stands before what does it; in the paragraph of the first words, since paper is short.
  const careful = again || (short && !commands.length) ? "" : partOf(step, words.CAREFUL);
  let before = careful ? element("p", "") : undefined;
  before?.append(element("i", "", `${words.CAREFUL} `), `${careful} `);
  if (before) made.append(before);
  const inside = ":scope > p:not(.wa-step-title), :scope > .wa-step-fold > p"; // the later steps' words stand in a fold
  for (const line of step.querySelectorAll(inside)) {
    const isConsole = line.textContent?.startsWith(words.SAFE_CONSOLE);
    if ((short || again) && !isConsole) continue;
    if (before && !isConsole) before.append(line.textContent ?? "");
    else made.append(element("p", "", line.textContent));
    before = undefined;
  }
  if (again) return made;
  for (const command of commands) made.append(element("code", "", command));
  if (short) return made;
  const paragraph = element("p", ""); // all of it in one paragraph: paper is short
  for (const label of words.AFTERWARDS) {
    const sentence = partOf(step, label);
    if (!sentence || sentence.startsWith(words.NOTHING_TO_SAY)) continue;
    paragraph.append(element("i", "", `${label} `), `${sentence} `);
  }
  made.append(paragraph);
  return made;
}

/** What a step says below one of its labels; empty where it has none. */
function partOf(step: Element, label: string): string {
  for (const part of step.querySelectorAll(".wa-step-parts > div")) {
    if (`${part.querySelector("dt")?.textContent}:` === label) return part.querySelector("dd")?.textContent ?? "";
  }
  return "";
}

function text(from: Element | null, selector: string): string {
  return from?.querySelector(selector)?.textContent ?? "";
}

function element(name: string, kind: string, text: string | null = null): HTMLElement {
  const made = document.createElement(name);
  if (kind) made.className = kind;
  if (text !== null) made.textContent = text;
  return made;
}
