"""No answer takes longer than a quarter of a second in CPython, whatever the inputs."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from functools import partial
from itertools import chain
from typing import Any

import pytest

from calculators.catalogue import find, names
from calculators.desk.calculator import Calculator
from calculators.desk.errors import InputErrors
from calculators.desk.inputs import Choice, Number
from tests.processor_time import allowed, least, only_here, taken
from tests.random_inputs import random_inputs

# The limit is told in times of a yardstick that the same Python runs, so each comes to the same.
pytestmark = pytest.mark.once

LONGEST_S = 0.25
COUNT = 10


def answered(calculator: Calculator, inputs: dict[str, Any]) -> None:
    """One answer, or what is wrong with the inputs."""
    with contextlib.suppress(InputErrors):
        calculator.run(inputs)


def largest(calculator: Calculator) -> Iterator[dict[str, Any]]:
    """Every number at its upper end, once for each option of each choice: where answers are likely to take longest."""
    high = {entry.key: entry.high for entry in calculator.inputs if isinstance(entry, Number)}
    yield high
    for entry in calculator.inputs:
        if isinstance(entry, Choice):
            for option in entry.options:
                yield {**high, entry.key: option.value}


@only_here
@pytest.mark.parametrize("name", names())
def test_no_answer_takes_longer_than_a_quarter_of_a_second(name):
    calculator = find(name)
    presets = (dict(preset.inputs) for preset in calculator.presets)
    for inputs in chain(presets, largest(calculator), random_inputs(calculator, COUNT, seed=21)):
        work = partial(answered, calculator, inputs)
        longest, limit = taken(work), LONGEST_S
        for _ in range(3):  # what is not quick at once may have met a slow moment of the machine
            if longest > limit:
                longest, limit = least(work, 5), allowed(LONGEST_S)
        assert longest <= limit, f"{name} takes {longest:.3f} s with {inputs}; at most {limit:.3f} s here"
