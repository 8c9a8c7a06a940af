"""The texts of new pages, sheets and calculators. Every 'Write here' is found by the check command until it is gone."""

from __future__ import annotations

import datetime

ANSWER = """---
title: {title}
question: {title}
subject: {subject}
checked: {today}
review_by: {review}
---
# {title}

/// short-answer
Write here what you would say aloud, in at most 40 words.
///

## Your numbers

{calculator}

## What to do

Write here what to do with this result, the first action first.

## If it does not work

Write here what to do next, gentlest step first.

## Why

Write here why it is so. A number that a calculator can give is never typed: {figure}.

## Cautions

Write here what can hurt hearing, data, machine or person, and whom to defer to.

## Sources

/// sources
///

Write here any further source, with document and clause, or say that there is none.

## History

- {today}: first written.
"""

EPISODE = """---
title: {title}
recorded: {today}
summary: Write here in one or two sentences what this episode is about.
segments:
  - start: "0:00"
    question: {question}
    viewer: anonymous
    answer: {answer}
    # inputs: those of this viewer, as in the form; said: the headline as you said it
    inputs: {{}}
---
# {title}

/// episode
///
"""

CALCULATOR = '''"""{name}: write here in one line what it works out."""

from __future__ import annotations

from calculators.desk.answer import COMMON_PRACTICE, Answer, Source, Working, figure
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.inputs import Number, Values


def total(count: float, each: float) -> float:
    """
    Write here what the formula gives.

    Args:
        count: How many. [1]
        each: Size of one. [GB]

    Returns:
        The sum. [GB]

    Source:
        Common practice, no source.

    Example:
        >>> total(2, 8.0)
        16.0
    """
    return count * each


def compute(given: Values) -> Answer:
    """The answer for one set of inputs."""
    found = figure("total", "Together", total(given["count"], given["each"]), "GB", main=True)
    return Answer(
        headline=f"Together they make {{found.text}}.",
        figures=(found,),
        working=(Working("Sum", "count × each", f"{{given['count']}} × {{given.say('each')}}", found.text),),
        sources=(Source("Write here the document", "and its clause", COMMON_PRACTICE),),
    )


calculator = Calculator(
    name="{name}",
    title="{title}",
    summary="Write here in one sentence what it works out.",
    inputs=(
        Number(
            key="count",
            label="How many",
            where="Write here where a viewer finds it.",
            low=1,
            high=64,
            default=2,
            whole=True,
        ),
        Number(
            key="each",
            label="Size of one",
            where="Write here where a viewer finds it.",
            low=0.1,
            high=4096,
            unit="GB",
            default=8,
        ),
    ),
    compute=compute,
    presets=(Preset("pair", "A pair", {{"count": 2, "each": 8}}),),
)
'''

CALCULATOR_TEST = '''"""{name} against numbers that its author did not compute: write here whose they are."""

import pytest

from calculators.desk.errors import InputErrors
from calculators.{module} import calculator, total


@pytest.mark.parametrize(("count", "each", "published"), [(2, 8, 16), (4, 0.5, 2)])
def test_published_values(count, each, published):
    assert total(count, each) == published


def test_the_headline_holds_the_figure():
    assert calculator.run({{"count": 4, "each": "16 GB"}}).answer.headline == "Together they make 64 GB."


def test_a_fraction_of_a_thing_is_refused():
    with pytest.raises(InputErrors, match="How many must be a whole number"):
        calculator.run({{"count": "1.5"}})
'''

SUBJECT = '''"""{subject}: write here in one line what this subject is about. Imports calculators/desk only."""

CALCULATORS = ("{short}",)
'''


def answer(title: str, subject: str, calculator: str, figure: str, today: datetime.date) -> str:
    """An answer page that passes every check; without a calculator where there is none yet."""
    block = f"/// calculator | {calculator}\n///" if calculator else "There is no calculator for this question yet."
    inline = f"{{= {calculator} -> {figure} =}}" if calculator else "there is none here yet"
    review = today.replace(year=today.year + 1, day=min(today.day, 28))
    return ANSWER.format(title=title, subject=subject, today=today, review=review, calculator=block, figure=inline)
