// client.ts: asks the worker. Knows messages, limits and which question is the newest; knows no form and no Python.
import type { Begin, Message, Question } from "../../engine/messages";
import { Sources } from "./files";
import { EngineTrouble, WAYS, start } from "./start";
import * as words from "../calculator/words";

const START_LIMIT_MS = 120_000;
const ANSWER_LIMIT_MS = 10_000;

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

export class Engine {
  #worker: Worker | undefined;
  #started: Promise<void> | undefined;
  #waiting = new Map<string, Job>(); // at most one question for each asker: the newest
  #asked: Job | undefined;
  #lastId = 0;
  #starting: AbortController | undefined;
  #ready = false;
  #sources: Sources;
  /** How Python was started last: from the memory kept by the build, or from nothing. */
  how: Begin["kind"] | undefined;
  /** Python's memory in bytes, as last told by the worker. */
  heap = 0;

  /**
   * @param base where the engine's files are, ending in a slash
   * @param ways how to start it, the first that succeeds
   */
  constructor(
    base: string,
    private readonly ways: readonly Begin["kind"][] = WAYS,
  ) {
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

  /**
   * Compute one calculator. A newer question from the same asker replaces one that has not been answered:
   * the older promise then resolves to undefined.
   */
  answer(asker: string, name: string, inputs: Record<string, string>, prefix: string): Promise<Reply | undefined> {
    return this.#ask(asker, { name, inputs: JSON.stringify(inputs), wanted: "html,text", prefix });
  }

  /** Draw one calculator's card. Its options go where the prefix of an answer goes. */
  card(asker: string, name: string, inputs: Record<string, string>, options: object): Promise<Reply | undefined> {
    return this.#ask(asker, { name, inputs: JSON.stringify(inputs), wanted: "card", prefix: JSON.stringify(options) });
  }

  /** Have a question read, which the plain start alone can (build_tools/engine/plain.ts). */
  read<T>(asker: string, order: object): Promise<T | undefined> {
    return this.#ask(asker, { name: "", inputs: JSON.stringify(order), wanted: "ask", prefix: "" }) as Promise<T | undefined>;
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
      const { worker, how, heap } = await Promise.race([start(this.#sources, starting.signal, this.ways), late]);
      this.#worker = worker;
      this.how = how;
      this.heap = heap;
      worker.onerror = (event) => {
        event.preventDefault();
        this.#end(new EngineTrouble(words.FAULT));
      };
      worker.onmessage = ({ data }: MessageEvent<string>) => {
        const message = JSON.parse(data) as Message;
        if (message.kind === "answer" || message.kind === "fault") this.#take(message);
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
    clearTimeout(this.#alarm);
    this.#starting?.abort();
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#ready = false;
    this.#started = undefined;
    const asked = this.#asked;
    this.#asked = undefined;
    asked?.reject(trouble);
  }

  #take(message: Extract<Message, { id: number }>): void {
    const job = this.#asked;
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

  #alarm = 0;

  #pump(): void {
    if (this.#asked || !this.#ready || !this.#worker) return;
    const next = this.#waiting.entries().next();
    if (next.done) return;
    const [asker, job] = next.value;
    this.#waiting.delete(asker);
    this.#asked = job;
    this.#alarm = window.setTimeout(() => this.#stop(), ANSWER_LIMIT_MS);
    this.#worker.postMessage(JSON.stringify(job.question));
  }

  /** A calculation that does not end is ended with its worker; whoever waits behind it gets a fresh one. */
  #stop(): void {
    this.#end(new EngineTrouble(words.TOOK_TOO_LONG));
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
