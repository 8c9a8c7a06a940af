"""Takes down what was said, and what is to be put right, into an episode sheet; asks nobody to type it again."""

from __future__ import annotations

import datetime
import hashlib
import json
from collections.abc import Callable
from pathlib import Path

from ruamel.yaml.comments import CommentedMap, CommentedSeq

from build_tools import keeping
from build_tools.episodes.record import Shown, differences, standing
from build_tools.episodes.sheet import Episode, Segment
from build_tools.episodes.sheet_edit import CannotEdit, edited, flow, put, quoted, rows

WHY = "Write here why it was wrong."  # a build refuses these first two words, so nobody publishes it
_BEFORE = ("start", "question", "chapter", "viewer", "consent", "answer", "calculator", "inputs", "also", "go")
_ORDER = ("said", "made", "verdict", "figures", "short_answer", "spoken")


def take_down(docs: Path, episode: Episode, numbers: list[int], spoken: str | None = None) -> list[int]:
    """
    Write what a viewer is shown and told today into the sheet, as what was said.

    Args:
        docs: The folder of pages. [path]
        episode: The episode, read from a sheet without mistakes. [object]
        numbers: The segments; those without anything said yet where empty. [list]
        spoken: Free words to note beside it, '' for none, None to leave those there; only with one segment. [text]

    Returns:
        The segments written. [list]

    Raises:
        CannotEdit: There is no such segment, or what it holds was once right on air, so that a correction is due.
        CannotKeep: The sheet could not be written.

    Source:
        DESIGN section 7 of this project.
    """
    if spoken is not None and len(numbers) != 1:
        raise CannotEdit("words beside the answer go to one question: name it with --segment")
    held = {d.segment.number for d in differences([episode], docs) if not d.slip}
    chosen = [_segment(episode, n) for n in numbers] or [s for s in episode.segments if not s.said and s.answer]
    for segment in chosen:
        if segment.number in held:
            raise CannotEdit(
                f"segment {segment.number} was right when it was said, so it is not written over: "
                f"python3 -m build_tools correct {episode.number} --segment {segment.number}"
            )

    def alter(front: CommentedMap) -> None:
        there = rows(front, "segments")
        for segment in chosen:
            now, row = standing(docs, segment), there[segment.number - 1]
            values = {
                "said": quoted(now.said) if now.said else None,
                "made": quoted(now.made) if now.made else None,
                "verdict": quoted(now.verdict) if now.verdict else None,
                "figures": flow(now.figures) if now.figures else None,
                "short_answer": quoted(now.short_answer) if now.short_answer else None,
                "spoken": row.get("spoken") if spoken is None else quoted(spoken) if spoken else None,
            }
            for place, (key, value) in enumerate(values.items()):
                if value is None:
                    row.pop(key, None)
                else:
                    put(row, key, value, (*_BEFORE, *_ORDER[:place]))

    _change(docs, episode, alter)
    return [segment.number for segment in chosen]


def mark_of(shown: Shown) -> str:
    """A short mark of all that a viewer is shown and told, so that nothing else is taken down than what was seen."""
    marked = (shown.said, shown.verdict, sorted(shown.figures.items()), shown.short_answer, shown.made)
    return hashlib.sha256(json.dumps(marked).encode()).hexdigest()[:16]


def begin_corrections(docs: Path, episode: Episode, numbers: list[int], today: datetime.date) -> list[int]:
    """
    Write a correction for each question that no longer holds: date, old and new; why is left to fill in.

    Args:
        docs: The folder of pages. [path]
        episode: The episode. [object]
        numbers: The segments; all that no longer hold where empty. A named one is taken even if it is no change. [list]
        today: The day. [date]

    Returns:
        The segments for which an entry was begun. [list]

    Raises:
        CannotEdit: There is no such segment, nothing of it differs, or today is before the recording.
        CannotKeep: The sheet could not be written.

    Source:
        DESIGN section 7 of this project.
    """
    wanted = [_segment(episode, n).number for n in numbers]
    due = [d for d in differences([episode], docs) if (d.segment.number in wanted if wanted else not d.slip)]
    agreeing = [n for n in wanted if n not in {d.segment.number for d in due}]
    if agreeing:
        raise CannotEdit(f"segment {agreeing[0]}: all that was said agrees with today's answer")
    if due and today < episode.recorded:
        raise CannotEdit(f"today, {today}, is before the recording of {episode.recorded}")

    def alter(front: CommentedMap) -> None:
        listed = front.get("corrections")
        if not isinstance(listed, CommentedSeq):
            listed = CommentedSeq()
            front["corrections"] = listed
        for each in due:
            entry = CommentedMap({"date": today, "segment": each.segment.number})
            differing = {what: (was, now) for what, was, now in each.rows}
            if "the headline" in differing:
                entry["was"] = quoted(differing["the headline"][0])
            entry["now"] = quoted(each.now.said or each.now.short_answer)
            if "the verdict" in differing:
                entry["verdict"] = quoted(each.now.verdict)
            figures = {w.removeprefix("the figure "): n for w, _, n in each.rows if w.startswith("the figure ")}
            if figures:
                entry["figures"] = flow(figures)
            if "the short answer" in differing:
                entry["short_answer"] = quoted(each.now.short_answer)
            entry["why"] = quoted(WHY)
            listed.append(entry)

    if due:
        _change(docs, episode, alter)
    return [each.segment.number for each in due]


def _segment(episode: Episode, number: int) -> Segment:
    segment = episode.segment(number)
    if segment is None:
        raise CannotEdit(f"episode {episode.number} has no segment {number}; it has 1 to {len(episode.segments)}")
    return segment


def _change(docs: Path, episode: Episode, alter: Callable[[CommentedMap], None]) -> None:
    path = docs / episode.path
    keeping.change(path, lambda text: edited(text, path.name, alter))
