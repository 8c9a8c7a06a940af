"""
Changes entries of an episode sheet's front matter by a round trip: what is not meant stays, comments and quotes too.

Knows YAML's layout and no sheet's meaning.
"""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.comments import CommentedMap, CommentedSeq
from ruamel.yaml.error import CommentMark, YAMLError
from ruamel.yaml.scalarstring import DoubleQuotedScalarString
from ruamel.yaml.tokens import CommentToken

from build_tools.markdown_blocks.marked_yaml import NotYaml, load
from build_tools.markdown_blocks.places import front_matter_lines

_DASH = re.compile(r"^( *)- ", re.M)
_WIDE = 1_000_000  # no line is ever broken for being long


class CannotEdit(ValueError):
    """The sheet is as it was; the text says why."""


def edited(text: str, name: str, alter: Callable[[CommentedMap], None]) -> str:
    """
    A sheet's text with its front matter altered.

    Args:
        text: The sheet. [text]
        name: Its file's name, for messages. [text]
        alter: Changes the entries in place; what it raises passes on. [function]

    Returns:
        The new text. [text]

    Raises:
        CannotEdit: The front matter cannot be read, or is no mapping.

    Source:
        YAML 1.2 as ruamel.yaml reads and writes it.

    Example:
        >>> edited("---\\na: 1  # why\\n---\\n# A\\n", "a.md", lambda front: front.update(b=2))
        '---\\na: 1  # why\\nb: 2\\n---\\n# A\\n'
    """
    ends = "\r\n" if "\r\n" in text else "\n"
    lines = text.replace("\r\n", "\n").split("\n")
    count = front_matter_lines("\n".join(lines))
    if not count:
        raise CannotEdit(f"{name} has no front matter between two lines '---'")
    head = "\n".join(lines[1 : count - 1]) + "\n"
    try:
        load(head, 2)  # its refusals come first: what is doubled or has no end is no sheet
    except NotYaml as problem:
        raise CannotEdit(f"{name}:{problem.line}: {problem}") from None
    yaml = _yaml(head)
    try:
        front = yaml.load(head)
    except (YAMLError, ValueError) as problem:
        message = str(getattr(problem, "problem", None) or problem)
        raise CannotEdit(f"{name}: its front matter cannot be changed: {message}") from None
    if not isinstance(front, CommentedMap):
        raise CannotEdit(f"{name}: its front matter must be written as 'key: value'")
    alter(front)
    made = io.StringIO()
    yaml.dump(front, made)
    return ends.join([lines[0], *made.getvalue().rstrip("\n").split("\n"), *lines[count - 1 :]])


def quoted(text: str) -> str:
    """A text that every YAML reads as a text."""
    made: str = DoubleQuotedScalarString(text)
    return made


def flow(values: dict[str, str]) -> CommentedMap:
    """Entries that stand on one line, in brackets, as texts."""
    made = CommentedMap({key: quoted(value) for key, value in values.items()})
    made.fa.set_flow_style()
    return made


def rows(front: CommentedMap, key: str) -> list[CommentedMap]:
    """The entries of a list in the front matter; CannotEdit where it is none."""
    entries: Any = front.get(key)
    if not isinstance(entries, CommentedSeq) or not all(isinstance(row, CommentedMap) for row in entries):
        raise CannotEdit(f"'{key}:' must be a list of entries written as 'key: value'")
    return list(entries)


def put(row: CommentedMap, key: str, value: Any, after: tuple[str, ...] = ()) -> None:
    """Sets an entry; a new one behind the last of those named that is there, or first where none is."""
    if key in row:
        row[key] = value
        return
    keys = list(row)
    place = max((keys.index(each) + 1 for each in after if each in keys), default=0)
    row.insert(place, key, value)


def append(front: CommentedMap, key: str, row: CommentedMap) -> int:
    """
    Adds an entry at the end of a list, and gives how many there are then.

    Empty lines and comments that stand between the list and what follows it stay there: they belong to what follows.
    """
    there = rows(front, key)
    if not there:
        raise CannotEdit(f"'{key}:' has no entry behind which another could stand")
    after = _cut_behind(there[-1])
    front[key].append(row)
    if after:
        last = list(row)[-1]
        row.ca.items[last] = [None, None, CommentToken("\n" + after, CommentMark(0), None), None]
    return len(there) + 1


def _cut_behind(row: CommentedMap) -> str:
    """Takes away, and gives, the whole lines that the reader has put behind an entry's last value."""
    at: Any = row
    while True:
        key = len(at) - 1 if isinstance(at, CommentedSeq) else list(at)[-1]
        held = at[key]
        if not isinstance(held, (CommentedMap, CommentedSeq)) or not held or held.fa.flow_style():
            break
        at = held
    tokens = at.ca.items.get(key) or []
    comment = next((token for token in reversed(tokens) if isinstance(token, CommentToken)), None)
    if comment is None:
        return ""
    own, end, after = comment.value.partition("\n")
    comment.value = own + end
    return str(after)


def _yaml(head: str) -> YAML:
    """Reader and writer, with the indentation that the text has."""
    yaml = YAML(typ="rt")
    yaml.preserve_quotes = True
    yaml.width = _WIDE
    yaml.allow_unicode = True
    dash = _DASH.search(head)
    indent = len(dash[1]) if dash else 2
    yaml.indent(mapping=2, sequence=indent + 2, offset=indent)
    return yaml
