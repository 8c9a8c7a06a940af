// page.ts: where the page's script begins: wakes the calculators of each page shown. Knows pages; knows no inputs.
import { Calculator } from "../calculator/calculator";
import { Engine } from "../engine/client";
import { wakeFinder } from "../finder/finder";
import { openAround, openByLinks, openForPrint } from "../shared/folds";
import { wakeFiles } from "../calculator/chosen_file";
import { mayFetchUnasked, whenIdle } from "../engine/idle";
import * as link from "../calculator/link";
import { recall } from "../calculator/history_entry";
import { wakeScheme } from "./scheme";
import { wakeSounds } from "../media/sounds";
import { asleep } from "./asleep";
import * as words from "../shared/words";

const HERE = document.currentScript instanceof HTMLScriptElement ? document.currentScript.src : document.baseURI;
const engine = new Engine(new URL("../engine/", HERE).href);
// A browser takes some answers to compile what works them out and puts them in place, and many to do so as well as it can:
// these are for readers who come to the form. Neither goes on for long where an answer takes long.
const [AT_FIRST, IN_ALL] = [24, 200];
const MOST_MS = 1500;
const PAUSE_MS = 400; // no keystroke for so long: the reader does not type
const awake = new WeakMap<Element, Calculator>();

/** Bring every calculator below `root` to life. May be called again: what is awake stays as it is. */
export function wake(root: ParentNode): void {
  // Where a link brought inputs, a phone shows the short answer's first lines; a tap on them shows all.
  root.querySelector(".wa-short-answer")?.addEventListener("click", () => document.documentElement.classList.remove("wa-linked"));
  wakeFinder(root);
  wakeScheme(root);
  const sections = [...root.querySelectorAll<HTMLElement>("section.wa-calculator")];
  const fresh = sections.filter((section) => !awake.has(section));
  if (document.querySelector(".wa-plan-tools")) bring("plan"); // one that is ticked off
  if (document.querySelector(".wa-picture")) bring("pictures");
  if (document.querySelector(".wa-moving")) bring("moving_text");
  if (document.querySelector(".wa-said-search")) bring("said_search");
  for (const section of fresh) {
    try {
      awake.set(section, new Calculator(section, engine));
      wakeSounds();
      wakeFiles(section);
      for (const place of section.querySelectorAll<HTMLElement>(".wa-paste")) {
        place.hidden = false;
        place.addEventListener("toggle", () => bring("paste"));
      }
    } catch (error) {
      console.warn("A calculator on this page could not be woken:", error); // its built answer stays
      asleep(section);
    }
  }
  if (fresh.length === 0) return;
  takeUp();
}

let typed = -Infinity; // when, on the page's clock
document.addEventListener("input", () => (typed = performance.now()), true);

/** Have answers worked out that nobody sees, one after the other, never while the reader types: a question waits for one at most. */
async function rehearse(section: Element, from: number, to: number): Promise<void> {
  const wait = (ms: number): Promise<void> => new Promise((wake) => setTimeout(wake, ms));
  for (let turn = from, took = 0; turn < to && took < MOST_MS; turn++) {
    await engine.start(); // where that fails, nothing is to be waited for
    while (engine.busy || performance.now() - typed < PAUSE_MS) {
      await wait(PAUSE_MS);
      await engine.start();
    }
    const start = performance.now();
    await awake.get(section)?.rehearse(turn);
    if (turn > from) took += performance.now() - start; // the first may have waited for files
  }
}

const come = new WeakSet<Element>();
for (const kind of ["focusin", "input"]) {
  document.addEventListener(kind, ({ target }) => {
    const section = target instanceof Element && target.closest(".wa-form")?.closest("section.wa-calculator");
    if (!section || come.has(section)) return;
    come.add(section);
    rehearse(section, AT_FIRST, IN_ALL).catch(() => come.delete(section)); // told where an answer is awaited
  });
}

/** The engine first, so that it is there when a form is touched; then the whole site, for reading offline. */
async function prepare(): Promise<void> {
  if (mayFetchUnasked()) await warmUp().catch(() => undefined);
  if (location.protocol.startsWith("http")) bring("keep_offline"); // a folder is offline already
}

async function warmUp(): Promise<void> {
  const section = document.querySelector("section.wa-calculator");
  if (!section) return;
  await rehearse(section, 0, AT_FIRST);
}

/** Fetch a script that only some pages need, once. */
function bring(name: string): void {
  const address = new URL(`${name}.js`, HERE).href;
  if ([...document.scripts].some(({ src }) => src === address)) return;
  const script = document.createElement("script");
  script.src = address;
  document.head.append(script);
}

/** On the way back to a page its last inputs count; otherwise those in its address. */
function takeUp(): void {
  let resumed = false;
  for (const section of document.querySelectorAll<HTMLElement>("section.wa-calculator")) {
    const inputs = recall(section.dataset["prefix"] ?? "");
    if (!inputs) continue;
    awake.get(section)?.resume(inputs);
    resumed = true;
  }
  if (!resumed) followLink();
}

/** Hand the inputs in the page's address to the first calculator of that name. */
function followLink(): void {
  const carried = link.read(location.hash);
  if (!carried) return openAround(location.hash);
  const sections = [...document.querySelectorAll<HTMLElement>("section.wa-calculator")];
  const section = sections.find((each) => each.dataset["calculator"] === carried.name);
  if (section) {
    awake.get(section)?.restore(carried);
  } else {
    const first = sections.map((each) => awake.get(each)).find(Boolean);
    first?.tellOfLink(words.LINK_WRONG_CALCULATOR(carried.name));
  }
}

window.addEventListener("hashchange", takeUp);
document.documentElement.classList.add("wa-awake");
if (document.querySelector("footer")) document.querySelector(".wa-cut-off")?.remove(); // all has come after all
openByLinks();
openForPrint();
// The script runs as soon as the page has been read.
if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", () => wake(document));
else wake(document);
whenIdle(() => void prepare());
