// Which folds begin closed: by their kind, by the screen's width, and never deeper than two taps.
import assert from "node:assert/strict";
import { test } from "node:test";
import { NARROW, folded } from "../../../../build_tools/browser/shared/fold_rules.ts";

function on(...holding) {
  globalThis.matchMedia = (asked) => ({ matches: holding.includes(asked) });
}
const WIDE = "(min-width: 75em)";

function fold(kind, around = []) {
  const inside = `<details ${kind === undefined ? "" : `data-fold="${kind}"`} id="it"></details>`;
  document.body.innerHTML = around.reduceRight((html, outer) => `${outer}${html}</details>`, inside);
  // this document does not know the property that a browser's has
  for (const each of document.querySelectorAll("details")) each.open = each.hasAttribute("open");
  return document.getElementById("it");
}

test("what few look for is closed on every screen", () => {
  for (const screen of [[], [NARROW], [WIDE]]) {
    on(...screen);
    for (const kind of ["note", "table", "assumed", "sources", "history", "more", "presenter", "deeper"]) {
      assert.equal(folded(fold(kind)), true, kind);
    }
  }
});

test("another part is closed on a phone held upright alone", () => {
  on(NARROW);
  assert.equal(folded(fold("why")), true);
  on();
  assert.equal(folded(fold("why")), false);
});

test("a fold without a kind is none of ours", () => {
  on(NARROW);
  assert.equal(folded(fold(undefined)), false);
});

test("the form is closed unless it stands beside the result, or in a fold of a further calculator", () => {
  on();
  assert.equal(folded(fold("asks")), true);
  assert.equal(folded(fold("asks", ['<details class="wa-further-fold">'])), false);
  on(WIDE);
  assert.equal(folded(fold("asks")), false);
});

test("nothing is further away than two taps: inside two closed folds a third is open", () => {
  on(NARROW);
  assert.equal(folded(fold("note", ["<details>"])), true);
  assert.equal(folded(fold("note", ["<details>", "<details>"])), false);
  assert.equal(folded(fold("note", ["<details>", "<details open>"])), true);
});
