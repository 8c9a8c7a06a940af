"""Writes new files, all or none, and never over one that is there."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from pathlib import Path

from build_tools import keeping

MOST_WORDS = 8
MOST_LETTERS = 50
# Letters that Unicode does not split into a plain letter and an accent, and how a file name spells them.
_SPELT = (("ß", "ss"), ("æ", "ae"), ("ø", "o"), ("œ", "oe"), ("ł", "l"), ("đ", "d"))


class CannotMake(ValueError):
    """Nothing was written; the text says why and what to do instead."""


def write_all(files: Mapping[Path, str]) -> list[Path]:
    """
    Write every file, or none where one of them is there already.

    Args:
        files: Text by path. [mapping]

    Returns:
        The paths written, in order. [list]

    Raises:
        CannotMake: A file is there already, or cannot be written.

    Example:
        >>> write_all({})
        []
    """
    there = [path for path in files if path.exists()]
    if there:
        raise CannotMake(f"{there[0]} is there already; choose another name, or change that file")
    written: list[Path] = []
    try:
        for path, text in files.items():
            keeping.keep(path, text, fresh=True)
            written.append(path)
    except keeping.CannotKeep as problem:
        for path in written:
            path.unlink(missing_ok=True)
        raise CannotMake(str(problem)) from None
    return written


def slug(words: str) -> str:
    """
    A file name from a title: small letters, digits and hyphens; at most eight whole words and 50 letters.

    Args:
        words: The title. [text]

    Returns:
        The name. [text]

    Raises:
        CannotMake: The title holds no letter and no digit, or it holds control characters.

    Example:
        >>> slug("Why can four sticks run slower than two?")
        'why-can-four-sticks-run-slower-than-two'
    """
    if any(unicodedata.category(sign) in ("Cc", "Cs") for sign in words):
        raise CannotMake("a title is one line of text, without signs that nobody can see")
    for letters, written in _SPELT:
        words = words.replace(letters, written)
    plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode().lower().replace("'", "")
    parts = re.findall(r"[a-z0-9]+", plain)
    if not parts:
        raise CannotMake(f"'{words}' has no letter or digit to make a file name of")
    name = str(parts[0])[:MOST_LETTERS]
    for part in parts[1:MOST_WORDS]:
        if len(name) + 1 + len(part) > MOST_LETTERS:
            break
        name += f"-{part}"
    return name
