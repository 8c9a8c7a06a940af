// zero_freed.ts: fills memory that nobody uses with zeros, so that what is kept of it is small and the same every time.
// Knows how the C library's allocator lays out its chunks (dlmalloc); knows no Python.
import type { Runtime } from "./minimal_runtime";

const IN_USE = 2;
const LINKS = 16; // a free chunk's own head and its two links
const TREE_LINKS = 32; // a large one's links in its tree
const LARGE = 256;
const AT_END = 80; // the allocator keeps a few words at the end of its segment

export function zeroFreed(runtime: Runtime): void {
  const bytes = runtime.HEAPU8;
  for (const [start, size, used] of chunks(runtime)) {
    if (!used) bytes.fill(0, start + (size >= LARGE ? TREE_LINKS : LINKS), start + size);
  }
  bytes.fill(0, runtime._emscripten_stack_get_end(), runtime.stackSave());
  bytes.fill(0, runtime._sbrk(0));
}

/** Every chunk of the heap as (start, size, in use). The walk must arrive exactly at the heap's end. */
function chunks(runtime: Runtime): [number, number, boolean][] {
  const end = runtime._sbrk(0);
  for (let first = (runtime.___heap_base + 7) & ~7; first < runtime.___heap_base + 64; first += 8) {
    const found: [number, number, boolean][] = [];
    let at = first;
    for (;;) {
      const head = runtime.HEAPU32[(at + 4) >>> 2] ?? 0;
      const size = head & ~7;
      if (size < 16 || at + size > end) break;
      found.push([at, size, (head & IN_USE) !== 0]);
      at += size;
      if (end - at <= AT_END && found.length > 100) return found;
    }
  }
  throw new Error("the heap is not laid out as expected: has the runtime changed its allocator?");
}
