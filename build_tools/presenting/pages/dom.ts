// dom.ts: makes and finds elements of these pages, and handles their keys. Knows HTML; knows no page.

/** An element that the page's own HTML has. */
export function byId<T extends HTMLElement = HTMLElement>(id: string): T {
  const found = document.getElementById(id);
  if (!found) throw new Error(`this page has no #${id}`);
  return found as T;
}

export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  name = "",
  ...parts: (Node | string)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  if (name) made.className = name;
  made.append(...parts);
  return made;
}

export function button(label: string, act: () => void): HTMLButtonElement {
  const made = element("button", "", label);
  made.type = "button";
  made.addEventListener("click", act);
  return made;
}

/** Whether somebody is typing, so that a key is a letter and no command. */
function types(event: KeyboardEvent): boolean {
  const at = event.target;
  return (
    event.ctrlKey || event.metaKey || event.altKey ||
    (at instanceof Element && at.closest("input, select, textarea") !== null)
  );
}

/** Bind keys to actions, letters by their small form. An action that returns `false` leaves the key to the browser. */
export function onKeys(acts: Record<string, () => unknown>): void {
  document.addEventListener("keydown", (event) => {
    const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
    const act = Object.hasOwn(acts, key) ? acts[key] : undefined;
    if (!act || types(event) || (event.key === " " && event.target instanceof HTMLButtonElement)) return;
    if (act() !== false) event.preventDefault();
  });
}
