// messages.ts: what the page and the worker say to each other. Knows no page and no Python.

/** Page to worker, first of all: say that you are up. */
export interface Hello {
  kind: "hello";
}

/** Page to worker: the next bytes of the packed snapshot, while it arrives. */
export interface Piece {
  kind: "piece";
  piece: Uint8Array<ArrayBuffer>;
}

/** Page to worker, once: what it needs beside the runtime, since it fetches nothing itself. */
export type Begin =
  /** Put back the memory of a Python that the build started (the snapshot): `memory`, packed, or else what its pieces were. */
  | { kind: "snapshot"; memory?: ArrayBuffer }
  /** Start Python from nothing, as its runtime comes. */
  | { kind: "plain"; files: Record<string, ArrayBuffer> };

/** Page to worker, once, before or after the other: the runtime's machine code, compiled or as a file. */
export interface Runtime {
  kind: "runtime";
  wasm: WebAssembly.Module | ArrayBuffer;
}

/** Page to worker: one calculator's modules, uncompressed, before the first question about it. */
export interface Bundle {
  kind: "bundle";
  file: ArrayBuffer;
}

/**
 * Page to worker: compute one calculator, as JSON text. `inputs` is JSON text, passed on to Python as it is. Where a
 * card is wanted, `prefix` holds its options as JSON text.
 */
export interface Question {
  id: number;
  name: string;
  inputs: string;
  wanted: string;
  prefix: string;
}

/**
 * Why the engine could not start: the site's policy, an old browser, a file that did not come or did not fit, or a
 * snapshot that does not fit this browser (the plain start may still work).
 */
export type StartTrouble = "policy" | "browser" | "files" | "memory";

/** Worker to page. `answer` is the JSON text that Python made; a `fault` is ours, never the reader's. */
export type Message =
  | { kind: "up" }
  | { kind: "ready"; how: Begin["kind"]; heap: number }
  | { kind: "failed"; why: StartTrouble; detail: string }
  | { kind: "answer"; id: number; answer: string; heap: number }
  | { kind: "fault"; id: number; detail: string }
  /** The machine code has stopped: it was cut too far, or has run out of room. This worker's Python is of no use any more. */
  | { kind: "stopped"; id: number; detail: string };
