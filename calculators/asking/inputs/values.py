"""What a reading is, and values as an input takes them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from calculators.asking.facts import Facts, Quantity
from calculators.desk.inputs import Input

Place = tuple[int, int]  # the first and the last of the words that something was read from


@dataclass(frozen=True, slots=True)
class Reading:
    """One input read: its key, its value as JSON has it, and the words of the text that it was read from."""

    key: str
    value: Any
    words: str
    start: int = 0


@dataclass(frozen=True, slots=True)
class Score:
    """How well a number fits the input `key`, and the number as it would be typed there, with its unit."""

    points: float
    typed: str
    key: str

    @property
    def has_unit(self) -> bool:
        """Whether it would be typed with a unit."""
        return " " in self.typed


@dataclass(frozen=True, slots=True)
class Offer:
    """A number that an input may take: how well it fits, and the number as it would be typed."""

    points: float
    quantity: Quantity
    typed: str

    @property
    def has_unit(self) -> bool:
        """Whether it would be typed with a unit."""
        return " " in self.typed


def reading_at(facts: Facts, key: str, value: Any, place: Place) -> Reading:
    """A reading with the words from the first to the last of a place."""
    start, end = facts.words[place[0]].start, facts.words[place[1]].end
    return Reading(key, value, facts.text[start:end], start)


def accepted(entry: Input, typed: object) -> Any:
    """The value as JSON has it, or None where the input refuses it."""
    try:
        return entry.echo(entry.read(typed))
    except ValueError:
        return None


def plain_number(value: float) -> str:
    """A number as it is typed: 60 for 60.0."""
    return str(tidy(value))


def tidy(value: float) -> float | int:
    """
    A whole number as such, as JSON has it.

    Args:
        value: Any number. [1]

    Returns:
        The same number. [1]

    Source:
        None: another form of the same.

    Example:
        >>> tidy(60.0), tidy(59.94)
        (60, 59.94)
    """
    return int(value) if value == int(value) else value
