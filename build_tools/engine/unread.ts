// unread.ts: leaves out of a WebAssembly file the data that nothing reads once Python has started: its frozen modules, which
// are imported before the snapshot is taken, and the docstrings of functions and types written in C. Knows how CPython
// lays both out (Include/internal/pycore_import.h, _frozen; Objects/typeobject.c, SIGNATURE_END_MARKER).
//
// What is left out is as if it were zeros. No function is touched: whatever asks for a docstring finds an empty one.
import { addressesIn } from "./wasm_calls";
import {
  type Section, type Segment, CODE, DATA, DATA_COUNT, EXPORTS, GLOBALS, IMPORTS, OF_GLOBAL, bodies, dataSection, exportsOf,
  globalsOf, number, sections, segmentsOf, whole,
} from "./wasm_file";

const TABLES = ["_PyImport_FrozenBootstrap", "_PyImport_FrozenStdlib", "_PyImport_FrozenTest"];
const ROW = 16; // of a table: where its name and its code stand, how long the code is, whether it is a package
const A_NAME = /^[A-Za-z_][\w.]*$/;
const END_OF_SIGNATURE = ")\n--\n\n";
const GAP = 16; // fewer zeros than these cost less within a segment than the head of another

interface Image {
  bytes: Uint8Array;
  view: DataView;
}

/** Where in memory that data stands: from, and up to. Nowhere, where a file is not laid out as we know it. */
export function unread(file: Uint8Array<ArrayBuffer>): [number, number][] {
  const parts = sections(file);
  const image = imageOf(segmentsIn(parts));
  return [...frozen(parts, image), ...docstrings(parts, image)];
}

/** The same file without that data. */
export function withoutUnread(file: Uint8Array<ArrayBuffer>): Uint8Array<ArrayBuffer> {
  const parts = sections(file);
  const segments = segmentsIn(parts);
  const image = imageOf(segments);
  const spans = unread(file);
  if (!spans.length) return file;
  for (const [start, end] of spans) image.bytes.fill(0, start, end);
  const left = segments.flatMap((segment) => split(segment, image));
  const by: Record<number, Uint8Array> = { [DATA]: dataSection(left), [DATA_COUNT]: number(left.length) };
  return whole(file, parts.map(({ id, content }) => ({ id, content: by[id] ?? content })));
}

function segmentsIn(parts: Section[]): Segment[] {
  const data = parts.find(({ id }) => id === DATA);
  return (data && segmentsOf(data.content)) ?? [];
}

/** The memory as the segments fill it. */
function imageOf(segments: Segment[]): Image {
  const bytes = new Uint8Array(Math.max(0, ...segments.map(({ at, bytes }) => at + bytes.length)) + ROW);
  for (const segment of segments) bytes.set(segment.bytes, segment.at);
  return { bytes, view: new DataView(bytes.buffer) };
}

/** Where the code of each frozen module stands. Nothing, if one row is not as we know it. */
function frozen(parts: Section[], image: Image): [number, number][] {
  const exported = exportsOf(content(parts, EXPORTS));
  const globals = globalsOf(content(parts, GLOBALS));
  const imported = WebAssembly.Module.imports(new WebAssembly.Module(whole(EMPTY, importsAlone(parts))));
  const first = imported.filter(({ kind }) => kind === "global").length;
  const found: [number, number][] = [];
  for (const name of TABLES) {
    const own = exported.find((each) => each.name === name && each.kind === OF_GLOBAL);
    const pointer = own && globals[own.index - first];
    if (pointer === undefined || !within(pointer, image)) return [];
    for (let row = word(pointer, image); within(row, image) && word(row, image) !== 0; row += ROW) {
      const [called, code, size] = [word(row, image), word(row + 4, image), word(row + 8, image)];
      if (!A_NAME.test(textAt(called, image)) || size === 0 || !within(code, image) || !within(code + size, image)) return [];
      found.push([code, code + size]);
    }
  }
  return found;
}

/**
 * Where each docstring stands that begins with a signature, but for what something else points into: a linker lets a short
 * text share the end of a longer one.
 */
function docstrings(parts: Section[], image: Image): [number, number][] {
  const spans: [number, number][] = [];
  const mark = new TextEncoder().encode(END_OF_SIGNATURE);
  const { bytes } = image;
  for (let at = find(bytes, mark, 0); at >= 0; at = find(bytes, mark, at + 1)) {
    const start = bytes.lastIndexOf(0, at) + 1;
    if (spans.at(-1)?.[0] !== start) spans.push([start, bytes.indexOf(0, at)]);
  }
  const pointedAt = pointers(parts, image);
  return spans.map(([start, end]) => {
    let to = start + 1;
    while (to < end && !pointedAt[to]) to++;
    return [start, to];
  });
}

/** One byte for each address in the data: not 0 where the code or the data hold it as a number. */
function pointers(parts: Section[], image: Image): Uint8Array {
  const found = new Uint8Array(image.bytes.length);
  const note = (address: number): void => {
    if (address < found.length) found[address] = 1;
  };
  for (const body of bodies(content(parts, CODE))) for (const address of addressesIn(body)) note(address);
  for (const address of globalsOf(content(parts, GLOBALS))) note(address ?? 0);
  for (let at = 0; at + 4 <= image.bytes.length; at += 4) note(word(at, image));
  return found;
}

/** A segment as the image has it now, in pieces without long runs of zeros. */
function split({ at, bytes }: Segment, image: Image): Segment[] {
  const found: Segment[] = [];
  const now = image.bytes.subarray(at, at + bytes.length);
  let start = -1;
  let last = -1; // where the piece's last byte that is not 0 stands
  for (let i = 0; i < now.length; i++) {
    if (!now[i]) continue;
    if (start >= 0 && i - last > GAP) {
      found.push({ at: at + start, bytes: now.slice(start, last + 1) });
      start = i;
    }
    if (start < 0) start = i;
    last = i;
  }
  if (start >= 0) found.push({ at: at + start, bytes: now.slice(start, last + 1) });
  return found;
}

const EMPTY = Uint8Array.of(0, 0x61, 0x73, 0x6d, 1, 0, 0, 0);
const importsAlone = (parts: Section[]): Section[] => parts.filter(({ id }) => id === 1 || id === IMPORTS);
const within = (address: number, { bytes }: Image): boolean => address > 0 && address + ROW <= bytes.length;
const word = (address: number, { view }: Image): number => view.getUint32(address, true);

function textAt(address: number, { bytes }: Image): string {
  return new TextDecoder("latin1").decode(bytes.subarray(address, bytes.indexOf(0, address)));
}

function content(parts: Section[], id: number): Uint8Array {
  return parts.find((each) => each.id === id)?.content ?? Uint8Array.of(0);
}

function find(bytes: Uint8Array, wanted: Uint8Array, from: number): number {
  for (let at = bytes.indexOf(wanted[0]!, from); at >= 0; at = bytes.indexOf(wanted[0]!, at + 1)) {
    if (wanted.every((byte, i) => bytes[at + i] === byte)) return at;
  }
  return -1;
}
