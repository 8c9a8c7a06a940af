// What stands in the page afterwards is what was wanted, and what did not differ is the very same node.
import assert from "node:assert/strict";
import { test } from "node:test";
import { morph } from "../../../../build_tools/browser/calculator/morph.ts";

function changed(before, after) {
  const target = document.createElement("div");
  target.innerHTML = before;
  const wanted = document.createElement("template");
  wanted.innerHTML = after;
  const nodes = [...target.childNodes];
  const plain = document.createElement("div");
  plain.innerHTML = after;
  morph(target, wanted.content);
  return { is: target, wanted: plain, nodes, now: [...target.childNodes], target };
}

/** What a node holds; in which order its attributes stand means nothing. */
function spelled(node) {
  if (!(node instanceof Element)) return `[${node.nodeType} ${node.nodeValue}]`;
  const attributes = [...node.attributes].map(({ name, value }) => `${name}=${value}`).sort();
  return `<${node.nodeName} ${attributes.join(" ")}>${[...node.childNodes].map(spelled).join("")}</>`;
}

const TEXTS = [
  "",
  "words alone",
  "<p>one</p>",
  "<p>one</p><p>two</p>",
  "<p class=\"a\">one</p>",
  "<p class=\"b\" id=\"x\">one <b>two</b></p>",
  "<ul><li>1</li><li>2</li><li>3</li></ul>",
  "<ul><li>2</li></ul><p>after</p>",
  "<!--a note--><p>one</p>",
  "<details open=\"\"><summary>s</summary><p>t</p></details>",
];

for (const before of TEXTS) {
  for (const after of TEXTS) {
    test(`from ${before || "nothing"} to ${after || "nothing"}`, () => {
      const { is, wanted } = changed(before, after);
      assert.equal(spelled(is), spelled(wanted));
    });
  }
}

test("what has not changed is the same node, also where its neighbour is another", () => {
  const { nodes, now } = changed("<p>one</p><h2>two</h2><p>three</p>", "<p>one</p><section>new</section><p>three</p>");
  assert.equal(now[0], nodes[0]);
  assert.notEqual(now[1], nodes[1]);
  assert.equal(now[2], nodes[2]);
});

test("of a paragraph whose words change, only the text is another", () => {
  const { nodes, now } = changed("<p class=\"a\">old</p>", "<p class=\"a\">new</p>");
  assert.equal(now[0], nodes[0]);
  assert.equal(now[0].textContent, "new");
});

test("an attribute that is no longer wanted goes", () => {
  const { target } = changed("<p hidden=\"\" class=\"a\">x</p>", "<p class=\"b\">x</p>");
  assert.equal(target.firstElementChild.hasAttribute("hidden"), false);
  assert.equal(target.firstElementChild.getAttribute("class"), "b");
});
