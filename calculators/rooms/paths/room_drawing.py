"""The drawing of a way: two rooms, the wall between, and what goes across."""

from __future__ import annotations

from collections.abc import Callable

from calculators.desk.svg import SMALL, TEXT, WIDTH, Drawing, Sketch, wrap

_THROUGH_AIR = ("air", "pair", "mixed")


def draw(title: str, description: str, key: str, label: str, back: str, length: str) -> Drawing:
    """
    A way from room to room.

    Args:
        title: What it shows. [text]
        description: What there is to see. [text]
        key: The way's key; those over the air are drawn with waves. [text]
        label: What carries the picture. [text]
        back: What carries the hand; empty where nothing does. [text]
        length: How far, in words. [text]

    Returns:
        The drawing. [svg]

    Source:
        None: a drawing.

    Example:
        >>> draw("a", "b", "copper", "copper", "", "10 m").width
        340
    """

    def for_card(width: float, height: float, size: float) -> Drawing:
        return _drawn(title, description, key, label, back, length, width, size, size, height)

    return _drawn(title, description, key, label, back, length, WIDTH, TEXT, SMALL, 0, for_card)


def _drawn(
    title: str, description: str, key: str, label: str, back: str, length: str,
    width: float, size: float, small: float, room: float,
    for_card: Callable[[float, float, float], Drawing] | None = None,
) -> Drawing:  # fmt: skip
    unit = size / TEXT
    words = wrap(label, width - 4 * unit, small)
    backwards = wrap(back, width - 4 * unit, small) if back else []
    house = max(110 * unit, min(room - (len(words) + len(backwards)) * small * 1.35 - 8 * unit, 190 * unit))
    below = house + (len(words) + len(backwards)) * small * 1.35 + 8 * unit
    sketch = Sketch(title, description, below, width)
    wall = width / 2
    thick = 10 * unit
    sketch.rect(unit, unit, width - 2 * unit, house - 2 * unit, fill="none", line="ink", line_width=2 * unit)
    sketch.rect(wall - thick / 2, unit, thick, house - 2 * unit, fill="fill-4", line="ink", line_width=unit)
    sketch.text(width * 0.25, small * 1.4, "the machine's room", size=small, anchor="middle", ink="soft")
    sketch.text(width * 0.75, small * 1.4, "the other room", size=small, anchor="middle", ink="soft")
    _machine(sketch, width * 0.08, house, unit)
    _screen(sketch, width * 0.92, house, unit)
    start, end = width * 0.08 + 34 * unit, width * 0.92 - 60 * unit
    over = house - (56 if back else 44) * unit
    _across(sketch, start, end, over, wall, key, unit)
    if back:
        under = house - 22 * unit
        sketch.line(start, under, end, under, ink="fill-3", width=2.5 * unit, dash=f"{5 * unit:g} {4 * unit:g}")
        sketch.path([(start + 7 * unit, under - 5 * unit), (start, under), (start + 7 * unit, under + 5 * unit)],
                    ink="fill-3", width=2.5 * unit)  # fmt: skip
    wide = len(length) * small * 0.62 + 8 * unit
    sketch.rect(wall - wide / 2, over - small * 2.1, wide, small * 1.4, fill="paper", line="ink", line_width=unit)
    sketch.text(wall, over - small * 1.1, length, size=small, anchor="middle", bold=True)
    y = house + small * 1.3
    for i, line in enumerate(words):
        sketch.text(2 * unit, y, line, size=small, bold=i == 0, ink="ink")
        y += small * 1.35
    for line in backwards:
        sketch.text(2 * unit, y, line, size=small, ink="soft")
        y += small * 1.35
    return sketch.done(for_card)


def _machine(sketch: Sketch, x: float, house: float, unit: float) -> None:
    sketch.rect(x - 4 * unit, house - 72 * unit, 30 * unit, 58 * unit, fill="fill-2", line="ink", line_width=1.5 * unit)
    for i in range(3):
        y = house - (62 - 9 * i) * unit
        sketch.line(x + 2 * unit, y, x + 20 * unit, y, ink="paper", width=2 * unit)


def _screen(sketch: Sketch, x: float, house: float, unit: float) -> None:
    sketch.rect(
        x - 52 * unit, house - 74 * unit, 60 * unit, 36 * unit, fill="fill-1", line="ink", line_width=1.5 * unit
    )
    sketch.line(x - 22 * unit, house - 38 * unit, x - 22 * unit, house - 18 * unit, ink="ink", width=3 * unit)
    sketch.line(x - 38 * unit, house - 16 * unit, x - 6 * unit, house - 16 * unit, ink="ink", width=3 * unit)


def _across(sketch: Sketch, start: float, end: float, y: float, wall: float, key: str, unit: float) -> None:
    """The way itself: a line through the wall, waves where the air carries it, both where it is half and half."""
    if key in _THROUGH_AIR:
        begin = wall if key == "mixed" else start
        if key == "mixed":
            sketch.line(start, y, wall, y, ink="mark", width=3.5 * unit)
        points, x, up = [], begin, True
        while x < end - 6 * unit:
            points.append((x, y + (-5 if up else 5) * unit))
            x, up = x + 9 * unit, not up
        points.append((end, y))
        sketch.path(points, ink="mark", width=2.5 * unit)
    else:
        sketch.line(start, y, end, y, ink="mark", width=3.5 * unit)
    sketch.path([(end - 8 * unit, y - 6 * unit), (end, y), (end - 8 * unit, y + 6 * unit)], ink="mark", width=3 * unit)
