"""Kept for reading offline: whole after the first visit, replaced whole or not at all, and never two editions mixed."""

from __future__ import annotations

import re
import shutil
import time
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from build_tools.site import offline
from tests.browser.conftest import Host
from tests.browser.test_calculator_in_page import PATIENCE_MS, section

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

READY = re.compile(r"Read offline: ready.*MB")
WAIT_MS = 2 * PATIENCE_MS


@pytest.fixture
def service_workers() -> str:
    return "allow"


@pytest.fixture
def warm() -> bool:
    return True  # whoever saves data keeps nothing unasked


@pytest.fixture
def own_folder(bench_folder: Path, tmp_path: Path) -> Path:
    """A site of this test's own, which it may change."""
    return light_copy(bench_folder, tmp_path / "site", "pyodide.asm.wasm", "ten.html")


def light_copy(site: Path, into: Path, *without: str) -> Path:
    """
    A copy of a site, without what is never kept for offline, and without files of these names as well.

    Args:
        site: The whole site; all of it is kept in test_other_browsers.py.
        into: The folder to make.
        without: Patterns of names of large files that are kept, and that the test has no use for.
    """
    shutil.copytree(site, into, ignore=shutil.ignore_patterns("packed", "site.zip", "*.whl", *without))
    offline.write(into)
    return into


@pytest.fixture
def own_host(own_folder: Path) -> Iterator[Host]:
    host = Host(own_folder)
    yield host
    host.close()


def kept(page: Page) -> None:
    expect(page.locator(".wa-offline")).to_have_text(READY, timeout=WAIT_MS)


def new_edition(folder: Path, word: str) -> None:
    """Another edition of the site: every page says another word."""
    for path in folder.rglob("*.html"):
        path.write_text(re.sub(r"<h1[^>]*>", lambda m: f"{m[0]}{word} ", path.read_text("utf-8")), "utf-8")
    offline.write(folder)


def test_after_one_visit_everything_works_with_the_network_gone(context: BrowserContext, own_host: Host) -> None:
    page = context.new_page()
    page.goto(f"{own_host.address}index.html")
    kept(page)
    own_host.close()
    page.goto(f"{own_host.address}answers/bench/one.html")
    page.get_by_label("Rate").fill("3600")
    expect(section(page).locator(".wa-headline")).to_contain_text("3600", timeout=PATIENCE_MS)
    page.goto(own_host.address)
    expect(page.locator("h1").first).to_be_visible()


def test_a_new_edition_replaces_the_old_one_whole_and_an_open_page_goes_on(
    context: BrowserContext, own_host: Host, own_folder: Path
) -> None:
    page = context.new_page()
    page.goto(f"{own_host.address}index.html")
    kept(page)
    page.goto(f"{own_host.address}answers/bench/one.html")
    new_edition(own_folder, "SECOND")
    page.reload()  # still the old edition; the new one is fetched meanwhile
    expect(page.locator("h1").first).not_to_contain_text("SECOND")
    expect(page.locator(".wa-offline")).to_contain_text("newer edition", timeout=WAIT_MS)
    page.goto(f"{own_host.address}answers/bench/two.html")
    expect(page.locator("h1").first).not_to_contain_text("SECOND")
    page.get_by_label("Rate").first.fill("3600")
    expect(section(page).locator(".wa-headline")).to_contain_text("3600", timeout=PATIENCE_MS)
    page.close()
    later = changed_over(context.new_page(), f"{own_host.address}answers/bench/two.html", "SECOND")
    later.goto(f"{own_host.address}index.html")
    expect(later.locator("h1").first).to_contain_text("SECOND")
    assert len(later.evaluate("caches.keys()")) == 1, "the old edition has gone"


def changed_over(page: Page, address: str, said: str) -> Page:
    """
    The page once the browser has gone over to the new edition, which it does when it has noticed that nobody reads the
    old one: who looks too early reads that, and must leave it again.
    """
    ends = time.monotonic() + WAIT_MS / 1000
    while True:
        page.goto("about:blank")
        page.wait_for_timeout(500)
        page.goto(address)
        if said in page.locator("h1").first.inner_text() or time.monotonic() > ends:
            expect(page.locator("h1").first).to_contain_text(said)
            return page


@pytest.mark.parametrize("harm", ["missing", "changed"])
def test_an_edition_that_does_not_arrive_whole_is_told_and_not_taken(
    context: BrowserContext, own_host: Host, own_folder: Path, harm: str
) -> None:
    page = context.new_page()
    page.goto(f"{own_host.address}index.html")
    kept(page)
    new_edition(own_folder, "SECOND")
    one = own_folder / "answers" / "bench" / "one.html"
    if harm == "missing":
        one.unlink()
    else:
        one.write_text(one.read_text("utf-8").replace("SECOND", "THIRD"), "utf-8")
    page.reload()
    expect(page.locator(".wa-offline")).to_contain_text("A newer edition exists", timeout=WAIT_MS)
    expect(page.locator("h1").first).not_to_contain_text("SECOND")
    page.evaluate("navigator.serviceWorker.getRegistration().then(each => each.update()).catch(() => 0)")
    settled = "() => navigator.serviceWorker.getRegistration().then(each => !each.installing && !each.waiting)"
    page.wait_for_function(settled, timeout=WAIT_MS)
    page.close()
    later = context.new_page()
    for path in ("index.html", "answers/bench/one.html", "answers/bench/two.html"):
        later.goto(own_host.address + path)
        expect(later.locator("h1").first).not_to_contain_text(re.compile("SECOND|THIRD"))


def test_where_nothing_can_be_kept_nothing_else_is_lost(browser: Browser, host: Host) -> None:
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.goto(f"{host.address}answers/bench/one.html")
    page.get_by_label("Rate").fill("3600")
    expect(section(page).locator(".wa-headline")).to_contain_text("3600", timeout=PATIENCE_MS)
    context.close()


def test_nothing_is_kept_while_the_site_is_being_written(own_folder: Path, context: BrowserContext) -> None:
    from build_tools.serving import ports
    from build_tools.serving.reloading import News
    from build_tools.serving.site_server import SiteServer

    news = News()
    server = SiteServer(ports.ask_for(0), own_folder, news.routes(), news.into_page)
    server.start()
    page = context.new_page()
    page.goto(f"{server.address}answers/bench/one.html")
    page.get_by_label("Rate").fill("3600")
    expect(section(page).locator(".wa-headline")).to_contain_text("3600", timeout=PATIENCE_MS)
    page.wait_for_timeout(2500)
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then(each => each.length)") == 0
    expect(page.locator(".wa-offline")).to_be_empty()
    page.close()
    server.stop()


# What a browser does that has no room left; the quota itself cannot be set for a service worker's own storage.
NO_ROOM = """Cache.prototype.put = () => Promise.reject(new DOMException("no room", "QuotaExceededError"));\n"""


def test_where_there_is_no_room_for_a_newer_edition_it_wins_all_the_same(
    context: BrowserContext, own_host: Host, own_folder: Path
) -> None:
    own_host.headers["Cache-Control"] = "no-cache"  # as DEVELOPERS.md asks of a host
    page = context.new_page()
    page.goto(f"{own_host.address}index.html")
    kept(page)
    new_edition(own_folder, "SECOND")
    worker = own_folder / "offline.js"
    worker.write_text(NO_ROOM + worker.read_text("utf-8"), "utf-8")
    page.reload()
    expect(page.locator(".wa-offline")).to_contain_text("no room for the newer edition", timeout=WAIT_MS)
    page.goto(f"{own_host.address}answers/bench/two.html")
    expect(page.locator("h1").first).to_contain_text("SECOND")
    expect(page.locator(".wa-offline")).to_contain_text("no room for the whole site", timeout=WAIT_MS)
    there = page.evaluate("caches.keys()")
    assert not [name for name in there if name.startswith("worked-answers:")], "the older edition has gone"
