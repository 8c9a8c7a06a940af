// restored.ts: the kept memory put back under Node, with the bundles of calculators beside it. Knows files; knows no answer.
import { readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import { minimalRuntime } from "./minimal_runtime";
import { type Door, openDoor, openTake } from "./door";
import { restore, unpack } from "./snapshot_format";

/**
 * @param memory the kept memory, uncompressed
 * @param bundles the file of each calculator
 * @param seen called with the machine code before it runs
 */
export async function restored(
  wasm: WebAssembly.Module,
  memory: Uint8Array<ArrayBuffer>,
  bundles: Record<string, string>,
  seen?: (instance: WebAssembly.Instance) => void,
): Promise<Door> {
  const kept = unpack(memory.slice().buffer);
  const runtime = await minimalRuntime({ wasm, memory: kept.memory, ...(seen ? { seen } : {}) });
  restore(runtime, kept);
  const door = openDoor(runtime, kept.door);
  const take = openTake(runtime, kept.take);
  const taken = new Set<string>();
  return (name, ...rest) => {
    const bundle = taken.has(name) ? undefined : bundles[name];
    if (bundle) take(gunzipSync(readFileSync(bundle)));
    taken.add(name);
    return door(name, ...rest);
  };
}
