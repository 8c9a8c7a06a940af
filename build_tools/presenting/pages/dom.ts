// dom.ts: makes and finds elements of these pages, and handles their keys. Knows HTML; knows no page.

/** An element that the page's own HTML has. */
export function byId<T extends HTMLElement = HTMLElement>(id: string): T {
  const place = document.getElementById(id);
  if (!place) throw new Error(`this page has no #${id}`);
  return place as T;
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

/** What this browser keeps under a name; '' where it keeps nothing. */
export function stored(name: string, store: () => Storage = () => localStorage): string {
  try {
    return store().getItem(name) ?? "";
  } catch {
    return "";
  }
}

/** Keep something under a name. Where the browser keeps nothing, it lasts as long as the page. */
export function keep(name: string, value: string, store: () => Storage = () => localStorage): void {
  try {
    store().setItem(name, value);
  } catch {
    // forbidden or full
  }
}

/** Whether somebody is typing, so that a key is a letter and no command. In a tick box only the space bar types. */
function types(event: KeyboardEvent): boolean {
  const at = event.target;
  if (event.ctrlKey || event.metaKey || event.altKey) return true;
  if (at instanceof HTMLInputElement && at.type === "checkbox") return event.key === " ";
  return at instanceof Element && at.closest("input, select, textarea") !== null;
}

/** A list from which the mouse has chosen gives its keys back, so that the next key is one of the page's again. */
function letGo({ target }: Event): void {
  if (target instanceof HTMLSelectElement && !target.matches(":focus-visible")) target.blur();
}

/** Build what a place holds anew. The field in which somebody is keeps them, with what was typed and not yet sent. */
export function rebuilt(place: HTMLElement, build: () => void): void {
  const fields = (): HTMLElement[] => [...place.querySelectorAll<HTMLElement>("[data-field]")];
  const held = fields().find((field) => field === document.activeElement);
  const typed = held instanceof HTMLInputElement && held.value !== held.defaultValue ? held.value : undefined;
  build();
  const again = held && fields().find((field) => field.dataset["field"] === held.dataset["field"]);
  if (!again) return;
  again.focus({ preventScroll: true });
  if (again instanceof HTMLTextAreaElement && held instanceof HTMLTextAreaElement) {
    again.setSelectionRange(held.selectionStart, held.selectionEnd);
  }
  if (!(again instanceof HTMLInputElement)) return;
  if (typed === undefined) again.select();
  else again.value = typed;
}

/** Bind keys to actions, letters by their small form. An action that returns `false` leaves the key to the browser. */
export function onKeys(acts: Record<string, () => unknown>): void {
  document.addEventListener("change", letGo);
  document.addEventListener("keydown", (event) => {
    const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
    const act = Object.hasOwn(acts, key) ? acts[key] : undefined;
    if (!act || types(event) || (event.key === " " && event.target instanceof HTMLButtonElement)) return;
    if (act() !== false) event.preventDefault();
  });
}
