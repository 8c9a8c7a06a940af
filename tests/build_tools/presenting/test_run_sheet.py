"""The run sheet: an episode while it is recorded, in a real browser, against the real relay."""

from __future__ import annotations

import datetime
import json
import re

import pytest
from playwright.sync_api import expect

from build_tools.episodes.record import differences
from build_tools.episodes.sheet import read_sheet
from build_tools.presenting import answers
from build_tools.presenting.current import Current
from build_tools.serving.board import Board
from tests.build_tools.presenting.small_home import ANSWER, SHEET, marked


def read_of(place):
    """What is read there, with plain spaces where a number holds its unit."""
    return place.inner_text().replace("\u00a0", " ")


def test_run_sheets_agree_on_the_question_and_come_back_to_it(server, home, context):
    page, other = context.new_page(), context.new_page()
    for each in (page, other):
        each.goto(server.address + "on-air/run")
        each.locator(".segment[aria-current] h2", has_text="What do the numbers mean?").wait_for()
    page.keyboard.press("n")
    for each in (page, other):
        each.locator(".segment[aria-current] h2", has_text="What is that ringing?").wait_for()
    for key in "pnpnp":  # faster than the replies come
        other.keyboard.press(key)
    for each in (page, other):
        each.locator(".segment[aria-current] h2", has_text="What do the numbers mean?").wait_for()
    kept = home / ".cache/on-air-at.json"
    for before in iter(kept.read_bytes, b""):  # until the server has heard all five: whoever presses last has it
        page.wait_for_timeout(1000)
        if kept.read_bytes() == before:
            break
    page.keyboard.press("n")
    expect(other.locator(".here")).to_have_text("2. What is that ringing?")
    board = Board()
    Current(board, kept)  # as after kill -9
    assert json.loads(board.text())["at"]["segment"] == 2
    kept.write_text("{", "utf-8")
    Current(board, kept)
    assert json.loads(board.text())["at"]["segment"] == 0


def test_all_requests_of_a_page_of_an_earlier_run_are_answered(server, context):
    """After a restart a page's requests are refused together; each comes through, whichever learns the new token."""
    page = context.new_page()

    page.add_init_script("""
        new MutationObserver((_, observer) => {
            const token = document.querySelector("meta[name=run-token]");
            if (!token) return;
            token.content = "of-an-earlier-run";
            observer.disconnect();
        }).observe(document, { childList: true, subtree: true });
    """)
    page.goto(server.address + "on-air/run")
    page.locator(".segment[aria-current]").wait_for()
    for key in "rm":
        page.keyboard.press(key)
    page.locator(".segment[aria-current] .facts", has_text="marked").wait_for()
    expect(page.locator("#on-words")).to_have_text("Picture is clear")
    assert page.locator("#wrong").inner_text() == ""


def test_what_one_needs_while_recording_is_in_view_at_once(server, context):
    desk = context.new_page()
    desk.goto(server.address + "on-air/desk")
    desk.locator("#frame img").wait_for()
    desk.locator("#fill").click()
    desk.locator("#line img").first.wait_for()
    run = context.new_page()
    run.goto(server.address + "on-air/run")
    run.locator(".segment[aria-current]").wait_for()
    for width, height in ((1440, 900), (1920, 1080)):
        desk.set_viewport_size({"width": width, "height": height})
        for name in ("#frame img", "#take", "#go-on", "#clear", "#line li", "#keep"):
            box = desk.locator(name).first.bounding_box()
            assert box["y"] >= 0, (name, width)
            assert box["y"] + box["height"] <= height, (name, width)
        run.set_viewport_size({"width": width, "height": height})
        for name in (".segment[aria-current] .said", "#mark", "#begin", "#of-episode"):
            box = run.locator(name).bounding_box()
            assert 0 <= box["y"] <= height - box["height"], (name, width)


@pytest.mark.parametrize("name", ["desk", "run"])
def test_a_phone_shows_all_of_it_without_moving_sideways(server, context, name):
    page = context.new_page()
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(server.address + f"on-air/{name}")
    page.locator("#frame img, .segment[aria-current]").first.wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    for field in page.locator("#question, #address, #viewer").all():
        assert field.bounding_box()["width"] > 150, "too narrow to read what one types"


def test_the_run_sheet_reads_records_and_writes(server, home, context):
    page, other = context.new_page(), context.new_page()
    page.goto(server.address + "on-air/run")
    current = page.locator(".segment[aria-current]")
    current.wait_for()
    assert "DDR4-3600 with CAS latency 18 waits 10 ns" in read_of(current.locator(".said"))
    assert "It waits 10 ns." in read_of(current)
    assert "To be read: about" in page.locator("#total").inner_text()
    other.goto(server.address + "on-air/run")
    page.keyboard.press("r")
    page.keyboard.press("m")  # at once: a mark waits for the take that it belongs to
    for each in (page, other):
        each.locator("#state", has_text="Recording since").wait_for()
    current.locator(".facts", has_text="marked").wait_for()
    other.locator(".segment[aria-current] .facts", has_text="marked").wait_for()
    page.keyboard.press("n")
    page.locator(".segment[aria-current] h2", has_text="What is that ringing?").wait_for()
    assert "Passed on to a hearing specialist" in page.locator(".segment[aria-current]").inner_text()
    page.keyboard.press("r")  # asks, and ends nothing
    page.locator("#asks", has_text="Take 1 is running. End it?").wait_for()
    page.keyboard.press("Escape")
    assert set(marked(home)) == {0, 1}
    page.locator("#write").click()  # the second question has no mark: nothing is written
    expect(page.locator("#starts-told")).to_contain_text("Question 2, 'What is that ringing?', has no mark")
    assert (home / "docs/episodes/001-the-first-one.md").read_text("utf-8") == SHEET
    page.keyboard.press("m")
    page.locator(".segment[aria-current] .facts", has_text="marked").wait_for()
    page.keyboard.press("u")
    expect(page.locator(".segment[aria-current] .facts")).not_to_contain_text("marked")
    page.keyboard.press("r")
    page.keyboard.press("r")
    expect(page.locator("#state")).to_have_text("Not recording")
    fields = page.locator("#marks input")
    for place, typed in ((0, "0:10"), (1, "1:40")):
        fields.nth(place).fill(typed)
        fields.nth(place).press("Tab")
        expect(page.locator("#marks input").nth(place)).to_have_value(typed)
        if place == 0:
            page.wait_for_timeout(300)  # until the reply has built the table anew
            expect(page.locator("#marks input").nth(1)).to_be_focused()
    page.locator("#lead").fill("0:05")
    page.locator("#cuts").fill("0:20–0:30\n0:40 to 1:00")
    page.locator("#work-out").click()
    page.locator("#times tr").nth(1).wait_for()
    assert page.locator("#starts-told").inner_text() == ""
    page.locator("#write").click()
    page.locator(".facts", has_text="starts at 1:05").wait_for()
    text = (home / "docs/episodes/001-the-first-one.md").read_text("utf-8")
    assert '  - start: "0:05"\n    question: What do the numbers mean?' in text
    assert '  - start: "1:05"\n    question: What is that ringing?' in text
    assert text.count("start:") == 2
    assert f"recorded: {datetime.date.today()}\n" in text, "the day of the take, not of the sheet"
    assert 'lead: "0:05"\ncuts: ["0:20-0:30", "0:40-1:00"]' in text, "the editor's cut list is made of it"
    other.reload()
    expect(other.locator("#cuts")).to_have_value("0:20-0:30\n0:40-1:00")
    page.locator("#rehearsal").check()
    page.keyboard.press("r")  # the box has the keyboard, and only what ticks it is its own
    page.locator("#state", has_text="rehearsal 2").wait_for()
    expect(page.locator("#rehearsal")).not_to_be_checked()
    expect(page.locator("#of-take")).to_have_value("2")  # what one throws away is the take that has just been made
    page.locator("#write").click()
    expect(page.locator("#starts-told")).to_contain_text("This is a rehearsal: choose the take")
    assert (home / "docs/episodes/001-the-first-one.md").read_text("utf-8") == text
    page.locator("#throw-away").click()
    expect(page.locator("#asks")).to_contain_text("Throw rehearsal 2 away")
    expect(page.locator("#asks")).to_contain_text("with its 0 marks?")
    page.get_by_role("button", name="Throw it away").click()
    expect(page.locator("#of-take option")).to_have_count(1)
    assert marked(home).keys() == {0, 1, 2}


def test_a_further_calculator_is_read_aloud_below_and_goes_to_the_desk(server, home, context):
    sheet = home / "docs/episodes/001-the-first-one.md"
    own = "    inputs: {rate: 3600, cas: 18}\n"
    also = "    also:\n      - {calculator: memory.mix, inputs: {have_size: 8, add_size: 16}}\n"
    sheet.write_text(SHEET.replace(own, own + also), "utf-8")
    page = context.new_page()
    page.goto(server.address + "on-air/run/1")
    said = page.locator(".segment[aria-current] .said")
    expect(said).to_have_count(2)
    assert "DDR4-3600" in said.first.inner_text()
    assert read_of(said.nth(1)).startswith("Depends: ")
    with context.expect_page() as opened:
        page.locator(".segment[aria-current] a", has_text="Prepare: ").click()
    desk = opened.value
    desk.locator("#frame img").wait_for()
    expect(desk.locator("#calculator")).to_have_value("memory.mix")
    expect(desk.locator("#form [data-input=add_size] input")).to_have_value("16")


def test_a_press_takes_down_what_stood_there_with_words_of_ones_own(server, home, context):
    sheet = home / "docs/episodes/001-the-first-one.md"
    page, other = context.new_page(), context.new_page()
    for each in (page, other):
        each.goto(server.address + "on-air/run")
    current = page.locator(".segment[aria-current]")
    read = read_of(current.locator(".said"))
    current.locator("textarea").fill("I said: more or less\nten.")
    current.get_by_role("button", name="Take this down as said").click()
    expect(page.locator("#said-told")).to_have_text("What stood at question 1 is in the sheet as said.")
    expect(other.locator(".segment[aria-current] .facts")).to_contain_text("taken down as said")
    episode, mistakes = read_sheet(home / "docs", sheet)
    assert mistakes == []
    first = episode.segments[0]
    assert first.said in read
    assert first.made
    assert (first.short_answer, first.spoken) == ("It waits 10 ns.", "I said: more or less ten.")
    assert differences([episode], home / "docs") == []
    current.locator("textarea").fill("")
    page.locator("h1").click()
    page.keyboard.press("s")
    page.wait_for_function("() => document.querySelector('.taking-down textarea').value === ''")
    expect(other.locator(".segment[aria-current] textarea")).to_have_value("")
    assert "spoken:" not in sheet.read_text("utf-8")


def test_what_has_changed_since_it_was_shown_is_not_taken_down(home):
    sheet = home / "docs/episodes/001-the-first-one.md"
    shown = answers.reply(home, {"what": "run", "episode": 1})["segments"][0]["shown"]
    page = home / "docs/answers/memory/numbers.md"
    page.write_text(ANSWER.replace("It waits", "It has to wait"), "utf-8")
    wanted = {"what": "said", "episode": 1, "segment": 1, "spoken": "", "shown": shown}
    assert "has changed since this page showed it" in answers.reply(home, wanted)["errors"][0]["message"]
    assert "no segment 9" in answers.reply(home, {**wanted, "segment": 9})["errors"][0]["message"]
    assert sheet.read_text("utf-8") == SHEET


def test_targets_are_kept_and_what_is_left_is_told(server, home, context):
    page, other = context.new_page(), context.new_page()
    for each in (page, other):
        each.goto(server.address + "on-air/run")
        each.locator(".segment[aria-current]").wait_for()
    page.locator("#target").fill("20:00")
    page.locator("#target").press("Tab")
    page.locator(".segment[aria-current] input").fill("90")
    page.locator(".segment[aria-current] input").press("Tab")
    expect(other.locator(".segment[aria-current] input")).to_have_value("1:30")
    assert json.loads((home / ".presenter/targets/001.json").read_text("utf-8")) == {"0": 1200, "1": 90}
    page.locator("h1").click()
    page.keyboard.press("r")
    expect(page.locator("#of-episode")).to_contain_text(re.compile(r"(19:5\d|20:00) left"))


def test_a_mistake_in_one_sheet_empties_no_other_run_sheet(home):
    (home / "docs/episodes/002-broken.md").write_text("---\ntitle: [\n---\n", "utf-8")
    (home / "docs/episodes/003-latin.md").write_bytes(b"---\ntitle: \xff\n---\n")
    told = answers.reply(home, {"what": "run", "episode": 1})
    assert [each["question"] for each in told["segments"]] == ["What do the numbers mean?", "What is that ringing?"]
    assert told["mistakes"] == []
    assert [bool(each["mistakes"]) for each in told["episodes"]] == [False, True, True]
    sheet = home / "docs/episodes/001-the-first-one.md"
    sheet.write_text(SHEET.replace("cas: 18", "cas: 18, cat: 3"), "utf-8")
    told = answers.reply(home, {"what": "run", "episode": 1})
    assert len(told["segments"]) == 2
    assert "cat" in told["mistakes"][0]
