// worker.ts: the quick worker: puts back the snapshot, and answers from it. Knows no library.
import "./no_network";
import { type Started, work } from "./at_work";
import { minimalRuntime } from "./minimal_runtime";
import { openDoor, openTake } from "./door";
import { restore, unpack } from "./snapshot_format";
import { Unpacking, unpacked } from "./gunzip";

/** How large the snapshot is, in bytes: known before it comes, so that the runtime is set up meanwhile. */
declare const __MEMORY_BYTES__: number;

const arriving = new Unpacking();

async function start(told: Promise<{ memory?: ArrayBuffer }>, wasm: Promise<WebAssembly.Module>): Promise<Started> {
  const coming = told.then(async ({ memory }) => unpack(await (memory ? unpacked(memory) : arriving.end())));
  coming.catch(() => undefined); // told below
  const runtime = await minimalRuntime({ wasm, memory: __MEMORY_BYTES__ });
  const snapshot = await coming;
  if (snapshot.memory !== __MEMORY_BYTES__) throw new Error("the snapshot is that of another build");
  restore(runtime, snapshot);
  return { door: openDoor(runtime, snapshot.door), take: openTake(runtime, snapshot.take), heap: () => runtime.HEAPU8.length };
}

work("snapshot", "memory", start, (piece) => arriving.take(piece));
