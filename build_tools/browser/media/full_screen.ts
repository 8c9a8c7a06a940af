// full_screen.ts: one picture alone on the screen, unscaled, on its own ground. Knows the picture and the inputs for its size.
import * as words from "../shared/words";

const QUIET_AFTER_MS = 2500; // then the bar goes, so that nothing disturbs the picture; any movement brings it back

export class FullScreenPicture {
  #dialog = document.createElement("dialog");
  #stage = document.createElement("div");
  #image = document.createElement("img");
  #bar = document.createElement("div");
  #status = document.createElement("p");
  #fill = document.createElement("button");
  #quiet = 0;

  /**
   * @param section the calculator that made the picture
   * @param picture the picture's box in its result
   * @param gone called when the picture has left the screen
   */
  constructor(
    private readonly section: HTMLElement,
    picture: HTMLElement,
    private readonly gone: () => void,
  ) {
    this.#dialog.className = "wa-alone-dialog";
    this.#dialog.setAttribute("aria-label", words.PICTURE_ALONE);
    this.#stage.className = "wa-stage";
    this.#bar.className = "wa-stage-bar";
    const close = button(words.LEAVE_PICTURE, () => this.#dialog.close());
    this.#fill = button("", () => this.#fillScreen());
    this.#bar.append(this.#status, this.#fill, close);
    this.#stage.append(this.#image, this.#bar);
    this.#dialog.append(this.#stage);
    document.body.append(this.#dialog);
    this.#show(picture);
    this.#dialog.addEventListener("close", () => this.#end());
    for (const sign of ["pointermove", "pointerdown", "keydown", "focusin"]) {
      this.#dialog.addEventListener(sign, () => this.#wakeBar());
    }
    this.#stage.addEventListener("fullscreenchange", () => {
      if (!document.fullscreenElement) this.#dialog.close();
      else this.place();
    });
    this.#dialog.showModal();
    close.focus();
    this.place();
    // Where the whole screen is not to be had (some telephones), the picture still fills the window.
    inTurn(async () => {
      if (this.#dialog.open) await this.#stage.requestFullscreen?.({ navigationUI: "hide" });
    });
  }

  /** Take over the picture that this calculator shows now. */
  follow(section: HTMLElement): void {
    const picture = section === this.section ? section.querySelector<HTMLElement>(".wa-picture") : null;
    if (picture) this.#show(picture);
  }

  /** Put the picture on whole screen pixels, in the middle where it fits, else with its left top part in view. */
  place(): void {
    const density = devicePixelRatio;
    const [width, height] = this.#size();
    const room = [Math.round(innerWidth * density), Math.round(innerHeight * density)] as const;
    const from = (all: number, own: number): string => `${Math.max(0, Math.floor((all - own) / 2)) / density}px`;
    Object.assign(this.#image.style, {
      width: `${width / density}px`,
      height: `${height / density}px`,
      left: from(room[0], width),
      top: from(room[1], height),
    });
    this.#status.textContent =
      width > room[0] || height > room[1] ? words.PICTURE_TOO_LARGE(room[0], room[1]) : words.PICTURE_EXACT;
    this.#fill.textContent = words.FILL_SCREEN(room[0], room[1]);
    this.#fill.hidden = (width === room[0] && height === room[1]) || !this.#inputs();
    this.#wakeBar();
  }

  #show(picture: HTMLElement): void {
    const image = picture.querySelector("img");
    if (!image) return;
    this.#image.src = image.src;
    this.#image.alt = image.alt;
    this.#image.dataset["width"] = image.getAttribute("width") ?? "";
    this.#image.dataset["height"] = image.getAttribute("height") ?? "";
    this.#stage.style.background = picture.dataset["ground"] ?? "";
    this.place();
  }

  #size(): readonly [number, number] {
    return [Number(this.#image.dataset["width"]), Number(this.#image.dataset["height"])];
  }

  #inputs(): HTMLInputElement[] | undefined {
    const inputs = ["width", "height"].map((name) =>
      this.section.querySelector<HTMLInputElement>(`form.wa-form input[name="${name}"]`),
    );
    return inputs.every((input) => input !== null) ? inputs : undefined;
  }

  #fillScreen(): void {
    const room = [innerWidth, innerHeight].map((length) => Math.round(length * devicePixelRatio));
    this.#inputs()?.forEach((input, index) => {
      input.value = String(room[index]);
      input.dispatchEvent(new Event("input", { bubbles: true }));
    });
    this.#status.textContent = words.PICTURE_COMING;
  }

  #wakeBar(): void {
    clearTimeout(this.#quiet);
    this.#stage.classList.remove("wa-stage-quiet");
    this.#quiet = window.setTimeout(() => this.#stage.classList.add("wa-stage-quiet"), QUIET_AFTER_MS);
  }

  #end(): void {
    clearTimeout(this.#quiet);
    inTurn(async () => {
      if (document.fullscreenElement === this.#stage) await document.exitFullscreen();
    });
    this.#dialog.remove();
    this.gone();
  }
}

let changing: Promise<void> | undefined;

/**
 * Enter or leave the whole screen when no other change of it is under way, and at once where none is: else whoever
 * leaves a picture and looks at it again right away is thrown out by the first leaving, which comes late.
 */
function inTurn(change: () => Promise<void>): void {
  const changed = (changing ? changing.then(change) : change()).catch(() => undefined);
  const done = changed.then(() => {
    if (changing === done) changing = undefined;
  });
  changing = done;
}

function button(label: string, act: () => void): HTMLButtonElement {
  const made = document.createElement("button");
  made.type = "button";
  made.className = "wa-action";
  made.textContent = label;
  made.addEventListener("click", act);
  return made;
}
