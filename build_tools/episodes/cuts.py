"""Pieces cut out of a recording, read as people type them. Knows times; knows no sheet."""

from __future__ import annotations

import re

from build_tools.episodes import clock

MOST = 500
# A hyphen, the dashes and the minus sign of Unicode, an arrow, or a word.
_BETWEEN = re.compile(r"\s*(?:[-\u2010-\u2015\u2212\u2192~]|\b(?:to|until|till)\b|\.\.+)\s*", re.IGNORECASE)
_FROM = re.compile(r"^\s*from\s+", re.IGNORECASE)


def cuts_of(text: str) -> list[tuple[float, float]]:
    """
    The pieces in a text: one a line, or several with commas or semicolons between.

    Args:
        text: Such as "5:10-5:40", "5:10–5:40" or "from 5:10 to 5:40". [text]

    Returns:
        Each piece, from and to in the recording's own time. [s]

    Raises:
        ValueError: A piece cannot be read, or ends before it begins; the text says which one.

    Example:
        >>> cuts_of("5:10-5:40; 6:00 to 1:02:03")
        [(310.0, 340.0), (360.0, 3723.0)]
    """
    cuts = []
    for piece in re.split(r"[\n,;]", text):
        if not piece.strip():
            continue
        parts = _BETWEEN.split(_FROM.sub("", piece.strip()))
        if len(parts) != 2:
            raise ValueError(f"A piece cut out is written 5:10-5:40; '{piece.strip()[:40]}' cannot be read.")
        try:
            begin, end = (float(clock.seconds(part)) for part in parts)
        except ValueError as problem:
            raise ValueError(f"A piece cut out is written 5:10-5:40; in '{piece.strip()[:40]}' {problem}.") from None
        if not end > begin:
            raise ValueError(f"A piece cut out goes from an earlier to a later time; '{piece.strip()[:40]}' does not.")
        cuts.append((begin, end))
    if len(cuts) > MOST:
        raise ValueError(f"At most {MOST} pieces can be cut out.")
    return cuts
