"""What was taken, on the picture: revealed, frozen, cleared, told to others, and kept through a kill."""

from __future__ import annotations

import json
import re

from playwright.sync_api import expect

from build_tools.presenting.picture import Picture
from build_tools.presenting.routes import OnAir
from build_tools.serving import ports
from build_tools.serving.board import Board
from build_tools.serving.site_server import SiteServer


def test_what_is_taken_is_on_the_picture_and_only_that(server, on_air, desk, context):
    picture = context.new_page()
    picture.goto(server.address + "on-air/picture")
    assert picture.locator("img").count() == 0
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#desk-rate").fill("3600")
    desk.locator("#frame img[alt*='DDR4-3600']").wait_for()
    assert picture.locator("img").count() == 0, "preparing must not reach the picture"
    desk.locator("#take").click()
    picture.locator("img[alt*='DDR4-3600']").wait_for()
    assert picture.locator("img").evaluate("image => image.naturalWidth") == 1920
    assert ">How long does memory" in on_air.picture.shown()["svg"]
    assert picture.locator("button, a, header").count() == 0
    assert picture.evaluate("getComputedStyle(document.body).backgroundColor") == "rgba(0, 0, 0, 0)"


def test_keys_reveal_freeze_and_clear(server, desk, context):
    picture = context.new_page()
    picture.goto(server.address + "on-air/picture")
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#frame img[alt*='CAS latency']").wait_for()
    desk.locator("#where").click()
    desk.keyboard.press("t")
    picture.locator("img").first.wait_for()
    image = picture.locator("main img:last-child")  # the one before lies below it while it fades in
    first = image.get_attribute("src")
    desk.keyboard.press("ArrowRight")
    expect(image).not_to_have_attribute("src", first)
    second = image.get_attribute("src")
    desk.keyboard.press("f")
    desk.keyboard.press("ArrowRight")
    desk.locator("#where", has_text=re.compile("^3 of")).wait_for()
    assert image.get_attribute("src") == second, "a frozen picture stays"
    desk.keyboard.press("f")
    expect(image).not_to_have_attribute("src", second)
    desk.keyboard.press("c")
    expect(picture.locator("main")).to_be_empty()
    expect(desk.locator("#state")).to_have_text("Picture is clear")


def test_fast_keys_come_to_the_picture_in_their_order(server, on_air, desk, context):
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#frame img[alt*='CAS latency']").wait_for()
    desk.locator("#where").click()
    for _ in range(5):
        for key in ("t", "ArrowRight", "ArrowRight", "ArrowRight", "ArrowLeft"):
            desk.keyboard.press(key)
        desk.locator("#where", has_text=re.compile("^2 of")).wait_for()
        shown = desk.locator("#where").inner_text().partition(": ")[2]
        with desk.expect_response(lambda reply: reply.url.endswith("/clear")):
            desk.keyboard.press("t")
            desk.keyboard.press("c")
        assert on_air.picture.shown()["svg"] == ""
        with desk.expect_response(lambda reply: reply.url.endswith("/take")):
            desk.keyboard.press("t")
        assert on_air.picture.shown()["name"] == shown
        for _ in range(2):
            desk.keyboard.press("ArrowLeft")


def test_the_picture_comes_back_by_itself(home, site_folder, context):
    """A mixing program keeps the page open; the server may be started again at the same address."""
    svg = '<svg xmlns="http://www.w3.org/2000/svg" width="{0}" height="{0}"></svg>'
    first = OnAir(home)
    server = SiteServer(ports.ask_for(0), site_folder, first.routes())
    server.start()
    port = server.server_address[1]
    picture = context.new_page()
    picture.goto(server.address + "on-air/picture")
    first.picture.take(svg.format(8), words="before")
    picture.get_by_alt_text("before").wait_for(state="attached")  # so it hears the server, and not only was given by it
    server.stop()
    again = OnAir(home)
    server = SiteServer(ports.ask_for(port), site_folder, again.routes())
    server.start()
    try:
        again.picture.take(svg.format(9), words="back again")
        picture.get_by_alt_text("back again").wait_for(state="attached")
    finally:
        server.stop()


def test_the_same_picture_taken_with_other_words_is_told_in_them(site_folder, home, context):
    """An example's card and that of a viewer's values may look alike. Who hears the picture hears what it is of."""
    on_air = OnAir(home)
    server = SiteServer(ports.ask_for(0), site_folder, on_air.routes())
    server.start()
    try:
        picture = context.new_page()
        picture.goto(server.address + "on-air/picture")
        svg = '<svg xmlns="http://www.w3.org/2000/svg" width="8" height="8"></svg>'
        on_air.picture.take(svg, words="of the example")
        drawn = picture.get_by_alt_text("of the example")
        drawn.wait_for(state="attached")
        drawn.evaluate("image => { image.dataset.before = ''; }")
        on_air.picture.take(svg, words="of otter-7's numbers")
        told = picture.get_by_alt_text("of otter-7's numbers")
        told.wait_for(state="attached")
        assert told.get_attribute("data-before") == "", "the picture itself is not drawn anew"
        assert picture.locator("img").count() == 1
    finally:
        server.stop()


def test_a_picture_is_as_it_was_after_a_kill(tmp_path):
    file = tmp_path / "on-air.json"
    first = Picture(file=file)
    first.show({"calculator": "x"}, [{"svg": "<svg/>", "name": n, "words": n} for n in ("a", "b")], 1)
    first.freeze(True)
    again = Picture(file=file)
    assert (again.shown(), again.state()) == (first.shown(), first.state())
    for damage in (b"", b"{", b"[]", b'{"number": 1, "frames": [1], "at": 0, "card": null}', b"\xff"):
        file.write_bytes(damage)
        assert Picture(file=file).shown()["svg"] == ""


def test_a_board_hears_that_the_picture_has_changed_and_not_what_it_shows():
    board = Board()
    picture = Picture(board)
    before = json.loads(board.text())
    picture.take("<svg/>", "result", "ten")
    after = json.loads(board.text())
    assert before["picture"] != after["picture"] == picture.shown()["number"]
    assert set(after) == {"picture"}
    assert "svg" not in board.text()
    assert picture.shown()["svg"] == "<svg/>"


def test_a_disk_that_is_full_keeps_nothing_off_the_picture_and_is_told(tmp_path):
    (tmp_path / "taken").write_text("a file where a folder should be", "utf-8")
    picture = Picture(file=tmp_path / "taken" / "on-air.json")
    picture.take("<svg/>", "result", "ten")
    assert picture.shown()["svg"] == "<svg/>"
    assert picture.state()["kept"] is False
