"""Things one below or beside the other, by their order or height: what falls, rungs, levels, columns."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from calculators.desk.card_declared import ScreenDrawing
from calculators.desk.screen_drawings.bars import screen_bars
from calculators.desk.screen_drawings.marks import HAIR, THICK, Row
from calculators.desk.screen_drawings.names import evenly
from calculators.desk.svg import ABOVE, Drawing, Sketch, text_width, wrap


def screen_fall(parts: Sequence[tuple[str, float, str]], *, mark: int = -1) -> ScreenDrawing:
    """Spans that follow each other, each row beginning where the one above ended."""
    rows, at = [], 0.0
    for i, (label, span, text) in enumerate(parts):
        rows.append(Row(label, at + span, text, i == mark, at))
        at += span
    return screen_bars(rows)


def screen_ladder(rungs: Sequence[str], at: int) -> ScreenDrawing:
    """Stages one below the other on a line; all up to one of them are taken, and that one is marked."""

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        if not rungs:
            return None
        pitch = min(height / len(rungs), 170.0)
        radius = min(pitch * 0.34, 44.0)
        if pitch < size * 1.25:
            return None
        sketch = Sketch("stages", "; ".join(rungs), pitch * len(rungs), width)
        x = radius + HAIR
        sketch.line(x, pitch * 0.5, x, pitch * (len(rungs) - 0.5), ink="line", width=THICK * 1.5)
        for i in range(len(rungs)):
            sketch.circle(x, pitch * (i + 0.5), radius * 0.72, fill="paper", line="line", line_width=THICK)
        with sketch.later():  # how far it goes is the answer
            sketch.line(x, pitch * 0.5, x, pitch * (max(at, 0) + 0.5), ink="mark", width=THICK * 1.5)
            for i in range(at + 1):
                side = radius if i == at else radius * 0.72
                sketch.circle(x, pitch * (i + 0.5), side, fill="mark", line="mark", line_width=THICK)
        for i, rung in enumerate(rungs):
            y = pitch * (i + 0.5)
            room = width - x - radius - size * 0.6
            lines = wrap(rung, room, size)
            lines = evenly(rung, len(lines), room, size) or lines
            if len(lines) * size * 1.15 > pitch:
                return None
            for j, line in enumerate(lines):
                base = y + size * ABOVE / 2 + (j - (len(lines) - 1) / 2) * size * 1.15
                sketch.text(x + radius + size * 0.6, base, line, size=size)  # the dot alone tells how far
        return sketch.done()

    return drawn


def screen_levels(rows: Sequence[tuple[str, int]], most: int, ends: tuple[str, str]) -> ScreenDrawing:
    """Rows of so many fields each, filled up to a level; what none and all of them mean stands above."""

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        head = size * 1.3
        pitch = min((height - head) / max(len(rows), 1), 130.0)
        if not rows or pitch < size * 1.12:
            return None
        labels = max(text_width(label, size, True) for label, _ in rows) + size * 0.6
        each = (width - labels) / most
        if each < size:
            return None
        sketch = Sketch(
            "levels", "; ".join(f"{label}: {level} of {most}" for label, level in rows), head + pitch * len(rows), width
        )
        sketch.text(labels, size * 0.86, ends[0], size=size, ink="soft")
        sketch.text(width, size * 0.86, ends[1], size=size, ink="soft", anchor="end")
        for i, (label, level) in enumerate(rows):
            y, full = head + pitch * i, level == most
            sketch.text(0, y + pitch / 2 + size * 0.34, label, size=size)
            for j in range(most):
                room = labels + each * j, y + pitch * 0.16, each - 10, pitch * 0.68
                sketch.rect(*room, fill="fill-4", what=f"{label} {j}")
                if j < level:  # how much is the answer
                    with sketch.later():
                        sketch.rect(*room, fill="mark" if full else "fill-2")
        return sketch.done()

    return drawn


def screen_columns(
    heights: Sequence[float], *, marked: Callable[[int], bool], ends: tuple[str, str], label: str, title: str = "",
    own: tuple[int, str] | None = None,
) -> ScreenDrawing:  # fmt: skip
    """
    Columns side by side over one foot, some of them marked; the ends of the foot and the marked ones are named.

    title: what the columns are. own: the viewer's own column and its words; it stands on the foot from the first step
    on, and an end that it would touch gives way.
    """

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        if not heights or len(heights) > 101:
            return None
        head = size * (2.8 if title else 1.5)
        tall = height - size * 1.4 - head
        if tall < size * 2 or text_width(title, size) > width or text_width(label, size, True) > width:
            return None
        top = max(*heights, 1e-12)
        sketch = Sketch("columns", f"{label}; from {ends[0]} to {ends[1]}", height, width)
        each = width / len(heights)
        foot = head + tall
        gap = min(each * 0.18, 8.0)
        for i, share in enumerate(heights):
            high = tall * share / top
            room = i * each + gap / 2, foot - max(high, 3), each - gap, max(high, 3)
            with sketch.later(int(marked(i))):
                sketch.rect(*room, fill="mark" if marked(i) else "fill-2", what=f"column {i}")
        sketch.line(0, foot, width, foot, ink="ink", width=THICK)
        begin, end = text_width(ends[0], size), width - text_width(ends[1], size)
        if own:
            wide, at = text_width(own[1], size, True), each * (own[0] + 0.5)
            left = min(max(at - wide / 2, 0), width - wide)
            sketch.line(at, foot, at, foot + size * 0.34, ink="mark", width=THICK * 1.5)
            sketch.text(left, foot + size * 1.25, own[1], size=size, bold=True, ink="mark")
            begin, end = (begin if begin + size * 0.4 < left else -1), (end if left + wide + size * 0.4 < end else -1)
        if begin >= 0:
            sketch.text(0, foot + size * 1.25, ends[0], size=size, ink="soft")
        if end >= 0:
            sketch.text(width, foot + size * 1.25, ends[1], size=size, ink="soft", anchor="end")
        if title:
            sketch.text(0, size * 0.86, title, size=size, ink="ink")
        with sketch.later():
            sketch.text(width, head - size * 0.64, label, size=size, bold=True, ink="mark", anchor="end")
        return sketch.done()

    return drawn
