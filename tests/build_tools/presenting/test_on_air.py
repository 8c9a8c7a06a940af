"""The desk, the picture and the run sheet: driven as a presenter would, in a real browser, against the real relay."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from playwright.sync_api import expect

from build_tools.episodes import marks
from build_tools.presenting import answers
from build_tools.presenting.picture import Picture
from build_tools.presenting.routes import OnAir
from build_tools.serving import ports
from build_tools.serving.board import Board
from build_tools.serving.site_server import SiteServer

PROJECT = Path(__file__).parents[3]
ANSWER = """---
title: What do the numbers mean?
---
# What do the numbers mean?

/// short-answer
It waits {= memory.rate rate=3200 cas=16 -> latency_ns =}.
///

/// calculator | memory.rate
///
"""
SHEET = """---
title: The first one
recorded: 2026-10-02
summary: A summary.
invented: true
segments:
  - question: What do the numbers mean?
    viewer: otter-7
    answer: memory/numbers
    inputs: {rate: 3600, cas: 18}
  - start: "9:59"
    question: What is that ringing?
    viewer: anonymous
    referred: {to: a hearing specialist, why: That is not ours to judge.}
---
# The first one
"""


@pytest.fixture
def home(tmp_path):
    """A small project with one answer and one episode."""
    (tmp_path / "docs/answers/memory").mkdir(parents=True)
    (tmp_path / "docs/answers/memory/numbers.md").write_text(ANSWER, "utf-8")
    (tmp_path / "docs/episodes").mkdir()
    (tmp_path / "docs/episodes/001-the-first-one.md").write_text(SHEET, "utf-8")
    (tmp_path / "node_modules").symlink_to(PROJECT / "node_modules")
    return tmp_path


@pytest.fixture
def on_air(home):
    return OnAir(home)


@pytest.fixture
def server(on_air, site_folder):
    opened = SiteServer(ports.ask_for(0), site_folder, on_air.routes())
    opened.start()
    yield opened
    opened.stop()


@pytest.fixture
def desk(server, context):
    page = context.new_page()
    page.goto(server.address + "on-air/desk")
    page.locator("#frame img").wait_for()
    return page


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
    assert ">What do the numbers" in on_air.picture.shown()["svg"]
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
    assert desk.locator("#state").inner_text() == "Picture is clear"


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


def test_a_desk_that_outlives_its_server_takes_all_the_same(home, site_folder, context):
    server = SiteServer(ports.ask_for(0), site_folder, OnAir(home).routes())
    server.start()
    desk = context.new_page()
    desk.goto(server.address + "on-air/desk")
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#frame img[alt*='CAS latency']").wait_for()
    with desk.expect_response(lambda reply: reply.url.endswith("/take")):
        desk.locator("#take").click()
    server.stop()
    desk.locator("#clear").click()
    expect(desk.locator("#wrong")).to_contain_text("does not answer")
    expect(desk.locator("#state")).to_have_text("On the picture")  # for all that anybody knows
    again = OnAir(home)
    server = SiteServer(ports.ask_for(server.server_address[1]), site_folder, again.routes())
    server.start()
    try:
        with desk.expect_response(lambda reply: reply.url.endswith("/take") and reply.status == 200):
            desk.locator("#take").click()
        assert "CAS latency" in again.picture.shown()["words"]
    finally:
        server.stop()


def test_keys_do_nothing_while_one_types(server, desk):
    desk.locator("#question").fill("")
    with desk.expect_response(lambda reply: reply.url.endswith("/ask") and ':"cat"' in reply.request.post_data):
        desk.locator("#question").press_sequentially("cat")
    assert desk.locator("#state").inner_text() == "Picture is clear"


def test_another_generation_brings_its_usual_values_to_the_desk_too(desk):
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#desk-rate").fill("3600")
    desk.select_option("#desk-generation", "ddr5")
    assert desk.locator("#desk-rate").input_value() == "6000"
    desk.locator("#frame img[alt*='DDR5-6000']").wait_for()


def test_wrong_input_is_told_beside_its_field_and_the_card_stays(desk):
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#frame img[alt*='CAS latency']").wait_for()
    before = desk.locator("#frame").inner_html()
    desk.locator("#desk-rate").fill("fast")
    desk.locator("#desk-rate-error", has_text="Rate must be a whole number").wait_for()
    assert desk.locator("#frame").inner_html() == before
    assert desk.locator("#desk-rate").input_value() == "fast"


def test_the_picture_comes_back_by_itself(home, site_folder, context):
    """A mixing program keeps the page open; the server may be started again at the same address."""
    server = SiteServer(ports.ask_for(0), site_folder, OnAir(home).routes())
    server.start()
    port = server.server_address[1]
    picture = context.new_page()
    picture.goto(server.address + "on-air/picture")
    server.stop()
    again = OnAir(home)
    server = SiteServer(ports.ask_for(port), site_folder, again.routes())
    server.start()
    try:
        again.picture.take('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"></svg>', words="back again")
        picture.get_by_alt_text("back again").wait_for(state="attached")
    finally:
        server.stop()


def test_the_run_sheet_reads_steps_and_marks(server, home, context):
    page = context.new_page()
    page.goto(server.address + "on-air/run")
    current = page.locator("[aria-current]")
    current.wait_for()
    assert "It waits 10 ns." in current.inner_text()
    assert "Short answers: about" in page.locator("#total").inner_text()
    page.keyboard.press("r")
    page.locator("#state", has_text="Recording since").wait_for()
    page.keyboard.press("m")
    current.locator(".facts", has_text="marked").wait_for()
    page.keyboard.press("n")
    page.locator("[aria-current] h2", has_text="What is that ringing?").wait_for()
    assert "Passed on to a hearing specialist" in page.locator("[aria-current]").inner_text()
    stored = json.loads((home / ".presenter/marks/001.json").read_text("utf-8"))
    assert set(stored) == {"0", "1"}
    (home / ".presenter/marks/001.json").write_text(json.dumps({"0": 1000, "1": 1010, "2": 1100}), "utf-8")
    page.locator("#lead").fill("0:05")
    page.locator("#cuts").fill("0:20-0:50")
    page.locator("#work-out").click()
    page.locator("#times tr").nth(1).wait_for()
    assert page.locator("#times").inner_text().split("\n")[0].startswith("0:05")
    assert "1:05" in page.locator("#times").inner_text()
    page.locator("#write").click()
    page.locator(".facts", has_text="starts at 1:05").wait_for()
    text = (home / "docs/episodes/001-the-first-one.md").read_text("utf-8")
    assert '  - start: "0:05"\n    question: What do the numbers mean?' in text
    assert '  - start: "1:05"\n    question: What is that ringing?' in text
    assert text.count("start:") == 2


def test_a_segment_is_handed_to_the_desk_with_its_numbers(server, context):
    page = context.new_page()
    page.goto(server.address + "on-air/run/1")
    link = page.locator("a", has_text="Prepare the card")
    link.first.wait_for()
    page.goto(server.address + link.first.get_attribute("href").removeprefix("/"))
    page.locator("#frame img[alt*='DDR4-3600 with CAS latency 18']").wait_for()
    assert page.locator("#question").input_value() == "What do the numbers mean?"


def test_requests_that_cannot_be_answered_get_words(home):
    assert answers.reply(home, {"what": "form", "calculator": "memory.rat"})["errors"][0]["message"].startswith(
        "no calculator memory.rat; did you mean memory.rate?"
    )
    told = answers.reply(home, {"what": "card", "calculator": "memory.rate", "inputs": {"rate": "x", "cas": "y"}})
    assert [e["input"] for e in told["errors"]] == ["rate", "cas"]
    assert answers.reply(home, {"what": "nonsense"})["errors"]
    assert [e["title"] for e in answers.reply(home, {"what": "run", "episode": 9})["episodes"]] == ["The first one"]


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


@pytest.mark.parametrize(
    ("moments", "began", "cuts", "found"),
    [
        ({1: 100.0, 2: 160.9}, 100.0, [], {1: 0, 2: 60}),
        ({1: 90.0}, 100.0, [], {1: 0}),
        ({1: 130.0}, 100.0, [(10, 20), (15, 25)], {1: 15}),
        ({1: 115.0}, 100.0, [(10, 20)], {1: 10}),
        ({1: 105.0}, 100.0, [(10, 20)], {1: 5}),
    ],
)
def test_marks_become_start_times(moments, began, cuts, found):
    assert marks.starts(moments, began, cuts) == found


def test_a_cut_backwards_is_refused():
    with pytest.raises(ValueError, match=r"a cut goes from an earlier to a later time, got 0:20 to 0:10"):
        marks.starts({1: 1.0}, 0.0, [(20, 10)])


def test_start_times_are_written_without_touching_anything_else(tmp_path):
    sheet = tmp_path / "001-a.md"
    sheet.write_text(SHEET, "utf-8")
    text = marks.write_starts(sheet, {1: 4, 2: 605})
    expected = SHEET.replace("  - question: What do", '  - start: "0:04"\n    question: What do').replace(
        '"9:59"', '"10:05"'
    )
    assert text == expected
    with pytest.raises(marks.CannotWrite, match="has 2 segments, so there is no segment 3"):
        marks.write_starts(sheet, {3: 1})
    assert sheet.read_text("utf-8") == expected
