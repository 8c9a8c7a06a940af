// snapshot.ts: run by Node when the site is built: starts Python with the calculators in it and keeps its memory.
// Knows files and the runtime; the same files give the same bytes, whatever the day, the folder or the machine.
import { readFileSync, writeFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { type Runtime, minimalRuntime, trampolineSlot } from "./minimal_runtime";
import { openDoor } from "./door";
import { unread } from "./unread";
import { zeroFreed } from "./zero_freed";
import { checksumOf, pack, restore, unpack } from "./snapshot_format";
import { likeWorker } from "./like_worker";
import { type Places, bytesOf, run, textOf, wholePython } from "./whole_python";

interface Order extends Places {
  scout: string;
  inside: string;
  lean: string; // what both import
  into: string;
  bundles: string; // the folder for the calculators' bundles
}

const PAGE = 65536;
const ROOM = 1 << 20; // free memory for the first answers, so that the first of them need not ask for more
const GAP = 24; // up to so many equal bytes between two differences cost less, compressed, than a new run

async function main(order: Order): Promise<void> {
  likeWorker({ random: 0x5a, now: Date.UTC(2000, 0, 1), age: 0, step: 0, language: "en" });
  const wasm = await WebAssembly.compile(readFileSync(order.wasm));
  const scouted = await scout(wasm, order);
  const snapshot = await keep(wasm, order, scouted);
  // Python runs with a fixed seed for hashes, so these files alone decide about the bytes of the snapshot.
  const { used, memory } = snapshot;
  const setUp = await minimalRuntime({ wasm, memory });
  const fresh = setUp._sbrk(0);
  const bare = setUp.HEAPU8.slice(0, used);
  if (bare.subarray(fresh).some(Boolean)) throw new Error("setting up writes behind the memory that it has asked for");
  const checksum = checksumOf(snapshot.runtime, fresh, snapshot.stack);
  const unlike = await unstable(wasm, memory, bare, used);
  const { runs, bytes } = difference(snapshot.heap, bare, unlike);
  const whole = pack({ ...snapshot, fresh, checksum, runs, bytes });
  await prove(wasm, whole);
  // Compressed here, for hosts that do not; without a time or a name in it.
  writeFileSync(order.into, gzipSync(whole, { level: 9 }));
  console.log(JSON.stringify({ used, runs: runs.length / 2, unlike: unlike.filter(Boolean).length, bytes: whole.length }));
}

/** Runs scout.py, and writes the calculators' bundles that it makes. Returns its list of modules, as JSON. */
async function scout(wasm: WebAssembly.Module, order: Order): Promise<Uint8Array> {
  const runtime = await wholePython(wasm, order, beside(order));
  run(runtime, order.scout, "scout.py");
  const found = bytesOf(runtime, "/scouted.json");
  for (const name of (JSON.parse(new TextDecoder().decode(found)) as { bundles: string[] }).bundles) {
    writeFileSync(`${order.bundles}/${name}.bin`, gzipSync(bytesOf(runtime, `/bundles/${name}`), { level: 9 }));
  }
  return found;
}

const beside = ({ lean }: Order): Record<string, Uint8Array> => ({ "/lean_code.py": readFileSync(lean) });

async function keep(wasm: WebAssembly.Module, order: Order, scouted: Uint8Array) {
  const runtime = await wholePython(wasm, order, { ...beside(order), "/scouted.json": scouted });
  run(runtime, order.inside, "inside.py");
  const [door = 0, take = 0] = JSON.parse(textOf(runtime, "/door")) as number[];
  zeroFreed(runtime);
  for (const [start, end] of unread(readFileSync(order.wasm))) runtime.HEAPU8.fill(0, start, end); // as the cut file has it
  runtime.HEAPU32[trampolineSlot(runtime)] = 0;
  const used = Math.ceil(runtime._sbrk(0) / 16) * 16;
  const memory = Math.ceil((used + ROOM) / PAGE) * PAGE;
  const stack = runtime.stackSave();
  const heap = runtime.HEAPU8.slice(0, used);
  return { runtime, heap, memory, stack, door, take, used };
}

/**
 * 1 at the places whose bytes are not the same in every runtime just set up. Found by rule, not by list: set it up again with
 * other clocks, which also go on meanwhile, other random numbers, another language and other variables, and see what differs.
 */
async function unstable(wasm: WebAssembly.Module, memory: number, bare: Uint8Array, used: number): Promise<Uint8Array> {
  const found = new Uint8Array(used);
  // Ages whose bytes all differ from one another, in milliseconds and in seconds: the runtime notes when it came up.
  for (const [random, age] of [[0x00, 16_909_060_123.75], [0xff, 4_278_124_287_456.5], [0x33, 77.25]] as const) {
    likeWorker({ random, now: Date.UTC(2024, 5, random), age, step: age / 3, language: random ? "pt-BR" : "zh" });
    const preRun = ({ ENV }: Runtime): void => void (ENV["HOME"] = `/home/somebody-${random}`);
    const other = (await minimalRuntime({ wasm, memory, preRun })).HEAPU8;
    for (let i = 0; i < used; i++) if (other[i] !== bare[i]) found[i] = 1;
  }
  return found;
}

function difference(heap: Uint8Array, bare: Uint8Array, unlike: Uint8Array): { runs: Uint32Array; bytes: Uint8Array } {
  const runs: number[] = [];
  const parts: Uint8Array[] = [];
  let end = 0; // of the last run
  let at = 0;
  const differs = (i: number): boolean => heap[i] !== bare[i] || unlike[i] === 1;
  while (at < heap.length) {
    if (!differs(at)) {
      at++;
      continue;
    }
    const start = at;
    let last = at;
    for (at++; at < heap.length && at - last <= GAP; at++) if (differs(at)) last = at;
    runs.push(start - end, last + 1 - start);
    parts.push(heap.subarray(start, last + 1));
    end = last + 1;
    at = end;
  }
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let filled = 0;
  for (const part of parts) {
    bytes.set(part, filled);
    filled += part.length;
  }
  return { runs: Uint32Array.from(runs), bytes };
}

/** Try the snapshot as a browser will: put the memory back, and ask for an answer. */
async function prove(wasm: WebAssembly.Module, whole: Uint8Array<ArrayBuffer>): Promise<void> {
  likeWorker({ random: 0x77, now: Date.UTC(2030, 1, 2), age: 31_536_000_001.5, step: 1, language: "de" });
  const snapshot = unpack(whole.slice().buffer);
  const runtime = await minimalRuntime({ wasm, memory: snapshot.memory });
  restore(runtime, snapshot);
  const door = openDoor(runtime, snapshot.door);
  const answer = JSON.parse(door("no.such", "{}", "html", "proof")) as { fault?: string };
  if (!answer.fault?.includes("no.such")) throw new Error(`the snapshot does not answer: ${JSON.stringify(answer)}`);
}

const { argv, env, exit } = process; // the runtime must not see it
env["TZ"] = "UTC"; // Node follows this at once; Python notes its time zone
await main(JSON.parse(argv[2] ?? "{}") as Order);
exit(0); // without `process` Node would wait for ever
