"""The prepared cards in the order in which they are shown: the presenter's own, the same for every desk."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any, TypedDict

from build_tools.presenting.cards import request_of
from build_tools.presenting.json_files import FOLDER, JsonFile

MOST = 60  # nobody shows more cards in one recording


class Prepared(TypedDict):
    """A card that waits in the line: what it is drawn from, and an id by which all desks refer to it."""

    id: int
    card: dict[str, Any]


class Line:
    """The line of one project."""

    def __init__(self, project: Path) -> None:
        self._file: JsonFile[list[Prepared]] = JsonFile(project / FOLDER / "line.json", _line, list[Prepared])

    def read(self) -> list[Prepared]:
        """The cards, the next one first."""
        return self._file.value()

    def add(self, card: Mapping[str, Any]) -> list[Prepared]:
        """Puts a card at the end."""
        return self._change(lambda line: [*line, {"id": _next(line), "card": dict(card)}])

    def fill(self, cards: Sequence[Mapping[str, Any]]) -> list[Prepared]:
        """Puts these cards in place of all that stand there."""

        def filled(line: list[Prepared]) -> list[Prepared]:
            first = _next(line)
            return [{"id": first + place, "card": dict(card)} for place, card in enumerate(cards)]

        return self._change(filled)

    def renew(self, card: Mapping[str, Any]) -> int:
        """Puts this card's inputs into all cards of the same question and calculator; tells how many these were."""
        counted = 0

        def renewed(line: list[Prepared]) -> list[Prepared]:
            nonlocal counted
            of_it = [each for each in line if _is_of(each["card"], card)]
            counted = len(of_it)
            return [
                {"id": each["id"], "card": {**each["card"], "inputs": card["inputs"]}} if each in of_it else each
                for each in line
            ]

        self._change(renewed)
        return counted

    def remove(self, number: int) -> list[Prepared]:
        """Takes a card out. One that is not there is out already."""
        return self._change(lambda line: [each for each in line if each["id"] != number])

    def shift(self, number: int, by: int) -> list[Prepared]:
        """Moves a card so many places on, or back."""

        def moved(line: list[Prepared]) -> list[Prepared]:
            place = next((i for i, each in enumerate(line) if each["id"] == number), None)
            if place is None:
                return line
            rest = [each for each in line if each["id"] != number]
            to = min(max(place + by, 0), len(rest))
            return [*rest[:to], line[place], *rest[to:]]

        return self._change(moved)

    def _change(self, alter: Callable[[list[Prepared]], list[Prepared]]) -> list[Prepared]:
        def checked(line: list[Prepared]) -> list[Prepared]:
            changed = alter(line)
            if len(changed) > MOST:
                raise ValueError(f"The line holds at most {MOST} cards: take some out first.")
            return changed

        return self._file.change(checked)


def _is_of(card: Mapping[str, Any], other: Mapping[str, Any]) -> bool:
    """Whether two cards are of one question and one calculator."""
    named = bool(card["address"] or card["question"])  # without an address of the site there is no short link
    return named and all(card[key] == other[key] for key in ("address", "question", "calculator"))


def _next(line: list[Prepared]) -> int:
    return max((each["id"] for each in line), default=0) + 1


def _line(content: Any) -> list[Prepared] | None:
    if not isinstance(content, list) or any(type(each["id"]) is not int for each in content):
        return None
    return [{"id": each["id"], "card": request_of(each["card"])} for each in content]
