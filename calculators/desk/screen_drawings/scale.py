"""A scale with pins and zones, and the round numbers that stand along it."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

from calculators.desk.card_declared import ScreenDrawing
from calculators.desk.numbers import significant
from calculators.desk.screen_drawings.marks import HAIR, THICK, Pin, Zone
from calculators.desk.screen_drawings.names import Named, placed_names, set_names
from calculators.desk.svg import OWN, Drawing, Sketch, steps_of, text_width


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
            Named(across(p.value), p.label, p.mark, False, at) for p, at in zip(pins, pin_steps, strict=True) if p.label
        ]
        named += [
            Named(
                across(z.high) if z.to_end else (across(z.low) + across(z.high)) / 2, z.label, False, not z.to_end, at
            )
            for z, at in zip(zones, zone_steps, strict=True)
            if z.label
        ]
        placed = placed_names(named, width, size)
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
        set_names(sketch, placed, row, size)
        return sketch.done()

    return drawn
