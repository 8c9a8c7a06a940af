// headline_strip.ts: keeps the headline in view while the reader is among the inputs. Knows the result's first lines, no engine.
import { NARROW } from "../shared/fold_rules";
import * as words from "../shared/words";

/** A strip at the foot of the window: what the result says, while the result itself is out of sight. */
export class Glance {
  #strip = document.createElement("button");
  #formSeen = false;
  #headSeen = true;

  constructor(
    private readonly section: HTMLElement,
    private readonly result: HTMLElement,
    form: HTMLElement,
  ) {
    this.#strip.type = "button";
    this.#strip.className = "wa-glance";
    this.#strip.tabIndex = -1; // the result stands before the form anyway: no second stop for keyboards and screen readers
    this.#strip.setAttribute("aria-hidden", "true");
    this.#strip.hidden = true;
    const still = matchMedia("(prefers-reduced-motion: reduce)");
    this.#strip.addEventListener("click", () =>
      result.scrollIntoView({ block: "start", behavior: still.matches ? "auto" : "smooth" }),
    );
    section.append(this.#strip);
    form.addEventListener("focusin", ({ target }) => requestAnimationFrame(() => this.#clear(target)));
    const see = (seen: IntersectionObserverEntry[]): void => {
      for (const { target, isIntersecting } of seen) {
        if (target === form) this.#formSeen = isIntersecting;
        else this.#headSeen = isIntersecting;
      }
      this.#strip.hidden = this.#headSeen || !this.#formSeen;
      this.update();
      this.#clear(document.activeElement);
    };
    window.visualViewport?.addEventListener("resize", () => this.#aboveKeyboard());
    new IntersectionObserver(see).observe(form);
    // (To ask for the window's width would have the whole page laid out at once, before the engine is sent for.)
    // A result whose last lines alone are left at the window's top is not seen: its headline is above it.
    new IntersectionObserver(see, { rootMargin: `-${matchMedia(NARROW).matches ? 280 : 180}px 0px 0px` }).observe(result);
  }

  /** Take over what the result now says; where nobody sees the strip, once it is seen. */
  update(): void {
    if (this.#strip.hidden) return;
    const verdict = this.result.querySelector(".wa-verdict");
    const headline = this.result.querySelector(".wa-headline");
    this.#strip.replaceChildren();
    const example = this.section.querySelector<HTMLElement>(".wa-example");
    const stale = this.section.classList.contains("wa-stale");
    const title = example && example.dataset["own"] === undefined ? words.EXAMPLE_RESULT : words.YOUR_RESULT;
    const wrong = this.section.querySelectorAll(".wa-invalid").length;
    const busy = this.result.getAttribute("aria-busy") === "true";
    const waiting = wrong ? words.MEND_STRIP(wrong) : busy ? words.WORKING_YOURS : words.NOT_WORKED_OUT;
    this.#add("wa-glance-title", null).textContent = stale ? waiting : title;
    // A result that is about to be replaced is not shown: nobody takes the old number for the new one.
    if (!stale) {
      if (verdict) this.#add("wa-glance-verdict", verdict.querySelector("strong")).dataset["verdict"] = word(verdict);
      this.#add("wa-glance-headline", headline);
    }
    // With other words the strip has another height, and a message may have come below the field.
    requestAnimationFrame(() => this.#clear(document.activeElement));
  }

  /** The strip never lies over the field that is being filled in. */
  #clear(focused: EventTarget | null): void {
    if (this.#strip.hidden || !(focused instanceof Element) || !this.section.contains(focused)) return;
    const box = (focused.closest(".wa-field") ?? focused).getBoundingClientRect();
    const top = this.#strip.getBoundingClientRect().top;
    if (box.bottom > top && box.height < top) window.scrollBy({ top: box.bottom - top + 8 });
  }

  /** A phone's keyboard lies over the window's foot: the strip moves above it. */
  #aboveKeyboard(): void {
    const seen = window.visualViewport;
    if (seen) this.#strip.style.bottom = `${Math.max(0, innerHeight - seen.height - seen.offsetTop)}px`;
  }

  #add(name: string, from: Element | null): HTMLElement {
    const copy = document.createElement("span");
    copy.className = name;
    copy.textContent = from?.textContent ?? "";
    this.#strip.append(copy);
    return copy;
  }
}

const word = (verdict: Element): string => verdict.getAttribute("data-verdict") ?? "";
