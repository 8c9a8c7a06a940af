// runtime.d.ts: types of what has none: the runtime's program by itself, and the little of Node that the build uses.
// The program is not the runtime's public interface: package-lock.json pins the release, the memory that was put back is
// compared at every start, and the plain start does without it.
declare module "pyodide/pyodide.asm.mjs" {
  export default function createRuntime(settings: object): Promise<import("./minimal_runtime").Runtime>;
}

declare module "node:fs" {
  export function readFileSync(path: string): Uint8Array<ArrayBuffer>;
  export function readFileSync(path: string, encoding: "utf8"): string;
  export function writeFileSync(path: string, data: Uint8Array): void;
}

declare module "node:zlib" {
  export function gzipSync(data: Uint8Array, options: { level: number }): Uint8Array;
  export function gunzipSync(data: Uint8Array): Uint8Array<ArrayBuffer>;
}

declare module "node:crypto" {
  interface Hash {
    update(text: string): Hash;
    digest(form: "hex"): string;
  }
  export function createHash(name: string): Hash;
}

declare const process: { argv: string[]; env: Record<string, string>; exit(status: number): never };
