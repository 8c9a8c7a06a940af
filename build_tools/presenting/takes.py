"""
The takes of an episode and their marks: one small file an episode, in the presenter's own folder. Knows no page.

A take is one recording. It keeps every mark in the order in which it was made, so that the last one can be undone.
A take that was thrown away stays in the file beside the others, so that it can be brought back.
What an earlier release kept as the marks of one recording is taken over as the first take.
"""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypedDict

from build_tools import keeping
from build_tools.episodes.marks import Recording
from build_tools.presenting.json_files import FOLDER, JsonFile

BEGINNING = 0  # the "segment" whose mark is the recording's beginning
MOST_THROWN = 20  # takes thrown away that are still kept, the newest ones


class Take(TypedDict):
    """
    One recording. Moments are seconds since 1970; a mark without a moment undoes the segment's mark before it.

    sync: the moment of the frame and beep by which marks are laid over the recording; None where none was shown.
    """

    id: int
    ended: float | None
    rehearsal: bool
    sync: float | None
    marks: list[tuple[int, float | None]]


class _State(TypedDict):
    """What the file of one episode holds."""

    takes: list[Take]
    thrown: list[Take]


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
        return self._file(episode).value()["takes"]

    def thrown(self, episode: int) -> list[Take]:
        """
        The takes that were thrown away and can be brought back, the one thrown last at the end.

        Raises:
            CannotKeep: As for `all`.
        """
        return self._file(episode).value()["thrown"]

    def next_number(self, episode: int) -> int:
        """The number that the next take of an episode gets."""
        return _next(self._file(episode).value())

    def recordings(self, episode: int) -> list[Recording]:
        """The takes that are no rehearsals, as an editor needs them."""
        recordings = []
        for take in self.all(episode):
            marks = {int(segment): moment for segment, moment in marks_of(take).items()}
            began = marks.pop(BEGINNING, min(marks.values(), default=None))
            if began is not None and not take["rehearsal"]:
                recordings.append(Recording(take["id"], began, take["sync"], marks, take["ended"]))
        return recordings

    def read(self, episode: int, take: int | None = None) -> dict[str, float]:
        """The moments marked in a take (the newest where none is named), by segment; "0" is its beginning."""
        takes = self.all(episode)
        return marks_of(_chosen(takes, take)) if takes or take is not None else {}

    def is_rehearsal(self, episode: int, take: int | None = None) -> bool:
        """Whether a take (the newest where none is named) was one; CannotMark where there is no such take."""
        takes = self.all(episode)
        return _chosen(takes, take)["rehearsal"] if takes or take is not None else False

    def begin(self, episode: int, moment_s: float, rehearsal: bool = False, sync_s: float | None = None) -> list[Take]:
        """
        Begins a take.

        Args:
            episode: Its number.
            moment_s: When. [s]
            rehearsal: Whether it is to be thrown away later.
            sync_s: When the sync frame is shown, if one is. [s]

        Raises:
            CannotMark: A take is running.
        """

        def with_it(takes: list[Take], number: int) -> list[Take]:
            if takes and takes[-1]["ended"] is None:
                raise CannotMark("A take is running: end it before the next one begins.")
            return [*takes, _new(number, [(BEGINNING, moment_s)], rehearsal, sync_s)]

        return self._change(episode, with_it)

    def end(self, episode: int, take: int, moment_s: float) -> list[Take]:
        """
        Ends a take.

        Raises:
            CannotMark: It is over, or there is none with this number.
        """

        def with_it(takes: list[Take], _: int) -> list[Take]:
            chosen = _chosen(takes, take)
            if chosen["ended"] is not None:
                raise CannotMark(f"Take {take} has ended already.")
            chosen["ended"] = moment_s
            return takes

        return self._change(episode, with_it)

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

        def with_it(takes: list[Take], number: int) -> list[Take]:
            takes = takes if takes or take is not None else [_new(number, [], False)]
            chosen = _chosen(takes, take)
            chosen["marks"].append((segment, moment_s))
            changed.append(chosen)
            return takes

        self._change(episode, with_it)
        return marks_of(changed[-1])

    def undo(self, episode: int, take: int | None = None) -> list[Take]:
        """
        Takes the last mark back, whatever it changed; a take whose beginning is undone is gone.

        Raises:
            CannotMark: There is nothing to undo.
        """

        def without_it(takes: list[Take], _: int) -> list[Take]:
            chosen = _chosen(takes, take)
            if not chosen["marks"]:
                raise CannotMark("There is no mark to undo.")
            chosen["marks"].pop()
            return [each for each in takes if each["marks"]]

        return self._change(episode, without_it)

    def throw_away(self, episode: int, take: int) -> list[Take]:
        """
        Throws a take away, such as a rehearsal; `bring_back` undoes it.

        Raises:
            CannotMark: There is no such take.
        """

        def without_it(state: _State) -> _State:
            chosen = _chosen(state["takes"], take)
            rest = [each for each in state["takes"] if each is not chosen]
            return {"takes": rest, "thrown": [*state["thrown"], chosen][-MOST_THROWN:]}

        return self._file(episode).change(without_it)["takes"]

    def bring_back(self, episode: int, take: int) -> list[Take]:
        """
        Brings back a take that was thrown away, at the place that its number gives it.

        One that was running then has ended with its last mark: nobody has recorded it since.

        Raises:
            CannotMark: There is no such take among those thrown away.
        """

        def with_it(state: _State) -> _State:
            chosen = next((each for each in state["thrown"] if each["id"] == take), None)
            if chosen is None:
                raise CannotMark(f"There is no take {take} among those thrown away.")
            if chosen["ended"] is None:
                chosen["ended"] = max((at for _, at in chosen["marks"] if at is not None), default=0.0)
            takes = sorted([*state["takes"], chosen], key=lambda each: each["id"])
            return {"takes": takes, "thrown": [each for each in state["thrown"] if each is not chosen]}

        return self._file(episode).change(with_it)["takes"]

    def _change(self, episode: int, alter: Callable[[list[Take], int], list[Take]]) -> list[Take]:
        """Changes the takes; `alter` also gets the next free number, which none thrown away has had either."""

        def with_it(state: _State) -> _State:
            return {**state, "takes": alter(state["takes"], _next(state))}

        return self._file(episode).change(with_it)["takes"]

    def _file(self, episode: int) -> JsonFile[_State]:
        file: JsonFile[_State] = JsonFile(
            self._folder / f"{episode:03}.json", _takes, lambda: {"takes": [], "thrown": []}
        )
        for folder in self._earlier:
            _take_over(folder / f"{episode:03}.json", file.path)
        return file


def marks_of(take: Take) -> dict[str, float]:
    """The moments that count in a take, by segment."""
    moments = {str(segment): moment for segment, moment in take["marks"]}  # the last one made counts
    return {segment: moment for segment, moment in moments.items() if moment is not None}


def _chosen(takes: list[Take], number: int | None) -> Take:
    for take in reversed(takes):
        if number is None or take["id"] == number:
            return take
    raise CannotMark("There is no take yet." if number is None else f"There is no take {number}.")


def _next(state: _State) -> int:
    """A number that no take has, and none that was thrown away."""
    return max((each["id"] for each in (*state["takes"], *state["thrown"])), default=0) + 1


def _new(number: int, marks: list[tuple[int, float | None]], rehearsal: bool, sync_s: float | None = None) -> Take:
    return {"id": number, "ended": None, "rehearsal": rehearsal, "sync": sync_s, "marks": marks}


def _take_over(old: Path, new: Path) -> None:
    """What an earlier release kept: the marks of one recording, by segment."""
    if not old.is_file() or new.exists():
        return
    old_marks = JsonFile(old, _marks, dict[str, float]).value()
    marks: list[tuple[int, float | None]] = [(int(segment), moment) for segment, moment in old_marks.items()]
    try:
        keeping.keep(new, json.dumps({"takes": [_new(1, marks, False)] if marks else []}, allow_nan=False), fresh=True)
    except keeping.CannotKeep:
        if not new.exists():  # or another request has just taken them over
            raise
    old.unlink(missing_ok=True)


def _takes(content: Any) -> _State | None:
    """The takes in what JSON gave, or None where they are not whole; earlier releases kept none thrown away."""
    return {
        "takes": [_take(each) for each in content["takes"]],
        "thrown": [_take(e) for e in content.get("thrown", [])],
    }


def _take(each: Any) -> Take:
    marks = [(_whole(segment), None if at is None else _moment(at)) for segment, at in each["marks"]]
    ended, sync = (None if each.get(key) is None else _moment(each[key]) for key in ("ended", "sync"))
    return {
        "id": _whole(each["id"]), "ended": ended, "rehearsal": each["rehearsal"] is True, "sync": sync, "marks": marks,
    }  # fmt: skip


def _marks(content: Any) -> dict[str, float] | None:
    if not isinstance(content, dict):
        return None
    return {str(_whole(int(segment))): _moment(moment) for segment, moment in content.items()}


def _whole(value: Any) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or value < 0:
        raise ValueError("no whole number")
    return value


def _moment(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise ValueError("no moment")
    return float(value)
