"""The steps of a test picture as a screen card shows them: on the right range, and below on the wrong one."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.colour.signals.quantisation_range import LIMITED, shown
from calculators.desk.card_declared import SMALLEST_DRAWN, ScreenDrawing
from calculators.desk.screen_drawings.marks import HAIR, THICK
from calculators.desk.svg import Drawing, Sketch, wrap

_NEAREST, _FURTHEST = 34, 240  # greys of a stand-in for the step nearest its ground and for the furthest one
_VEIL, _VEILED = 96, 124  # of the lifted ground and of the step nearest it
_TALLEST = 190.0
_EDGE = 10.0  # of the ground round its steps


def screen_steps(
    codes: Sequence[int], ground: int, *, labels: tuple[str, ...], caption: str = ""
) -> ScreenDrawing:  # fmt: skip
    """
    The steps as they are meant, and below them, a step of the card later, what the wrong range leaves of them.

    Args:
        codes: The steps' codes. [code], 0 to 255.
        ground: The code around them; they are drawn further from it than they are. -1 for as they are. [code]
        labels: Above the right row, above the wrong one, and above that of the opposite error, on which every step
            shows and the ground is grey; two or three. [text]
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
    meant, cut = [float(code) for code in codes], [255 * shown(code, LIMITED, 8) for code in codes]
    gone = gone_of(codes, ground)
    rows = [([_grey(v, codes, ground) for v in meant], ground), ([_grey(v, codes, ground) for v in cut], ground)]
    rows.append(_veiled(len(codes), ground))

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        words = [wrap(label, width, size, True) for label in labels]
        below = wrap(caption, width, size) if caption else []
        most = 1 if size > SMALLEST_DRAWN else 2  # rather smaller words than a label in two lines
        if any(len(lines) > most for lines in (*words, below)):
            return None
        step, air = size * 1.15, size * 0.5
        lines, count = sum(map(len, words)) + len(below), len(labels)
        around = air * ((count - 1) + 0.2 * count + (0.5 if below else 0))
        high = min((height - step * lines - around) / count, _TALLEST)
        if high < size * 0.9:
            return None
        total = step * lines + high * count + around
        sketch = Sketch("steps", "; ".join(labels), total, width)
        edge = _EDGE if ground >= 0 else 0.0
        each, y = (width - edge * 2) / len(codes), 0.0
        for row, (values, behind) in enumerate(rows[:count]):
            with sketch.later(min(row, 1)):
                for line in words[row]:
                    sketch.text(0, y + size * 0.86, line, size=size, bold=True, ink="no" if row else "ink")
                    y += step
                y += air * 0.2
                if behind >= 0:
                    sketch.rect(0, y, width, high, fill=_hex(behind), what=f"ground {row}")
                    frame = 0, y + HAIR / 4, width, high - HAIR / 2
                    sketch.rect(*frame, fill="none", line="line", line_width=HAIR / 2)
                for i, value in enumerate(values):
                    room = edge + i * each + 3, y + edge, each - 6, high - edge * 2
                    _tile(sketch, i, room, value, row == 1 and gone[i])
            y += high + air
        y -= air * 0.5
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
    x, y, side, high = room
    sketch.rect(x, y, side, high, fill=_hex(grey), what=f"{'gone' if gone else 'step'} {i}")
    if gone:
        line = THICK
        sketch.rect(x + line / 2, y + line / 2, side - line, high - line, fill="none", line="no", line_width=line)
        sketch.line(x + line, y + high - line, x + side - line, y + line, ink="no", width=line)


def _hex(grey: int) -> str:
    return f"#{grey:02x}{grey:02x}{grey:02x}"


def _grey(value: float, codes: Sequence[int], ground: int) -> int:
    """The grey for a code: in the same order, evenly further from the ground than it is; the ground itself stays."""
    if ground < 0:
        return round(value)
    distances = sorted(abs(code - ground) for code in codes)
    own, last = abs(value - ground), len(distances) - 1
    below = sum(each <= own for each in distances) - 1
    if own < 1e-9:
        lifted = 0.0
    elif below < 0:
        lifted = float(_NEAREST)
    else:
        rest = 0.0 if below == last else (own - distances[below]) / (distances[below + 1] - distances[below])
        lifted = _NEAREST + (_FURTHEST - _NEAREST) * (below + rest) / last
    return round(lifted if ground == 0 else 255 - lifted)


def _veiled(count: int, ground: int) -> tuple[list[int], int]:
    """Greys of so many steps and of their ground where limited range is sent and full expected: all is lifted."""
    lifted = [_VEILED + (_FURTHEST - _VEILED) * i / max(count - 1, 1) for i in range(count)]
    return [round(each if ground == 0 else 255 - each) for each in lifted], _VEIL if ground == 0 else 255 - _VEIL
