"""
How a programme's screen cards look: colours for light and dark, the face, the margins, the mark.

What comes with the project is below; a programme's own file changes any of it (build_tools/cards/theme.py reads it).
A theme whose text would stand below 7:1 against its own ground is refused.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from calculators.desk.functions import power

Colours = Mapping[str, str]

LIGHT: Colours = {
    "ink": "#13202b",
    "soft": "#222e37",
    "line": "#b8ae9a",
    "paper": "#f6f1e6",
    "fill-1": "#0b4f63",
    "fill-2": "#7f979a",
    "fill-3": "#c98f2b",
    "fill-4": "#e0d6c0",
    "mark": "#0b4f63",
    "yes": "#0d4f38",
    "depends": "#6a3d00",
    "no": "#8a1520",
    "caution": "#8a1520",
    "on-caution": "#ffffff",
}
DARK: Colours = {
    "ink": "#f6f0e2",
    "soft": "#c8cdca",
    "line": "#55646c",
    "paper": "#0f1b24",
    "fill-1": "#66bccb",
    "fill-2": "#56707a",
    "fill-3": "#e0aa4a",
    "fill-4": "#33454f",
    "mark": "#7fd0dd",
    "yes": "#93dcb6",
    "depends": "#f3c878",
    "no": "#ffb0aa",
    "caution": "#8a1520",
    "on-caution": "#ffffff",
}
READ = ("ink", "soft", "mark", "yes", "depends", "no")  # the colours in which text stands on the paper
LEAST_CONTRAST = 7.0  # WCAG 2.2, success criterion 1.4.6, for text: enhanced
# Two strokes of an equals sign, in a square of 100: what is worked out stands behind it.
MARK = "M8 26h84v16h-84zM8 58h84v16h-84z"
FACE = "'WA Label','Instrument Sans',ui-sans-serif,'Helvetica Neue',sans-serif"


@dataclass(frozen=True, slots=True)
class Theme:
    """
    A programme's look.

    light, dark: colours by name, as '#rrggbb'. face, numbers: font families for text and for the hero; the widths that
    lines are broken by are the label face's, so another one must be no wider. mark: path data in a square of 100.
    corner: radius of plates. margin: added to the safe area's edges. All lengths in units of a picture 1920 wide.
    name: the programme's own, beside the mark on title cards.
    """

    light: Colours = field(default_factory=lambda: dict(LIGHT))
    dark: Colours = field(default_factory=lambda: dict(DARK))
    face: str = FACE
    numbers: str = ""
    mark: str = MARK
    corner: float = 0.0
    margin: float = 0.0
    name: str = ""

    @property
    def small_mark(self) -> str:
        """The mark at a card's head: a programme's own; ours, small in that corner, reads as a menu's button."""
        return "" if self.mark == MARK else self.mark


DEFAULT = Theme()
_COLOUR = re.compile(r"#[0-9a-f]{6}")
_FAMILY = re.compile(r"[\w ',-]{0,200}")
_NAME = re.compile(r"[^\x00-\x1f\x7f]{0,60}")
_PATH = re.compile(r"[MmLlHhVvCcSsQqAaZz\d\s,.-]{0,4000}")


@lru_cache(maxsize=512)
def contrast(one: str, other: str) -> float:
    """
    How far two colours stand apart.

    Args:
        one: As '#rrggbb'. [text]
        other: As '#rrggbb'. [text]

    Returns:
        From 1 to 21. [1]

    Raises:
        ValueError: It is no such colour.

    Source:
        WCAG 2.2, contrast ratio and relative luminance.

    Example:
        >>> round(contrast("#000000", "#ffffff"))
        21
    """
    low, high = sorted((_luminance(one), _luminance(other)))
    return (high + 0.05) / (low + 0.05)


def _luminance(colour: str) -> float:
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else power((p + 0.055) / 1.055, 2.4) for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def faults(theme: Theme) -> list[str]:
    """What is wrong with a theme, in sentences; nothing where it can go on air."""
    pale = []
    for name, colours in (("light", theme.light), ("dark", theme.dark)):
        pairs = [(ink, "paper") for ink in READ] + [("on-caution", "caution")]
        for ink, ground in pairs:
            apart = contrast(colours[ink], colours[ground])
            if apart < LEAST_CONTRAST:
                pale.append(f"{name}: {ink} on {ground} has a contrast of {apart:.1f} to 1; at least 7 to 1 is needed")
    return pale


def theme_from(settings: Mapping[str, object]) -> Theme:
    """A theme from what a programme's file says; ValueError in words where something in it cannot be used."""
    known = {"light", "dark", "face", "numbers", "mark", "corner", "margin", "name"}
    for key in settings:
        if key not in known:
            raise ValueError(f"the theme has no '{key}'; it takes {', '.join(sorted(known))}")
    theme = Theme(
        _colours(settings.get("light"), LIGHT, "light"),
        _colours(settings.get("dark"), DARK, "dark"),
        _text(settings.get("face", FACE), _FAMILY, "face") or FACE,
        _text(settings.get("numbers", ""), _FAMILY, "numbers"),
        _text(settings.get("mark", MARK), _PATH, "mark"),
        _length(settings.get("corner", 0), 60, "corner"),
        _length(settings.get("margin", 0), 80, "margin"),
        _text(settings.get("name", ""), _NAME, "name"),
    )
    if wrong := faults(theme):
        raise ValueError("; ".join(wrong))
    return theme


def _colours(changed: object, usual: Colours, name: str) -> Colours:
    if changed is None:
        return dict(usual)
    if not isinstance(changed, Mapping):
        raise ValueError(f"{name} must be a table of colours")
    for key, value in changed.items():
        if key not in usual:
            raise ValueError(f"{name} has no colour '{key}'; it takes {', '.join(usual)}")
        if not isinstance(value, str) or not _COLOUR.fullmatch(value):
            raise ValueError(f"{name}: {key} must be written as #rrggbb in small letters, got '{value}'")
    return {**usual, **changed}


def _text(value: object, shape: re.Pattern[str], name: str) -> str:
    if not isinstance(value, str) or not shape.fullmatch(value):
        raise ValueError(f"{name} holds something that cannot stand there")
    return value


def _length(value: object, most: float, name: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value <= most:
        raise ValueError(f"{name} must be a number from 0 to {most:g}, got {value}")
    return float(value)
