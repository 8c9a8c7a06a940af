"""What several forms share: head, caution's strip, words that leave a drawing room, a drawing as large as fits."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import combinations

from calculators.desk.answer import DEPENDS, Verdict
from calculators.desk.card_canvas import LEAST_HERO, PAD, SMALLEST_DRAWN, Canvas, cut
from calculators.desk.card_declared import Card, ScreenDrawing
from calculators.desk.card_forms.plan import Setting
from calculators.desk.card_parts import (
    GAP,
    QUESTION,
    Stack,
    caution_height,
    caution_lines,
    caution_width,
    draw_caution,
    draw_question,
)
from calculators.desk.svg import Drawing

DRAWN_SIZES = (68.0, 62.0, 56.0, 52.0, SMALLEST_DRAWN)
HERO_SIZES = (230.0, 210.0, 190.0, 176.0, 164.0, 152.0, LEAST_HERO)
UNDER_HEAD = 40.0  # from the question's rule to what follows
LEAST_DRAWING = 250.0  # height; in less a drawing says nothing
AIR = 76.0  # between the answer's words and the drawing


def headed(setting: Setting, canvas: Canvas, most: int) -> float:
    """The head of a card; says where what follows begins."""
    shape = setting.shape
    mark = setting.theme.small_mark
    room = shape.right - shape.left - (90 if mark else 0)
    lines = cut(setting.question, room, QUESTION, most)
    return draw_question(canvas, lines, shape.left, shape.right, shape.top, mark, True) + UNDER_HEAD


def strip(setting: Setting, canvas: Canvas, *, narrow: bool = False) -> float:
    """The caution's strip, or one only as wide as its words; says where what stands above it ends."""
    shape = setting.shape
    if not setting.card.caution:
        return shape.bottom
    # over another picture the strip is as wide as the plates above it
    wider = PAD if setting.open_ground else 0.0
    out = wider, 0.0 if shape.right < setting.reach else wider
    lines = caution_lines(setting.card.caution, shape.right - shape.left, out)
    right = shape.left + caution_width(lines, out) if narrow else shape.right
    draw_caution(canvas, lines, shape.left, right, shape.bottom, out)
    return shape.bottom - caution_height(lines) - 36


def draw_at(
    canvas: Canvas, drawing: ScreenDrawing | None, left: float, top: float, right: float, bottom: float
) -> bool:
    """The drawing in the largest type with which all of it shows."""
    drawn = drawn_for(drawing, right - left, bottom - top)
    if drawn is None:
        return False
    spare = bottom - top - drawn.height
    canvas.drawing("drawing", drawn, left + (right - left - drawn.width) / 2, top + min(spare / 2, 110))
    canvas.areas["drawing"] = (left, top, right, bottom)
    return True


def drawn_for(
    drawing: ScreenDrawing | None, width: float, height: float, *, sizes: Sequence[float] = DRAWN_SIZES
) -> Drawing | None:
    """A drawing for this room, or None where its words would be too small, outside it or upon each other."""
    if drawing is None or height < LEAST_DRAWING or width < LEAST_DRAWING:
        return None
    for size in sizes:
        drawn = drawing(width, height, size)
        if drawn is not None and drawn.height <= height + 1 and drawn.width <= width + 1 and legible(drawn):
            return drawn
    return None


def legible(drawn: Drawing) -> bool:
    """Whether a drawing's words are large enough, inside it, and none upon another."""
    texts = [box for box in drawn.record() if box.size]
    for box in texts:
        if box.size < SMALLEST_DRAWN - 1e-6 or box.left < -0.5 or box.right > drawn.width + 0.5:
            return False
        if box.top < -2 or box.bottom > drawn.height + box.size * 0.22 + 1:
            return False
    return not any(one.meets(other) for one, other in combinations(texts, 2))


def first_above(
    stacks: Iterable[Stack | None], drawing: ScreenDrawing | None, space: tuple[float, float], room: float
) -> Stack | None:
    """The first words of several that leave a drawing below them so much height, and in which it can be drawn."""
    width, height = space
    tried: dict[float, bool] = {}
    for stack in stacks:
        left = height - stack.height() - (GAP if drawing else 0) if stack else -1.0
        if stack is None or left < room:
            continue
        if drawing is None:
            return stack
        if left not in tried:
            tried[left] = drawn_for(drawing, width, left) is not None
        if tried[left]:
            return stack
    return None


def says(drawn: Drawing, hero: str) -> bool:
    """Whether a drawing's own words hold every number of a hero, or all its words where it has none."""
    text = " ".join(box.what for box in drawn.record() if box.size)
    numbers = [part for part in hero.split() if any(c.isdigit() for c in part)]
    wanted, there = numbers or hero.split(), text.split()
    return all(part in there for part in wanted)


def less_and_less(card: Card, verdict: Verdict | None) -> Iterable[Card]:
    """The card, then with less and less of it: no number without its condition, no line that needs the number."""
    yield card
    depends = verdict is not None and verdict.word == DEPENDS
    if card.line and not depends:
        yield replace(card, line="")
    if card.hero and card.line and depends:
        yield replace(card, hero="")
    if card.hero:
        yield replace(card, hero="", line="")
