// snapshot_format.ts: the form in which Python's memory is kept: what differs from a runtime just set up. Knows bytes and runs of
// bytes; knows no Python.
//
// Nine little-endian numbers of 32 bits: magic, memory in bytes, stack pointer, addresses of the door and of the function
// that takes up bundles, end of what is used, checksum, end of what setting up writes, number of runs. Then the runs as pairs (distance from the end of the run
// before, length), then their bytes.
import { type Runtime, browsersOwn } from "./minimal_runtime";

const MAGIC = 0x324d4157; // "WAM2"
const HEAD = 9;
// What setting up leaves on the stack is no part of the memory: so far below its top, it is cleared.
const STACK_SCRATCH = 65536;

export interface Kept {
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

export function pack(kept: Kept): Uint8Array<ArrayBuffer> {
  const head = new Uint32Array(HEAD + kept.runs.length);
  head.set([MAGIC, kept.memory, kept.stack, kept.door, kept.take, kept.used, kept.checksum, kept.fresh, kept.runs.length / 2]);
  head.set(kept.runs, HEAD);
  const whole = new Uint8Array(head.byteLength + kept.bytes.length);
  whole.set(new Uint8Array(head.buffer));
  whole.set(kept.bytes, head.byteLength);
  return whole;
}

export function unpack(whole: ArrayBuffer): Kept {
  const head = new Uint32Array(whole, 0, HEAD);
  const [magic, memory = 0, stack = 0, door = 0, take = 0, used = 0, checksum = 0, fresh = 0, count = 0] = head;
  if (magic !== MAGIC) throw new Error("the kept memory is not in our form");
  const runs = new Uint32Array(whole, HEAD * 4, count * 2);
  return { memory, stack, door, take, used, checksum, fresh, runs, bytes: new Uint8Array(whole, HEAD * 4 + runs.byteLength) };
}

/** Put the memory back into a runtime just set up, and compare with what was kept all that setting up has written to. */
export function restore(runtime: Runtime, kept: Kept): void {
  const heap = runtime.HEAPU8;
  if (heap.length < kept.used) throw new Error("the memory is smaller than the kept one");
  // What lies behind is as the machine hands it out: all zeros.
  if (runtime._sbrk(0) !== kept.fresh) throw new Error("the runtime has been set up otherwise than when it was kept");
  const own = browsersOwn(runtime);
  const ownValue = runtime.HEAPU32[own] ?? 0;
  heap.fill(0, kept.stack - STACK_SCRATCH, kept.stack);
  let to = 0;
  let from = 0;
  for (let i = 0; i < kept.runs.length; i += 2) {
    to += kept.runs[i] ?? 0;
    const length = kept.runs[i + 1] ?? 0;
    heap.set(kept.bytes.subarray(from, from + length), to);
    to += length;
    from += length;
  }
  runtime.HEAPU32[own] = 0;
  const sum = checksumOf(runtime, kept.fresh, kept.stack);
  runtime.HEAPU32[own] = ownValue;
  if (sum !== kept.checksum) throw new Error("the memory that was put back differs from the kept one");
  runtime.stackRestore(kept.stack);
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
