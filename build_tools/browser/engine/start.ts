// start.ts: gets a worker going, by the quickest way that this browser can go. Knows the worker's messages and
// the sentences for the reader; knows no question and no page.
import type { Begin, Hello, Message, Piece, Runtime, StartTrouble } from "../../engine/messages";
import { mayCompile } from "../../engine/may_compile";
import { type Beside, PLAIN_FILES, type Sources, has } from "./files";
import * as words from "../shared/words";

/**
 * The ways of starting, the quickest first: each is a worker, machine code, and what it begins with. A release of the
 * runtime that does not fit one of our cuts leaves the slower ones.
 */
const EVERY_WAY = [
  { how: "lean", worker: "worker.js", wasm: "lean.wasm", begin: "snapshot" },
  { how: "snapshot", worker: "worker.js", wasm: "pyodide.asm.wasm", begin: "snapshot" },
  { how: "plain", worker: "plain_worker.js", wasm: "pyodide.asm.wasm", begin: "plain" },
] as const;
type Way = (typeof EVERY_WAY)[number];
const WAYS = EVERY_WAY.filter(({ worker, wasm, begin }) => has(worker) && has(wasm) && (begin === "plain" || has("memory.bin")));
export type How = Way["how"];
/** The index of the last way of starting, the plain start. */
export const LAST = WAYS.length - 1;

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
  how: How;
  way: number;
  heap: number; // in bytes
}

/**
 * @param signal ends the attempt, and the worker with it
 * @param from the way to begin with: quicker ones have been tried
 */
export async function start(sources: Sources, signal: AbortSignal, from = 0): Promise<Started> {
  if (typeof WebAssembly !== "object") throw new EngineTrouble(words.BROWSER_TOO_OLD, true);
  const able = mayCompile(); // told a turn of the page's thread later; the files are on their way meanwhile
  const first = startBy(from, sources, signal);
  first.catch(() => undefined);
  await able.catch(() => {
    throw new EngineTrouble(words.BLOCKED_BY_POLICY, true);
  });
  for (let way = from; way <= LAST; way++) {
    try {
      return await (way === from ? first : startBy(way, sources, signal));
    } catch (error) {
      if (error instanceof EngineTrouble || signal.aborted) throw error;
      console.warn(`The calculators could not be started (${WAYS[way]?.how}):`, error);
    }
  }
  throw new EngineTrouble(words.NOT_LOADED);
}

async function startBy(way: number, sources: Sources, signal: AbortSignal): Promise<Started> {
  const { how, worker: script, wasm: code, begin: kind } = WAYS[way] as Way;
  // Everything is fetched side by side. The worker's script goes first: it is small, and prepares for the rest. Until it is
  // at work nothing is compiled or unpacked: that would keep it waiting, and out of a cache everything comes at once.
  const hired = hire(script, sources, signal);
  const runtime = sources.wasm(code, hired);
  const coming = begin(kind, sources, hired);
  for (const each of [runtime, coming]) each.catch(() => undefined); // told below
  const worker = await hired;
  try {
    // What has come is handed over at once: the worker goes on with it while the rest is on its way.
    const [ready] = await Promise.all([
      nextMessage(worker),
      runtime.then((wasm) => worker.postMessage({ kind: "runtime", wasm } satisfies Runtime)),
      coming.then((message) => worker.postMessage(message)),
    ]);
    return { worker, how, way, heap: (ready as Extract<Message, { kind: "ready" }>).heap };
  } catch (error) {
    worker.terminate();
    throw error;
  }
}

/** What a worker says next; rejects where it cannot start. */
function nextMessage(worker: Worker): Promise<Message> {
  return new Promise((resolve, reject) => {
    worker.onerror = (event) => {
      event.preventDefault();
      reject(new Error(event.message || "the worker's script does not run"));
    };
    worker.onmessage = ({ data: message }: MessageEvent<Message>) => {
      if (message.kind === "failed") reject(startError(message.why, message.detail));
      else resolve(message);
    };
  });
}

function startError(why: StartTrouble, detail: string): Error {
  if (why === "policy") return new EngineTrouble(words.BLOCKED_BY_POLICY, true);
  if (why === "browser") return new EngineTrouble(words.BROWSER_TOO_OLD, true);
  return new Error(detail);
}

async function begin(kind: Begin["kind"], sources: Sources, hired: Promise<Worker>): Promise<Begin> {
  if (kind === "snapshot") {
    // unpacked by the worker, while it arrives: this thread has enough to do
    const pieces: Beside = {
      take: (piece) => {
        const hand = (worker: Worker): void => worker.postMessage({ kind: "piece", piece } satisfies Piece, [piece.buffer]);
        hired.then(hand, () => undefined); // that there is no worker is told by who waits for it
      },
    };
    const memory = await sources.file("memory.bin", pieces, hired);
    return pieces.of === memory ? { kind } : { kind, memory }; // it was there, or another copy of it had to be asked for
  }
  const files = PLAIN_FILES.map(async (name) => [name, await sources.file(name)] as const);
  return { kind: "plain", files: Object.fromEntries(await Promise.all(files)) };
}

/**
 * A worker that is at work. It comes from a Blob: so it can be had in a folder too, and stands under the page's own policy.
 * The browser needs the page's thread until it runs, so that one waits for a worker before it takes up anything else.
 */
async function hire(name: string, sources: Sources, signal: AbortSignal): Promise<Worker> {
  const script = new Blob([await sources.file(name)], { type: "text/javascript" });
  const address = URL.createObjectURL(script);
  setTimeout(() => URL.revokeObjectURL(address), 10_000); // not at once: some browsers read it a little later
  const worker = new Worker(address, { name: "calculators" });
  signal.addEventListener("abort", () => worker.terminate());
  signal.throwIfAborted();
  worker.postMessage({ kind: "hello" } satisfies Hello);
  await nextMessage(worker);
  return worker;
}
