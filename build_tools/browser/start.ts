// start.ts: gets a worker going, by the quick way or, where that fails, the plain one. Knows the worker's messages and
// the sentences for the reader; knows no question and no page.
import type { Begin, Message, StartTrouble } from "../engine/messages";
import { unpacked } from "../engine/unpacked";
import { PLAIN_FILES, type Sources } from "./sources";
import * as words from "./words";

// An empty WebAssembly module. A policy without 'wasm-unsafe-eval' refuses it at once, where the runtime would wait for ever.
const EMPTY_MODULE = new Uint8Array([0, 0x61, 0x73, 0x6d, 1, 0, 0, 0]);
const WAYS = ["kept", "plain"] as const;

/** The engine gave no answer. The message is a sentence for the reader; `final` where trying again cannot help. */
export class EngineTrouble extends Error {
  constructor(
    sentence: string,
    readonly final = false,
  ) {
    super(sentence);
  }
}

export interface Started {
  worker: Worker;
  how: Begin["kind"];
  heap: number; // in bytes
}

/** @param signal ends the attempt, and the worker with it */
export async function start(sources: Sources, signal: AbortSignal): Promise<Started> {
  await canRun();
  for (const how of WAYS) {
    try {
      return await startBy(how, sources, signal);
    } catch (error) {
      if (error instanceof EngineTrouble || signal.aborted) throw error;
      console.warn(`The calculators could not be started (${how}):`, error);
    }
  }
  throw new EngineTrouble(words.NOT_LOADED);
}

async function canRun(): Promise<void> {
  if (typeof WebAssembly !== "object") throw new EngineTrouble(words.BROWSER_TOO_OLD, true);
  try {
    await WebAssembly.compile(EMPTY_MODULE);
  } catch {
    throw new EngineTrouble(words.BLOCKED_BY_POLICY, true);
  }
}

async function startBy(how: Begin["kind"], sources: Sources, signal: AbortSignal): Promise<Started> {
  const coming = begin(how, sources); // everything is fetched side by side, the worker's script too
  coming.catch(() => undefined);
  const worker = await hire(sources);
  return new Promise((resolve, reject) => {
    const fail = (error: unknown): void => {
      worker.terminate();
      reject(error as Error);
    };
    signal.addEventListener("abort", () => worker.terminate());
    if (signal.aborted) return fail(signal.reason);
    worker.onerror = (event) => {
      event.preventDefault();
      fail(new Error(event.message || "the worker's script does not run"));
    };
    worker.onmessage = ({ data }: MessageEvent<string>) => {
      const message = JSON.parse(data) as Message;
      if (message.kind === "ready") resolve({ worker, how, heap: message.heap });
      else if (message.kind === "failed") fail(told(message.why, message.detail));
    };
    coming.then((message) => worker.postMessage(message), fail);
  });
}

function told(why: StartTrouble, detail: string): Error {
  if (why === "policy") return new EngineTrouble(words.BLOCKED_BY_POLICY, true);
  if (why === "browser") return new EngineTrouble(words.BROWSER_TOO_OLD, true);
  return new Error(detail);
}

async function begin(how: Begin["kind"], sources: Sources): Promise<Begin> {
  const wasm = sources.wasm();
  if (how === "kept") {
    const [module, memory] = await Promise.all([wasm, sources.file("memory.bin")]);
    return { kind: "kept", wasm: module, memory };
  }
  const files = PLAIN_FILES.map(async (name) => [name, await unpacked(await sources.file(name))] as const);
  const [module, ...entries] = await Promise.all([wasm, ...files]);
  return { kind: "plain", wasm: module, files: Object.fromEntries(entries) };
}

/** The worker comes from a Blob: so it can be had in a folder too, and stands under the page's own policy. */
async function hire(sources: Sources): Promise<Worker> {
  const script = new Blob([await unpacked(await sources.file("worker.js"))], { type: "text/javascript" });
  const address = URL.createObjectURL(script);
  try {
    return new Worker(address, { name: "calculators" });
  } finally {
    setTimeout(() => URL.revokeObjectURL(address), 10_000); // not at once: some browsers read it a little later
  }
}
