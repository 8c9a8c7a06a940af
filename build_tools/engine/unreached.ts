// unreached.ts: finds out which functions of a WebAssembly file run, and writes the file without the others' bodies.
// Knows the form of a file (wasm_file.ts); knows no Python and nothing of what is run.
//
// No function changes its number, so everything that calls by number, or through the table, stays as it is. Where a
// function that was cut is called all the same, WebAssembly itself traps: there is never another result.
import {
  type Section, CODE, ELEMENTS, EXPORTS, IMPORTS, MEMORIES, OF_MEMORY, Reader, bodies, codeOf, elementsOf, exportSection, exportsOf,
  instructionsOf, joined, number, sections, signed, whole,
} from "./wasm_file";
import { calledBy } from "./wasm_calls";

export const COVERAGE = "coverage";
const PAGE = 65536;
const MANY_MEMORIES = 0x40; // in an access to memory: the number of the memory follows
const [CONSTANT, STORE_BYTE, TRAP, END] = [0x41, 0x3a, 0x00, 0x0b];
const EMPTY = Uint8Array.of(0, 0x61, 0x73, 0x6d, 1, 0, 0, 0);
const TYPES = 1;
const CUT = Uint8Array.of(0, TRAP, END); // no local variables

/** The same file, in which each function first writes a 1 at its own place in a second memory, exported as COVERAGE. */
export function marked(file: Uint8Array): Uint8Array<ArrayBuffer> {
  const parts = sections(file);
  const memory = memoriesIn(parts);
  const all = bodies(content(parts, CODE));
  const withMarks = all.map((body, i) => {
    const start = instructionsOf(body);
    const mark = joined([
      Uint8Array.of(CONSTANT), signed(i), Uint8Array.of(CONSTANT, 1),
      Uint8Array.of(STORE_BYTE, MANY_MEMORIES), number(memory), number(0),
    ]);
    return joined([body.subarray(0, start), mark, body.subarray(start)]);
  });
  const exported = [...exportsOf(content(parts, EXPORTS)), { name: COVERAGE, kind: OF_MEMORY, index: memory }];
  const own = new Reader(content(parts, MEMORIES));
  const count = own.number();
  const memories = joined([
    number(count + 1), own.bytes(content(parts, MEMORIES).length - own.at),
    Uint8Array.of(0), number(Math.ceil(all.length / PAGE)),
  ]);
  return whole(file, replaced(parts, { [CODE]: codeOf(withMarks), [EXPORTS]: exportSection(exported), [MEMORIES]: memories }));
}

/**
 * The same file with a trap in place of each body that did not run, and without the names that nobody asks for.
 * @param ran one byte for each function with a body: not 0 where it ran
 * @param needed whether an exported name is asked for
 */
export function cut(file: Uint8Array, ran: Uint8Array, needed: (name: string) => boolean): Uint8Array<ArrayBuffer> {
  const parts = sections(file);
  const all = bodies(content(parts, CODE));
  if (ran.length < all.length) throw new Error("there are fewer marks than functions");
  const left = all.map((body, i) => (ran[i] || body.length < CUT.length ? body : CUT));
  const exported = exportsOf(content(parts, EXPORTS)).filter(({ name }) => needed(name));
  return whole(file, replaced(parts, { [CODE]: codeOf(left), [EXPORTS]: exportSection(exported) }));
}

/** The same marks, and one for each function that a marked one calls directly, and that calls, and so on. */
export function withCalled(file: Uint8Array<ArrayBuffer>, ran: Uint8Array): Uint8Array {
  const parts = sections(file);
  const all = bodies(content(parts, CODE));
  const imported = importsOf(parts).filter(({ kind }) => kind === "function").length;
  const reached = ran.slice(0, all.length);
  const due = [...reached.keys()].filter((i) => reached[i]);
  for (let at = due.pop(); at !== undefined; at = due.pop()) {
    for (const called of calledBy(all[at]!)) {
      const next = called - imported; // imported functions have no body here
      if (next < 0 || reached[next]) continue;
      reached[next] = 1;
      due.push(next);
    }
  }
  return reached;
}

/** Mark the functions at these places of the table by which WebAssembly calls indirectly. */
export function markPlaces(file: Uint8Array<ArrayBuffer>, places: Set<number>, marks: Uint8Array): void {
  const parts = sections(file);
  const imported = importsOf(parts).filter(({ kind }) => kind === "function").length;
  const { first, functions } = elementsOf(content(parts, ELEMENTS));
  for (const place of places) {
    const own = (functions[place - first] ?? -1) - imported;
    if (own >= 0) marks[own] = 1;
  }
}

/**
 * Mark the table's short functions that stand beside a marked one. Functions side by side in the C source often serve
 * variants of one type, and C chooses between them through arrays of pointers, which cannot be analysed here.
 * @param distance how many functions away from a marked one still counts as beside it
 * @param longest the most bytes that such a function may have
 */
export function markNeighbours(file: Uint8Array<ArrayBuffer>, marks: Uint8Array, distance: number, longest: number): void {
  const parts = sections(file);
  const all = bodies(content(parts, CODE));
  const imported = importsOf(parts).filter(({ kind }) => kind === "function").length;
  const before = marks.slice();
  for (const called of elementsOf(content(parts, ELEMENTS)).functions) {
    const own = called - imported;
    if (own < 0 || all[own]!.length > longest) continue;
    if (before.subarray(Math.max(0, own - distance), own + distance + 1).some(Boolean)) marks[own] = 1;
  }
}

export function functionsIn(file: Uint8Array): number {
  return bodies(content(sections(file), CODE)).length;
}

function content(parts: Section[], id: number): Uint8Array {
  const part = parts.find((each) => each.id === id);
  if (!part) throw new Error(`the WebAssembly file has no section ${id}`);
  return part.content;
}

function replaced(parts: Section[], by: Record<number, Uint8Array>): Section[] {
  return parts.map(({ id, content }) => ({ id, content: by[id] ?? content }));
}

/** How many memories the file has already, those that it imports included. */
function memoriesIn(parts: Section[]): number {
  return importsOf(parts).filter(({ kind }) => kind === "memory").length + new Reader(content(parts, MEMORIES)).number();
}

/** What the file imports. WebAssembly itself reads it, from a file made of the sections for types and imports alone. */
function importsOf(parts: Section[]): WebAssembly.ModuleImportDescriptor[] {
  const alone = parts.filter(({ id }) => id === TYPES || id === IMPORTS);
  return WebAssembly.Module.imports(new WebAssembly.Module(whole(EMPTY, alone)));
}
