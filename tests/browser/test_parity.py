"""
The page's engine gives the very bytes that Python gives here: HTML, text, JSON and link, answer by answer.

Chromium runs the engine's own worker as it is shipped, with the machine code from which everything is cut that the
build's own questions did not reach; an answer that needs more would come back as "stopped", and fail here.
WORKED_ANSWERS_PARITY sets how many random inputs each calculator gets, WORKED_ANSWERS_SEED which.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from calculators.catalogue import find, names
from calculators.door import answer
from tests.browser.conftest import Host
from tests.random_inputs import random_inputs

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

COUNT = int(os.environ.get("WORKED_ANSWERS_PARITY", "60"))
SEED = int(os.environ.get("WORKED_ANSWERS_SEED", "20261124"))  # another one than the build's own (questions.py)
WANTED = "html,text,json,link"
BATCH = 250

START = """
async () => {
  const bring = async name => (await fetch(`made/engine/${name}`)).arrayBuffer();
  const worker = new Worker(URL.createObjectURL(new Blob([await bring("worker.js")], { type: "text/javascript" })));
  const wasm = await WebAssembly.compileStreaming(fetch("made/engine/lean.wasm"));
  worker.postMessage({ kind: "snapshot", memory: await bring("memory.bin") });
  worker.postMessage({ kind: "runtime", wasm });
  const first = await new Promise(resolve => { worker.onmessage = ({ data }) => resolve(data); });
  if (first.kind !== "ready" || first.how !== "snapshot") throw new Error(JSON.stringify(first));
  const hex = bytes => [...new Uint8Array(bytes)].map(each => each.toString(16).padStart(2, "0")).join("");
  const handed = new Set();
  const hand = async name => {
    if (handed.has(name)) return;
    handed.add(name);
    const packed = (await fetch(`made/engine/${name}.bin`)).body.pipeThrough(new DecompressionStream("gzip"));
    worker.postMessage({ kind: "bundle", file: await new Response(packed).arrayBuffer() });
  };
  const ask = (id, [name, inputs]) => new Promise((resolve, reject) => {
    worker.onmessage = ({ data: reply }) => {
      if (reply.kind === "answer" && reply.id === id) resolve(reply.answer);
      else reject(new Error(JSON.stringify(reply)));
    };
    worker.postMessage(JSON.stringify({ id, name, inputs, wanted: "WANTED", prefix: "p-1" }));
  });
  window.askOne = async call => { await hand(call[0]); return ask(1, call); };
  window.askAll = async calls => {
    const digests = [];
    for (const [id, call] of calls.entries()) {
      await hand(call[0]);
      const text = new TextEncoder().encode(await ask(id, call));
      digests.push(hex(await crypto.subtle.digest("SHA-256", text)));
    }
    return digests;
  };
}
""".replace("WANTED", WANTED)


@pytest.fixture(scope="module")
def browser(optimising_browser: Browser) -> Browser:
    return optimising_browser


@pytest.fixture(scope="module")
def engine(bench_folder: Path, browser: Browser) -> Iterator[Page]:
    """A page with the engine's worker, ready to be asked."""
    host = Host(bench_folder)
    page = browser.new_page()
    page.goto(f"{host.address}404.html")
    page.evaluate(START)
    yield page
    page.close()
    host.close()


@pytest.mark.parametrize("name", names())
def test_the_browser_gives_the_bytes_that_python_gives_here(engine: Page, name: str) -> None:
    calculator = find(name)
    asked = [dict(preset.inputs) for preset in calculator.presets] + list(random_inputs(calculator, COUNT, SEED))
    calls = [[name, json.dumps(inputs)] for inputs in asked]
    answered = 0
    for start in range(0, len(calls), BATCH):
        batch = calls[start : start + BATCH]
        digests = engine.evaluate("calls => askAll(calls)", batch)
        for call, digest in zip(batch, digests, strict=True):
            here = answer(*call, WANTED, "p-1")
            reply = json.loads(here)
            assert "fault" not in reply, f"{call} raises"
            answered += "html" in reply
            if hashlib.sha256(here.encode()).hexdigest() != digest:
                there = engine.evaluate("call => askOne(call)", call)
                assert json.loads(there) == reply, f"{call} differs in the browser"
                pytest.fail(f"{call}: same meaning, other bytes in the browser")
    assert answered >= len(calls) / 3, "too few of the random inputs are usable for this to say much"
