// pack_scripts.mjs: writes a file's bytes into a script, for pages that may run scripts but not fetch. Knows gzip and
// base64. Node's own zlib, pinned with Node, so that every machine writes the same bytes.
import { readFileSync, renameSync, writeFileSync } from "node:fs";
import { gzipSync } from "node:zlib";

for (const { from, name, mark, into } of JSON.parse(process.argv[2]).files) {
  const bytes = readFileSync(from);
  const packed = bytes[0] === 0x1f && bytes[1] === 0x8b ? bytes : gzipSync(bytes, { level: 9 });
  const text = `/* ${mark} */(window.waPacked??={})[${JSON.stringify(name)}]=${JSON.stringify(packed.toString("base64"))}`;
  writeFileSync(`${into}.part`, text);
  renameSync(`${into}.part`, into);
}
