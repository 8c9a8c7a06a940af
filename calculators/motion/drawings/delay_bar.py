"""The parts of a delay as one bar, with the least and the most that chance can make of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calculators.desk.charts import even_ticks
from calculators.desk.numbers import number
from calculators.desk.svg import SMALL, TEXT, WIDTH, Drawing, Sketch, text_width

# Fills with the ink that reads on them in light and in dark; neighbours differ in lightness, not in hue alone.
_FILLS = (("fill-1", "paper"), ("fill-2", "ink"), ("paper", "ink"))


@dataclass(frozen=True, slots=True)
class Piece:
    """One part of the delay: its name and its length. [ms]"""

    name: str
    ms: float


def delay_bar(pieces: Sequence[Piece], least: float, most: float, description: str) -> Drawing:
    """
    One bar of all parts to scale, numbered as in its key, with a line from the least to the most below it.

    Args:
        pieces: The parts, in their order; those of no length are left out. [list]
        least: The shortest whole. [ms]
        most: The longest whole. [ms]
        description: What there is to see. [text]

    Returns:
        The drawing. [svg]

    Source:
        None: a drawing.

    Example:
        >>> delay_bar([Piece("making the frame", 10)], 5, 15, "One bar.").width
        340
    """
    shown = [p for p in pieces if p.ms > 0]
    total = sum(p.ms for p in shown)
    full = max(most, total, 1e-9)

    def paint(width: float, height: float, size: float, columns: int) -> Sketch:
        small, places = (SMALL, 2) if size == TEXT else (size, 1)  # a card has one size of type, and less room
        rows = -(-len(shown) // columns)
        key = rows * size * 1.55
        scale = size * 1.9 if size == TEXT or key + size * 6.6 <= height else 0.0  # left out where room is short
        rest = key + scale + size * 2.9
        bar = min(max(height - rest, size * 1.8), size * 4)
        sketch = Sketch("From hand to picture, part by part", description, rest + bar, width)
        thin = size / TEXT
        x = 0.0
        for i, piece in enumerate(shown):
            wide = width * piece.ms / full
            fill, ink = _FILLS[i % len(_FILLS)]
            sketch.rect(x, 0, wide, bar, fill=fill, line="ink", line_width=thin)
            mark = str(i + 1)
            if text_width(mark, size, True) + size * 0.3 < wide:
                sketch.text(x + wide / 2, bar / 2 + size * 0.35, mark, size=size, anchor="middle", bold=True, ink=ink)
            x += wide
        y = bar + size * 0.75
        low, high = width * least / full, width * most / full
        sketch.line(low, y, high, y, ink="mark", width=2.5 * thin)
        for at in (low, high):
            at = min(max(at, 1.25 * thin), width - 1.25 * thin)
            sketch.line(at, y - size * 0.4, at, y + size * 0.4, ink="mark", width=2.5 * thin)
        words = f"least {number(least, 1)}, on average {number(total, 1)}, most {number(most, 1)} ms"
        sketch.text(0, y + size * 1.5, words, size=small, ink="mark", bold=True)
        y += size * 1.9
        if scale:
            _scale(sketch, y, width, full, size, small)
        y += scale
        each = width / columns
        for i, piece in enumerate(shown):
            left, top = each * (i % columns), y + (i // columns) * size * 1.55
            fill, ink = _FILLS[i % len(_FILLS)]
            sketch.rect(left, top, size * 1.25, size * 1.25, fill=fill, line="ink", line_width=thin)
            middle = left + size * 0.62
            sketch.text(middle, top + size * 0.97, str(i + 1), size=size, anchor="middle", bold=True, ink=ink)
            sketch.text(left + size * 1.6, top + size, piece.name, size=size)
            end = left + each - (size * 0.6 if i % columns < columns - 1 else 0)
            sketch.text(end, top + size, f"{number(piece.ms, places)} ms", size=size, anchor="end")
        return sketch

    def for_card(width: float, height: float, size: float) -> Drawing:
        values = max([text_width(f"{number(p.ms, 1)} ms", size) for p in shown] or [0.0])
        names = max([text_width(p.name, size) for p in shown] or [0.0])
        columns = max(int((width + size) / (names + values + size * 2.6)), 1)
        return paint(width, height, size, min(columns, 2)).done()

    return paint(WIDTH, 0, TEXT, 1).done(for_card)


def _scale(sketch: Sketch, y: float, width: float, full: float, size: float, small: float) -> None:
    """The line of time below the bar."""
    thin = size / TEXT
    sketch.line(0, y, width, y, ink="soft", width=thin)
    for tick in even_ticks(0, full, 5):
        x = width * tick / full
        anchor = "start" if x < size else "end" if x > width - size * 2 else "middle"
        sketch.line(x, y, x, y + size * 0.3, ink="soft", width=thin)
        sketch.text(x, y + size * 1.25, f"{number(tick, 3)} ms", size=small, anchor=anchor, ink="soft")
