// offline.ts: asks the browser to keep the site for reading offline, and says on the page how far that is. Fetched last.
// Knows the service worker's messages (service_worker/service_worker.ts); knows no calculator.
import { mayFetchUnasked } from "../engine/idle";
import { type Answer, type News, cachesOf } from "../shared/offline_messages";
import * as words from "../shared/words";

const MEGABYTE = 1e6;
// The worker's own word why comes by another way than its end, and may come after it.
const WORD_COMES_LATE_MS = 1000;

const HERE = document.currentScript instanceof HTMLScriptElement ? document.currentScript.src : document.baseURI;

/** @param root the address of the site's folder, ending in a slash */
async function keepForOffline(root: string): Promise<void> {
  if (!("serviceWorker" in navigator)) return; // it keeps nothing: a private window, plain http
  const beingWritten = document.querySelector("script[src*='/_serving/']"); // `serve` shows what is being written
  if (beingWritten) {
    const old = await navigator.serviceWorker.getRegistration(root);
    await old?.unregister();
    return;
  }
  const line = document.querySelector<HTMLElement>(".wa-offline");
  const tell = (sentence: string): void => {
    if (line) line.textContent = sentence;
  };
  const known = await navigator.serviceWorker.getRegistration(root);
  if (!known && !mayFetchUnasked()) return;
  const register = (): Promise<ServiceWorkerRegistration> =>
    navigator.serviceWorker.register(`${root}offline.js`, { updateViaCache: "none" });
  let lost = false; // the edition that was on its way
  let attempt = 0;
  const failed = async (why: "room" | "line" | "size", bytes?: number): Promise<void> => {
    if (lost) return;
    lost = true;
    const registration = await navigator.serviceWorker.getRegistration(root);
    const active = registration?.active ? await asked(registration.active) : undefined;
    if (why === "size" && bytes !== undefined) {
      tell(active && active.kept !== false ? words.NEWER_IS_LARGE(bytes / MEGABYTE) : words.LARGE(bytes / MEGABYTE));
      return offer(words.KEEP_ALL(bytes / MEGABYTE), ({ wanted }) => caches.open(wanted));
    }
    if (!registration || !active || active.kept === false) {
      if (why !== "room" || bytes === undefined) return tell(words.NOT_KEPT);
      tell(words.NO_ROOM(bytes / MEGABYTE));
      return offer(words.TRY_AGAIN, ({ noRoom }) => letGo(noRoom));
    }
    if (why !== "room") return tell(words.NEWER_NOT_KEPT(active.bytes / MEGABYTE));
    // Else this browser would answer from the older edition for ever.
    await registration.unregister();
    await letGo(cachesOf(registration.scope).editions);
    tell(words.NO_ROOM_FOR_NEWER);
  };
  const showState = async (): Promise<void> => {
    const registration = await navigator.serviceWorker.getRegistration(root);
    if (!registration?.active) return;
    const { bytes, kept } = await asked(registration.active);
    if (lost || kept === false) return; // what is brought again tells how far it is
    tell(registration.waiting ? words.KEPT_AND_NEWER(bytes / MEGABYTE) : words.KEPT(bytes / MEGABYTE));
  };
  const follow = (worker: ServiceWorker | null): void => {
    let whole = false;
    const mine = attempt;
    worker?.addEventListener("statechange", () => {
      whole ||= worker.state === "installed";
      if (worker.state !== "redundant") void showState();
      else if (!whole) setTimeout(() => mine === attempt && void failed("line"), WORD_COMES_LATE_MS);
    });
  };
  /** What is brought only where the reader asks for it. */
  const offer = (label: string, before: (names: ReturnType<typeof cachesOf>) => Promise<unknown>): void => {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = label;
    button.addEventListener("click", () => {
      lost = false;
      attempt++;
      tell(words.KEEPING_BEGINS);
      void before(cachesOf(new URL(root, location.href).href))
        .then(register)
        .then((registration) => follow(registration.installing));
    });
    line?.append(" ", button);
  };
  navigator.serviceWorker.addEventListener("message", ({ data }: MessageEvent<News>) => {
    if ("failed" in data) void failed(data.failed, data.bytes);
    else if (lost) return;
    else if (data.kept < data.bytes) tell(words.KEEPING(data.kept / MEGABYTE, data.bytes / MEGABYTE));
    else void showState();
  });
  const registration = await register();
  follow(registration.installing);
  registration.addEventListener("updatefound", () => follow(registration.installing));
  await showState();
}

async function letGo(beginning: string): Promise<void> {
  for (const name of await caches.keys()) if (name.startsWith(beginning)) await caches.delete(name);
}

function asked(worker: ServiceWorker): Promise<Answer> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((resolve) => {
    port1.onmessage = ({ data }: MessageEvent<Answer>) => resolve(data);
    worker.postMessage("which", [port2]);
  });
}

void keepForOffline(new URL("../../", HERE).href).catch(() => undefined);
