"""
Checks the pages' Markdown before anything is built, so that every mistake of every page is told at once, in place.

Knows the shape of an answer page. Knows no generator.
"""

from __future__ import annotations

import datetime
import re
import unicodedata
from collections.abc import Hashable, Mapping
from pathlib import Path

from build_tools.markdown_blocks.compute import CannotCompute, run
from build_tools.markdown_blocks.marked_yaml import NotYaml, load
from build_tools.markdown_blocks.mistakes import Mistake
from build_tools.markdown_blocks.pages import front_matter
from build_tools.markdown_blocks.parts import BY_NAME, PARTS
from build_tools.markdown_blocks.places import front_matter_lines
from build_tools.markdown_blocks.reading import CannotRead, read_text
from build_tools.markdown_blocks.scan import BlockUse, Uses, plain_lines, scan

MUST_SAY = ("title", "question", "subject", "checked", "review_by")
Lines = Mapping[tuple[Hashable, ...], int]
_PLAIN_NAME = re.compile(r"[a-z0-9]+(?:[-_][a-z0-9]+)*")
_HISTORY_ENTRY = re.compile(r"^- \d{4}-\d{2}-\d{2}: \S")


def check(docs: Path) -> list[str]:
    """
    Every mistake in every page below docs/.

    Args:
        docs: The folder. [path]

    Returns:
        One line a mistake: file, line, what is wrong and what to write; in the order of the files. [list of texts]

    Source:
        DESIGN rule of this project: the parts of an answer page.

    Example:
        >>> check(Path("no-such-folder"))
        []
    """
    mistakes: list[Mistake] = []
    for path in sorted(docs.rglob("*.md")):
        inside = path.relative_to(docs)
        if inside.parts[0] == "made" or any(part.startswith(".") for part in inside.parts):
            continue
        mistakes += _of_page(path, inside, f"{docs.name}/{printable(inside.as_posix())}")
    for path in sorted(docs.rglob("*")):
        if path.suffix != ".md" and path.is_symlink() and not path.exists():
            shown = f"{docs.name}/{printable(path.relative_to(docs).as_posix())}"
            mistakes.append(Mistake(shown, 0, "this link leads to nothing; remove it, or put the file there"))
    return [str(m) for m in sorted(mistakes)]


def _of_page(path: Path, inside: Path, shown: str) -> list[Mistake]:
    """Every mistake of one page; one that cannot be read has that one alone."""
    try:
        text = read_text(path)
    except CannotRead as problem:
        return [Mistake(shown, problem.line, str(problem))]
    mistakes = _name(inside, shown)
    skipped = front_matter_lines(text)
    if not skipped and text.startswith("---\n"):
        mistakes.append(Mistake(shown, 1, "the front matter is not closed with a line '---'"))
    lines: Lines = {}
    if skipped and inside.parts[0] != "episodes":  # sheets have a reader of their own
        try:
            lines = load("\n".join(text.split("\n")[1 : skipped - 1]), 2)[1]
        except NotYaml as problem:
            return [*mistakes, Mistake(shown, problem.line, f"the front matter cannot be read: {problem}")]
    body = "\n".join(text.split("\n")[skipped:])
    uses = scan(body, shown, skipped + 1)
    mistakes += uses.mistakes
    if not uses.endless and inside.parts[0] == "answers" and path.name != "index.md":
        mistakes += answer_shape(text, shown, uses, lines)
    return mistakes


def printable(name: str) -> str:
    """A file's name as it can be printed anywhere: what is no text in it is spelled out."""
    return name.encode("utf-8", "backslashreplace").decode("utf-8")


def _name(inside: Path, shown: str) -> list[Mistake]:
    """A page's address is made of its file's name, so that is plain."""
    odd = [part for part in (*inside.parts[:-1], inside.stem) if not _PLAIN_NAME.fullmatch(part)]
    if not odd:
        return []
    plain = unicodedata.normalize("NFKD", odd[0].replace("ß", "ss")).encode("ascii", "ignore").decode().lower()
    better = "-".join(re.findall(r"[a-z0-9]+", plain)) or "a-few-words"
    message = f"a page's name is made of small letters, digits and hyphens; rename '{printable(odd[0])}' to '{better}'"
    return [Mistake(shown, 0, message)]


def answer_shape(text: str, shown: str, uses: Uses, lines_of: Lines | None = None) -> list[Mistake]:
    """What an answer page lacks or has out of order."""
    mistakes: list[Mistake] = []
    line_of = lines_of or {}

    def wrong(line: int, message: str) -> None:
        mistakes.append(Mistake(shown, line, message))

    meta = front_matter(text)
    for key in MUST_SAY:
        if not meta.get(key):
            wrong(1, f"the front matter lacks '{key}:'")
    for key in ("checked", "review_by"):
        if meta.get(key) and not isinstance(meta[key], datetime.date):
            wrong(line_of.get((key,), 1), f"'{key}:' must be a date such as 2026-11-24, got '{meta[key]}'")
    for key in ("title", "question", "subject"):
        if meta.get(key) and not isinstance(meta[key], str):
            wrong(line_of.get((key,), 1), f"'{key}:' needs a text, and YAML reads {meta[key]} here; put it in quotes")
    skipped = front_matter_lines(text)
    lines = list(plain_lines("\n".join(text.split("\n")[skipped:]), skipped + 1))
    titles = [(number, line[2:].strip()) for number, line in lines if line.startswith("# ")]
    heads = [(number, line[3:].strip()) for number, line in lines if line.startswith("## ")]
    if len(titles) != 1:
        wrong(skipped + 1, f"an answer page has one title '# …', this one has {len(titles)}")
    order = [part.name for part in PARTS]
    there = [name for _, name in heads]
    if there != [name for name in order if name in there] or any(p.needed and p.name not in there for p in PARTS):
        missing = [part.name for part in PARTS if part.needed and part.name not in there]
        extra = [(n, name) for n, name in heads if name not in BY_NAME]
        for name in missing:
            wrong(skipped + 1, f"the part '## {name}' is missing")
        for number, name in extra:
            wrong(number, f"an answer page has no part '## {name}'; use '###' inside one of: {', '.join(order)}")
        if not missing and not extra:
            wrong(heads[0][0], f"the parts stand in this order, each once: {', '.join(order)}")
        return mistakes
    if "What to do" not in there and not any(_gives_steps(use) for use in uses.blocks):
        wrong(skipped + 1, "the part '## What to do' is missing: no calculator of this page gives steps")
    short = [use for use in uses.blocks if use.name == "short-answer"]
    if len(short) != 1:
        wrong(skipped + 1, f"an answer page has one '/// short-answer', this one has {len(short)}")
    elif short[0].line > heads[0][0]:
        wrong(short[0].line, "the short answer stands first, right below the title")
    ends = [number for number, _ in heads[1:]] + [10**9]
    for (start, name), end in zip(heads, ends, strict=True):
        inside = [line for number, line in lines if start < number < end and line.strip()]
        if not inside:
            wrong(start, f"the part '{name}' is empty")
        elif name == "History" and not any(_HISTORY_ENTRY.match(line) for line in inside):
            wrong(start, "the history has no entry such as '- 2026-11-24: first written.'")
    return mistakes


def _gives_steps(use: BlockUse) -> bool:
    """Whether a block is a calculator whose example says step by step what to do."""
    if use.name != "calculator":
        return False
    try:
        return bool(run(use.argument, use.options.get("inputs") or {}).answer.steps)
    except CannotCompute:
        return True  # told by the scan, in its place
