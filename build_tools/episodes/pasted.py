"""Keeps the description that was pasted below a video, so that `check` can say what has changed since."""

from __future__ import annotations

import difflib
from pathlib import Path

from build_tools import keeping
from build_tools.episodes.description import describe
from build_tools.episodes.programme import Programme
from build_tools.episodes.sheet import Episode


def _pasted_file(docs: Path, episode: Episode) -> Path:
    return docs / "episodes" / ".pasted" / f"{episode.number:03}.txt"


def keep(docs: Path, episode: Episode, settings: Programme) -> Path:
    """Note that today's description of an episode has been pasted below its video."""
    path = _pasted_file(docs, episode)
    keeping.keep(path, describe(episode, settings).text, before=False)  # an older copy could keep a viewer's name
    return path


def changed(docs: Path, episode: Episode, settings: Programme) -> list[str]:
    """
    What differs between the description pasted and today's.

    Args:
        docs: The folder of pages. [path]
        episode: The episode. [object]
        settings: The programme's settings. [object]

    Returns:
        The lines taken out ('- …') and put in ('+ …'); empty where nothing was pasted yet or nothing differs. [list]
    """
    path = _pasted_file(docs, episode)
    if not path.is_file():
        return []
    before, after = path.read_text("utf-8").split("\n"), describe(episode, settings).text.split("\n")
    return [line for line in difflib.ndiff(before, after) if line.startswith(("- ", "+ "))]
