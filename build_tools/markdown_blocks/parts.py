"""The parts of an answer page, in their order. Knows their names and what becomes of each; knows no page."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Part:
    """
    One part below a heading of the second level.

    needed: every answer page has it. folded: the page's script folds it on a phone; without scripts it is open.
    jump: what the row of jumps below the result calls it; nothing where it has no place there.
    silent: its heading is for screen readers, since what stands there speaks for itself.
    """

    name: str
    key: str
    needed: bool = True
    folded: bool = False
    jump: str = ""
    silent: bool = False


PARTS = (
    Part("Your numbers", "numbers", silent=True),
    Part("What to do", "do", needed=False, jump="What to do"),
    Part("If it does not work", "if-not", jump="If it does not work"),
    Part("Why", "why", folded=True, jump="Why"),
    Part("Cautions", "cautions", needed=False),
    Part("Sources", "sources", folded=True, jump="Sources"),
    Part("History", "history", folded=True),
)
BY_NAME = {part.name: part for part in PARTS}
