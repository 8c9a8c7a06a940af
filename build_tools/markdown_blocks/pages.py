"""Reads the front matter of answer pages, for lists of questions."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from build_tools.markdown_blocks.places import front_matter_lines


@dataclass(frozen=True, slots=True)
class AnswerPage:
    """One answer page: its path below docs/, its question, its subject, and the rest of its front matter."""

    path: str
    question: str
    subject: str
    meta: dict[str, Any]

    @property
    def words(self) -> tuple[str, ...]:
        """What a viewer may type for this question, although it does not stand in it: `words: [ram, gigabyte]`."""
        given = self.meta.get("words") or []
        return tuple(str(word) for word in (given if isinstance(given, list) else [given]))


def front_matter(text: str) -> dict[str, Any]:
    """The front matter of a page; empty where there is none or it cannot be read."""
    lines = text.split("\n")
    count = front_matter_lines(text)
    if not count:
        return {}
    try:
        meta = yaml.safe_load("\n".join(lines[1 : count - 1]))
    except yaml.YAMLError:
        return {}
    return meta if isinstance(meta, dict) else {}


def answer_pages(docs: Path) -> list[AnswerPage]:
    """Every answer page, by subject and then by `order` and path."""
    pages = []
    for path in sorted((docs / "answers").glob("*/*.md")):
        meta = front_matter(path.read_text("utf-8"))
        subject = str(meta.get("subject") or path.parent.name)
        question = str(meta.get("question") or meta.get("title") or path.stem)
        pages.append(AnswerPage(path.relative_to(docs).as_posix(), question, subject, meta))
    return sorted(pages, key=lambda p: (p.subject, _order(p), p.path))


def _order(page: AnswerPage) -> float:
    order = page.meta.get("order", 1000)
    return float(order) if isinstance(order, (int, float)) else 1000.0
