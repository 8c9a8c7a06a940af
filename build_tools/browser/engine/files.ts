// files.ts: brings the engine's files to the page, from a server or out of a folder. Knows addresses, hashes and
// script files; knows no worker and no Python.

/** What the build tells about one file: its size, and its SHA-256 as an integrity attribute. */
interface Told {
  bytes: number;
  integrity: string;
}

/** Bytes of one file on its way. `all` is 0 until its host has told. */
interface Travel {
  all: number;
  come: number;
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
  #travel = new Map<string, Travel>();
  readonly #folder: boolean;

  /** @param base where the engine's files are, ending in a slash */
  constructor(private readonly base: string) {
    this.#folder = base.startsWith("file:");
  }

  /** How much has come of what is on its way, in bytes as they travel; all is 0 as long as that cannot be told. */
  get progress(): { come: number; all: number } {
    const files = [...this.#travel.values()];
    const all = files.some((file) => file.all === 0) ? 0 : sum(files.map((file) => file.all));
    return { come: sum(files.map(({ come }) => come)), all };
  }

  wasm(): Promise<Wasm> {
    return this.#once(RUNTIME, async () => {
      if (this.#folder) return this.#fromScript(RUNTIME);
      // Not held back by a hash: compiled while it arrives, and the browser keeps the compiled code. That it is the
      // right one shows when the memory is compared.
      const travel = this.#setOut(RUNTIME);
      const response = await fetch(this.#address(RUNTIME));
      if (!response.ok) return this.#fromScript(RUNTIME);
      // It is compiled as it comes, and nobody may read along: it counts once it is whole.
      travel.all = onTheWay(response);
      const whole = <T>(compiled: T): T => {
        travel.come = travel.all;
        return compiled;
      };
      if (response.headers.get("content-type")?.startsWith("application/wasm")) {
        return WebAssembly.compileStreaming(response).then(whole);
      }
      return WebAssembly.compile(await response.arrayBuffer()).then(whole);
    });
  }

  file(name: string): Promise<ArrayBuffer> {
    return this.#once(name, async () => {
      if (this.#folder) return this.#fromScript(name);
      const told = __ENGINE_FILES__[name];
      try {
        // With an integrity attribute the browser hands nothing out before all has come, and nobody could tell how much
        // is still to come: where the page may hash by itself, it does.
        const own = told && crypto.subtle;
        const travel = this.#setOut(name);
        const response = await fetch(this.#address(name), told && !own ? { integrity: told.integrity } : {});
        if (response.ok) {
          const file = await this.#counted(name, response, travel);
          if (!own || (await integrity(file)) === told.integrity) return file;
        }
      } catch {
        // not there, cut short, or not what the build made
      }
      return this.#fromScript(name);
    });
  }

  /** A file is asked for; how large it travels its host will tell. */
  #setOut(name: string): Travel {
    const travel = { all: 0, come: 0 };
    this.#travel.set(name, travel);
    return travel;
  }

  async #counted(name: string, response: Response, travel: Travel): Promise<ArrayBuffer> {
    const size = __ENGINE_FILES__[name]?.bytes ?? 0;
    travel.all = onTheWay(response);
    const reader = response.body?.getReader();
    if (!reader || !size) return response.arrayBuffer();
    const whole = new Uint8Array(size);
    let at = 0;
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      if (at + value.length > size) throw new Error(`${name} is larger than the build made it`);
      whole.set(value, at);
      at += value.length;
      travel.come = (travel.all * at) / size;
    }
    if (at !== size) throw new Error(`${name} is cut short`);
    return whole.buffer;
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
    this.#travel.delete(name); // a script tells nobody how much of it has come
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

/** What a file's host says will travel: of a packed one its packed size. 0 where it does not say. */
const onTheWay = (response: Response): number => Number(response.headers.get("content-length") ?? 0);

/** A file's SHA-256, written as an integrity attribute. */
async function integrity(file: ArrayBuffer): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", file));
  return `sha256-${btoa(String.fromCharCode(...hash))}`;
}

const sum = (numbers: number[]): number => numbers.reduce((total, each) => total + each, 0);

function fromBase64(text: string): ArrayBuffer {
  const quick = (Uint8Array as unknown as { fromBase64?: (text: string) => Uint8Array<ArrayBuffer> }).fromBase64;
  if (quick) return quick(text).buffer;
  const binary = atob(text);
  const bytes = new Uint8Array(binary.length);
  for (let i = 0; i < binary.length; i++) bytes[i] = binary.charCodeAt(i);
  return bytes.buffer;
}
