"""
What the check command tells: errors that must be mended, and advice.

Looks at the pages' Markdown with the day's date in hand; the build's own checks come first. Knows no generator.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from build_tools.checks import on_the_record, pages, placeholders, plain_words
from build_tools.episodes import pasted, programme, sheet
from build_tools.markdown_blocks import depths
from build_tools.markdown_blocks.compute import CannotCompute, run
from build_tools.markdown_blocks.inline import FOUND
from build_tools.markdown_blocks.pages import front_matter
from build_tools.markdown_blocks.places import front_matter_lines
from build_tools.markdown_blocks.reading import CannotRead, read_text
from build_tools.markdown_blocks.scan import plain_lines, scan

LONGEST_SENTENCE = 32  # words one can say in a breath or two; common practice, no source
NAMES_LIST = ".names-to-avoid"
_LINK = re.compile(r"\]\(([^)#\s]+\.md)(?:#[^)\s]*)?\)")
_SENTENCE = re.compile(r"[^.!?;:]+[.!?;:]")  # a colon or semicolon is a breath too
_WORD = re.compile(r"\w")


@dataclass(frozen=True, slots=True, order=True)
class Finding:
    """One line of the report."""

    path: str
    line: int
    message: str
    error: bool

    def __str__(self) -> str:
        return f"{self.path}:{self.line}: {'' if self.error else 'advice: '}{self.message}"


def check(project: Path, today: datetime.date) -> list[Finding]:
    """
    Everything there is to say about the pages.

    Args:
        project: The project folder. [path]
        today: The day, to see what is overdue. [date]

    Returns:
        The findings by file and line. [list]

    Source:
        DESIGN section 7 of this project.

    Example:
        >>> check(Path("no-such-folder"), datetime.date(2026, 1, 1))
        []
    """
    docs = project / "docs"
    mistakes = [
        *programme.mistakes(project),
        *pages.check(docs),
        *on_the_record.check(docs),
        *placeholders.check(project),
    ]
    findings = [_error(line) for line in mistakes]
    findings += [Finding(m.path, m.line, m.message, False) for m in programme.not_filled_in(project)]
    findings += _to_paste_again(project)
    names = names_to_avoid(project / NAMES_LIST)
    for path in sorted(docs.rglob("*.md")):
        if "made" in path.relative_to(docs).parts[:1]:
            continue
        try:
            text = read_text(path)
        except CannotRead:
            continue  # told above
        if any(depths.check(text, "")):
            continue  # the same; and reading it for advice would have no end either
        shown = f"docs/{pages.printable(path.relative_to(docs).as_posix())}"
        findings += _of_page(path, text, shown, today)
        findings += _names(text, shown, names)
        findings += [Finding(shown, line, message, True) for line, message in plain_words.of_page(text, shown)]
    return sorted(set(findings))


def _to_paste_again(project: Path) -> Iterator[Finding]:
    """Episodes whose description has changed since it was pasted below the video, with what changed."""
    settings = programme.read(project)
    for episode in sheet.read_all(project / "docs")[0]:
        lines = pasted.changed(project / "docs", episode, settings)
        if lines:
            why = "; ".join(lines)
            message = f"its description must be pasted again (then: pasted {episode.number}): {why}"
            yield Finding(f"docs/{episode.path}", 1, message, False)


def _error(line: str) -> Finding:
    """A build's message as a finding."""
    match = re.match(r"(.+?\.(?:md|yml|py))(?::(\d+))?: (.*)", line, re.S)
    return Finding(match[1], int(match[2] or 1), match[3], True) if match else Finding("docs", 1, line, True)


def _of_page(path: Path, text: str, shown: str, today: datetime.date) -> Iterator[Finding]:
    skipped = front_matter_lines(text)
    body = "\n".join(text.split("\n")[skipped:])
    lines = list(plain_lines(body, skipped + 1))
    meta = front_matter(text)
    due = meta.get("review_by")
    if isinstance(due, datetime.date) and due < today:
        yield Finding(shown, 1, f"was to be reviewed by {due}; check it and its sources, then set a new date", True)
    for number, line in lines:
        for match in _LINK.finditer(line):
            if "://" not in match[1] and not (path.parent / match[1]).resolve().is_file():
                yield Finding(shown, number, f"the link to {match[1]} leads nowhere", True)
    yield from _long_sentences(body, shown, skipped + 1)
    if shown.startswith("docs/answers/"):
        yield from _typed_figures(body, shown, skipped + 1)


def _prose(body: str, first_line: int) -> Iterator[tuple[int, str]]:
    """The lines that are said: no headings, tables, options of blocks, lists of sources or quoted code."""
    inside = ""
    for number, line in plain_lines(body, first_line):
        stripped = line.strip()
        if stripped.startswith("///"):
            inside = stripped.strip("/ ").split(" ")[0]
            continue
        if inside == "calculator" and line.startswith("    "):
            continue
        if stripped.startswith(("#", "|", "<")):
            yield number, ""
            continue
        yield number, re.sub(r"`[^`]*`", "code", line)


def _long_sentences(body: str, shown: str, first_line: int) -> Iterator[Finding]:
    """Sentences that nobody can say in one go."""
    paragraph: list[tuple[int, str]] = []
    for number, line in [*_prose(body, first_line), (0, "")]:
        if line.strip() and not re.match(r"\s*(?:[-*]|\d+\.)\s", line):
            paragraph.append((number, line))
            continue
        if paragraph:
            text = " ".join(FOUND.sub("figure", part) for _, part in paragraph)
            for sentence in _SENTENCE.findall(re.sub(r"(?<=\d)\.(?=\d)", ",", text)):
                count = len([w for w in sentence.split() if _WORD.search(w)])
                if count > LONGEST_SENTENCE:
                    start = " ".join(sentence.split()[:5])
                    yield Finding(
                        shown, paragraph[0][0], f"a sentence of {count} words is hard to say: '{start} …'", False
                    )
        paragraph = [(number, line)] if line.strip() else []


def _typed_figures(body: str, shown: str, first_line: int) -> Iterator[Finding]:
    """Numbers in prose that the page's own calculators give: they could drift from the code."""
    uses = scan(body, shown, first_line)
    known: dict[str, str] = {}
    for use in uses.blocks:
        if use.name != "calculator":
            continue
        try:
            answer = run(use.argument, use.options.get("inputs") or {}).answer
        except CannotCompute:
            continue
        for figure in answer.shown_figures():
            if isinstance(figure.value, (int, float)) and figure.unit and figure.text:
                known.setdefault(figure.text.replace("\u202f", ""), f"{use.argument} … -> {figure.key}")
    history = False
    for number, line in plain_lines(body, first_line):
        if line.startswith("## "):
            history = line[3:].strip() in ("History", "Sources")
        if history or line.startswith(("    ", "///")):
            continue
        plain = re.sub(r"`[^`]*`", "", FOUND.sub("", line))
        for text, source in known.items():
            if re.search(rf"(?<![\d.,]){re.escape(text)}(?!\w)", plain):
                yield Finding(
                    shown, number, f"'{text}' is typed by hand; write {{= {source} =}} with its inputs", False
                )


def names_to_avoid(path: Path) -> list[str]:
    """The presenter's own list of real names, one a line; lines starting with # are remarks."""
    if not path.is_file():
        return []
    lines = (line.strip() for line in path.read_text("utf-8").split("\n"))
    return [line for line in lines if line and not line.startswith("#")]


def _names(text: str, shown: str, names: list[str]) -> Iterator[Finding]:
    for number, line in enumerate(text.split("\n"), 1):
        for name in names:
            if re.search(rf"(?<!\w){re.escape(name)}(?!\w)", line, re.I):
                yield Finding(shown, number, f"'{name}' is on the list of names to avoid ({NAMES_LIST})", True)
