"""
Small JSON files that are the presenter's own, in `.presenter/`, written through keeping.py. Knows no meaning.

A file that somebody else has damaged is read as it was before its last change; where that is damaged too, it is said.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any, Generic, TypeVar

from build_tools import keeping

FOLDER = ".presenter"  # what is the presenter's own and no page; not ignored by git, to be kept with the rest
ABSENT = "null"  # what stands for the text of a file that is not there; none of ours holds this
Value = TypeVar("Value")


class JsonFile(Generic[Value]):
    """One file and what it holds."""

    def __init__(
        self,
        path: Path,
        read: Callable[[Any], Value | None],
        empty: Callable[[], Value],
        write: Callable[[Value], Any] = lambda value: value,
    ) -> None:
        """
        Args:
            path: The file.
            read: Makes the value of what JSON gave; None where that is no such value.
            empty: The value where there is no file yet.
            write: Makes of the value what JSON takes.
        """
        self.path = path
        self._read = read
        self._empty = empty
        self._write = write

    def value(self) -> Value:
        """
        What is kept.

        Raises:
            CannotKeep: The file is damaged, and what was kept of its state before is, too.
        """
        if not self.path.is_file():
            return self._empty()
        content = self._of_file(self.path)
        if content is None:  # not by us: the state before the last change is better than none
            content = self._of_file(keeping.last_good(self.path))
        if content is None:
            raise keeping.CannotKeep(f"{self.path} is damaged: mend it or move it away, and mark again")
        return content

    def change(self, alter: Callable[[Value], Value]) -> Value:
        """
        Changes what is kept, with nobody else between reading and writing; what `alter` raises changes nothing.

        Raises:
            CannotKeep: It could not be read or written; it is as it was.
        """
        now: list[Value] = []

        def with_it(text: str) -> str:
            content = self._empty() if text == ABSENT else self._of_text(text)
            now.append(alter(self.value() if content is None else content))
            return json.dumps(self._write(now[-1]), allow_nan=False, ensure_ascii=False)

        keeping.change(self.path, with_it, absent=ABSENT)
        return now[-1]

    def _of_file(self, path: Path) -> Value | None:
        try:
            return self._of_text(path.read_text("utf-8"))
        except (OSError, UnicodeDecodeError):
            return None

    def _of_text(self, text: str) -> Value | None:
        try:
            return self._read(json.loads(text))
        except (ValueError, RecursionError, TypeError, KeyError, AttributeError):
            return None
