"""Notices changed files. Knows folders and how to wait until they are at rest; knows no build."""

import threading
import time
from collections.abc import Iterable
from pathlib import Path

from watchdog.events import FileSystemEvent, FileSystemEventHandler
from watchdog.observers import Observer
from watchdog.observers.api import BaseObserver
from watchdog.observers.polling import PollingObserver

REST_S = 0.15  # an editor writes a file in several steps: how long nothing must happen before it counts
LONGEST_S = 2.0  # but no longer than this after the first change

_OURS = frozenset({"__pycache__", "made", ".cache", ".venv", "node_modules", "site", ".git"})
_SCRATCH_STARTS = (".", "#", "~")
_SCRATCH_ENDS = ("~", ".swp", ".tmp", ".part")
_READ_ONLY = frozenset({"opened", "closed_no_write"})


class Watch(FileSystemEventHandler):
    """Watches folders and single files of a project until `stop`."""

    def __init__(self, project: Path, folders: Iterable[str], files: Iterable[str]) -> None:
        self._project = project
        self._files = frozenset(files)
        self._folders = tuple(folders)
        self._something = threading.Event()
        self._last = 0.0
        self._changed: set[str] = set()
        self._lock = threading.Lock()
        self._observer = self._observe()

    def _observe(self) -> BaseObserver:
        try:
            return self._started(Observer())
        except OSError:  # the system allows no more watches: look at the files instead
            return self._started(PollingObserver(timeout=1.0))

    def _started(self, observer: BaseObserver) -> BaseObserver:
        for folder in self._folders:
            observer.schedule(self, str(self._project / folder), recursive=True)
        if self._files:
            observer.schedule(self, str(self._project), recursive=False)
        observer.start()
        return observer

    def on_any_event(self, event: FileSystemEvent) -> None:
        if event.event_type in _READ_ONLY or event.is_directory:
            return
        names = {name for path in (event.src_path, event.dest_path) if path and (name := self._counts(str(path)))}
        if names:
            with self._lock:
                self._changed |= names
                self._last = time.monotonic()
            self._something.set()

    def _counts(self, path: str) -> str | None:
        """The file's name in the project, or None for what is generated, hidden, or an editor's scratch file."""
        try:
            parts = Path(path).relative_to(self._project).parts
        except ValueError:
            return None
        name = parts[-1]
        if _OURS.intersection(parts) or name.startswith(_SCRATCH_STARTS) or name.endswith(_SCRATCH_ENDS):
            return None
        if any(part.startswith(".") for part in parts):  # hidden: such as a sheet's earlier state
            return None
        if parts[0] in self._folders or "/".join(parts) in self._files:
            return "/".join(parts)
        return None

    def wait(self) -> list[str]:
        """Blocks until files have changed and are at rest; returns their names, sorted."""
        while not self._something.wait(0.5):  # a wait with an end, so that Ctrl-C is heard on every system
            pass
        first = time.monotonic()
        while (now := time.monotonic()) - self._last < REST_S and now - first < LONGEST_S:
            time.sleep(REST_S / 3)
        with self._lock:
            self._something.clear()
            changed, self._changed = sorted(self._changed), set()
        return changed

    def stop(self) -> None:
        """Ends watching."""
        self._observer.stop()
        self._observer.join(2)
