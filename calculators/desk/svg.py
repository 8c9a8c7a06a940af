"""
The pen: one SVG drawing at a time, with a title and a description for screen readers.

Colours are names that the page's style sheet gives for light and dark; each carries a light fallback, so that
a drawing saved on its own still shows. Presentation attributes only: a strict security policy allows them.
Drawings are 340 units wide and text is at least 12 units high, so that they stay readable on a phone.
Knows no data; desk/charts.py draws with it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import groupby

from calculators.desk.font_widths import BOLD, REGULAR

WIDTH = 340
TEXT = 13.0
SMALL = 12.0

COLOURS = {
    "ink": "#1d2327",
    "soft": "#535e66",
    "line": "#b9c1c6",
    "paper": "#ffffff",
    "fill-1": "#2f6690",
    "fill-2": "#7d9fb5",
    "fill-3": "#b98b3d",
    "fill-4": "#d9d2c3",
    "mark": "#a6401b",
    "yes": "#1f6b45",
    "depends": "#7a5a00",
    "no": "#9c2b2b",
    "none": "none",
}


def colour(name: str) -> str:
    """A colour as an attribute value: a name from COLOURS, or '#rrggbb' where the colour itself is the subject."""
    if name == "none" or name.startswith("#"):
        return name
    return f"var(--wa-{name},{COLOURS[name]})"


def escape(text: str) -> str:
    """Text that is safe in HTML and SVG, between tags and in quoted attributes."""
    return (
        text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace('"', "&quot;")
        .replace("'", "&#39;")
    )


_NOT_IN_XML = re.compile("[\x00-\x08\x0b-\x1f\ufffe\uffff]")


def xml_text(text: str) -> str:
    """Escaped text without the control characters that XML has no way to hold."""
    if not _NOT_IN_XML.search(text):  # nearly always: a drawing has a hundred texts
        return escape(text)
    return escape("".join(c if c >= " " or c in "\t\n" else "\ufffd" for c in text if c not in "\ufffe\uffff"))


_ABSENT = 750  # a sign that the face does not hold comes from another one; few are wider


def text_width(text: str, size: float = TEXT, bold: bool = False) -> float:
    """
    How wide a text is in the shipped label face, without kerning.

    Args:
        text: One line. [text]
        size: Height of the type. [drawing unit]
        bold: Whether it is set in the heavier weight.

    Returns:
        The width. [drawing unit]

    Source:
        The face's own advance widths, desk/font_widths.py.

    Example:
        >>> round(text_width("mill", 10), 1) < round(text_width("wide", 10), 1)
        True
    """
    return advance(text, bold) * size / 1000


@lru_cache(maxsize=4096)  # a card tries the same words in many sizes
def advance(text: str, bold: bool) -> int:
    """The width of one line in thousandths of its size."""
    table = BOLD if bold else REGULAR
    return sum(table.get(c, _ABSENT) for c in text)


def wrap(text: str, width: float, size: float = TEXT, bold: bool = False) -> list[str]:
    """Break a text into lines no wider than `width`; a single longer word stands alone, uncut."""
    lines: list[str] = []
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size, bold) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


# How far the letters of a line reach from its baseline, in parts of the size: capitals and figures up, descenders down.
ABOVE, BELOW = 0.74, 0.22


@dataclass(frozen=True, slots=True)
class Box:
    """
    Where something stands, kept by the pen that drew it: for whoever checks, so that no check reads SVG text.

    what: the words, or the name of a shape. size: of the type; 0 for a shape. part: to which part of a card it belongs.
    stage: with which of a drawing's stages it comes, as Sketch.later() says.
    """

    what: str
    left: float
    top: float
    right: float
    bottom: float
    size: float = 0
    bold: bool = False
    ink: str = ""
    part: str = ""
    stage: int = 0

    @property
    def comes_with(self) -> str:
        """The part of a card with which it comes: a later stage of a drawing is one of its own."""
        return staged(self.part, self.stage)

    def moved(self, x: float, y: float, scale: float, part: str) -> Box:
        """The box as it lies on another sheet: enlarged, then moved."""
        left, right = x + self.left * scale, x + self.right * scale
        top, bottom = y + self.top * scale, y + self.bottom * scale
        return Box(self.what, left, top, right, bottom, self.size * scale, self.bold, self.ink, part, self.stage)

    def meets(self, other: Box, gap: float = 0) -> bool:
        """Whether the two overlap, or come nearer than the gap."""
        across = self.left < other.right + gap and other.left < self.right + gap
        return across and self.top < other.bottom + gap and other.top < self.bottom + gap


def staged(part: str, stage: int) -> str:
    """What a stage of a drawing is called among a card's parts: the first as the drawing itself."""
    return f"{part} {stage}" if stage else part


OWN = ("mark", "fill-1", "fill-3")  # colours of what is the viewer's own or worked out


def steps_of(said: Sequence[int | None], own: Sequence[bool]) -> list[int]:
    """
    With which step of a card each of several things comes.

    said: as declared, None for nothing. own: whether it is the viewer's own or worked out. Where nothing is declared
    and all things are of one kind, the last of them comes with the answer.
    """
    if any(step is not None for step in said):
        return [int(mine) if step is None else step for step, mine in zip(said, own, strict=True)]
    if len(set(own)) > 1 or len(own) < 2:
        return [int(mine) for mine in own]
    return [0] * (len(own) - 1) + [1]


def text_box(x: float, y: float, text: str, size: float, anchor: str, bold: bool, ink: str = "", stage: int = 0) -> Box:
    """The letters of one line, by the face's own widths."""
    wide = text_width(text, size, bold)
    left = x - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor]
    return Box(text, left, y - ABOVE * size, left + wide, y + BELOW * size, size, bold, ink, stage=stage)


@lru_cache(maxsize=4096)  # of ten coordinates nine have been written before
def _n(value: float) -> str:
    """A coordinate with at most two decimals."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


@dataclass(frozen=True, slots=True)
class Drawing:
    """
    A finished drawing. `description` says in words what there is to see.

    for_card: draws it anew for a width, a height and a size of type, where enlarging it would leave its words small.
    record: the boxes of what was drawn, worked out by whoever asks. stages: the body in the runs in which it was drawn,
    each with its stage; () where all of it comes at once.
    """

    title: str
    description: str
    width: float
    height: float
    body: str
    for_card: Callable[[float, float, float], Drawing | None] | None = field(default=None, compare=False, repr=False)
    record: Callable[[], list[Box]] = field(default=list, compare=False, repr=False)
    stages: tuple[tuple[int, str], ...] = field(default=(), compare=False, repr=False)

    def svg(self, prefix: str = "drawing") -> str:
        """The SVG element, complete in itself; the prefix keeps the ids of several on one page apart."""
        ids = f"{escape(prefix)}-title", f"{escape(prefix)}-description"
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(self.width)} {_n(self.height)}" role="img" '
            f'aria-labelledby="{ids[0]} {ids[1]}"><title id="{ids[0]}">{xml_text(self.title)}</title>'
            f'<desc id="{ids[1]}">{xml_text(self.description)}</desc>{self.body}</svg>'
        )


class Sketch:
    """
    A drawing in the making.

    Args:
        title: What it shows, in a few words.
        description: What there is to see, for those who do not see it.
        height: In units; the width is 340 unless told.
    """

    def __init__(self, title: str, description: str, height: float, width: float = WIDTH) -> None:
        self.title = title
        self.description = description
        self.width = width
        self.height = height
        self._parts: list[tuple[int, str]] = []
        self._texts: list[tuple[float, float, str, float, str, bool, str, int]] = []
        self._shapes: list[Box] = []
        self._stage = 0

    @contextmanager
    def later(self, stage: int = 1) -> Iterator[None]:
        """
        What is drawn inside comes at a later step of a card; on a page all of it stands at once.

        stage: 0 from the first step on, 1 with the card's answer, 2 on the step behind that.
        """
        before, self._stage = self._stage, stage
        try:
            yield
        finally:
            self._stage = before

    def _add(self, svg: str) -> None:
        self._parts.append((self._stage, svg))

    def note(self, what: str, left: float, top: float, right: float, bottom: float, ink: str = "") -> None:
        """Keeps a shape's place under a name, for whoever checks."""
        self._shapes.append(Box(what, left, top, right, bottom, ink=ink, stage=self._stage))

    def record(self) -> list[Box]:
        """The boxes of all words, and of the shapes that have a name."""
        return [text_box(*text) for text in self._texts] + list(self._shapes)

    def text(
        self, x: float, y: float, text: str, *, size: float = TEXT, anchor: str = "start", ink: str = "ink",
        bold: bool = False,
    ) -> None:  # fmt: skip
        """One line of text with its baseline at y. anchor: start, middle or end."""
        self._texts.append((x, y, text, size, anchor, bold, ink, self._stage))
        weight = ' font-weight="600"' if bold else ""
        self._add(
            f'<text x="{_n(x)}" y="{_n(y)}" font-size="{_n(size)}" text-anchor="{anchor}" fill="{colour(ink)}"{weight}>'
            f"{xml_text(text)}</text>"
        )

    def rect(
        self, x: float, y: float, width: float, height: float, *, fill: str = "fill-1", line: str = "none",
        line_width: float = 1, radius: float = 0, dash: str = "", what: str = "",
    ) -> None:  # fmt: skip
        """A rectangle; negative sizes are drawn as nothing. what: its name, where its place is to be kept."""
        if what:
            self.note(what, x, y, x + max(width, 0), y + max(height, 0), fill)
        extra = f' rx="{_n(radius)}"' if radius else ""
        extra += f' stroke="{colour(line)}" stroke-width="{_n(line_width)}"' if line != "none" else ""
        extra += f' stroke-dasharray="{dash}"' if dash else ""
        self._add(
            f'<rect x="{_n(x)}" y="{_n(y)}" width="{_n(max(width, 0))}" height="{_n(max(height, 0))}" '
            f'fill="{colour(fill)}"{extra}/>'
        )

    def line(
        self, x1: float, y1: float, x2: float, y2: float, *, ink: str = "line", width: float = 1, dash: str = ""
    ) -> None:
        """A straight line. dash: as in SVG, such as '4 3'."""
        extra = f' stroke-dasharray="{dash}"' if dash else ""
        self._add(
            f'<line x1="{_n(x1)}" y1="{_n(y1)}" x2="{_n(x2)}" y2="{_n(y2)}" stroke="{colour(ink)}" '
            f'stroke-width="{_n(width)}"{extra}/>'
        )

    def path(
        self, points: Iterable[tuple[float, float]], *, ink: str = "ink", width: float = 2, fill: str = "none",
        closed: bool = False, dash: str = "",
    ) -> None:  # fmt: skip
        """A line through points, open or closed."""
        steps = " ".join(f"{'M' if i == 0 else 'L'}{_n(x)} {_n(y)}" for i, (x, y) in enumerate(points))
        extra = f' stroke-dasharray="{dash}"' if dash else ""
        end = " Z" if closed else ""
        self._add(
            f'<path d="{steps}{end}" fill="{colour(fill)}" stroke="{colour(ink)}" '
            f'stroke-width="{_n(width)}" stroke-linejoin="round"{extra}/>'
        )

    def tiles(self, runs: Iterable[tuple[float, float, float, float]], *, fill: str) -> None:
        """Many rectangles (x, y, width, height) of one fill as a single path: pictures of pixels, in few bytes."""
        steps = "".join(f"M{_n(x)} {_n(y)}h{_n(w)}v{_n(h)}h{_n(-w)}z" for x, y, w, h in runs)
        self._add(f'<path d="{steps}" fill="{colour(fill)}" shape-rendering="crispEdges"/>')

    def circle(
        self, x: float, y: float, radius: float, *, fill: str = "fill-1", line: str = "none", line_width: float = 1
    ) -> None:
        """A circle about a centre."""
        extra = f' stroke="{colour(line)}" stroke-width="{_n(line_width)}"' if line != "none" else ""
        self._add(f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(radius)}" fill="{colour(fill)}"{extra}/>')

    def done(self, for_card: Callable[[float, float, float], Drawing | None] | None = None) -> Drawing:
        """The finished drawing."""
        body = "".join(svg for _, svg in self._parts)
        runs = groupby(self._parts, key=lambda part: part[0])
        stages = tuple((stage, "".join(svg for _, svg in run)) for stage, run in runs)
        return Drawing(
            self.title, self.description, self.width, self.height, body, for_card, self.record,
            stages if any(stage for stage, _ in stages) else (),
        )  # fmt: skip
