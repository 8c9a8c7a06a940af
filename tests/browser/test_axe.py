"""axe-core finds nothing: light and dark, phone and laptop, as built, with wrong inputs, and with everything open."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import Host

PAGES = ("index.html", "answers/bench/one.html", "answers/bench/two.html", "answers/bench/mix.html",
         "answers/bench/moving.html")  # fmt: skip
LOOKS = [(path, 1440) for path in PAGES] + [(path, 390) for path in (PAGES[0], PAGES[3])]
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
def look_at(request: pytest.FixtureRequest, browser: Browser, host: Host) -> Callable[..., Page]:
    """Opens a page in one colour scheme at a width."""

    def go(path: str, width: int = 1440) -> Page:
        context = browser.new_context(
            viewport={"width": width, "height": 900}, color_scheme=request.param, reduced_motion="reduce"
        )
        request.addfinalizer(context.close)
        page = context.new_page()
        page.goto(host.address + path)
        return page

    return go


@pytest.mark.parametrize(("path", "width"), LOOKS)
def test_axe_finds_nothing(look_at: Callable[..., Page], project: Path, path: str, width: int) -> None:
    page = look_at(path, width)
    page.evaluate("document.querySelectorAll('.wa-calculator details').forEach(each => each.open = true)")
    assert violations(page, project) == []


def test_axe_finds_nothing_while_inputs_are_wrong(look_at: Callable[..., Page], project: Path) -> None:
    page = look_at("answers/bench/mix.html")
    for field in page.locator(".wa-form input:visible").all():
        field.fill("nonsense")
    expect(page.locator(".wa-error:visible").first).to_be_visible(timeout=60_000)
    assert violations(page, project) == []


def test_axe_finds_what_is_wrong(look_at: Callable[..., Page], project: Path) -> None:
    page = look_at("answers/bench/one.html")
    page.evaluate("document.querySelector('.wa-form label').remove()")
    assert any("label" in line or "select-name" in line for line in violations(page, project))
