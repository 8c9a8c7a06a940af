"""An answer as JSON, for machines: the same facts as in the page, never NaN, never anything private."""

from __future__ import annotations

from typing import Any
from zlib import crc32

from calculators.desk.calculator import Result


def as_json(result: Result) -> dict[str, Any]:
    """
    The answer as plain lists, texts and numbers, ready for json.dumps.

    Args:
        result: A run. [object]

    Returns:
        The object that DESIGN section 4 lays down. [mapping]

    Source:
        RFC 8259.

    Example:
        >>> from calculators.catalogue import find
        >>> as_json(find("memory.rate").run({}))["calculator"]
        'memory.rate'
    """
    answer = result.answer
    whole: dict[str, Any] = {
        "calculator": result.calculator.name,
        "version": result.calculator.version,
        "inputs": result.values.echo(),
        "assumed": list(result.values.assumed),
        "worked_for": result.worked_for(),
        "headline": answer.headline,
        "verdict": {"word": answer.verdict.word, "reason": answer.verdict.reason} if answer.verdict else None,
        "figures": {
            f.key: {"label": f.label, "value": f.value, "unit": f.unit, "text": f.text} for f in answer.figures
        },
        "working": [
            {"what": w.what, "formula": w.formula, "numbers": w.numbers, "result": w.result} for w in answer.working
        ],
        "tables": [
            {
                "title": t.title,
                "columns": [c.label for c in t.columns],
                "rows": [list(row) for row in t.rows],
                "note": t.note,
            }
            for t in answer.tables
        ],
        "steps": [
            {
                "key": s.key,
                "group": s.group,
                "title": s.title,
                "do": list(s.do),
                "commands": list(s.commands),
                "why": s.why,
                "see": s.see,
                "otherwise": s.otherwise,
                "back": s.back,
                "caution": s.caution,
                "tags": list(s.tags),
                "minutes": list(s.minutes) if s.minutes else None,
            }
            for s in answer.steps
        ],
        "notes": [{"title": n.title, "text": n.text} for n in answer.notes],
        "drawings": [d.svg(f"drawing-{i + 1}") for i, d in enumerate(answer.drawings)],
        "cautions": [{"risk": c.risk, "text": c.text, "defer": c.defer} for c in answer.cautions],
        "sources": [{"title": s.title, "clause": s.clause, "standing": s.standing} for s in answer.sources],
    }
    if answer.files:
        from base64 import b64encode

        whole["files"] = [
            {"name": f.name, "media": f.media, "base64": b64encode(f.data).decode("ascii")} for f in answer.files
        ]
    return whole


def dumps(value: object) -> str:
    """JSON text in one line; refuses NaN and infinities, which JSON cannot hold."""
    import json

    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def digest(result: Result) -> str:
    """
    Eight hexadecimal digits that change when what an answer says changes: verdict, headline or a figure that is shown.

    A mark for links, not a seal: it tells a reader that today's answer differs from the one linked.
    """
    answer = result.answer
    shown = [
        answer.headline,
        [answer.verdict.word, answer.verdict.reason] if answer.verdict else None,
        [[f.key, f.text] for f in answer.shown_figures()],
    ]
    return f"{crc32(dumps(shown).encode('utf-8', 'replace')):08x}"
