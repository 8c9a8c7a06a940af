// ticks.ts: which steps of a plan are done, as the few letters that a link carries. Knows keys of steps; knows no page.
// Each step is three letters made from its key, so the link stays short enough for a QR code, and a tick stays with its
// step when the plan around it changes. tests/calculators/drivers holds that no two steps of a plan share them.

const LETTERS = 3;
const CODES = 36 ** LETTERS;

/** A step's three letters: the 32-bit FNV-1a sum of its key, in base 36. */
export function code(key: string): string {
  let sum = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(key)) sum = Math.imul(sum ^ byte, 0x01000193) >>> 0;
  return (sum % CODES).toString(36).padStart(LETTERS, "0");
}

/** The codes in a link's text; what is cut off or none of ours is left out. */
export function read(text: string): Set<string> {
  return new Set(text.toLowerCase().match(/[0-9a-z]{3}/g) ?? []);
}

/** The text for a link: the codes of these keys that are ticked, in the plan's order. */
export function write(keys: string[], ticked: Set<string>): string {
  return keys.map(code).filter((each) => ticked.has(each)).join("");
}
