"""
Puts a finished folder in the place of an old one, and repairs a swap that was killed between its two renames.

Needs the standard library alone, since every command begins with `mend`.
"""

from __future__ import annotations

import shutil
from pathlib import Path

from build_tools.environment import locks, places


def swap(fresh: Path, target: Path) -> None:
    """Puts a finished folder in the place of an old one. The old one is removed only when that has worked."""
    old = _old_folder(fresh, target)
    remove(old)
    target.parent.mkdir(parents=True, exist_ok=True)
    if target.exists():
        target.rename(old)
    try:
        fresh.rename(target)
    except OSError:
        if old.exists():
            old.rename(target)
        raise
    remove(old)


def bring_back(fresh: Path, target: Path) -> None:
    """Puts the old folder back where a swap was killed after the first of its two renames."""
    old = _old_folder(fresh, target)
    if old.exists() and not target.exists():
        old.rename(target)


def mend(project: Path) -> None:
    """
    Brings the site back that a killed build had put aside, unless a build is at work now and will end its swap itself.

    Args:
        project: The project folder.

    Raises:
        OSError: The folder cannot be written.
    """
    fresh, target = fresh_site(project), project / "site"
    if target.exists() or not _old_folder(fresh, target).exists():
        return
    with locks.lock_if_free(lock_file(project)) as ours:
        if ours:
            bring_back(fresh, target)


def fresh_site(project: Path) -> Path:
    """The folder in which a build makes the site until it is whole."""
    return places.cache(project) / "site-new"


def lock_file(project: Path) -> Path:
    """The lock that a build holds while it is at work."""
    return places.cache(project) / "build.lock"


def _old_folder(fresh: Path, target: Path) -> Path:
    """Where the old folder stands during a swap."""
    return fresh.with_name(target.name + "-old")


def remove(folder: Path) -> None:
    """Removes a folder with all in it, if it is there."""
    if folder.exists():
        shutil.rmtree(folder)
