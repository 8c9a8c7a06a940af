"""
How well the reader takes numbers and choices out of short, messy sentences, calculator by calculator.

The sentences are our own, invented, with labels by the rules of questions.json. They were written before the reader was
tried on them; it was tuned on them since. Other than in test_bars.py the calculator is given: only reading is tried.
"""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from typing import Any

from calculators.asking.facts import gather
from calculators.asking.reading import read_inputs
from calculators.catalogue import find, names
from tests.build_tools.questions.test_bars import same

ROWS: list[dict[str, Any]] = json.loads(
    (Path(__file__).resolve().parents[2] / "calculators/asking/everyday_wordings.json").read_text("utf-8")
)
PRECISION, RECALL = 0.98, 0.95  # least shares, of what is read and of what is labelled


def test_what_is_read_of_everyday_wordings() -> None:
    n: Counter[str] = Counter()
    for row in ROWS:
        readings = {one.key: one.value for one in read_inputs(gather(row["text"]), row["calculator"])}
        for key, value in readings.items():
            as_good = any(same(value, other) for other in row["either"].get(key, []))
            right = key in row["inputs"] and (same(value, row["inputs"][key]) or as_good)
            n["right"] += right
            n["wrong"] += not right and not as_good
        n["missed"] += sum(key not in readings and key not in row["either"] for key in row["inputs"])
    assert n["right"] / (n["right"] + n["wrong"]) >= PRECISION
    assert n["right"] / (n["right"] + n["missed"]) >= RECALL


def test_every_label_is_a_value_that_its_input_takes() -> None:
    for row in ROWS:
        entries = {entry.key: entry for entry in find(row["calculator"]).inputs}
        for key, value in row["inputs"].items():
            assert same(entries[key].echo(entries[key].read(value)), value), row["id"]


def test_there_are_enough_of_nearly_all_calculators() -> None:
    assert len({row["text"] for row in ROWS}) == len(ROWS) >= 150
    without = set(names()) - {row["calculator"] for row in ROWS}
    assert all(not any(not entry.private for entry in find(name).inputs) or name in NONE_WRITES for name in without)


# Whose inputs nobody writes down: what a display declares is pasted, a picture is looked at.
NONE_WRITES = {"display.declared", "colour.picture"}
