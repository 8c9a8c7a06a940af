"""Makes an episode's sheet of picked questions: question, page, inputs, and the handle if its owner agreed."""

from __future__ import annotations

import datetime
import json
from collections.abc import Sequence
from pathlib import Path

from build_tools import keeping
from build_tools.episodes import sheet
from build_tools.new.writing import CannotMake, slug
from build_tools.post.sorting import Answered
from build_tools.presenting.into_sheet import NOBODY, mistakes_in
from calculators.catalogue import find

FEWEST, MOST = 1, 20
NAMED = 3  # of its questions stand in a summary that nobody has written


def make(docs: Path, title: str, picked: Sequence[Answered], day: datetime.date, summary: str = "") -> Path:
    """
    A new sheet with the next free number.

    Args:
        docs: The folder of pages. [path]
        title: The episode's title. [text]
        picked: The questions, in their order; each has an answer page. [list]
        day: The day it will be recorded. [date]
        summary: What it is about, in one or two sentences; made of the questions where empty. [text]

    Returns:
        The sheet. [path]

    Raises:
        CannotMake: Nothing is picked, a question has no answer page, or the sheet would have a mistake.
        CannotKeep: It could not be written.

    Source:
        DESIGN section 7 of this project.

    Example:
        >>> make(Path("docs"), "", [], datetime.date(2026, 1, 1))
        Traceback (most recent call last):
            ...
        build_tools.new.writing.CannotMake: give the episode a title
    """
    if not title.strip():
        raise CannotMake("give the episode a title")
    if not FEWEST <= len(picked) <= MOST:
        raise CannotMake(f"pick {FEWEST} to {MOST} questions; {len(picked)} are picked")
    for one in picked:
        if one.dangers:
            raise CannotMake(f"comment {one.comment.number} tells of a danger: answer it at once, and not on air")
        if not one.page:
            raise CannotMake(f"nothing here answers comment {one.comment.number}: write the answer first")
    episodes, _ = sheet.read_all(docs)
    number = max((episode.number for episode in episodes), default=0) + 1
    path = docs / "episodes" / f"{number:03}-{slug(title)}.md"
    text = _text(title.strip(), picked, day, summary.strip() or summary_of(picked))
    if wrong := mistakes_in(docs, path, text):
        raise CannotMake("; ".join(wrong))
    keeping.keep(path, text, fresh=True)
    return path


def summary_of(picked: Sequence[Answered]) -> str:
    """
    What an episode of these questions is about, so that no sheet is begun that a build refuses.

    Args:
        picked: The questions, in their order. [list]

    Returns:
        One sentence with the first questions of their answer pages; '' where nothing is picked. [text]

    Example:
        >>> summary_of([])
        ''
    """
    titles = list(dict.fromkeys(one.title for one in picked if one.title))
    if not titles:
        return ""
    more = len(titles) - NAMED
    return f"Viewers ask: {' '.join(titles[:NAMED])}{f' And {more} more.' if more > 0 else ''}"


def _text(title: str, picked: Sequence[Answered], day: datetime.date, summary: str) -> str:
    lines = ["---", f"title: {_quoted(title)}", f"recorded: {day.isoformat()}"]
    lines += [f"summary: {_quoted(summary)}", "segments:"]
    for one in picked:
        lines += [f"  - question: {_quoted(one.comment.text)}", f"    viewer: {_quoted(one.comment.named or NOBODY)}"]
        if one.comment.named and "consent" in sheet.SEGMENT_KEYS:
            lines.append("    consent: true")
        lines.append(f"    answer: {one.page}")
        if one.calculator:
            lines.append(f"    calculator: {one.calculator}")
            private = {entry.key for entry in find(one.calculator).inputs if entry.private}
            given = ", ".join(f"{k}: {_quoted(str(v))}" for k, v in one.inputs.items() if k not in private)
            lines.append(f"    inputs: {{{given}}}")
    return "\n".join([*lines, "---", f"# {title}", "", "/// episode", "///", ""])


def _quoted(text: str) -> str:
    """A text in quotes that YAML reads back unchanged, whatever it holds: a JSON string is valid YAML."""
    return json.dumps(" ".join(text.split()), ensure_ascii=False)
