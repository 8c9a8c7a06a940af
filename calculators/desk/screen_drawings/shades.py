"""Shades and edges as they are seen on a display."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.desk.card_declared import ScreenDrawing
from calculators.desk.screen_drawings.marks import HAIR
from calculators.desk.svg import Drawing, Sketch, steps_of


def screen_ramps(rows: Sequence[tuple[str, Sequence[float], Sequence[str]]]) -> ScreenDrawing:
    """Ramps of grey one below the other: (label, greys from 0 to 1, words at the ends)."""

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        pitch = height / max(len(rows), 1)
        high = min(pitch - size * 2.9, 210.0)
        if not rows or high < size * 0.8:
            return None
        sketch = Sketch("ramps", "; ".join(row[0] for row in rows), pitch * len(rows), width)
        steps = steps_of([None] * len(rows), [False] * len(rows))
        for i, (label, greys, words) in enumerate(rows):
            y = pitch * i
            sketch.text(0, y + size * 0.86, label, size=size, bold=True)
            sketch.rect(2, y + size * 1.2, width - 4, high, fill="none", line="ink", line_width=HAIR)
            with sketch.later(steps[i]):
                _ramp(sketch, greys, words, (y + size * 1.2, width, high, size))
        return sketch.done()

    return drawn


def _ramp(
    sketch: Sketch, greys: Sequence[float], words: Sequence[str], room: tuple[float, float, float, float]
) -> None:
    """One ramp and the words at its ends. room: its top, width and height, and the size of type."""
    top, width, high, size = room
    each = width / len(greys)
    for j, grey in enumerate(greys):
        level = round(min(max(grey, 0), 1) * 255)
        sketch.rect(j * each, top, each + 0.5, high, fill=f"#{level:02x}{level:02x}{level:02x}")
    sketch.rect(2, top, width - 4, high, fill="none", line="ink", line_width=HAIR)
    for text, anchor, x in ((words[0], "start", 0.0), (words[-1], "end", width)):
        if text:
            sketch.text(x, top + high + size, text, size=size, ink="no", anchor=anchor)


def screen_stripes() -> ScreenDrawing:
    """Fine coloured lines, each pixel with its own colour, and the same where neighbours share one."""
    kinds = (("each pixel its own colour", ("#c03028", "#2848b0")), ("colour shared by four", ("#7a3c6c",)))

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        pitch, each = height / 2, 18.0
        high = min(pitch - size * 1.8, 210.0)
        if high < 60:
            return None
        sketch = Sketch("stripes", "; ".join(kind[0] for kind in kinds), pitch * 2, width)
        for i, (label, inks) in enumerate(kinds):
            sketch.text(0, pitch * i + size * 0.86, label, size=size, bold=True)
            with sketch.later(i):
                for j in range(int(width // each)):
                    sketch.rect(j * each, pitch * i + size * 1.25, each, high, fill=inks[j % len(inks)])
        return sketch.done()

    return drawn


def screen_edges() -> ScreenDrawing:
    """A picture with a frame on its outermost pixels, all four sides in sight."""

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        high = min(height - size * 1.6, width * 9 / 16)
        if high < 120:
            return None
        wide = high * 16 / 9
        sketch = Sketch("edges", "a frame on the outermost pixels", high + size * 1.5, width)
        sketch.rect(0, 0, wide, high, fill="fill-4", what="picture")
        with sketch.later():
            sketch.rect(7, 7, wide - 14, high - 14, fill="none", line="mark", line_width=14, what="frame")
        for i, step in enumerate((10.0, 20.0, 40.0)):
            x, side = wide * (0.12 + 0.28 * i), wide * 0.2
            for j in range(0, int(side // step), 2):
                sketch.rect(x + j * step, high * 0.25, step, high * 0.5, fill="ink")
        with sketch.later():
            sketch.text(0, high + size * 1.1, "all four sides in sight", size=size, bold=True, ink="mark")
        return sketch.done()

    return drawn
