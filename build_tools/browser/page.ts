// page.ts: where the page's script begins: wakes the calculators of each page shown. Knows pages; knows no inputs.
import { Calculator } from "./calculator";
import { Engine } from "./engine";
import { whenIdle } from "./idle";
import * as link from "./link";
import * as words from "./words";

declare global {
  interface Window {
    document$?: { subscribe(next: (page: Document) => void): unknown };
  }
}

const HERE = document.currentScript instanceof HTMLScriptElement ? document.currentScript.src : document.baseURI;
const engine = new Engine(new URL("../engine/", HERE).href);
const awake = new WeakMap<Element, Calculator>();

/** Bring every calculator below `root` to life. May be called again: what is awake stays as it is. */
export function wake(root: ParentNode): void {
  const sections = [...root.querySelectorAll<HTMLElement>("section.wa-calculator")];
  const fresh = sections.filter((section) => !awake.has(section));
  for (const section of fresh) {
    try {
      awake.set(section, new Calculator(section, engine));
    } catch (error) {
      console.warn("A calculator on this page could not be woken:", error); // its built answer stays
    }
  }
  if (fresh.length === 0) return;
  followLink();
  whenIdle(() => void engine.start().catch(() => undefined));
}

/** Hand the inputs in the page's address to the first calculator of that name. */
function followLink(): void {
  const carried = link.read(location.hash);
  if (!carried) return;
  const sections = [...document.querySelectorAll<HTMLElement>("section.wa-calculator")];
  const section = sections.find((each) => each.dataset["calculator"] === carried.name);
  if (section) {
    awake.get(section)?.restore(carried);
  } else {
    const state = document.querySelector(".wa-calculator .wa-state");
    if (state) state.textContent = words.LINK_WRONG_CALCULATOR(carried.name);
  }
}

window.addEventListener("hashchange", followLink);
if (window.document$) window.document$.subscribe(() => wake(document));
else if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", () => wake(document));
else wake(document);
