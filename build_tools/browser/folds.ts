// folds.ts: whether the working is folded open: on a phone not until the reader opens it. Knows no inputs.

const NARROW = "(max-width: 44.9em)"; // as in form.css: a phone held upright

const working = (result: ParentNode): HTMLDetailsElement | null => result.querySelector("details.wa-working-fold");

/** At first: the working is long, and on a phone few ask for it. */
export function foldOnPhone(result: ParentNode): void {
  const fold = working(result);
  if (fold && matchMedia(NARROW).matches) fold.open = false;
}

/** Change the result, and leave its working folded as the reader has it. */
export function keepingFold(result: ParentNode, change: () => void): void {
  const before = working(result)?.open;
  change();
  const fold = working(result);
  if (!fold) return;
  if (before === undefined) foldOnPhone(result);
  else fold.open = before;
}
