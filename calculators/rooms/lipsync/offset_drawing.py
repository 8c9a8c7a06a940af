"""The drawing of picture and sound against the three yardsticks: bands over one line of time, early before late."""

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

    Source:
        None: a drawing.

    Example:
        >>> draw("a", "b", 10, 10, "10 ms early").width
        340
    """

    def for_card(width: float, height: float, size: float) -> Drawing:
        labels = max(text_width(f"{name} {band.say()}", size) for band, name, _ in _BANDS) + size * 0.6
        beside = labels if labels < width * 0.5 else 0
        return _drawn(title, description, low_ms, high_ms, own, width, size, size, beside)

    return _drawn(title, description, low_ms, high_ms, own, WIDTH, TEXT, SMALL, 0, for_card)


def _drawn(
    title: str, description: str, low_ms: float, high_ms: float, own: str,
    width: float, size: float, small: float, beside: float,
    for_card: Callable[[float, float, float], Drawing] | None = None,
) -> Drawing:  # fmt: skip
    """beside: width kept for the labels to the left of the bands; 0 puts them above, as a phone has it."""
    above = 0 if beside else size * 1.3  # from the top of a row to its band
    thick = size * 1.1
    row, head = above + thick + size * 0.3, size * 1.6
    foot = head + row * len(_BANDS)
    sketch = Sketch(title, description, foot + size * 1.8, width)
    least, most = min(_LEAST_MS, low_ms * 1.05), max(_MOST_MS, high_ms * 1.05)

    def across(ms: float) -> float:
        """Time runs to the right, so what is early stands at the left, as on the screen card."""
        return beside + 2 + (width - beside - 4) * (most - ms) / (most - least)

    line = size / TEXT
    start, end = across(high_ms), across(low_ms)
    for i, (band, name, fill) in enumerate(_BANDS):
        top = head + row * i + above
        if beside:
            sketch.text(0, top + size * 0.95, f"{name} {band.say()}", size=small)
        else:
            sketch.text(2, top - size * 0.3, name, size=small)
            sketch.text(width - 2, top - size * 0.3, band.say(), size=small, anchor="end")
        sketch.rect(across(band.early_ms), top, across(-band.late_ms) - across(band.early_ms), thick, fill=fill)
        if end - start < 3 * line:  # at the band, not through its words
            sketch.rect(start - 1.5 * line, top - size * 0.1, 3 * line, thick + size * 0.2, fill="mark", what="yours")
        else:
            sketch.rect(start, top + size * 0.1, end - start, thick - size * 0.2, fill="none", line="mark",
                        line_width=2.5 * line, dash=f"{5 * line:g} {4 * line:g}", what="yours")  # fmt: skip
    sketch.line(across(most), foot, across(least), foot, ink="ink", width=1.2 * line)
    ends = ("early", "late") if beside else ("sound early", "sound late")
    words = ((most, ends[0], "start"), (0.0, "in step", "middle"), (least, ends[1], "end"))
    for ms, name, anchor in words:
        x = across(ms)
        sketch.line(x, foot, x, foot + 4 * line, ink="ink", width=1.2 * line)
        sketch.text(x, foot + size * 1.3, name, size=small, anchor=anchor, ink="soft")
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

    Source:
        None: wording.

    Example:
        >>> say_offset(111.26, 111.26), say_offset(-20, 100), say_offset(-100, 0)
        ('111.3 ms early', '20 ms late to 100 ms early', '0 to 100 ms late')
    """
    first, last = (number(abs(ms), places) for ms in (low_ms, high_ms))
    sides = ["late" if ms < 0 else "early" for ms in (low_ms, high_ms)]
    if "0" in (first, last) and first != last:  # nothing is on neither side
        sides = [sides[1] if first == "0" else sides[0]] * 2
    if first == last and (sides[0] == sides[1] or first == "0"):
        return "in step" if first == "0" else f"{first} ms {sides[0]}"
    if sides[0] == sides[1]:
        first, last = (first, last) if sides[0] == "early" else (last, first)
        return f"{first} to {last} ms {sides[0]}"
    return f"{first} ms late to {last} ms early"
