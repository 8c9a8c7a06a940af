// picture.js: shows what was taken at the desk, and nothing else. Keeps the last picture when the server goes away.
// A further step of the card that is shown fades in over it; ?motion=off and reduced motion leave hard cuts.
"use strict";
(() => {
  const place = document.getElementById("shown");
  let wanted = 0; // the number of the newest picture that this page has heard of
  let shown = 0;
  let before = ""; // the drawing that is shown
  const FADE_MS = 300; // as in build_tools/cards/command.py
  const cuts = new URLSearchParams(location.search).get("motion") === "off";
  const moves = () => !cuts && !matchMedia("(prefers-reduced-motion: reduce)").matches;

  /** Whether a drawing only adds to another: all the parts of that one stand in it, sign by sign. */
  function adds(more, less) {
    const parts = (svg) => svg.split("<g data-part=").slice(1).map((part) => part.replace(/<\/svg>\s*$/, ""));
    const now = new Set(parts(more));
    const old = parts(less);
    return old.length > 0 && now.size > old.length && old.every((part) => now.has(part));
  }

  // The picture before stays below until the new one stands: what they share does not change by a shade.
  async function show(told) {
    const old = place.querySelector("img");
    const step = old && moves() && adds(told.svg, before);
    before = told.svg;
    if (!step) return onAir.draw(place, told);
    await onAir.draw(place, told);
    const image = place.querySelector("img");
    if (image === old) return;
    old.className = "below";
    place.prepend(old);
    await image.animate([{ opacity: 0 }, { opacity: 1 }], { duration: FADE_MS, easing: "linear" }).finished.catch(() => undefined);
    old.remove();
  }

  async function follow() {
    const number = wanted;
    const told = await onAir.post("shown", {});
    if (number !== wanted) return; // a newer one is being fetched already
    if (told.errors) return void setTimeout(() => number === wanted && shown !== number && follow(), 300);
    if (told.svg) await show(told);
    else {
      before = "";
      onAir.empty(place, "");
    }
    shown = number;
  }

  waListen(({ picture }, gone) => {
    if (gone || picture === undefined || picture === wanted) return;
    wanted = picture;
    follow();
  });
})();
