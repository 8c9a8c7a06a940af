"""The post sorted: order, near-duplicates, what was asked before, replies, the sheet, and who is named."""

from __future__ import annotations

import datetime
import json
import shutil
from pathlib import Path

import pytest

from build_tools.episodes import sheet
from build_tools.new.writing import CannotMake
from build_tools.post import episode
from build_tools.post.comments import read
from build_tools.post.output import as_data, as_text
from build_tools.post.sorting import Answered, sort

PROJECT = Path(__file__).resolve().parents[3]
POST = """handle: otter-7
consent: yes
what does DDR4-3200 CL16 on my memory mean in ns

handle: wren
got 2x8gb ddr4 3200, can I add 2x16gb 3600?

handle: teacup
hi, got 2x8 gb ddr4 3200 here, can i add 2x16 gb 3600 please

my printer is out of ink

handle: moss
there is smoke coming out of my pc

print page says toner low
"""


@pytest.fixture(scope="module")
def post() -> list[Answered]:
    return sort(PROJECT / "docs", read(POST))


def test_danger_first_then_how_many_ask_then_what_nothing_answers(post: list[Answered]) -> None:
    assert [one.comment.number for one in post] == [5, 2, 1, 4, 6]
    assert [one.asked for one in post] == [1, 2, 1, 1, 1]
    assert post[0].dangers[0].startswith("Switch the power off")
    assert {one.theme for one in post[3:]} == {"Printers and scanners"}


def test_reading_missing_reply_and_asked_before(post: list[Answered]) -> None:
    mix, rate = post[1], post[2]
    assert (mix.calculator, mix.inputs["add_size"], rate.inputs) == (
        "memory.mix", 16, {"generation": "ddr4", "rate": 3200, "cas": 16},
    )  # fmt: skip
    assert "So that it is worked out for your parts" in mix.reply
    assert all(f"- {label}" in mix.reply for label in mix.missing)
    assert mix.headline not in mix.reply  # it would rest on what nobody said
    assert mix.before[0].episode == 1
    assert mix.before[0].time == "0:00"
    assert 0 < mix.seconds < 40


def test_handles_appear_only_where_their_owners_agreed(post: list[Answered]) -> None:
    everything = as_text(post) + json.dumps(as_data(post))
    assert "otter-7" in everything
    assert all(handle not in everything for handle in ("wren", "teacup", "moss"))


@pytest.fixture
def docs(tmp_path: Path) -> Path:
    for folder in ("answers", "episodes"):
        shutil.copytree(PROJECT / "docs" / folder, tmp_path / "docs" / folder)
    return tmp_path / "docs"


def test_picked_questions_make_a_sheet_without_mistakes(post: list[Answered], docs: Path) -> None:
    path = episode.make(docs, "Post of the week", [post[2], post[1]], datetime.date(2026, 12, 1))
    found, mistakes = sheet.read_sheet(docs, path)
    assert mistakes == []
    assert found is not None
    assert found.title == "Post of the week"
    first, second = found.segments
    assert (first.viewer, first.answer, first.calculator) == ("otter-7", post[2].page, "memory.rate")
    assert {key: str(value) for key, value in first.inputs.items()} == {
        "generation": "ddr4",
        "rate": "3200",
        "cas": "16",
    }
    assert (second.viewer, second.answer) == ("anonymous", "memory/add-bigger-sticks")
    assert "wren" not in path.read_text("utf-8")


@pytest.mark.parametrize(
    ("title", "picks", "sentence"),
    [("", [1], "title"), ("T", [], "pick 1 to 20"), ("T", [0], "danger"), ("T", [3], "write the answer first")],
)
def test_what_makes_no_sheet_says_why(
    post: list[Answered], docs: Path, title: str, picks: list[int], sentence: str
) -> None:
    before = sorted(docs.rglob("*"))
    with pytest.raises(CannotMake, match=sentence):
        episode.make(docs, title, [post[n] for n in picks], datetime.date(2026, 12, 1))
    assert sorted(docs.rglob("*")) == before
