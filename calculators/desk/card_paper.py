"""
The paper of screen cards: sizes, safe area, colours, and type set line by line on one frame after another.

Knows texts, shapes and where they stand; knows no answer. desk/card.py says what is set on it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import lru_cache

from calculators.desk.svg import escape, text_width, xml_text

# SMPTE ST 2046-1: title-safe is the inner 90 % of width and height. The captions' band, the lowest 15 %, is
# common practice, no source. Upright pictures: zones left free for a video site's own controls, common practice.
SMALLEST = 56.0
LEADING = 1.22
MOST_UNIT = 5  # letters
FACE = "'WA Label','Instrument Sans',ui-sans-serif,'Helvetica Neue',sans-serif"

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
    """Where something stands on a frame, for checks: what, its edges, its type; `on` what it lies, if on anything."""

    what: str
    left: float
    top: float
    right: float
    bottom: float
    size: float = 0
    header: bool = False
    on: str = ""


@dataclass(slots=True)
class Frame:
    """One picture: what it shows, its SVG, and the boxes of everything on it."""

    name: str
    svg: str = ""
    boxes: list[Box] = field(default_factory=list)
    parts: list[str] = field(default_factory=list)


class Paper:
    """Puts blocks one below the other and turns to a new frame where one does not fit."""

    def __init__(self, shape: Shape, question: str) -> None:
        self.shape = shape
        self.question = question
        self.frames: list[Frame] = []
        self.y = 0.0
        # a corner at the right top that text runs around: its left edge and its lower one
        self.corner = (shape.right, 0.0)

    @property
    def width(self) -> float:
        """The width of the safe area."""
        return self.shape.right - self.shape.left

    @property
    def room(self) -> float:
        """What is left of the height."""
        return self.shape.bottom - self.y

    def free(self) -> float:
        """How wide a line may be here: narrower beside the corner."""
        left, bottom = self.corner
        return (left if self.y < bottom else self.shape.right) - self.shape.left

    def turn(self, name: str, headed: bool = True, corner: tuple[float, float] | None = None) -> None:
        """A new frame, headed by the question: all of it on the first, one line of it on the others."""
        first = not self.frames
        self.frames.append(Frame(name))
        self.y = self.shape.top
        self.corner = corner or (self.shape.right, 0.0)
        if not headed:
            return
        rest = self.question
        most = int((self.shape.bottom - self.shape.top) / 2 / (SMALLEST * LEADING)) if first else 2 if corner else 1
        while rest and most:
            most -= 1
            line, rest = first_line(rest, self.free(), SMALLEST)
            if rest and not most:
                line = shortened(line, self.free())
            self.put(line, self.shape.left, self.y + SMALLEST * 0.95, SMALLEST, "soft", header=True)
            self.y += SMALLEST * LEADING
        self.y += 22

    def again(self) -> None:
        """A new frame that begins as a copy of this one: something more is then revealed on it."""
        last = self.frames[-1]
        self.frames.append(Frame(last.name, "", list(last.boxes), list(last.parts)))

    def text(
        self, text: str, size: float, ink: str, *, bold: bool = False, left: float = 0, width: float = 0,
        leading: float = LEADING, until: float = 1e9,
    ) -> None:  # fmt: skip
        """
        A paragraph, wrapped; what does not fit on this frame goes on the next.

        left: how far it is indented; until: the height at which that ends, where it runs around something.
        """
        rest = " ".join(text.split())
        while rest:
            if self.room < size * 1.15:
                self.turn(self.frames[-1].name)
                left = left if until == 1e9 else 0
            if self.y >= until:
                left = 0
            line, rest = first_line(rest, width or self.free() - left, size, bold)
            self.put(line, self.shape.left + left, self.y + size * 0.95, size, ink, bold=bold)
            self.y += size * leading

    def put(
        self, line: str, x: float, baseline: float, size: float, ink: str, *, bold: bool = False, header: bool = False,
        on: str = "",
    ) -> None:  # fmt: skip
        """One line of text."""
        weight = ' font-weight="600"' if bold else ""
        frame = self.frames[-1]
        frame.parts.append(
            f'<text x="{x:.1f}" y="{baseline:.1f}" font-size="{size:g}" fill="var(--wa-{ink},#000)"{weight}>'
            f"{xml_text(line)}</text>"
        )
        # ascent and descent of the face: 0.95 and 0.25 of the size hold every sign of it
        right = x + text_width(line, size, bold)
        frame.boxes.append(Box(line, x, baseline - size * 0.95, right, baseline + size * 0.25, size, header, on))

    def mark(self, what: str, part: str, left: float, top: float, right: float, bottom: float) -> None:
        """Something that is not text."""
        self.frames[-1].parts.append(part)
        self.frames[-1].boxes.append(Box(what, left, top, right, bottom))


@lru_cache(maxsize=4096)
def _thousandths(word: str, bold: bool) -> float:
    """A word's width at size 1000: the same words are measured in many sizes until all stand well."""
    return text_width(word, 1000, bold)


def _together(word: str, following: str) -> bool:
    """Whether two words stay in one line: a number and its unit, which is a short word, and the sides of a product."""
    return (word[-1:].isdigit() and len(following) <= MOST_UNIT) or word == "×"


def first_line(text: str, width: float, size: float, bold: bool = False) -> tuple[str, str]:
    """As many words as fit in one line, and the rest; a word that is wider by itself is parted."""
    words = text.split(" ")
    most = width * 1000 / size
    space = _thousandths(" ", bold)
    used, i = -space, 0
    while i < len(words):
        wide, ends = _thousandths(words[i], bold) + space, i + 1
        while i and ends < len(words) and _together(words[ends - 1], words[ends]):
            wide += _thousandths(words[ends], bold) + space
            ends += 1
        if used + wide > most:
            break
        used += wide
        i = ends
    if i:
        return " ".join(words[:i]), " ".join(words[i:])
    word, cut, used = words[0], 1, 0.0
    for j, sign in enumerate(word[:-1], 1):
        used += _thousandths(sign, bold)
        if used > most:
            break
        cut = j
    cut = max(word.rfind("-", 1, cut), word.rfind("/", 1, cut)) + 1 or cut  # where an address or a compound may break
    return word[:cut], " ".join([word[cut:], *words[1:]]).strip()


def lines_of(text: str, width: float, size: float, bold: bool = False) -> list[str]:
    """The text in lines no wider than asked; a word that is wider by itself is parted."""
    lines, rest = [], " ".join(text.split())
    while rest:
        line, rest = first_line(rest, width, size, bold)
        lines.append(line)
    return lines or [""]


def height_of(text: str, width: float, size: float, bold: bool = False) -> float:
    """How high a wrapped paragraph stands."""
    return len(lines_of(text, width, size, bold)) * size * LEADING


def shortened(line: str, width: float) -> str:
    """A line that goes on elsewhere, with the sign that says so."""
    words = line.split(" ")
    while len(words) > 1 and text_width(" ".join(words) + " …", SMALLEST) > width:
        words.pop()
    cut = " ".join(words)
    while cut and text_width(cut + " …", SMALLEST) > width:
        cut = cut[:-1]
    return cut + " …"


def finished(frame: Frame, shape: Shape, background: str, font_css: str, headline: str) -> str:
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
