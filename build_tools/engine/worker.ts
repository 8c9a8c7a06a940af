// worker.ts: runs the calculators away from the page's thread. Knows the runtime, Python's door and JSON; knows no page.
// It fetches nothing: the page hands it every byte, and it has given up every way to a network before it reads one.
import "./hushed";
import { bareRuntime } from "./bare";
import { type Door, openDoor } from "./door";
import { restore, unpack } from "./kept";
import type { Begin, Message, Question, Runtime, StartTrouble } from "./messages";
import { plainStart } from "./plain";
import { unpacked } from "./unpacked";

// An empty WebAssembly module. A policy without 'wasm-unsafe-eval' refuses it at once, where the runtime would wait for ever.
const EMPTY_MODULE = new Uint8Array([0, 0x61, 0x73, 0x6d, 1, 0, 0, 0]);

const say = (message: Message): void => self.postMessage(JSON.stringify(message));
const fail = (why: StartTrouble, detail: unknown): void => say({ kind: "failed", why, detail: String(detail) });

let heap = (): number => 0;
let door: Door | undefined;

let bring: (wasm: Promise<WebAssembly.Module>) => void;
const wasm = new Promise<WebAssembly.Module>((resolve) => (bring = resolve));

async function compiled(wasm: Runtime["wasm"]): Promise<WebAssembly.Module> {
  return wasm instanceof WebAssembly.Module ? wasm : WebAssembly.compile(await unpacked(wasm));
}

async function start(begin: Begin): Promise<void> {
  if (typeof WebAssembly !== "object") return fail("browser", "no WebAssembly");
  try {
    await WebAssembly.compile(EMPTY_MODULE);
  } catch (error) {
    return fail("policy", error);
  }
  try {
    if (begin.kind === "kept") {
      const kept = unpack(await unpacked(begin.memory));
      const runtime = await bareRuntime({ wasm, memory: kept.memory });
      restore(runtime, kept);
      heap = () => runtime.HEAPU8.length;
      door = openDoor(runtime, kept.door);
    } else {
      const plain = await plainStart(wasm, begin.files);
      heap = plain.heap;
      door = plain.door;
    }
    say({ kind: "ready", how: begin.kind, heap: heap() });
  } catch (error) {
    fail(begin.kind === "kept" ? "memory" : "files", error);
  }
}

self.onmessage = ({ data }: MessageEvent<Begin | Runtime | string>) => {
  if (typeof data !== "string") return data.kind === "runtime" ? bring(compiled(data.wasm)) : void start(data);
  const { id, name, inputs, wanted, prefix } = JSON.parse(data) as Question;
  try {
    if (!door) throw new Error("asked before the start");
    say({ kind: "answer", id, answer: door(name, inputs, wanted, prefix), heap: heap() });
  } catch (error) {
    say({ kind: "fault", id, detail: String(error) });
  }
};
