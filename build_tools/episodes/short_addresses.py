"""
Short addresses to say aloud: /go/<word> leads to an answer, with a segment's numbers where the word is a segment's.

An answer's word is its file's name, or `go:` in its front matter; a segment has one where it says `go:`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

from build_tools.episodes.sheet import Episode
from build_tools.markdown_blocks.mistakes import Mistake
from build_tools.markdown_blocks.pages import answer_pages
from calculators.desk.links import fragment
from calculators.desk.svg import escape

WORD = re.compile(r"[a-z0-9](?:[a-z0-9-]*[a-z0-9])?")


def collect(docs: Path, episodes: Sequence[Episode]) -> tuple[dict[str, str], list[Mistake]]:
    """
    Every short address.

    Args:
        docs: The folder of pages. [path]
        episodes: All sheets. [list]

    Returns:
        The page each word leads to, from the site's root; and words that cannot be used or stand twice. [pair]

    Raises:
        Nothing.

    Source:
        DESIGN section 7 of this project.

    Example:
        >>> collect(Path("no-such-folder"), [])
        ({}, [])
    """
    found: dict[str, str] = {}
    owners: dict[str, str] = {}
    mistakes: list[Mistake] = []

    def enter(word: str, target: str, path: str, line: int) -> None:
        if not WORD.fullmatch(word):
            mistakes.append(Mistake(path, line, f"'go:' takes small letters, digits and hyphens, got '{word}'"))
        elif word in found and found[word] != target:
            mistakes.append(Mistake(path, line, f"the short address /go/{word} is taken by {owners[word]}"))
        else:
            found[word], owners[word] = target, path

    for page in answer_pages(docs):
        word = str(page.meta.get("go") or Path(page.path).stem)
        enter(word, page.path.removesuffix(".md") + ".html", f"{docs.name}/{page.path}", 1)
    for episode in episodes:
        for segment in episode.segments:
            if segment.go:
                result = segment.result()
                tail = f"#{fragment(result)}" if result else ""
                enter(segment.go, f"answers/{segment.answer}.html{tail}", f"{docs.name}/{episode.path}", segment.line)
    return found, mistakes


def write(found: dict[str, str], site: Path) -> None:
    """Write a page for each word that leads on by itself, without any script, and by a link where that is off."""
    for word, target in found.items():
        address = escape(f"../../{target}")
        folder = site / "go" / word
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "index.html").write_text(
            '<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>On to the answer</title>'
            f'<meta name="robots" content="noindex"><meta http-equiv="refresh" content="0; url={address}">'
            f'</head><body><p><a href="{address}">On to the answer</a></p></body></html>\n',
            "utf-8",
            newline="\n",
        )
