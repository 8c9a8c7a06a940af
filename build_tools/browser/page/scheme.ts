// scheme.ts: the buttons that switch between light and dark, in the header and the footer. Knows those buttons.
import { DARK, keepScheme, LIGHT } from "./scheme_choice";
import * as words from "../shared/words";

export function wakeScheme(root: ParentNode): void {
  const page = document.documentElement;
  const buttons = [...root.querySelectorAll<HTMLButtonElement>(".wa-scheme[hidden]")];
  const show = (): void => {
    const label = page.dataset["scheme"] === DARK ? words.LIGHT : words.DARK;
    for (const button of buttons) button.textContent = label;
  };
  for (const button of buttons) {
    button.hidden = false;
    button.addEventListener("click", () => {
      const next = page.dataset["scheme"] === DARK ? LIGHT : DARK;
      page.dataset["scheme"] = next;
      keepScheme(next);
      show();
    });
  }
  show();
}
