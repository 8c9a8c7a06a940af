"""A film's frames over a display's refreshes: above, how long each frame should stand; below, how long it does."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.desk.numbers import number
from calculators.desk.svg import SMALL, TEXT, WIDTH, Drawing, Sketch, text_width

_LETTERS = "ABCDEF"
MOST_FRAMES = len(_LETTERS)


def frames_over_refreshes(holds: Sequence[int], steady: float, refresh_ms: float, description: str) -> Drawing:
    """
    Frames as they should stand, and as refreshes let them stand, to one scale of time.

    Args:
        holds: For how many refreshes each frame stands; 0 where it is left out. [list], at most 6.
        steady: For how many it should stand. [1], above 0.
        refresh_ms: How long one refresh takes. [ms]
        description: What there is to see. [text]

    Returns:
        The drawing. [svg]

    Source:
        None: a drawing.

    Example:
        >>> frames_over_refreshes([2, 3], 2.5, 16.7, "Two frames.").width
        340
    """
    whole = max(steady * len(holds), float(sum(holds)), 1e-9)

    def paint(width: float, height: float, size: float) -> Sketch:
        small = SMALL if size == TEXT else size  # a card has one size of type
        row = max((height - size * 4.9) / 2, size * 2.1)
        sketch = Sketch("The film's frames over the display's refreshes", description, size * 4.9 + row * 2, width)
        thin = size / TEXT
        sketch.text(0, size, "The film: all alike", size=size)
        top = size * 1.4
        each = width * steady / whole
        for i, hold in enumerate(holds):
            _box(sketch, (each * i, top, each, row), _LETTERS[i], i, size, struck=hold == 0)
        y = top + row + size * 1.7
        names = ("The display: whole refreshes only", "The display, in refreshes", "The display")
        if size != TEXT:  # a card tells the milliseconds in place of strokes for refreshes, which are hard to count
            names = ("The display: milliseconds a frame", "The display, in ms", "in ms")
        sketch.text(0, y - size * 0.4, next((n for n in names if text_width(n, size) <= width), names[-1]), size=size)
        x = 0.0
        for i, hold in enumerate(holds):
            wide = width * hold / whole
            with sketch.later():  # how long each stands on the display is the answer
                if hold:
                    _box(sketch, (x, y, wide, row), _LETTERS[i], i, size)
                    stood = number(hold * refresh_ms, 1 if size == TEXT else 0)
                    words = next((w for w in (f"{stood} ms", stood) if text_width(w, small) < wide), "")
                    if words:
                        sketch.text(x + wide / 2, y + row + size * 1.3, words, size=small, anchor="middle")
            x += wide
        stroke = width / whole
        if stroke > 3 * thin and size == TEXT:
            with sketch.later():
                for k in range(1, sum(holds)):
                    sketch.line(k * stroke, y + row * 0.72, k * stroke, y + row, ink="ink", width=thin)
        return sketch

    def for_card(width: float, height: float, size: float) -> Drawing:
        return paint(width, height, size).done()

    return paint(WIDTH, 130, TEXT).done(for_card)


def _box(
    sketch: Sketch, box: tuple[float, float, float, float], letter: str, number_: int, size: float,
    struck: bool = False,
) -> None:  # fmt: skip
    x, y, width, height = box
    thin = size / TEXT
    shade = "fill-2" if size == TEXT else "fill-4"  # a card's letters stand on the palest fill
    fill = "none" if struck else ("paper", shade)[number_ % 2]
    dash = f"{4 * thin:g} {3 * thin:g}" if struck else ""
    sketch.rect(x, y, width, height, fill=fill, line="ink", line_width=thin, dash=dash)
    if text_width(letter, size, True) < width:
        sketch.text(x + width / 2, y + height * 0.36 + size * 0.35, letter, size=size, anchor="middle", bold=True)
