"""Answers of every calculator, put into a page one after another: what stands there is what the markup says."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

from build_tools.bundling.bundle import bundled
from calculators.catalogue import find, names
from calculators.desk.as_html import as_html
from calculators.desk.errors import InputErrors
from calculators.desk.inputs import Number
from tests.random_inputs import random_inputs

SETS = 12


@pytest.fixture(scope="module")
def putting(project: Path) -> str:
    return bundled(project, {"outcome": "tests/browser/outcome_in_page.mjs"}, "classic")["outcome.js"].decode()


def answers(name: str) -> Iterator[str]:
    """Of some inputs, and of each the same with one number a little larger, as by somebody who tries what changes."""
    calculator = find(name)
    numbers = [entry for entry in calculator.inputs if isinstance(entry, Number)]
    for turn, inputs in enumerate([{}, *random_inputs(calculator, SETS, seed=12)]):
        tries: list[dict[str, Any]] = [inputs]
        if numbers:
            entry = numbers[turn % len(numbers)]
            given = inputs.get(entry.key, entry.default)
            if isinstance(given, int | float):
                tries += [{**inputs, entry.key: given + step * (1 if entry.whole else 0.5)} for step in (1, 2)]
        for each in tries:
            try:
                yield as_html(calculator.run(each), "p-1")
            except InputErrors:
                continue


@pytest.mark.parametrize("name", names())
def test_what_stands_in_the_page_is_the_answers_markup(page: Page, putting: str, name: str) -> None:
    page.evaluate(putting)
    put = list(answers(name))
    assert len(put) > 1
    assert page.evaluate("answers => putAll(answers).differing", put) == []


def test_a_number_that_is_typed_changes_words_and_values_alone(page: Page, putting: str) -> None:
    """The case for which it is there: the same answer of other numbers is not read anew."""
    page.evaluate(putting)
    calculator = find("memory.rate")
    typed = [as_html(calculator.run({"rate": 3000 + i}), "p-1") for i in range(50)]
    assert page.evaluate("answers => putAll(answers)", typed) == {"inPlace": len(typed) - 1, "differing": []}
