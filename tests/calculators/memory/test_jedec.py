"""JEDEC's rules: properties, and edge cases of our own."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.memory.timings import jedec_bins
from calculators.memory.timings.data_rates import thirds

GENERATIONS = st.sampled_from(jedec_bins.GENERATIONS)
RATES = st.integers(200, 20000)
TIMES = st.integers(1000, 500_000)

DDR4_ALLOWANCE = Fraction(26, 1000)  # of a clock: what the rule lets pass
DDR5_ALLOWANCE = Fraction(3, 1000)  # of the time


@given(TIMES, RATES)
def test_ddr4_rounds_up_but_for_its_allowance(time_ps, rate):
    cycle = jedec_bins.cycle_ps(rate)
    clocks = jedec_bins.ddr4_clocks(time_ps, cycle)
    exact = Fraction(time_ps, cycle)
    assert exact - DDR4_ALLOWANCE - Fraction(1, 1000) <= clocks < exact + 1


@given(TIMES, RATES)
def test_ddr5_rounds_up_but_for_its_allowance(time_ps, rate):
    cycle = jedec_bins.cycle_ps(rate)
    clocks = jedec_bins.ddr5_clocks(time_ps, cycle)
    exact = Fraction(time_ps, cycle)
    assert exact * (1 - DDR5_ALLOWANCE) - Fraction(1, 1000) <= clocks <= exact + 1


@given(TIMES, RATES)
def test_ddr3_rounds_up_and_no_further(time_ps, rate):
    clocks = jedec_bins.ddr3_clocks(time_ps, rate)
    exact = Fraction(time_ps * thirds(rate), 6_000_000)
    assert exact <= clocks < exact + 1


@given(GENERATIONS, TIMES, st.integers(0, 10_000), RATES)
def test_a_longer_time_never_takes_fewer_clocks(generation, time_ps, more, rate):
    assert jedec_bins.clocks(generation, time_ps + more, rate) >= jedec_bins.clocks(generation, time_ps, rate)


@given(GENERATIONS, st.integers(1, 400))
def test_a_cas_latency_is_raised_by_at_most_one_and_then_even(generation, cas):
    raised = jedec_bins.even_cas(generation, cas)
    assert raised - cas in (0, 1)
    if generation == "ddr5" or (generation == "ddr4" and cas > 24):
        assert raised % 2 == 0
    else:
        assert raised == cas


@given(GENERATIONS, RATES)
def test_the_slower_standard_rate_is_standard_and_not_above(generation, rate):
    standard = jedec_bins.slower_standard(generation, rate)
    rates = jedec_bins.STANDARD_RATES[generation]
    assert standard in rates
    assert standard == rates[0] or thirds(standard) <= thirds(rate)
    assert not any(thirds(standard) < thirds(r) <= thirds(rate) for r in rates)


@pytest.mark.parametrize("generation", jedec_bins.GENERATIONS)
def test_standard_rates_rise_and_their_settings_are_settable(generation):
    rates = jedec_bins.STANDARD_RATES[generation]
    assert list(rates) == sorted(rates)
    for rate in rates:
        cas, trcd, trp, tras = jedec_bins.standard_clocks(generation, rate)
        assert cas >= jedec_bins.LEAST_CAS[generation]
        assert cas == jedec_bins.even_cas(generation, cas)
        assert 0 < trp <= trcd <= cas < tras
