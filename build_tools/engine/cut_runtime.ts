// cut_runtime.ts: run by Node when the site is built: sees which functions of the runtime's machine code answers reach,
// and writes it without the others. Knows files and questions; the same files give the same bytes.
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import type { Door } from "./door";
import { likeWorker } from "./like_worker";
import { restored } from "./restored";
import { type AtWork, placesOf } from "./type_tables";
import { COVERAGE, cut, functionsIn, markNeighbours, markPlaces, marked, withCalled } from "./unreached";
import { withoutUnread } from "./unread";
import { type Places, run, textOf, wholePython } from "./whole_python";

interface Order extends Places {
  memory: string;
  bundles: Record<string, string>; // the file of each calculator
  questions: string; // the path of questions.py, which writes the questions to ask
  inputs: string; // the path of random_inputs.py, with which it draws random inputs
  source: string; // the calculators' wheel with their source
  worker: string; // the script that will run this machine code
  into: string;
}

type Asked = [name: string, inputs: string, wanted: string, prefix: string];

// Browsers in which setting up goes another way: one has no helper compiled beside the runtime's code, one another language.
const [SIDE_BY_SIDE, SHORT] = [2, 300]; // functions; bytes
const INDEX = '"index":';
const SOME = 7; // of so many questions one is asked a second time
const BROWSERS = [
  { userAgent: "", language: "en", random: 0x5a },
  { userAgent: "iPhone", language: "zh", random: 0xff },
];

async function main(order: Order): Promise<void> {
  like(0);
  const file = readFileSync(order.wasm);
  const withMarks = await WebAssembly.compile(marked(file));
  const { questions, places } = await asked(withMarks, order);
  const snapshot = gunzipSync(readFileSync(order.memory));
  const ran = new Uint8Array(functionsIn(file));
  // The order that brings the reader's index is always among them: what follows builds on it.
  const some = questions.filter(([, inputs], at) => at % SOME === 0 || inputs.includes(INDEX));
  let right = "";
  for (const [number] of BROWSERS.entries()) {
    like(number);
    let marks = new Uint8Array();
    const door = await restored(withMarks, snapshot, order.bundles, ({ exports }) => {
      marks = new Uint8Array((exports[COVERAGE] as WebAssembly.Memory).buffer);
    });
    const answers = number === 0 ? digestOf(door, questions, new Set(some)) : digestOf(door, some);
    if (number > 0 && answers !== right) throw new Error("two browsers would give different answers");
    right = answers;
    for (let i = 0; i < ran.length; i++) ran[i]! |= marks[i] ?? 0;
  }
  // A branch that no question took may call what none reached: whatever is called by number stays, or by a type.
  const ranAtOnce = ran.slice();
  markPlaces(file, places, ran);
  markNeighbours(file, ran, SIDE_BY_SIDE, SHORT);
  const stays = withCalled(file, ran);
  const lean = cut(withoutUnread(file), stays, neededBy(order.worker, file));
  like(0);
  // What was seen is proved: without the rest the same questions get the same answers.
  const again = digestOf(await restored(await WebAssembly.compile(lean), snapshot, order.bundles), some);
  if (again !== right) throw new Error("the cut runtime does not answer as the whole one does");
  writeFileSync(order.into, lean);
  const [count, left] = [ranAtOnce, stays].map((marks) => marks.reduce((sum, each) => sum + each, 0));
  console.log(JSON.stringify({ questions: questions.length, functions: ran.length, ran: count, left, bytes: lean.length }));
}

function like(number: number): void {
  const { random, language, userAgent } = BROWSERS[number]!;
  likeWorker({ random, now: Date.UTC(2031, 4, 6), age: 77.25, step: 0.5, language, userAgent });
}

/**
 * The questions to ask. Made in the whole Python, which can read the calculators' declarations.
 * @param wasm with its marks, which a memory of their own takes: what V8 has compiled here it need not compile again
 */
async function asked(wasm: WebAssembly.Module, order: Order): Promise<{ questions: Asked[]; places: Set<number> }> {
  const beside = { "/random_inputs.py": readFileSync(order.inputs), "/source.whl": readFileSync(order.source) };
  const runtime = await wholePython(wasm, order, beside);
  run(runtime, order.questions, "questions.py");
  const places = placesOf(runtime, JSON.parse(textOf(runtime, "/at_work")) as AtWork);
  return { questions: JSON.parse(textOf(runtime, "/questions")) as Asked[], places };
}

/** Whether an exported name is needed: the worker's script mentions it, or the machine code imports its address. */
function neededBy(worker: string, file: Uint8Array<ArrayBuffer>): (name: string) => boolean {
  const words = new Set(readFileSync(worker, "utf8").match(/[\w$]+/g));
  const imports = WebAssembly.Module.imports(new WebAssembly.Module(file));
  const byAddress = new Set(imports.filter(({ module }) => module.startsWith("GOT.")).map(({ name }) => name));
  return (name) => words.has(name) || byAddress.has(name);
}

/** Asks all of them, and gives the digest of the answers to those that count. */
function digestOf(door: Door, questions: Asked[], count = new Set(questions)): string {
  const hash = createHash("sha256");
  for (const question of questions) {
    const answer = door(...question);
    if (count.has(question)) hash.update(answer).update("\n");
  }
  return hash.digest("hex");
}

const { argv, env, exit } = process; // the runtime must not see it
env["TZ"] = "UTC"; // Node follows this at once; Python notes its time zone
await main(JSON.parse(argv[2] ?? "{}") as Order);
exit(0); // without `process` Node would wait for ever
