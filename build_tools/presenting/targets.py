"""How long an episode and its questions are meant to take: the presenter's own, one small file an episode."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from build_tools.presenting.json_files import FOLDER, JsonFile

LONGEST_S = 86_400
WHOLE = 0  # the "segment" that stands for the whole episode


class Targets:
    """The target lengths of all episodes of a project, in seconds, by segment; "0" is the whole episode."""

    def __init__(self, project: Path) -> None:
        self._folder = project / FOLDER / "targets"

    def read(self, episode: int) -> dict[str, int]:
        """The targets of an episode."""
        return self._file(episode).value()

    def set(self, episode: int, segment: int, length_s: int | None) -> dict[str, int]:
        """
        Sets one target, or takes it back.

        Args:
            episode: Its number.
            segment: Its number; 0 for the whole episode.
            length_s: From 1 on, or None for none. [s]

        Returns:
            All targets of the episode.

        Raises:
            ValueError: The length is none that a recording has.
            CannotKeep: It could not be written.
        """
        if length_s is not None and not 1 <= length_s <= LONGEST_S:
            raise ValueError("A target length is at least one second and at most a day.")

        def with_it(targets: dict[str, int]) -> dict[str, int]:
            rest = {key: value for key, value in targets.items() if key != str(segment)}
            return rest if length_s is None else {**rest, str(segment): length_s}

        return self._file(episode).change(with_it)

    def _file(self, episode: int) -> JsonFile[dict[str, int]]:
        return JsonFile(self._folder / f"{episode:03}.json", _targets, dict[str, int])


def _targets(content: Any) -> dict[str, int] | None:
    whole = isinstance(content, dict) and all(
        key.isdigit() and type(value) is int and 1 <= value <= LONGEST_S for key, value in content.items()
    )
    return dict(content) if whole else None
