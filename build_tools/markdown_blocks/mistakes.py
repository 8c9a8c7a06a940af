"""A mistake in a page, told so that its author can mend it: file, line, and what to write instead."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Mistake:
    """One mistake: the page's path, the line (0 where it is not known), and a sentence."""

    path: str
    line: int
    message: str

    def __str__(self) -> str:
        place = f"{self.path}:{self.line}" if self.line else self.path
        return f"{place}: {self.message}"


class PageMistakes(Exception):
    """The page cannot be built. Its text lists every mistake, one a line."""

    def __init__(self, mistakes: Iterable[Mistake]) -> None:
        self.mistakes = tuple(sorted(mistakes))
        super().__init__("\n".join(str(m) for m in self.mistakes))
