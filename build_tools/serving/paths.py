"""
Which file of a folder an address means, and which spellings mean none. Knows addresses and folders; knows no HTTP.

An address is taken apart at its slashes before anything is decoded, and decoded once. What then is not a plain name
is refused rather than mended: no such spelling is ever needed to reach a page.
"""

from __future__ import annotations

import os
import re
import stat
import unicodedata
from collections.abc import Sequence
from pathlib import Path
from urllib.parse import unquote_to_bytes

LONGEST = 2_000  # characters of a whole address; our longest page's has fewer than 200
LONGEST_NAME = 255  # bytes; what common file systems allow

_HALF_AN_ESCAPE = re.compile(r"%(?![0-9A-Fa-f]{2})")
# What leads elsewhere on one system or another: folders, drives, streams, wildcards, a second layer of escapes.
_NEVER = frozenset('/\\:%*?"<>|')
_SHORT_NAME = re.compile(r"~\d")  # how some systems also call a file, a hidden one included
_DEVICE = re.compile(r"(?:con|prn|aux|nul|com\d|lpt\d)(?:\..*)?", re.IGNORECASE | re.DOTALL)


def names_of(address: str) -> tuple[str, ...] | None:
    """
    The names in the path of an address, outermost first; the last is empty where it ends in a slash.

    Args:
        address: As it came, still encoded, without the part from ? on. [text]

    Returns:
        The names, or None where one is spelled in a way that no page of ours is. [tuple]

    Source:
        RFC 3986, in that a path is parted at slashes before its escapes are decoded; the refusals are our own.

    Example:
        >>> names_of("/answers/a%20page.html")
        ('answers', 'a page.html')
        >>> names_of("/%2Fetc/hostname") is None
        True
    """
    if not address.startswith("/") or len(address) > LONGEST or _HALF_AN_ESCAPE.search(address):
        return None
    *folders, last = address[1:].split("/")
    names = [_decoded(part) for part in (*folders, last)]
    plain = all(name is not None and is_plain(name) for name in names[:-1])
    if not plain or names[-1] is None or not (names[-1] == "" or is_plain(names[-1])):
        return None
    return tuple(name for name in names if name is not None)


def _decoded(part: str) -> str | None:
    try:
        return unquote_to_bytes(part).decode("utf-8")
    except UnicodeDecodeError:
        return None


def is_plain(name: str) -> bool:
    """Whether a name can only mean a file or folder just here: not hidden, nothing that any system reads otherwise."""
    if not name or name.startswith(".") or name.endswith((".", " ")) or len(name.encode("utf-8")) > LONGEST_NAME:
        return False
    if _NEVER.intersection(name) or _SHORT_NAME.search(name) or _DEVICE.fullmatch(name):
        return False
    # Signs that look like a dot or a slash to a system that folds them, and those that are not to be seen.
    for sign in name:
        if unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Zl", "Zp"):
            return False
        if not sign.isascii() and (_NEVER | {"."}).intersection(unicodedata.normalize("NFKC", sign)):
            return False
    return True


def inside(folder: Path, names: Sequence[str]) -> Path | None:
    """
    The file or folder of these names below a folder.

    Args:
        folder: May itself be reached by a link. [path]
        names: Plain names. [sequence]

    Returns:
        Its path, or None where there is none, or a link stands anywhere on the way. [path]

    Raises:
        ValueError: A name is not plain.

    Example:
        >>> inside(Path("/"), ["no such folder", "index.html"]) is None
        True
    """
    path = folder
    for name in names:
        if not is_plain(name):
            raise ValueError(f"not a plain name: {name!r}")
        path = path / name
        try:
            if stat.S_ISLNK(os.lstat(path).st_mode):
                return None
        except OSError:
            return None
    try:
        return path if path.resolve().is_relative_to(folder.resolve()) else None
    except OSError:
        return None


def open_plain(path: Path) -> int:
    """
    Opens a file for reading, and nothing else than a file: no link, no device, no pipe.

    Raises:
        FileNotFoundError: It is none of that kind, or is not there.
    """
    try:
        opened = os.open(path, os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
                         | getattr(os, "O_BINARY", 0))  # fmt: skip
    except FileNotFoundError:
        raise
    except OSError as error:  # a link, a folder on some systems, no right to read it
        raise FileNotFoundError(str(path)) from error
    if not stat.S_ISREG(os.fstat(opened).st_mode):
        os.close(opened)
        raise FileNotFoundError(str(path))
    return opened
