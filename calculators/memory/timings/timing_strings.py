"""Timing strings as they stand on stickers: 16-18-18-38 and how else people type it."""

from __future__ import annotations

import re
from typing import NamedTuple

_PREFIX = re.compile(r"^(?:t?cl|cas|c)[\s:=-]*", re.I)
_COMMAND_RATE = re.compile(r"(?:[\s\-/,]+|^)[1-4]\s?[tn]$", re.I)
_BETWEEN = re.compile(r"\s*[-\u2010-\u2015\u2212/,;:.\s]\s*")
_COUNT = re.compile(r"[0-9]{1,4}")

MOST_CLOCKS = 400


class Timings(NamedTuple):
    """CAS latency, row to column, precharge and, where known, row active time. [clocks]"""

    cas: int
    trcd: int
    trp: int
    tras: int | None = None


def read_timings(text: str) -> Timings:
    """
    The timings in what somebody typed.

    A word such as CL before them and a command rate such as 2T after them may stand; a fifth number is the
    row cycle time, which the board works out by itself, and is left aside.

    Args:
        text: Such as "16-18-18-38", "CL16 18 18 38" or "16-18-18". [text]

    Returns:
        The timings; without row active time where only three numbers stand. [clocks]

    Raises:
        ValueError: With the reason, to follow 'must be …:'.

    Source:
        Common practice, no source: the order in which stickers print them.

    Example:
        >>> read_timings("CL16-18-18-38")
        Timings(cas=16, trcd=18, trp=18, tras=38)
    """
    bare = _COMMAND_RATE.sub("", _PREFIX.sub("", text.strip()).strip()).strip()
    parts = [p for p in _BETWEEN.split(bare) if p]
    for part in parts:
        if not _COUNT.fullmatch(part):
            raise ValueError(f"'{part[:20]}' is not a whole number of clocks")
    counts = [int(p) for p in parts]
    if len(counts) < 3:
        raise ValueError(f"it needs at least the first three numbers, and {_how_many(len(counts))}")
    if len(counts) > 5:
        raise ValueError(f"the first four numbers will do, and {_how_many(len(counts))}")
    for count in counts:
        if not 1 <= count <= MOST_CLOCKS:
            raise ValueError(f"each number is from 1 to {MOST_CLOCKS} clocks, and {count} is not")
    return Timings(*counts[:4])


def write_timings(timings: Timings) -> str:
    """
    The one way in which timings are written.

    Args:
        timings: CAS latency, row to column, precharge and perhaps row active time. [clocks]

    Returns:
        Such as "16-18-18-38". [text]

    Raises:
        Nothing.

    Source:
        Common practice, no source.

    Example:
        >>> write_timings(Timings(16, 18, 18))
        '16-18-18'
    """
    return "-".join(str(t) for t in timings if t is not None)


def _how_many(count: int) -> str:
    return "there is none" if count == 0 else f"there {'is' if count == 1 else 'are'} {count}"
