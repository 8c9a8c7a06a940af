// view.ts: what was read of a question, as labels that can be put right, the result, and what is missing. Knows no Python.
import type { Answer, Asked, Field } from "./reader";
import * as words from "./words";

/** Called when the reader has corrected an answer's inputs. */
export type Change = (answer: Answer, inputs: Record<string, string>) => void;

export class View {
  readonly element = document.createElement("section");
  readonly #status = document.createElement("p");
  readonly #body = document.createElement("div");
  #shown: Answer | undefined;
  #replacing = false;

  /**
   * @param root the site's root
   * @param title a page's question, by its place in the site
   */
  constructor(
    private readonly root: string,
    private readonly title: (page: string) => string,
    private readonly change: Change,
  ) {
    this.element.className = "wa-asked";
    this.element.hidden = true;
    this.element.setAttribute("aria-label", words.WE_READ);
    this.#status.className = "wa-asked-told";
    this.#status.setAttribute("role", "status");
    this.element.append(this.#status, this.#body);
  }

  tell(sentence: string): void {
    this.element.hidden = !sentence && !this.#body.firstChild;
    if (this.#status.textContent !== sentence) this.#status.textContent = sentence;
  }

  clear(): void {
    this.#shown = undefined;
    this.#body.replaceChildren();
    this.tell("");
  }

  /** Labels come first: nobody shall see a result before what it was worked out from. */
  show(asked: Asked): void {
    const best = asked.answers[0];
    this.#shown = best;
    const parts: Node[] = (asked.danger ?? []).map(danger);
    if (asked.pasted) parts.push(paragraph("wa-asked-pasted", words.PASTED(asked.pasted)));
    if (best) parts.push(this.#page(best));
    if (best?.calculator) parts.push(this.#read(best), this.#result(best), this.#missing(best));
    const here = focused(this.#body);
    this.#replacing = true; // a box that goes while one types in it says that it is changed: it is not, yet
    this.#body.replaceChildren(...parts);
    this.#replacing = false;
    this.tell(asked.refused ?? asked.fault ?? "");
    this.element.hidden = parts.length === 0 && !this.#status.textContent;
    if (here) this.#goOn(here);
  }

  /** The reader was at one of the fields when an answer came: there they are again, with what they were typing. */
  #goOn(here: HTMLElement): void {
    const again = (): HTMLElement | null =>
      this.#body.querySelector<HTMLElement>(`[data-key="${CSS.escape(here.dataset["key"] ?? "")}"]`);
    const typing = isEntry(here) && !here.dataset["handed"]; // else it is this answer that they asked for
    if (typing && again() instanceof HTMLButtonElement) again()?.click();
    const box = again();
    if (typing && isEntry(box)) box.value = here.value;
    box?.focus();
  }

  #page(answer: Answer): Node {
    const line = paragraph("wa-asked-page", "");
    line.append(this.#link(answer, this.title(answer.page) || words.WHOLE_PAGE));
    return line;
  }

  #link(answer: Answer, text: string): HTMLAnchorElement {
    const anchor = document.createElement("a");
    anchor.href = `${this.root}answers/${answer.page}.html${answer.link ? `#${answer.link}` : ""}`;
    anchor.textContent = text;
    return anchor;
  }

  #read(answer: Answer): Node {
    const read = answer.read ?? [];
    if (read.length === 0) return paragraph("wa-asked-read", words.NOTHING_READ);
    const whole = document.createElement("div");
    whole.className = "wa-asked-read";
    whole.append(paragraph("wa-asked-name", words.WE_READ));
    const groups = new Map<string, Field[]>();
    for (const field of read) groups.set(field.group ?? "", [...(groups.get(field.group ?? "") ?? []), field]);
    for (const [group, fields] of groups) {
      const list = document.createElement("ul");
      if (group && groups.size > 1) {
        whole.append(paragraph("wa-asked-group", group));
        list.setAttribute("aria-label", group);
      }
      list.append(...fields.map((field) => this.#label(answer, field)));
      whole.append(list);
    }
    return whole;
  }

  #label(answer: Answer, field: Field): HTMLLIElement {
    const item = document.createElement("li");
    const open = document.createElement("button");
    open.type = "button";
    open.className = "wa-asked-value";
    open.dataset["key"] = field.key;
    open.append(small(field.label), new Text(field.said ?? ""));
    open.setAttribute("aria-label", words.CHANGE(field.label, field.said ?? ""));
    if (field.words) open.title = `“${field.words}”`;
    if (field.private) open.disabled = true;
    const out = document.createElement("button");
    out.type = "button";
    out.className = "wa-asked-out";
    out.textContent = "×";
    out.setAttribute("aria-label", words.THROW_OUT(field.label));
    out.addEventListener("click", () => this.change(answer, this.#inputs(field.key, "")));
    open.addEventListener("click", () => {
      const entry = this.#entry(answer, field);
      item.replaceChildren(...entry);
      item.querySelector<HTMLElement>("input, select")?.focus();
    });
    item.append(open, ...(field.private ? [] : [out]));
    return item;
  }

  #entry(answer: Answer, field: Field): Node[] {
    const name = document.createElement("label");
    const box = field.options ? choice(field) : typed(field);
    box.dataset["key"] = field.key;
    const hand = (): void => {
      if (this.#replacing || box.dataset["handed"] || box.value === (field.value ?? "")) return;
      box.dataset["handed"] = "on";
      this.change(answer, this.#inputs(field.key, box.value));
    };
    // What #goOn() put back is no change to the browser, so leaving the box and Enter count as well.
    for (const ends of ["change", "blur"]) box.addEventListener(ends, hand);
    box.addEventListener("keydown", (event) => event instanceof KeyboardEvent && event.key === "Enter" && hand());
    box.addEventListener("input", () => delete box.dataset["handed"]);
    name.append(small(field.unit ? `${field.label} (${field.unit})` : field.label), box);
    const wrong = answer.errors?.find(({ input }) => input === field.key);
    if (wrong) box.setAttribute("aria-invalid", "true");
    return wrong ? [name, paragraph("wa-asked-wrong", wrong.message)] : [name];
  }

  /** The inputs as they stand, with one put right. */
  #inputs(key: string, value: string): Record<string, string> {
    const now = Object.fromEntries((this.#shown?.read ?? []).map((field) => [field.key, field.value ?? ""]));
    return { ...now, [key]: value };
  }

  #result(answer: Answer): Node {
    const whole = document.createElement("div");
    whole.className = "wa-asked-result";
    for (const { message } of answer.errors ?? []) whole.append(paragraph("wa-asked-wrong", message));
    if (answer.verdict) {
      const verdict = paragraph("wa-verdict", "");
      const word = document.createElement("strong");
      word.textContent = words.VERDICTS[answer.verdict.word] ?? answer.verdict.word;
      verdict.dataset["verdict"] = answer.verdict.word;
      verdict.append(word, new Text(answer.verdict.reason ? ` ${answer.verdict.reason}` : ""));
      whole.append(verdict);
    }
    if (answer.headline) {
      whole.append(paragraph("wa-asked-headline", answer.headline));
      if (answer.caution) whole.append(paragraph("wa-gravest", answer.caution));
      const go = paragraph("wa-asked-go", "");
      go.append(this.#link(answer, words.FILLED_IN));
      whole.append(go);
    }
    return whole;
  }

  #missing(answer: Answer): Node {
    const whole = document.createElement("div");
    const asked = (answer.missing ?? []).filter((field) => !field.private);
    if (asked.length === 0) return whole;
    whole.className = "wa-asked-missing";
    whole.append(paragraph("wa-asked-name", words.STILL_TO_SAY));
    for (const field of asked) {
      const row = document.createElement("div");
      row.append(...this.#entry(answer, field.group ? { ...field, label: `${field.group}: ${field.label.toLowerCase()}` } : field));
      whole.append(row);
    }
    return whole;
  }
}

function danger(sentence: string): HTMLElement {
  const box = paragraph("wa-asked-danger", "");
  box.setAttribute("role", "alert");
  const first = document.createElement("strong");
  first.textContent = `${words.FIRST}: `;
  box.append(first, new Text(sentence));
  return box;
}

function choice(field: Field): HTMLSelectElement {
  const box = document.createElement("select");
  const none = new Option(field.assumed ? words.ASSUMED(field.assumed) : words.CHOOSE, "");
  box.append(none, ...(field.options ?? []).map(([value, label]) => new Option(label, value)));
  box.value = field.value ?? "";
  return box;
}

function typed(field: Field): HTMLInputElement {
  const box = document.createElement("input");
  Object.assign(box, { type: "text", autocomplete: "off", value: field.value ?? "" });
  if (field.unit) box.inputMode = "decimal";
  if (field.assumed) box.placeholder = words.ASSUMED(field.assumed);
  return box;
}

function paragraph(name: string, text: string): HTMLParagraphElement {
  const made = document.createElement("p");
  made.className = name;
  made.textContent = text;
  return made;
}

function small(text: string): HTMLElement {
  const made = document.createElement("span");
  made.textContent = `${text} `;
  return made;
}

function focused(inside: Element): HTMLElement | undefined {
  const here = document.activeElement;
  return here instanceof HTMLElement && inside.contains(here) && here.dataset["key"] ? here : undefined;
}

function isEntry(box: Element | null): box is HTMLInputElement | HTMLSelectElement {
  return box instanceof HTMLInputElement || box instanceof HTMLSelectElement;
}
