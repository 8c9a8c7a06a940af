"""A server that drops, cuts, garbles, stumbles and dawdles: a visit ends right or says so; no number is wrong."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from build_tools.site.frame import CUT_OFF
from tests.browser.test_calculator_in_page import hurry
from tests.conftest import new_context
from tests.hard import visits
from tests.hard.bad_host import CUT, DAWDLE, DROP, GARBLE, STUMBLE, BadHost
from tests.hard.conftest import Tried, times

if TYPE_CHECKING:
    from playwright.sync_api import Browser

PAGE = "answers/bench/one.html"
LONGEST_S = 60.0
CUT_OFF_AFTER_MS = 10_000  # first.ts
CHANCE = random.Random()


@pytest.fixture
def host(bench_folder: Path) -> Iterator[BadHost]:
    opened = BadHost(bench_folder)
    yield opened
    opened.close()


def now_and_then(often: float) -> str | None:
    """What happens to a request; nothing, as a rule."""
    return CHANCE.choice((DROP, CUT, GARBLE, STUMBLE, DAWDLE)) if CHANCE.random() < often else None


def test_an_unreliable_server(browser: Browser, host: BadHost, tried: Tried) -> None:
    count, came = times(60, 3), Counter[str]()
    for number in range(count):
        often = (0.1, 0.3, 0.6)[number % 3]
        host.fault = lambda path, often=often: now_and_then(often)  # type: ignore[misc]
        if number % 3 == 0:  # a new reader, and the same one again
            context = browser.new_context()
        inputs = {"rate": str(3000 + CHANCE.randrange(3000)), "cas": "30"}
        came[visits.visit(context, host.address + PAGE, "memory.rate", "memory-rate-1", inputs, LONGEST_S)] += 1
        if number % 3 == 2 or number == count - 1:
            context.close()
    survived = sum(came[each] for each in visits.SURVIVED)
    many = ", ".join(f"{came[each]} {each}" for each in (*visits.SURVIVED, visits.WRONG, visits.DEAD))
    tried(f"visits to an unreliable server ({many})", count, survived)
    assert survived == count, many


def test_a_page_that_is_cut_off_says_so(browser: Browser, host: BadHost) -> None:
    data = host.read(PAGE) or b""
    context = new_context(browser, warm=False)
    context.clock.install()
    cut = []
    for share in (0.2, 0.6, 0.97):
        host.put[PAGE] = data[: int(len(data) * share)]
        cut.append(context.new_page())
        cut[-1].goto(host.address + PAGE)
    host.put = {}
    whole = context.new_page()
    whole.goto(host.address + PAGE)
    for page in (*cut, whole):
        page.clock.fast_forward(CUT_OFF_AFTER_MS)
    for page in cut:
        page.get_by_text(CUT_OFF).wait_for()
    assert not whole.get_by_text(CUT_OFF).is_visible()
    context.close()


def test_a_page_whose_line_breaks_says_so(browser: Browser, host: BadHost) -> None:
    host.fault = lambda path: CUT if path == PAGE else None
    began = 0
    for _ in range(times(5, 1)):
        context = browser.new_context()
        hurry(context, 10)
        came = visits.visit(context, host.address + PAGE, "memory.rate", "memory-rate-1", {"rate": "3111"}, 30)
        context.close()
        began += came == visits.TOLD or came == visits.BLANK
    assert began == times(5, 1)
