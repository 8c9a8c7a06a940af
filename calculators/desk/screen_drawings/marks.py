"""What drawings for the screen have in common: their lines, and the bars, pins and zones that they are made of."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.card_declared import ScreenDrawing
from calculators.desk.svg import Drawing

THICK = 6.0  # a line that survives a phone and a low bit rate
HAIR = 4.0
SMALL = 50.0  # type below this is the smallest that a picture takes
NARROW = 640.0  # a side panel; in it a drawing and a hero have seldom room together


@dataclass(frozen=True, slots=True)
class Row:
    """
    One bar: label, length, text. low: where it begins; mark: the viewer's own; fill: a colour's name.

    step: of the card, with which bar and text come; the label stands from the first one on.
    """

    label: str
    value: float
    text: str
    mark: bool = False
    low: float = 0.0
    fill: str = ""
    step: int | None = None


@dataclass(frozen=True, slots=True)
class Pin:
    """A marked value on a scale, with its words. step: of the card, with which it comes."""

    value: float
    label: str
    mark: bool = False
    step: int | None = None


@dataclass(frozen=True, slots=True)
class Zone:
    """
    A stretch of a scale, with its words.

    step: of the card, with which it comes.
    to_end: the words are of the value where it ends ('at most', 'up to'), so the line from them leads there; otherwise
        they are of all of it, and a dot stands in its middle.
    """

    low: float
    high: float
    label: str
    fill: str = "fill-2"
    step: int | None = None
    to_end: bool = False


def narrow_or(narrow: ScreenDrawing, wide: ScreenDrawing) -> ScreenDrawing:
    """One drawing for a side panel, which stands there without a hero and so says what that says; or another."""

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        return narrow(width, height, size) if width < NARROW and height < NARROW else wide(width, height, size)

    return drawn
