"""A calculator: its declaration, and one run of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from calculators.desk.answer import Answer
from calculators.desk.inputs import Input, Values, read_all


@dataclass(frozen=True, slots=True)
class Preset:
    """A common case: shown at once in the page, from what the build computed."""

    key: str
    label: str
    inputs: Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Calculator:
    """
    One named computation.

    name: `subject.name`. title: the question it answers. version: raised when its results change on purpose.
    compute: a pure function of the values; raises InputErrors only, for inputs that do not go together.
    """

    name: str
    title: str
    summary: str
    inputs: tuple[Input, ...]
    compute: Callable[[Values], Answer]
    version: int = 1
    presets: tuple[Preset, ...] = field(default=())

    def run(self, raw: Mapping[str, object]) -> Result:
        """Read what was given and compute; InputErrors where it cannot be used."""
        values = read_all(self.inputs, raw)
        return Result(self, values, self.compute(values))


@dataclass(frozen=True, slots=True)
class Result:
    """One run: the calculator, the inputs as understood, and the answer. This is what gets rendered."""

    calculator: Calculator
    values: Values
    answer: Answer
