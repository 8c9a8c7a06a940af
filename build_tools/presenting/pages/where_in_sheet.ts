// where_in_sheet.ts: the two lists in which one chooses whether an answer becomes a new question of an episode's sheet,
// or goes to one that is there. On the desk and on the site's pages. Knows the questions of a sheet; knows no calculator.
import { ask, type Card, type WithErrors } from "./server";
import * as words from "./words";

export type How = "new" | "numbers" | "beside";

/** What the server says when something was written. */
export interface Written extends WithErrors {
  segment: number;
  how: How;
  taken?: string[];
  lined?: number;
}

interface Question {
  number: number;
  question: string;
  on_top: string;
  address: string;
  calculators: string[];
}

export class WhereInSheet {
  #questions: Question[] = [];
  #asked = 0;
  #chosen = false; // a person has said what is to be done: nothing else decides it then

  constructor(
    readonly how: HTMLSelectElement,
    readonly segment: HTMLSelectElement,
    readonly changed: () => void,
  ) {
    how.replaceChildren(new Option(words.AS_NEW, "new"), new Option(words.AS_NUMBERS, "numbers"), new Option(words.AS_BESIDE, "beside"));
    for (const list of [how, segment]) {
      list.addEventListener("change", () => {
        this.#chosen = true;
        this.#show();
      });
    }
    this.#hide();
  }

  get isNew(): boolean {
    return this.how.value === "new";
  }

  /** What is sent along with the question. */
  get body(): { how: How; segment: number } {
    return { how: this.how.value as How, segment: this.isNew ? 0 : Number(this.segment.value) };
  }

  /** The questions of this sheet; what was chosen stays where it is still there. */
  async read(episode: number): Promise<void> {
    const asked = (this.#asked += 1);
    const reply = episode ? await ask<{ questions: Question[] } & WithErrors>("questions", { episode }) : {};
    if (asked !== this.#asked) return;
    const before = this.segment.value;
    this.#questions = reply.questions ?? [];
    this.segment.replaceChildren(...this.#questions.map((q) => new Option(`${q.number}. ${q.on_top}`, String(q.number))));
    if (this.#questions.some(({ number }) => String(number) === before)) this.segment.value = before;
    else if (before || !this.#questions.length) this.how.value = "new";
    this.#show();
  }

  /** Choose what a card is most likely for: new numbers of a question in the sheet, a further calculator of it, or a new one. */
  settle(card: Pick<Card, "address" | "question" | "calculator">, anew: boolean): void {
    if (anew) this.#chosen = false;
    if (this.#chosen) return;
    const of = this.#questions.find((q) => q.address === card.address && [q.on_top, q.question].includes(card.question));
    if (of) this.segment.value = String(of.number);
    this.how.value = !of ? "new" : of.calculators.includes(card.calculator) || !of.calculators.length ? "numbers" : "beside";
    this.#show();
  }

  #show(): void {
    for (const option of this.how.options) option.disabled = option.value !== "new" && !this.#questions.length;
    this.#hide();
    this.changed();
  }

  #hide(): void {
    const place = this.segment.closest<HTMLElement>("div, label");
    if (place) place.hidden = this.isNew;
  }
}

/** What was written, in words. */
export function writtenInto(reply: Written, episode: number): string {
  if (reply.how === "numbers") return words.NEW_NUMBERS_INTO(reply.segment, reply.lined ?? 0);
  if (reply.how === "beside") return words.BESIDE_INTO(reply.segment, reply.taken ?? []);
  return words.WRITTEN_INTO(reply.segment, episode);
}
