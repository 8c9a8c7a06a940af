"""What is said aloud: headlines of at most 25 words, verdicts' reasons of at most 15, 'worked for' a phrase."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calculators.catalogue import find, names
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors
from tests.random_inputs import random_inputs

pytestmark = pytest.mark.once

MOST_OF_A_HEADLINE, MOST_OF_A_REASON, LONGEST_PHRASE = 25, 15, 160
CASES, SEED = 16, 7
SUBJECTS = [name for name in names() if name.startswith(("display.", "colour."))]
NOT_SAID = ("edid-decode", "colour-science", "xcvt", *names())


def answers(name):
    calculator = find(name)
    for inputs in [{}, *(p.inputs for p in calculator.presets), *random_inputs(calculator, CASES, SEED)]:
        try:
            yield calculator.run(dict(inputs))
        except InputErrors:
            continue


def faults(result) -> list[str]:
    answer, found = result.answer, []
    if len(answer.headline.split()) > MOST_OF_A_HEADLINE:
        found.append(f"headline: {answer.headline}")
    if answer.verdict and len(answer.verdict.reason.split()) > MOST_OF_A_REASON:
        found.append(f"reason: {answer.verdict.reason}")
    text = as_text(result)
    found += [f"said: {word}" for word in NOT_SAID if word in text]
    if not 5 < len(result.worked_for()) <= LONGEST_PHRASE:
        found.append(f"worked for: {result.worked_for()}")
    return found


@pytest.mark.parametrize("name", SUBJECTS)
def test_what_is_said_is_short_and_names_no_program(name):
    for result in answers(name):
        assert faults(result) == []


def test_every_headline_of_a_link_is_short():
    # every kind of verdict on every link, in the longest mode that there is
    link = find("display.link")
    entry = next(e for e in link.inputs if e.key == "link")
    for option in entry.options:
        for refresh in (10, 59.94, 100, 143.856, 240, 1000):
            for depth, sampling in (("8", "rgb"), ("12", "422"), ("10", "420")):
                given = {"width": 3840, "height": 2160, "refresh": refresh, "depth": depth, "sampling": sampling}
                assert faults(link.run({**given, "link": option.value, "compressed": "yes"})) == []


def test_the_faults_would_be_found():
    link = find("display.link").run({})
    long = replace(link.answer, headline="word " * 26)
    assert faults(replace(link, answer=long))
