"""Adaptive ranges: repeats, gaps and the drawing's stretches, each against the definition; wrong inputs."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.errors import InputErrors
from calculators.motion.formulas.adaptive_range import ABOVE, GAP, IN, REPEATED, stretches
from calculators.trade.ratio import Ratio, exact_ratio

SETTLED = 1e-11  # a figure holds 12 significant digits
ADAPTIVE = find("motion.adaptive")


def figures(**inputs):
    return {f.key: f.value for f in ADAPTIVE.run(inputs).answer.figures}


def problems(**inputs):
    with pytest.raises(InputErrors) as wrong:
        ADAPTIVE.run(inputs)
    return {p.input: p.message for p in wrong.value.problems}


@given(st.integers(1, 1000), st.integers(1, 1000), st.integers(100, 200_000).map(lambda n: n / 100))
@settings(max_examples=300, deadline=None)
def test_figures_follow_from_the_definition(low, high, frames):
    if low > high:
        low, high = high, low
    if frames in (23.97, 23.98, 29.97, 47.95, 59.94, 71.93, 119.88, 143.86, 239.76):
        return  # these mean another rate; tested by themselves
    exact = Fraction(str(frames))
    ours = figures(low=low, high=high, frames=frames)
    assert ours["span"] == pytest.approx(high / low, rel=SETTLED)
    if exact > high:
        assert (ours["repeats"], ours["refresh_hz"]) == (1, high)
    else:
        first = 1 if exact >= low else 2
        fewest = next((m for m in range(first, 1002) if low <= m * exact <= high), None)
        assert ours.get("repeats") == fewest
        assert ("refresh_hz" in ours) == (fewest is not None)
        if fewest is not None:
            assert ours["refresh_hz"] == pytest.approx(float(fewest * exact), rel=SETTLED)
            assert low <= ours["refresh_hz"] <= high
    assert ("gap_low_fps" in ours) == (high < 2 * low)
    if high < 2 * low:
        assert ours["gap_low_fps"] == pytest.approx(high / 2, rel=SETTLED)
        assert ours["gap_high_fps"] == low


@given(st.integers(1, 400), st.integers(1, 400), st.floats(1, 480))
@settings(max_examples=200, deadline=None)
def test_the_drawn_stretches_say_what_becomes_of_each_rate(low, high, frames):
    if low > high:
        low, high = high, low
    parts = stretches(Ratio(low), Ratio(high))
    for before, after in pairwise(parts):
        assert before.high.same(after.low)
    assert parts[-1].high.value == pytest.approx(1.2 * high)
    value = exact_ratio(frames)
    found = next((s for s in parts if s.low.below(value) and value.below(s.high)), None)
    if found is None:
        return  # on an edge, or above the drawing
    exact = Fraction(value.over, value.under)
    if exact > high:
        kind = ABOVE
    elif exact >= low:
        kind = IN
    else:
        kind = REPEATED if any(low <= m * exact <= high for m in range(2, 402)) else GAP
    assert found.kind == kind


@pytest.mark.parametrize(
    ("low", "high", "frames", "word"),
    [
        (48, 144, 90, "yes"),
        (48, 144, 40, "yes"),
        (48, 96, 40, "yes"),
        (48, 75, 30, "depends"),
        (48, 75, 45, "no"),
        (48, 144, 200, "depends"),
    ],
)
def test_verdicts(low, high, frames, word):
    assert ADAPTIVE.run({"low": low, "high": high, "frames": frames}).answer.verdict.word == word


@given(st.integers(1, 400), st.integers(1, 400), st.integers(1, 400))
@settings(max_examples=150, deadline=None)
def test_working_and_reason_say_what_the_definition_gives(low, high, frames):
    low, high = min(low, high), max(low, high)
    assume(frames < low)
    answer = ADAPTIVE.run({"low": low, "high": high, "frames": frames}).answer
    results = {line.what: line.result for line in answer.working}
    fewest = next(m for m in range(1, 402) if m * frames >= low)
    reaches = fewest * frames <= high
    assert results["Fewest times that reach the bottom"] == str(fewest)
    where = "inside" if reaches else f"above {high}: no multiple fits"
    assert results["Refresh then"] == f"{fewest * frames} Hz, {where}"
    assert ("Gap below the range" in results) == (2 * low > high)
    if reaches and 2 * low <= high:
        shown = {2: "twice"}.get(fewest, f"{fewest} times")
        assert answer.verdict.reason == f"Each frame is shown {shown}, inside the range."


@pytest.mark.parametrize(("frames", "refresh"), [(48, 48), (90, 90), (144, 144), (145, 144), (400, 144)])
def test_working_shows_frames_as_they_come_up_to_the_top_of_the_range(frames, refresh):
    (line,) = (
        w for w in ADAPTIVE.run({"low": 48, "high": 144, "frames": frames}).answer.working if w.what == "Refresh"
    )
    assert line.result == f"{refresh} Hz"
    assert line.numbers == (f"48 ≤ {frames} ≤ 144" if frames <= 144 else f"{frames} > 144")


@pytest.mark.parametrize("frames", [48, 144, 100.5])
def test_both_ends_of_the_range_lie_in_it(frames):
    verdict = ADAPTIVE.run({"low": 48, "high": 144, "frames": frames}).answer.verdict
    assert verdict.said() == "Inside the range."


def test_slowed_rates_are_exact():
    ours = figures(low=47.952, high=144, frames=23.976)
    assert ours["repeats"] == 2
    assert ours["refresh_hz"] == pytest.approx(48000 / 1001, rel=SETTLED)
    assert figures(low=48, high=144, frames="23,976 fps")["repeats"] == 3


def test_the_answer_warns_of_flicker_first():
    for preset in ADAPTIVE.presets:
        cautions = ADAPTIVE.run(preset.inputs).answer.cautions
        assert cautions[0].first
        assert "photosensitive" in cautions[0].text


def test_wrong_inputs():
    assert "above its top" in problems(low=144, high=48)["low"]
    said = problems(low=0, high=1001, frames=2001)
    assert set(said) == {"low", "high", "frames"}
    assert "from 1 to 2000" in said["frames"].replace("\u202f", "")


@pytest.mark.parametrize("typed", [40, "40", "40 fps", "40 Hz", "40 hertz", "40p", "40/s", "40 frames per second"])
def test_frames_are_read_in_every_unit_of_a_frame_rate(typed):
    assert figures(frames=typed)["refresh_hz"] == 80


def test_a_cap_that_would_fall_out_of_the_range_is_not_advised():
    assert figures(low=48, high=144)["cap_fps"] == pytest.approx(139.68)
    for low, high in ((60, 60), (58, 59)):
        assert "cap_fps" not in figures(low=low, high=high, frames=30)
        notes = ADAPTIVE.run({"low": low, "high": high}).answer.notes
        assert any("too narrow for one" in n.text for n in notes)
        assert not any("Cap the frames about" in n.text for n in notes)


@pytest.mark.parametrize(
    ("low", "high", "frames", "slow", "fast"),
    [(40, 60, 32, "once", "twice"), (144, 144.5, 60, "twice", "3 times")],
)
def test_the_gap_is_told_by_the_times_that_miss_on_either_side(low, high, frames, slow, fast):
    (text,) = (n.text for n in ADAPTIVE.run({"low": low, "high": high, "frames": frames}).answer.notes
               if n.title == "In a gap")  # fmt: skip
    assert text.startswith(f"Shown {slow}, the frames come too slowly for the display; shown {fast}, too fast.")


def test_the_middle_that_a_driver_aims_at_is_named_only_where_it_repeats():
    def middle(low, high):
        notes = ADAPTIVE.run({"low": low, "high": high}).answer.notes
        return "Hz here" in next(n.text for n in notes if n.title == "Drivers may repeat more often")

    assert middle(48, 144)
    assert not middle(40, 60)


def test_above_the_range_a_frame_is_shown_once_at_most():
    labels = {f.key: f.label for f in ADAPTIVE.run({"frames": 200}).answer.figures}
    assert labels["repeats"] == "Each frame is shown at most"


def test_one_frame_is_spoken_of_as_one():
    assert ADAPTIVE.run({"frames": 1}).answer.headline.startswith("1 frame a second lies below")
