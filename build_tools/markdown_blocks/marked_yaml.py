"""
YAML with the line on which each value stands, so that a mistake can be told in place. Knows no meaning.

What YAML takes in silence is a mistake here: a key that stands twice, a name for a part that is used again, and depths
that nobody writes by hand.
"""

from __future__ import annotations

import re
from collections.abc import Hashable
from typing import Any

import yaml

Path = tuple[Hashable, ...]
DEEPEST = 12  # a sheet's deepest value stands at 5
LONGEST = 200_000  # characters; PyYAML reads about 100 kB a second
TAB = "a tab stands here; YAML takes spaces only"
# What PyYAML says, and what it most likely means in a sheet. By the beginning of its words.
_IN_OUR_WORDS = (
    ("mapping values are not allowed", 'a text that holds a colon and a space must stand in quotes: key: "one: two"'),
    ("found character '\\t'", TAB),
    ("found character '@'", "a text that begins with @ must stand in quotes"),
    ("found character '`'", "a text that begins with ` must stand in quotes"),
    ("found character '%'", "a text that begins with % must stand in quotes"),
    ("could not find expected ':'", "this line, or the one above it, has no 'key: value'; a long text goes in quotes"),
    ("found unexpected end of stream", "a quotation mark is not closed"),
    ("while scanning a quoted", "a quotation mark is not closed"),
    ("expected <block end>", "this does not stand in line with what it belongs to; look at spaces, quotes, brackets"),
    ("expected ',' or", "a bracket is not closed, or a text with a comma or bracket in it needs quotes"),
    ("expected alphabetic or numeric", "a text that begins with & or * must stand in quotes"),
    ("could not determine a constructor", "a text that begins with ! must stand in quotes"),
    ("expected the node content, but found '<stream end>'", "a bracket is not closed"),
    ("expected the node content, but found '-'", "a text that begins with - must stand in quotes"),
    ("found unknown escape character", "a backslash in double quotes is written twice, or take single quotes"),
    ("but found another document", "a line of three hyphens begins another part; only one is read"),
)


class NotYaml(ValueError):
    """The text cannot be read as YAML; `line` is where reading stopped."""

    def __init__(self, line: int, message: str) -> None:
        self.line = line
        super().__init__(message)


class _Refused(yaml.YAMLError):
    """Well-formed YAML that is a mistake here."""

    def __init__(self, problem: str, mark: yaml.Mark) -> None:
        self.problem, self.problem_mark = problem, mark
        super().__init__(problem)


class _Careful(yaml.SafeLoader):
    """Refuses at once what is deep, doubled or named, and leaves what is no date a text."""

    _depth = 0

    def fetch_flow_collection_start(self, token_class: Any) -> None:
        # Already here: the scanner's own time grows with the square of what is open.
        if self.flow_level >= DEEPEST:
            raise _Refused(f"brackets stand more than {DEEPEST} deep here", self.get_mark())
        super().fetch_flow_collection_start(token_class)

    def compose_node(self, parent: yaml.Node | None, index: Any) -> yaml.Node | None:
        event: Any = self.peek_event()  # type: ignore[no-untyped-call]
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            raise _Refused("a text that begins with & or * must stand in quotes", event.start_mark)
        if self._depth > DEEPEST:
            raise _Refused(f"entries stand more than {DEEPEST} deep here", event.start_mark)
        self._depth += 1
        try:
            return super().compose_node(parent, index)
        finally:
            self._depth -= 1

    def compose_mapping_node(self, anchor: Any) -> yaml.MappingNode:
        node = super().compose_mapping_node(anchor)
        there: dict[str, int] = {}
        for key, _ in node.value:
            if not isinstance(key, yaml.ScalarNode):
                raise _Refused("a key is a plain word; a text with brackets in it needs quotes", key.start_mark)
            if key.tag == "tag:yaml.org,2002:merge":
                raise _Refused("'<<' is not a key here", key.start_mark)
            if key.value in there:
                message = f"'{key.value[:40]}:' stands twice, first on line {{first}}; keep one"
                raise _Twice(message, key.start_mark, there[key.value])
            there[key.value] = key.start_mark.line
        return node

    def construct_yaml_timestamp(self, node: yaml.ScalarNode) -> Any:
        try:
            return super().construct_yaml_timestamp(node)
        except ValueError:  # 2026-13-45 has a date's form; whoever wants a date says what is wrong with it
            return node.value

    def construct_yaml_int(self, node: yaml.ScalarNode) -> Any:
        try:
            return super().construct_yaml_int(node)
        except ValueError:
            return node.value


class _Twice(_Refused):
    """A key that stands twice."""

    def __init__(self, problem: str, mark: yaml.Mark, first: int) -> None:
        self.first = first
        super().__init__(problem, mark)


_Careful.add_constructor("tag:yaml.org,2002:timestamp", _Careful.construct_yaml_timestamp)
_Careful.add_constructor("tag:yaml.org,2002:int", _Careful.construct_yaml_int)


class _Settings(_Careful):
    """The loader for mkdocs.yml, in which generators have tags of their own: a value with one is read as None."""


_Settings.add_multi_constructor("!", lambda loader, tag, node: None)
_Settings.add_multi_constructor("tag:yaml.org,2002:python/", lambda loader, tag, node: None)


def load(text: str, first_line: int = 1, *, foreign_tags: bool = False) -> tuple[Any, dict[Path, int]]:
    """
    Read a YAML text.

    Args:
        text: The text. [text]
        first_line: The number of its first line in its file. [1]
        foreign_tags: Whether tags are let pass, and what bears one is None.

    Returns:
        The value, and the line of every value in it by its path of keys and places. [value, mapping]

    Raises:
        NotYaml: The text is not YAML, or holds a key twice, an anchor or alias, or more depth or length than a person
            writes.

    Source:
        YAML 1.1 as PyYAML reads it.

    Example:
        >>> load("a: 1\\nb:\\n  - x: 2")[1][("b", 0, "x")]
        3
    """
    node, loader = _composed(text, first_line, _Settings if foreign_tags else _Careful)
    lines: dict[Path, int] = {}
    if node is None:
        return None, lines
    try:
        value = loader.construct_document(node)
    except (yaml.YAMLError, ValueError, OverflowError, TypeError) as problem:
        raise _as_not_yaml(problem, first_line) from None
    _mark((), node, first_line, lines)
    return value, lines


def compose(text: str, first_line: int = 1) -> yaml.Node | None:
    """The tree of a YAML text, with the place of each value in it; raises as `load` does."""
    return _composed(text, first_line, _Careful)[0]


def _composed(text: str, first_line: int, kind: type[_Careful]) -> tuple[yaml.Node | None, _Careful]:
    if len(text) > LONGEST:
        raise NotYaml(first_line, f"this part has {len(text)} characters; at most {LONGEST} are read")
    try:
        loader = kind(text)
        return loader.get_single_node(), loader
    except (yaml.YAMLError, ValueError, RecursionError) as problem:
        tab = re.search(r"^ *\t", text, re.M)
        if tab:  # the likelier mistake; where the text can be read, the tab stands in a pasted block and belongs there
            raise NotYaml(first_line + text.count("\n", 0, tab.start()), TAB) from None
        raise _as_not_yaml(problem, first_line) from None


def _as_not_yaml(problem: Exception, first_line: int) -> NotYaml:
    """The parser's error as a sentence in plain words, with its line in the file."""
    mark = getattr(problem, "problem_mark", None) or getattr(problem, "context_mark", None)
    line = mark.line if mark else 0
    if isinstance(problem, yaml.reader.ReaderError):
        return NotYaml(first_line, "a character stands in this part that nobody can see; take it out")
    if isinstance(problem, _Twice):
        return NotYaml(first_line + line, str(problem.problem).format(first=first_line + problem.first))
    message = str(getattr(problem, "problem", None) or "the text is not YAML")
    words = next((ours for theirs, ours in _IN_OUR_WORDS if message.startswith(theirs)), message)
    return NotYaml(first_line + line, words)


def _mark(path: Path, node: yaml.Node, first_line: int, lines: dict[Path, int]) -> None:
    lines[path] = node.start_mark.line + first_line
    if isinstance(node, yaml.MappingNode):
        for key, child in node.value:
            _mark((*path, key.value), child, first_line, lines)
            lines[(*path, key.value)] = key.start_mark.line + first_line
    elif isinstance(node, yaml.SequenceNode):
        for place, child in enumerate(node.value):
            _mark((*path, place), child, first_line, lines)
