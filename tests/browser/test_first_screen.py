"""What a viewer sees first on a phone, what is folded and what never is. How long pages are: test_real_pages.py."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING
from urllib.parse import urljoin

import pytest
from playwright.sync_api import expect

from tests.browser.page_measures import SCREEN, WIDTH
from tests.conftest import new_context

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext

PLAN_PAGE = "answers/drivers/swapping-cards.html"


@pytest.fixture(scope="module")
def phone(browser: Browser) -> Iterator[BrowserContext]:
    opened = new_context(
        browser, warm=False, viewport={"width": WIDTH, "height": SCREEN}, is_mobile=True, has_touch=True
    )
    yield opened
    opened.close()


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
    context = new_context(browser, warm=False, viewport={"width": WIDTH, "height": SCREEN}, java_script_enabled=False)
    page = context.new_page()
    page.goto(site + PLAN_PAGE)
    assert page.locator("details[data-fold]").count() > 10
    assert page.locator("details[data-fold]:not([open])").count() == 0
    expect(page.get_by_text("The script of this page is not running")).to_be_visible()
    context.close()


def test_folds_are_closed_before_anything_is_painted(browser: Browser, site: str) -> None:
    context = new_context(
        browser, warm=False, viewport={"width": WIDTH, "height": SCREEN}, is_mobile=True, has_touch=True
    )
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
    context = new_context(
        browser, warm=False, viewport={"width": WIDTH, "height": SCREEN}, is_mobile=True, has_touch=True
    )
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
    context = new_context(browser, warm=False, viewport={"width": WIDTH, "height": SCREEN}, java_script_enabled=False)
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


def test_on_paper_nothing_is_folded_and_nothing_can_be_pressed(context: BrowserContext, site: str) -> None:
    page = context.new_page()
    page.goto(site + PLAN_PAGE)
    page.emulate_media(media="print")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert page.locator("details[data-fold]:not([open])").count() == 0
    for shown in ("h1", ".wa-headline", ".wa-worked", ".wa-assumed", ".wa-steps", ".wa-cautions", ".wa-sources"):
        expect(page.locator(shown).first).to_be_visible()
    expect(page.locator(".wa-print-foot")).to_contain_text("Checked 20")
    expect(page.locator(".wa-print-foot")).to_contain_text("swapping-cards.html#drivers.reset:")
    assert [each.inner_text() for each in page.get_by_role("button").all() if each.is_visible()] == []
