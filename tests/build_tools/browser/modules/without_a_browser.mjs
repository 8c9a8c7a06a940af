// without_a_browser.mjs: lets Node run the page's modules as they stand: it finds "./link" as link.ts, and gives them a
// document. Knows no module.
import { registerHooks } from "node:module";
import { parseHTML } from "linkedom";

registerHooks({
  resolve(named, context, next) {
    try {
      return next(named, context);
    } catch (error) {
      if (!named.startsWith(".")) throw error;
      return next(`${named}.ts`, context);
    }
  },
});

const { window, document, Element, HTMLElement } = parseHTML("<!doctype html><html><head></head><body></body></html>");
Object.assign(globalThis, { window, document, Element, HTMLElement });
