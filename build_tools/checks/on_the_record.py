"""Checks the episode sheets, and everything said on air against today's calculators."""

from __future__ import annotations

from pathlib import Path

from build_tools.episodes import short_addresses
from build_tools.episodes.record import differences
from build_tools.episodes.sheet import read_all


def check(docs: Path) -> list[str]:
    """
    Every mistake in a sheet, and everything said on air that no longer holds and has no correction.

    Args:
        docs: The folder of pages. [path]

    Returns:
        One line a mistake, with file, line and what to write. [list of texts]

    Source:
        DESIGN section 7 of this project.

    Example:
        >>> check(Path("no-such-folder"))
        []
    """
    episodes, mistakes = read_all(docs)
    problems = list(mistakes)
    if not mistakes:
        problems += [difference.mistake(docs.name) for difference in differences(episodes, docs)]
        problems += short_addresses.collect(docs, episodes)[1]
    return [str(m) for m in sorted(problems)]
