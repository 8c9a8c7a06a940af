// home.ts: puts the finder's box before a list of all questions, on the home page and where an address leads nowhere.
import { FinderBox } from "./box";
import * as words from "./words";

const PHONE = "(max-width: 44.9em)";

/** Wake the finder of a page that has a place for it. Twice does no harm. */
export function wakeHome(root: ParentNode): void {
  const place = root.querySelector<HTMLElement>(".wa-find-here");
  if (!place || place.firstElementChild) return;
  const box = new FinderBox(true);
  place.append(box.element);
  // A phone's keyboard takes the lower half: what is found then stands in the upper one.
  box.field.addEventListener("focus", () => {
    if (matchMedia(PHONE).matches) box.element.scrollIntoView({ block: "start" });
  });
  if (document.querySelector(".wa-lost")) {
    box.field.value = wordsOfAddress(location.pathname);
    if (box.field.value) void box.look(words.LOST);
  }
}

/** The last part of an address, as words: '/answers/memory/how-much-ram.html' asks for 'how much ram'. */
export function wordsOfAddress(path: string): string {
  const last = path.split("/").filter(Boolean).pop() ?? "";
  const name = last.replace(/\.\w+$/, "");
  let plain = name;
  try {
    plain = decodeURIComponent(name);
  } catch {
    // not an address as browsers write it; as it stands, then
  }
  const typed = plain.replace(/[^\p{L}\p{N}.]+/gu, " ").trim();
  return /^(?:index|404)?$/.test(typed) ? "" : typed.slice(0, 80);
}
