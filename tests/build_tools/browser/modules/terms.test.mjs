// What is typed falls into the same terms as what the index holds.
import assert from "node:assert/strict";
import { test } from "node:test";
import { Terms, oneSlip, split } from "../../../../build_tools/browser/finder/terms.ts";

const terms = new Terms({ stop: ["the", "is"], same: [["screen", "display"]], spellings: [["grey", "gray"]] });

for (const [text, words] of [
  ["2560x1440 at 240Hz", ["2560", "1440", "at", "240", "hz"]],
  ["2 × 16 GB", ["2", "16", "gb"]],
  ["2x16gb", ["2", "16", "gb"]],
  ["4K or 1440p", ["4k", "or", "1440p"]],
  ["chroma 4:2:0", ["chroma", "420"]],
  ["3,5 mm", ["3.5", "mm"]],
  ["Größe, déjà", ["grosse", "deja"]],
  ["doesn’t", ["doesnt"]],
  ["1/4 inch", ["quarter", "inch"]],
  ["  ", []],
  ["a.b. 1.4.", ["a", "b", "1.4"]],
]) {
  test(`'${text}' falls apart`, () => assert.deepEqual(split(text), words));
}

test("one word in its forms and both spellings is one term", () => {
  for (const row of [
    ["colour", "colours", "color", "coloring", "colouring"],
    ["swap", "swapping", "swapped", "swaps"],
    ["battery", "batteries"],
    ["grey", "gray"],
    ["organise", "organize", "organised"],
  ]) {
    assert.deepEqual([...new Set(row.map((word) => terms.stem(word)))].length, 1, `${row.map((word) => terms.stem(word))}`);
  }
});

test("words that say nothing are left out, unless there is no other", () => {
  assert.deepEqual(terms.of("the screen is").map(({ text }) => text), [terms.stem("screen")]);
  assert.deepEqual(terms.of("is the").length, 2);
});

test("a name with a number holds the number besides", () => {
  assert.deepEqual(terms.of("ddr5")[0], { text: "ddr5", parts: [terms.stem("ddr"), "5"] });
});

test("what people call it else is known both ways", () => {
  assert.deepEqual([...terms.same(terms.stem("screen"))], [terms.stem("display")]);
  assert.deepEqual([...terms.same(terms.stem("displays"))], [terms.stem("screen")]);
});

test("one slip is a letter wrong, missing, too many, or two swapped; two are not", () => {
  for (const [a, b, is] of [
    ["cable", "cable", true], ["cable", "cabel", true], ["cable", "cble", true], ["cable", "caable", true],
    ["cable", "cabke", true], ["cable", "cabs", false], ["cable", "bacle", false], ["", "a", true], ["", "ab", false],
  ]) {
    assert.equal(oneSlip(a, b), is, `${a} ${b}`);
    assert.equal(oneSlip(b, a), is, `${b} ${a}`);
  }
});
