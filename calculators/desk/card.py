"""
The screen card: a result laid out for a picture, as frames that reveal it step by step.

Each frame is one SVG: first question, headline and main figures, then the drawings, then the working line by line,
then cautions, sources and the link. Nothing that matters stands outside the safe area or in the captions' band,
and no type is smaller than 56 units. Everything that does not fit goes on the next frame; nothing is cut.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from calculators.desk.answer import Figure
from calculators.desk.as_text import VERDICT_WORDS
from calculators.desk.calculator import Result
from calculators.desk.svg import Drawing, escape, text_width, wrap, xml_text

# SMPTE ST 2046-1: title-safe is the inner 90 % of width and height. The captions' band, the lowest 15 %, is
# common practice, no source. Upright pictures: zones left free for a video site's own controls, common practice.
SMALLEST = 56.0
HEADLINE_SIZES = (132.0, 116.0, 104.0, 96.0)
VALUE = 88.0
LEADING = 1.22
FACE = "'WA Label','Instrument Sans',ui-sans-serif,'Helvetica Neue',sans-serif"

Rows = Sequence[Sequence[bool]]
Colours = dict[str, str]

LIGHT: Colours = {
    "ink": "#15191c",
    "soft": "#3d464c",
    "line": "#b9b5aa",
    "paper": "#fcfbf8",
    "fill-1": "#0a4c69",
    "fill-2": "#8fb0bd",
    "fill-3": "#c79a33",
    "fill-4": "#84945a",
    "mark": "#8a2a0e",
    "yes": "#0f4a30",
    "depends": "#5c3a00",
    "no": "#7a1717",
}
DARK: Colours = {
    "ink": "#f4f1ea",
    "soft": "#c9cdcc",
    "line": "#4a545a",
    "paper": "#101416",
    "fill-1": "#74b6cf",
    "fill-2": "#4d7180",
    "fill-3": "#c79a4a",
    "fill-4": "#8fa163",
    "mark": "#f6b39a",
    "yes": "#a5e0c1",
    "depends": "#f2cf86",
    "no": "#f8b8b3",
}
BACKGROUNDS = ("light", "dark", "transparent")


@dataclass(frozen=True, slots=True)
class Shape:
    """A picture's size and the area in which everything that matters must stand."""

    width: float
    height: float
    left: float
    top: float
    right: float
    bottom: float


WIDE = Shape(1920, 1080, 96, 54, 1824, 918)
UPRIGHT = Shape(1080, 1920, 72, 220, 1008, 1520)
SHAPES = {"wide": WIDE, "upright": UPRIGHT}


@dataclass(frozen=True, slots=True)
class Box:
    """Where something stands on a frame, for checks: what, and its edges."""

    what: str
    left: float
    top: float
    right: float
    bottom: float
    size: float = 0
    header: bool = False


@dataclass(slots=True)
class Frame:
    """One picture: what it shows, its SVG, and the boxes of everything on it."""

    name: str
    svg: str = ""
    boxes: list[Box] = field(default_factory=list)
    parts: list[str] = field(default_factory=list)
    low: float = 0


class _Layout:
    """Puts blocks one below the other and turns to a new frame where one does not fit."""

    def __init__(self, shape: Shape, question: str) -> None:
        self.shape = shape
        self.question = question
        self.frames: list[Frame] = []
        self.y = 0.0

    @property
    def width(self) -> float:
        return self.shape.right - self.shape.left

    @property
    def room(self) -> float:
        return self.shape.bottom - self.y

    def turn(self, name: str) -> None:
        """A new frame, headed by the question."""
        first = not self.frames
        self.frames.append(Frame(name))
        self.y = self.shape.top
        for line in self.headed(first):
            self.put(line, self.shape.left, self.y + SMALLEST * 0.95, SMALLEST, "soft", header=True)
            self.y += SMALLEST * LEADING
        self.y += 22

    def headed(self, first: bool = False) -> list[str]:
        """The question's lines: whole on the first frame as far as half of it goes, at most two on the others."""
        lines = lines_of(self.question, self.width, SMALLEST)
        most = int((self.shape.bottom - self.shape.top) / 2 / (SMALLEST * LEADING)) if first else 2
        if len(lines) <= most:
            return lines
        last = lines[most - 1]
        while last and text_width(last + " …", SMALLEST) > self.width:
            last = last[:-1]
        return [*lines[: most - 1], last + " …"]

    def again(self) -> None:
        """A new frame that begins as a copy of this one: something more is then revealed on it."""
        last = self.frames[-1]
        self.frames.append(Frame(last.name, "", list(last.boxes), list(last.parts)))

    def text(self, text: str, size: float, ink: str, bold: bool = False, left: float = 0, width: float = 0) -> None:
        """A paragraph, wrapped; what does not fit on this frame goes on the next."""
        for line in lines_of(text, width or self.width - left, size, bold):
            if self.room < size * LEADING:
                self.turn(self.frames[-1].name)
            self.put(line, self.shape.left + left, self.y + size * 0.95, size, ink, bold)
            self.y += size * LEADING

    def put(
        self, line: str, x: float, baseline: float, size: float, ink: str, bold: bool = False, header: bool = False
    ) -> None:
        """One line of text."""
        weight = ' font-weight="600"' if bold else ""
        frame = self.frames[-1]
        frame.parts.append(
            f'<text x="{x:.1f}" y="{baseline:.1f}" font-size="{size:g}" fill="var(--wa-{ink},#000)"{weight}>'
            f"{xml_text(line)}</text>"
        )
        # ascent and descent of the face: 0.95 and 0.25 of the size hold every sign of it
        right = x + text_width(line, size, bold)
        frame.boxes.append(Box(line, x, baseline - size * 0.95, right, baseline + size * 0.25, size, header))

    def mark(self, what: str, part: str, left: float, top: float, right: float, bottom: float) -> None:
        """Something that is not text."""
        self.frames[-1].parts.append(part)
        self.frames[-1].boxes.append(Box(what, left, top, right, bottom))


def lines_of(text: str, width: float, size: float, bold: bool = False) -> list[str]:
    """The text in lines no wider than asked; a word that is wider by itself is parted."""
    lines = []
    for line in wrap(" ".join(text.split()), width, size, bold):
        while text_width(line, size, bold) > width and len(line) > 1:
            cut = next(i for i in range(len(line), 0, -1) if i == 1 or text_width(line[:i], size, bold) <= width)
            hyphen = line.rfind("-", 1, cut) + 1
            cut = hyphen or cut
            lines.append(line[:cut])
            line = line[cut:]
        lines.append(line)
    return lines


def height_of(text: str, width: float, size: float, bold: bool = False) -> float:
    """How high a wrapped paragraph stands."""
    return len(lines_of(text, width, size, bold)) * size * LEADING


def frames(
    result: Result,
    *,
    question: str = "",
    shape: str = "wide",
    background: str = "light",
    address: str = "",
    qr: Callable[[str], Rows] | None = None,
    font_css: str = "",
) -> list[Frame]:
    """
    The card's frames, in the order in which they are shown.

    Args:
        result: A run. [object]
        question: Stands on top; the calculator's title where not given. [text]
        shape: wide (1920×1080) or upright (1080×1920). [text]
        background: light, dark or transparent. [text]
        address: The short link to show; without it there is no code either. [text]
        qr: Turns a text into the rows of its QR code, true for dark. [function]
        font_css: Style rules that bring the face along, for a picture that leaves the page. [text]

    Returns:
        The frames, at least one. [list]

    Raises:
        KeyError: The shape is not known.
        ValueError: The background is not known.

    Source:
        SMPTE ST 2046-1 for the safe area, from memory; DESIGN section 7 of this project for sizes.

    Example:
        >>> from calculators.catalogue import find
        >>> frames(find("memory.rate").run({}))[0].name
        'result'
    """
    if background not in BACKGROUNDS:
        raise ValueError(f"background must be one of {', '.join(BACKGROUNDS)}, got {background}")
    layout, linked = _first(SHAPES[shape], question or result.calculator.title, result, address, qr)
    for drawing in result.answer.drawings:
        _drawing(layout, drawing)
    _working(layout, result)
    _closing(layout, result)
    if address and not linked:
        code = _Code(address, qr)
        code.ceiling = layout.y
        _link(layout, code, must=True)
    for frame in layout.frames:
        frame.svg = _finished(frame, layout.shape, background, font_css, result.answer.headline)
    return layout.frames


def _first(
    shape: Shape, question: str, result: Result, address: str, qr: Callable[[str], Rows] | None
) -> tuple[_Layout, bool]:
    """Headline, verdict, main figures and link, in the largest type with which one frame holds them all."""
    headline = result.answer.headline
    for size in HEADLINE_SIZES:
        layout = _Layout(shape, question)
        code = _Code(address, qr)
        _result(layout, result, size, code)
        linked = bool(address) and _link(layout, code, must=False)
        whole = len(layout.frames) == 1 and (linked or not address)
        if whole and len(lines_of(headline, layout.width, size, True)) <= 4:
            break
    return layout, linked


def _result(layout: _Layout, result: Result, size: float, code: _Code) -> None:
    answer = result.answer
    layout.turn("result")
    for caution in answer.cautions:
        if caution.first:
            layout.text(f"Caution: {caution.text}", SMALLEST, "no", bold=True)
            layout.y += 10
    layout.text(answer.headline, size, "ink", bold=True)
    layout.y += 14
    if answer.verdict:
        word = VERDICT_WORDS[answer.verdict.word]
        told = f"{word} {answer.verdict.reason}"
        short = told if height_of(told, layout.width - 56, SMALLEST) <= SMALLEST * LEADING * 2 else word
        if height_of(short, layout.width - 56, SMALLEST) > layout.room:
            layout.turn("result")
        _verdict_shape(layout, answer.verdict.word)
        layout.text(short, SMALLEST, answer.verdict.word, bold=True, left=56)
        layout.y += 14
    code.ceiling = layout.y
    room = layout.width - (code.side + 60 if code.side else 0)  # the code stands beside the figures
    _main_figures(layout, [f for f in answer.figures if f.main][:4], room, code)


def _verdict_shape(layout: _Layout, word: str) -> None:
    """A disc for yes, a triangle for depends, a bar for no: told by shape as well as by word."""
    x, y = layout.shape.left, layout.y + 8
    fill = f'fill="var(--wa-{word},#000)"'
    shapes = {
        "yes": f'<circle cx="{x + 18:g}" cy="{y + 22:g}" r="18" {fill}/>',
        "depends": f'<path d="M{x:g} {y + 40:g} L{x + 18:g} {y + 4:g} L{x + 36:g} {y + 40:g} Z" {fill}/>',
        "no": f'<rect x="{x:g}" y="{y + 14:g}" width="36" height="16" {fill}/>',
    }
    layout.mark(f"verdict {word}", shapes[word], x, y + 4, x + 36, y + 40)


def _main_figures(layout: _Layout, figures: list[Figure], room: float, code: _Code) -> None:
    """Up to four figures, side by side as many as fit."""
    if not figures:
        return
    gap = 40.0
    most = 4 if layout.shape is WIDE else 2
    columns = next((c for c in range(min(most, len(figures)), 0, -1) if _fits(figures, (room - gap * (c - 1)) / c)), 0)
    if not columns:  # too long to stand side by side: one after the other
        for figure in figures:
            layout.text(figure.label, SMALLEST, "soft", width=room)
            layout.text(figure.text, VALUE, "ink", bold=True, width=room)
            code.ceiling = layout.y
        return
    width = (room - gap * (columns - 1)) / columns
    for start in range(0, len(figures), columns):
        row = figures[start : start + columns]
        labels = max(height_of(f.label, width, SMALLEST) for f in row)
        height = labels + max(height_of(f.text, width, VALUE, True) for f in row) + 20
        if height > layout.room:
            layout.turn("result")
            code.ceiling = layout.y
        top = layout.y
        for i, figure in enumerate(row):
            layout.y = top
            left = i * (width + gap)
            layout.text(figure.label, SMALLEST, "soft", left=left, width=width)
            layout.y = top + labels
            layout.text(figure.text, VALUE, "ink", bold=True, left=left, width=width)
        layout.y = top + height


def _fits(figures: list[Figure], width: float) -> bool:
    """Whether every figure's value stands in one line and its label in two."""
    return all(
        text_width(f.text, VALUE, True) <= width and len(lines_of(f.label, width, SMALLEST)) <= 2 for f in figures
    )


class _Code:
    """The short link and its code: how large it is, and the height above which it must not reach."""

    def __init__(self, address: str, qr: Callable[[str], Rows] | None) -> None:
        self.shown = re.sub(r"^https?://(www\.)?", "", address)
        self.rows = [list(row) for row in qr(address)] if qr and address else []
        cells = len(self.rows) + 8 if self.rows else 0  # a quiet zone of four modules: ISO/IEC 18004
        self.module = max(240 // cells, 5) if cells else 0
        self.side = float(cells * self.module)
        self.ceiling = 0.0

    def drawn(self, x: float, y: float) -> str:
        """The code as SVG, dark on white whatever the background."""
        module = self.module
        dark = "".join(
            f"M{x + (j + 4) * module:g} {y + (i + 4) * module:g}h{module}v{module}h-{module}z"
            for i, row in enumerate(self.rows)
            for j, cell in enumerate(row)
            if cell
        )
        return (
            f'<rect x="{x:g}" y="{y:g}" width="{self.side:g}" height="{self.side:g}" fill="#ffffff"/>'
            f'<path d="{dark}" fill="#000000"/>'
        )


def _link(layout: _Layout, code: _Code, must: bool) -> bool:
    """The short link with its code at the foot of the frame, where there is room; False where there is none."""
    width = layout.width - (code.side + 60 if code.side else 0)
    height = height_of(code.shown, width, SMALLEST)
    right, bottom = layout.shape.right, layout.shape.bottom
    if layout.y + height > bottom or bottom - code.side < code.ceiling:
        if not must:
            return False
        layout.turn("link")
    if code.rows:
        x, y = right - code.side, bottom - code.side
        layout.mark("code", code.drawn(x, y), x, y, right, bottom)
    layout.y = bottom - height
    layout.text(code.shown, SMALLEST, "soft", width=width)
    layout.y = bottom
    return True


def _drawing(layout: _Layout, drawing: Drawing) -> None:
    """A drawing as large as the frame allows; left to the page where its words would then be too small."""
    heading = len(layout.headed()) * SMALLEST * LEADING
    heading += height_of(drawing.title, layout.width, SMALLEST, True)
    room = layout.shape.bottom - layout.shape.top - heading - 60
    best = drawing.for_card(layout.width, room, SMALLEST) if drawing.for_card else drawing
    scale = min(layout.width / best.width, room / best.height)
    sizes = [float(s) for s in re.findall(r'font-size="([\d.]+)"', best.body)]
    if sizes and min(sizes) * scale < SMALLEST - 1e-6:
        return
    layout.turn("drawing")
    layout.text(drawing.title, SMALLEST, "ink", bold=True)
    layout.y += 20
    width, height = best.width * scale, best.height * scale
    x = layout.shape.left
    part = (
        f'<svg x="{x:g}" y="{layout.y:g}" width="{width:.2f}" height="{height:.2f}" '
        f'viewBox="0 0 {best.width:g} {best.height:g}">{best.body}</svg>'
    )
    layout.mark(f"drawing {drawing.title}", part, x, layout.y, x + width, layout.y + height)
    layout.y += height


def _working(layout: _Layout, result: Result) -> None:
    """The working, one more line revealed on each frame."""
    first = True
    for work in result.answer.working:
        equation = " = ".join(part for part in (work.formula, work.numbers, work.result) if part)
        height = height_of(work.what, layout.width, SMALLEST) + height_of(equation, layout.width, SMALLEST, True) + 18
        if first or height > layout.room:
            layout.turn("working")
            first = False
        else:
            layout.again()
        layout.text(work.what, SMALLEST, "soft")
        layout.text(equation, SMALLEST, "ink", bold=True)
        layout.y += 18


def _closing(layout: _Layout, result: Result) -> None:
    """Cautions and sources, as many frames as they take."""
    said = [(f"Caution: {c.text} {c.defer}".strip(), "no") for c in result.answer.cautions]
    said += [(f"Source: {s.say()}", "soft") for s in result.answer.sources]
    opened = False
    for text, ink in said:
        height = height_of(text, layout.width, SMALLEST) + 16
        if not opened or height > layout.room:
            layout.turn("cautions and sources")
            opened = True
        layout.text(text, SMALLEST, ink)
        layout.y += 16


def _finished(frame: Frame, shape: Shape, background: str, font_css: str, headline: str) -> str:
    """The whole SVG, with the colours put in: a picture that leaves the page has no style sheet to ask."""
    colours = LIGHT if background == "light" else DARK
    style = f"<style>{font_css}</style>" if font_css else ""
    if background == "transparent":
        # a plate behind the text keeps its contrast over any picture
        low = max((b.bottom for b in frame.boxes), default=shape.bottom) + 24
        plate = (
            f'<rect x="{shape.left - 40:g}" y="{shape.top - 30:g}" width="{shape.right - shape.left + 80:g}" '
            f'height="{low - shape.top + 30:g}" rx="18" fill="{colours["paper"]}"/>'
        )
    else:
        plate = f'<rect width="{shape.width:g}" height="{shape.height:g}" fill="{colours["paper"]}"/>'
    body = re.sub(r"var\(--wa-([a-z0-9-]+),[^)]*\)", lambda m: colours[m[1]], "".join(frame.parts))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{shape.width:g}" height="{shape.height:g}" '
        f'viewBox="0 0 {shape.width:g} {shape.height:g}" role="img" aria-label="{escape(xml_text(headline))}" '
        f'font-family="{FACE}">{style}{plate}{body}</svg>'
    )
