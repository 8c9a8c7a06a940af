"""The text for a video's description: summary, chapters, links, corrections, ready to paste; and replies to viewers."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from build_tools.episodes import clock
from build_tools.episodes.programme import USUAL_CHAPTER, Programme
from build_tools.episodes.sheet import SOMEBODY, Correction, Episode, Segment

# Chapters as video sites take them: the first at 0:00, ascending, at least three, each at least 10 s long.
# Common practice of video sites, no source.
LEAST_CHAPTERS = 3
SHORTEST_CHAPTER_S = 10
# Video sites refuse angle brackets. Common practice, no source.
REFUSED = str.maketrans({"<": "‹", ">": "›"})


@dataclass(frozen=True, slots=True)
class Description:
    """The text, and what its presenter should know before pasting it."""

    text: str
    warnings: tuple[str, ...]


def clean(text: str) -> str:
    """A text with the signs replaced that video sites refuse, and in one line."""
    return " ".join(text.translate(REFUSED).replace("\u202f", " ").split())


def shortened(text: str, most: int) -> str:
    """A text of at most so many characters, cut behind a whole word, with a sign that it was cut."""
    if len(text) <= most:
        return text
    cut = text[: most - 1]
    words = cut if text[most - 1] == " " or " " not in cut else cut.rsplit(" ", 1)[0]
    return words.rstrip(" ,;:.–-") + "…"


def chapters(episode: Episode, longest: int = USUAL_CHAPTER) -> tuple[list[tuple[int, str]], list[str]]:
    """The chapters with their start in seconds and a short title, and what keeps them from working."""
    rows = [
        (s.start, shortened(clean(s.chapter or s.question), longest)) for s in episode.segments if s.start is not None
    ]
    warnings = []
    untimed = len(episode.segments) - len(rows)
    if untimed:
        warnings.append(
            f"{untimed} of {len(episode.segments)} segments have no start time, so there are no chapters yet"
        )
        return [], warnings
    if rows and rows[0][0] > 0:
        if rows[0][0] < SHORTEST_CHAPTER_S:
            rows[0] = (0, rows[0][1])
        else:
            rows.insert(0, (0, "Welcome"))
    for (one, _), (other, title) in pairwise(rows):
        if other - one < SHORTEST_CHAPTER_S:
            warnings.append(f"the chapter before '{title}' is shorter than {SHORTEST_CHAPTER_S} s")
    if len(rows) < LEAST_CHAPTERS:
        warnings.append(f"{len(rows)} chapters: video sites want at least {LEAST_CHAPTERS}")
    return rows, warnings


def page_link(episode: Episode, segment: Segment, programme: Programme) -> str:
    """The answer page with the segment's numbers; '' where there is no page or no address."""
    if not segment.answer or not programme.address:
        return ""
    word = segment.short_address(episode.number)
    return programme.url(f"go/{word}/" if word else f"answers/{segment.answer}.html")


def describe(episode: Episode, programme: Programme) -> Description:
    """
    The description of one episode.

    Args:
        episode: The episode. [object]
        programme: Name, address and limit. [object]

    Returns:
        The text, ending in a newline, and warnings. [object]

    Source:
        Common practice of video sites, no source.

    Example:
        >>> clean("a < b")
        'a ‹ b'
    """
    rows, warnings = chapters(episode, programme.chapter_limit)
    text = _shortest_that_fits(episode, programme, rows)
    if not programme.address:
        warnings.append("no links: set extra: programme: address: in mkdocs.yml to the site's address")
    if len(text) > programme.description_limit:
        warnings.append(
            f"{len(text)} characters, although all that can be left out was; the limit set is "
            f"{programme.description_limit}: shorten the summary or the corrections' reasons"
        )
    elif text != _text(episode, programme, rows, WHOLE):
        warnings.append(
            f"left out or shortened, so that it fits in {programme.description_limit} characters: questions above "
            "links, then the links themselves; the episode's page has them all"
        )
    return Description(text, tuple(warnings))


# What a description gives up, step by step, until it fits.
WHOLE, SHORT_QUESTIONS, ONE_LINK = range(3)


def _shortest_that_fits(episode: Episode, programme: Programme, rows: list[tuple[int, str]]) -> str:
    for less in (WHOLE, SHORT_QUESTIONS, ONE_LINK):
        text = _text(episode, programme, rows, less)
        if len(text) <= programme.description_limit:
            break
    return text


def _text(episode: Episode, programme: Programme, rows: list[tuple[int, str]], less: int) -> str:
    put_right = episode.put_right
    parts = [first_line(episode)] if put_right else []
    parts.append(clean(episode.summary))
    if rows:
        parts.append("\n".join(f"{clock.worded(start)} {title}" for start, title in rows))
    if put_right:
        parts.append("\n".join(["Corrections", *(_corrected(episode, entry) for entry in put_right)]))
    links = []
    for segment in episode.segments:
        address = page_link(episode, segment, programme)
        question = clean(segment.question)
        if less:
            question = shortened(clean(segment.chapter or segment.question), programme.chapter_limit)
        if address and less < ONE_LINK:
            links.append(f"{question}\n{address}")
        elif segment.referred:
            links.append(clean(f"{question} Ask {segment.referred.to}: {segment.referred.why}"))
    page = programme.url(episode.path.removesuffix(".md") + ".html")
    if less == ONE_LINK and page:
        links.append(f"All of them\n{page}")
    if links:
        parts.append("\n".join(["Answers with your own numbers", *links]))
    also = dict.fromkeys([*(link for segment in episode.segments for link in segment.links), *episode.links])
    if also:
        parts.append("\n".join(["Also mentioned", *(f"{clean(each.title)}\n{each.address}" for each in also)]))
    if programme.invented or episode.invented:
        parts.append("This programme, its viewers and their questions are invented.")
    return "\n\n".join(part for part in parts if part) + "\n"


def first_line(episode: Episode) -> str:
    """The description's first line once something was put right: what a viewer sees without opening the rest."""
    entries = episode.put_right
    if not entries:
        return ""
    newest = next((e for e in reversed(entries) if e.dangerous), entries[-1])
    opening = "Do not do what we said" if newest.dangerous else "We were wrong"
    more = f" ({len(entries)} corrections, all below)" if len(entries) > 1 else ""
    return clean(f"{opening}{_at(episode, newest)}, corrected on {newest.date}: {newest.now}{more}")


def pinned(episode: Episode) -> str:
    """A comment to pin below the video; '' where nothing was put right."""
    entries = episode.put_right
    if not entries:
        return ""
    lines = []
    for entry in sorted(entries, key=lambda c: not c.dangerous):
        begins = "We were wrong, and it can hurt: do not do what we said" if entry.dangerous else "We were wrong"
        was = f" We said: {entry.was}" if entry.was else ""
        lines.append(clean(f"{begins}{_at(episode, entry)}.{was} Right is: {entry.now} {entry.why} ({entry.date})"))
    return "\n\n".join(lines) + "\n"


def _at(episode: Episode, entry: Correction) -> str:
    segment = episode.segment(entry.segment)
    return f" at {clock.worded(segment.start)}" if segment and segment.start is not None else ""


def _corrected(episode: Episode, entry: Correction) -> str:
    return clean(f"{entry.date}{_at(episode, entry)}: {entry.now} {entry.why}")


def replies(episode: Episode, programme: Programme) -> str:
    """A short text a segment, to answer the viewer below the video; what was put right says so first."""
    parts = []
    for segment in episode.segments:
        result = segment.result()
        at = f" ({clock.worded(segment.start)})" if segment.start is not None else ""
        further = [each.answer.headline for each in segment.further().values()]
        reply = " ".join([result.answer.headline, *further]) if result else segment.said
        if segment.referred:
            reply = f"We passed this one on to {segment.referred.to}: {segment.referred.why}"
        entries = [entry for entry in episode.put_right if entry.segment == segment.number]
        if entries:
            newest = entries[-1]
            harm = " What we said can hurt, so please do not do it." if newest.dangerous else ""
            # not today's headline alone: whoever asked has heard the other one
            reply = f"{newest.now} {newest.why} We put it right on {newest.date}.{harm}"
        named = segment.shown_viewer != SOMEBODY
        name = segment.shown_viewer if named else f"question {segment.number}"
        address = page_link(episode, segment, programme)
        words = clean(f"We were wrong, {name}{at}: {reply}" if entries else f"{name}{at}: {reply}")
        words = words[:1].upper() + words[1:] if not named else words
        parts.append(f"{words}\n{address}" if address else words)
    return "\n\n".join(parts) + "\n"
