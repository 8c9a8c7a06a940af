// parts.ts: which steps of a plan come first, and which only if those failed. Knows the plan's markup alone.

/** The heading above a list of steps, '' where there is none. */
export function headingOf(list: Element): string {
  const before = list.previousElementSibling;
  return before?.matches(".wa-steps-group") ? (before.textContent ?? "") : "";
}

/** Whether these steps come only if the first plan did not work. */
export function isDeeper(list: Element): boolean {
  return list.hasAttribute("data-deeper");
}
