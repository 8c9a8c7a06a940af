"""How a cadence is said: its pattern, its verdict with a reason, and what it looks like."""

from __future__ import annotations

from calculators.desk.answer import DEPENDS, NO, YES, Verdict
from calculators.desk.numbers import number, plural
from calculators.motion.formulas.cadence import Cadence, holds
from calculators.motion.formulas.listed_rates import Listed

_LONGEST_PATTERN = 12
_SHOWN = 8


def pattern(found: Cadence) -> str:
    """For how many refreshes frames stand, one after another: '2-3', '2-2-3-2-3', '6-7-7 …'."""
    if found.whole:
        return "-".join([str(found.fewest())] * 3)
    steady = found.steady
    if steady.under <= _LONGEST_PATTERN:
        return "-".join(str(hold) for hold in holds(steady, max(steady.under, 2)))
    return "-".join(str(hold) for hold in holds(steady, _SHOWN)) + " …"


def word(found: Cadence) -> str:
    """The verdict's word: yes where all frames stand alike, depends where they do but for slips, else no."""
    if not found.whole:
        return NO
    return DEPENDS if found.slip_s is not None else YES


def seconds(found: Cadence) -> str:
    """The time between two slips in words, as long as it makes sense to say it."""
    if found.slip_s is None:
        return ""
    value = found.slip_s.value
    if value >= 5400:
        return f"{number(value / 3600, 1)} hours"
    return f"{number(value / 60, 0)} minutes" if value >= 300 else f"{number(value, 1)} s"


def slip(found: Cadence) -> str:
    """What happens at a slip, in words."""
    return "held one refresh longer" if found.longer else (
        "left out" if found.fewest() <= 1 else "held one refresh shorter")  # fmt: skip


def verdict(found: Cadence) -> Verdict:
    """The verdict with its reason."""
    if found.whole and found.slip_s is None:
        return Verdict(YES, f"Every frame stands for {plural(found.fewest(), 'refresh', 'refreshes')}.", "Evenly.")
    if found.whole:
        return Verdict(DEPENDS, f"Even, but about every {seconds(found)} one frame is {slip(found)}.", "Almost.")
    if found.dropped.over:
        return Verdict(NO, "The display has fewer refreshes than the film has frames.", "Not evenly.")
    if found.halves is not None:
        return Verdict(NO, f"Frames stand for {found.fewest()} and {found.most()} refreshes in turn.", "Not evenly.")
    return Verdict(NO, f"Frames stand for {found.fewest()} or {found.most()} refreshes by turns.", "Not evenly.")


def rank(listed: Listed, found: Cadence) -> tuple[int, int, float, float]:
    """A sort key for listed rates, best first: even, slips are rare, by halves, decimals are known, fast."""
    order = (YES, DEPENDS, NO).index(word(found)) + (found.halves is None)
    rare = -found.slip_s.value if order == 1 and found.slip_s is not None else 0.0
    return order, int(listed.cut_from is not None), rare, -listed.exact.value
