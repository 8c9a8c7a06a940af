"""
Questions by the line: one JSON object in, one out, in order. Needs the standard library alone and writes nothing else.

Knows the reader of questions and where the pages are; knows no environment.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any, TextIO

from build_tools.questions.index import of_docs
from calculators.asking.ask import as_data, ask
from calculators.asking.finding import Index, prepare

EXPECTED = 'a line must be a JSON object with "text", such as {"text": "is 3600 CL18 faster than 3200 CL16"}'


def answer_lines(docs: Path, lines: Iterable[str], out: TextIO) -> int:
    """
    Answer each line of questions.

    Args:
        docs: The folder of pages.
        lines: JSON objects with `text`, one a line; every line has its answer, an empty one its error.
        out: Where the answers go: {"answers": […]}, with "danger", "refused" or "errors" where there are such.

    Returns:
        The exit status: 0.

    Raises:
        OSError: A page cannot be read, or nobody reads the answers.
    """
    index = prepare(of_docs(docs))
    for line in lines:
        out.write(json.dumps(_answer(line, index), ensure_ascii=False, separators=(",", ":")) + "\n")
        out.flush()
    return 0


def _answer(line: str, index: Index) -> dict[str, Any]:
    try:
        asked = json.loads(line)
        text = asked["text"]
    except (ValueError, KeyError, TypeError, RecursionError):
        return {"errors": [EXPECTED], "answers": []}
    if not isinstance(text, str):
        return {"errors": [EXPECTED], "answers": []}
    return dict(as_data(ask(text.encode("utf-8", "replace").decode("utf-8"), index)))
