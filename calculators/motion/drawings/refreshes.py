"""A film's frames over a display's refreshes: above, how long each frame should stand; below, how long it does."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.desk.numbers import number
from calculators.desk.svg import SMALL, TEXT, WIDTH, Drawing, Sketch, text_width

NARROW = 640.0  # a card's side panel
_LETTERS = "ABCDEF"
MOST_FRAMES = len(_LETTERS)


def frames_over_refreshes(
    holds: Sequence[int], steady: float, refresh_ms: float, description: str, even_at: str = ""
) -> Drawing:
    """
    Frames as they should stand, and as refreshes let them stand, to one scale of time.

    Args:
        holds: For how many refreshes each frame stands; 0 where it is left out. [list], at most 6.
        steady: For how many it should stand. [1], above 0.
        refresh_ms: How long one refresh takes. [ms]
        description: What there is to see. [text]
        even_at: The rate at which they would all stand alike, such as '120 Hz'; '' where none is told. [text]

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
        card = size != TEXT
        said = _said(holds, refresh_ms, even_at)  # where the answer's own line has no room
        low = card and width < NARROW and height < size * 9.1  # too low for both strips: the display's alone
        if low:
            row = max(min(height - size * (1.9 + 1.2 * len(said)), size * 3), size * 2.1)
        tall = size * (1.9 + 1.2 * len(said)) + row if low else size * 4.9 + row * 2
        sketch = Sketch("The film's frames over the display's refreshes", description, tall, width)
        thin = size / TEXT
        top = size * (0.2 + 1.2 * len(said)) if low else size * 1.4
        each = width * steady / whole
        if not low:
            sketch.text(0, size, "The film: all alike", size=size)
            for i, hold in enumerate(holds):
                _box(sketch, (each * i, top, each, row), _LETTERS[i], i, size, struck=hold == 0)
        y = top if low else top + row + size * 1.7
        names = ("The display: whole refreshes only", "The display, in refreshes", "The display")
        if card:
            names = ("The display: how many refreshes, and ms", "The display: refreshes and ms", "Refreshes and ms")
        if low:
            for i, words in enumerate(said):
                with sketch.later():
                    sketch.text(0, size * (0.95 + 1.2 * i), words, size=size)
        else:
            title = next((n for n in names if text_width(n, size) <= width), names[-1])
            sketch.text(0, y - size * 0.4, title, size=size)
        if low:  # the room that all frames have, before it is said how they part it
            sketch.rect(0, y, width * sum(holds) / whole, row, fill="fill-4", line="ink", line_width=thin)
        x = 0.0
        worded = 0 if not card else _worded(holds, refresh_ms, width / whole, small)
        for i, hold in enumerate(holds):
            wide = width * hold / whole
            with sketch.later():  # how long each stands on the display is the answer
                if hold:
                    _box(sketch, (x, y, wide, row), _LETTERS[i], i, size, times=f"{hold}×" if card else "")
                    words = next(
                        (text for text in _times(hold * refresh_ms, card)[worded:] if text_width(text, small) < wide),
                        "",
                    )
                    if words:
                        sketch.text(x + wide / 2, y + row + size * 1.3, words, size=small, anchor="middle")
            x += wide
        stroke = width / whole
        if stroke > 3 * thin and not card:  # on a card the number of refreshes stands in each frame
            with sketch.later():
                for k in range(1, sum(holds)):
                    sketch.line(k * stroke, y + row * 0.72, k * stroke, y + row, ink="ink", width=thin)
        return sketch

    def for_card(width: float, height: float, size: float) -> Drawing:
        return paint(width, height, size).done()

    return paint(WIDTH, 130, TEXT).done(for_card)


def _times(stood_ms: float, card: bool) -> tuple[str, ...]:
    """A frame's time, from its fullest words to its shortest."""
    fine, plain = number(stood_ms, 1), number(stood_ms, 0)
    return (f"{fine} ms", f"{plain} ms", fine, plain) if card else (f"{fine} ms", fine)


def _worded(holds: Sequence[int], refresh_ms: float, each: float, size: float) -> int:
    """Which of a time's words stand below every frame of a card alike: the fullest that fit them all."""
    shown = [hold for hold in holds if hold]
    ways = [[_times(hold * refresh_ms, True)[way] for hold in shown] for way in range(4)]
    fitting = (
        way
        for way, texts in enumerate(ways)
        if all(text_width(text, size) < each * hold for text, hold in zip(texts, shown, strict=True))
    )
    return next(fitting, 3)


def _said(holds: Sequence[int], refresh_ms: float, even_at: str) -> list[str]:
    """How long frames stand, and the rate at which they would stand alike."""
    stood = sorted({number(hold * refresh_ms, 0) for hold in holds if hold}, key=float)
    lines = [f"{' or '.join(stood)} ms a frame"] if stood else []
    return lines + ([f"{even_at} plays evenly"] if even_at else [])


def _box(
    sketch: Sketch, box: tuple[float, float, float, float], letter: str, number_: int, size: float,
    struck: bool = False, times: str = "",
) -> None:  # fmt: skip
    x, y, width, height = box
    thin = size / TEXT
    shade = "fill-2" if size == TEXT else "fill-4"  # a card's letters stand on the palest fill
    fill = "none" if struck else ("paper", shade)[number_ % 2]
    dash = f"{4 * thin:g} {3 * thin:g}" if struck else ""
    sketch.rect(x, y, width, height, fill=fill, line="ink", line_width=thin, dash=dash)
    if text_width(letter, size, True) < width:
        up = 0.28 if times else 0.36
        sketch.text(x + width / 2, y + height * up + size * 0.35, letter, size=size, anchor="middle", bold=True)
    if times and text_width(times, size) < width:
        sketch.text(x + width / 2, y + height * 0.72 + size * 0.35, times, size=size, anchor="middle")
