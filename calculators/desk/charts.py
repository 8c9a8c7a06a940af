"""The few kinds of chart that calculators draw, made with the pen of desk/svg.py. Knows no subject."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from calculators.desk.numbers import number, significant
from calculators.desk.svg import (
    OWN,
    SMALL,
    TEXT,
    WIDTH,
    Box,
    Drawing,
    Sketch,
    steps_of,
    text_box,
    text_width,
    wrap,
)


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar: its label, its length, the text at its end. mark: the viewer's own. low: start of a range."""

    label: str
    value: float
    text: str
    mark: bool = False
    low: float | None = None
    fill: str = ""


@dataclass(frozen=True, slots=True)
class Limit:
    """A line across a chart at a value, with its label."""

    value: float
    label: str


def bars(
    title: str, description: str, rows: Sequence[Bar], *, caption: str = "", limits: Sequence[Limit] = (),
    full: float | None = None,
) -> Drawing:  # fmt: skip
    """
    Horizontal bars from zero, each with its label above it, so that long labels stay readable on a phone.

    Args:
        title: What it shows. [text]
        description: What there is to see. [text]
        rows: The bars, top to bottom. [list]
        caption: What longer means, below the bars. [text]
        limits: Lines across all bars. [list]
        full: The value that fills the width; the largest where not given. [as the bars]

    Returns:
        The drawing. [svg]

    Source:
        None: a drawing.

    Example:
        >>> bars("Speed", "One bar.", [Bar("a", 2, "2 m/s")]).width
        340
    """
    top = full or max([r.value for r in rows] + [limit.value for limit in limits] + [1e-12])
    row_height, y = 42.0, 18.0 * len(limits)
    notes = wrap(caption, WIDTH - 4, SMALL) if caption else []
    sketch = Sketch(title, description, y + row_height * len(rows) + 16 * len(notes) + 8)
    places = [2 + (WIDTH - 4) * min(limit.value / top, 1) for limit in limits]
    for i, (limit, x) in enumerate(zip(limits, places, strict=True)):
        wide = text_width(limit.label, SMALL)
        anchor = "end" if x > WIDTH / 2 else "start"
        at = max(x, min(wide, WIDTH - 2)) if anchor == "end" else min(x, max(WIDTH - 2 - wide, 2))
        sketch.text(at, 18.0 * i + 13, limit.label, size=SMALL, anchor=anchor, ink="mark")
    for row in rows:
        sketch.text(2, y + 15, row.label, bold=row.mark)
        sketch.text(WIDTH - 2, y + 15, row.text, anchor="end", bold=row.mark)
        start = 2 + (WIDTH - 4) * max(row.low or 0, 0) / top
        end = 2 + (WIDTH - 4) * min(row.value / top, 1)
        fill = row.fill or ("mark" if row.mark else "fill-2")
        sketch.rect(2, y + 21, WIDTH - 4, 12, fill="none", line="line")
        sketch.rect(start, y + 21, max(end - start, 1), 12, fill=fill)
        for x in places:  # across the bar alone: a line through all would run through the values
            sketch.line(x, y + 18, x, y + 36, ink="mark", dash="4 3", width=1.5)
        y += row_height
    for note in notes:
        y += 16
        sketch.text(2, y - 2, note, size=SMALL, ink="soft")

    def for_card(width: float, height: float, size: float) -> Drawing:
        return _bars_across(title, description, rows, limits, top, (width, height, size))

    return sketch.done(for_card)


def _bars_across(
    title: str, description: str, rows: Sequence[Bar], limits: Sequence[Limit], top: float,
    room: tuple[float, float, float],
) -> Drawing:  # fmt: skip
    """The bars for a picture: label, bar and value side by side, all in one size of type."""
    width, height, size = room
    gap = size * 0.6
    values = max((text_width(r.text, size, r.mark) for r in rows), default=0.0)
    # as much for the labels as they need, but half the width stays for bars and values
    labels = min(max((text_width(r.label, size, r.mark) for r in rows), default=0.0), width * 0.5)
    if width - labels - values - 2 * gap < width * 0.22:
        return _bars_below(title, description, rows, limits, top, room)
    wrapped = [wrap(r.label, labels + 1, size, r.mark) for r in rows]
    start, end = labels + gap, width - values - gap
    heads = size * 1.3 * len(limits)
    needed = heads + sum(max(len(w), 1) * size * 1.2 + size * 0.35 for w in wrapped)
    air = min(max((height - needed) / max(len(rows), 1), 0), size * 0.8)  # between rows, where there is room
    needed += air * len(rows)
    sketch = Sketch(title, description, max(needed, 1), width)
    y = heads
    for i, limit in enumerate(limits):
        x = start + (end - start) * min(limit.value / top, 1)
        sketch.line(x, size * 1.3 * i + size * 1.1, x, needed, ink="mark", dash="14 10", width=5)
        left = x > (start + end) / 2
        wide = text_width(limit.label, size)
        at = max(x - size * 0.3, wide) if left else min(x + size * 0.3, width - wide)
        sketch.text(at, size * 1.3 * i + size, limit.label, size=size, anchor="end" if left else "start", ink="mark")
    steps = _bar_steps(rows)
    for row, lines, stage in zip(rows, wrapped, steps, strict=True):
        block = max(len(lines), 1) * size * 1.2
        for i, line in enumerate(lines):
            sketch.text(0, y + size * 0.95 + i * size * 1.2, line, size=size, bold=row.mark)
        low = start + (end - start) * max(row.low or 0, 0) / top
        high = start + (end - start) * min(row.value / top, 1)
        fill = row.fill or ("mark" if row.mark else "fill-2")
        thick = size * 0.72 + air / 2
        with sketch.later(stage):
            sketch.rect(low, y + block / 2 - thick / 2, max(high - low, 4), thick, fill=fill)
            sketch.text(width, y + block / 2 + size * 0.34, row.text, size=size, anchor="end", bold=row.mark)
        y += block + size * 0.35 + air
    return sketch.done()


def _bar_steps(rows: Sequence[Bar]) -> list[int]:
    """With which step of a card each bar comes; its label stands from the first one on."""
    return steps_of([None] * len(rows), [row.mark for row in rows])


def _bars_below(
    title: str, description: str, rows: Sequence[Bar], limits: Sequence[Limit], top: float,
    room: tuple[float, float, float],
) -> Drawing:  # fmt: skip
    """The bars for a narrow picture: each below its label and its value."""
    width, _, size = room
    line = size * 1.2
    labels = []
    for row in rows:
        lines = wrap(row.label, width, size, row.mark)
        left = width - text_width(row.text, size, row.mark)
        labels.append((lines, text_width(lines[-1], size, row.mark) + size * 0.5 <= left))
    heads = size * 1.3 * len(limits)
    needed = heads + sum((len(lines) + (not beside)) * line + size * 1.1 for lines, beside in labels)
    sketch = Sketch(title, description, max(needed, 1), width)
    y = heads
    for i, limit in enumerate(limits):
        x = width * min(limit.value / top, 1)
        anchor = "end" if x > width / 2 else "start"
        sketch.text(x, size * 1.3 * i + size * 0.95, limit.label, size=size, anchor=anchor, ink="mark")
    for row, (lines, beside), stage in zip(rows, labels, _bar_steps(rows), strict=True):
        for text in lines:
            sketch.text(0, y + size * 0.95, text, size=size, bold=row.mark)
            y += line
        y += 0 if beside else line
        low, high = (width * min(max(each or 0, 0) / top, 1) for each in (row.low, row.value))
        fill = row.fill or ("mark" if row.mark else "fill-2")
        with sketch.later(stage):
            sketch.text(width, y - line + size * 0.95, row.text, size=size, anchor="end", bold=row.mark)
            sketch.rect(low, y + size * 0.1, max(high - low, 4), size * 0.55, fill=fill)
        for limit in limits:
            x = width * min(limit.value / top, 1)
            sketch.line(x, y, x, y + size * 0.75, ink="mark", dash="14 10", width=5)
        y += size * 1.1
    return sketch.done()


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a strip: its label, its size, its text."""

    label: str
    size: float
    text: str
    fill: str = "fill-2"
    hatched: bool = False


def strip(title: str, description: str, parts: Sequence[Part], caption: str = "") -> Drawing:
    """One whole, its parts side by side to scale, each named in the key below."""
    total = sum(p.size for p in parts) or 1
    notes = wrap(caption, WIDTH - 4, SMALL) if caption else []
    sketch = Sketch(title, description, 46 + 21 * len(parts) + 16 * len(notes))
    x = 2.0
    for part in parts:
        width = (WIDTH - 4) * part.size / total
        sketch.rect(x, 4, width, 28, fill=part.fill, line="paper")
        if part.hatched:
            _hatch(sketch, x, 4, width, 28)
        x += width
    sketch.rect(2, 4, WIDTH - 4, 28, fill="none", line="ink")
    y = 54.0
    for part in parts:
        sketch.rect(2, y - 11, 14, 14, fill=part.fill, line="ink")
        if part.hatched:
            _hatch(sketch, 2, y - 11, 14, 14)
        sketch.text(24, y, part.label)
        sketch.text(WIDTH - 2, y, part.text, anchor="end")
        y += 21
    for note in notes:
        sketch.text(2, y, note, size=SMALL, ink="soft")
        y += 16

    def for_card(width: float, height: float, size: float) -> Drawing:
        return _strip_across(title, description, parts, total, (width, height, size))

    return sketch.done(for_card)


def _strip_across(
    title: str, description: str, parts: Sequence[Part], total: float, room: tuple[float, float, float]
) -> Drawing:
    """The strip for a picture: as high as the room allows, its key below in one size of type."""
    width, height, size = room
    row = size * 1.35
    high = min(max(height - row * len(parts) - size * 0.6, size * 1.5), size * 4)
    sketch = Sketch(title, description, high + size * 0.6 + row * len(parts), width)
    x = 0.0
    steps = steps_of([None] * len(parts), [part.fill in OWN for part in parts])
    for part, stage in zip(parts, steps, strict=True):
        wide = width * part.size / total
        with sketch.later(stage):
            sketch.rect(x, 0, wide, high, fill=part.fill, line="paper", line_width=4)
            if part.hatched:
                _hatch(sketch, x, 0, wide, high, size / TEXT)
        x += wide
    sketch.rect(2, 2, width - 4, high - 4, fill="none", line="ink", line_width=4)
    for i, part in enumerate(parts):
        y = high + size * 0.6 + row * i
        with sketch.later(steps[i]):
            sketch.rect(0, y + size * 0.1, size, size, fill=part.fill, line="ink", line_width=3)
            if part.hatched:
                _hatch(sketch, 0, y + size * 0.1, size, size, size / TEXT)
            sketch.text(size * 1.5, y + size * 0.95, part.label, size=size)
            sketch.text(width, y + size * 0.95, part.text, size=size, anchor="end", bold=True)
    return sketch.done()


def _hatch(sketch: Sketch, x: float, y: float, width: float, height: float, scale: float = 1) -> None:
    """Slanted lines, so that a part is told apart without colour."""
    step = 7.0 * scale
    at = -height
    while at < width:
        x1, x2 = max(at, 0.0), min(at + height, width)
        if x2 > x1:
            sketch.line(x + x1, y + height - (x1 - at), x + x2, y + height - (x2 - at), ink="ink", width=0.8 * scale)
        at += step


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a plot: its name, its points, how it is drawn."""

    name: str
    points: Sequence[tuple[float, float]]
    ink: str = "fill-1"
    dash: str = ""
    width: float = 2


@dataclass(frozen=True, slots=True)
class Spot:
    """One marked point of a plot with its label."""

    x: float
    y: float
    label: str


@dataclass(frozen=True, slots=True)
class Axis:
    """
    An axis: its label with the unit, its ends, and the values that are named (made where not given).

    names: what stands at those values, where it is not the value itself, as on an axis of logarithms.
    """

    label: str
    low: float
    high: float
    ticks: Sequence[float] = field(default=())
    names: Sequence[str] = field(default=())

    def marks(self) -> list[float]:
        """The values named on the axis."""
        return list(self.ticks) or even_ticks(self.low, self.high)

    def named(self) -> list[tuple[float, str]]:
        """The values with what stands at them."""
        marks = self.marks()
        return list(zip(marks, self.names or [significant(value, 4) for value in marks], strict=True))


def even_ticks(low: float, high: float, about: int = 4) -> list[float]:
    """Round values across a range, about so many: steps of 1, 2 or 5 times a power of ten."""
    if not high > low:
        return [low]
    rough = (high - low) / about
    exponent = int(f"{rough:e}".partition("e")[2])
    unit = float(f"1e{exponent}")
    step = next(unit * m for m in (1, 2, 5, 10) if unit * m >= rough * 0.999999)
    first = -int(-low // step) if low >= 0 else int(low // step)
    ticks = []
    for i in range(first, first + 12):
        at = float(f"{i * step:.14g}")
        if low - 1e-9 * step <= at <= high + 1e-9 * step:
            ticks.append(at)
    return ticks


def plot(
    title: str, description: str, x: Axis, y: Axis, lines: Sequence[Line], *, limits: Sequence[Limit] = (),
    spots: Sequence[Spot] = (), height: float = 250,
) -> Drawing:  # fmt: skip
    """
    Lines over two even axes, with limits across, marked points, and a key below.

    Args:
        title: What it shows. [text]
        description: What there is to see. [text]
        x: The axis along the bottom. [as labelled]
        y: The axis up the side. [as labelled]
        lines: The lines. [list]
        limits: Values of y with a dashed line across. [as y]
        spots: Marked points. [as x and y]
        height: Height of the plot without its key. [drawing unit]

    Returns:
        The drawing. [svg]

    Source:
        None: a drawing.

    Example:
        >>> plot("a", "b", Axis("s", 0, 1), Axis("m", 0, 1), [Line("c", [(0, 0), (1, 1)])]).width
        340
    """
    names = [significant(t) for t in y.marks()]
    left = 8 + max(text_width(n, SMALL) for n in names)
    top, right, bottom = 24.0, WIDTH - 8.0, height - 38.0
    keyed = [line for line in lines if line.name] if len(lines) > 1 else []
    sketch = Sketch(title, description, height + 18 * len(keyed))

    def across(value: float) -> float:
        share = (value - x.low) / ((x.high - x.low) or 1)
        return left + (right - left) * min(max(share, 0), 1)

    def up(value: float) -> float:
        share = (value - y.low) / ((y.high - y.low) or 1)
        return bottom - (bottom - top) * min(max(share, 0), 1)

    sketch.text(2, 13, y.label, size=SMALL, ink="soft")
    for value, name in zip(y.marks(), names, strict=True):
        sketch.line(left, up(value), right, up(value))
        sketch.text(left - 5, up(value) + 4, name, size=SMALL, anchor="end", ink="soft")
    marks = x.marks()
    for i, value in enumerate(marks):
        anchor = "end" if i == len(marks) - 1 and across(value) > right - 12 else "middle"
        sketch.line(across(value), bottom, across(value), bottom + 4, ink="soft")
        sketch.text(across(value), bottom + 17, significant(value, 4), size=SMALL, anchor=anchor, ink="soft")
    sketch.text(right, height - 4, x.label, size=SMALL, anchor="end", ink="soft")
    sketch.line(left, bottom, right, bottom, ink="ink")
    for line in lines:
        sketch.path([(across(a), up(b)) for a, b in line.points], ink=line.ink, dash=line.dash, width=line.width)
    for limit in limits:
        sketch.line(left, up(limit.value), right, up(limit.value), ink="mark", dash="5 4", width=1.5)
        sketch.text(right, up(limit.value) - 5, limit.label, size=SMALL, anchor="end", ink="mark")
    for spot in spots:
        sketch.circle(across(spot.x), up(spot.y), 5, fill="mark", line="paper", line_width=1.5)
        drawn = [[(across(a), up(b)) for a, b in line.points] for line in lines]
        drawn += [[(left, up(limit.value)), (right, up(limit.value))] for limit in limits]
        frame = (left, top, right, bottom)
        at_x, at_y, anchor = _beside((across(spot.x), up(spot.y)), spot.label, TEXT, frame, drawn)
        sketch.text(at_x, at_y, spot.label, anchor=anchor, bold=True)
    at = height + 12
    for line in keyed:
        sketch.line(2, at - 4, 26, at - 4, ink=line.ink, dash=line.dash, width=max(line.width, 2))
        sketch.text(34, at, line.name, size=SMALL)
        at += 18

    def for_card(width: float, height: float, size: float) -> Drawing:
        return plot_across(title, description, x, y, lines, limits, spots, room=(width, height, size))

    return sketch.done(for_card)


def _beside(
    spot: tuple[float, float], label: str, size: float, frame: tuple[float, float, float, float],
    lines: Sequence[Sequence[tuple[float, float]]],
) -> tuple[float, float, str]:  # fmt: skip
    """
    Where a marked point's label stands: x, baseline, anchor. Of the places around the point, the first inside the
    frame that no line runs through, else the one with the fewest lines.
    """
    x, y = spot
    left, top, right, bottom = frame
    above, below, level = y - size * 0.6, y + size * 1.35, y + size * 0.34
    end, start = "end", "start"
    inner, outer = (end, start) if x > (left + right) / 2 else (start, end)
    beside = {start: x + size * 0.7, end: x - size * 0.7}
    places = [(x, above, inner), (x, below, inner), (beside[inner], level, inner)]
    places += [(x, above, outer), (x, below, outer), (beside[outer], level, outer)]
    away = {start: x + size * 2.4, end: x - size * 2.4}  # in a corner: past the line that leaves the point
    places += [(away[side], y + by * size, side) for side in (inner, outer) for by in (0.1, 0.8)]

    def cost(place: tuple[float, float, str]) -> tuple[bool, int]:
        box = text_box(place[0], place[1], label, size, place[2], bold=True)
        outside = box.left < left or box.right > right or box.top < top - size * 0.6 or box.bottom > bottom
        crossed = sum(any(_runs_through(a, b, box) for a, b in pairwise(line)) for line in lines)
        return outside, crossed

    return min(places, key=cost)


def _runs_through(a: tuple[float, float], b: tuple[float, float], box: Box) -> bool:
    """Whether the straight line from a to b meets the box (parametric clipping; a textbook's method)."""
    enters, leaves = 0.0, 1.0
    for start, step, low, high in (
        (a[0], b[0] - a[0], box.left, box.right),
        (a[1], b[1] - a[1], box.top, box.bottom),
    ):
        if step == 0:
            if not low <= start <= high:
                return False
            continue
        first, last = sorted(((low - start) / step, (high - start) / step))
        enters, leaves = max(enters, first), min(leaves, last)
    return enters <= leaves


def _spread(named: list[tuple[float, str]], apart: float) -> list[tuple[float, str]]:
    """Every second, third … of the named values, so that they stand so far apart; places, not values, come in."""
    for step in range(1, len(named)):
        kept = named[::step]
        if all(abs(b[0] - a[0]) >= apart for a, b in pairwise(kept)):
            return kept
    return named[:1]


def plot_across(
    title: str, description: str, x: Axis, y: Axis, lines: Sequence[Line], limits: Sequence[Limit] = (),
    spots: Sequence[Spot] = (), *, room: tuple[float, float, float],
) -> Drawing:  # fmt: skip
    """
    Lines over two even axes for a picture: all in one size of type, fewer values named.

    Args:
        title: What it shows. [text]
        description: What there is to see. [text]
        x: The axis along the bottom. [as labelled]
        y: The axis up the side. [as labelled]
        lines: The lines. [list]
        limits: Values of y with a dashed line across. [as y]
        spots: Marked points. [as x and y]
        room: Width, height and size of the type. [drawing unit]

    Returns:
        The drawing. [svg]

    Source:
        None: a drawing.

    Example:
        >>> plot_across("a", "b", Axis("s", 0, 1), Axis("m", 0, 1), [], room=(1728, 600, 56)).height
        600
    """
    width, height, size = room
    row = size * 1.25
    keys = _key_rows(lines if len(lines) > 1 else [], width, size, text_width(x.label, size) + size)
    below = row * (1 + max(len(keys), 1))
    height = max(height, size * 6.5 + below)  # lines in less than that say nothing: smaller type, then
    top, bottom = size * 1.55, height - below
    left = size * 0.55 + max(text_width(name, size) for _, name in y.named())
    right = width - size * 0.3
    sketch = Sketch(title, description, height, width)

    def across(value: float) -> float:
        return left + (right - left) * min(max((value - x.low) / ((x.high - x.low) or 1), 0), 1)

    def up(value: float) -> float:
        return bottom - (bottom - top) * min(max((value - y.low) / ((y.high - y.low) or 1), 0), 1)

    sketch.text(0, size * 0.95, y.label, size=size, ink="soft")
    for place, name in _spread([(up(v), n) for v, n in y.named()], row):
        sketch.line(left, place, right, place, width=3)
        sketch.text(left - size * 0.4, place + size * 0.34, name, size=size, anchor="end", ink="soft")
    widest = max(text_width(name, size) for _, name in x.named())
    for place, name in _spread([(across(v), n) for v, n in x.named()], widest + size * 0.5):
        half = text_width(name, size) / 2
        sketch.line(place, bottom, place, bottom + 14, ink="soft", width=4)
        at = min(max(place, half), width - half)
        sketch.text(at, bottom + size * 1.25, name, size=size, anchor="middle", ink="soft")
    sketch.text(width, height - size * 0.2, x.label, size=size, anchor="end", ink="soft")
    sketch.line(left, bottom, right, bottom, ink="ink", width=4)
    for i, line in enumerate(lines):
        dash = " ".join(f"{float(each) * 3.5:g}" for each in line.dash.split())
        points = [(across(a), up(b)) for a, b in line.points]
        with sketch.later(int(not spots and i == len(lines) - 1)):  # a marked point comes last, or else the last line
            sketch.path(points, ink=line.ink, dash=dash, width=line.width * 3.5)
    for limit in limits:
        sketch.line(left, up(limit.value), right, up(limit.value), ink="mark", dash="18 12", width=5)
        label = limit.label if text_width(limit.label, size) < right - left else ""
        low = up(limit.value) - size < top
        sketch.text(
            right, up(limit.value) + (size if low else -size * 0.25), label, size=size, anchor="end", ink="mark"
        )
    for spot in spots:
        with sketch.later():
            sketch.circle(across(spot.x), up(spot.y), size * 0.3, fill="mark", line="paper", line_width=5)
        drawn = [[(across(a), up(b)) for a, b in line.points] for line in lines]
        drawn += [[(left, up(limit.value)), (right, up(limit.value))] for limit in limits]
        frame = (left, top, right, bottom)
        at_x, at_y, anchor = _beside((across(spot.x), up(spot.y)), spot.label, size, frame, drawn)
        with sketch.later():
            sketch.text(at_x, at_y, spot.label, size=size, anchor=anchor, bold=True)
    for i, entries in enumerate(keys):
        at, begin = height - row * (len(keys) - 1 - i) - size * 0.2, 0.0
        for key, words in entries:
            if key:
                dash = " ".join(f"{float(each) * 3.5:g}" for each in key.dash.split())
                thick = max(key.width, 2) * 3.5
                sketch.line(
                    begin, at - size * 0.3, begin + size * 1.6, at - size * 0.3, ink=key.ink, dash=dash, width=thick
                )
            sketch.text(begin + size * 1.9, at, words, size=size)
            begin += size * 2.9 + text_width(words, size)
    return sketch.done()


def _key_rows(lines: Sequence[Line], width: float, size: float, kept: float) -> list[list[tuple[Line | None, str]]]:
    """A key in rows, each entry a line with its name, or the rest of a long name; the last leaves room for a label."""
    rows: list[list[tuple[Line | None, str]]] = []
    used = width
    for line in lines:
        for i, words in enumerate(wrap(line.name, width - size * 2, size) if line.name else ()):
            wide = size * 2.9 + text_width(words, size)
            if i or used + wide > width + size:
                rows.append([])
                used = 0
            rows[-1].append((None if i else line, words))
            used += wide
    if rows and used + kept > width:
        rows.append([])
    return rows


def percent(share: float) -> str:
    """A share of one as a whole percent in words."""
    return f"{number(share * 100, 0)} %"


__all__ = [
    "TEXT",
    "Axis",
    "Bar",
    "Limit",
    "Line",
    "Part",
    "Spot",
    "bars",
    "even_ticks",
    "percent",
    "plot",
    "plot_across",
    "strip",
]
