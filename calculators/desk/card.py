"""
The screen card: one picture, composed once and shown in two to five steps; nothing moves that is shown already.

Question at the top, verdict and hero below it at the left, the drawing at the right as the largest thing, further
figures or one line of mathematics along the foot, the caution in its strip, the short address last. Other forms
(side panel, lower third, title cards, thumbnail, upright) are composed for themselves from the same parts.
What does not fit is left to the page, whole: nothing is squeezed, and no sentence is cut.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from calculators.desk.answer import DEPENDS, YES, Verdict
from calculators.desk.calculator import Result
from calculators.desk.card_canvas import (
    ABOVE,
    BACKGROUNDS,
    BELOW,
    LEADING,
    LEAST_HERO,
    PAD,
    PLATE_EDGE,
    SEAM,
    SHAPES,
    SMALLEST,
    SMALLEST_DRAWN,
    Canvas,
    Frame,
    Shape,
    balanced,
    cut,
    equation_width,
    finished,
    fits,
    set_equation,
)
from calculators.desk.card_declared import MOST_NEW, MOST_WORDS, Card, ScreenDrawing, words
from calculators.desk.card_parts import (
    ALONE,
    FIGURE_HEIGHT,
    GAP,
    QUESTION,
    SIGN,
    VALUE,
    Code,
    Rows,
    Stack,
    caution_height,
    caution_lines,
    caution_width,
    draw_caution,
    draw_figure,
    draw_question,
    draw_stack,
    figure_width,
    head_height,
    sign,
    stack_of,
    struck,
)
from calculators.desk.card_theme import DARK, DEFAULT, LIGHT, Theme
from calculators.desk.svg import Drawing, staged, text_width

DRAWN_SIZES = (68.0, 62.0, 56.0, 52.0, SMALLEST_DRAWN)
HERO_SIZES = (230.0, 210.0, 190.0, 176.0, 164.0, 152.0, LEAST_HERO)
EQUATION = 72.0
FOOT_GAP = 90.0
UNDER_HEAD = 40.0  # from the question's rule to what follows
UNDER_NARROW = 26.0  # the same in a side panel
CODE_GAP = 36.0  # between the caution's strip and the code
AIR = 76.0  # between the answer's words and the drawing
LEAST_STEPS = 2
SETTLED_STEPS = 3  # of a card with a plain verdict and a line: the line may come behind the number
LEAST_DRAWING = 250.0  # height; in less a drawing says nothing
LARGE_DRAWING, MIDDLE_DRAWING = 560.0, 400.0  # heights that a picture held upright tries first

Step = tuple[str, list[str]]


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


def frames(
    result: Result,
    *,
    question: str = "",
    shape: str = "wide",
    background: str = "light",
    address: str = "",
    qr: Callable[[str], Rows] | None = None,
    font_css: str = "",
    theme: Theme = DEFAULT,
    before: tuple[str, str] = ("", ""),
) -> list[Frame]:
    """
    The card's steps, in the order in which they are shown; the last holds all.

    Args:
        result: A run. [object]
        question: Stands on top; the calculator's title where not given. [text]
        shape: One of SHAPES: wide, panel, lower, title, question, corrected, thumbnail, upright. [text]
        background: light, dark or transparent. [text]
        address: The short link to show; without it there is no code either. [text]
        qr: Turns a text into the rows of its QR code, true for dark. [function]
        font_css: Style rules that bring the face along, for a picture that leaves the page. [text]
        theme: The programme's look. [object]
        before: For a corrected card: what was wrong and what holds now, in a few words; '' where not told. [text]

    Returns:
        The frames, at least one. [list]

    Raises:
        KeyError: The shape is not known.
        ValueError: The background is not known.

    Source:
        SMPTE ST 2046-1 for the safe area, from memory; DESIGN section 7 of this project for sizes.

    Example:
        >>> from calculators.catalogue import find
        >>> [frame.name for frame in frames(find("memory.rate").run({}))]
        ['drawing', 'answer', 'working']
    """
    plan = composed(
        result, question=question, shape=shape, background=background, address=address, qr=qr, theme=theme,
        before=before,
    )  # fmt: skip
    label = result.answer.headline
    return stepped(plan, shape=shape, background=background, theme=theme, font_css=font_css, label=label)


def stepped(plan: Plan, *, shape: str, background: str, theme: Theme, font_css: str, label: str) -> list[Frame]:
    """
    The steps of a card that has been composed, in the order in which they are shown; the last holds all.

    Args:
        plan: The composed card. [object]
        shape: As for frames(). [text]
        background: As for frames(). [text]
        theme: As for frames(). [object]
        font_css: As for frames(). [text]
        label: What each picture says of itself. [text]

    Returns:
        The frames, at least one. [list]

    Source:
        None: a drawing.

    Example:
        >>> from calculators.catalogue import find
        >>> plan = composed(find("memory.rate").run({}))
        >>> made = stepped(plan, shape="wide", background="dark", theme=DEFAULT, font_css="", label="")
        >>> [step.name for step in made]
        ['drawing', 'answer', 'working']
    """
    made: list[Frame] = []
    standing: list[str] = []
    for number, (name, new) in enumerate(plan.steps, 1):
        standing += new
        svg = finished(
            plan.canvas, standing, SHAPES[shape], background, theme, plan.regions,
            font_css=font_css, label=label, step=number,
        )  # fmt: skip
        boxes = [box for box in plan.canvas.boxes if box.comes_with in standing]
        made.append(Frame(name, svg, boxes, tuple(new)))
    return made


def motion(
    plan: Plan, step: int, pictures: int, *, shape: str, background: str, theme: Theme, font_css: str, label: str
) -> list[str]:
    """
    The pictures of one step's fade, as SVG, from the step before it to this one.

    Args:
        plan: The composed card. [object]
        step: Which step comes, from 1. [1]
        pictures: How many pictures the fade takes. [1]
        shape: As for frames(). [text]
        background: As for frames(). [text]
        theme: As for frames(). [object]
        font_css: As for frames(). [text]
        label: What the picture says of itself. [text]

    Returns:
        The pictures; the last is the step as it stands. [list]

    Source:
        None: a drawing.

    Example:
        >>> from calculators.catalogue import find
        >>> plan = composed(find("memory.rate").run({}))
        >>> made = motion(plan, 2, 5, shape="wide", background="dark", theme=DEFAULT, font_css="", label="")
        >>> len(made)
        5
    """
    standing = [part for _, new in plan.steps[:step] for part in new]
    new = plan.steps[step - 1][1]

    def at(share: float) -> str:
        return finished(
            plan.canvas, standing, SHAPES[shape], background, theme, plan.regions,
            font_css=font_css, label=label, step=step, faint=new, share=share,
        )  # fmt: skip

    return [at((i + 1) / pictures) for i in range(pictures)]


def composed(
    result: Result, *, question: str = "", shape: str = "wide", background: str = "light", address: str = "",
    qr: Callable[[str], Rows] | None = None, theme: Theme = DEFAULT, before: tuple[str, str] = ("", ""),
) -> Plan:  # fmt: skip
    """The whole card, composed; arguments as for frames()."""
    if background not in BACKGROUNDS:
        raise ValueError(f"background must be one of {', '.join(BACKGROUNDS)}, got {background}")
    inner = SHAPES[shape]
    area = replace(
        inner, left=inner.left + theme.margin, right=inner.right - theme.margin, top=inner.top + theme.margin / 2
    )
    card = result.card()
    setting = Setting(
        area, card, result.answer.verdict, " ".join((question or card.question or result.calculator.title).split()),
        Code(address, qr), theme, background == "transparent" or inner.plated, area.right,
        result.answer.verdict.word if result.answer.verdict else "", before,
    )  # fmt: skip
    return _COMPOSERS[shape](setting)


def _wide(setting: Setting) -> Plan:
    """The full card: the fullest of its ways in which hero, line, drawing and address all have their place."""
    tries = [setting.card]
    if setting.card.figures or setting.card.working:
        tries += [
            replace(setting.card, figures=setting.card.figures[:1]),
            replace(setting.card, figures=(), working=()),
        ]
    for drawn in (True, False):
        for card in tries:
            if plan := _wide_as(replace(setting, card=card), drawn):
                return plan
    bare = replace(setting, card=replace(tries[-1], hero="", line=""))
    return (
        _wide_as(bare, drawn=False)
        or _wide_as(replace(bare, code=Code("", None)), drawn=False, anyhow=True)
        or Plan(Canvas(), [], [])
    )


def _wide_as(setting: Setting, drawn: bool, anyhow: bool = False) -> Plan | None:
    """The full card, its address along the foot; None where something of it, or of a drawing wanted, has no room."""
    shape, card, canvas, code = setting.shape, setting.card, Canvas(), setting.code
    top = _headed(setting, canvas, 1)
    left, right = shape.left, shape.right
    beside = code.side + CODE_GAP if code.rows and card.caution else 0.0  # the strip ends where the code stands
    bottom = _strip(replace(setting, shape=replace(shape, right=right - beside)), canvas)
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
    _draw_at(canvas, card.drawing, at, top - 8, right, low)
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
    return Plan(canvas, _steps(card, setting.verdict, canvas), _one_plate(canvas, shape, setting.theme.corner))


UPPER = ("question", "verdict", "hero", "line", "drawing")
LOWER = ("figures", "working", "address", "caution")


def _one_plate(canvas: Canvas, shape: Shape, corner: float = 0.0, *, whole: bool = False) -> list[list[str]]:
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


def _headed(setting: Setting, canvas: Canvas, most: int) -> float:
    """The head of a card; says where what follows begins."""
    shape = setting.shape
    mark = setting.theme.small_mark
    room = shape.right - shape.left - (90 if mark else 0)
    lines = cut(setting.question, room, QUESTION, most)
    return draw_question(canvas, lines, shape.left, shape.right, shape.top, mark, True) + UNDER_HEAD


def _strip(setting: Setting, canvas: Canvas, *, narrow: bool = False) -> float:
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


def _draw_at(
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


def _steps(card: Card, verdict: Verdict | None, canvas: Canvas, *, asked: bool = True) -> list[Step]:
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


# The stages of a drawing that come behind the first one, as Sketch.later() says.
LATER = (staged("drawing", 1), staged("drawing", 2))


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


def _one_step(canvas: Canvas, name: str, regions: list[list[str]]) -> Plan:
    return Plan(canvas, [(name, list(canvas.parts))], regions)


def _upright(setting: Setting) -> Plan:
    """A card for a phone held upright: one column, no code, and rather no address, or fewer words, than no drawing."""
    bare = replace(setting, code=Code("", None))
    tall = (LARGE_DRAWING, MIDDLE_DRAWING, LEAST_DRAWING)
    if setting.card.drawing:
        ways = [(each, room) for room in tall for each in (setting, bare)]
        ways += [(replace(bare, card=card), LEAST_DRAWING) for card in _less(setting.card, setting.verdict)][1:]
        for each, room in ways:
            if plan := _upright_as(each, room):
                return plan
    return _upright_as(setting, 0) or _upright_as(bare, 0) or Plan(Canvas(), [], [])


def _upright_as(setting: Setting, room: float) -> Plan | None:
    """The card in one column, its drawing at least so high; the code is left out, for the phone cannot scan itself."""
    shape, card, canvas = setting.shape, replace(setting.card, figures=(), working=()), Canvas()
    width = shape.right - shape.left
    top = _headed(setting, canvas, 2)
    bottom = _strip(setting, canvas)
    lines = setting.code.lines(width)
    if lines and setting.code.shown:
        high = len(lines) * SMALLEST * LEADING
        bare = Code(setting.code.shown, None)
        bare.draw(canvas, shape.left, bottom - high, width)
        bottom -= high + GAP
    stacks = [stack_of(card, width, size, hero_lines=n, line_lines=3) for n in (1, 2) for size in HERO_SIZES]
    drawing = card.drawing if room else None
    stack = _above(stacks, drawing, (width, bottom - top), room)
    if stack is None and not room:  # rather no number than no card
        card = replace(card, hero="", line="")
        stack = stack_of(card, width, LEAST_HERO, hero_lines=1, line_lines=1) or Stack([], 0, [], 0, [], 0)
    if stack is None:
        return None
    y = draw_stack(canvas, stack, setting.sign, shape.left, top, setting.theme.numbers)
    _draw_at(canvas, drawing, shape.left, y + GAP, shape.right, bottom)
    return Plan(canvas, _steps(card, setting.verdict, canvas), _one_plate(canvas, shape, setting.theme.corner))


def _above(
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


def _panel(setting: Setting) -> Plan:
    """A third of the width, for a picture in which the presenter stands beside it; it says itself what it is about."""
    shape, canvas = setting.shape, Canvas()
    bottom = _strip(setting, canvas)
    card, stack, asked = _panel_words(setting, shape.right - shape.left, bottom)
    top = _headed(replace(setting, question=asked), canvas, 2) - UNDER_HEAD + UNDER_NARROW
    y = draw_stack(canvas, stack, setting.sign, shape.left, top, setting.theme.numbers)
    _draw_at(canvas, card.drawing, shape.left, y + GAP, shape.right, bottom)
    return Plan(canvas, _steps(card, setting.verdict, canvas, asked=False), _one_plate(canvas, shape, whole=True))


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
            stack = _above(stacks, kept.drawing, space, LEAST_DRAWING if kept.drawing else 0)
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
    without = list(_less(replace(card, drawing=None), verdict))
    if card.drawing:
        yield from _less(card, verdict)
    yield from without


def says(drawn: Drawing, hero: str) -> bool:
    """Whether a drawing's own words hold every number of a hero, or all its words where it has none."""
    text = " ".join(box.what for box in drawn.record() if box.size)
    numbers = [part for part in hero.split() if any(c.isdigit() for c in part)]
    wanted, there = numbers or hero.split(), text.split()
    return all(part in there for part in wanted)


def _less(card: Card, verdict: Verdict | None) -> Iterable[Card]:
    """The card, then with less and less of it: no number without its condition, no line that needs the number."""
    yield card
    depends = verdict is not None and verdict.word == DEPENDS
    if card.line and not depends:
        yield replace(card, line="")
    if card.hero and card.line and depends:
        yield replace(card, hero="")
    if card.hero:
        yield replace(card, hero="", line="")


def _lower(setting: Setting) -> Plan:
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
    return _one_step(canvas, "lower third", [["question", "verdict", "hero", "line", "words"]])


LOWER_FOOT = 30.0  # from the last baseline of a lower third to its edge
HERO_FOOT = 36.0  # the same where that is the hero's
LOWER_VERDICT = 64.0  # of every lower third: they stand in one place after another in a programme
BESIDE = 60.0  # between the verdict of a lower third and its hero


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


def _title(setting: Setting) -> Plan:
    """A title: the mark large, the programme's name beside it, the words below."""
    return _large(setting, "title", 168)


def _question(setting: Setting) -> Plan:
    """The question alone, large: the comment's own words, cut only at a word."""
    return _large(setting, "question", 0)


def _large(setting: Setting, name: str, mark: float) -> Plan:
    shape, canvas = setting.shape, Canvas()
    width = shape.right - shape.left
    room = shape.bottom - shape.top - mark - (60 if mark else 40)
    for size in (132.0, 112.0, 96.0, 84.0, 72.0, SMALLEST):
        lines = balanced(setting.question, width, size, int(room // (size * LEADING)), name == "title")
        if lines:
            break
    else:
        size = SMALLEST
        lines = cut(setting.question, width, size, int(room // (size * LEADING)))
    high = len(lines) * size * LEADING + (mark + 60 if mark else 40)
    y = shape.top + (shape.bottom - shape.top - high) / 2
    if mark and setting.theme.mark:
        at = f"translate({shape.left:.1f} {y:.1f}) scale({mark / 100:.3f})"
        path = f'<path d="{setting.theme.mark}" transform="{at}" fill="var(--wa-mark,#000)"/>'
        canvas.shape("question", path, "mark", (shape.left, y, shape.left + mark, y + mark))
        x = shape.left + mark + MARK_GAP
        if named := _in_lines_of(setting.theme.name, shape.right - x):
            size_of, words_of = named
            base = y + mark / 2 + size_of * (ABOVE / 2 - 0.55 * (len(words_of) - 1))
            for i, line in enumerate(words_of):
                canvas.text("question", line, x, base + i * size_of * 1.1, size_of, "mark", bold=True)
        y += mark + 60
    else:
        rule = f'<rect x="{shape.left:g}" y="{y:.1f}" width="{width:g}" height="3" fill="var(--wa-line,#000)"/>'
        canvas.shape("question", rule, "rule", (shape.left, y, shape.right, y + 3))
        y += 40
    for i, line in enumerate(lines):
        base = y + size * 0.8 + i * size * LEADING
        canvas.text("question", line, shape.left, base, size, "ink", bold=name == "title")
    return _one_step(canvas, name, [["question"]])


MARK_GAP = 44.0  # from the mark on a title card to the programme's name


def _in_lines_of(name: str, width: float) -> tuple[float, list[str]] | None:
    """A programme's name in one line, else in two smaller ones, with its size; None where there is none or no room."""
    for size, most in ((96.0, 1), (72.0, 1), (72.0, 2), (SMALLEST, 2)):
        if name and (lines := balanced(name, width, size, most, True)):
            return size, lines
    return None


LONGEST_CORRECTED = 28  # letters of a verdict that stands behind 'Corrected: ' in two lines


def _corrected(setting: Setting) -> Plan:
    """A card for a correction: a sign of its own before the verdict, and the answer as it is now."""
    now = setting.card.verdict
    both = f"Corrected: {now[0].lower()}{now[1:]}" if now and len(now) <= LONGEST_CORRECTED else "Corrected"
    card = replace(setting.card, verdict=both, figures=(), working=())
    new = replace(setting, card=card, sign="corrected")
    plan = next((plan for each in _put_right(new) if (plan := each)), None) or _wide(new)
    return Plan(plan.canvas, [("corrected", list(plan.canvas.parts))], plan.regions)


def _put_right(setting: Setting) -> Iterable[Plan | None]:
    """The corrected card with what was wrong, struck out, and what holds now: rather without address, drawing, line."""
    card, (was, now) = setting.card, setting.before
    if not was:
        return
    now = card.hero if card.hero and same_number(now, card.hero) else now
    figures = (("before", was), *([("now", now)] if now else []))
    depends = setting.verdict is not None and setting.verdict.word == DEPENDS
    fuller = [card] if depends or not card.line else [card, replace(card, line="")]
    fuller = [each for each in fuller if _said_words(replace(each, figures=figures)) <= MOST_WORDS]
    fuller.append(replace(card, line="", hero=""))
    codes = (setting.code, Code(setting.code.shown, None), Code("", None))  # rather no address than nothing of it
    for each in fuller:
        for drawn in (True, False):
            for code in codes:
                yield _wide_as(replace(setting, card=replace(each, figures=figures), code=code), drawn)


def _said_words(card: Card) -> int:
    """How many words a card shows, its figures with their labels included."""
    return words(" ".join([card.verdict, card.hero, card.line, *(f"{a} {b}" for a, b in card.figures)]))


def same_number(one: str, other: str) -> bool:
    """Whether two texts tell the same numbers, one of them perhaps with fewer digits: 14.06 ns and 14.1 ns."""
    sides = [re.findall(r"\d+(?:\.\d+)?", text) for text in (one, other)]
    if not sides[0] or len(sides[0]) != len(sides[1]):
        return False
    digits = [min(len(each.partition(".")[2]) for each in pair) for pair in zip(*sides, strict=True)]
    pairs = zip(*sides, digits, strict=True)
    return all(abs(float(a) - float(b)) <= 0.51 * float(f"1e-{most}") for a, b, most in pairs)


STILL_SIZES = (330.0, 280.0, 240.0, 200.0, 170.0, LEAST_HERO)
STILL_DRAWN = (96.0, 80.0, 68.0, 60.0)  # a still is often seen half as wide as a phone
STILL_VERDICT = (*STILL_SIZES, 120.0, 100.0, 84.0, 72.0, SMALLEST)


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


# What a still says of danger where the caution has no tag of its own: two words by the risk, which can be read where
# it is as small as a stamp.
STILL_DANGER = {"hearing": "Hearing loss", "data": "Copy files", "machine": "Can break", "person": "Can hurt"}
DANGER_SIZE, DANGER_SIGN = 112.0, 96.0


def _thumbnail(setting: Setting) -> Plan:
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
        return _large(replace(setting, shape=replace(shape, bottom=(shape.free or (0, shape.bottom))[1])), "title", 0)
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
    return _one_step(canvas, "thumbnail", _one_plate(canvas, shape, whole=True))


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


VERDICT_SIGN = 1.0  # of a large verdict: its sign and the air beside or below it, in sizes of its type


def _large_verdict(canvas: Canvas, still: Still, word: str, left: float, top: float) -> None:
    """The verdict as the largest words of a picture, its sign before them, or above several lines."""
    size = still.size
    sign(canvas, "verdict", word, left, top, size * ABOVE)
    one = len(still.said) == 1
    x, y = (left + size * VERDICT_SIGN, top) if one else (left, top + size * VERDICT_SIGN)
    for i, line in enumerate(still.said):
        canvas.text("verdict", line, x, y + size * (ABOVE + i), size, word, bold=True)


_COMPOSERS: dict[str, Callable[[Setting], Plan]] = {
    "wide": _wide,
    "panel": _panel,
    "lower": _lower,
    "title": _title,
    "question": _question,
    "corrected": _corrected,
    "thumbnail": _thumbnail,
    "upright": _upright,
}


__all__ = [
    "BACKGROUNDS", "DARK", "LIGHT", "SHAPES", "SMALLEST", "SMALLEST_DRAWN", "Frame", "Plan", "composed", "drawn_for",
    "frames", "legible", "motion", "text_width",
]  # fmt: skip
