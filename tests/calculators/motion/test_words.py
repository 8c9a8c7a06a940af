"""Headlines and reasons can be said in a breath, whatever is put in."""

from __future__ import annotations

import pytest

from calculators.catalogue import find
from calculators.desk.errors import InputErrors
from calculators.motion import CALCULATORS
from tests.random_inputs import random_inputs

pytestmark = pytest.mark.once

MOST_HEADLINE, MOST_REASON = 25, 15


def words(text):
    """Words that are said: a sign by itself, such as '–', is none."""
    return [word for word in text.split() if any(c.isalnum() for c in word)]


@pytest.mark.parametrize("name", CALCULATORS)
def test_headline_and_reason_are_short(name):
    calculator = find(f"motion.{name}")
    answered = 0
    for inputs in random_inputs(calculator, 400, 14):
        try:
            answer = calculator.run(inputs).answer
        except InputErrors:
            continue
        answered += 1
        assert len(words(answer.headline)) <= MOST_HEADLINE, answer.headline
        if answer.verdict:
            assert len(words(answer.verdict.reason)) <= MOST_REASON, answer.verdict.reason
    assert answered > 20
