// client.ts: asks the worker. Knows messages, limits and which question is the newest; knows no form and no Python.
import type { Bundle, Message, Question } from "../../engine/messages";
import { Sources } from "./files";
import { EngineTrouble, type How, LAST, start } from "./start";
import * as words from "../shared/words";

const START_LIMIT_MS = 120_000;
const ANSWER_LIMIT_MS = 10_000;
const WANTED = "html,text";
export const READER = "asking.reader"; // the name of its bundle

/** What Python's door gives back; a reader can mend `errors`, a `fault` is ours. */
export interface Reply {
  html?: string;
  text?: string;
  digest?: string;
  errors?: { input: string; message: string }[];
  fault?: string;
  frames?: { name: string; svg: string }[];
}

interface Job {
  question: Question;
  resolve: (reply: Reply | undefined) => void;
  reject: (trouble: EngineTrouble) => void;
}

/** What the build has worked out for one calculator: the engine must find the same before it is believed. */
export interface Built {
  inputs: Record<string, string>;
  prefix: string;
  /** Whether a reply is what the build has made of them. */
  same(reply: Reply): boolean;
}

export class Engine {
  #worker: Worker | undefined;
  #started: Promise<void> | undefined;
  #waiting = new Map<string, Job>(); // at most one question for each asker: the newest
  #asked: Job | undefined;
  #asker = ""; // who has asked it
  #built = new Map<string, Built>(); // by calculator
  #here = new Set<string>(); // the page's calculators
  #handed = new Set<string>(); // calculators whose bundle the worker has
  #proved = new Set<string>(); // calculators that have given the built answer, in this worker
  #proving: number | undefined; // the id of the question for the built answer, while it is under way
  #lastId = 0;
  #starting: AbortController | undefined;
  #ready = false;
  #sources: Sources;
  #way: number; // what to start with: the quickest, until it has stopped
  /** How Python was started last. */
  how: How | undefined;
  /** Python's memory in bytes, as last told by the worker. */
  heap = 0;

  /**
   * @param base where the engine's files are, ending in a slash
   * @param way the way of starting to begin with: the quickest
   */
  constructor(base: string, way = 0) {
    this.#way = way;
    this.#sources = new Sources(base);
  }

  /** How much of the engine has come, in bytes as they travel. */
  get progress(): { come: number; all: number } {
    return this.#sources.progress;
  }

  get ready(): boolean {
    return this.#ready;
  }

  /** Whether it is starting, or somebody waits for an answer. */
  get busy(): boolean {
    return (this.#started !== undefined && !this.#ready) || this.#asked !== undefined || this.#waiting.size > 0;
  }

  /** Begin fetching and starting, once. Rejects with the sentence to show. */
  start(): Promise<void> {
    this.#started ??= this.#launch();
    return this.#started;
  }

  /** This calculator stands on the page: what it needs comes with the engine. */
  expect(name: string): void {
    this.#here.add(name);
  }

  /** Before a calculator's first live result the worker must give this built answer; if it gives another, it is thrown away. */
  mustGive(name: string, built: Built): void {
    if (!this.#built.has(name)) this.#built.set(name, built);
  }

  /**
   * Compute one calculator. A newer question from the same asker replaces one that has not been answered:
   * the older promise then resolves to undefined.
   */
  answer(asker: string, name: string, inputs: Record<string, string>, prefix: string): Promise<Reply | undefined> {
    return this.#ask(asker, { name, inputs: JSON.stringify(inputs), wanted: WANTED, prefix });
  }

  /** Draw one calculator's card. Its options go where the prefix of an answer goes. */
  card(asker: string, name: string, inputs: Record<string, string>, options: object): Promise<Reply | undefined> {
    return this.#ask(asker, { name, inputs: JSON.stringify(inputs), wanted: "card", prefix: JSON.stringify(options) });
  }

  /** Have a question read. The reader is a bundle of its own (build_tools/engine/scout.py), with every calculator in it. */
  read<T>(asker: string, order: object): Promise<T | undefined> {
    return this.#ask(asker, { name: READER, inputs: JSON.stringify(order), wanted: "ask", prefix: "" }) as Promise<T | undefined>;
  }

  #ask(asker: string, asked: Omit<Question, "id">): Promise<Reply | undefined> {
    this.forget(asker);
    return new Promise((resolve, reject) => {
      const question = { id: ++this.#lastId, ...asked };
      this.#waiting.set(asker, { question, resolve, reject });
      this.start().then(
        () => this.#pump(),
        (trouble: EngineTrouble) => {
          this.#waiting.delete(asker);
          reject(trouble);
        },
      );
    });
  }

  /** The asker no longer wants to know. */
  forget(asker: string): void {
    this.#waiting.get(asker)?.resolve(undefined);
    this.#waiting.delete(asker);
  }

  async #launch(): Promise<void> {
    const starting = new AbortController();
    this.#starting = starting;
    let alarm = 0;
    const late = new Promise<never>((_, reject) => {
      alarm = window.setTimeout(() => reject(new EngineTrouble(words.NOT_STARTED_IN_TIME)), START_LIMIT_MS);
    });
    try {
      for (const name of this.#here) this.#sources.bundle(name).catch(() => undefined); // on its way beside the rest
      const { worker, how, way, heap } = await Promise.race([start(this.#sources, starting.signal, this.#way), late]);
      this.#worker = worker;
      this.#way = way;
      this.how = how;
      this.heap = heap;
      worker.onerror = (event) => {
        event.preventDefault();
        this.#end(new EngineTrouble(words.FAULT));
      };
      worker.onmessage = ({ data: message }: MessageEvent<Message>) => {
        if (this.#worker !== worker) return; // let go meanwhile: what it still says is not believed
        if (message.kind === "stopped") this.#stopped(message.detail);
        else if (message.kind === "answer" || message.kind === "fault") this.#take(message);
      };
      this.#ready = true;
    } catch (error) {
      starting.abort();
      const trouble = error instanceof EngineTrouble ? error : new EngineTrouble(words.NOT_LOADED);
      if (!trouble.final) this.#started = undefined; // the next question tries again
      throw trouble;
    } finally {
      clearTimeout(alarm);
    }
  }

  /** Let the worker go. The next question gets a fresh one. */
  #end(trouble: EngineTrouble): void {
    this.#letGo()?.reject(trouble);
  }

  /** @returns the question that it has not answered */
  #letGo(): Job | undefined {
    clearTimeout(this.#alarm);
    this.#starting?.abort();
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#ready = false;
    this.#started = undefined;
    this.#proved.clear();
    this.#handed.clear();
    this.#proving = undefined;
    const asked = this.#asked;
    this.#asked = undefined;
    return asked;
  }

  /**
   * Python has met a function that was cut out of its machine code, or has run out of memory. The same question goes to a
   * new worker with more of the code: whoever asked waits, and never sees a result of the Python that was stopped.
   */
  #stopped(detail: string): void {
    console.warn(`The calculators have stopped (${this.how}):`, detail);
    const further = this.#way < LAST;
    const asker = this.#asker;
    const asked = this.#letGo();
    if (further) this.#way++;
    if (asked && !further) asked.reject(new EngineTrouble(words.FAULT));
    // It goes before the questions that came later; unless its own asker has asked something newer meanwhile.
    else if (asked && this.#waiting.has(asker)) asked.resolve(undefined);
    else if (asked) this.#waiting = new Map([[asker, asked], ...this.#waiting]);
    this.#goOn();
  }

  #take(message: Extract<Message, { kind: "answer" | "fault" }>): void {
    const job = this.#asked;
    if (job && this.#proving === message.id) return this.#prove(job, message);
    if (!job || job.question.id !== message.id) return;
    clearTimeout(this.#alarm);
    this.#asked = undefined;
    if (message.kind === "answer") {
      this.heap = message.heap;
      job.resolve(JSON.parse(message.answer) as Reply);
    } else {
      console.warn("A calculator failed:", message.detail);
      job.reject(new EngineTrouble(words.FAULT));
    }
    this.#pump();
  }

  /** The worker has answered the built example: only if that is the same answer does any other count. */
  #prove(job: Job, message: Extract<Message, { kind: "answer" | "fault" }>): void {
    const { name } = job.question;
    const same = message.kind === "answer" && this.#built.get(name)?.same(JSON.parse(message.answer) as Reply);
    if (!same) return this.#stopped(`${name} does not come to the answer that the page was built with`);
    this.#proving = undefined;
    this.#proved.add(name);
  }

  #alarm = 0;

  #pump(): void {
    if (this.#asked || !this.#ready || !this.#worker) return;
    const next = this.#waiting.entries().next();
    if (next.done) return;
    const [asker, job] = next.value;
    this.#waiting.delete(asker);
    this.#asked = job;
    this.#asker = asker;
    void this.#send(job, this.#worker);
  }

  async #send(job: Job, worker: Worker): Promise<void> {
    const { name } = job.question;
    const gone = (): boolean => this.#asked !== job || this.#worker !== worker;
    if (!this.#handed.has(name) && this.how !== "plain") {
      try {
        const file = await this.#sources.bundle(name);
        if (gone()) return;
        if (file) worker.postMessage({ kind: "bundle", file } satisfies Bundle);
        this.#handed.add(name);
      } catch (error) {
        if (!gone()) this.#stopped(`${name} did not come: ${error}`);
        return;
      }
    }
    this.#alarm = window.setTimeout(() => this.#stop(), ANSWER_LIMIT_MS);
    const built = this.#built.get(name);
    if (built && !this.#proved.has(name)) {
      const { inputs, prefix } = built;
      this.#proving = ++this.#lastId;
      const question = { id: this.#proving, name, inputs: JSON.stringify(inputs), wanted: WANTED, prefix };
      worker.postMessage(JSON.stringify(question satisfies Question));
    }
    // Behind the built example it is worked out while that is compared; the answer counts only if that was right.
    worker.postMessage(JSON.stringify(job.question));
  }

  /** A calculation that does not end is ended with its worker; whoever waits behind it gets a fresh one. */
  #stop(): void {
    this.#end(new EngineTrouble(words.TOOK_TOO_LONG));
    this.#goOn();
  }

  /** Start again for those who wait. */
  #goOn(): void {
    if (this.#waiting.size === 0) return;
    this.start().then(
      () => this.#pump(),
      (trouble: EngineTrouble) => {
        for (const job of this.#waiting.values()) job.reject(trouble);
        this.#waiting.clear();
      },
    );
  }
}
