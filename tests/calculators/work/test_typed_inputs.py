"""Inputs of work as artists and editors type them: what is understood, and what is told to mean two things."""

import pytest

from calculators.catalogue import find
from calculators.desk.errors import InputErrors


def refused(name, **inputs):
    with pytest.raises(InputErrors) as caught:
        find(name).run(inputs)
    return {problem.input: problem.message for problem in caught.value.problems}


@pytest.mark.parametrize(
    ("name", "key", "typed", "value"),
    [
        ("work.scene", "texture_px", "4k", 4096),
        ("work.scene", "texture_px", "8 K", 8192),
        ("work.scene", "texture_px", "1.5k", 1536),
        ("work.scene", "triangles_m", "500k", 0.5),
        ("work.scene", "triangles_m", "2,5", 2.5),
        ("work.scene", "triangles_m", "3 million", 3),
        ("work.scene", "packing", "8:1", 8),
        ("work.lanes", "generation", "PCIe 4.0", 4),
        ("work.lanes", "generation", "gen 3", 3),
        ("work.lanes", "generation", "16 GT/s", 4),
        ("work.lanes", "generation", "5", 5),
        ("work.lanes", "lanes", "x8", "8"),
        ("work.lanes", "lanes", "16x", "16"),
        ("work.lanes", "lanes", "4 lanes", "4"),
        ("work.lanes", "gigabytes", "500 MB", 0.5),
        ("work.footage", "bits", "10 bit", "10"),
        ("work.footage", "bits", "10-bit", "10"),
        ("work.footage", "bits", 12, "12"),
        ("work.gain", "a_card", "twice", 2),
        ("work.gain", "a_card", "+50 %", 1.5),
        ("work.gain", "a_card", "30 percent faster", 1.3),
        ("work.gain", "a_card", "1.5x", 1.5),
        ("work.gain", "a_price", "1,299", 1299),
        ("work.gain", "hour_value", "$1,299", 1299),
        ("work.gain", "a_price", "12,5", 12.5),
        ("work.gain", "a_price", "1.299", 1.299),
    ],
)
def test_what_is_typed_is_understood(name, key, typed, value):
    assert find(name).run({key: typed}).values[key] == pytest.approx(value)


@pytest.mark.parametrize(
    ("name", "key", "typed", "says"),
    [
        ("work.gain", "a_card", "50%", "Write 1.5 for so much faster, or 0.5 for that part of today's speed."),
        ("work.scene", "triangles_m", "2500000", "for 2\u202f500\u202f000 write 2.5."),
        ("work.scene", "triangles_m", 2_500_000, "asked in millions"),
        ("work.scene", "texture_px", "64k", "from 16 to 32\u202f768 px"),
        ("work.lanes", "lanes", "x3", "got 'x3'"),
        ("work.lanes", "generation", "gen 9", "from 1 to 7"),
        ("work.lanes", "needs_gb_s", "7000", "from 0.01 to 300 GB/s"),
        ("work.footage", "bits", "14 bit", "got '14 bit'"),
    ],
)
def test_what_may_mean_two_things_or_nothing_is_told(name, key, typed, says):
    assert says in refused(name, **{key: typed})[key]
