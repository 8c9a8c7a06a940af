// lean_program.mjs: cuts the runtime's program down to what the kept memory needs. A plugin for esbuild; knows the
// program's text, which package-lock.json pins, and what the machine code asks for.
//
// As it comes, the program also serves code that is loaded later: it hands out 8,500 of the runtime's functions by name
// and position, and brings drawing, sound and windows along. Nothing is ever loaded later here. Three quarters of the
// text go, and with them about 0.3 s of every start on two cores.
import { createHash } from "node:crypto";
import { mkdir, readFile, rename, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { minify } from "terser";

// The program cut down, as it was made last, below a line with the hashes of what it was made of and of itself: two
// bundles of one build hold it, and terser takes two seconds of processor time for it.
const KEPT = fileURLToPath(new URL("../../.cache/made/lean_program.js", import.meta.url));

const CHANGES = [
  ['mergeLibSymbols(wasmExports,"main")', 'mergeLibSymbols({__main_argc_argv:wasmExports.__main_argc_argv},"main")'],
  [
    "var updateGOT=(exports,replace)=>{for(var symName in exports){",
    "var updateGOT=(exports,replace)=>{for(var symName in exports){if(!GOT[symName]){continue}",
  ],
  [
    "var reportUndefinedSymbols=()=>{for(var[symName,entry]of Object.entries(GOT)){if(entry.value==-1){",
    "var reportUndefinedSymbols=()=>{for(var[symName,entry]of Object.entries(GOT)){if(entry.value==-1){entry.value=0;continue;",
  ],
  [
    "return addFunction(trampolineInstance.exports.trampoline_call)",
    "var slot=getEmptyTableSlot();setWasmTableEntry(slot,trampolineInstance.exports.trampoline_call);return slot",
  ],
  // What lets JavaScript and Python use each other, a quarter of the program, is set up where Python starts, and not where
  // its memory is put back. The worker's script has none of it: were it asked for, the machine would stop.
  ["pyodide_js_init();", "if(!Module.noInitialRun)pyodide_js_init();"],
  [
    'function pyodide_js_init(){"use strict";',
    'function pyodide_js_init(){"use strict";if(typeof __MEMORY_BYTES__=="number")throw new WebAssembly.RuntimeError("cut");',
  ],
  // Beside a worker from a Blob there is no folder: the address is refused, and to say in which line it was the browser
  // reads the whole program a second time. Nothing is fetched from there.
  ['try{scriptDirectory=new URL(".",_scriptName).href}catch{}', ""],
];
// The program is one function, called at once. In parentheses browsers compile it when they first read it; otherwise they
// skim it first, to find its end, and read it all again.
const PROGRAM = /^async function _createPyodideModule(\(.*\})\s*;?\s*export default _createPyodideModule;\s*$/s;
const DECLARED = new URL("minimal_runtime.ts", import.meta.url);
const IMPORTS = /var wasmImports=\{([^}]*)\}/;
const EXPORTS = /function assignWasmExports\(wasmExports\)\{([^}]*)\}/;

export default {
  name: "lean program",
  setup(build) {
    build.onLoad({ filter: /pyodide\.asm\.mjs$/ }, async ({ path }) => {
      try {
        return { contents: await kept(await readFile(path, "utf8"), dirname(path)), loader: "js" };
      } catch (error) {
        return { errors: [{ text: error.message }] };
      }
    });
  },
};

/** What `lean` gives; from the cache, where it was made of the very same before. */
async function kept(text, folder) {
  const wasm = await readFile(join(folder, "pyodide.asm.wasm"));
  const declared = await readFile(DECLARED, "utf8");
  const terser = createRequire(import.meta.url)("terser/package.json").version;
  const of = digest(text, wasm, declared, await readFile(new URL(import.meta.url)), terser);
  const there = await readFile(KEPT, "utf8").catch(() => "");
  const known = there.slice(there.indexOf("\n") + 1);
  if (there === headed(of, known)) return known;
  const made = await lean(text, wasm, declared);
  await mkdir(dirname(KEPT), { recursive: true });
  const fresh = `${KEPT}.${process.pid}`;
  await writeFile(fresh, headed(of, made));
  await rename(fresh, KEPT);
  return made;
}

function headed(of, made) {
  return `// ${of} ${digest(made)}\n${made}`;
}

function digest(...parts) {
  const hash = createHash("sha256");
  for (const part of parts) hash.update(`${part.length}:`).update(part);
  return hash.digest("hex");
}

async function lean(text, wasm, declared) {
  for (const [from, to] of CHANGES) text = replaced(text, from, to);
  text = text.replace(/(?<=[;}])[\w$]+\.sig="\w*";/g, ""); // the types of functions, for code that is loaded later
  text = await withNeededImports(text, wasm);
  const ours = namesWeUse(declared);
  text = withNeededExports(text, ours);
  text = withoutOpenDoors(text, ours);
  text = text.replace(/(?<![.\w$])eval\(/g, "(0,eval)("); // text run elsewhere cannot use a name that stands here
  const whole = { module: true, compress: { defaults: false, unused: true, dead_code: true, side_effects: true, passes: 2 } };
  const { code } = await minify(text, { ...whole, mangle: false, format: { ascii_only: false } });
  return `export default(async function${found(code, PROGRAM)});`;
}

/** Of what the program could do for code loaded later, what the machine code itself asks for. */
async function withNeededImports(text, wasm) {
  const asked = new Set(WebAssembly.Module.imports(await WebAssembly.compile(wasm)).map(({ name }) => name));
  const all = found(text, IMPORTS).split(",");
  const kept = all.filter((each) => asked.has(each.split(":")[0]));
  return text.replace(IMPORTS, () => `var wasmImports={${kept}}`);
}

/** Of the runtime's functions, those that the program or we call. */
function withNeededExports(text, ours) {
  const body = found(text, EXPORTS);
  const rest = text.replace(body, "");
  const used = new Map();
  for (const [name] of rest.matchAll(/[\w$]+/g)) used.set(name, (used.get(name) ?? 0) + 1);
  const kept = body.split(";").filter((each) => {
    const [, name] = /^([\w$]+)=/.exec(each) ?? [];
    return name === undefined || used.get(name) > 1 || ours.has(name); // once: where it is declared
  });
  return text.replace(EXPORTS, () => `function assignWasmExports(wasmExports){${kept.join(";")}}`);
}

/** Of what the program shows to code outside of it, what that code asks for. */
function withoutOpenDoors(text, ours) {
  const shown = /(?<=[;{}])Module\["([\w$]+)"\]=([\w$]+);/g;
  const rest = text.replace(shown, "");
  return text.replace(shown, (whole, name, value) => {
    const asked = ours.has(name) || new RegExp(`Module(\\["${name}"\\]|\\.${name}\\b)`).test(rest);
    return asked || name !== value ? whole : "";
  });
}

/** What of the program minimal_runtime.ts declares. */
function namesWeUse(text) {
  const declared = /export interface Runtime \{(.*?)^\}/ms.exec(text)?.[1] ?? "";
  return new Set([...declared.matchAll(/^ {2}(\w+)[(:]/gm)].map(([, name]) => name));
}

function replaced(text, from, to) {
  const parts = text.split(from);
  if (parts.length !== 2) throw new Error(`the runtime's program has changed: "${from}" is in it ${parts.length - 1} times`);
  return parts.join(to);
}

function found(text, pattern) {
  const match = pattern.exec(text);
  if (!match) throw new Error(`the runtime's program has changed: there is no ${pattern} in it`);
  return match[1];
}
