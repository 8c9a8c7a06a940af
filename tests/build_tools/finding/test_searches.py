"""Everyday searches: the page wanted is among the first three, also with a slip of the finger."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.build_tools.finding.conftest import Find

HERE = Path(__file__).parent
AMONG_THREE = 0.95
AMONG_THREE_WITH_A_SLIP = 0.85  # one word of each search is mistyped, often the only one that tells the page
AT_LEAST = 120  # searches whose page is there
A_KEYSTROKE_MS = 8  # half of one picture at 60 Hz, on a machine that is busy with other tests


def searches(half: str, pages_index: dict[str, Any]) -> list[tuple[str, str]]:
    """(what is typed, the page wanted) of one list, for pages that exist."""
    rows = tomllib.loads((HERE / f"searches_{half}.toml").read_text("utf-8"))["rows"]
    by_question = {entry["question"]: entry["page"] for entry in pages_index["pages"]}
    there = {entry["page"] for entry in pages_index["pages"]}
    known = [(typed, by_question.get(wanted, f"answers/{wanted}")) for typed, wanted in rows]
    return [(typed, page) for typed, page in known if page in there]


def missed(rows: list[tuple[str, str]], found: list[dict[str, Any]]) -> list[str]:
    """The searches whose page is not among the first three."""
    return [
        f"{typed!r} wants {page}, got {one['pages'][:3]}"
        for (typed, page), one in zip(rows, found, strict=True)
        if page not in one["pages"][:3]
    ]


@pytest.mark.parametrize("half", ["tuned", "unseen", "fresh"])
def test_the_page_wanted_is_among_the_first_three(half: str, find: Find, pages_index: dict[str, Any]) -> None:
    rows = searches(half, pages_index)
    faults = missed(rows, find([typed for typed, _ in rows]))
    assert 1 - len(faults) / len(rows) >= AMONG_THREE, "\n".join(faults)


def test_the_lists_are_long_and_touch_every_answer_that_they_were_written_for(pages_index: dict[str, Any]) -> None:
    rows = [*searches("tuned", pages_index), *searches("unseen", pages_index)]
    assert len(rows) >= AT_LEAST
    assert len({typed for typed, _ in rows}) == len(rows)
    later = ("motion", "work")  # the lists were begun before these subjects' pages
    pages = {entry["page"] for entry in pages_index["pages"] if entry["subject"] not in later}
    assert pages <= {page for _, page in rows}


def test_a_search_is_left_out_only_while_its_page_is_not_written(project: Path, pages_index: dict[str, Any]) -> None:
    there = {entry["subject"] for entry in pages_index["pages"]}
    questions = {entry["question"] for entry in pages_index["pages"]}
    for half in ("tuned", "unseen"):
        for typed, wanted in tomllib.loads((HERE / f"searches_{half}.toml").read_text("utf-8"))["rows"]:
            subject, slash, _ = wanted.partition("/")
            if slash and subject in there:
                assert (project / "docs" / "answers" / f"{wanted}.md").is_file(), (typed, wanted)
            elif not slash and "work" in there:
                assert wanted in questions, (typed, wanted)


def slipped(typed: str) -> str:
    """The longest word with two letters swapped, as fingers do it; the search itself where no word is long enough."""
    words = typed.split()
    longest = max(words, key=lambda word: len(word) if word.isalpha() else 0)
    if not longest.isalpha() or len(longest) < 5:
        return typed
    middle = len(longest) // 2
    swapped = longest[: middle - 1] + longest[middle] + longest[middle - 1] + longest[middle + 1 :]
    return " ".join(swapped if word == longest else word for word in words)


def test_one_slip_of_the_finger_is_forgiven(find: Find, pages_index: dict[str, Any]) -> None:
    rows = [(slipped(typed), page) for typed, page in searches("tuned", pages_index)]
    faults = missed(rows, find([typed for typed, _ in rows]))
    assert 1 - len(faults) / len(rows) >= AMONG_THREE_WITH_A_SLIP, "\n".join(faults)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("240hz", "240 hz"),
        ("2560x1440 240hz", "2560 × 1440 240 hz"),
        ("16GB", "16 gb"),
        ("colour banding", "color banding"),
        ("grey hdr", "GRAY HDR"),
        ("usb c adaptor", "USB-C adapters"),
        ("headphone", "headphones"),
        ("display port", "displayport"),
        ("wi-fi", "wifi"),
        ("4:2:2", "422"),
        ("1/4 inch plug", "quarter inch plugs"),
        ("swapping cards", "swap card"),
        ("fibre cable 10 metres", "fiber cable 10 meter"),
        ("Größe edid", "grosse edid"),
        ("Größe hdmi", "grosse hdmi"),
        ("longest cable", "long cable"),
    ],
)
def test_spellings_of_one_thing_find_the_same(one: str, other: str, find: Find) -> None:
    first, second = find([one, other])
    assert first["pages"][:3] == second["pages"][:3]
    assert first["pages"]


@pytest.mark.parametrize(
    "typed",
    ["how to bake bread", "best pizza recipe", "qwertzuiop", "gaming chair", "webcam", "my printer does not print"],
)
def test_what_is_not_answered_here_is_not_told_as_found(typed: str, find: Find) -> None:
    assert find([typed])[0]["sure"] != "good"


@pytest.mark.parametrize(
    ("typed", "subject"),
    [
        ("audoi problem xyzzy", "audio"),
        ("windows update broke my sound", "audio"),
        ("windows update broke my monitor", "display"),  # another name of the subject names it, too
    ],
)
def test_where_little_is_found_the_nearest_subject_is_told(typed: str, subject: str, find: Find) -> None:
    found = find([typed])[0]
    assert found["sure"] != "good"
    assert found["subject"] == subject


@pytest.mark.parametrize(
    "typed", ["", " ", "?", "the", ". , ;", "(((", "a" * 5000, "hdmi " * 500, "\u0000\U0001f600", "__proto__"]
)
def test_odd_text_is_searched_for_like_any_other(typed: str, find: Find) -> None:
    found = find([typed])[0]
    assert found["sure"] in ("good", "weak", "none")
    assert bool(found["pages"]) == (found["sure"] != "none")
    assert json.dumps(found["scores"]).find("null") < 0  # NaN would be null


def test_the_more_of_it_a_page_holds_the_higher_it_stands(run_finder: Callable[..., dict[str, Any]]) -> None:
    def entry(page: str, question: str) -> dict[str, Any]:
        return {"page": page, "question": question, "subject": "s", "words": [], "short": "", "calculators": []}

    small = {
        "subjects": ["s"], "calculators": {}, "stop": ["the"], "same": [], "spellings": [],
        "pages": [
            entry("a", "The red kettle"), entry("b", "The red lamp"), entry("c", "The blue lamp"), entry("d", "Tea"),
        ],
    }  # fmt: skip
    both, rare = run_finder(small, ["red lamp", "kettle lamp"])["found"]
    assert both["pages"][0] == "b"
    assert rare["pages"][0] == "a"  # one page holds 'kettle', two hold 'lamp'
    assert all(score > 0 for score in both["scores"])
    assert both["scores"] == sorted(both["scores"], reverse=True)


def test_a_keystroke_takes_no_time_that_one_feels(
    run_finder: Callable[..., dict[str, Any]], pages_index: dict[str, Any]
) -> None:
    typed = [typed for typed, _ in searches("tuned", pages_index)]
    assert run_finder(pages_index, typed)["stroke_ms"] < A_KEYSTROKE_MS
