// finder.ts: fetches the finder where a page has a place for it, or when the header's link asks for it. Knows no search.
import { bring } from "../shared/load_script";
import { mayFetchUnasked, whenIdle } from "../engine/idle";

declare global {
  interface Window {
    workedAnswersFinder?: { open: () => void };
  }
}

const HERE = document.currentScript instanceof HTMLScriptElement ? document.currentScript.src : document.baseURI;
const fetched = (): Promise<void> => bring(new URL("finder.js", HERE).href);

/** Wake a page's own box, and the header's link; without its script the link leads to all questions. */
export function wakeFinder(root: ParentNode): void {
  if (root.querySelector(".wa-find-here:empty")) fetched().catch(() => undefined); // the list below it stays
  // Elsewhere in an idle moment: what is typed just after the link was pressed would else be lost.
  else whenIdle(() => void (mayFetchUnasked() && fetched().catch(() => undefined)));
  for (const opener of root.querySelectorAll<HTMLAnchorElement>(".wa-find-open:not([role])")) {
    opener.setAttribute("role", "button");
    opener.setAttribute("aria-haspopup", "dialog");
    for (const near of ["pointerdown", "focus"]) {
      opener.addEventListener(near, () => void fetched().catch(() => undefined), { passive: true });
    }
    opener.addEventListener("click", (event) => {
      if (event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      fetched().then(
        () => window.workedAnswersFinder?.open(),
        () => location.assign(opener.href),
      );
    });
    opener.addEventListener("keydown", (event) => {
      if (event.key !== " ") return;
      event.preventDefault();
      opener.click();
    });
  }
}
