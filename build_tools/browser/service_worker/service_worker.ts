// service_worker.ts: keeps one whole edition of the site in the browser, and answers from it. Knows files and their hashes;
// knows no page. The build writes what it must know of the edition in front of it (build_tools/site/offline.py).
//
// An edition is kept whole or not at all: each file is compared with its hash, and the first that is missing or another
// ends the attempt. A newer edition waits until no page of the older one is open; then the older one goes.

import { type Answer, type News, UNASKED_BYTES, cachesOf } from "../shared/offline_messages";

declare const self: ServiceWorkerGlobalScope & { waEdition: { name: string; bytes: number; list: string } };

type Files = Record<string, [bytes: number, integrity: string]>;

const { name, bytes, list } = self.waEdition;
const { editions: MINE, wanted: WANTED, noRoom: NO_ROOM } = cachesOf(self.registration.scope);
const CACHE = MINE + name;
const AT_ONCE = 6;

self.addEventListener("install", (event) => event.waitUntil(keep()));
self.addEventListener("activate", (event) => event.waitUntil(forgetOthers()));
self.addEventListener("fetch", (event) => {
  const file = nameOf(event.request);
  if (file !== undefined) event.respondWith(answer(event.request, file));
});
self.addEventListener("message", (event) => {
  if (event.ports[0]) event.waitUntil(say(event.ports[0]));
});

/** What there is of the edition; one that the browser has cleared is brought again. */
async function say(port: MessagePort): Promise<void> {
  const isCached = await caches.has(CACHE);
  port.postMessage({ name, bytes, kept: isCached && !keeping } satisfies Answer);
  if (isCached || keeping) return;
  keeping = keep().catch(() => undefined); // told to the page
  await keeping;
  keeping = undefined;
}

let keeping: Promise<void> | undefined;

async function keep(): Promise<void> {
  await caches.delete(CACHE); // what an interrupted attempt has left
  let givenUp = false;
  try {
    if (bytes > UNASKED_BYTES && !(await caches.has(WANTED))) throw new Refused("size");
    // Rather than bring megabytes for nothing at every visit. Not every browser says how much room there is.
    if ((await caches.has(NO_ROOM + name)) || bytes > (await room())) throw new Refused("room");
    const cache = await caches.open(CACHE);
    const listed = await fetched("offline.json", list);
    const due = Object.entries((await listed.json()) as Files);
    let done = 0;
    const work = async (): Promise<void> => {
      for (let next = due.shift(); next; next = due.shift()) {
        const [path, [size, integrity]] = next;
        const response = await fetched(path, integrity);
        await cache.put(address(path), response.redirected ? await unredirected(response) : response);
        done += size;
        if (!givenUp) await tell({ kept: done, bytes });
      }
    };
    try {
      await Promise.all(Array.from({ length: AT_ONCE }, work));
    } finally {
      due.length = 0; // for those who still work where one has failed
    }
  } catch (error) {
    givenUp = true;
    await caches.delete(CACHE);
    const reason = why(error);
    if (reason === "room" && !(await caches.keys()).some((each) => each.startsWith(MINE))) {
      await caches.open(NO_ROOM + name).catch(() => undefined); // and letting an older edition go would give none
    }
    await tell({ failed: reason, bytes });
    throw error; // the browser gives this edition up and tries again at the next visit
  }
}

/** How many bytes the browser will still take, as far as it says. */
async function room(): Promise<number> {
  const { quota = Infinity, usage = 0 } = (await navigator.storage?.estimate?.()) ?? {};
  return quota - usage;
}

class Refused extends Error {
  constructor(readonly why: "room" | "size") {
    super(why);
  }
}

function why(error: unknown): "room" | "size" | "line" {
  if (error instanceof Refused) return error.why;
  return error instanceof DOMException && error.name === "QuotaExceededError" ? "room" : "line";
}

async function fetched(path: string, integrity: string): Promise<Response> {
  const response = await fetch(address(path), { integrity, cache: "no-cache" });
  if (!response.ok) throw new Error(`${response.status} for ${path}`);
  return response;
}

async function forgetOthers(): Promise<void> {
  for (const each of await caches.keys()) {
    if ((each.startsWith(MINE) && each !== CACHE) || each.startsWith(NO_ROOM)) await caches.delete(each);
  }
}

async function answer(request: Request, file: string): Promise<Response> {
  // Not opened where it is not there: that would make an empty one, which would count as an edition.
  const cached = await caches.match(address(file), { cacheName: CACHE }).catch(() => undefined);
  return cached ?? fetch(request); // no file of the edition; or the browser has cleared it
}

/** The file that a request asks for, from the site's root; undefined for what is no file of the site. */
function nameOf(request: Request): string | undefined {
  if (request.method !== "GET" || !request.url.startsWith(self.registration.scope)) return undefined;
  try {
    const path = decodeURIComponent(new URL(request.url).pathname.slice(new URL(self.registration.scope).pathname.length));
    return path === "" || path.endsWith("/") ? `${path}index.html` : path;
  } catch {
    return undefined; // no address as browsers write it
  }
}

function address(path: string): string {
  return new URL(path, self.registration.scope).href;
}

/** A page must not be answered with a response that says it came by way of another address. */
async function unredirected(response: Response): Promise<Response> {
  return new Response(await response.blob(), { headers: response.headers });
}

async function tell(news: News): Promise<void> {
  for (const client of await self.clients.matchAll({ includeUncontrolled: true, type: "window" })) client.postMessage(news);
}
