"""
The one place that writes files with a person's own work: marks, sheets, pages, pasted descriptions, saved cards.

Whatever happens meanwhile (a full disk, a kill, another command), the file is the old one or the new one, whole; and
what it was before the last change stays beside it in `.before/`. Generated files need none of this: files.py.
"""

from __future__ import annotations

import errno
import os
import shutil
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from build_tools.environment import places
from build_tools.environment.locks import lock
from build_tools.environment.progress import Progress

BEFORE = ".before"
_one_thread = threading.Lock()

_REASONS = {
    errno.ENOSPC: "the disk is full: free some space and do it again",
    errno.EDQUOT: "your share of the disk is full: free some space and do it again",
    errno.EFBIG: "the system allows no file so large",
    errno.EACCES: "this account may not write there: change that and do it again",
    errno.EPERM: "this account may not write there: change that and do it again",
    errno.EROFS: "the disk can only be read: do it again where it can be written",
    errno.ENAMETOOLONG: "its name is too long",
}


class CannotKeep(ValueError):
    """Nothing was changed; the text says why and what to do."""


def keep(path: Path, content: str | bytes, *, before: bool = True, fresh: bool = False) -> None:
    """
    Write a file that belongs to a person.

    Args:
        path: Where; folders above it are made. Behind a link, the file that it leads to. [path]
        content: Text, or bytes as they are. [text]
        before: Whether the old content is kept beside it, in `.before/`; False deletes an older copy, too.
        fresh: Whether the file must not be there yet.

    Raises:
        CannotKeep: It could not be written, or is there already though it must not be.
    """
    with _held(path):
        if fresh and path.exists():
            raise CannotKeep(f"{path} is there already; choose another name, or change that file")
        _write(path, content, before)


def change(path: Path, alter: Callable[[str], str], *, absent: str | None = None, before: bool = True) -> str:
    """
    Read a file that belongs to a person, and write it changed, with nobody else between the two.

    Args:
        path: Where. [path]
        alter: Makes the new text of the old one; what it raises leaves the file as it is. It writes nothing. [function]
        absent: What `alter` is given where there is no file yet; None where there must be one. [text]
        before: As for `keep`.

    Returns:
        The text that stands there now. [text]

    Raises:
        CannotKeep: It could not be read or written.
    """
    with _held(path):
        try:
            old: str | None = path.read_bytes().decode("utf-8")
        except FileNotFoundError:
            if absent is None:
                raise CannotKeep(f"{path} is not there") from None
            old = None
        except UnicodeDecodeError:
            raise CannotKeep(f"{path} is not written in UTF-8; nothing was changed") from None
        new = alter(absent if old is None and absent is not None else old or "")
        if new != old:
            _write(path, new, before)
        return new


def last_good(path: Path) -> Path:
    """Where the state of a file before its last change is kept."""
    return path.parent / BEFORE / (path.name + BEFORE)  # not '.md', so that no search for sheets finds the copy


@contextmanager
def _held(path: Path) -> Iterator[None]:
    """One writer at a time: in this process, and of all commands of this project."""
    try:
        with _one_thread, lock(places.cache(places.PROJECT) / "writing.lock", Progress()):
            yield
    except OSError as error:
        reason = _REASONS.get(error.errno or 0, error.strerror or str(error))
        raise CannotKeep(f"{path.name} is as it was, since it could not be written: {reason}") from error


def _write(path: Path, content: str | bytes, before: bool) -> None:
    data = content.encode("utf-8") if isinstance(content, str) else content
    path = path.resolve()
    path.parent.mkdir(parents=True, exist_ok=True)
    backup = last_good(path)
    if before and path.is_file() and path.stat().st_size:  # an empty file is no state worth going back to
        backup.parent.mkdir(exist_ok=True)
        _replace(backup, path.read_bytes(), None)
    _replace(path, data, path if path.is_file() else None)
    if not before:
        backup.unlink(missing_ok=True)


def _replace(path: Path, data: bytes, like: Path | None) -> None:
    """Write a whole file beside another, then rename it over that one; it takes the permissions of `like`."""
    # Always the same name, so that what a killed command has left is written over; _held lets only one write at a time.
    unfinished = path.with_name(f".{path.name}.unfinished")
    try:
        how = os.O_WRONLY | os.O_CREAT | os.O_TRUNC | getattr(os, "O_BINARY", 0) | getattr(os, "O_NOFOLLOW", 0)
        with os.fdopen(os.open(unfinished, how, 0o666), "wb") as opened:
            opened.write(data)
            opened.flush()
            os.fsync(opened.fileno())
        if like:
            shutil.copymode(like, unfinished)
        unfinished.replace(path)
    except OSError:
        unfinished.unlink(missing_ok=True)
        raise
    if os.name == "posix":  # the new name is in the folder, which must be on the disk too
        folder = os.open(path.parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)
