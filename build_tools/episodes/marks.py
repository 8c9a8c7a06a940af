"""
Marks: moments noted while recording, and the start times that they become in the finished video.

A mark is a moment of the day; the video begins at some moment and may have pieces cut out.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from ruamel.yaml.comments import CommentedMap, CommentedSeq

from build_tools import keeping
from build_tools.episodes import clock, sheet
from build_tools.episodes.cut_list import merged
from build_tools.episodes.sheet_edit import CannotEdit, edited, put, quoted, rows


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
    starts_s = {}
    for number, moment in sorted(marks_s.items()):
        at = max(moment - began_s, 0.0)
        gone = sum(max(0.0, min(at, end) - begin) for begin, end in merged(cuts_s) if begin < at)
        starts_s[number] = int(at - gone)
    return starts_s


@dataclass(frozen=True, slots=True)
class Recording:
    """
    One take, for an editor: its number, when it began and ended, when its sync frame was shown, each question's mark.

    Moments are seconds since 1970; sync_s is None where no sync frame was shown, ended_s while it runs. [s]
    """

    take: int
    began_s: float
    sync_s: float | None
    marks_s: Mapping[int, float]
    ended_s: float | None = None


@dataclass(frozen=True, slots=True)
class Cutting:
    """
    How the video came out of the recording: when it begins in it, and what was cut out of it, as typed. [text]

    recorded: the day of that recording; None leaves the day that the sheet has. [date]
    """

    lead: str
    cuts: list[str]
    recorded: datetime.date | None = None


def write_starts(path: Path, times_s: Mapping[int, int], *, whole: bool = False, cutting: Cutting | None = None) -> str:
    """
    Put start times into an episode sheet, leaving all else as it is, and only if the sheet stays one without mistakes.

    Args:
        path: The sheet. [path]
        times_s: Start times by segment. [s]
        whole: Whether a mistake that the sheet has already keeps them out, too. [flag]
        cutting: What they were worked out from, for the editor's cut list; None leaves what the sheet says of it.

    Returns:
        The sheet's new text, as written. [text]

    Raises:
        CannotWrite: The sheet has no such segment, cannot be read, or would have a mistake that it has not now.
        CannotKeep: The sheet could not be written.
    """

    def with_starts(text: str) -> str:
        try:
            new = edited(text, path.name, lambda front: _set_starts(front, path.name, times_s, cutting))
        except CannotEdit as problem:
            raise CannotWrite(str(problem)) from None
        docs = path.parent.parent
        mistakes = sheet.read_sheet(docs, path, new)[1]
        if whole and mistakes:
            raise CannotWrite("\n".join(str(mistake) for mistake in mistakes))
        before = {m.message for m in sheet.read_sheet(docs, path, text)[1]}
        wrong = [m for m in mistakes if m.message not in before]
        if wrong:
            raise CannotWrite(f"nothing was written, since then {wrong[0].message}")
        return new

    return keeping.change(path, with_starts)


def _set_starts(front: CommentedMap, name: str, times_s: Mapping[int, int], cutting: Cutting | None) -> None:
    there = rows(front, "segments")
    for number, time in times_s.items():
        if not 1 <= number <= len(there):
            raise CannotWrite(f"{name} has {len(there)} segments, so there is no segment {number}")
        put(there[number - 1], "start", quoted(clock.worded(time)))
    if cutting is None:
        return
    if cutting.recorded:
        put(front, "recorded", cutting.recorded, ("title",))
    behind = ("title", "recorded", "summary", "invented", "video", "frame_rate", "drop_frame")
    put(front, "lead", quoted(cutting.lead), behind)
    if cutting.cuts:
        cuts = CommentedSeq([quoted(each) for each in cutting.cuts])
        cuts.fa.set_flow_style()
        put(front, "cuts", cuts, (*behind, "lead"))
    else:
        front.pop("cuts", None)
