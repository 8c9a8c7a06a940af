"""
Every page of the real site, at one visit: the answer stands on a phone's first screen and nothing sticks out.

Also that fields show what stands in them, whole, that every calculator wakes, that axe-core finds nothing, that text at
twice its size keeps inside, and that on paper a page is short enough.
"""

from __future__ import annotations

import os
import re
from collections import defaultdict
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from build_tools.installer.testing import ALL
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
PHONE, LAPTOP = {"width": WIDTH, "height": SCREEN}, {"width": 1440, "height": 900}
NARROW = {"width": 360, "height": 740}
TWICE_AT = (768, WIDTH)  # in this order: the next page is looked at in the width of the last
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
    context = new_context(browser, warm=False, viewport=PHONE, is_mobile=True, has_touch=True)
    yield watched(context, site, told).new_page()
    context.close()


@pytest.fixture(scope="module")
def printed(site_folder: Path) -> set[str]:
    """The answers that are put on paper: the longest of each subject, and with --all every one."""
    if os.environ.get(ALL):
        return set(ANSWERS)
    subjects: defaultdict[str, list[str]] = defaultdict(list)
    for path in sorted(ANSWERS, key=lambda path: (site_folder / path).stat().st_size):
        subjects[path.split("/")[1]].append(path)
    return {path for paths in subjects.values() for path in paths[-1:]}


class Kinds(HTMLParser):
    """What a page's markup is made of: each kind of element, by its class, attributes and the element around it."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: set[tuple[str, ...]] = set()
        self._heading = ""
        self.feed(text)

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        given = dict(attributes)
        names = sorted(name for name in given if not name.startswith("data-"))
        for of in (given.get("class") or "").split() or [""]:
            self.found.add((tag, of, given.get("type") or "", given.get("role") or "", *names))
        if re.fullmatch("h[1-6]", tag):
            self.found.add((self._heading, tag))
            self._heading = tag


def one_of_each_kind(texts: dict[str, str]) -> set[str]:
    """Pages in which every kind of element of all pages is met, as few as are soon found."""
    kinds = {path: Kinds(text).found for path, text in texts.items()}
    missing = set().union(*kinds.values())
    chosen: set[str] = set()
    while missing:
        best = max(sorted(kinds), key=lambda path: len(kinds[path] & missing))
        chosen.add(best)
        missing -= kinds[best]
    return chosen


@pytest.fixture(scope="module")
def by_axe(site_folder: Path) -> set[str]:
    """The pages that axe reads: some in which every kind of element is met, and with --all every one."""
    if os.environ.get(ALL):
        return set(PAGES)
    return one_of_each_kind({path: (site_folder / path).read_text("utf-8") for path in PAGES})


@pytest.fixture(scope="module")
def seen(phone: Page, site: str, project: Path, printed: set[str], by_axe: set[str]) -> Seen:
    """What is seen on every page, at one visit."""
    return {path: looked_at(phone, site, path, project, path in by_axe, path in printed) for path in PAGES}


def looked_at(page: Page, site: str, path: str, project: Path, by_axe: bool, on_paper: bool) -> dict[str, Any]:
    width = "document.documentElement.scrollWidth"
    if page.viewport_size != PHONE:  # each page leaves it so, but where something is printed
        page.set_viewport_size(PHONE)
    opened(page, site + path)
    here: dict[str, Any] = {"first": page.evaluate(FIRST_SCREEN)}
    page.set_viewport_size(NARROW)
    here["widths"] = [page.evaluate(width)]
    page.evaluate(OPEN_ALL)
    here["widths"].append(page.evaluate(width))
    here["asleep"] = page.evaluate(ASLEEP)
    here["cut off"] = page.evaluate(CUT_OFF)
    here["axe"] = violations(page, project) if by_axe else []
    page.evaluate(TEXT_SIZE, TWICE)
    for wide in TWICE_AT:
        page.set_viewport_size({"width": wide, "height": SCREEN})
        here[f"twice at {wide}"] = page.evaluate(STICKS_OUT)[:5]
    if on_paper:
        page.set_viewport_size(LAPTOP)
        page.evaluate(TEXT_SIZE, "")
        page.evaluate(CLOSE_AGAIN)
        here["plan"] = page.locator(".wa-plan .wa-tick").count() > 0
        here["sheets"] = len(ONE_SHEET.findall(page.pdf(format="A4")))
    return here


def of(seen: Seen, what: str) -> dict[str, Any]:
    """The pages of which something is told."""
    return {path: here[what] for path, here in seen.items() if here[what]}


def test_the_answer_stands_on_the_first_screen_of_every_page(seen: Seen) -> None:
    wrong: list[str] = []
    print(f"\n{'page':46}{'screens':>8}{'headline':>9}{'caution':>8}{'action':>8}{'if not':>8}")
    for path in ANSWERS:
        first = seen[path]["first"]
        ends = [first[key] or 0 for key in ("height", "headline", "caution", "action", "ifNot")]
        print(f"{path.removeprefix('answers/'):46}" + "".join(f"{each / SCREEN:8.2f}" for each in ends))
        wrong += faults(path, first)
    assert wrong == []


def test_fields_show_what_stands_in_them_whole(seen: Seen, phone: Page, site: str) -> None:
    assert of(seen, "cut off") == {}
    phone.set_viewport_size(NARROW)
    opened(phone, site + "answers/memory/add-bigger-sticks.html")
    phone.evaluate(OPEN_ALL)
    phone.get_by_label("Timings").first.fill("16-18-18-38")
    assert phone.evaluate(CUT_OFF) == []


def test_nothing_sticks_out_on_a_narrow_phone_folded_or_open(seen: Seen) -> None:
    assert {path: here["widths"] for path, here in seen.items() if here["widths"] != [360, 360]} == {}


def test_every_calculator_wakes(seen: Seen) -> None:
    assert of(seen, "asleep") == {}


def test_axe_finds_nothing_on_any_page(seen: Seen, by_axe: set[str]) -> None:
    assert by_axe
    assert of(seen, "axe") == {}


def test_a_kind_of_element_that_stands_on_one_page_alone_is_read_by_axe() -> None:
    plain = "<h1>a</h1><p class='x'>b</p>"
    texts = {f"{number}.html": plain for number in range(9)}
    assert len(one_of_each_kind(texts)) == 1
    for other in ("<p class='y'>", "<p class='x' hidden>", "<h3>c</h3>", "<input type=file>", "<b role=button>"):
        assert "4.html" in one_of_each_kind(texts | {"4.html": plain + other}), other


@pytest.mark.parametrize("width", TWICE_AT)
def test_text_at_twice_its_size_keeps_inside(seen: Seen, width: int) -> None:
    assert of(seen, f"twice at {width}") == {}


def test_on_paper_a_page_is_what_one_would_pin_to_the_wall(seen: Seen, printed: set[str]) -> None:
    wrong = []
    for path in sorted(printed):
        most = SHEETS_OF_A_PLAN if seen[path]["plan"] else SHEETS
        if not 1 <= seen[path]["sheets"] <= most:
            wrong.append(f"{path}: {seen[path]['sheets']} sheets")
    assert wrong == []


def test_no_page_asks_another_host_or_fails(seen: Seen, told: list[str]) -> None:
    assert len(seen) == len(PAGES)
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
