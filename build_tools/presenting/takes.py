"""
The takes of an episode and their marks: one small file an episode, in the presenter's own folder. Knows no page.

A take is one recording. It keeps every mark in the order in which it was made, so that the last one can be undone;
what an earlier release kept as the marks of one recording is taken over as the first take.
"""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any, TypedDict

from build_tools import keeping
from build_tools.presenting.json_files import FOLDER, JsonFile

BEGINNING = 0  # the "segment" whose mark is the recording's beginning


class Take(TypedDict):
    """One recording; moments are seconds since 1970, a mark without a moment takes the one before back."""

    id: int
    ended: float | None
    rehearsal: bool
    marks: list[tuple[int, float | None]]


class CannotMark(ValueError):
    """Nothing was changed; the text says why."""


class Takes:
    """The takes of all episodes of a project."""

    def __init__(self, project: Path) -> None:
        self._folder = project / FOLDER / "takes"
        self._earlier = (project / FOLDER / "marks", project / ".cache" / "marks")

    def all(self, episode: int) -> list[Take]:
        """
        The takes of an episode, the oldest first.

        Raises:
            CannotKeep: The file is damaged, and what was kept of its state before is, too.
        """
        return self._kept(episode).value()

    def read(self, episode: int, take: int | None = None) -> dict[str, float]:
        """The moments marked in a take (the newest where none is named), by segment; "0" is its beginning."""
        takes = self.all(episode)
        return marks_of(_chosen(takes, take)) if takes or take is not None else {}

    def begin(self, episode: int, moment_s: float, rehearsal: bool = False) -> list[Take]:
        """
        Begins a take.

        Args:
            episode: Its number.
            moment_s: When. [s]
            rehearsal: Whether it is to be thrown away later.

        Raises:
            CannotMark: A take is running.
        """

        def with_it(takes: list[Take]) -> list[Take]:
            if takes and takes[-1]["ended"] is None:
                raise CannotMark("A take is running: end it before the next one begins.")
            return [*takes, _new(takes, [(BEGINNING, moment_s)], rehearsal)]

        return self._kept(episode).change(with_it)

    def end(self, episode: int, take: int, moment_s: float) -> list[Take]:
        """
        Ends a take.

        Raises:
            CannotMark: It is over, or there is none with this number.
        """

        def with_it(takes: list[Take]) -> list[Take]:
            chosen = _chosen(takes, take)
            if chosen["ended"] is not None:
                raise CannotMark(f"Take {take} has ended already.")
            chosen["ended"] = moment_s
            return takes

        return self._kept(episode).change(with_it)

    def note(self, episode: int, segment: int, moment_s: float | None, take: int | None = None) -> dict[str, float]:
        """
        Notes the moment of a segment, moves it, or takes it back.

        Args:
            episode: Its number.
            segment: Its number; 0 for the recording's beginning.
            moment_s: When, or None to take the mark back. [s]
            take: Which take; the newest, or a new one where there is none yet.

        Returns:
            All marks of the take.

        Raises:
            CannotMark: There is no such take.
            CannotKeep: They could not be written; the marks are as they were.
        """
        changed: list[Take] = []

        def with_it(takes: list[Take]) -> list[Take]:
            takes = takes if takes or take is not None else [_new([], [], False)]
            chosen = _chosen(takes, take)
            chosen["marks"].append((segment, moment_s))
            changed.append(chosen)
            return takes

        self._kept(episode).change(with_it)
        return marks_of(changed[-1])

    def undo(self, episode: int, take: int | None = None) -> list[Take]:
        """
        Takes the last mark back, whatever it changed; a take whose beginning is undone is gone.

        Raises:
            CannotMark: There is nothing to undo.
        """

        def without_it(takes: list[Take]) -> list[Take]:
            chosen = _chosen(takes, take)
            if not chosen["marks"]:
                raise CannotMark("There is no mark to undo.")
            chosen["marks"].pop()
            return [each for each in takes if each["marks"]]

        return self._kept(episode).change(without_it)

    def throw_away(self, episode: int, take: int) -> list[Take]:
        """
        Throws a take away, such as a rehearsal. The file as it was stays beside it until the next change.

        Raises:
            CannotMark: There is no such take.
        """

        def without_it(takes: list[Take]) -> list[Take]:
            chosen = _chosen(takes, take)
            return [each for each in takes if each is not chosen]

        return self._kept(episode).change(without_it)

    def _kept(self, episode: int) -> JsonFile[list[Take]]:
        kept = JsonFile(self._folder / f"{episode:03}.json", _takes, list[Take], lambda takes: {"takes": takes})
        for folder in self._earlier:
            _take_over(folder / f"{episode:03}.json", kept.path)
        return kept


def marks_of(take: Take) -> dict[str, float]:
    """The moments that count in a take, by segment."""
    moments = {str(segment): moment for segment, moment in take["marks"]}  # the last one made counts
    return {segment: moment for segment, moment in moments.items() if moment is not None}


def _chosen(takes: list[Take], number: int | None) -> Take:
    for take in reversed(takes):
        if number is None or take["id"] == number:
            return take
    raise CannotMark("There is no take yet." if number is None else f"There is no take {number}.")


def _new(takes: list[Take], marks: list[tuple[int, float | None]], rehearsal: bool) -> Take:
    number = max((take["id"] for take in takes), default=0) + 1
    return {"id": number, "ended": None, "rehearsal": rehearsal, "marks": marks}


def _take_over(old: Path, new: Path) -> None:
    """What an earlier release kept: the marks of one recording, by segment."""
    if not old.is_file() or new.exists():
        return
    found = JsonFile(old, _marks, dict[str, float]).value()
    marks: list[tuple[int, float | None]] = [(int(segment), moment) for segment, moment in found.items()]
    try:
        keeping.keep(new, json.dumps({"takes": [_new([], marks, False)] if marks else []}, allow_nan=False), fresh=True)
    except keeping.CannotKeep:
        if not new.exists():  # or another request has just taken them over
            raise
    old.unlink(missing_ok=True)


def _takes(found: Any) -> list[Take] | None:
    """The takes in what JSON gave, or None where they are not whole."""
    takes: list[Take] = []
    for each in found["takes"]:
        marks = [(_whole(segment), None if at is None else _moment(at)) for segment, at in each["marks"]]
        ended = None if each["ended"] is None else _moment(each["ended"])
        takes.append({"id": _whole(each["id"]), "ended": ended, "rehearsal": each["rehearsal"] is True, "marks": marks})
    return takes


def _marks(found: Any) -> dict[str, float] | None:
    if not isinstance(found, dict):
        return None
    return {str(_whole(int(segment))): _moment(moment) for segment, moment in found.items()}


def _whole(value: Any) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or value < 0:
        raise ValueError("no whole number")
    return value


def _moment(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise ValueError("no moment")
    return float(value)
