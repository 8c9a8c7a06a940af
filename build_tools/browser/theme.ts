// theme.ts: brings the theme's own script once that holds nobody up: it takes the page's thread for a tenth of a second,
// several on a phone, and a reader's first result does not need it. Knows where the build has put the script's address.
const LATEST_MS = 2000;
const SIGNS = ["pointerover", "focusin", "keydown"]; // a finger's touch begins with the first
const NEEDS_IT = ".md-header, .md-search, .md-top, [data-md-toggle]";

/**
 * @param busy whether something is going on that a reader waits for
 */
export function bringTheme(busy: () => boolean): void {
  const place = document.querySelector<HTMLTemplateElement>("template[data-theme-script]");
  const address = place?.dataset["themeScript"];
  if (!place || !address) return;
  const asked = (event: Event): void => {
    if (event.target instanceof Element && event.target.closest(NEEDS_IT)) bring();
    else if (event instanceof KeyboardEvent && event.target === document.body) bring(); // the theme's shortcuts
  };
  let brought = false;
  const bring = (): void => {
    if (brought) return;
    brought = true;
    for (const kind of SIGNS) removeEventListener(kind, asked, true);
    const script = document.createElement("script");
    script.src = address;
    // The theme begins when the page has been read, and is told of it now.
    script.onload = () => document.dispatchEvent(new Event("DOMContentLoaded"));
    place.replaceWith(script);
  };
  for (const kind of SIGNS) addEventListener(kind, asked, true);
  const since = performance.now();
  const look = (): void => {
    if (busy() && performance.now() - since < LATEST_MS) setTimeout(look, 50);
    else bring();
  };
  requestAnimationFrame(() => setTimeout(look)); // the page is painted first
}
