"""What is read out stays short enough to be said in one breath, whatever is put in."""

import pytest

from calculators.catalogue import find
from calculators.desk.errors import InputErrors
from tests.random_inputs import random_inputs

pytestmark = pytest.mark.once

NAMES = ["memory.rate", "memory.mix", "memory.ways", "memory.check", "memory.need"]
HEADLINE_WORDS, REASON_WORDS = 25, 15


def results(name, count):
    calculator = find(name)
    for preset in calculator.presets:
        yield calculator.run(preset.inputs)
    for inputs in random_inputs(calculator, count, 5):
        try:
            yield calculator.run(inputs)
        except InputErrors:
            continue


@pytest.mark.parametrize("name", NAMES)
def test_headlines_and_reasons_are_short(name):
    for result in results(name, 400):
        answer = result.answer
        assert len(answer.headline.split()) <= HEADLINE_WORDS, answer.headline
        if answer.verdict:
            assert len(answer.verdict.reason.split()) <= REASON_WORDS, answer.verdict.reason


@pytest.mark.parametrize("name", NAMES)
def test_every_result_says_what_it_was_worked_for(name):
    for result in results(name, 20):
        said = result.worked_for()
        assert said
        assert not said.endswith(".")


def test_the_two_kits_are_named_as_a_shop_names_them():
    inputs = {"have_size": 8, "have_rate": 3200, "add_size": 16, "add_rate": 3600}
    said = find("memory.mix").run(inputs).worked_for()
    assert said == "2 × 8 GB DDR4-3200 and 2 × 16 GB DDR4-3600, 4 slots"
