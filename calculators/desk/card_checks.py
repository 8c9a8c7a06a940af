"""
What is wrong with a card, in sentences: read from the boxes that the pen kept, never from the picture's own text.

Knows the limits of a card and what no card may do; draws nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations, pairwise

from calculators.desk.answer import DEPENDS
from calculators.desk.calculator import Result
from calculators.desk.card_canvas import LEAST_HERO, SHAPES, SMALLEST, SMALLEST_DRAWN, Shape
from calculators.desk.card_declared import LONGEST_HERO, MOST_NEW, MOST_WORDS, words
from calculators.desk.card_forms.plan import LATER, LEAST_STEPS, Plan
from calculators.desk.card_theme import LEAST_CONTRAST, Theme, contrast
from calculators.desk.svg import Box, text_width

UNCOUNTED = ("question", "address", "drawing", "caution")
STEPPED = ("wide", "panel", "upright")
HAIR = 0.6  # units; a rounding of the layout
MOST_STEPS = 5


def faults(plan: Plan, result: Result, shape: str, theme: Theme) -> list[str]:
    """Everything that is wrong with a composed card; nothing where it can go on air."""
    area = SHAPES[shape]
    problems = list(_outside(plan.canvas.boxes, area))
    problems += _small(plan.canvas.boxes)
    problems += _upon(plan)
    problems += _pale(plan.canvas.boxes, theme)
    problems += _steps(plan, result, shape)
    return problems


def _outside(boxes: Iterable[Box], area: Shape) -> Iterable[str]:
    for box in boxes:
        inside = area.left - HAIR <= box.left and box.right <= area.right + HAIR
        inside = inside and area.top - HAIR <= box.top and box.bottom <= area.bottom + HAIR
        if not inside:
            yield f"outside the safe area: {box}"
        if area.free and box.right > area.free[0] and box.bottom > area.free[1]:
            yield f"in the corner that stays free: {box}"


def _small(boxes: Iterable[Box]) -> Iterable[str]:
    for box in boxes:
        least = SMALLEST_DRAWN if box.part == "drawing" else LEAST_HERO if box.part == "hero" else SMALLEST
        if box.size and box.size < least - 1e-6:
            yield f"type of {box.size:g} where {least:g} is the least: {box}"


def _upon(plan: Plan) -> Iterable[str]:
    boxes = plan.canvas.boxes
    for one, other in combinations(boxes, 2):
        # inside one part words may stand on a shape on purpose, but never on other words, nor anything on the code
        apart = one.part != other.part or (one.size and other.size) or "code" in (one.what, other.what)
        if apart and one.meets(other, -HAIR):
            yield f"one upon the other: {one} and {other}"
    areas = [Box("all of it", *area, part=part) for part, area in plan.canvas.areas.items()]
    for area in areas:
        for box in [*boxes, *areas]:
            if box.part != area.part and area.meets(box, -HAIR):
                yield f"{box} stands in the room of the {area.part}"


def _pale(boxes: Iterable[Box], theme: Theme) -> Iterable[str]:
    """Words on their own ground: the paper, a plate of it, the strip, or a filled shape of the drawing."""
    for colours in (theme.light, theme.dark):
        for box in boxes:
            if not box.size:
                continue
            ground = {"on-caution": "caution", "paper": "fill-1"}.get(box.ink, "paper")
            if contrast(colours[box.ink], colours[ground]) < LEAST_CONTRAST:
                yield f"contrast below {LEAST_CONTRAST:g} to 1: {box.ink} on {ground}"


def _steps(plan: Plan, result: Result, shape: str) -> Iterable[str]:
    boxes = plan.canvas.boxes
    card = result.card()
    standing: list[str] = []
    count = len(plan.steps)
    aside = ("caution", "question") if shape == "panel" else ("caution",)
    apart = [part for part in plan.canvas.parts if part not in aside and part not in LATER]
    if shape in STEPPED and not min(LEAST_STEPS, len(apart)) <= count <= MOST_STEPS:
        yield f"{count} steps"
    if shape not in STEPPED and count != 1:
        yield f"{count} steps in a form that has one"
    for name, new in plan.steps:
        standing += new
        if not new:
            yield f"step {name} brings nothing"
        fresh, all_words = _read(boxes, new), _read(boxes, standing)
        if fresh > MOST_NEW and shape in STEPPED:
            yield f"step {name} brings {fresh} words"
        if all_words > MOST_WORDS:
            yield f"step {name} shows {all_words} words"
        if "hero" in standing and card.caution and "caution" not in standing:
            yield f"step {name} shows the hero without its caution"
        if "hero" in plan.canvas.parts and "line" in standing and "hero" not in standing and _unfinished(card.line):
            yield f"step {name} shows a line that is no whole without the hero: '{card.line}'"
        depends = result.answer.verdict is not None and result.answer.verdict.word == DEPENDS
        if "hero" in standing and depends and "line" not in standing:
            yield f"step {name} shows the hero without its condition"
    if len(standing) != len(set(standing)) or set(standing) != set(plan.canvas.parts):
        yield "the steps do not bring each part once"
    hero = " ".join(box.what for box in boxes if box.part == "hero")
    if shape == "lower" and any(c.isdigit() for c in hero) and "line" not in standing:
        yield "a number without its word"
    area = SHAPES["panel"]
    first = f"{result.calculator.title} ".split(" ")[0]  # a word wider than the panel stands on none, and is not cut
    could = text_width(f"{first} …", SMALLEST) <= area.right - area.left - 90
    if shape == "panel" and could and not any(box.size for box in boxes if box.part == "question"):
        yield "nothing says what the panel is about"
    if len(hero) > LONGEST_HERO:
        yield f"a hero of {len(hero)} characters"
    for part, whole in (("hero", card.hero), ("line", card.line), ("caution", "")):
        step_text = " ".join(box.what for box in boxes if box.part == part and box.size)
        if whole and step_text and step_text.split() != whole.split():
            yield f"{part} is cut: '{step_text}' of '{whole}'"


_OPENERS = ("if", "when", "unless", "though", "with", "without", "but", "and", "or", "is", "are")
_LABELS = ("what", "where", "how", "which")  # with these even 'hear' or 'of' ends a whole: 'what you should hear'
_LOOSE_ENDS = ("it", "you", "that", "the", "a", "of", "for", "hear", "sits", "sit", "count", "is", "are", "to", "and")


def _unfinished(line: str) -> bool:
    """Whether words alone are half a sentence: they begin as a condition, or end before what they speak of."""
    said = line.lower().split()
    if not said or said[0] in _LABELS:
        return line.endswith(",")
    return said[0] in _OPENERS or said[-1] in _LOOSE_ENDS or line.endswith(",")


def _read(boxes: Sequence[Box], parts: Sequence[str]) -> int:
    return sum(words(box.what) for box in boxes if box.size and box.part in parts and box.part not in UNCOUNTED)


def rising(before: Sequence[Box], after: Sequence[Box]) -> bool:
    """Whether all that stood on one step stands in its place on the next."""
    return all(box in after for box in before)


def jumps(steps: Sequence[Sequence[Box]]) -> list[int]:
    """The steps, from 1, on which something that stood is gone or has moved."""
    return [i for i, (before, after) in enumerate(pairwise(steps), 2) if not rising(before, after)]
