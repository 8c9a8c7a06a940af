// picture.ts: shows what was taken at a desk, and nothing else. Keeps the last picture when the server goes away.
// A further step of the card that is shown fades in over it; ?motion=off and reduced motion leave hard cuts.
import { byId } from "./dom";
import { draw, empty, retell } from "./drawn";
import { listen, post, type Shown } from "./server";
import { showSync } from "./sync";

const AGAIN_MS = 300;
const FADE_MS = 300; // as in build_tools/cards/command.py
const cuts = new URLSearchParams(location.search).get("motion") === "off";
const place = byId("shown");
let wanted = 0; // the number of the newest picture that this page has heard of
let shown = 0;
let synced = 0; // the moment of the newest sync frame that this page has heard of
let drawn = ""; // what stands there: a picture that is only frozen is not drawn anew

/** The parts of a card, sign by sign. */
const parts = (svg: string): string[] => svg.replace(/<\/svg>\s*$/, "").split("<g data-part=").slice(1);

/** Whether a drawing only adds to another. */
function adds(more: string, less: string): boolean {
  const now = new Set(parts(more));
  const old = parts(less);
  return old.length > 0 && now.size > old.length && old.every((part) => now.has(part));
}

// The picture before stays below until the new one stands: what both show does not change by a shade.
async function show(svg: string, words: string, before: string): Promise<void> {
  const old = place.querySelector("img:last-child");
  const still = cuts || matchMedia("(prefers-reduced-motion: reduce)").matches;
  await draw(place, { svg, words });
  const image = place.querySelector("img");
  if (still || !old || !image || image === old || !adds(svg, before)) return;
  old.className = "below";
  place.prepend(old);
  await image.animate([{ opacity: 0 }, { opacity: 1 }], { duration: FADE_MS }).finished.catch(() => undefined);
  old.remove();
}

async function follow(): Promise<void> {
  const number = wanted;
  const reply = await post<Shown>("shown", {});
  if (number !== wanted) return; // a newer one is being fetched already
  if (reply.svg === undefined) {
    setTimeout(() => {
      if (number === wanted && shown !== number) void follow();
    }, AGAIN_MS);
    return;
  }
  if (reply.svg !== drawn) {
    const before = drawn;
    drawn = reply.svg;
    if (reply.svg) await show(reply.svg, reply.words ?? "", before);
    else empty(place, "");
  } else retell(place, reply.words ?? "");
  shown = number;
}

listen(({ picture, sync }) => {
  if (sync && sync.at > synced) void showSync(sync);
  synced = sync?.at ?? synced;
  if (picture === undefined || picture === wanted) return;
  wanted = picture;
  void follow();
});
