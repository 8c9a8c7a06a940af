"""Bars and levels for the screen: against one need, some not told yet, or below words. Knows no subject's figures."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calculators.desk.card_declared import ScreenDrawing
from calculators.desk.screen_drawings.bars import LEFT
from calculators.desk.screen_drawings.marks import HAIR, SMALL, THICK, Pin, Row
from calculators.desk.svg import Drawing, Sketch, steps_of, text_width

_THICKEST, _THINNEST = 92.0, 24.0
_LEAST_OF_TYPE = 0.5  # a bar is at least half as thick as its words are high, but for the smallest words
_HALO = 4.0  # of paper about the need's line, so that it is seen on a dark bar too
_DASH = "18 14"


@dataclass(frozen=True, slots=True)
class _Room:
    """Where one drawing has its bars: the height of a row, of a bar, of what stands below them."""

    width: float
    size: float
    pitch: float
    thick: float
    foot: float

    @property
    def across(self) -> float:
        """How long the longest bar is."""
        return self.width - LEFT - HAIR


def untold(label: str) -> Row:
    """A row of which nothing is told yet: an empty outline and a question mark, never a number."""
    return Row(label, math.nan, "?", step=0)


def bars_against(rows: Sequence[Row], *, limit: Pin | None = None) -> ScreenDrawing:
    """
    Bars from one zero to one scale, the whole width long; those of untold() are empty outlines.

    limit: what all of them are measured by: one line through every bar, its words below them.
    """
    told = [row.value for row in rows if math.isfinite(row.value)]
    top = max([*told, limit.value if limit else 0.0, 1e-12])
    steps = steps_of([row.step for row in rows], [row.mark for row in rows])

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        lines = _lines(limit.label, width, size) if limit else []
        foot = size * (0.5 + 1.15 * len(lines)) if lines else 0.0
        pitch = (height - foot) / max(len(rows), 1)
        thick = min(pitch - size * 1.7, _THICKEST)
        if not rows or any(text_width(line, size) > width for line in lines):
            return None
        if thick < max(_THINNEST, size * _LEAST_OF_TYPE if size > SMALL else 0):
            return None
        widths = [text_width(r.label, size, r.mark) + text_width(r.text, size, True) for r in rows]
        if max(widths) + size * 0.6 > width - LEFT:
            return None
        room = _Room(width, size, min(pitch, thick + size * 2.2), thick, foot)
        low = room.pitch * len(rows) - size * 0.4  # no air below the last bar
        said = "; ".join(f"{r.label}: {r.text}" for r in rows) + (f"; {limit.label}" if limit else "")
        sketch = Sketch("bars", said, low + foot, width)
        for i, row in enumerate(rows):
            _bar(sketch, row, room.pitch * i, room, (top, steps[i]))
        sketch.line(THICK / 2, 0, THICK / 2, low, ink="ink", width=THICK)
        if limit:
            with sketch.later(limit.step or 0):
                _need(sketch, limit, lines, (LEFT + room.across * limit.value / top, low, len(rows)), room)
        return sketch.done()

    return drawn


def _lines(label: str, width: float, size: float) -> list[str]:
    """The need's words in one line, or in two that part where they have a comma or a colon, not within a number."""
    at = max(label.rfind(mark) for mark in (", ", ": ")) + 1
    return [label] if text_width(label, size) <= width or not at else [label[:at], label[at + 1 :]]


def _bar(sketch: Sketch, row: Row, y: float, room: _Room, of: tuple[float, int]) -> None:
    """One row: its label and its text, and below them the bar. of: the scale's end and the card's step."""
    (top, step), size = of, room.size
    ink = "mark" if row.mark else "ink"
    base, high = y + size * 0.86, y + size * 1.2
    sketch.text(LEFT, base, row.label, size=size, ink=ink, bold=row.mark)
    with sketch.later(step):
        sketch.text(room.width, base, row.text, size=size, ink=ink, bold=True, anchor="end")
        if not math.isfinite(row.value):
            sketch.rect(
                LEFT, high, room.across, room.thick, fill="none", line="ink", line_width=HAIR, dash=_DASH,
                what=f"untold {row.label}",
            )  # fmt: skip
            return
        start, end = (room.across * max(each, 0) / top for each in (row.low, row.value))
        fill = row.fill or ("mark" if row.mark else "fill-2")
        sketch.rect(LEFT + start, high, max(end - start, HAIR), room.thick, fill=fill, what=f"bar {row.label}")


def _need(sketch: Sketch, limit: Pin, lines: Sequence[str], at: tuple[float, float, int], room: _Room) -> None:
    """The line through every bar, and its words below them. at: its place, the last bar's end, how many bars."""
    (x, low, count), size = at, room.size
    for i in range(count):
        top = room.pitch * i + size * 1.2
        sketch.line(x, top, x, top + room.thick, ink="paper", width=THICK + _HALO)
        sketch.line(x, top - size * 0.06, x, top + room.thick + size * 0.12, ink="ink", width=THICK)
    sketch.line(x, low - size * 0.06, x, low + size * 0.42, ink="ink", width=THICK)
    sketch.note(f"need {limit.label}", LEFT, low, x, low + size * 0.3, "ink")
    wide = max(text_width(line, size) for line in lines)
    left = min(max(x - wide / 2, 0), room.width - wide)
    for j, line in enumerate(lines):
        sketch.text(left, low + size * (1.3 + 1.15 * j), line, size=size, ink="ink")


def levels_below(said: str, rows: Sequence[tuple[str, int]], most: int, ends: tuple[str, str]) -> ScreenDrawing:
    """For a side panel: what the answer says, and below it rows of so many fields, filled up to a level."""

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        large = next(
            (size * share for share in (1.6, 1.4, 1.2, 1.0) if text_width(said, size * share, True) <= width), 0
        )
        head, row = large * 1.3 + size * 1.2, min((height - large * 1.3 - size * 1.2) / max(len(rows), 1), size * 1.7)
        labels = max((text_width(label, size) for label, _ in rows), default=0) + size * 0.4
        each = (width - labels) / most
        if not large or row < size * 1.1 or each < size * 0.6:
            return None
        told = "; ".join(f"{label}: {level} of {most}" for label, level in rows)
        sketch = Sketch("levels", f"{said}; {told}", head + row * len(rows), width)
        with sketch.later():
            sketch.text(0, large * 0.92, said, size=large, bold=True)
        base = large * 1.3 + size * 0.82
        if text_width("".join(ends), size) + size * 0.4 <= width - labels:
            sketch.text(labels, base, ends[0], size=size, ink="soft")
        sketch.text(width, base, ends[1], size=size, ink="soft", anchor="end")
        for i, (label, level) in enumerate(rows):
            y = head + row * i
            sketch.text(0, y + row / 2 + size * 0.34, label, size=size)
            for j in range(most):
                room = labels + each * j, y + row * 0.16, each - 8, row * 0.68
                sketch.rect(*room, fill="fill-4", what=f"{label} {j}")
                if j < level:
                    with sketch.later():
                        sketch.rect(*room, fill="mark" if level == most else "fill-2")
        return sketch.done()

    return drawn
