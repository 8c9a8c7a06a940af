// drawn.ts: shows a drawing as an image, in which nothing runs or loads. Knows SVG text; knows no card.

declare const __FACE_CSS__: string; // a rule that carries the label face, put in when this is bundled

const newest = new WeakMap<Element, HTMLImageElement>(); // by place, the picture asked for last

/** The drawing with its face inside, since an image has none of the page's. */
function withFace(svg: string): string {
  const head = svg.indexOf(">") + 1;
  return `${svg.slice(0, head)}<style>${__FACE_CSS__}</style>${svg.slice(head)}`;
}

export async function draw(place: Element, { svg, words }: { svg: string; words: string }): Promise<void> {
  const address = URL.createObjectURL(new Blob([withFace(svg)], { type: "image/svg+xml" }));
  const image = new Image();
  image.alt = words;
  image.src = address;
  newest.set(place, image);
  await image.decode().catch(() => undefined); // so that one picture takes the other's place without a gap
  if (newest.get(place) === image) place.replaceChildren(image);
  URL.revokeObjectURL(address);
}

/** The same drawing, told in other words to who does not see it. */
export function retell(place: Element, words: string): void {
  const image = newest.get(place);
  if (image) image.alt = words;
}

export function empty(place: Element, words: string): void {
  newest.delete(place);
  place.replaceChildren(words);
}

/** A drawing's text for screen readers. */
export function wordsOf(svg: string): string {
  const read = new DOMParser().parseFromString(svg, "image/svg+xml");
  return read.documentElement.getAttribute("aria-label") ?? "";
}
