"""The text for a video's description: summary, chapters, links, corrections, ready to paste; and replies to viewers."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from build_tools.episodes import clock
from build_tools.episodes.programme import Programme
from build_tools.episodes.sheet import Episode, Segment

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


def chapters(episode: Episode) -> tuple[list[tuple[int, str]], list[str]]:
    """The chapters with their start in seconds, and what keeps them from working."""
    rows = [(s.start, clean(s.question)) for s in episode.segments if s.start is not None]
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
    rows, warnings = chapters(episode)
    parts = [clean(episode.summary)]
    if rows:
        parts.append("\n".join(f"{clock.worded(start)} {title}" for start, title in rows))
    if episode.corrections:
        lines = ["Corrections"]
        for entry in sorted(episode.corrections, key=lambda c: (c.date, c.segment)):
            segment = episode.segment(entry.segment)
            at = f" at {clock.worded(segment.start)}" if segment and segment.start is not None else ""
            lines.append(clean(f"{entry.date}{at}: {entry.now} {entry.why}"))
        parts.append("\n".join(lines))
    links = []
    for segment in episode.segments:
        address = page_link(episode, segment, programme)
        if address:
            links.append(f"{clean(segment.question)}\n{address}")
        elif segment.referred:
            links.append(clean(f"{segment.question} Ask {segment.referred.to}: {segment.referred.why}"))
    if links:
        parts.append("\n".join(["Answers with your own numbers", *links]))
    if not programme.address:
        warnings.append("no links: set extra: programme: address: in mkdocs.yml to the site's address")
    if programme.invented or episode.invented:
        parts.append("This programme, its viewers and their questions are invented.")
    text = "\n\n".join(part for part in parts if part) + "\n"
    if len(text) > programme.description_limit:
        warnings.append(f"{len(text)} characters; the limit set is {programme.description_limit}")
    return Description(text, tuple(warnings))


def replies(episode: Episode, programme: Programme) -> str:
    """A short text a segment, to answer the viewer below the video."""
    parts = []
    for segment in episode.segments:
        result = segment.result()
        at = f" ({clock.worded(segment.start)})" if segment.start is not None else ""
        said = result.answer.headline if result else segment.said
        if segment.referred:
            said = f"We passed this one on to {segment.referred.to}: {segment.referred.why}"
        address = page_link(episode, segment, programme)
        words = clean(f"{segment.viewer}{at}: {said}")
        parts.append(f"{words}\n{address}" if address else words)
    return "\n\n".join(parts) + "\n"
