// messages.ts: what the page and the worker say to each other, each as one JSON text. Knows no page and no Python.

/** Page to worker: compute one calculator. `inputs` is JSON text, passed on to Python as it is. */
export interface Question {
  id: number;
  name: string;
  inputs: string;
  wanted: string;
  prefix: string;
}

/** Why the engine could not start: the site's policy, an old browser, or a file that did not come or did not fit. */
export type StartTrouble = "policy" | "browser" | "files";

/** Worker to page. `answer` is the JSON text that Python made; a `fault` is ours, never the reader's. */
export type Message =
  | { kind: "ready" }
  | { kind: "failed"; why: StartTrouble; detail: string }
  | { kind: "answer"; id: number; answer: string }
  | { kind: "fault"; id: number; detail: string };
