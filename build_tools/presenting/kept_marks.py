"""
The marks of recordings, kept: one small file an episode, in the presenter's own folder. Knows no page and no time.

They cannot be made again, so they are not in `.cache/`, which may be deleted at any time. Marks that an earlier
release left there are moved.
"""

from __future__ import annotations

import json
import math
from pathlib import Path

from build_tools import keeping

FOLDER = ".presenter"  # what is the presenter's own and no page; not ignored by git, to be kept with the rest


class KeptMarks:
    """The marks of all episodes of a project."""

    def __init__(self, project: Path) -> None:
        self._folder = project / FOLDER / "marks"
        self._earlier = project / ".cache" / "marks"

    def read(self, episode: int) -> dict[str, float]:
        """
        The moments marked in an episode, by segment; "0" is the recording's beginning.

        Raises:
            CannotKeep: The file is damaged, and what was kept of its state before is, too.
        """
        self._move(episode)
        path = self._file(episode)
        if not path.is_file():
            return {}
        found = _marks(path)
        if found is None:  # not by us: the state before the last mark is better than none
            found = _marks(keeping.last_good(path))
        if found is None:
            raise keeping.CannotKeep(f"{path} is damaged: mend it or move it away, and mark again")
        return found

    def note(self, episode: int, segment: int, moment_s: float | None) -> dict[str, float]:
        """
        Notes the moment of a segment, or takes it back.

        Args:
            episode: Its number.
            segment: Its number; 0 for the recording's beginning.
            moment_s: Seconds since 1970, or None to take the mark back. [s]

        Returns:
            All marks of the episode.

        Raises:
            CannotKeep: They could not be written; the marks are as they were.
        """

        def with_it(text: str) -> str:
            marks = _read(text)
            if marks is None:
                marks = self.read(episode)
            if moment_s is None:
                marks.pop(str(segment), None)
            else:
                marks[str(segment)] = moment_s
            return json.dumps(marks, allow_nan=False)

        self._move(episode)
        written = _read(keeping.change(self._file(episode), with_it, absent="{}"))
        return written or {}

    def _file(self, episode: int) -> Path:
        return self._folder / f"{episode:03}.json"

    def _move(self, episode: int) -> None:
        """Takes over the marks that an earlier release kept where they may be deleted."""
        old, new = self._earlier / f"{episode:03}.json", self._file(episode)
        if old.is_file() and not new.exists():
            found = _marks(old)
            if found is not None:
                try:
                    keeping.keep(new, json.dumps(found, allow_nan=False), fresh=True)
                except keeping.CannotKeep:
                    if not new.exists():  # or another request has just moved them
                        raise
                old.unlink(missing_ok=True)


def _marks(path: Path) -> dict[str, float] | None:
    try:
        return _read(path.read_text("utf-8"))
    except (OSError, UnicodeDecodeError):
        return None


def _read(text: str) -> dict[str, float] | None:
    """The marks in a text, or None where it holds none that are whole."""
    try:
        found = json.loads(text)
    except (ValueError, RecursionError):
        return None
    if not isinstance(found, dict):
        return None
    for key, moment in found.items():
        if not (key.isascii() and key.isdigit()) or isinstance(moment, bool) or not isinstance(moment, int | float):
            return None
        if not math.isfinite(moment):
            return None
    return {key: float(moment) for key, moment in found.items()}
