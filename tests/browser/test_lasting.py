"""The engine lasts: its memory does not grow, a phone can carry it. Without its memory: test_cut_and_compared.py."""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from build_tools.installer.testing import ALL
from tests.browser.conftest import Host
from tests.browser.test_calculator_in_page import PATIENCE_MS, open_form, section, settled
from tests.browser.test_strict import START
from tests.conftest import new_context

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

FEW, MANY = 1_000, 10_000 if os.environ.get(ALL) else 4_000

# The heap after so many results of one calculator, with other numbers each time.
ASK = """
async ([from, to]) => {
  let heap = 0;
  for (let id = from; id < to; id++) {
    const inputs = JSON.stringify({ rate: String(2000 + id % 6000), cas: String(10 + id % 40) });
    const reply = await send(JSON.stringify({ id, name: "memory.rate", inputs, wanted: "html,text", prefix: "p" }));
    if (reply.kind !== "answer" || JSON.parse(reply.answer).html === undefined) throw new Error(JSON.stringify(reply));
    heap = reply.heap;
  }
  return heap;
}
"""


@pytest.fixture(scope="module")
def engine(optimising_browser: Browser, bench_folder: Path) -> Iterator[Page]:
    """The engine on its own, in a browser that makes its machine code quicker while thousands are asked."""
    host = Host(bench_folder)
    context = new_context(optimising_browser)
    page = context.new_page()
    page.goto(f"{host.address}404.html")
    page.evaluate(START, {"kind": "snapshot"})
    yield page
    context.close()
    host.close()


def test_the_memory_is_as_large_after_thousands_of_results_as_after_the_first_thousand(engine: Page) -> None:
    after_few = engine.evaluate(ASK, [0, FEW])
    assert after_few > 0
    assert engine.evaluate(ASK, [FEW, MANY]) == after_few


def test_with_the_kept_memory_nothing_of_the_plain_start_is_fetched(
    visit: Callable[..., Page], context: BrowserContext
) -> None:
    # What the page itself asks for: its service worker keeps every file for offline, as soon as it is there.
    asked: list[str] = []
    context.on("request", lambda request: asked.append(request.url))
    page = visit()
    page.get_by_label("Rate").fill("3600")
    settled(page)
    fetched = {url.partition("?")[0].rpartition("/")[2] for url in asked if "/engine/" in url}
    assert fetched == {"worker.js", "memory.bin", "lean.wasm", "bundles.json", "memory.rate.bin"}


def test_a_worker_that_waits_long_for_its_files_still_starts_the_quick_way(
    visit: Callable[..., Page], host: Host
) -> None:
    # What the runtime notes of the time since its worker came up must not count as a difference.
    host.late.update({"lean.wasm": 1.2, "memory.bin": 2.4})
    page = visit()
    page.get_by_label("Rate").fill("3600")
    settled(page)
    assert not [path for path in host.asked if "plain_worker" in path or "python_stdlib" in path]


def test_on_a_slow_phone_it_works(browser: Browser, host: Host) -> None:
    context = new_context(browser, viewport={"width": 390, "height": 740}, is_mobile=True, has_touch=True)
    page = context.new_page()
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": 4})
    page.goto(f"{host.address}answers/bench/one.html")
    open_form(page)
    page.get_by_label("Rate").fill("3600")
    expect(section(page).locator(".wa-headline")).to_contain_text("3600", timeout=4 * PATIENCE_MS)
    context.close()


def test_what_python_cannot_answer_comes_back_as_a_fault_not_as_silence(engine: Page) -> None:
    question = {"id": 7, "name": "no.such", "inputs": "{", "wanted": "", "prefix": ""}
    reply = engine.evaluate("text => send(text)", json.dumps(question))
    assert reply["kind"] == "answer"
    assert "fault" in json.loads(reply["answer"])


def test_ten_calculators_share_one_engine(visit: Callable[..., Page]) -> None:
    page = visit("answers/bench/ten.html")
    assert page.locator("section.wa-calculator").count() == 10
    for number in range(10):
        section(page, number).get_by_label("Rate").fill(str(5000 + number))
    for number in range(10):
        settled(page, number)
        expect(section(page, number).locator(".wa-headline")).to_contain_text(str(5000 + number))
    assert len([each for each in page.workers if each.url.startswith("blob:")]) == 1
