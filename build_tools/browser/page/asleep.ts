// asleep.ts: says what a calculator cannot do whose script did not come or does not run. Knows markup; knows no calculator.

const LINKED =
  "This link carries numbers of its own, but the script that works them out did not arrive or does not run in this browser. " +
  "What stands here is the page's own example. Load the page again, or try another browser.";

/** Show a calculator's example as an example. If a link brought other numbers, say that they were not worked out. */
export function asleep(section: Element): void {
  const waited = section.classList.contains("wa-waiting");
  section.classList.remove("wa-waiting");
  const note = section.querySelector(".wa-link-note");
  if (waited && note && !note.textContent) note.textContent = LINKED;
}
