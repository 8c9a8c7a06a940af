"""The contact sheet: every calculator's cards on one page, large and as a phone shows them, with what is wrong."""

from __future__ import annotations

from html import escape
from pathlib import Path

from build_tools import keeping
from build_tools.cards import theme
from build_tools.cards.command import CannotDraw, face_css, qr
from calculators.catalogue import find, names
from calculators.desk.card import composed, frames
from calculators.desk.card_canvas import SHAPES
from calculators.desk.card_checks import faults

PHONE = 390  # CSS pixels that a phone held upright is wide
ADDRESS = "https://answers.example/go/word"
_STYLE = """
body { margin: 24px; background: #6b6b6b; color: #fff; font: 16px/1.4 sans-serif; }
h2 { margin: 40px 0 8px; } p { margin: 0 0 8px; } .wrong { color: #ffd0c0; font-weight: 700; }
.row { display: flex; flex-wrap: wrap; gap: 12px; align-items: flex-start; }
svg { display: block; height: auto; } .large svg { width: 960px; } .phone svg { width: 390px; }
.tall svg { width: 390px; }
"""


def write(project: Path, output: Path, name: str = "", background: str = "light") -> int:
    """
    Writes the sheet.

    Args:
        project: The project folder, for the face and the theme. [path]
        output: The page to write, .html. [path]
        name: A calculator's name or its beginning; '' for all. [text]
        background: As for frames(). [text]

    Returns:
        How many cards are on it. [1]

    Raises:
        CannotDraw: No calculator begins so, the theme is wrong, or the page cannot be written.

    Source:
        None.

    Example:
        >>> PHONE
        390
    """
    wanted = [each for each in names() if each.startswith(name)]
    if not wanted:
        raise CannotDraw(f"no calculator's name begins with '{name}'")
    try:
        look = theme.read(project)
    except theme.WrongTheme as problem:
        raise CannotDraw(f"{problem}") from None
    parts = [f'<!doctype html><meta charset="utf-8"><title>Cards</title><style>{_STYLE}{face_css(project)}</style>']
    count = 0
    for each in wanted:
        calculator = find(each)
        for preset in calculator.presets:
            result = calculator.run(preset.inputs)
            parts.append(f"<h2>{escape(each)}: {escape(preset.label)}</h2>")
            for shape in SHAPES:
                how = {"shape": shape, "background": background, "address": ADDRESS, "qr": qr, "theme": look}
                plan = composed(result, **how)  # type: ignore[arg-type]
                wrong = faults(plan, result, shape, look)
                made = [frame.svg for frame in frames(result, **how)]  # type: ignore[arg-type]
                parts.append(f"<p>{shape}, {len(made)} {'step' if len(made) == 1 else 'steps'}</p>")
                parts += [f'<p class="wrong">{escape(fault)}</p>' for fault in wrong]
                size = "tall" if shape == "upright" else "large"
                shown = made if shape == "wide" else made[-1:]
                parts.append(f'<div class="row {size}">{"".join(shown)}</div>')
                if shape != "upright":
                    parts.append(f'<div class="row phone">{"".join(shown)}</div>')
                count += 1
    try:
        keeping.keep(output, "\n".join(parts) + "\n", before=False)
    except keeping.CannotKeep as problem:
        raise CannotDraw(str(problem)) from None
    return count
