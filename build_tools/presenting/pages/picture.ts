// picture.ts: shows what was taken at a desk, and nothing else. Keeps the last picture when the server goes away.
import { byId } from "./dom";
import { draw, empty } from "./drawn";
import { listen, post, type Shown } from "./server";

const AGAIN_MS = 300;
const place = byId("shown");
let wanted = 0; // the number of the newest picture that this page has heard of
let shown = 0;
let drawn = ""; // what stands there: a picture that is only frozen is not drawn anew

async function follow(): Promise<void> {
  const number = wanted;
  const told = await post<Shown>("shown", {});
  if (number !== wanted) return; // a newer one is being fetched already
  if (told.svg === undefined) {
    setTimeout(() => {
      if (number === wanted && shown !== number) void follow();
    }, AGAIN_MS);
    return;
  }
  if (told.svg !== drawn) {
    drawn = told.svg;
    if (told.svg) await draw(place, { svg: told.svg, words: told.words ?? "" });
    else empty(place, "");
  }
  shown = number;
}

listen(({ picture }) => {
  if (picture === undefined || picture === wanted) return;
  wanted = picture;
  void follow();
});
