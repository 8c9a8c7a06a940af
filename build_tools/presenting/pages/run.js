// run.js: the run sheet to read from while recording, and the marks made on it. Knows the relay; computes no time itself.
"use strict";
(() => {
  const $ = (id) => document.getElementById(id);
  const fromAddress = Number(location.pathname.split("/")[3] ?? 0);
  let episode = 0;
  let segments = [];
  let marks = {};
  let at = 0;

  const spoken = (seconds) => `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;

  function element(tag, name, text) {
    const made = document.createElement(tag);
    if (name) made.className = name;
    made.textContent = text;
    return made;
  }

  function show() {
    const list = $("segments");
    list.replaceChildren();
    segments.forEach((segment, place) => {
      const row = element("li", "segment", "");
      if (place === at) row.setAttribute("aria-current", "step");
      row.append(element("h2", "", `${segment.number}. ${segment.question}`));
      const facts = [segment.viewer, `about ${spoken(segment.seconds)}`];
      if (segment.start) facts.push(`starts at ${segment.start}`);
      if (marks[segment.number]) facts.push(`marked ${new Date(marks[segment.number] * 1000).toLocaleTimeString()}`);
      row.append(element("p", "facts", facts.join(" · ")));
      const words = segment.short_answer || (segment.referred ? `Passed on to ${segment.referred}` : "No short answer yet.");
      row.append(element("p", "said", words));
      if (segment.headline) row.append(element("p", "headline", segment.headline));
      if (segment.calculator) {
        const prepare = element("a", "", "Prepare the card");
        const handed = new URLSearchParams({
          calculator: segment.calculator, question: segment.question, address: segment.address,
          inputs: JSON.stringify(segment.inputs),
        });
        prepare.href = `/on-air/desk#${handed}`;
        prepare.target = "desk";
        row.append(prepare);
      }
      row.addEventListener("click", () => go(place));
      list.append(row);
    });
    const total = segments.reduce((sum, segment) => sum + segment.seconds, 0);
    $("total").textContent = segments.length ? `Short answers: about ${spoken(total)} in all` : "";
    $("state").textContent = marks[0] ? `Recording since ${new Date(marks[0] * 1000).toLocaleTimeString()}` : "Not recording";
    $("state").classList.toggle("live", Boolean(marks[0]));
    list.children[at]?.scrollIntoView({ block: "nearest" });
  }

  function go(place) {
    at = Math.min(Math.max(place, 0), Math.max(segments.length - 1, 0));
    show();
  }

  function complain(errors) {
    $("wrong").textContent = (errors ?? []).map((e) => e.message).join("\n");
  }

  async function mark(number) {
    if (!episode) return;
    const told = await onAir.post("mark", { episode, segment: number, at: Date.now() / 1000 });
    complain(told.errors);
    if (told.marks) marks = told.marks;
    show();
  }

  function cuts() {
    return $("cuts").value.split("\n").map((line) => line.trim()).filter(Boolean)
      .map((line) => line.split("-").map((part) => part.trim()));
  }

  async function workOut(write) {
    const told = await onAir.post("starts", { episode, lead: $("lead").value, cuts: cuts(), write });
    complain(told.errors);
    $("times").replaceChildren();
    for (const [number, time] of Object.entries(told.starts ?? {})) {
      const row = document.createElement("tr");
      const segment = segments.find((s) => String(s.number) === number);
      row.append(element("td", "", time), element("td", "", segment ? segment.question : number));
      $("times").append(row);
    }
    if (write && told.starts) await load(episode);
  }

  async function load(number) {
    const told = await onAir.ask("run", { episode: number });
    complain(told.errors);
    const listed = told.episodes ?? [];
    $("episode").replaceChildren(...listed.map((e) => new Option(`${e.number}. ${e.title}`, e.number)));
    if (!told.number && listed.length) return load(listed[listed.length - 1].number);
    episode = told.number ?? 0;
    segments = told.segments ?? [];
    $("episode").value = String(episode);
    $("title").textContent = told.title ? `Run sheet: ${told.title}` : "Run sheet";
    if (!listed.length) $("wrong").textContent ||= "There is no episode sheet yet: python3 -m build_tools new episode “…”";
    if (episode) {
      const noted = await onAir.post("marks", { episode });
      marks = noted.marks ?? {};
    }
    go(Math.min(at, Math.max(segments.length - 1, 0)));
  }

  $("previous").addEventListener("click", () => go(at - 1));
  $("next").addEventListener("click", () => go(at + 1));
  $("begin").addEventListener("click", () => mark(0));
  $("mark").addEventListener("click", () => segments[at] && mark(segments[at].number));
  $("work-out").addEventListener("click", () => workOut(false));
  $("write").addEventListener("click", () => workOut(true));
  $("episode").addEventListener("change", (event) => { at = 0; load(Number(event.target.value)); });
  document.addEventListener("keydown", (event) => {
    if (onAir.typing(event)) return;
    const act = {
      n: () => go(at + 1), ArrowDown: () => go(at + 1), p: () => go(at - 1), ArrowUp: () => go(at - 1),
      r: () => mark(0), m: () => segments[at] && mark(segments[at].number),
    }[event.key.length === 1 ? event.key.toLowerCase() : event.key];
    if (act) { event.preventDefault(); act(); }
  });
  load(fromAddress);
})();
