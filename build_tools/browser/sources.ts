// sources.ts: brings the engine's files to the page, from a server or out of a folder. Knows addresses, hashes and
// script files; knows no worker and no Python.

/** What the build tells about one file: its size, and its SHA-256 as an integrity attribute. */
interface Told {
  bytes: number;
  integrity: string;
}

declare const __ENGINE_FILES__: Record<string, Told>;

export type Wasm = WebAssembly.Module | ArrayBuffer;

const RUNTIME = "pyodide.asm.wasm";
// The wheel's name tells which Python its byte code is for, so it is asked for.
const WHEEL = Object.keys(__ENGINE_FILES__).filter((name) => name.endsWith(".whl"));
export const PLAIN_FILES = ["python_stdlib.zip", ...WHEEL, "pyodide-lock.json"];

/** The engine's files, each brought once; one that did not come is tried again the next time. */
export class Sources {
  #brought = new Map<string, Promise<unknown>>();
  readonly #folder: boolean;

  /** @param base where the engine's files are, ending in a slash */
  constructor(private readonly base: string) {
    this.#folder = base.startsWith("file:");
  }

  wasm(): Promise<Wasm> {
    return this.#once(RUNTIME, async () => {
      if (this.#folder) return this.#fromScript(RUNTIME);
      // Not held back by a hash: compiled while it arrives, and the browser keeps the compiled code. That it is the
      // right one shows when the memory is compared.
      const response = await fetch(this.#address(RUNTIME));
      if (!response.ok) return this.#fromScript(RUNTIME);
      if (response.headers.get("content-type")?.startsWith("application/wasm")) {
        return WebAssembly.compileStreaming(response);
      }
      return WebAssembly.compile(await response.arrayBuffer());
    });
  }

  file(name: string): Promise<ArrayBuffer> {
    return this.#once(name, async () => {
      if (this.#folder) return this.#fromScript(name);
      const told = __ENGINE_FILES__[name];
      try {
        const response = await fetch(this.#address(name), told ? { integrity: told.integrity } : {});
        if (response.ok) return await response.arrayBuffer();
      } catch {
        // not there, cut short, or not what the build made
      }
      return this.#fromScript(name);
    });
  }

  /** In the query, so that no cache mixes the files of two builds. */
  #address(name: string): string {
    const mark = __ENGINE_FILES__[name]?.integrity.slice(7, 17) ?? "";
    return `${this.base}${name}?${encodeURIComponent(mark)}`;
  }

  #once<T>(name: string, bring: () => Promise<T>): Promise<T> {
    const known = this.#brought.get(name) as Promise<T> | undefined;
    if (known) return known;
    const coming = bring();
    this.#brought.set(name, coming);
    coming.catch(() => this.#brought.delete(name));
    return coming;
  }

  /**
   * A page opened from a folder may not fetch, but may run scripts: each file also stands in one, packed, as text.
   * The script hands the text to `waPacked`.
   */
  #fromScript(name: string): Promise<ArrayBuffer> {
    return new Promise((resolve, reject) => {
      const script = document.createElement("script");
      const taken = (window.waPacked ??= {});
      script.src = `${this.base}packed/${name}.js`;
      script.onload = () => {
        script.remove();
        const text = taken[name];
        delete taken[name];
        if (text === undefined) reject(new Error(`${name} is not in its script`));
        else resolve(fromBase64(text));
      };
      script.onerror = () => {
        script.remove();
        reject(new Error(`${name} could not be loaded`));
      };
      document.head.append(script);
    });
  }
}

declare global {
  interface Window {
    waPacked?: Record<string, string>;
  }
}

function fromBase64(text: string): ArrayBuffer {
  const quick = (Uint8Array as unknown as { fromBase64?: (text: string) => Uint8Array<ArrayBuffer> }).fromBase64;
  if (quick) return quick(text).buffer;
  const binary = atob(text);
  const bytes = new Uint8Array(binary.length);
  for (let i = 0; i < binary.length; i++) bytes[i] = binary.charCodeAt(i);
  return bytes.buffer;
}
