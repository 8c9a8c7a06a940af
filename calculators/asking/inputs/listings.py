"""Lists of numbers for an input that takes one: 'in the list are 50, 60, 100 and 120'."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from calculators.asking.facts import Facts, Quantity
from calculators.asking.inputs.plan import Plan
from calculators.asking.inputs.values import Reading, accepted
from calculators.desk.inputs import Text

_A_LIST = "a list of"  # with this an input's shape begins that takes several numbers
_LEAST = 3  # numbers: two may be an alternative
_BETWEEN = frozenset(", / and or hz hertz".split())
_LISTED = frozenset("list lists listed offers offer options choose pick choices menu settings available modes".split())


def by_listing(facts: Facts, plan: Plan) -> Iterator[Reading]:
    """The one list that a text tells, where its sentence calls it one and the calculator asks for one."""
    entries = [one.entry for one in plan.asked.values() if isinstance(one.entry, Text)]
    entries = [entry for entry in entries if entry.shape.startswith(_A_LIST)]
    runs = [run for run in _runs(facts) if _is_called(facts, run)] if len(entries) == 1 else []
    if len(runs) != 1:
        return
    run = runs[0]
    value = accepted(entries[0], ", ".join(facts.typed(quantity) for quantity in run))
    if value is not None:
        yield Reading(entries[0].key, value, facts.text[run[0].start : run[-1].end], run[0].start)


def without(facts: Facts, start: int, end: int) -> Facts:
    """The same text with the numbers of a place taken: they are read."""
    return replace(
        facts, quantities=tuple(replace(q, denied=q.denied or start <= q.start < end) for q in facts.quantities)
    )


def _runs(facts: Facts) -> Iterator[Sequence[Quantity]]:
    run: list[Quantity] = []
    for quantity in (*facts.quantities, None):
        follows = quantity is not None and run and {
            word.text for word in facts.words[run[-1].at + 1 : quantity.at]
        } <= _BETWEEN  # fmt: skip
        if quantity is not None and follows and not quantity.spelled:
            run.append(quantity)
            continue
        if len(run) >= _LEAST:
            yield run
        run = [quantity] if quantity is not None and not quantity.spelled else []


def _is_called(facts: Facts, run: Sequence[Quantity]) -> bool:
    sentence = facts.words[run[0].at].sentence
    return any(word.text in _LISTED for word in facts.words if word.sentence == sentence)
