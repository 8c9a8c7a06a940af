"""Which questions were asked before: on the same answer page, in an earlier episode or earlier in the same one."""

from __future__ import annotations

from collections.abc import Iterable

from build_tools.episodes.sheet import Episode, Segment


def earlier(episode: Episode, segment: Segment, episodes: Iterable[Episode]) -> tuple[Episode, Segment] | None:
    """
    The last time before this that a question was answered with the same page.

    Args:
        episode: The question's episode. [object]
        segment: The question. [object]
        episodes: All sheets. [list]

    Returns:
        Episode and segment, or None. [pair]
    """
    here = (episode.number, segment.number)
    same = [
        (e, s)
        for e in episodes
        for s in e.segments
        if s.answer and s.answer == segment.answer and (e.number, s.number) < here
    ]
    return max(same, key=lambda pair: (pair[0].number, pair[1].number), default=None)
