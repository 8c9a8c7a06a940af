"""The door between the page's box and the reader: what goes in, what comes out, and that it never raises."""

from __future__ import annotations

import json
from typing import Any

import pytest

from calculators.asking.door import FAULT, answer

TITLE = "What do the numbers on a memory kit mean?"
KIT = {
    "page": "memory/kit-numbers", "title": TITLE, "question": TITLE, "subject": "memory",
    "words": ["ram", "timings", "cl"], "asked": ["faster kit"], "short": "The rate divided into the clocks.",
    "calculators": ["memory.rate"],
}  # fmt: skip
OTHERS = [
    {"page": f"other/{n}", "title": f"other{n}", "question": f"other{n}", "subject": "other", "words": [], "asked": [],
     "short": "", "calculators": []}
    for n in range(30)
]  # fmt: skip  # words are rare only where there are many pages
INDEX = {"pages": [KIT, *OTHERS], "decisive": {"memory.rate": ["rate", "cas", "generation", "channels"]}}


def asked(**order: Any) -> dict[str, Any]:
    answer(json.dumps({"text": "", "mark": "door", "index": INDEX}))
    return dict(json.loads(answer(json.dumps({"mark": "door", **order}))))


def test_it_wants_the_index_once() -> None:
    assert json.loads(answer('{"text": "memory", "mark": "never seen"}')) == {"wants": "index"}
    assert "answers" in asked(text="memory timings faster kit")


def test_labels_fields_result_and_link() -> None:
    best = asked(text="is a 3600 c18 ram kit faster, timings and cl")["answers"][0]
    assert [(field["key"], field["said"], field["words"]) for field in best["read"]] == [
        ("rate", "3600 MT/s", "3600"),
        ("cas", "18 clocks", "18"),
    ]
    assert [field["key"] for field in best["missing"]] == ["generation", "channels"]
    assert best["missing"][0]["options"][0] == ["ddr3", "DDR3"]
    assert "10 ns" in best["headline"]
    assert best["link"].startswith("memory.rate:rate=3600&cas=18&made=")


def test_what_is_put_right_is_worked_anew_and_what_is_thrown_out_is_asked_back() -> None:
    order = {"page": "memory/kit-numbers", "calculator": "memory.rate"}
    best = asked(**order, inputs={"rate": "3200", "cas": ""})["answers"][0]
    assert [field["key"] for field in best["read"]] == ["rate"]
    assert best["missing"][0]["key"] == "cas"
    wrong = asked(**order, inputs={"rate": "3200", "cas": "many"})["answers"][0]
    assert wrong["errors"][0]["input"] == "cas"
    assert "headline" not in wrong


def test_what_can_be_hurt_is_told_with_the_result() -> None:
    order = {"page": "memory/kit-numbers", "calculator": "audio.level"}
    best = asked(**order, inputs={"impedance": "250"})["answers"][0]
    assert best["headline"].startswith("These headphones")
    assert best["caution"] == "Volume to nothing before you plug in."


def test_where_a_danger_is_told_of_nothing_is_worked() -> None:
    found = asked(text="smoke came out when I put the faster ram kit in, timings cl 3600")
    assert found["danger"][0].startswith("Switch the power off")
    assert all("headline" not in each and "read" not in each for each in found["answers"])


@pytest.mark.parametrize("order", ["", "[]", "null", "{", '{"mark": "door", "calculator": "no.such"}', '{"index": 3}'])
def test_it_never_raises(order: str) -> None:
    asked(text="")
    reply = json.loads(answer(order))
    assert reply in ({"fault": FAULT}, {"wants": "index"})
