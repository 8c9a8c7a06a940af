// morph.ts: turns one piece of page into another, touching only what differs. Knows the document tree; knows no meaning.
// Unchanged parts keep their place and their scroll offset, and a screen reader hears only what changed. Afterwards the
// markup equals the new one; which folds are open in that is for folds.ts to say.

/** @param next what `target` shall hold; it is used up */
export function morph(target: Element, next: DocumentFragment): void {
  children(target, next);
}

function children(from: Node, to: Node): void {
  const wanted = [...to.childNodes];
  wanted.forEach((next, index) => {
    const now = from.childNodes[index];
    if (!now) from.appendChild(next);
    else if (alike(now, next)) node(now, next);
    else from.replaceChild(next, now);
  });
  while (from.childNodes.length > wanted.length) from.lastChild?.remove();
}

const alike = (a: Node, b: Node): boolean => a.nodeType === b.nodeType && a.nodeName === b.nodeName;

function node(now: Node, next: Node): void {
  if (!(now instanceof Element) || !(next instanceof Element)) {
    if (now.nodeValue !== next.nodeValue) now.nodeValue = next.nodeValue;
    return;
  }
  if (now.isEqualNode(next)) return;
  for (const name of now.getAttributeNames()) {
    if (!next.hasAttribute(name)) now.removeAttribute(name);
  }
  for (const name of next.getAttributeNames()) {
    const value = next.getAttribute(name)!;
    if (now.getAttribute(name) !== value) now.setAttribute(name, value);
  }
  children(now, next);
}
