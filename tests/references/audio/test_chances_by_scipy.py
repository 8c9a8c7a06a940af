"""Binomial chances against SciPy."""

from functools import cache
from typing import Any

import pytest

from calculators.audio.statistics.binomial import chance_of_at_least, chance_to_pass, needed
from calculators.catalogue import find

SCIPYS_OWN_ROUNDING = 1e-11


@cache
def binomial() -> Any:
    """SciPy's own; brought here, since each process of a run that collects these tests would bring all of SciPy."""
    from scipy.stats import binom

    return binom


@pytest.mark.parametrize("trials", [1, 2, 5, 8, 16, 25, 60, 333, 1000])
def test_every_score(trials):
    for right in range(0, trials + 1, max(1, trials // 50)):
        expected = binomial().sf(right - 1, trials, 0.5)
        assert chance_of_at_least(right, trials) == pytest.approx(expected, rel=SCIPYS_OWN_ROUNDING)
        figures = {f.key: f.value for f in find("audio.blind").run({"right": right, "trials": trials}).answer.figures}
        assert figures["chance_percent"] == pytest.approx(100 * expected, rel=SCIPYS_OWN_ROUNDING)


@pytest.mark.parametrize("heard", [0, 10, 60, 95, 100])
@pytest.mark.parametrize("trials", [5, 16, 24, 200])
def test_the_chance_to_pass(trials, heard):
    mark = needed(trials)
    expected = binomial().sf(mark - 1, trials, heard / 100 + (1 - heard / 100) / 2)
    assert chance_to_pass(mark, trials, heard) == pytest.approx(expected, rel=SCIPYS_OWN_ROUNDING)


def test_the_mark_is_where_scipy_puts_it():
    binom = binomial()
    for trials in range(5, 200):
        mark = needed(trials)
        expected = int(binom.isf(0.05, trials, 0.5)) + 1  # the first score whose own tail is at most 5 %
        assert mark in (expected, expected + 1), trials
        assert binom.sf(mark - 1, trials, 0.5) <= 0.05 < binom.sf(mark - 2, trials, 0.5), trials
