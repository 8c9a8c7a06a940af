// whole_python.ts: Python under Node with its library and the calculators, in a bare runtime: for what the build does in it.
// Knows files and how Python is started; knows nothing of what is run.
import { readFileSync } from "node:fs";
import { type Runtime, minimalRuntime } from "./minimal_runtime";

export interface Places {
  wasm: string;
  library: string;
  calculators: string;
  python: string; // its version, such as 3.14: the library stands under it
}

const PYTHON = ["-I", "-S", "-OO"];

/** @param files what else Python finds, by its own path for it */
export async function wholePython(
  wasm: WebAssembly.Module,
  { library, calculators, python }: Places,
  files: Record<string, Uint8Array> = {},
): Promise<Runtime> {
  return minimalRuntime({
    wasm,
    python: PYTHON,
    preRun({ FS, ENV }) {
      FS.mkdirTree(`/lib/python${python}/lib-dynload`);
      FS.writeFile(`/lib/python${python.replace(".", "")}.zip`, readFileSync(library));
      FS.writeFile("/calculators.whl", readFileSync(calculators));
      for (const [path, file] of Object.entries(files)) FS.writeFile(path, file);
      ENV["PYTHONHASHSEED"] = "0";
    },
  });
}

/** Run a program in a namespace of its own, which goes with it. What is left stays: no collection looks at it again. */
export function run(runtime: Runtime, program: string, name: string): void {
  const text = JSON.stringify(readFileSync(program, "utf8")); // as good a text literal in Python as here
  const code = `exec(compile(${text}, "${name}", "exec"), {"__name__": "inside"})\nimport gc\ngc.collect()\ngc.collect()\ngc.freeze()\ndel gc`;
  const at = runtime.stringToNewUTF8(code);
  if (runtime._PyRun_SimpleString(at) !== 0) throw new Error(`${name} failed`);
  runtime._free(at);
}

export function bytesOf(runtime: Runtime, path: string): Uint8Array {
  return (runtime.FS as unknown as { readFile(path: string): Uint8Array }).readFile(path);
}

export function textOf(runtime: Runtime, path: string): string {
  return new TextDecoder().decode(bytesOf(runtime, path));
}
