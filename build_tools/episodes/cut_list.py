"""Which pieces of a recording the video holds, and where each lands in it. Knows times; knows no sheet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece that is kept: from and to in the recording's own time, and where it begins in the video. [s]"""

    begins: float
    ends: float
    lands: float


def merged(cuts_s: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """The cuts in order, overlapping ones as one."""
    cuts: list[tuple[float, float]] = []
    for begin, end in sorted(cuts_s):
        if cuts and begin <= cuts[-1][1]:
            cuts[-1] = (cuts[-1][0], max(end, cuts[-1][1]))
        else:
            cuts.append((begin, end))
    return cuts


def pieces(lead_s: float, cuts_s: Sequence[tuple[float, float]], length_s: float) -> list[Piece]:
    """
    The pieces that are kept, in order.

    Args:
        lead_s: How long after the recording the video begins. [s]
        cuts_s: Pieces cut out, in the recording's own time. [s]
        length_s: How long the video is. [s]

    Returns:
        Each with from and to in the recording, and where it lands in the video; together they are as long as that.

    Source:
        Arithmetic.

    Example:
        >>> [(p.begins, p.ends, p.lands) for p in pieces(5, [(310, 340)], 600)]
        [(5, 310, 0.0), (340, 635.0, 305.0)]
    """
    left = []
    at, lands = lead_s, 0.0
    for begin, end in merged(cuts_s):
        length = min(begin - at, length_s - lands)
        if length > 0:
            left.append(Piece(at, at + length, lands))
            lands += length
        at = max(at, end)
    if length_s > lands:
        left.append(Piece(at, at + length_s - lands, lands))
    return left
