"""What a card is laid out from, and what comes of it: all that is drawn, in which steps, and on which plates."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calculators.desk.answer import DEPENDS, Verdict
from calculators.desk.card_canvas import PAD, PLATE_EDGE, SEAM, Canvas, Shape
from calculators.desk.card_declared import MOST_NEW, Card, words
from calculators.desk.card_parts import Code
from calculators.desk.card_theme import Theme
from calculators.desk.svg import staged

Step = tuple[str, list[str]]
LEAST_STEPS = 2
SETTLED_STEPS = 3  # of a card with a plain verdict and a line: the line may come behind the number


@dataclass(frozen=True, slots=True)
class Setting:
    """Everything that a card is laid out from."""

    shape: Shape
    card: Card
    verdict: Verdict | None
    question: str
    code: Code
    theme: Theme
    open_ground: bool
    reach: float  # how far to the right the picture may be used
    sign: str  # which sign stands before the verdict's words
    before: tuple[str, str] = ("", "")  # what a correction put right, and what holds now


@dataclass(slots=True)
class Plan:
    """A composed card: everything drawn, in which steps it comes, and which parts share a plate."""

    canvas: Canvas
    steps: list[Step]
    regions: list[list[str]]


# The stages of a drawing that come behind the first one, as Sketch.later() says.
LATER = (staged("drawing", 1), staged("drawing", 2))


def steps_for(card: Card, verdict: Verdict | None, canvas: Canvas, *, asked: bool = True) -> list[Step]:
    """
    In which steps the picture comes: what stands stays, and none brings more than a viewer reads at once.

    The drawing comes with the verdict, or with the words above the hero, so that no step leaves half a picture empty.
    asked: whether the question may be a step of its own.
    """
    has = [part for part in canvas.parts if part not in LATER]
    condition = verdict is not None and verdict.word == DEPENDS
    first = "verdict" if "verdict" in has else "line" if "line" in has and "hero" in has else ""
    order = ("line", "hero") if condition else ("hero", "line")
    lead, answer = [first] if first else [], [p for p in order if p in has and p != first]
    drawing = ["drawing"] if "drawing" in has else []
    rest = [[p] for p in ("figures", "working", "address") if p in has]
    apart = [[p] for p in answer]
    ways: list[list[list[str]]]
    ways = [[[*lead, *drawing], answer]]
    if card.judged_last and drawing and "hero" in has:
        ways = [[drawing, [*lead, *answer]], [drawing, lead, answer]]
    elif condition:  # neither of the two alone: a condition would leave a hole above it, a hero would lack it
        ways += [[drawing, lead, answer], [["question"], drawing, lead, answer]]
    else:
        ways += [[[*lead, *drawing], *apart], [drawing, lead, *apart], [["question"], drawing, lead, *apart]]
    # an open answer comes whole, number and condition together: words alone are no step of their own
    settled = verdict is not None and not condition and not card.judged_last and "line" in has
    counted = [part for part in has if part != "caution" and (asked or part != "question")]
    possible = min(SETTLED_STEPS if settled else LEAST_STEPS, len(counted))
    for way in ways:  # in as few steps as the words allow
        groups = [[part for part in group if part in has] for group in way + rest]
        groups = [group for group in groups if group]
        if len(groups) >= possible and all(_word_count(card, group) <= MOST_NEW for group in groups):
            break
    groups = groups or [["question"]]
    for part in (part for part in LATER if part in canvas.parts):
        _bring(groups, part)
    if "caution" in has:  # with the hero, or else with the first word that is said
        saying = [g for g in groups if "hero" in g] or [g for g in groups if {"verdict", "line"} & {*g}] or groups
        saying[0].append("caution")
    if "question" in has and "question" not in groups[0]:
        groups[0] = ["question", *groups[0]]
    return [(_name(group), group) for group in groups]


def _bring(groups: list[list[str]], part: str) -> None:
    """A later stage of the drawing: the first of them with the answer's number, the second on the step behind it."""
    answer = [i for i, group in enumerate(groups) if "hero" in group]
    drawn = [i for i, group in enumerate(groups) if any(each.startswith("drawing") for each in group)]
    at = max(answer[0], drawn[-1]) if answer else drawn[-1] + 1
    if answer and part == LATER[1]:
        at += 1
    if at >= len(groups) or (not answer and "address" in groups[at]):
        groups.insert(at, [])
    groups[at].append(part)


def _word_count(card: Card, parts: Iterable[str]) -> int:
    """How many words of an answer some parts bring."""
    return words(" ".join({"verdict": card.verdict, "hero": card.hero, "line": card.line}.get(p, "") for p in parts))


def _name(group: Sequence[str]) -> str:
    """What a step is called."""
    if "hero" in group:
        return "answer"
    if any(part.startswith("drawing") for part in group):
        return "drawing"
    if "verdict" in group:
        return "verdict"
    return next((part for part in group if part != "question"), "question")


def one_step(canvas: Canvas, name: str, regions: list[list[str]]) -> Plan:
    """All that is drawn at once."""
    return Plan(canvas, [(name, list(canvas.parts))], regions)


UPPER = ("question", "verdict", "hero", "line", "drawing")
LOWER = ("figures", "working", "address", "caution")


def one_plate(canvas: Canvas, shape: Shape, corner: float = 0.0, *, whole: bool = False) -> list[list[str]]:
    """
    One plate for a card that lies over another picture, as wide as the card: its outline is a rectangle on every step.

    The upper part of it comes with the question, the lower with the first of what stands there; where they meet, no
    edge shows. whole: all of it comes at once. Says which parts stand on which.
    """
    rooms = [(box.part, box.bottom) for box in canvas.boxes]
    rooms += [(part, area[3]) for part, area in canvas.areas.items() if part in LOWER]
    rooms += [(part, bottom) for part, (_, bottom) in canvas.ends.items()]
    left, right = max(shape.left - PAD, 0), min(shape.right + PAD, shape.width)
    top = max(shape.top - PLATE_EDGE, 0)
    strip = canvas.areas.get("caution")
    end = max([bottom for _, bottom in rooms], default=shape.bottom) + (0 if strip else PLATE_EDGE)
    middle = max([bottom for part, bottom in rooms if part in UPPER], default=top) + PLATE_EDGE
    middle = min(middle, strip[1] if strip else end)
    if whole:
        canvas.plates["whole"] = left, top, right, end
        return [[*UPPER, *LOWER, "whole"]]
    canvas.plates["upper"] = left, top, right, middle
    canvas.plates["lower"] = left, middle - SEAM - corner, right, end
    return [[*UPPER, "upper"], [*LOWER, "lower"]]
