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
    ("rate_a", "rate_b", "hero"),
    [
        (60, 144, "about 9.7 ms shorter"),  # 16.7 and 6.9 stand beside it, whose difference is 9.8
        (144, 60, "about 9.7 ms longer"),
        (60, 120, "about 8.3 ms shorter"),
        (50, 100, "10 ms shorter"),
        (239.76, 240, "under 0.1 ms shorter"),
        (240, 239.76, "under 0.1 ms longer"),
        (60, 60, "no difference"),
    ],
)
def test_a_gain_is_never_shown_as_none(rate_a, rate_b, hero):
    assert card("hertz", rate_a=rate_a, rate_b=rate_b).hero == hero


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
