"""
Finds what a page asks for, with line numbers, before the page is built: so every mistake is told at once and in place.

Works on the text alone; knows no generator. Code blocks and code spans are passed over.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from textwrap import dedent
from typing import Any

from build_tools.markdown_blocks import depths
from build_tools.markdown_blocks.compute import CannotCompute, run
from build_tools.markdown_blocks.inline import FOUND, InlineFigure, parse
from build_tools.markdown_blocks.marked_yaml import NotYaml, load
from build_tools.markdown_blocks.mistakes import Mistake
from calculators.desk.errors import nearest_names

BLOCKS = (
    "calculator",
    "short-answer",
    "questions",
    "sources",
    "every-source",
    "episode",
    "episodes",
    "corrections",
)
OPTIONS = {"calculator": ("inputs", "presets")}
NEEDS_NAME = ("calculator",)
WORDS_ALOUD = 40  # the most words of a short answer
_OPEN = re.compile(r"^(/{3,})[ \t]*([\w-]+)[ \t]*(?:\|[ \t]*(.*?)[ \t]*)?$")
_CLOSE = re.compile(r"^(/{3,})[ \t]*$")
_FENCE = re.compile(r"^\s{0,3}(`{3,}|~{3,})")
_SPAN = re.compile(r"(`+)(?!`).*?(?<!`)\1(?!`)")


@dataclass(slots=True)
class BlockUse:
    """One block of ours in a page: its name, its argument, its options, its lines."""

    name: str
    argument: str
    line: int
    options: dict[str, Any] = field(default_factory=dict)
    body: list[tuple[int, str]] = field(default_factory=list)
    closed: bool = False


@dataclass(slots=True)
class Uses:
    """Everything found in a page. endless: it was not read, since reading it could take minutes (depths.py)."""

    blocks: list[BlockUse] = field(default_factory=list)
    figures: list[tuple[int, InlineFigure]] = field(default_factory=list)
    mistakes: list[Mistake] = field(default_factory=list)
    endless: bool = False


def scan(text: str, path: str, first_line: int = 1) -> Uses:
    """
    Read one page's Markdown.

    Args:
        text: The page, without its front matter. [text]
        path: Its path, for messages. [text]
        first_line: The number of the text's first line in its file. [1]

    Returns:
        What the page uses and every mistake in it. [object]

    Source:
        The generic-block syntax of pymdown-extensions.

    Example:
        >>> str(scan("/// calculater | memory.rate", "a.md").mistakes[0])
        "a.md:1: there is no block '/// calculater'; did you mean '/// calculator'?"
    """
    uses = Uses(mistakes=list(depths.check(text, path, first_line)))
    if uses.mistakes:
        uses.endless = True
        return uses
    _find_blocks(text, path, first_line, uses)
    for use in uses.blocks:
        _check_block(use, path, uses)
    _find_figures(text, path, first_line, uses)
    for use in uses.blocks:
        if use.name == "short-answer":
            _check_length(use, path, uses)
    return uses


def plain_lines(text: str, first_line: int) -> Iterator[tuple[int, str]]:
    """The lines outside fenced code, with their numbers."""
    fence = ""
    for number, line in enumerate(text.split("\n"), first_line):
        match = _FENCE.match(line)
        if fence:
            if match and match[1].startswith(fence) and not line.strip().strip(fence[0]):
                fence = ""
            continue
        if match:
            fence = match[1]
            continue
        yield number, line


def _find_blocks(text: str, path: str, first_line: int, uses: Uses) -> None:
    current: BlockUse | None = None
    others = 0  # open blocks of other extensions, whose closing lines are theirs
    for number, line in plain_lines(text, first_line):
        if current is not None:
            if _CLOSE.match(line):
                current.closed = True
                current = None
            else:
                current.body.append((number, line))
            continue
        match = _OPEN.match(line.strip()) if line.lstrip().startswith("///") else None
        if match is None:
            if _CLOSE.match(line):
                if not others:
                    uses.mistakes.append(Mistake(path, number, "'///' closes nothing: no block is open here"))
                others = max(0, others - 1)
            continue
        name, argument = match[2], match[3] or ""
        if name not in BLOCKS:
            near = nearest_names(name, BLOCKS)
            # other extensions may bring blocks of their own: only a likely slip of the pen is a mistake
            if near:
                uses.mistakes.append(
                    Mistake(path, number, f"there is no block '/// {name}'; did you mean '/// {near[0]}'?")
                )
            others += 1
            continue
        if line != line.lstrip():
            uses.mistakes.append(Mistake(path, number, f"'/// {name}' must stand at the start of the line"))
        current = BlockUse(name, argument, number)
        uses.blocks.append(current)
    for use in uses.blocks:
        if not use.closed:
            uses.mistakes.append(Mistake(path, use.line, f"'/// {use.name}' is not closed with a line '///'"))


def _check_block(use: BlockUse, path: str, uses: Uses) -> None:
    """Read the options, refuse the unknown, and compute what the block asks for."""

    def wrong(line: int, message: str) -> None:
        uses.mistakes.append(Mistake(path, line, message))

    header: list[tuple[int, str]] = []
    for number, line in use.body:
        if not line.strip() or not line.startswith("    "):
            break
        header.append((number, line))
    use.body = use.body[len(header) :]
    if header:
        try:
            options = _options(dedent("\n".join(line for _, line in header)))
        except NotYaml as problem:
            at = header[0][0] + problem.line - 1
            wrong(at, f"the options of '/// {use.name}' cannot be read: {problem}")
            return
        if not isinstance(options, dict):
            wrong(header[0][0], f"the options of '/// {use.name}' must be written as 'key: value'")
            return
        use.options = options
    if use.name in NEEDS_NAME and not use.argument:
        wrong(use.line, f"'/// {use.name}' needs a name, such as '/// calculator | memory.rate'")
        return
    allowed = OPTIONS.get(use.name, ())
    for key in use.options:
        if key not in allowed:
            near = nearest_names(str(key), allowed)
            hint = f"did you mean {near[0]}?" if near else f"it takes {', '.join(allowed) or 'none'}"
            wrong(_line_of(header, str(key), use.line), f"'/// {use.name}' has no option {key}; {hint}")
            return
    if use.name != "calculator":
        return
    inputs = use.options.get("inputs") or {}
    if not isinstance(inputs, dict):
        wrong(use.line, "'inputs' must be written as 'key: value', one a line")
        return
    try:
        result = run(use.argument, inputs)
    except CannotCompute as problem:
        key = next((str(k) for k in inputs if f": {k}: " in str(problem)), "")
        wrong(_line_of(header, key, use.line), str(problem))
        return
    presets = [p.key for p in result.calculator.presets]
    asked = use.options.get("presets", presets)
    for preset in asked if isinstance(asked, list) else [asked]:
        if preset not in presets:
            near = nearest_names(str(preset), presets)
            hint = f"did you mean {near[0]}?" if near else f"it has {', '.join(presets) or 'none'}"
            wrong(_line_of(header, "presets", use.line), f"{use.argument} has no preset {preset}; {hint}")


@lru_cache(maxsize=16384)  # a page is read several times in one build, and reading YAML takes long
def _options(text: str) -> Any:
    return load(text)[0]


def _line_of(header: list[tuple[int, str]], key: str, otherwise: int) -> int:
    """The line on which an option's key stands."""
    if key:
        for number, line in header:
            if line.strip().startswith(f"{key}:"):
                return number
    return otherwise


def _find_figures(text: str, path: str, first_line: int, uses: Uses) -> None:
    joined = "\n".join(line for _, line in plain_lines(text, first_line))
    numbers = [number for number, _ in plain_lines(text, first_line)]
    masked = _SPAN.sub(lambda m: re.sub(r"[^\n]", " ", m[0]), joined)
    for match in FOUND.finditer(masked):
        line = numbers[masked.count("\n", 0, match.start())]
        try:
            figure = parse(match[1])
            figure.text()
        except CannotCompute as problem:
            uses.mistakes.append(Mistake(path, line, str(problem)))
        else:
            uses.figures.append((line, figure))


def spoken(text: str) -> list[str]:
    """The words of a text, inline figures put in and Markdown's signs taken out."""
    return [w for w in in_words(text).split() if re.search(r"\w", w)]


def in_words(text: str) -> str:
    """A text as it is read, on one line: inline figures put in and Markdown's signs taken out."""

    def words_of(match: re.Match[str]) -> str:
        try:
            return parse(match[1]).text()
        except CannotCompute:
            return "figure"

    plain = FOUND.sub(words_of, text)
    plain = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", plain)
    return " ".join(re.sub(r"[*_`>#]", " ", plain).split())


def _check_length(use: BlockUse, path: str, uses: Uses) -> None:
    count = len(spoken("\n".join(line for _, line in use.body)))
    if not count:
        uses.mistakes.append(Mistake(path, use.line, "the short answer is empty"))
    if count > WORDS_ALOUD:
        message = f"the short answer has {count} words; at most {WORDS_ALOUD} can be said in one breath of attention"
        uses.mistakes.append(Mistake(path, use.line, message))
