"""
Refuses pages that would keep the generator busy for ever, such as one with brackets never closed. Knows no block.

The time grows with the square of the number of signs open at once, so a slip that repeats, or a page made by a
machine, ends here with a sentence and a line. The limits are far above what anybody writes by hand.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from build_tools.markdown_blocks.mistakes import Mistake

OPEN_BRACKETS = 60  # in one paragraph; 500 take 0.1 s, 20,000 take minutes
OPEN_FIGURES = 20  # '{=' without '=}', in one page
TICK_LENGTHS = 20  # runs of ` of different lengths in one paragraph; 400 take minutes
PARAGRAPHS = 5_000  # in one page; the longest page has 200
QUOTES = 20  # signs '>' that begin a line
LINES = 1_500  # of one paragraph or table
ABBREVIATIONS = 200  # in one page: each is looked for in all of its text
_TICKS = re.compile(r"`+")
_FIGURE = re.compile(r"\{=[^{}]*=\}")
_ABBREVIATION = re.compile(r"^ {0,3}\*\[", re.M)
_QUOTES = re.compile(r"^(?: {0,3}> ?){21}", re.M)


def check(body: str, shown: str, first_line: int = 1) -> Iterator[Mistake]:
    """
    The places in a page's text that the generator would take too long over.

    Args:
        body: The page without its front matter. [text]
        shown: Its path, for messages. [text]
        first_line: The number of the text's first line in its file. [1]

    Returns:
        The mistakes. [iterator]

    Source:
        None; the limits were found by timing Python-Markdown.

    Example:
        >>> [m.line for m in check("a\\n\\n" + "[" * 100, "a.md")]
        [3]
    """
    line, count = first_line, 0
    for paragraph in re.split(r"(\n[ \t]*\n)", body):
        count += bool(paragraph.strip())
        for first_fault in _OPEN:
            fault = first_fault(paragraph)
            if fault:
                at, message = fault
                yield Mistake(shown, line + paragraph.count("\n", 0, at), message)
        line += paragraph.count("\n")
    if count > PARAGRAPHS:
        yield Mistake(shown, first_line, f"this page has {count} paragraphs; at most {PARAGRAPHS}: make several of it")
    explained = [match.start() for match in _ABBREVIATION.finditer(body)]
    if len(explained) > ABBREVIATIONS:
        at = first_line + body.count("\n", 0, explained[ABBREVIATIONS])
        yield Mistake(shown, at, f"a page explains at most {ABBREVIATIONS} abbreviations; this is one more")
    left = body.count("{=") - len(_FIGURE.findall(body))
    if left > OPEN_FIGURES:
        at = first_line + body.count("\n", 0, body.index("{="))
        yield Mistake(shown, at, f"{left} signs '{{=' are not closed with '=}}'")


def _brackets(text: str) -> tuple[int, str] | None:
    return _too_deep(text, "[", "]", f"more than {OPEN_BRACKETS} brackets '[' stand open at once here; close them")


def _tags(text: str) -> tuple[int, str] | None:
    return _too_deep(text, "<", ">", f"more than {OPEN_BRACKETS} signs '<' stand open at once here; close them")


def _too_deep(text: str, opens: str, closes: str, message: str) -> tuple[int, str] | None:
    if text.count(opens) <= OPEN_BRACKETS:
        return None
    depth = 0
    for match in re.finditer(f"[{re.escape(opens + closes)}]", text):
        depth = max(0, depth + (1 if match[0] == opens else -1))
        if depth > OPEN_BRACKETS:
            return match.start(), message
    return None


def _ticks(text: str) -> tuple[int, str] | None:
    lengths = {len(run) for run in _TICKS.findall(text)}
    if len(lengths) <= TICK_LENGTHS:
        return None
    return text.index("`"), f"signs ` stand in {len(lengths)} different lengths in this paragraph; close them"


def _quotes(text: str) -> tuple[int, str] | None:
    match = _QUOTES.search(text)
    return (match.start(), f"this is quoted more than {QUOTES} deep; take signs '>' out") if match else None


def _lines(text: str) -> tuple[int, str] | None:
    many = text.count("\n")
    return (0, f"{many} lines stand together here; leave a line free among them") if many > LINES else None


_OPEN = (_brackets, _tags, _ticks, _quotes, _lines)
