// type_tables.ts: which functions stand in the tables of Python's types, by their place in WebAssembly's table. Knows how
// CPython lays out types, methods and built-in functions (Include/cpython/object.h, methodobject.h) where a pointer has
// four bytes; knows no single type.
import type { Runtime } from "./minimal_runtime";

/** What questions.py says is at work: addresses of types, of built-in functions and methods, and the names that are used. */
export interface AtWork {
  types: number[];
  functions: number[];
  words: string[];
}

const TYPE_WORDS = 56;
/** Where a type points to further tables, in words, and how many those hold: async, number, sequence, mapping, buffer. */
const FURTHER: [at: number, count: number][] = [[10, 4], [12, 36], [13, 10], [14, 3], [20, 2]];
const [METHODS, ATTRIBUTES] = [29, 31];
const [METHOD_WORDS, ATTRIBUTE_WORDS] = [4, 5];
const DEFINITION = 2; // where a built-in function points to its method
const FUNCTION_WORDS = 7; // of a function or method; the last says how it is called

/**
 * Places in WebAssembly's table. A word that is no function's place, such as a size, may be among them: it keeps a
 * function too many, never one too few.
 */
export function placesOf(runtime: Runtime, { types, functions, words }: AtWork): Set<number> {
  const known = new Set(words);
  const found = new Set<number>();
  const word = (address: number, at: number): number => runtime.HEAPU32[(address >>> 2) + at] ?? 0;
  const take = (address: number, count: number): void => {
    for (let i = 0; i < count; i++) found.add(word(address, i));
  };
  for (const type of types) {
    take(type, TYPE_WORDS);
    for (const [at, count] of FURTHER) if (word(type, at)) take(word(type, at), count);
    for (let each = word(type, METHODS); each && word(each, 0); each += 4 * METHOD_WORDS) {
      const name = text(runtime, word(each, 0));
      if (known.has(name) || name.startsWith("__")) found.add(word(each, 1));
    }
    for (let each = word(type, ATTRIBUTES); each && word(each, 0); each += 4 * ATTRIBUTE_WORDS) found.add(word(each, 1));
  }
  for (const each of functions) {
    found.add(word(word(each, DEFINITION), 1));
    take(each, FUNCTION_WORDS);
  }
  return found;
}

function text(runtime: Runtime, address: number): string {
  const end = runtime.HEAPU8.indexOf(0, address);
  return new TextDecoder().decode(runtime.HEAPU8.subarray(address, end));
}
