// wasm_calls.ts: which functions a function's instructions call by number, and which addresses they hold. Knows how long
// each instruction is (WebAssembly Core Specification, "Binary Format", "Instructions"); knows nothing of what they do.
import { Reader, instructionsOf } from "./wasm_file";

const CALLS = new Set([0x10, 0x12]); // call, return_call
/** How many numbers follow an instruction, where it is not none: block types, labels, indices, alignments and offsets. */
const NUMBERS: Record<number, number> = {
  0x02: 1, 0x03: 1, 0x04: 1, 0x06: 1, 0x07: 1, 0x08: 1, 0x09: 1, 0x0c: 1, 0x0d: 1, 0x10: 1, 0x11: 2, 0x12: 1, 0x13: 2, 0x18: 1,
  0x20: 1, 0x21: 1, 0x22: 1, 0x23: 1, 0x24: 1, 0x25: 1, 0x26: 1, 0x3f: 1, 0x40: 1, 0x41: 1, 0x42: 1, 0xd0: 1, 0xd2: 1,
};
/** How many numbers follow an instruction of two bytes that begins with 0xfc: those that copy or fill memories and tables. */
const FURTHER_NUMBERS: Record<number, number> = { 8: 2, 9: 1, 10: 2, 11: 1, 12: 2, 13: 1, 14: 2, 15: 1, 16: 1, 17: 1 };
const [CONSTANT, LONG_CONSTANT] = [0x41, 0x42];
const [LABELS, CATCHING, TYPED_SELECT, FURTHER] = [0x0e, 0x1f, 0x1c, 0xfc];
const [FIRST_ACCESS, LAST_ACCESS] = [0x28, 0x3e]; // loads and stores: alignment and offset
const [SINGLE, DOUBLE] = [0x43, 0x44]; // constants of four and eight bytes
const LAST_PLAIN = 0xc4;

/** The numbers of the functions that a body calls directly, in the file's own count, imported ones included. */
export function calledBy(body: Uint8Array): Set<number> {
  const found = new Set<number>();
  const reader = new Reader(body, instructionsOf(body));
  while (!reader.atEnd) {
    const code = reader.byte();
    if (CALLS.has(code)) found.add(reader.number());
    else skip(code, reader);
  }
  return found;
}

/**
 * Every number in a body that may be an address: constants of 32 bits, both halves of those of 64 (a compiler writes two
 * pointers at once), and what loads and stores add to theirs.
 */
export function addressesIn(body: Uint8Array): Set<number> {
  const found = new Set<number>();
  const reader = new Reader(body, instructionsOf(body));
  while (!reader.atEnd) {
    const code = reader.byte();
    if (code === CONSTANT) found.add(reader.signed());
    else if (code === LONG_CONSTANT) for (const half of reader.halves()) found.add(half);
    else if (code >= FIRST_ACCESS && code <= LAST_ACCESS) {
      reader.number(); // the alignment
      found.add(reader.number());
    } else skip(code, reader);
  }
  return found;
}

function skip(code: number, reader: Reader): void {
  if (code >= FIRST_ACCESS && code <= LAST_ACCESS) numbers(reader, 2);
  else if (code === SINGLE) reader.bytes(4);
  else if (code === DOUBLE) reader.bytes(8);
  else if (code === LABELS) numbers(reader, reader.number() + 1);
  else if (code === TYPED_SELECT) numbers(reader, reader.number());
  else if (code === FURTHER) numbers(reader, FURTHER_NUMBERS[reader.number()] ?? 0);
  else if (code === CATCHING || (code > LAST_PLAIN && NUMBERS[code] === undefined && code !== 0xd1)) {
    throw new Error(`the machine code holds an instruction that we do not know: ${code.toString(16)}`);
  } else numbers(reader, NUMBERS[code] ?? 0);
}

function numbers(reader: Reader, count: number): void {
  for (let i = 0; i < count; i++) reader.number(); // with a sign or without, they are as long
}
