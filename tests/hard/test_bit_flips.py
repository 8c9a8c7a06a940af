"""One bit of an engine file another, over HTTP, in a folder and in the kept edition: never a wrong number."""

from __future__ import annotations

import random
import zipfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.hard import visits
from tests.hard.bad_host import BadHost, flipped
from tests.hard.conftest import Tried, times

if TYPE_CHECKING:
    from playwright.sync_api import Browser

ENGINE = "made/engine"
CHANCE = random.Random()
LONGEST_S = 60.0
# The quick ways of starting. What stands behind them is asked for where these do not come.
QUICK = ("lean.wasm", "memory.bin", "worker.js")
BEHIND = ("pyodide.asm.wasm", "plain_worker.js", "python_stdlib.zip", "pyodide-lock.json")


@pytest.fixture(scope="module")
def one(bench_folder: Path) -> str:
    """The page that others are made of."""
    return (bench_folder / "answers/bench/one.html").read_text("utf-8")


@pytest.fixture
def host(bench_folder: Path) -> Iterator[BadHost]:
    opened = BadHost(bench_folder)
    yield opened
    opened.close()


def files(folder: Path) -> list[str]:
    """Every engine file, the shared ones first; a few of them in an ordinary run."""
    there = [path.name for path in sorted((folder / ENGINE).iterdir()) if path.is_file()]
    shared = [name for name in there if name in QUICK + BEHIND or name.endswith(".whl")]
    shared.append("bundles.json")
    # the reader of questions has a bundle as well, and no page to be asked on
    bundles = [f"{name}.bin" for name in visits.all_names() if f"{name}.bin" in there and visits.others(name, 1)]
    if times(2) == 1:
        return CHANCE.sample(shared, 1) + CHANCE.sample(bundles, 1)
    return shared * 4 + bundles


def about(name: str) -> str:
    """The calculator to ask where a file is harmed."""
    calculator = name.removesuffix(".bin")
    return calculator if calculator in visits.all_names() else "memory.rate"


def told_of(what: str, came: list[tuple[str, str]], tried: Tried) -> None:
    often = Counter(outcome for outcome, _ in came)
    survived = often[visits.RIGHT] + often[visits.TOLD]
    many = ", ".join(f"{often[each]} {each}" for each in (visits.RIGHT, visits.TOLD, visits.WRONG))
    tried(f"{what}: {many}", len(came), survived)
    assert survived == len(came), [each for each in came if each[0] not in (visits.RIGHT, visits.TOLD)]


def test_bit_flips_over_http(browser: Browser, host: BadHost, one: str, tried: Tried) -> None:
    listed: list[str] = files(host.folder)
    came: list[tuple[str, str]] = []
    for name in listed:
        host.put = {}
        calculator = about(name)
        page = f"answers/bench/{calculator}.html"
        for each in (f"{ENGINE}/{name}", f"{ENGINE}/packed/{name}.js"):  # both doors
            if data := host.read(each):
                host.put[each] = flipped(data, CHANCE)
        if name in BEHIND or name.endswith(".whl"):
            for each in QUICK:
                host.put |= {f"{ENGINE}/{each}": None, f"{ENGINE}/packed/{each}.js": None}
        host.put[page] = visits.page_with(one, (calculator,))
        context = browser.new_context(service_workers="block")
        inputs = visits.others(calculator, CHANCE.randrange(10**6))
        prefix = visits.prefix_of(calculator, 1)
        came.append((visits.visit(context, host.address + page, calculator, prefix, inputs, LONGEST_S), name))
        context.close()
    told_of("bit flips in engine files over HTTP", came, tried)


def test_bit_flips_in_a_folder(browser: Browser, bench_folder: Path, one: str, tmp_path: Path, tried: Tried) -> None:
    with zipfile.ZipFile(bench_folder / "site.zip") as archive:
        archive.extractall(tmp_path)
    folder = tmp_path / "worked-answers"
    listed: list[str] = files(bench_folder)
    came: list[tuple[str, str]] = []
    for name in listed:
        calculator = about(name)
        page = folder / "answers" / "bench" / f"{calculator}.html"
        page.write_bytes(visits.page_with(one, (calculator,)))
        harmed = {folder / ENGINE / "packed" / f"{name}.js": b""}
        if name in BEHIND or name.endswith(".whl"):
            harmed |= {folder / ENGINE / "packed" / f"{each}.js": b"" for each in QUICK}
        before = {path: path.read_bytes() for path in harmed}
        for path, data in before.items():
            path.write_bytes(flipped(data, CHANCE) if path.name == f"{name}.js" else b"")
        context = browser.new_context()
        inputs = visits.others(calculator, CHANCE.randrange(10**6))
        prefix = visits.prefix_of(calculator, 1)
        came.append((visits.visit(context, page.as_uri(), calculator, prefix, inputs, LONGEST_S), name))
        context.close()
        for path, data in before.items():
            path.write_bytes(data)
    told_of("bit flips in engine files in a folder", came, tried)


HARM = """
async ([name, file, at, bit]) => {
  const cache = await caches.open((await caches.keys())[0]);
  const address = new URL(name, document.baseURI).href;
  const kept = await cache.match(address);
  const bytes = new Uint8Array(await kept.arrayBuffer());
  bytes[Math.floor(at * bytes.length)] ^= 1 << bit;
  await cache.put(address, new Response(bytes, { headers: kept.headers }));
}
"""
PUT = """
async ([name, text]) => {
  const cache = await caches.open((await caches.keys())[0]);
  const headers = { "Content-Type": "text/html; charset=utf-8" };
  await cache.put(new URL(name, document.baseURI).href, new Response(text, { headers }));
}
"""


def test_bit_flips_in_the_kept_edition(browser: Browser, bench_folder: Path, one: str, tried: Tried) -> None:
    host = BadHost(bench_folder)
    not_kept = ("plain_worker.js", "python_stdlib.zip", "pyodide-lock.json")
    listed = [name for name in files(bench_folder) if name not in not_kept and not name.endswith(".whl")] or [
        "lean.wasm"
    ]
    context = browser.new_context()
    home = context.new_page()
    home.goto(f"{host.address}index.html")
    expect(home.locator(".wa-offline")).to_contain_text("Read offline: ready", timeout=60_000)
    base = host.address
    host.close()  # from here on there is no line
    came: list[tuple[str, str]] = []
    for name in listed:
        calculator = about(name)
        page = f"answers/bench/{calculator}.html"
        home.evaluate(PUT, [page, visits.page_with(one, (calculator,)).decode()])
        harm = [f"{ENGINE}/{name}", "", CHANCE.random(), CHANCE.randrange(8)]
        home.evaluate(HARM, harm)
        inputs = visits.others(calculator, CHANCE.randrange(10**6))
        prefix = visits.prefix_of(calculator, 1)
        came.append((visits.visit(context, base + page, calculator, prefix, inputs, LONGEST_S), name))
        home.evaluate(HARM, harm)  # the same bit again: as it was
    context.close()
    told_of("bit flips in engine files kept for offline", came, tried)


def test_the_harm_is_noticed(one: str) -> None:
    """A judge who cannot condemn proves nothing: another example's markup is no right answer."""
    assert visits.is_for("#memory.rate:rate=3600&cas=16&made=1-a", {"rate": "3600"})
    assert not visits.is_for("#memory.rate:rate=3600", {"rate": "3601"})
    page = visits.page_with(one, ("memory.rate", "audio.level"))
    assert page.count(b'<section class="wa-calculator"') == 2


def test_a_wrong_number_would_be_noticed(browser: Browser, host: BadHost) -> None:
    page = "answers/bench/one.html"
    script = host.read("made/browser/page.js") or b""
    # the page's own script changes a digit of what Python has said
    harm = b"""{
      const set = Object.getOwnPropertyDescriptor(Element.prototype, "innerHTML");
      const live = text => text.replaceAll("3456", "3457");
      const wrong = { ...set, set(text) { set.set.call(this, this.content ? live(text) : text); } }; // a template
      Object.defineProperty(Element.prototype, "innerHTML", wrong);
    }
    """
    host.put["made/browser/page.js"] = harm + script
    context = browser.new_context(service_workers="block")
    inputs = {"rate": "3456", "cas": "30"}
    came = visits.visit(context, host.address + page, "memory.rate", "memory-rate-1", inputs, LONGEST_S)
    context.close()
    assert came == visits.WRONG
