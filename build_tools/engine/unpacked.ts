// unpacked.ts: undoes gzip. Knows nothing of what is inside.

/** The bytes inside a gzip file; bytes that are not gzip come back as they are. */
export async function unpacked(packed: ArrayBuffer): Promise<ArrayBuffer> {
  const [first, second] = new Uint8Array(packed, 0, 2);
  if (first !== 0x1f || second !== 0x8b) return packed;
  return new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
}
