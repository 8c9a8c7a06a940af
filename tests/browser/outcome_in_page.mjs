// Puts answers into a page one after another, as the page's script does, and beside it as plain markup. For
// tests/browser/test_outcome.py.
import { Outcome } from "../../build_tools/browser/calculator/outcome.ts";
import { Retouch } from "../../build_tools/browser/calculator/retouch.ts";

/** The elements of all places, side by side. Which folds are open is not the answer's to say. */
function together(...places) {
  const all = document.createElement("div");
  for (const place of places) all.append(...place.cloneNode(true).childNodes);
  for (const fold of all.querySelectorAll("details")) fold.open = false;
  return all;
}

/** @returns for each answer whether it was put in place by words and values alone, and where the markup differed */
window.putAll = (answers) => {
  const made = () => document.body.appendChild(document.createElement("div"));
  const [result, details, plain] = [made(), made(), made()];
  const outcome = new Outcome(result, details);
  let inPlace = 0;
  const put = Retouch.prototype.put;
  Retouch.prototype.put = function (markup) {
    const done = put.call(this, markup);
    if (done) inPlace += 1;
    return done;
  };
  const differing = [];
  for (const [index, html] of answers.entries()) {
    outcome.put(html);
    plain.innerHTML = html;
    if (!together(result, details).isEqualNode(together(plain))) differing.push(index);
  }
  Retouch.prototype.put = put;
  for (const each of [result, details, plain]) each.remove();
  return { inPlace, differing };
};
