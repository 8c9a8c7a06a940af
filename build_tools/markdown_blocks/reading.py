"""Reads a file that a person wrote, or says in a sentence why it cannot be read. Knows bytes and no page's shape."""

from __future__ import annotations

import codecs
import re
from pathlib import Path

# Longer than any page by far: the longest answer page has 20 kB. From here on, reading alone would take seconds.
LONGEST_BYTES = 400_000
# No page, feed or picture can show them (XML 1.0, 2.2).
_UNSEEN = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ufffe\uffff]")
_MARKS = (
    (codecs.BOM_UTF32_LE, "UTF-32"),
    (codecs.BOM_UTF32_BE, "UTF-32"),
    (codecs.BOM_UTF16_LE, "UTF-16"),
    (codecs.BOM_UTF16_BE, "UTF-16"),
)


class CannotRead(ValueError):
    """The file's text cannot be had; `line` is where the fault stands, and the text says what to do."""

    def __init__(self, line: int, message: str) -> None:
        self.line = line
        super().__init__(message)


def read_text(path: Path) -> str:
    """
    The text of a page, a sheet or a settings file, with plain line ends.

    Args:
        path: The file. [path]

    Returns:
        The text. [text]

    Raises:
        CannotRead: It is not there, not UTF-8, has a byte order mark, or is longer than any page.

    Source:
        Unicode 15.0, 23.8: the byte order marks; from memory.

    Example:
        >>> read_text(Path("no-such-file"))
        Traceback (most recent call last):
        ...
        build_tools.markdown_blocks.reading.CannotRead: there is no such file
    """
    try:
        if path.is_dir():
            raise CannotRead(0, "this is a folder; only a file can be a page: rename it")
        if path.is_symlink() and not path.exists():
            raise CannotRead(0, "this link leads to nothing; remove it, or put the file there that it means")
        size = path.stat().st_size
        if size > LONGEST_BYTES:
            raise CannotRead(0, f"this file has {size} bytes; a page has at most {LONGEST_BYTES}: make several of it")
        data = path.read_bytes()
    except FileNotFoundError:
        raise CannotRead(0, "there is no such file") from None
    except OSError as error:
        raise CannotRead(0, f"this file cannot be read: {(error.strerror or str(error)).lower()}") from None
    return _decoded(data).replace("\r\n", "\n").replace("\r", "\n")


def _decoded(data: bytes) -> str:
    for mark, name in _MARKS:
        if data.startswith(mark):
            raise CannotRead(1, f"this file is written in {name}; save it as UTF-8")
    if data.startswith(codecs.BOM_UTF8):
        raise CannotRead(1, "this file begins with a byte order mark, which nobody sees; save it as UTF-8 without one")
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        start = data.rfind(b"\n", 0, error.start) + 1
        before = data[start : error.start].decode("utf-8", "replace")[-20:]
        after = f" after '{before}'" if before.strip() else ""
        raise CannotRead(line, f"a letter{after} is not written in UTF-8; save the whole file as UTF-8") from None
    unseen = _UNSEEN.search(text)
    if unseen:
        line = text.count("\n", 0, unseen.start()) + 1
        if unseen[0] == "\0":
            raise CannotRead(line, "this is no text: it holds a zero byte; save it as plain text in UTF-8")
        message = f"a character stands here that no page can show, U+{ord(unseen[0]):04X}; take it out"
        raise CannotRead(line, message)
    return text
