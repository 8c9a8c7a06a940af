// A card shows an address only where it leads others to the page, and its code only where a phone can read it.
import assert from "node:assert/strict";
import { test } from "node:test";

let canonical = null;
globalThis.document = {
  baseURI: "https://answers.example/",
  querySelector: (asked) => (asked === "link[rel=canonical]" && canonical ? { href: canonical } : null),
};
const { addressFor, leadsHere } = await import("../../../../build_tools/browser/screen/address.ts");
const PAGE = "https://answers.example/answers/memory/kit.html";

for (const here of ["http://localhost:8321/a.html", "http://127.0.0.1/", "http://127.9.9.9/", "http://[::1]:80/", "http://site.localhost/", "file:///a"]) {
  test(`${here} leads nobody else here`, () => assert.equal(leadsHere(here), true));
}
for (const there of [PAGE, "http://localhost.example/", "http://127.example/", "/answers/", "https://example.org/127.0.0.1"]) {
  test(`${there} leads others here`, () => assert.equal(leadsHere(there), false));
}

test("a page on a site has its own address, and a code with the numbers", () => {
  canonical = null;
  const { address, code } = addressFor(`${PAGE}#memory.rate:rate=3200`);
  assert.equal(address, PAGE);
  assert.equal(code.length, code[0].length);
  assert.equal((code.length - 17) % 4, 0, "ISO/IEC 18004: 21 modules for version 1, four more for each further one");
  assert.ok(code.flat().every((module) => module === 0 || module === 1));
});

test("a page opened from a folder shows the address it was built for, or none", () => {
  canonical = PAGE;
  assert.equal(addressFor("file:///home/a/kit.html#memory.rate:rate=1").address, PAGE);
  canonical = null;
  assert.deepEqual(addressFor("file:///home/a/kit.html"), { address: "" });
  canonical = "http://localhost:8321/kit.html";
  assert.deepEqual(addressFor("file:///home/a/kit.html"), { address: "" });
});

test("numbers that would make the code too fine are left out of it", () => {
  canonical = null;
  const short = addressFor(PAGE).code;
  assert.deepEqual(addressFor(`${PAGE}#memory.rate:${"rate=3200&".repeat(40)}`).code, short);
});
