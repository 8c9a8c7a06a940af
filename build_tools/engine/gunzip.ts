// gunzip.ts: undoes gzip. Knows nothing of what is inside.

/** The bytes inside a gzip file; bytes that are not gzip come back as they are. */
export async function unpacked(packed: ArrayBuffer): Promise<ArrayBuffer> {
  const [first, second] = new Uint8Array(packed, 0, 2);
  if (first !== 0x1f || second !== 0x8b) return packed;
  const gzip = new DecompressionStream("gzip");
  const writer = gzip.writable.getWriter();
  for (const end of [writer.write(packed), writer.close()]) end.catch(() => undefined); // told by the reading side
  return new Response(gzip.readable).arrayBuffer();
}
