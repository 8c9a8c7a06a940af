// archive.mjs: writes a zip file. Knows which files, under which names, and which of them are worth packing; knows no
// page. The packer is written in plain script, so that its bytes hang on no machine's zlib: fflate, pinned with its hash.
// One file after the other goes to the disk: all of them at once would be more than a machine's memory holds.
import { closeSync, openSync, readFileSync, renameSync, writeSync } from "node:fs";
import { Zip, ZipDeflate } from "fflate";

const { entries, into } = JSON.parse(readFileSync(process.argv[2], "utf8"));
const opened = openSync(`${into}.part`, "w");
const zip = new Zip((error, chunk) => {
  if (error) throw error;
  for (let at = 0; at < chunk.length; ) at += writeSync(opened, chunk, at);
});
for (const { name, from, packed } of entries) {
  const file = new ZipDeflate(name, { level: packed ? 0 : 6 });
  file.mtime = "1980-01-01T00:00:00"; // the first moment that a zip entry can hold, told in local time as zip files tell it
  file.os = 3; // the same on every system: otherwise the byte tells where it was built
  file.attrs = 0o100644 << 16; // a regular file that everyone may read
  zip.add(file);
  file.push(readFileSync(from), true);
}
zip.end();
closeSync(opened);
renameSync(`${into}.part`, into);
