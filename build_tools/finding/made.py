"""Writes docs/made/finding/: the index as a classic script, which loads from a folder too. Knows files; no words."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

from build_tools.files import write_if_changed
from build_tools.finding import index

NAME = "index.js"


def make(project: Path, into: Path, say: Callable[[str], None]) -> None:
    """
    Bring the index up to date.

    Args:
        project: The project folder.
        into: The folder to fill.
        say: Told in one line what was done, and how large the index is.

    Raises:
        OSError: A page cannot be read, or the file not be written.
    """
    data = as_script(index.of_docs(project / "docs"))
    for old in into.glob("*"):
        if old.name != NAME:
            old.unlink()  # of an earlier version, whose files had other names
    if write_if_changed(into / NAME, data):
        say(f"finding: {NAME}, {len(data) / 1000:.0f} kB")


def as_script(found: dict[str, object]) -> bytes:
    """The index as a script that leaves it at the window."""
    text = json.dumps(found, ensure_ascii=False, separators=(",", ":"))
    return f"window.workedAnswersIndex={text};\n".encode()
