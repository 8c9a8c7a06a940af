"""Timing strings as they stand on stickers: 16-18-18-38, CL16 alone, and how else people type them."""

from __future__ import annotations

import re
from typing import NamedTuple

_PREFIX = re.compile(r"^(?:t?cl|cas|c)[\s:=-]*", re.I)
_COMMAND_RATE = re.compile(r"(?:[\s\-/,]+|^)[1-4]\s?[tn]$", re.I)
_VOLTAGE = re.compile(r"[\s/,@]+[12][.,][0-9]{1,3}\s?v(?:olts?)?$", re.I)
_BETWEEN = re.compile(r"\s*[-\u2010-\u2015\u2212/,;:.\s]\s*")
_COUNT = re.compile(r"[0-9]{1,4}")

MOST_CLOCKS = 400


class Timings(NamedTuple):
    """CAS latency and, where known, row to column, precharge and row active time. [clocks]"""

    cas: int
    trcd: int | None = None
    trp: int | None = None
    tras: int | None = None


def read_timings(text: str) -> Timings:
    """
    The timings in what somebody typed.

    A word such as CL before them, a command rate such as 2T and a voltage such as 1.35V after them may stand; a
    fifth number is the row cycle time, which the board works out by itself, and is left aside.

    Args:
        text: Such as "16-18-18-38", "CL16 18 18 38", "16-18-18" or "CL16". [text]

    Returns:
        The timings; only the CAS latency where one number stands, and without row active time where three do. [clocks]

    Raises:
        ValueError: With the reason, to follow 'must be …:'.

    Source:
        Common practice, no source: the order in which stickers print them.

    Example:
        >>> read_timings("CL16-18-18-38"), read_timings("CL16").trcd
        (Timings(cas=16, trcd=18, trp=18, tras=38), None)
    """
    timings_text = _VOLTAGE.sub("", text.strip())
    timings_text = _COMMAND_RATE.sub("", _PREFIX.sub("", timings_text).strip()).strip()
    parts = [p for p in _BETWEEN.split(timings_text) if p]
    for part in parts:
        if not _COUNT.fullmatch(part):
            raise ValueError(f"'{part[:20]}' is not a whole number of clocks")
    counts = [int(p) for p in parts]
    if len(counts) in (0, 2):
        raise ValueError(f"it needs the CAS latency alone or at least three numbers, and {_how_many(len(counts))}")
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
        timings: CAS latency and, where known, row to column, precharge and row active time. [clocks]

    Returns:
        Such as "16-18-18-38", or "CL16" where nothing else is known. [text]

    Source:
        Common practice, no source.

    Example:
        >>> write_timings(Timings(16, 18, 18)), write_timings(Timings(16))
        ('16-18-18', 'CL16')
    """
    if timings.trcd is None:
        return f"CL{timings.cas}"
    return "-".join(str(t) for t in timings if t is not None)


def _how_many(count: int) -> str:
    return "there is none" if count == 0 else f"there {'is' if count == 1 else 'are'} {count}"
