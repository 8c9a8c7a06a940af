"""An answer page's short answer as it is read aloud: with its figures, without Markdown's signs."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from build_tools.markdown_blocks.places import front_matter_lines
from build_tools.markdown_blocks.reading import CannotRead, read_text
from build_tools.markdown_blocks.scan import in_words, scan


def short_answer(docs: Path, answer: str) -> str:
    """
    The words to read aloud.

    Args:
        docs: The folder of pages. [path]
        answer: The page's path below answers/, without an ending. [text]

    Returns:
        One line; '' where the page cannot be read or has none. [text]

    Example:
        >>> short_answer(Path("no-such-folder"), "memory/rate")
        ''
    """
    try:
        return _in_words(read_text(docs / "answers" / f"{answer}.md"), answer)
    except CannotRead:
        return ""


@lru_cache(maxsize=512)
def _in_words(text: str, answer: str) -> str:
    """The short answer in a page's text; kept by text, since one episode asks for the same page several times."""
    uses = scan("\n".join(text.split("\n")[front_matter_lines(text) :]), answer)
    body = next((use.body for use in uses.blocks if use.name == "short-answer"), [])
    return in_words("\n".join(line for _, line in body))
