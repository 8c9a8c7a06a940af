"""What is said aloud of sound fits a breath: headlines of 25 words, verdicts' reasons of 15, on any inputs."""

import re

import pytest

from calculators.audio import CALCULATORS
from calculators.catalogue import find
from calculators.desk.errors import InputErrors
from calculators.desk.inputs import WHERE_TO_FIND
from tests.random_inputs import random_inputs

pytestmark = pytest.mark.once

HEADLINE_WORDS, REASON_WORDS = 25, 15
TRIES, SEED = 300, 23
FEWER = {"audio.tones": 60}  # each makes a sound, which is what takes the time; its words are few
WORD = re.compile(r"\w")
NAMES = [f"audio.{name}" for name in CALCULATORS]
# What answers nothing, as a viewer said: a riddle, or the question given back.
RIDDLES = re.compile(r"that is open|leave both open|leaves? it open|only just|real edge|\bNone\.", re.I)


def count(text):
    """Words as they are spoken: a number's groups of digits belong together, a lone sign is none."""
    return sum(bool(WORD.search(part)) for part in text.replace("\u202f", "").split(" "))


def answers(name):
    calculator = find(name)
    for inputs in [*(p.inputs for p in calculator.presets), *random_inputs(calculator, FEWER.get(name, TRIES), SEED)]:
        try:
            yield inputs, calculator.run(inputs)
        except InputErrors:
            continue


@pytest.mark.parametrize("name", NAMES)
def test_headlines_and_reasons_are_short_and_no_riddles(name):
    seen = 0
    for inputs, result in answers(name):
        seen += 1
        answer = result.answer
        assert count(answer.headline) <= HEADLINE_WORDS, (inputs, answer.headline)
        assert not RIDDLES.search(answer.headline), answer.headline
        if answer.verdict:
            assert count(answer.verdict.reason) <= REASON_WORDS, (inputs, answer.verdict.reason)
            assert not RIDDLES.search(f"{answer.verdict.said()} {answer.verdict.reason}"), answer.verdict
            assert answer.verdict.says, "yes and no alone do not answer these questions"
    assert seen > 40


@pytest.mark.parametrize("name", NAMES)
def test_every_calculator_says_for_what_it_was_worked_out_and_knows_everyday_names(name):
    calculator = find(name)
    assert calculator.worked_for
    asked = [entry for entry in calculator.inputs if not entry.extra and not entry.key.startswith("level_")]
    named = [entry.key for entry in asked if entry.names]
    assert len(named) * 2 >= len(asked), sorted({e.key for e in asked} - set(named))


@pytest.mark.parametrize("name", NAMES)
def test_what_is_chosen_or_seen_is_not_asked_for_by_where_it_is_found(name):
    for entry in find(name).inputs:
        if entry.where.startswith(("Your choice", "Your own", "By looking", "By size", "Count")):
            assert entry.where_title != WHERE_TO_FIND, entry.key
