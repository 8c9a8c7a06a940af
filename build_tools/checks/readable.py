"""
Whether the pages and mkdocs.yml can be read at all: what they are written in, what they are called, how deep they nest.

Looked at before everything else reads them, so that a file of the wrong kind is told with its line and what to do, and
none keeps the build busy for ever. Knows no part of a page but its front matter.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml

from build_tools.markdown_blocks.mistakes import Mistake
from build_tools.markdown_blocks.places import front_matter_lines
from build_tools.markdown_blocks.scan import plain_lines

# An address of the site is made of these, so that it reads the same in a link, a feed and a folder.
_NAME = re.compile(r"[A-Za-z0-9_][A-Za-z0-9_.-]*")
_UNSEEN = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ufffe\uffff]")
_TAG = re.compile(r"<[A-Za-z/!?]")
_BACKTICKS = re.compile(r"`{21,}")
# Readers of Markdown look from every opening sign for the closing one, so their time grows with the square of these.
MOST_OPEN = 200
MOST_ABBREVIATIONS = 200
MOST_BYTES = 2_000_000


def check(docs: Path) -> list[str]:
    """
    Everything that keeps a page from being read, and mkdocs.yml beside the folder.

    Args:
        docs: The folder of pages. [path]

    Returns:
        One line a mistake: file, line, what is wrong and what to do. [list of texts]

    Source:
        None: limits of this project.

    Example:
        >>> check(Path("no-such-folder"))
        []
    """
    mistakes = list(_settings(docs.parent / "mkdocs.yml"))
    for path in sorted(docs.rglob("*")):
        inside = path.relative_to(docs)
        if inside.parts[0] != "made" and not any(part.startswith(".") for part in inside.parts):
            mistakes += _file(path, inside, f"{docs.name}/{inside.as_posix()}")
    return [str(mistake) for mistake in sorted(mistakes)]


def _file(path: Path, inside: Path, shown: str) -> Iterator[Mistake]:
    if not path.exists():  # a link: what is not there at all is not listed
        yield Mistake(shown, 1, "this is a link to a file that is not there; put the file there, or take the link away")
        return
    if path.suffix != ".md":
        return
    if path.is_dir():
        yield Mistake(shown, 1, "this is a folder with a page's name; call it otherwise")
        return
    if not all(_NAME.fullmatch(part) for part in inside.parts):
        plain = unicodedata.normalize("NFKD", inside.stem.lower().replace("ß", "ss")).encode("ascii", "ignore").decode()
        better = re.sub(r"[^a-z0-9]+", "-", plain).strip("-") or "a-few-words"
        yield Mistake(
            shown, 1, f"a page's name and folder take letters from a to z, digits and hyphens; call it {better}.md, say"
        )
        return
    try:
        data = path.read_bytes()
    except OSError as error:
        yield Mistake(shown, 1, f"it cannot be read: {error.strerror or error}")
        return
    text, wrong = _decoded(data)
    yield from (Mistake(shown, line, message) for line, message in wrong)
    if text is not None:
        yield from (Mistake(shown, line, message) for line, message in _front_matter(text))
        yield from (Mistake(shown, line, message) for line, message in _nesting(text))


def _decoded(data: bytes) -> tuple[str | None, list[tuple[int, str]]]:
    """The text, or None; and what is wrong with it, with lines."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return None, [(1, "it is written in UTF-16; save it as UTF-8")]
    if data.startswith(b"\xef\xbb\xbf"):
        return None, [(1, "it begins with a byte order mark; save it as UTF-8 without one")]
    if len(data) > MOST_BYTES:
        return None, [(1, f"it has {len(data) / 1e6:.1f} MB; a page may have {MOST_BYTES / 1e6:.0f}")]
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        return None, [(line, "it is not written in UTF-8 (in Latin-1, perhaps); save it as UTF-8")]
    unseen = _UNSEEN.search(text)
    if unseen:
        line = text.count("\n", 0, unseen.start()) + 1
        return None, [(line, f"it holds a character that no page can show, U+{ord(unseen[0]):04X}; take it out")]
    return text, []


def _front_matter(text: str) -> Iterator[tuple[int, str]]:
    lines = text.split("\n")
    count = front_matter_lines(text)
    if not count:
        if lines[0].strip() == "---":
            yield 1, "the front matter has no end; write a line '---' below it"
        return
    yield from ((line + 1, message) for line, message in yaml_mistakes("\n".join(lines[1 : count - 1])))


def yaml_mistakes(text: str) -> list[tuple[int, str]]:
    """
    What is wrong with a text in YAML, with lines counted from 1.

    Besides what is no YAML: keys that stand twice, of which the last would win in silence; aliases, by which a few
    lines may stand for more than a machine holds; and values that look like a date and are none.
    """
    loader = _WithoutAliases(text)
    try:
        node = loader.get_single_node()
        return [*_twice(node), *_no_dates(node, loader)]
    except RecursionError:
        return [(1, "it nests too deep; write it with fewer brackets inside one another")]
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        what = str(getattr(error, "problem", "") or error)
        if r"'\t'" in what:
            what = "a tab stands where blanks must; put blanks in its place"
        return [((mark.line if mark else 0) + 1, f"it cannot be read as YAML: {what}")]


class _WithoutAliases(yaml.SafeLoader):
    """Reads YAML, and refuses the first alias."""

    def compose_node(self, parent: Any, index: Any) -> Any:
        if self.check_event(yaml.AliasEvent):
            mark = self.peek_event().start_mark  # type: ignore[no-untyped-call]
            sentence = "an alias such as *name is not taken here; write the value out"
            raise yaml.composer.ComposerError(None, None, sentence, mark)
        return super().compose_node(parent, index)


def _twice(node: Any) -> Iterator[tuple[int, str]]:
    if isinstance(node, yaml.MappingNode):
        seen: dict[str, int] = {}
        for key, value in node.value:
            if isinstance(key, yaml.ScalarNode):
                line = key.start_mark.line + 1
                if key.value in seen:
                    yield line, f"'{key.value}:' stands here a second time; keep one of the two"
                seen.setdefault(key.value, line)
            yield from _twice(value)
    elif isinstance(node, yaml.SequenceNode):
        for each in node.value:
            yield from _twice(each)


_MAY_BE_WRONG = frozenset({"tag:yaml.org,2002:timestamp", "tag:yaml.org,2002:int", "tag:yaml.org,2002:float"})


def _no_dates(node: Any, loader: yaml.SafeLoader) -> Iterator[tuple[int, str]]:
    if isinstance(node, yaml.MappingNode):
        for _, value in node.value:
            yield from _no_dates(value, loader)
    elif isinstance(node, yaml.SequenceNode):
        for each in node.value:
            yield from _no_dates(each, loader)
    elif isinstance(node, yaml.ScalarNode) and node.tag in _MAY_BE_WRONG:
        try:
            loader.construct_object(node)
        except ValueError:
            yield node.start_mark.line + 1, f"'{node.value[:30]}' looks like a date or a number and is none"


def _nesting(text: str) -> Iterator[tuple[int, str]]:
    """What a reader of Markdown would look through again and again."""
    skipped = front_matter_lines(text)
    brackets = unclosed = tags = abbreviations = 0
    for number, line in plain_lines("\n".join(text.split("\n")[skipped:]), skipped + 1):
        if not line.strip():
            brackets = unclosed = tags = 0  # what is not closed at a paragraph's end is text
        if _BACKTICKS.search(line):
            yield number, "more than 20 backticks stand in a row; a code span needs one or two"
            return
        abbreviations += line.startswith("*[")
        if abbreviations > MOST_ABBREVIATIONS:
            yield number, f"a page explains at most {MOST_ABBREVIATIONS} abbreviations; this is one more"
            return
        brackets = max(0, brackets + line.count("[") - line.count("]"))
        unclosed = max(0, unclosed + line.count("{=") - line.count("=}"))
        tags = max(0, tags + len(_TAG.findall(line)) - line.count(">"))
        for count, sign, end in ((brackets, "[", "]"), (unclosed, "{=", "=}"), (tags, "<", ">")):
            if count > MOST_OPEN:
                yield number, f"more than {MOST_OPEN} '{sign}' stand open here; close them with '{end}'"
                return


def _settings(path: Path) -> Iterator[Mistake]:
    """What is wrong with mkdocs.yml, as far as all that read it are concerned."""
    if not path.is_file():
        return
    text, wrong = _decoded(path.read_bytes())
    yield from (Mistake(path.name, line, message) for line, message in wrong)
    if text is None:
        return
    found = yaml_mistakes(text)
    yield from (Mistake(path.name, line, message) for line, message in found)
    if found:
        return
    node = yaml.compose(text, Loader=yaml.SafeLoader)
    if not isinstance(node, yaml.MappingNode):
        yield Mistake(path.name, 1, "it must be written as 'key: value'")
        return
    for keys in (("extra",), ("extra", "programme"), ("theme",)):
        at: Any = node
        for key in keys:
            at = next((v for k, v in at.value if k.value == key), None) if isinstance(at, yaml.MappingNode) else None
        if at is not None and not isinstance(at, yaml.MappingNode) and at.value not in ("", "null", "~"):
            where = ": ".join(keys)
            yield Mistake(path.name, at.start_mark.line + 1, f"'{where}:' must be written as 'key: value', one a line")
