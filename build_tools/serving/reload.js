// While serving only: loads the page again when it has changed or what it uses has, and shows why a build failed.
// Knows what listen.js hears; knows nothing of the page. Never part of the built site.
(() => {
  "use strict";
  const { build: first, assets: shown } = document.currentScript.dataset;
  let seen = Number(first);
  let panel;

  function show(text) {
    if (!panel) {
      panel = document.createElement("div");
      panel.setAttribute("role", "alert");
      panel.id = "wa-build-trouble";
      panel.style.cssText =
        "position:fixed;inset:auto 0 0 0;z-index:9999;max-height:60vh;overflow:auto;padding:1rem 1.5rem;" +
        "background:#2b1113;color:#fff;font:15px/1.5 ui-monospace,monospace;white-space:pre-wrap;" +
        "border-top:4px solid #ff8a80;overflow-wrap:anywhere";
      document.body.append(panel);
    }
    panel.textContent = "The newest change has a fault. The built site stays the last good one.\n\n" + text;
  }

  function hide() {
    panel?.remove();
    panel = undefined;
  }

  /** The page as it is now, and the build that it came from. */
  async function asServed() {
    const text = await (await fetch(location.pathname, { cache: "no-store" })).text();
    const own = /<script src="\/_serving\/reload\.js" data-build="(\d+)"[^>]*><\/script>/;
    return { text: text.replace(own, ""), build: own.exec(text)?.[1] };
  }
  const loaded = asServed();
  loaded.catch(() => undefined); // then every build loads the page again

  async function differs() {
    try {
      const [before, now] = [await loaded, await asServed()];
      return before.build !== first || before.text !== now.text;
    } catch {
      return true;
    }
  }

  waListen(async ({ build: told }) => {
    if (!told) return;
    const { build, assets, trouble } = told;
    if (trouble) return show(trouble);
    hide();
    if (build !== seen) {
      seen = build;
      if (assets !== shown || (await differs())) location.reload();
    }
  });
})();
