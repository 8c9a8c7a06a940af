"""The side panel: a third of the width, beside which the presenter stands."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from calculators.desk.answer import Verdict
from calculators.desk.card_canvas import Canvas, cut
from calculators.desk.card_declared import Card
from calculators.desk.card_forms.fitting import (
    HERO_SIZES,
    LEAST_DRAWING,
    UNDER_HEAD,
    draw_at,
    drawn_for,
    first_above,
    headed,
    less_and_less,
    says,
    strip,
)
from calculators.desk.card_forms.plan import Plan, Setting, one_plate, steps_for
from calculators.desk.card_parts import GAP, QUESTION, Stack, draw_stack, head_height, stack_of

UNDER_NARROW = 26.0  # from the question's rule to what follows, in a side panel


def panel_card(setting: Setting) -> Plan:
    """A third of the width, for a picture in which the presenter stands beside it; it says itself what it is about."""
    shape, canvas = setting.shape, Canvas()
    bottom = strip(setting, canvas)
    card, stack, asked = _panel_words(setting, shape.right - shape.left, bottom)
    top = headed(replace(setting, question=asked), canvas, 2) - UNDER_HEAD + UNDER_NARROW
    y = draw_stack(canvas, stack, setting.sign, shape.left, top, setting.theme.numbers)
    draw_at(canvas, card.drawing, shape.left, y + GAP, shape.right, bottom)
    return Plan(canvas, steps_for(card, setting.verdict, canvas, asked=False), one_plate(canvas, shape, whole=True))


def _panel_words(setting: Setting, width: float, bottom: float) -> tuple[Card, Stack, str]:
    """
    What of a card a panel holds, and which question above it: the whole one in two lines, or the topic.

    The drawing with the hero, for which the line gives way; where they have no room together, the drawing alone if it
    says what the hero says, or else the hero.
    """
    bare = replace(setting.card, figures=(), working=())
    heads = _panel_heads(setting, width)
    for kept in _for_panel(bare, setting.verdict):
        for asked, high in heads:
            space = width, bottom - setting.shape.top - high
            stacks = (stack_of(kept, width, size, hero_lines=3, line_lines=4) for size in HERO_SIZES)
            stack = first_above(stacks, kept.drawing, space, LEAST_DRAWING if kept.drawing else 0)
            if stack is None or not (kept.hero or kept.line or kept.verdict or kept.drawing):
                continue
            if kept.drawing and bare.hero and not kept.hero:
                drawn = drawn_for(kept.drawing, width, space[1] - stack.height() - GAP)
                if drawn is None or not (bare.drawn_hero or says(drawn, bare.hero)):
                    continue
            return kept, stack, asked
    return replace(bare, hero="", line="", drawing=None), Stack([], 0, [], 0, [], 0), heads[-1][0]


def _panel_heads(setting: Setting, width: float) -> list[tuple[str, float]]:
    """The questions that can stand above a panel, the fullest first, and how high each stands."""
    room = width - (90 if setting.theme.small_mark else 0)
    asked = [(each, len(cut(each, room, QUESTION, 9))) for each in (setting.question, setting.card.topic) if each]
    whole = [(each, lines) for each, lines in asked if 0 < lines <= 2]
    # one of which only the beginning shows asks little, but more than none
    return [(each, head_height(lines) + UNDER_NARROW) for each, lines in whole or [(setting.question, 2)]]


def _for_panel(card: Card, verdict: Verdict | None) -> Iterable[Card]:
    """With its drawing and less and less beside it, then without."""
    without = list(less_and_less(replace(card, drawing=None), verdict))
    if card.drawing:
        yield from less_and_less(card, verdict)
    yield from without
