// listen.ts: while serving only, lets a page hear what the server tells all pages. Knows the shared worker; knows no topic.

/** What the stream carries, by topic; each page knows the topics that concern it. */
export type Topics = Record<string, unknown>;
export type Hear = (topics: Topics, gone: boolean) => void;

/** What the shared worker posts: the stream's newest text, and whether the server does not answer. */
export interface Posted {
  data: string;
  gone: boolean;
}

declare global {
  /** Calls back at once and on every change; gone where the server does not answer. */
  // eslint-disable-next-line no-var
  var waListen: ((hear: Hear) => void) | undefined;
}

const EVENTS = "/_serving/events";
const AGAIN_MS = 500; // until a stream that the browser has given up is opened once more

export function listen(hear: Hear): void {
  let quiet: () => void = () => undefined;

  function take({ data, gone }: Posted): void {
    hear(data ? (JSON.parse(data) as Topics) : {}, gone);
  }

  /** Where pages cannot share a worker: a stream of this page's own, and none while nobody sees it. */
  function withoutSharing(): void {
    let events: EventSource | undefined;
    let last = "";
    const end = (): void => {
      events?.close();
      events = undefined;
    };
    const begin = (): void => {
      if (events || document.visibilityState === "hidden") return;
      events = new EventSource(EVENTS);
      events.onmessage = ({ data }: MessageEvent<string>) => {
        last = data;
        take({ data, gone: false });
      };
      events.onerror = () => {
        take({ data: last, gone: true });
        if (events?.readyState !== EventSource.CLOSED) return;
        end();
        setTimeout(begin, AGAIN_MS);
      };
    };
    const seen = (): void => (document.visibilityState === "hidden" ? end() : begin());
    document.addEventListener("visibilitychange", seen);
    begin();
    quiet = () => {
      document.removeEventListener("visibilitychange", seen);
      end();
    };
  }

  function begin(): void {
    quiet();
    if (typeof SharedWorker === "undefined") return withoutSharing();
    try {
      const shared = new SharedWorker("/_serving/sharing.js");
      shared.onerror = () => {
        shared.port.close();
        withoutSharing();
      };
      shared.port.onmessage = ({ data }: MessageEvent<Posted>) => take(data);
      quiet = () => {
        shared.port.postMessage("goes");
        shared.port.close();
      };
    } catch {
      withoutSharing(); // a browser may forbid it
    }
  }

  begin();
  addEventListener("pagehide", () => quiet());
  addEventListener("pageshow", ({ persisted }) => {
    if (persisted) begin();
  });
}

globalThis.waListen = listen;
