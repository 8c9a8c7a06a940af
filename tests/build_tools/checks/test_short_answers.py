"""Short answers that are said in one breath or two: at most forty words, on the pages of the subjects named here."""

from pathlib import Path

import pytest

from build_tools.markdown_blocks.places import front_matter_lines
from build_tools.markdown_blocks.scan import scan

ANSWERS = Path(__file__).parents[3] / "docs" / "answers"
SUBJECTS = ("audio",)
MOST_WORDS = 40
PAGES = [page for subject in SUBJECTS for page in sorted((ANSWERS / subject).glob("*.md"))]


@pytest.mark.parametrize("page", PAGES, ids=[f"{p.parent.name}-{p.stem}" for p in PAGES])
def test_a_short_answer_is_short(page):
    text = page.read_text("utf-8")
    body = "\n".join(text.split("\n")[front_matter_lines(text) :])
    (short,) = [use for use in scan(body, page.name).blocks if use.name == "short-answer"]
    words = " ".join(line for _, line in short.body).split()
    assert 10 < len(words) <= MOST_WORDS, " ".join(words)
