// form.ts: reads and fills one calculator's form, and shows what is wrong beside each input. Knows fields, no engine.

type Control = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

/** What the declaration says of a field whose usual values depend on another field (`Follows` in the desk). */
interface Follows {
  key: string;
  defaults: Record<string, string>;
  keeps: Record<string, string[]>;
}

interface Field {
  key: string;
  box: HTMLElement;
  control: Control;
  error: HTMLElement | null;
  isPrivate: boolean;
  rest: string; // the input's own default as typed, '' where it has none
  follows: Follows | undefined;
}

export class Form {
  readonly fields = new Map<string, Field>();
  /** Inputs that the worked example, a link, a common case or the reader gave; the rest is assumed. */
  readonly given = new Set<string>();

  constructor(
    readonly form: HTMLFormElement,
    example: Record<string, string>,
  ) {
    for (const box of form.querySelectorAll<HTMLElement>("[data-input]")) {
      const control = box.querySelector<Control>("input, select, textarea");
      const key = box.dataset["input"];
      if (!control || !key) continue;
      const isPrivate = box.dataset["kind"] === "private" || box.hasAttribute("data-private");
      const rest = box.dataset["default"] ?? "";
      const follows = box.dataset["follows"] ? (JSON.parse(box.dataset["follows"]) as Follows) : undefined;
      this.fields.set(key, { key, box, control, error: box.querySelector(".wa-error"), isPrivate, rest, follows });
    }
    for (const key of Object.keys(example)) if (this.fields.has(key)) this.given.add(key);
  }

  /** Whether it asks for something that may not leave this page. */
  get isPrivate(): boolean {
    return [...this.fields.values()].some((field) => field.isPrivate);
  }

  enable(): void {
    for (const set of this.form.querySelectorAll("fieldset")) set.disabled = false;
  }

  /** The input that an event came from; undefined where it came from something else in the form. */
  keyOf(target: EventTarget | null): string | undefined {
    const box = target instanceof Element ? target.closest<HTMLElement>("[data-input]") : null;
    return box?.dataset["input"];
  }

  put(key: string, value: string): void {
    const field = this.fields.get(key);
    if (field) show(field.control, value);
  }

  /** Another value in this field: what belonged to the one before, in fields that follow it, gives way. */
  letFollow(key: string): void {
    const chosen = this.fields.get(key)?.control.value ?? "";
    for (const field of this.fields.values()) {
      if (field.follows?.key !== key) continue;
      const typed = field.control.value.trim().toLowerCase();
      if (this.given.has(field.key) && field.follows.keeps[chosen]?.includes(typed)) continue;
      this.given.delete(field.key);
      show(field.control, this.#rest(field));
    }
  }

  #rest(field: Field): string {
    const decides = field.follows && this.fields.get(field.follows.key);
    const usual = decides && field.follows?.defaults[decides.control.value];
    return usual ?? field.rest;
  }

  /** What is given, as typed. */
  values(): Record<string, string> {
    return this.#collect(() => true);
  }

  /** What may go into a link or a copied text: private inputs never do. */
  publicValues(): Record<string, string> {
    return this.#collect((field) => !field.isPrivate);
  }

  #collect(wanted: (field: Field) => boolean): Record<string, string> {
    const values: Record<string, string> = {};
    for (const field of this.fields.values()) {
      if (this.given.has(field.key) && wanted(field)) values[field.key] = field.control.value;
    }
    return values;
  }

  /** Fill the form with these inputs; every other one goes back to what is assumed. Returns the keys it does not have. */
  fill(inputs: Record<string, string>): string[] {
    this.given.clear();
    for (const field of this.fields.values()) {
      const value = inputs[field.key];
      if (value === undefined) {
        show(field.control, this.#rest(field)); // a field stands after the one that it follows
      } else {
        this.given.add(field.key);
        show(field.control, value);
        if (value !== this.#rest(field)) unfold(field.box, this.form);
      }
    }
    return Object.keys(inputs).filter((key) => !this.fields.has(key));
  }

  /** Show these messages beside their inputs and clear all others. Returns the messages whose input is not here. */
  showErrors(errors: { input: string; message: string }[]): string[] {
    const messages = new Map<string, string>();
    const homeless: string[] = [];
    for (const { input, message } of errors) {
      if (this.fields.has(input)) messages.set(input, [messages.get(input), message].filter(Boolean).join(" "));
      else homeless.push(message);
    }
    for (const field of this.fields.values()) {
      const message = messages.get(field.key);
      // most are as they were: even to write the same again has their style computed anew
      if (field.box.classList.contains("wa-invalid") === (message === undefined)) field.box.classList.toggle("wa-invalid");
      if (message === undefined) field.control.removeAttribute("aria-invalid");
      else {
        field.control.setAttribute("aria-invalid", "true");
        unfold(field.box, document);
      }
      if (field.error) {
        if (field.error.hidden !== (message === undefined)) field.error.hidden = message === undefined;
        if (field.error.textContent !== (message ?? "")) field.error.textContent = message ?? "";
      }
    }
    return homeless;
  }
}

/** A link may name an option that a choice does not have: it is added, so that what was asked stays in view. */
function show(control: Control, value: string): void {
  if (control instanceof HTMLSelectElement) {
    for (const stray of control.querySelectorAll("option[data-stray]")) stray.remove();
    if (![...control.options].some((option) => option.value === value)) {
      const stray = new Option(value.slice(0, 60) || "–", value);
      stray.dataset["stray"] = "";
      control.add(stray);
    }
  }
  control.value = value;
}

/** Open the folds around a field, as far out as `within`: a field that is wrong must be seen, one that is filled need not. */
function unfold(box: Element, within: ParentNode): void {
  for (let fold = box.closest("details"); fold; fold = fold.parentElement?.closest("details") ?? null) {
    if (within.contains(fold)) fold.open = true;
  }
}
