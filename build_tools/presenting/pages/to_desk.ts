// to_desk.ts: while serving only, in the site's own pages: hands a result to the desk, or straight into an episode's
// sheet. Knows a result's link and where results stand; knows no desk. Never part of the built site.
import * as link from "../../browser/calculator/link";
import { keep, stored } from "./dom";
import { open, type Question } from "./into_sheet";
import * as words from "./words";

const STYLE = "/on-air/into-sheet.css";
const ofThisTab = (): Storage => sessionStorage;
const ASKED = "asked-in-own-words"; // in this tab alone: a viewer's words, on the way from the box to the answer's page

/** What stands in a calculator of this page; private inputs are in no link. */
function ofSection(section: HTMLElement): Question {
  const carried = link.read(section.dataset["link"] ?? "");
  const heading = document.querySelector("h1")?.firstChild?.textContent?.trim() ?? "";
  const asked = document.querySelector(".wa-viewers-words")?.textContent?.trim();
  return {
    calculator: section.dataset["calculator"] ?? "",
    inputs: carried?.inputs ?? {},
    question: asked || typedFor(pageOf(location.pathname)) || heading,
    answer: pageOf(location.pathname),
    headline: section.querySelector(".wa-headline")?.textContent?.trim() ?? "",
  };
}

/** What the box for whole questions has worked out, by the link that it leads on with. */
function ofLink(anchor: HTMLAnchorElement, typed: string): Question | undefined {
  const carried = link.read(anchor.hash);
  if (!carried) return undefined;
  const headline = anchor.closest(".wa-asked")?.querySelector(".wa-asked-headline")?.textContent?.trim() ?? "";
  return { calculator: carried.name, inputs: carried.inputs, question: typed, answer: pageOf(anchor.pathname), headline };
}

const pageOf = (path: string): string => /^\/answers\/(.+)\.html$/.exec(decodeURI(path))?.[1] ?? "";

function typedFor(page: string): string {
  const [of, typed] = stored(ASKED, ofThisTab).split("\n", 2);
  return of === page && typed ? typed : "";
}

function address(of: Question): string {
  const { calculator, inputs, question, answer } = of;
  return `/on-air/desk#${new URLSearchParams({ calculator, inputs: JSON.stringify(inputs), question, answer })}`;
}

function buttons(of: () => Question | undefined): HTMLButtonElement[] {
  const made = (label: string, act: (question: Question) => void): HTMLButtonElement => {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "wa-action";
    button.textContent = label;
    button.addEventListener("click", () => {
      const question = of();
      if (question) act(question);
    });
    return button;
  };
  return [
    made(words.TO_DESK, (question) => void window.open(address(question), "desk")),
    made(words.INTO_EPISODE, (question) => void open(question)),
  ];
}

/** Nothing is handed on while the result that stands there is not the one of the link, or of the form. */
function follow(section: HTMLElement, row: HTMLButtonElement[]): void {
  const look = (): void => {
    const held = section.matches(".wa-waiting, .wa-stale");
    for (const button of row) [button.disabled, button.title] = [held, held ? words.NOT_THE_RESULT : ""];
  };
  new MutationObserver(look).observe(section, { attributes: true, attributeFilter: ["class"] });
  look();
}

/** The box shows each result anew: its buttons are put there as often. */
function wakeAsked(): void {
  for (const anchor of document.querySelectorAll<HTMLAnchorElement>(".wa-asked-go a")) {
    const place = anchor.parentElement?.parentElement;
    if (!place || place.querySelector(".wa-to-presenter")) continue;
    const typed = (): string => {
      const field = anchor.closest(".wa-find")?.querySelector<HTMLInputElement | HTMLTextAreaElement>("textarea, input");
      return (field?.value ?? "").split(/\s+/).join(" ").trim();
    };
    anchor.addEventListener("click", () => keep(ASKED, `${pageOf(anchor.pathname)}\n${typed()}`, ofThisTab));
    const row = document.createElement("p");
    row.className = "wa-to-presenter";
    row.append(...buttons(() => ofLink(anchor, typed())));
    place.append(row);
  }
}

function wake(): void {
  const sections = document.querySelectorAll<HTMLElement>("section.wa-calculator");
  for (const section of sections) {
    const row = buttons(() => ofSection(section));
    section.querySelector(".wa-actions")?.append(...row);
    follow(section, row);
  }
  const page = document.querySelector("main");
  if (page) new MutationObserver(wakeAsked).observe(page, { childList: true, subtree: true });
  const style = document.createElement("link");
  Object.assign(style, { rel: "stylesheet", href: STYLE });
  document.head.append(style);
}

// The page's own script fills the row of buttons first.
if (document.readyState === "complete") wake();
else window.addEventListener("load", wake, { once: true });
