// Words and values are changed in place where the tags are the same; where they are not, nothing is changed.
import assert from "node:assert/strict";
import { test } from "node:test";
import { Retouch } from "../../../../build_tools/browser/calculator/retouch.ts";

function put(before, later) {
  const places = [document.createElement("div"), document.createElement("div")];
  document.body.append(...places);
  const holder = document.createElement("div");
  holder.innerHTML = before;
  holder.normalize(); // a browser makes one text of what this parser parts at entities
  const [first, ...rest] = [...holder.children];
  places[0].append(first);
  places[1].append(...rest);
  const retouch = new Retouch(places, later);
  retouch.stands(before);
  return { places, retouch, markup: () => places.map((place) => place.innerHTML).join("") };
}

const ONE = '<p class="a" hidden>one<br><b>&lt;2 &amp; 3&gt;</b></p><ul data-n="1"><li>x</li></ul><p>end</p>';

for (const [what, after] of [
  ["a word", ONE.replace("one", "two")],
  ["a value", ONE.replace('data-n="1"', 'data-n="2"')],
  ["signs that are written as entities", ONE.replace("&lt;2", "&quot;&#39;&lt;4")],
  ["all at once", ONE.replace("one", "1").replace('"a"', '"b &amp; c"').replace("end", "the end")],
  ["nothing", ONE],
]) {
  test(`${what}: changed in place`, () => {
    const { places, retouch, markup } = put(ONE);
    const nodes = [...places[0].querySelectorAll("*"), ...places[1].querySelectorAll("*")];
    assert.equal(retouch.put(after), true);
    const wanted = document.createElement("div");
    wanted.innerHTML = after;
    assert.equal(markup(), wanted.innerHTML);
    assert.deepEqual([...places[0].querySelectorAll("*"), ...places[1].querySelectorAll("*")], nodes);
    assert.equal(retouch.put(ONE), true, "and back again");
  });
}

for (const [what, after] of [
  ["another tag", ONE.replace("<b>", "<i>").replace("</b>", "</i>")],
  ["a tag more", `${ONE}<p>more</p>`],
  ["an attribute more", ONE.replace("<li>", '<li class="c">')],
  ["an attribute less", ONE.replace(" hidden", "")],
  ["another attribute", ONE.replace("data-n", "data-m")],
  ["a word that the browser reads as something else", ONE.replace("one", "&eacute;")],
  ["a line's end that the browser changes", ONE.replace("one", "o\r\ne")],
  ["text in a tag's place", ONE.replace("<br>", "br")],
]) {
  test(`${what}: left to others, and nothing changed`, () => {
    const { retouch, markup } = put(ONE);
    const before = markup();
    assert.equal(retouch.put(after), false);
    assert.equal(markup(), before);
  });
}

const FOLD = '<details data-fold="note" open><summary>With 2 sticks</summary><p data-step="a">x</p></details>';

test("a fold's title may have other numbers", () => {
  assert.equal(put(FOLD).retouch.put(FOLD.replace("2", "16.5")), true);
});
for (const [what, after] of [
  ["title", FOLD.replace("sticks", "modules")],
  ["kind", FOLD.replace("note", "more")],
  ["step", FOLD.replace('"a"', '"b"')],
]) {
  test(`by another ${what} it is another fold`, () => assert.equal(put(FOLD).retouch.put(after), false));
}

for (const [what, meddle] of [
  ["a word", (places) => (places[0].firstElementChild.firstChild.nodeValue = "other")],
  ["an attribute", (places) => places[1].firstElementChild.setAttribute("style", "")],
  ["another node", (places) => places[1].firstElementChild.prepend(document.createElement("li"))],
  ["a word of what stays", (places) => (places[1].lastElementChild.firstChild.nodeValue = "Copied.")],
  ["a node of what stays", (places) => places[1].lastElementChild.append(document.createElement("font"))],
  ["all of it", (places) => places[1].replaceChildren()],
]) {
  test(`where somebody else has changed ${what}, it is left to others`, () => {
    const { places, retouch, markup } = put(ONE);
    meddle(places);
    const before = markup();
    assert.equal(retouch.put(ONE.replace("one", "two").replace('data-n="1"', 'data-n="2"')), false);
    assert.equal(markup(), before);
  });
  test(`also where ${what} was changed after something had been put`, () => {
    const { places, retouch } = put(ONE.replace("one", "zero"));
    assert.equal(retouch.put(ONE), true);
    meddle(places);
    const after = ONE.replace("one", "two").replace('data-n="1"', 'data-n="2"');
    assert.equal(retouch.put(after), false);
  });
}

test("after other means have put something else, that is what stands", () => {
  const { places, retouch } = put(ONE);
  places[0].replaceChildren();
  places[1].replaceChildren();
  const holder = document.createElement("div");
  holder.innerHTML = FOLD;
  places[0].append(holder.firstElementChild);
  retouch.stands(FOLD);
  assert.equal(retouch.put(ONE), false);
  assert.equal(retouch.put(FOLD.replace("x", "y")), true);
});

test("what is put off changes when it is due, or before the next", () => {
  const due = [];
  const { retouch, places } = put(ONE, (rest) => due.push(rest));
  const text = () => places.map((place) => place.textContent);
  assert.equal(retouch.put(ONE.replace("one", "two").replace(">x<", ">y<")), true);
  assert.deepEqual(text(), ["two<2 & 3>", "xend"], "the first place at once");
  due[0]();
  assert.deepEqual(text(), ["two<2 & 3>", "yend"]);
  assert.equal(retouch.put(ONE.replace(">x<", ">z<")), true);
  assert.equal(retouch.put(ONE.replace("end", "the end")), true);
  assert.deepEqual(text(), ["one<2 & 3>", "zend"]);
  due[1]();
  assert.deepEqual(text(), ["one<2 & 3>", "zend"], "its time has passed");
  due[2]();
  assert.deepEqual(text(), ["one<2 & 3>", "xthe end"]);
});
test("also before other means put something else", () => {
  const { retouch, places } = put(ONE, () => undefined);
  assert.equal(retouch.put(ONE.replace(">x<", ">y<")), true);
  assert.equal(retouch.put(`${ONE}<p>more</p>`), false);
  assert.equal(places[1].textContent, "yend");
});
