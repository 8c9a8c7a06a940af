"""Bars from one line, their names before them, or above them in a narrow room."""

from __future__ import annotations

import math
from collections.abc import Sequence

from calculators.desk.card_declared import SMALLEST_DRAWN, ScreenDrawing
from calculators.desk.screen_drawings.marks import HAIR, SMALL, THICK, Pin, Row
from calculators.desk.screen_drawings.names import evenly
from calculators.desk.svg import ABOVE, Drawing, Sketch, steps_of, text_width

LEFT = 24.0  # from the line on which bars begin to their words


def screen_bars(rows: Sequence[Row], *, limit: Pin | None = None) -> ScreenDrawing:
    """Bars from one zero to one scale, each below its label and its value."""
    rows = [row for row in rows if math.isfinite(row.value)]
    top = max([row.value for row in rows] + ([limit.value] if limit else []) + [1e-12])
    steps = _row_steps(rows)

    def roomy(width: float, height: float, size: float) -> Drawing | None:
        if not rows:
            return None
        head = size * 1.5 if limit else 0.0
        left = LEFT
        pitch = (height - head) / len(rows)
        thick = min(pitch - size * 1.2 - size * 0.5, 92.0)
        if thick < max(24, size * 0.5 if size > SMALL else 0):  # rather smaller words than a bar like a line
            return None
        pitch = min(pitch, thick + size * 2.2)
        total = head + pitch * len(rows) - size * 0.4  # no air below the last bar
        sketch = Sketch("bars", "; ".join(f"{r.label}: {r.text}" for r in rows), total, width)
        room = width - left - HAIR
        for i, row in enumerate(rows):
            y = head + pitch * i
            if text_width(row.label, size, row.mark) + text_width(row.text, size, True) + size * 0.6 > width - left:
                return None
            ink = "mark" if row.mark else "ink"
            base = y + size * 0.86
            sketch.text(left, base, row.label, size=size, ink=ink, bold=row.mark)
            start, end = room * max(row.low, 0) / top, room * max(row.value, 0) / top
            high, wide = y + size * 1.2, max(end - start, HAIR)
            with sketch.later(steps[i]):
                sketch.text(width, base, row.text, size=size, ink=ink, bold=True, anchor="end")
                sketch.rect(left + start, high, wide, thick, fill=_fill(row), what=f"bar {row.label}")
        sketch.line(THICK / 2, head, THICK / 2, total, ink="ink", width=THICK)
        if limit:
            x = left + room * limit.value / top
            wide = text_width(limit.label, size)
            if wide > width:
                return None
            at = min(max(x - wide / 2, 0), width - wide)
            sketch.text(at, size * 0.86, limit.label, size=size, ink="ink")
            tops = [head + pitch * i + size * 1.2 for i in range(len(rows))]  # through the bars, and through no words
            for a, b in ((size * 1.15, head), *((y - 8, y + thick + 8) for y in tops)):
                sketch.line(x, a, x, b, ink="ink", width=THICK)
        return sketch.done()

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        made = roomy(width, height, size)
        if made or limit or roomy(width, height, SMALLEST_DRAWN):  # rather smaller words than shorter bars
            return made
        return _bars_narrow(rows, top, width, height, size)

    return drawn


def _fill(row: Row) -> str:
    return row.fill or ("mark" if row.mark else "fill-2")


def _row_steps(rows: Sequence[Row]) -> list[int]:
    return steps_of([row.step for row in rows], [row.mark for row in rows])


def _bars_narrow(rows: Sequence[Row], top: float, width: float, height: float, size: float) -> Drawing | None:
    """Bars for a narrow or a low room: each label alone above its bar, in two lines if need be, its value behind it."""
    left, gap = LEFT, size * 0.35
    room = width - left - max((text_width(row.text, size, True) for row in rows), default=0.0) - gap
    ways = [[evenly(row.label, count, width - left, size, row.mark) for count in (1, 2)] for row in rows]
    labels = [fitting for way in ways if (fitting := way[0] or way[1])]
    count = sum(map(len, labels))
    if not rows or room < width * 0.3 or len(labels) < len(rows):
        return None
    step, between = size * 1.1, size * 0.42
    foot = size * 0.2  # of the last value, below its bar
    thick = min((height - step * count - between * (len(rows) - 1) - foot) / len(rows) - size * 0.1, 76.0)
    if thick < size * 0.8:  # the value stands beside its bar, and must not be much higher
        return None
    total = step * count + (thick + size * 0.1) * len(rows) + between * (len(rows) - 1) + foot
    sketch = Sketch("bars", "; ".join(f"{r.label}: {r.text}" for r in rows), total, width)
    y = 0.0
    for row, lines, stage in zip(rows, labels, _row_steps(rows), strict=True):
        ink = "mark" if row.mark else "ink"
        for line in lines:
            sketch.text(left, y + size * 0.82, line, size=size, ink=ink, bold=row.mark)
            y += step
        y += size * 0.1
        start, end = room * max(row.low, 0) / top, room * max(row.value, 0) / top
        base = y + thick / 2 + size * ABOVE / 2
        with sketch.later(stage):
            sketch.rect(left + start, y, max(end - start, HAIR), thick, fill=_fill(row), what=f"bar {row.label}")
            sketch.text(left + max(end, HAIR) + gap, base, row.text, size=size, ink=ink, bold=True)
        y += thick + between
    sketch.line(THICK / 2, 0, THICK / 2, total - foot, ink="ink", width=THICK)
    return sketch.done()
