// box.ts: the box in which one searches, its hits, and the dialog that shows it on every page. Knows no ranking.
import type { Asking } from "../asking/asking";
import { bring } from "../shared/load_script";
import { Finder, type Results, type Hit, type Index } from "./rank";
import * as words from "./words";

declare global {
  interface Window {
    workedAnswersIndex?: Index;
  }
}

const FEWEST_WORDS = 4; // from here on what is typed counts as a whole question
const LISTING_LINES = 3;
const LONG_PASTE = 1200; // characters
const HERE = document.currentScript instanceof HTMLScriptElement ? document.currentScript.src : document.baseURI;
const ROOT = new URL("../../", HERE).href;
let finder: Finder | undefined;
let boxes = 0;

/** A box with its hits. It fetches the index as soon as somebody is about to type. */
export class FinderBox {
  readonly element = document.createElement("div");
  readonly field: HTMLInputElement | HTMLTextAreaElement;
  readonly #status = document.createElement("p");
  readonly #hits = document.createElement("ol");
  readonly #beyond = document.createElement("p");
  readonly #asked = document.createElement("div"); // of a whole question: what was read of it
  #asking: Promise<Asking> | undefined;
  #first: string[] = []; // pages that the reader of questions puts first

  /** @param whole whether it takes a whole question, and grows with it */
  constructor(private readonly whole = false) {
    this.field = document.createElement(whole ? "textarea" : "input");
    const id = `wa-find-${++boxes}`;
    this.element.className = "wa-find";
    this.element.setAttribute("role", "search");
    const label = document.createElement("label");
    label.htmlFor = id;
    label.textContent = whole ? words.FIND_OR_ASK : words.FIND;
    Object.assign(this.field, { id, autocomplete: "off", enterKeyHint: "search", spellcheck: false });
    Object.assign(this.field, whole ? { rows: 1 } : { type: "search" });
    this.field.setAttribute("aria-describedby", `${id}-told`);
    this.#status.id = `${id}-told`;
    this.#status.className = "wa-find-told";
    this.#status.setAttribute("role", "status");
    this.#status.textContent = this.#how();
    this.#hits.className = "wa-hits";
    this.#beyond.className = "wa-beyond";
    this.element.append(label, this.field, this.#status, this.#asked, this.#hits, this.#beyond);
    this.field.addEventListener("focus", () => void ready().catch(() => undefined), { once: true });
    this.field.addEventListener("input", () => {
      this.#grow();
      this.#read(this.field.value);
      void this.look();
    });
    if (whole) this.field.addEventListener("paste", (event) => this.#paste(event as ClipboardEvent));
    this.element.addEventListener("keydown", (event) => this.#key(event));
  }

  /** Show what answers the words in the field. `before`: what to say before the hits. */
  async look(before = ""): Promise<void> {
    const typed = this.field.value;
    if (typed.trim().length < 2) return this.#show(this.#how(), [], []);
    let ranking: Finder;
    try {
      const slow = setTimeout(() => (this.#status.textContent = words.COMING), 150);
      ranking = await ready().finally(() => clearTimeout(slow));
    } catch {
      return this.#show(words.NOT_COME, [], [link("index.html", words.ALL_QUESTIONS)]);
    }
    if (typed !== this.field.value) return; // more was typed meanwhile
    const results = this.#led(ranking.find(typed));
    this.#show([before, sentence(results)].filter(Boolean).join(" "), results.hits, beyond(results));
  }

  #how(): string {
    return this.whole ? words.ASK_HOW : words.FIND_HOW;
  }

  #grow(): void {
    if (!this.whole) return;
    this.field.style.height = "auto";
    this.field.style.height = `${this.field.scrollHeight + 3}px`; // its edges count
  }

  /** Have a whole question read: a few words are only looked for. */
  #read(typed: string, pasted = false): void {
    this.#first = [];
    const enough = pasted || typed.trim().split(/\s+/).length >= FEWEST_WORDS;
    if (!this.whole || (!enough && !this.#asking)) return;
    this.#asking ??= this.#begin();
    this.#asking.then(
      (asking) => asking.read(enough ? typed : "", pasted),
      () => (this.#asking = undefined), // the hits stay; the next word tries again
    );
  }

  async #begin(): Promise<Asking> {
    const style = document.createElement("link");
    Object.assign(style, { rel: "stylesheet", href: `${ROOT}made/browser/asking.css` });
    document.head.append(style);
    await Promise.all([bring(`${ROOT}made/browser/asking.js`), ready()]);
    if (!window.workedAnswersAsking) throw new Error("the reader of questions is empty");
    const pages = window.workedAnswersIndex?.pages ?? [];
    return window.workedAnswersAsking({
      root: ROOT,
      place: this.#asked,
      title: (page) => pages.find((entry) => entry.page === `answers/${page}`)?.question ?? "",
      lead: (first) => {
        this.#first = first;
        void this.look();
      },
    });
  }

  /** What a system printed holds names and numbers that are nobody's business: it never enters the field. */
  #paste(event: ClipboardEvent): void {
    const text = event.clipboardData?.getData("text/plain") ?? "";
    if (text.split("\n").filter((line) => line.trim()).length < LISTING_LINES && text.length < LONG_PASTE) return;
    event.preventDefault();
    this.field.value = "";
    this.#grow();
    this.#show(words.PASTE_HELD, [], []);
    this.#read(text, true);
  }

  /** The reader's pages before the finder's. */
  #led(results: Results): Results {
    const pages = window.workedAnswersIndex?.pages ?? [];
    const first = this.#first.flatMap((page) => pages.filter((entry) => entry.page === `answers/${page}`));
    if (first.length === 0) return results;
    const led = [...new Set(first)].map((entry) => ({ entry, score: Infinity }));
    const rest = results.hits.filter(({ entry }) => !first.includes(entry));
    return { ...results, hits: [...led, ...rest].slice(0, 6), sure: "good" };
  }

  #show(text: string, hits: Hit[], beyond: Node[]): void {
    if (this.#status.textContent !== text) this.#status.textContent = text;
    this.#hits.replaceChildren(...hits.map(row));
    this.#beyond.replaceChildren(...beyond);
    this.element.classList.toggle("wa-found", hits.length > 0);
  }

  /** Arrows go through the hits; Enter in the field goes to the first, which also folds a phone's keyboard away. */
  #key(event: KeyboardEvent): void {
    const links = [...this.#hits.querySelectorAll("a")];
    const at = links.indexOf(event.target as HTMLAnchorElement);
    const inField = event.target === this.field;
    if (event.isComposing) return;
    const leaves = this.field.selectionStart === this.field.value.length || !inField; // in several lines it goes down them
    if (event.key === "Enter" && inField && event.shiftKey && this.whole) return;
    if ((event.key === "ArrowDown" && leaves) || (event.key === "Enter" && inField)) links[at + 1]?.focus();
    else if (event.key === "ArrowUp" && !inField) (links[at - 1] ?? this.field).focus();
    else return;
    event.preventDefault();
  }
}

let dialog: HTMLDialogElement | undefined;

/** Begin to search: in the page's own box where it has one, else in the dialog. */
export function open(): void {
  const here = document.querySelector<HTMLElement>("main .wa-find :is(input, textarea)");
  if (here) return here.focus();
  dialog ??= makeDialog();
  if (dialog.open) return;
  dialog.showModal();
  dialog.querySelector("input")?.select();
}

function makeDialog(): HTMLDialogElement {
  const made = document.createElement("dialog");
  made.className = "wa-finder wa-prose";
  made.setAttribute("aria-label", words.FIND);
  const close = document.createElement("button");
  close.type = "button";
  close.className = "wa-finder-close";
  close.textContent = words.CLOSE;
  close.addEventListener("click", () => made.close());
  const box = new FinderBox();
  made.append(box.element, close); // the field comes first, for the keyboard too
  made.addEventListener("click", (event) => {
    const to = event.target;
    if (to === made || (to instanceof Element && to.closest(".wa-hits a, .wa-beyond a"))) made.close(); // beside it, or away
  });
  // Escape in a search field empties it first in some browsers; here it closes, as it does everywhere in a dialog.
  made.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    event.preventDefault();
    made.close();
  });
  // On a phone it is as high as the keyboard leaves it, so that the last hit can be reached.
  const fit = (): void => made.style.setProperty("--wa-seen", `${visualViewport?.height ?? innerHeight}px`);
  visualViewport?.addEventListener("resize", fit);
  fit();
  document.body.append(made);
  return made;
}

function sentence({ hits, sure }: Results): string {
  if (sure === "none") return words.NONE;
  return sure === "weak" ? words.WEAK : words.FOUND(hits.length);
}

function row({ entry }: Hit): HTMLLIElement {
  const item = document.createElement("li");
  const anchor = link(`${entry.page}.html`, entry.question);
  const subject = document.createElement("span");
  subject.className = "wa-hit-subject";
  subject.textContent = entry.subject;
  anchor.append(" ", subject); // where the line ends in between, neither is indented
  item.append(anchor);
  return item;
}

/** What else to do where nothing, or little, was found: the nearest subject, or all there are, and where to ask. */
function beyond({ sure, subject }: Results): Node[] {
  if (sure === "good") return [];
  const address = document.body.dataset["questions"] ?? "";
  const subjects = window.workedAnswersIndex?.subjects ?? [];
  const listed = subject ? [subject] : subjects;
  const parts: Node[] = [new Text(`${subject ? words.NEAREST : words.SUBJECTS} `)];
  listed.forEach((each, i) => parts.push(new Text(i ? ", " : ""), link(`index.html#${each}`, each)));
  parts.push(new Text(". "));
  if (address) {
    const ask = document.createElement("a");
    ask.className = "wa-ask";
    ask.textContent = words.ASK;
    const mail = !/^https?:/.test(address);
    ask.href = mail ? `mailto:${address.replace(/^mailto:/, "")}?subject=${encodeURIComponent(words.ASK_SUBJECT)}` : address;
    ask.rel = "noopener";
    parts.push(ask);
  } else if (subject) {
    const others = subjects.filter((each) => each !== subject);
    parts.push(new Text(`${words.SUBJECTS} `));
    others.forEach((each, i) => parts.push(new Text(i ? ", " : ""), link(`index.html#${each}`, each)));
    parts.push(new Text("."));
  }
  return parts;
}

function link(to: string, text: string): HTMLAnchorElement {
  const anchor = document.createElement("a");
  anchor.href = ROOT + to;
  anchor.textContent = text;
  return anchor;
}

/** The finder with its index; what does not come is asked for again the next time. */
async function ready(): Promise<Finder> {
  await bring(`${ROOT}made/finding/index.js`);
  if (!window.workedAnswersIndex) throw new Error("the index is empty");
  finder ??= new Finder(window.workedAnswersIndex);
  return finder;
}
