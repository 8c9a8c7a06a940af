// folds.ts: parts that the reader folds open and closed: they stay so while results change, and a link into one opens it.
import { folded } from "./fold_rules";

/** What may differ in a title of one and the same fold. */
export const NUMBER = /\d[\d.]*/g;

/**
 * In markup that is about to come into the page: a fold that stood in `standing` stays as the reader has it, whatever
 * has come before or gone; of the others what begins closed here is closed.
 */
export function foldFresh(markup: ParentNode, ...standing: ParentNode[]): void {
  const before = new Map(standing.flatMap(foldsOf).map((fold) => [meaning(fold), fold.open]));
  for (const fold of foldsOf(markup)) fold.open = before.get(meaning(fold)) ?? !folded(fold);
}

const foldsOf = (part: ParentNode): HTMLDetailsElement[] => [...part.querySelectorAll<HTMLDetailsElement>("details[data-fold]")];

/** By what one knows a fold again in another result: its step or its title, in which only the numbers are others. */
function meaning(fold: HTMLDetailsElement): string {
  const step = fold.closest<HTMLElement>("[data-step]")?.dataset["step"];
  return [fold.dataset["fold"], step ?? fold.firstElementChild?.textContent?.replace(NUMBER, "")].join();
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

/** A link into a fold opens it, also where the address says so already. */
export function openByLinks(): void {
  document.addEventListener("click", ({ target }) => {
    const link = target instanceof Element ? target.closest<HTMLAnchorElement>('a[href^="#"]') : null;
    if (link) openAround(link.hash);
  });
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
