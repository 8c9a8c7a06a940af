"""How a cadence is said: its pattern, its verdict with a reason, and what it looks like."""

from __future__ import annotations

from calculators.desk.answer import DEPENDS, NO, YES, Verdict
from calculators.desk.numbers import number, plural
from calculators.motion.formulas.cadence import Cadence, holds
from calculators.motion.formulas.listed_rates import Listed
from calculators.motion.wording.shared import times_in_words
from calculators.trade.ratio import Ratio, smaller

_LONGEST_PATTERN = 12
_SHOWN = 8
_NEARLY_ONCE = Ratio(3, 4)  # a second; rarer than this is told by the time between


def pattern(cadence: Cadence) -> str:
    """For how many refreshes frames stand, one after another: '2-3', '2-2-3-2-3', '6-7-7 …', '1-1-1 … 2'."""
    if cadence.whole:
        return pattern_of_one(cadence.fewest())
    steady = cadence.steady
    if steady.under <= _LONGEST_PATTERN:
        return "-".join(str(hold) for hold in holds(steady, max(steady.under, 2)))
    shown = holds(steady, _SHOWN)
    if cadence.most() not in shown:  # a row of one number would look even
        return pattern_of_one(cadence.fewest()) + f" … {cadence.most()}"
    return "-".join(str(hold) for hold in shown) + " …"


def pattern_of_one(hold: int) -> str:
    """How frames that all stand alike are said: '5-5-5'."""
    return "-".join([str(hold)] * 3)


def word(cadence: Cadence) -> str:
    """The verdict's word: yes where all frames stand alike, depends where they do but for slips, else no."""
    if not cadence.whole:
        return NO
    return DEPENDS if cadence.slip_s is not None else YES


def seconds(cadence: Cadence) -> str:
    """The time between two slips in words, as long as it makes sense to say it."""
    if cadence.slip_s is None:
        return ""
    return _time(cadence.slip_s.value)


def _time(value_s: float) -> str:
    """A time in seconds, minutes or hours."""
    if value_s >= 5400:
        return f"{number(value_s / 3600, 1)} hours"
    return f"{number(value_s / 60, 0)} minutes" if value_s >= 300 else f"{number(value_s, 1)} s"


def how_often(cadence: Cadence, content: Ratio) -> str:
    """How often a frame stands otherwise than most do, in words: 'about 12 times a second', 'about every 1.6 s'."""
    part = cadence.steady.minus(Ratio(cadence.fewest()))
    each = content.by(smaller(part, Ratio(1).minus(part)))
    if each.below(_NEARLY_ONCE):
        return f"about every {_time(Ratio(1).per(each).value)}"
    times = each.plus(Ratio(1, 2)).floor()
    return f"about {times_in_words(times)} a second"


def left_out(cadence: Cadence) -> str:
    """How many frames are left out, in words: '12 frames a second are left out', 'about every 2 s one frame …'."""
    dropped = cadence.dropped
    if dropped.below(Ratio(1)):
        return f"about every {_time(Ratio(1).per(dropped).value)} one frame is left out"
    many = number(dropped.value, 2)
    return "1 frame a second is left out" if many == "1" else f"{many} frames a second are left out"


def slip(cadence: Cadence) -> str:
    """What happens at a slip, in words."""
    return "held one refresh longer" if cadence.longer else (
        "left out" if cadence.most() <= 1 else "held one refresh shorter")  # fmt: skip


def verdict(cadence: Cadence) -> Verdict:
    """The verdict with its reason."""
    if cadence.whole and cadence.slip_s is None:
        return Verdict(YES, f"Every frame stands for {plural(cadence.fewest(), 'refresh', 'refreshes')}.", "Evenly.")
    if cadence.whole:
        return Verdict(DEPENDS, f"Even, but about every {seconds(cadence)} one frame is {slip(cadence)}.", "Almost.")
    if cadence.dropped.over:
        return Verdict(NO, "The display has fewer refreshes than the film has frames.", "Not evenly.")
    if cadence.halves is not None:
        return Verdict(
            NO, f"Frames stand for {cadence.fewest()} and {cadence.most()} refreshes in turn.", "Not evenly."
        )
    return Verdict(NO, f"Frames stand for {cadence.fewest()} or {cadence.most()} refreshes by turns.", "Not evenly.")


def verdict_cut_short(cadence: Cadence, likelier: Cadence, listed: Listed) -> Verdict:
    """The verdict on a rate whose decimals were most likely cut off: as typed, with what is likelier beside it."""
    words = {YES: "even", DEPENDS: "even, with slips", NO: "uneven"}
    plain = verdict(cadence)
    also = ", too" if word(likelier) == plain.word else ""
    reason = (
        f"At exactly {number(listed.typed, 3)} Hz {words[plain.word]}. "
        f"It is likelier {number(listed.exact.value, 3)}: {words[word(likelier)]}{also}."
    )
    return Verdict(plain.word, reason, plain.says)


def rank(listed: Listed, cadence: Cadence, own: bool = False) -> tuple[int, int, float, int, float]:
    """A sort key for listed rates, best first: even, slips are rare, by halves, decimals are known, set now, fast."""
    order = (YES, DEPENDS, NO).index(word(cadence)) + (cadence.halves is None)
    rare = -cadence.slip_s.value if order == 1 and cadence.slip_s is not None else 0.0
    return order, int(listed.cut_from is not None), rare, int(not own), -listed.exact.value
