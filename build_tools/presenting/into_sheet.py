"""
Writes into an episode's sheet what desk and run sheet hand over: a question, start times, or its last change undone.

The sheet is read as it would be before anything is written, and stays as it is where it would have a mistake.
Knows sheets; knows no page.
"""

from __future__ import annotations

import difflib
import hashlib
from collections.abc import Mapping, Sequence
from pathlib import Path

from ruamel.yaml.comments import CommentedMap

from build_tools import keeping
from build_tools.episodes import clock, marks, sheet
from build_tools.episodes.record import standing
from build_tools.episodes.saying import mark_of, take_down
from build_tools.episodes.sheet_edit import CannotEdit, append, edited, flow, quoted
from calculators.catalogue import find

NOBODY = "anonymous"


CannotWrite = marks.CannotWrite  # the sheet is as it was; the text says why, a line for each reason


def path_of(docs: Path, episode: int) -> Path:
    """
    An episode's sheet.

    Raises:
        CannotWrite: There is none.
    """
    paths = sorted((docs / "episodes").glob(f"{episode:03}-*.md"))
    if not paths:
        raise CannotWrite(f"There is no sheet for episode {episode}.")
    return paths[0]


def mistakes_in(docs: Path, path: Path, text: str) -> list[str]:
    """What would be wrong with a sheet if it read like this, with the lines of that text."""
    return [str(mistake) for mistake in sheet.read_sheet(docs, path, text)[1]]


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
    problems = []
    last = 0
    for number, question in questions:
        named = f"Question {number}, '{question}',"
        if number not in times_s:
            problems.append(f"{named} has no mark in this take.")
            continue
        if last and times_s[number] == times_s[last]:
            time = clock.worded(times_s[number])
            problems.append(f"{named} would start at {time} like question {last}: move one of the marks.")
        elif last and times_s[number] < times_s[last]:
            times = f"{clock.worded(times_s[number])}, before question {last} at {clock.worded(times_s[last])}"
            problems.append(f"{named} would start at {times}: times go forward.")
        last = number
    known = {number for number, _ in questions}
    strays = ", ".join(str(number) for number in sorted(times_s) if number not in known)
    return [*problems, f"There are marks for questions that the sheet does not have: {strays}."] if strays else problems


def write_starts(docs: Path, episode: int, times_s: Mapping[int, int], cutting: marks.Cutting) -> None:
    """
    Writes start times, of every question or of none, and how the video was cut out of the recording.

    Raises:
        CannotWrite: The sheet would not be valid with them.
    """
    marks.write_starts(path_of(docs, episode), times_s, whole=True, cutting=cutting)


def write_said(docs: Path, episode: int, segment: int, spoken: str, shown: str) -> None:
    """
    Takes down as said what the run sheet shows of a question, with the presenter's own words beside it.

    Args:
        docs: The folder of pages. [path]
        episode: The episode's number. [1]
        segment: The question's number. [1]
        spoken: Free words; '' for none. [text]
        shown: The mark of the answer that the run sheet showed. [text]

    Raises:
        CannotWrite: The sheet has a mistake, or the answer is not the one that was shown.

    Source:
        None.

    Example:
        >>> write_said  # doctest: +ELLIPSIS
        <function write_said at ...>
    """
    path = path_of(docs, episode)
    read, wrong = sheet.read_sheet(docs, path)
    if read is None or wrong:
        raise CannotWrite("\n".join(str(mistake) for mistake in wrong))
    of_it = read.segment(segment)
    if of_it is not None and mark_of(standing(docs, of_it)) != shown:
        raise CannotWrite("The answer has changed since this page showed it: read it again, then take it down.")
    try:
        take_down(docs, read, [segment], " ".join(spoken.split()))
    except CannotEdit as problem:
        raise CannotWrite(str(problem)) from None


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
    named = viewer.strip() if consent and viewer.strip() != NOBODY else ""
    row = CommentedMap({"question": _text(question), "viewer": _text(named or NOBODY)})
    if named:
        row["consent"] = True
    row.update(answer=answer, calculator=calculator)
    if given:
        row["inputs"] = flow({key: " ".join(value.split()) for key, value in given.items()})
    path = path_of(docs, episode)
    numbers: list[int] = []

    def with_it(text: str) -> str:
        try:
            changed = edited(text, path.name, lambda front: numbers.append(append(front, "segments", row)))
        except CannotEdit as problem:
            raise CannotWrite(str(problem)) from None
        if wrong := mistakes_in(docs, path, changed):
            raise CannotWrite("\n".join(wrong))
        return changed

    keeping.change(path, with_it)
    return numbers[-1]


def last_change(docs: Path, episode: int) -> tuple[list[str], str]:
    """
    What was changed last in a sheet, by a page or a command: a correction begun, a question, what was said.

    Args:
        docs: The folder of pages. [path]
        episode: The episode's number. [1]

    Returns:
        Its lines, those taken away with a minus before them and those added with a plus; and a mark of the change,
        which `take_back` asks for. [pair]

    Raises:
        CannotWrite: There is no sheet, or nothing is known of a change.

    Source:
        None.

    Example:
        >>> last_change  # doctest: +ELLIPSIS
        <function last_change at ...>
    """
    path = path_of(docs, episode)
    now, before = path.read_text("utf-8"), _before(path)
    compared = difflib.ndiff(before.split("\n"), now.split("\n"))
    lines = [f"{line[0]} {line[2:].strip().removeprefix('- ')}" for line in compared if line[0] in "+-"]
    return lines, _mark(now, before)


def take_back(docs: Path, episode: int, mark: str) -> None:
    """
    Puts a sheet back as it was before its last change. The change is the next one to be taken back, so nothing is lost.

    Args:
        docs: The folder of pages. [path]
        episode: The episode's number. [1]
        mark: Of the change that was shown. [text]

    Raises:
        CannotWrite: The sheet has been changed since, or would have a mistake.
        CannotKeep: It could not be written.

    Source:
        None.

    Example:
        >>> take_back  # doctest: +ELLIPSIS
        <function take_back at ...>
    """
    path = path_of(docs, episode)

    def as_before(text: str) -> str:
        before = _before(path)
        if _mark(text, before) != mark:
            raise CannotWrite("The sheet has been changed since this was shown: look at its last change again.")
        if wrong := mistakes_in(docs, path, before):
            raise CannotWrite("\n".join(wrong))
        return before

    keeping.change(path, as_before)


def _before(path: Path) -> str:
    """A sheet as it was before its last change."""
    kept = keeping.last_good(path)
    try:
        before = kept.read_text("utf-8")
    except (OSError, UnicodeDecodeError):
        raise CannotWrite("No change of this sheet is known that could be taken back.") from None
    if before == path.read_text("utf-8"):
        raise CannotWrite("No change of this sheet is known that could be taken back.")
    return before


def _mark(now: str, before: str) -> str:
    return hashlib.sha256(f"{len(now)} {now}{before}".encode()).hexdigest()[:16]


def _text(typed: str) -> str:
    """A text on one line, quoted: so no colon and no 'yes' is misread."""
    return quoted(" ".join(typed.split()))
