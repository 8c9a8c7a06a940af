// on_picture.ts: what is on the picture, as the server has said it last, and what desks send to change it.
// Nothing is taken for shown before the server has said so. Knows cards as texts; knows no form and no element.
import { isThere, listen, post, watch, type Card, type Frame, type OnPicture, type Problem, type Prepared, type Shown, type WithErrors } from "./server";

type Reply = Partial<OnPicture & Frame> & WithErrors;

export class Stage {
  /** undefined until the server has told it. */
  now: OnPicture | undefined;
  line: Prepared[] = [];
  scripts = "";
  elsewhere: Shown["elsewhere"] = null;
  frame = { svg: "", name: "", words: "" };
  #turn: Promise<unknown> = Promise.resolve();
  #heard: number | undefined;
  #kept: number | undefined;

  /**
   * @param changed called after every change
   * @param complain called with what went wrong
   */
  constructor(
    private readonly changed: () => void,
    private readonly complain: (errors: Problem[]) => void,
  ) {
    watch((answers) => {
      if (answers) void this.look();
      else this.now = undefined; // for all that anybody knows, it has changed
      this.changed();
    });
    listen(({ picture, kept, build }) => {
      const same = picture === this.#heard && kept === this.#kept && isThere() && !build;
      this.#heard = picture;
      this.#kept = kept;
      if (!same) void this.look();
    });
  }

  /** Ask the server what is shown. */
  async look(): Promise<void> {
    const reply = await post<Shown>("shown", {});
    if (reply.errors || reply.number === undefined) return;
    this.#put(reply);
    this.line = reply.line ?? [];
    this.elsewhere = reply.elsewhere ?? null;
    this.scripts = reply.scripts ?? "";
    this.changed();
  }

  isLive(card: Card | undefined): boolean {
    return this.now?.on === true && card !== undefined && this.now.card !== null && same(this.now.card, card);
  }

  /** @param ready gives the card once it is drawn, or undefined where it cannot be taken */
  take(ready: () => Promise<Card | undefined>, frame: number): Promise<boolean> {
    return this.#send(async () => {
      const card = await ready();
      return card && post<OnPicture & Frame>("take", { ...card, frame });
    });
  }

  /** All that was sent has been answered. */
  async quiet(): Promise<void> {
    await this.#turn;
  }

  /** Show another step of this card, if it is still on the picture once all that was sent before has been answered. */
  step(card: Card, to: number): Promise<boolean> {
    return this.#send(() => {
      const now = this.now;
      if (!now || now.frozen || !this.isLive(card)) return undefined;
      return post<OnPicture & Frame>("step", { number: now.number, to });
    });
  }

  freeze(): Promise<boolean> {
    return this.#send(() => (this.now?.on ? post<OnPicture & Frame>("freeze", { on: !this.now.frozen }) : undefined));
  }

  clear(): Promise<boolean> {
    return this.#send(() => post<OnPicture & Frame>("clear", {}));
  }

  async changeLine(name: "line" | "fill", body: object): Promise<boolean> {
    const reply = await post<{ line: Prepared[] } & WithErrors>(name, body);
    if (reply.errors) this.complain(reply.errors);
    if (reply.line) this.line = reply.line;
    this.changed();
    return !reply.errors;
  }

  /** Send one thing after the other, in the order of the keys, however fast they are pressed. */
  #send(work: () => Promise<Reply | undefined> | undefined): Promise<boolean> {
    const done = this.#turn.then(async () => {
      const reply = await work();
      if (!reply) return false;
      this.#put(reply);
      if (reply.errors) this.complain(reply.errors);
      this.changed();
      return !reply.errors;
    });
    this.#turn = done.catch(() => undefined);
    return done;
  }

  #put(reply: Reply): void {
    if (reply.number === undefined || reply.on === undefined || !isThere()) return; // a server that does not answer shows nothing any more
    if (this.now && reply.number < this.now.number) return; // an older reply that comes late
    this.frame = { svg: reply.svg ?? "", name: reply.name ?? "", words: reply.words ?? "" };
    const { number, on, card = null, at = 0, steps = 0, frozen = false, kept = true } = reply;
    this.now = { number, on, card, at, steps, frozen, kept };
  }
}

/** Whether two cards are drawn from the same. */
export function same(one: Card, other: Card): boolean {
  return mark(one) === mark(other);
}

const mark = ({ calculator, inputs, question, address, shape, background }: Card): string =>
  JSON.stringify([calculator, question, address, shape, background, Object.entries(inputs).sort()]);
