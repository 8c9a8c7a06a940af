// retouch.ts: where new markup has the tags of what stands, changes words and values in place. Knows markup as answers
// have it (calculators/desk/as_html.py). To have the browser read all of it anew is most of what a keystroke costs here.

import { NUMBER } from "../shared/folds";

const TOKEN = /<[^>]*>|[^<]+/g; // in a value, as in words, both signs are written as entities
const ATTRIBUTE = /\s([^\s=>/]+)(?:="([^"]*)")?/g;
const ENTITY = /&(amp|lt|gt|quot|#39);/g;
const CHARACTERS: Record<string, string> = { amp: "&", lt: "<", gt: ">", quot: '"', "#39": "'" };
const NOT_AS_WRITTEN = /&(?!(?:amp|lt|gt|quot|#39);)|[\r\0]/; // a browser reads something else there than stands there
const EMPTY = /^<(?:br|col|hr|img|input|source|wbr)\b|\/>$/; // has no end tag
const FOLDED_BY = /^(?:open|data-fold|data-step)$/; // what folds.ts goes by
const [ELEMENT, TEXT] = [1, 3]; // nodeType

/** A tag or a text of the markup, read once: most of an answer's are those of the answer before. */
interface Token {
  written: string;
  ends: boolean; // an end tag
  tag: string | undefined; // the name of another
  text: string; // of what is no tag
  empty: boolean; // nothing stands inside
}

/** Words and values in elements, as markup last put them there. */
export class Retouch {
  #places: Element[];
  #later: (rest: () => void) => void;
  #tokens: Token[] = [];
  #due: (() => void)[] = []; // what is still to be changed of the last markup

  /**
   * @param places which hold the markup's outermost elements, one after another
   * @param later what is called with the changes in all places but the first, where there are any: it may put them off
   */
  constructor(places: Element[], later = (rest: () => void): void => rest()) {
    this.#places = places;
    this.#later = later;
  }

  /** This markup has been put there by other means. */
  stands(markup: string): void {
    this.#tokens = this.#read(markup);
  }

  #read(markup: string): Token[] {
    return (markup.match(TOKEN) ?? []).map((written, i) => {
      const before = this.#tokens[i];
      return before?.written === written ? before : token(written);
    });
  }

  /** Change what has been put off. */
  finish(): void {
    for (const change of this.#due.splice(0)) change();
  }

  /**
   * Put markup that differs from the last in words and values alone.
   * @returns whether that could be done; where not, nothing is changed
   */
  put(markup: string): boolean {
    this.finish();
    const tokens = this.#read(markup);
    if (tokens.length !== this.#tokens.length) return false;
    const nodes = this.#walk();
    if (!nodes) return false;
    const [atOnce, later]: [(() => void)[], (() => void)[]] = [[], []];
    const [first] = this.#places;
    for (let i = 0; i < tokens.length; i++) {
      const [was, is, node] = [this.#tokens[i]!, tokens[i]!, nodes[i]];
      if (was === is) continue;
      if (!node || NOT_AS_WRITTEN.test(is.written)) return false;
      const changes = first?.contains(node) ? atOnce : later;
      if (!(isElement(node) ? values(node, was.written, is.written, changes) : words(node, is, changes))) return false;
    }
    for (const change of atOnce) change();
    this.#tokens = tokens;
    this.#due = later;
    if (later.length) this.#later(() => this.#due === later && this.finish());
    return true;
  }

  /**
   * The node of each token, none for an end tag. Undefined where other words or elements stand there than were put: what
   * a button says meanwhile, or a translation that somebody's browser has added, is not left beside a new answer.
   */
  #walk(): (Node | undefined)[] | undefined {
    const nodes: (Node | undefined)[] = [];
    const outermost = this.#places.flatMap((place) => [...place.childNodes]);
    const open: Node[] = [];
    let next: Node | null | undefined = outermost.shift();
    for (const { ends, tag, text, empty } of this.#tokens) {
      if (ends) {
        const closed = open.pop();
        if (!closed || next) return undefined;
        nodes.push(undefined);
        next = open.length ? closed.nextSibling : outermost.shift();
        continue;
      }
      if (!next || !(tag ? isElement(next) && tag === next.localName : text === textOf(next))) return undefined;
      nodes.push(next);
      if (empty) {
        next = open.length ? next.nextSibling : outermost.shift();
      } else {
        open.push(next);
        next = next.firstChild;
      }
    }
    return open.length || next ? undefined : nodes;
  }
}

const name = (tag: string): string => tag.slice(1, tag.search(/[\s/>]/));
const isElement = (node: Node): node is Element => node.nodeType === ELEMENT;
const textOf = (node: Node): string | null => (node.nodeType === TEXT ? node.nodeValue : null);
const plain = (written: string): string => written.replace(ENTITY, (_, sign: string) => CHARACTERS[sign]!);

function token(written: string): Token {
  const isTag = written.startsWith("<");
  const ends = written.startsWith("</");
  return {
    written, ends, tag: isTag && !ends ? name(written) : undefined, text: isTag ? "" : plain(written), empty: !isTag || EMPTY.test(written),
  };
}

/** The change of a text. A fold that has no step is known by its title: with other words it may be another one. */
function words(node: Node, { written, text: next }: Token, changes: (() => void)[]): boolean {
  if (written.startsWith("<")) return false;
  const same = textOf(node)?.replace(NUMBER, "") === next.replace(NUMBER, "");
  if (!same && node.parentElement?.closest("summary")) return false;
  changes.push(() => (node.nodeValue = next));
  return true;
}

/** The change of a tag: the same attributes, of which none has been added, removed or changed meanwhile. */
function values(node: Element, was: string, is: string, changes: (() => void)[]): boolean {
  const [before, after] = [[...was.matchAll(ATTRIBUTE)], [...is.matchAll(ATTRIBUTE)]];
  if (name(was) !== name(is) || before.length !== after.length || node.attributes.length !== after.length) return false;
  return after.every(([, attribute = "", value = ""], i) => {
    const [, other = "", old = ""] = before[i]!;
    if (attribute !== other || node.getAttribute(attribute) !== plain(old)) return false;
    if (value === old) return true;
    if (FOLDED_BY.test(attribute)) return false;
    changes.push(() => node.setAttribute(attribute, plain(value)));
    return true;
  });
}
