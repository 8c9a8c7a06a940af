"""The thumbnail: a still that is seen as small as a stamp."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from calculators.desk.answer import DEPENDS, YES
from calculators.desk.card_canvas import ABOVE, BELOW, LEAST_HERO, SMALLEST, Canvas, Shape, balanced, fits
from calculators.desk.card_declared import Card
from calculators.desk.card_forms.fitting import AIR, DRAWN_SIZES, drawn_for, says
from calculators.desk.card_forms.large import large_card
from calculators.desk.card_forms.plan import Plan, Setting, one_plate, one_step
from calculators.desk.card_parts import GAP, Stack, draw_stack, sign, stack_of
from calculators.desk.svg import Drawing, text_width

STILL_SIZES = (330.0, 280.0, 240.0, 200.0, 170.0, LEAST_HERO)
STILL_DRAWN = (96.0, 80.0, 68.0, 60.0)  # a still is often seen half as wide as a phone
STILL_VERDICT = (*STILL_SIZES, 120.0, 100.0, 84.0, 72.0, SMALLEST)
# What a still says of danger where the caution has no tag of its own: two words by the risk, which can be read where
# it is as small as a stamp.
STILL_DANGER = {"hearing": "Hearing loss", "data": "Copy files", "machine": "Can break", "person": "Can hurt"}
DANGER_SIZE, DANGER_SIGN = 112.0, 96.0
VERDICT_SIGN = 1.0  # of a large verdict: its sign and the air beside or below it, in sizes of its type


@dataclass(frozen=True, slots=True)
class Still:
    """
    The words of a thumbnail: hero with its verdict above it, or the verdict, or the question, alone and large.

    size: of the largest of them. said: the lines of what stands alone. asked: whether that is the question.
    """

    size: float
    width: float
    height: float
    stack: Stack | None
    said: list[str]
    asked: bool = False


def still_card(setting: Setting) -> Plan:
    """
    A still for a list of videos: the answer large, the drawing beside or below it; the lower right corner stays free.

    With a verdict the answer is its words, where the drawing holds the hero's number; a number alone answers nothing.
    Small print is none: of a caution a sign and two words stand there, and where a yes comes with one that goes before
    everything else, the question stands in place of the verdict, which would mislead without its words.
    """
    shape, canvas, card = setting.shape, Canvas(), replace(setting.card, line="")
    depends = setting.verdict is not None and setting.verdict.word == DEPENDS
    if depends:
        card = replace(card, hero="")  # a still has no room for the condition
    asked = ""
    if card.grave and setting.verdict is not None and not depends and setting.verdict.word == YES:
        asked = card.topic or setting.question
    if not card.hero and not card.verdict:
        return large_card(
            replace(setting, shape=replace(shape, bottom=(shape.free or (0, shape.bottom))[1])), "title", 0
        )
    free_bottom = (shape.free or (shape.right, shape.bottom))[1]
    bottom = _danger(canvas, card, shape)
    frame = shape.left, shape.top + 20, shape.right, min(bottom - 30, free_bottom - 20)
    still, drawn, under = _still(setting, card, frame, asked)
    left, top, right, low = frame
    if drawn is None:
        at = (left, top + (low - top - still.height) / 2)
    elif under:
        spare = low - top - still.height - GAP - drawn.height
        at = (left, top + spare / 3)
        low_drawn = at[1] + still.height + GAP + spare / 3
        canvas.drawing("drawing", drawn, left + (right - left - drawn.width) / 2, low_drawn)
    else:
        at = (left, top + (low - top - still.height) / 2)
        canvas.drawing("drawing", drawn, left + still.width + AIR, top + (low - top - drawn.height) / 2)
    if still.stack:
        draw_stack(canvas, still.stack, setting.sign, *at, setting.theme.numbers)
    elif still.asked:
        for i, line in enumerate(still.said):
            canvas.text("question", line, at[0], at[1] + still.size * (ABOVE + i), still.size, "ink", bold=True)
    else:
        _large_verdict(canvas, still, setting.sign, *at)
    return one_step(canvas, "thumbnail", one_plate(canvas, shape, whole=True))


def _danger(canvas: Canvas, card: Card, shape: Shape) -> float:
    """The sign of danger and its two words along the foot; says where what stands above them ends."""
    if not card.caution:
        return shape.bottom
    words_said = card.tag or STILL_DANGER.get(card.risk, "Can hurt")
    base = shape.bottom - DANGER_SIZE * BELOW
    top = base - DANGER_SIGN
    place = f'transform="translate({shape.left:.1f} {top:.1f}) scale({DANGER_SIGN / 62:.4f})"'
    canvas.shape(
        "caution",
        f'<g {place}><path d="M0 62 31 4 62 62z" fill="var(--wa-no,#000)"/>'
        '<path d="M31 25v19M31 49v8" stroke="var(--wa-paper,#fff)" stroke-width="7"/></g>',
        "caution sign",
        (shape.left, top, shape.left + DANGER_SIGN, base),
    )
    x = shape.left + DANGER_SIGN + 34
    canvas.text("caution", words_said, x, base, DANGER_SIZE, "no", bold=True)
    return base - DANGER_SIGN


def _still(
    setting: Setting, card: Card, frame: tuple[float, float, float, float], asked: str
) -> tuple[Still, Drawing | None, bool]:
    """The words and the drawing that fill a thumbnail best, and whether the drawing stands below the words."""
    left, top, right, low = frame
    width, height = right - left, low - top
    words_of = [*_large_verdicts(card.verdict, width, height)] if card.verdict else []
    heroes = [*_large_heroes(card, width, height)] if card.hero else []
    best: tuple[float, Still, Drawing | None, bool] | None = None
    ways: list[tuple[list[Still], str, Sequence[float]]]
    ways = [(words_of, card.hero, STILL_DRAWN), (heroes, "", STILL_DRAWN)]
    ways += [(words_of, card.hero, DRAWN_SIZES), (heroes, "", DRAWN_SIZES)]  # rather small labels than no drawing
    if asked:
        words_of, heroes = [*_large_verdicts(asked, width, height, asked=True)], []
        ways = [(words_of, "", STILL_DRAWN), (words_of, "", DRAWN_SIZES)]
    for stills, must_say, sizes in ways:
        for still in stills if best is None else ():
            beside = (width - still.width - AIR, height)
            below = (width, height - still.height - GAP)
            for room, under in ((beside, False), (below, True)):
                drawn = drawn_for(card.drawing, *room, sizes=sizes)
                if drawn is None or (must_say and not says(drawn, must_say)):
                    continue
                score = _filled(still, drawn, width, height, under)
                if best is None or score > best[0]:
                    best = score, still, drawn, under
    if best:
        return best[1:]
    alone = [still for still in (heroes or words_of) if not card.drawing or still.width < width]
    return (alone or heroes or words_of or [Still(0, 0, 0, None, [])])[0], None, False


def _filled(still: Still, drawn: Drawing, width: float, height: float, under: bool) -> float:
    """How well words and drawing fill a room: large words, large labels, little left empty."""
    boxes = drawn.record()
    labels = min((box.size for box in boxes if box.size), default=SMALLEST)
    named = [box for box in boxes if box.what and not box.size]
    shown = max((box.right for box in boxes), default=0) * drawn.height if named else drawn.width * drawn.height
    shapes = sum((box.right - box.left) * (box.bottom - box.top) for box in named) if named else shown / 2
    used = (still.width * still.height + shown) / (width * height) + min(shapes / (width * height), 0.35) * 3
    thin = 0.3 if not under and drawn.width < width * 0.4 else 0.0  # a drawing squeezed at the side is not seen
    return min(still.size, 260.0) / 260 + labels / 100 + used - thin


def _large_heroes(card: Card, width: float, height: float) -> Iterable[Still]:
    """The hero in all sizes in which it stands, in one line or two, its verdict above it."""
    for size in STILL_SIZES:
        for lines in (1, 2):
            stack = stack_of(card, width, size, hero_lines=lines, line_lines=1)
            if stack is None and lines == 2:
                stack = stack_of(card, width * 0.6, size, hero_lines=2, line_lines=1)
            if stack and lines == 2 and len(stack.hero) == 1:
                stack = stack_of(card, text_width(card.hero, size, True) * 0.8, size, hero_lines=2, line_lines=1)
            if stack and stack.height() - GAP <= height:
                yield Still(size, stack.width(), stack.height() - GAP, stack, [])


def _large_verdicts(verdict: str, width: float, height: float, *, asked: bool = False) -> Iterable[Still]:
    """
    The verdict's words in all sizes in which they stand: beside their sign in one line, below it in several.

    asked: it is the question, which has no sign.
    """
    for size in STILL_VERDICT:
        beside = 0.0 if asked else size * VERDICT_SIGN
        if fits(verdict, width - beside, size, 1, True):
            wide = beside + text_width(verdict, size, True)
            yield Still(size, wide, size * (ABOVE + BELOW), None, [verdict], asked)
        for lines in (2, 3):
            fitting = balanced(verdict, width * 0.55, size, lines, True)
            high = beside + size * (ABOVE + BELOW + (lines - 1))
            if fitting and len(fitting) == lines and high <= height:
                yield Still(size, max(text_width(line, size, True) for line in fitting), high, None, fitting, asked)


def _large_verdict(canvas: Canvas, still: Still, word: str, left: float, top: float) -> None:
    """The verdict as the largest words of a picture, its sign before them, or above several lines."""
    size = still.size
    sign(canvas, "verdict", word, left, top, size * ABOVE)
    one = len(still.said) == 1
    x, y = (left + size * VERDICT_SIGN, top) if one else (left, top + size * VERDICT_SIGN)
    for i, line in enumerate(still.said):
        canvas.text("verdict", line, x, y + size * (ABOVE + i), size, word, bold=True)
