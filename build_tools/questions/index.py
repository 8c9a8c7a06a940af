"""
Makes the index for the reader of questions: the answer pages as data, read from docs/ with the standard library alone.

Knows the few keys of a page's front matter that it needs; a page whose front matter is richer stays readable.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

DECISIVE = "decisive.json"  # beside this file: which inputs decide most, as measured by measure.py
_KEY = re.compile(r"^([a-z_]+):\s*(.*)$")
_ITEM = re.compile(r'\s*"((?:[^"\\]|\\.)*)"|\s*\'((?:[^\']|\'\')*)\'|([^,\[\]]+)')
_BLOCK = re.compile(r"^/// ([a-z-]+)(?:\s*\|\s*(\S+))?\s*$")
_FIGURE = re.compile(r"\{=.*?=\}", re.S)


def of_docs(docs: Path) -> dict[str, Any]:
    """
    The index, ready for JSON.

    Args:
        docs: The folder of pages. [path]

    Returns:
        `pages`, by path: each with `page` (subject/page, no ending), `title`, `question`, `subject`, `words` (the
        author's everyday words), `asked` (whole phrases in which viewers ask), `fields`
        (of the thesaurus, the nearest first), `short` (the short answer) and
        `calculators` (names, in the order of the page). `decisive`: by calculator, its inputs, most decisive first.
        [object]

    Raises:
        OSError: A page cannot be read.

    Source:
        None: a look-up.

    Example:
        >>> of_docs(Path("no-such-folder"))["pages"]
        []
    """
    pages = [_page(path) for path in sorted((docs / "answers").glob("*/*.md")) if path.name != "index.md"]
    measured = Path(__file__).with_name(DECISIVE)
    decisive = json.loads(measured.read_text("utf-8")) if measured.is_file() else {}
    return {"pages": pages, "decisive": decisive}


def _page(path: Path) -> dict[str, Any]:
    lines = path.read_text("utf-8").split("\n")
    meta, rest = _front_matter(lines)
    short: list[str] = []
    calculators: list[str] = []
    inside = ""
    for line in rest:
        opened = _BLOCK.match(line)
        if opened:
            inside = opened[1]
            if inside == "calculator" and opened[2] and opened[2] not in calculators:
                calculators.append(opened[2])
        elif line.strip() == "///":
            inside = ""
        elif inside == "short-answer":
            short.append(line.strip())
    return {
        "page": f"{path.parent.name}/{path.stem}",
        "title": _one(meta.get("title", "")),
        "question": _one(meta.get("question", "")),
        "subject": _one(meta.get("subject", "")) or path.parent.name,
        "words": _many(meta.get("words", "")),
        "asked": _many(meta.get("asked", "")),
        "fields": _many(meta.get("fields", "")),
        "short": _FIGURE.sub("", " ".join(short)).strip(),
        "calculators": calculators,
    }


def _front_matter(lines: list[str]) -> tuple[dict[str, str], list[str]]:
    """The front matter's values as they were typed, lists over several lines joined, and the lines below it."""
    if not lines or lines[0].strip() != "---":
        return {}, lines
    fields: dict[str, str] = {}
    key = ""
    for at, line in enumerate(lines[1:], 1):
        if line.strip() == "---":
            return fields, lines[at + 1 :]
        if match := _KEY.match(line):
            key = match[1]
            fields[key] = match[2].strip()
        elif key and line.strip().startswith("- "):
            fields[key] += (", " if fields[key] else "") + line.strip()[2:]
        elif key:
            fields[key] += " " + line.strip()
    return {}, lines


def _one(typed: str) -> str:
    many = _many(typed) if typed[:1] in "\"'" else []
    return many[0] if len(many) == 1 else typed


def _many(typed: str) -> list[str]:
    """The items of an inline list, quoted or not."""
    inner = typed.strip()
    inner = inner[1:-1] if inner[:1] == "[" and inner[-1:] == "]" else inner
    items = []
    for double, single, unquoted in _ITEM.findall(inner):
        item = double.replace('\\"', '"') or single.replace("''", "'") or unquoted.strip()
        if item.strip():
            items.append(item.strip())
    return items
