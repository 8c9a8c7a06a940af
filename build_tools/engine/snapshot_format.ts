// snapshot_format.ts: the file format of the snapshot: the bytes of Python's memory that differ from those of a runtime just
// set up. Knows bytes and runs of bytes; knows no Python.
//
// Nine little-endian numbers of 32 bits: magic, memory in bytes, stack pointer, the addresses of the door and of the function
// that takes bundles, end of the memory in use, checksum, end of what setting up writes, number of runs. Then the runs, as
// pairs of numbers (distance from the end of the run before, length), then their bytes.
import { type Runtime, trampolineSlot } from "./minimal_runtime";

const MAGIC = 0x324d4157; // "WAM2"
const HEAD = 9;
// What setting up leaves on the stack is no part of the memory: so far below its top, it is cleared.
const STACK_SCRATCH = 65536;

export interface Snapshot {
  memory: number;
  stack: number;
  door: number;
  take: number;
  used: number;
  checksum: number;
  fresh: number;
  runs: Uint32Array;
  bytes: Uint8Array;
}

export function pack(snapshot: Snapshot): Uint8Array<ArrayBuffer> {
  const head = new Uint32Array(HEAD + snapshot.runs.length);
  head.set([MAGIC, snapshot.memory, snapshot.stack, snapshot.door, snapshot.take, snapshot.used, snapshot.checksum, snapshot.fresh, snapshot.runs.length / 2]);
  head.set(snapshot.runs, HEAD);
  const whole = new Uint8Array(head.byteLength + snapshot.bytes.length);
  whole.set(new Uint8Array(head.buffer));
  whole.set(snapshot.bytes, head.byteLength);
  return whole;
}

export function unpack(whole: ArrayBuffer): Snapshot {
  const head = new Uint32Array(whole, 0, HEAD);
  const [magic, memory = 0, stack = 0, door = 0, take = 0, used = 0, checksum = 0, fresh = 0, count = 0] = head;
  if (magic !== MAGIC) throw new Error("the snapshot is not in our form");
  const runs = new Uint32Array(whole, HEAD * 4, count * 2);
  return { memory, stack, door, take, used, checksum, fresh, runs, bytes: new Uint8Array(whole, HEAD * 4 + runs.byteLength) };
}

/** Put the memory back into a runtime just set up, and compare with what was kept all that setting up has written to. */
export function restore(runtime: Runtime, snapshot: Snapshot): void {
  const heap = runtime.HEAPU8;
  if (heap.length < snapshot.used) throw new Error("the memory is smaller than that of the snapshot");
  // What lies behind is as the machine hands it out: all zeros.
  if (runtime._sbrk(0) !== snapshot.fresh) throw new Error("the runtime has been set up otherwise than for the snapshot");
  const own = trampolineSlot(runtime);
  const ownValue = runtime.HEAPU32[own] ?? 0;
  heap.fill(0, snapshot.stack - STACK_SCRATCH, snapshot.stack);
  let to = 0;
  let from = 0;
  for (let i = 0; i < snapshot.runs.length; i += 2) {
    to += snapshot.runs[i] ?? 0;
    const length = snapshot.runs[i + 1] ?? 0;
    heap.set(snapshot.bytes.subarray(from, from + length), to);
    to += length;
    from += length;
  }
  runtime.HEAPU32[own] = 0;
  const sum = checksumOf(runtime, snapshot.fresh, snapshot.stack);
  runtime.HEAPU32[own] = ownValue;
  if (sum !== snapshot.checksum) throw new Error("the memory that was put back differs from the snapshot");
  runtime.stackRestore(snapshot.stack);
}

/**
 * A checksum of what setting up writes to: below the stack, and from its top end on. Each word counts, and where it
 * stands. What comes later is whole because gzip's own checksum says so.
 */
export function checksumOf(runtime: Runtime, fresh: number, stack: number): number {
  const words = runtime.HEAPU32;
  const below = sum(words, 0, runtime._emscripten_stack_get_end(), 0x811c9dc5);
  return sum(words, stack - STACK_SCRATCH, fresh, below);
}

/** FNV-like, in four lanes so that it is quick. */
function sum(words: Uint32Array, from: number, to: number, seed: number): number {
  let [a, b, c, d] = [seed, seed + 1, seed + 2, seed + 3];
  const end = to >>> 2;
  for (let i = from >>> 2; i < end; i += 4) {
    a = Math.imul(a ^ words[i]!, 0x01000193);
    b = Math.imul(b ^ words[i + 1]!, 0x01000193);
    c = Math.imul(c ^ words[i + 2]!, 0x01000193);
    d = Math.imul(d ^ words[i + 3]!, 0x01000193);
  }
  return (a ^ (b << 7) ^ (b >>> 25) ^ (c << 14) ^ (c >>> 18) ^ (d << 21) ^ (d >>> 11)) >>> 0;
}
