// gunzip.ts: undoes gzip. Knows nothing of what is inside.

/** Undoes gzip piece by piece, while the pieces arrive. */
export class Unpacking {
  #gzip = new DecompressionStream("gzip");
  #writer = this.#gzip.writable.getWriter();
  #content = new Response(this.#gzip.readable).arrayBuffer();

  constructor() {
    this.#content.catch(() => undefined); // told by `end`
  }

  take(piece: Uint8Array<ArrayBuffer>): void {
    this.#writer.write(piece).catch(() => undefined); // told by the reading side
  }

  /** What was inside. */
  end(): Promise<ArrayBuffer> {
    this.#writer.close().catch(() => undefined);
    return this.#content;
  }
}

/** The bytes inside a gzip file; bytes that are not gzip come back as they are. */
export async function unpacked(packed: ArrayBuffer): Promise<ArrayBuffer> {
  const bytes = new Uint8Array(packed);
  if (bytes[0] !== 0x1f || bytes[1] !== 0x8b) return packed;
  return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
}
