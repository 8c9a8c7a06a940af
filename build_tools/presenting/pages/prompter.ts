// prompter.ts: the text to read, scrolled past a line that stays at one height. Knows texts and keys; changes nothing.
import { byId, element, keep, stored, onKeys } from "./dom";
import type { Run, Segment } from "./episode";
import { ask, listen, watch } from "./server";
import * as words from "./words";

const SPEEDS = { least: 10, most: 400, usual: 60, step: 10 }; // pixels a second
const SIZES = { least: 32, most: 160, usual: 72, step: 8 }; // pixels
const HEIGHTS = { least: 10, most: 80, usual: 35, step: 5 }; // of the window, in per cent
const text = byId("text");
const root = document.documentElement;

let speed = remembered("speed", SPEEDS.usual);
let size = remembered("size", SIZES.usual);
let height = remembered("height", HEIGHTS.usual);
let mirrored = remembered("mirrored", 0) === 1;
let moves = false;
let position = 0;
let last = 0;

/** In this browser only; where it keeps nothing, the usual value counts. */
function remembered(name: string, usual: number): number {
  const known = stored(`prompter-${name}`);
  return known && Number.isFinite(Number(known)) ? Number(known) : usual;
}

function remember(name: string, value: number): number {
  keep(`prompter-${name}`, String(value));
  return value;
}

function set(): void {
  root.style.setProperty("--size", `${size}px`);
  root.style.setProperty("--height", `${height}vh`);
  document.body.classList.toggle("mirrored", mirrored);
  byId("state").textContent = words.MOVES(moves, speed, size);
}

function passage(segment: Segment): HTMLElement {
  const made = element("section", "", element("h2", "", `${segment.number}. ${segment.question}`));
  const all = [segment, ...(segment.more ?? [])];
  const answers = all.flatMap(({ verdict, reason, headline }) => [verdict ? words.VERDICT(verdict, reason) : "", headline]);
  const aloud = [...answers, ...segment.steps, segment.caution];
  const lines = aloud.filter(Boolean);
  if (segment.short_answer) lines.push(segment.short_answer);
  if (!lines.length && segment.referred) lines.push(words.PASSED_ON(segment.referred));
  made.append(...(lines.length ? lines : [words.NO_SHORT_ANSWER]).map((line) => element("p", "", words.together(line))));
  return made;
}

/** On another device the text comes from a server that has nothing else, and no stream of news. */
const elsewhere = document.body.hasAttribute("data-elsewhere");
const LOOK_AGAIN_MS = 5000;
let shown = "";

async function bring(number: number): Promise<Partial<Run>> {
  if (!elsewhere) return ask<Run>("run", { episode: number });
  try {
    const reply = await fetch(`/run/${number}`);
    byId("gone").hidden = reply.ok;
    return reply.ok ? ((await reply.json()) as Run) : {};
  } catch {
    byId("gone").hidden = false;
    return {};
  }
}

async function load(number: number): Promise<void> {
  const reply = await bring(number);
  if (!reply.episodes && !reply.errors) return; // what stands here stays
  const listed = (reply.episodes ?? []).filter((each) => each.number > 0);
  if (!reply.number && listed.length) return load(listed[listed.length - 1]!.number);
  const now = JSON.stringify(reply.segments);
  if (reply.segments && now === shown) return;
  shown = now;
  if (reply.segments) text.replaceChildren(...reply.segments.map(passage));
  else text.replaceChildren(element("p", "", reply.errors?.[0]?.message ?? words.NO_EPISODE));
}

function to(place: number): void {
  position = Math.min(Math.max(place, 0), Math.max(0, document.body.scrollHeight - innerHeight));
  scrollTo(0, position);
}

/** To the next of these below the reading line, or the last one above it. */
function jump(selector: string, by: number): void {
  const line = (innerHeight * height) / 100;
  const tops = [...text.querySelectorAll(selector)].map((each) => each.getBoundingClientRect().top + scrollY - line);
  const next = by > 0 ? tops.find((top) => top > scrollY + 2) : tops.reverse().find((top) => top < scrollY - 2);
  if (next !== undefined) to(next);
}

function bounded(value: number, of: { least: number; most: number }): number {
  return Math.min(Math.max(value, of.least), of.most);
}

function faster(by: number): void {
  speed = remember("speed", bounded(speed + by * SPEEDS.step, SPEEDS));
  set();
}

function larger(by: number): void {
  size = remember("size", bounded(size + by * SIZES.step, SIZES));
  set();
}

function lower(by: number): void {
  height = remember("height", bounded(height + by * HEIGHTS.step, HEIGHTS));
  set();
}

function toggle(): void {
  moves = !moves;
  position = scrollY;
  last = performance.now();
  set();
  if (moves) requestAnimationFrame(frame);
}

function frame(time: number): void {
  if (!moves) return;
  to(position + (speed * Math.max(0, time - last)) / 1000);
  last = time;
  requestAnimationFrame(frame);
}

onKeys({
  " ": toggle, PageDown: () => jump("h2, p", 1), PageUp: () => jump("h2, p", -1), Home: () => to(0),
  n: () => jump("section", 1), p: () => jump("section", -1),
  ArrowUp: () => faster(1), ArrowDown: () => faster(-1), "+": () => larger(1), "=": () => larger(1), "-": () => larger(-1),
  l: () => lower(1), h: () => lower(-1),
  m: () => {
    mirrored = !mirrored;
    remember("mirrored", mirrored ? 1 : 0);
    set();
  },
});
window.addEventListener("wheel", () => (position = scrollY), { passive: true });

const number = Number(location.pathname.split("/").at(-1)) || 0;
let heard = "";
watch((answers) => byId("gone").toggleAttribute("hidden", answers));
listen(({ sheet, build }) => {
  const now = JSON.stringify([sheet, build?.build]);
  if (heard && heard !== now) void load(number);
  heard = now;
});
if (elsewhere) setInterval(() => void load(number), LOOK_AGAIN_MS);
set();
void load(number);
