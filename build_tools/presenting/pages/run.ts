// run.ts: the run sheet to read from while recording, and the takes and marks made on it. Knows the server's words;
// computes no start time itself.
import { button, byId, element, keep, stored, onKeys, rebuilt } from "./dom";
import { began, running, type Run, type Segment, type Take } from "./episode";
import { ask, isThere, listen, post, watch, type At, type Problem, type Shown, type WithErrors } from "./server";
import { Beep, showSync, type Sync } from "./sync";
import * as times from "./times";
import * as words from "./words";

interface Starts extends WithErrors {
  starts: Record<string, string>;
  problems: string[];
  written: boolean;
}

type Changed = Pick<Run, "takes" | "thrown" | "targets" | "changes"> & WithErrors;

const TICK_MS = 250;
const list = byId("segments");
const choice = byId<HTMLSelectElement>("episode");
const chosenTake = byId<HTMLSelectElement>("of-take");

let episode = 0;
let segments: Segment[] = [];
let takes: Take[] = [];
let thrown: Take[] = [];
let targets: Record<string, number> = {};
let at = 0;
let asks: (() => void) | undefined; // what a question on the page waits for
let heard = ""; // of sheets and builds
let heardChange: number | undefined;
let changes = 0;
let lastTake = 0; // the newest take that the list has shown
let listedThrown = ""; // what the line of thrown-away takes names
let sending = 0; // words of where we are that the server has not answered yet
let newest = 0; // the newest word of it that this page has followed, or said
let where: At | undefined; // what the server has said last of it
let begun: { beep: Beep | undefined; sent?: Promise<void> } | undefined; // by a key here; waits for its sync frame's moment
let heardSync = 0;
const typed = new Map<string, string>(); // words of one's own that are not in the sheet yet, by episode and question

const named = (take: Take): string => (take.rehearsal ? words.REHEARSAL(take.id) : words.TAKE(take.id));

function show(): void {
  rebuilt(list, () => {
    list.replaceChildren(...segments.map(row));
    list.children[at]?.before(here());
  });
  const total = segments.reduce((sum, segment) => sum + segment.seconds, 0);
  byId("total").textContent = segments.length ? words.ALL_ABOUT(times.length(total)) : "";
  const bar = document.querySelector<HTMLElement>("header");
  const head = bar?.offsetHeight ?? 0;
  document.documentElement.style.scrollPaddingTop = `${head + 8}px`;
  document.documentElement.style.setProperty("--head", `${head}px`);
  // What is read begins in view, whatever that leaves of the list beside it.
  for (const seen of [".here", ".segment[aria-current] h2"]) list.querySelector(seen)?.scrollIntoView({ block: "nearest" });
  byId<HTMLInputElement>("target").value = targets["0"] ? times.length(targets["0"]) : "";
  showTakes();
  showState();
}

/** The place in the list of the question that stands beside it in large type; for the eye alone. */
function here(): HTMLLIElement {
  const made = element("li", "here", element("span", "", `${segments[at]?.number ?? ""}. ${segments[at]?.question ?? ""}`));
  made.setAttribute("aria-hidden", "true");
  return made;
}

function row(segment: Segment, place: number): HTMLLIElement {
  const made = element("li", "segment");
  if (place === at) made.setAttribute("aria-current", "step");
  made.append(element("h2", "", `${segment.number}. ${segment.question}`));
  const marked = (running(takes) ?? takes.at(-1))?.marks[String(segment.number)];
  const facts = [segment.viewer, words.ABOUT(times.length(segment.seconds))];
  if (segment.start) facts.push(words.STARTS_AT(segment.start));
  if (segment.taken_down) facts.push(segment.differs ? words.NOT_AS_TAKEN_DOWN : words.IS_TAKEN_DOWN);
  if (marked !== undefined) facts.push(words.MARKED_AT(times.clock(marked)));
  const target = element("input");
  target.value = targets[String(segment.number)] ? times.length(targets[String(segment.number)]!) : "";
  target.defaultValue = target.value;
  target.dataset["field"] = `target-${segment.number}`;
  target.size = 6;
  target.placeholder = "m:ss";
  target.addEventListener("change", () => void setTarget(segment.number, target));
  made.append(element("p", "facts", facts.join(" · "), element("label", "", " · target ", target)));
  // What is read aloud is this viewer's answer; the page's short answer stands below it.
  const says = ({ verdict, reason, headline }: Pick<Segment, "verdict" | "reason" | "headline">): string =>
    [verdict ? words.VERDICT(verdict, reason) : "", headline].filter(Boolean).join(" ");
  const first = says(segment);
  const aloud = first || segment.short_answer || (segment.referred ? words.PASSED_ON(segment.referred) : words.NO_SHORT_ANSWER);
  made.append(element("p", "said", words.together(aloud)));
  for (const each of segment.more) made.append(element("p", "said more", words.together(says(each))));
  if (segment.steps.length) made.append(element("ol", "first", ...segment.steps.map((step) => element("li", "", step))));
  if (segment.caution) made.append(element("p", "caution", segment.caution));
  if (first && segment.short_answer) made.append(element("p", "headline", words.together(segment.short_answer)));
  if (segment.wrong) made.append(element("p", "wrong", segment.wrong));
  if (place === at && segment.shown) made.append(takingDown(segment));
  if (segment.calculator) made.append(toDesk(segment, segment, words.PREPARE_CARD));
  for (const each of segment.more) made.append(" ", toDesk(segment, each, words.PREPARE_FURTHER(each.title)));
  made.addEventListener("click", (event) => {
    if (!(event.target instanceof Element && event.target.closest("a, button, input, textarea, label"))) go(place);
  });
  return made;
}

const draftOf = (segment: Segment): string => `${episode}/${segment.number}`;

/** A button that writes what this question shows into the sheet, as what was said, and a field for one's own words. */
function takingDown(segment: Segment): HTMLElement {
  const own = element("textarea");
  own.rows = 2;
  own.dataset["field"] = `own-${segment.number}`;
  own.value = typed.get(draftOf(segment)) ?? segment.spoken;
  own.addEventListener("input", () => typed.set(draftOf(segment), own.value));
  const press = button(words.TAKE_DOWN, takeDown);
  press.append(element("kbd", "", "S"));
  return element("div", "taking-down", element("label", "", words.OWN_WORDS, own), press);
}

function takeDown(): void {
  const segment = segments[at];
  if (!segment?.shown) return;
  const draft = draftOf(segment);
  const spoken = typed.get(draft) ?? segment.spoken;
  const body = { episode, segment: segment.number, spoken, shown: segment.shown };
  byId("said-told").textContent = "";
  doing = doing.then(async () => {
    const reply = await post("said", body);
    complain(reply.errors);
    if (reply.errors) return;
    if (typed.get(draft) === spoken) typed.delete(draft); // or more was typed meanwhile
    byId("said-told").textContent = words.HAS_TAKEN_DOWN(body.segment);
    await load(body.episode);
  });
}

function toDesk(segment: Segment, of: Pick<Segment, "calculator" | "inputs">, label: string): HTMLAnchorElement {
  const made = element("a", "", label);
  const handed = new URLSearchParams({
    calculator: of.calculator, question: segment.on_top, address: segment.address,
    inputs: JSON.stringify(of.inputs), episode: String(episode),
  });
  made.href = `/on-air/desk#${handed}`;
  made.target = "desk";
  return made;
}

function showState(): void {
  const gone = byId("gone");
  gone.hidden = isThere();
  gone.textContent = isThere() ? "" : words.GONE;
  document.body.classList.toggle("gone", !isThere());
  for (const each of document.querySelectorAll<HTMLButtonElement>("main button, .keys button")) each.disabled = !isThere();
  const take = running(takes);
  const since = take && began(take);
  const state = byId("state");
  state.textContent = !isThere() ? "" : take ? words.RECORDING(named(take), since ? times.clock(since) : "") : words.NOT_RECORDING;
  state.classList.toggle("live", take !== undefined && isThere());
  tick();
}

/** The large clocks: the take's, and this question's. */
function tick(): void {
  const take = running(takes);
  const now = times.now();
  const since = take && began(take);
  clock("of-episode", since === undefined ? undefined : now - since, targets["0"]);
  const segment = segments[at];
  const marked = take && segment ? take.marks[String(segment.number)] : undefined;
  clock("of-question", marked === undefined ? undefined : now - marked, segment && targets[String(segment.number)]);
}

function clock(id: string, elapsed: number | undefined, target: number | undefined): void {
  const place = byId(id);
  const left = target === undefined || elapsed === undefined ? undefined : target - elapsed;
  const rest = left === undefined ? (target ? times.length(target) : "") : left >= 0 ? words.LEFT(times.length(left + 0.999)) : words.OVER(times.length(-left));
  const text = elapsed === undefined ? "–" : times.length(elapsed);
  const [large, small] = [place.querySelector("b"), place.querySelector("span")];
  if (large && large.textContent !== text) large.textContent = text;
  large?.classList.toggle("none", elapsed === undefined);
  if (small && small.textContent !== rest) small.textContent = rest;
  place.classList.toggle("over", left !== undefined && left < 0);
}

function showTakes(): void {
  const newestTake = Math.max(0, ...takes.map(({ id }) => id));
  // A take that has just begun is the one that one means; else what was chosen stays chosen.
  const stays = newestTake > lastTake ? String(newestTake) : chosenTake.value;
  lastTake = newestTake;
  chosenTake.replaceChildren(...takes.map((take) => new Option(`${named(take)}, ${whenOf(take)}`, String(take.id))).reverse());
  if (takes.some(({ id }) => String(id) === stays)) chosenTake.value = stays;
  byId("no-take").textContent = takes.length ? "" : words.NO_TAKE;
  byId("thrown").hidden = !thrown.length;
  const back = (take: Take): HTMLElement => {
    const act = (): void => void change("bring-back", { take: take.id });
    return element("span", "", button(words.BRING_BACK(named(take)), act), whenOf(take));
  };
  // Not anew at every piece of news: one that comes between a button's press and its release would take it away.
  const listed = JSON.stringify(thrown.map((take) => [take.id, named(take), whenOf(take)]));
  if (listed !== listedThrown) {
    rebuilt(byId("thrown"), () => {
      byId("thrown").replaceChildren(words.THROWN, ...thrown.map(back).reverse());
    });
  }
  listedThrown = listed;
  showMarks();
}

function whenOf(take: Take): string {
  const since = began(take);
  const begins = since === undefined ? "" : `${times.day(since)} ${times.clock(since)}`;
  return take.ended !== null && since !== undefined ? `${begins}, ${times.length(take.ended - since)}` : begins;
}

/** Every mark of the chosen take, in the recording's own time, to be moved by hand. */
function showMarks(): void {
  const take = takes.find(({ id }) => String(id) === chosenTake.value);
  const since = take && began(take);
  const sync = byId<HTMLInputElement>("sync-at");
  byId("of-sync").hidden = !take?.sync;
  if (take?.sync && since !== undefined && document.activeElement !== sync) {
    sync.value = times.length(take.sync - since + 0.5);
    byId("sync-clock").textContent = words.SYNC_AT(take.sync);
  }
  rebuilt(byId("marks"), () => {
    byId("marks").replaceChildren(...(take && since !== undefined ? markRows(take, since) : []));
  });
}

function markRows(take: Take, since: number): HTMLElement[] {
  return segments.map((segment) => {
    const moment = take.marks[String(segment.number)];
    const field = element("input");
    field.size = 8;
    field.defaultValue = moment === undefined ? "" : times.length(moment - since);
    field.dataset["field"] = `mark-${segment.number}`;
    field.setAttribute("aria-label", `${segment.question}, ${words.IN_TAKE}`);
    field.addEventListener("change", () => void move(take, segment.number, since, field));
    return element("tr", "", element("td", "", field), element("td", "", `${segment.number}. ${segment.question}`));
  });
}

async function move(take: Take, segment: number, since: number, field: HTMLInputElement): Promise<void> {
  const typed = field.value.trim();
  const seconds = times.read(typed);
  if (typed && seconds === undefined) return complain([{ input: "", message: `A moment is written 4:05; got '${typed}'.` }]);
  await change("mark", { take: take.id, segment, at: seconds === undefined ? null : since + seconds });
}

/** Where the sync frame stands in the recording tells when the recording began; every mark counts from there. */
async function moveBeginning(field: HTMLInputElement): Promise<void> {
  const take = takes.find(({ id }) => String(id) === chosenTake.value);
  const seconds = times.read(field.value);
  if (!take?.sync) return;
  if (seconds === undefined) return complain([{ input: "", message: words.SYNC_WRITTEN(field.value) }]);
  await change("mark", { take: take.id, segment: 0, at: take.sync - seconds });
}

async function setTarget(segment: number, field: HTMLInputElement): Promise<void> {
  const typed = field.value.trim();
  const seconds = times.read(typed);
  if (typed && !seconds) return complain([{ input: "", message: `A length is written 1:30; got '${typed}'.` }]);
  await change("target", { segment, seconds: seconds ?? null });
}

/** To another question, here and on every other run sheet of this episode. */
function go(place: number): void {
  stand(place);
  const segment = segments[at];
  if (!segment || !isThere()) return;
  sending += 1;
  doing = doing.then(async () => {
    const reply = await post<At>("at", { episode, segment: segment.number });
    sending -= 1;
    newest = Math.max(newest, reply.number ?? 0);
    follow();
  });
}

function stand(place: number): void {
  at = Math.min(Math.max(place, 0), Math.max(segments.length - 1, 0));
  show();
}

/** Where another run sheet has gone; not while this one is on its way itself. */
function follow(): void {
  if (!where || sending || where.number <= newest || where.episode !== episode) return;
  newest = where.number;
  const { segment } = where;
  const place = segments.findIndex(({ number }) => number === segment);
  if (place >= 0 && place !== at) stand(place);
}

function complain(errors: Problem[] | undefined): void {
  byId("wrong").textContent = (errors ?? []).map(({ message }) => message).join("\n");
}

let doing: Promise<void> = Promise.resolve();

/** Change something that the server keeps, in the order of the keys, and show what is there then. */
function change(name: string, body: object): Promise<void> {
  return (doing = doing.then(() => changeNow(name, body)));
}

async function changeNow(name: string, body: object): Promise<void> {
  if (!episode || !isThere()) return;
  const reply = await post<Changed>(name, { episode, ...body });
  complain(reply.errors);
  put(reply);
  show();
}

/** What the server keeps of this episode; an older reply that comes late changes nothing. */
function put(reply: Partial<Changed>): void {
  if (reply.changes === undefined || reply.changes < changes) return;
  changes = reply.changes;
  takes = reply.takes ?? [];
  thrown = reply.thrown ?? [];
  targets = reply.targets ?? {};
}

function isTyping(): boolean {
  const at = document.activeElement;
  return at instanceof HTMLTextAreaElement || (at instanceof HTMLInputElement && at.type !== "checkbox");
}

/** Somebody else has marked. What one types here meanwhile stays. */
async function lookAgain(): Promise<void> {
  if (!episode) return;
  put(await post<Changed>("marks", { episode }));
  if (!isTyping()) show();
}

/** A question that stands in the page until it is answered. */
function question(sentence: string, yes: string, then: () => void): void {
  asks = then;
  const place = byId("asks");
  place.replaceChildren(sentence, " ", button(yes, answerYes), button(words.NO, answerNo));
  place.hidden = false;
}

function answerNo(): void {
  asks = undefined;
  byId("asks").hidden = true;
}

function answerYes(): void {
  const then = asks;
  answerNo();
  then?.();
}

/** The sync frame is shown at a moment that the server names to all its pages; the beep is heard from this one alone. */
async function begin(rehearsal: boolean): Promise<void> {
  const sync = byId<HTMLInputElement>("sync").checked;
  const mine: typeof begun = { beep: sync && byId<HTMLInputElement>("beep").checked ? Beep.made() : undefined };
  begun?.beep?.end();
  begun = sync ? mine : undefined;
  mine.sent = change("begin", { at: times.now(), rehearsal, sync });
  await mine.sent;
  if (begun !== mine || running(takes)?.sync) return; // its moment has been told, or will be
  mine.beep?.end();
  begun = undefined;
}

async function hearSync(sync: Sync | undefined): Promise<void> {
  if (!sync || sync.episode !== episode || sync.at <= heardSync) return;
  heardSync = sync.at;
  const mine = begun;
  begun = undefined;
  mine?.beep?.at(sync.at);
  if ((await showSync(sync)) || !mine) return;
  await mine.sent; // the moment may be heard of before the server's reply, which takes complaints away
  complain([{ input: "", message: words.NO_SYNC }]);
}

/** Whether a frame is shown and a beep given is this person's choice, and stays. */
function keepChoice(id: "sync" | "beep"): void {
  const box = byId<HTMLInputElement>(id);
  box.checked = stored(`run-${id}`) !== "off";
  box.addEventListener("change", () => keep(`run-${id}`, box.checked ? "on" : "off"));
}

let ending = 0; // the take that the server has been told to end, until it has answered
let beginning = false;

/** A key that is pressed again while the server has not answered yet means what comes after: the next take. */
async function end(take: number): Promise<void> {
  ending = take;
  await change("end", { take, at: times.now() });
  ending = 0;
}

/** R begins a take; while one runs it asks before it ends it. */
function record(): void {
  const take = running(takes);
  if (asks) return answerYes();
  if (!take || take.id === ending) {
    if (beginning) return; // pressed twice by one who meant one take
    beginning = true;
    const box = byId<HTMLInputElement>("rehearsal");
    const rehearsal = box.checked;
    box.checked = false; // it was the next take; the one after it counts again
    return void begin(rehearsal).finally(() => (beginning = false));
  }
  question(words.END_IT(named(take)), words.YES_END, () => void end(take.id));
}

function mark(): void {
  const segment = segments[at];
  const moment = times.now();
  if (!segment) return;
  doing = doing.then(() => {
    if (running(takes)) return changeNow("mark", { segment: segment.number, at: moment });
    return complain([{ input: "", message: words.NO_TAKE_RUNS }]);
  });
}

function throwAway(): void {
  const take = takes.find(({ id }) => String(id) === chosenTake.value);
  if (!take) return;
  const marks = Object.keys(take.marks).filter((segment) => segment !== "0").length;
  question(words.THROW_IT(named(take), whenOf(take), marks), words.YES_THROW, () => void change("throw-away", { take: take.id }));
}

async function workOut(write: boolean): Promise<void> {
  if (!episode) return;
  const take = chosenTake.value ? { take: Number(chosenTake.value) } : {};
  const [lead, cuts] = [byId<HTMLInputElement>("lead").value, byId<HTMLTextAreaElement>("cuts").value];
  const reply = await post<Starts>("starts", { episode, lead, cuts, write, ...take });
  const rows = Object.entries(reply.starts ?? {}).map(([number, time]) => {
    const segment = segments.find((each) => String(each.number) === number);
    return element("tr", "", element("td", "", time), element("td", "", segment ? segment.question : number));
  });
  byId("times").replaceChildren(...rows);
  const problems = reply.errors?.map(({ message }) => message) ?? reply.problems ?? [];
  byId("starts-told").textContent = reply.written
    ? words.WRITTEN
    : problems.length ? [write ? words.NOT_WRITTEN : words.WOULD_NOT, ...problems].join("\n") : "";
  if (reply.written) await load(episode);
}

async function load(number: number): Promise<void> {
  const before = heardChange;
  const reply = await ask<Run>("run", { episode: number });
  if (reply.errors) return complain(reply.errors);
  const listed = (reply.episodes ?? []).filter((each) => each.number > 0);
  choice.replaceChildren(...listed.map((each) => new Option(`${each.number}. ${each.title}`, String(each.number))));
  if (!reply.number && listed.length) return load(listed[listed.length - 1]!.number);
  const earlier = episode;
  episode = reply.number ?? 0;
  segments = reply.segments ?? [];
  if (reply.number !== earlier) [changes, newest, lastTake] = [0, 0, 0]; // another episode's
  if (reply.number !== earlier) showCutting(reply.lead, reply.cuts);
  put(reply);
  choice.value = String(episode);
  byId("title").textContent = reply.title ? `${words.RUN_SHEET}: ${reply.title}` : words.RUN_SHEET;
  byId<HTMLAnchorElement>("prompter").href = episode ? `/on-air/prompter/${episode}` : "/on-air/prompter";
  showFaults(reply.mistakes ?? [], (reply.episodes ?? []).filter((each) => each.number !== episode && each.mistakes.length).length);
  if (!reply.episodes?.length) complain([{ input: "", message: words.NO_EPISODE }]);
  stand(at);
  follow();
  if (before !== heardChange) void lookAgain(); // somebody has marked while this was on its way
}

/** What the sheet says of it, so that writing start times once more loses nothing. */
function showCutting(lead = "0:00", cuts: string[] = []): void {
  byId<HTMLInputElement>("lead").value = lead;
  byId<HTMLTextAreaElement>("cuts").value = cuts.join("\n");
}

function showFaults(own: string[], others: number): void {
  const lines = [...(own.length ? [words.FAULTY_SHEET, ...own] : []), ...(others ? [words.OTHER_FAULTS(others)] : [])];
  byId("faults").textContent = lines.join("\n");
}

async function showPicture(): Promise<void> {
  const reply = await post<Shown>("shown", {});
  if (reply.errors) return;
  byId("on-words").textContent = reply.on ? `${reply.frozen ? words.ON_FROZEN : words.ON}: ${reply.words}` : words.CLEAR;
}

const there = (act: () => unknown) => () => (isThere() ? act() : undefined);
const acts = {
  previous: () => go(at - 1), next: () => go(at + 1), begin: record, mark, undo: () => void change("undo", {}),
  "throw-away": throwAway, "work-out": () => void workOut(false), write: () => void workOut(true),
};
for (const [id, act] of Object.entries(acts)) byId(id).addEventListener("click", there(act));
choice.addEventListener("change", () => {
  at = 0;
  chosenTake.replaceChildren();
  void load(Number(choice.value));
});
chosenTake.addEventListener("change", showMarks);
byId<HTMLInputElement>("sync-at").addEventListener("change", () => void moveBeginning(byId("sync-at")));
keepChoice("sync");
keepChoice("beep");
byId<HTMLInputElement>("target").addEventListener("change", () => void setTarget(0, byId("target")));
onKeys({
  n: there(acts.next), ArrowDown: there(acts.next), p: there(acts.previous), ArrowUp: there(acts.previous),
  r: there(record), m: there(mark), u: there(acts.undo), s: there(takeDown),
  Enter: () => (asks ? there(answerYes)() : false), Escape: () => (asks ? answerNo() : false),
});
watch((answers) => {
  if (answers) void load(episode);
  showState();
});
listen(({ kept: news, sheet, build, at: reported, sync }) => {
  void hearSync(sync);
  where = reported;
  follow();
  void showPicture();
  if (heardChange !== news) void lookAgain();
  heardChange = news;
  const now = JSON.stringify([sheet, build?.build]);
  if (heard && heard !== now && !isTyping()) void load(episode);
  heard = now;
});
setInterval(tick, TICK_MS);
void load(Number(location.pathname.split("/")[3] ?? 0));
