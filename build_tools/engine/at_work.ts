// at_work.ts: what a worker does, however Python is started in it: starts, then answers. Knows messages and Python's
// door; knows no page, and fetches nothing: the page hands it every byte.
import type { Door } from "./door";
import type { Begin, Bundle, Hello, Message, Piece, Question, Runtime, StartTrouble } from "./messages";
import { mayCompile } from "./may_compile";
import { unpacked } from "./gunzip";

/** Python, started: its door, and how large its memory is now, in bytes. */
export interface Started {
  door: Door;
  heap: () => number;
  /** Takes up a calculator's bundle; where there is none, every calculator is there from the start. */
  take?: (bundle: Uint8Array) => void;
}

/**
 * Begin at the page's first message with all that needs no file, and go on as the page brings them.
 * @param kind the way of starting that this worker has
 * @param trouble what it means for the page if that fails
 * @param onPiece takes what arrives in pieces
 */
export function work<Kind extends Begin["kind"]>(
  kind: Kind,
  trouble: StartTrouble,
  begin: (told: Promise<Extract<Begin, { kind: Kind }>>, wasm: Promise<WebAssembly.Module>) => Promise<Started>,
  onPiece?: (piece: Uint8Array<ArrayBuffer>) => void,
): void {
  const [told, tell] = awaited<Extract<Begin, { kind: Kind }>>();
  const [wasm, bring] = awaited<WebAssembly.Module>();
  let python: Started | undefined;
  let starting: Promise<void> | undefined;

  function take({ file }: Bundle): void {
    try {
      python?.take?.(new Uint8Array(file));
    } catch (error) {
      console.warn("A calculator could not be taken up:", error); // the question that follows tells the page
    }
  }

  async function start(): Promise<void> {
    if (typeof WebAssembly !== "object") return fail("browser", "no WebAssembly");
    try {
      await mayCompile();
    } catch (error) {
      return fail("policy", error);
    }
    try {
      python = await begin(told, wasm);
      say({ kind: "ready", how: kind, heap: python.heap() });
    } catch (error) {
      fail(trouble, error);
    }
  }

  self.onmessage = ({ data }: MessageEvent<Hello | Piece | Begin | Runtime | Bundle | string>) => {
    if (typeof data !== "string") {
      if (data.kind === "hello") say({ kind: "up" });
      starting ??= start(); // now that it has been said: setting up keeps this thread for a while
      if (data.kind === "hello") return;
      if (data.kind === "piece") return onPiece?.(data.piece);
      if (data.kind === "bundle") return take(data);
      return data.kind === "runtime" ? bring(compiled(data.wasm)) : tell(data as Extract<Begin, { kind: Kind }>);
    }
    const { id, name, inputs, wanted, prefix } = JSON.parse(data) as Question;
    try {
      if (!python) throw new Error("asked before the start");
      say({ kind: "answer", id, answer: python.door(name, inputs, wanted, prefix), heap: python.heap() });
    } catch (error) {
      // What ends within WebAssembly, or what it calls, leaves Python in the middle of something. An Error of no further
      // kind is one of ours, thrown outside of it.
      const stopped = (error as Error).constructor !== Error;
      say({ kind: stopped ? "stopped" : "fault", id, detail: String(error) });
    }
  };
}

function awaited<T>(): [Promise<T>, (value: T | Promise<T>) => void] {
  let bring: (value: T | Promise<T>) => void = () => undefined;
  return [new Promise<T>((resolve) => (bring = resolve)), bring];
}

async function compiled(wasm: Runtime["wasm"]): Promise<WebAssembly.Module> {
  return wasm instanceof WebAssembly.Module ? wasm : WebAssembly.compile(await unpacked(wasm));
}

function say(message: Message): void {
  self.postMessage(message);
}

function fail(why: StartTrouble, detail: unknown): void {
  say({ kind: "failed", why, detail: String(detail) });
}
