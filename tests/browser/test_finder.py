"""The finder in a browser: at home, from any page's header, where an address leads nowhere, and from a folder."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import Host
from tests.conftest import new_context

Visit = Callable[..., Page]
FIELD = "Find an answer"
KEYBOARD_LEAVES = 508  # px of 844: what a phone's keyboard of 40 % leaves, common practice


def test_the_index_comes_when_one_searches_and_not_before(visit: Visit, host: Host) -> None:
    page = visit("index.html")
    loaded = "[...document.scripts].filter(script => script.src.includes('/made/finding/')).length"
    field = page.get_by_role("textbox", name=FIELD)
    expect(field).to_be_visible()
    assert page.evaluate(loaded) == 0
    field.fill("cl30 memory kit")
    expect(page.locator(".wa-hits a").first).to_contain_text("What do the numbers on a memory kit mean?")
    assert page.evaluate(loaded) == 1
    assert page.locator(".wa-hits a").first.get_attribute("href") == f"{host.address}answers/memory/kit-numbers.html"


def test_the_header_opens_it_in_place_and_escape_leads_back(visit: Visit) -> None:
    page = visit()
    opener = page.get_by_role("button", name=FIELD)
    opener.focus()
    page.keyboard.press("Enter")
    field = page.get_by_role("dialog").get_by_role("searchbox", name=FIELD)
    expect(field).to_be_focused()
    page.keyboard.type("headphones too quiet")
    hits = page.locator("dialog .wa-hits a")
    expect(hits.first).to_contain_text("too quiet")
    page.keyboard.press("ArrowDown")
    expect(hits.first).to_be_focused()
    page.keyboard.press("ArrowUp")
    expect(field).to_be_focused()
    page.keyboard.press("Escape")
    expect(page.get_by_role("dialog")).to_have_count(0)
    expect(opener).to_be_focused()
    page.keyboard.press("Space")
    expect(field).to_be_focused()


def test_on_a_phone_field_and_first_hits_stand_above_the_keyboard(browser: Browser, host: Host) -> None:
    context = new_context(browser, warm=False, viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    page = context.new_page()
    for path, inside in (("index.html", "main"), ("answers/bench/one.html", "dialog")):
        page.goto(host.address + path)
        page.locator(".wa-find-open").tap()
        field = page.locator(f"{inside} .wa-find :is(input, textarea)")
        expect(field).to_be_focused()
        field.press_sequentially("hdmi")
        third = page.locator(f"{inside} .wa-hits li").nth(2)
        expect(third).to_be_visible()
        typed, hit = field.bounding_box(), third.bounding_box()
        assert typed
        assert hit
        assert typed["y"] >= 0, path
        assert hit["y"] >= typed["y"] + typed["height"], path
        assert hit["y"] + hit["height"] <= KEYBOARD_LEAVES, path
        assert page.evaluate("document.documentElement.scrollWidth") <= 390, path
    context.close()


def test_what_is_not_answered_here_says_so_and_where_to_ask(visit: Visit) -> None:
    page = visit("index.html")
    field = page.get_by_role("textbox", name=FIELD)
    field.fill("gaming chair")
    expect(page.locator(".wa-find-told")).to_have_text("Nothing here answers that.")
    expect(page.locator(".wa-hits li")).to_have_count(0)
    asking = page.get_by_role("link", name="Ask the programme")
    assert asking.get_attribute("href") == page.evaluate("document.body.dataset.questions")
    page.evaluate("document.body.dataset.questions = ''")
    field.fill("qwertzuiop")
    expect(page.locator(".wa-beyond")).to_contain_text("Subjects here: memory, display")
    expect(asking).to_have_count(0)


def test_an_address_that_leads_nowhere_is_searched_for(visit: Visit, host: Host) -> None:
    page = visit("404.html")
    assert page.locator(".wa-find-here textarea").input_value() == ""
    page.get_by_role("textbox", name=FIELD).fill("mesh wifi")
    expect(page.locator(".wa-hits a").first).to_have_attribute("href", f"{host.address}answers/rooms/mesh-or-wire.html")
    page.evaluate("history.replaceState(null, '', '/answers/rooms/mesh-wifi-or-wire.html')")
    page.evaluate("document.querySelector('main .wa-find').remove()")
    page.add_script_tag(url="/made/browser/page.js")
    expect(page.locator(".wa-find-told")).to_contain_text("From the address that led nowhere")
    expect(page.locator(".wa-hits a").first).to_contain_text("Mesh or a wire?")


def test_it_finds_in_a_folder_too(browser: Browser, bench_folder: Path) -> None:
    page = browser.new_page()
    page.goto((bench_folder / "answers" / "bench" / "one.html").as_uri())
    page.locator(".wa-find-open").click()
    page.locator("dialog .wa-find input").fill("mesh wifi")
    hit = page.locator("dialog .wa-hits a").first
    expect(hit).to_contain_text("Mesh or a wire?")
    assert hit.get_attribute("href") == (bench_folder / "answers" / "rooms" / "mesh-or-wire.html").as_uri()
    page.close()


def test_an_index_that_does_not_come_is_told_and_fetched_again(visit: Visit, host: Host) -> None:
    host.missing.add("index.js")
    page = visit("index.html")
    field = page.get_by_role("textbox", name=FIELD)
    field.fill("hdmi")
    expect(page.locator(".wa-find-told")).to_contain_text("did not come")
    host.missing.clear()
    field.fill("hdmi cable")
    expect(page.locator(".wa-hits li").first).to_be_visible()


def test_without_scripts_the_link_leads_to_every_question(browser: Browser, host: Host) -> None:
    context = new_context(browser, java_script_enabled=False)
    page = context.new_page()
    page.goto(host.address + "answers/bench/one.html")
    page.get_by_role("link", name=FIELD).click()
    expect(page).to_have_url(f"{host.address}index.html")
    expect(page.locator(".wa-questions li").first).to_be_visible()
    context.close()
