"""What goes from the desk and from a served page's results into an episode's sheet, and out of it again."""

from __future__ import annotations

import datetime
import re
import shutil

import pytest
from playwright.sync_api import expect
from ruamel.yaml.comments import CommentedMap

from build_tools.episodes.saying import begin_corrections
from build_tools.episodes.sheet import read_sheet
from build_tools.episodes.sheet_edit import CannotEdit, append, edited, quoted
from build_tools.presenting import answers
from build_tools.serving import ports
from build_tools.serving.site_server import SiteServer
from tests.build_tools.presenting.small_home import ANSWER, PROJECT, SHEET

LINK_PAGE = """---
title: Will it fit?
---
# Will it fit?

/// short-answer
It may.
///

/// calculator | display.link
///
"""
LINK_SHEET = SHEET.replace(
    """  - start: "9:59"
""",
    """  - question: "4K at 120 over 10 m?"
    viewer: "moth-3"
    consent: true
    answer: display/fits
    calculator: display.link
    inputs: {width: "3840", height: "2160", refresh: "120"}  # as told

  # still to be asked
  - start: "9:59"
""",
)


@pytest.fixture
def cables(home):
    """A sheet whose second question is about a link."""
    (home / "docs/answers/display").mkdir()
    (home / "docs/answers/display/fits.md").write_text(LINK_PAGE, "utf-8")
    sheet = home / "docs/episodes/001-the-first-one.md"
    sheet.write_text(LINK_SHEET, "utf-8")
    assert read_sheet(home / "docs", sheet)[1] == []
    return sheet


def test_a_prepared_question_goes_into_the_sheet(server, home, desk):
    sheet = home / "docs/episodes/001-the-first-one.md"
    before = sheet.read_text("utf-8")
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#question").fill('Is it: "slow" or not?')
    desk.locator("#desk-rate").fill("2133")
    desk.locator("#frame img[alt*='DDR4-2133']").wait_for()
    desk.locator("#viewer").fill("wren-on-a-wire")
    desk.locator("#into").click()
    expect(desk.locator("#into-told")).to_contain_text("as question 3")
    desk.locator("#viewer").fill("wren-on-a-wire")
    desk.locator("#consent").check()
    desk.locator("#into").click()
    expect(desk.locator("#into-told")).to_contain_text("as question 4")
    added = """  - question: "Is it: \\"slow\\" or not?"
    viewer: "{}"
    answer: memory/numbers
    calculator: memory.rate
    inputs: {{rate: "2133"}}
"""
    text = sheet.read_text("utf-8").replace("    consent: true\n", "")
    assert text == before.replace(
        "---\n# The", added.format("anonymous") + added.format("wren-on-a-wire") + "---\n# The"
    )


def test_a_question_of_the_sheet_gets_other_numbers_and_no_twin(server, on_air, cables, home, context):
    desk = context.new_page()
    desk.goto(server.address + "on-air/desk")
    desk.locator("#fill").click()
    row = desk.locator("#line li", has_text="4K at 120")
    row.get_by_role("button", name="Prepare").click()
    expect(desk.locator("#desk-refresh")).to_have_value("120")
    expect(desk.locator("#how")).to_have_value("numbers")
    expect(desk.locator("#segment")).to_have_value("2")
    expect(desk.locator("#of-viewer")).to_be_hidden()
    desk.select_option("#desk-link", "hdmi-frl-40")
    desk.locator("#into").click()
    expect(desk.locator("#into-told")).to_contain_text("Question 2 has these numbers now, and so has its card in line.")
    changed = LINK_SHEET.replace('refresh: "120"}', 'refresh: "120", link: "hdmi-frl-40"}')
    written = read_sheet(home / "docs", cables)[0].segments[1]
    assert dict(written.inputs) == {"width": "3840", "height": "2160", "refresh": "120", "link": "hdmi-frl-40"}
    assert (written.viewer, written.consent, written.question) == ("moth-3", True, "4K at 120 over 10 m?")
    text = cables.read_text("utf-8")
    assert re.sub(" +# as told", "  # as told", text) == changed, "every other line is left alone"
    lined = [each["card"] for each in on_air._line.read() if each["card"]["calculator"] == "display.link"]
    assert [card["inputs"]["link"] for card in lined] == ["hdmi-frl-40"], "the card in line shows the old numbers"
    desk.locator("#look-back").click()
    desk.locator("#take-back").click()
    expect(desk.locator("#last-told")).to_contain_text("as it was before")
    expect(desk.locator("#into-told")).to_have_text("")
    assert cables.read_text("utf-8") == LINK_SHEET


def test_a_further_calculator_is_put_beside_a_question_and_taken_back(server, cables, home, context):
    cables.write_text(LINK_SHEET.replace('refresh: "120"}', 'refresh: "120", link: "hdmi-frl-40"}'), "utf-8")
    before = cables.read_text("utf-8")
    desk = context.new_page()
    desk.goto(server.address + "on-air/desk")
    desk.locator("#fill").click()
    desk.locator("#line li", has_text="4K at 120").get_by_role("button", name="Prepare").click()
    expect(desk.locator("#how")).to_have_value("numbers")
    desk.select_option("#calculator", "display.reach")
    expect(desk.locator("#desk-link")).to_have_value("hdmi-frl-40")  # what both ask for is not typed twice
    expect(desk.locator("#how")).to_have_value("beside")
    expect(desk.locator("#segment")).to_have_value("2")
    desk.locator("#desk-length").fill("10")
    desk.locator("#into").click()
    expect(desk.locator("#into-told")).to_contain_text("It stands beside question 2 now")
    text = cables.read_text("utf-8")
    [further] = read_sheet(home / "docs", cables)[0].segments[1].also
    assert (further.calculator, dict(further.inputs)) == ("display.reach", {"link": "hdmi-frl-40", "length": "10"})
    assert len(text.splitlines()) == len(before.splitlines()) + 2
    assert [line for line in before.splitlines() if line not in text.splitlines()] == []
    desk.locator("#desk-length").fill("7.5")  # once more: other numbers, and no third calculator
    desk.locator("#into").click()
    expect(desk.locator("#into-told")).to_contain_text("Question 2 has these numbers now")
    [further] = read_sheet(home / "docs", cables)[0].segments[1].also
    assert further.inputs["length"] == "7.5"
    desk.locator("#fill").click()
    expect(desk.locator("#line li", has_text="4K at 120")).to_have_count(2)
    desk.locator("#look-back").click()
    expect(desk.locator("#last-lines")).to_contain_text("display.reach")
    desk.locator("#take-back").click()
    expect(desk.locator("#last-told")).to_contain_text("as it was before")
    assert cables.read_text("utf-8") == text


def test_beside_a_question_stands_what_can_stand_there(home, cables):
    wanted = {"what": "into", "episode": 1, "how": "beside", "segment": 2, "calculator": "display.reach"}
    for changed, said in (
        ({"segment": 3}, "has no calculator yet"),
        ({"segment": 9}, "has no question 9"),
        ({"calculator": "display.link"}, "change its numbers instead"),
        ({"inputs": {"length": "far"}}, "length"),
        ({"how": "over"}, "a new question, new numbers, or a further calculator"),
    ):
        assert said in answers.reply(home, {**wanted, **changed})["errors"][0]["message"]
        assert cables.read_text("utf-8") == LINK_SHEET
    # Not given, what both ask for is the question's own, and the reply says so.
    own = LINK_SHEET.replace('refresh: "120"}', 'refresh: "120", link: "hdmi-frl-40"}')
    cables.write_text(own, "utf-8")
    assert answers.reply(home, {**wanted, "inputs": {"length": "10"}})["taken"] == ["Link"]
    [further] = read_sheet(home / "docs", cables)[0].segments[1].also
    assert dict(further.inputs) == {"link": "hdmi-frl-40", "length": "10"}


def test_a_result_of_a_served_page_goes_beside_a_question(cables, home, on_air, site_folder, context):
    server = SiteServer(ports.ask_for(0), site_folder, on_air.routes(), on_air.into_page)
    server.start()
    try:
        page = context.new_page()
        page.goto(server.address + "answers/memory/kit-numbers.html#memory.rate:rate=2666&cas=19")
        page.locator(".wa-result", has_text="DDR4-2666").wait_for()
        page.get_by_role("button", name="Into the episode").first.click()
        form = page.get_by_role("dialog", name="Into the episode")
        expect(form.get_by_label("Which question")).to_be_hidden()
        form.get_by_label("What goes into it").select_option("beside")
        form.get_by_label("Which question").select_option("2")
        expect(form.get_by_label("Who asked")).to_be_hidden()
        form.get_by_role("button", name="Write it into the sheet").click()
        expect(form.get_by_role("status")).to_contain_text("It stands beside question 2 now")
    finally:
        server.stop()
    [further] = read_sheet(home / "docs", cables)[0].segments[1].also
    assert (further.calculator, dict(further.inputs)) == ("memory.rate", {"rate": "2666", "cas": "19"})


def test_a_result_of_a_served_page_goes_straight_into_the_sheet(home, on_air, site_folder, context):
    (home / "docs/answers/memory/kit-numbers.md").write_text(ANSWER, "utf-8")
    server = SiteServer(ports.ask_for(0), site_folder, on_air.routes(), on_air.into_page)
    server.start()
    try:
        page = context.new_page()
        page.goto(server.address + "answers/memory/kit-numbers.html#memory.rate:rate=2666&cas=19")
        page.locator(".wa-result", has_text="DDR4-2666").wait_for()
        press = page.get_by_role("button", name="Into the episode").first
        page.evaluate("document.querySelector('.wa-calculator').classList.add('wa-waiting')")
        expect(press).to_be_disabled()  # else the example's numbers would go into the sheet
        page.evaluate("document.querySelector('.wa-calculator').classList.remove('wa-waiting')")
        press.click()
        form = page.get_by_role("dialog", name="Into the episode")
        form.locator("option[value='memory/kit-numbers']").wait_for(state="attached")
        expect(form.get_by_label("Answer page")).to_have_value("memory/kit-numbers")
        expect(form.locator(".values")).to_contain_text("DDR4-2666 with CAS latency 19 waits")
        form.get_by_label("The question, in the viewer's words").fill("Is 2666 slow?")
        form.get_by_label("Who asked").fill("wren-on-a-wire")
        form.get_by_role("button", name="Write it into the sheet").click()
        expect(form.get_by_role("status")).to_have_text("It stands in the sheet of episode 1 now, as question 3.")
        expect(form.get_by_role("button", name="Write it into the sheet")).to_be_disabled()
        form.get_by_role("button", name="Close").click()
        expect(page.locator("dialog")).to_have_count(0)
    finally:
        server.stop()
    episode, mistakes = read_sheet(home / "docs", home / "docs/episodes/001-the-first-one.md")
    assert mistakes == []
    added = episode.segments[2]
    assert (added.question, added.viewer, added.answer) == ("Is 2666 slow?", "anonymous", "memory/kit-numbers")
    assert (added.calculator, dict(added.inputs)) == ("memory.rate", {"rate": "2666", "cas": "19"})


@pytest.mark.parametrize("warm", [True])  # unasked, it reads no question of somebody who saves data
def test_a_whole_question_goes_into_the_sheet_with_nothing_typed_twice(home, on_air, site_folder, context):
    asked = "I have 2x8 GB DDR4 3200 and want to add 2x16 GB 3600, is that ok?"
    shutil.copy(PROJECT / "docs/answers/memory/add-bigger-sticks.md", home / "docs/answers/memory")
    server = SiteServer(ports.ask_for(0), site_folder, on_air.routes(), on_air.into_page)
    server.start()
    try:
        page = context.new_page()
        page.goto(server.address + "index.html")
        page.locator(".wa-find textarea").first.fill(asked)
        page.locator(".wa-to-presenter").wait_for(timeout=90_000)
        page.locator(".wa-to-presenter").get_by_role("button", name="Into the episode").click()
        form = page.get_by_role("dialog", name="Into the episode")
        form.locator("option[value='memory/add-bigger-sticks']").wait_for(state="attached")
        expect(form.locator(".values")).to_contain_text("Its 8 numbers are written with it. They give: Together")
        form.get_by_role("button", name="Write it into the sheet").click()
        expect(form.get_by_role("status")).to_contain_text("as question 3")
    finally:
        server.stop()
    episode, mistakes = read_sheet(home / "docs", home / "docs/episodes/001-the-first-one.md")
    assert mistakes == []
    added = episode.segments[2]
    assert (added.question, added.answer, added.calculator) == (asked, "memory/add-bigger-sticks", "memory.mix")
    assert (added.inputs["have_size"], added.inputs["add_rate"]) == ("8", "3600")


def test_a_correction_is_taken_back_at_the_desk(server, home, desk):
    sheet = home / "docs/episodes/001-the-first-one.md"
    desk.locator("#look-back").click()
    expect(desk.locator("#last-told")).to_have_text("No change of this sheet is known that could be taken back.")
    said = SHEET.replace(
        "    inputs: {rate: 3600", "    said: It waits 9 ns.\n    made: 1-0000\n    inputs: {rate: 3600"
    )
    sheet.write_text(said, "utf-8")
    episode, mistakes = read_sheet(home / "docs", sheet)
    assert mistakes == []
    assert begin_corrections(home / "docs", episode, [1], datetime.date(2026, 11, 1)) == [1]
    begun = sheet.read_text("utf-8")
    desk.locator("#look-back").click()
    expect(desk.locator("#last-lines")).to_contain_text('+ was: "It waits 9 ns."')
    assert sheet.read_text("utf-8") == begun, "looking changes nothing"
    sheet.write_text(begun.replace("A summary.", "Another."), "utf-8")  # meanwhile, in an editor
    desk.locator("#take-back").click()
    expect(desk.locator("#last-told")).to_contain_text("has been changed since this was shown")
    sheet.write_text(begun, "utf-8")
    desk.locator("#look-back").click()
    desk.locator("#take-back").click()
    expect(desk.locator("#last-told")).to_contain_text("as it was before")
    assert sheet.read_text("utf-8") == said
    desk.locator("#look-back").click()
    desk.locator("#take-back").click()
    expect(desk.locator("#last-told")).to_contain_text("as it was before")
    assert sheet.read_text("utf-8") == begun, "the change was not lost"


def test_a_question_without_a_page_or_with_a_mistake_changes_no_sheet(home):
    sheet = home / "docs/episodes/001-the-first-one.md"
    wanted = {
        "what": "into",
        "episode": 1,
        "question": "What?",
        "calculator": "memory.rate",
        "answer": "memory/numbers",
    }
    for changed in ({"question": " "}, {"answer": ""}, {"answer": "memory/nowhere"}, {"inputs": {"rate": "x"}},
                    {"episode": 7}):  # fmt: skip
        assert answers.reply(home, {**wanted, **changed})["errors"][0]["message"]
        assert sheet.read_text("utf-8") == SHEET


def test_a_question_stands_before_what_was_written_behind_the_questions():
    head = '---\nsegments:\n  - question: "A?"\n    inputs: {a: 1}  # as told\n'
    rest = "\n# to be put right\ncorrections: []\n---\n# T\n"
    row = CommentedMap({"question": quoted("B?")})
    counts = []
    text = edited(head + rest, "a.md", lambda front: counts.append(append(front, "segments", row)))
    assert text == head + '  - question: "B?"\n' + rest
    assert counts == [2]
    with pytest.raises(CannotEdit, match="no entry"):
        edited("---\nsegments: []\n---\n", "a.md", lambda front: append(front, "segments", row))
