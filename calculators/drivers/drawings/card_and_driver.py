"""Graphics cards and the drivers they run on, for the screen. Knows icons; knows no list of a system's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calculators.desk.card_declared import ScreenDrawing
from calculators.desk.svg import Drawing, Sketch, text_width, wrap

OWN, BASIC, UNTOLD, UNUSED = "own", "basic", "untold", "unused"
_LINE = 7.0
_LEAST_ICON = 62.0  # a card's height; smaller its fan is not seen
_MOST_ICON = 150.0
_STEP = 1.2  # from line to line, in sizes of type


@dataclass(frozen=True, slots=True)
class Served:
    """One row: of whom it speaks, what is said of it, and what it runs on: OWN, BASIC, UNTOLD; UNUSED has no card."""

    who: str
    what: str
    state: str


def cards_and_drivers(rows: Sequence[Served]) -> ScreenDrawing:
    """Each card with a way to its driver: ticked, crossed for the basic one, with a question where it is not told."""

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        if not rows:
            return None
        return beside(width, height, size) or below(width, height, size)

    def beside(width: float, height: float, size: float) -> Drawing | None:
        pitch = min(height / len(rows), 300.0)
        icon = min(pitch - size * 0.5, _MOST_ICON, width * 0.16)
        left = icon * 3.6 + size * 0.4
        if icon < _LEAST_ICON or width - left < size * 6:
            return None
        words = [_words(row, width - left, size) for row in rows]
        if max(map(len, words)) * size * _STEP > pitch - size * 0.2:
            return None
        if any(text_width(line, size, bold) > width - left for lines in words for line, bold in lines):
            return None
        sketch = _sketch(rows, pitch * len(rows), width)
        for i, (row, lines) in enumerate(zip(rows, words, strict=True)):
            middle = pitch * (i + 0.5)
            _row(sketch, row, i, (0, middle - icon / 2), icon, size)
            _said(sketch, row, lines, (left, middle - len(lines) * size * _STEP / 2), size)
        return sketch.done()

    def below(width: float, height: float, size: float) -> Drawing | None:
        words = [_words(row, width, size) for row in rows]
        pitch = min(height / len(rows), 380.0)
        text = max(map(len, words)) * size * _STEP
        icon = min(pitch - text - size * 0.7, _MOST_ICON, width * 0.26)
        if icon < _LEAST_ICON or any(text_width(line, size, bold) > width for lines in words for line, bold in lines):
            return None
        pitch = icon + text + size * 0.7
        sketch = _sketch(rows, pitch * len(rows), width)
        for i, (row, lines) in enumerate(zip(rows, words, strict=True)):
            _row(sketch, row, i, (0, pitch * i), icon, size)
            _said(sketch, row, lines, (0, pitch * i + icon + size * 0.3), size)
        return sketch.done()

    return drawn


def _sketch(rows: Sequence[Served], height: float, width: float) -> Sketch:
    return Sketch("cards and their drivers", "; ".join(f"{row.who} {row.what}" for row in rows), height, width)


def _words(row: Served, width: float, size: float) -> list[tuple[str, bool]]:
    """The lines of a row, each with whether it is bold."""
    own = [(line, True) for line in wrap(row.who, width, size, True)]
    return own + [(line, False) for line in wrap(row.what, width, size)]


def _said(sketch: Sketch, row: Served, lines: list[tuple[str, bool]], at: tuple[float, float], size: float) -> None:
    """The words of a row: whom it speaks of from the first step on, what is said of it with the answer."""
    x, y = at
    for j, (line, bold) in enumerate(lines):
        with sketch.later(int(not bold or row.state == UNUSED)):
            base = y + (j + 0.5) * size * _STEP + size * 0.34
            sketch.text(x, base, line, size=size, bold=bold, ink="ink" if bold else "soft")


def _row(sketch: Sketch, row: Served, i: int, at: tuple[float, float], icon: float, size: float) -> None:
    """Card, way and driver of one row, from its upper left corner: three and a half icons wide."""
    x, y = at
    if row.state != UNUSED:
        _card(sketch, x, y, icon, f"card {i}")
        sketch.path(_sheet(x + icon * 2.64, y, icon), ink="line", closed=True, width=_LINE, dash="20 14")
    with sketch.later():
        if row.state == UNUSED:
            sketch.rect(x + _LINE, y + icon * 0.12, icon * 1.35, icon * 0.76, fill="none", line="line",
                        line_width=_LINE, dash="20 14", what=f"no card {i}")  # fmt: skip
        start, end, middle = x + icon * 1.62, x + icon * 2.52, y + icon / 2
        if row.state == OWN:
            sketch.line(start, middle, end, middle, ink="mark", width=_LINE * 1.4)
            _tick(sketch, (start + end) / 2, middle - icon * 0.26, icon * 0.36)
        elif row.state == BASIC:
            sketch.line(start, middle, end, middle, ink="no", width=_LINE * 1.4, dash="18 14")
            _cross(sketch, (start + end) / 2, middle, icon * 0.2)
        elif row.state == UNTOLD:
            sketch.text((start + end) / 2, middle + size * 0.36, "?", size=size, bold=True, anchor="middle")
        _driver(sketch, x + icon * 2.64, y, icon, row.state, f"driver {i}")


def _card(sketch: Sketch, x: float, y: float, icon: float, what: str) -> None:
    """A graphics card from the side: bracket, board, fan, contacts."""
    top, high, wide = y + icon * 0.12, icon * 0.62, icon * 1.35
    sketch.line(x + _LINE / 2, y, x + _LINE / 2, y + icon, ink="ink", width=_LINE)
    sketch.rect(x + _LINE, top, wide, high, fill="fill-4", line="ink", line_width=_LINE, what=what)
    sketch.rect(x + icon * 0.3, top + high, icon * 0.6, icon * 0.16, fill="ink")
    centre, radius = (x + wide * 0.56, top + high / 2), high * 0.36
    sketch.circle(*centre, radius, fill="paper", line="ink", line_width=_LINE)
    sketch.circle(*centre, radius * 0.34, fill="ink")


_SHEET = 0.72  # how wide a sheet is, of its height


def _sheet(x: float, y: float, icon: float) -> list[tuple[float, float]]:
    """The outline of a sheet with one corner folded."""
    wide, fold = icon * _SHEET, icon * 0.24
    return [(x, y), (x + wide - fold, y), (x + wide, y + fold), (x + wide, y + icon), (x, y + icon)]


def _driver(sketch: Sketch, x: float, y: float, icon: float, state: str, what: str) -> None:
    """A driver as a sheet of lines: full where a card runs on its own, an outline otherwise."""
    wide = icon * _SHEET
    ink, fill = {OWN: ("mark", "mark"), BASIC: ("no", "paper")}.get(state, ("ink", "paper"))
    sketch.path(_sheet(x, y, icon), ink=ink, fill=fill, closed=True, width=_LINE)
    sketch.note(what, x, y, x + wide, y + icon, fill)
    for share in (0.42, 0.6, 0.78):
        line = "paper" if fill == "mark" else ink
        sketch.line(x + wide * 0.2, y + icon * share, x + wide * 0.8, y + icon * share, ink=line, width=_LINE)


def _tick(sketch: Sketch, x: float, y: float, side: float) -> None:
    down, up = (x - side * 0.15, y + side * 0.35), (x + side * 0.65, y - side * 0.6)
    sketch.path([(x - side * 0.6, y - side * 0.1), down, up], ink="yes", width=_LINE * 1.5)


def _cross(sketch: Sketch, x: float, y: float, half: float) -> None:
    for one in (-1, 1):
        sketch.line(x - half, y - half * one, x + half, y + half * one, ink="no", width=_LINE * 1.5)
