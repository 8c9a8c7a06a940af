"""
Writes into an episode's sheet what desk and run sheet hand over: a question, start times, or its last change undone.

The sheet is read as it would be before anything is written, and stays as it is where it would have a mistake.
Knows sheets; knows no page.
"""

from __future__ import annotations

import difflib
import hashlib
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from ruamel.yaml.comments import CommentedMap, CommentedSeq

from build_tools import keeping
from build_tools.episodes import clock, marks, sheet
from build_tools.episodes.record import standing
from build_tools.episodes.saying import mark_of, take_down
from build_tools.episodes.sheet_edit import CannotEdit, append, edited, flow, put, quoted, rows
from calculators.catalogue import find
from calculators.desk.inputs import Choice, Input

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
    """
    if not question.strip():
        raise CannotWrite("Write the viewer's question first.")
    if not answer:
        raise CannotWrite("Choose the answer page that the question belongs to.")
    given = _public(calculator, inputs)
    named = viewer.strip() if consent and viewer.strip() != NOBODY else ""
    row = CommentedMap({"question": _text(question), "viewer": _text(named or NOBODY)})
    if named:
        row["consent"] = True
    row.update(answer=answer, calculator=calculator)
    if given:
        row["inputs"] = flow(given)
    numbers: list[int] = []
    _change(docs, episode, lambda front: numbers.append(append(front, "segments", row)))
    return numbers[-1]


def put_numbers(
    docs: Path, episode: int, segment: int, *, answer: str, calculator: str, inputs: Mapping[str, str]
) -> None:
    """
    Gives a question of a sheet these numbers in place of its own. Its words, its viewer and all else stay.

    Args:
        docs: The folder of pages. [path]
        episode: The episode's number. [1]
        segment: The question's number. [1]
        answer: The answer page, written where the question has had another calculator until now. [text]
        calculator: The question's own calculator, a further one of it, or another, which is its own from now on. [text]
        inputs: As given, private ones too, which are not written. [mapping]

    Raises:
        CannotWrite: There is no such question, or the sheet would not be valid with them.
    """

    own = _own(docs, episode, segment)

    def alter(front: CommentedMap) -> None:
        row = _segment(front, segment)
        further = [each for each in row.get("also") or [] if each.get("calculator") == calculator]
        if own.calculator != calculator and further:
            _put_inputs(further[0], _public(calculator, inputs))
            return
        if own.calculator != calculator:
            if not answer:
                raise CannotWrite("Choose the answer page that the question belongs to.")
            put(row, "answer", answer, _BEFORE_PAGE)
            put(row, "calculator", calculator, (*_BEFORE_PAGE, "answer"))
        _put_inputs(row, _public(calculator, inputs))

    _change(docs, episode, alter)


def put_beside(docs: Path, episode: int, segment: int, *, calculator: str, inputs: Mapping[str, str]) -> list[str]:
    """
    Puts a further calculator beside a question's own, with its numbers; once more, it gets these in place of its own.

    What both ask for is not asked twice: where it is not given here, the question's own number is written.

    Args:
        docs: The folder of pages. [path]
        episode: The episode's number. [1]
        segment: The question's number. [1]
        calculator: The further calculator. [text]
        inputs: As given, private ones too, which are not written. [mapping]

    Returns:
        The labels of the inputs that were taken from the question's own. [list]

    Raises:
        CannotWrite: There is no such question, it has no calculator yet, it is its own calculator, or the sheet would
            not be valid with it.
    """
    own = _own(docs, episode, segment)
    if not own.calculator:
        raise CannotWrite(f"Question {segment} has no calculator yet: give it this one as its own first.")
    if own.calculator == calculator:
        raise CannotWrite(f"Question {segment} is answered with this one already: change its numbers instead.")
    given = _public(calculator, inputs)
    shared = shared_inputs(own.calculator, calculator, {key: str(value) for key, value in own.inputs.items()})
    missing = {key: value for key, value in shared.items() if key not in given}
    taken = [entry.label for entry in find(calculator).inputs if entry.key in missing]
    given = {**missing, **given}

    def alter(front: CommentedMap) -> None:
        row = _segment(front, segment)
        listed = row.get("also")
        if not isinstance(listed, CommentedSeq):
            listed = CommentedSeq()
            put(row, "also", listed, (*_BEFORE_PAGE, "answer", "calculator", "inputs"))
        known = [each for each in listed if isinstance(each, CommentedMap) and each.get("calculator") == calculator]
        if known:
            _put_inputs(known[0], given)
            return
        further = CommentedMap({"calculator": calculator, **({"inputs": flow(given)} if given else {})})
        further.fa.set_flow_style()
        listed.append(further)

    _change(docs, episode, alter)
    return taken


def shared_inputs(of: str, to: str, given: Mapping[str, str]) -> dict[str, str]:
    """
    The numbers of one calculator that another asks for in the same way: same key, words, unit and option.

    Args:
        of: The calculator that has them. [text]
        to: The other one. [text]
        given: As given to the first. [mapping]

    Returns:
        Those that the other takes as they are. [mapping]

    Example:
        >>> shared_inputs("display.link", "display.reach", {"link": "hdmi-frl-40", "width": "3840"})
        {'link': 'hdmi-frl-40'}
    """
    asked = {entry.key: _asked(entry, given.get(entry.key, "")) for entry in find(of).inputs}
    there = {entry.key: entry for entry in find(to).inputs}
    return {
        key: value
        for key, value in _public(to, given).items()
        if key in there and asked.get(key) == _asked(there[key], value)
    }


def _asked(entry: Input, value: str) -> tuple[object, ...]:
    """How a value is asked for: where all of this is the same, the value means the same."""
    options = {option.value: option.label for option in entry.options} if isinstance(entry, Choice) else {}
    return type(entry), entry.label, getattr(entry, "unit", None), options.get(value)


_BEFORE_PAGE = ("start", "question", "chapter", "viewer", "consent", "follow_up")


def _own(docs: Path, episode: int, segment: int) -> sheet.Segment:
    """A question as the sheet has it now: which calculator is its own, its page may say."""
    episode_sheet = sheet.read_sheet(docs, path_of(docs, episode))[0]
    own = episode_sheet.segment(segment) if episode_sheet else None
    if own is None:
        raise CannotWrite(f"The sheet has no question {segment}.")
    return own


def _segment(front: CommentedMap, number: int) -> CommentedMap:
    there = rows(front, "segments")
    if not 1 <= number <= len(there):
        raise CannotWrite(f"The sheet has no question {number}.")
    return there[number - 1]


def _public(calculator: str, inputs: Mapping[str, str]) -> dict[str, str]:
    """What may be written, each on one line."""
    private = {entry.key for entry in find(calculator).inputs if entry.private}
    return {key: " ".join(value.split()) for key, value in inputs.items() if key not in private}


def _put_inputs(row: CommentedMap, given: dict[str, str]) -> None:
    if given:
        there = [key for key in row.get("inputs") or {} if key in given]  # in the order that the sheet has
        given = {key: given[key] for key in (*there, *(key for key in given if key not in there))}
        put(row, "inputs", flow(given), (*_BEFORE_PAGE, "answer", "calculator"))
    elif "inputs" in row:
        row["inputs"] = flow({})


def _change(docs: Path, episode: int, alter: Callable[[CommentedMap], None]) -> None:
    """Changes a sheet's front matter, unless the sheet would have a mistake then."""
    path = path_of(docs, episode)

    def with_it(text: str) -> str:
        try:
            changed = edited(text, path.name, alter)
        except CannotEdit as problem:
            raise CannotWrite(str(problem)) from None
        if wrong := mistakes_in(docs, path, changed):
            raise CannotWrite("\n".join(wrong))
        return changed

    keeping.change(path, with_it)


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
    backup = keeping.last_good(path)
    try:
        before = backup.read_text("utf-8")
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
