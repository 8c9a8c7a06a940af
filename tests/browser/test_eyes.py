"""Legibility: text at twice its size keeps inside page and drawings, and fields show what stands in them, whole."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from tests.browser.test_real_pages import PAGES

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

TWICE = "250%"  # the style sheet's 125 % at twice
# Words that stick out of the page, of a drawing, or of what holds and cuts them. A box that scrolls shows all of it.
STICKS_OUT = """() => {
    const told = [];
    const page = document.documentElement;
    if (page.scrollWidth > page.clientWidth) told.push(`the page is ${page.scrollWidth} wide`);
    const name = each => `${each.tagName} "${each.textContent.trim().slice(0, 30)}"`;
    for (const text of document.querySelectorAll('main svg text')) {
        const [own, all] = [text, text.closest('svg')].map(each => each.getBoundingClientRect());
        const inside = own.left >= all.left - 1 && own.right <= all.right + 1 && own.bottom <= all.bottom + 1;
        if (own.width && !inside) told.push(`${name(text)} leaves its drawing`);
    }
    const words = 'p, li, dt, dd, button, summary, label, h1, h2, h3, a, th, td';
    for (const each of document.querySelectorAll(`main :is(${words})`)) {
        const { left, right, width } = each.getBoundingClientRect();
        if (!width || each.closest('svg, .wa-silent, .wa-table, .wa-picture-box, .wa-moving, pre')) continue;
        if (getComputedStyle(each).clipPath !== 'none') continue;
        if (right > page.clientWidth + 1 || left < -1) told.push(`${name(each)} from ${left} to ${right}`);
    }
    return told;
}"""
CUT_OFF = """() => [...document.querySelectorAll('main .wa-field input[type=text]')]
    .filter(each => each.clientWidth && each.value && each.scrollWidth > each.clientWidth + 1)
    .map(each => `${each.name}: ${each.value} needs ${each.scrollWidth} px of ${each.clientWidth}`)"""


@pytest.fixture(scope="module")
def small(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 360, "height": 740}, is_mobile=True, has_touch=True)
    yield context.new_page()
    context.close()


def opened(page: Page, address: str) -> None:
    page.goto(address)
    page.locator("html.wa-awake").wait_for(state="attached")
    page.evaluate("document.querySelectorAll('main details').forEach(each => each.open = true)")


@pytest.mark.parametrize("width", [390, 768])
def test_text_at_twice_its_size_keeps_inside(browser: Browser, site: str, width: int) -> None:
    context = browser.new_context(viewport={"width": width, "height": 844})
    page = context.new_page()
    told: dict[str, list[str]] = {}
    for path in PAGES:
        opened(page, site + path)
        page.evaluate("size => { document.documentElement.style.fontSize = size }", TWICE)
        found = page.evaluate(STICKS_OUT)
        if found:
            told[path] = found[:5]
    context.close()
    assert told == {}


def test_fields_show_what_stands_in_them_whole(small: Page, site: str) -> None:
    told: dict[str, list[str]] = {}
    for path in PAGES:
        opened(small, site + path)
        if found := small.evaluate(CUT_OFF):
            told[path] = found
    assert told == {}
    opened(small, site + "answers/memory/add-bigger-sticks.html")
    small.get_by_label("Timings").first.fill("16-18-18-38")
    assert small.evaluate(CUT_OFF) == []


def test_the_measures_see_what_sticks_out_and_what_is_cut_off(small: Page, site: str) -> None:
    opened(small, site + "answers/memory/kit-numbers.html")
    assert small.evaluate(STICKS_OUT) == []
    small.evaluate("document.querySelector('main svg text').setAttribute('x', '400')")
    small.evaluate("document.querySelector('main h1').style.width = '900px'")
    assert len(small.evaluate(STICKS_OUT)) >= 2
    small.locator(".wa-field input").first.evaluate("field => { field.value = '16-18-18-38 and much, much more' }")
    assert len(small.evaluate(CUT_OFF)) == 1
