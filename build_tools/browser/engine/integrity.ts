// integrity.ts: a file's SHA-256 as an integrity attribute has it. Knows hashes; knows no file.

/** Whether the browser computes hashes for this page: it does so over https, on this machine, and from most folders. */
export function canDigest(): boolean {
  return typeof crypto === "object" && typeof crypto.subtle === "object";
}

export async function integrityOf(file: ArrayBuffer): Promise<string> {
  const digest = canDigest() ? new Uint8Array(await crypto.subtle.digest("SHA-256", file)) : sha256(new Uint8Array(file));
  return `sha256-${btoa(String.fromCharCode(...digest))}`;
}

/** SHA-256 (FIPS 180-4), for browsers that compute none here: slower, and the same. */
export function sha256(file: Uint8Array): Uint8Array {
  const padded = new Uint8Array((file.length + 9 + 63) & ~63);
  padded.set(file);
  padded[file.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, Math.floor(file.length / 0x20000000));
  view.setUint32(padded.length - 4, (file.length << 3) >>> 0);
  const hash = Uint32Array.from(FIRST_PRIMES.slice(0, 8), (prime) => fraction(Math.sqrt(prime)));
  const constants = Uint32Array.from(FIRST_PRIMES, (prime) => fraction(Math.cbrt(prime)));
  const w = new Uint32Array(64);
  for (let at = 0; at < padded.length; at += 64) {
    for (let i = 0; i < 16; i++) w[i] = view.getUint32(at + 4 * i);
    for (let i = 16; i < 64; i++) {
      const [x, y] = [w[i - 15]!, w[i - 2]!];
      w[i] = w[i - 16]! + (turn(x, 7) ^ turn(x, 18) ^ (x >>> 3)) + w[i - 7]! + (turn(y, 17) ^ turn(y, 19) ^ (y >>> 10));
    }
    let [a, b, c, d, e, f, g, h] = hash as unknown as [number, number, number, number, number, number, number, number];
    for (let i = 0; i < 64; i++) {
      const one = (h + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + ((e & f) ^ (~e & g)) + constants[i]! + w[i]!) | 0;
      const two = ((turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      [h, g, f, e, d, c, b, a] = [g, f, e, (d + one) | 0, c, b, a, (one + two) | 0];
    }
    [a, b, c, d, e, f, g, h].forEach((value, i) => (hash[i]! += value));
  }
  const digest = new DataView(new ArrayBuffer(32));
  hash.forEach((value, i) => digest.setUint32(4 * i, value));
  return new Uint8Array(digest.buffer);
}

/** From the roots of these FIPS 180-4 takes its constants. */
const FIRST_PRIMES: number[] = [];
for (let n = 2; FIRST_PRIMES.length < 64; n++) if (FIRST_PRIMES.every((prime) => n % prime)) FIRST_PRIMES.push(n);
/** The first 32 bits of a number's fraction: a double holds 53 bits, and here the whole part takes three at most. */
const fraction = (value: number): number => Math.floor((value - Math.floor(value)) * 0x100000000);
/** Rotate 32 bits to the right. */
const turn = (value: number, by: number): number => (value >>> by) | (value << (32 - by));
