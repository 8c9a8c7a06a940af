"""
What to do with a pile of comments: answers, what is missing, a reply for each; alike ones together, the gravest first.

Knows the reader of questions and what was asked before; knows no file of comments and no page.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from build_tools.episodes import clock, sheet
from build_tools.post.comments import Comment
from build_tools.questions.index import of_docs
from calculators.asking.ask import Suggestion, ask, theme_of
from calculators.asking.finding import Index, prepare
from calculators.asking.words import roots
from calculators.catalogue import find
from calculators.desk.errors import InputErrors
from calculators.desk.inputs import HOW_TO_TELL, Input

ALIKE = 0.5  # of all the words that two comments say, so many are the same
WORDS_A_MINUTE = 150  # how fast is read aloud: common practice, no source
OTHER = "Something else"


@dataclass(frozen=True, slots=True)
class Before:
    """Where a question was answered on air. time: such as 4:05, or nothing where the sheet tells none."""

    episode: int
    segment: int
    title: str
    time: str
    same_inputs: bool


@dataclass(frozen=True, slots=True)
class Answered:
    """
    One question of the post, with all comments that ask it.

    inputs: read, by key. shown: the same in words. missing: labels of what would decide most. seconds: how long the
    short answer takes to say. theme: where nothing here answers it.
    """

    comment: Comment
    others: tuple[Comment, ...] = ()
    dangers: tuple[str, ...] = ()
    page: str = ""
    title: str = ""
    also: tuple[tuple[str, str], ...] = ()
    calculator: str = ""
    inputs: Mapping[str, Any] = field(default_factory=dict)
    shown: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    headline: str = ""
    reply: str = ""
    before: tuple[Before, ...] = ()
    seconds: int = 0
    theme: str = ""

    @property
    def asked(self) -> int:
        """How many ask it."""
        return 1 + len(self.others)

    @property
    def is_ready(self) -> bool:
        """Whether it can be answered as it stands: worked out, and nothing that decides is missing."""
        return bool(self.headline) and not self.missing


def sort(docs: Path, comments: Sequence[Comment]) -> list[Answered]:
    """
    Read and sort a pile of comments.

    Args:
        docs: The folder of pages. [path]
        comments: The comments. [list]

    Returns:
        Questions: dangers first, then by how many ask, then what is ready to be answered, then what lacks something;
        last what nothing here answers, by theme. [list]

    Raises:
        OSError: A page or a sheet cannot be read.

    Example:
        >>> sort(Path("no-such-folder"), [])
        []
    """
    data = of_docs(docs)
    index = prepare(data)
    pages = {entry["page"]: entry for entry in data["pages"]}
    heard = _heard(docs)
    read = [_answered(comment, index, pages, heard) for comment in comments]
    return sorted(_together(read), key=_rank)


def _rank(one: Answered) -> tuple[Any, ...]:
    return (not one.dangers, not one.page, one.theme, -one.asked, not one.is_ready, one.comment.number)


def _answered(
    comment: Comment, index: Index, pages: Mapping[str, Mapping[str, Any]], heard: Mapping[str, list[Any]]
) -> Answered:
    asked = ask(comment.text, index)
    dangers = tuple(danger.sentence for danger in asked.dangers)
    if not asked.answers:
        theme = theme_of(comment.text) or OTHER
        return Answered(comment, dangers=dangers, theme=theme, reply=_reply(dangers, "", (), asked.refused))
    best = asked.answers[0]
    inputs, headline = _worked(best)
    entries = {entry.key: entry for entry in find(best.calculator).inputs} if best.calculator else {}
    missing = [entries[key] for key in best.missing]
    title = str(pages[best.page]["question"])
    others = dict.fromkeys((other.page, str(pages[other.page]["question"])) for other in asked.answers[1:])
    return Answered(
        comment,
        dangers=dangers,
        page=best.page,
        title=title,
        also=tuple(one for one in others if one[0] != best.page),
        calculator=best.calculator or "",
        inputs=inputs,
        shown=tuple(
            f"{_named(entries[key])} {entries[key].say(entries[key].read(value))}" for key, value in inputs.items()
        ),
        missing=tuple(_named(entry) for entry in missing),
        headline=headline,
        reply=_reply(dangers, headline, missing, ""),
        before=_before(heard.get(best.page, ()), inputs),
        seconds=_seconds(str(pages[best.page]["short"])),
    )


def _worked(hit: Suggestion) -> tuple[dict[str, Any], str]:
    inputs = {reading.key: reading.value for reading in hit.inputs}
    if not hit.calculator or not inputs:
        return inputs, ""
    try:
        return inputs, find(hit.calculator).run(inputs).answer.headline
    except InputErrors:
        return inputs, ""


def _named(entry: Input) -> str:
    return f"{entry.group}: {entry.label}" if entry.group else entry.label


def _reply(dangers: Sequence[str], headline: str, missing: Sequence[Input], refused: str) -> str:
    """What may be written back: dangers alone; else what was found, and a polite question for what is missing."""
    if dangers:
        return " ".join(dangers)
    if refused:
        return refused
    parts = ["Thank you for your question."]
    if headline and not missing:
        parts.append(f"From what you wrote: {headline}")
    if missing:  # and no result: it would rest on what nobody said
        parts.append("So that it is worked out for your parts, please tell:")
        parts += [f"- {_named(entry)}{_where(entry)}" for entry in missing]
    elif not headline:
        parts.append("Nothing here answers it yet; it is noted.")
    return "\n".join(parts)


def _where(entry: Input) -> str:
    """The first sentence of where a viewer finds it."""
    sentence = entry.where.partition(". ")[0].rstrip(".")
    return f" ({'how to tell' if entry.where_title == HOW_TO_TELL else 'where'}: {sentence})" if sentence else ""


def _seconds(short: str) -> int:
    return -(-len(short.split()) * 60 // WORDS_A_MINUTE)


def _heard(docs: Path) -> dict[str, list[tuple[sheet.Episode, sheet.Segment]]]:
    """What was said on air, by answer page; the newest episode first."""
    by_page: dict[str, list[tuple[sheet.Episode, sheet.Segment]]] = {}
    if (docs / "episodes").is_dir():
        episodes, _ = sheet.read_all(docs)
        for episode in sorted(episodes, key=lambda one: -one.number):
            for segment in episode.segments:
                if segment.answer:
                    by_page.setdefault(segment.answer, []).append((episode, segment))
    return by_page


def _before(heard: Iterable[tuple[sheet.Episode, sheet.Segment]], inputs: Mapping[str, Any]) -> tuple[Before, ...]:
    earlier = [
        Before(
            episode.number,
            segment.number,
            episode.title,
            clock.worded(segment.start) if segment.start is not None else "",
            bool(inputs) and {k: str(v) for k, v in segment.inputs.items()} == {k: str(v) for k, v in inputs.items()},
        )
        for episode, segment in heard
    ]
    return tuple(sorted(earlier, key=lambda one: not one.same_inputs)[:3])


def _together(read: Sequence[Answered]) -> list[Answered]:
    """Comments that ask the same, as one: of one page with the same numbers, or nearly the same words."""
    groups: list[tuple[set[str], list[Answered]]] = []
    for one in read:
        own_words = set(roots(one.comment.text))
        for words, group in groups:
            if _is_same(group[0], one, words, own_words):
                group.append(one)
                break
        else:
            groups.append((own_words, [one]))
    return [_leading(group) for _, group in groups]


def _is_same(one: Answered, other: Answered, words_of_one: set[str], words_of_other: set[str]) -> bool:
    if one.page != other.page or bool(one.dangers) != bool(other.dangers):
        return False
    alike = len(words_of_one & words_of_other) / max(1, len(words_of_one | words_of_other))
    same_numbers = bool(one.inputs) and dict(one.inputs) == dict(other.inputs)
    return alike >= ALIKE or (same_numbers and one.calculator == other.calculator)


def _leading(group: Sequence[Answered]) -> Answered:
    """The comment of a group that says most, with the others behind it."""
    best = max(group, key=lambda one: (len(one.inputs), bool(one.comment.named), -one.comment.number))
    others = tuple(one.comment for one in group if one is not best)
    values = {name: getattr(best, name) for name in Answered.__dataclass_fields__}
    return Answered(**{**values, "others": others})
