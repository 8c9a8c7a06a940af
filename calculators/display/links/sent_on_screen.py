"""What a mode sends, for a screen card: the picture that is seen, and about it what is sent and never seen."""

from __future__ import annotations

from calculators.desk.card_declared import SMALLEST_DRAWN, ScreenDrawing
from calculators.desk.numbers import number
from calculators.desk.screen_drawings.marks import HAIR, NARROW, THICK
from calculators.desk.svg import Drawing, Sketch, text_width

LEAST_SHARE = 0.75  # of a side panel's width


def screen_sent(seen: tuple[float, float], sent: tuple[float, float], unseen: str) -> ScreenDrawing:
    """
    Both areas to scale from one corner, each named; what is not seen comes with the card's answer.

    Args:
        seen: Width and height of the picture. [px]
        sent: The same with blanking. [px]
        unseen: What is said of the part that is not seen. [text]

    Returns:
        The drawing for a room, or None where it has none. [function]

    Source:
        None: a drawing.

    Example:
        >>> drawn = screen_sent((1920, 1080), (2200, 1125), "unseen")(900, 560, 56)
        >>> [box.what for box in drawn.record() if box.what in ("seen", "unseen right", "unseen below")]
        ['seen', 'unseen right', 'unseen below']
    """

    def said(area: tuple[float, float]) -> str:
        return f"{number(area[0], 0)} × {number(area[1], 0)}"

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        if made := within(width, height, size, inside=True):
            return made
        if size > SMALLEST_DRAWN and within(width, height, SMALLEST_DRAWN, inside=True):
            return None  # rather smaller words than a smaller picture
        return within(width, height, size, inside=False)

    def within(width: float, height: float, size: float, *, inside: bool) -> Drawing | None:
        """Both with their names; the picture's in it, or below where it is too small for that."""
        own = f"seen: {said(seen)}"
        rows = [*([] if inside else [(own, "fill-1", True)]), (unseen, "fill-3", True)]
        rows.append((f"sent: {said(sent)}", "", False))
        if any(text_width(words, size, bold) + size * 1.3 > width for words, _, bold in rows):
            return None
        row = size * 1.3
        below = row * len(rows) + size * 0.35
        scale = min(width / sent[0], (height - below) / sent[1])
        wide, high = sent[0] * scale, sent[1] * scale
        # in a side panel rather the drawing without the hero, which it says as well, than a picture like a stamp
        if wide < (width * LEAST_SHARE if width < NARROW else size * 3) or high < size * 1.6:
            return None
        right, low = min(seen[0] * scale, wide), min(seen[1] * scale, high)
        if inside and (text_width(own, size, True) + size * 0.8 > right or low < size * 1.6):
            return None
        sketch = Sketch("areas", "; ".join(words for words, _, _ in rows), high + below, width)
        sketch.rect(0, 0, right, low, fill="fill-1", what="seen")
        if inside:
            sketch.text(size * 0.4, size * 1.1, own, size=size, bold=True, ink="paper")
        sketch.rect(HAIR / 2, HAIR / 2, wide - HAIR, high - HAIR, fill="none", line="line", line_width=HAIR)
        with sketch.later():
            sketch.rect(right, 0, wide - right, high, fill="fill-3", what="unseen right")
            sketch.rect(0, low, right, high - low, fill="fill-3", what="unseen below")
            sketch.rect(0, 0, wide, high, fill="none", line="ink", line_width=HAIR)  # about a strip that may be a hair
        for i, (words, fill, bold) in enumerate(rows):
            y = high + size * 0.45 + row * i
            with sketch.later(int(inside or i > 0)):
                if fill:
                    sketch.rect(0, y, size * 0.86, size * 0.86, fill=fill)
                else:
                    sketch.rect(
                        THICK / 2, y + THICK / 2, size * 0.86 - THICK, size * 0.86 - THICK, fill="none", line="ink",
                        line_width=THICK,
                    )  # fmt: skip
                sketch.text(size * 1.3, y + size * 0.78, words, size=size, bold=bold)
        return sketch.done()

    return drawn
