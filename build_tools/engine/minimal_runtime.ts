// minimal_runtime.ts: the runtime without its package machinery: Python's own program, its memory, and nothing else.
// Knows how the runtime's program is set up; the same under Node when the site is built and in a reader's worker.
import createRuntime from "pyodide/pyodide.asm.mjs";

/** What of the runtime's program we touch. Names with an underscore are C functions and addresses. */
export interface Runtime {
  HEAPU8: Uint8Array<ArrayBuffer>;
  HEAPU32: Uint32Array<ArrayBuffer>;
  FS: { mkdirTree(path: string): void; writeFile(path: string, data: Uint8Array): void };
  ENV: Record<string, string>;
  stackSave(): number;
  stackRestore(address: number): void;
  stringToNewUTF8(text: string): number;
  ___heap_base: number;
  __PyRuntime: number;
  __PyEM_EMSCRIPTEN_TRAMPOLINE_OFFSET: number;
  _emscripten_stack_get_end(): number;
  _sbrk(bytes: number): number;
  _malloc(bytes: number): number;
  _free(address: number): void;
  _PyRun_SimpleString(code: number): number;
  _PyErr_Clear(): void;
  _Py_DecRef(object: number): void;
  _PyBytes_FromStringAndSize(bytes: number, count: number): number;
  _PyUnicode_FromStringAndSize(text: number, bytes: number): number;
  _PyUnicode_AsUTF8AndSize(object: number, bytes: number): number;
  _PyObject_Vectorcall(callee: number, values: number, count: number, names: number): number;
}

export interface Setting {
  /** The runtime's machine code. It may still be compiling: the JavaScript around it is set up meanwhile. */
  wasm: WebAssembly.Module | Promise<WebAssembly.Module>;
  /** In bytes, a multiple of 65536; the program's own choice where not given. */
  memory?: number;
  /** Start Python with these arguments; without, the program is set up and Python left alone. */
  python?: string[];
  /** Called before Python starts: files and variables. */
  preRun?: (runtime: Runtime) => void;
  /** Called with the WebAssembly instance before it runs. */
  onInstance?: (instance: WebAssembly.Instance) => void;
}

export async function minimalRuntime({ wasm, memory, python, preRun, onInstance }: Setting): Promise<Runtime> {
  const marker = Symbol("error marker");
  let fail: (why: unknown) => void = () => undefined;
  const failed = new Promise<never>((_, reject) => (fail = reject));
  const runtime = createRuntime({
    noImageDecoding: true,
    noAudioDecoding: true,
    thisProgram: "/python",
    arguments: python ?? [],
    noInitialRun: !python,
    ...(memory ? { INITIAL_MEMORY: memory } : {}),
    // The package machinery waits for its lock file before it does anything: a promise that never settles keeps it idle.
    API: { config: { jsglobals: {}, env: {} }, runtimeEnv: {}, lockFilePromise: new Promise(() => undefined) },
    preRun: [(runtime: Runtime) => preRun?.(runtime)],
    print: () => undefined,
    printErr: (line: string) => console.warn(line),
    locateFile: (path: string) => path,
    instantiateWasm(
      imports: { env: Record<string, unknown> },
      done: (instance: WebAssembly.Instance, module: WebAssembly.Module) => void,
    ): object {
      imports.env["Jsv_GetError_import"] = () => marker;
      imports.env["JsvError_Check"] = (value: unknown) => value === marker;
      Promise.resolve(wasm)
        .then(async (module) => {
          const instance = await WebAssembly.instantiate(module, imports as WebAssembly.Imports);
          onInstance?.(instance);
          done(instance, module);
        })
        .catch(fail); // the program itself would wait for ever
      return {};
    },
  });
  return Promise.race([runtime, failed]);
}

/**
 * The index in HEAPU32 of a word that depends on the browser: the table position of a helper for calls (the
 * trampoline), which only some browsers can compile. The runtime sets it before Python starts, so no snapshot may bring it
 * from another browser.
 */
export function trampolineSlot(runtime: Runtime): number {
  const offset = runtime.HEAPU32[runtime.__PyEM_EMSCRIPTEN_TRAMPOLINE_OFFSET >>> 2] ?? 0;
  return (runtime.__PyRuntime + offset) >>> 2;
}
