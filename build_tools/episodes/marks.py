"""
Marks: moments noted while recording, and the start times that they become in the finished video.

A mark is a moment of the day; the video begins at some moment and may have pieces cut out.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from pathlib import Path

from build_tools import keeping
from build_tools.episodes import clock
from build_tools.markdown_blocks.places import front_matter_lines

_START = re.compile(r"^(\s*)-?\s*start:\s*.*$")
_SEGMENT = re.compile(r"^(\s*)-\s+(\w+):")


class CannotWrite(ValueError):
    """The sheet is as it was; the text says why."""


def starts(marks_s: Mapping[int, float], began_s: float, cuts_s: Sequence[tuple[float, float]] = ()) -> dict[int, int]:
    """
    Where each marked segment starts in the finished video.

    Args:
        marks_s: Moment of each segment's mark, by the segment's number. [s]
        began_s: Moment at which the recording began. [s]
        cuts_s: Pieces cut out, each from and to in the recording's own time. [s]

    Returns:
        Start times by segment, whole seconds, never below 0; a mark inside a cut starts where the cut was. [s]

    Raises:
        ValueError: A cut ends before it begins.

    Source:
        Arithmetic.

    Example:
        >>> starts({1: 100.0, 2: 190.4}, 95.0, [(20.0, 50.0)])
        {1: 5, 2: 65}
    """
    for begin, end in cuts_s:
        if not end > begin:
            raise ValueError(f"a cut goes from an earlier to a later time, got {clock.worded(int(begin))} to "
                             f"{clock.worded(int(end))}")  # fmt: skip
    found = {}
    for number, moment in sorted(marks_s.items()):
        at = max(moment - began_s, 0.0)
        gone = sum(max(0.0, min(at, end) - begin) for begin, end in _merged(cuts_s) if begin < at)
        found[number] = int(at - gone)
    return found


def _merged(cuts_s: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """The cuts in order, overlapping ones as one."""
    merged: list[tuple[float, float]] = []
    for begin, end in sorted(cuts_s):
        if merged and begin <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(end, merged[-1][1]))
        else:
            merged.append((begin, end))
    return merged


def write_starts(path: Path, times_s: Mapping[int, int]) -> str:
    """
    Put start times into an episode sheet, leaving every other line as it is.

    Args:
        path: The sheet. [path]
        times_s: Start times by segment. [s]

    Returns:
        The sheet's new text, as written. [text]

    Raises:
        CannotWrite: The sheet has no such segment, or its segments are not written one key a line.
        CannotKeep: The sheet could not be written.

    Source:
        None.

    Example:
        >>> write_starts  # doctest: +ELLIPSIS
        <function write_starts at ...>
    """
    return keeping.change(path, lambda text: _with_starts(text, path.name, times_s))


def _with_starts(text: str, name: str, times_s: Mapping[int, int]) -> str:
    count = front_matter_lines(text)
    lines = text.split("\n")
    head = lines[:count]
    opens = _segment_lines(head)
    missing = [n for n in times_s if n > len(opens)]
    if missing:
        raise CannotWrite(f"{name} has {len(opens)} segments, so there is no segment {missing[0]}")
    for number in sorted(times_s, reverse=True):  # from the end, so that lines above keep their places
        _set_start(head, opens, number, clock.worded(times_s[number]))
    return "\n".join([*head, *lines[count:]])


def _segment_lines(head: list[str]) -> list[int]:
    """The lines on which the segments begin, in order."""
    opens: list[int] = []
    indent: int | None = None
    inside = False
    for i, line in enumerate(head):
        if re.match(r"segments:\s*$", line):
            inside = True
            continue
        if inside and re.match(r"\w", line):
            break
        match = _SEGMENT.match(line) if inside else None
        if match:
            indent = len(match[1]) if indent is None else indent
            if len(match[1]) == indent:
                opens.append(i)
    if not opens:
        raise CannotWrite("the sheet's segments are not written one key a line under 'segments:'")
    return opens


def _set_start(head: list[str], opens: list[int], number: int, time: str) -> None:
    first = opens[number - 1]
    end = opens[number] if number < len(opens) else len(head) - 1
    for i in range(first, end):
        match = _START.match(head[i])
        if match and (i == first or not head[i].lstrip().startswith("-")):
            key = "- start" if head[i].lstrip().startswith("-") else "start"
            head[i] = f'{match[1]}{key}: "{time}"'
            return
    match = _SEGMENT.match(head[first])
    indent = match[1] if match else "  "
    head[first] = head[first].replace("- ", "  ", 1)
    head.insert(first, f'{indent}- start: "{time}"')
