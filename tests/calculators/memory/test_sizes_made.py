"""Which sizes a generation has: the standards' densities, and sizes that no stick of the generation has."""

import tomllib
from pathlib import Path

import pytest

from calculators.memory.kits.sizes_made import DENSITIES, kits_of, sizes_made

VALUES = Path(__file__).parents[2] / "check_values"
CHIPS = tomllib.loads((VALUES / "jedec_chip_densities.toml").read_text("utf-8"))


@pytest.mark.parametrize(("generation", "least", "most"), CHIPS["rows"])
def test_published_densities(generation, least, most):
    assert (min(DENSITIES[generation]), max(DENSITIES[generation])) == (least, most)


def test_published_largest_ddr3_module():
    assert max(sizes_made("ddr3")) == CHIPS["ddr3_most_gb"]


@pytest.mark.parametrize(
    ("generation", "missing"), [("ddr4", (7, 12, 24, 48, 64)), ("ddr3", (7, 12, 24, 32)), ("ddr5", (2, 7, 40, 96))]
)
def test_sizes_that_a_generation_does_not_have(generation, missing):
    assert not set(missing) & set(sizes_made(generation))


@pytest.mark.parametrize(
    ("generation", "sold"),
    [("ddr3", (2, 4, 8, 16)), ("ddr4", (4, 8, 16, 32)), ("ddr5", (8, 12, 16, 24, 32, 48, 64))],
)
def test_sizes_that_are_sold(generation, sold):
    assert set(sold) <= set(sizes_made(generation))


def test_registered_sticks_go_on_to_larger_sizes():
    assert {64, 128} <= set(sizes_made("ddr4", "registered"))
    assert 96 in sizes_made("ddr5", "registered")
    assert 24 not in sizes_made("ddr4", "registered")


@pytest.mark.parametrize("generation", ["ddr3", "ddr4", "ddr5"])
def test_a_kit_is_of_sticks_that_are_made_and_makes_its_total(generation):
    for total in range(1, 300):
        for count, size in kits_of(generation, total):
            assert count * size == total
            assert size in sizes_made(generation)
