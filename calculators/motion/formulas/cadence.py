"""
How a film's frames fall on a display's refreshes: the cadence, how long frames stand, and when the two slip.

Exact ratios throughout: 23.976 in 59.94 is exactly two and a half, and nothing is decided on a last bit.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from calculators.trade.ratio import Ratio

# How far a ratio may be from a whole or half number and still be seen as that with a slip now and then: half a percent
# of it, and at most a twentieth of a refresh. This project's own rule.
_SHARE = Ratio(5, 1000)
_MOST = Ratio(1, 20)


@dataclass(frozen=True, slots=True)
class Cadence:
    """
    How frames fall on refreshes. ratio: refreshes a frame. halves: the cadence in half refreshes, or None.

    slip_s: seconds between two slips, or None where there is none. longer: at a slip a frame stands longer.
    dropped: frames a second for which there is no refresh.
    """

    ratio: Ratio
    halves: int | None
    slip_s: Ratio | None
    longer: bool
    dropped: Ratio
    refresh: Ratio

    @property
    def whole(self) -> bool:
        """Whether every frame stands for the same number of refreshes, but for slips."""
        return self.halves is not None and self.halves % 2 == 0

    @property
    def steady(self) -> Ratio:
        """Refreshes a frame without its slips."""
        return self.ratio if self.halves is None else Ratio(self.halves, 2)

    def fewest(self) -> int:
        """Refreshes for which the shortest frame stands; 0 where frames are left out."""
        return self.steady.floor()

    def most(self) -> int:
        """Refreshes for which the longest frame stands."""
        return self.steady.ceiling()

    def shortest_ms(self) -> Ratio:
        """How long the shortest frame stands. [ms]"""
        return Ratio(1000 * self.fewest()).per(self.refresh)

    def longest_ms(self) -> Ratio:
        """How long the longest frame stands. [ms]"""
        return Ratio(1000 * self.most()).per(self.refresh)


def cadence(content: Ratio, rate: Ratio) -> Cadence:
    """
    How a film's frames fall on a display's refreshes.

    Args:
        content: Frames a second of the film. [1/s], above 0.
        rate: Refreshes a second of the display. [Hz], above 0.

    Returns:
        The cadence: the nearest multiple of a half, at least a half, if the ratio is within half a percent and a
        twentieth of it; else none. [object]

    Source:
        Arithmetic; the bounds of half a percent and a twentieth are this project's own rule.

    Example:
        >>> cadence(Ratio(24), Ratio(60)).halves, cadence(Ratio(25), Ratio(60)).halves
        (5, None)
    """
    ratio = rate.per(content).reduced()
    halves = max(ratio.times(2).plus(Ratio(1, 2)).floor(), 1)
    near = Ratio(halves, 2)
    off = ratio.minus(near).size()
    even = off.fits(near.by(_SHARE)) and off.fits(_MOST)
    over = rate.minus(near.by(content))
    dropped = content.minus(rate)
    return Cadence(
        ratio=ratio,
        halves=halves if even else None,
        slip_s=Ratio(1).per(over.size()) if even and over.over else None,
        longer=over.over > 0,
        dropped=dropped if dropped.over > 0 else Ratio(0),
        refresh=rate,
    )


def holds(steady: Ratio, count: int) -> list[int]:
    """
    For how many refreshes each of the first frames stands.

    Args:
        steady: Refreshes a frame. [1], above 0.
        count: How many frames. [1]

    Returns:
        Refreshes of each frame, shape (count,); 0 where a frame is left out. [list]

    Source:
        Arithmetic: each frame begins on the last refresh that is due by then.

    Example:
        >>> holds(Ratio(12, 5), 5), holds(Ratio(5, 2), 4)
        ([2, 2, 3, 2, 3], [2, 3, 2, 3])
    """
    edges = [steady.times(i).floor() for i in range(count + 1)]
    return [after - before for before, after in pairwise(edges)]


def repeats(content: Ratio, low: Ratio, high: Ratio) -> int | None:
    """
    How often an adaptive display shows each frame: the fewest times that bring it into its range.

    Args:
        content: Frames a second. [1/s], above 0.
        low: Bottom of the range. [Hz], above 0.
        high: Top of the range. [Hz]

    Returns:
        The smallest whole number of times, or None where no multiple lies in the range. [1]

    Source:
        Arithmetic. That drivers repeat frames so: a graphics driver in the Linux kernel, its change 'below the range
        support', whose description was read.

    Example:
        >>> repeats(Ratio(35), Ratio(48), Ratio(144)), repeats(Ratio(32), Ratio(40), Ratio(60))
        (2, None)
    """
    times = max(low.per(content).ceiling(), 1)
    return times if content.times(times).fits(high) else None
