// fold_rules.ts: which folds are closed until the reader opens them. Knows kinds and widths; changes nothing.

/** A phone held upright, as in the style sheets. */
export const NARROW = "(max-width: 44.9em)";
/** Below this the form stands behind its button; above it, beside the result. */
const BESIDE = "(min-width: 75em)";

/** What few look for stands closed on every screen. */
const ALWAYS = new Set(["note", "table", "assumed", "sources", "history", "more", "presenter", "deeper"]);

/** Whether a fold begins closed on this screen. In the HTML every one is open. */
export function folded(fold: HTMLElement): boolean {
  const kind = fold.dataset["fold"];
  if (kind === undefined) return false;
  if (kind === "asks") return !matchMedia(BESIDE).matches;
  return ALWAYS.has(kind) || matchMedia(NARROW).matches;
}
