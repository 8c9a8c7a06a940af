// offline_messages.ts: what service worker and page say to each other, and what their caches are called. Knows no file.

/** On the way of an edition that is being kept: how far it has come, or why it was given up. */
export type News = { kept: number; bytes: number } | { failed: "room" | "line" | "size"; bytes: number };

/** What a worker says of its edition: whether it is still there, which the browser may have cleared. */
export interface Answer {
  name: string;
  bytes: number;
  kept?: boolean; // a worker of an earlier release does not say
}

/** An edition larger than this is kept once the reader has asked for it. */
export const UNASKED_BYTES = 100e6;

interface Caches {
  /** What the names of all editions' caches begin with. */
  editions: string;
  /** Is there where the reader has asked for an edition that is kept only then. */
  wanted: string;
  /** Begins the name of what is there where an edition has found no room: it is not brought again unasked. */
  noRoom: string;
}

/** @param scope the site's address */
export function cachesOf(scope: string): Caches {
  return {
    editions: `worked-answers:${scope}:`,
    wanted: `worked-answers-wanted:${scope}`,
    noRoom: `worked-answers-no-room:${scope}:`,
  };
}
