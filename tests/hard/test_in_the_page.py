"""Every calculator on one page, a thousand keystrokes, two idle minutes, and memory that the browser does not give."""

from __future__ import annotations

import base64
import hashlib
import random
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import parse_qsl

import pytest
from playwright.sync_api import expect

from tests.browser.test_calculator_in_page import direct, result_html, section, settled
from tests.hard import visits
from tests.hard.bad_host import BadHost
from tests.hard.conftest import Tried, times

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext

PAGE = "answers/bench/one.html"
ALL = "answers/bench/all.html"
CHANCE = random.Random()
LONGEST_S = 180.0  # on a machine that may be busy
# What is out of view is not laid out: else each look at one calculator would lay all of them out again.
OUT_OF_VIEW = """() => {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync("section.wa-calculator { content-visibility: auto; contain-intrinsic-size: auto 2000px }");
  document.adoptedStyleSheets = [sheet];
}"""
IDLE_S = 125


@pytest.fixture
def host(bench_folder: Path) -> Iterator[BadHost]:
    opened = BadHost(bench_folder)
    yield opened
    opened.close()


def test_every_calculator_of_one_page_is_asked(context: BrowserContext, host: BadHost, tried: Tried) -> None:
    listed = visits.all_names()
    host.put[ALL] = visits.page_with((host.read(PAGE) or b"").decode(), listed)
    page = context.new_page()
    page.goto(host.address + ALL)
    page.evaluate(OUT_OF_VIEW)
    came = Counter[str]()
    asked = 0
    others: list[str] = []
    for number, name in enumerate(listed, 1):
        inputs = visits.others(name, CHANCE.randrange(10**6))
        if not inputs:
            continue
        asked += 1
        page.evaluate("link => { location.hash = link }", visits.link(name, inputs))
        came[verdict := visits.judge(page, name, visits.prefix_of(name, number), inputs, LONGEST_S)] += 1
        if verdict != visits.RIGHT:
            others.append(f"{verdict}: {name} {inputs}")  # drawn anew at each run, so the case must be told
    tried(f"{len(listed)} calculators on one page in a browser, each asked: right", asked, came[visits.RIGHT])
    assert asked > len(listed) / 2
    assert came[visits.RIGHT] == asked, others


def test_inputs_that_come_to_the_same_headline_are_told_apart(context: BrowserContext, host: BadHost) -> None:
    host.put[ALL] = visits.page_with((host.read(PAGE) or b"").decode(), ("memory.check",))
    page = context.new_page()
    page.goto(host.address + ALL)
    example = dict(parse_qsl(section(page).get_attribute("data-link").partition(":")[2]))  # type: ignore[union-attr]
    example.pop("made")
    for inputs in (example | {"channels": "5"}, example, example | {"channels": "5"}, example):
        page.evaluate("link => { location.hash = link }", visits.link("memory.check", inputs))
        came = visits.judge(page, "memory.check", visits.prefix_of("memory.check", 1), inputs, LONGEST_S)
        assert came == visits.RIGHT


def test_a_thousand_keystrokes(context: BrowserContext, host: BadHost, tried: Tried) -> None:
    count = times(1000, 100)
    page = context.new_page()
    page.goto(host.address + PAGE)
    rate = page.get_by_label("Rate")
    rate.click()
    for _ in range(count - 1):
        key = CHANCE.choices(
            ["Backspace", "ArrowLeft", "Delete", "Home", ".", *"0123456789"], [4, 2, 2, 1, 1] + [1] * 10
        )
        page.keyboard.press(key[0])
    rate.fill("3456")
    settled(page)
    right = result_html(page) == direct(page, "memory-rate-1", rate="3456", cas="16")
    tried(f"{count} keystrokes in one field: the result is that of the last", 1, int(right))
    assert right


def test_two_idle_minutes(context: BrowserContext, host: BadHost, tried: Tried) -> None:
    page = context.new_page()
    if times(2) == 1:
        page.clock.install()
    page.goto(host.address + PAGE)
    page.get_by_label("Rate").fill("3600")
    settled(page)
    if times(2) == 1:
        page.clock.fast_forward(IDLE_S * 1000)  # whatever waits for its time has had it
        page.clock.resume()
    else:
        page.wait_for_timeout(IDLE_S * 1000)
    page.get_by_label("Rate").fill("3456")
    settled(page)
    right = result_html(page) == direct(page, "memory-rate-1", rate="3456", cas="16")
    tried("two minutes idle, and then touched: the right result", 1, int(right))
    assert right


# What a browser does that has no memory left: at the start, or once Python asks for more.
NONE = "throw new RangeError('no memory')"
NO_MEMORY = {
    "for the engine at its start": f"WebAssembly.Memory = WebAssembly.Instance = function () {{ {NONE} }};"
    "WebAssembly.instantiate = () => Promise.reject(new RangeError('no memory'));",
    "for Python, once it asks for more": f"WebAssembly.Memory.prototype.grow = () => {{ {NONE} }};",
    "for what is taken up": f"self.ArrayBuffer = function () {{ {NONE} }};",
}


@pytest.mark.parametrize("lack", NO_MEMORY)
def test_memory_that_the_browser_does_not_give(context: BrowserContext, host: BadHost, tried: Tried, lack: str) -> None:
    script = (host.read("made/browser/page.js") or b"").decode()
    for worker in ("worker.js", "plain_worker.js"):
        before = host.read(f"made/engine/{worker}") or b""
        data = NO_MEMORY[lack].encode() + before
        old, new = (
            f'bytes:{len(each)},integrity:"sha256-{base64.b64encode(hashlib.sha256(each).digest()).decode()}"'
            for each in (before, data)
        )
        assert script.count(old) == 1
        script = script.replace(old, new)
        host.put[f"made/engine/{worker}"] = data
    host.put["made/browser/page.js"] = script.encode()
    page = context.new_page()
    page.goto(f"{host.address}{PAGE}")
    before_html = result_html(page)
    page.get_by_label("Rate").fill("3600")
    said = re.compile("could not be loaded|mistake is ours|no memory")
    headline = section(page).locator(".wa-headline")
    told = section(page).locator(".wa-state").filter(has_text=said).or_(headline.filter(has_text="3600"))
    expect(told.first).to_be_visible(timeout=LONGEST_S * 1000)
    right = result_html(page) in (before_html, direct(page, "memory-rate-1", rate="3600", cas="16"))
    tried(f"no memory {lack}: a sentence, or the right result", 1, int(right))
    assert right
