"""One way from room to room, judged: what every kind of way is described by, and how words are weighed."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import DEPENDS, NO, YES

_WORTH = {NO: 0, DEPENDS: 1, YES: 2}


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """
    A way, judged for one case.

    word: yes, depends or no. reason: why, at most fifteen words. condition: what must hold for it. first: what to do
    first. reach: how far it goes, with whose statement. late_ms: least and most, without the display's own time.
    loses, control, lay: in a few words. The last: whether it is a
    cable that needs DisplayPort at both ends.
    """

    key: str
    name: str
    word: str
    reason: str
    condition: str
    first: str
    reach: str
    late_ms: tuple[float, float]
    loses: str
    control: str
    lay: str
    displayport: bool = False


@dataclass(frozen=True, slots=True)
class Case:
    """What a viewer asks for. wire: none, network or any. use: film, desk or action."""

    distance_m: float
    width: int
    height: int
    refresh: float
    depth: int
    use: str
    control: bool
    wire: str


def worth(word: str) -> int:
    """How much a word promises: no 0, depends 1, yes 2."""
    return _WORTH[word]


def least(*words: str) -> str:
    """The word that promises least: a chain is as good as its weakest part."""
    return min(words, key=worth)


def within(value: float, count_on: float, at_best: float) -> str:
    """
    The word for a value against two limits, bounds included.

    Args:
        value: What is asked. [any]
        count_on: To here one may count on it. [as value]
        at_best: Beyond this one should not hope. [as value]

    Returns:
        yes, depends or no. [text]

    Source:
        DESIGN rule of this project: three verdicts.

    Example:
        >>> within(5, 5, 10), within(7, 5, 10), within(11, 5, 10)
        ('yes', 'depends', 'no')
    """
    return YES if value <= count_on else DEPENDS if value <= at_best else NO
