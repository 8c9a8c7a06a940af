"""The index: what stands in it, and how it is written."""

from __future__ import annotations

import json
import zlib
from pathlib import Path
from typing import Any

from build_tools.finding import everyday, index, made
from build_tools.markdown_blocks.pages import SUBJECT_ORDER, answer_pages, subject_place
from build_tools.site.made import ROOMS
from calculators.catalogue import find

MOST_BYTES = 40_000  # packed: a picture's weight, for a library several times today's


def test_every_answer_is_in_it_with_its_question_and_a_short_answer(project: Path, pages_index: dict[str, Any]) -> None:
    docs = project / "docs"
    files = {path.relative_to(docs).with_suffix("").as_posix() for path in docs.glob("answers/*/*.md")}
    assert {entry["page"] for entry in pages_index["pages"]} == files
    for entry in pages_index["pages"]:
        assert entry["question"]
        assert len(entry["short"].split()) > 5, entry["page"]
        assert "{=" not in entry["short"], entry["page"]


def test_a_pages_calculators_bring_labels_options_and_further_names(pages_index: dict[str, Any]) -> None:
    page = next(entry for entry in pages_index["pages"] if entry["page"] == "answers/memory/how-much")
    assert "memory.need" in page["calculators"]
    words = pages_index["calculators"]["memory.need"].split()
    for asked in find("memory.need").inputs:
        assert set(asked.label.lower().split()) <= set(words)
        for option in getattr(asked, "options", ()):
            assert set(option.label.lower().split()) <= set(words)
        assert {word for name in asked.names for word in name.lower().split()} <= set(words)


def test_subjects_stand_in_the_declared_order_and_unknown_ones_last(tmp_path: Path) -> None:
    for subject in ("zebra", "audio", "apple", "memory"):
        folder = tmp_path / "answers" / subject
        folder.mkdir(parents=True)
        (folder / "a.md").write_text(f"---\nquestion: Q {subject}?\n---\n", "utf-8")
    assert [page.subject for page in answer_pages(tmp_path)] == ["memory", "audio", "apple", "zebra"]
    assert index.of_docs(tmp_path)["subjects"] == ["memory", "audio", "apple", "zebra"]
    assert subject_place("zebra") == len(SUBJECT_ORDER)


def test_the_script_is_small_and_holds_the_index_and_nothing_else(pages_index: dict[str, Any]) -> None:
    script = made.as_script(pages_index)
    start = b"window.workedAnswersIndex="
    assert script.startswith(start)
    assert json.loads(script[len(start) : -2]) == pages_index
    assert len(zlib.compress(script, 9)) < MOST_BYTES


def test_the_same_pages_give_the_same_bytes(project: Path, tmp_path: Path) -> None:
    told: list[str] = []
    made.make(project, tmp_path, told.append)
    first = (tmp_path / made.NAME).read_bytes()
    made.make(project, tmp_path, told.append)
    assert (tmp_path / made.NAME).read_bytes() == first
    assert len(told) == 1


def test_the_build_makes_it() -> None:
    assert "docs/answers" in next(makings for name, _, makings in ROOMS if name == "finding")


def test_no_word_that_is_dropped_is_also_one_that_means_something() -> None:
    meaning = {word for row in everyday.SAME for word in row} | {word for row in everyday.SPELLINGS for word in row}
    assert not meaning & set(everyday.STOP_WORDS)
    assert len(set(everyday.STOP_WORDS)) == len(everyday.STOP_WORDS)
