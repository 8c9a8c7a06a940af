// While serving only: loads the page again when a new site is there, and shows why a build failed.
// Knows one stream of events; knows nothing of the page. Never part of the built site.
(() => {
  "use strict";
  const script = document.currentScript;
  let seen = Number(script.dataset.build);
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
    panel.textContent = "This page is the last one that could be built. The newest change has a fault:\n\n" + text;
  }

  function hide() {
    panel?.remove();
    panel = undefined;
  }

  const events = new EventSource("/_serving/events");
  events.onmessage = ({ data }) => {
    const { build, trouble } = JSON.parse(data);
    if (trouble) return show(trouble);
    hide();
    if (build !== seen) {
      seen = build;
      location.reload();
    }
  };
  // A page that is left must not keep its stream: browsers allow six to a host.
  addEventListener("pagehide", () => events.close());
})();
