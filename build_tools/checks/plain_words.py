"""
Words of ours that mean nothing to a viewer: a calculator's internal name, a program that only our tests know, and
the standing 'from memory' where a page lists its sources. Knows words only; no page's shape, no generator.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from build_tools.markdown_blocks.inline import FOUND
from build_tools.markdown_blocks.places import front_matter_lines
from build_tools.markdown_blocks.scan import plain_lines
from calculators.catalogue import names
from calculators.desk.answer import FROM_MEMORY, Answer, Source
from calculators.desk.calculator import Calculator, Result

# Programs that only tests compare with, as they are written in prose. A test holds this against tests/references.
REFERENCE_PROGRAMS = ("SciPy", "NumPy", "Pillow", "colour-science", "edid-decode")
_CALCULATOR_KEY = re.compile(r"\s*-?\s*calculator:")
# Within brackets of a sheet, where a further calculator and what it says are written down: nobody reads these names.
_OWN_NAMES = re.compile(r"(?<=[{,])\s*(?:calculator:\s*[\w.\"']+|\w+\.\w+(?:-\d+)?:(?=\s))")
_TAG = re.compile(r"<[^>]*>")
_CODE_SPAN = re.compile(r"`[^`]*`")
_FROM_MEMORY = re.compile(r"\bfrom memory\b", re.I)
_STANDING = re.compile(r"(?:^|[.,:;(] )from memory\b", re.I | re.M)  # and not 'to play from memory'
_SAY_REMEMBERED = f"write '{Source('', standing=FROM_MEMORY).say()}' instead of 'from memory'"


def faults(text: str) -> list[str]:
    """
    What a viewer cannot know in a text.

    Args:
        text: Prose that people read or hear. [text]

    Returns:
        One sentence a word found. [list of texts]

    Source:
        DESIGN rule of this project: a viewer's prose holds no internal names.

    Example:
        >>> faults("See memory.rate.")
        ["'memory.rate' is our own name for a calculator; say what it works out, or link to its page"]
    """
    messages = []
    for name in names():
        if re.search(rf"(?<![\w./-]){re.escape(name)}(?![\w-])", text):
            messages.append(f"'{name}' is our own name for a calculator; say what it works out, or link to its page")
    for program in REFERENCE_PROGRAMS:
        if re.search(rf"(?<!\w){re.escape(program)}(?!\w)", text, re.I):
            messages.append(f"'{program}' is a program that our tests compare with; name it there, not to a viewer")
    return messages


def of_page(text: str, shown: str) -> Iterator[tuple[int, str]]:
    """Every such word in a page's Markdown, its front matter included, with the line's number."""
    answers = shown.startswith("docs/answers/")
    skipped = front_matter_lines(text)
    lines = text.split("\n")
    for number, line in enumerate(lines[:skipped], 1):
        if not _CALCULATOR_KEY.match(line):
            yield from ((number, fault) for fault in faults(_OWN_NAMES.sub("", line)))
    part = ""
    for number, line in plain_lines("\n".join(lines[skipped:]), skipped + 1):
        if line.startswith("///"):
            continue
        if line.startswith("## "):
            part = line[3:].strip()
        plain = _TAG.sub(" ", FOUND.sub("", line))  # the address of a filled-in link names a calculator, unseen
        if not answers:  # elsewhere a code span shows a presenter what to type
            plain = _CODE_SPAN.sub("", plain)
        yield from ((number, fault) for fault in faults(plain))
        if part == "Sources" and _FROM_MEMORY.search(plain):
            yield number, _SAY_REMEMBERED


def of_answer(result: Result) -> list[str]:
    """Every such word in what an answer shows to people, in any of its renderings."""
    text = "\n".join([*_texts(result.answer), result.worked_for()])
    return [*faults(text), *([_SAY_REMEMBERED] if _STANDING.search(text) else [])]


def of_form(calculator: Calculator) -> list[str]:
    """Every such word in a calculator's form: title, summary, labels, help, options, common cases."""
    return faults("\n".join(_asked(calculator)))


def _texts(answer: Answer) -> Iterator[str]:
    yield answer.headline
    if answer.verdict:
        yield from (answer.verdict.said(), answer.verdict.reason)
    yield from (f"{f.label} {f.text}" for f in answer.shown_figures())
    yield from (f"{w.what} {w.formula} {w.numbers} {w.result}" for w in answer.working)
    for table in answer.tables:
        yield from (table.title, table.note, *(c.label for c in table.columns), *(" ".join(r) for r in table.rows))
    for step in answer.steps:
        yield from (step.title, step.group, step.why, step.see, step.otherwise, step.back, step.caution, *step.do)
    yield from (f"{n.title}\n{n.text}" for n in answer.notes)
    yield from (f"{d.title}\n{d.description}" for d in answer.drawings)
    yield from (f.words for f in answer.files)
    yield from (f"{c.text}\n{c.defer}" for c in answer.cautions)
    yield from (s.say() for s in answer.sources)


def _asked(calculator: Calculator) -> Iterator[str]:
    yield from (calculator.title, calculator.summary)
    for entry in calculator.inputs:
        yield from (entry.label, entry.where, entry.note, entry.group, entry.expected())
        yield from (option.label for option in getattr(entry, "options", ()))
    yield from (preset.label for preset in calculator.presets)
