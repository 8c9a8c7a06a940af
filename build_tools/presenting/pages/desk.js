// desk.js: prepares a card, takes it to the picture, reveals it step by step. Knows the relay; draws nothing itself.
"use strict";
(() => {
  const $ = (id) => document.getElementById(id);
  const QUIET_MS = 250;
  let presets = {};
  let frames = [];
  let card = {};          // what they were drawn from
  let at = 0;             // the frame shown here
  let taken = null;       // the frames that were taken, or null where the picture is clear
  let drawn = null;       // the frame that the page shows
  let frozen = false;
  let asked = 0;
  let timer;

  const inputs = () => {
    const found = {};
    for (const field of $("form").querySelectorAll("[name]")) {
      if (field.value !== rest(field) || field.dataset.given) found[field.name] = field.value;
    }
    return found;
  };

  /** What the declaration says of a field whose usual values depend on another one, or null. */
  function follows(field) {
    const told = field.closest("[data-input]")?.dataset.follows;
    return told ? JSON.parse(told) : null;
  }

  /** What a field shows where nothing is given. */
  function rest(field) {
    const rule = follows(field);
    const chosen = rule && $("form").querySelector(`[name="${rule.key}"]`).value;
    return rule?.defaults[chosen] ?? field.dataset.start ?? "";
  }

  /** As in build_tools/browser/calculator/form.ts: what belonged to the choice before gives way. */
  function letFollow(changed) {
    for (const field of $("form").querySelectorAll("[name]")) {
      const rule = follows(field);
      if (rule?.key !== changed.name) continue;
      if (field.dataset.given && rule.keeps[changed.value]?.includes(field.value.trim().toLowerCase())) continue;
      delete field.dataset.given;
      field.value = rest(field);
    }
  }

  function show() {
    const frame = frames[at];
    $("frame").classList.toggle("empty", !frame);
    if (!frame) onAir.empty($("frame"), "Nothing prepared yet");
    else if (frame !== drawn) onAir.draw($("frame"), frame);
    drawn = frame;
    const live = taken === frames && frames.length > 0;
    $("where").textContent = frame ? `${at + 1} of ${frames.length}: ${frame.name}` : "";
    $("state").textContent = taken ? (frozen ? "On the picture, frozen" : live ? "On the picture" : "On the picture: an earlier card") : "Picture is clear";
    $("state").classList.toggle("live", taken !== null);
    $("freeze").setAttribute("aria-pressed", String(frozen));
    $("back").disabled = at === 0;
    $("next").disabled = at >= frames.length - 1;
    $("take").disabled = !frame;
  }

  // What goes to the picture goes in the order of the keys, however fast they come.
  let line = Promise.resolve();
  const inTurn = (work) => (line = line.then(work));

  // The server draws, and the server takes its own drawing: this page only says which. True where it has.
  function send() {
    const wanted = { ...card, frame: at };
    return inTurn(async () => {
      const { errors } = await onAir.post("take", wanted);
      if (errors) complain(errors);
      return !errors;
    });
  }

  async function step(by) {
    const to = Math.min(Math.max(at + by, 0), Math.max(frames.length - 1, 0));
    if (to === at) return;
    at = to;
    show();
    if (taken === frames && !frozen) await send();
  }

  async function take() {
    if (!frames.length) return;
    const before = taken;
    taken = frames;
    frozen = false;
    show();
    if (await send()) return;
    taken = before; // it has not come to the picture
    show();
  }

  async function freeze() {
    frozen = !frozen;
    show();
    if (!frozen && taken === frames) await send();
  }

  async function clear() {
    const before = taken;
    taken = null;
    frozen = false;
    show();
    const { errors } = await inTurn(() => onAir.post("clear", {}));
    if (!errors) return;
    complain(errors);
    taken = before; // it stands there still
    show();
  }

  function complain(errors) {
    const form = $("form");
    for (const place of form.querySelectorAll(".wa-error")) { place.hidden = true; place.textContent = ""; }
    const loose = [];
    for (const { input, message } of errors ?? []) {
      const field = [...form.querySelectorAll("[data-input]")].find((f) => f.dataset.input === input);
      const place = field?.querySelector(".wa-error");
      if (place) { place.textContent = message; place.hidden = false; }
      else loose.push(message);
    }
    $("wrong").textContent = loose.join("\n");
  }

  async function draw() {
    const number = ++asked;
    const wanted = {
      calculator: $("calculator").value,
      inputs: inputs(),
      question: $("question").value,
      address: $("address").value,
      shape: $("shape").value,
      background: $("background").value,
    };
    const told = await onAir.ask("card", wanted);
    if (number !== asked) return;          // an older drawing that arrives late
    complain(told.errors);
    if (!told.frames) return;              // the last good card stays, what is wrong is told beside its field
    frames = told.frames;
    card = wanted;
    at = Math.min(at, frames.length - 1);
    show();
  }

  function soon() {
    clearTimeout(timer);
    timer = setTimeout(draw, QUIET_MS);
  }

  async function choose(given = {}) {
    const told = await onAir.ask("form", { calculator: $("calculator").value });
    complain(told.errors);
    if (!told.html) return;
    presets = told.presets;
    $("form").innerHTML = told.html;
    for (const set of $("form").querySelectorAll("fieldset")) set.disabled = false;
    for (const field of $("form").querySelectorAll("[name]")) field.dataset.start = field.value;
    fill(given);
    at = 0;
    await draw();
  }

  function fill(values) {
    for (const field of $("form").querySelectorAll("[name]")) {
      const given = Object.hasOwn(values, field.name);
      field.value = given ? values[field.name] : rest(field);  // a field stands after the one that it follows
      if (given) field.dataset.given = "yes"; else delete field.dataset.given;
    }
  }

  $("form").addEventListener("submit", (event) => event.preventDefault());
  $("form").addEventListener("input", (event) => {
    event.target.dataset.given = "yes";
    letFollow(event.target);
    soon();
  });
  $("form").addEventListener("click", (event) => {
    const preset = event.target.closest("[data-preset]");
    const unsure = event.target.closest(".wa-unsure");
    if (preset) { fill(presets[preset.dataset.preset]); soon(); }
    if (unsure) {
      const field = unsure.closest("[data-input]").querySelector("[name]");
      field.value = unsure.dataset.value;
      field.dataset.given = "yes";
      soon();
    }
  });
  $("calculator").addEventListener("change", () => choose());
  for (const id of ["question", "address"]) $(id).addEventListener("input", soon);
  for (const id of ["shape", "background"]) $(id).addEventListener("change", draw);
  const acts = { back: () => step(-1), next: () => step(1), take, freeze, clear };
  for (const [id, act] of Object.entries(acts)) $(id).addEventListener("click", act);
  document.addEventListener("keydown", (event) => {
    if (onAir.typing(event)) return;
    const act = { ArrowLeft: acts.back, ArrowRight: acts.next, t: take, f: freeze, c: clear }[event.key.length === 1 ? event.key.toLowerCase() : event.key];
    if (act) { event.preventDefault(); act(); }
  });

  (async () => {
    const told = await onAir.ask("catalogue");
    complain(told.errors);
    for (const { name, title } of told.calculators ?? []) {
      const option = new Option(`${title}  (${name})`, name);
      $("calculator").add(option);
    }
    // The run sheet hands over a segment in the address: what to prepare, with its numbers.
    const asked = new URLSearchParams(location.hash.slice(1));
    if (asked.get("calculator")) $("calculator").value = asked.get("calculator");
    $("question").value = asked.get("question") ?? "";
    $("address").value = asked.get("address") ?? "";
    await choose(JSON.parse(asked.get("inputs") ?? "{}"));
    show();
  })();
})();
