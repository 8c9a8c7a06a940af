"""No input whatever raises anything but the declared error, in any calculator, and every answer can be rendered."""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.catalogue import find, names
from calculators.desk.as_html import as_html
from calculators.desk.as_json import as_json, dumps
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors
from calculators.desk.inputs import UNSURE, Choice, Estimate, Input, Number, Text

ANYTHING = st.one_of(
    st.text(max_size=40), st.integers(), st.floats(), st.booleans(), st.none(), st.lists(st.integers(), max_size=2),
    st.sampled_from(["", " ", "nan", "inf", "-1", "1e400", "½", "\ud800", "\u0000", "1,5", "9" * 500, UNSURE]),
)  # fmt: skip


def fitting(entry: Input) -> st.SearchStrategy:
    """Values that the declaration allows, its ends among them."""
    if isinstance(entry, Choice):
        return st.sampled_from([option.value for option in entry.options])
    if isinstance(entry, Number):
        ends = st.sampled_from([entry.low, entry.high, *([entry.default] if entry.default is not None else [])])
        if isinstance(entry, Estimate):
            ends = st.one_of(ends, st.sampled_from([UNSURE, *(choice.value for choice in entry.choices)]))
        if entry.whole:
            return st.one_of(ends, st.integers(int(entry.low), int(entry.high)))
        return st.one_of(ends, st.floats(entry.low, entry.high))
    assert isinstance(entry, Text)
    return st.sampled_from([text for text in (entry.example, entry.default, "") if text is not None])


@cache  # to make and check them takes longer than to draw from them
def cases(name: str) -> st.SearchStrategy:
    """Sets of inputs: a common case or nothing, with some inputs set to what fits and a few to anything at all."""
    calculator = find(name)
    starts = st.sampled_from([{}, *(dict(preset.inputs) for preset in calculator.presets)])
    good = st.fixed_dictionaries({}, optional={entry.key: fitting(entry) for entry in calculator.inputs})
    keys = st.sampled_from([entry.key for entry in calculator.inputs] + ["no_such_input", "\ud800"])
    wild = st.one_of(st.just({}), st.dictionaries(keys, ANYTHING, max_size=2))
    return st.tuples(starts, good, wild).map(lambda parts: {**parts[0], **parts[1], **parts[2]})


@pytest.mark.once
@pytest.mark.parametrize("name", names())
@given(data=st.data())
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_any_input_gives_an_answer_or_sentences(name, data):
    inputs = data.draw(cases(name))
    try:
        result = find(name).run(inputs)
    except InputErrors as wrong:
        said = [problem.message for problem in wrong.problems]
    else:
        dumps(as_json(result))  # refuses NaN and infinities
        assert as_html(result, "a").startswith('<div class="wa-answer wa-first"')
        said = [result.answer.headline]
        assert said[0] in as_text(result)
    assert said
    assert all(sentence.strip() for sentence in said)
