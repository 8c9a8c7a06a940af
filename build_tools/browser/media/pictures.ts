// pictures.ts: shows pictures at one image pixel to one screen pixel, and alone on the screen. Knows no calculator.
// The markup of a result stays as Python made it: the sizes stand in a style sheet of the script's own.
import { FullScreenPicture } from "./full_screen";

// Where a browser makes none from a script, pictures do without; nothing else of the page may stop for that.
const sheet = typeof CSSStyleSheet === "function" && "adoptedStyleSheets" in document ? new CSSStyleSheet() : undefined;
const sized = new Set<string>();
let onScreen: FullScreenPicture | undefined;

/** Bring the pictures of one calculator to life. */
function wake(section: HTMLElement): void {
  const result = section.querySelector(".wa-details");
  if (!result) return;
  const look = (): void => {
    for (const picture of result.querySelectorAll<HTMLImageElement>(".wa-picture img")) size(picture);
    onScreen?.follow(section);
  };
  look();
  new MutationObserver(look).observe(result, { subtree: true, childList: true, attributeFilter: ["src"] });
}

function listen(): void {
  if (sheet) document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  document.documentElement.classList.add("wa-pictures"); // the buttons beside pictures show only where they work
  measure();
  window.addEventListener("resize", measure);
  document.addEventListener("click", ({ target }) => {
    const button = target instanceof Element ? target.closest<HTMLElement>("button.wa-alone, button.wa-keep") : null;
    const picture = button?.closest<HTMLElement>(".wa-picture");
    const section = button?.closest<HTMLElement>(".wa-calculator");
    if (!button || !picture || !section) return;
    if (button.classList.contains("wa-keep")) return keep(picture, button.dataset["name"] ?? "");
    onScreen = new FullScreenPicture(section, picture, () => {
      onScreen = undefined;
      button.focus();
    });
  });
}

function keep(picture: HTMLElement, name: string): void {
  const link = document.createElement("a");
  link.href = picture.querySelector("img")?.src ?? "";
  link.download = name;
  link.click();
}

/** How many screen pixels a length of 1px has: the screen's density and the page's zoom together. */
function measure(): void {
  document.documentElement.style.setProperty("--wa-density", String(devicePixelRatio));
  onScreen?.place();
}

/** One rule for each size of picture that was seen. */
function size(picture: HTMLImageElement): void {
  const [width, height] = [picture.getAttribute("width") ?? "", picture.getAttribute("height") ?? ""];
  const selector = `.wa-prose .wa-picture img[width="${width}"][height="${height}"]`;
  if (!/^\d+x\d+$/.test(`${width}x${height}`) || sized.has(selector)) return;
  sized.add(selector);
  const length = (count: string): string => `calc(${count}px / var(--wa-density, 1))`;
  sheet?.insertRule(`${selector} { width: ${length(width)}; height: ${length(height)}; }`);
}

listen();
for (const section of document.querySelectorAll<HTMLElement>("section.wa-calculator")) wake(section);
