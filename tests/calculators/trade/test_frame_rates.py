"""Every spelling of a rate slowed by 1000/1001 means exactly that; every other rate means what it says."""

from fractions import Fraction

import pytest

from calculators.catalogue import find, names
from calculators.desk.inputs import Option
from calculators.trade.frame_rates import (
    SLOWED,
    RateChoice,
    cut_short,
    exact_rate,
    exact_rates_note,
    frames_input,
    rate_input,
    say_rate,
    slowed_from,
)
from calculators.trade.ratio import Ratio, exact_ratio, smaller

# As printed in video standards, with their whole rates (CTA-861-I and SMPTE ST 2036-1, from memory).
SPELLINGS = (
    (23.97, 24), (23.976, 24), (23.98, 24), (29.97, 30), (47.95, 48), (47.952, 48), (59.94, 60), (71.93, 72),
    (71.928, 72), (95.904, 96), (119.88, 120), (143.86, 144), (143.856, 144), (191.808, 192), (239.76, 240),
    (287.712, 288),
)  # fmt: skip


def fraction(typed):
    ratio = exact_rate(typed)
    return Fraction(ratio.over, ratio.under)


@pytest.mark.parametrize(("typed", "whole"), SPELLINGS)
def test_each_spelling_is_exactly_a_thousandth_slower(typed, whole):
    assert fraction(typed) == Fraction(whole * 1000, 1001)
    assert f"{whole} × 1000/1001" in say_rate(typed)


def test_every_spelling_is_listed_once():
    assert sorted(typed for forms in SLOWED.values() for typed in forms) == sorted(typed for typed, _ in SPELLINGS)


def test_longer_decimals_of_the_exact_rate_mean_it_too():
    assert fraction(59.94006) == fraction(59.9401) == Fraction(60000, 1001)
    assert fraction(23.976024) == Fraction(24000, 1001)


@pytest.mark.parametrize("typed", [24, 25, 50, 59, 59.9, 59.95, 60, 119, 143.9, 144, 165, 239.9, 1000])
def test_what_is_no_such_rate_is_taken_as_typed(typed):
    assert slowed_from(typed) is None
    assert fraction(typed) == Fraction(str(typed))


def test_the_input_reads_units_as_people_write_them():
    entry = rate_input(key="rate", label="Refresh", where="The system's display settings.", default=60)
    assert entry.read("23,976 fps") == entry.read("23.976p") == entry.read("23.976 Hz") == 23.976


def choice():
    options = (Option("23.976", "film"), Option("24", "cinema"), Option("unsure", "not sure"))
    return RateChoice(key="content", label="Content", where="The player's information page.", options=options)


@pytest.mark.parametrize(
    "typed",
    [
        "23.976",
        "23,98",
        23.98,
        23.97,
        "23.976024",
        24000 / 1001,
        "23.976 fps",
        "23,976p",
        "film",
        "24000/1001",
        " 24000 / 1001 fps",
        "48000/2002",
    ],
)
def test_a_choice_of_rates_takes_every_spelling_of_one(typed):
    assert choice().read(typed) == "23.976"


@pytest.mark.parametrize(
    "typed",
    [
        0,
        -24,
        25,
        "25",
        "x",
        "",
        True,
        None,
        float("nan"),
        float("inf"),
        10**30,
        [],
        "24 km",
        "24/0",
        "0/1001",
        "24/1000",
        "1/2/3",
    ],
)
def test_a_choice_of_rates_refuses_what_is_none_of_them(typed):
    with pytest.raises(ValueError, match=r"^Content must be one of 23\.976, 24, unsure, got .+\.$"):
        choice().read(typed)


def test_not_sure_stays_not_sure():
    assert choice().read("not sure") == "unsure"


def test_frames_are_read_as_a_number_or_in_everyday_words():
    entry = frames_input(where="A counter in the game shows it.", default=100)
    assert (entry.read("59,94 fps").low, entry.read("heavy").high, entry.read("unsure").low) == (59.94, 60, 30)


def test_a_listed_rate_cut_short_is_known():
    assert [cut_short(rate) for rate in (23, 59, 119, 143, 60, 59.94)] == [24, 60, 120, 144, None, None]


def test_the_note_names_each_slowed_rate_once():
    assert exact_rates_note(60, 144) == ""
    assert exact_rates_note(59.94, 59.94, 23.98) == (
        "59.94 means exactly 60 × 1000/1001, which is 59.94006; 23.98 means exactly 24 × 1000/1001, which is 23.976024."
    )


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        (59.94, "59.94 Hz (60 × 1000/1001)"),
        (23.98, "23.976 Hz (24 × 1000/1001)"),
        (144, "144 Hz"),
        (74.97262, "74.973 Hz"),
    ],
)
def test_a_rate_is_said_to_three_decimals_with_its_unit(typed, words):
    assert say_rate(typed) == words
    assert say_rate(typed, "frames a second") == words.replace("Hz", "frames a second")


def test_the_inputs_for_rates_take_their_own_range_and_no_more():
    rate = rate_input(key="refresh", label="Refresh", where="In the display settings.", default=60)
    assert [rate.read(given) for given in ("10", "1000 hertz", "60/s", "24p")] == [10, 1000, 60, 24]
    for given in ("9.9", "1000.1"):
        with pytest.raises(ValueError, match="Refresh must be a number from 10 to 1"):
            rate.read(given)
    frames = frames_input(where="A counter in the game shows it.", default=100)
    assert [frames.read(given).low for given in ("1", "2000", "90 frames/s")] == [1, 2000, 90]
    assert (frames.read("unsure").low, frames.read("unsure").high) == (30, 240)
    for given in ("0.9", "2001"):
        with pytest.raises(ValueError, match="Frames the machine makes must be "):
            frames.read(given)


@pytest.mark.parametrize("value", [0.1, 1 / 3, 59.94, 1234.5678901, 1e-9, 123456.7])
def test_a_number_is_taken_exactly_however_many_its_digits(value):
    ratio = exact_ratio(value)
    assert ratio.value == value


def test_an_example_in_an_error_is_one_that_a_viewer_could_mean():
    assert "such as 48" in rate_input(key="low", label="Bottom", where="", default=None, low=1, such_as=48).expected()
    for name in names():
        if name.startswith("motion."):
            for entry in find(name).inputs:
                if hasattr(entry, "low"):
                    bottom = f"such as {entry.low:g}"
                    assert not entry.expected().endswith(bottom) or entry.default == entry.low, (name, entry.key)


def test_ratios_reckon_like_fractions():
    one, other = Ratio(7, 3), Ratio(10, 4)
    assert Fraction(*_pair(one.plus(other))) == Fraction(7, 3) + Fraction(5, 2)
    assert Fraction(*_pair(one.minus(other))) == Fraction(7, 3) - Fraction(5, 2)
    assert Fraction(*_pair(one.by(other))) == Fraction(7, 3) * Fraction(5, 2)
    assert Fraction(*_pair(one.per(other))) == Fraction(7, 3) / Fraction(5, 2)
    assert other.reduced() == Ratio(5, 2)
    assert (one.ceiling(), one.floor(), one.minus(other).size().value) == (3, 2, pytest.approx(1 / 6))
    assert smaller(one, other) is one
    assert one.below(other)
    assert not one.same(other)
    assert other.same(Ratio(5, 2))


def _pair(ratio):
    return ratio.over, ratio.under


@pytest.mark.parametrize("whole", list(SLOWED))
def test_a_rate_that_a_program_divided_out_means_it_too(whole):
    divided = whole * 1000 / 1001  # as a request in JSON holds it; an input is read to twelve significant digits
    given = rate_input(key="rate", label="Rate", where="", default=60).read(divided)
    assert exact_rate(given) == Ratio(whole * 1000, 1001)


RATE_UNITS = ("Hz", "fps", "frames/s", "frames a second")
NO_RATES = {("audio.tones", "frequency")}  # a sound's, not a picture's


def test_every_calculator_reads_frame_and_refresh_rates_by_this_one_reader():
    found = 0
    for name in names():
        for entry in find(name).inputs:
            if (name, entry.key) in NO_RATES:
                continue
            if getattr(entry, "unit", "") in RATE_UNITS:
                found += 1
                for typed in ("59,94 Hz", "59.94 hertz", "59.94 fps", "59,94p", "59.94 frames a second", "59.94/s"):
                    value = entry.read(typed)
                    assert getattr(value, "low", value) == 59.94, (name, entry.key, typed)
            elif entry.label.startswith("Frames a second"):
                found += 1
                assert isinstance(entry, RateChoice), (name, entry.key)
                for typed in (23.97, "23,98 fps", "23.976p", "23.976"):
                    assert entry.read(typed) == "23.976"
    assert found >= 16
