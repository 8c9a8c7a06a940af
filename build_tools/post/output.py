"""The sorted post in words: for the terminal, and as data for the page. Knows no files."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from build_tools.post.sorting import Answered
from calculators.desk.numbers import plural


def as_text(post: Sequence[Answered]) -> str:
    """The whole post as text, a paragraph a question; what nothing answers stands last, by theme."""
    blocks = ["\n".join(_lines(number, one)) for number, one in enumerate(post, 1)]
    unanswered = [one for one in post if not one.page and not one.dangers]
    if unanswered:
        themes: dict[str, int] = {}
        for one in unanswered:
            themes[one.theme] = themes.get(one.theme, 0) + one.asked
        rows = [f"  {theme}: {count}" for theme, count in sorted(themes.items(), key=lambda row: (-row[1], row[0]))]
        blocks.append("\n".join(["Answers to write next, by how many ask:", *rows]))
    return "\n\n".join(blocks) + "\n"


def _lines(number: int, one: Answered) -> Iterator[str]:
    who = f" ({one.comment.named})" if one.comment.named else ""
    times = f"  {plural(one.asked, 'comment')}" if one.asked > 1 else ""
    yield f"{number}. {' '.join(one.comment.text.split())}{who}{times}"
    for sentence in one.dangers:
        yield f"   DANGER: {sentence}"
    if not one.page:
        yield f"   Nothing here answers it: {one.theme}"
        return
    yield f"   {one.title}  [{one.page}, {one.seconds} s]"
    if one.shown:
        yield f"   Read: {'; '.join(one.shown)}"
    if one.headline:
        yield f"   {one.headline}"
    if one.missing:
        yield f"   Missing: {'; '.join(one.missing)}"
    for before in one.before:
        at = f" at {before.time}" if before.time else ""
        same = ", the same numbers" if before.same_inputs else ""
        yield f"   Asked before: episode {before.episode}{at}{same}"
    yield "   Reply:"
    for line in one.reply.split("\n"):
        yield f"     {line}"


def as_data(post: Sequence[Answered]) -> list[dict[str, Any]]:
    """The same for the page. Handles stand in it only where their owners agreed."""
    return [
        {
            "number": one.comment.number,
            "text": one.comment.text,
            "handle": one.comment.named,
            "asked": one.asked,
            "others": [other.text for other in one.others],
            "dangers": list(one.dangers),
            "page": one.page,
            "title": one.title,
            "also": [list(other) for other in one.also],
            "calculator": one.calculator,
            "shown": list(one.shown),
            "missing": list(one.missing),
            "headline": one.headline,
            "reply": one.reply,
            "before": [
                {"episode": b.episode, "title": b.title, "time": b.time, "same": b.same_inputs} for b in one.before
            ],
            "seconds": one.seconds,
            "theme": one.theme,
            "ready": one.is_ready,
        }
        for one in post
    ]
