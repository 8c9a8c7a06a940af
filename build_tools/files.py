"""Writes files so that an interrupted build leaves the old or the new one, whole; unchanged files are not touched."""

from __future__ import annotations

from pathlib import Path


def write_if_changed(path: Path, data: bytes) -> bool:
    """
    Write a file unless it already holds these bytes.

    Args:
        path: Where; folders above it are made.
        data: What the file shall hold.

    Returns:
        True if the file was written.
    """
    if path.is_file() and path.read_bytes() == data:
        return False
    path.parent.mkdir(parents=True, exist_ok=True)
    unfinished = path.with_name(path.name + ".part")
    unfinished.write_bytes(data)
    unfinished.replace(path)
    return True
