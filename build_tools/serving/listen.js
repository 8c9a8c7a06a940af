// While serving only: lets a page hear what the server tells all pages. Knows the shared worker; knows no topic.
// waListen(hear) calls hear(topics, gone) at once and on every change; gone where the server does not answer.
globalThis.waListen = (hear) => {
  "use strict";
  let quiet = () => undefined;

  function take({ data, gone }) {
    hear(data ? JSON.parse(data) : {}, gone);
  }

  /** Where pages cannot share a worker: a stream of this page's own, and none while nobody sees it. */
  function alone() {
    let events;
    let last = "";
    const end = () => {
      events?.close();
      events = undefined;
    };
    const begin = () => {
      if (events || document.visibilityState === "hidden") return;
      events = new EventSource("/_serving/events");
      events.onmessage = ({ data }) => {
        last = data;
        take({ data, gone: false });
      };
      events.onerror = () => {
        take({ data: last, gone: true });
        if (events?.readyState !== EventSource.CLOSED) return;
        end();
        setTimeout(begin, 500);
      };
    };
    const seen = () => (document.visibilityState === "hidden" ? end() : begin());
    document.addEventListener("visibilitychange", seen);
    begin();
    quiet = () => {
      document.removeEventListener("visibilitychange", seen);
      end();
    };
  }

  function begin() {
    quiet();
    if (typeof SharedWorker === "undefined") return alone();
    try {
      const shared = new SharedWorker("/_serving/sharing.js");
      shared.onerror = () => {
        shared.port.close();
        alone();
      };
      shared.port.onmessage = ({ data }) => take(data);
      quiet = () => {
        shared.port.postMessage("goes");
        shared.port.close();
      };
    } catch {
      alone(); // a browser may forbid it
    }
  }

  begin();
  addEventListener("pagehide", () => quiet());
  addEventListener("pageshow", ({ persisted }) => persisted && begin());
};
