"""Reads JSON from outside, and only what a page of ours would send. Knows JSON (RFC 8259); knows no route."""

from __future__ import annotations

import json
import math
import re
from typing import Any, NoReturn

DEEPEST = 12  # lists and objects inside one another; our own requests have three
LONGEST_NUMBER = 24  # characters

_TEXT = re.compile(r'"(?:[^"\\]|\\.)*"?', re.DOTALL)


def read_object(data: bytes) -> dict[str, Any]:
    """
    The object in a text of JSON.

    Args:
        data: UTF-8. [bytes]

    Returns:
        The object. [mapping]

    Raises:
        ValueError: It is no JSON, no object, too deep, names a key twice, or holds a number that is none or is endless.

    Source:
        RFC 8259; the limits are our own.

    Example:
        >>> read_object(b'{"frame": 2}')
        {'frame': 2}
    """
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError:
        raise ValueError("what was sent is no text") from None
    _look_how_deep(text)
    try:
        body = json.loads(
            text, object_pairs_hook=_each_once, parse_constant=_no_number, parse_float=_finite, parse_int=_whole
        )
    except json.JSONDecodeError as problem:
        raise ValueError(f"what was sent is no JSON: {problem.msg} at character {problem.pos}") from None
    if not isinstance(body, dict):
        raise ValueError("what was sent is no JSON object")
    return body


def _look_how_deep(text: str) -> None:
    """Before it is read, since reading one level calls for the next."""
    depth = 0
    for sign in re.findall(r"[\[\]{}]", _TEXT.sub("", text)):
        depth += 1 if sign in "[{" else -1
        if depth > DEEPEST:
            raise ValueError(f"what was sent is more than {DEEPEST} levels deep")


def _each_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    members = dict(pairs)
    if len(members) != len(pairs):
        raise ValueError("what was sent names a key twice")
    return members


def _no_number(word: str) -> NoReturn:
    raise ValueError(f"{word} is no number")


def _finite(digits: str) -> float:
    number = float(digits)
    if len(digits) > LONGEST_NUMBER or not math.isfinite(number):
        raise ValueError("what was sent holds a number that is too large or too long")
    return number


def _whole(digits: str) -> int:
    if len(digits) > LONGEST_NUMBER:
        raise ValueError("what was sent holds a number that is too large or too long")
    return int(digits)
