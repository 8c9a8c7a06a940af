// offline.ts: asks the browser to keep the site for reading offline, and says on the page how far that is.
// Knows the service worker's messages (service_worker/service_worker.ts); knows no calculator.
import { mayFetchUnasked } from "../engine/idle";
import * as words from "../shared/words";

const MEGABYTE = 1e6;

/**
 * What the service worker reports while it fetches a new edition. `failed`: no room in the browser's storage, or the
 * connection (the line) broke off.
 */
interface News {
  kept?: number;
  bytes: number;
  failed?: "room" | "line";
}

/** @param root the address of the site's folder, ending in a slash */
export async function keepForOffline(root: string): Promise<void> {
  // A site opened from a folder is offline already; a private window or plain http has no service workers.
  if (!("serviceWorker" in navigator) || !location.protocol.startsWith("http")) return;
  const beingWritten = document.querySelector("script[src*='/_serving/']"); // `serve` shows pages while they are being written
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
  let lost = false; // whether fetching the new edition has failed
  const failed = async (why: "room" | "line"): Promise<void> => {
    if (lost) return;
    lost = true;
    const registration = await navigator.serviceWorker.getRegistration(root);
    if (!registration?.active) return tell(words.NOT_KEPT);
    const { bytes } = await asked(registration.active);
    if (why === "line") return tell(words.NEWER_NOT_KEPT(bytes / MEGABYTE));
    // Where there is no room for a newer edition, the older one goes too: the reader would never see anything newer.
    await registration.unregister();
    for (const name of await caches.keys()) {
      if (name.startsWith(`worked-answers:${registration.scope}:`)) await caches.delete(name);
    }
    tell(words.NO_ROOM_FOR_NEWER);
  };
  navigator.serviceWorker.addEventListener("message", ({ data }: MessageEvent<News>) => {
    if (data.failed) void failed(data.failed);
    else if (lost) return;
    else if (data.kept !== undefined && data.kept < data.bytes) tell(words.KEEPING(data.kept / MEGABYTE, data.bytes / MEGABYTE));
  });
  const registration = await navigator.serviceWorker.register(`${root}offline.js`, { updateViaCache: "none" });
  const showState = async (): Promise<void> => {
    if (!registration.active) return;
    const { bytes } = await asked(registration.active);
    if (lost) return;
    tell(registration.waiting ? words.KEPT_AND_NEWER(bytes / MEGABYTE) : words.KEPT(bytes / MEGABYTE));
  };
  const follow = (worker: ServiceWorker | null): void => {
    let whole = false;
    worker?.addEventListener("statechange", () => {
      whole ||= worker.state === "installed";
      if (worker.state !== "redundant") void showState();
      else if (!whole) void failed("line");
    });
  };
  follow(registration.installing);
  registration.addEventListener("updatefound", () => follow(registration.installing));
  await showState();
}

/** The edition that a service worker keeps, and its size. */
function asked(worker: ServiceWorker): Promise<{ name: string; bytes: number }> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((resolve) => {
    port1.onmessage = ({ data }: MessageEvent<{ name: string; bytes: number }>) => resolve(data);
    worker.postMessage("which", [port2]);
  });
}

