"""The lower third: the verdict and what it is about, below the presenter."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.desk.answer import DEPENDS
from calculators.desk.card_canvas import (
    ABOVE,
    LEADING,
    LEAST_HERO,
    PAD,
    PLATE_EDGE,
    SMALLEST,
    Canvas,
    balanced,
    cut,
    fits,
)
from calculators.desk.card_forms.plan import Plan, Setting, one_step
from calculators.desk.card_parts import SIGN, caution_height, caution_lines, caution_width, draw_caution, sign
from calculators.desk.svg import text_width

LOWER_FOOT = 30.0  # from the last baseline of a lower third to its edge
HERO_FOOT = 36.0  # the same where that is the hero's
LOWER_VERDICT = 64.0  # of every lower third: they stand in one place after another in a programme
BESIDE = 60.0  # between the verdict of a lower third and its hero


def lower_card(setting: Setting) -> Plan:
    """The lower third: the verdict and, at its right or below, hero and line; or verdict and line; or line and hero."""
    shape, card, canvas = setting.shape, setting.card, Canvas()
    width = shape.right - shape.left
    out = PAD, PAD
    warned = caution_lines(card.caution, width, out) if card.caution else []
    low = shape.bottom - (caution_height(warned) if warned else 0.0)
    depends = setting.verdict is not None and setting.verdict.word == DEPENDS
    drawn = False
    if card.verdict and card.hero:
        drawn = _lower_beside(setting, canvas, low) or (depends and _lower_over(setting, canvas, low))
    elif card.hero and not card.verdict:
        drawn = _lower_opened(setting, canvas, low)
    if not drawn:
        _lower_said(setting, canvas, low)
    right = min(max(box.right for box in canvas.boxes), shape.right)
    top = min(box.top for box in canvas.boxes) - PLATE_EDGE
    if warned:  # as wide as the plate above it
        right = max(right, shape.left + caution_width(warned, out))
        draw_caution(canvas, warned, shape.left, right, shape.bottom, out)
    canvas.plates["words"] = shape.left - PAD, top, right + PAD, low if warned else min(low, shape.bottom)
    return one_step(canvas, "lower third", [["question", "verdict", "hero", "line", "words"]])


def _lower_beside(setting: Setting, canvas: Canvas, low: float) -> bool:
    """Verdict and hero on one baseline, the line below the hero: no number without its word. False for no room."""
    shape, card = setting.shape, setting.card
    room = shape.right - shape.left - text_width(card.hero, LEAST_HERO, True) - SIGN - 24 - BESIDE
    size = LOWER_VERDICT
    verdict = next((lines for n in (1, 2) if (lines := balanced(card.verdict, room, size, n, True))), None)
    if not verdict:
        return False
    at = shape.left + SIGN + 24 + max(text_width(each, size, True) for each in verdict) + BESIDE
    starts = (at, shape.left) if len(verdict) == 1 else (at,)  # below the hero, or else below both
    ways_below = ((start, each) for start in starts for each in (64.0, SMALLEST) if card.line)
    below = [(x, each) for x, each in ways_below if fits(card.line, shape.right - x, each, 1)]
    depends = setting.verdict is not None and setting.verdict.word == DEPENDS
    if not below and (depends or any(c.isdigit() for c in card.hero)):
        return False
    base = low - (LOWER_FOOT + below[0][1] * LEADING + 10 if below else HERO_FOOT)
    if base - LEAST_HERO * ABOVE < shape.top:
        return False
    if below:
        x, line_size = below[0]
        canvas.text("line", card.line, x, low - LOWER_FOOT + 4, line_size, "ink")
    _lower_verdict(
        canvas, verdict, setting.sign, (shape.left, base - (size * 0.8 if len(verdict) > 1 and not below else 0)), size
    )
    canvas.text("hero", card.hero, at, base, LEAST_HERO, "ink", bold=True, family=setting.theme.numbers)
    return True


def _lower_over(setting: Setting, canvas: Canvas, low: float) -> bool:
    """The verdict above its hero, the line at the right of either: answer and condition. False for no room."""
    shape, card = setting.shape, setting.card
    width, base = shape.right - shape.left, low - HERO_FOOT
    over = base - LEAST_HERO * ABOVE - 34
    said = SIGN + 24 + text_width(card.verdict, LOWER_VERDICT, True)
    hero = text_width(card.hero, LEAST_HERO, True)
    starts = ((said + BESIDE, over), (hero + BESIDE, base))
    at = next(((x, y) for x, y in starts if x + text_width(card.line, SMALLEST) <= width), None)
    if at is None or not card.line or max(said, hero) > width or over - SIGN < shape.top:
        return False
    _lower_verdict(canvas, [card.verdict], setting.sign, (shape.left, over), LOWER_VERDICT)
    canvas.text("line", card.line, shape.left + at[0], at[1], SMALLEST, "ink")
    canvas.text("hero", card.hero, shape.left, base, LEAST_HERO, "ink", bold=True, family=setting.theme.numbers)
    return True


def _lower_opened(setting: Setting, canvas: Canvas, low: float) -> bool:
    """The hero below its line, which opens it. False for no room."""
    shape, card = setting.shape, setting.card
    width = shape.right - shape.left
    lines = fits(card.line, width, SMALLEST, 1) if card.line else None
    if not fits(card.hero, width, LEAST_HERO, 1, True) or (not lines and any(c.isdigit() for c in card.hero)):
        return False
    base = low - HERO_FOOT
    canvas.text("hero", card.hero, shape.left, base, LEAST_HERO, "ink", bold=True, family=setting.theme.numbers)
    if lines:
        canvas.text("line", lines[0], shape.left, base - LEAST_HERO * ABOVE - 34, SMALLEST, "ink")
    return True


def _lower_said(setting: Setting, canvas: Canvas, low: float) -> None:
    """The verdict and its line; the question where there is neither."""
    shape, card = setting.shape, setting.card
    width, base = shape.right - shape.left, low - LOWER_FOOT
    line = next((s for s in (72.0, 64.0, SMALLEST) if fits(card.line, width, s, 1)), 0.0) if card.line else 0.0
    depends = setting.verdict is not None and setting.verdict.word == DEPENDS
    if line and (depends or not card.hero):  # other lines need the number
        canvas.text("line", card.line, shape.left, base, line, "ink")
        base -= line * LEADING + 24
    if card.verdict:
        _lower_verdict(canvas, [card.verdict], setting.sign, (shape.left, base), LOWER_VERDICT)
    for asked in cut(setting.question, width, 64.0, 1) if not canvas.boxes else ():
        canvas.text("question", asked, shape.left, base, 64.0, "ink")


def _lower_verdict(canvas: Canvas, lines: Sequence[str], word: str, at: tuple[float, float], size: float) -> None:
    """The verdict of a lower third, its sign before it: at its left edge, the first line on its baseline."""
    left, base = at
    sign(canvas, "verdict", word, left, base + 4 - SIGN)
    for i, line in enumerate(lines):
        canvas.text("verdict", line, left + SIGN + 24, base + i * size * 1.1, size, word, bold=True)
