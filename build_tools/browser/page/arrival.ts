// arrival.ts: says so where only a part of the page arrives: a form that was cut off looks like one that works. Knows the
// page's last part, its footer; knows no calculator.

const LOOK_EVERY_MS = 1000;
const STILL_MS = 10_000;
const STANDS_STILL = "The rest of this page has not arrived for ten seconds. If it stays like this, load the page again.";
const CUT_OFF = "Only a part of this page has arrived. Load it again.";

/** Look on while the page is being read. A browser whose connection broke off may stop reading without a word. */
export function watchArrival(): void {
  let note: HTMLElement | undefined;
  let seen = 0;
  let still = 0;
  const tell = (sentence: string): void => {
    note ??= document.createElement("p");
    note.className = "wa-cut-off";
    note.setAttribute("role", "alert");
    note.textContent = sentence;
    (document.querySelector("main") ?? document.body ?? document.documentElement).prepend(note);
  };
  const looking = setInterval(() => {
    const parts = document.getElementsByTagName("*").length;
    still = parts === seen ? still + LOOK_EVERY_MS : 0;
    seen = parts;
    if (still >= STILL_MS && !note) tell(STANDS_STILL);
  }, LOOK_EVERY_MS);
  document.addEventListener("DOMContentLoaded", () => {
    clearInterval(looking);
    note?.remove();
    if (!document.querySelector(".wa-footer")) tell(CUT_OFF);
  });
}
