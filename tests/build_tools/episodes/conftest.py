"""A folder of pages with one answer and one sheet about it, which agree."""

from __future__ import annotations

from pathlib import Path

import pytest

from calculators.desk.as_json import digest
from calculators.memory.rate import calculator as rate

RESULT = rate.run({"rate": 3200, "cas": 16})
HEADLINE = RESULT.answer.headline
MADE = f"{rate.version}-{digest(RESULT)}"
PAGE = """---
title: Q
question: Q
subject: memory
---
# Q

/// short-answer
Divide the clocks by the rate. It is about 10 ns.
///

## Your numbers

/// calculator | memory.rate
///
"""
SAID = f"""---
title: The first one
recorded: 2026-10-02
summary: Numbers.
segments:
  - start: "0:04"
    question: What do the numbers mean?
    viewer: otter-7
    answer: memory/numbers
    inputs: {{rate: 3200, cas: 16}}
    said: "{HEADLINE}"
    made: "{MADE}"
    short_answer: "Divide the clocks by the rate. It is about 10 ns."
    figures: {{latency_ns: "10 ns"}}
  - start: "1:10"
    question: And again?
    answer: memory/numbers
    viewer: wren
  - start: "2:20"
    question: And once more?
    answer: memory/numbers
---
# The first one

/// episode
///
"""


class Pages:
    """The folder, and how to change what stands in it."""

    def __init__(self, docs: Path) -> None:
        self.docs = docs
        self.page = docs / "answers" / "memory" / "numbers.md"
        self.sheet = docs / "episodes" / "001-one.md"
        for path, text in ((self.page, PAGE), (self.sheet, SAID)):
            path.parent.mkdir(parents=True)
            path.write_text(text, "utf-8")

    def change(self, old: str, new: str, page: bool = False) -> None:
        """Puts one text in the place of another, which must be there."""
        path = self.page if page else self.sheet
        text = path.read_text("utf-8")
        assert old in text
        path.write_text(text.replace(old, new), "utf-8")


@pytest.fixture
def pages(tmp_path: Path) -> Pages:
    """The folder, fresh."""
    return Pages(tmp_path / "docs")
