// no_network.ts: takes every way to a network or to stored data from a worker. Knows browsers; knows no Python.
// Imported before anything else: the runtime takes a worker with `importScripts` for one that it cannot run in.

/** All that could carry what a reader pasted out of the worker, or keep it. `import()` is left to the page's policy. */
const WAYS_OUT = [
  "fetch",
  "fetchLater",
  "XMLHttpRequest",
  "WebSocket",
  "WebSocketStream",
  "WebTransport",
  "EventSource",
  "RTCPeerConnection",
  "importScripts",
  "Worker",
  "SharedWorker",
  "BroadcastChannel",
  "caches",
  "CacheStorage",
  "Cache",
  "indexedDB",
  "IDBFactory",
  "FileReader",
  "FileReaderSync",
  "Notification",
  "cookieStore",
];

const gone = { value: undefined, configurable: true, writable: true };

function remove(name: string): void {
  for (let holder: object | null = self; holder; holder = Object.getPrototypeOf(holder) as object | null) {
    if (!Object.hasOwn(holder, name)) continue;
    try {
      Object.defineProperty(holder, name, gone);
    } catch {
      // one that the browser does not let go of: the shadow below hides it
    }
  }
  if (!Object.hasOwn(self, name)) Object.defineProperty(self, name, gone);
}

for (const name of WAYS_OUT) remove(name);
// Stored files and the browser's service workers hang on the navigator.
for (const name of ["storage", "serviceWorker", "locks", "sendBeacon", "storageBuckets", "permissions", "usb", "serial", "hid"]) {
  const holder = Object.getPrototypeOf(self.navigator) as object;
  if (name in self.navigator) Object.defineProperty(holder, name, gone);
}
