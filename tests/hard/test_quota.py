"""The kept edition at quotas that a browser may set: what the page says is so, and the newest edition is read."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.test_calculator_in_page import section
from tests.browser.test_offline import changed_over, light_copy, new_edition
from tests.hard.bad_host import BadHost
from tests.hard.conftest import Tried, times

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

WAIT_MS = 60_000
LARGEST = "lean.wasm"  # of what this copy keeps
HOME = "index.html"  # no calculator, so that its engine is not brought before the edition
PAGE = "answers/bench/two.html"
KEPT = "caches.keys().then(names => names.filter(name => name.startsWith('worked-answers:')).length)"
# Of an edition's size; what is stored takes a little more room than the files.
FIRST = (0.0, 0.1, 0.5, 0.9, 1.3, 3.0)
NEWER = (1.3, 1.6, 1.9, 2.6, 4.0)


@pytest.fixture
def folder(bench_folder: Path, tmp_path: Path) -> Path:
    """A site of this test's own, which it may change."""
    return light_copy(bench_folder, tmp_path / "site", "pyodide.asm.wasm", "ten.html")


@pytest.fixture
def service_workers() -> str:
    return "allow"


@pytest.fixture
def warm() -> bool:
    return True  # whoever saves data keeps nothing unasked


@pytest.fixture
def host(folder: Path) -> Iterator[BadHost]:
    opened = BadHost(folder)
    yield opened
    opened.close()


def size(folder: Path) -> int:
    """How large the edition is that the page would keep."""
    script = (folder / "offline.js").read_text("utf-8")
    return int(json.loads(script.removeprefix("self.waEdition=").partition(";\n")[0])["bytes"])


def limit(page: Page, address: str, quota: float) -> None:
    """Sets what the browser stores for the site; it holds while the page is open."""
    order = {"origin": address.rstrip("/"), "quotaSize": quota}
    page.context.new_cdp_session(page).send("Storage.overrideQuotaForOrigin", order)


def opened(context: BrowserContext, host: BadHost, quota: float, path: str = HOME) -> Page:
    """A page that is read under a quota."""
    page = context.new_page()
    page.goto(f"{host.address}missing")  # a page of the same origin that brings no script
    limit(page, host.address, quota)
    page.goto(host.address + path)
    return page


def said_truly(page: Page) -> bool:
    """Waits for the page's last word on reading offline, and compares it with what is kept."""
    line = page.locator(".wa-offline")
    expect(line).to_contain_text(re.compile("ready|no room|not everything arrived"), timeout=WAIT_MS)
    word, kept = line.inner_text(), page.evaluate(KEPT)
    return ("ready" in word) == (kept > 0) and ("no room" in word) == (kept == 0)


@pytest.mark.parametrize("share", FIRST if times(2) > 1 else (0.5, 3.0))
def test_the_first_edition_at_a_quota(
    context: BrowserContext, host: BadHost, folder: Path, tried: Tried, share: float
) -> None:
    page = opened(context, host, share * size(folder))
    true = said_truly(page)
    again = 0
    if "no room" in page.locator(".wa-offline").inner_text():
        before = len(host.asked)
        page.goto(host.address + HOME)  # the same megabytes are not brought again for nothing
        true = true and said_truly(page)
        again = sum(path.endswith(LARGEST) for path in host.asked[before:])
        limit(page, host.address, 9 * size(folder))
        page.get_by_role("button", name="Try again").click()
        expect(page.locator(".wa-offline")).to_contain_text("ready", timeout=WAIT_MS)
        true = true and said_truly(page)
    tried(f"a first edition at {share:.1f} times its size of room: what is said is so", 1, int(true and not again))
    assert true
    assert again == 0


@pytest.mark.parametrize("share", NEWER if times(2) > 1 else (1.6,))
def test_a_newer_edition_at_a_quota(
    context: BrowserContext, host: BadHost, folder: Path, tried: Tried, share: float
) -> None:
    page = opened(context, host, 9 * size(folder), PAGE)
    expect(page.locator(".wa-offline")).to_contain_text("ready", timeout=WAIT_MS)
    new_edition(folder, "SECOND")
    limit(page, host.address, share * size(folder))
    page.reload()
    line = page.locator(".wa-offline")
    expect(line).to_contain_text(re.compile("newer edition"), timeout=WAIT_MS)  # it has arrived, or there is no room
    arrived = "has arrived" in line.inner_text()
    changed_over(page, host.address + PAGE, "SECOND")
    true = said_truly(page)
    host.put |= {PAGE: None} if page.evaluate(KEPT) else {}
    page.reload()
    expect(page.locator("h1").first).to_contain_text("SECOND")
    tried(
        f"a newer edition at {share:.1f} times its size of room: it is read, and {'kept' if arrived else 'told'}",
        1,
        int(true),
    )
    assert true
    page.get_by_label("Rate").first.fill("3600")
    expect(section(page).locator(".wa-headline")).to_contain_text("3600", timeout=WAIT_MS)


def test_a_large_edition_is_kept_once_it_is_asked_for(context: BrowserContext, host: BadHost, folder: Path) -> None:
    script = (folder / "offline.js").read_bytes()
    host.put["offline.js"] = script.replace(f'"bytes":{size(folder)}'.encode(), b'"bytes":200000000')
    page = context.new_page()
    page.goto(host.address + HOME)
    line = page.locator(".wa-offline")
    expect(line).to_contain_text("the whole site has 200 MB", timeout=WAIT_MS)
    brought = len(host.asked)
    page.reload()
    expect(line).to_contain_text("the whole site has 200 MB", timeout=WAIT_MS)
    assert "offline.json" not in host.asked[brought:]
    assert page.evaluate(KEPT) == 0
    page.get_by_role("button", name="Keep the whole site here, 200 MB").click()
    expect(line).to_contain_text("Read offline: ready", timeout=WAIT_MS)
    assert page.evaluate(KEPT) == 1


def test_an_edition_that_the_browser_has_cleared_is_brought_again(context: BrowserContext, host: BadHost) -> None:
    page = opened(context, host, 1e9)
    assert said_truly(page)
    cleared = "caches.keys().then(names => Promise.all(names.map(name => caches.delete(name))))"
    page.evaluate(cleared)
    page.goto(host.address + HOME)  # comes from the network
    expect(page.locator(".wa-offline")).to_contain_text("Read offline: ready", timeout=WAIT_MS)
    assert page.evaluate(KEPT) == 1
    base = host.address
    host.close()
    page.goto(f"{base}index.html")
    expect(page.locator("h1").first).to_be_visible()
