// moving_text.ts: lines of text that move at a stated speed once a reader presses the button, and stop by themselves.
// Knows time and the display's pixels; knows no calculator. Brought to pages that have such lines.

const SPEEDS = [240, 480, 960, 1920]; // pixels of the display a second
const LONGEST_MS = 30_000; // then they stop: nobody needs them longer, and they must not run on unseen
const ENOUGH_FRAMES = 30; // before anything is said of how many pictures a second are drawn
const GAP_EM = 2;

const MOVE = "Move the lines";
const STOP = "Stop";
const SPEED = "Speed";
const STILL = "Your system asks for less motion, so the lines stay still.";
const AT_REST = "They move only while you want them to, half a minute at most. Escape stops them.";
const movingAt = (speed: number): string => `Moving at ${speed} pixels of the display a second.`;
const drawnAt = (speed: number, rate: number): string =>
  `${movingAt(speed)} Your browser draws about ${Math.round(rate)} pictures a second, so each jumps about ` +
  `${Math.round((speed / rate) * 10) / 10} pixels further than the one before.`;

interface Line {
  strip: HTMLElement;
  period: number; // pixels of the display until the line comes round again
}

class Moving {
  #lines: Line[] = [];
  #button = document.createElement("button");
  #speed = document.createElement("select");
  #status = document.createElement("p");
  #calm = matchMedia("(prefers-reduced-motion: reduce)");
  #running = 0; // the frame asked for, or 0
  #begun: number | undefined;
  #last = 0;
  #gaps: number[] = [];

  constructor(private readonly box: HTMLElement) {
    const texts = [...box.querySelectorAll<HTMLElement>("p")];
    for (const text of texts) this.#lines.push({ strip: strip(text), period: 0 });
    box.prepend(this.#tools());
    box.classList.add("wa-moving-ready");
    box.addEventListener("keydown", (event) => {
      if (event.key === "Escape" && this.#running) this.#stop();
    });
    document.addEventListener("visibilitychange", () => {
      if (document.hidden && this.#running) this.#stop();
    });
    this.#calm.addEventListener("change", () => this.#stop());
    this.#stop();
  }

  #tools(): HTMLElement {
    const tools = document.createElement("div");
    tools.className = "wa-moving-tools";
    const label = document.createElement("label");
    const first = Number(this.box.dataset["speed"]) || 960;
    for (const speed of [...new Set([...SPEEDS, first])].sort((a, b) => a - b)) {
      this.#speed.append(new Option(`${speed} px/s`, String(speed), speed === first, speed === first));
    }
    this.#speed.addEventListener("change", () => {
      if (this.#running) this.#start();
    });
    label.append(`${SPEED} `, this.#speed);
    this.#button.type = "button";
    this.#button.className = "wa-action";
    this.#button.addEventListener("click", () => (this.#running ? this.#stop() : this.#start()));
    this.#status.className = "wa-moving-said";
    this.#status.setAttribute("role", "status");
    tools.append(this.#button, label, this.#status);
    return tools;
  }

  #start(): void {
    cancelAnimationFrame(this.#running);
    if (this.#calm.matches) return this.#stop();
    for (const line of this.#lines) line.period = lay(line.strip);
    this.#begun = undefined;
    this.#gaps = [];
    this.#button.textContent = STOP;
    this.#status.textContent = movingAt(this.#pace());
    this.#running = requestAnimationFrame((now) => this.#step(now));
  }

  #stop(): void {
    cancelAnimationFrame(this.#running);
    this.#running = 0;
    for (const { strip: moved } of this.#lines) moved.style.transform = "";
    this.#button.textContent = MOVE;
    this.#button.disabled = this.#speed.disabled = this.#calm.matches;
    this.#status.textContent = this.#calm.matches ? STILL : AT_REST;
  }

  #pace(): number {
    return Number(this.#speed.value);
  }

  /** Put every line where it belongs at this moment: on a whole pixel, so that no letter is smoothed. */
  #step(now: number): void {
    this.#begun ??= now;
    const passed = now - this.#begun;
    if (passed > LONGEST_MS) return this.#stop();
    const gone = Math.round((passed / 1000) * this.#pace());
    for (const { strip: moved, period } of this.#lines) {
      moved.style.transform = `translateX(${-(gone % period) / devicePixelRatio}px)`;
    }
    if (passed > 0) this.#count(now - this.#last);
    this.#last = now;
    this.#running = requestAnimationFrame((next) => this.#step(next));
  }

  /** Say once how many pictures a second are drawn: the middle one of the first gaps between them. */
  #count(gap: number): void {
    if (this.#gaps.length >= ENOUGH_FRAMES) return;
    this.#gaps.push(gap);
    if (this.#gaps.length < ENOUGH_FRAMES) return;
    const middle = [...this.#gaps].sort((a, b) => a - b)[ENOUGH_FRAMES / 2];
    if (middle) this.#status.textContent = drawnAt(this.#pace(), 1000 / middle);
  }
}

/** Keep a line's text for screen readers, and put a strip that can move beside it. */
function strip(text: HTMLElement): HTMLElement {
  const original = document.createElement("span");
  original.className = "wa-moving-kept";
  original.append(...text.childNodes);
  const moved = document.createElement("span");
  moved.className = "wa-moving-strip";
  moved.setAttribute("aria-hidden", "true");
  moved.textContent = original.textContent;
  text.classList.add("wa-moving-line");
  text.append(original, moved);
  return moved;
}

/** Fill a strip with as many copies of its text as its line can show, each a whole number of the display's pixels. */
function lay(moved: HTMLElement): number {
  const words = moved.parentElement?.querySelector(".wa-moving-kept")?.textContent ?? "";
  const one = document.createElement("span");
  one.textContent = words;
  moved.replaceChildren(one);
  const wide = one.getBoundingClientRect().width + GAP_EM * parseFloat(getComputedStyle(moved).fontSize);
  const period = Math.max(Math.ceil(wide * devicePixelRatio), 1);
  const shown = (moved.parentElement?.clientWidth ?? 0) * devicePixelRatio;
  for (let at = 0; at < shown + period; at += period) {
    const copy = document.createElement("span");
    copy.textContent = words;
    copy.style.width = `${period / devicePixelRatio}px`;
    moved.append(copy);
  }
  one.remove();
  return period;
}

/** Load the style, and only then go on: without it lines wrap, and their width cannot be measured. */
function dress(then: () => void): void {
  const here = document.currentScript instanceof HTMLScriptElement ? document.currentScript.src : document.baseURI;
  const link = document.createElement("link");
  link.rel = "stylesheet";
  link.href = new URL("moving_text.css", here).href;
  link.addEventListener("load", then, { once: true });
  document.head.append(link);
}

dress(() => {
  for (const box of document.querySelectorAll<HTMLElement>(".wa-moving")) new Moving(box);
});

export {}; // a module, so that its names are its own
