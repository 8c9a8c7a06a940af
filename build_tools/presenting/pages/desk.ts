// desk.ts: where a card is prepared, taken to the picture and revealed step by step. Knows the form and the keys; what
// is on the picture it only knows from the server.
import { Form } from "../../browser/calculator/form";
import { whenIdle } from "../../browser/engine/idle";
import { button, byId, element, onKeys } from "./dom";
import { Drawing } from "./drawing";
import { draw, empty } from "./drawn";
import { Stage, same } from "./on_picture";
import { ask, isThere, post, SCRIPTS, watch, type Card, type Frame, type Prepared, type Problem, type WithErrors } from "./server";
import { WhereInSheet, writtenInto, type Written } from "./where_in_sheet";
import * as words from "./words";

interface Catalogue extends WithErrors {
  calculators: { name: string; title: string }[];
  pages: Record<string, string[]>;
  shapes: { name: string; width: number; height: number }[];
  backgrounds: string[];
  episodes: { number: number; title: string }[];
}

interface FormReply extends WithErrors {
  html: string;
  presets: Record<string, Record<string, string>>;
  shared: Record<string, string>;
}

const PAUSE_BY_SERVER_MS = 150; // the engine needs none
const PAUSE_BEFORE_COMPLAINT_MS = 500; // "1" on the way to "16" is not a mistake yet

const calculator = byId<HTMLSelectElement>("calculator");
const question = byId<HTMLInputElement>("question");
const address = byId<HTMLInputElement>("address");
const shape = byId<HTMLSelectElement>("shape");
const background = byId<HTMLSelectElement>("background");
const episode = byId<HTMLSelectElement>("episode");
const answer = byId<HTMLSelectElement>("answer");
const viewer = byId<HTMLInputElement>("viewer");
const consent = byId<HTMLInputElement>("consent");
const where = new WhereInSheet(byId("how"), byId("segment"), () => show());
const drawing = new Drawing();
const stage = new Stage(show, complain);

let pages: Record<string, string[]> = {};
let form: Form | undefined;
let presets: FormReply["presets"] = {};
let shownForm = ""; // whose form it is
let frames: Frame[] = [];
let card: Card | undefined; // the card that the frames were drawn from
let at = 0; // the step shown here
let seen: Frame | undefined; // the frame that the page shows
let seenOnPicture = "";
let inLine: number | undefined; // which card of the line is prepared
let refused = false; // what stands in the form now cannot be drawn
let fresh = true; // the frames are those of the form as it is
let timer = 0;
let complaint = 0;
let settled: Promise<void> = Promise.resolve();

/** What is to be drawn, by the form as it is. */
function wanted(): Card {
  return {
    calculator: calculator.value, inputs: form?.values() ?? {}, question: question.value, address: address.value,
    shape: shape.value, background: background.value,
  };
}

function show(): void {
  const frame = frames[at];
  const place = byId("frame");
  place.classList.toggle("empty", !frame);
  place.classList.toggle("refused", refused);
  if (!frame) empty(place, words.NOTHING_PREPARED);
  else if (frame !== seen) void draw(place, frame);
  seen = frame;
  byId("where").textContent = frame ? words.PLACE(at + 1, frames.length, frame.name) : "";
  showState();
  showElsewhere();
  showLine();
  const there = isThere();
  byId<HTMLButtonElement>("back").disabled = !there || at === 0;
  byId<HTMLButtonElement>("next").disabled = !there || at >= frames.length - 1;
  byId<HTMLButtonElement>("take").disabled = !there || !frame || refused;
  byId<HTMLButtonElement>("go-on").disabled = !there;
  byId<HTMLButtonElement>("freeze").disabled = !there || !stage.now?.on;
  byId<HTMLButtonElement>("clear").disabled = !there || !stage.now;
  byId<HTMLButtonElement>("keep").disabled = !there || !frame || refused || !fresh;
  byId<HTMLButtonElement>("fill").disabled = !there || !episode.value;
  byId<HTMLButtonElement>("look-back").disabled = !there || !episode.value;
  byId<HTMLButtonElement>("take-back").disabled = !there;
  byId<HTMLButtonElement>("into").disabled = !there || !frame || refused || !episode.value || (where.isNew && !answer.value);
  for (const id of ["of-viewer", "of-consent"]) byId(id).hidden = !where.isNew; // a question that stands there has a viewer
  const same = !stage.scripts || !SCRIPTS || stage.scripts === SCRIPTS;
  drawing.trust(same);
  byId("note").textContent = same ? "" : words.CHANGED;
}

/** Where the prompter is read on another device, and by which code. */
function showElsewhere(): void {
  const elsewhere = stage.elsewhere;
  byId("elsewhere").textContent = elsewhere ? words.ELSEWHERE(elsewhere.address, elsewhere.code, elsewhere.tries) : "";
}

/** Only what the server has said is said here. */
function showState(): void {
  const { now } = stage;
  const state = byId("state");
  const gone = byId("gone");
  gone.hidden = isThere();
  gone.textContent = isThere() ? "" : words.GONE;
  document.body.classList.toggle("gone", !isThere());
  if (!isThere()) state.textContent = "";
  else if (!now) state.textContent = words.NOT_KNOWN;
  else if (!now.on) state.textContent = words.CLEAR;
  else state.textContent = now.frozen ? words.ON_FROZEN : stage.isLive(card) ? words.ON : words.ON_OTHER;
  state.classList.toggle("live", now?.on === true);
  byId("kept").textContent = now?.kept === false ? words.NOT_KEPT : "";
  byId("freeze").setAttribute("aria-pressed", String(now?.frozen === true));
  const small = byId("on-picture");
  const svg = now?.on ? stage.frame.svg : "";
  small.hidden = !svg;
  byId("on-words").textContent = svg ? words.SHOWS(now ? now.at + 1 : 1, now?.steps ?? 1, stage.frame.words) : "";
  if (svg && svg !== seenOnPicture) void draw(small, stage.frame);
  seenOnPicture = svg;
}

const rows = new Map<number, { row: HTMLLIElement; card: Card }>();

/** The prepared cards in their order, each with its picture, which is drawn once. */
function showLine(): void {
  const list = byId("line");
  for (const [id] of rows) if (!stage.line.some((each) => each.id === id)) rows.delete(id);
  const wantedRows = stage.line.map((each) => {
    const known = rows.get(each.id);
    if (known && same(known.card, each.card)) return known.row;
    const row = lineRow(each);
    rows.set(each.id, { row, card: each.card });
    return row;
  });
  if (wantedRows.length !== list.children.length || wantedRows.some((row, place) => list.children[place] !== row)) {
    list.replaceChildren(...wantedRows);
  }
  for (const { id } of stage.line) {
    const row = rows.get(id)?.row;
    if (id === inLine && row && !row.hasAttribute("aria-current")) {
      row.setAttribute("aria-current", "step");
      row.scrollIntoView({ block: "nearest", inline: "nearest" });
    } else if (id !== inLine) row?.removeAttribute("aria-current");
  }
  byId("line-empty").textContent = stage.line.length ? "" : words.EMPTY_LINE;
}

/** A small button with a sign on it, and its words for who points at it or hears it. */
function sign(shown: string, label: string, act: () => void): HTMLButtonElement {
  const made = button(shown, act);
  made.setAttribute("aria-label", label);
  made.title = label;
  return made;
}

function lineRow({ id, card: of }: Prepared): HTMLLIElement {
  const place = element("div", "small");
  void drawing.draw(`line-${id}`, of).then((reply) => {
    const first = reply && "frames" in reply ? reply.frames[0] : undefined;
    if (first) void draw(place, first);
    else if (reply && "errors" in reply) place.textContent = reply.errors.map(({ message }) => message).join(" ");
  });
  const change = (body: object) => () => void (isThere() && stage.changeLine("line", { id, ...body }));
  const acts = element(
    "div", "acts",
    button(words.PREPARE, () => void prepare(id, of)),
    sign("←", words.EARLIER, change({ do: "move" })),
    sign("→", words.LATER, change({ do: "move", later: true })),
    sign("×", words.TAKE_OUT, change({ do: "remove" })),
  );
  return element("li", "", place, element("div", "", element("p", "", of.question || of.calculator), acts));
}

async function step(by: number): Promise<void> {
  const to = Math.min(Math.max(at + by, 0), Math.max(frames.length - 1, 0));
  if (to === at || !card) return;
  at = to;
  show();
  await stage.step(card, to);
}

function take(): Promise<unknown> {
  return stage.take(async () => {
    await drawn();
    if (!refused && card && frames.length) return card;
    complain([{ input: "", message: words.REFUSED }], true);
    return undefined;
  }, at);
}

async function freeze(): Promise<void> {
  await stage.freeze();
  if (card && stage.now?.frozen === false && stage.isLive(card) && stage.now.at !== at) await stage.step(card, at);
}

/** By one key or a clicker: take what is prepared, else reveal its next step, else take the next card in line. */
async function goOn(): Promise<unknown> {
  await stage.quiet();
  await drawn();
  if (!refused && card && frames.length && !stage.isLive(card)) return take();
  if (at < frames.length - 1) return step(1);
  const place = stage.line.findIndex(({ id }) => id === inLine);
  const next = stage.line[place + 1];
  if (!next) return complain([{ input: "", message: words.LAST_IN_LINE }], true);
  await prepare(next.id, next.card);
  return take();
}

async function goBack(): Promise<void> {
  if (at === 0) return complain([{ input: "", message: words.FIRST_STEP }], true);
  await step(-1);
}

let busy: Promise<unknown> = Promise.resolve();
/** A key does nothing while the server is gone. What goes to the picture goes in the order of the keys. */
const key = (act: () => Promise<unknown>) => (): void => {
  if (isThere()) void act();
};
/** Keys whose actions run one after another, each to its end. */
const whole = (act: () => Promise<unknown>) => key(() => (busy = busy.then(act, act)));

/** Say what is wrong beside its input, the rest in one place; with `keep`, what stands beside inputs stays. */
function complain(errors: Problem[], keep = false): void {
  const loose = keep ? errors.map(({ message }) => message) : (form?.showErrors(errors) ?? errors.map(({ message }) => message));
  byId("wrong").textContent = loose.join("\n");
}

/** Draw what the form asks for; the newest wins. */
async function redraw(): Promise<void> {
  clearTimeout(timer);
  timer = 0;
  const asked = wanted();
  const reply = await drawing.draw("desk", asked);
  if (!reply) return; // something newer has been asked for
  clearTimeout(complaint);
  fresh = true;
  if ("errors" in reply) {
    refused = true; // the last good card stays in view, and cannot be taken
    complaint = window.setTimeout(() => complain(reply.errors), PAUSE_BEFORE_COMPLAINT_MS);
  } else {
    refused = false;
    complain([]);
    frames = reply.frames;
    card = asked;
    at = Math.min(at, frames.length - 1);
  }
  show();
}

function soon(): void {
  fresh = false;
  show();
  if (drawing.quick) settled = redraw();
  else {
    clearTimeout(timer);
    timer = window.setTimeout(() => (settled = redraw()), PAUSE_BY_SERVER_MS);
  }
}

/** Wait until what was typed last has been drawn, or refused. */
async function drawn(): Promise<void> {
  if (timer) settled = redraw();
  for (let last; last !== settled; ) {
    last = settled;
    await last;
  }
}

/** Without numbers of its own a form takes over what the one before it has been given and it asks for, too. */
async function choose(given?: Record<string, string>, before = ""): Promise<void> {
  const reply = await ask<FormReply>("form", { calculator: calculator.value, before, given: form?.values() ?? {} });
  if (reply.errors) complain(reply.errors);
  if (!reply.html) return;
  const place = byId("form");
  place.innerHTML = reply.html; // made by our own server from the declaration, and nothing in it runs
  presets = reply.presets ?? {};
  form = new Form(place.querySelector("form") as HTMLFormElement, {});
  form.enable();
  form.fill(given ?? reply.shared ?? {});
  shownForm = calculator.value;
  const known = pages[calculator.value] ?? [];
  answer.replaceChildren(...known.map((name) => new Option(name, name)));
  if (!known.length) answer.add(new Option(words.NO_PAGE, ""));
  at = 0;
  settled = redraw();
  await settled;
}

/** A card of the line, or one that a run sheet or a page of the site hands over. */
async function prepare(id: number | undefined, of: Card, page = ""): Promise<void> {
  inLine = id;
  calculator.value = of.calculator;
  question.value = of.question;
  address.value = of.address;
  if (of.shape) shape.value = of.shape;
  if (of.background) background.value = of.background;
  await choose(of.inputs);
  if (page) answer.value = page;
  where.settle(of, true);
}

/** Handed over in the address, which is then cleared, so that the same card can be handed over again. */
async function takeHanded(): Promise<boolean> {
  const asked = new URLSearchParams(location.hash.slice(1));
  const name = asked.get("calculator");
  if (!name) return false;
  history.replaceState(null, "", location.pathname);
  const text = (of: string): string => asked.get(of) ?? "";
  let inputs: Record<string, string> = {};
  try {
    const read: unknown = JSON.parse(text("inputs") || "{}");
    inputs = Object.fromEntries(Object.entries(read as object).map(([each, value]) => [each, String(value)]));
  } catch {
    // an address made by hand: what it holds of inputs is left out
  }
  const handed = { calculator: name, inputs, question: text("question"), address: text("address"), shape: "", background: "" };
  await prepare(undefined, handed, text("answer"));
  if (text("episode") && text("episode") !== episode.value) {
    episode.value = text("episode");
    await where.read(Number(episode.value));
    where.settle(handed, true);
  }
  return true;
}

async function intoEpisode(): Promise<void> {
  await drawn();
  if (refused) return complain([{ input: "", message: words.REFUSED }], true);
  const number = Number(episode.value);
  const reply = await post<Written>("into", {
    ...wanted(), ...where.body, episode: number, answer: answer.value, viewer: viewer.value, consent: consent.checked,
  });
  byId("into-told").textContent = reply.segment
    ? writtenInto(reply as Written, number)
    : (reply.errors ?? []).map(({ message }) => message).join("\n");
  if (!reply.segment) return;
  byId("last-change").hidden = true; // another change is the last one now
  viewer.value = "";
  consent.checked = false; // the next viewer is asked anew
  const anew = !where.isNew;
  await where.read(number);
  if (anew) where.settle(wanted(), true); // what stands beside a question now has numbers to be changed
}

let lastChange = ""; // the mark of the sheet's change that is shown

/** What was changed last in the sheet: a correction begun, a question written into it, what was taken down as said. */
async function lookBack(): Promise<void> {
  const reply = await post<{ lines: string[]; mark: string } & WithErrors>("last-change", { episode: Number(episode.value) });
  lastChange = reply.mark ?? "";
  showBack((reply.errors ?? []).map(({ message }) => message).join("\n") || words.LAST_CHANGE, reply.lines ?? []);
}

async function takeBack(): Promise<void> {
  const body = { episode: Number(episode.value), mark: lastChange };
  const reply = lastChange ? await post<{ taken_back: boolean } & WithErrors>("last-change", body) : {};
  if (reply.taken_back) {
    lastChange = "";
    byId("into-told").textContent = ""; // what it said is not so any more
    await where.read(body.episode);
  }
  showBack(reply.taken_back ? words.TAKEN_BACK : (reply.errors ?? []).map(({ message }) => message).join("\n"), []);
}

function showBack(sentence: string, lines: string[]): void {
  byId("last-change").hidden = false;
  byId("last-told").textContent = sentence;
  byId("last-lines").textContent = lines.join("\n");
  byId("last-lines").hidden = !lines.length;
  byId("take-back").hidden = !lines.length;
}

function wire(): void {
  const place = byId("form");
  place.addEventListener("submit", (event) => event.preventDefault());
  place.addEventListener("input", ({ target }) => {
    const changed = form?.keyOf(target);
    if (!form || !changed) return;
    form.given.add(changed);
    form.letFollow(changed);
    soon();
  });
  place.addEventListener("click", ({ target }) => {
    if (!form || !(target instanceof Element)) return;
    const preset = target.closest<HTMLElement>("[data-preset]");
    const unsure = target.closest<HTMLElement>(".wa-unsure");
    const field = form.keyOf(unsure);
    if (preset) form.fill(presets[preset.dataset["preset"] ?? ""] ?? {});
    else if (unsure && field) {
      form.put(field, unsure.dataset["value"] ?? "");
      form.given.add(field);
      form.letFollow(field);
    } else return;
    soon();
  });
  calculator.addEventListener("change", () => {
    inLine = undefined;
    void choose(undefined, shownForm).then(() => where.settle(wanted(), false));
  });
  for (const field of [question, address, shape, background]) field.addEventListener("input", soon);
  for (const field of [question, address]) field.addEventListener("input", () => where.settle(wanted(), false));
  for (const field of [answer, episode]) field.addEventListener("change", show);
  episode.addEventListener("change", () => {
    byId("last-change").hidden = true;
    byId("into-told").textContent = "";
    void where.read(Number(episode.value)).then(() => where.settle(wanted(), true));
  });
  const more = () => ({ episode: Number(episode.value), shape: shape.value, background: background.value });
  const acts: Record<string, () => Promise<unknown>> = {
    back: () => step(-1), next: () => step(1), take, freeze, clear: () => stage.clear(),
  };
  const slow: Record<string, () => Promise<unknown>> = {
    "go-on": goOn,
    keep: async () => card && stage.changeLine("line", { do: "add", ...card }),
    fill: () => stage.changeLine("fill", more()), into: intoEpisode, "look-back": lookBack, "take-back": takeBack,
  };
  for (const [id, act] of Object.entries(acts)) byId(id).addEventListener("click", key(act));
  for (const [id, act] of Object.entries(slow)) byId(id).addEventListener("click", whole(act));
  onKeys({
    ArrowLeft: key(() => step(-1)), ArrowRight: key(() => step(1)), PageDown: whole(goOn), PageUp: whole(goBack),
    t: key(take), f: key(freeze), c: key(() => stage.clear()),
  });
  window.addEventListener("hashchange", () => void takeHanded());
}

/** Fill the lists of calculators, shapes and backgrounds. Tried again when a server that did not answer answers again. */
async function begin(): Promise<void> {
  const reply = await ask<Catalogue>("catalogue");
  if (reply.errors) complain(reply.errors);
  if (!reply.calculators) return;
  pages = reply.pages ?? {};
  calculator.replaceChildren(...reply.calculators.map(({ name, title }) => new Option(`${title}  (${name})`, name)));
  shape.replaceChildren(...(reply.shapes ?? []).map((s) => new Option(words.SIZE(s.name, s.width, s.height), s.name)));
  background.replaceChildren(...(reply.backgrounds ?? []).map((name) => new Option(name, name)));
  const listed = (reply.episodes ?? []).filter(({ number }) => number > 0).reverse();
  episode.replaceChildren(...listed.map((e) => new Option(`${e.number}. ${e.title}`, String(e.number))));
  await where.read(Number(episode.value));
  if (!(await takeHanded())) await choose();
  show();
}

wire();
show();
watch((answers) => void (answers && !calculator.options.length && begin()));
void begin();
whenIdle(() => void drawing.start());
