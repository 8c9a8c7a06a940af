// lean_program.mjs: lets the runtime's program skip, where it is asked to (`lean: true`), what only code loaded later would
// need: positions in the function table and global slots for 8,500 functions, and machine code for 280 drawing functions.
// A plugin for esbuild; knows the program's text, which package-lock.json pins. It saves about 0.15 s at every start.
import { readFile } from "node:fs/promises";

const CHANGES = [
  [
    'mergeLibSymbols(wasmExports,"main")',
    'mergeLibSymbols(Module.lean?{__main_argc_argv:wasmExports.__main_argc_argv}:wasmExports,"main")',
  ],
  [
    "var updateGOT=(exports,replace)=>{for(var symName in exports){",
    "var updateGOT=(exports,replace)=>{for(var symName in exports){if(Module.lean&&!GOT[symName]){continue}",
  ],
  [
    "var reportUndefinedSymbols=()=>{for(var[symName,entry]of Object.entries(GOT)){if(entry.value==-1){",
    "var reportUndefinedSymbols=()=>{for(var[symName,entry]of Object.entries(GOT)){if(entry.value==-1){" +
      "if(Module.lean){entry.value=0;continue}",
  ],
  [
    "return addFunction(trampolineInstance.exports.trampoline_call)",
    "if(Module.lean){var slot=getEmptyTableSlot();setWasmTableEntry(slot,trampolineInstance.exports.trampoline_call);" +
      "return slot}return addFunction(trampolineInstance.exports.trampoline_call)",
  ],
];

export const leanProgram = {
  name: "lean program",
  setup(build) {
    build.onLoad({ filter: /pyodide\.asm\.mjs$/ }, async ({ path }) => {
      let text = await readFile(path, "utf8");
      for (const [from, to] of CHANGES) {
        const parts = text.split(from);
        if (parts.length !== 2) {
          return { errors: [{ text: `the runtime's program has changed: "${from}" is in it ${parts.length - 1} times` }] };
        }
        text = parts.join(to);
      }
      return { contents: text, loader: "js" };
    });
  },
};
