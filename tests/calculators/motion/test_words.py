"""Headlines and reasons can be said in a breath, whatever is put in; the page's short answers, too."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from calculators.catalogue import find
from calculators.desk.errors import InputErrors
from calculators.motion import CALCULATORS
from tests.random_inputs import random_inputs

pytestmark = pytest.mark.once

MOST_HEADLINE, MOST_REASON, MOST_SHORT_ANSWER = 25, 15, 40
PAGES = sorted((Path(__file__).parents[3] / "docs" / "answers" / "motion").glob("*.md"))
SHORT_ANSWER = re.compile(r"^/// short-answer\n(.*?)\n///$", re.S | re.M)


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


def test_short_answers_are_short():
    assert len(PAGES) >= 7
    for page in PAGES:
        if page.name == "index.md":
            continue
        (said,) = SHORT_ANSWER.findall(page.read_text("utf-8"))
        assert len(words(said)) <= MOST_SHORT_ANSWER, page.name
