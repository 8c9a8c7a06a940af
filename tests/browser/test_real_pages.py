"""Every page of the real site: nothing sticks out on a phone, axe-core finds nothing, every calculator wakes."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.test_axe import violations

if TYPE_CHECKING:
    from playwright.sync_api import Page

PROJECT = Path(__file__).resolve().parents[2]
PAGES = sorted(
    path.relative_to(PROJECT / "docs").with_suffix(".html").as_posix() for path in (PROJECT / "docs").rglob("*.md")
)


@pytest.mark.parametrize("path", PAGES)
def test_a_page_on_a_phone(page: Page, site: str, project: Path, path: str) -> None:
    page.set_viewport_size({"width": 360, "height": 740})
    page.goto(site + path)
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    page.evaluate("document.querySelectorAll('main details').forEach(each => each.open = true)")
    for calculator in page.locator("section.wa-calculator").all():  # a second one stands in a fold
        expect(calculator.locator("fieldset.wa-inputs")).to_be_enabled()
        expect(calculator.get_by_role("button", name="Copy link")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    assert violations(page, project) == []
