// Inputs are kept with the history's entry once the frame is painted, then once typing rests, at most every 3 s while it
// goes on, and always before the page is left or hidden.
import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";

let now = 0;
let timers = [];
let frames = [];
let left = () => {};
let writes = 0;
globalThis.performance = { now: () => now };
globalThis.history = {
  state: null,
  replaceState(state) {
    this.state = structuredClone(state);
    writes += 1;
  },
};
globalThis.window = {
  addEventListener: (name, heard) => {
    assert.equal(name, "pagehide");
    left = heard;
  },
  setTimeout: (call, wait) => timers.push({ call, at: now + wait }),
};
let hidden = () => {};
globalThis.document = {
  hidden: false,
  addEventListener: (name, heard) => {
    assert.equal(name, "visibilitychange");
    hidden = heard;
  },
};
globalThis.requestAnimationFrame = (call) => frames.push(call);
globalThis.clearTimeout = (id) => {
  if (timers[id - 1]) timers[id - 1].call = () => {};
};
const { recall, remember } = await import("../../../../build_tools/browser/calculator/history_entry.ts");

function later(ms) {
  now += ms;
  for (const timer of timers.filter((each) => each.at <= now)) {
    timer.call();
    timer.call = () => {};
  }
}

function painted() {
  for (const call of frames.splice(0)) call();
  later(0);
}

beforeEach(() => {
  painted();
  later(10_000);
  timers = [];
  history.state = null;
  writes = 0;
});

test("the first is written as soon as the frame is painted", () => {
  remember("a", { rate: "3200" });
  assert.equal(writes, 0);
  painted();
  assert.deepEqual(recall("a"), { rate: "3200" });
});

test("what follows is written as soon as typing rests, and once", () => {
  for (const rate of ["3", "32", "320", "3200"]) {
    remember("a", { rate });
    painted();
    later(50);
  }
  assert.equal(writes, 1);
  assert.deepEqual(recall("a"), { rate: "3" });
  later(250);
  assert.deepEqual(recall("a"), { rate: "3200" });
  later(10_000);
  assert.equal(writes, 2);
});

test("while typing goes on it is written now and then, and the last is never lost", () => {
  for (let each = 0; each < 100; each++) {
    remember("a", { rate: String(each) });
    painted();
    later(100);
  }
  assert.equal(writes, 4);
  assert.deepEqual(recall("a"), { rate: "89" });
  later(300);
  assert.equal(writes, 5);
  assert.deepEqual(recall("a"), { rate: "99" });
});

test("what waits is written when the page is hidden, and not when it is seen again", () => {
  remember("a", { rate: "0" });
  painted();
  remember("a", { rate: "1" });
  document.hidden = true;
  hidden();
  assert.deepEqual(recall("a"), { rate: "1" });
  remember("a", { rate: "2" });
  document.hidden = false;
  hidden();
  assert.deepEqual(recall("a"), { rate: "1" });
});

test("what waits is written when the page is left", () => {
  remember("a", { rate: "1" });
  painted();
  remember("a", { rate: "2" });
  left();
  assert.deepEqual(recall("a"), { rate: "2" });
  left();
  assert.equal(writes, 2, "there was nothing more to write");
});

test("two calculators and what others keep there stand side by side", () => {
  history.state = { theirs: 1 };
  remember("a", { rate: "1" });
  remember("b", { size: "2" });
  left();
  assert.equal(history.state.theirs, 1);
  assert.deepEqual([recall("a"), recall("b"), recall("c")], [{ rate: "1" }, { size: "2" }, undefined]);
});
