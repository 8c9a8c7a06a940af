// terms.ts: takes what is typed, and what the index holds, apart into terms that compare. Knows no page.

/** How viewers type, as build_tools/finding/everyday.py lists it. */
export interface Habits {
  stop: string[];
  same: string[][];
  spellings: string[][];
}

/** One word as it is compared. `parts`: what it holds besides: 'ddr5' is a name, and the number 5 of 'ddr'. */
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

  /** What else people call it, as stems. */
  same(stem: string): Iterable<string> {
    return this.#same.get(stem) ?? [];
  }

  /** The words of a text without those that say nothing; all of them where it holds no other. */
  of(text: string): Term[] {
    const words = split(text);
    const telling = words.filter((word) => !this.#stop.has(word));
    return (telling.length ? telling : words).map((word) => ({ text: this.stem(word), parts: this.#parts(word) }));
  }

  /** A word without its ending, in one of the two spellings: 'colours' and 'color' are one, 'swapping' and 'swap', 'longest' and 'long'. */
  stem(word: string): string {
    if (/\d/.test(word)) return word;
    const one = plural(this.#spelling.get(word) ?? word);
    const spelled = this.#spelling.get(one) ?? one;
    return withoutEnding(spelled.replace(/^(\w{3,})our(s|ed|ing|ful)?$/, "$1or$2").replace(/is(e|ed|es|ing)$/, "iz$1"));
  }

  /** What a name with a number, or a name of its own, holds: 'ddr5', '1440p'. */
  #parts(word: string): string[] {
    const joined = NUMBER_AND_UNIT.exec(word);
    if (joined) return [joined[1] ?? ""];
    const named = NAME_AND_NUMBER.exec(word);
    return named ? [this.stem(named[1] ?? ""), named[2] ?? ""] : [];
  }
}

/** What is only written together falls apart: '2560x1440', '2x16gb', '240hz'. */
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
  const bare = /^(\w*[aeiouy]\w+)(?:ing|ed|est)$/.exec(word)?.[1];
  const cut = bare && bare.length >= 3 ? bare.replace(/([^lsz])\1$/, "$1") : word;
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
