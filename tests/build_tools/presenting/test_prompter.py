"""The prompter: what is read aloud, moved by keys, also in a mirror."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.browser.test_axe import violations
from tests.build_tools.presenting.small_home import PROJECT


def test_the_prompter_keeps_its_line_and_obeys_keys(server, context):
    page = context.new_page()
    page.goto(server.address + "on-air/prompter/1")
    page.locator("#text h2").first.wait_for()
    line = page.locator(".line-at").bounding_box()["y"]
    first = page.locator("#text section").first.locator("p").first
    assert first.bounding_box()["y"] > line + 1
    page.keyboard.press("PageDown")  # as a clicker sends it
    assert abs(first.bounding_box()["y"] - line) <= 1
    page.keyboard.press("n")
    assert abs(page.locator("#text section").nth(1).bounding_box()["y"] - line) <= 1
    assert page.locator(".line-at").bounding_box()["y"] == line
    size = "() => getComputedStyle(document.body).fontSize"
    before = page.evaluate(size)
    page.keyboard.press("+")
    assert page.evaluate(size) != before
    page.keyboard.press("m")
    assert "matrix(-1" in page.locator("#text").evaluate("each => getComputedStyle(each).transform")
    page.keyboard.press("Home")
    assert page.evaluate("scrollY") == 0
    page.keyboard.press(" ")
    page.evaluate("new Promise((moved) => addEventListener('scroll', () => scrollY > 5 && moved()))")
    page.keyboard.press(" ")
    page.reload()
    expect(page.locator("body")).to_have_class("prompter mirrored")


def test_axe_finds_nothing_on_the_prompter_nor_in_its_mirror(server, context):
    page = context.new_page()
    page.goto(server.address + "on-air/prompter/1")
    page.locator("#text h2").first.wait_for()
    assert violations(page, PROJECT) == []
    page.keyboard.press("m")
    expect(page.locator("body")).to_have_class("prompter mirrored")
    assert violations(page, PROJECT) == [], "in the mirror"
