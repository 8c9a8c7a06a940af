// server.ts: asks the local server, and knows whether it answers. Knows addresses; knows no page.
import type { Sync } from "./sync";

export interface Problem {
  input: string;
  message: string;
}

/** What every reply may hold; `errors` are sentences for the presenter. */
export interface WithErrors {
  errors?: Problem[];
}

/** What a card is drawn from. */
export interface Card {
  calculator: string;
  inputs: Record<string, string>;
  question: string;
  address: string;
  shape: string;
  background: string;
}

export interface Prepared {
  id: number;
  card: Card;
}

export interface Frame {
  name: string;
  svg: string;
  words: string;
}

/** What is on the picture, as the server has it. */
export interface OnPicture extends WithErrors {
  number: number;
  on: boolean;
  card: Card | null;
  at: number;
  steps: number;
  frozen: boolean;
  kept: boolean;
}

export interface Shown extends OnPicture, Frame {
  scripts: string;
  line: Prepared[];
  /** Where other devices read the prompter, if they may. */
  elsewhere: { address: string; code: string; tries: number } | null;
}

/** What the stream carries: that something has changed, never what it is. */
export interface Topics {
  picture?: number;
  kept?: number;
  sheet?: number;
  build?: { build: number };
  at?: At;
  sync?: Sync;
}

/** Which question is being read, by every run sheet of its episode; of two, the one with the higher number is newer. */
export interface At extends WithErrors {
  number: number;
  episode: number;
  segment: number;
}

declare global {
  /** build_tools/serving/pages/listen.ts: called at once and on every change; gone where the server does not answer. */
  // eslint-disable-next-line no-var
  var waListen: ((hear: (topics: Topics, gone: boolean) => void) => void) | undefined;
}

const NO_ANSWER = "The local server does not answer. Is it still running?";
const TRY_AGAIN_MS = 400;

const meta = (name: string): string => document.querySelector<HTMLMetaElement>(`meta[name=${name}]`)?.content ?? "";
let token = meta("run-token");
/** The state of code and engine for which this page's scripts were made. */
export const SCRIPTS = meta("scripts");

let answers = true;
let streams = true; // whether the stream of news is open, as its worker has said last
let trying = 0;
const watchers: ((answers: boolean) => void)[] = [];

/** Call back whenever the server stops answering, or answers again. */
export function watch(watcher: (answers: boolean) => void): void {
  watchers.push(watcher);
}

export const isThere = (): boolean => answers;

function note(now: boolean): void {
  if (now !== answers) {
    answers = now;
    for (const watcher of watchers) watcher(now);
  }
  // While the stream is not there an answer may be the last one of a server that is ending.
  if ((!now || !streams) && !trying) trying = window.setTimeout(() => void tryAgain(), TRY_AGAIN_MS);
}

async function tryAgain(): Promise<void> {
  trying = 0;
  await post("shown", {}); // post() itself notes whether the server answers
}

function send(name: string, body: object): Promise<Response> {
  return fetch(`/on-air/${name}`, {
    method: "POST",
    headers: { "Content-Type": "application/json", "Run-Token": token },
    body: JSON.stringify(body),
  });
}

/**
 * A server that was started again has another token than the one sent; this page's own address tells it. A page of the
 * site has none of its own: it asks the desk's.
 */
async function renew(sent: string): Promise<boolean> {
  if (token !== sent) return true; // another request has asked for it meanwhile
  const page = await (await fetch(location.pathname.startsWith("/on-air/") ? location.pathname : "/on-air/desk", { cache: "no-store" })).text();
  const fresh = /<meta name="run-token" content="([\w-]+)">/.exec(page)?.[1];
  if (fresh !== undefined) token = fresh;
  return token !== sent;
}

/** One request. What is not answered, or refused, comes back as `errors`. */
export async function post<Reply extends WithErrors>(name: string, body: object): Promise<Partial<Reply> & WithErrors> {
  try {
    if (!token) await renew("");
    const sent = token;
    let reply = await send(name, body);
    if (reply.status === 403 && (await renew(sent))) reply = await send(name, body);
    note(true);
    if (reply.ok) return (await reply.json()) as Reply;
    return wrong((await reply.text()).trim()) as Partial<Reply> & WithErrors;
  } catch {
    note(false);
    return wrong(NO_ANSWER) as Partial<Reply> & WithErrors;
  }
}

export function ask<Reply extends WithErrors>(what: string, more: object = {}): Promise<Partial<Reply> & WithErrors> {
  return post<Reply>("ask", { what, ...more });
}

const wrong = (message: string): WithErrors => ({ errors: [{ input: "", message }] });

/** Hear what the server tells all its pages. */
export function listen(hear: (topics: Topics) => void): void {
  globalThis.waListen?.((topics, gone) => {
    streams = !gone;
    if (gone) return note(false);
    note(true);
    hear(topics);
  });
}
