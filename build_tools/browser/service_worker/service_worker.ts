// service_worker.ts: keeps one whole edition of the site in the browser, and answers from it. Knows files and their hashes;
// knows no page. The build writes the list of files in front of it (build_tools/site/offline.py).
//
// An edition is kept whole or not at all: each file is compared with its hash, and the first that is missing or another
// ends the attempt. A newer edition waits until no page of the older one is open; then the older one goes.

declare const self: ServiceWorkerGlobalScope & {
  waEdition: { name: string; bytes: number; files: Record<string, [bytes: number, integrity: string]> };
};

const { name, bytes, files } = self.waEdition;
const MINE = `worked-answers:${self.registration.scope}:`;
const CACHE = MINE + name;
const AT_ONCE = 6;

self.addEventListener("install", (event) => event.waitUntil(keep()));
self.addEventListener("activate", (event) => event.waitUntil(forgetOthers()));
self.addEventListener("fetch", (event) => {
  const kept = nameOf(event.request);
  if (kept !== undefined) event.respondWith(answer(event.request, kept));
});
self.addEventListener("message", (event) => event.ports[0]?.postMessage({ name, bytes }));

async function keep(): Promise<void> {
  await caches.delete(CACHE); // what an interrupted attempt has left
  const cache = await caches.open(CACHE);
  const due = Object.entries(files);
  let done = 0;
  let givenUp = false;
  const work = async (): Promise<void> => {
    for (let next = due.shift(); next; next = due.shift()) {
      const [path, [size, integrity]] = next;
      const response = await fetch(address(path), { integrity, cache: "no-cache" });
      if (!response.ok) throw new Error(`${response.status} for ${path}`);
      await cache.put(address(path), response.redirected ? await unredirected(response) : response);
      done += size;
      if (!givenUp) await tell({ kept: done, bytes });
    }
  };
  try {
    await Promise.all(Array.from({ length: AT_ONCE }, work));
  } catch (error) {
    due.length = 0;
    givenUp = true;
    await caches.delete(CACHE);
    await tell({ failed: error instanceof DOMException && error.name === "QuotaExceededError" ? "room" : "line" });
    throw error; // the browser gives this edition up and tries again at the next visit
  }
}

async function forgetOthers(): Promise<void> {
  for (const each of await caches.keys()) {
    if (each.startsWith(MINE) && each !== CACHE) await caches.delete(each);
  }
}

async function answer(request: Request, path: string): Promise<Response> {
  const cache = await caches.open(CACHE);
  return (await cache.match(address(path))) ?? fetch(request); // the browser may have cleared it
}

/** The kept file that a request asks for; undefined if it is none of them. */
function nameOf(request: Request): string | undefined {
  if (request.method !== "GET" || !request.url.startsWith(self.registration.scope)) return undefined;
  const path = decodeURIComponent(new URL(request.url).pathname.slice(new URL(self.registration.scope).pathname.length));
  const file = path === "" || path.endsWith("/") ? `${path}index.html` : path;
  return file in files ? file : undefined;
}

function address(path: string): string {
  return new URL(path, self.registration.scope).href;
}

/** A page must not be answered with a response that says it came by way of another address. */
async function unredirected(response: Response): Promise<Response> {
  return new Response(await response.blob(), { headers: response.headers });
}

async function tell(news: { kept: number; bytes: number } | { failed: "room" | "line" }): Promise<void> {
  for (const client of await self.clients.matchAll({ includeUncontrolled: true, type: "window" })) client.postMessage(news);
}

export {};
