"""Totals and clocks: the monitor standard's own timings, CTA-861's formats, and what any mode must keep to."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.errors import InputErrors
from calculators.trade.modes.cta_861 import FORMATS, find_format, nearest_formats, progressive, read_refresh
from calculators.trade.modes.cvt import cvt, sync_lines
from calculators.trade.modes.modes import mode
from calculators.trade.ratio import Ratio, decimal_ratio

VALUES = Path(__file__).parents[2] / "check_values"
DMT = tomllib.loads((VALUES / "vesa_dmt_cvt_modes.toml").read_text("utf-8"))
CTA = tomllib.loads((VALUES / "cta_861_formats.toml").read_text("utf-8"))

HALF_OF_THIRD_DECIMAL_MHZ = 0.0005  # clocks are printed with at most three decimals


def figures(**given: object) -> dict[str, float | str]:
    answer = find("display.timing").run(given).answer
    return {f.key: f.value for f in answer.figures}


@pytest.mark.parametrize(("width", "height", "refresh", "blanking", "h_total", "v_total", "clock_mhz"), DMT["rows"])
def test_published_monitor_timings(width, height, refresh, blanking, h_total, v_total, clock_mhz):
    found = figures(width=width, height=height, refresh=refresh, method=blanking)
    assert (found["h_total"], found["v_total"], found["pixel_clock_mhz"]) == (h_total, v_total, clock_mhz)


def test_the_clock_of_real_displays_for_2160_lines_at_60():
    assert figures(method="cvt-rb")["pixel_clock_mhz"] == DMT["uhd_60_reduced_mhz"]


@pytest.mark.parametrize(("vic", "width", "height", "refresh", "h_total", "v_total", "clock_mhz"), CTA["rows"])
def test_published_television_formats(vic, width, height, refresh, h_total, v_total, clock_mhz):
    entry = FORMATS[vic]
    assert (entry.width, entry.height, entry.refresh) == (width, height, refresh)
    found = figures(width=width, height=height, refresh=refresh, method="cta")
    assert (found["h_total"], found["v_total"], found["pixel_clock_mhz"]) == (h_total, v_total, clock_mhz)
    assert found["refresh_hz"] == refresh


@pytest.mark.parametrize(("vic", "width", "height", "refresh", "clock_mhz"), CTA["dropped_rows"])
def test_published_clocks_divided_by_1_001(vic, width, height, refresh, clock_mhz):
    found = figures(width=width, height=height, refresh=refresh, method="cta")
    assert found["pixel_clock_mhz"] == pytest.approx(clock_mhz, abs=HALF_OF_THIRD_DECIMAL_MHZ)
    assert (found["h_total"], found["v_total"]) == (FORMATS[vic].h_total, FORMATS[vic].v_total)


def test_the_table_covers_what_the_issue_names_and_no_two_timings_share_a_size_and_refresh():
    assert set(FORMATS) == set(range(1, 128)) | set(range(193, 220))
    keys = [(f.width, f.height, f.refresh) for f in progressive()]
    assert len(set(keys)) == len(keys) == 87


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        (60, (60, False)), (59.94, (60, True)), (59.9401, (60, True)), (23.976, (24, True)), (23.98, (24, True)),
        (29.97, (30, True)), (23.97, (24, True)), (47.95, (48, True)), (71.93, (72, True)),
        (239.76, (240, True)), (47.952, (48, True)), (119.88, (120, True)), (50, (50, False)), (59.95, None),
        (49.95, None), (24.5, None), (59.9, None),
    ],
)  # fmt: skip
def test_which_refresh_is_meant(typed, read):
    assert read_refresh(typed) == read


@pytest.mark.parametrize(
    ("given", "key", "words"),
    [
        (
            {"refresh": 144, "method": "cta"},
            "refresh",
            "the nearest listed format is 3840×2160 at 120",
        ),
        ({"width": 2560, "height": 1440, "method": "cta"}, "width", "nearest listed format is 2560×1080 at 60"),
        ({"h_total": 4000}, "v_total", "Give both totals, or neither"),
        ({"h_total": 3000, "v_total": 3000}, "h_total", "cannot be below the width, 3840"),
        ({"h_total": 4000, "v_total": 2000}, "v_total", "cannot be below the height, 2160"),
        (
            {"width": "wide"},
            "width",
            "from 64 to 16\u202f384 px, such as 3840, got 'wide'.",
        ),
        ({"width": 64, "height": 64, "refresh": 10}, "refresh", "no display takes less than about 5 MHz"),
        ({"refresh": 0}, "refresh", "Refresh must be a number from 10 to 1000 Hz, such as 60, got 0."),
    ],
)
def test_wrong_inputs_say_what_to_do(given, key, words):
    with pytest.raises(InputErrors) as caught:
        find("display.timing").run(given)
    assert [p.input for p in caught.value.problems] == [key]
    assert words in caught.value.problems[0].message


def test_typed_totals_make_the_clock_exactly():
    found = figures(width=2560, height=1440, refresh=74.97, h_total=2720, v_total=1481)
    assert found["pixel_clock_mhz"] == pytest.approx(2720 * 1481 * 74.97 / 1e6, rel=1e-12)


@pytest.mark.parametrize(
    ("typed", "whole"), [(59.94, 60), (23.976, 24), (23.98, 24), (23.97, 24), (119.88, 120), (143.856, 144)]
)
def test_a_rate_slowed_by_1000_over_1001_is_exact(typed, whole):
    exact = whole * 1000 / 1001
    found = figures(width=2560, height=1440, refresh=typed, h_total=2720, v_total=1481)
    assert found["pixel_clock_mhz"] == pytest.approx(2720 * 1481 * exact / 1e6, rel=1e-11)
    reduced = mode(2560, 1440, typed, "cvt-rb2")
    assert reduced.clock.value / 1000 == exact * reduced.h_total * reduced.v_total // 1000  # whole kHz, rounded down
    assert any(f"{whole} × 1000/1001" in n.text for n in find("display.timing").run({"refresh": typed}).answer.notes)


def test_every_width_is_rounded_to_eights_but_not_by_the_second_reduced_blanking():
    assert [mode(1366, 768, 60, b).width for b in ("cvt", "cvt-rb", "cvt-rb2")] == [1360, 1360, 1366]


def test_an_unknown_blanking_is_refused():
    with pytest.raises(ValueError, match="blanking must be one of cvt, cvt-rb, cvt-rb2, got gtf"):
        cvt(640, 480, Ratio(60_000_000, 1_000_000), "gtf")


MODES = st.tuples(
    st.integers(64, 16384), st.integers(64, 16384), st.integers(10_000, 1_000_000).map(lambda n: n / 1000)
)


@given(MODES, st.sampled_from(["cvt", "cvt-rb", "cvt-rb2"]))
@settings(max_examples=300)
def test_property_of_any_cvt_mode(size, blanking):
    width, height, refresh = size
    made = mode(width, height, refresh, blanking)
    step_khz = 1 if blanking == "cvt-rb2" else 250
    assert made.clock.over % (step_khz * 1000) == 0
    assert made.h_total > made.width <= width
    assert made.v_total > height
    # rounded down: never faster than asked, except that full blanking estimates the line first (below one line off)
    slack = 1.0 if blanking != "cvt" else 1 + 1 / height
    assert made.refresh.value <= refresh * slack * (1 + 1e-12)
    assert made.v_total - height >= (15 if blanking == "cvt-rb2" else 3 + sync_lines(made.width, height))


@given(st.integers(1, 10**9))
def test_round_trip_of_typed_decimals(millionths):
    assert decimal_ratio(millionths / 1_000_000).over == millionths


@given(MODES)
def test_property_the_nearest_formats_are_listed_ones_without_repetition(size):
    near = nearest_formats(*size)
    assert len({f.vic for f in near}) == 3
    assert all(find_format(f.width, f.height, f.refresh) == (f, False) for f in near)
