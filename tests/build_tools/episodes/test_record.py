"""What is read aloud is what is recorded: all of it is compared, and a slip is told from a change in the world."""

import datetime
import json

import pytest

from build_tools.checks import on_the_record, placeholders
from build_tools.episodes import record, saying, sheet
from build_tools.episodes.sheet_edit import CannotEdit
from calculators.memory import rate as module

from .conftest import HEADLINE, MADE, SAID

TODAY = datetime.date(2026, 11, 26)
CHANGED = ("no longer holds", "python3 -m build_tools correct 1 --segment 1")
SLIP = ("never matched", "python3 -m build_tools said 1 --segment 1")


def told(pages):
    return "\n".join(on_the_record.check(pages.docs))


def episode(pages):
    found, mistakes = sheet.read_sheet(pages.docs, pages.sheet)
    assert mistakes == []
    return found


@pytest.fixture
def other_formula(monkeypatch):
    """The world changes: the same inputs give another answer."""
    from build_tools.markdown_blocks import compute

    def change():
        compute._run.cache_clear()
        monkeypatch.setattr(module, "clocks_ns", lambda clocks, rate_mt_s: clocks * 7000 / (3 * rate_mt_s))

    yield change
    compute._run.cache_clear()


def test_what_agrees_is_silent(pages):
    assert told(pages) == ""


@pytest.mark.parametrize(
    ("old", "new", "what"),
    [
        (HEADLINE, "It waits 9 ns.", "the headline: then 'It waits 9 ns.'"),
        ('{latency_ns: "10 ns"}', '{latency_ns: "9 ns"}', "the figure latency_ns: then '9 ns', now '10 ns'"),
        ('{latency_ns: "10 ns"}', '{latency: "9 ns"}', "the figure latency: then '9 ns', now 'no longer given'"),
        (f'made: "{MADE}"', f'made: "{MADE}"\n    verdict: "no"', "the verdict: then 'no', now"),
    ],
)
def test_a_slip_of_the_sheet_never_matched_and_asks_for_no_correction(pages, old, new, what):
    pages.change(old, new)
    (line,) = on_the_record.check(pages.docs)
    assert line.startswith("docs/episodes/001-one.md:6: segment 1: ")
    assert what in line
    assert all(part in line for part in SLIP)
    assert "No public correction is due" in line
    assert CHANGED[0] not in line


def test_a_change_of_the_world_no_longer_holds_and_asks_for_one(pages, other_formula):
    other_formula()
    assert all(part in told(pages) for part in CHANGED)
    assert SLIP[0] not in told(pages)


def test_a_sheet_written_by_hand_is_told_apart_once_a_build_has_seen_it(pages, other_formula):
    pages.change(f'    made: "{MADE}"\n', "")
    record.note_holding(pages.docs, [episode(pages)])
    kept = pages.docs.parent / record.KEPT / "001.json"
    assert list(json.loads(kept.read_text("utf-8")).values()) == [MADE]
    before = kept.read_bytes()
    other_formula()
    assert all(part in told(pages) for part in CHANGED)
    record.note_holding(pages.docs, [episode(pages)])
    assert kept.read_bytes() == before, "what does not agree is not noted as agreeing"
    pages.change(HEADLINE, "Something that no build has seen.")
    assert SLIP[0] in told(pages)
    assert "Yet if it was right when it was said" in told(pages)
    for damage in ("", "{", "[]"):
        kept.write_text(damage, "utf-8")
        assert "as far as this folder knows" in told(pages)


def test_nothing_is_noted_where_the_sheet_says_it_itself(pages):
    record.note_holding(pages.docs, [episode(pages)])
    assert not (pages.docs.parent / ".presenter").exists()


def test_a_short_answer_reversed_in_the_page_is_noticed(pages):
    pages.change("Divide the clocks by the rate. It is", "Multiply the clocks by the rate. It is not", page=True)
    assert CHANGED[0] in told(pages)
    assert "the short answer: then 'Divide the clocks" in told(pages)
    assert "'reworded: true'" in told(pages)
    words = "Multiply the clocks by the rate. It is not about 10 ns."
    entry = f'corrections:\n  - {{date: 2026-10-03, segment: 1, short_answer: "{words}", reworded: true}}\n'
    pages.change("---\n# The", f"{entry}---\n# The")
    assert told(pages) == ""
    assert episode(pages).put_right == [], "other words for the same are no public matter"


def test_the_correction_comes_ready_made(pages, other_formula):
    other_formula()
    assert saying.begin_corrections(pages.docs, episode(pages), [], TODAY) == [1]
    (entry,) = episode(pages).corrections
    now = module.calculator.run({"rate": 3200, "cas": 16}).answer.headline
    assert (entry.date, entry.segment, entry.was, entry.now) == (TODAY, 1, HEADLINE, " ".join(now.split()))
    assert entry.figures == {"latency_ns": "11.67 ns"} or set(entry.figures) == {"latency_ns"}
    assert told(pages) == ""
    assert placeholders.check(pages.docs.parent) != [], "and is published only once it says why"
    pages.change(saying.WHY, "We had divided by the clock.")
    assert placeholders.check(pages.docs.parent) == []
    assert SAID.split("---")[1] in pages.sheet.read_text("utf-8"), "all else is as it was"
    assert saying.begin_corrections(pages.docs, episode(pages), [], TODAY) == []


def test_no_correction_comes_before_its_recording(pages, other_formula):
    entry = "corrections:\n  - {date: 2026-10-01, segment: 1, now: x, why: y}\n"
    pages.change("---\n# The", f"{entry}---\n# The")
    assert "this correction is dated 2026-10-01, before the recording of 2026-10-02" in told(pages)
    pages.change(entry, "")
    other_formula()
    with pytest.raises(CannotEdit, match="is before the recording"):
        saying.begin_corrections(pages.docs, episode(pages), [], datetime.date(2026, 10, 1))


def test_what_was_said_is_taken_down_by_a_press(pages):
    assert saying.take_down(pages.docs, episode(pages), []) == [2, 3]
    _, second, third = episode(pages).segments
    assert second.short_answer == "Divide the clocks by the rate. It is about 10 ns."
    assert third.made == "page", "no numbers were asked about"
    assert told(pages) == ""
    assert saying.take_down(pages.docs, episode(pages), [3], "As we said before.") == [3]
    assert episode(pages).segments[2].spoken == "As we said before."
    with pytest.raises(CannotEdit, match="name it with --segment"):
        saying.take_down(pages.docs, episode(pages), [], "words")
    with pytest.raises(CannotEdit, match="has no segment 9"):
        saying.take_down(pages.docs, episode(pages), [9])


def test_a_slip_is_mended_and_what_was_right_is_never_written_over(pages, other_formula):
    pages.change(HEADLINE, "It waits 9 ns.")
    assert saying.take_down(pages.docs, episode(pages), [1]) == [1]
    first = episode(pages).segments[0]
    assert (first.said, first.made) == (HEADLINE, MADE)
    assert first.figures, "the figures on the card too"
    other_formula()
    with pytest.raises(CannotEdit, match="was right when it was said"):
        saying.take_down(pages.docs, episode(pages), [1])
    with pytest.raises(CannotEdit, match="agrees with today's answer"):
        saying.begin_corrections(pages.docs, episode(pages), [2], TODAY)
