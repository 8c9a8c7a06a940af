"""memory.check: bytes over bandwidth, reckoned a second way, and how it is worded."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.memory.amounts.test_times import EFFICIENCY, SWEEPS, hours_of_testing

CHECK = find("memory.check")
LAST_BITS = 1e-12  # of a double, after five operations
TWELVE_DIGITS = 1e-11  # a figure leaves the calculator with twelve significant digits


def run(**inputs):
    answer = CHECK.run(inputs).answer
    return answer, {f.key: f.value for f in answer.figures}


def test_hours_are_bytes_over_bandwidth():
    _, figures = run(total_gb=32, channel_gb_s=25.6, channels=2, passes=4)
    bytes_in_all = 32 * 1_073_741_824 * 4
    assert figures["hours_low"] == pytest.approx(bytes_in_all * SWEEPS[0] / 25.6e9 / 3600, rel=TWELVE_DIGITS)
    assert figures["hours_high"] == pytest.approx(bytes_in_all * SWEEPS[1] / 10.24e9 / 3600, rel=TWELVE_DIGITS)
    assert EFFICIENCY == (0.5, 0.2)


@given(st.floats(0.25, 16384), st.floats(0.5, 1000), st.integers(1, 12), st.integers(1, 50))
def test_twice_the_passes_take_twice_as_long(total, channel, channels, passes):
    once = hours_of_testing(total, channel, channels, passes, SWEEPS[0], EFFICIENCY[0])
    twice = hours_of_testing(total, channel, channels, 2 * passes, SWEEPS[0], EFFICIENCY[0])
    assert twice == pytest.approx(2 * once, rel=LAST_BITS)


@given(st.floats(0.25, 16384), st.floats(0.5, 1000), st.integers(1, 12), st.integers(1, 100))
def test_the_range_is_a_range(total, channel, channels, passes):
    _, figures = run(total_gb=total, channel_gb_s=channel, channels=channels, passes=passes)
    assert 0 < figures["hours_low"] < figures["hours_high"]
    assert figures["pass_hours_low"] <= figures["hours_low"]


@pytest.mark.parametrize(
    ("inputs", "said"),
    [
        ({}, "Plan 36 minutes to 3.7 hours for 4 full passes over 32 GB"),
        ({"total_gb": 1, "passes": 1, "channel_gb_s": 1000, "channels": 12}, "Plan 1 minute for 1 full pass over 1 GB"),
        ({"total_gb": 128, "passes": 8}, "Plan 4.8 to 30 hours for 8 full passes over 128 GB"),
    ],
)
def test_the_time_is_said_as_one_says_it(inputs, said):
    assert run(**inputs)[0].headline.startswith(said)


def test_one_error_is_a_fail_and_the_backup_comes_first():
    answer, _ = run()
    assert answer.headline.endswith("count a single error as a fail.")
    assert answer.steps[0].key == "back-up"
    assert [s.standing for s in answer.sources[:3]] == ["common practice"] * 3
