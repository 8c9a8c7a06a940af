// engine.ts: asks the worker. Knows messages, limits and which question is the newest; knows no form and no Python.
import type { Message, Question, StartTrouble } from "../engine/messages";
import * as words from "./words";

const START_LIMIT_MS = 120_000;
const ANSWER_LIMIT_MS = 10_000;

/** What Python's door gives back; a reader can mend `errors`, a `fault` is ours. */
export interface Reply {
  html?: string;
  text?: string;
  digest?: string;
  errors?: { input: string; message: string }[];
  fault?: string;
}

/** The engine gave no answer. The message is a sentence for the reader. */
export class EngineTrouble extends Error {}

interface Job {
  question: Question;
  resolve: (reply: Reply | undefined) => void;
  reject: (trouble: EngineTrouble) => void;
}

const SENTENCES: Record<StartTrouble, string> = {
  policy: words.BLOCKED_BY_POLICY,
  browser: words.BROWSER_TOO_OLD,
  files: words.NOT_LOADED,
};

export class Engine {
  #worker: Worker | undefined;
  #started: Promise<void> | undefined;
  #waiting = new Map<string, Job>(); // at most one question for each asker: the newest
  #asked: Job | undefined;
  #lastId = 0;
  #abandon: ((trouble: EngineTrouble, final?: boolean) => void) | undefined;
  #ready = false;

  /** @param base where the engine's files are, ending in a slash */
  constructor(private readonly base: string) {}

  get ready(): boolean {
    return this.#ready;
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
    this.forget(asker);
    return new Promise((resolve, reject) => {
      const question = { id: ++this.#lastId, name, inputs: JSON.stringify(inputs), wanted: "html,text", prefix };
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

  #launch(): Promise<void> {
    return new Promise((resolve, reject) => {
      let alarm = 0;
      const abandon = (trouble: EngineTrouble, final = false): void => {
        clearTimeout(alarm);
        this.#worker?.terminate();
        this.#worker = undefined;
        this.#abandon = undefined;
        this.#ready = false;
        if (!final) this.#started = undefined; // the next question tries again
        this.#asked?.reject(trouble);
        this.#asked = undefined;
        reject(trouble); // of no effect once started
      };
      this.#abandon = abandon;
      alarm = window.setTimeout(() => abandon(new EngineTrouble(words.NOT_STARTED_IN_TIME)), START_LIMIT_MS);
      let worker: Worker;
      try {
        worker = new Worker(`${this.base}worker.js`, { type: "module", name: "calculators" });
      } catch {
        abandon(new EngineTrouble(words.NOT_LOADED), true);
        return;
      }
      this.#worker = worker;
      worker.onerror = (event) => {
        event.preventDefault();
        abandon(new EngineTrouble(words.NOT_LOADED));
      };
      worker.onmessage = ({ data }: MessageEvent<string>) => {
        const message = JSON.parse(data) as Message;
        if (message.kind === "ready") {
          clearTimeout(alarm);
          this.#ready = true;
          resolve();
        } else if (message.kind === "failed") {
          console.warn("The calculators could not start:", message.detail);
          abandon(new EngineTrouble(SENTENCES[message.why]), message.why !== "files");
        } else {
          this.#take(message);
        }
      };
    });
  }

  #take(message: Extract<Message, { id: number }>): void {
    const job = this.#asked;
    if (!job || job.question.id !== message.id) return;
    clearTimeout(this.#alarm);
    this.#asked = undefined;
    if (message.kind === "answer") {
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
    this.#abandon?.(new EngineTrouble(words.TOOK_TOO_LONG));
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
