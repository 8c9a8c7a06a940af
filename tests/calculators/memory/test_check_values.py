"""Published figures: names by bandwidth, speed bins, JEDEC's rounding, voltages. Sources stand in check_values."""

import tomllib
from pathlib import Path

import pytest

from calculators.catalogue import find
from calculators.memory.timings import jedec_bins
from calculators.memory.timings.data_rates import bandwidth_name, channel_gb_s, clocks_ns

VALUES = Path(__file__).parents[2] / "check_values"
NAMES = tomllib.loads((VALUES / "jesd21_c_module_names.toml").read_text("utf-8"))
BINS = tomllib.loads((VALUES / "jesd79_4_speed_bins.toml").read_text("utf-8"))
DDR4 = tomllib.loads((VALUES / "jesd21_c_annex_l_rounding.toml").read_text("utf-8"))
DDR5 = tomllib.loads((VALUES / "jesd400_5_rounding.toml").read_text("utf-8"))
VOLTS = tomllib.loads((VALUES / "jedec_memory_voltages.toml").read_text("utf-8"))

HALF_OF_LAST_DIGIT_GB_S = 0.05 + 1e-9  # the bandwidth is printed with one decimal
LAST_DIGIT_NS = 0.01  # the bins' times are printed with two decimals, some rounded, some cut


@pytest.mark.parametrize(("generation", "rate", "name", "gb_s"), NAMES["rows"])
def test_published_names_and_bandwidths(generation, rate, name, gb_s):
    assert bandwidth_name(generation, rate) == name
    assert channel_gb_s(rate) == pytest.approx(gb_s, abs=HALF_OF_LAST_DIGIT_GB_S)


@pytest.mark.parametrize(("generation", "rate", "name", "gb_s"), NAMES["rows"])
def test_published_names_through_the_calculator(generation, rate, name, gb_s):
    answer = find("memory.rate").run({"generation": generation, "rate": rate, "channels": 1}).answer
    figures = {f.key: f for f in answer.figures}
    assert figures["bandwidth_name"].value == name
    assert figures["channel_gb_s"].text == f"{gb_s} GB/s"
    assert figures["rate_label"].value == f"{generation.upper()}-{rate}"


@pytest.mark.parametrize(("name", "rate", "cas", "printed_ns"), BINS["rows"])
def test_published_speed_bins_of_ddr4(name, rate, cas, printed_ns):
    assert clocks_ns(cas, rate) == pytest.approx(printed_ns, abs=LAST_DIGIT_NS), name
    assert jedec_bins.standard_clocks("ddr4", rate)[:3] == (cas, cas, cas)


@pytest.mark.parametrize(("rate", "printed_ns"), BINS["row_active"])
def test_published_row_active_times_of_ddr4(rate, printed_ns):
    assert jedec_bins.standard_times_ps("ddr4", rate)[3] == printed_ns * 1000


@pytest.mark.parametrize(("rate", "clocks"), DDR4["rows"])
def test_published_rounding_of_ddr4(rate, clocks):
    assert jedec_bins.clocks("ddr4", DDR4["time_ps"], rate) == clocks


@pytest.mark.parametrize(("rate", "cas"), DDR5["rows"])
def test_published_cas_latencies_of_ddr5(rate, cas):
    assert jedec_bins.even_cas("ddr5", jedec_bins.clocks("ddr5", DDR5["time_ps"], rate)) == cas


@pytest.mark.parametrize(("time_ps", "clock_ps", "clocks"), DDR5["examples"])
def test_published_example_of_the_ddr5_rounding(time_ps, clock_ps, clocks):
    assert jedec_bins.ddr5_clocks(time_ps, clock_ps) == clocks


@pytest.mark.parametrize(("generation", "volts"), VOLTS["rows"])
def test_published_voltages(generation, volts):
    assert jedec_bins.STANDARD_VOLTS[generation] == volts
    assert VOLTS["ddr3_low_volts"] == jedec_bins.DDR3_LOW_VOLTS
