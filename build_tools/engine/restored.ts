// restored.ts: the snapshot put back under Node, with the bundles of calculators beside it. Knows files; knows no answer.
import { readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import { minimalRuntime } from "./minimal_runtime";
import { type Door, openDoor, openTake } from "./door";
import { restore, unpack } from "./snapshot_format";

/**
 * @param memory the snapshot, uncompressed
 * @param bundles the file of each calculator
 * @param onInstance called with the machine code before it runs
 */
export async function restored(
  wasm: WebAssembly.Module,
  memory: Uint8Array<ArrayBuffer>,
  bundles: Record<string, string>,
  onInstance?: (instance: WebAssembly.Instance) => void,
): Promise<Door> {
  const snapshot = unpack(memory.slice().buffer);
  const runtime = await minimalRuntime({ wasm, memory: snapshot.memory, ...(onInstance ? { onInstance } : {}) });
  restore(runtime, snapshot);
  const door = openDoor(runtime, snapshot.door);
  const take = openTake(runtime, snapshot.take);
  const taken = new Set<string>();
  return (name, ...rest) => {
    const bundle = taken.has(name) ? undefined : bundles[name];
    if (bundle) take(gunzipSync(readFileSync(bundle)));
    taken.add(name);
    return door(name, ...rest);
  };
}
