"""A way from room to room for a screen card: two rooms, the wall between, and what goes across, drawn as what it is."""

from __future__ import annotations

from calculators.desk.card_canvas import balanced
from calculators.desk.card_declared import ScreenDrawing
from calculators.desk.screen_drawings.marks import THICK
from calculators.desk.svg import Drawing, Sketch, text_width

WIRE, RADIO, NONE = "wire", "radio", "none"
_HERE = "computer"
_LEAST_HOUSE = 150.0
_TALLEST = 430.0


def screen_rooms(way: str, kind: str, far: str) -> ScreenDrawing:
    """
    Both rooms from the first step on; the way and its name come with the card's answer.

    Args:
        way: What carries the picture, in words. [text]
        kind: wire, radio or none: a line through the wall, waves, or a way that ends there. [text]
        far: How far it is, in words. [text]

    Returns:
        The drawing for a room, or None where it has none. [function]

    Source:
        None: a drawing.

    Example:
        >>> drawn = screen_rooms("a stream by wire", "wire", "15 m")(900, 560, 56)
        >>> [box.what for box in drawn.record() if box.stage]
        ['a stream by wire', 'wire']
    """

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        words = balanced(way, width, size, 2, True)
        if not words:
            return None
        step, air = size * 1.15, size * 0.3
        if text_width(_HERE, size) + text_width(far, size) + size > width:
            return None
        head = step * len(words) + air
        house = min(height - head - step - air * 0.6, _TALLEST)
        if house < max(_LEAST_HOUSE, size * 2.6):
            return None
        sketch = Sketch("rooms", f"{way}, {far}", head + house + step + air * 0.6, width)
        ink = "no" if kind == NONE else "mark"
        with sketch.later():
            for i, line in enumerate(words):
                sketch.text(width / 2, size * 0.86 + step * i, line, size=size, bold=True, ink=ink, anchor="middle")
        _house(sketch, width, head, house)
        base = head + house + step * 0.9
        sketch.text(0, base, _HERE, size=size, ink="soft")
        sketch.text(width, base, far, size=size, ink="soft", anchor="end")
        with sketch.later():
            _across(sketch, kind, width, head, house)
        return sketch.done()

    return drawn


def _sizes(width: float, house: float) -> tuple[float, float, float]:
    """How large the things in the rooms are, and where the way begins and ends."""
    side = min(house * 0.5, width * 0.16)
    return side, side * 0.9, width - side * 1.75


def _house(sketch: Sketch, width: float, top: float, house: float) -> None:
    """Two rooms with a wall between; the computer on the left one's floor, the display on the right one's wall."""
    side, _, _ = _sizes(width, house)
    low, wall, pen = top + house, max(width * 0.03, 18.0), THICK * 1.3
    sketch.rect(pen / 2, top + pen / 2, width - pen, house - pen, fill="none", line="ink", line_width=pen)
    sketch.rect((width - wall) / 2, top, wall, house, fill="fill-2", line="ink", line_width=pen / 2, what="wall")
    left, high = side * 0.35, side * 1.15
    sketch.rect(left, low - pen - high, side * 0.55, high - pen / 2, fill="fill-4", line="ink", line_width=pen)
    for i in (0.25, 0.42):
        y = low - pen - high + high * i
        sketch.line(left + side * 0.13, y, left + side * 0.42, y, ink="ink", width=pen)
    across, tall = side * 1.4, side * 0.85
    x, y = width - side * 0.35 - across, low - side * 0.4 - tall
    sketch.rect(x, y, across, tall, fill="fill-4", line="ink", line_width=pen)
    sketch.line(x + across / 2, y + tall, x + across / 2, low - pen * 1.5, ink="ink", width=pen)
    sketch.line(x + across * 0.28, low - pen * 1.5, x + across * 0.72, low - pen * 1.5, ink="ink", width=pen)


def _across(sketch: Sketch, kind: str, width: float, top: float, house: float) -> None:
    """The way itself."""
    side, begin, end = _sizes(width, house)
    pen, low = THICK * 2.2, top + house
    y = low - side * 0.62
    if kind == RADIO:
        middle, most = low - side * 0.95, end - begin - side * 0.3
        for i in range(1, 6):  # waves that grow as they go, open to where they come from
            reach, tall = most * i / 5, side * (0.1 + 0.1 * i)
            bow = [(begin + reach - tall * 0.55 * (j / 5) ** 2, middle + tall * j / 5) for j in range(-5, 6)]
            sketch.path(bow, ink="mark", width=pen)
        sketch.note("radio", begin, middle - side * 0.6, begin + most, middle + side * 0.6, "mark")
        return
    stop = end if kind == WIRE else width / 2 - side * 0.3
    sketch.line(begin, y, stop, y, ink="no" if kind == NONE else "mark", width=pen)
    sketch.note(kind, begin, y - pen / 2, stop, y + pen / 2, "mark")
    if kind == NONE:
        arm = side * 0.16
        for one in (-1, 1):
            sketch.line(stop - arm, y - arm * one, stop + arm, y + arm * one, ink="no", width=pen)
        return
    for x, out in ((begin, 1), (end, -1)):  # a plug at either end
        sketch.rect(min(x, x + out * side * 0.22), y - side * 0.11, side * 0.22, side * 0.22, fill="mark")
