"""Sound and lips on a line of time, for a screen card: what comes first stands at the left, as one reads."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calculators.desk.card_declared import ScreenDrawing
from calculators.desk.numbers import number
from calculators.desk.screen_drawings.marks import HAIR, THICK
from calculators.desk.svg import Drawing, Sketch, text_width, wrap

_GOOD = 56.0  # of type
EARLY, LATE = "sound early", "sound late"  # where there is no room for how much


@dataclass(frozen=True, slots=True)
class Offset:
    """The viewer's own sound, positive where it is early [ms], and what is said of it."""

    low_ms: float
    high_ms: float
    label: str


def screen_timeline(own: Offset, borne: tuple[float, float], most_ms: float) -> ScreenDrawing:
    """
    Time from left to right: the lips in the middle, about them what is hardly noticed, and the viewer's own sound.

    Args:
        own: The viewer's own. [object]
        borne: How late and how early a sound is hardly noticed, both from 0 up. [ms]
        most_ms: How far the line reaches either way. [ms], above 0.

    Returns:
        The drawing for a room, or None where it has none. [function]

    Source:
        None: a drawing.

    Example:
        >>> drawn = screen_timeline(Offset(91, 91, "sound: 91 ms early"), (125, 45), 200)(900, 560, 56)
        >>> place = {box.what: box.left for box in drawn.record()}
        >>> place["own"] < place["lips move"]
        True
    """
    late, early = borne

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        label = wrap(own.label, width, size, True)
        lips, step = "lips move", size * 1.15
        arrow = size * 0.5
        end = width - arrow
        told = f"sound {number(most_ms, 0)} ms early", f"{number(most_ms, 0)} ms late"
        ends = next((each for each in (told, (EARLY, LATE)) if _apart(each, width, size)), None)
        smaller = size > _GOOD and ends != told and _apart(told, width, _GOOD)  # rather smaller words than no numbers
        if len(label) > 2 or ends is None or smaller:
            return None

        def at(early_ms: float) -> float:
            return end / 2 - min(max(early_ms / most_ms, -1), 1) * end / 2

        head = step * (len(label) + 1) + size * 0.55
        foot = step * 2 + size * 0.3
        band = min(height - head - foot, 190.0)
        if band < size * 1.3:
            return None
        low = head + band
        sketch = Sketch("timeline", f"{lips}; {own.label}", low + foot, width)
        sketch.rect(0, head, end, band, fill="fill-4")
        sketch.rect(at(early), head, at(-late) - at(early), band, fill="fill-2", what="hardly noticed")
        _time(sketch, low, width, arrow)
        middle = at(0)
        _named(sketch, [lips], middle, (width, step * len(label), size), "ink")
        sketch.line(middle, step * (len(label) + 1) + size * 0.1, middle, low, ink="ink", width=THICK)
        sketch.note(lips, middle, head, middle, low, "ink")
        sketch.text(0, low + step + size * 0.1, ends[0], size=size, ink="soft")
        sketch.text(width, low + step + size * 0.1, ends[1], size=size, ink="soft", anchor="end")
        key = low + step * 1.35 + size * 0.1
        sketch.rect(0, key, size * 0.8, size * 0.8, fill="fill-2")
        sketch.text(size * 1.15, key + size * 0.74, "hardly noticed", size=size)
        with sketch.later():
            first, last = at(own.high_ms), at(own.low_ms)
            wide = max(last - first, THICK * 2.4)
            where = (first + last) / 2
            _named(sketch, label, where, (width, 0, size), "mark", bold=True)
            top = step * len(label) + size * 0.1
            if abs(where - middle) < text_width(lips, size) / 2 + size * 0.4:  # not through the words below it
                top = head
            sketch.line(where, top, where, head, ink="mark", width=THICK * 1.6)
            begin = min(max(where - wide / 2, 0), end - wide)  # all of it stands on the line, at its ends too
            sketch.rect(begin, head, wide, band, fill="mark", what="own")
            if first - THICK < middle < last + THICK:
                sketch.line(middle, head, middle, low, ink="paper", width=HAIR)
        return sketch.done()

    return drawn


def _apart(ends: tuple[str, str], width: float, size: float) -> bool:
    """Whether the words at both ends are not read as one line."""
    return text_width(ends[0], size) + text_width(ends[1], size) + size * 1.5 <= width


def _time(sketch: Sketch, y: float, width: float, arrow: float) -> None:
    """The line of time, its arrow at the right."""
    sketch.line(0, y, width - HAIR, y, ink="ink", width=THICK)
    sketch.path([(width - arrow, y - arrow * 0.8), (width - HAIR, y), (width - arrow, y + arrow * 0.8)], width=THICK)


def _named(
    sketch: Sketch, lines: Sequence[str], x: float, room: tuple[float, float, float], ink: str, *, bold: bool = False
) -> None:  # fmt: skip
    """Words about a place, inside the width. room: the width, the height at which they begin, the size of type."""
    width, top, size = room
    for i, line in enumerate(lines):
        half = text_width(line, size, bold) / 2
        middle = min(max(x, half), width - half)
        base = top + size * (0.9 + 1.15 * i)
        sketch.text(middle, base, line, size=size, ink=ink, bold=bold, anchor="middle")
