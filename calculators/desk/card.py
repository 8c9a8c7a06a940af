"""
The screen card: a result laid out for a picture, as frames that reveal it step by step.

Each frame is one SVG: first question, headline and main figures with the link, then the drawings, the steps, the
working line by line, then cautions and sources. Nothing that matters stands outside the safe area or in the captions'
band, and no type is smaller than 56 units. Nothing is cut: what does not fit goes on the next frame, and where a list
is too long for a viewer's patience the frame says how much more the page holds.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from calculators.desk.answer import Step, Working
from calculators.desk.calculator import Result
from calculators.desk.card_paper import (
    BACKGROUNDS,
    DARK,
    LEADING,
    LIGHT,
    SHAPES,
    SMALLEST,
    Box,
    Frame,
    Paper,
    finished,
    height_of,
    lines_of,
)
from calculators.desk.card_result import HEADLINE_SIZES, UPRIGHT_SIZES, Code, Rows, first_frames
from calculators.desk.numbers import plural
from calculators.desk.svg import Drawing, text_width, unescaped

MOST_REVEALS = 4  # frames of working: a presenter has a minute or two
DRAWING_SIZES = (76.0, 66.0, SMALLEST)
TEXT_SIZES = (80.0, 72.0, 64.0, SMALLEST)
SPACE = 24.0


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
    answer = result.answer
    paper = first_frames(SHAPES[shape], question or result.calculator.title, result, Code(address, qr))
    for drawing in answer.drawings:
        _drawing(paper, drawing)
    if answer.steps:
        _steps(paper, answer.steps, answer.steps_title)
    _working(paper, list(answer.working))
    _closing(paper, result)
    for frame in paper.frames:
        frame.svg = finished(frame, paper.shape, background, font_css, answer.headline)
    return paper.frames


def _drawing(paper: Paper, drawing: Drawing) -> None:
    """A drawing in the largest type with which all of it shows; it needs no question above it where room is short."""
    title = height_of(drawing.title, paper.width, SMALLEST, True) + SPACE
    high = paper.shape.bottom - paper.shape.top - title
    head = SMALLEST * LEADING + 22
    tries = [(size, True, high - head) for size in DRAWING_SIZES] + [(SMALLEST, False, high)]
    for size, headed, room in tries:
        best = drawing.for_card(paper.width, room, size) if drawing.for_card else drawing
        scale = min(paper.width / best.width, room / best.height)
        if _legible(best, scale) and (scale >= 0.999 or not drawing.for_card or not headed):
            break
    else:
        return  # left to the page: its words would be too small, or upon each other
    paper.turn("drawing", headed=headed)
    paper.text(drawing.title, SMALLEST, "ink", bold=True)
    paper.y += SPACE
    width, height = best.width * scale, best.height * scale
    x = paper.shape.left + (paper.width - width) / 2
    part = (
        f'<svg x="{x:g}" y="{paper.y:g}" width="{width:.2f}" height="{height:.2f}" '
        f'viewBox="0 0 {best.width:g} {best.height:g}">{best.body}</svg>'
    )
    paper.mark(f"drawing {drawing.title}", part, x, paper.y, x + width, paper.y + height)
    paper.y += height


_DRAWN = re.compile(
    r'<text x="([-\d.]+)" y="([-\d.]+)" font-size="([\d.]+)" text-anchor="(\w+)" '
    r'fill="[^"]*"( font-weight="600")?>([^<]*)</text>'
)


def _legible(drawing: Drawing, scale: float) -> bool:
    """Whether a drawing's words are large enough, inside it, and none upon another."""
    boxes: list[tuple[float, float, float, float]] = []
    for place, base, high, anchor, bold, words in _DRAWN.findall(drawing.body):
        x, y, size = float(place), float(base), float(high)
        wide = text_width(unescaped(words), size, bool(bold))
        left = x - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor]
        # capitals stand 0.7 of the size high, descenders reach 0.2 down
        box = (left, y - 0.7 * size, left + wide, y + 0.2 * size)
        inside = -0.05 * size <= left and left + wide <= drawing.width + 0.05 * size and box[1] >= 0
        if size * scale < SMALLEST - 1e-6 or not inside or y > drawing.height:
            return False
        if any(box[0] < b[2] and b[0] < box[2] and box[1] < b[3] and b[1] < box[3] for b in boxes):
            return False
        boxes.append(box)
    return True


def _steps(paper: Paper, steps: tuple[Step, ...], title: str) -> None:
    """The steps' titles; of a long plan its parts and how many steps each has."""
    rows = [f"{i}. {step.title}" for i, step in enumerate(steps, 1)]
    parts = list(dict.fromkeys(step.group for step in steps))
    paper.turn("steps")
    _heading(paper, title or "In this order")
    if _high(paper, rows, SMALLEST, 0) > paper.room and len(parts) > 1:
        rows = [f"{part}: {plural(sum(s.group == part for s in steps), 'step')}" for part in parts]
    _listed(paper, rows, "ink")


def _heading(paper: Paper, words: str) -> None:
    paper.text(words, SMALLEST, "ink", bold=True)
    paper.y += SPACE / 2


def _high(paper: Paper, rows: list[str], size: float, gap: float = SPACE / 2) -> float:
    return sum(height_of(row, paper.width, size) + gap for row in rows)


def _listed(paper: Paper, rows: list[str], ink: str, sizes: tuple[float, ...] = TEXT_SIZES) -> None:
    """As many rows as stand on this frame; how many more there are is said."""
    ways = [(size, SPACE / 2) for size in sizes] + [(SMALLEST, 0.0)]
    whole = [(size, gap) for size, gap in ways if _high(paper, rows, size, gap) <= paper.room]
    size, gap = whole[0] if whole else ways[-2]
    keep = 0.0 if whole else SMALLEST * LEADING
    for i, row in enumerate(rows):
        if i and height_of(row, paper.width, size) + keep > paper.room:
            paper.text(f"And {len(rows) - i} more, on the page.", size, "soft")
            return
        paper.text(row, size, ink)
        paper.y += gap


def _equation(work: Working, width: float, size: float) -> list[str]:
    """Formula, numbers and result in one line, or else broken before the equals sign."""
    parts = [part for part in (work.formula, work.numbers, work.result) if part]
    whole = " = ".join(parts)
    if len(parts) < 2 or text_width(whole, size, True) <= width:
        return [whole]
    return [parts[0], "= " + " = ".join(parts[1:])]


def _working(paper: Paper, lines: list[Working]) -> None:
    """The working, one more line revealed on each frame, or a few at a time where there are many."""
    if not lines:
        return
    room = paper.shape.bottom - paper.shape.top - SMALLEST * LEADING - 22

    def high(work: Working, size: float) -> float:
        equation = sum(height_of(part, paper.width, size, True) for part in _equation(work, paper.width, size))
        return height_of(work.what, paper.width, SMALLEST) + equation + SPACE

    size = next((s for s in TEXT_SIZES if sum(high(work, s) for work in lines) <= room), SMALLEST)
    at_once = -(-len(lines) // MOST_REVEALS)
    for start in range(0, len(lines), at_once):
        group = lines[start : start + at_once]
        if not start or sum(high(work, size) for work in group) - SPACE > paper.room:
            paper.turn("working")
        else:
            paper.again()
        for work in group:
            paper.text(work.what, SMALLEST, "soft")
            for part in _equation(work, paper.width, size):
                paper.text(part, size, "ink", bold=True)
            paper.y += SPACE


def _closing(paper: Paper, result: Result) -> None:
    """Cautions, as many frames as they take, then as many sources as one frame holds."""
    cautions = [f"Caution: {c.text} {c.defer}".strip() for c in result.answer.cautions]
    sources = [source.say() for source in result.answer.sources]
    if cautions:
        paper.turn("cautions")
    both = _high(paper, cautions + sources, SMALLEST) + SMALLEST * LEADING + SPACE
    together = bool(cautions and sources) and both <= paper.room
    sizes = (SMALLEST,) if together else TEXT_SIZES
    size = next((s for s in sizes if _high(paper, cautions, s) <= paper.room), SMALLEST)
    for i, caution in enumerate(cautions):
        if i and height_of(caution, paper.width, size) > paper.room:
            paper.turn("cautions")
        paper.text(caution, size, "no")
        paper.y += SPACE / 2
    if not sources:
        return
    if together:
        paper.frames[-1].name = "cautions and sources"
        paper.y += SPACE / 2
    else:
        paper.turn("sources")
    _heading(paper, "Source" if len(sources) == 1 else "Sources")
    _listed(paper, sources, "soft", (64.0, SMALLEST))


__all__ = [
    "BACKGROUNDS", "DARK", "HEADLINE_SIZES", "LIGHT", "MOST_REVEALS", "SHAPES", "SMALLEST", "UPRIGHT_SIZES",
    "Box", "Frame", "frames", "lines_of",
]  # fmt: skip
