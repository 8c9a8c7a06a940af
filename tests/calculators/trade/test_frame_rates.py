"""Every spelling of a rate slowed by 1000/1001 means exactly that; every other rate means what it says."""

from fractions import Fraction

import pytest

from calculators.trade.frame_rates import SLOWED, exact_rate, rate_input, say_rate, slowed_from

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
