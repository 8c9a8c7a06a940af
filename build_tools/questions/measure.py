"""
Which inputs of a calculator decide most: measured around its common cases, not thought up.

Each input is moved over its choices, or halved, doubled and taken to what the other cases have; how far verdict and
figures then move is what it decides. The order is kept beside this file, because a question must not wait for it.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from build_tools.questions.index import DECISIVE
from calculators.catalogue import find, names
from calculators.desk.calculator import Calculator
from calculators.desk.errors import InputErrors
from calculators.desk.inputs import Choice, Estimate, Input, Number, PrivateText

VERDICT = 1.0  # what a verdict that turns counts, against a figure that moves from nothing to all
_LEAST = 0.004  # what moves less decides nothing
_CASES = 6
_MONEY = ("price", "resale", "currency", "hour_value")


def write() -> Path:
    """Measure every calculator and keep the orders; returns the file."""
    target = Path(__file__).with_name(DECISIVE)
    orders = {name: list(order(find(name))) for name in names()}
    rows = ",\n".join(f" {json.dumps(name)}: {json.dumps(keys)}" for name, keys in orders.items())
    target.write_text(f"{{\n{rows}\n}}\n", "utf-8")
    return target


def order(calculator: Calculator) -> list[str]:
    """
    A calculator's inputs, most decisive first; those that decide nothing, are private or are prices are left out.

    Args:
        calculator: Any. [object]

    Returns:
        Keys. [list]

    Source:
        None: a measurement of this project.

    Example:
        >>> order(find("memory.rate"))[0]
        'rate'
    """
    cases = [dict(preset.inputs) for preset in calculator.presets[:_CASES]] or [{}]
    weights: dict[str, float] = {}
    for entry in calculator.inputs:
        if isinstance(entry, PrivateText) or any(word in entry.key for word in _MONEY):
            continue
        moved = []
        for case in cases:
            before = _run(calculator, case)
            if before is None:
                continue
            after = [_run(calculator, case | {entry.key: value}) for value in _values(entry, case, cases)]
            shifts = [_shift(before, one) for one in after if one is not None]
            if shifts:
                moved.append(0.5 * max(shifts) + 0.5 * sum(shifts) / len(shifts))
        if moved:
            weight = sum(moved) / len(cases)
            weights[entry.key] = weight * _likely(entry)
    place = {entry.key: n for n, entry in enumerate(calculator.inputs)}
    most_decisive = [key for key, weight in weights.items() if weight >= _LEAST]
    return sorted(most_decisive, key=lambda key: (-round(weights[key], 3), place[key]))


def _likely(entry: Input) -> float:
    """How likely a viewer has another value than the default: what is folded away, or a plain yes or no, seldom is."""
    plain = isinstance(entry, Choice) and {option.value for option in entry.options} == {"yes", "no"}
    return (0.15 if entry.extra else 1.0) * (0.15 if plain else 1.0)


def _values(entry: Input, case: Mapping[str, Any], cases: list[dict[str, Any]]) -> Iterator[Any]:
    """Values that an input may well have instead."""
    now = case.get(entry.key)
    others = [one[entry.key] for one in cases if entry.key in one and one[entry.key] != now]
    if isinstance(entry, Choice):
        yield from (option.value for option in entry.options if option.value != now)
        return
    if isinstance(entry, Estimate):
        yield from (choice.value for choice in entry.choices)
        yield "unsure"
    if isinstance(entry, Number):
        centre = now if isinstance(now, (int, float)) else entry.default
        if centre is None:
            centre = (entry.low + min(entry.high, entry.low * 100 + 100)) / 2
        for factor in (0.5, 2.0):
            value = min(max(centre * factor, entry.low), entry.high)
            yield int(value) if entry.whole else value
    yield from others


def _run(calculator: Calculator, inputs: Mapping[str, Any]) -> tuple[str, dict[str, float]] | None:
    try:
        answer = calculator.run(inputs).answer
    except InputErrors:
        return None
    numbers = {f.key: float(f.value) for f in answer.figures if isinstance(f.value, (int, float))}
    words = [f"{f.key}={f.value}" for f in answer.figures if f.key not in numbers]
    words += [str(step) for step in answer.steps]
    verdict = answer.verdict.word if answer.verdict else ""
    return "|".join([verdict, *words]), numbers


def _shift(before: tuple[str, dict[str, float]], after: tuple[str, dict[str, float]]) -> float:
    """How far a result has moved: the verdict by VERDICT, figures by their share of the larger one, on average."""
    turned = VERDICT if before[0].partition("|")[0] != after[0].partition("|")[0] else 0.0
    worded = 0.3 if before[0] != after[0] else 0.0
    keys = set(before[1]) | set(after[1])
    moved = 0.0
    for key in keys:
        one, other = before[1].get(key), after[1].get(key)
        if one is None or other is None:
            moved += 1.0
        elif one != other:
            moved += abs(one - other) / max(abs(one), abs(other))
    return turned + worded + (moved / len(keys) if keys else 0.0)
