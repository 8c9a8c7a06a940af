"""
The index of answers: what each page answers, in the words of its question, its author and its calculators.

Read from docs/ and the calculators' declarations alone, so that it can be had without a build.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from build_tools.finding import everyday
from build_tools.markdown_blocks.pages import AnswerPage, answer_pages
from build_tools.markdown_blocks.scan import in_words, scan
from calculators.asking.finding import input_words
from calculators.catalogue import find, names


def of_docs(docs: Path) -> dict[str, Any]:
    """
    The index as data, ready for JSON.

    Args:
        docs: The folder of pages. [path]

    Returns:
        `pages`: one each, with `page` (its place in the site, without an ending), `question`, `title` where it reads
        otherwise, `subject`, `words`, `short` (the short answer, its figures put in) and `calculators` (names).
        `calculators`: by name, all words by which their inputs go. `subjects`: in the order in which they are shown.
        `stop`, `same`, `spellings`: how viewers type (build_tools/finding/everyday.py). [object]

    Raises:
        OSError: A page cannot be read.

    Source:
        None: a look-up.

    Example:
        >>> of_docs(Path("docs"))["pages"][0]["subject"]
        'memory'
    """
    pages = [_entry(docs, page) for page in answer_pages(docs)]
    used = sorted({name for entry in pages for name in entry["calculators"]})
    return {
        "subjects": list(dict.fromkeys(entry["subject"] for entry in pages)),
        "pages": pages,
        "calculators": {name: calculator_words(name) for name in used},
        "stop": list(everyday.STOP_WORDS),
        "same": [list(row) for row in everyday.SAME],
        "spellings": [list(row) for row in everyday.SPELLINGS],
    }


def calculator_words(name: str) -> str:
    """Every word by which a calculator's inputs go: its title, labels, units, options and further names, each once."""
    calculator = find(name)
    texts = [calculator.title, *(text for asked in calculator.inputs for text in input_words(asked))]
    return " ".join(dict.fromkeys(" ".join(texts).lower().split()))


def _entry(docs: Path, page: AnswerPage) -> dict[str, Any]:
    uses = scan((docs / page.path).read_text("utf-8"), page.path)
    known = set(names())
    short = next((use for use in uses.blocks if use.name == "short-answer"), None)
    title = str(page.meta.get("title") or page.question)
    return {
        "page": page.path.removesuffix(".md"),
        "question": page.question,
        **({"title": title} if title != page.question else {}),
        "subject": page.subject,
        "words": list(page.words),
        "short": in_words("\n".join(line for _, line in short.body)) if short else "",
        "calculators": list(
            dict.fromkeys(u.argument for u in uses.blocks if u.name == "calculator" and u.argument in known)
        ),
    }
