// worker.ts: runs the calculators away from the page's thread. Knows the runtime, Python's door and JSON; knows no page.
import type { loadPyodide } from "pyodide";
import type { Message, Question, StartTrouble } from "./messages";

type Door = (name: string, inputs: string, wanted: string, prefix: string) => string;

// An empty WebAssembly module. A policy without 'wasm-unsafe-eval' refuses it at once, where the runtime would wait for ever.
const EMPTY_MODULE = new Uint8Array([0, 0x61, 0x73, 0x6d, 1, 0, 0, 0]);
const HERE = new URL(".", self.location.href).href;

const say = (message: Message): void => self.postMessage(JSON.stringify(message));

let failed = false;
let started = false;
function fail(why: StartTrouble, detail: unknown): void {
  if (failed || started) return; // the first cause is the one to tell
  failed = true;
  say({ kind: "failed", why, detail: String(detail) });
}

async function start(): Promise<Door> {
  if (typeof WebAssembly !== "object") {
    fail("browser", "no WebAssembly");
    throw new Error("no WebAssembly");
  }
  try {
    await WebAssembly.compile(EMPTY_MODULE);
  } catch (error) {
    fail("policy", error);
    throw error;
  }
  try {
    watchFetches();
    const runtime: { loadPyodide: typeof loadPyodide } = await import(`${HERE}pyodide.mjs`);
    const python = await runtime.loadPyodide({ indexURL: HERE, packageBaseUrl: HERE, packages: ["calculators"] });
    return python.pyimport("calculators.door").answer as Door;
  } catch (error) {
    fail("files", error);
    throw error;
  }
}

/**
 * A file that is missing is told at once: the runtime itself may wait for it without end, or stumble over what came
 * instead. It never hears of it, since the page ends this worker.
 */
function watchFetches(): void {
  const plain = self.fetch.bind(self);
  const never = new Promise<Response>(() => undefined);
  self.fetch = (...request) =>
    plain(...request).then(
      (response) => {
        if (response.ok) return response;
        fail("files", `${response.status} for ${response.url}`);
        return never;
      },
      (error: unknown) => {
        fail("files", error);
        return never;
      },
    );
}

// The runtime leaves some of its failures to nobody; while starting, each of them means that it will not start.
self.addEventListener("unhandledrejection", (event) => {
  event.preventDefault();
  fail("files", event.reason);
});

const door = start();
door.then(
  () => {
    started = true;
    say({ kind: "ready" });
  },
  () => undefined, // told already
);

self.onmessage = async ({ data }: MessageEvent<string>) => {
  const { id, name, inputs, wanted, prefix } = JSON.parse(data) as Question;
  try {
    say({ kind: "answer", id, answer: (await door)(name, inputs, wanted, prefix) });
  } catch (error) {
    say({ kind: "fault", id, detail: String(error) });
  }
};
