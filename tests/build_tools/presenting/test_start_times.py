"""A take's marks as start times: counted without what is cut, and written into the sheet."""

from __future__ import annotations

import re

import pytest

from build_tools.episodes import marks
from build_tools.episodes.cuts import cuts_of
from build_tools.presenting import answers
from tests.build_tools.presenting.small_home import SHEET


def test_cuts_count_in_the_recordings_own_time(home):
    """Own arithmetic: 320 s into the recording lies in the cut from 310 to 340; the video begins 5 s in: 310 - 5."""
    wanted = {"what": "starts", "episode": 1, "lead": "0:05", "cuts": "5:10-5:40"}
    told = answers.reply(home, {**wanted, "marks": {"0": 1000.0, "1": 1320.0, "2": 1400.0}})
    assert told["starts"] == {1: "5:05", 2: "6:05"}


@pytest.mark.parametrize("typed", ["5:10-5:40", "5:10–5:40", "5:10 — 5:40", "5:10 to 5:40", "from 5:10 to 5:40,"])
def test_a_cut_is_read_as_people_type_it(typed):
    assert cuts_of(typed) == [(310.0, 340.0)]


@pytest.mark.parametrize("typed", ["5:10", "5:40-5:10", "5:10-5:90", "a to b", "5:10-5:20-5:30"])
def test_a_cut_that_cannot_be_read_is_named(typed):
    with pytest.raises(ValueError, match=re.escape(typed)):
        cuts_of(typed)


def test_a_cut_backwards_is_refused():
    with pytest.raises(ValueError, match=r"a cut goes from an earlier to a later time, got 0:20 to 0:10"):
        marks.starts({1: 1.0}, 0.0, [(20, 10)])


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


@pytest.mark.parametrize(
    ("moments", "said"),
    [
        ({"0": 100, "1": 110}, "Question 2, 'What is that ringing?', has no mark in this take."),
        ({"0": 100, "1": 110, "2": 110.4}, "Question 2, 'What is that ringing?', would start at 0:10 like question 1"),
        ({"0": 100, "1": 130, "2": 110}, "would start at 0:10, before question 1 at 0:30"),
        ({"0": 100, "1": 110, "2": 120, "7": 130}, "There are marks for questions that the sheet does not have: 7."),
    ],
)
def test_start_times_that_are_none_change_nothing(home, moments, said):
    wanted = {"what": "starts", "episode": 1, "marks": moments, "write": True}
    told = answers.reply(home, wanted)
    assert said in told["errors"][0]["message"]
    assert answers.reply(home, {**wanted, "write": False})["problems"] == [each["message"] for each in told["errors"]]
    assert (home / "docs/episodes/001-the-first-one.md").read_text("utf-8") == SHEET


def test_start_times_are_written_into_no_sheet_with_a_mistake(home):
    sheet = home / "docs/episodes/001-the-first-one.md"
    faulty = SHEET.replace("cas: 18", "cas: fast")
    sheet.write_text(faulty, "utf-8")
    wanted = {"what": "starts", "episode": 1, "marks": {"0": 100, "1": 110, "2": 120}, "write": True}
    assert "cas" in answers.reply(home, wanted)["errors"][0]["message"]
    assert sheet.read_text("utf-8") == faulty


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
