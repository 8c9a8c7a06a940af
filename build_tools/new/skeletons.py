"""The texts of new pages, sheets and calculators. Every 'Write here' is found by the check command until it is gone."""

from __future__ import annotations

import datetime
import json
import re

ANSWER = """---
title: {quoted}
question: {quoted}
subject: {subject}
checked: {today}
review_by: {review}
---
# {heading}

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
  - question: {question}
    viewer: anonymous      # a handle, if they gave one; consent: true, once they have agreed to be named
    answer: {answer}
    inputs: {{}}             # this viewer's, as in the form
    # start, said and the rest come later, by themselves: from the marks, and from the said command
---
# {heading}

/// episode
///
"""

CALCULATOR = '''"""{name}: Write here in one line what it works out."""

from __future__ import annotations

from calculators.desk.answer import COMMON_PRACTICE, Answer, Source, Working, figure
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.inputs import Number, Values


def total(count: float, each: float) -> float:
    """
    Write here what the formula gives.

    Args:
        count: How many. [1]
        each: Size of one. [1]

    Returns:
        The sum. [1]

    Source:
        Common practice, no source.

    Example:
        >>> total(2, 8.0)
        16.0
    """
    return count * each


def compute(given: Values) -> Answer:
    """The answer for one set of inputs."""
    found = figure("total", "Together", total(given["count"], given["each"]), main=True)
    return Answer(
        headline=f"Together they make {{found.text}}.",
        figures=(found,),
        working=(Working("Sum", "count × each", f"{{given['count']}} × {{given.say('each')}}", found.text),),
        sources=(Source("Write here the document", "and its clause", COMMON_PRACTICE),),
    )


def worked_for(given: Values) -> str:
    """For which parts the result was worked out."""
    return f"{{given['count']}} of {{given.say('each')}} each"


calculator = Calculator(
    name="{name}",
    title={title},
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
            unit="",
            default=8,
        ),
    ),
    compute=compute,
    worked_for=worked_for,
    presets=(Preset("pair", "A pair", {{"count": 2, "each": 8}}),),
)
'''

CALCULATOR_TEST = '''"""{name} against numbers that its author did not compute: Write here whose they are."""

import pytest

from calculators.desk.errors import InputErrors
from calculators.{module} import calculator, total


@pytest.mark.parametrize(("count", "each", "published"), [(2, 8, 16), (4, 0.5, 2)])
def test_published_values(count, each, published):
    assert total(count, each) == published


def test_the_headline_holds_the_figure():
    assert calculator.run({{"count": 4, "each": "16"}}).answer.headline == "Together they make 64."


def test_a_fraction_of_a_thing_is_refused():
    with pytest.raises(InputErrors, match="How many must be a whole number"):
        calculator.run({{"count": "1.5"}})
'''

SUBJECT = '''"""{subject}: Write here in one line what this subject is about. Imports calculators/desk only."""

CALCULATORS = ("{short}",)
'''


def answer(title: str, subject: str, calculator: str, figure: str, today: datetime.date) -> str:
    """An answer page that passes every check; without a calculator where there is none yet."""
    block = f"/// calculator | {calculator}\n///" if calculator else "There is no calculator for this question yet."
    inline = f"{{= {calculator} -> {figure} =}}" if calculator else "there is none here yet"
    review = today.replace(year=today.year + 1, day=min(today.day, 28))
    return ANSWER.format(
        quoted=quoted(title), heading=heading(title), subject=subject, today=today, review=review, calculator=block,
        figure=inline,
    )  # fmt: skip


def episode(title: str, today: datetime.date, question: str, answer: str) -> str:
    """An episode sheet with one segment about an answer."""
    return EPISODE.format(
        title=quoted(title), heading=heading(title), today=today, question=quoted(question), answer=answer
    )


def quoted(text: str) -> str:
    """A text as YAML, and Python, read it back, whatever signs stand in it."""
    return json.dumps(" ".join(text.split()), ensure_ascii=False)


def heading(text: str) -> str:
    """A text as a heading that Markdown shows as it is."""
    plain = re.sub(r"([\\`*_}\[\]])", r"\\\1", " ".join(text.split()))
    for sign, written in (("&", "&amp;"), ("<", "&lt;"), ("{", "&#123;"), ("///", "//&#47;")):
        plain = plain.replace(sign, written)
    return plain
