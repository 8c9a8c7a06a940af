"""
An episode sheet: a Markdown file under docs/episodes/ with the segments in its front matter.

Reads one into plain values and tells every mistake with its line. Knows no page and no description.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from build_tools.episodes import clock
from build_tools.episodes.cuts import cuts_of
from build_tools.episodes.timecode import rate_fault
from build_tools.markdown_blocks.compute import CannotCompute, run
from build_tools.markdown_blocks.marked_yaml import NotYaml, load
from build_tools.markdown_blocks.mistakes import Mistake
from build_tools.markdown_blocks.places import front_matter_lines
from build_tools.markdown_blocks.reading import CannotRead, read_text
from build_tools.markdown_blocks.scan import scan
from calculators.desk.calculator import Result
from calculators.desk.errors import nearest_names

_NAME = re.compile(r"(\d{3})-[a-z0-9-]+\.md")
_FOLLOW_UP = re.compile(r"(\d{1,3})/(\d{1,2})")
_VIDEO = re.compile(r"https?://[^\s/]+/\S*")
EPISODE_KEYS = (
    "title", "recorded", "summary", "invented", "segments", "corrections", "links", "video", "frame_rate", "drop_frame",
    "lead", "cuts",
)  # fmt: skip
SEGMENT_KEYS = (
    "start", "question", "chapter", "viewer", "consent", "answer", "calculator", "inputs", "said", "made", "verdict",
    "figures", "short_answer", "spoken", "follow_up", "referred", "note", "go", "also", "links",
)  # fmt: skip
CORRECTION_KEYS = (
    "date", "segment", "was", "now", "verdict", "figures", "short_answer", "why", "dangerous", "reworded",
    "on_card",
)  # fmt: skip
LINK_KEYS = ("title", "address")
ALSO_KEYS = ("calculator", "inputs", "answer")
MOST_ON_CARD = 20
ANONYMOUS = "anonymous"
SOMEBODY = "a viewer"
VERDICTS = ("yes", "depends", "no")


@dataclass(frozen=True, slots=True)
class Referral:
    """To whom a question was passed on, and why."""

    to: str
    why: str


@dataclass(frozen=True, slots=True)
class Further:
    """
    A further calculator of one question, such as the cable's length beside the mode.

    answer: the page that shows it, for a link; '' where none is told and the question's own does not.
    """

    calculator: str
    inputs: Mapping[str, Any]
    answer: str

    def result(self) -> Result:
        """Today's result."""
        return run(self.calculator, self.inputs)


@dataclass(frozen=True, slots=True)
class Segment:
    """
    One question of an episode.

    said, verdict, figures, short_answer: what was read or shown, as it stood then. made: the mark of the answer that
    all this was taken from. spoken: what was said beside it, in free words. chapter: a short title. consent: whether
    the viewer has agreed to be named. also: further calculators. links: what the description gives for this question.
    """

    number: int
    line: int
    start: int | None
    question: str
    viewer: str
    answer: str = ""
    calculator: str = ""
    inputs: Mapping[str, Any] = field(default_factory=dict)
    said: str = ""
    figures: Mapping[str, str] = field(default_factory=dict)
    follow_up: tuple[int, int] | None = None
    referred: Referral | None = None
    note: str = ""
    go: str = ""
    chapter: str = ""
    consent: bool = False
    made: str = ""
    verdict: str = ""
    short_answer: str = ""
    spoken: str = ""
    also: tuple[Further, ...] = ()
    links: tuple[Link, ...] = ()

    @property
    def shown_viewer(self) -> str:
        """The viewer as the public sees them: by the handle only where the sheet notes consent."""
        return self.viewer if self.consent and self.viewer != ANONYMOUS else SOMEBODY

    def short_address(self, episode: int) -> str:
        """
        The word of its page below /go/: its own, or made of the episode's number and its own; '' where none leads on.

        e1-3 is the third question of the first episode.
        """
        return self.go or (f"e{episode}-{self.number}" if self.calculator and self.answer else "")

    def result(self) -> Result | None:
        """Today's result for what was asked; None where no calculator answers it."""
        return run(self.calculator, self.inputs) if self.calculator else None

    def further(self) -> dict[str, Result]:
        """Today's results of the further calculators, by names that a record can hold: memory.rate, memory.rate-2."""
        results: dict[str, Result] = {}
        for each in self.also:
            count = 1 + sum(name.partition("-")[0] == each.calculator for name in results)
            results[each.calculator if count == 1 else f"{each.calculator}-{count}"] = each.result()
        return results


@dataclass(frozen=True, slots=True)
class Correction:
    """
    What was put right: which segment, what was said, what holds now, and why.

    dangerous: whoever follows what was said may come to harm. reworded: the same in other words, no public correction.
    on_card: what was wrong and what holds now, in a few words for the corrected card, where the sentences do not tell.
    """

    date: datetime.date
    segment: int
    was: str
    now: str
    why: str
    figures: Mapping[str, str]
    line: int
    verdict: str = ""
    short_answer: str = ""
    dangerous: bool = False
    reworded: bool = False
    on_card: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True)
class Link:
    """A link that an episode's description gives besides those to its answers."""

    title: str
    address: str


@dataclass(slots=True)
class Episode:
    """
    One episode, as its sheet tells it.

    frame_rate, drop_frame: the recording's, '' where the sheet does not tell. lead: how long after the recording the
    video begins. cuts: pieces cut out, from and to in the recording's own time. [s]
    """

    number: int
    path: str
    title: str
    recorded: datetime.date
    summary: str
    invented: bool
    segments: list[Segment]
    corrections: list[Correction]
    links: list[Link] = field(default_factory=list)
    video: str = ""
    frame_rate: str = ""
    drop_frame: bool = False
    lead: int = 0
    cuts: list[tuple[float, float]] = field(default_factory=list)

    @property
    def put_right(self) -> list[Correction]:
        """The corrections that the public sees, oldest first."""
        return sorted((c for c in self.corrections if not c.reworded), key=lambda c: (c.date, c.segment, c.line))

    def at(self, start: int) -> str:
        """
        The address of a moment of its video; '' where none is known.

        W3C Media Fragments URI 1.0: #t= with seconds. A site that wants it otherwise has {seconds} in its address.
        """
        if "{seconds}" in self.video:
            return self.video.replace("{seconds}", str(start))
        return f"{self.video}#t={start}" if self.video else ""

    @property
    def slug(self) -> str:
        """The file's name without its ending, such as 002-front-jacks."""
        return Path(self.path).stem

    def segment(self, number: int) -> Segment | None:
        """A segment by its number, counted from one."""
        return next((s for s in self.segments if s.number == number), None)


class _Reader:
    """Reads one sheet's front matter, collecting mistakes."""

    def __init__(self, docs: Path, path: Path) -> None:
        self.docs = docs
        self.text = ""
        self.shown = f"{docs.name}/{path.relative_to(docs).as_posix()}"
        self.mistakes: list[Mistake] = []
        self.lines: dict[tuple[Any, ...], int] = {}
        self.answers = {p.relative_to(docs / "answers").as_posix()[:-3] for p in (docs / "answers").glob("*/*.md")}

    def wrong(self, where: tuple[Any, ...], message: str) -> None:
        while where and where not in self.lines:
            where = where[:-1]
        self.mistakes.append(Mistake(self.shown, self.lines.get(where, 1), message))

    def unknown(self, where: tuple[Any, ...], given: Mapping[Any, Any], known: tuple[str, ...]) -> None:
        for key in given:
            if key not in known:
                near = nearest_names(str(key), known)
                hint = f"did you mean {near[0]}?" if near else f"there are {', '.join(known)}"
                self.wrong((*where, key), f"no such entry: {key}; {hint}")

    def date(self, where: tuple[Any, ...], value: Any, name: str) -> datetime.date:
        if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
            return value
        self.wrong(where, f"'{name}:' must be a date such as 2026-11-24")
        return datetime.date(1970, 1, 1)

    def text_of(self, where: tuple[Any, ...], value: Any, name: str, needed: bool = True) -> str:
        if value is None and not needed:
            return ""
        if isinstance(value, (str, int, float)) and not isinstance(value, bool) and str(value).strip():
            return " ".join(str(value).split())
        if isinstance(value, (bool, datetime.date)):  # as YAML reads yes, no, on, off, and what looks like a day
            self.wrong(where, f"'{name}:' needs a text, and YAML reads {value} here; put the text in quotes")
        else:
            self.wrong(where, f"'{name}:' needs a text")
        return ""

    def flag(self, where: tuple[Any, ...], value: Any, name: str) -> bool:
        if value is not None and not isinstance(value, bool):
            self.wrong(where, f"'{name}:' is true or false, without quotes")
        return value is True

    def verdict(self, where: tuple[Any, ...], value: Any) -> str:
        if value is None:
            return ""
        word = ("yes" if value else "no") if isinstance(value, bool) else str(value)
        if word not in VERDICTS:
            self.wrong(where, f"'verdict:' is one of {', '.join(VERDICTS)}; got '{word[:20]}'")
            return ""
        return word

    def texts(self, where: tuple[Any, ...], value: Any, name: str) -> dict[str, str]:
        if value is None:
            return {}
        if not isinstance(value, dict):
            self.wrong(where, f"'{name}:' must be written as 'key: value'")
            return {}
        return {str(key): str(text) for key, text in value.items()}

    def rows(self, where: tuple[Any, ...], value: Any, name: str, entry: str) -> list[Any]:
        if value is None:
            return []
        if not isinstance(value, list):
            self.wrong(where, f"'{name}:' needs a list, each entry beginning with '- {entry}'")
            return []
        return value


def read_sheet(docs: Path, path: Path, text: str | None = None) -> tuple[Episode | None, list[Mistake]]:
    """
    One sheet.

    Args:
        docs: The folder of pages. [path]
        path: The sheet, below docs/episodes. [path]
        text: What it would hold, where it is to be tried before it is written. [text]

    Returns:
        The episode, or None where it cannot be told; and every mistake in it. [pair]

    Source:
        DESIGN section 7 of this project.
    """
    reader = _Reader(docs, path)
    name = _NAME.fullmatch(path.name)
    if name is None:
        reader.wrong((), "an episode sheet is named 001-a-few-words.md: three digits, then small letters and hyphens")
        return None, reader.mistakes
    try:
        reader.text = read_text(path) if text is None else text
    except CannotRead as problem:
        return None, [Mistake(reader.shown, problem.line, str(problem))]
    count = front_matter_lines(reader.text)
    if not count:
        reader.wrong((), "the sheet has no front matter between two lines '---'")
        return None, reader.mistakes
    try:
        raw, reader.lines = load("\n".join(reader.text.split("\n")[1 : count - 1]), 2)
    except NotYaml as problem:
        return None, [Mistake(reader.shown, problem.line, f"the front matter cannot be read: {problem}")]
    if not isinstance(raw, dict):
        reader.wrong((), "the front matter must be written as 'key: value'")
        return None, reader.mistakes
    reader.unknown((), raw, EPISODE_KEYS)
    rows = raw.get("segments")
    if not isinstance(rows, list) or not rows:
        reader.wrong(("segments",), "'segments:' needs a list with at least one question")
        rows = []
    segments = [_segment(reader, i, row) for i, row in enumerate(rows)]
    _check_times(reader, segments)
    recorded = reader.date(("recorded",), raw.get("recorded"), "recorded")
    listed = reader.rows(("corrections",), raw.get("corrections"), "corrections", "date:")
    corrections = [_correction(reader, i, row, segments, recorded) for i, row in enumerate(listed)]
    links = reader.rows(("links",), raw.get("links"), "links", "title:")
    video = reader.text_of(("video",), raw.get("video"), "video", needed=False)
    if video and not _VIDEO.fullmatch(video):
        reader.wrong(("video",), f"'video:' is the video's address, https://…; got '{video[:40]}'")
        video = ""
    frame_rate, drop_frame = _frames(reader, raw)
    lead, cuts = _cutting(reader, raw)
    episode = Episode(
        number=int(name[1]),
        path=path.relative_to(docs).as_posix(),
        title=reader.text_of(("title",), raw.get("title"), "title"),
        recorded=recorded,
        summary=reader.text_of(("summary",), raw.get("summary"), "summary"),
        invented=reader.flag(("invented",), raw.get("invented"), "invented"),
        segments=[s for s in segments if s],
        corrections=[c for c in corrections if c],
        links=[link for i, row in enumerate(links) if (link := _link(reader, ("links", i), row))],
        video=video,
        frame_rate=frame_rate,
        drop_frame=drop_frame,
        lead=lead,
        cuts=cuts,
    )
    return episode, reader.mistakes


def _frames(reader: _Reader, raw: Mapping[str, Any]) -> tuple[str, bool]:
    """The recording's frames a second, and whether its time code drops numbers."""
    given = raw.get("frame_rate")
    rate = "" if given is None else f"{given}".strip()
    drop = reader.flag(("drop_frame",), raw.get("drop_frame"), "drop_frame")
    if rate and (fault := rate_fault(rate, drop)):
        reader.wrong(("frame_rate",), fault)
        return "", False
    return rate, drop


def _cutting(reader: _Reader, raw: Mapping[str, Any]) -> tuple[int, list[tuple[float, float]]]:
    """When the video begins in the recording, and what was cut out of that."""
    lead = 0
    cuts: list[tuple[float, float]] = []
    try:
        lead = clock.seconds(raw.get("lead") or 0)
    except ValueError as problem:
        reader.wrong(("lead",), str(problem))
    for place, row in enumerate(reader.rows(("cuts",), raw.get("cuts"), "cuts", '"5:10-5:40"')):
        try:
            cuts += cuts_of(str(row))
        except ValueError as problem:
            reader.wrong(("cuts", place), str(problem))
    return lead, cuts


def _segment(reader: _Reader, place: int, row: Any) -> Segment | None:
    where = ("segments", place)
    if not isinstance(row, dict):
        reader.wrong(where, "a segment must be written as 'key: value', with start, question and viewer")
        return None
    reader.unknown(where, row, SEGMENT_KEYS)
    start = None
    if row.get("start") is not None:
        try:
            start = clock.seconds(row["start"])
        except ValueError as problem:
            reader.wrong((*where, "start"), str(problem))
    answer = reader.text_of((*where, "answer"), row.get("answer"), "answer", needed=False)
    if answer and answer not in reader.answers:
        near = nearest_names(answer, reader.answers)
        reader.wrong((*where, "answer"), f"no answer page {answer}" + (f"; did you mean {near[0]}?" if near else ""))
        answer = ""
    referred = _referral(reader, where, row.get("referred"))
    if not answer and referred is None and not row.get("answer") and not row.get("note"):
        reader.wrong(where, "a segment names an 'answer:' page, or says to whom it was 'referred:', or has a 'note:'")
    inputs = row.get("inputs") or {}
    if not isinstance(inputs, dict):
        reader.wrong((*where, "inputs"), "'inputs:' must be written as 'key: value'")
        inputs = {}
    calculator = reader.text_of((*where, "calculator"), row.get("calculator"), "calculator", needed=False)
    shown = calculators_on(reader.docs, answer) if answer else []
    if not calculator and shown and (inputs or row.get("said")):
        calculator = shown[0]
    elif calculator and answer and calculator not in shown:
        hint = f"it shows {', '.join(shown)}" if shown else "it shows none"
        reader.wrong(
            (*where, "calculator"), f"the answer page {answer} shows no {calculator}, so no link can lead to it; {hint}"
        )
    if calculator:
        calculator = _checked(reader, where, calculator, inputs)
    elif row.get("said") or inputs:
        reader.wrong(where, "what was said and its inputs need a 'calculator:' or an answer page that holds one")
    return Segment(
        number=place + 1,
        line=reader.lines.get(where, 1),
        start=start,
        question=reader.text_of((*where, "question"), row.get("question"), "question"),
        viewer=reader.text_of((*where, "viewer"), row.get("viewer", "anonymous"), "viewer"),
        answer=answer,
        calculator=calculator,
        inputs=inputs,
        said=reader.text_of((*where, "said"), row.get("said"), "said", needed=False),
        figures=reader.texts((*where, "figures"), row.get("figures"), "figures"),
        follow_up=_follow_up(reader, where, row.get("follow_up")),
        referred=referred,
        note=reader.text_of((*where, "note"), row.get("note"), "note", needed=False),
        go=reader.text_of((*where, "go"), row.get("go"), "go", needed=False) if answer else "",
        chapter=reader.text_of((*where, "chapter"), row.get("chapter"), "chapter", needed=False),
        consent=reader.flag((*where, "consent"), row.get("consent"), "consent"),
        made=reader.text_of((*where, "made"), row.get("made"), "made", needed=False),
        verdict=reader.verdict((*where, "verdict"), row.get("verdict")),
        short_answer=reader.text_of((*where, "short_answer"), row.get("short_answer"), "short_answer", needed=False),
        spoken=reader.text_of((*where, "spoken"), row.get("spoken"), "spoken", needed=False),
        also=_also(reader, where, row.get("also"), answer, calculator),
        links=_links(reader, where, row.get("links")),
    )


def _also(reader: _Reader, above: tuple[Any, ...], given: Any, answer: str, calculator: str) -> tuple[Further, ...]:
    """The further calculators of a question."""
    further = []
    rows = reader.rows((*above, "also"), given, "also", "calculator:")
    if rows and not calculator:
        reader.wrong(
            (*above, "also"), "'also:' stands beside a first calculator: write 'calculator:' and its 'inputs:'"
        )
    for place, row in enumerate(rows):
        where = (*above, "also", place)
        if not isinstance(row, dict):
            reader.wrong(where, "a further calculator has 'calculator:' and 'inputs:'")
            continue
        reader.unknown(where, row, ALSO_KEYS)
        inputs = row.get("inputs") or {}
        if not isinstance(inputs, dict):
            reader.wrong((*where, "inputs"), "'inputs:' must be written as 'key: value'")
            continue
        name = reader.text_of((*where, "calculator"), row.get("calculator"), "calculator")
        page = reader.text_of((*where, "answer"), row.get("answer"), "answer", needed=False)
        if page and name not in (calculators_on(reader.docs, page) if page in reader.answers else []):
            reader.wrong((*where, "answer"), f"no answer page {page} shows {name}")
            page = ""
        elif not page and answer and name in calculators_on(reader.docs, answer):
            page = answer
        if name and _checked(reader, where, name, inputs):
            further.append(Further(name, inputs, page))
    return tuple(further)


def _links(reader: _Reader, above: tuple[Any, ...], given: Any) -> tuple[Link, ...]:
    rows = reader.rows((*above, "links"), given, "links", "title:")
    return tuple(link for i, row in enumerate(rows) if (link := _link(reader, (*above, "links", i), row)))


def _checked(reader: _Reader, where: tuple[Any, ...], calculator: str, inputs: Mapping[str, Any]) -> str:
    """The calculator's name where it takes these inputs; '' and a mistake where not."""
    try:
        run(calculator, inputs)
    except CannotCompute as problem:
        key = next((k for k in inputs if f": {k}: " in str(problem)), None)
        reader.wrong((*where, "inputs", key) if key else (*where, "calculator"), str(problem))
        return ""
    return calculator


def calculators_on(docs: Path, answer: str) -> list[str]:
    """The calculators that an answer page shows, in order."""
    try:
        text = read_text(docs / "answers" / f"{answer}.md")
    except CannotRead:
        return []  # told where pages are checked
    uses = scan("\n".join(text.split("\n")[front_matter_lines(text) :]), answer)
    return [use.argument for use in uses.blocks if use.name == "calculator"]


def _referral(reader: _Reader, where: tuple[Any, ...], row: Any) -> Referral | None:
    if row is None:
        return None
    if not isinstance(row, dict) or not row.get("to") or not row.get("why"):
        reader.wrong((*where, "referred"), "'referred:' needs 'to:' (a kind of expert or a published place) and 'why:'")
        return None
    return Referral(" ".join(str(row["to"]).split()), " ".join(str(row["why"]).split()))


def _follow_up(reader: _Reader, where: tuple[Any, ...], row: Any) -> tuple[int, int] | None:
    if row is None:
        return None
    match = _FOLLOW_UP.fullmatch(str(row).strip())
    if match is None:
        reader.wrong((*where, "follow_up"), f"'follow_up:' reads episode/segment, such as 1/3; got '{str(row)[:20]}'")
        return None
    return int(match[1]), int(match[2])


def _check_times(reader: _Reader, segments: list[Segment | None]) -> None:
    last = -1
    for segment in segments:
        if segment is None or segment.start is None:
            continue
        if segment.start <= last:
            reader.wrong(
                ("segments", segment.number - 1, "start"),
                f"segment {segment.number} starts at {clock.worded(segment.start)}, before the one above it "
                f"({clock.worded(last)}); times go forward",
            )
        last = max(last, segment.start)


def _link(reader: _Reader, where: tuple[Any, ...], row: Any) -> Link | None:
    if not isinstance(row, dict):
        reader.wrong(where, "a link has 'title:' and 'address:'")
        return None
    reader.unknown(where, row, LINK_KEYS)
    title = reader.text_of((*where, "title"), row.get("title"), "title")
    address = reader.text_of((*where, "address"), row.get("address"), "address")
    if address and not _VIDEO.fullmatch(address):
        reader.wrong((*where, "address"), f"'address:' reads https://…; got '{address[:40]}'")
        return None
    return Link(title, address) if title and address else None


def _correction(
    reader: _Reader, place: int, row: Any, segments: list[Segment | None], recorded: datetime.date
) -> Correction | None:
    where = ("corrections", place)
    if not isinstance(row, dict):
        reader.wrong(where, "a correction has 'date:', 'segment:', 'now:' and 'why:'")
        return None
    reader.unknown(where, row, CORRECTION_KEYS)
    number = row.get("segment")
    known = {s.number: s for s in segments if s}
    if not isinstance(number, int) or isinstance(number, bool) or number not in known:
        reader.wrong((*where, "segment"), f"there is no segment {number!s:.20}; this episode has 1 to {len(segments)}")
        return None
    date = reader.date((*where, "date"), row.get("date"), "date")
    reworded = reader.flag((*where, "reworded"), row.get("reworded"), "reworded")
    dangerous = reader.flag((*where, "dangerous"), row.get("dangerous"), "dangerous")
    if datetime.date(1970, 1, 1) < date < recorded:
        reader.wrong((*where, "date"), f"this correction is dated {date}, before the recording of {recorded}")
    if reworded and dangerous:
        reader.wrong((*where, "reworded"), "what is dangerous is more than other words; take 'reworded:' out")
    return Correction(
        date=date,
        segment=number,
        was=reader.text_of((*where, "was"), row.get("was"), "was", needed=False) or known[number].said,
        now=reader.text_of((*where, "now"), row.get("now"), "now", needed=not reworded) or known[number].said,
        why=reader.text_of((*where, "why"), row.get("why"), "why", needed=not reworded),
        figures=reader.texts((*where, "figures"), row.get("figures"), "figures"),
        line=reader.lines.get(where, 1),
        verdict=reader.verdict((*where, "verdict"), row.get("verdict")),
        short_answer=reader.text_of((*where, "short_answer"), row.get("short_answer"), "short_answer", needed=False),
        dangerous=dangerous,
        reworded=reworded,
        on_card=_on_card(reader, (*where, "on_card"), row.get("on_card")),
    )


def _on_card(reader: _Reader, where: tuple[Any, ...], value: Any) -> tuple[str, str] | None:
    """Before and now of a corrected card, each of at most 20 characters as a card's hero; None where not told."""
    if value is None:
        return None
    sides = [str(each).strip() for each in value] if isinstance(value, list) else []
    if len(sides) != 2 or not all(0 < len(side) <= MOST_ON_CARD for side in sides):
        reader.wrong(where, f"'on_card:' is [before, now], each of at most {MOST_ON_CARD} characters")
        return None
    return sides[0], sides[1]


def read_all(docs: Path) -> tuple[list[Episode], list[Mistake]]:
    """Every sheet below docs/episodes in the order of their numbers, and every mistake, those between sheets too."""
    episodes: list[Episode] = []
    mistakes: list[Mistake] = []
    for path in sorted((docs / "episodes").glob("*.md")):
        if path.name == "index.md":
            continue
        episode, wrong = read_sheet(docs, path)
        mistakes += wrong
        if episode:
            episodes.append(episode)
    by_number: dict[int, Episode] = {}
    for episode in episodes:
        shown = f"{docs.name}/{episode.path}"
        if episode.number in by_number:
            other = by_number[episode.number].path
            mistakes.append(Mistake(shown, 1, f"episode {episode.number} is there already: {docs.name}/{other}"))
        by_number.setdefault(episode.number, episode)
    for episode in episodes:
        for segment in episode.segments:
            if segment.follow_up is None:
                continue
            number, place = segment.follow_up
            earlier = by_number.get(number)
            if earlier is None or earlier.segment(place) is None or number > episode.number:
                message = f"segment {segment.number} follows up {number}/{place}, which no earlier sheet has"
                mistakes.append(Mistake(f"{docs.name}/{episode.path}", segment.line, message))
    return episodes, mistakes
