// try_answers.mjs: runs a packed worker's script under Node, as a page would in a browser, and has it answer questions.
// Knows the worker's messages (messages.ts); knows no right answer. Writes, as JSON, the hash of each answer.
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";

const LIMIT_MS = 300_000; // a start that waits for what never comes ends here
const order = JSON.parse(readFileSync(process.argv[2], "utf8"));
const { exit, env } = process;
env["TZ"] = "UTC";
const bytes = (path) => Uint8Array.from(readFileSync(path)).buffer;
const begin = order.memory
  ? { kind: "snapshot", memory: bytes(order.memory) }
  : { kind: "plain", files: Object.fromEntries(Object.entries(order.files).map(([name, path]) => [name, bytes(path)])) };

const put = (name, value) => Object.defineProperty(globalThis, name, { value, configurable: true, writable: true });
put("process", undefined);
put("self", globalThis);
put("WorkerGlobalScope", class { static [Symbol.hasInstance] = (value) => value === globalThis; });
put("location", new URL("http://here.invalid/"));
let hear;
put("postMessage", (message) => hear(message));
const heard = () => new Promise((resolve) => (hear = resolve));

function finish(found) {
  writeFileSync(order.into, JSON.stringify(found));
  exit(0); // without `process` Node would wait for ever
}

setTimeout(() => finish({ trouble: `no end within ${LIMIT_MS / 1000} s` }), LIMIT_MS);
globalThis.addEventListener?.("unhandledrejection", ({ reason }) => finish({ trouble: String(reason) }));
try {
  const started = heard();
  (0, eval)(readFileSync(order.worker, "utf8"));
  globalThis.onmessage({ data: { kind: "runtime", wasm: await WebAssembly.compile(readFileSync(order.wasm)) } });
  globalThis.onmessage({ data: begin });
  const first = await started;
  if (first.kind !== "ready") finish({ trouble: first.detail ?? first.kind });
  const answers = [];
  const handed = new Set();
  for (const [id, [name, inputs]] of order.questions.entries()) {
    const bundle = order.memory && !handed.has(name) && order.bundles[name];
    if (bundle) globalThis.onmessage({ data: { kind: "bundle", file: Uint8Array.from(gunzipSync(readFileSync(bundle))).buffer } });
    handed.add(name);
    const coming = heard();
    globalThis.onmessage({ data: JSON.stringify({ id, name, inputs, wanted: order.wanted, prefix: "p-1" }) });
    const { kind, answer, detail } = await coming;
    answers.push(kind === "answer" ? createHash("sha256").update(answer).digest("hex") : `${kind}: ${detail}`);
  }
  finish({ answers });
} catch (error) {
  finish({ trouble: String(error) });
}
