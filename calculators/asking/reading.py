"""
A calculator's inputs read from a text, by what the calculator declares: units, names, choices, labels.

Never a guess: what could be two inputs, or two values of one, is left out. Every reading tells the words it came from.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace

from calculators.asking.facts import Facts
from calculators.asking.inputs.choices import by_choice, by_preset
from calculators.asking.inputs.listings import by_listing, without
from calculators.asking.inputs.numbers import by_adjective, by_label, by_number
from calculators.asking.inputs.picture_sizes import by_mode, by_size
from calculators.asking.inputs.plan import AskedInput, Plan, parts_of_two_kits, plan_of
from calculators.asking.inputs.prices import bought_instead, by_price
from calculators.asking.inputs.two_kits import by_kit, by_total
from calculators.asking.inputs.values import Reading, accepted
from calculators.desk.calculator import Calculator
from calculators.desk.errors import InputErrors
from calculators.desk.inputs import Estimate, read_all

_COUNTED = {"one": 1, "two": 2, "three": 3, "a": 1}
_N = r"(\d|one|two|three|a)"
_FREE_SLOTS = re.compile(
    rf"\b(?:other|free|empty|spare|remaining|unused) {_N} (?:\w+ )?slots?\b"
    rf"|\b{_N} (?:free|empty|spare|unused|open|more|other) (?:\w+ )?slots?\b"
    rf"|\b{_N} (?:\w+ )?slots? (?:is |are |still )*(?:free|empty|left|unused|spare|open)\b"
)


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
    listings = list(by_listing(facts, plan))
    for listing in listings:
        facts = without(facts, listing.start, listing.start + len(listing.words))
    parts: tuple[Callable[[], Iterable[Reading]], ...] = (
        lambda: listings,
        lambda: by_preset(facts, plan, pairs),
        lambda: by_choice(facts, plan, pairs),
        lambda: by_size(facts, plan),
        lambda: by_label(facts, plan, pairs),
        lambda: by_adjective(facts, plan),
        lambda: () if pairs else by_total(facts, plan),
        lambda: by_price(facts, plan),
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
    _with_the_taken(facts, plan, readings)
    _of_all_together(facts, plan, readings)
    bought_instead(readings)
    taken = [
        replace(readings[entry.key], value=value)
        for entry in plan.calculator.inputs
        if entry.key in readings and (value := accepted(entry, readings[entry.key].value)) is not None
    ]
    return _accepted(plan.calculator, taken)


def _with_the_taken(facts: Facts, plan: Plan, readings: dict[str, Reading]) -> None:
    """'The other 2 slots' are free ones: all are those and the taken; unknown where the taken are not told."""
    match = _FREE_SLOTS.search(facts.small) if "slots" in plan.asked and "have_count" in plan.asked else None
    if match is None:
        return
    count_word = next(group for group in match.groups() if group)
    held = readings.get("have_count")
    readings.pop("slots", None)
    if held is not None and isinstance(held.value, int):
        free = int(count_word) if count_word.isdecimal() else _COUNTED[count_word]
        value = accepted(plan.asked["slots"].entry, str(free + held.value))
        if value is not None:
            readings["slots"] = Reading("slots", value, facts.text[match.start() : match.end()], match.start())


def _of_all_together(facts: Facts, plan: Plan, readings: dict[str, Reading]) -> None:
    """'2 virtual machines with 4 GB each', where an input goes by the machines and takes what all have together."""
    by_start = {quantity.start: quantity for quantity in facts.quantities}
    for key, reading in list(readings.items()):
        quantity, asked = by_start.get(reading.start), plan.asked[key]
        if quantity is None or not isinstance(reading.value, (int, float)) or not asked.units:
            continue
        behind = {word.text for word in facts.words[quantity.at + 1 : quantity.at + 4]}
        counts = [
            other
            for other in facts.quantities
            if other.at != quantity.at
            and facts.words[other.at].sentence == facts.words[quantity.at].sentence
            and _is_counted(facts, asked, other.at)
        ]
        if behind & {"each", "apiece"} and len(counts) == 1:
            readings[key] = replace(reading, value=reading.value * counts[0].value)


def _is_counted(facts: Facts, asked: AskedInput, at: int) -> bool:
    """Whether an input's name stands right behind a number: '2 virtual machines'."""
    names = [name for name in asked.names if len(name) > 1] + [(root,) for root in asked.counted]
    return any(facts.roots[at + 1 : at + 1 + len(name)] == name for name in names)


def _settled(plan: Plan, readings: Mapping[str, Reading]) -> set[str]:
    """The inputs that are read already. An estimate read from a word is not among them: a number would say more."""
    return {key for key in readings if not isinstance(plan.asked[key].entry, Estimate)}


def _accepted(calculator: Calculator, readings: Sequence[Reading]) -> list[Reading]:
    """Readings that the inputs take together: what one refuses beside another is left out. Nothing is computed."""
    left_in = list(readings)
    for _ in range(len(left_in) + 1):
        try:
            read_all(calculator.inputs, {reading.key: reading.value for reading in left_in})
        except InputErrors as problems:
            wrong = {problem.input for problem in problems.problems}
            left = [reading for reading in left_in if reading.key not in wrong]
            if len(left) == len(left_in):
                return left_in
            left_in = left
        else:
            return left_in
    return left_in
