"""Measures the reader of questions in Chromium: how long the first takes, and each one after, beside a plain start."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from build_tools.bench.host import Host
from build_tools.questions.index import of_docs

if TYPE_CHECKING:
    from playwright.sync_api import Browser

QUESTIONS = "tests/calculators/asking/questions.json"  # our own; every eleventh, so that all subjects are among them
EVERY = 11
# The same worker, messages and question by both ways; what each way needs is fetched side by side, as the page does.
READ = """
async ({ ours, orders }) => {
  const from = performance.now();
  const bring = async name => (await fetch(`/site/made/engine/${name}`)).arrayBuffer();
  const unpacked = async name => {
    const { body } = await fetch(`/site/made/engine/${name}`);
    return new Response(body.pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
  };
  const hired = bring(ours ? "worker.js" : "plain_worker.js");
  const code = WebAssembly.compileStreaming(fetch(`/site/made/engine/${ours ? "lean" : "pyodide.asm"}.wasm`));
  const coming = ours ? bring("memory.bin") : Promise.all(plainFiles.map(async name => [name, await bring(name)]));
  const bundle = ours ? unpacked("asking.reader.bin") : undefined;
  const worker = new Worker(URL.createObjectURL(new Blob([await hired], { type: "text/javascript" })));
  const reply = () => new Promise((resolve, reject) => {
    worker.onerror = () => reject(new Error("the worker does not run"));
    worker.onmessage = ({ data: message }) => {
      if (message.kind === "ready" || message.kind === "answer") resolve(message);
      else reject(new Error(JSON.stringify(message)));
    };
  });
  const ready = reply();
  const begin = it => ours ? { kind: "snapshot", memory: it } : { kind: "plain", files: Object.fromEntries(it) };
  coming.then(it => worker.postMessage(begin(it)));
  code.then(wasm => worker.postMessage({ kind: "runtime", wasm }));
  await ready;
  if (ours) worker.postMessage({ kind: "bundle", file: await bundle });
  const times = [];
  const answers = [];
  for (const [id, inputs] of orders.entries()) {
    const start = performance.now();
    const answer = reply();
    worker.postMessage(JSON.stringify({ id, name: "asking.reader", inputs, wanted: "ask", prefix: "" }));
    answers.push((await answer).answer);
    times.push(performance.now() - (id === 0 ? from : start));
  }
  worker.terminate();
  return { times, answers };
}
"""


def measure(browser: Browser, host: Host, project: Path, runs: int) -> dict[str, Any]:
    """
    Have questions read by both ways in turn, each with an empty cache.

    Args:
        browser: Chromium.
        host: Serves the site below /site/.
        project: The project folder.
        runs: How often each way is started.

    Returns:
        By way, `ours` and `plain`: `first`, from asking for the files to the first reply, and `each`, every later
        question. [ms]

    Raises:
        AssertionError: The two ways read something else.
    """
    rows = json.loads((project / QUESTIONS).read_text("utf-8"))[::EVERY]
    orders: list[dict[str, Any]] = [{"text": row["text"], "mark": "bench"} for row in rows]
    orders[0]["index"] = of_docs(project / "docs")
    texts = [json.dumps(order) for order in orders]
    plain = ["python_stdlib.zip", "pyodide-lock.json"]
    plain += [path.name for path in (project / "docs" / "made" / "engine").glob("*.whl")]
    measured: dict[str, Any] = {way: {"first": [], "each": []} for way in ("plain", "ours")}
    for _ in range(runs):
        answers = []
        for way, each in measured.items():
            page = browser.new_context(service_workers="block").new_page()
            page.goto(f"{host.address}/site/404.html")
            page.evaluate("names => { window.plainFiles = names; }", plain)
            reply = page.evaluate(READ, {"ours": way == "ours", "orders": texts})
            page.context.close()
            each["first"].append(reply["times"][0])
            each["each"] += reply["times"][1:]
            answers.append(reply["answers"])
        assert answers[0] == answers[1], "two ways of starting read the same questions otherwise"
    return measured
