"""Takes a viewer's handle out of every episode sheet, wherever it stands."""

from __future__ import annotations

import re
from pathlib import Path

ANONYMOUS = "anonymous"


def forget(docs: Path, handle: str) -> list[Path]:
    """
    Replace a handle by 'anonymous' in every sheet: as the viewer of a segment and in any text that names it.

    Args:
        docs: The folder of pages. [path]
        handle: The viewer's name, as it stands in a sheet. [text]

    Returns:
        The sheets changed. [list]

    Raises:
        Nothing.

    Source:
        None.

    Example:
        >>> forget(Path("no-such-folder"), "otter-7")
        []
    """
    wanted = handle.strip()
    if not wanted or wanted == ANONYMOUS:
        return []
    pattern = re.compile(rf"(?<![\w-])[@]?{re.escape(wanted)}(?![\w-])", re.I)
    changed = []
    for path in sorted((docs / "episodes").glob("*.md")):
        text = path.read_text("utf-8")
        without = pattern.sub(ANONYMOUS, text)
        if without != text:
            path.write_text(without, "utf-8", newline="\n")
            changed.append(path)
    return changed
