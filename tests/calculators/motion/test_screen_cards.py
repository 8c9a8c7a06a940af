"""What the screen shows of motion says what the answer says: no gain of nothing, no condition of another case."""

from __future__ import annotations

import pytest

from calculators.catalogue import find
from calculators.desk.form import form
from calculators.motion import screen_cards


def card(name, **inputs):
    result = find(f"motion.{name}").run(inputs)
    return getattr(screen_cards, name)(result.values, result.answer)


@pytest.mark.parametrize(
    ("rate_a", "rate_b", "frames", "hero", "gain"),
    [
        (60, 144, "100", "144 Hz", "9.7 ms sooner than at 60 Hz"),
        (144, 60, "100", "144 Hz", "9.7 ms sooner than at 60 Hz"),
        (144, 240, "120", "144 Hz will do", "2.8 ms sooner"),  # blur goes by the frames, and those are too few
        (60, 120, "60", "60 Hz will do", "8.3 ms sooner"),
        (50, 100, "100", "100 Hz", "10 ms sooner than at 50 Hz"),
        (239.76, 240, "60", "239.76 Hz will do", "under 0.1 ms sooner"),
        (240, 239.76, "60", "239.76 Hz will do", "under 0.1 ms sooner"),
        (50, 119.88, "100", "119.88 Hz", "11.7 ms sooner than at 50 Hz"),
    ],
)
def test_a_card_says_which_hertz_and_tells_no_gain_as_none(rate_a, rate_b, frames, hero, gain):
    made = card("hertz", rate_a=rate_a, rate_b=rate_b, frames=frames)
    assert made.hero == hero
    assert f"{frames} frames a second" in made.line or f"{frames} frames/s" in made.line
    assert [text for _, text in made.figures] == [gain]


def test_which_hertz_says_what_the_slower_rate_smears_and_for_how_many_frames():
    # 1000 px/s over 100 and over 60 pictures a second: 10 and 16.7 px, by hand
    assert card("hertz", rate_a=60, rate_b=144, frames="100").line == "at 100 frames/s: 10 px blur, not 16.7"
    assert card("hertz", rate_a=60, rate_b=144, frames="usual").line.startswith("smears less at ")
    drawn = " ".join(box.what for box in card("hertz", frames="100").drawing(1100, 500, 48).record() if box.size)
    assert "smear of an edge: 100 frames/s, 1000 px/s" in drawn


def test_an_uneven_film_says_so_at_a_glance_at_which_rate_and_what_would_be_even():
    made = card("film", content="23.976", rate=60)  # 1000 / 60 = 16.67 ms: two and three refreshes
    assert (made.verdict, made.hero, made.line) == ("No, at 60 Hz", "not evenly", "33 or 50 ms; 119.88 Hz plays evenly")
    drawn = [box.what for box in made.drawing(900, 500, 56).record() if box.size]
    stood = [text for text in drawn if text.startswith(("33", "50"))]
    assert [text[:2] for text in stood] == ["33", "50"] * 3  # below every frame
    assert drawn.count("2×") == drawn.count("3×") == 3
    panel = [box.what for box in made.drawing(608, 330, 48).record() if box.size]
    assert {"33 or 50 ms a frame", "119.88 Hz plays evenly"} <= set(panel)
    assert card("film", content="24", rate=120).verdict == "Yes, at 120 Hz"


def test_two_like_rates_make_no_difference():
    assert card("hertz", rate_a=60, rate_b=60).hero == "no difference"


def test_a_rate_cut_short_is_told_with_the_likelier_one():
    assert card("film", content="29.97", rate=59).line == "at exactly 59 Hz; it is likelier 59.94"
    assert "likelier" not in card("film", content="24", rate=59, adaptive="yes", low=48, high=144).line


@pytest.mark.parametrize(
    ("inputs", "line"),
    [
        ({"frames": 200}, "tears or waits, by the sync setting"),
        ({"frames": 30, "low": 48, "high": 75}, "if driver and display play along"),
        ({"frames": 40}, "each frame is shown twice"),
        ({"frames": 45, "low": 48, "high": 75}, "no repeating brings it into the range"),
    ],
)
def test_the_line_of_an_adaptive_range_is_that_of_its_case(inputs, line):
    assert card("adaptive", **inputs).line == line


def test_a_long_unit_has_room_in_the_form():
    html = form(find("motion.adaptive"), "a", {}, ())
    field = html[: html.index("frames a second")].rsplit('class="wa-field', 1)[1]
    assert field.startswith(" wa-wide")
