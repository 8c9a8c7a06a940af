"""
The screen card: one picture, composed once and shown in two to five steps; nothing moves that is shown already.

Question at the top, verdict and hero below it at the left, the drawing at the right as the largest thing, further
figures or one line of mathematics along the foot, the caution in its strip, the short address last. Other forms
(side panel, lower third, title cards, thumbnail, upright) are composed for themselves from the same parts.
What does not fit is left to the page, whole: nothing is squeezed, and no sentence is cut.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from calculators.desk.calculator import Result
from calculators.desk.card_canvas import BACKGROUNDS, SHAPES, Frame, finished
from calculators.desk.card_forms.corrected import corrected_card
from calculators.desk.card_forms.large import question_card, title_card
from calculators.desk.card_forms.lower import lower_card
from calculators.desk.card_forms.panel import panel_card
from calculators.desk.card_forms.plan import Plan, Setting
from calculators.desk.card_forms.still import still_card
from calculators.desk.card_forms.upright import upright_card
from calculators.desk.card_forms.wide import wide_card
from calculators.desk.card_parts import Code, Rows
from calculators.desk.card_theme import DEFAULT, Theme


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


_COMPOSERS: dict[str, Callable[[Setting], Plan]] = {
    "wide": wide_card,
    "panel": panel_card,
    "lower": lower_card,
    "title": title_card,
    "question": question_card,
    "corrected": corrected_card,
    "thumbnail": still_card,
    "upright": upright_card,
}
