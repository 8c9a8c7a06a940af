// archive.mjs: writes a zip file. Knows which files, under which names, and which of them are worth packing; knows no
// page. The packer is written in plain script, so that its bytes hang on no machine's zlib: fflate, pinned with its hash.
import { readFileSync, renameSync, writeFileSync } from "node:fs";
import { zipSync } from "fflate";

const { entries, into } = JSON.parse(readFileSync(process.argv[2], "utf8"));
const files = {};
for (const { name, from, packed } of entries) files[name] = [readFileSync(from), { level: packed ? 0 : 6 }];
writeFileSync(
  `${into}.part`,
  zipSync(files, {
    mtime: "1980-01-01T00:00:00", // the first moment that a zip entry can hold, told in local time as zip files tell it
    os: 3, // the same on every system: otherwise the byte tells where it was built
    attrs: 0o100644 << 16, // a regular file that everyone may read
  }),
);
renameSync(`${into}.part`, into);
