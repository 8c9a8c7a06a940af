"""
Finds what a skeleton has left to be written, wherever a reader could come to see it. Knows the two words only.

Skeletons are for being filled in: neither the check nor a build lets one pass.
"""

from __future__ import annotations

import re
from pathlib import Path

from build_tools.markdown_blocks.mistakes import Mistake
from build_tools.markdown_blocks.reading import CannotRead, read_text

PLACEHOLDER = "Write here"
_FOUND = re.compile(rf"\b{PLACEHOLDER}\b")
# Where it may stand: pages and sheets, the settings, and all that calculators are made of.
_PLACES = (("docs", "*.md"), ("calculators", "*.py"))
_SETTINGS = "mkdocs.yml"


def check(project: Path) -> list[str]:
    """
    Every line that is still to be written.

    Args:
        project: The project folder. [path]

    Returns:
        One line a place, with file and line. [list of texts]

    Example:
        >>> check(Path("no-such-folder"))
        []
    """
    paths = [path for room, kind in _PLACES for path in (project / room).rglob(kind)]
    mistakes = []
    for path in [*paths, project / _SETTINGS]:
        inside = path.relative_to(project)
        if inside.parts[:2] == ("docs", "made") or any(part.startswith(".") for part in inside.parts):
            continue
        try:
            text = read_text(path)
        except CannotRead:
            continue  # told by the check of pages
        if PLACEHOLDER not in text:
            continue
        for number, line in enumerate(text.split("\n"), 1):
            if _FOUND.search(line):
                mistakes.append(Mistake(inside.as_posix(), number, f"'{PLACEHOLDER} …' is still to be written"))
    return [str(each) for each in sorted(mistakes)]
