"""Headlines and reasons of work are short enough to be said, whatever the inputs, and no answer takes long."""

import pytest

from calculators.catalogue import find
from calculators.desk.errors import InputErrors
from tests.random_inputs import random_inputs

pytestmark = pytest.mark.once

LONGEST_HEADLINE, LONGEST_REASON = 25, 15  # words
NAMES = ("work.gain", "work.balance", "work.footage", "work.scene", "work.lanes")


def answers(name):
    calculator = find(name)
    for inputs in [*(preset.inputs for preset in calculator.presets), *random_inputs(calculator, 150, 5)]:
        try:
            yield calculator.run(inputs)
        except InputErrors:
            continue


@pytest.mark.parametrize("name", NAMES)
def test_what_is_said_is_short(name):
    for result in answers(name):
        assert len(result.answer.headline.split(" ")) <= LONGEST_HEADLINE, result.answer.headline
        if result.answer.verdict:
            assert len(result.answer.verdict.reason.split(" ")) <= LONGEST_REASON, result.answer.verdict.reason


@pytest.mark.parametrize("name", NAMES)
def test_four_to_six_common_cases(name):
    assert 4 <= len(find(name).presets) <= 6


@pytest.mark.parametrize("name", NAMES)
def test_every_answer_says_what_it_was_worked_for_and_has_a_drawing(name):
    for result in answers(name):
        assert result.worked_for()
        assert len(result.answer.drawings) == 1
