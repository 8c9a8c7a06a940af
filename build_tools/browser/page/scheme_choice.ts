// scheme_choice.ts: light or dark: what the reader chose, else what the system has. Knows one word in the browser's store.

const KEY = "worked-answers-scheme";
export const LIGHT = "light";
export const DARK = "dark";

/** The scheme to show; the store may be closed to us (a strict browser, a folder), and then the system decides. */
export function storedScheme(): string {
  try {
    const stored = localStorage.getItem(KEY);
    if (stored === LIGHT || stored === DARK) return stored;
  } catch {
    // no store
  }
  return matchMedia("(prefers-color-scheme: dark)").matches ? DARK : LIGHT;
}

export function keepScheme(scheme: string): void {
  try {
    localStorage.setItem(KEY, scheme);
  } catch {
    // then it holds for this page
  }
}
