// archive.mjs: writes a zip file. Knows which files, under which names, and which of them are worth packing; knows no
// page. The packer is written in plain script, so that its bytes hang on no machine's zlib: fflate, pinned with its hash.
// One file after the other goes to the disk: all of them at once would be more than a machine's memory holds.
import { createHash } from "node:crypto";
import { closeSync, mkdirSync, openSync, readFileSync, readdirSync, renameSync, rmSync, statSync, writeFileSync, writeSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Zip, ZipDeflate } from "fflate";

// Most of an archive is the engine, the same in one build after another: what is large is deflated once. What was deflated
// is known by the bytes it came from, this script and fflate, and is taken only while its own hash, which stands before it,
// is right. What no longer is in the archive goes once there is more of all than FULL.
const [LARGE, LEVEL, HASH, FULL] = [1 << 16, 6, 32, 100e6];

const { entries, into, deflated } = JSON.parse(readFileSync(process.argv[2], "utf8"));
const sha = (...parts) => parts.reduce((hash, part) => hash.update(part), createHash("sha256")).digest();
const packer = sha(...[import.meta.url, import.meta.resolve("fflate")].map((url) => sha(readFileSync(fileURLToPath(url)))));
const used = new Set();

function earlier(place) {
  try {
    const file = readFileSync(place);
    const packed = file.subarray(HASH);
    return sha(packed).equals(file.subarray(0, HASH)) ? packed : null;
  } catch {
    return null; // never deflated, or taken away by a build beside this one
  }
}

function keep(place, packed) {
  writeFileSync(`${place}.${process.pid}.part`, Buffer.concat([sha(packed), packed]));
  renameSync(`${place}.${process.pid}.part`, place);
}

/** Adds a file's bytes to the archive, deflated now or in an earlier build: the same bytes. */
function push(file, data, packed) {
  if (packed || data.length < LARGE) return file.push(data, true);
  const name = sha(packer, data).toString("hex");
  const place = `${deflated}/${name}`;
  used.add(name);
  const there = earlier(place);
  if (there) {
    file.process = () => file.ondata(null, there, true);
    return file.push(data, true);
  }
  const parts = [];
  const toArchive = file.ondata;
  file.ondata = (error, part, last) => {
    if (part) parts.push(part.slice());
    toArchive(error, part, last);
  };
  file.push(data, true);
  keep(place, Buffer.concat(parts));
}

mkdirSync(deflated, { recursive: true });
const opened = openSync(`${into}.part`, "w");
const zip = new Zip((error, chunk) => {
  if (error) throw error;
  for (let at = 0; at < chunk.length; ) at += writeSync(opened, chunk, at);
});
for (const { name, from, packed } of entries) {
  const file = new ZipDeflate(name, { level: packed ? 0 : LEVEL });
  file.mtime = "1980-01-01T00:00:00"; // the first moment that a zip entry can hold, told in local time as zip files tell it
  file.os = 3; // the same on every system: otherwise the byte tells where it was built
  file.attrs = 0o100644 << 16; // a regular file that everyone may read
  zip.add(file);
  push(file, readFileSync(from), packed);
}
zip.end();
closeSync(opened);
renameSync(`${into}.part`, into);
const bytes = (name) => statSync(`${deflated}/${name}`, { throwIfNoEntry: false })?.size ?? 0;
const there = readdirSync(deflated);
if (there.reduce((sum, name) => sum + bytes(name), 0) > FULL) {
  for (const name of there) if (!used.has(name)) rmSync(`${deflated}/${name}`, { force: true });
}
