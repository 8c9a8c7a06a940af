"""
How well the reader of questions does on labelled questions: right page, calculator and inputs, and what it asks back.

The questions are our own, invented (questions.json and fresh_questions.json in tests/calculators/asking); rows marked
`unseen` were never looked at while the reader was tuned. Where a further set lies beside the project,
as ../shared/questions, it is tried too.
"""

from __future__ import annotations

import json
import time
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from build_tools.questions.index import of_docs
from calculators.asking.ask import as_data, ask
from calculators.asking.finding import prepare
from calculators.catalogue import subjects
from tests.processor_time import allowed

PROJECT = Path(__file__).resolve().parents[3]
OWN = PROJECT / "tests/calculators/asking/questions.json"
FRESH = PROJECT / "tests/calculators/asking/fresh_questions.json"
THIRD = PROJECT / "tests/calculators/asking/third_questions.json"
FOURTH = PROJECT / "tests/calculators/asking/fourth_questions.json"
# A set of questions made by others, if there is one.
GIVEN = next(
    (p / "shared/questions/questions.json" for p in PROJECT.parents if (p / "shared/questions").is_dir()), None
)
# The least share that each measure may have. first, three: the right page comes first, or among the first three (42 and
# 45 of 46 questions). calculator: the right one comes first. precision, recall: of the inputs that were read. asked: of
# the missing inputs, those that it asks for. away: questions of no subject of ours that get no answer. kept: questions
# of ours that get one (64 of 66).
BARS = {
    "first": 42 / 46, "three": 45 / 46, "calculator": 0.88, "precision": 0.97, "recall": 0.85, "asked": 0.6,
    "away": 5 / 6, "kept": 64 / 66,
}  # fmt: skip
# What was measured on questions written before the reader's rules were read, and never tuned on. Precision stands below
# the one above: that is what the reader does with text that nobody tuned it for.
FRESH_BARS = BARS | {"first": 0.96, "precision": 0.96}
MOST_MS = 30


@cache
def index() -> Any:
    return prepare(of_docs(PROJECT / "docs"))


def same(one: object, other: object) -> bool:
    return one == other or str(one) == str(other) or (
        isinstance(one, (int, float)) and isinstance(other, (int, float)) and abs(one - other) < 1e-9
    )  # fmt: skip


def shares(rows: list[dict[str, Any]]) -> dict[str, float]:
    """The measured shares, and the milliseconds of processor time a question."""
    n: Counter[str] = Counter()
    began = time.process_time()
    answers = [as_data(ask(row["text"], index()))["answers"] for row in rows]
    spent = time.process_time() - began
    for row, found in zip(rows, answers, strict=True):
        if row["subject"] == "none":
            n["none"] += 1
            n["away"] += not found
            continue
        n["answerable"] += 1
        n["kept"] += bool(found)
        pages = [answer["page"] for answer in found]
        if row["pages"]:
            n["paged"] += 1
            n["first"] += pages[:1] != [] and pages[0] in row["pages"]
            n["three"] += any(page in row["pages"] for page in pages[:3])
        if not row["calculator"]:
            continue
        n["computed"] += 1
        n["calculator"] += bool(found) and found[0]["calculator"] in (row["calculator"], *row["also"])
        mine = next((a for a in found[:3] if a["calculator"] == row["calculator"]), None)
        if mine is None:
            continue
        for key, value in mine["inputs"].items():
            right = key in row["inputs"] and same(value, row["inputs"][key])
            n["right"] += right or (key in row["inputs"] and any(same(value, v) for v in row["either"].get(key, [])))
            n["wrong"] += not right and not any(same(value, v) for v in row.get("either", {}).get(key, []))
        n["missed"] += sum(key not in mine["inputs"] and key not in row["either"] for key in row["inputs"])
        n["missing"] += len(row["missing"])
        n["asked"] += sum(key in mine["missing"] for key in row["missing"])
    return {
        "first": n["first"] / n["paged"], "three": n["three"] / n["paged"],
            "calculator": n["calculator"] / n["computed"],
        "precision": n["right"] / (n["right"] + n["wrong"]), "recall": n["right"] / (n["right"] + n["missed"]),
        "asked": n["asked"] / n["missing"], "away": n["away"] / n["none"], "kept": n["kept"] / n["answerable"],
        "ms": 1000 * spent / len(rows),
    }  # fmt: skip


def rows_of(path: Path) -> list[dict[str, Any]]:
    known = {*subjects(), "none"}
    return [
        row | {"either": row.get("either") or {}}
        for row in json.loads(path.read_text("utf-8"))
        if row["subject"] in known
    ]


@pytest.mark.parametrize("part", ["tuned", "unseen", "given"])
def test_the_bars_hold(part: str) -> None:
    if part == "given":
        if GIVEN is None:
            pytest.skip("no further questions lie beside the project")
        rows = rows_of(GIVEN)
    else:
        rows = [row for row in rows_of(OWN) if row["unseen"] == (part == "unseen")]
    found = shares(rows)
    assert {bar: found[bar] for bar, least in BARS.items() if found[bar] < least} == {}
    assert found["ms"] < allowed(MOST_MS)


@pytest.mark.parametrize(("part", "bars"), [("tuned", BARS), ("unseen", FRESH_BARS)])
def test_the_bars_hold_on_fresh_questions(part: str, bars: dict[str, float]) -> None:
    found = shares([row for row in rows_of(FRESH) if row["unseen"] == (part == "unseen")])
    assert {bar: found[bar] for bar, least in bars.items() if found[bar] < least} == {}
    assert found["ms"] < allowed(MOST_MS)


@pytest.mark.parametrize("path", [THIRD, FOURTH], ids=["third", "fourth"])
def test_the_bars_hold_on_further_sets(path: Path) -> None:
    """
    Written by one who knew no rule of the reader's. At first sight the third had 94.0 % precision and 75.7 % recall;
    the fourth, after the third's misreadings were mended, 98.1 and 89.6 %.
    """
    found = shares(rows_of(path))
    assert {bar: found[bar] for bar, least in BARS.items() if found[bar] < least} == {}


def test_there_are_enough_fresh_questions_of_all_subjects() -> None:
    rows = rows_of(FRESH)
    assert len({row["text"] for row in rows}) == len(rows)
    assert sum(row["unseen"] for row in rows) >= 90
    for unseen in (True, False):
        assert {row["subject"] for row in rows if row["unseen"] == unseen} == {*subjects(), "none"}


def test_there_are_enough_questions_of_all_subjects() -> None:
    rows = rows_of(OWN)
    assert len(rows) >= 150
    assert len({row["text"] for row in rows}) == len(rows)
    assert sum(row["unseen"] for row in rows) >= 50
    assert {row["subject"] for row in rows} == {*subjects(), "none"}
