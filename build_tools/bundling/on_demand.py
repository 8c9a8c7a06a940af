"""
Scripts that are bundled when they are first asked for and kept in `.cache/`, so that a server that is started again
has them at once. Knows entries and what they are made of; knows no page.
"""

from __future__ import annotations

import shutil
import threading
from collections.abc import Callable, Mapping
from pathlib import Path

from build_tools.environment import places
from build_tools.files import write_if_changed

KEPT = 6  # bundles of as many states of what they are made of


def nothing_known() -> Mapping[str, object]:
    """No values that stand in the modules under a name."""
    return {}


class OnDemand:
    """Bundled scripts of this project."""

    def __init__(
        self,
        name: str,
        entries: Mapping[str, str],
        state: Callable[[], str],
        known: Callable[[], Mapping[str, object]] = nothing_known,
    ) -> None:
        """
        Args:
            name: Of the folder in the cache.
            entries: As `bundled` takes them.
            state: Gives a mark of all that the scripts are made of, fit for a file's name.
            known: Gives the values that stand in the modules under a name; asked only where there is work to do.
        """
        self.entries = entries
        self._folder = places.cache(places.PROJECT) / name
        self._state = state
        self._known = known
        self._lock = threading.Lock()

    def read(self, name: str) -> bytes:
        """
        One script, as its sources are now.

        Raises:
            KeyError: There is no such script.
            Trouble: It does not bundle.
        """
        if name not in self.entries:
            raise KeyError(name)
        with self._lock:
            folder = self._folder / self._state()
            if not (folder / f"{name}.js").is_file():
                self._bundle(folder)
            return (folder / f"{name}.js").read_bytes()

    def _bundle(self, folder: Path) -> None:
        # Imported here, since a server that is started again has its scripts and is to be there at once.
        from build_tools.bundling.bundle import bundled

        for name, data in bundled(places.PROJECT, self.entries, "classic", self._known()).items():
            write_if_changed(folder / name, data)
        states = sorted((each for each in folder.parent.iterdir() if each.is_dir()), key=lambda e: e.stat().st_mtime)
        for old in states[:-KEPT]:
            shutil.rmtree(old, ignore_errors=True)
