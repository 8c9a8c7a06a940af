"""The frame rates up to a little above a display's range as one band: in it, repeated, in a gap, above."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.desk.charts import even_ticks
from calculators.desk.numbers import number, significant
from calculators.desk.svg import SMALL, TEXT, WIDTH, Drawing, Sketch, text_width
from calculators.motion.formulas.adaptive_range import ABOVE, GAP, IN, REPEATED, Stretch

_FILLS = {IN: "fill-2", REPEATED: "fill-4", GAP: "no", ABOVE: "fill-3"}
_WORDS = {
    IN: "in the range: each frame as it comes",
    REPEATED: "below: frames shown more than once",
    GAP: "gap: no repeating reaches the range",
    ABOVE: "above the range: tears, or waits",
}
_LEAST_WIDE = 0.6  # narrower stretches are left to their neighbour


def range_band(stretches: Sequence[Stretch], frames: float, description: str) -> Drawing:
    """
    One band of frame rates, what becomes of each in a fill of its own, and the viewer's own marked.

    Args:
        stretches: From the lowest rate to the highest. [list]
        frames: The viewer's own. [1/s]
        description: What there is to see. [text]

    Returns:
        The drawing. [svg]

    Source:
        None: a drawing.

    Example:
        >>> from calculators.trade.ratio import Ratio
        >>> range_band([Stretch(Ratio(48), Ratio(144), IN)], 60, "One band.").width
        340
    """
    left, right = stretches[0].low.value, stretches[-1].high.value
    kinds = [kind for kind in (REPEATED, GAP, IN, ABOVE) if any(s.kind == kind for s in stretches)]

    def paint(width: float, height: float, size: float) -> Sketch:
        small = SMALL if size == TEXT else size  # a card has one size of type
        thin = size / TEXT
        band = min(max(height - size * (4.6 + 1.6 * len(kinds)), size * 2), size * 6)
        sketch = Sketch("What becomes of each frame rate", description, size * (4.6 + 1.6 * len(kinds)) + band, width)
        top = size * 1.5

        def across(value: float) -> float:
            return width * (value - left) / ((right - left) or 1)

        if GAP in kinds:
            sketch.rect(0, top, width, band, fill=_FILLS[GAP])  # where many are too narrow to draw
        for stretch in stretches:
            x, end = across(stretch.low.value), across(stretch.high.value)
            if end - x >= _LEAST_WIDE * thin:
                sketch.rect(x, top, end - x, band, fill=_FILLS[stretch.kind])
            if stretch.kind == GAP and end - x > 3 * thin:
                sketch.line(x, top + band, end, top, ink="paper", width=1.5 * thin)  # told apart without colour
        sketch.rect(0, top, width, band, fill="none", line="ink", line_width=thin)
        y = top + band
        for tick in even_ticks(left, right, 5):
            x = across(tick)
            anchor = "start" if x < size else "end" if x > width - size * 1.5 else "middle"
            sketch.line(x, y, x, y + size * 0.3, ink="soft", width=thin)
            sketch.text(x, y + size * 1.3, significant(tick, 4), size=small, anchor=anchor, ink="soft")
        sketch.text(width, y + size * 2.4, "frames a second", size=small, anchor="end", ink="soft")
        own = min(max(across(frames), thin), width - thin)
        arrow = " →" if frames > right else ""
        words = f"yours: {number(frames, 3)}{arrow}"
        half = text_width(words, size, True) / 2
        sketch.text(min(max(own, half), width - half), size, words, size=size, anchor="middle", bold=True)
        for ink, wide in (("paper", 5), ("ink", 2.5)):  # seen on every fill
            sketch.line(own, top - size * 0.2, own, y + size * 0.3, ink=ink, width=wide * thin)
        y += size * 2.9
        for kind in kinds:
            sketch.rect(0, y, size * 1.2, size * 1.2, fill=_FILLS[kind], line="ink", line_width=thin)
            if kind == GAP:
                sketch.line(0, y + size * 1.2, size * 1.2, y, ink="paper", width=1.5 * thin)
            sketch.text(size * 1.6, y + size, _WORDS[kind], size=size)
            y += size * 1.6
        return sketch

    def for_card(width: float, height: float, size: float) -> Drawing:
        return paint(width, height, size).done()

    return paint(WIDTH, 170, TEXT).done(for_card)
