"""The full card: words at the left, the drawing at the right, figures or mathematics along the foot."""

from __future__ import annotations

from dataclasses import replace

from calculators.desk.card_canvas import Canvas, equation_width, set_equation
from calculators.desk.card_declared import Card
from calculators.desk.card_forms.fitting import AIR, HERO_SIZES, draw_at, drawn_for, headed, strip
from calculators.desk.card_forms.plan import Plan, Setting, one_plate, steps_for
from calculators.desk.card_parts import (
    ALONE,
    FIGURE_HEIGHT,
    VALUE,
    Code,
    Stack,
    draw_figure,
    draw_stack,
    figure_width,
    stack_of,
    struck,
)
from calculators.desk.svg import text_width

EQUATION = 72.0
FOOT_GAP = 90.0
CODE_GAP = 36.0  # between the caution's strip and the code


def wide_card(setting: Setting) -> Plan:
    """The full card: the fullest of its ways in which hero, line, drawing and address all have their place."""
    tries = [setting.card]
    if setting.card.figures or setting.card.working:
        tries += [
            replace(setting.card, figures=setting.card.figures[:1]),
            replace(setting.card, figures=(), working=()),
        ]
    for drawn in (True, False):
        for card in tries:
            if plan := wide_as(replace(setting, card=card), drawn):
                return plan
    bare = replace(setting, card=replace(tries[-1], hero="", line=""))
    return (
        wide_as(bare, drawn=False)
        or wide_as(replace(bare, code=Code("", None)), drawn=False, anyhow=True)
        or Plan(Canvas(), [], [])
    )


def wide_as(setting: Setting, drawn: bool, anyhow: bool = False) -> Plan | None:
    """The full card, its address along the foot; None where something of it, or of a drawing wanted, has no room."""
    shape, card, canvas, code = setting.shape, setting.card, Canvas(), setting.code
    top = headed(setting, canvas, 1)
    left, right = shape.left, shape.right
    beside = code.side + CODE_GAP if code.rows and card.caution else 0.0  # the strip ends where the code stands
    bottom = strip(replace(setting, shape=replace(shape, right=right - beside)), canvas)
    address = code.foot(right - left, right, shape.bottom, bottom if card.caution else None) if code.shown else None
    if code.shown and address is None:
        return None
    low, begin = (address.top, address.left) if address else (bottom, right)
    cells = _cells(card, (begin - FOOT_GAP if address else right) - left)
    if len(cells) < len(card.figures) or (card.working and not cells):
        return None
    foot_top = min(bottom - (FIGURE_HEIGHT if card.figures else 130), low) if cells else bottom
    column_bottom = foot_top - 56 if cells else bottom
    low = column_bottom if cells else min(low - 36 if address else bottom, bottom)
    placed = _best_placed(card, (left, top, right), (begin - 40 - left, column_bottom), low, drawn)
    if placed is None:
        if not anyhow:
            return None
        placed = Stack([], 0, [], 0, [], 0), left
    stack, at = placed
    draw_stack(canvas, stack, setting.sign, left, top, setting.theme.numbers)
    draw_at(canvas, card.drawing, at, top - 8, right, low)
    x = left
    for what, wide in cells:
        if what >= 0:
            draw_figure(canvas, "figures", *card.figures[what], x, bottom - FIGURE_HEIGHT)
            if setting.sign == "corrected" and what == 0:
                struck(canvas, "figures", text_width(card.figures[0][1], VALUE, True), x, bottom - FIGURE_HEIGHT)
        else:
            set_equation(canvas, "working", card.working, x, (foot_top + bottom) / 2, EQUATION)
        x += wide + FOOT_GAP
    if cells:
        place = f'x="{left:g}" y="{foot_top - 28:.1f}" width="{right - left:g}" height="3"'
        rule = f'<rect {place} fill="var(--wa-line,#000)"/>'
        canvas.shape("working" if card.working else "figures", rule)
    if address:
        address.draw(canvas)
    return Plan(canvas, steps_for(card, setting.verdict, canvas), one_plate(canvas, shape, setting.theme.corner))


def _cells(card: Card, width: float) -> list[tuple[int, float]]:
    """The cells along the card's foot as (number of the figure, width); -1 stands for a line of mathematics."""
    if card.working:
        wide = equation_width(card.working, EQUATION)
        return [(-1, wide)] if wide <= width else []
    cells: list[tuple[int, float]] = []
    for i, (label, text) in enumerate(card.figures):
        wide = figure_width(label, text)
        if sum(w + FOOT_GAP for _, w in cells) + wide > width:
            break
        cells.append((i, wide))
    return cells


def _best_placed(
    card: Card, frame: tuple[float, float, float], beside: tuple[float, float], low: float, drawn: bool
) -> tuple[Stack, float] | None:
    """
    The answer's words, and where the drawing at their right begins; None where it is wanted and finds no room.

    frame: left, top, right. beside: how wide the words may be down to which height; wider ones end at low.
    """
    left, top, right = frame
    widest = (right - left) * 0.5 if card.drawing else right - left
    for width in (widest, 740.0, 640.0, 560.0):
        if width > widest:
            continue
        stack = _best_stack(card, width, beside[1] - top, (beside[0], low - top))
        if stack is None:
            continue
        at = left + max(stack.width(), 520) + AIR
        if not drawn or not card.drawing or drawn_for(card.drawing, right - at, low - top + 8):
            return stack, at
    return None


def _best_stack(card: Card, widest: float, high: float, beside: tuple[float, float]) -> Stack | None:
    """
    The answer's words, the hero as large as leaves the drawing its room.

    beside: how wide the words may be that stand lower than this: the address stands at their right.
    """
    best: tuple[float, Stack] | None = None
    for size in HERO_SIZES:
        for width in (560, 620, 680, 740, 800, 860, 1200, 1728):
            if width > widest + 1:
                continue
            stack = stack_of(card, width, size, hero_lines=2, line_lines=3)
            if stack is None or stack.height() > high or not stack.leaves(*beside):
                continue
            parted = len(stack.hero) - 1 if stack.hero and stack.hero[0] not in ALONE else 0
            score = size - max(stack.width() - 640, 0) * (0.3 if card.drawing else 0.05) - 45 * parted
            if best is None or score > best[0]:
                best = score, stack
        if not card.hero:
            break
    return best[1] if best else None
