// files.ts: brings the engine's files to the page, from a server or out of a folder. Knows addresses, hashes and
// script files; knows no worker and no Python.

/** What the build tells about one file: its size, and its SHA-256 as an integrity attribute. */
interface Declared {
  bytes: number;
  integrity: string;
}

/** Bytes of one file on its way. `all` is 0 until its host has told. */
interface Travel {
  all: number;
  come: number;
}

import { unpacked } from "../../engine/gunzip";
import { canDigest, integrityOf } from "./integrity";

declare const __ENGINE_FILES__: Record<string, Declared>;

const LIST = "bundles.json"; // what is told of the calculators' bundles: more with every calculator, so not in the page's script
const SMALL = 500_000; // bytes, unpacked: the worker's script, a bundle
const PACKED_ITSELF = ".bin"; // packed by the build, and so for every host

/** Takes the pieces of a file, and is told of which file they were once they are all of it. */
export interface Beside {
  take(piece: Uint8Array<ArrayBuffer>): void;
  of?: ArrayBuffer;
}

export type Wasm = WebAssembly.Module | ArrayBuffer;

// The wheel's name tells which Python its byte code is for, so it is asked for.
const WHEEL = Object.keys(__ENGINE_FILES__).filter((name) => name.endsWith(".whl"));
export const PLAIN_FILES = ["python_stdlib.zip", ...WHEEL, "pyodide-lock.json"];

/** Whether the build has made this file. */
export const has = (name: string): boolean => name in __ENGINE_FILES__;

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

  /**
   * Machine code, compiled while it arrives. It is handed on when its hash has been compared as well.
   * @param first what goes before: until it is settled the code travels, and is not yet compiled
   */
  wasm(name: string, first: Promise<unknown>): Promise<Wasm> {
    return this.#once(name, async () => {
      if (!this.#folder) {
        try {
          return await this.#compiled(name, first);
        } catch (error) {
          if (error instanceof WebAssembly.CompileError) throw error; // the hash is right, so no other copy helps
        }
      }
      return this.#fromScript(name);
    });
  }

  /** What the build tells of a file: of the engine's own in the page's script, of a bundle in the list. */
  async #declared(name: string): Promise<Declared | undefined> {
    return __ENGINE_FILES__[name] ?? (has(LIST) && name.endsWith(PACKED_ITSELF) ? (await this.#list())[name] : undefined);
  }

  #list(): Promise<Record<string, Declared>> {
    return this.#once(`${LIST}, read`, async () => {
      return JSON.parse(new TextDecoder().decode(await this.file(LIST))) as Record<string, Declared>;
    });
  }

  async #compiled(name: string, first: Promise<unknown>): Promise<WebAssembly.Module> {
    const declared = __ENGINE_FILES__[name];
    // Where the page cannot compare while it is compiled, the browser compares before.
    const beside = canDigest();
    const travel = this.#setOut(name);
    const response = await fetch(this.#address(name, declared), declared && !beside ? { integrity: declared.integrity } : {});
    if (!response.ok) throw new Error(`${response.status} for ${name}`);
    travel.all = onTheWay(response);
    await first.catch(() => undefined);
    const copy = beside ? this.#counted(name, response.clone(), travel, declared) : undefined;
    copy?.catch(() => undefined); // told below
    const streams = response.headers.get("content-type")?.startsWith("application/wasm");
    const coming = streams ? WebAssembly.compileStreaming(response) : response.arrayBuffer().then((file) => WebAssembly.compile(file));
    coming.catch(() => undefined); // told below, unless the file is another one
    if (copy) await this.#compared(name, await copy);
    const module = await coming;
    travel.come = travel.all;
    return module;
  }

  /** Compare a file with its hash. Gives it back, or throws if it is not what the build made. */
  async #compared(name: string, file: ArrayBuffer): Promise<ArrayBuffer> {
    const declared = await this.#declared(name);
    if (declared && (await integrityOf(file)) !== declared.integrity) throw new Error(`${name} is not what the build made`);
    return file;
  }

  /**
   * A file, as it travels.
   * @param beside gets its bytes while they arrive, unless it is there already, or out of a script
   * @param first until it is settled the file travels, and its bytes are left alone
   */
  file(name: string, beside?: Beside, first?: Promise<unknown>): Promise<ArrayBuffer> {
    return this.#once(name, async () => {
      if (this.#folder) return this.#fromScript(name);
      const declared = await this.#declared(name);
      try {
        // With an integrity attribute the browser hands nothing out before all has come, and nobody could tell how much
        // is still to come: where the page can compare by itself, it does. Not a small one: it would stand in line for the
        // threads on which the machine code is compiled.
        const compares = canDigest() && (declared?.bytes ?? 0) > SMALL;
        const travel = this.#setOut(name);
        const response = await fetch(this.#address(name, declared), declared && !compares ? { integrity: declared.integrity } : {});
        if (response.ok) {
          await first?.catch(() => undefined);
          const file = await this.#counted(name, response, travel, declared, beside);
          return compares ? await this.#compared(name, file) : file;
        }
      } catch {
        // not there, cut short, or not what the build made
      }
      return this.#fromScript(name);
    });
  }

  /** One calculator's modules, uncompressed; undefined for one that has none of its own. */
  bundle(calculator: string): Promise<ArrayBuffer | undefined> {
    const name = `${calculator}.bin`;
    return this.#once(`${name}, unpacked`, async () => {
      return (await this.#declared(name)) ? unpacked(await this.file(name)) : undefined;
    });
  }

  /** A file is asked for; how large it travels its host will tell. */
  #setOut(name: string): Travel {
    const travel = { all: 0, come: 0 };
    this.#travel.set(name, travel);
    return travel;
  }

  async #counted(name: string, response: Response, travel: Travel, declared: Declared | undefined, beside?: Beside): Promise<ArrayBuffer> {
    const size = declared?.bytes ?? 0;
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
      beside?.take(value); // which may hand it over
      travel.come = (travel.all * at) / size;
    }
    if (at !== size) throw new Error(`${name} is cut short`);
    if (beside) beside.of = whole.buffer;
    return whole.buffer;
  }

  /** In the query, so that no cache mixes the files of two builds. */
  #address(name: string, declared: Declared | undefined): string {
    const mark = declared?.integrity.slice(7, 17) ?? "";
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
   * What comes out is compared like what is fetched: a copied folder may hold the files of two editions.
   */
  async #fromScript(name: string): Promise<ArrayBuffer> {
    this.#travel.delete(name); // a script tells nobody how much of it has come
    const file = await this.#handed(name);
    return this.#compared(name, name.endsWith(PACKED_ITSELF) ? file : await unpacked(file));
  }

  /** The script hands the text to `waPacked`. */
  #handed(name: string): Promise<ArrayBuffer> {
    return new Promise((resolve, reject) => {
      const script = document.createElement("script");
      const taken = (window.waPacked ??= {});
      script.src = `${this.base}packed/${name}.js`;
      script.onload = () => {
        script.remove();
        const text = taken[name];
        delete taken[name];
        if (text === undefined) return reject(new Error(`${name} is not in its script`));
        try {
          resolve(fromBase64(text));
        } catch (error) {
          reject(error as Error); // a bit of it is another: nobody else would hear of it
        }
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

/** The bytes that will travel, as the server tells them: of a compressed file its compressed size. 0 where it tells none. */
const onTheWay = (response: Response): number => Number(response.headers.get("content-length") ?? 0);

const sum = (numbers: number[]): number => numbers.reduce((total, each) => total + each, 0);

function fromBase64(text: string): ArrayBuffer {
  const quick = (Uint8Array as unknown as { fromBase64?: (text: string) => Uint8Array<ArrayBuffer> }).fromBase64;
  if (quick) return quick(text).buffer;
  const binary = atob(text);
  const bytes = new Uint8Array(binary.length);
  for (let i = 0; i < binary.length; i++) bytes[i] = binary.charCodeAt(i);
  return bytes.buffer;
}
