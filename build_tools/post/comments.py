"""
Comments out of a file: a comment a block, or a table with its columns named in the first row. Knows no answer.

The form is this project's own. Blocks are parted by empty lines; a block may begin with `handle: …` and
`consent: yes`. A table (CSV) has a column `comment`, and may have `handle` and `consent`; others are passed over.
"""

from __future__ import annotations

import csv
import io
import re
from dataclasses import dataclass

MOST = 2000  # comments of one file
LONGEST = 6000  # characters of one
_HEAD = re.compile(r"(handle|consent)\s*:\s*(.*)", re.I)
_TEXT_COLUMNS = ("comment", "text", "question")
_YES = frozenset({"yes", "y", "true", "1"})


class NotComments(ValueError):
    """The file holds no comments in a form that is read here; the text says what to mend."""


@dataclass(frozen=True, slots=True)
class Comment:
    """
    One comment. number: its place in the file, from one. handle: who wrote it; shown only where consent is true.
    """

    number: int
    text: str
    handle: str = ""
    consent: bool = False

    @property
    def named(self) -> str:
        """The handle where its owner has agreed that it is named; else nothing."""
        return self.handle if self.consent else ""


def read(text: str) -> list[Comment]:
    """
    The comments in a file's text.

    Args:
        text: The whole file. [text]

    Returns:
        Comments in their order; empty ones are left out. [list]

    Raises:
        NotComments: There is none, there are too many, or one is too long.

    Source:
        RFC 4180 for the table, with any of comma, semicolon and tab: from memory.

    Example:
        >>> [comment.text for comment in read("16 GB enough?\\n\\nhandle: otter\\nconsent: yes\\nblack screen")]
        ['16 GB enough?', 'black screen']
    """
    plain = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    rows = _table(plain)
    comments = [Comment(n, body, handle, consent) for n, (body, handle, consent) in enumerate(
        (row for row in (_blocks(plain) if rows is None else rows) if row[0]), 1)]  # fmt: skip
    if not comments:
        raise NotComments("No comments are in it: write one a block, with an empty line between two.")
    if len(comments) > MOST:
        raise NotComments(f"{len(comments)} comments are in it, and at most {MOST} are read at a time.")
    for comment in comments:
        if len(comment.text) > LONGEST:
            raise NotComments(f"Comment {comment.number} is longer than {LONGEST} characters.")
    return comments


def _blocks(text: str) -> list[tuple[str, str, bool]]:
    blocks = []
    for block in re.split(r"\n\s*\n", text):
        lines = block.strip().split("\n")
        head: dict[str, str] = {}
        while lines and (match := _HEAD.fullmatch(lines[0].strip())):
            head[match[1].lower()] = match[2].strip()
            lines = lines[1:]
        blocks.append(("\n".join(lines).strip(), head.get("handle", ""), head.get("consent", "").lower() in _YES))
    return blocks


def _table(text: str) -> list[tuple[str, str, bool]] | None:
    """The rows of a table; None where the first line names no columns of one."""
    first = text.split("\n", 1)[0]
    mark = max(",;\t", key=first.count)
    names = [name.strip().strip('"').lower() for name in first.split(mark)]
    column = next((name for name in _TEXT_COLUMNS if name in names), None)
    if column is None or any(not re.fullmatch(r"[a-z_ ]{1,30}", name) for name in names):
        return None
    rows = csv.DictReader(io.StringIO(text), fieldnames=names, delimiter=mark)
    next(rows, None)
    return [
        ((row.get(column) or "").strip(), (row.get("handle") or "").strip(),
         (row.get("consent") or "").strip().lower() in _YES)
        for row in rows
    ]  # fmt: skip
