// reader.ts: asks the reader of questions, which runs in a worker of its own. Knows the worker's form; knows no page.
import { Engine, READER } from "../engine/client";
import { bring } from "../shared/load_script";

/** One input as a small form shows it; `said` and `words` where it was read. */
export interface Field {
  key: string;
  label: string;
  group?: string;
  options?: [string, string][];
  unit?: string;
  private?: boolean;
  value?: string;
  said?: string;
  words?: string;
  /** What the result was worked out with, since nobody said it. */
  assumed?: string;
}

export interface Answer {
  page: string;
  calculator?: string;
  read?: Field[];
  missing?: Field[];
  headline?: string;
  verdict?: { word: string; reason: string };
  caution?: string;
  link?: string;
  errors?: { input: string; message: string }[];
}

/** What a text pasted into a calculator's form gives it. */
export interface Filled {
  pasted?: string;
  refused?: string;
  read?: Field[];
  fault?: string;
}

export interface Asked {
  danger?: string[];
  refused?: string;
  pasted?: string;
  answers: Answer[];
  wants?: string;
  fault?: string;
}

declare global {
  interface Window {
    workedAnswersQuestions?: { mark: string; index: object };
  }
}

const ASKER = "question";

/** In an engine of its own: whoever types a question beside a form need not wait for the one, nor the other. */
export class Reader {
  readonly #engine: Engine;

  /** @param root the site's root, ending in a slash */
  constructor(private readonly root: string) {
    this.#engine = new Engine(`${root}made/engine/`);
    this.#engine.expect(READER); // comes beside the rest
  }

  get ready(): boolean {
    return this.#engine.ready;
  }

  get progress(): { come: number; all: number } {
    return this.#engine.progress;
  }

  /** Needs no index: the form's calculator is known. Undefined where a newer one took its place. */
  form(calculator: string, text: string): Promise<Filled | undefined> {
    return this.#engine.read<Filled>(ASKER, { form: calculator, text });
  }

  /** Undefined where a newer question took the place of this one. */
  async ask(order: { text: string } | { page: string; calculator: string; inputs: Record<string, string> }): Promise<Asked | undefined> {
    await bring(`${this.root}made/finding/questions.js`);
    const known = window.workedAnswersQuestions;
    if (!known) throw new Error("the index of questions is empty");
    const reply = await this.#engine.read<Asked>(ASKER, { ...order, mark: known.mark });
    if (!reply?.wants) return reply;
    return this.#engine.read<Asked>(ASKER, { ...order, mark: known.mark, index: known.index });
  }
}
