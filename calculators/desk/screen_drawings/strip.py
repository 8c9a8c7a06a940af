"""A whole in its parts, side by side."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.desk.card_declared import ScreenDrawing
from calculators.desk.screen_drawings.marks import HAIR
from calculators.desk.svg import OWN, Drawing, Sketch, steps_of, text_width


def screen_strip(parts: Sequence[tuple[str, float, str, str]]) -> ScreenDrawing:
    """One whole in its parts (label, size, text, fill), to scale, each named below with its colour."""
    parts = [part for part in parts if part[1] > 0]
    total = sum(part[1] for part in parts)
    steps = steps_of([None] * len(parts), [part[3] in OWN for part in parts])

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        swatch = size * 1.3
        # a value stands behind its words, or below them where the room is narrow
        wide = all(text_width(p[0], size) + text_width(p[2], size, True) + size * 2 <= width for p in parts)
        row = size * (1.5 if wide else 2.5)
        high = min(height - row * len(parts) - size * 0.6, 230.0)
        if not parts or high < size or any(text_width(p[0], size) > width - swatch for p in parts):
            return None
        sketch = Sketch(
            "strip", "; ".join(f"{p[0]}: {p[2]}" for p in parts), high + size * 0.6 + row * len(parts), width
        )
        x = 0.0
        for i, (label, share, text, fill) in enumerate(parts):
            across = width * share / total
            y = high + size * 0.6 + row * i
            with sketch.later(steps[i]):
                sketch.rect(x, 0, across, high, fill=fill, line="paper", line_width=HAIR, what=f"part {label}")
                sketch.rect(0, y + size * 0.06, size * 0.86, size * 0.86, fill=fill)
                sketch.text(swatch, y + size * 0.86, label, size=size)
                if wide:
                    sketch.text(width, y + size * 0.86, text, size=size, bold=True, anchor="end")
                else:
                    sketch.text(swatch, y + size * 1.98, text, size=size, bold=True)
            x += across
        return sketch.done()

    return drawn
