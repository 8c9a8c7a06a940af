"""
The canvas of a screen card: sizes and zones, lines broken by real widths, and a pen that notes the box of all it draws.

Knows texts, shapes and where they stand; knows no answer. desk/card_forms say what is set on it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from math import ceil, floor

from calculators.desk.card_declared import SMALLEST_DRAWN, Equation, Over, Raised
from calculators.desk.card_theme import Theme
from calculators.desk.svg import (
    ABOVE,
    BELOW,
    Box,
    Drawing,
    advance,
    escape,
    staged,
    text_box,
    text_width,
    xml_text,
)

SMALLEST = 56.0  # of type in a picture 1920 wide; smaller is not legible on a phone held upright, 390 px wide
LEAST_HERO = 140.0
LEADING = 1.2
SEAM = 4.0  # how far a plate reaches under the next one
PLATE_EDGE = 30.0  # of a plate above and below what stands on it
PAD = 38.0  # of a plate at the sides: half the air between two columns, so that their plates meet
MOST_UNIT = 5  # letters of a word that stays beside its number
NO_UNITS = ("at", "and", "of", "in", "on", "or")  # short words that are none
BACKGROUNDS = ("light", "dark", "transparent")


@dataclass(frozen=True, slots=True)
class Shape:
    """
    A picture: its size in units, the size it is written in, and the area in which everything that matters must stand.

    free: a corner of that area that stays empty, as left and top edge; None for none.
    """

    width: float
    height: float
    left: float
    top: float
    right: float
    bottom: float
    pixels: tuple[int, int]
    free: tuple[float, float] | None = None
    plated: bool = False  # always lies over other pictures: never a ground of its own


# SMPTE ST 2046-1: title-safe is the inner 90 % of width and height. The captions' band, the lowest 15 %, is
# common practice, no source. Upright: the lowest quarter and the right eighth are covered by a video site's own
# controls, and so is a thumbnail's lower right corner by the video's length; common practice, no source.
_HD = (1920, 1080)
SHAPES = {
    "wide": Shape(1920, 1080, 96, 54, 1824, 918, _HD),
    "panel": Shape(1920, 1080, 1216, 54, 1824, 918, _HD, plated=True),
    "lower": Shape(1920, 1080, 96, 600, 1824, 918, _HD, plated=True),
    "title": Shape(1920, 1080, 96, 54, 1824, 918, _HD),
    "question": Shape(1920, 1080, 96, 54, 1824, 918, _HD),
    "corrected": Shape(1920, 1080, 96, 54, 1824, 918, _HD),
    "thumbnail": Shape(1920, 1080, 96, 54, 1824, 1026, (1280, 720), free=(1500, 900)),
    "upright": Shape(1080, 1920, 64, 150, 945, 1440, (1080, 1920)),
}


@dataclass(slots=True)
class Frame:
    """One step of a card: its name, its SVG, the boxes of everything on it, and which parts are new on it."""

    name: str
    svg: str = ""
    boxes: list[Box] = field(default_factory=list)
    new: tuple[str, ...] = ()


@lru_cache(maxsize=1024)  # a card tries the same words in many widths
def nearest(text: str) -> tuple[str, ...]:
    """The words of a text, a number kept together with the short unit behind it."""
    kept: list[str] = []
    for word in text.split():
        unit = len(word) <= MOST_UNIT and not word[0].isdigit() and word not in NO_UNITS
        if kept and kept[-1][-1].isdigit() and unit:
            kept[-1] += f" {word}"
        else:
            kept.append(word)
    return tuple(kept)


def lines_of(text: str, width: float, size: float, bold: bool = False) -> list[str]:
    """The text in lines; a line is wider than asked only where one word alone is."""
    return _even(_filled(text, width, size, bold)[0], width, size, bold)


def _filled(text: str, width: float, size: float, bold: bool) -> tuple[list[str], float]:
    """Lines that each take as many words as they can, and the width of the widest."""
    lines: list[str] = []
    space, wide, widest = advance(" ", bold), 0, 0
    for word in nearest(text):
        own = advance(word, bold)
        longer = wide + space + own  # the face has no kerning here, so widths add up
        if lines and longer * size / 1000 <= width:
            lines[-1] += f" {word}"
            wide = longer
        else:
            lines.append(word)
            wide = own
        widest = max(widest, wide)
    return lines, widest * size / 1000


def _even(lines: list[str], width: float, size: float, bold: bool) -> list[str]:
    """Lines of two or three without a single short word left at the end, where that is possible."""
    if len(lines) < 2 or " " in lines[-1] or " " not in lines[-2]:
        return lines
    kept = nearest(lines[-2])
    moved = f"{kept[-1]} {lines[-1]}"
    if len(kept) < 3 or text_width(moved, size, bold) > width:
        return lines
    return [*lines[:-2], " ".join(kept[:-1]), moved]


def fits(text: str, width: float, size: float, most: int, bold: bool = False) -> list[str] | None:
    """The text in at most so many lines of that width, or None."""
    fitted = _fitted(text, width, size, most, bold)
    return list(fitted[0]) if fitted else None


@lru_cache(maxsize=4096)  # two thirds of what a card asks it has asked before
def _fitted(text: str, width: float, size: float, most: int, bold: bool) -> tuple[tuple[str, ...], float] | None:
    """As fits(), with the narrowest width in which the text stands in the very same lines."""
    filled, widest = _filled(text, width, size, bold)
    lines = _even(filled, width, size, bold)
    if len(lines) > most:
        return None
    widest = max((widest, *(text_width(line, size, bold) for line in lines)))
    return (tuple(lines), widest) if widest <= width else None


def balanced(text: str, width: float, size: float, most: int, bold: bool = False) -> list[str] | None:
    """As fits(), with lines of about one length: no short word is left alone at the end."""
    fitted = _fitted(text, width, size, most, bold)
    if not fitted:
        return None
    if len(fitted[0]) < 2:
        return list(fitted[0])
    lines, same = fitted
    narrow = width
    while narrow > width / 2:
        narrow -= size / 4
        if narrow >= same:
            continue  # they break nowhere else yet
        tried = _fitted(text, narrow, size, len(lines), bold)
        if tried is None:
            break
        lines, same = tried
    return list(lines)


def cut(text: str, width: float, size: float, most: int) -> list[str]:
    """A question in at most so many lines: cut at a word, with the sign that says so."""
    kept = text.split()
    whole = len(kept)
    while kept:
        shortened = " ".join(kept).rstrip(",;:–-") + ("" if len(kept) == whole else " …")
        if lines := fits(shortened, width, size, most):
            return lines
        kept.pop()
    return []


class Canvas:
    """Draws parts of a card, each by name, and keeps the box of every text and shape."""

    def __init__(self) -> None:
        self.parts: dict[str, list[str]] = {}
        self.layers: list[tuple[str, str]] = []  # a drawing's stages by their parts' names, in the order of painting
        self.boxes: list[Box] = []
        self.plates: dict[str, tuple[float, float, float, float]] = {}  # of parts that share one, by a name of its own
        self.ends: dict[str, tuple[float, float]] = {}  # right and lower edge of a drawing, all without a box included
        self.areas: dict[
            str, tuple[float, float, float, float]
        ] = {}  # all that a part takes, where more than its boxes

    def text(
        self, part: str, text: str, x: float, baseline: float, size: float, ink: str, *, bold: bool = False,
        anchor: str = "start", family: str = "",
    ) -> None:  # fmt: skip
        """One line of text."""
        weight = ' font-weight="600"' if bold else ""
        weight += f' font-family="{escape(family)}"' if family else ""
        box = text_box(x, baseline, text, size, anchor, bold, ink)
        self.shape(
            part,
            f'<text x="{box.left:.1f}" y="{baseline:.1f}" font-size="{size:g}" fill="var(--wa-{ink},#000)"{weight}>'
            f"{xml_text(text)}</text>",
        )
        self.boxes.append(Box(text, box.left, box.top, box.right, box.bottom, size, bold, ink, part))

    def shape(self, part: str, svg: str, what: str = "", box: tuple[float, float, float, float] | None = None) -> None:
        """Something that is not text; with its box where others must keep off it."""
        self.parts.setdefault(part, []).append(svg)
        if box:
            self.boxes.append(Box(what, *box, part=part))

    def drawing(self, part: str, drawn: Drawing, x: float, y: float) -> None:
        """A drawing in its own size; its boxes become the card's, and what of it comes later a part of its own."""
        boxes = [box.moved(x, y, 1, part) for box in drawn.record()]
        stages = drawn.stages or ((0, drawn.body),)
        first = min(stage for stage, _ in stages)  # something of it stands from the first step on
        for stage, body in stages:
            name = staged(part, stage if stage > first else 0)
            svg = f'<g transform="translate({x:.1f} {y:.1f})">{body}</g>'
            self.shape(name, svg)
            self.layers.append((name, svg))
        self.boxes += [replace(box, stage=box.stage if box.stage > first else 0) for box in boxes]
        self.ends[part] = x + drawn.width, y + drawn.height

    def bottom(self, *parts: str) -> float:
        """How far down some parts reach."""
        return max((b.bottom for b in self.boxes if b.part in parts), default=0)


def top_of(baseline: float, size: float) -> float:
    """The upper edge of a line's letters."""
    return baseline - ABOVE * size


def baseline_of(top: float, size: float) -> float:
    """The baseline of a line whose letters begin at this height."""
    return top + ABOVE * size


def equation_width(equation: Equation, size: float) -> float:
    """How wide a line of set mathematics stands."""
    return sum(_wide(part, size) for part in equation) + size * 0.3 * (len(equation) - 1)


def _wide(part: str | Over | Raised, size: float) -> float:
    if isinstance(part, Over):
        return max(text_width(part.top, SMALLEST), text_width(part.bottom, SMALLEST)) + size * 0.2
    if isinstance(part, Raised):
        return text_width(part.base, size, True) + text_width(part.exponent, SMALLEST)
    return text_width(part, size, True)


def set_equation(canvas: Canvas, part: str, equation: Equation, x: float, middle: float, size: float) -> None:
    """One line of mathematics about a middle height, fractions stacked."""
    base = middle + size * 0.35
    for each in equation:
        wide = _wide(each, size)
        if isinstance(each, Over):
            canvas.text(part, each.top, x + wide / 2, middle - 18, SMALLEST, "ink", anchor="middle")
            canvas.text(
                part, each.bottom, x + wide / 2, middle + 18 + ABOVE * SMALLEST, SMALLEST, "ink", anchor="middle"
            )
            rule = f'<rect x="{x:.1f}" y="{middle - 2:.1f}" width="{wide:.1f}" height="5" fill="var(--wa-ink,#000)"/>'
            canvas.shape(part, rule)
        elif isinstance(each, Raised):
            canvas.text(part, each.base, x, base, size, "ink", bold=True)
            canvas.text(part, each.exponent, x + text_width(each.base, size, True), base - size * 0.5, SMALLEST, "ink")
        else:
            canvas.text(part, each, x, base, size, "ink", bold=True)
        x += wide + size * 0.3


def finished(
    canvas: Canvas, standing: Sequence[str], shape: Shape, background: str, theme: Theme,
    regions: Sequence[Sequence[str]], *, font_css: str, label: str, step: int, faint: Sequence[str] = (),
    share: float = 1,
) -> str:  # fmt: skip
    """
    The whole SVG of the parts that stand, with the colours put in: a picture that leaves the page asks no style sheet.

    regions: parts that share one plate where the picture lies over another one. faint: parts that are only coming,
    at this share.
    """
    open_ground = background == "transparent" or shape.plated
    colours = theme.light if background == "light" else theme.dark
    style = f"<style>{font_css}</style>" if font_css else ""
    grounds = (
        [] if open_ground else [f'<rect width="{shape.width:g}" height="{shape.height:g}" fill="{colours["paper"]}"/>']
    )
    if open_ground:
        for region in regions:
            there = [part for part in region if part in standing]
            inside = [box for box in canvas.boxes if box.part in there]
            inside += [Box("", *canvas.areas[part], part=part) for part in there if part in canvas.areas]
            whole = next((canvas.plates[name] for name in region if name in canvas.plates), None)
            plate = _plate(whole or _around(inside, shape), theme, colours["paper"]) if there else ""
            coming = bool(there) and all(part in faint for part in there)
            grounds.append(f'<g opacity="{share:.3f}">{plate}</g>' if coming and share < 1 else plate)
    body = "".join(
        f'<g data-part="{escape(part)}"{_opacity(part, faint, share)}>{svg}</g>'
        for part, svg in _in_order(canvas, standing)
    )
    body = re.sub(r"var\(--wa-([a-z0-9-]+),[^)]*\)", lambda m: colours[m[1]], body)
    wide, high = shape.pixels
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}" height="{high}" '
        f'viewBox="0 0 {shape.width:g} {shape.height:g}" role="img" aria-label="{escape(xml_text(label))}" '
        f'data-step="{step}" font-family="{escape(theme.face)}">{style}{"".join(grounds)}{body}</svg>'
    )


def _in_order(canvas: Canvas, standing: Sequence[str]) -> Iterator[tuple[str, str]]:
    """The parts that stand, as they are painted: a drawing's stages among each other as they were drawn."""
    of_drawing = {name for name, _ in canvas.layers}
    drawn = False
    for part in standing:
        if part not in of_drawing:
            if part in canvas.parts:
                yield part, "".join(canvas.parts[part])
        elif not drawn:
            drawn = True
            yield from ((name, svg) for name, svg in canvas.layers if name in standing)


def _opacity(part: str, faint: Sequence[str], share: float) -> str:
    return f' opacity="{share:.3f}"' if part in faint and share < 1 else ""


def _around(inside: Sequence[Box], shape: Shape) -> tuple[float, float, float, float]:
    """The room of what stands together, and a little more."""
    left, top = max(min(b.left for b in inside) - PAD, 0), max(min(b.top for b in inside) - PLATE_EDGE, 0)
    right = min(max(b.right for b in inside) + PAD, shape.width)
    return left, top, right, min(max(b.bottom for b in inside) + PLATE_EDGE, shape.height)


def _plate(room: tuple[float, float, float, float], theme: Theme, paper: str) -> str:
    """
    A ground behind what stands together: it keeps the contrast over any picture.

    Its edges are whole units, outwards, so that no hair of the picture shows between two plates that meet.
    """
    left, top, right, bottom = floor(room[0]), floor(room[1]), ceil(room[2]), ceil(room[3])
    return (
        f'<rect x="{left:.1f}" y="{top:.1f}" width="{right - left:.1f}" height="{bottom - top:.1f}" '
        f'rx="{theme.corner:g}" fill="{paper}"/>'
    )


__all__ = [
    "ABOVE", "BACKGROUNDS", "BELOW", "LEADING", "LEAST_HERO", "SHAPES", "SMALLEST", "SMALLEST_DRAWN", "Canvas",
    "Frame", "Shape", "balanced", "baseline_of", "cut", "equation_width", "finished", "fits", "lines_of",
    "set_equation", "top_of",
]  # fmt: skip
