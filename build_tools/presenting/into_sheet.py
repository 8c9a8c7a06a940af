"""
Writes into an episode's sheet what desk and run sheet hand over: a prepared question, or start times.

The sheet is read as it would be before anything is written, and stays as it is where it would have a mistake.
Knows sheets; knows no page.
"""

from __future__ import annotations

import json
import re
import shutil
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

from build_tools import keeping
from build_tools.episodes import clock, marks, sheet
from build_tools.markdown_blocks.places import front_matter_lines
from calculators.catalogue import find

NOBODY = "anonymous"


class CannotWrite(ValueError):
    """The sheet is as it was; the text says why, a line for each reason."""


def path_of(docs: Path, episode: int) -> Path:
    """
    An episode's sheet.

    Raises:
        CannotWrite: There is none.
    """
    found = sorted((docs / "episodes").glob(f"{episode:03}-*.md"))
    if not found:
        raise CannotWrite(f"There is no sheet for episode {episode}.")
    return found[0]


@contextmanager
def tried(docs: Path, path: Path, text: str) -> Iterator[Path]:
    """A sheet of that text, beside copies of the answer pages, in a folder that is gone afterwards."""
    with tempfile.TemporaryDirectory() as folder:
        there = Path(folder) / "docs"
        shutil.copytree(docs / "answers", there / "answers") if (docs / "answers").is_dir() else there.mkdir()
        copy = there / "episodes" / path.name
        keeping.keep(copy, text, before=False)
        yield copy


def mistakes_in(docs: Path, path: Path, text: str) -> list[str]:
    """What would be wrong with a sheet if it read like this, with the lines of that text."""
    with tried(docs, path, text) as copy:
        return _mistakes(copy)


def _mistakes(path: Path) -> list[str]:
    return [str(mistake) for mistake in sheet.read_sheet(path.parents[1], path)[1]]


def problems_of_starts(questions: Sequence[tuple[int, str]], times_s: Mapping[int, int]) -> list[str]:
    """
    What keeps start times from being the sheet's.

    Args:
        questions: Each segment's number and question, in order. [list]
        times_s: Start times by segment. [s]

    Returns:
        A sentence for each problem: a question without a mark, equal times, times that go back. [list]

    Source:
        None.

    Example:
        >>> problems_of_starts([(1, "A?"), (2, "B?")], {1: 5, 2: 5})
        ["Question 2, 'B?', would start at 0:05 like question 1: move one of the marks."]
    """
    found = []
    last = 0
    for number, question in questions:
        named = f"Question {number}, '{question}',"
        if number not in times_s:
            found.append(f"{named} has no mark in this take.")
            continue
        if last and times_s[number] == times_s[last]:
            time = clock.worded(times_s[number])
            found.append(f"{named} would start at {time} like question {last}: move one of the marks.")
        elif last and times_s[number] < times_s[last]:
            times = f"{clock.worded(times_s[number])}, before question {last} at {clock.worded(times_s[last])}"
            found.append(f"{named} would start at {times}: times go forward.")
        last = number
    known = {number for number, _ in questions}
    strays = ", ".join(str(number) for number in sorted(times_s) if number not in known)
    return [*found, f"There are marks for questions that the sheet does not have: {strays}."] if strays else found


def write_starts(docs: Path, episode: int, times_s: Mapping[int, int]) -> None:
    """
    Writes start times, of every question or of none.

    Raises:
        CannotWrite: The sheet would not be valid with them.
    """
    path = path_of(docs, episode)
    with tried(docs, path, path.read_bytes().decode("utf-8")) as copy:
        marks.write_starts(copy, times_s)
        if wrong := _mistakes(copy):
            raise CannotWrite("\n".join(wrong))
    marks.write_starts(path, times_s)


def add_question(
    docs: Path,
    episode: int,
    *,
    question: str,
    viewer: str,
    consent: bool,
    answer: str,
    calculator: str,
    inputs: Mapping[str, str],
) -> int:
    """
    Adds a question at the end of a sheet, with its page and its numbers.

    Args:
        docs: The folder of pages. [path]
        episode: The episode's number. [1]
        question: As the viewer asked it. [text]
        viewer: Their handle. [text]
        consent: Whether they have agreed that it is named; if not, it is written nowhere.
        answer: The answer page, such as memory/kit-numbers. [text]
        calculator: The calculator. [text]
        inputs: As given, private ones too, which are not written. [mapping]

    Returns:
        The new segment's number. [1]

    Raises:
        CannotWrite: Something is missing, or the sheet would not be valid with it.

    Source:
        None.

    Example:
        >>> add_question  # doctest: +ELLIPSIS
        <function add_question at ...>
    """
    if not question.strip():
        raise CannotWrite("Write the viewer's question first.")
    if not answer:
        raise CannotWrite("Choose the answer page that the question belongs to.")
    private = {entry.key for entry in find(calculator).inputs if entry.private}
    given = {key: value for key, value in inputs.items() if key not in private}
    rows = {"question": question.strip(), "viewer": viewer.strip() if consent and viewer.strip() else NOBODY}
    lines = [f"- question: {_quoted(rows['question'])}", f"  viewer: {_quoted(rows['viewer'])}"]
    if rows["viewer"] != NOBODY and "consent" in sheet.SEGMENT_KEYS:
        lines.append("  consent: true")
    lines += [f"  answer: {answer}", f"  calculator: {calculator}"]
    if given:
        lines.append(f"  inputs: {{{', '.join(f'{key}: {_quoted(value)}' for key, value in given.items())}}}")
    path = path_of(docs, episode)
    before = path.read_bytes().decode("utf-8")
    changed, number = _with_segment(before, lines)
    if wrong := mistakes_in(docs, path, changed):
        raise CannotWrite("\n".join(wrong))

    def with_it(text: str) -> str:
        if text != before:
            raise CannotWrite("The sheet was changed at this moment, and nothing was written: do it again.")
        return changed

    keeping.change(path, with_it)
    return number


def _quoted(text: str) -> str:
    """A text as YAML reads it back whatever it holds: JSON's texts are YAML's, and no colon or 'yes' is misread."""
    return json.dumps(" ".join(text.split()), ensure_ascii=False)


def _with_segment(text: str, lines: Sequence[str]) -> tuple[str, int]:
    """The sheet's text with these lines as its last segment, and that segment's number."""
    count = front_matter_lines(text)
    head, rest = text.split("\n")[:count], text.split("\n")[count:]
    opens, indent = _segments(head)
    after = opens[-1] + 1
    while after < count - 1 and (head[after].startswith(indent + " ") or not head[after].strip()):
        after += 1
    while not head[after - 1].strip():  # empty lines stay between the segments and what follows them
        after -= 1
    new = [indent + line for line in lines]
    return "\n".join([*head[:after], *new, *head[after:], *rest]), len(opens) + 1


def _segments(head: Sequence[str]) -> tuple[list[int], str]:
    """The lines on which the segments begin, in order, and how far they are indented."""
    opens: list[int] = []
    indent: str | None = None
    inside = False
    for place, line in enumerate(head):
        if re.match(r"segments:\s*$", line):
            inside = True
        elif inside and re.match(r"\w", line):
            break
        elif inside and (match := re.match(r"( *)- +\w+:", line)):
            indent = match[1] if indent is None else indent
            if match[1] == indent:
                opens.append(place)
    if indent is None:
        raise CannotWrite("The sheet's segments are not written one key a line under 'segments:'.")
    return opens, indent
