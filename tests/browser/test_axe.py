"""axe-core finds nothing: light and dark, phone and laptop, as built, with wrong inputs, and with everything open."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import Host
from tests.conftest import new_context

PAGES = ("index.html", "answers/bench/one.html", "answers/bench/two.html", "answers/bench/mix.html",
         "answers/bench/moving.html")  # fmt: skip
LAPTOP, PHONE = {"width": 1440, "height": 900}, {"width": 390, "height": 900}
ON_A_PHONE = (PAGES[0], PAGES[3])
CHECK = "async () => (await axe.run(document, { resultTypes: ['violations'] })).violations"


def violations(page: Page, project: Path) -> list[str]:
    """Each finding as one line: rule, why, where."""
    page.evaluate((project / "node_modules" / "axe-core" / "axe.min.js").read_text("utf-8"))
    found = page.evaluate(CHECK)
    return [
        f"{rule['id']}: {rule['help']}: {json.dumps(node['target'])} {node['failureSummary'][:300]}"
        for rule in found
        for node in rule["nodes"]
    ]


@pytest.fixture(params=["light", "dark"])
def page(request: pytest.FixtureRequest, browser: Browser) -> Iterator[Page]:
    """A page in one colour scheme."""
    context = new_context(
        browser, warm=False, viewport=LAPTOP, color_scheme=request.param, reduced_motion="reduce"
    )  # fmt: skip
    yield context.new_page()
    context.close()


def test_axe_finds_nothing(page: Page, host: Host, project: Path) -> None:
    for path in PAGES:
        page.set_viewport_size(LAPTOP)
        page.goto(host.address + path)
        page.evaluate("document.querySelectorAll('.wa-calculator details').forEach(each => each.open = true)")
        assert violations(page, project) == [], path
    for path in ON_A_PHONE:
        page.set_viewport_size(PHONE)
        page.goto(host.address + path)
        page.evaluate("document.querySelectorAll('.wa-calculator details').forEach(each => each.open = true)")
        assert violations(page, project) == [], f"{path} on a phone"


def test_axe_finds_nothing_while_inputs_are_wrong(page: Page, host: Host, project: Path) -> None:
    page.goto(f"{host.address}answers/bench/mix.html")
    for field in page.locator(".wa-form input:visible").all():
        field.fill("nonsense")
    expect(page.locator(".wa-error:visible").first).to_be_visible(timeout=60_000)
    assert violations(page, project) == []


def test_axe_finds_what_is_wrong(page: Page, host: Host, project: Path) -> None:
    page.goto(f"{host.address}answers/bench/one.html")
    page.evaluate("document.querySelector('.wa-form label').remove()")
    assert any("label" in line or "select-name" in line for line in violations(page, project))
