"""Labels as they are printed, in the fields that ask for one number of them."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.errors import InputErrors
from calculators.memory.kits.printed_labels import read_rate_label
from calculators.memory.timings.data_rates import bandwidth_name, rate_label, thirds
from calculators.memory.timings.jedec_bins import STANDARD_RATES

# Reads texts; what every Python does with one is the same.
pytestmark = pytest.mark.once

NAMES = tomllib.loads(
    (Path(__file__).parents[2] / "check_values" / "jesd21_c_module_names.toml").read_text("utf-8")
)  # fmt: skip
STANDARD = [(generation, rate) for generation, rates in STANDARD_RATES.items() for rate in rates]


def figures(name, **inputs):
    return {f.key: f.value for f in find(name).run(inputs).answer.figures}


def messages(name, **inputs):
    with pytest.raises(InputErrors) as caught:
        find(name).run(inputs)
    return [(p.input, p.message) for p in caught.value.problems]


@pytest.mark.parametrize(("generation", "rate", "name", "_gb_s"), NAMES["rows"])
def test_published_names_are_read_back_as_their_rates(generation, rate, name, _gb_s):
    label = read_rate_label(name)
    assert label is not None
    assert (label.generation, thirds(label.rate_mt_s)) == (generation, thirds(rate))


@pytest.mark.parametrize(("generation", "rate"), STANDARD)
def test_both_names_of_every_standard_rate_are_read(generation, rate):
    for label in (rate_label(generation, rate), bandwidth_name(generation, rate), f"PC{generation[-1]}-{rate}"):
        read = read_rate_label(label)
        assert read is not None
        assert read == (generation, rate), label


@pytest.mark.parametrize(
    ("typed", "rate"),
    [
        ("DDR4-3200", 3200), ("ddr4 3200", 3200), ("DDR4-3200 MT/s", 3200), ("PC4-25600", 3200), ("PC4-3200AA", 3200),
        ("PC4-3200AA-UA2-11", 3200), ("PC4-2666V", 2666), ("PC4-28800", 3600), ("PC4-21333", 2666), ("3200 MHz", 3200),
    ],
)  # fmt: skip
def test_a_rate_is_read_from_any_label_on_the_sticker(typed, rate):
    assert figures("memory.rate", rate=typed)["rate_label"] == f"DDR4-{rate}"
    assert figures("memory.mix", have_rate=typed, add_rate=typed)["start_rate"] == rate


def test_every_rate_input_reads_labels():
    given = {"have_standard_rate": "DDR4-2400", "rate_limit_two": "PC4-23400", "rate_limit_four": "DDR4-2133"}
    assert figures("memory.mix", **given)["start_rate"] == 2133


def test_a_label_of_another_generation_is_told_at_its_input():
    ((key, message),) = messages("memory.mix", add_rate="DDR5-6000")
    assert key == "add_rate"
    assert message == (
        "Rated speed must belong to the generation above, got DDR5 beside DDR4: choose DDR5 there, or look at the "
        "sticker once more."
    )
    assert messages("memory.rate", rate="PC3-12800")[0][0] == "rate"
    assert figures("memory.rate", generation="ddr5", rate="DDR5-6000")["rate_label"] == "DDR5-6000"


@pytest.mark.parametrize("typed", ["16-18-18-38 2T 1.35V", "1.35V", "1,35 V", "1.35 volts", "DDR4-3200 1.35 V"])
def test_the_voltage_is_read_from_a_row_of_the_sticker(typed):
    assert figures("memory.mix", have_volts=typed, add_volts="1.35")["start_volts"] == 1.35


def test_two_voltages_in_one_row_are_not_chosen_between():
    assert messages("memory.mix", have_volts="1.2V 1.35V")[0][0] == "have_volts"


@pytest.mark.parametrize("typed", ["16GB", "16 GB 2Rx8", "2x16GB", "2 × 16 GB", "16G"])
def test_the_size_of_one_stick_is_read_from_a_label(typed):
    assert figures("memory.mix", add_size=typed)["total_gb"] == 48


def test_a_label_that_counts_other_sticks_is_told():
    assert messages("memory.mix", add_count=1, add_size="2x16GB") == [
        ("add_size", "Size of one stick says 2 sticks, but the number of sticks is 1: change one of the two.")
    ]


@pytest.mark.parametrize(
    ("typed", "ranks"), [("2Rx8", "2"), ("1R×16", "1"), ("1Rx8", "1"), ("dual rank", "2"), ("Single-rank", "1")]
)
def test_ranks_are_read_as_printed(typed, ranks):
    assert find("memory.mix").run({"have_ranks": typed}).values["have_ranks"] == ranks


def test_four_ranks_are_no_option():
    assert messages("memory.mix", have_ranks="4Rx4")[0][0] == "have_ranks"


@pytest.mark.parametrize("typed", ["16-18-18-38", "CL16", "16-18-18-38 2T 1.35V"])
def test_memory_rate_takes_the_first_of_the_timings(typed):
    assert figures("memory.rate", cas=typed)["latency_ns"] == 10


@pytest.mark.parametrize("typed", ["PC4-25600", "DDR4-3200"])
def test_memory_check_takes_a_label_for_the_bandwidth(typed):
    assert find("memory.check").run({"channel_gb_s": typed}).values["channel_gb_s"] == 25.6


@given(st.text(max_size=40))
def test_no_text_does_anything_but_read_or_pass(text):
    label = read_rate_label(text)
    assert label is None or label.generation in ("ddr3", "ddr4", "ddr5")
