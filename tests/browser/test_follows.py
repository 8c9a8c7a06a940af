"""What a form drops when a choice changes that decides what is usual: by the declaration alone, in any calculator."""

from __future__ import annotations

import re
from collections.abc import Callable

from playwright.sync_api import Locator, Page, expect

Visit = Callable[..., Page]
PATIENCE_MS = 20_000  # patience with the engine's first start on a busy machine
PAGE = "answers/bench/mix.html"


def field(page: Page, key: str) -> Locator:
    return page.locator(f"[data-input={key}]").locator("input, select")


def settled(page: Page) -> None:
    """Wait until the result belongs to the inputs."""
    expect(page.locator(".wa-result")).not_to_have_attribute("aria-busy", "true", timeout=PATIENCE_MS)
    expect(page.locator("section.wa-calculator")).not_to_have_class(re.compile("wa-stale"), timeout=PATIENCE_MS)


def carried(page: Page) -> str:
    """The link that the result has: what counts as given."""
    return page.locator("section.wa-calculator").get_attribute("data-link") or ""


def test_a_change_of_generation_replaces_or_empties_what_belonged_to_the_other(visit: Visit) -> None:
    page = visit(PAGE)
    page.evaluate("document.querySelectorAll('details').forEach(each => each.open = true)")
    field(page, "have_rate").fill("3600")
    field(page, "have_standard_rate").fill("2400")
    field(page, "have_size").fill("24")
    field(page, "add_rate").fill("3000")
    field(page, "have_generation").select_option("ddr5")
    expect(field(page, "have_rate")).to_have_value("6000")
    expect(field(page, "have_timings")).to_have_value("36-38-38-76")
    expect(field(page, "have_volts")).to_have_value("1.35")
    expect(field(page, "have_standard_rate")).to_have_value("")
    expect(field(page, "have_size")).to_have_value("24")  # DDR5 has such sticks
    expect(field(page, "add_rate")).to_have_value("3000")  # the other kit's generation has not changed
    settled(page)
    assert "have_size=24" in carried(page)
    assert "have_rate" not in carried(page), "a usual value counts as given"
    field(page, "have_generation").select_option("ddr4")
    expect(field(page, "have_size")).to_have_value("8")  # and DDR4 has none of 24 GB
    expect(field(page, "have_rate")).to_have_value("3200")


def test_a_link_that_tells_the_generation_alone_shows_what_is_usual_in_it(visit: Visit) -> None:
    page = visit(f"{PAGE}#memory.mix:have_generation=ddr3&add_generation=ddr3")
    settled(page)
    expect(field(page, "have_volts")).to_have_value("1.5")
    expect(field(page, "add_rate")).to_have_value("1600")
    expect(page.locator(".wa-headline")).to_contain_text("DDR3-1600", timeout=PATIENCE_MS)
