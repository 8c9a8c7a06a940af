"""Takes a viewer's handle out of every episode sheet, wherever it stands."""

from __future__ import annotations

import re
from pathlib import Path

from build_tools import keeping

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
        CannotKeep: A sheet could not be written; those before it have been.

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
        if pattern.search(text):
            # What stood there before is not kept: it names who wants to be forgotten.
            keeping.change(path, lambda now: pattern.sub(ANONYMOUS, now), before=False)
            changed.append(path)
        _forget_before(path, pattern)
    return changed


def _forget_before(path: Path, pattern: re.Pattern[str]) -> None:
    """The sheet's kept state from before an earlier change must not name the viewer either."""
    kept = keeping.last_good(path)
    if kept.is_file() and pattern.search(kept.read_text("utf-8", "replace")):
        kept.unlink()
