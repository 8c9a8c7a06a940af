"""
A calculator's inputs read from a text, by what the calculator declares: units, names, choices, labels.

Never a guess: what could be two inputs, or two values of one, is left out. Every reading tells the words it came from.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace

from calculators.asking.facts import Facts
from calculators.asking.inputs.choices import by_choice, by_preset
from calculators.asking.inputs.numbers import by_adjective, by_label, by_number
from calculators.asking.inputs.picture_sizes import by_mode, by_size
from calculators.asking.inputs.plan import Plan, parts_of_two_kits, plan_of
from calculators.asking.inputs.two_kits import by_kit, by_total
from calculators.asking.inputs.values import Reading, accepted
from calculators.desk.calculator import Calculator
from calculators.desk.errors import InputErrors
from calculators.desk.inputs import Estimate, read_all


def read_inputs(facts: Facts, calculator_name: str) -> list[Reading]:
    """
    The inputs of one calculator that a text gives.

    Args:
        facts: The text. [object]
        calculator_name: Such as "memory.rate". [text]

    Returns:
        Readings in the order of the inputs; each value is one that the calculator accepts. [list]

    Raises:
        UnknownCalculator: There is none of this name.

    Source:
        Common practice, no source: how people write down what they have.

    Example:
        >>> from calculators.asking.facts import gather
        >>> [(r.key, r.value) for r in read_inputs(gather("is 3600c18 any good"), "memory.rate")]
        [('rate', 3600), ('cas', 18)]
    """
    plan = plan_of(calculator_name)
    readings: dict[str, Reading] = {}
    pairs = parts_of_two_kits(plan)
    parts: tuple[Callable[[], Iterable[Reading]], ...] = (
        lambda: by_preset(facts, plan, pairs),
        lambda: by_choice(facts, plan, pairs),
        lambda: by_size(facts, plan),
        lambda: by_label(facts, plan, pairs),
        lambda: by_adjective(facts, plan),
        lambda: () if pairs else by_total(facts, plan),
        lambda: by_number(facts, plan, pairs, _settled(plan, readings)),
        lambda: by_kit(facts, plan, pairs) if pairs else (),
        lambda: by_mode(facts, plan, readings),
    )
    worded: set[str] = set()
    for part in parts:
        for reading in part():
            if reading.key in worded and isinstance(plan.asked[reading.key].entry, Estimate):
                readings[reading.key] = reading  # a number says more than a word
            readings.setdefault(reading.key, reading)
        if not worded:
            worded = {key for key in readings if not isinstance(readings[key].value, (int, float))}
    kept = [
        replace(readings[entry.key], value=value)
        for entry in plan.calculator.inputs
        if entry.key in readings and (value := accepted(entry, readings[entry.key].value)) is not None
    ]
    return _accepted(plan.calculator, kept)


def _settled(plan: Plan, readings: Mapping[str, Reading]) -> set[str]:
    """The inputs that are read already. An estimate read from a word is not among them: a number would say more."""
    return {key for key in readings if not isinstance(plan.asked[key].entry, Estimate)}


def _accepted(calculator: Calculator, readings: Sequence[Reading]) -> list[Reading]:
    """Readings that the inputs take together: what one refuses beside another is left out. Nothing is computed."""
    kept = list(readings)
    for _ in range(len(kept) + 1):
        try:
            read_all(calculator.inputs, {reading.key: reading.value for reading in kept})
        except InputErrors as problems:
            wrong = {problem.input for problem in problems.problems}
            left = [reading for reading in kept if reading.key not in wrong]
            if len(left) == len(kept):
                return kept
            kept = left
        else:
            return kept
    return kept
