"""
A card's first frame, or its first two: question, caution, verdict, headline, main figures, and the link with its code.

All of it stands on one frame in the largest type that allows it; where none does, the figures get a frame of their own.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from calculators.desk.answer import Caution, Figure, Verdict
from calculators.desk.calculator import Result
from calculators.desk.card_paper import LEADING, SMALLEST, WIDE, Paper, Shape, height_of, lines_of
from calculators.desk.svg import text_width

HEADLINE_SIZES = (132.0, 116.0, 104.0, 96.0)
# An upright picture fills a phone, where a wide one stands across it: the same size is nearly twice as large there.
UPRIGHT_SIZES = (116.0, 104.0, 96.0, 84.0, 76.0)
VALUE_SIZES = (112.0, 88.0, 72.0)
ALONE_SIZES = (190.0, 160.0, 132.0, *VALUE_SIZES, 64.0)  # where the figures have a frame to themselves
TIGHT = 1.13  # leading of a headline: large type needs less
WORD = 64.0  # the verdict's word
MOST_WORD = 800.0
BADGE = 88.0  # and the height of what it stands in
GAP = 26.0
CODE_SIDE = 264.0  # about a quarter of the height: read from a desk's distance off a screen of any size

Rows = Sequence[Sequence[bool]]


class Code:
    """The link and its code: how large it is, and how it is drawn."""

    def __init__(self, address: str, qr: Callable[[str], Rows] | None) -> None:
        self.shown = re.sub(r"^https?://(www\.)?", "", address)
        self.rows = [list(row) for row in qr(address)] if qr and address else []
        cells = len(self.rows) + 8 if self.rows else 0  # a quiet zone of four modules: ISO/IEC 18004
        self.module = max(CODE_SIDE // cells, 5) if cells else 0
        self.side = float(cells * self.module)

    def drawn(self, x: float, y: float) -> str:
        """The code as SVG, dark on white whatever the background."""
        module = self.module
        dark = "".join(
            f"M{x + (j + 4) * module:g} {y + (i + 4) * module:g}h{module:g}v{module:g}h-{module:g}z"
            for i, row in enumerate(self.rows)
            for j, cell in enumerate(row)
            if cell
        )
        return (
            f'<rect x="{x:g}" y="{y:g}" width="{self.side:g}" height="{self.side:g}" fill="#ffffff"/>'
            f'<path d="{dark}" fill="#000000" shape-rendering="crispEdges"/>'
        )


@dataclass(frozen=True, slots=True)
class _Plan:
    """What stands on the first frame, and how large."""

    headline: float
    value: float = 0
    reason: bool = True
    link: bool = True
    cautions: int = 9
    early: bool = False  # the caution before the headline, which then goes on on the next frame


def first_frames(shape: Shape, question: str, result: Result, code: Code) -> Paper:
    """The paper with the first frame, or the first two, on it: link and code included wherever there are any."""
    answer = result.answer
    figures = [f for f in answer.shown_figures() if f.main][:4]
    linked = bool(code.shown)
    sizes = HEADLINE_SIZES if shape is WIDE else UPRIGHT_SIZES
    counts = (9, 1) if sum(c.first for c in answer.cautions) > 1 else (9,)
    whole = [
        _Plan(size, value, link=linked, cautions=cautions)
        for cautions in counts
        for size in sizes
        for value in (VALUE_SIZES if figures else (0.0,))
    ]
    for plan in whole:
        if made := _tried(shape, question, result, code, plan, figures):
            return made
    parts = [
        _Plan(size, 0, reason, link, cautions)
        for link in ((True, False) if linked else (False,))
        for reason in ((True, False) if answer.verdict else (True,))
        for cautions in counts
        for size in sizes
    ]
    paper = None
    for plan in parts:
        paper = _tried(shape, question, result, code, plan, [])
        if paper:
            break
    else:  # a headline too long for any frame: it goes on on the next
        plan = _Plan(sizes[-1], reason=False, link=False, cautions=1, early=True)
        paper = _set(shape, question, result, code, plan, [])
    _second(paper, answer.verdict if not plan.reason else None, figures, code if linked and not plan.link else None)
    return paper


def _tried(shape: Shape, question: str, result: Result, code: Code, plan: _Plan, figures: list[Figure]) -> Paper | None:
    """The frame, if everything planned stands on it."""
    paper = _set(shape, question, result, code, plan, figures)
    return paper if len(paper.frames) == 1 and paper.y <= shape.bottom + GAP else None


def _set(shape: Shape, question: str, result: Result, code: Code, plan: _Plan, figures: list[Figure]) -> Paper:
    answer = result.answer
    paper = Paper(shape, question)
    shown = code if plan.link else None
    badge = answer.verdict if not (plan.reason or plan.link) else None  # alone it finds room in the corner
    if badge and _badge_width(badge) > paper.width * 0.6:
        badge = None
    paper.turn("result", corner=_badge_of(shape, badge) if badge else _corner_of(shape, shown))
    _corner(paper, shown)
    if badge:
        _badge(paper, badge, paper.corner[0] + 48, shape.top)
    first = [c for c in answer.cautions if c.first or plan.early][: plan.cautions]
    for caution in first:
        _caution(paper, caution)
    if answer.verdict and not badge:
        _verdict(paper, answer.verdict, plan.reason)
    bottom = paper.corner[1]
    if bottom - paper.y < plan.headline * 0.8:  # not worth a narrow first line
        paper.y = max(paper.y, bottom)
    paper.text(answer.headline, plan.headline, "ink", bold=True, leading=TIGHT)
    paper.y += GAP
    if answer.cautions and not first:
        _caution(paper, answer.cautions[0])
    _foot(paper, figures, plan.value, shown)
    return paper


def _second(paper: Paper, reason: Verdict | None, figures: list[Figure], code: Code | None) -> None:
    """What the first frame had no room for: the reason, the figures, the link."""
    if not (reason or figures or code):
        return
    paper.turn("figures", corner=_corner_of(paper.shape, code))
    _corner(paper, code)
    if reason:  # its word stands on the first frame
        paper.text(reason.reason, SMALLEST, reason.word, bold=True)
        paper.y += GAP
    paper.y = max(paper.y, paper.corner[1])
    size = next((s for s in ALONE_SIZES if _foot_height(paper, figures, s, code) <= paper.room), ALONE_SIZES[-1])
    _foot(paper, figures, size, code, low=bool(code))


def _corner_of(shape: Shape, code: Code | None) -> tuple[float, float] | None:
    """What a code takes of the right top corner."""
    return (shape.right - code.side - 48, shape.top + code.side + 12) if code and code.rows else None


def _corner(paper: Paper, code: Code | None) -> None:
    """The code in the right top corner."""
    if not code or not code.rows:
        return
    shape = paper.shape
    x, y = shape.right - code.side, shape.top
    paper.mark("code", code.drawn(x, y), x, y, shape.right, y + code.side)


def sentence(text: str) -> str:
    """The first sentence."""
    return re.split(r"(?<=[.!?]) (?=[A-Z])", text, maxsplit=1)[0]


def _caution(paper: Paper, caution: Caution) -> None:
    """A caution's first sentence behind a bar; all of it stands on a later frame."""
    top, frames = paper.y, len(paper.frames)
    paper.text(f"Caution: {sentence(caution.text)}", SMALLEST, "no", bold=True, left=36)
    if len(paper.frames) == frames:
        x = paper.shape.left
        part = f'<rect x="{x:g}" y="{top + 6:g}" width="12" height="{paper.y - top - 8:g}" fill="var(--wa-no,#000)"/>'
        paper.mark("bar", part, x, top + 6, x + 12, paper.y - 2)
    paper.y += GAP


def _word(told: Verdict) -> str:
    """The verdict's own words, or the plain one where those are too many for a field in any picture."""
    own = told.said().rstrip(".")
    return own if text_width(own, WORD, True) <= MOST_WORD else Verdict(told.word, "").said().rstrip(".")


def _badge_width(told: Verdict) -> float:
    return 92 + text_width(_word(told), WORD, True) + 32


def _badge_of(shape: Shape, told: Verdict) -> tuple[float, float]:
    """What a verdict's word takes of the right top corner."""
    return shape.right - _badge_width(told) - 48, shape.top + BADGE


def _badge(paper: Paper, told: Verdict, x: float, y: float) -> None:
    """The verdict's word in a field of its own with a shape, never by colour alone."""
    fill = 'fill="var(--wa-paper,#000)"'
    wide, middle = _badge_width(told), y + BADGE / 2
    shapes = {
        "yes": f'<circle cx="{x + 50:.1f}" cy="{middle:g}" r="22" {fill}/>',
        "depends": f'<path d="M{x + 26:.1f} {middle + 22:g} l24 -44 l24 44 z" {fill}/>',
        "no": f'<rect x="{x + 28:.1f}" y="{middle - 10:g}" width="44" height="20" {fill}/>',
    }
    place = f'x="{x:.1f}" y="{y:g}" width="{wide:.1f}" height="{BADGE:g}"'
    field = f'<rect {place} rx="14" fill="var(--wa-{told.word},#000)"/>'
    paper.mark("verdict", field + shapes[told.word], x, y, x + wide, y + BADGE)
    paper.put(_word(told), x + 92, middle + WORD * 0.36, WORD, "paper", bold=True, on="verdict")


def _verdict(paper: Paper, told: Verdict, reason: bool) -> None:
    """The verdict with its reason beside it, or below where that would be narrow."""
    if paper.room < BADGE:
        paper.turn(paper.frames[-1].name)
    if _badge_width(told) > paper.free():
        paper.y = max(paper.y, paper.corner[1])
    y, left = paper.y, _badge_width(told) + 32
    _badge(paper, told, paper.shape.left, y)
    paper.y = y + BADGE
    if reason:
        beside = paper.free() - left > paper.width * 0.4
        paper.y = y + (BADGE - SMALLEST * LEADING) / 2 if beside else paper.y + 10
        pages = len(paper.frames)
        paper.text(told.reason, SMALLEST, told.word, bold=True, left=left if beside else 0)
        if len(paper.frames) == pages:
            paper.y = max(paper.y, y + BADGE)
    paper.y += GAP


def _foot(paper: Paper, figures: list[Figure], value: float, code: Code | None, low: bool = True) -> None:
    """Figures and link, low: at the foot of the frame, where there is room for both; from here on else."""
    height = _foot_height(paper, figures, value, code)
    if low and height <= paper.room:
        paper.y = paper.shape.bottom - height
    _figures(paper, figures, value)
    if code and code.shown:
        for line in lines_of(code.shown, paper.width, SMALLEST):
            paper.text(line, SMALLEST, "soft")


def _foot_height(paper: Paper, figures: list[Figure], value: float, code: Code | None) -> float:
    link = height_of(code.shown, paper.width, SMALLEST) if code and code.shown else 0.0
    return sum(height for _, _, height in _rows(paper, figures, value)) + link


def _rows(paper: Paper, figures: list[Figure], value: float) -> list[tuple[list[Figure], float, float]]:
    """The figures row by row, as many side by side as fit, with the width of each and the height of the row."""
    if not figures:
        return []
    gap, width = 48.0, paper.width
    most = min(4 if paper.shape is WIDE else 2, len(figures))
    columns = next((c for c in range(most, 1, -1) if _fits(figures, (width - gap * (c - 1)) / c, value)), 1)
    if columns == 3 and len(figures) == 4:
        columns = 2
    each = (width - gap * (columns - 1)) / columns
    rows = []
    for start in range(0, len(figures), columns):
        row = figures[start : start + columns]
        labels = max(height_of(f.label, each, SMALLEST) for f in row)
        values = max(len(lines_of(f.text, each, value, True)) for f in row) * value * TIGHT
        rows.append((row, each, 18 + labels + values + GAP))
    return rows


def _fits(figures: list[Figure], width: float, value: float) -> bool:
    """Whether every figure's value stands in one line and its label in two."""
    return all(
        text_width(f.text, value, True) <= width and len(lines_of(f.label, width, SMALLEST)) <= 2 for f in figures
    )


def _figures(paper: Paper, figures: list[Figure], value: float) -> None:
    """Up to four figures, each below a rule: labels end and values stand on one line."""
    for row, width, height in _rows(paper, figures, value):
        if height - GAP > paper.room:
            paper.turn("figures")
        top = paper.y
        labels = max(height_of(f.label, width, SMALLEST) for f in row)
        for i, figure in enumerate(row):
            left = i * (width + 48)
            x = paper.shape.left + left
            rule = f'<rect x="{x:.1f}" y="{top:.1f}" width="{width:.1f}" height="5" fill="var(--wa-line,#000)"/>'
            paper.mark("rule", rule, x, top, x + width, top + 5)
            paper.y = top + 18 + labels - height_of(figure.label, width, SMALLEST)
            paper.text(figure.label, SMALLEST, "soft", left=left, width=width)
            paper.y = top + 18 + labels
            paper.text(figure.text, value, "ink", bold=True, left=left, width=width, leading=TIGHT)
        if height - GAP <= paper.shape.bottom - top:
            paper.y = top + height


__all__ = ["HEADLINE_SIZES", "Code", "Rows", "first_frames", "sentence"]
