// fold_rules.ts: which folds are closed until the reader opens them. Knows kinds and widths; changes nothing.

/** A phone held upright, as in the style sheets. */
export const NARROW = "(max-width: 44.9em)";
/** Below this the form stands behind its button; above it, beside the result. */
const BESIDE = "(min-width: 75em)";

/** No part of a page is more taps away than this: a fold inside so many closed ones begins open. */
const MOST_TAPS = 2;

/** The kinds of fold that are closed on every screen, since few readers look for them. */
const ALWAYS = new Set(["note", "table", "assumed", "sources", "history", "more", "presenter", "deeper"]);

/** Whether a fold begins closed on this screen. In the HTML every one is open. */
export function folded(fold: HTMLElement): boolean {
  const kind = fold.dataset["fold"];
  if (kind === undefined || depth(fold) >= MOST_TAPS) return false;
  // Of a calculator that is itself folded away, the form opens with it.
  if (kind === "asks") return !matchMedia(BESIDE).matches && fold.closest(".wa-further-fold") === null;
  return ALWAYS.has(kind) || matchMedia(NARROW).matches;
}

/** How many closed folds stand around this one. */
function depth(fold: HTMLElement): number {
  let count = 0;
  for (let up = fold.parentElement?.closest("details"); up; up = up.parentElement?.closest("details")) {
    if (!up.open) count++;
  }
  return count;
}
