// terms.ts: splits what is typed, and the texts of the index, into terms that can be compared. Knows no page.

/**
 * How viewers type, as build_tools/finding/everyday.py lists it: stop words, rows of synonyms (`same`), and pairs of
 * American and British spelling.
 */
export interface Habits {
  stop: string[];
  same: string[][];
  spellings: string[][];
}

/** A word's stem, and in `parts` the further terms that the word contains: 'ddr5' contains 'ddr' and '5'. */
export interface Term {
  text: string;
  parts: string[];
}

const NUMBER_AND_UNIT = /^(\d+(?:\.\d+)?)([a-z]+)$/; // 240hz, 16gb, 1.4a
const NAME_AND_NUMBER = /^([a-z]{2,})(\d+(?:\.\d+)?)$/; // cl30, ddr5, dp1.4
const TIMES = /^(\d{1,5})x(\d.*)$/; // 2560x1440, 2x16gb
const JOINED_UNITS = new Set(["k", "p"]); // 4k and 1440p are names of their own

export class Terms {
  readonly #stop: Set<string>;
  readonly #spelling = new Map<string, string>();
  readonly #same = new Map<string, Set<string>>();

  constructor(habits: Habits) {
    for (const [american = "", british = ""] of habits.spellings) this.#spelling.set(british, american);
    this.#stop = new Set(habits.stop);
    for (const row of habits.same) {
      const stems = row.map((word) => this.stem(word));
      for (const one of stems) {
        const others = this.#same.get(one) ?? new Set<string>();
        for (const other of stems) if (other !== one) others.add(other);
        this.#same.set(one, others);
      }
    }
  }

  /** The stems of a stem's synonyms. */
  same(stem: string): Iterable<string> {
    return this.#same.get(stem) ?? [];
  }

  /** The terms of a text without its stop words; all of them where it holds nothing but stop words. */
  of(text: string): Term[] {
    const words = split(text);
    const telling = words.filter((word) => !this.#stop.has(word));
    return (telling.length ? telling : words).map((word) => ({ text: this.stem(word), parts: this.#parts(word) }));
  }

  /** A word without its ending, in American spelling: 'colours' and 'color' have one stem, as have 'swapping' and 'swap'. */
  stem(word: string): string {
    if (/\d/.test(word)) return word;
    const one = plural(this.#spelling.get(word) ?? word);
    const spelled = this.#spelling.get(one) ?? one;
    return withoutEnding(spelled.replace(/^(\w{3,})our(s|ed|ing|ful)?$/, "$1or$2").replace(/is(e|ed|es|ing)$/, "iz$1"));
  }

  /** The terms inside a word of letters and digits: 'ddr' and '5' of 'ddr5', '1440' of '1440p'. */
  #parts(word: string): string[] {
    const joined = NUMBER_AND_UNIT.exec(word);
    if (joined) return [joined[1] ?? ""];
    const named = NAME_AND_NUMBER.exec(word);
    return named ? [this.stem(named[1] ?? ""), named[2] ?? ""] : [];
  }
}

/** Splits numbers and units that are written as one word: '2560x1440', '2x16gb', '240hz'. '1440p' stays whole. */
function apart(word: string): string[] {
  const times = TIMES.exec(word);
  if (times) return [times[1] ?? "", ...apart(times[2] ?? "")];
  const [, number = "", unit = ""] = NUMBER_AND_UNIT.exec(word) ?? [];
  return unit && !JOINED_UNITS.has(unit) ? [number, unit] : [word];
}

/** Small letters without accents, cut at everything that is neither letter nor digit; 3.5 and 4:2:2 stay whole. */
export function split(text: string): string[] {
  return text
    .toLowerCase()
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .replace(/[’'`]/g, "")
    .replace(/ß/g, "ss")
    .replace(/(\d)\s*[×x]\s*(?=\d)/g, "$1x")
    .replace(/(\d):(?=\d)/g, "$1")
    .replace(/(\d),(?=\d)/g, "$1.")
    .replace(/\b1[/⁄]4\b/g, "quarter")
    .replace(/\b1[/⁄]8\b/g, "eighth")
    .split(/[^a-z0-9.]+|\.(?!\d)|(?<!\d)\./)
    .filter(Boolean)
    .flatMap(apart);
}

function plural(word: string): string {
  if (word.length < 4 || /(?:ss|us|is)$/.test(word)) return word;
  if (word.endsWith("ies")) return `${word.slice(0, -3)}y`;
  if (/(?:xes|ches|shes|sses|zzes)$/.test(word)) return word.slice(0, -2);
  return word.endsWith("s") ? word.slice(0, -1) : word;
}

function withoutEnding(word: string): string {
  const root = /^(\w*[aeiouy]\w+)(?:ing|ed|est)$/.exec(word)?.[1];
  const cut = root && root.length >= 3 ? root.replace(/([^lsz])\1$/, "$1") : word;
  return cut.length > 3 && cut.endsWith("e") ? cut.slice(0, -1) : cut;
}

/** Whether two words differ by one slip: a letter wrong, missing, too many, or two swapped. */
export function oneSlip(a: string, b: string): boolean {
  if (a === b) return true;
  const [short, long] = a.length <= b.length ? [a, b] : [b, a];
  if (long.length - short.length > 1) return false;
  let at = 0;
  while (at < short.length && short[at] === long[at]) at++;
  if (short.length < long.length) return short.slice(at) === long.slice(at + 1);
  if (short.slice(at + 1) === long.slice(at + 1)) return true;
  return short[at] === long[at + 1] && short[at + 1] === long[at] && short.slice(at + 2) === long.slice(at + 2);
}
