// may_compile.ts: finds out whether this page's policy lets WebAssembly run. Knows nothing of what is to run.

// An empty module. A policy without 'wasm-unsafe-eval' refuses it at once, where the runtime would wait for ever.
const EMPTY_MODULE = new Uint8Array([0, 0x61, 0x73, 0x6d, 1, 0, 0, 0]);

/** Rejects where the policy forbids it. */
export async function mayCompile(): Promise<void> {
  await WebAssembly.compile(EMPTY_MODULE);
}
