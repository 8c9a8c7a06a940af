// worker.ts: the quick worker: puts back the memory that the build kept, and answers from it. Knows no library.
import "./no_network";
import { work } from "./at_work";
import { minimalRuntime } from "./minimal_runtime";
import { openDoor, openTake } from "./door";
import { restore, unpack } from "./snapshot_format";
import { unpacked } from "./gunzip";

/** How large the kept memory is, in bytes: known before it comes, so that the runtime is set up meanwhile. */
declare const __MEMORY_BYTES__: number;

work("kept", "memory", async (told, wasm) => {
  const coming = told.then(async ({ memory }) => unpack(await unpacked(memory)));
  coming.catch(() => undefined); // told below
  const runtime = await minimalRuntime({ wasm, memory: __MEMORY_BYTES__ });
  const kept = await coming;
  if (kept.memory !== __MEMORY_BYTES__) throw new Error("the kept memory is that of another build");
  restore(runtime, kept);
  return { door: openDoor(runtime, kept.door), take: openTake(runtime, kept.take), heap: () => runtime.HEAPU8.length };
});
