// sharing.ts: while serving only, one stream of events for all open pages, in a worker that they share. Knows pages by
// their ports. A browser opens six connections to a host and no more; a stream for each page would leave none for the
// seventh.
import type { Posted } from "./listen";

const AGAIN_MS = 500;
const pages = new Set<MessagePort>();
let last = "";
let gone = false;

function tell(page: MessagePort): void {
  const posted: Posted = { data: last, gone };
  page.postMessage(posted);
}

function open(): void {
  const events = new EventSource("/_serving/events");
  events.onmessage = ({ data }: MessageEvent<string>) => {
    last = data;
    gone = false;
    pages.forEach(tell);
  };
  events.onerror = () => {
    if (!gone) {
      gone = true;
      pages.forEach(tell);
    }
    if (events.readyState === EventSource.CLOSED) setTimeout(open, AGAIN_MS); // it gives up after some answers
  };
}

// The types of a page and of a worker cannot both be known to one program; of the worker's, this one is used.
const worker = globalThis as unknown as { onconnect: (event: MessageEvent) => void };
worker.onconnect = ({ ports: [page] }) => {
  if (!page) return;
  pages.add(page);
  page.onmessage = () => pages.delete(page); // all that a page ever says is that it goes
  if (last || gone) tell(page);
};
open();
