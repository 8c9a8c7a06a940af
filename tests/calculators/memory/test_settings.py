"""Start settings against a second computation, in fractions, and cases of our own."""

from fractions import Fraction
from math import ceil

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from calculators.memory.kits.kit_inputs import sample
from calculators.memory.timings import jedec_bins
from calculators.memory.timings.data_rates import thirds
from calculators.memory.timings.start_settings import (
    DDR3_VOLTS,
    SAME_VOLTS,
    STANDARD,
    larger_times,
    same_time,
    slower,
    standard_rate,
    standard_timings,
    start,
)
from calculators.memory.timings.timing_strings import Timings

RATES = st.integers(200, 20000) | st.sampled_from([2133, 2400, 2666, 2667, 2933, 3200, 3600, 3733, 5333, 6000, 6400])
CLOCKS = st.integers(1, 200)
TIMINGS = st.builds(Timings, CLOCKS, CLOCKS, CLOCKS, st.integers(1, 400))
KITS = st.builds(
    sample,
    generation=st.just("ddr4"),
    rate=RATES,
    timings=TIMINGS,
    volts=st.sampled_from([1.2, 1.35, 1.4]),
    standard_rate=st.none() | RATES,
)


def true_rate(printed):
    """The rate as a fraction, told apart by the last two digits as the task lays it down."""
    return Fraction(printed) + {33: Fraction(1, 3), 66: Fraction(2, 3), 67: Fraction(-1, 3)}.get(printed % 100, 0)


@given(CLOCKS, RATES, RATES)
def test_clocks_at_another_rate_are_the_exact_time_rounded_up(clocks, old, new):
    assert same_time(clocks, old, new) == ceil(clocks * true_rate(new) / true_rate(old))


@given(CLOCKS, RATES)
def test_the_same_rate_keeps_its_clocks(clocks, rate):
    assert same_time(clocks, rate, rate) == clocks


@pytest.mark.parametrize(
    ("clocks", "old", "new", "expected"),
    [
        (15, 2133, 3200, 23),  # 22.5
        (19, 2666, 3200, 23),  # 22.8
        (20, 2666, 3200, 24),  # 24 exactly: a floating-point ceil can give 25
        (10, 2133, 3200, 15),  # 15 exactly
        (14, 3733, 3200, 12),  # 12 exactly
        (18, 3600, 2667, 14),  # 13.33
        (1, 20000, 200, 1),
    ],
)
def test_never_one_clock_too_many(clocks, old, new, expected):
    assert same_time(clocks, old, new) == expected


@given(KITS, KITS, st.none() | RATES)
def test_at_one_voltage_no_timing_is_shorter_than_either_kits(have, add, limit):
    assume(have.volts == add.volts)
    begin = start(have, add, limit)
    assert begin.way == SAME_VOLTS
    assert begin.volts == have.volts
    cycle = 2000 / true_rate(begin.rate_mt_s)
    for i, clocks in enumerate(begin.timings):
        longest = max(kit.timings[i] * 2000 / true_rate(kit.rate) for kit in (have, add))
        assert clocks * cycle >= longest
        spare = 2 if i == 0 else 1  # CAS latency may go up once more, to an even number
        assert (clocks - spare) * cycle < longest


@given(KITS, KITS, st.none() | RATES)
def test_the_rate_is_never_above_either_kit_nor_the_limit(have, add, limit):
    begin = start(have, add, limit)
    ceiling = [have.rate, add.rate] if begin.way == SAME_VOLTS else [standard_rate(have), standard_rate(add)]
    ceiling += [limit] if limit is not None else []
    assert true_rate(begin.rate_mt_s) == min(true_rate(r) for r in ceiling)
    assert bool(begin.limit_mt_s) == (true_rate(begin.rate_mt_s) < true_rate(begin.uncapped_mt_s))


@given(KITS, KITS)
def test_at_two_voltages_both_start_from_the_standard(have, add):
    assume(have.volts != add.volts)
    begin = start(have, add, None)
    assert begin.way == STANDARD
    assert begin.volts == 1.2
    standard = jedec_bins.standard_clocks("ddr4", begin.rate_mt_s)
    assert all(mine >= kept for mine, kept in zip(begin.timings, standard, strict=True))


@given(KITS, KITS, RATES)
def test_timings_do_not_depend_on_which_kit_is_named_first(have, add, rate):
    assert larger_times(have, add, rate) == larger_times(add, have, rate)
    assert standard_timings(have, add, rate) == standard_timings(add, have, rate)


@given(st.lists(RATES, min_size=1, max_size=4))
def test_the_slower_rate_is_the_least_of_the_true_ones(rates):
    assert true_rate(slower(rates)) == min(true_rate(r) for r in rates)


def test_a_standard_stick_keeps_the_standards_clocks_at_a_lower_rate():
    # 19 clocks at 2666 are 14.25 ns, but the stick's own contents say 13.75 ns, which is 15 clocks at 2133
    plain = sample(rate=2666, timings=Timings(19, 19, 19, 43), volts=1.2)
    assert standard_timings(plain, sample(), 2133) == Timings(15, 15, 15, 36)


def test_a_rating_slower_than_the_standard_keeps_its_own_time():
    slow = sample(rate=2400, timings=Timings(20, 17, 17, 39), volts=1.2)
    assert standard_timings(slow, sample(), 2133).cas == 18  # 16.67 ns at 0.9375 ns


@pytest.mark.parametrize(
    ("generation", "one", "other", "way", "volts"),
    [
        ("ddr3", 1.35, 1.5, DDR3_VOLTS, 1.5),
        ("ddr3", 1.5, 1.35, DDR3_VOLTS, 1.5),
        ("ddr3", 1.35, 1.35, SAME_VOLTS, 1.35),
        ("ddr3", 1.65, 1.65, SAME_VOLTS, 1.65),
        ("ddr3", 1.65, 1.5, STANDARD, 1.5),
        ("ddr3", 1.35, 1.65, STANDARD, 1.5),
        ("ddr4", 1.2, 1.35, STANDARD, 1.2),
        ("ddr5", 1.35, 1.4, STANDARD, 1.1),
        ("ddr5", 1.1, 1.1, SAME_VOLTS, 1.1),
    ],
)
def test_which_voltage_to_start_with(generation, one, other, way, volts):
    begin = start(sample(generation=generation, volts=one), sample(generation=generation, volts=other), None)
    assert (begin.way, begin.volts) == (way, volts)


@pytest.mark.parametrize(
    ("kit", "expected"),
    [
        (sample(), 2133),  # rated above the standard voltage: the base rate
        (sample(standard_rate=2666), 2666),
        (sample(volts=1.2), 3200),  # rated at the standard voltage at a standard rate: that is the standard
        (sample(volts=1.2, rate=3600), 2133),  # no such standard rate
        (sample(rate=1600, volts=1.35), 1600),
        (sample(generation="ddr5", rate=6000), 4800),
        (sample(generation="ddr3", rate=1600, volts=1.35), 1600),
        (sample(generation="ddr3", rate=2400, volts=1.65), 1333),
    ],
)
def test_what_a_kit_runs_at_with_its_profile_off(kit, expected):
    assert standard_rate(kit) == expected
    assert thirds(expected) <= thirds(kit.rate)


def test_three_timings_leave_the_fourth_open():
    short = sample(timings=Timings(16, 18, 18, None))
    assert larger_times(short, sample(), 3200) == Timings(16, 18, 18, None)


@pytest.mark.parametrize(
    ("generation", "cas", "expected"), [("ddr5", 35, 36), ("ddr4", 25, 26), ("ddr4", 23, 23), ("ddr3", 9, 9)]
)
def test_cas_latency_comes_to_a_number_that_can_be_set(generation, cas, expected):
    kit = sample(generation=generation, timings=Timings(cas, 25, 25, 51))
    assert larger_times(kit, kit, 3200) == Timings(expected, 25, 25, 51)
