// drawing.ts: has a card drawn for the desk, by the page's own engine where it runs, by the server where not.
// What comes to the picture the server draws in any case. Knows the engine's door; knows no form.
import { Engine } from "../../browser/engine/client";
import { ask, type Card, type Frame, type Problem, type WithErrors } from "./server";
import { wordsOf } from "./drawn";

declare const __CARD_THEME__: object; // the programme's own look of its cards, put in when this is bundled

const CORRECTED = "corrected"; // what a correction changed stands in the sheets, which the server alone can read

interface Code extends WithErrors {
  code: number[][];
}

export interface Drawn extends WithErrors {
  frames: Frame[];
}

/** undefined where the same asker has asked for another card since. */
type Reply = { frames: Frame[] } | { errors: Problem[] } | undefined;

export class Drawing {
  #engine = new Engine(new URL("/made/engine/", location.href).href);
  #uses = true;
  #codes = new Map<string, Promise<number[][] | undefined>>();
  #asked = new Map<string, number>();

  /** Fetch and start the engine; until it runs, and where it does not, the server draws. */
  async start(): Promise<void> {
    await this.#engine.start().catch(() => undefined);
  }

  /** Whether a card is there in milliseconds. */
  get quick(): boolean {
    return this.#uses && this.#engine.ready;
  }

  /** Whether the site's calculators are still those of this page's engine; where not, the server draws. */
  trust(same: boolean): void {
    this.#uses = same;
  }

  async draw(asker: string, card: Card): Promise<Reply> {
    const turn = (this.#asked.get(asker) ?? 0) + 1;
    this.#asked.set(asker, turn);
    const here = this.quick && card.shape !== CORRECTED;
    const reply = (here && (await this.#byEngine(asker, card))) || (await this.#byServer(card));
    return turn === this.#asked.get(asker) ? reply : undefined;
  }

  async #byEngine(asker: string, card: Card): Promise<Reply> {
    const code = await this.#code(card.address);
    if (!code) return undefined;
    const { question, address, shape, background } = card;
    const theme = __CARD_THEME__;
    const options = { question, address, shape, background, theme, ...(code.length ? { code } : {}) };
    try {
      const reply = await this.#engine.card(asker, card.calculator, card.inputs, options);
      if (reply?.errors?.length) return { errors: reply.errors };
      if (!reply?.frames) return undefined; // superseded, or a fault of ours: the server will say so
      return { frames: reply.frames.map(({ name, svg }) => ({ name, svg, words: wordsOf(svg) })) };
    } catch {
      return undefined;
    }
  }

  async #byServer(card: Card): Promise<Reply> {
    const reply = await ask<Drawn>("card", card);
    return reply.frames ? { frames: reply.frames } : { errors: reply.errors ?? [] };
  }

  /** The rows of an address's code, from the server: so a card looks here as it will on the picture. */
  #code(address: string): Promise<number[][] | undefined> {
    if (!address) return Promise.resolve([]);
    const known = this.#codes.get(address);
    if (known) return known;
    const coming = ask<Code>("code", { address }).then(({ code }) => {
      if (!code) this.#codes.delete(address);
      return code;
    });
    this.#codes.set(address, coming);
    return coming;
  }
}
