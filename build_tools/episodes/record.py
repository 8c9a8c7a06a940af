"""
The record: all that was shown or read aloud, held against today's answers; and where it agrees no longer.

What never agreed is a slip in the sheet and is mended there. What agreed once and does not now is a change in the
world, and is put right in public. The two are told apart by the mark of the answer that was taken down: it stands in
the sheet (`made:`), or in the presenter's own folder, where every good build notes it.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from build_tools import keeping
from build_tools.episodes.sheet import Correction, Episode, Segment
from build_tools.episodes.short_answers import short_answer
from build_tools.markdown_blocks.mistakes import Mistake
from calculators.desk.as_json import digest
from calculators.desk.calculator import Result

KEPT = ".presenter/record"
PAGE_ALONE = "page"  # the mark of an answer without a calculator


@dataclass(frozen=True, slots=True)
class Shown:
    """All that a viewer is shown or told of one question, in words; made: the answer's version and mark."""

    said: str = ""
    verdict: str = ""
    figures: dict[str, str] = field(default_factory=dict)
    short_answer: str = ""
    made: str = ""


@dataclass(frozen=True, slots=True)
class Differs:
    """One question of which something that was shown or read does not agree with today's answer."""

    episode: Episode
    segment: Segment
    rows: tuple[tuple[str, str, str], ...]  # what, as it was shown or read, as it is today
    slip: bool
    known: bool  # whether it is noted what the answer was then
    now: Shown

    def mistake(self, docs: str) -> Mistake:
        """The same as a build's message, with what to do."""
        number, place = self.episode.number, self.segment.number
        rows = "".join(f"\n  {what}: then {was!r}, now {now!r}" for what, was, now in self.rows)
        mend = f"python3 -m build_tools said {number} --segment {place}"
        correct = f"python3 -m build_tools correct {number} --segment {place}"
        if self.slip and self.known:
            message = (
                f"segment {place}: what the sheet gives as said never matched the answer: a slip in the sheet.{rows}"
                f"\n  Mend the sheet by hand, or take down what stands there now: {mend}. No public correction is due."
            )
        elif self.slip:
            message = (
                f"segment {place}: what the sheet gives as said never matched the answer, as far as this folder knows."
                f"{rows}\n  A slip: mend the sheet by hand, or take down what stands there now: {mend}."
                f"\n  Yet if it was right when it was said, it is a correction: {correct}"
            )
        else:
            message = (
                f"segment {place}: what was said on air no longer holds.{rows}"
                f"\n  Put it right in public: {correct} writes the entry under 'corrections:', with today's date, "
                "old and new, and leaves a line for you to fill in: why."
            )
            if all(what == "the short answer" for what, _, _ in self.rows):
                message += "\n  Where the page says the same in other words, put 'reworded: true' in place of 'why:'."
        return Mistake(f"{docs}/{self.episode.path}", self.segment.line, message)


def latest(episode: Episode, number: int) -> Correction | None:
    """The newest public correction of a segment."""
    corrections = [c for c in episode.put_right if c.segment == number]
    return corrections[-1] if corrections else None


def standing(docs: Path, segment: Segment) -> Shown:
    """What a viewer is shown and told of a question today."""
    result = segment.result()
    read = short_answer(docs, segment.answer) if segment.answer else ""
    if result is None:
        return Shown(short_answer=read, made=PAGE_ALONE if read else "")
    answer = result.answer
    further = segment.further()
    figures = {f.key: _plain(f.text) for f in answer.shown_figures() if f.main and f.text}
    return Shown(
        said=_plain(answer.headline),
        verdict=answer.verdict.word if answer.verdict else "",
        figures=figures | _headlines(further),
        short_answer=read,
        made=" ".join(f"{each.calculator.version}-{digest(each)}" for each in (result, *further.values())),
    )


def differences(episodes: Iterable[Episode], docs: Path | None = None) -> list[Differs]:
    """
    What was shown or read and does not agree with today's answer, unless a correction already says what holds now.

    Args:
        episodes: All sheets. [list]
        docs: The folder of pages, for their short answers and for what earlier builds have noted. [path]

    Returns:
        One a question, in the order in which they were asked. [list]

    Source:
        DESIGN section 7 of this project.

    Example:
        >>> differences([])
        []
    """
    differing = []
    for episode in episodes:
        recorded = _recorded(docs, episode) if docs else {}
        for segment in episode.segments:
            if not is_on_record(segment):
                continue
            now = standing(docs or Path("docs"), segment)
            rows = _rows(episode, segment, now)
            if rows:
                then = segment.made or recorded.get(_mark(segment), "")
                changed = bool(then) and (then != now.made or all(what == "the short answer" for what, _, _ in rows))
                differing.append(Differs(episode, segment, tuple(rows), not changed, bool(then), now))
    return differing


def is_on_record(segment: Segment) -> bool:
    """Whether the sheet gives anything as said or shown."""
    return bool(segment.said or segment.verdict or segment.figures or segment.short_answer)


def _rows(episode: Episode, segment: Segment, now: Shown) -> list[tuple[str, str, str]]:
    """Everything of one question that differs, corrections taken into account."""
    of_it = sorted((c for c in episode.corrections if c.segment == segment.number), key=lambda c: (c.date, c.line))

    def last(given: Iterable[str], first: str) -> str:
        return _plain([first, *(each for each in given if each)][-1])

    rows = []
    if segment.said:
        rows.append(("the headline", last((c.now for c in of_it), segment.said), now.said))
    if segment.verdict:
        rows.append(("the verdict", last((c.verdict for c in of_it), segment.verdict), now.verdict or "none"))
    today = _all_figures(segment)
    for key, text in segment.figures.items():
        held = last((c.figures.get(key, "") for c in of_it), text)
        rows.append((f"the figure {key}", held, today.get(key, "no longer given")))
    if segment.short_answer:
        held = last((c.short_answer for c in of_it), segment.short_answer)
        rows.append(("the short answer", held, now.short_answer or "none"))
    return [row for row in rows if _plain(row[1]) != _plain(row[2])]


def _all_figures(segment: Segment) -> dict[str, str]:
    """Every figure of today's answer, also those that a card does not show."""
    result = segment.result()
    if result is None:
        return {}
    return {f.key: _plain(f.text) for f in result.answer.shown_figures()} | _headlines(segment.further())


def _headlines(further: Mapping[str, Result]) -> dict[str, str]:
    """What further calculators say, by their names: beside figures, whose keys hold no point."""
    return {name: _plain(result.answer.headline) for name, result in further.items()}


def _plain(text: str) -> str:
    """A text with plain blanks, as a sheet holds it."""
    return " ".join(text.split())


def note_holding(docs: Path, episodes: Iterable[Episode]) -> None:
    """
    Keeps, in the presenter's own folder, the marks of answers that agree today with what sheets give as said.

    So that a later change is known to be one, also where a sheet was written by hand and holds no `made:`.
    """
    for episode in episodes:
        recorded = _recorded(docs, episode)
        fresh = dict(recorded)
        for segment in episode.segments:
            if segment.made or not is_on_record(segment) or _mark(segment) in recorded:
                continue
            now = standing(docs, segment)
            if not _rows(episode, segment, now):
                fresh[_mark(segment)] = now.made
        if fresh != recorded:
            keeping.keep(_file(docs, episode), json.dumps(fresh, indent=1) + "\n", before=False)


def _mark(segment: Segment) -> str:
    """A digest of what was asked and said, by which a build sees that a sheet was edited since it was recorded."""
    given = [segment.inputs, *(each.inputs for each in segment.also)]
    inputs = sorted((str(key), str(value)) for each in given for key, value in each.items())
    marked = (segment.calculator, inputs, segment.said, segment.verdict, segment.figures, segment.short_answer)
    return hashlib.sha256(json.dumps(marked).encode()).hexdigest()[:16]


def _file(docs: Path, episode: Episode) -> Path:
    return docs.parent / KEPT / f"{episode.number:03}.json"


def _recorded(docs: Path, episode: Episode) -> dict[str, str]:
    """What earlier builds have noted of an episode; nothing where that is damaged."""
    try:
        content = json.loads(_file(docs, episode).read_bytes())
    except (OSError, ValueError, RecursionError):
        return {}
    return {str(key): str(value) for key, value in content.items()} if isinstance(content, dict) else {}
