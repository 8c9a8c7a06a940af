// glance.ts: keeps the headline in view while the reader is among the inputs. Knows the result's first lines, no engine.
import * as words from "./words";

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
    this.#strip.tabIndex = -1; // the result follows the form anyway: no second stop for keyboards and screen readers
    this.#strip.setAttribute("aria-hidden", "true");
    this.#strip.hidden = true;
    this.#strip.title = words.SEE_RESULT;
    this.#strip.addEventListener("click", () => result.scrollIntoView({ block: "start", behavior: "smooth" }));
    section.append(this.#strip);
    if (!("IntersectionObserver" in window)) return;
    const watch = new IntersectionObserver((seen) => {
      for (const { target, isIntersecting } of seen) {
        if (target === form) this.#formSeen = isIntersecting;
        else this.#headSeen = isIntersecting;
      }
      this.#strip.hidden = this.#headSeen || !this.#formSeen;
    });
    window.visualViewport?.addEventListener("resize", () => this.#aboveKeyboard());
    watch.observe(form);
    watch.observe(result);
    this.update();
  }

  /** Take over what the result now says. */
  update(): void {
    const verdict = this.result.querySelector(".wa-verdict");
    const headline = this.result.querySelector(".wa-headline");
    this.#strip.replaceChildren();
    const example = this.section.querySelector<HTMLElement>(".wa-example");
    if (example && !example.hidden) this.#add("wa-glance-example", null).textContent = words.EXAMPLE;
    if (verdict) this.#add("wa-glance-verdict", verdict.querySelector("strong")).dataset["verdict"] = word(verdict);
    this.#add("wa-glance-headline", headline);
    this.#strip.classList.toggle("wa-stale", this.section.classList.contains("wa-stale"));
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
