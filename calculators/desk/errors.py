"""What is said when an input cannot be used. The sentence alone must let the reader repair it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong with one input: the input's key, and a sentence for the reader."""

    input: str
    message: str


class InputErrors(ValueError):
    """
    The inputs cannot be used: every problem found, in the order of the form.

    The only error that a calculator raises for what a reader typed.
    """

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(problems)
        super().__init__("; ".join(f"{p.input}: {p.message}" for p in self.problems))


class UnknownCalculator(LookupError):
    """No calculator has this name. `nearest` holds the names most like it."""

    def __init__(self, name: str, nearest: tuple[str, ...] = ()) -> None:
        self.name = name
        self.nearest = nearest
        hint = f"; did you mean {nearest[0]}?" if nearest else "."
        super().__init__(f"no calculator {name}{hint}")


def refuse(key: str, message: str) -> InputErrors:
    """An error about one input, to be raised by a calculator that finds inputs that do not go together."""
    return InputErrors([Problem(key, message)])


def nearest_names(name: str, known: Iterable[str]) -> tuple[str, ...]:
    """The known names most like a mistyped one, best first; at most three."""
    from difflib import get_close_matches  # paid for only when somebody mistyped

    return tuple(get_close_matches(name[:80], list(known), n=3, cutoff=0.5))
