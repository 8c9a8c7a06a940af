"""Where the page's script does not arrive, or a browser lacks something: what works works, and the rest is told."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Host
from tests.browser.test_calculator_in_page import PATIENCE_MS, section

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

LINK = "answers/bench/one.html#memory.rate:rate=5600&cas=40"
LACKING = (
    "delete History.prototype.replaceState",
    "history.replaceState = () => { throw new DOMException('too often', 'SecurityError') }",
    "delete window.CSSStyleSheet",
    "delete Document.prototype.adoptedStyleSheets",
    "delete window.requestIdleCallback",
    "Object.defineProperty(crypto, 'subtle', { value: undefined })",
)


def test_a_link_whose_numbers_are_not_worked_out_is_told(visit: Callable[..., Page], host: Host) -> None:
    host.missing.add("page.js")
    page = visit(LINK)
    expect(section(page).locator(".wa-link-note")).to_contain_text("This link carries numbers", timeout=PATIENCE_MS)
    expect(section(page).locator(".wa-headline")).to_be_visible()
    expect(section(page).locator(".wa-headline")).not_to_contain_text("5600")
    expect(section(page).locator(".wa-noscript")).to_contain_text("numbers that a link carries are not taken up")
    expect(page.get_by_label("Rate")).to_be_disabled()


def test_without_a_link_there_is_no_word_about_one(visit: Callable[..., Page], host: Host) -> None:
    host.missing.add("page.js")
    page = visit()
    expect(page.locator("html.wa-unawake")).to_have_count(1, timeout=PATIENCE_MS)
    expect(section(page).locator(".wa-link-note")).to_be_empty()


def test_a_calculator_that_cannot_be_woken_says_so(visit: Callable[..., Page], context: BrowserContext) -> None:
    # Whatever it is that a browser lacks: here the data of the calculator cannot be read.
    fails = """const parse = JSON.parse;
    JSON.parse = (text, ...more) => {
      if (text.startsWith('{"inputs"')) throw new Error("for a test");
      return parse(text, ...more);
    };"""
    context.add_init_script(fails)
    page = visit(LINK)
    expect(section(page).locator(".wa-link-note")).to_contain_text("This link carries numbers", timeout=PATIENCE_MS)
    expect(section(page).locator(".wa-noscript")).to_have_count(1)


@pytest.mark.parametrize("lack", LACKING)
def test_what_a_browser_lacks_takes_nothing_else_along(
    visit: Callable[..., Page], context: BrowserContext, lack: str
) -> None:
    context.add_init_script(lack)
    page = visit(LINK)
    expect(section(page).locator(".wa-headline")).to_contain_text("5600", timeout=2 * PATIENCE_MS)
