"""The marks of an episode's takes as a table for an editor, counted from the frame that stands in the recording."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from build_tools.episodes.marks import Recording
from build_tools.episodes.sheet import Episode
from build_tools.episodes.timecode import frame, timecode

COLUMNS = ("take", "question", "title", "counted from", "seconds", "frames", "time code")
FROM_FRAME, FROM_BEGINNING = "sync frame", "beginning of the take"


def marks_csv(episode: Episode, recordings: Sequence[Recording], rate: str, drop: bool) -> str:
    """
    Every mark of every take that is no rehearsal.

    Args:
        episode: The episode. [object]
        recordings: Its takes. [list]
        rate: Frames a second of the recording. [Hz]
        drop: Whether its time code drops numbers.

    Returns:
        A table, a mark a line; the time code counts from 0 at the sync frame. [text]

    Source:
        RFC 4180 for the table, SMPTE ST 12-1 for time codes, both from memory.
    """
    made = io.StringIO()
    table = csv.writer(made, lineterminator="\n")
    table.writerow(COLUMNS)
    for recording in recordings:
        origin = recording.began_s if recording.sync_s is None else recording.sync_s
        counted = FROM_BEGINNING if recording.sync_s is None else FROM_FRAME
        for number, moment in sorted(recording.marks_s.items(), key=lambda each: each[1]):
            segment = episode.segment(number)
            after = max(0.0, moment - origin)
            at = frame(after, rate)
            title = (segment.chapter or segment.question) if segment else ""
            table.writerow([recording.take, number, title, counted, f"{after:.2f}", at, timecode(at, rate, drop)])
    return made.getvalue()
