"""The record: everything said on air, computed anew, and where it no longer holds."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from build_tools.episodes.sheet import Correction, Episode, Segment
from build_tools.markdown_blocks.mistakes import Mistake


@dataclass(frozen=True, slots=True)
class Differs:
    """One thing said that today's calculator words otherwise: which, then and now; `figure` is '' for the headline."""

    episode: Episode
    segment: Segment
    figure: str
    said: str
    now: str

    def mistake(self, docs: str) -> Mistake:
        """The same as a build's message, with what to write."""
        what = f"the figure {self.figure}" if self.figure else "the headline"
        return Mistake(
            f"{docs}/{self.episode.path}",
            self.segment.line,
            f"segment {self.segment.number}: {what} said on air no longer holds. Said: {self.said!r}. "
            f"Now: {self.now!r}. Write an entry under 'corrections:' with date, segment: {self.segment.number}, "
            + ("figures: {" + f"{self.figure}: {self.now}" + "}" if self.figure else f"now: {self.now!r}")
            + " and why.",
        )


def latest(episode: Episode, number: int) -> Correction | None:
    """The newest correction of a segment."""
    found = [c for c in episode.corrections if c.segment == number]
    return max(found, key=lambda c: (c.date, c.line), default=None)


def differences(episodes: Iterable[Episode]) -> list[Differs]:
    """
    What was said and no longer holds, unless a correction already says what holds now.

    Args:
        episodes: All sheets. [list]

    Returns:
        The differences, in the order in which they were said. [list]

    Source:
        DESIGN section 7 of this project.

    Example:
        >>> differences([])
        []
    """
    found = []
    for episode in episodes:
        for segment in episode.segments:
            result = segment.result()
            if result is None:
                continue
            correction = latest(episode, segment.number)
            if segment.said:
                held = correction.now if correction else segment.said
                if held != result.answer.headline:
                    found.append(Differs(episode, segment, "", segment.said, result.answer.headline))
            today = {f.key: f.text for f in result.answer.shown_figures()}
            for key, text in segment.figures.items():
                held = correction.figures.get(key, text) if correction else text
                if held.replace("\u202f", " ") != today.get(key, "").replace("\u202f", " "):
                    found.append(Differs(episode, segment, key, text, today.get(key, "no longer given")))
    return found
