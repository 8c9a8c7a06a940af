"""
What a viewer sees first: on every answer page, at the size of a phone, and what is folded.

The limits are those that the pages were designed for; the table of all pages is printed, so that a run shows it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import urljoin

import pytest
from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext

PROJECT = Path(__file__).resolve().parents[2]
PAGES = sorted(
    path.relative_to(PROJECT / "docs").with_suffix(".html").as_posix()
    for path in (PROJECT / "docs" / "answers").glob("*/*.md")
)
WIDTH, SCREEN = 390, 844
IN_APP = 664  # what an application's own browser leaves of such a screen
SCREENS, SCREENS_OF_A_PLAN = 9, 11
MEASURE = """() => {
    const top = (e) => e ? Math.round(e.getBoundingClientRect().top + scrollY) : null;
    const bottom = (e) => e ? Math.round(e.getBoundingClientRect().bottom + scrollY) : null;
    const find = (s) => document.querySelector(s);
    const headline = find('.wa-headline');
    const strip = find('.wa-glance:not([hidden])');
    return {
        height: document.documentElement.scrollHeight,
        width: document.documentElement.scrollWidth,
        headlineTop: top(headline),
        headlineLine: headline ? parseFloat(getComputedStyle(headline).lineHeight) : 0,
        headline: bottom(headline),
        verdict: bottom(find('.wa-verdict')),
        caution: bottom(find('.wa-gravest')),
        doubt: bottom(find('.wa-doubt > button:last-of-type')),
        action: top(find('.wa-part-do li, .wa-part-do > p, .wa-plan .wa-step')),
        ifNot: top(find('.wa-part-if-not')),
        plan: find('.wa-plan .wa-tick') !== null,
        strip: strip !== null,
        shortAnswer: (find('.wa-short-answer')?.textContent ?? '').trim().split(/\\s+/).length,
        headlineWords: (headline?.textContent ?? '').trim().split(/\\s+/).length,
        reasonWords: [...(find('.wa-verdict')?.childNodes ?? [])].filter(n => n.nodeName !== 'STRONG')
            .map(n => n.textContent).join(' ').trim().split(/\\s+/).filter(Boolean).length,
    };
}"""


@pytest.fixture(scope="module")
def phone(browser: Browser) -> Iterator[BrowserContext]:
    opened = browser.new_context(viewport={"width": WIDTH, "height": SCREEN}, is_mobile=True, has_touch=True)
    yield opened
    opened.close()


def faults(path: str, seen: dict[str, Any]) -> list[str]:
    """What a page's measures do not hold to."""
    most = (SCREENS_OF_A_PLAN if seen["plan"] else SCREENS) * SCREEN
    told = []
    if seen["height"] > most:
        told.append(f"{seen['height'] / SCREEN:.1f} screens long, at most {most / SCREEN:.0f}")
    if seen["width"] > WIDTH:
        told.append(f"{seen['width']} px wide")
    if seen["headline"] is not None:
        if seen["headline"] > SCREEN or seen["strip"]:
            told.append(f"the headline ends at {seen['headline']}")
        if seen["doubt"] is None or seen["doubt"] - seen["headline"] > SCREEN:
            told.append(f"'this is wrong' ends at {seen['doubt']}")
        if (seen["caution"] or 0) > SCREEN:
            told.append(f"the caution ends at {seen['caution']}")
        first_line = seen["headlineTop"] + seen["headlineLine"]
        if first_line > IN_APP:
            told.append(f"the headline's first line ends at {first_line:.0f} of {IN_APP}")
        if seen["headlineWords"] > 25:
            told.append(f"a headline of {seen['headlineWords']} words")
        if seen["reasonWords"] > 15:
            told.append(f"a verdict's reason of {seen['reasonWords']} words")
    if seen["action"] is None or seen["action"] > 2 * SCREEN:
        told.append(f"the first action begins at {seen['action']}")
    if seen["shortAnswer"] > 40:
        told.append(f"a short answer of {seen['shortAnswer']} words")
    return [f"{path}: {each}" for each in told]


def test_the_answer_stands_on_the_first_screen_of_every_page(phone: BrowserContext, site: str) -> None:
    page = phone.new_page()
    told: list[str] = []
    print(f"\n{'page':46}{'screens':>8}{'headline':>9}{'caution':>8}{'action':>8}{'if not':>8}")
    for path in PAGES:
        page.goto(site + path)
        page.locator("html.wa-awake").wait_for(state="attached")
        seen = page.evaluate(MEASURE)
        ends = [seen[key] or 0 for key in ("height", "headline", "caution", "action", "ifNot")]
        print(f"{path.removeprefix('answers/'):46}" + "".join(f"{each / SCREEN:8.2f}" for each in ends))
        told += faults(path, seen)
    assert told == []


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


PLAN_PAGE = "answers/drivers/swapping-cards.html"


def test_what_a_viewer_must_see_is_never_folded(phone: BrowserContext, site: str) -> None:
    page = phone.new_page()
    page.goto(site + PLAN_PAGE)
    for title in page.locator(".wa-step-title").all():
        expect(title).to_be_visible()
    met = set()
    for step in page.locator('.wa-step[data-tags*="removes:"]').all():
        fold, title = step.locator("details.wa-step-fold"), step.locator(".wa-step-title").inner_text()
        if title not in met:  # once more in a plan that starts over: it stands open above
            expect(step.locator("dt", has_text="You should see").first).to_be_visible()
        met.add(title)
        if fold.count():
            fold.locator("> summary").click()
        expect(step.locator("dt", has_text="Way back").first).to_be_visible()
    assert len(met) > 1
    ways = page.locator(".wa-part-if-not li")
    assert ways.count() >= 3
    for place in range(3):
        expect(ways.nth(place)).to_be_visible()
    assert (
        page.evaluate(
            """() => [...document.querySelectorAll('details[data-fold]')]
            .filter(fold => !fold.querySelector(':scope > summary').textContent.trim()).length"""
        )
        == 0
    )
    assert (
        page.evaluate(
            """() => Math.max(...[...document.querySelectorAll('details')].map(fold => {
            let deep = 1;
            for (let up = fold.parentElement.closest('details'); up; up = up.parentElement.closest('details')) deep++;
            return deep;
        }))"""
        )
        <= 2
    ), "nothing is more than two taps away"


def test_without_scripts_every_fold_is_open(browser: Browser, site: str) -> None:
    context = browser.new_context(viewport={"width": WIDTH, "height": SCREEN}, java_script_enabled=False)
    page = context.new_page()
    page.goto(site + PLAN_PAGE)
    assert page.locator("details[data-fold]").count() > 10
    assert page.locator("details[data-fold]:not([open])").count() == 0
    expect(page.get_by_text("The script of this page is not running")).to_be_visible()
    context.close()


def test_folds_are_closed_before_anything_is_painted(browser: Browser, site: str) -> None:
    context = browser.new_context(viewport={"width": WIDTH, "height": SCREEN}, is_mobile=True, has_touch=True)
    page = context.new_page()
    # every state in which the browser could have painted: an open fold in one of them would have been seen
    page.add_init_script(
        """window.seenOpen = 0;
        const look = () => { window.seenOpen += document.querySelectorAll('details.wa-asks[open]').length;
            requestAnimationFrame(look); };
        requestAnimationFrame(look);"""
    )
    page.goto(site + PLAN_PAGE)
    page.locator("html.wa-awake").wait_for(state="attached")
    assert page.evaluate("window.seenOpen") == 0
    context.close()


def test_a_link_s_example_is_never_seen(browser: Browser, site: str) -> None:
    """From the first frame on either nothing or the link's own numbers stand there, although the engine is slow."""
    context = browser.new_context(viewport={"width": WIDTH, "height": SCREEN}, is_mobile=True, has_touch=True)
    page = context.new_page()
    page.add_init_script(
        """window.seen = new Set();
        const look = () => {
            const line = document.querySelector('.wa-headline');
            if (line && getComputedStyle(line).visibility === 'visible') window.seen.add(line.textContent);
            requestAnimationFrame(look);
        };
        requestAnimationFrame(look);"""
    )
    page.goto(site + "answers/memory/kit-numbers.html#memory.rate:generation=ddr5&rate=6400&cas=32")
    expect(page.locator(".wa-headline").first).to_contain_text("DDR5-6400", timeout=60_000)
    page.wait_for_timeout(100)
    seen = page.evaluate("[...window.seen]")
    assert seen, "the link's own numbers are seen"
    assert all("DDR5-6400" in each for each in seen), seen
    context.close()


def test_the_rest_of_a_short_answer_is_a_tap_away_where_a_link_brought_numbers(
    phone: BrowserContext, site: str
) -> None:
    page = phone.new_page()
    page.goto(site + "answers/memory/kit-numbers.html#memory.rate:generation=ddr5&rate=6400&cas=32")
    words = page.locator(".wa-short-answer p")
    hidden = "p => p.scrollHeight - p.clientHeight"
    expect(words).to_be_visible()
    assert words.evaluate(hidden) > 10
    words.tap()
    assert words.evaluate(hidden) <= 1
    page.close()


def test_a_page_of_the_programme_shows_its_numbers_without_scripts(browser: Browser, site: str) -> None:
    context = browser.new_context(viewport={"width": WIDTH, "height": SCREEN}, java_script_enabled=False)
    page = context.new_page()
    page.goto(site + "go/e1-3/index.html")
    expect(page.locator(".wa-headline").first).to_contain_text("14.06 ns")
    expect(page.locator(".wa-of-programme")).to_contain_text("As asked in episode 1")
    expect(page.locator(".wa-correction").first).to_contain_text("Corrected on 2026-11-06.")
    base = page.url.rpartition("/")[0] + "/"
    for link in page.locator("a[href]").all():
        address = link.get_attribute("href") or ""
        if not address.startswith(("#", "mailto:", "http")):
            assert context.request.get(urljoin(base, address)).ok, address
    context.close()


SHEETS, SHEETS_OF_A_PLAN = 3, 4
ONE_SHEET = re.compile(rb"/Type\s*/Page[^s]")


def test_on_paper_a_page_is_what_one_would_pin_to_the_wall(context: BrowserContext, site: str) -> None:
    page = context.new_page()
    told = []
    for path in PAGES:
        page.goto(site + path)
        page.locator("html.wa-awake").wait_for(state="attached")
        most = SHEETS_OF_A_PLAN if page.locator(".wa-plan .wa-tick").count() else SHEETS
        sheets = len(ONE_SHEET.findall(page.pdf(format="A4")))
        if not 1 <= sheets <= most:
            told.append(f"{path}: {sheets} sheets")
    assert told == []
    page.goto(site + PLAN_PAGE)
    page.emulate_media(media="print")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert page.locator("details[data-fold]:not([open])").count() == 0
    for shown in ("h1", ".wa-headline", ".wa-worked", ".wa-assumed", ".wa-steps", ".wa-cautions", ".wa-sources"):
        expect(page.locator(shown).first).to_be_visible()
    expect(page.locator(".wa-print-foot")).to_contain_text("Checked 20")
    expect(page.locator(".wa-print-foot")).to_contain_text("swapping-cards.html#drivers.reset:")
    assert [each.inner_text() for each in page.get_by_role("button").all() if each.is_visible()] == []
