"""One moving edge at two refresh rates, to scale in pixels, and the refreshes of both on one line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calculators.desk.charts import even_ticks
from calculators.desk.numbers import number, significant
from calculators.desk.svg import SMALL, TEXT, WIDTH, Drawing, Sketch, text_width

_DARK, _LIGHT = (29, 35, 39), (242, 240, 233)  # the edge's own two greys: the subject of the drawing, not its ink
_SLICES = 32  # of a smear: finer steps than these are not told apart
_MOST_FLASHES = 24
_LEAST_VIEW_PX = 8.0
_LINE_PERIODS = 3  # how many of the longer refreshes the line of time holds


@dataclass(frozen=True, slots=True)
class Smear:
    """
    One rate's edge as a following eye sees it. [px], [ms]

    blur: the smear's whole width. apart: from one image to the next, where the display goes dark in between; 0
    where it stays lit. lit: the smear of one flash. images: how many flashes make up one picture.
    """

    name: str
    blur: float
    period_ms: float
    apart: float = 0.0
    lit: float = 0.0
    images: float = 1.0

    def light(self, at: float) -> float:
        """The share of full light at a place in the smear, 0 to 1. [1]"""
        if self.blur <= 0:
            return 0.0 if at < 0 else 1.0
        if not self.apart or self.lit <= 0:
            return min(max(at / self.blur, 0.0), 1.0)
        whole = min(int(self.images), _MOST_FLASHES)
        flashes = [(i * self.apart, 1.0) for i in range(whole)]
        if self.images - whole > 1e-9 and whole < _MOST_FLASHES:
            flashes.append(((self.images - 1) * self.apart, self.images - whole))
        total = sum(weight for _, weight in flashes)
        return sum(w * min(max((at - start) / self.lit, 0.0), 1.0) for start, w in flashes) / total


def edges(smears: Sequence[Smear], of: tuple[str, str], description: str) -> Drawing:
    """
    The same edge at each rate, as an eye sees it that follows it.

    Args:
        smears: The rates' edges, top to bottom. [list]
        of: How fast the edge moves, and how many frames there are, each in a few words. [text]
        description: What there is to see. [text]

    Returns:
        The drawing. [svg]

    Source:
        None: a drawing.

    Example:
        >>> edges([Smear("60 Hz", 20, 16.7)], ("1200 px/s", "60 frames/s"), "One edge.").width
        340
    """

    def paint(width: float, height: float, size: float) -> Sketch:
        small = SMALL if size == TEXT else size  # a card has one size of type
        room = max(height - size * 2.6, size * 2.6 * len(smears)) / len(smears)
        sketch = Sketch("A moving edge, followed by the eye", description, room * len(smears) + size * 2.6, width)
        view = max([_LEAST_VIEW_PX, *(s.blur * 1.3 for s in smears)])
        scale, left = width / view, view * 0.12
        for i, smear in enumerate(smears):
            top = room * i
            base, lane, last = (
                top + size * 1.05,
                (0.0, top + size * 1.45, width, room - size * 1.8),
                i == len(smears) - 1,
            )
            label, value = f"{smear.name}:", f"{number(smear.blur, 1)} px"
            long = f"{value} of blur"
            if size != TEXT and text_width(f"{label} {long}", size, True) <= width:
                value = long
            if size == TEXT:
                sketch.text(0, base, f"{label} {value}", size=size, bold=True)
                _edge(sketch, smear, lane, left, scale)
                continue
            # on a card the second edge comes with the answer: its name and its empty lane stand before
            sketch.text(0, base, label, size=size, bold=True)
            sketch.rect(*lane, fill="none", line="line", line_width=size / TEXT)
            with sketch.later(int(last)):
                sketch.text(text_width(f"{label} ", size, True), base, value, size=size, bold=True)
                _edge(sketch, smear, lane, left, scale)
        y = room * len(smears)
        for tick in even_ticks(0, view - left, 4 if width > WIDTH else 5):
            x = (left + tick) * scale
            sketch.line(x, y, x, y + size * 0.35, ink="soft", width=size / TEXT)
            anchor = "end" if x > width - size * 1.5 else "middle"
            sketch.text(x, y + size * 1.3, significant(tick, 3), size=small, anchor=anchor, ink="soft")
        sketch.line(0, y, width, y, ink="ink", width=size / TEXT)
        speed, made = of
        ways: tuple[str, ...] = (f"smear of an edge moving {speed}, in px", f"at {speed}")
        if size != TEXT:  # a card may stand there without the words beside it
            ways = (f"smear of an edge: {made}, {speed}", f"smear: {made}, {speed}", f"{made}, {speed}", made)
        words = next(way for way in ways if text_width(way, small) <= width or way == ways[-1])
        sketch.text(width, y + size * 2.4, words, size=small, anchor="end", ink="soft")
        return sketch

    def for_card(width: float, height: float, size: float) -> Drawing:
        return paint(width, height, size).done()

    return paint(WIDTH, 62.0 * len(smears) + 34, TEXT).done(for_card)


def _edge(
    sketch: Sketch, smear: Smear, box: tuple[float, float, float, float], left: float, scale: float
) -> None:  # fmt: skip
    x, y, width, height = box
    start, end = left * scale, (left + smear.blur) * scale
    sketch.rect(x, y, width, height, fill=_grey(1.0), line="line")
    sketch.rect(x, y, start, height, fill=_grey(0.0))
    step = (end - start) / _SLICES
    for i in range(_SLICES if end - start > 0.5 else 0):
        light = smear.light(smear.blur * (i + 0.5) / _SLICES)
        sketch.rect(start + step * i, y, end - start - step * i, height, fill=_grey(light))  # no seams in between


def _grey(light: float) -> str:
    """A grey between the edge's two, by the share of light: '#rrggbb'."""
    return "#" + "".join(f"{round(d + (e - d) * light):02x}" for d, e in zip(_DARK, _LIGHT, strict=True))


def refresh_line(smears: Sequence[Smear], description: str) -> Drawing:
    """
    The refreshes of two rates as strokes on one line of time: the first above it, the second below.

    Args:
        smears: Two rates, with their periods. [list]
        description: What there is to see. [text]

    Returns:
        The drawing. [svg]

    Source:
        None: a drawing.

    Example:
        >>> refresh_line([Smear("60 Hz", 20, 16.7), Smear("144 Hz", 8, 6.9)], "Two rows.").width
        340
    """
    longest = max(s.period_ms for s in smears) * _LINE_PERIODS

    def paint(width: float, height: float, size: float) -> Sketch:
        small = SMALL if size == TEXT else size  # a card has one size of type
        stroke = max((height - size * 5.7) / 2, size * 1.4)
        middle = size * 1.5 + stroke
        sketch = Sketch("When each refresh comes", description, size * 5.7 + stroke * 2, width)
        thin = 1.6 * size / TEXT
        for smear, down in zip(smears, (False, True), strict=True):
            end = middle + (stroke if down else -stroke)
            label = f"{smear.name}: every {number(smear.period_ms)} ms"
            sketch.text(0, end + (size * 1.15 if down else -size * 0.4), label, size=size, bold=True)
            count = int(longest / smear.period_ms + 1e-9)
            if width / max(count, 1) < 2 * thin:  # strokes would run into one: a band says the same
                sketch.rect(0, min(middle, end), width, stroke, fill="fill-2")
                continue
            for i in range(count + 1):
                x = min(max(width * i * smear.period_ms / longest, thin / 2), width - thin / 2)
                sketch.line(x, middle, x, end, ink="mark" if down else "fill-1", width=thin)
        sketch.line(0, middle, width, middle, ink="ink", width=thin)
        y = middle + stroke + size * 1.6
        for tick in even_ticks(0, longest, 4):
            x = width * tick / longest
            anchor = "start" if x < size else "end" if x > width - size * 1.5 else "middle"
            sketch.line(x, y, x, y + size * 0.35, ink="soft", width=size / TEXT)
            sketch.text(x, y + size * 1.3, number(tick, 3), size=small, anchor=anchor, ink="soft")
        sketch.line(0, y, width, y, ink="soft", width=size / TEXT)
        sketch.text(width, y + size * 2.25, "milliseconds", size=small, anchor="end", ink="soft")
        return sketch

    def for_card(width: float, height: float, size: float) -> Drawing:
        return paint(width, height, size).done()

    return paint(WIDTH, 130, TEXT).done(for_card)
