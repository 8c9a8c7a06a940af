// first.ts: runs while the page is still being read, before anything of it is painted: folds, light or dark, and the
// mark on a calculator whose numbers come from a link. Stands in the page itself. Knows markup; knows no calculator.
import { asleep } from "./asleep";
import { folded } from "../shared/fold_rules";
import { storedScheme } from "./scheme_choice";

const page = document.documentElement;
const LINK = /^#([a-z][a-z0-9_]*\.[a-z][a-z0-9_]*):(.*)$/s;
const linked = LINK.exec(location.hash)?.[1];
const resumed = (history.state as { workedAnswers?: Record<string, unknown> } | null)?.workedAnswers ?? {};
let ownSeen = false;
/** As fonts.css has them. */
const FACES = [
  ["WA Text", "stix-two-text-latin-wght-normal"],
  ["WA Label", "instrument-sans-latin-wght-normal"],
] as const;

page.dataset["scheme"] = storedScheme();
page.classList.add("wa-scripts");
if (linked || Object.keys(resumed).length) page.classList.add("wa-linked");

// What every page is set in is fetched at once, not when the style asks: the page is laid out once, not again with the right
// letters while its engine comes. Not by `rel=preload`: Chromium fetches such a face anew when the window's width
// changes. Without this the style's own faces come.
const root = document.currentScript?.dataset["root"];
if (root !== undefined && "FontFace" in window) {
  for (const [family, file] of FACES) {
    const face = new FontFace(family, `url("${root}made/browser/fonts/${file}.woff2")`, { weight: "400 700", display: "swap" });
    document.fonts.add(face);
    face.load().catch(() => undefined);
  }
}

function meet(part: Element): void {
  if (part instanceof HTMLDetailsElement && folded(part)) part.open = false;
  if (!part.matches("section.wa-calculator")) return;
  const own = !ownSeen && part.getAttribute("data-calculator") === linked;
  if (own) ownSeen = true;
  // Its example is not what the link is about: nothing of it is shown until the link's own numbers are there.
  if (own || (part.getAttribute("data-prefix") ?? "") in resumed) part.classList.add("wa-waiting");
}

const watch = new MutationObserver((changes) => {
  for (const { addedNodes } of changes) {
    for (const node of addedNodes) {
      if (!(node instanceof Element)) continue;
      meet(node);
      for (const part of node.querySelectorAll("details[data-fold], section.wa-calculator")) meet(part);
    }
  }
});
watch.observe(page, { childList: true, subtree: true });
document.addEventListener("DOMContentLoaded", () => watch.disconnect());

/** Where the page's script does not come, nobody waits for it: the example is shown, and called one. */
function giveUp(): void {
  if (page.classList.contains("wa-awake")) return;
  page.classList.add("wa-unawake");
  for (const section of document.querySelectorAll(".wa-waiting")) asleep(section);
}
window.addEventListener("load", () => setTimeout(giveUp, 3000));
window.addEventListener(
  "error",
  ({ target }) => {
    if (target instanceof HTMLScriptElement && target.src.endsWith("page.js")) giveUp();
  },
  true,
);
// A form that was cut off looks like one that works; where the line breaks, a browser may stop reading without a word.
setTimeout(() => document.querySelector("footer") || document.querySelector(".wa-cut-off")?.removeAttribute("hidden"), 10_000);
