"""
Drawings made for the screen: thick lines, few labels, scaled to the room a card gives them. Knows no subject.

Each function returns a drawing for a width, a height and a size of type, as a card's declaration wants it; what does
not fit in that size gives None. Everything proportional starts at zero and ends at one scale, so that lengths compare.
One colour, mark, is the viewer's own; what it is compared with stays pale; fill-3 is what is not known exactly; and
only what is lost, broken or forbidden has the colour of no.

A drawing builds up as its card does: names, scale and what is compared stand from the first step on, the viewer's own
and what is worked out come with the answer. That is the rule where nothing is said (OWN); `step` of a Row, Pin, Zone
or Beat says otherwise: 0 from the first step on, 1 with the answer, 2 on the step behind. A drawing of one's own does
the same by `with sketch.later():` about what comes with the answer.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, product

from calculators.desk.card_declared import SMALLEST_DRAWN, ScreenDrawing
from calculators.desk.numbers import significant
from calculators.desk.screen_icons import draw_icon
from calculators.desk.svg import ABOVE, OWN, Drawing, Sketch, steps_of, text_width, wrap

THICK = 6.0  # a line that survives a phone and a low bit rate
HAIR = 4.0
LEAST_ICON = 80.0
NAMES_APART = 0.5  # rows of air between names one below the other, so that they are not read as one text
LOW = 420.0  # a room in which a chain stands closer
SMALL = 50.0  # type below this is the smallest that a picture takes
MOST_UNIT = 5  # letters of a word that stays beside its number
LEFT = 24.0  # from the line on which bars begin to their words


@dataclass(frozen=True, slots=True)
class Row:
    """
    One bar: label, length, text. low: where it begins; mark: the viewer's own; fill: a colour's name.

    step: of the card, with which bar and text come; the label stands from the first one on.
    """

    label: str
    value: float
    text: str
    mark: bool = False
    low: float = 0.0
    fill: str = ""
    step: int | None = None


@dataclass(frozen=True, slots=True)
class Pin:
    """A marked value on a scale, with its words. step: of the card, with which it comes."""

    value: float
    label: str
    mark: bool = False
    step: int | None = None


@dataclass(frozen=True, slots=True)
class Zone:
    """
    A stretch of a scale, with its words.

    step: of the card, with which it comes.
    to_end: the words are of the value where it ends ('at most', 'up to'), so the line from them leads there; otherwise
        they are of all of it, and a dot stands in its middle.
    """

    low: float
    high: float
    label: str
    fill: str = "fill-2"
    step: int | None = None
    to_end: bool = False


NARROW = 640.0  # a side panel; in it a drawing and a hero have seldom room together


def narrow_or(narrow: ScreenDrawing, wide: ScreenDrawing) -> ScreenDrawing:
    """One drawing for a side panel, which stands there without a hero and so says what that says; or another."""

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        return narrow(width, height, size) if width < NARROW and height < NARROW else wide(width, height, size)

    return drawn


def screen_bars(rows: Sequence[Row], *, limit: Pin | None = None) -> ScreenDrawing:
    """Bars from one zero to one scale, each below its label and its value."""
    rows = [row for row in rows if math.isfinite(row.value)]
    top = max([row.value for row in rows] + ([limit.value] if limit else []) + [1e-12])
    steps = _row_steps(rows)

    def roomy(width: float, height: float, size: float) -> Drawing | None:
        if not rows:
            return None
        head = size * 1.5 if limit else 0.0
        left = LEFT
        pitch = (height - head) / len(rows)
        thick = min(pitch - size * 1.2 - size * 0.5, 92.0)
        if thick < max(24, size * 0.5 if size > SMALL else 0):  # rather smaller words than a bar like a line
            return None
        pitch = min(pitch, thick + size * 2.2)
        total = head + pitch * len(rows) - size * 0.4  # no air below the last bar
        sketch = Sketch("bars", "; ".join(f"{r.label}: {r.text}" for r in rows), total, width)
        room = width - left - HAIR
        for i, row in enumerate(rows):
            y = head + pitch * i
            if text_width(row.label, size, row.mark) + text_width(row.text, size, True) + size * 0.6 > width - left:
                return None
            ink = "mark" if row.mark else "ink"
            base = y + size * 0.86
            sketch.text(left, base, row.label, size=size, ink=ink, bold=row.mark)
            start, end = room * max(row.low, 0) / top, room * max(row.value, 0) / top
            high, wide = y + size * 1.2, max(end - start, HAIR)
            with sketch.later(steps[i]):
                sketch.text(width, base, row.text, size=size, ink=ink, bold=True, anchor="end")
                sketch.rect(left + start, high, wide, thick, fill=_fill(row), what=f"bar {row.label}")
        sketch.line(THICK / 2, head, THICK / 2, total, ink="ink", width=THICK)
        if limit:
            x = left + room * limit.value / top
            wide = text_width(limit.label, size)
            if wide > width:
                return None
            at = min(max(x - wide / 2, 0), width - wide)
            sketch.text(at, size * 0.86, limit.label, size=size, ink="ink")
            tops = [head + pitch * i + size * 1.2 for i in range(len(rows))]  # through the bars, and through no words
            for a, b in ((size * 1.15, head), *((y - 8, y + thick + 8) for y in tops)):
                sketch.line(x, a, x, b, ink="ink", width=THICK)
        return sketch.done()

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        made = roomy(width, height, size)
        if made or limit or roomy(width, height, SMALLEST_DRAWN):  # rather smaller words than shorter bars
            return made
        return _bars_narrow(rows, top, width, height, size)

    return drawn


def _fill(row: Row) -> str:
    return row.fill or ("mark" if row.mark else "fill-2")


def _row_steps(rows: Sequence[Row]) -> list[int]:
    return steps_of([row.step for row in rows], [row.mark for row in rows])


def _bars_narrow(rows: Sequence[Row], top: float, width: float, height: float, size: float) -> Drawing | None:
    """Bars for a narrow or a low room: each label alone above its bar, in two lines if need be, its value behind it."""
    left, gap = LEFT, size * 0.35
    room = width - left - max((text_width(row.text, size, True) for row in rows), default=0.0) - gap
    ways = [[_evenly(row.label, count, width - left, size, row.mark) for count in (1, 2)] for row in rows]
    labels = [fitting for way in ways if (fitting := way[0] or way[1])]
    count = sum(map(len, labels))
    if not rows or room < width * 0.3 or len(labels) < len(rows):
        return None
    step, between = size * 1.1, size * 0.42
    foot = size * 0.2  # of the last value, below its bar
    thick = min((height - step * count - between * (len(rows) - 1) - foot) / len(rows) - size * 0.1, 76.0)
    if thick < size * 0.8:  # the value stands beside its bar, and must not be much higher
        return None
    total = step * count + (thick + size * 0.1) * len(rows) + between * (len(rows) - 1) + foot
    sketch = Sketch("bars", "; ".join(f"{r.label}: {r.text}" for r in rows), total, width)
    y = 0.0
    for row, lines, stage in zip(rows, labels, _row_steps(rows), strict=True):
        ink = "mark" if row.mark else "ink"
        for line in lines:
            sketch.text(left, y + size * 0.82, line, size=size, ink=ink, bold=row.mark)
            y += step
        y += size * 0.1
        start, end = room * max(row.low, 0) / top, room * max(row.value, 0) / top
        base = y + thick / 2 + size * ABOVE / 2
        with sketch.later(stage):
            sketch.rect(left + start, y, max(end - start, HAIR), thick, fill=_fill(row), what=f"bar {row.label}")
            sketch.text(left + max(end, HAIR) + gap, base, row.text, size=size, ink=ink, bold=True)
        y += thick + between
    sketch.line(THICK / 2, 0, THICK / 2, total - foot, ink="ink", width=THICK)
    return sketch.done()


def round_end(value: float) -> float:
    """
    A round number at which a scale can end, not far above a value.

    Args:
        value: What must stand on the scale. [any], above 0.

    Returns:
        The end. [as the value]

    Raises:
        ValueError: The value is 0 or less, or not finite.

    Source:
        None: a drawing.

    Example:
        >>> round_end(17.2)
        20.0
    """
    if not (value > 0 and math.isfinite(value)):
        raise ValueError(f"value must be above 0 and finite, got {value}")
    unit = float(f"1e{f'{value:e}'.partition('e')[2]}")
    steps = (1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8)
    return next((unit * step for step in steps if unit * step >= value * 1.02), unit * 10)


def ticks(low: float, high: float) -> list[float]:
    """
    Round values strictly inside a scale, four to nine of them.

    Args:
        low: The scale's beginning. [any]
        high: Its end. [as low], above it.

    Returns:
        The values, rising. [as low]

    Raises:
        ValueError: high is not above low.

    Source:
        None: a drawing.

    Example:
        >>> ticks(40, 140)
        [60.0, 80.0, 100.0, 120.0]
    """
    if not high > low:
        raise ValueError(f"high must be above low, got {low} to {high}")
    unit = float(f"1e{f'{high - low:e}'.partition('e')[2]}") / 10
    step = next((unit * s for s in (1, 2, 2.5, 5, 10, 20, 25, 50) if (high - low) / (unit * s) <= 6.01), unit * 100)
    first = math.floor(low / step) + 1
    return [step * i for i in range(first, math.ceil(high / step)) if step * i - low > step * 0.01]


def _numbered(low: float, high: float, across: Callable[[float], float], size: float) -> list[float]:
    """The round values inside a scale of which all have room for their number: each, every second, and so on."""
    inside = ticks(low, high)
    step = inside[1] - inside[0] if len(inside) > 1 else 1.0
    ways = [(every, first) for every in range(1, len(inside) + 1) for first in range(every)]
    fitting: list[list[float]] = []
    for every, first in ways:
        chosen = [value for value in inside if round(value / step) % every == first]
        spans = [(across(v), text_width(_signed(v), size) / 2) for v in (low, *chosen, high)]
        if all(one + half + size * 0.5 < other - wide for (one, half), (other, wide) in pairwise(spans)):
            fitting.append(chosen)
    even = (chosen for chosen in fitting if chosen and _are_even([low, *chosen, high]))
    return next(even, fitting[0] if fitting else [])


def _are_even(values: Sequence[float]) -> bool:
    apart = [b - a for a, b in pairwise(values)]
    return all(abs(each - apart[0]) < abs(apart[0]) * 1e-6 for each in apart)


def _signed(value: float) -> str:
    """A number of a scale, with a true minus sign."""
    return significant(value, 4) if value >= 0 else f"−{significant(-value, 4)}"


def screen_scale(
    low: float, high: float, *, zones: Sequence[Zone] = (), pins: Sequence[Pin] = (), unit: str = "",
    ends: tuple[str, str] | None = None,
) -> ScreenDrawing:  # fmt: skip
    """A scale with stretches and pins, each named above or below it by a line that leads to it."""
    said = [p.step for p in pins] + [z.step for z in zones]
    own = [p.mark for p in pins] + [z.fill in OWN for z in zones]
    steps = steps_of(said, own)
    pin_steps, zone_steps = steps[: len(pins)], steps[len(pins) :]

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        if not high > low or not all(math.isfinite(p.value) for p in pins):
            return None
        # the unit stands behind the last number, which keeps its tick; in a narrow room the names alone tell it
        for behind in (f" {unit}", "") if unit and not ends else ("",):
            if made := with_unit(width, height, size, behind):
                return made
        return None

    def with_unit(width: float, height: float, size: float, behind: str) -> Drawing | None:
        words = ends or (_signed(low), _signed(high))
        # Every number stands under its own tick, the first and the last too: the scale keeps room for half of each.
        left = THICK if ends else max(text_width(words[0], size) / 2, THICK)
        right = width - (THICK if ends else max(text_width(words[1], size) / 2 + text_width(behind, size), THICK))
        if right - left < width / 2:
            return None

        def across(value: float) -> float:
            return left + (right - left) * min(max((value - low) / (high - low), 0), 1)

        named = [
            _Named(across(p.value), p.label, p.mark, False, at)
            for p, at in zip(pins, pin_steps, strict=True)
            if p.label
        ]
        named += [
            _Named(
                across(z.high) if z.to_end else (across(z.low) + across(z.high)) / 2, z.label, False, not z.to_end, at
            )
            for z, at in zip(zones, zone_steps, strict=True)
            if z.label
        ]
        placed = _placed(named, width, size)
        if placed is None:
            return None
        count = sum(len(name.lines) for name in placed)
        row, foot = size * 1.4, size * 1.22
        above, below = row * count + size * 0.4, size * 1.5
        band = min(height - above - below, 210.0)
        if band < size * 1.2:  # rows closer together, where the room is low
            row = size * 1.2
            above, below = row * count + size * 0.2, size * 1.3
            band = min(height - above - below, 210.0)
        if band < size:
            return None
        sketch = Sketch("scale", "; ".join(each.label for each in named), above + band + below, width)
        sketch.rect(left, above, right - left, band, fill="fill-4")
        for zone, at in zip(zones, zone_steps, strict=True):
            a, b = across(zone.low), across(zone.high)
            with sketch.later(at):
                sketch.rect(a, above, max(b - a, HAIR), band, fill=zone.fill, what=f"zone {zone.label}")
        sketch.line(left, above + band, right, above + band, ink="ink", width=THICK)
        for value in (low, *(() if ends else _numbered(low, high, across, size)), high):  # no tick without its number
            x = across(value)
            sketch.line(x, above + band, x, above + band + size * 0.28, ink="ink", width=HAIR)
            if not ends:
                text = _signed(value)
                words_here = text + (behind if value == high else "")
                sketch.text(x - text_width(text, size) / 2, above + band + foot, words_here, size=size, ink="soft")
        if ends:
            sketch.text(0, above + band + foot, ends[0], size=size, ink="soft")
            sketch.text(width, above + band + foot, ends[1], size=size, ink="soft", anchor="end")
        for name in placed:
            each = name.of
            ink = "mark" if each.mark else "ink"
            end = above + band / 2 if each.stretch else above + band
            wide = THICK * 1.6 if each.mark else THICK
            start = row * (name.row + len(name.lines) - 1) + size * 1.18
            with sketch.later(each.step):
                sketch.line(each.x, above, each.x, end, ink="paper", width=wide + 10)  # seen on a dark stretch too
                sketch.line(each.x, start, each.x, end, ink=ink, width=wide)
                if each.stretch:
                    sketch.circle(each.x, end, 13, fill="paper", line="ink", line_width=THICK)
        _set_names(sketch, placed, row, size)
        return sketch.done()

    return drawn


@dataclass(frozen=True, slots=True)
class _Named:
    """What is named above a scale: where, in which words, whether the viewer's own or a stretch; the card's step."""

    x: float
    label: str
    mark: bool
    stretch: bool
    step: int = 0


@dataclass(frozen=True, slots=True)
class _Name:
    """A name in its lines: which row the first of them is, where they begin and how wide they are."""

    of: _Named
    lines: tuple[str, ...]
    row: float
    left: float
    wide: float


_MOST_TRIED = 4  # names that are also tried in two or three lines: with more the ways are too many


def _placed(named: Sequence[_Named], width: float, size: float) -> list[_Name] | None:
    """
    The names from the top row down, each with its left edge, so that no leader runs through another's words.

    The leaders of the rows above pass a row on one side of its words: on the left where the names go down from the
    left, on the right where they go down from the right. In the fewest rows; None where the words are too wide.
    """
    # a name in three lines is read as three; rather smaller words, and three only in the smallest
    most = 1 if len(named) > _MOST_TRIED else 2 if size > SMALLEST_DRAWN else 3
    ways = [_wrapped(each, width, size, most) for each in named]
    for lines in sorted(product(*ways), key=lambda way: sum(map(len, way))):
        for rightwards in (True, False):
            if (rows := _in_rows(named, lines, width, size, rightwards)) is not None:
                return rows
    return None


def _wrapped(each: _Named, width: float, size: float, most: int) -> list[tuple[str, ...]]:
    """A name in one line where it fits, and in two and three of about one length."""
    lines = range(1, min(most, len(_together(each.label))) + 1)
    tried = [_evenly(each.label, count, width, size, each.mark) for count in lines]
    return [tuple(made) for made in tried if made]


def _evenly(text: str, count: int, width: float, size: float, bold: bool = False) -> list[str] | None:
    """A text in so many lines of about one length, or None; what is read together stays on one line."""
    room = text_width(text, size, bold) / count
    made = _in_lines(text, room, size, bold)
    while len(made) > count and room < width:
        room += size / 3
        made = _in_lines(text, room, size, bold)
    inside = len(made) == count and all(text_width(line, size, bold) <= width for line in made)
    return made if inside else None


def _in_lines(text: str, width: float, size: float, bold: bool) -> list[str]:
    """A text in lines that end between things read together, such as '48 to 144 Hz' and 'the range'."""
    kept = _together(text)
    lines: list[str] = []
    for words in kept:
        longer = f"{lines[-1]} {words}" if lines else words
        if lines and text_width(longer, size, bold) <= width:
            lines[-1] = longer
        else:
            lines.append(words)
    return lines


_APART = ("at", "and", "of", "in", "on", "or")  # words that are no unit of the number before them


def _together(text: str) -> list[str]:
    """The words of a text, those in one that no line may part: a range, a number and its unit, an article's word."""
    kept: list[str] = []
    for word in text.split():
        before = kept[-1].rpartition(" ")[2] if kept else ""
        number = before[-1:].isdigit()
        unit = number and len(word) <= MOST_UNIT and word[0].isalpha() and before[0].isdigit() and word not in _APART
        end = before == "to" and " to" in kept[-1] and word[0].isdigit()
        if kept and (unit or end or before in ("a", "an", "the", "at")):
            kept[-1] += f" {word}"
        else:
            kept.append(word)
    return kept


def _in_rows(
    named: Sequence[_Named], lines: Sequence[tuple[str, ...]], width: float, size: float, rightwards: bool
) -> list[_Name] | None:
    """The names in these lines, going down from one side; None where one of them has no place."""
    gap = size * 0.3
    rows: list[_Name] = []
    row = 0
    for each, label_lines in sorted(zip(named, lines, strict=True), key=lambda n: n[0].x, reverse=not rightwards):
        wide = max(text_width(line, size, each.mark) for line in label_lines)
        left = min(max(each.x - wide / 2, 0), width - wide)
        for other in rows:
            left = max(left, other.of.x + gap) if rightwards else min(left, other.of.x - gap - wide)
        # its own leader must still come out below its words, within the last line's length
        last = text_width(label_lines[-1], size, each.mark)
        start = left if each.x < left + wide / 2 or len(label_lines) == 1 else left + wide - last
        if left < 0 or left + wide > width or not start - gap <= each.x <= start + last + gap:
            return None
        rows.append(_Name(each, label_lines, row, left, wide))
        row += len(label_lines)
    return rows


def _set_names(sketch: Sketch, placed: Sequence[_Name], row: float, size: float) -> None:
    """Writes the names, each at the side of its words on which its leader comes out."""
    for name in placed:
        each, right = name.of, name.left + name.wide
        end = len(name.lines) > 1 and each.x >= name.left + name.wide / 2
        ink = "mark" if each.mark else "ink"
        for j, line in enumerate(name.lines):
            base = row * (name.row + j) + size * 0.92
            at, anchor = (right, "end") if end else (name.left, "start")
            with sketch.later(each.step):
                sketch.text(at, base, line, size=size, ink=ink, bold=each.mark, anchor=anchor)


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


def screen_fall(parts: Sequence[tuple[str, float, str]], *, mark: int = -1) -> ScreenDrawing:
    """Spans that follow each other, each row beginning where the one above ended."""
    rows, at = [], 0.0
    for i, (label, span, text) in enumerate(parts):
        rows.append(Row(label, at + span, text, i == mark, at))
        at += span
    return screen_bars(rows)


def screen_chain(
    nodes: Sequence[tuple[str, str, str]], *, broken: int = -1, mark: int = -1, linked: bool = True,
    later: Sequence[int] | None = None,
) -> ScreenDrawing:  # fmt: skip
    """
    Things one after the other, from top to bottom: (icon, name, what is said of it).

    icon: computer, display, box, cable, wall, plug and the connectors of desk/screen_icons.py. broken: the node whose
    way on is cut. mark: the one meant. linked: whether something goes from each to the next; a mere list has no arrows.
    later: the nodes that come with the card's answer; where not told the one meant, else the last. What goes from one
    to the next comes with the later of the two, and where it is cut with the answer.
    """
    if later is None:
        later = () if broken >= 0 else (mark,) if mark >= 0 else (len(nodes) - 1,) if len(nodes) > 1 else ()
    steps = [int(i in later) for i in range(len(nodes))]
    ways = [1 if i == broken else max(pair) for i, pair in enumerate(pairwise(steps))]

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        if not nodes:
            return None
        if made := down(width, height, size):
            return made
        room = (width, height, size)
        if not linked:
            return None
        if made := _chain_across(nodes, broken, mark, room, (steps, ways)):
            return made
        # names at their own things, if smaller, before names one below the other, which run into one text
        least = (width, height, SMALLEST_DRAWN)
        if size > SMALLEST_DRAWN and (down(*least) or _chain_across(nodes, broken, mark, least, (steps, ways))):
            return None
        return _chain_named(nodes, broken, mark, room, (steps, ways))

    def down(width: float, height: float, size: float) -> Drawing | None:
        count = len(nodes)
        gap = 62.0 if height > LOW else 48.0
        high = min((height - gap * (count - 1)) / count, 200.0)
        if high < size * 1.6:
            return None
        icon, step = min(high, 150.0), size * 1.2
        left = icon + size * 0.8
        words = [(wrap(n[1], width - left, size, True), wrap(n[2], width - left, size) if n[2] else []) for n in nodes]
        whole = all(len(own) < 3 and (len(own) + len(more)) * step <= high + size * 0.1 for own, more in words)
        if not whole and not linked:  # in a list it is what is said of them that tells things apart
            return None
        sketch = Sketch(
            "chain", ", then ".join(f"{n[1]} {n[2]}".strip() for n in nodes), high * count + gap * (count - 1), width
        )
        for i, (kind, _, _) in enumerate(nodes):
            y = i * (high + gap)
            ink = "mark" if i == mark else "ink"
            with sketch.later(steps[i]):
                draw_icon(sketch, kind, 0, y + (high - icon) / 2, icon, ink)
            lines, more = words[i] if whole else (words[i][0], [])
            inner = size * (0.5 if linked and 0 < i < count - 1 else 0.1)  # only between two others words may reach out
            if len(lines) * step > high + inner:
                return None
            base = y + high / 2 - (len(lines) + len(more)) * step / 2 + size * 0.92
            for j, line in enumerate(lines + more):
                own = j < len(lines)
                with sketch.later(steps[i]):
                    sketch.text(left, base + j * step, line, size=size, bold=own, ink=ink if own else "soft")
            if linked and i + 1 < count:
                with sketch.later(ways[i]):
                    _way_down(sketch, icon / 2, y + high + 6, y + high + gap - 4, i == broken)
        return sketch.done()

    return drawn


def _way_down(sketch: Sketch, x: float, a: float, b: float, cut: bool) -> None:
    """From one thing to the one below it: an arrow, or a way that is cut."""
    sketch.line(x, a, x, b - 16, ink="no" if cut else "ink", width=THICK * 1.5)
    if cut:
        middle = (a + b) / 2
        for one in (-1, 1):
            sketch.line(x - 26, middle - 20 * one, x + 26, middle + 20 * one, ink="no", width=THICK * 1.5)
    else:
        sketch.path([(x - 20, b - 24), (x, b), (x + 20, b - 24)], ink="ink", width=THICK * 1.5)


Stages = tuple[Sequence[int], Sequence[int]]  # the card's steps of the nodes, and of the ways from each to the next


def _chain_across(
    nodes: Sequence[tuple[str, str, str]], broken: int, mark: int, room: tuple[float, float, float], stages: Stages
) -> Drawing | None:
    """The chain with its nodes side by side, for room that is wider than high: each name below its icon."""
    width, height, size = room
    each = width / len(nodes)
    names = [wrap(name, each - size * 0.3, size, True) for _, name, _ in nodes]
    if max(map(len, names)) > 2 or any(text_width(line, size, True) > each for lines in names for line in lines):
        return None
    deep = max(map(len, names))
    icon = min(height - size * (0.5 + 1.15 * deep), 190.0, each * 0.6)
    if icon < 80:
        return None
    sketch = Sketch("chain", ", then ".join(node[1] for node in nodes), icon + size * (0.4 + 1.15 * deep), width)
    middles = [each * (i + 0.5) for i in range(len(nodes))]
    _icons_in_a_row(sketch, nodes, middles, (0, icon), broken, mark, stages)
    for i, lines in enumerate(names):
        for j, line in enumerate(lines):
            base, ink = icon + size * (1.2 + 1.15 * j), "mark" if i == mark else "ink"
            with sketch.later(stages[0][i]):
                sketch.text(middles[i], base, line, size=size, bold=True, ink=ink, anchor="middle")
    return sketch.done()


def _chain_named(
    nodes: Sequence[tuple[str, str, str]], broken: int, mark: int, room: tuple[float, float, float], stages: Stages
) -> Drawing | None:
    """The same where the room is low and the names are long: names one below the other, a leader down to each icon."""
    width, height, size = room
    icon = min(width / (len(nodes) * 1.6), 150.0)
    ends = icon / 2 + HAIR, width - icon / 2 - HAIR
    middles = [ends[0] + (ends[1] - ends[0]) * i / max(len(nodes) - 1, 1) for i in range(len(nodes))]
    named = [_Named(middles[i], name, i == mark, False, stages[0][i]) for i, (_, name, _) in enumerate(nodes)]
    placed = _placed(named, width, size)
    if placed is None:
        return None
    count, row = float(sum(len(name.lines) for name in placed)), size * 1.12
    air = NAMES_APART * (len(placed) - 1)
    if height - row * (count + air) - size * 0.5 >= LEAST_ICON:
        rank = {id(name): i for i, name in enumerate(sorted(placed, key=lambda name: name.row))}
        placed = [replace(name, row=name.row + NAMES_APART * rank[id(name)]) for name in placed]
        count += air
    elif size > SMALLEST_DRAWN:  # rather smaller, and apart
        return None
    icon = min(icon, height - row * count - size * 0.5)
    if icon < LEAST_ICON:
        return None
    top = row * count + size * 0.5
    sketch = Sketch("chain", ", then ".join(node[1] for node in nodes), top + icon + HAIR, width)
    for name in placed:
        ink = "mark" if name.of.mark else "line"
        start = row * (name.row + len(name.lines) - 1) + size * 1.12
        with sketch.later(name.of.step):
            sketch.line(name.of.x, start, name.of.x, top - 4, ink=ink, width=HAIR)
    _set_names(sketch, placed, row, size)
    _icons_in_a_row(sketch, nodes, middles, (top, icon), broken, mark, stages)
    return sketch.done()


def _icons_in_a_row(
    sketch: Sketch, nodes: Sequence[tuple[str, str, str]], middles: Sequence[float], at: tuple[float, float],
    broken: int, mark: int, stages: Stages,
) -> None:  # fmt: skip
    """Icons about their middles, an arrow from each to the next, or a way that is cut. at: their top and their size."""
    y, icon = at
    for i, (kind, _, _) in enumerate(nodes):
        with sketch.later(stages[0][i]):
            draw_icon(sketch, kind, middles[i] - icon / 2, y, icon, "mark" if i == mark else "ink")
        if i + 1 < len(nodes):
            ends = middles[i] + icon * 0.62, middles[i + 1] - icon * 0.62
            with sketch.later(stages[1][i]):
                _way_on(sketch, *ends, y + icon / 2, i == broken)


def _way_on(sketch: Sketch, a: float, b: float, middle: float, cut: bool) -> None:
    """From one thing to the one beside it: an arrow, or a way that is cut."""
    head = min(22.0, (b - a) / 2)
    sketch.line(a, middle, b, middle, ink="no" if cut else "ink", width=THICK * 1.5)
    if cut:
        x = (a + b) / 2
        for one in (-1, 1):
            sketch.line(x - 24, middle - 24 * one, x + 24, middle + 24 * one, ink="no", width=THICK * 1.5)
    else:
        points = [(b - head, middle - head * 0.9), (b, middle), (b - head, middle + head * 0.9)]
        sketch.path(points, ink="ink", width=THICK * 1.5)


def screen_ladder(rungs: Sequence[str], at: int) -> ScreenDrawing:
    """Stages one below the other on a line; all up to one of them are taken, and that one is marked."""

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        if not rungs:
            return None
        pitch = min(height / len(rungs), 170.0)
        radius = min(pitch * 0.34, 44.0)
        if pitch < size * 1.25:
            return None
        sketch = Sketch("stages", "; ".join(rungs), pitch * len(rungs), width)
        x = radius + HAIR
        sketch.line(x, pitch * 0.5, x, pitch * (len(rungs) - 0.5), ink="line", width=THICK * 1.5)
        for i in range(len(rungs)):
            sketch.circle(x, pitch * (i + 0.5), radius * 0.72, fill="paper", line="line", line_width=THICK)
        with sketch.later():  # how far it goes is the answer
            sketch.line(x, pitch * 0.5, x, pitch * (max(at, 0) + 0.5), ink="mark", width=THICK * 1.5)
            for i in range(at + 1):
                side = radius if i == at else radius * 0.72
                sketch.circle(x, pitch * (i + 0.5), side, fill="mark", line="mark", line_width=THICK)
        for i, rung in enumerate(rungs):
            y = pitch * (i + 0.5)
            room = width - x - radius - size * 0.6
            lines = wrap(rung, room, size)
            lines = _evenly(rung, len(lines), room, size) or lines
            if len(lines) * size * 1.15 > pitch:
                return None
            for j, line in enumerate(lines):
                base = y + size * ABOVE / 2 + (j - (len(lines) - 1) / 2) * size * 1.15
                sketch.text(x + radius + size * 0.6, base, line, size=size)  # the dot alone tells how far
        return sketch.done()

    return drawn


def screen_levels(rows: Sequence[tuple[str, int]], most: int, ends: tuple[str, str]) -> ScreenDrawing:
    """Rows of so many fields each, filled up to a level; what none and all of them mean stands above."""

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        head = size * 1.3
        pitch = min((height - head) / max(len(rows), 1), 130.0)
        if not rows or pitch < size * 1.12:
            return None
        labels = max(text_width(label, size, True) for label, _ in rows) + size * 0.6
        each = (width - labels) / most
        if each < size:
            return None
        sketch = Sketch(
            "levels", "; ".join(f"{label}: {level} of {most}" for label, level in rows), head + pitch * len(rows), width
        )
        sketch.text(labels, size * 0.86, ends[0], size=size, ink="soft")
        sketch.text(width, size * 0.86, ends[1], size=size, ink="soft", anchor="end")
        for i, (label, level) in enumerate(rows):
            y, full = head + pitch * i, level == most
            sketch.text(0, y + pitch / 2 + size * 0.34, label, size=size)
            for j in range(most):
                room = labels + each * j, y + pitch * 0.16, each - 10, pitch * 0.68
                sketch.rect(*room, fill="fill-4", what=f"{label} {j}")
                if j < level:  # how much is the answer
                    with sketch.later():
                        sketch.rect(*room, fill="mark" if full else "fill-2")
        return sketch.done()

    return drawn


def screen_columns(
    heights: Sequence[float], *, marked: Callable[[int], bool], ends: tuple[str, str], label: str, title: str = "",
    own: tuple[int, str] | None = None,
) -> ScreenDrawing:  # fmt: skip
    """
    Columns side by side over one foot, some of them marked; the ends of the foot and the marked ones are named.

    title: what the columns are. own: the viewer's own column and its words; it stands on the foot from the first step
    on, and an end that it would touch gives way.
    """

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        if not heights or len(heights) > 101:
            return None
        head = size * (2.8 if title else 1.5)
        tall = height - size * 1.4 - head
        if tall < size * 2 or text_width(title, size) > width or text_width(label, size, True) > width:
            return None
        top = max(*heights, 1e-12)
        sketch = Sketch("columns", f"{label}; from {ends[0]} to {ends[1]}", height, width)
        each = width / len(heights)
        foot = head + tall
        gap = min(each * 0.18, 8.0)
        for i, share in enumerate(heights):
            high = tall * share / top
            room = i * each + gap / 2, foot - max(high, 3), each - gap, max(high, 3)
            with sketch.later(int(marked(i))):
                sketch.rect(*room, fill="mark" if marked(i) else "fill-2", what=f"column {i}")
        sketch.line(0, foot, width, foot, ink="ink", width=THICK)
        begin, end = text_width(ends[0], size), width - text_width(ends[1], size)
        if own:
            wide, at = text_width(own[1], size, True), each * (own[0] + 0.5)
            left = min(max(at - wide / 2, 0), width - wide)
            sketch.line(at, foot, at, foot + size * 0.34, ink="mark", width=THICK * 1.5)
            sketch.text(left, foot + size * 1.25, own[1], size=size, bold=True, ink="mark")
            begin, end = (begin if begin + size * 0.4 < left else -1), (end if left + wide + size * 0.4 < end else -1)
        if begin >= 0:
            sketch.text(0, foot + size * 1.25, ends[0], size=size, ink="soft")
        if end >= 0:
            sketch.text(width, foot + size * 1.25, ends[1], size=size, ink="soft", anchor="end")
        if title:
            sketch.text(0, size * 0.86, title, size=size, ink="ink")
        with sketch.later():
            sketch.text(width, head - size * 0.64, label, size=size, bold=True, ink="mark", anchor="end")
        return sketch.done()

    return drawn


def screen_ramps(rows: Sequence[tuple[str, Sequence[float], Sequence[str]]]) -> ScreenDrawing:
    """Ramps of grey one below the other: (label, greys from 0 to 1, words at the ends)."""

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        pitch = height / max(len(rows), 1)
        high = min(pitch - size * 2.9, 210.0)
        if not rows or high < size * 0.8:
            return None
        sketch = Sketch("ramps", "; ".join(row[0] for row in rows), pitch * len(rows), width)
        steps = steps_of([None] * len(rows), [False] * len(rows))
        for i, (label, greys, words) in enumerate(rows):
            y = pitch * i
            sketch.text(0, y + size * 0.86, label, size=size, bold=True)
            sketch.rect(2, y + size * 1.2, width - 4, high, fill="none", line="ink", line_width=HAIR)
            with sketch.later(steps[i]):
                _ramp(sketch, greys, words, (y + size * 1.2, width, high, size))
        return sketch.done()

    return drawn


def _ramp(
    sketch: Sketch, greys: Sequence[float], words: Sequence[str], room: tuple[float, float, float, float]
) -> None:
    """One ramp and the words at its ends. room: its top, width and height, and the size of type."""
    top, width, high, size = room
    each = width / len(greys)
    for j, grey in enumerate(greys):
        level = round(min(max(grey, 0), 1) * 255)
        sketch.rect(j * each, top, each + 0.5, high, fill=f"#{level:02x}{level:02x}{level:02x}")
    sketch.rect(2, top, width - 4, high, fill="none", line="ink", line_width=HAIR)
    for text, anchor, x in ((words[0], "start", 0.0), (words[-1], "end", width)):
        if text:
            sketch.text(x, top + high + size, text, size=size, ink="no", anchor=anchor)


def screen_stripes() -> ScreenDrawing:
    """Fine coloured lines, each pixel with its own colour, and the same where neighbours share one."""
    kinds = (("each pixel its own colour", ("#c03028", "#2848b0")), ("colour shared by four", ("#7a3c6c",)))

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        pitch, each = height / 2, 18.0
        high = min(pitch - size * 1.8, 210.0)
        if high < 60:
            return None
        sketch = Sketch("stripes", "; ".join(kind[0] for kind in kinds), pitch * 2, width)
        for i, (label, inks) in enumerate(kinds):
            sketch.text(0, pitch * i + size * 0.86, label, size=size, bold=True)
            with sketch.later(i):
                for j in range(int(width // each)):
                    sketch.rect(j * each, pitch * i + size * 1.25, each, high, fill=inks[j % len(inks)])
        return sketch.done()

    return drawn


def screen_edges() -> ScreenDrawing:
    """A picture with a frame on its outermost pixels, all four sides in sight."""

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        high = min(height - size * 1.6, width * 9 / 16)
        if high < 120:
            return None
        wide = high * 16 / 9
        sketch = Sketch("edges", "a frame on the outermost pixels", high + size * 1.5, width)
        sketch.rect(0, 0, wide, high, fill="fill-4", what="picture")
        with sketch.later():
            sketch.rect(7, 7, wide - 14, high - 14, fill="none", line="mark", line_width=14, what="frame")
        for i, step in enumerate((10.0, 20.0, 40.0)):
            x, side = wide * (0.12 + 0.28 * i), wide * 0.2
            for j in range(0, int(side // step), 2):
                sketch.rect(x + j * step, high * 0.25, step, high * 0.5, fill="ink")
        with sketch.later():
            sketch.text(0, high + size * 1.1, "all four sides in sight", size=size, bold=True, ink="mark")
        return sketch.done()

    return drawn


__all__ = [
    "Pin",
    "Row",
    "Zone",
    "narrow_or",
    "round_end",
    "screen_bars",
    "screen_chain",
    "screen_columns",
    "screen_edges",
    "screen_fall",
    "screen_ladder",
    "screen_levels",
    "screen_ramps",
    "screen_scale",
    "screen_strip",
    "screen_stripes",
    "ticks",
]  # fmt: skip
