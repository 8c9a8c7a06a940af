"""site.zip, unpacked and opened by a double click: reading, finding, links, live results; no server anywhere."""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Host
from tests.browser.test_asking import LISTING, PASTE, QUESTION, SECRET
from tests.browser.test_calculator_in_page import PATIENCE_MS, direct, result_html, section, settled

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page


@pytest.fixture(scope="module")
def folder(bench_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder that a reader has after unpacking site.zip."""
    into = tmp_path_factory.mktemp("unpacked")
    with zipfile.ZipFile(bench_folder / "site.zip") as archive:
        archive.extractall(into)
    return into / "worked-answers"


@pytest.fixture
def opened(context: BrowserContext, folder: Path) -> Iterator[Page]:
    """A page of the folder. At the end it must have asked for nothing but files of the folder, and thrown nothing."""
    asked: list[str] = []
    faults: list[str] = []
    context.on("request", lambda request: asked.append(request.url))
    context.on("weberror", lambda fault: faults.append(str(fault.error)))
    page = context.new_page()
    page.on("console", lambda line: faults.append(line.text) if line.type == "error" else None)
    page.goto((folder / "answers" / "bench" / "one.html").as_uri())
    yield page
    assert not [url for url in asked if not url.startswith((folder.as_uri(), "data:", "blob:"))]
    assert not faults


def test_a_live_result_in_a_folder_is_what_python_makes_here(opened: Page) -> None:
    opened.get_by_label("Rate").fill("3600")
    settled(opened)
    assert result_html(opened) == direct(opened, "memory-rate-1", rate="3600", cas="16")


def test_a_link_with_inputs_works_in_a_folder(opened: Page, folder: Path) -> None:
    opened.goto((folder / "answers" / "bench" / "two.html").as_uri() + "#memory.rate:rate=5600&cas=40")
    expect(section(opened).locator(".wa-headline")).to_contain_text("5600", timeout=PATIENCE_MS)


def test_finding_in_a_folder(opened: Page, folder: Path) -> None:
    opened.locator(".wa-find-open").click()
    box = opened.locator("dialog .wa-find input")
    box.fill("cl30 memory kit")
    hits = opened.locator("dialog .wa-hits a")
    expect(hits.first).to_contain_text("What do the numbers on a memory kit mean?")
    assert hits.first.get_attribute("href") == (folder / "answers" / "memory" / "kit-numbers.html").as_uri()
    box.fill("nosuchwordanywhere")
    expect(opened.locator("dialog .wa-find-told")).to_have_text("Nothing here answers that.")
    expect(hits).to_have_count(0)


@pytest.mark.parametrize("warm", [True])  # unasked, it reads no question of somebody who saves data
def test_a_question_and_a_pasted_listing_are_read_in_a_folder(opened: Page, folder: Path) -> None:
    opened.goto((folder / "index.html").as_uri())
    box, shown = opened.locator("main .wa-find textarea"), opened.locator(".wa-asked")
    box.fill(QUESTION)
    expect(shown.locator(".wa-asked-headline")).to_contain_text("48 GB", timeout=PATIENCE_MS)
    box.fill("")
    box.focus()
    opened.evaluate(PASTE, LISTING)
    expect(shown.locator(".wa-asked-pasted")).to_contain_text("1 × 8 GB, DDR4, rated 3200 MT/s", timeout=PATIENCE_MS)
    assert SECRET not in opened.evaluate("document.documentElement.outerHTML + location.href")


def test_in_a_folder_the_plain_start_is_the_second_way(browser: Browser, folder: Path, tmp_path: Path) -> None:
    import shutil

    damaged = tmp_path / "damaged"
    shutil.copytree(folder, damaged)
    memory = damaged / "made" / "engine" / "packed" / "memory.bin.js"
    memory.write_text(memory.read_text("utf-8")[:200_000] + '"', "utf-8")
    page = browser.new_page()
    page.goto((damaged / "answers" / "bench" / "one.html").as_uri())
    page.get_by_label("Rate").fill("3600")
    expect(section(page).locator(".wa-headline")).to_contain_text("3600", timeout=3 * PATIENCE_MS)
    memory.unlink()
    for worker in ("worker", "plain_worker"):
        (damaged / "made" / "engine" / "packed" / f"{worker}.js.js").unlink()
    page.reload()
    page.get_by_label("Rate").fill("3601")
    expect(section(page).locator(".wa-state")).to_contain_text("could not be loaded", timeout=PATIENCE_MS)
    page.close()


def test_the_folder_works_on_a_server_as_well(context: BrowserContext, folder: Path) -> None:
    host = Host(folder)
    page = context.new_page()
    page.goto(f"{host.address}answers/bench/one.html")
    page.get_by_label("Rate").fill("3600")
    expect(section(page).locator(".wa-headline")).to_contain_text("3600", timeout=PATIENCE_MS)
    page.close()
    host.close()
