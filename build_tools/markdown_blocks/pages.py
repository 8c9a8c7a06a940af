"""Reads the front matter of answer pages, for lists of questions."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

from build_tools.markdown_blocks.marked_yaml import NotYaml, load
from build_tools.markdown_blocks.places import front_matter_lines
from build_tools.markdown_blocks.reading import CannotRead, read_text

# The order in which people ask: by the number of comments on each subject among those that the project was given.
# What is not listed follows, by name.
SUBJECT_ORDER = ("memory", "display", "audio", "drivers", "colour", "motion", "rooms", "work")


@dataclass(frozen=True, slots=True)
class AnswerPage:
    """One answer page: its path below docs/, its question, its subject, and the rest of its front matter."""

    path: str
    question: str
    subject: str
    meta: dict[str, Any]

    @property
    def words(self) -> tuple[str, ...]:
        """Words by which viewers look for this page and which its question does not hold: `words: [ram, gigabyte]`."""
        given = self.meta.get("words") or []
        return tuple(str(word) for word in (given if isinstance(given, list) else [given]))


def front_matter(text: str) -> dict[str, Any]:
    """The front matter of a page, not to be changed; empty where there is none or it cannot be read."""
    lines = text.split("\n")
    count = front_matter_lines(text)
    if not count:
        return {}
    return _read("\n".join(lines[1 : count - 1]))


@lru_cache(maxsize=16384)  # one build asks for that of every page several times, and reading YAML takes long
def _read(text: str) -> dict[str, Any]:
    try:
        meta = load(text)[0]
    except NotYaml:
        return {}
    return meta if isinstance(meta, dict) else {}


def answer_pages(docs: Path) -> list[AnswerPage]:
    """
    Every answer page, by subject in the order in which people ask, and then by `order` and path.

    One that cannot be read is left out: the checks tell it, and the others are not lost with it.
    """
    pages = []
    for path in sorted((docs / "answers").glob("*/*.md")):
        if not path.name.isprintable():
            continue
        try:
            meta = front_matter(read_text(path))
        except CannotRead:
            continue
        subject = str(meta.get("subject") or path.parent.name)
        question = str(meta.get("question") or meta.get("title") or path.stem)
        pages.append(AnswerPage(path.relative_to(docs).as_posix(), question, subject, meta))
    return sorted(pages, key=lambda p: (subject_place(p.subject), p.subject, _order(p), p.path))


# Home page and page of dead ends must not grow with the number of answers: of a subject they list so many, and lead to
# a page that lists all.
MOST_LISTED = 20
LISTS = "made/questions"  # below the site's folder


def listed_first(pages: Sequence[AnswerPage]) -> list[AnswerPage]:
    """Those of one subject's pages that a list of all subjects shows: by `order`, then the newest checked."""
    if len(pages) <= MOST_LISTED:
        return list(pages)
    newest = sorted(pages, key=lambda page: str(page.meta.get("checked", "")), reverse=True)
    return sorted(newest, key=_order)[:MOST_LISTED]


def list_of_subject(subject: str) -> str:
    """Where the page stands that lists a subject's questions, from the site's root."""
    return f"{LISTS}/{re.sub('[^a-z0-9]+', '-', subject.lower()).strip('-') or 'other'}.html"


def subject_place(subject: str) -> int:
    """A subject's place among all: subjects that are not listed stand last."""
    return SUBJECT_ORDER.index(subject) if subject in SUBJECT_ORDER else len(SUBJECT_ORDER)


def _order(page: AnswerPage) -> float:
    order = page.meta.get("order", 1000)
    return float(order) if isinstance(order, (int, float)) else 1000.0
