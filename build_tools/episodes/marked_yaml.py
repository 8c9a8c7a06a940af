"""YAML with the line on which each value stands, so that a mistake can be told in place. Knows no meaning."""

from __future__ import annotations

from collections.abc import Hashable
from typing import Any

import yaml

Path = tuple[Hashable, ...]


class NotYaml(ValueError):
    """The text cannot be read as YAML; `line` is where reading stopped."""

    def __init__(self, line: int, message: str) -> None:
        self.line = line
        super().__init__(message)


def load(text: str, first_line: int = 1) -> tuple[Any, dict[Path, int]]:
    """
    Read a YAML text.

    Args:
        text: The text. [text]
        first_line: The number of its first line in its file. [1]

    Returns:
        The value, and the line of every value in it by its path of keys and places. [value, mapping]

    Raises:
        NotYaml: The text is not YAML.

    Source:
        YAML 1.1 as PyYAML reads it.

    Example:
        >>> load("a: 1\\nb:\\n  - x: 2")[1][("b", 0, "x")]
        3
    """
    try:
        node = yaml.compose(text, Loader=yaml.SafeLoader)
        value = yaml.safe_load(text)
    except yaml.YAMLError as problem:
        mark = getattr(problem, "problem_mark", None)
        said = str(getattr(problem, "problem", None) or "the text is not YAML")
        raise NotYaml(first_line + (mark.line if mark else 0), said) from None
    lines: dict[Path, int] = {}
    if node is not None:
        _mark((), node, first_line, lines)
    return value, lines


def _mark(path: Path, node: yaml.Node, first_line: int, lines: dict[Path, int]) -> None:
    lines[path] = node.start_mark.line + first_line
    if isinstance(node, yaml.MappingNode):
        for key, child in node.value:
            _mark((*path, key.value), child, first_line, lines)
            lines[(*path, key.value)] = key.start_mark.line + first_line
    elif isinstance(node, yaml.SequenceNode):
        for place, child in enumerate(node.value):
            _mark((*path, place), child, first_line, lines)
