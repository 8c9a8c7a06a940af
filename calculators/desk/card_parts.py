"""
The parts of a card, each drawn where it is told: question, verdict's sign, hero, line, figures, caution, address.

Knows sizes and words; desk/card_forms decide where each stands.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from calculators.desk.card_canvas import (
    ABOVE,
    BELOW,
    LEADING,
    SMALLEST,
    Canvas,
    balanced,
    baseline_of,
    fits,
)
from calculators.desk.card_declared import Card
from calculators.desk.svg import text_width

Rows = Sequence[Sequence[bool]]

QUESTION, LINE, VALUE, WORD = SMALLEST, 60.0, 84.0, 72.0
SIGN = 62.0
SIGN_ROOM = SIGN + 24  # a sign and the air before its words, of a verdict as of a caution
GAP = 34.0
OPENED = 20.0  # between the words above a hero and the hero
STRIP_PAD = 16.0
LONGEST_SAID = 36  # characters of an address that can still be said
_BEYOND = "Mind the cautions on the page."


class Code:
    """The address and its code: the code only where the address is short enough to be said."""

    def __init__(self, address: str, qr: Callable[[str], Rows] | None) -> None:
        plain = re.sub(r"^https?://(www\.)?", "", address).partition("#")[0].rstrip("/")
        self.shown = plain if len(plain) <= 2 * LONGEST_SAID else ""
        match = bool(plain) and len(plain) <= LONGEST_SAID and not re.search(r"[?%&=]", plain)
        self.rows = [list(row) for row in qr(address)] if qr and match else []
        cells = len(self.rows) + 8 if self.rows else 0  # a quiet zone of four modules: ISO/IEC 18004
        self.module = 6.0 if cells <= 30 else 5.0
        self.side = cells * self.module
        if self.side > 210:  # a code of so much is none for a picture
            self.rows, self.side = [], 0.0

    def lines(self, width: float) -> list[str] | None:
        """The address in as few lines as fit, parted before a stroke."""
        lines: list[str] = []
        for part in re.findall(r"[^/]+|/[^/]*", self.shown):
            if lines and text_width(lines[-1] + part, SMALLEST, True) <= width:
                lines[-1] += part
            else:
                lines.append(part)
        return lines if all(text_width(line, SMALLEST, True) <= width for line in lines) and len(lines) < 4 else None

    def block(self, width: float) -> tuple[list[str], float, float] | None:
        """Lines, width and height of address and code beside each other within a width; None where they do not fit."""
        beside = self.side + 28 if self.side else 0.0
        lines = self.lines(width - beside)
        if not lines:
            return None
        wide = max(text_width(line, SMALLEST, True) for line in lines)
        return lines, beside + wide, max(self.side, len(lines) * SMALLEST * LEADING)

    def foot(self, width: float, right: float, bottom: float, strip: float | None) -> Foot | None:
        """
        Address and code in the lower right corner, the address above a caution's strip where there is one.

        strip: the height at which what stands above the strip ends; None for no strip.
        """
        beside = self.side + 28 if self.side else 0.0
        lines = self.lines(width - beside)
        if not lines:
            return None
        high = len(lines) * SMALLEST * LEADING
        wide = max(text_width(line, SMALLEST, True) for line in lines)
        end = bottom if strip is None else strip + 8
        top = end - (max(high, self.side) + high) / 2 if strip is None else end - high
        return Foot(self, lines, right - beside - wide, top, right - self.side, bottom - self.side)

    def code_at(self, canvas: Canvas, x: float, at: float) -> None:
        """The code itself."""
        module = self.module
        dark = "".join(
            f"M{x + (j + 4) * module:g} {at + (i + 4) * module:g}h{module:g}v{module:g}h-{module:g}z"
            for i, row in enumerate(self.rows)
            for j, cell in enumerate(row)
            if cell
        )
        side = f'width="{self.side:g}" height="{self.side:g}"'
        canvas.shape(
            "address",
            f'<rect x="{x:g}" y="{at:g}" {side} fill="#ffffff"/>'
            f'<path d="{dark}" fill="#000000" shape-rendering="crispEdges"/>',
            "code",
            (x, at, x + self.side, at + self.side),
        )

    def draw(self, canvas: Canvas, x: float, top: float, width: float) -> None:
        """The code and, beside it, the address, both about one middle."""
        block = self.block(width)
        if not block:
            return
        lines, wide, high = block
        canvas.areas["address"] = (x, top, x + wide, top + high)
        if self.rows:
            self.code_at(canvas, x, top + (high - self.side) / 2)
            x += self.side + 28
        step = SMALLEST * LEADING
        for i, line in enumerate(lines):
            base = baseline_of(top + (high - step * len(lines)) / 2 + step * i + step * 0.12, SMALLEST)
            canvas.text("address", line, x, base, SMALLEST, "ink", bold=True)


@dataclass(frozen=True, slots=True)
class Foot:
    """Address and code in a card's lower right corner: the lines, their left and top edge, the code's own."""

    code: Code
    lines: list[str]
    left: float
    text_top: float
    code_left: float
    code_top: float

    @property
    def top(self) -> float:
        """Where the higher of the two begins."""
        return min(self.text_top, self.code_top) if self.code.rows else self.text_top

    def draw(self, canvas: Canvas) -> None:
        """The code in the corner, the address at its left."""
        if self.code.rows:
            self.code.code_at(canvas, self.code_left, self.code_top)
        end = self.code_left - (28 if self.code.rows else 0)
        for i, line in enumerate(self.lines):
            base = baseline_of(self.text_top + SMALLEST * (LEADING * i + 0.12), SMALLEST)
            canvas.text("address", line, end, base, SMALLEST, "ink", bold=True, anchor="end")


@dataclass(frozen=True, slots=True)
class Stack:
    """Verdict, hero and line, one below the other, worked out for a width."""

    verdict: list[str]
    word: float
    hero: list[str]
    size: float
    line: list[str]
    line_size: float

    def height(self) -> float:
        """How high it stands."""
        verdict = self.verdict_height()
        hero = self.hero_height() + GAP if self.hero else 0.0
        line = len(self.line) * self.line_size * LEADING + (OPENED if self.opens() else 0)
        return verdict + hero + line

    def verdict_height(self) -> float:
        """The verdict, and the air below it where words follow."""
        followed = GAP if self.hero or self.line else 0.0
        return max(len(self.verdict) * self.word * 1.1, SIGN) + followed if self.verdict else 0.0

    def opens(self) -> bool:
        """Whether the line stands above the hero, in the place of a verdict that there is none."""
        return bool(self.line and self.hero and not self.verdict)

    def leaves(self, width: float, below: float) -> bool:
        """Whether nothing that stands lower than this is wider than this: only the last words, if narrow, may be."""
        if self.height() <= below or self.width() <= width:
            return True
        if self.opens():
            narrow = all(text_width(each, self.size, True) <= width for each in self.hero)
            return narrow and self.height() - self.hero_height() - GAP <= below
        line = len(self.line) * self.line_size * LEADING
        narrow = all(text_width(each, self.line_size) <= width for each in self.line)
        return narrow and self.height() - line <= below

    def hero_height(self) -> float:
        """The hero's letters, the space between its lines included."""
        return self.size * (ABOVE + 0.12 + 0.97 * (len(self.hero) - 1)) if self.hero else 0.0

    def width(self) -> float:
        """How wide it stands."""
        wide = [SIGN + 24 + text_width(each, self.word, True) for each in self.verdict]
        wide += [text_width(each, self.size, True) for each in self.hero]
        wide += [text_width(each, self.line_size) for each in self.line]
        return max(wide, default=0)


def stack_of(card: Card, width: float, size: float, *, hero_lines: int, line_lines: int) -> Stack | None:
    """The answer's words in a width with a hero of this size, or None where they do not fit it."""
    verdict: list[str] | None = []
    word = WORD
    for word in (WORD, 64.0, SMALLEST):
        most = 1 if word > SMALLEST else 2
        verdict = balanced(card.verdict, width - SIGN - 24, word, most, True) if card.verdict else []
        if verdict is not None:
            break
    hero = _hero_lines(card.hero, width, size, hero_lines) if card.hero else []
    line: list[str] | None = []
    line_size = LINE
    for line_size in (LINE, SMALLEST):
        line = balanced(card.line, width, line_size, line_lines) if card.line else []
        if line is not None:
            break
    if verdict is None or hero is None or line is None:
        return None
    return Stack(verdict, word, hero, size, line, line_size)


ALONE = ("about", "at most", "below", "shown", "up to")  # words that stand alone above their number


def _hero_lines(text: str, width: float, size: float, most: int) -> list[str] | None:
    """The hero in its lines: a range is not parted where the word before it can stand alone."""
    whole = fits(text, width, size, 1, True)
    word = next((each for each in ALONE if text.startswith(f"{each} ")), "")
    if whole or most < 2:
        return whole
    if not word:
        return _evenly_parted(text, width, size) or (_parted(text, width, size, most) if most > 2 else None)
    rest = (
        fits(text.removeprefix(word).strip(), width, size, 1, True) if text_width(word, size, True) <= width else None
    )
    whole = [word, *rest] if rest else fits(text, width, size, 2, True)
    return whole or (_parted(text, width, size, most) if most > 2 else None)


def _evenly_parted(text: str, width: float, size: float) -> list[str] | None:
    """Two lines of about one length: no article at the end of the first, no short word alone on the second."""
    lines = balanced(text, width, size, 2, True)
    if not lines or lines[0].rpartition(" ")[2] not in ("a", "an", "the"):
        return lines
    first, _, article = lines[0].rpartition(" ")
    moved = [first, f"{article} {lines[1]}"]
    return moved if first and text_width(moved[1], size, True) <= width else lines


def _parted(text: str, width: float, size: float, most: int) -> list[str] | None:
    """The hero word by word, a unit below its number, where the room is narrow."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size, True) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    inside = all(text_width(line, size, True) <= width for line in lines)
    return lines if inside and len(lines) <= most else None


def draw_stack(canvas: Canvas, stack: Stack, word: str, x: float, y: float, family: str) -> float:
    """Draws verdict, hero and line from this height down, and says where they end."""
    if stack.verdict:
        sign(canvas, "verdict", word, x, y)
        ink = "mark" if word == "corrected" else word
        for i, each in enumerate(stack.verdict):
            top = y + (SIGN - stack.word * ABOVE) / 2 + i * stack.word * 1.1
            canvas.text("verdict", each, x + SIGN + 24, baseline_of(top, stack.word), stack.word, ink, bold=True)
        y += stack.verdict_height()
    if stack.opens():
        y = _draw_line(canvas, stack, x, y) + OPENED
    for i, each in enumerate(stack.hero):
        base = baseline_of(y + i * stack.size * 0.97, stack.size)
        canvas.text("hero", each, x, base, stack.size, "ink", bold=True, family=family)
    y += stack.hero_height() + GAP if stack.hero else 0
    return y if stack.opens() else _draw_line(canvas, stack, x, y)


def _draw_line(canvas: Canvas, stack: Stack, x: float, y: float) -> float:
    """The line, from this height down; says where it ends."""
    step = stack.line_size * LEADING
    for i, each in enumerate(stack.line):
        canvas.text("line", each, x, baseline_of(y, stack.line_size) + i * step, stack.line_size, "ink")
    return y + len(stack.line) * step


def sign(canvas: Canvas, part: str, word: str, x: float, y: float, side: float = SIGN) -> None:
    """The verdict's sign: a tick, a cross, or a way that parts; told apart without colour."""
    unit = side / 60
    paths = {
        "yes": "M6 32 24 50 54 12",
        "no": "M11 11 49 49M49 11 11 49",
        "depends": "M30 56V34L10 12M30 34 50 12M10 28V12H26M50 28V12H34",
        "corrected": "M8 24A24 24 0 1 1 10 42M8 6V24H26",
    }
    ink = "mark" if word == "corrected" else word
    canvas.shape(
        part,
        f'<path d="{paths[word]}" transform="translate({x:.1f} {y:.1f}) scale({unit:.4f})" fill="none" '
        f'stroke="var(--wa-{ink},#000)" stroke-width="10" stroke-linejoin="miter"/>',
        "sign",
        (x, y, x + side, y + side),
    )


def head_height(lines: int) -> float:
    """How high a question of so many lines stands, its rule included."""
    return max(lines, 1) * QUESTION * LEADING + 10


def draw_question(
    canvas: Canvas, lines: list[str], left: float, right: float, top: float, mark: str, rule: bool
) -> float:
    """The question small, a programme's own mark at the right, a plain rule below; says where that ends."""
    step = QUESTION * LEADING
    for i, each in enumerate(lines):
        canvas.text("question", each, left, baseline_of(top + 4, QUESTION) + i * step, QUESTION, "soft")
    if mark:
        at = f"translate({right - 54:.1f} {top:.1f}) scale(0.54)"
        canvas.shape(
            "question", f'<path d="{mark}" transform="{at}" fill="var(--wa-mark,#000)"/>', "mark",
            (right - 54, top, right, top + 54),
        )  # fmt: skip
    y = top + head_height(len(lines)) - 12
    if rule:
        canvas.shape(
            "question",
            f'<rect x="{left:g}" y="{y:.1f}" width="{right - left:g}" height="3" fill="var(--wa-line,#000)"/>',
        )
    return y + 12


def _inset(out: tuple[float, float]) -> tuple[float, float]:
    """How far the strip's sign and the end of its words stand in: nothing where the field goes beyond them anyway."""
    return 0.0 if out[0] else STRIP_PAD, 0.0 if out[1] else STRIP_PAD


def caution_lines(text: str, width: float, out: tuple[float, float] = (0, 0)) -> list[str]:
    """The strip's words in at most four lines; where even that is too little, words that send to the page."""
    inner = width - sum(_inset(out)) - SIGN_ROOM
    return balanced(text, inner, SMALLEST, 4, True) or fits(_BEYOND, inner, SMALLEST, 3, True) or [_BEYOND]


def caution_height(lines: list[str]) -> float:
    """How high the strip stands."""
    return len(lines) * SMALLEST * LEADING + 2 * STRIP_PAD - SMALLEST * (LEADING - 1)


def caution_width(lines: list[str], out: tuple[float, float] = (0, 0)) -> float:
    """How wide a strip is that is no wider than its words."""
    return max(text_width(line, SMALLEST, True) for line in lines) + sum(_inset(out)) + SIGN_ROOM + 0.5


def draw_caution(
    canvas: Canvas, lines: list[str], left: float, right: float, bottom: float, out: tuple[float, float] = (0, 0)
) -> None:
    """The strip: a whole field in the colour of danger, its sign first. out: how far its field goes beyond its ends."""
    high = caution_height(lines)
    top = bottom - high
    middle = top + high / 2
    at = left + _inset(out)[0]
    canvas.areas["caution"] = (left, top, right, bottom)
    canvas.shape(
        "caution",
        f'<rect x="{left - out[0]:g}" y="{top:.1f}" width="{right - left + sum(out):g}" height="{high:.1f}" '
        'fill="var(--wa-caution,#000)"/>'
        f'<path d="M0 52 31 0 62 52z" transform="translate({at:.1f} {middle - 28:.1f})" '
        'fill="var(--wa-on-caution,#fff)"/>'
        f'<path d="M31 18v18M31 41v7" transform="translate({at:.1f} {middle - 28:.1f})" '
        'stroke="var(--wa-caution,#000)" stroke-width="7"/>',
        "caution sign",
        (at, middle - 28, at + SIGN, middle + 28),
    )
    for i, each in enumerate(lines):
        base = (
            baseline_of(top + STRIP_PAD + (SMALLEST - (ABOVE + BELOW) * SMALLEST) / 2 + 4, SMALLEST)
            + i * SMALLEST * LEADING
        )
        canvas.text("caution", each, at + SIGN_ROOM, base, SMALLEST, "on-caution", bold=True)


def figure_width(label: str, text: str) -> float:
    """How wide a figure stands with its label above it."""
    return max(text_width(label, SMALLEST), text_width(text, VALUE, True))


FIGURE_HEIGHT = SMALLEST * ABOVE + 30 + VALUE * (ABOVE + BELOW)


STRUCK = 8.0  # a line through what no longer holds
ARROW = 46.0  # from what was to what is


def struck(canvas: Canvas, part: str, wide: float, x: float, top: float) -> None:
    """A line through a figure's value, and behind it the arrow to what holds now."""
    middle = baseline_of(top + SMALLEST * ABOVE + 30, VALUE) - VALUE * ABOVE * 0.46
    line = f'<path d="M{x - 8:.1f} {middle:.1f}h{wide + 16:.1f}" fill="none" stroke="var(--wa-no,#000)"'
    canvas.shape(part, f'{line} stroke-width="{STRUCK:g}"/>')
    start = x + wide + 26
    arrow = f'<path d="M{start:.1f} {middle:.1f}h{ARROW - 4:.1f}m-20 -20l20 20l-20 20" fill="none"'
    canvas.shape(part, f'{arrow} stroke="var(--wa-ink,#000)" stroke-width="{STRUCK:g}"/>')


def draw_figure(canvas: Canvas, part: str, label: str, text: str, x: float, top: float) -> None:
    """A figure below its label."""
    canvas.text(part, label, x, baseline_of(top, SMALLEST), SMALLEST, "soft")
    canvas.text(part, text, x, baseline_of(top + SMALLEST * ABOVE + 30, VALUE), VALUE, "ink", bold=True)
