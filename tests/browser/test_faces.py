"""The page's own letters: fetched early and once, and still there when the window's width changes."""

from __future__ import annotations

from collections.abc import Callable

from playwright.sync_api import BrowserContext, Page

from tests.browser.conftest import Host

Visit = Callable[..., Page]
WIDTHS = (390, 1000, 1440, 390, 1440)  # over every width at which the style changes
EARLY = ["instrument-sans-latin-wght-normal", "stix-two-text-latin-wght-normal"]

# How wide every heading, paragraph and title of a fold is in the next frame.
NOW = """
() => new Promise(resolve => requestAnimationFrame(() => resolve(
  [...document.querySelectorAll("h1, h2, p, summary")].map(each => {
    const words = document.createRange();
    words.selectNodeContents(each);
    return words.getBoundingClientRect().width;
  }))))
"""
READY = "document.fonts.ready.then(() => 0)"


def faces(host: Host) -> list[str]:
    return sorted(path.rpartition("/")[2].removesuffix(".woff2") for path in host.asked if path.endswith(".woff2"))


def test_each_is_fetched_once_however_often_the_width_changes(host: Host, visit: Visit) -> None:
    host.headers["Cache-Control"] = "no-cache"  # a face that is asked for again takes time, and others stand in for it
    page = visit()
    page.evaluate(READY)
    before = faces(host)
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        seen = page.evaluate(NOW)
        page.wait_for_timeout(200)
        assert page.evaluate(NOW) == seen
    assert faces(host) == before
    assert len(before) == len(set(before))


def test_the_two_of_every_page_are_asked_for_before_the_style_has_come(host: Host, visit: Visit) -> None:
    host.late["page.css"] = 1.5
    page = visit()
    at = page.evaluate(
        """() => Object.fromEntries(performance.getEntriesByType("resource")
            .map(({ name, startTime, responseEnd }) =>
                [name.split("/").pop(), name.endsWith(".css") ? responseEnd : startTime]))"""
    )
    for name in EARLY:
        assert at[f"{name}.woff2"] < at["page.css"]


def test_where_they_cannot_be_asked_for_ahead_the_style_brings_them(
    host: Host, context: BrowserContext, visit: Visit
) -> None:
    context.add_init_script("delete window.FontFace")
    page = visit()
    page.evaluate(READY)
    assert set(EARLY) <= set(faces(host))
    assert page.evaluate("document.fonts.check('1em \"WA Text\"') && document.fonts.check('1em \"WA Label\"')")
