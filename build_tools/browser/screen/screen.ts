// screen.ts: the panel that puts a result on the screen, frame by frame. Knows frames as SVG; knows no calculator.
// A script of its own, fetched when it is asked for; it stands in a shadow root, out of reach of the page's style.
import type { Reply } from "../engine/client";
import type { Wanted } from "./on_screen";
import { addressFor } from "./address";
import { complete, png, save } from "./picture";
import { STYLE } from "./style";
import * as words from "./words";

// The backgrounds and shapes that calculators/desk/card_canvas.py knows, put in when this script is bundled.
declare const __CARD_CHOICES__: { backgrounds: string[]; shapes: Record<string, [number, number]> };
declare const __CARD_THEME__: object; // the look of the programme's cards, put in when this script is bundled

type Frame = { name: string; svg: string };

const sheet = new CSSStyleSheet();
sheet.replaceSync(STYLE);

class Panel {
  #host = document.createElement("div");
  #dialog = document.createElement("dialog");
  #stage = document.createElement("div");
  #place = document.createElement("output");
  #status = document.createElement("p");
  #question: HTMLInputElement;
  #background: HTMLSelectElement;
  #shape: HTMLSelectElement;
  #back: HTMLButtonElement;
  #next: HTMLButtonElement;
  #needs: HTMLButtonElement[]; // the buttons that need a frame
  #frames: Frame[] = [];
  #at = 0;
  #asked = 0; // how many drawings have been asked for: only the last one is shown
  #opener = document.activeElement;

  constructor(private readonly wanted: Wanted) {
    const root = this.#host.attachShadow({ mode: "open" });
    root.adoptedStyleSheets = [sheet];
    this.#dialog.setAttribute("aria-label", words.PANEL);
    this.#stage.className = "stage";
    this.#status.setAttribute("role", "status");
    this.#question = document.createElement("input");
    this.#question.value = wanted.question;
    this.#background = select(__CARD_CHOICES__.backgrounds.map((name) => [name, name]));
    this.#background.value = matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light";
    this.#shape = select(
      Object.entries(__CARD_CHOICES__.shapes).map(([name, [width, height]]) => [name, words.SHAPE_OF(name, width, height)]),
    );
    this.#back = button(words.BACK, () => this.#turn(-1));
    this.#next = button(words.NEXT, () => this.#turn(1));
    this.#needs = [
      button(words.COPY_PNG, () => void this.#copy()),
      button(words.SAVE_PNG, () => void this.#savePng()),
      button(words.SAVE_SVG, () => this.#saveSvg()),
      button(words.FULL, () => void this.#stage.requestFullscreen?.({ navigationUI: "hide" }).catch(() => undefined)),
    ];
    const question = labelled(words.QUESTION, this.#question);
    question.className = "wide";
    const close = button(words.CLOSE, () => this.#dialog.close());
    const settings = [question, labelled(words.BACKGROUND, this.#background), labelled(words.SHAPE, this.#shape)];
    this.#status.textContent = words.KEYS;
    this.#dialog.append(
      row(...settings),
      this.#stage,
      row(this.#back, this.#next, this.#place, ...this.#needs, close, this.#status),
    );
    root.append(this.#dialog);
    document.body.append(this.#host);
    for (const field of [this.#question, this.#background, this.#shape]) {
      field.addEventListener("input", () => void this.#draw());
    }
    this.#dialog.addEventListener("keydown", (event) => this.#key(event));
    this.#dialog.addEventListener("close", () => this.#end());
    this.#dialog.showModal();
    this.#next.focus();
    void this.#draw();
  }

  async #draw(): Promise<void> {
    const request = ++this.#asked;
    let reply: Reply | undefined;
    try {
      reply = await this.wanted.draw({
        question: this.#question.value.trim(),
        shape: this.#shape.value,
        background: this.#background.value,
        theme: __CARD_THEME__,
        ...addressFor(this.wanted.link),
      });
    } catch {
      reply = undefined;
    }
    if (request !== this.#asked) return; // another drawing has been asked for since
    this.#frames = reply?.frames ?? [];
    this.#at = Math.min(this.#at, Math.max(this.#frames.length - 1, 0));
    this.#say(this.#frames.length ? words.KEYS : words.NO_CARD);
    this.#show();
  }

  #show(): void {
    const frame = this.#frames[this.#at];
    this.#stage.innerHTML = frame?.svg ?? ""; // as Python made it: every text in it is escaped there
    this.#place.textContent = frame ? words.PLACE(this.#at + 1, this.#frames.length, frame.name) : "";
    for (const each of this.#needs) each.disabled = !frame;
    this.#able(this.#back, this.#at > 0, this.#next);
    this.#able(this.#next, this.#at < this.#frames.length - 1, this.#back);
  }

  /** Enable or disable a button. If it had the focus and is disabled, the other one gets it, or the keys would do nothing. */
  #able(each: HTMLButtonElement, able: boolean, other: HTMLButtonElement): void {
    const focused = this.#host.shadowRoot?.activeElement === each;
    each.disabled = !able;
    if (focused && !able && this.#frames.length > 1) {
      other.disabled = false;
      other.focus();
    }
  }

  #turn(by: number): void {
    this.#at = Math.min(Math.max(this.#at + by, 0), Math.max(this.#frames.length - 1, 0));
    this.#show();
  }

  #key(event: KeyboardEvent): void {
    const [target] = event.composedPath();
    if (target instanceof HTMLInputElement || target instanceof HTMLSelectElement) return;
    const by = { ArrowLeft: -1, PageUp: -1, ArrowRight: 1, PageDown: 1 }[event.key];
    if (!by) return;
    event.preventDefault();
    this.#turn(by);
  }

  async #copy(): Promise<void> {
    const frame = this.#frames[this.#at];
    if (!frame) return;
    try {
      // handed over as a promise, since some browsers forget the click while a picture is made
      await navigator.clipboard.write([new ClipboardItem({ "image/png": png(frame.svg) })]);
      this.#say(words.COPIED);
    } catch {
      this.#say(words.NOT_COPIED);
    }
  }

  async #savePng(): Promise<void> {
    const frame = this.#frames[this.#at];
    if (!frame) return;
    try {
      save(await png(frame.svg), `${this.#name()}.png`);
    } catch {
      this.#say(words.NO_PICTURE);
    }
  }

  #saveSvg(): void {
    const frame = this.#frames[this.#at];
    if (frame) save(new Blob([complete(frame.svg)], { type: "image/svg+xml" }), `${this.#name()}.svg`);
  }

  #name(): string {
    return `card-${this.#at + 1}`;
  }

  #say(sentence: string): void {
    this.#status.textContent = sentence;
  }

  #end(): void {
    this.#asked++;
    this.#host.remove();
    if (this.#opener instanceof HTMLElement) this.#opener.focus();
  }
}

function select(options: [string, string][]): HTMLSelectElement {
  const made = document.createElement("select");
  made.append(...options.map(([value, label]) => new Option(label, value)));
  return made;
}

function labelled(name: string, field: HTMLElement): HTMLLabelElement {
  const made = document.createElement("label");
  made.append(name, field);
  return made;
}

function row(...parts: HTMLElement[]): HTMLElement {
  const made = document.createElement("div");
  made.className = "row";
  made.append(...parts);
  return made;
}

function button(label: string, act: () => void): HTMLButtonElement {
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = label;
  made.addEventListener("click", act);
  return made;
}

window.workedAnswersScreen = (wanted) => void new Panel(wanted);
