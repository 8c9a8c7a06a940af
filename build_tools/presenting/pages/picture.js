// picture.js: shows what was taken at the desk, and nothing else. Keeps the last picture when the server goes away.
"use strict";
(() => {
  const place = document.getElementById("shown");
  let wanted = 0; // the number of the newest picture that this page has heard of
  let shown = 0;

  async function follow() {
    const number = wanted;
    const told = await onAir.post("shown", {});
    if (number !== wanted) return; // a newer one is being fetched already
    if (told.errors) return void setTimeout(() => number === wanted && shown !== number && follow(), 300);
    if (told.svg) await onAir.draw(place, told);
    else onAir.empty(place, "");
    shown = number;
  }

  waListen(({ picture }, gone) => {
    if (gone || picture === undefined || picture === wanted) return;
    wanted = picture;
    follow();
  });
})();
