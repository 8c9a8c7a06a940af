"""Where a frame rate lies against a display's adaptive range, and which frame rates fall into gaps."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.trade.ratio import Ratio

IN, REPEATED, GAP, ABOVE = "in", "repeated", "gap", "above"
_LEAST = Ratio(1)


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of frame rates that fare alike: in the range, repeated, in a gap, or above. times: how often shown."""

    low: Ratio
    high: Ratio
    kind: str
    times: int = 1


def stretches(low: Ratio, high: Ratio) -> list[Stretch]:
    """
    The frame rates from 1 up to 1.2 times the range's top, cut where they begin to fare differently.

    Args:
        low: Bottom of the range. [Hz], at least 1.
        high: Top of the range. [Hz], at least low.

    Returns:
        The stretches, upwards, without empty ones. Neighbours that are both repeated stand as one. [list]

    Source:
        Arithmetic: m times a rate lies in the range where the rate lies between low/m and high/m.

    Example:
        >>> [(s.low.value, s.high.value, s.kind) for s in stretches(Ratio(40), Ratio(60))][-3:]
        [(30.0, 40.0, 'gap'), (40.0, 60.0, 'in'), (60.0, 72.0, 'above')]
    """
    downwards = [Stretch(high, high.times(6, 5), ABOVE), Stretch(low, high, IN)]
    times, edge = 2, low
    while _LEAST.below(edge):
        bottom, top = low.times(1, times), high.times(1, times)
        if top.below(edge):
            start = top if _LEAST.below(top) else _LEAST
            downwards.append(Stretch(start, edge, GAP))
            edge = start
            if not _LEAST.below(edge):
                break
        below = bottom if _LEAST.below(bottom) else _LEAST
        if below.below(edge):
            last = downwards[-1]
            if last.kind == REPEATED:
                downwards[-1] = Stretch(below, last.high, REPEATED, last.times)
            else:
                downwards.append(Stretch(below, edge, REPEATED, times))
            edge = below
        times += 1
    return [s for s in reversed(downwards) if s.low.below(s.high)]
