"""The drawing of picture and sound against the three yardsticks: bands over one axis of early and late."""

from __future__ import annotations

from collections.abc import Callable

from calculators.desk.numbers import number
from calculators.desk.svg import SMALL, TEXT, WIDTH, Drawing, Sketch, text_width
from calculators.rooms.lipsync.sync_tolerances import ACCEPTABLE, ATSC, DETECTABLE, EBU

_BANDS = (
    (ACCEPTABLE, "Put up with", "fill-4"),
    (DETECTABLE, "Not noticed", "fill-2"),
    (EBU, "EBU R37, chain", "fill-3"),
    (ATSC, "ATSC IS-191, chain", "fill-3"),
)
_LEAST_MS, _MOST_MS = -250.0, 150.0


def draw(title: str, description: str, low_ms: float, high_ms: float, own: str) -> Drawing:
    """
    The bands with the viewer's own offset across them.

    Args:
        title: What it shows. [text]
        description: What there is to see. [text]
        low_ms: The lesser end of the offset, positive where the sound is early. [ms]
        high_ms: The greater end. [ms]
        own: The offset in words. [text]

    Returns:
        The drawing. [svg]

    Raises:
        Nothing.

    Source:
        None: a drawing.

    Example:
        >>> draw("a", "b", 10, 10, "10 ms early").width
        340
    """

    def for_card(width: float, height: float, size: float) -> Drawing:
        return _drawn(title, description, low_ms, high_ms, own, width, height, size, size)

    return _drawn(title, description, low_ms, high_ms, own, WIDTH, 0, TEXT, SMALL, for_card)


def _drawn(
    title: str, description: str, low_ms: float, high_ms: float, own: str,
    width: float, height: float, size: float, small: float,
    for_card: Callable[[float, float, float], Drawing] | None = None,
) -> Drawing:  # fmt: skip
    row, head = size * 2.7, size * 1.6
    needed = head + row * len(_BANDS) + size * 1.8
    if height > needed:
        row = min(row + (height - needed) / len(_BANDS), size * 3.6)
    needed = head + row * len(_BANDS) + size * 1.8
    sketch = Sketch(title, description, needed, width)
    least, most = min(_LEAST_MS, low_ms * 1.05), max(_MOST_MS, high_ms * 1.05)

    def across(ms: float) -> float:
        return 2 + (width - 4) * (ms - least) / (most - least)

    line = size / TEXT
    y = head
    for band, name, fill in _BANDS:
        sketch.text(2, y + size, name, size=small)
        sketch.text(width - 2, y + size, band.say(), size=small, anchor="end")
        top = y + size * 1.3
        sketch.rect(across(-band.late_ms), top, across(band.early_ms) - across(-band.late_ms), row - size * 1.6,
                    fill=fill)  # fmt: skip
        y += row
    sketch.line(2, y, width - 2, y, ink="ink", width=1.2 * line)
    for ms, name in ((0.0, "in step"), (least, "sound late"), (most, "sound early")):
        x = across(ms)
        anchor = {0.0: "middle", least: "start", most: "end"}[ms]
        sketch.line(x, y, x, y + 4 * line, ink="ink", width=1.2 * line)
        sketch.text(x, y + size * 1.3, name, size=small, anchor=anchor, ink="soft")
    start, end = across(low_ms), across(high_ms)
    for band_row in range(len(_BANDS)):  # beside the words of each band, not through them
        top = head + row * band_row + size * 1.2
        if end - start < 3 * line:
            sketch.rect(start - 1.5 * line, top, 3 * line, row - size * 1.4, fill="mark")
        else:
            sketch.rect(start, top + size * 0.1, end - start, row - size * 1.6, fill="none", line="mark",
                        line_width=2.5 * line, dash=f"{5 * line:g} {4 * line:g}")  # fmt: skip
    wide = text_width(own, size, True)
    at = min(max((start + end) / 2, wide / 2 + 2), width - wide / 2 - 2)
    sketch.text(at, size * 1.05, own, size=size, anchor="middle", ink="mark", bold=True)
    return sketch.done(for_card)


def say_offset(low_ms: float, high_ms: float, places: int = 1) -> str:
    """
    An offset in words.

    Args:
        low_ms: The lesser end, positive where the sound is early. [ms]
        high_ms: The greater end. [ms]
        places: Most digits after the point. [1]

    Returns:
        Such as '111 ms early', 'in step' or '20 ms late to 100 ms early'. [text]

    Raises:
        Nothing.

    Source:
        None: wording.

    Example:
        >>> say_offset(111.26, 111.26), say_offset(-20, 100)
        ('111.3 ms early', '20 ms late to 100 ms early')
    """
    first, last = (number(abs(ms), places) for ms in (low_ms, high_ms))
    sides = ["late" if ms < 0 else "early" for ms in (low_ms, high_ms)]
    if first == last and (sides[0] == sides[1] or first == "0"):
        return "in step" if first == "0" else f"{first} ms {sides[0]}"
    if sides[0] == sides[1]:
        first, last = (first, last) if sides[0] == "early" else (last, first)
        return f"{first} to {last} ms {sides[0]}"
    return f"{first} ms late to {last} ms early"
