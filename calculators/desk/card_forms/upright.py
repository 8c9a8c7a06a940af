"""The card for a phone held upright: one column."""

from __future__ import annotations

from dataclasses import replace

from calculators.desk.card_canvas import LEADING, LEAST_HERO, SMALLEST, Canvas
from calculators.desk.card_forms.fitting import (
    HERO_SIZES,
    LEAST_DRAWING,
    draw_at,
    first_above,
    headed,
    less_and_less,
    strip,
)
from calculators.desk.card_forms.plan import Plan, Setting, one_plate, steps_for
from calculators.desk.card_parts import GAP, Code, Stack, draw_stack, stack_of

LARGE_DRAWING, MIDDLE_DRAWING = 560.0, 400.0  # heights that a picture held upright tries first


def upright_card(setting: Setting) -> Plan:
    """A card for a phone held upright: one column, no code, and rather no address, or fewer words, than no drawing."""
    bare = replace(setting, code=Code("", None))
    tall = (LARGE_DRAWING, MIDDLE_DRAWING, LEAST_DRAWING)
    if setting.card.drawing:
        ways = [(each, room) for room in tall for each in (setting, bare)]
        ways += [(replace(bare, card=card), LEAST_DRAWING) for card in less_and_less(setting.card, setting.verdict)][1:]
        for each, room in ways:
            if plan := _upright_as(each, room):
                return plan
    return _upright_as(setting, 0) or _upright_as(bare, 0) or Plan(Canvas(), [], [])


def _upright_as(setting: Setting, room: float) -> Plan | None:
    """The card in one column, its drawing at least so high; the code is left out, for the phone cannot scan itself."""
    shape, card, canvas = setting.shape, replace(setting.card, figures=(), working=()), Canvas()
    width = shape.right - shape.left
    top = headed(setting, canvas, 2)
    bottom = strip(setting, canvas)
    lines = setting.code.lines(width)
    if lines and setting.code.shown:
        high = len(lines) * SMALLEST * LEADING
        bare = Code(setting.code.shown, None)
        bare.draw(canvas, shape.left, bottom - high, width)
        bottom -= high + GAP
    stacks = [stack_of(card, width, size, hero_lines=n, line_lines=3) for n in (1, 2) for size in HERO_SIZES]
    drawing = card.drawing if room else None
    stack = first_above(stacks, drawing, (width, bottom - top), room)
    if stack is None and not room:  # rather no number than no card
        card = replace(card, hero="", line="")
        stack = stack_of(card, width, LEAST_HERO, hero_lines=1, line_lines=1) or Stack([], 0, [], 0, [], 0)
    if stack is None:
        return None
    y = draw_stack(canvas, stack, setting.sign, shape.left, top, setting.theme.numbers)
    draw_at(canvas, drawing, shape.left, y + GAP, shape.right, bottom)
    return Plan(canvas, steps_for(card, setting.verdict, canvas), one_plate(canvas, shape, setting.theme.corner))
