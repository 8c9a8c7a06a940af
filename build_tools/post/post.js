// post.js: the post's page: sends comments, shows them sorted, keeps what is picked. Knows no reader of questions.
"use strict";

const token = document.querySelector('meta[name="run-token"]').content;
const one = (id) => document.getElementById(id);
let post = [];
let picks = [];

async function send(name, body) {
  const reply = await fetch(`/post/${name}`, {
    method: "POST",
    headers: { "Content-Type": "application/json", "Run-Token": token },
    body: JSON.stringify(body),
  });
  if (!reply.ok) throw new Error(await reply.text());
  const told = await reply.json();
  one("told").textContent = told.error ?? "";
  return told.error ? undefined : told;
}

async function ask(name, body = {}) {
  one("state").textContent = "Working";
  try {
    return await send(name, body);
  } catch (error) {
    one("told").textContent = `The server did not take it: ${error.message}. Load this page again.`;
    return undefined;
  } finally {
    one("state").textContent = "";
  }
}

function made(name, className, text) {
  const element = document.createElement(name);
  element.className = className;
  element.textContent = text;
  return element;
}

function row(each) {
  const item = document.createElement("li");
  const who = each.handle ? ` (${each.handle})` : "";
  const times = each.asked > 1 ? ` · ${each.asked} ask it` : "";
  item.append(made("p", "asked", `${each.text}${who}${times}`));
  for (const sentence of each.dangers) item.append(made("p", "danger", sentence));
  if (each.page) {
    const line = made("p", "", "");
    const link = made("a", "", each.title);
    link.href = `/answers/${each.page}.html`;
    link.target = "_blank";
    line.append(link, ` · ${each.seconds} s`);
    item.append(line);
  } else {
    item.append(made("p", "soft", `Nothing here answers it: ${each.theme}`));
  }
  if (each.shown.length) item.append(made("p", "soft", `Read: ${each.shown.join("; ")}`));
  if (each.headline) item.append(made("p", "headline", each.headline));
  if (each.missing.length) item.append(made("p", "", `Missing: ${each.missing.join("; ")}`));
  for (const before of each.before) {
    const at = before.time ? ` at ${before.time}` : "";
    item.append(made("p", "soft", `Asked before: episode ${before.episode}${at}${before.same ? ", with the same numbers" : ""}`));
  }
  const reply = document.createElement("details");
  reply.append(made("summary", "", "The reply"), made("pre", "", each.reply));
  const acts = made("div", "acts", "");
  const copy = made("button", "", "Copy the reply");
  copy.type = "button";
  copy.addEventListener("click", async () => {
    await navigator.clipboard.writeText(each.reply).catch(() => undefined);
    copy.textContent = "Copied";
  });
  if (each.page && !each.dangers.length) acts.append(pickBox(each));
  acts.append(copy);
  item.append(acts, reply);
  return item;
}

function pickBox(each) {
  const label = made("label", "pick", "");
  const box = document.createElement("input");
  box.type = "checkbox";
  box.checked = picks.includes(each.number);
  // One after the other: each asks for what is picked then, however fast they are ticked.
  box.addEventListener("change", () => {
    picking = picking.then(() => pick(each.number, box));
  });
  label.append(box, "Into the episode");
  return label;
}

let picking = Promise.resolve();

async function pick(number, box) {
  const others = picks.filter((other) => other !== number);
  const told = await ask("pick", { numbers: box.checked ? [...others, number] : others });
  if (told) picks = told.picks;
  else box.checked = picks.includes(number);
  running();
}

function running() {
  const chosen = picks.map((number) => post.find((each) => each.number === number)).filter(Boolean);
  const seconds = chosen.reduce((sum, each) => sum + each.seconds, 0);
  const time = `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
  one("running").textContent = chosen.length
    ? `${chosen.length} picked, ${time} of short answers.`
    : "Nothing is picked yet. Seven to ten fill an episode.";
  one("chosen").replaceChildren(...chosen.map((each) => made("li", "", each.title)));
  one("make").disabled = chosen.length === 0;
}

function show(told) {
  if (!told) return;
  ({ post, picks } = told);
  one("questions").replaceChildren(...post.map(row));
  one("take").open = post.length === 0;
  const themes = new Map();
  for (const each of post) {
    if (!each.page && !each.dangers.length) themes.set(each.theme, (themes.get(each.theme) ?? 0) + each.asked);
  }
  const sorted = [...themes].sort((a, b) => b[1] - a[1]);
  one("themes").replaceChildren(...sorted.map(([theme, count]) => made("li", "", `${theme}: ${count}`)));
  one("unanswered").hidden = sorted.length === 0;
  running();
}

one("read").addEventListener("click", async () => show(await ask("read", { text: one("comments").value })));
one("forget").addEventListener("click", async () => show(await ask("forget")));
one("file").addEventListener("change", async ({ target }) => {
  const file = target.files[0];
  if (file) one("comments").value = await file.text();
});
one("make").addEventListener("click", async () => {
  const told = await ask("episode", { title: one("title").value, summary: one("summary").value });
  if (told) one("made").textContent = `${told.sheet} is written, and nothing in it is left open. Desk and run sheet have it already.`;
});
ask("shown").then(show);
