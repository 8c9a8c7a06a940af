"""What a correction changed, in a few words for its card; sentences of the demo's own sheets among them."""

from __future__ import annotations

from pathlib import Path

import pytest

from build_tools.episodes import sheet
from build_tools.episodes.in_short import MOST, changed, of_correction

PROJECT = Path(__file__).parents[3]


@pytest.mark.parametrize(
    ("was", "now", "said"),
    [
        ("It waits 15 ns for its first data.", "It waits 14.06 ns for its first data.", ("15 ns", "14.06 ns")),
        ("Plan 54 minutes to 5.6 hours for 4 passes.", "Plan 2.9 to 14 hours for 4 passes: let it run.",
         ("54 min to 5.6 h", "2.9 to 14 hours")),
        ("From 1.3 to 2 hours.", "From 1.3 to 4 hours.", ("1.3 to 2 hours", "1.3 to 4 hours")),
        ("Remove it: 18 steps, 2 restarts.", "First look; then remove it and go on: 20 steps, 3 restarts.",
         ("18 steps", "20 steps")),
        ("It fits this port.", "It exceeds this port.", ("fits", "exceeds")),
        ("It is not the driver: no driver has run.", "First try other sockets: the logo was not seen.", None),
        ("All as it was.", "All as it was.", None),
        ("", "", None),
    ],
)  # fmt: skip
def test_the_change_is_told_with_its_unit_or_not_at_all(was, now, said):
    assert changed(was, now) == said


def test_every_public_correction_of_the_demo_says_what_was_wrong():
    episodes, mistakes = sheet.read_all(PROJECT / "docs")
    assert mistakes == []
    put_right = [(e.segment(c.segment), c) for e in episodes for c in e.put_right]
    assert put_right
    for segment, entry in put_right:
        sides = of_correction(segment, entry)
        assert sides is not None, entry
        assert all(0 < len(side) <= MOST for side in sides), sides


@pytest.mark.parametrize("value", ["one", ["one"], ["one", "x" * 21], ["", "two"], {"a": 1}])
def test_a_card_s_words_that_do_not_fit_are_refused_with_their_line(tmp_path, value):
    import yaml

    front = {
        "title": "T", "recorded": "2026-01-02", "summary": "S.", "invented": True,
        "segments": [{"start": "0:00", "question": "Q?", "viewer": "anonymous", "answer": "", "said": "It is 1."}],
        "corrections": [{"date": "2026-01-03", "segment": 1, "now": "It is 2.", "why": "So.", "on_card": value}],
    }  # fmt: skip
    (tmp_path / "episodes").mkdir(parents=True)
    path = tmp_path / "episodes" / "001-t.md"
    path.write_text(f"---\n{yaml.safe_dump(front, sort_keys=False)}---\n\n# T\n", "utf-8")
    _, mistakes = sheet.read_sheet(tmp_path, path)
    assert any("'on_card:' is [before, now]" in str(each) for each in mistakes), mistakes
