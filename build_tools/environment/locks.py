"""Lets one command at a time change the project folder. Knows a lock file; knows nothing of the work."""

import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from build_tools.environment.progress import Progress

LOOK_EVERY_S = 0.2


@contextmanager
def lock(file: Path, progress: Progress) -> Iterator[int]:
    """
    Waits until no other command holds `file`, then holds it; yields its descriptor.

    The system lets go of it when the last process that has the descriptor open is gone, so nothing stale
    can be left behind, and a child that outlives us keeps the next command waiting until it has ended.
    """
    file.parent.mkdir(parents=True, exist_ok=True)
    descriptor = os.open(file, os.O_RDWR | os.O_CREAT, 0o644)
    try:
        if not _take(descriptor):
            progress.say("Another command is at work on this folder; waiting for it to end.")
            while not _take(descriptor):
                time.sleep(LOOK_EVERY_S)
        yield descriptor
    finally:
        os.close(descriptor)


@contextmanager
def lock_if_free(file: Path) -> Iterator[bool]:
    """Holds `file` if no other command does, and tells whether it was free; does not wait."""
    file.parent.mkdir(parents=True, exist_ok=True)
    descriptor = os.open(file, os.O_RDWR | os.O_CREAT, 0o644)
    try:
        yield _take(descriptor)
    finally:
        os.close(descriptor)


if sys.platform == "win32":
    import msvcrt

    def _take(descriptor: int) -> bool:
        try:
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True
else:
    import fcntl

    def _take(descriptor: int) -> bool:
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            return False
        return True
