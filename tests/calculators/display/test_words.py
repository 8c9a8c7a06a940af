"""What is said aloud: headlines of at most 25 words, verdicts' reasons of at most 15, 'worked for' a phrase."""

from __future__ import annotations

import pytest

from calculators.catalogue import find, names
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors
from tests.random_inputs import random_inputs

MOST_OF_A_HEADLINE, MOST_OF_A_REASON = 25, 15
CASES, SEED = 60, 7
SUBJECTS = [name for name in names() if name.startswith(("display.", "colour."))]
NOT_SAID = ("edid-decode", "colour-science", "xcvt", "skimage", *names())


def answers(name):
    calculator = find(name)
    for inputs in [{}, *(p.inputs for p in calculator.presets), *random_inputs(calculator, CASES, SEED)]:
        try:
            yield calculator.run(dict(inputs))
        except InputErrors:
            continue


@pytest.mark.parametrize("name", SUBJECTS)
def test_headlines_and_reasons_can_be_said(name):
    for result in answers(name):
        answer = result.answer
        assert len(answer.headline.split()) <= MOST_OF_A_HEADLINE, answer.headline
        if answer.verdict:
            assert len(answer.verdict.reason.split()) <= MOST_OF_A_REASON, answer.verdict.reason


@pytest.mark.parametrize("name", SUBJECTS)
def test_no_program_and_no_internal_name_is_said(name):
    for result in answers(name):
        text = as_text(result)
        assert not [word for word in NOT_SAID if word in text]


@pytest.mark.parametrize("name", SUBJECTS)
def test_it_says_for_what_it_was_worked_out(name):
    for result in answers(name):
        assert 5 < len(result.worked_for()) <= 160
