// plain.ts: starts Python without the snapshot, by the runtime's own public way: slower, and the way that is left where the
// snapshot does not fit.
// Knows the runtime's public interface and the names of its files; the bytes are handed in.
import { loadPyodide } from "pyodide";
import createRuntime from "pyodide/pyodide.asm.mjs";
import type { Door } from "./door";

const NOWHERE = "http://handed.in/"; // the runtime insists on an address; nothing is ever fetched from it
const LOCK = "pyodide-lock.json";

interface Settings {
  instantiateWasm: (imports: WebAssembly.Imports, done: (i: WebAssembly.Instance, m: WebAssembly.Module) => void) => object;
}

export async function plainStart(
  wasm: Promise<WebAssembly.Module>,
  files: Record<string, ArrayBuffer>,
): Promise<{ door: Door; heap: () => number }> {
  const failed = deferred();
  replaceFetch(files, failed.reject);
  const create = (settings: Settings): unknown => {
    const marker = Symbol("error marker");
    settings.instantiateWasm = (imports, done) => {
      const env = imports["env"] as Record<string, WebAssembly.ImportValue>;
      env["Jsv_GetError_import"] = () => marker;
      env["JsvError_Check"] = (value: unknown) => value === marker;
      imports["sentinel"] = { create_sentinel: () => marker, is_sentinel: (value: unknown) => value === marker }; // before 314
      wasm
        .then(async (module) => done(await WebAssembly.instantiate(module, imports), module))
        .catch(failed.reject);
      return {};
    };
    return createRuntime(settings);
  };
  Object.assign(self, { _createPyodideModule: create }); // where releases before 314 look for it
  const runtime = loadPyodide({
    indexURL: NOWHERE,
    packageBaseUrl: NOWHERE,
    lockFileContents: new TextDecoder().decode(files[LOCK]),
    packages: ["calculators"],
    createPyodideModule: create,
  } as unknown as Parameters<typeof loadPyodide>[0]);
  const python = await Promise.race([runtime, failed.promise]);
  (self as { fetch?: unknown }).fetch = undefined; // Python has all it needs: nothing fetches from here on
  const door = python.pyimport("calculators.door").answer as Door;
  const module = (python as unknown as { _module: { HEAPU8: Uint8Array } })._module;
  return { door, heap: () => module.HEAPU8.length };
}

/** The runtime asks for its files through `fetch`. It gets what the page has handed in, and nothing else. */
function replaceFetch(files: Record<string, ArrayBuffer>, missing: (why: Error) => void): void {
  const fetch = (address: RequestInfo | URL): Promise<Response> => {
    const name = String(address instanceof Request ? address.url : address).split("/").pop() ?? "";
    if (name.endsWith(".wasm")) return Promise.resolve(new Response(new Uint8Array())); // it has been given the compiled module
    const bytes = files[name];
    if (!bytes) {
      const why = new Error(`${name} was not handed in`);
      missing(why);
      return Promise.reject(why);
    }
    return Promise.resolve(new Response(bytes));
  };
  Object.defineProperty(self, "fetch", { value: fetch, configurable: true, writable: true });
}

function deferred(): { promise: Promise<never>; reject: (why: unknown) => void } {
  let reject: (why: unknown) => void = () => undefined;
  const promise = new Promise<never>((_, refuse) => (reject = refuse));
  promise.catch(() => undefined);
  return { promise, reject };
}
