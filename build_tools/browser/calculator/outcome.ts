// outcome.ts: where an answer stands on the page: its first element above the form, the rest below. Knows no calculator.
import { foldFresh } from "../shared/folds";
import { morph } from "./morph";
import { Retouch } from "./retouch";

export class Outcome {
  readonly result: HTMLElement;
  readonly details: HTMLElement;
  #retouch: Retouch;

  /**
   * @param result what one sees first
   * @param details the rest
   * @param later what is called with the changes of the rest, where it is the same but for words and values
   */
  constructor(result: HTMLElement, details: HTMLElement, later = (rest: () => void): void => rest()) {
    this.result = result;
    this.details = details;
    this.#retouch = new Retouch([result, details], later);
  }

  /** The answer's elements, each into its place; folds stay as the reader has them. */
  put(html: string): void {
    if (this.#retouch.put(html)) return;
    const template = document.createElement("template");
    template.innerHTML = html;
    foldFresh(template.content, this.result, this.details);
    const rest = document.createDocumentFragment();
    rest.append(...[...template.content.children].slice(1));
    morph(this.result, template.content);
    morph(this.details, rest);
    this.#retouch.stands(html);
  }

  /** The same once more, in a document that nobody sees and that loads no picture or sound. */
  copy(): Outcome {
    const unseen = document.implementation.createHTMLDocument();
    return new Outcome(unseen.importNode(this.result, true), unseen.importNode(this.details, true));
  }
}
