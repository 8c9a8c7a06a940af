// An answer stands in its two places whichever way it comes there, and folds stay as the reader has them.
import assert from "node:assert/strict";
import { test } from "node:test";

globalThis.matchMedia = () => ({ matches: false }); // a laptop's screen
document.implementation = { createHTMLDocument: () => document }; // which this parser does not have
const { Outcome } = await import("../../../../build_tools/browser/calculator/outcome.ts");

const answer = (number, further = "") =>
  `<div class="first"><p>${number} ns</p></div><div class="rest"><details data-fold="note" open>` +
  `<summary>Of ${number}</summary><p>why ${number}</p></details>${further}</div>`;

function placed() {
  const places = [document.createElement("div"), document.createElement("div")];
  const outcome = new Outcome(...places);
  return { outcome, fold: () => places[1].querySelector("details"), text: () => places.map((each) => each.textContent) };
}

test("the first element stands in the first place, the rest in the other", () => {
  const { outcome, text } = placed();
  outcome.put(answer(10));
  assert.deepEqual(text(), ["10 ns", "Of 10why 10"]);
});

for (const [way, further] of [["in place", ""], ["by other elements", "<p>more</p>"]]) {
  test(`a fold that the reader has opened stays open when the next answer comes ${way}`, () => {
    const { outcome, fold, text } = placed();
    outcome.put(answer(10));
    assert.equal(fold().open, false, "notes begin closed");
    fold().open = true;
    const before = fold();
    outcome.put(answer(20, further));
    assert.equal(fold().open, true);
    assert.equal(fold(), before);
    assert.deepEqual(text(), ["20 ns", `Of 20why 20${further && "more"}`]);
    fold().open = false;
    outcome.put(answer(30, further));
    assert.equal(fold().open, false);
  });
}

test("what somebody else has added goes with the answer that it was added to", () => {
  const { outcome, fold, text } = placed();
  outcome.put(answer(10));
  outcome.put(answer(20));
  fold().querySelector("p").append(document.createElement("font"));
  fold().querySelector("font").textContent = " warum 20";
  outcome.put(answer(30));
  assert.deepEqual(text(), ["30 ns", "Of 30why 30"]);
});

test("a copy is another's: what is put there stands nowhere else", () => {
  const { outcome, text } = placed();
  outcome.put(answer(10));
  const copy = outcome.copy();
  copy.put(answer(20));
  assert.deepEqual(text(), ["10 ns", "Of 10why 10"]);
  assert.equal(copy.result.textContent, "20 ns");
});
