// folder_search.ts: searches the site when it is opened from a folder, where the theme's own search cannot work.
// Knows the theme's search box and the index that the build wrote; knows no calculator. A script of its own, which only
// pages in a folder bring.

type Entry = [location: string, title: string, text: string];

declare global {
  interface Window {
    waSearch?: Entry[];
  }
}

const MOST = 30;
const LEAST_LETTERS = 2;
const AROUND = 70; // letters of text shown before the first word found
const TEASER = 190;

/** @param root the address of the site's folder, ending in a slash */
function searchInFolder(root: string): void {
  const input = document.querySelector<HTMLInputElement>(".md-search__input");
  const meta = document.querySelector<HTMLElement>(".md-search-result__meta");
  const list = document.querySelector<HTMLElement>(".md-search-result__list");
  if (!input || !meta || !list || input.dataset["waFolder"]) return;
  input.dataset["waFolder"] = "";
  bringBack();
  openAndClose(input);
  const show = (): void => {
    const words = wordsOf(input.value);
    const found = words.length ? search(window.waSearch ?? [], words) : [];
    meta.textContent = words.length ? told(found.length) : "Type to search the answers";
    list.replaceChildren(...found.slice(0, MOST).map((entry) => item(root, entry, words)));
  };
  // After the theme's own listeners, which know of no result here.
  input.addEventListener("input", () => setTimeout(show));
  input.addEventListener("focus", () => setTimeout(show));
  input.form?.addEventListener("reset", () => setTimeout(show));
  if (!window.waSearch) {
    const script = document.createElement("script");
    script.src = `${root}search/search_index.js`;
    script.onload = () => input.value && show();
    document.head.append(script);
  }
}

/** The theme hides its search where its own cannot work, and may do so after us. */
function bringBack(): void {
  for (const part of document.querySelectorAll<HTMLElement>(".md-search, label[for=__search]")) {
    const show = (): void => {
      if (part.hidden) part.hidden = false;
    };
    show();
    new MutationObserver(show).observe(part, { attributes: true, attributeFilter: ["hidden"] });
  }
}

/** The list of results hangs on a checkbox of the theme's, which the theme's own search would tick. */
function openAndClose(input: HTMLInputElement): void {
  const toggle = document.querySelector<HTMLInputElement>("input[data-md-toggle=search]");
  if (!toggle) return;
  toggle.addEventListener("change", () => toggle.checked && input.focus());
  input.addEventListener("focus", () => (toggle.checked = true));
  document.addEventListener("keydown", ({ key }) => {
    if (key !== "Escape" || !toggle.checked) return;
    toggle.checked = false;
    input.blur();
  });
}

function wordsOf(text: string): string[] {
  return text.toLowerCase().split(/[\s,;:!?()"“”]+/).filter((word) => word.length >= LEAST_LETTERS);
}

/** Entries that hold every word, best first: words in a title count most, at the beginning of a word more than within. */
function search(entries: Entry[], words: string[]): Entry[] {
  const scored: [score: number, entry: Entry][] = [];
  for (const entry of entries) {
    const title = ` ${entry[1].toLowerCase()}`;
    const text = ` ${entry[2].toLowerCase()}`;
    let score = 0;
    for (const word of words) {
      const found = weight(title, word) * 20 + weight(text, word);
      if (!found) {
        score = 0;
        break;
      }
      score += found;
    }
    if (score) scored.push([score / Math.log(60 + text.length), entry]);
  }
  return scored.sort((a, b) => b[0] - a[0]).map(([, entry]) => entry);
}

function weight(text: string, word: string): number {
  let score = 0;
  for (let at = text.indexOf(word); at >= 0 && score < 12; at = text.indexOf(word, at + word.length)) {
    score += /[\p{L}\p{N}]/u.test(text[at - 1] ?? " ") ? 1 : 3;
  }
  return score;
}

function item(root: string, [location, title, text]: Entry, words: string[]): HTMLElement {
  const made = document.createElement("li");
  made.className = "md-search-result__item";
  const link = document.createElement("a");
  link.className = "md-search-result__link";
  link.href = root + location;
  const article = document.createElement("article");
  article.className = "md-search-result__article md-typeset";
  const heading = document.createElement("h2");
  heading.textContent = title;
  const teaser = document.createElement("p");
  const at = Math.max(0, Math.min(...words.map((word) => text.toLowerCase().indexOf(word)).filter((n) => n >= 0)) || 0);
  const start = at > AROUND && Number.isFinite(at) ? text.indexOf(" ", at - AROUND) + 1 : 0;
  teaser.textContent = (start ? "… " : "") + text.slice(start, start + TEASER) + (text.length > start + TEASER ? " …" : "");
  article.append(heading, teaser);
  link.append(article);
  made.append(link);
  return made;
}

function told(count: number): string {
  return count === 0 ? "Nothing found" : count === 1 ? "One place" : `${count} places`;
}

const HERE = document.currentScript instanceof HTMLScriptElement ? document.currentScript.src : document.baseURI;
searchInFolder(new URL("../../", HERE).href);

export {}; // a module, so that its names are its own
