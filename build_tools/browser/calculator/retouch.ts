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
const TEXT = 3; // Node.TEXT_NODE

/** Words and values in elements, as markup last put them there. */
export class Retouch {
  #places: Element[];
  #later: (rest: () => void) => void;
  #tokens: string[] = [];
  #due: (() => void)[] = []; // what is still to be changed of the last markup

  /**
   * @param places which hold the markup's outermost elements, one after another
   * @param later what is called with the changes in all places but the first: it may put them off
   */
  constructor(places: Element[], later = (rest: () => void): void => rest()) {
    this.#places = places;
    this.#later = later;
  }

  /** This markup has been put there by other means. */
  stands(markup: string): void {
    this.#tokens = markup.match(TOKEN) ?? [];
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
    const tokens = markup.match(TOKEN) ?? [];
    if (tokens.length !== this.#tokens.length) return false;
    const nodes = this.#walk();
    if (!nodes) return false;
    const [atOnce, later]: [(() => void)[], (() => void)[]] = [[], []];
    const [first] = this.#places;
    for (let i = 0; i < tokens.length; i++) {
      const [was, is, node] = [this.#tokens[i]!, tokens[i]!, nodes[i]];
      if (was === is) continue;
      if (!node || NOT_AS_WRITTEN.test(is)) return false;
      const changes = first?.contains(node) ? atOnce : later;
      if (!(node instanceof Element ? values(node, was, is, changes) : words(node, is, changes))) return false;
    }
    for (const change of atOnce) change();
    this.#tokens = tokens;
    this.#due = later;
    this.#later(() => this.#due === later && this.finish());
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
    for (const token of this.#tokens) {
      if (token.startsWith("</")) {
        const closed = open.pop();
        if (!closed || next) return undefined;
        nodes.push(undefined);
        next = open.length ? closed.nextSibling : outermost.shift();
        continue;
      }
      const tag = token.startsWith("<");
      if (!next || !(tag ? name(token) === nameOf(next) : plain(token) === textOf(next))) return undefined;
      nodes.push(next);
      if (!tag || EMPTY.test(token)) {
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
const nameOf = (node: Node): string | undefined => (node instanceof Element ? node.localName : undefined);
const textOf = (node: Node): string | null => (node.nodeType === TEXT ? node.nodeValue : null);
const plain = (written: string): string => written.replace(ENTITY, (_, sign: string) => CHARACTERS[sign]!);

/** The change of a text. A fold that has no step is known by its title: with other words it may be another one. */
function words(node: Node, is: string, changes: (() => void)[]): boolean {
  const next = plain(is);
  if (is.startsWith("<")) return false;
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
