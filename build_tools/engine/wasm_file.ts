// wasm_file.ts: takes a file of WebAssembly apart into its sections, and puts it together again. Knows the binary format
// (WebAssembly Core Specification, "Binary Format"); knows no single instruction and nothing of what the code does.

export const IMPORTS = 2;
export const MEMORIES = 5;
export const GLOBALS = 6;
export const EXPORTS = 7;
export const ELEMENTS = 9;
export const CODE = 10;
export const DATA = 11;
export const DATA_COUNT = 12;

export const OF_FUNCTION = 0;
export const OF_MEMORY = 2;
export const OF_GLOBAL = 3;

const PREAMBLE = 8;
const CONSTANT = 0x41;
const END = 0x0b;

export interface Section {
  id: number;
  content: Uint8Array;
}

export interface Export {
  name: string;
  kind: number;
  index: number;
}

export function sections(file: Uint8Array): Section[] {
  const reader = new Reader(file, PREAMBLE);
  const found: Section[] = [];
  while (!reader.atEnd) {
    const id = reader.byte();
    found.push({ id, content: reader.bytes(reader.number()) });
  }
  return found;
}

export function whole(preamble: Uint8Array, parts: Section[]): Uint8Array<ArrayBuffer> {
  return joined([
    preamble.subarray(0, PREAMBLE),
    ...parts.flatMap(({ id, content }) => [Uint8Array.of(id), number(content.length), content]),
  ]);
}

/** Every body of the code section, without the length before it: its local variables, then its instructions. */
export function bodies(code: Uint8Array): Uint8Array[] {
  const reader = new Reader(code);
  return Array.from({ length: reader.number() }, () => reader.bytes(reader.number()));
}

export function codeOf(all: Uint8Array[]): Uint8Array {
  return joined([number(all.length), ...all.flatMap((body) => [number(body.length), body])]);
}

/** Where the instructions of a body begin: behind what it says of its local variables. */
export function instructionsOf(body: Uint8Array): number {
  const reader = new Reader(body);
  for (let groups = reader.number(); groups > 0; groups--) {
    reader.number(); // how many
    reader.byte(); // of which type; none that a C compiler writes takes more than a byte
  }
  return reader.at;
}

export function exportsOf(content: Uint8Array): Export[] {
  const reader = new Reader(content);
  return Array.from({ length: reader.number() }, () => ({ name: reader.text(), kind: reader.byte(), index: reader.number() }));
}

export function exportSection(all: Export[]): Uint8Array {
  const encoder = new TextEncoder();
  const parts = all.flatMap(({ name, kind, index }) => {
    const text = encoder.encode(name);
    return [number(text.length), text, Uint8Array.of(kind), number(index)];
  });
  return joined([number(all.length), ...parts]);
}

/** The functions that the one segment of elements puts into the table: where its first stands, and their numbers. */
export function elementsOf(content: Uint8Array): { first: number; functions: number[] } {
  const reader = new Reader(content);
  const [count, kind, instruction] = [reader.number(), reader.number(), reader.byte()];
  if (count !== 1 || kind !== 0 || instruction !== CONSTANT) throw new Error("the table is filled in a way we do not know");
  const first = reader.number(); // below 64 it would need a sign; a linker begins at 1, which has none
  reader.byte(); // the end of the constant expression
  return { first, functions: Array.from({ length: reader.number() }, () => reader.number()) };
}

/** What each global begins with, where that is a constant of 32 bits; undefined from the first of another form on. */
export function globalsOf(content: Uint8Array): (number | undefined)[] {
  const reader = new Reader(content);
  const found: (number | undefined)[] = [];
  for (let left = reader.number(); left > 0; left--) {
    reader.bytes(2); // its type, and whether it changes
    const instruction = reader.byte();
    if (instruction === CONSTANT) found.push(reader.signed());
    else if (instruction === 0x42 || instruction === 0x23) reader.number();
    else if (instruction === 0x44) reader.bytes(8);
    else if (instruction === 0x43) reader.bytes(4);
    else return found;
    if (instruction !== CONSTANT) found.push(undefined);
    if (reader.byte() !== END) return found.slice(0, -1);
  }
  return found;
}

/** A piece of the data that fills memory before anything runs. */
export interface Segment {
  at: number;
  bytes: Uint8Array;
}

/** The segments of the data section; undefined where one does not stand at a fixed address. */
export function segmentsOf(content: Uint8Array): Segment[] | undefined {
  const reader = new Reader(content);
  const found: Segment[] = [];
  for (let left = reader.number(); left > 0; left--) {
    if (reader.number() !== 0 || reader.byte() !== CONSTANT) return undefined;
    const at = reader.signed();
    if (reader.byte() !== END) return undefined;
    found.push({ at, bytes: reader.bytes(reader.number()) });
  }
  return found;
}

export function dataSection(segments: Segment[]): Uint8Array {
  const parts = segments.flatMap(({ at, bytes }) => [
    Uint8Array.of(0, CONSTANT), signed(at), Uint8Array.of(END), number(bytes.length), bytes,
  ]);
  return joined([number(segments.length), ...parts]);
}

/** A whole number as the format writes it: LEB128, without a sign. */
export function number(value: number): Uint8Array {
  const bytes: number[] = [];
  do {
    const low = value & 0x7f;
    value >>>= 7;
    bytes.push(value ? low | 0x80 : low);
  } while (value);
  return Uint8Array.from(bytes);
}

/** A signed number (LEB128), as the instruction for a constant holds it. */
export function signed(value: number): Uint8Array {
  const bytes: number[] = [];
  for (;;) {
    const low = value & 0x7f;
    value >>= 7;
    const last = (value === 0 && !(low & 0x40)) || (value === -1 && low & 0x40);
    bytes.push(last ? low : low | 0x80);
    if (last) return Uint8Array.from(bytes);
  }
}

export function joined(parts: Uint8Array[]): Uint8Array<ArrayBuffer> {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

export class Reader {
  constructor(
    private readonly from: Uint8Array,
    public at = 0,
  ) {}

  get atEnd(): boolean {
    return this.at >= this.from.length;
  }

  byte(): number {
    const value = this.from[this.at++];
    if (value === undefined) throw new Error("the WebAssembly file ends too soon");
    return value;
  }

  number(): number {
    let value = 0;
    for (let shift = 0; ; shift += 7) {
      const byte = this.byte();
      value |= (byte & 0x7f) << shift;
      if (byte < 0x80) return value >>> 0;
    }
  }

  signed(): number {
    let value = 0;
    for (let shift = 0; ; shift += 7) {
      const byte = this.byte();
      value |= (byte & 0x7f) << shift;
      if (byte < 0x80) return shift < 25 && byte & 0x40 ? value | (-1 << (shift + 7)) : value;
    }
  }

  /** The lower and the upper 32 bits of a signed number of 64. */
  halves(): [number, number] {
    let value = 0n;
    for (let shift = 0n; ; shift += 7n) {
      const byte = this.byte();
      value |= BigInt(byte & 0x7f) << shift;
      if (byte < 0x80) return [Number(value & 0xffffffffn), Number((value >> 32n) & 0xffffffffn)];
    }
  }

  bytes(count: number): Uint8Array {
    if (this.at + count > this.from.length) throw new Error("the WebAssembly file ends too soon");
    this.at += count;
    return this.from.subarray(this.at - count, this.at);
  }

  text(): string {
    return new TextDecoder().decode(this.bytes(this.number()));
  }
}
