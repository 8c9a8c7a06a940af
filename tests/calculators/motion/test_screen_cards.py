"""What the screen shows of motion says what the answer says: no gain of nothing, no condition of another case."""

from __future__ import annotations

import pytest

from calculators.catalogue import find
from calculators.desk.card import composed
from calculators.desk.form import form
from calculators.motion import screen_cards


def card(name, **inputs):
    result = find(f"motion.{name}").run(inputs)
    return getattr(screen_cards, name)(result.values, result.answer)


@pytest.mark.parametrize(
    ("rate_a", "rate_b", "frames", "hero", "gain"),
    [
        (60, 144, "100", "144 Hz", "9.7 ms sooner"),
        (144, 60, "100", "144 Hz", "9.7 ms sooner"),
        (144, 240, "120", "144 Hz", "2.8 ms sooner"),  # blur goes by the frames, and those are too few
        (60, 120, "60", "60 Hz", "8.3 ms sooner"),
        (50, 100, "100", "100 Hz", "10 ms sooner"),
        (239.76, 240, "60", "239.76 Hz", "under 0.1 ms sooner"),
        (240, 239.76, "60", "239.76 Hz", "under 0.1 ms sooner"),
        (50, 119.88, "100", "119.88 Hz", "11.7 ms sooner"),
    ],
)
def test_a_card_says_which_hertz_and_tells_no_gain_as_none(rate_a, rate_b, frames, hero, gain):
    made = card("hertz", rate_a=rate_a, rate_b=rate_b, frames=frames)
    assert made.hero == hero
    assert f"{frames} frames a second" in made.line
    assert gain in [text for _, text in made.figures]


def test_a_card_says_how_much_less_blur_at_which_speed():
    made = card("hertz", rate_a=60, rate_b=144, frames="100")
    assert made.line == "less blur, for 100 frames a second"
    # what is lit all the time blurs over speed × time: 1000 px/s over 1/100 s and 1/60 s
    assert made.figures == (("blur at 1000 px/s", "10, not 16.7 px"), ("than at 60 Hz", "9.7 ms sooner"))
    assert card("hertz", rate_a=60, rate_b=120, frames="60").line == "enough for 60 frames a second"


def test_a_panel_keeps_the_rate_beside_its_drawing():
    for rates in ((60, 144), (60, 120), (50, 119.88)):
        result = find("motion.hertz").run({"rate_a": rates[0], "rate_b": rates[1], "frames": "100"})
        parts = composed(result, shape="panel").canvas.parts
        assert {"drawing", "hero"} <= set(parts), rates


def test_uneven_film_is_told_in_words_with_what_would_be_even():
    made = card("film", content="23.976", rate=60)
    assert (made.verdict, made.hero) == ("Not at 60 Hz", "not evenly")
    # 2 and 3 refreshes of 16.7 ms
    assert made.line == "33 or 50 ms; 119.88 Hz is even"
    boxes = composed(find("motion.film").run({"content": "23.976", "rate": 60}), shape="panel").canvas.boxes
    words = [box.what for box in boxes if box.part == "drawing" and box.size]
    assert [word for word in words if word.isdigit()] == ["33", "50"] * 3
    assert "The display, in ms" in words


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
