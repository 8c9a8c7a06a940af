"""The steps of a test picture as a screen card shows them: on the right range, and below on the wrong one."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.colour.signals.quantisation_range import LIMITED, shown
from calculators.desk.card_declared import SMALLEST_DRAWN, ScreenDrawing
from calculators.desk.screen_drawings import HAIR, THICK
from calculators.desk.svg import Drawing, Sketch, wrap

_NEAREST, _FURTHEST = 34, 240  # greys of a stand-in for the step nearest its ground and for the furthest one
_TALLEST = 190.0


def screen_steps(codes: Sequence[int], ground: int, *, labels: tuple[str, str], caption: str = "") -> ScreenDrawing:
    """
    The steps as they are meant, and below them, a step of the card later, what the wrong range leaves of them.

    Args:
        codes: The steps' codes. [code], 0 to 255.
        ground: The code around them; they are drawn further from it than they are. -1 for as they are. [code]
        labels: Above the right row, and above the wrong one. [text]
        caption: Says below that they are drawn further from the ground than they are. [text]

    Returns:
        The drawing for a room, or None where it has none. [function]

    Source:
        ITU-R BT.2100-2, table 9, by signals/quantisation_range.py; the stand-ins are a drawing.

    Example:
        >>> drawn = screen_steps((1, 16, 17), 0, labels=("right", "wrong"))(800, 500, 56)
        >>> [box.what for box in drawn.record() if box.what.startswith("gone")]
        ['gone 0', 'gone 1']
    """
    rows = ([float(code) for code in codes], [255 * shown(code, LIMITED, 8) for code in codes])
    gone = gone_of(codes, ground)

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        words = [wrap(label, width, size, True) for label in labels]
        below = wrap(caption, width, size) if caption else []
        most = 1 if size > SMALLEST_DRAWN else 2  # rather smaller words than a label in two lines
        if any(len(lines) > most for lines in (*words, below)):
            return None
        step, air = size * 1.15, size * 0.5
        lines = sum(map(len, words)) + len(below)
        high = min((height - step * lines - air * (1.9 if below else 1.4)) / 2, _TALLEST)
        if high < size * 0.9:
            return None
        total = step * lines + high * 2 + air * (1.9 if below else 1.4)
        sketch = Sketch("steps", "; ".join(labels), total, width)
        each, y = width / len(codes), 0.0
        for row, values in enumerate(rows):
            with sketch.later(row):
                for line in words[row]:
                    sketch.text(0, y + size * 0.86, line, size=size, bold=True, ink="no" if row else "ink")
                    y += step
                y += air * 0.2
                for i, value in enumerate(values):
                    _tile(sketch, i, (i * each, y, each, high), _grey(value, codes, ground), bool(row) and gone[i])
            y += high + air
        for line in below:
            sketch.text(0, y + size * 0.8, line, size=size, ink="soft")
            y += step
        return sketch.done()

    return drawn


def gone_of(codes: Sequence[int], ground: int) -> list[bool]:
    """Which steps the wrong range swallows: those that then look like the ground, or like black or white."""
    values = [shown(code, LIMITED, 8) for code in codes]
    if ground >= 0:
        return [value == ground / 255 for value in values]
    return [value in (0.0, 1.0) and 0 < code < 255 for value, code in zip(values, codes, strict=True)]


def _tile(sketch: Sketch, i: int, room: tuple[float, float, float, float], grey: int, gone: bool) -> None:
    """One step; one that is gone is struck out in the colour of what is lost."""
    x, y, wide, high = room
    side = wide - 6
    sketch.rect(x, y, side, high, fill=f"#{grey:02x}{grey:02x}{grey:02x}", what=f"{'gone' if gone else 'step'} {i}")
    line = THICK if gone else HAIR / 2
    sketch.rect(
        x + line / 2, y + line / 2, side - line, high - line, fill="none", line="no" if gone else "line",
        line_width=line,
    )  # fmt: skip
    if gone:
        sketch.line(x + line, y + high - line, x + side - line, y + line, ink="no", width=line)


def _grey(value: float, codes: Sequence[int], ground: int) -> int:
    """The grey for a code: further from the ground, in the same order; the ground itself stays."""
    if ground < 0:
        return round(value)
    distances = [abs(code - ground) for code in codes]
    near, far, own = min(distances), max(distances), abs(value - ground)
    lifted = 0 if own < 1e-9 else _NEAREST + (_FURTHEST - _NEAREST) * max(own - near, 0) / max(far - near, 1)
    return round(lifted if ground == 0 else 255 - lifted)
