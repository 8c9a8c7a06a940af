"""
Short addresses to say aloud: /go/<word> is an answer, with a segment's numbers where the word is a segment's.

An answer's word is its file's name, or `go:` in its front matter; a segment's is its `go:`, or made of its numbers.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from build_tools.episodes import spoken_answers
from build_tools.episodes.sheet import Episode, Segment
from build_tools.markdown_blocks.mistakes import Mistake
from build_tools.markdown_blocks.pages import answer_pages
from calculators.desk.svg import escape

WORD = re.compile(r"[a-z0-9](?:[a-z0-9-]*[a-z0-9])?")


@dataclass(frozen=True, slots=True)
class Lead:
    """Where a short address leads: an answer, by its path below answers/; and the question whose numbers it has."""

    answer: str
    episode: Episode | None = None
    segment: Segment | None = None


def collect(docs: Path, episodes: Sequence[Episode]) -> tuple[dict[str, Lead], list[Mistake]]:
    """
    Every short address.

    Args:
        docs: The folder of pages. [path]
        episodes: All sheets. [list]

    Returns:
        Where each word leads; and words that cannot be used or stand twice. [pair]

    Source:
        DESIGN section 7 of this project.

    Example:
        >>> collect(Path("no-such-folder"), [])
        ({}, [])
    """
    leads: dict[str, Lead] = {}
    owners: dict[str, str] = {}
    mistakes: list[Mistake] = []

    def enter(word: str, lead: Lead, path: str, line: int) -> None:
        if not WORD.fullmatch(word):
            mistakes.append(Mistake(path, line, f"'go:' takes small letters, digits and hyphens, got '{word}'"))
        elif word in leads:
            mistakes.append(Mistake(path, line, f"the short address /go/{word} is taken by {owners[word]}"))
        else:
            leads[word], owners[word] = lead, path

    for page in answer_pages(docs):
        word = str(page.meta.get("go") or Path(page.path).stem)
        enter(word, Lead(page.path.removeprefix("answers/").removesuffix(".md")), f"{docs.name}/{page.path}", 1)
    for episode in episodes:
        for segment in episode.segments:
            word = segment.short_address(episode.number)
            if word:
                enter(word, Lead(segment.answer, episode, segment), f"{docs.name}/{episode.path}", segment.line)
    return leads, mistakes


def write(leads: Mapping[str, Lead], site: Path) -> None:
    """
    Write a page for each word, before the pages are put into the site's frame.

    A question's page is the answer with its numbers; an answer's leads on by itself, without any script.
    """
    for word, lead in leads.items():
        folder = site / "go" / word
        folder.mkdir(parents=True, exist_ok=True)
        if lead.episode and lead.segment and lead.segment.calculator:
            built = (site / "answers" / f"{lead.answer}.html").read_bytes().decode("utf-8")
            html = spoken_answers.page(built, lead.answer, word, lead.episode, lead.segment)
        else:
            address = escape(f"../../answers/{lead.answer}.html")
            html = (
                '<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>On to the answer</title>'
                f'<meta name="robots" content="noindex"><meta http-equiv="refresh" content="0; url={address}">'
                f'</head><body><p><a href="{address}">On to the answer</a></p></body></html>\n'
            )
        (folder / "index.html").write_text(html, "utf-8", newline="\n")
