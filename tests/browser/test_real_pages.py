"""
Every page of the real site, opened once on a phone and once in a window.

On a phone the answer stands on the first screen and fields show what stands in them, whole. In a window nothing sticks
out, also with text at twice its size, every calculator wakes, axe-core finds nothing, and on paper it is short enough.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from tests.browser.page_measures import (
    ASLEEP,
    CLOSE_AGAIN,
    CUT_OFF,
    FIRST_SCREEN,
    OPEN_ALL,
    SCREEN,
    STICKS_OUT,
    WIDTH,
    faults,
)
from tests.browser.test_axe import violations
from tests.conftest import new_context

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

DOCS = Path(__file__).resolve().parents[2] / "docs"
PAGES = sorted(path.relative_to(DOCS).with_suffix(".html").as_posix() for path in DOCS.rglob("*.md"))
ANSWERS = [path for path in PAGES if re.fullmatch(r"answers/[^/]+/[^/]+", path)]
NARROW = {"width": 360, "height": 740}
TWICE = "250%"  # the style sheet's 125 % at twice
SHEETS, SHEETS_OF_A_PLAN = 3, 4
ONE_SHEET = re.compile(rb"/Type\s*/Page[^s]")
TEXT_SIZE = "size => { document.documentElement.style.fontSize = size }"

Seen = dict[str, dict[str, Any]]  # by page, what was measured there


def watched(context: BrowserContext, site: str, told: list[str]) -> BrowserContext:
    """Notes whatever is asked of another host, and each script that fails."""
    allowed = (site, "data:", "blob:", "about:")
    context.on("request", lambda asked: None if asked.url.startswith(allowed) else told.append(f"asked {asked.url}"))
    context.on("weberror", lambda fault: told.append(f"{fault.page and fault.page.url}: {fault.error}"))
    return context


def opened(page: Page, address: str) -> None:
    page.goto(address)
    page.locator("html.wa-awake").wait_for(state="attached")


@pytest.fixture(scope="module")
def told() -> list[str]:
    """What happened on the pages that must not happen."""
    return []


@pytest.fixture(scope="module")
def phone(browser: Browser, site: str, told: list[str]) -> Iterator[Page]:
    context = new_context(
        browser, warm=False, viewport={"width": WIDTH, "height": SCREEN}, is_mobile=True, has_touch=True
    )
    yield watched(context, site, told).new_page()
    context.close()


@pytest.fixture(scope="module")
def window(browser: Browser, site: str, told: list[str]) -> Iterator[Page]:
    context = new_context(browser, warm=False)
    yield watched(context, site, told).new_page()
    context.close()


@pytest.fixture(scope="module")
def on_phone(phone: Page, site: str) -> Seen:
    seen: Seen = {}
    for path in PAGES:
        phone.set_viewport_size({"width": WIDTH, "height": SCREEN})
        opened(phone, site + path)
        first = phone.evaluate(FIRST_SCREEN)
        phone.set_viewport_size(NARROW)
        phone.evaluate(OPEN_ALL)
        seen[path] = {"first": first, "cut off": phone.evaluate(CUT_OFF)}
    return seen


@pytest.fixture(scope="module")
def in_window(window: Page, site: str, project: Path) -> Seen:
    seen: Seen = {}
    width = "document.documentElement.scrollWidth"
    for path in PAGES:
        window.set_viewport_size(NARROW)
        opened(window, site + path)
        here: dict[str, Any] = {"widths": [window.evaluate(width)]}
        window.evaluate(OPEN_ALL)
        here["asleep"] = window.evaluate(ASLEEP)
        here["widths"].append(window.evaluate(width))
        here["axe"] = violations(window, project)
        window.evaluate(TEXT_SIZE, TWICE)
        for wide in (390, 768):
            window.set_viewport_size({"width": wide, "height": 844})
            here[f"twice at {wide}"] = window.evaluate(STICKS_OUT)[:5]
        if path in ANSWERS:
            window.set_viewport_size({"width": 1440, "height": 900})
            window.evaluate(TEXT_SIZE, "")
            window.evaluate(CLOSE_AGAIN)
            here["plan"] = window.locator(".wa-plan .wa-tick").count() > 0
            here["sheets"] = len(ONE_SHEET.findall(window.pdf(format="A4")))
        seen[path] = here
    return seen


def of(seen: Seen, what: str) -> dict[str, Any]:
    """The pages of which something is told."""
    return {path: here[what] for path, here in seen.items() if here[what]}


def test_the_answer_stands_on_the_first_screen_of_every_page(on_phone: Seen) -> None:
    wrong: list[str] = []
    print(f"\n{'page':46}{'screens':>8}{'headline':>9}{'caution':>8}{'action':>8}{'if not':>8}")
    for path in ANSWERS:
        first = on_phone[path]["first"]
        ends = [first[key] or 0 for key in ("height", "headline", "caution", "action", "ifNot")]
        print(f"{path.removeprefix('answers/'):46}" + "".join(f"{each / SCREEN:8.2f}" for each in ends))
        wrong += faults(path, first)
    assert wrong == []


def test_fields_show_what_stands_in_them_whole(on_phone: Seen, phone: Page, site: str) -> None:
    assert of(on_phone, "cut off") == {}
    phone.set_viewport_size(NARROW)
    opened(phone, site + "answers/memory/add-bigger-sticks.html")
    phone.evaluate(OPEN_ALL)
    phone.get_by_label("Timings").first.fill("16-18-18-38")
    assert phone.evaluate(CUT_OFF) == []


def test_nothing_sticks_out_on_a_narrow_phone_folded_or_open(in_window: Seen) -> None:
    assert {path: here["widths"] for path, here in in_window.items() if here["widths"] != [360, 360]} == {}


def test_every_calculator_wakes(in_window: Seen) -> None:
    assert of(in_window, "asleep") == {}


def test_axe_finds_nothing_on_any_page(in_window: Seen) -> None:
    assert of(in_window, "axe") == {}


@pytest.mark.parametrize("width", [390, 768])
def test_text_at_twice_its_size_keeps_inside(in_window: Seen, width: int) -> None:
    assert of(in_window, f"twice at {width}") == {}


def test_on_paper_a_page_is_what_one_would_pin_to_the_wall(in_window: Seen) -> None:
    wrong = []
    for path in ANSWERS:
        most = SHEETS_OF_A_PLAN if in_window[path]["plan"] else SHEETS
        if not 1 <= in_window[path]["sheets"] <= most:
            wrong.append(f"{path}: {in_window[path]['sheets']} sheets")
    assert wrong == []


def test_no_page_asks_another_host_or_fails(on_phone: Seen, in_window: Seen, told: list[str]) -> None:
    assert on_phone.keys() == in_window.keys()
    assert told == []


def test_the_measures_see_what_sticks_out_and_what_is_cut_off(phone: Page, site: str) -> None:
    phone.set_viewport_size(NARROW)
    opened(phone, site + "answers/memory/kit-numbers.html")
    phone.evaluate(OPEN_ALL)
    assert phone.evaluate(STICKS_OUT) == []
    phone.evaluate("document.querySelector('main svg text').setAttribute('x', '400')")
    phone.evaluate("document.querySelector('main h1').style.width = '900px'")
    assert len(phone.evaluate(STICKS_OUT)) >= 2
    phone.locator(".wa-field input").first.evaluate("field => { field.value = '16-18-18-38 and much, much more' }")
    assert len(phone.evaluate(CUT_OFF)) == 1
    assert phone.evaluate(ASLEEP) == []
    phone.evaluate("document.querySelector('fieldset.wa-inputs').disabled = true")
    assert len(phone.evaluate(ASLEEP)) == 1


def test_the_measures_see_what_is_too_long() -> None:
    fine = {
        "height": 4000, "width": 390, "headline": 700, "headlineTop": 600, "headlineLine": 28, "caution": 740,
        "doubt": 1200, "action": 1500, "plan": False, "strip": False, "shortAnswer": 40, "headlineWords": 25,
        "reasonWords": 15,
    }  # fmt: skip
    assert faults("a", fine) == []
    for key, value in (
        ("height", 9 * SCREEN + 1), ("width", 391), ("headline", 845), ("headlineTop", 640), ("caution", 845),
        ("doubt", None), ("doubt", 700 + SCREEN + 1),
        ("action", None), ("action", 1689), ("strip", True), ("shortAnswer", 41), ("headlineWords", 26),
        ("reasonWords", 16),
    ):  # fmt: skip
        assert len(faults("a", fine | {key: value})) == 1, key
    assert faults("a", fine | {"height": 11 * SCREEN, "plan": True}) == []
