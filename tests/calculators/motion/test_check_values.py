"""Published figures: cadences, periods, blur, polling, slowed rates, repeats. Sources stand in check_values."""

import tomllib
from fractions import Fraction
from pathlib import Path

import pytest

from calculators.catalogue import find
from calculators.motion.formulas.cadence import cadence, holds
from calculators.trade.frame_rates import exact_rate


def load(name):
    return tomllib.loads((Path(__file__).parents[2] / "check_values" / f"{name}.toml").read_text("utf-8"))


CADENCES, PERIODS, BLUR = load("film_cadences"), load("refresh_periods"), load("hold_type_blur")
POLLING, SLOWED, REPEATS = load("usb_polling"), load("slowed_rates"), load("adaptive_repeats")
ALL = (CADENCES, PERIODS, BLUR, POLLING, SLOWED, REPEATS)

# Binary fractions cannot hold half of a printed digit, so a billionth is added to each.
HALF_A_UNIT, HALF_A_TENTH, HALF_A_HUNDREDTH = 0.5 + 1e-9, 0.05 + 1e-9, 0.005 + 1e-9
HALF_A_THOUSANDTH = 0.0005 + 1e-9
SETTLED = 1e-11  # a figure holds 12 significant digits


def figures(name, **inputs):
    return {f.key: f.value for f in find(name).run(inputs).answer.figures}


def rows_in(part):
    return sum(len(v) for k, v in part.items() if isinstance(v, list)) + sum(
        rows_in(v) for v in part.values() if isinstance(v, dict)
    )


def test_there_are_forty_check_values_that_were_not_computed_here():
    published = sum(rows_in({k: v for k, v in source.items() if k != "own"}) for source in ALL)
    assert published >= 40
    for source in ALL:
        assert {"title", "publisher", "edition", "where", "standing", "fetched"} <= set(source)
        assert "own" not in source or source["own"]["standing"] == "arithmetic of our own"


@pytest.mark.parametrize(("content", "rate", "shortest", "longest"), CADENCES["stands"])
def test_published_times_of_frames(content, rate, shortest, longest):
    ours = figures("motion.film", content=content, rate=rate)
    assert ours["shortest_ms"] == pytest.approx(shortest, abs=HALF_A_UNIT)
    assert ours["longest_ms"] == pytest.approx(longest, abs=HALF_A_UNIT)


@pytest.mark.parametrize(("content", "rate", "shortest", "longest"), CADENCES["own"]["stands"])
def test_times_of_frames_worked_by_hand(content, rate, shortest, longest):
    ours = figures("motion.film", content=content, rate=rate)
    assert ours["shortest_ms"] == pytest.approx(shortest, abs=HALF_A_THOUSANDTH)
    assert ours["longest_ms"] == pytest.approx(longest, abs=HALF_A_THOUSANDTH)


@pytest.mark.parametrize(("content", "rate", "pattern"), CADENCES["patterns"])
def test_published_patterns(content, rate, pattern):
    found = cadence(exact_rate(float(content)), exact_rate(rate))
    ours = holds(found.steady, len(pattern))
    assert ours in [pattern[i:] + pattern[:i] for i in range(len(pattern))]
    verdict = find("motion.film").run({"content": content, "rate": rate}).answer.verdict
    assert verdict.word == ("yes" if len(set(pattern)) == 1 else "no")


@pytest.mark.parametrize(("content", "rate", "over", "under"), CADENCES["own"]["ratios"])
def test_ratios_are_exact(content, rate, over, under):
    ratio = cadence(exact_rate(float(content)), exact_rate(rate)).ratio
    assert Fraction(ratio.over, ratio.under) == Fraction(over, under)
    assert figures("motion.film", content=content, rate=rate)["ratio"] == pytest.approx(over / under, rel=SETTLED)


@pytest.mark.parametrize(("content", "rate", "seconds"), CADENCES["own"]["slips"])
def test_slips(content, rate, seconds):
    assert figures("motion.film", content=content, rate=rate)["slip_s"] == pytest.approx(seconds, abs=HALF_A_TENTH)


def test_no_slip_where_the_rates_are_exact_multiples():
    for content, rate in (("23.976", 59.94), ("24", 120), ("23.976", 119.88), ("29.97", 59.94), ("25", 50)):
        assert "slip_s" not in figures("motion.film", content=content, rate=rate)


@pytest.mark.parametrize(("rate", "milliseconds"), PERIODS["rows"] + PERIODS["own"]["rows"])
def test_periods(rate, milliseconds):
    ours = figures("motion.hertz", rate_a=rate, rate_b=1000)
    assert ours["frame_ms_a"] == pytest.approx(milliseconds, abs=HALF_A_HUNDREDTH)
    assert ours["gain_ms"] == pytest.approx(ours["frame_ms_a"] - 1, abs=1e-9)


@pytest.mark.parametrize(("speed", "rate", "lit", "pixels"), BLUR["rows"] + BLUR["own"]["rows"])
def test_blur(speed, rate, lit, pixels):
    ours = figures("motion.hertz", rate_b=rate, frames=2000, speed=speed, lit=lit)
    printed_to = HALF_A_UNIT if [speed, rate, lit, pixels] in BLUR["rows"] else 1e-9
    assert ours["blur_px_b"] == pytest.approx(pixels, abs=printed_to)
    if lit == 100:
        assert ours["step_px_b"] == ours["blur_px_b"]


@pytest.mark.parametrize(("polls", "milliseconds"), POLLING["intervals"])
def test_polling_intervals(polls, milliseconds):
    assert 2 * figures("motion.delay", poll_hz=polls)["poll_ms"] == pytest.approx(milliseconds, rel=SETTLED)


@pytest.mark.parametrize(("polls", "milliseconds"), POLLING["means"])
def test_mean_waits_of_polling(polls, milliseconds):
    assert figures("motion.delay", poll_hz=polls)["poll_ms"] == pytest.approx(milliseconds, rel=SETTLED)


@pytest.mark.parametrize(("exponent", "polls"), POLLING["high_speed"])
def test_intervals_of_high_speed_usb(exponent, polls):
    microseconds = 2 ** (exponent - 1) * 125
    assert figures("motion.delay", poll_hz=polls)["poll_ms"] == pytest.approx(microseconds / 2000, rel=SETTLED)


@pytest.mark.parametrize(("typed", "whole"), SLOWED["rows"])
def test_slowed_rates(typed, whole):
    exact = exact_rate(float(typed))
    assert Fraction(exact.over, exact.under) == Fraction(whole * 1000, 1001)
    assert "slip_s" not in figures("motion.film", content=typed, rate=typed)


@pytest.mark.parametrize(("low", "high", "repeats"), REPEATS["ranges"])
def test_which_ranges_a_driver_repeats_on(low, high, repeats):
    frames = low * 3 // 5  # twice that lies above the bottom
    answer = find("motion.adaptive").run({"low": low, "high": high, "frames": frames}).answer
    assert (answer.verdict.word == "yes") == repeats
    assert ("gap_low_fps" in {f.key for f in answer.figures}) != repeats


@pytest.mark.parametrize(("low", "high", "frames", "repeats", "refresh"), REPEATS["own"]["rows"])
def test_repeats(low, high, frames, repeats, refresh):
    ours = figures("motion.adaptive", low=low, high=high, frames=frames)
    assert ours.get("repeats", 0) == repeats
    assert ours.get("refresh_hz", 0) == refresh
