"""Writes docs/made/finding/: the index as a classic script, which loads from a folder too. Knows files; no words."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from pathlib import Path

from build_tools.files import write_if_changed
from build_tools.finding import index
from build_tools.questions import index as asking_index

NAME = "index.js"
QUESTIONS = "questions.js"  # for the reader of whole questions, which is fetched when one is typed


def make(project: Path, into: Path, say: Callable[[str], None]) -> None:
    """
    Bring the index up to date.

    Args:
        project: The project folder.
        into: The folder to fill.
        say: Called with one line that names the files that changed, and their sizes.

    Raises:
        OSError: A page cannot be read, or the file not be written.
    """
    files = {NAME: as_script(index.of_docs(project / "docs")), QUESTIONS: questions(project / "docs")}
    for old in into.glob("*"):
        if old.name not in files:
            old.unlink()  # of an earlier version, whose files had other names
    if changed := [name for name, data in files.items() if write_if_changed(into / name, data)]:
        say("finding: " + ", ".join(f"{name} {len(files[name]) / 1000:.0f} kB" for name in changed))


def questions(docs: Path) -> bytes:
    """The reader's index as a script that assigns it to `window`, with a digest by which a worker knows what it has."""
    text = json.dumps(asking_index.of_docs(docs), ensure_ascii=False, separators=(",", ":"))
    mark = hashlib.sha256(text.encode()).hexdigest()[:12]
    return f'window.workedAnswersQuestions={{"mark":"{mark}","index":{text}}};\n'.encode()


def as_script(content: dict[str, object]) -> bytes:
    """The index as a script that assigns it to `window`."""
    text = json.dumps(content, ensure_ascii=False, separators=(",", ":"))
    return f"window.workedAnswersIndex={text};\n".encode()
