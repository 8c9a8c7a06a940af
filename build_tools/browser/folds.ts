// folds.ts: parts that the reader folds open and closed: they stay so while results change, and a link into one opens it.
import { folded } from "./fold_rules";

/** In markup that is about to come into the page: close what begins closed here. Folds that stand keep their state. */
export function foldFresh(markup: ParentNode): void {
  for (const fold of markup.querySelectorAll<HTMLDetailsElement>("details[data-fold]")) {
    if (folded(fold)) fold.open = false;
  }
}

/** Open every fold around the place that an address names. */
export function openAround(fragment: string): void {
  let place: Element | null = null;
  try {
    place = document.getElementById(decodeURIComponent(fragment.slice(1)));
  } catch {
    return; // no address of ours
  }
  if (!place) return;
  const before = place.getBoundingClientRect().top;
  for (let fold = place.closest("details"); fold; fold = fold.parentElement?.closest("details") ?? null) fold.open = true;
  if (place.getBoundingClientRect().top !== before || before < 0) place.scrollIntoView();
}

/** On paper there is no fold: all are open while the page is printed, and then as they were. */
export function openForPrint(): void {
  let closed: HTMLDetailsElement[] = [];
  window.addEventListener("beforeprint", () => {
    closed = [...document.querySelectorAll<HTMLDetailsElement>("details[data-fold]:not([open])")];
    for (const fold of closed) fold.open = true;
    const address = document.querySelector<HTMLElement>(".wa-print-address");
    const section = document.querySelector<HTMLElement>("section.wa-calculator");
    if (address?.textContent && section) {
      // with the numbers that stand on the paper
      address.textContent = (address.textContent.split("#")[0] ?? "") + (section.dataset["link"] ?? "");
    }
  });
  window.addEventListener("afterprint", () => {
    for (const fold of closed) fold.open = false;
    closed = [];
  });
}
