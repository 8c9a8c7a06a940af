// rank.ts: ranks the answers by how much of what is typed each matches, and how rare that is. Knows no page's HTML.
import { oneSlip, split, type Habits, type Term, Terms } from "./terms";

/** The index, as build_tools/finding/index.py makes it. */
export interface Index extends Habits {
  subjects: string[];
  pages: Entry[];
  calculators: Record<string, string>;
}

export interface Entry {
  page: string;
  question: string;
  title?: string;
  subject: string;
  words: string[];
  short: string;
  calculators: string[];
}

export interface Hit {
  entry: Entry;
  score: number;
}

/** `sure`: how well the best hit holds what was typed. `subject`: the nearest, where there is one. */
export interface Results {
  hits: Hit[];
  sure: "good" | "weak" | "none";
  subject: string;
}

// How much a word counts by where it stands. All figures of this file: common practice, no source; tuned on the tests'
// first list of searches.
const QUESTION = 3;
const WORDS = 2.4;
const SUBJECT = 1.2;
const SHORT = 1;
const CALCULATOR = 0.5;
const ENOUGH = 1.6; // the sum of these at which a word reaches half of its full weight; more places add less and less
// How much a word counts by how it was recognised.
const BEGINNING = 0.8;
const OTHER_NAME = 0.6;
const SLIP = 0.7;
const PARTS = 0.9;
const NEIGHBOURS = 0.35; // two words that also stand beside one another there
const WEAK_SHARE = 0.55; // a hit that holds less than this of what was typed is told as weak
const NO_SHARE = 0.3; // and one that holds less than this is no answer,
const ENOUGH_HELD = 3; // unless what it holds is as rare as a word of one page: a long question holds much besides
const KEEP_SHARE = 0.4; // hits that fall this far behind the best one are left out
const UNKNOWN_SHARE = 0.1; // a word that no page knows counts as one that this share of the pages knows
const OWN_NUMBER = 0.2; // a number that no page knows is the viewer's own, and tells little of the question
const SHORTEST_SLIP = 4;
const SLIP_AT_FIRST = 6; // letters from which on the first one, too, may be wrong: 'bread' is not 'read'
const SHORTEST_BEGINNING = 3;
const SHORTEST_UNDERWAY = 2; // of the last word, which may not be finished

type Scores = Map<number, number>;

export class Finder {
  readonly #terms: Terms;
  readonly #standing = new Map<string, Scores>(); // the inverted index: term → page → sum of the figures above
  readonly #words: string[];
  readonly #chosen = new Set<string>(); // words that a page's author chose: only for those is a slip forgiven
  readonly #pairs: Set<string>[];

  constructor(private readonly index: Index) {
    this.#terms = new Terms(index);
    this.#pairs = index.pages.map(() => new Set<string>());
    index.pages.forEach((entry, at) => {
      this.#take(entry.question, at, QUESTION);
      if (entry.title) this.#take(entry.title, at, QUESTION / 2);
      this.#take(entry.page.split("/").pop() ?? "", at, QUESTION / 2); // a file's name is its question in short
      for (const words of entry.words) this.#take(words, at, WORDS);
      this.#take(entry.subject, at, SUBJECT);
      this.#take(entry.short, at, SHORT);
      for (const name of entry.calculators) this.#take(index.calculators[name] ?? "", at, CALCULATOR);
    });
    this.#words = [...this.#standing.keys()];
  }

  /** The answers for what was typed, best first. */
  find(typed: string, most = 6): Results {
    const terms = this.#joined(this.#terms.of(typed.slice(0, 400)));
    const matches = terms.map((term, i) => this.#match(term, i === terms.length - 1 ? SHORTEST_UNDERWAY : undefined));
    const weights = matches.map((scores, i) => this.#rarity(scores.size) * (own(terms[i], scores) ? OWN_NUMBER : 1));
    const all = weights.reduce((sum, weight) => sum + weight, 0);
    // For `sure`, a term that no page has counts as if one page had it: it was asked for all the same.
    const asked = matches.reduce((sum, scores, i) => sum + (scores.size || own(terms[i], scores) ? (weights[i] ?? 0) : this.#rarity(1)), 0);
    const totals = new Map<number, { score: number; held: number }>();
    matches.forEach((scores, i) => {
      for (const [page, says] of scores) {
        const total = totals.get(page) ?? { score: 0, held: 0 };
        total.score += (weights[i] ?? 0) * (says / (says + ENOUGH));
        total.held += (weights[i] ?? 0) * Math.min(1, says);
        totals.set(page, total);
      }
    });
    const hits: (Hit & { held: number })[] = [];
    for (const [page, { score, held }] of totals) {
      const entry = this.index.pages[page];
      if (!entry || !all) continue;
      let beside = 0;
      for (let i = 1; i < terms.length; i++) {
        const pair = `${terms[i - 1]?.text} ${terms[i]?.text}`;
        if (this.#pairs[page]?.has(pair)) beside += NEIGHBOURS * Math.min(weights[i - 1] ?? 0, weights[i] ?? 0);
      }
      hits.push({ entry, score: (score + beside) * (0.4 + (0.6 * held) / all), held: held / all });
    }
    hits.sort((a, b) => b.score - a.score || a.entry.page.localeCompare(b.entry.page));
    const best = hits[0];
    if (!best || (best.held < NO_SHARE && best.held * all < ENOUGH_HELD)) return { hits: [], sure: "none", subject: this.#nearest(terms, hits) };
    const strong = hits.slice(0, most).filter((hit) => hit.score >= KEEP_SHARE * best.score);
    return {
      hits: strong.map(({ entry, score }) => ({ entry, score })),
      sure: (best.held * all) / asked >= WEAK_SHARE ? "good" : "weak",
      subject: this.#nearest(terms, hits),
    };
  }

  #take(text: string, page: number, counts: number): void {
    let before = "";
    for (const term of this.#terms.of(text)) {
      for (const form of new Set([term.text, ...term.parts])) {
        const scores = this.#standing.get(form) ?? new Map<number, number>();
        scores.set(page, (scores.get(page) ?? 0) + counts);
        this.#standing.set(form, scores);
        if (counts >= SUBJECT) this.#chosen.add(form);
      }
      if (before && counts > SUBJECT) this.#pairs[page]?.add(`${before} ${term.text}`);
      before = term.text;
    }
  }

  /** The terms, with two joined where the index knows them as one word: 'display port', 'wi fi'. */
  #joined(terms: Term[]): Term[] {
    const made: Term[] = [];
    for (let i = 0; i < terms.length; i++) {
      const [here, next] = [terms[i], terms[i + 1]];
      if (!here) continue;
      const one = next ? here.text + next.text : "";
      if (next && /^[a-z]+$/.test(one) && this.#standing.has(one)) {
        made.push({ text: one, parts: [here.text, next.text] });
        i++;
      } else made.push(here);
    }
    return made;
  }

  /** The pages that know a word, and how much it says in each. */
  #match(term: Term, shortest = SHORTEST_BEGINNING): Scores {
    const pages: Scores = new Map();
    const add = (word: string, share: number): void => {
      for (const [page, says] of this.#standing.get(word) ?? []) {
        pages.set(page, Math.max(pages.get(page) ?? 0, says * share));
      }
    };
    add(term.text, 1);
    for (const other of this.#terms.same(term.text)) add(other, OTHER_NAME);
    const numeric = /^[\d.]+$/.test(term.text);
    if (!numeric && term.text.length >= shortest) {
      for (const word of this.#words) if (word !== term.text && word.startsWith(term.text)) add(word, BEGINNING);
    }
    if (term.parts.length) this.#matchParts(term, pages);
    if (pages.size === 0 && !numeric && term.text.length >= SHORTEST_SLIP) {
      for (const word of this.#chosen) {
        if (word.length < SHORTEST_SLIP || !oneSlip(term.text, word)) continue;
        if (word[0] !== term.text[0] && word.length < SLIP_AT_FIRST) continue;
        add(word, SLIP);
        for (const other of this.#terms.same(word)) add(other, SLIP * OTHER_NAME);
      }
    }
    return pages;
  }

  /** Score a word with parts, such as '240hz': a page scores higher the more of the parts it holds. */
  #matchParts(term: Term, pages: Scores): void {
    const sums = new Map<number, number>();
    for (const part of term.parts) {
      const scores = this.#match({ text: part, parts: [] });
      const weight = this.#rarity(scores.size);
      const all = term.parts.reduce((sum, each) => sum + this.#rarity(this.#standing.get(each)?.size ?? 0), 0) || 1;
      for (const [page, says] of scores) sums.set(page, (sums.get(page) ?? 0) + (says * weight) / all);
    }
    for (const [page, says] of sums) pages.set(page, Math.max(pages.get(page) ?? 0, says * PARTS));
  }

  /** The weight of a term: higher the fewer pages hold it. One that no page holds gets little, or it would hide the rest. */
  #rarity(pages: number): number {
    const count = pages || Math.max(1, UNKNOWN_SHARE * this.index.pages.length);
    return Math.log(1 + (this.index.pages.length - count + 0.5) / (count + 0.5));
  }

  /** The subject that was typed by its name or another name for it; else, or of several, whose pages know most of it. */
  #nearest(terms: Term[], hits: Hit[]): string {
    const isNamed = (subject: string): boolean => {
      const name = this.#terms.of(subject)[0]?.text ?? "";
      const others = new Set(this.#terms.same(name));
      return terms.some((term) => oneSlip(term.text, name) || others.has(term.text));
    };
    const named = this.index.subjects.filter(isNamed);
    const sums = new Map<string, number>(named.map((subject) => [subject, 0]));
    for (const { entry, score } of hits) {
      if (named.length && !sums.has(entry.subject)) continue;
      sums.set(entry.subject, (sums.get(entry.subject) ?? 0) + score);
    }
    return [...sums].sort((a, b) => b[1] - a[1])[0]?.[0] ?? "";
  }
}

/** Whether a word is a number, with or without a unit, that no page holds. */
const own = (term: Term | undefined, scores: Scores): boolean => scores.size === 0 && /^\d/.test(term?.text ?? "");

/** Whether enough was typed to look for. */
export const worthLooking = (typed: string): boolean => split(typed).join("").length >= 2;
