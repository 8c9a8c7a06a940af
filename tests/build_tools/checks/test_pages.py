"""The check of pages before they are built: one case per thing an answer page may lack."""

import re

import pytest

from build_tools.checks.pages import check
from build_tools.markdown_blocks.parts import PARTS

HEADINGS = [part.name for part in PARTS if part.needed]
GOOD = """---
title: How long is it?
question: How long is it?
subject: memory
checked: 2026-01-02
review_by: 2027-01-02
---
# How long is it?

/// short-answer
It waits {= memory.rate -> latency_ns =}.
///

## Your numbers

/// calculator | memory.rate
///

## What to do

- Read the label.

## If it does not work

Look again.

## Why

Because.

## Cautions

None here.

## Sources

/// sources
///

## History

- 2026-01-02: first written.
"""


@pytest.fixture
def told(tmp_path):
    def tell(text: str) -> list[str]:
        page = tmp_path / "docs" / "answers" / "memory" / "page.md"
        page.parent.mkdir(parents=True, exist_ok=True)
        page.write_text(text, "utf-8")
        return check(tmp_path / "docs")

    return tell


def test_a_whole_page_has_no_mistake(told):
    assert told(GOOD) == []


@pytest.mark.parametrize("heading", HEADINGS)
def test_a_missing_part_is_named(told, heading):
    lines = told(re.sub(rf"## {heading}\n", "", GOOD))
    assert f"docs/answers/memory/page.md:8: the part '## {heading}' is missing" in lines


@pytest.mark.parametrize("heading", HEADINGS[1:])
def test_an_empty_part_is_named(told, heading):
    text = re.sub(rf"(## {heading}\n).*?(?=\n## |\Z)", r"\1", GOOD, flags=re.S)
    assert any(f"the part '{heading}' is empty" in line for line in told(text))


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("question: How long is it?\n", "", ":1: the front matter lacks 'question:'"),
        ("checked: 2026-01-02", "checked: soon", ":5: 'checked:' must be a date such as 2026-11-24, got 'soon'"),
        ("## Why", "## Reasons", ": an answer page has no part '## Reasons'"),
        ("# How long is it?\n", "", ":8: an answer page has one title '# …', this one has 0"),
        ("/// short-answer\nIt", "/// short-answers\nIt", ":10: there is no block '/// short-answers'; did you mean"),
        ("- 2026-01-02: first written.", "First written.", ": the history has no entry such as"),
        ("-> latency_ns", "-> latency", ":11: memory.rate gives no figure latency here; did you mean latency_ns?"),
    ],
)
def test_what_is_wrong_is_named_with_its_line(told, old, new, said):
    assert old in GOOD
    assert any(f"docs/answers/memory/page.md{said}" in line or said in line for line in told(GOOD.replace(old, new)))


def test_parts_out_of_order_are_named(told):
    swapped = GOOD.replace("## Why", "## X").replace("## Cautions", "## Why").replace("## X", "## Cautions")
    assert any("the parts stand in this order" in line for line in told(swapped))


def test_the_short_answer_stands_first(told):
    short = re.search(r"/// short-answer\n.*?\n///\n", GOOD, re.S)[0]
    moved = GOOD.replace(short, "").replace("Because.\n", f"Because.\n\n{short}")
    assert any("the short answer stands first" in line for line in told(moved))
    assert any("one '/// short-answer', this one has 0" in line for line in told(GOOD.replace(short, "")))


def test_other_pages_need_no_shape_but_their_blocks_are_read(tmp_path):
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs" / "about.md").write_text("# About\n\n{= memory.rate -> x =}\n", "utf-8")
    (line,) = check(tmp_path / "docs")
    assert line.startswith("docs/about.md:3: memory.rate gives no figure x here")
