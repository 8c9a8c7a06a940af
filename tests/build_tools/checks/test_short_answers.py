"""Short answers that are said in one breath or two: at most forty words, and nothing a friend must ask back about."""

from pathlib import Path

import pytest

from build_tools.markdown_blocks.places import front_matter_lines
from build_tools.markdown_blocks.scan import scan

ANSWERS = Path(__file__).parents[3] / "docs" / "answers"
SUBJECTS = tuple(sorted(folder.name for folder in ANSWERS.iterdir() if folder.is_dir()))
MOST_WORDS = 40
PAGES = [page for subject in SUBJECTS for page in sorted((ANSWERS / subject).glob("*.md"))]


def short_answer(page: Path) -> str:
    """The short answer of a page, as written."""
    text = page.read_text("utf-8")
    body = "\n".join(text.split("\n")[front_matter_lines(text) :])
    (short,) = [use for use in scan(body, page.name).blocks if use.name == "short-answer"]
    return " ".join(line for _, line in short.body)


@pytest.mark.parametrize("page", PAGES, ids=[f"{p.parent.name}-{p.stem}" for p in PAGES])
def test_a_short_answer_is_short(page):
    words = short_answer(page).split()
    assert 10 < len(words) <= MOST_WORDS, " ".join(words)


def test_whether_a_machine_decodes_is_answered_by_yes_and_by_no():
    said = short_answer(ANSWERS / "work/does-it-decode.md")
    assert "most likely yes" in said
    assert "often not" in said


def test_a_test_picture_that_is_spoken_of_can_be_had():
    said = short_answer(ANSWERS / "colour/range-wrong.md")
    assert "[test picture](which-range-am-i-on.md)" in said
