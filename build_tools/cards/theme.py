"""
The programme's own look of its cards: reads screen-cards.toml from the project folder, where there is one.

The file changes what it names and leaves the rest as calculators/desk/card_theme.py has it; a theme with too little
contrast, or with a name that does not exist, stops the build with a sentence.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from build_tools.markdown_blocks.marked_yaml import NotYaml, load
from build_tools.markdown_blocks.reading import CannotRead, read_text
from calculators.desk.card_canvas import BACKGROUNDS, SHAPES
from calculators.desk.card_theme import DEFAULT, Theme, theme_from

FILE = "screen-cards.toml"
SITE = "mkdocs.yml"
MOST_NAME = 60  # characters, as the theme takes


class WrongTheme(ValueError):
    """The theme cannot be used; the text says why."""


def settings(project: Path) -> dict[str, Any]:
    """What the project's file says, and the programme's name from mkdocs.yml where it names no other."""
    path = project / FILE
    found: dict[str, Any] = {}
    if path.is_file():
        try:
            found = tomllib.loads(path.read_text("utf-8"))
        except (tomllib.TOMLDecodeError, UnicodeDecodeError) as problem:
            raise WrongTheme(f"{FILE}: {problem}") from None
    name = _programme(project)
    return {"name": name, **found} if name else found


def _programme(project: Path) -> str:
    """The programme's name; '' where there is none that fits, of which the check of mkdocs.yml tells."""
    path = project / SITE
    if not path.is_file():
        return ""
    try:
        found, _ = load(read_text(path), foreign_tags=True)
    except (CannotRead, NotYaml):
        return ""
    for key in ("extra", "programme", "name"):
        found = found.get(key) if isinstance(found, dict) else None
    return found.strip()[:MOST_NAME] if isinstance(found, str) else ""


def choices() -> dict[str, Any]:
    """Backgrounds and shapes of cards with the sizes they are written in, for scripts that offer them."""
    shapes = {name: list(shape.pixels) for name, shape in SHAPES.items()}
    return {"backgrounds": list(BACKGROUNDS), "shapes": shapes}


def read(project: Path) -> Theme:
    """
    The theme of a project's cards.

    Args:
        project: The project folder. [path]

    Returns:
        The theme; the one that comes with the project where the file says nothing. [object]

    Raises:
        WrongTheme: The file cannot be read, names something unknown, or its contrast is below 7:1.

    Source:
        WCAG 2.2, contrast (enhanced).

    Example:
        >>> read(Path("nowhere")) == DEFAULT
        True
    """
    found = settings(project)
    if not found:
        return DEFAULT
    try:
        return theme_from(found)
    except ValueError as problem:
        raise WrongTheme(f"{FILE}: {problem}") from None
