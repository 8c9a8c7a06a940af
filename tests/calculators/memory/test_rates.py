"""Memory data rates: properties, and edge cases of our own."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.errors import InputErrors
from calculators.memory.timings.data_rates import bandwidth_name, channel_gb_s, clocks_ns, cycle_ns, rate_label, thirds

RATES = st.integers(200, 20000)
FLOAT_STEPS = 1e-12  # a few last bits of a double


@pytest.mark.parametrize(
    ("printed", "true"),
    [
        (2133, Fraction(6400, 3)),
        (2666, Fraction(8000, 3)),
        (2667, Fraction(8000, 3)),
        (3733, Fraction(11200, 3)),
        (5333, Fraction(16000, 3)),
        (3200, Fraction(3200)),
        (3600, Fraction(3600)),
        (2134, Fraction(2134)),
    ],
)
def test_a_printed_rate_stands_for_its_third(printed, true):
    assert Fraction(thirds(printed), 3) == true


@given(RATES)
def test_clock_and_bandwidth_belong_to_the_same_rate(rate):
    assert cycle_ns(rate) * thirds(rate) == pytest.approx(6000, rel=FLOAT_STEPS)
    assert channel_gb_s(rate) == pytest.approx(float(Fraction(thirds(rate) * 8, 3000)), rel=FLOAT_STEPS)


@given(RATES, st.integers(1, 199), st.integers(1, 200))
def test_more_clocks_never_wait_less(rate, clocks, more):
    assert clocks_ns(clocks + more, rate) > clocks_ns(clocks, rate)


@given(RATES)
def test_the_name_by_bandwidth_is_ascii_and_ends_in_hundreds(rate):
    name = bandwidth_name("ddr4", rate)
    assert name.isascii()
    megabytes = int(name.partition("-")[2])
    assert megabytes % 100 == 0
    assert 0 <= Fraction(thirds(rate) * 8, 3) - megabytes < 100


def test_the_calculator_gives_every_figure_of_its_contract():
    answer = find("memory.rate").run({"rate": "2666 MHz", "cas": "19", "channels": 1}).answer
    figures = {f.key: f.value for f in answer.figures}
    assert figures["clock_mhz"] == pytest.approx(4000 / 3, rel=1e-11)
    assert figures["cycle_ns"] == 0.75
    assert figures["latency_ns"] == 14.25
    assert figures["total_gb_s"] == figures["channel_gb_s"]
    assert figures["bandwidth_name"] == "PC4-21300"


def test_wrong_inputs_are_told_all_at_once():
    with pytest.raises(InputErrors) as caught:
        find("memory.rate").run({"rate": "199", "cas": "16.5", "channels": "many", "generation": "ddr6"})
    assert [p.input for p in caught.value.problems] == ["generation", "rate", "cas", "channels"]
    messages = {p.input: p.message for p in caught.value.problems}
    assert messages["rate"] == ("Rate must be a whole number from 200 to 20\u202f000 MT/s, such as 3200, got '199'.")


@pytest.mark.parametrize(("generation", "rate", "printed"), [("ddr3", 1600, "DDR3-1600"), ("ddr5", 4800, "DDR5-4800")])
def test_a_label_is_written_as_stickers_print_it(generation, rate, printed):
    assert rate_label(generation, rate) == printed
