"""A calculator: its declaration, and one run of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from calculators.desk.answer import Answer
from calculators.desk.card_declared import Card, fitted, usual
from calculators.desk.inputs import Input, Values, read_all


@dataclass(frozen=True, slots=True)
class Preset:
    """
    A common case: shown at once in the page, from what the build computed.

    names: everyday words in which a viewer tells the symptom of this case,
        for a reader of whole questions; it takes the
    inputs from here where the text also names what they are about.
    """

    key: str
    label: str
    inputs: Mapping[str, Any]
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Calculator:
    """
    One named computation.

    name: `subject.name`. title: the question it answers. version: raised when its results change on purpose.
    compute: a pure function of the values; raises InputErrors only, for inputs that do not go together.
    worked_for: one phrase that says for which parts a result was worked out, such as
    '2 × 8 GB DDR4-3200 beside 2 × 16 GB DDR4-3600, 4 slots'; it completes 'Worked for …'.
    card: what the screen shows of a result; the first figures and the first drawing where nothing says it. The
    catalogue puts it in from the subject's screen_cards.py, so that nobody loads it who draws no card.
    """

    name: str
    title: str
    summary: str
    inputs: tuple[Input, ...]
    compute: Callable[[Values], Answer]
    version: int = 1
    presets: tuple[Preset, ...] = field(default=())
    worked_for: Callable[[Values], str] | None = None
    card: Callable[[Values, Answer], Card] | None = None

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

    def worked_for(self) -> str:
        """For which parts this was worked out, in one phrase without a full stop; empty where nothing says it."""
        return self.calculator.worked_for(self.values) if self.calculator.worked_for else ""

    def card(self) -> Card:
        """The card for the screen: what the subject declares for it, cut to a card's limits."""
        declared = self.calculator.card
        return fitted(declared(self.values, self.answer) if declared else usual(self.answer), self.answer)
