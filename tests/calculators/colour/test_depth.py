"""Bits a channel: shades and colours, HDR's curve at published levels, and the largest step against a full count."""

from __future__ import annotations

import tomllib
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.colour.signals.transfer_functions import (
    DARKEST,
    gamma_shown,
    pq_luminance,
    pq_shown,
    pq_signal,
    steps_percent,
    threshold_percent,
)
from calculators.desk.errors import InputErrors

PQ = tomllib.loads((Path(__file__).parents[2] / "check_values/bt_2408_pq_levels.toml").read_text("utf-8"))

HALF_A_PERCENT = 0.5  # the levels are printed without decimals
SETTLED = 1e-11  # figures keep 12 significant digits


def values(**given: object) -> dict[str, float | str]:
    return {f.key: f.value for f in find("colour.depth").run(given).answer.figures}


@pytest.mark.parametrize(("luminance", "percent"), PQ["rows"])
def test_published_levels_of_pq(luminance, percent):
    assert 100 * pq_signal(luminance) == pytest.approx(percent, abs=HALF_A_PERCENT)


@pytest.mark.parametrize(
    ("depth", "shades", "colours", "bits"),
    [(6, 64, 262_144, 18), (8, 256, 16_777_216, 24), (10, 1024, 1_073_741_824, 30), (12, 4096, 68_719_476_736, 36)],
)
def test_shades_colours_and_bits(depth, shades, colours, bits):
    found = values(depth=depth)
    assert (found["shades"], found["colours"], found["bits_per_pixel"]) == (shades, colours, bits)


def largest_by_counting(ramp: list[float]) -> float:
    return max((100 * (high - low) / low for low, high in pairwise(ramp) if low >= DARKEST), default=0.0)


@given(
    st.sampled_from([6, 8, 10]), st.booleans(), st.floats(1, 3), st.floats(1, 10000),
    st.one_of(st.just(0.0), st.floats(0.0001, 0.9)),
)  # fmt: skip
@settings(max_examples=60, deadline=None)
def test_property_the_largest_step_is_found_without_walking_every_code(depth, pq, gamma, peak, black):
    def shown(code: int) -> float:
        return pq_shown(code, depth, peak, black) if pq else gamma_shown(code, depth, gamma, peak, black)

    ramp = [shown(code) for code in range(1 << depth)]
    largest = max((size for _, size in steps_percent(shown, depth)), default=0.0)
    assert largest == pytest.approx(largest_by_counting(ramp), rel=SETTLED, abs=SETTLED)


def test_the_largest_step_of_the_worked_example():
    ramp = [0.25 + 249.75 * (code / 255) ** 2.2 for code in range(256)]
    assert values()["largest_step_percent"] == pytest.approx(largest_by_counting(ramp), rel=SETTLED)


@pytest.mark.parametrize("signal", ["gamma", "pq"])
def test_more_bits_make_finer_steps(signal):
    sizes = [values(depth=depth, signal=signal)["largest_step_percent"] for depth in (6, 8, 10, 12)]
    assert sizes == sorted(sizes, reverse=True)
    assert len(set(sizes)) == 4


@given(st.floats(0.001, 1))
def test_round_trip_of_pq(signal):
    assert pq_signal(pq_luminance(signal)) == pytest.approx(signal, rel=1e-9)


@given(st.floats(0.001, 5000))
def test_property_a_darker_surround_needs_a_larger_step(luminance):
    assert threshold_percent(luminance) > threshold_percent(2 * luminance)


def test_what_32_bit_in_a_system_means_is_said():
    notes = find("colour.depth").run({}).answer.notes
    assert "8 bits each for red, green and blue, 24 in all" in notes[0].text


def test_stops_are_doublings_and_the_clip_is_the_signal_of_the_peak():
    found = values(depth=10, signal="pq", peak=1024, black=1)
    assert found["stops"] == pytest.approx(10)
    assert found["clip_percent"] == pytest.approx(100 * pq_signal(1024))
    assert "stops" not in values(black=0)
    assert "clip_percent" not in values(signal="gamma")


def test_black_must_be_darker_than_white():
    with pytest.raises(InputErrors, match="Black must be darker than white: below 10 cd/m²"):
        values(peak=10, black=10)


def test_a_display_too_dark_to_judge_gets_no_step_figure():
    found = find("colour.depth").run({"peak": 1, "black": 0.9999999999}).answer
    assert all(f.value == f.value for f in found.figures)
