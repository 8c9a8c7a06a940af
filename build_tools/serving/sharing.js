// While serving only: one stream of events for all open pages, in a worker that they share. Knows pages by their ports.
// A browser opens six connections to a host and no more; a stream for each page would leave none for the seventh.
"use strict";
const pages = new Set();
let last = "";
let gone = false;

function tellAll() {
  for (const page of pages) page.postMessage({ data: last, gone });
}

function open() {
  const events = new EventSource("/_serving/events");
  events.onmessage = ({ data }) => {
    last = data;
    gone = false;
    tellAll();
  };
  events.onerror = () => {
    if (!gone) {
      gone = true;
      tellAll();
    }
    if (events.readyState === EventSource.CLOSED) setTimeout(open, 500); // it gives up after some answers
  };
}

onconnect = ({ ports: [page] }) => {
  pages.add(page);
  page.onmessage = () => pages.delete(page); // all that a page ever says is that it goes
  if (last || gone) page.postMessage({ data: last, gone });
};
open();
