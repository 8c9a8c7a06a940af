"""
Answers requests of the desk and the run sheet, in a process of its own, so that changed calculators are read afresh.

    python -m build_tools.presenting.answers < request.json > reply.json
"""

from __future__ import annotations

import html
import json
import re
import sys
from pathlib import Path
from typing import Any

from build_tools.cards.command import CannotDraw, draw
from build_tools.episodes import clock, programme, sheet
from build_tools.episodes.description import page_link
from build_tools.markdown_blocks.places import front_matter_lines
from build_tools.markdown_blocks.scan import scan, spoken
from calculators import catalogue
from calculators.desk.errors import UnknownCalculator
from calculators.desk.form import form

# Common practice, no source: broadcasters plan with about 150 words a minute.
WORDS_A_MINUTE = 150


def reply(project: Path, request: dict[str, Any]) -> dict[str, Any]:
    """The reply to one request: what is there, a form, a card's frames, a run sheet; or "errors" in words."""
    what = request.get("what")
    if what == "catalogue":
        return {"calculators": [{"name": n, "title": catalogue.find(n).title} for n in catalogue.names()]}
    if what == "form":
        return _form(str(request.get("calculator")))
    if what == "card":
        return _card(project, request)
    if what == "run":
        return _run_sheet(project, request.get("episode"))
    return {"errors": [{"input": "what", "message": "There is no such request."}]}


def _form(name: str) -> dict[str, Any]:
    try:
        calculator = catalogue.find(name)
    except UnknownCalculator as problem:
        return {"errors": [{"input": "calculator", "message": f"{problem}."}]}
    presets = {p.key: {k: str(v) for k, v in p.inputs.items()} for p in calculator.presets}
    return {"html": form(calculator, "desk", {}, tuple(presets)), "presets": presets, "title": calculator.title}


def _card(project: Path, request: dict[str, Any]) -> dict[str, Any]:
    inputs = {str(k): str(v) for k, v in (request.get("inputs") or {}).items()}
    try:
        made = draw(
            project,
            str(request.get("calculator")),
            inputs,
            question=str(request.get("question") or ""),
            shape=str(request.get("shape") or "wide"),
            background=str(request.get("background") or "light"),
            address=str(request.get("address") or ""),
        )
    except CannotDraw as problem:
        rows = [line.partition(": ") for line in str(problem).split("\n")]
        return {"errors": [{"input": key, "message": text or key} for key, _, text in rows]}
    return {"frames": [{"name": frame.name, "svg": frame.svg, "words": _words(frame.svg)} for frame in made]}


def _words(svg: str) -> str:
    """What a card says of itself for who cannot see it."""
    label = re.search(r'aria-label="([^"]*)"', svg)
    return html.unescape(label[1]) if label else ""


def _run_sheet(project: Path, number: object) -> dict[str, Any]:
    docs = project / "docs"
    settings = programme.read(project)
    episodes, mistakes = sheet.read_all(docs)
    if mistakes:
        return {"errors": [{"input": m.path, "message": str(m)} for m in mistakes]}
    listed = [{"number": e.number, "title": e.title, "recorded": str(e.recorded)} for e in episodes]
    episode = next((e for e in episodes if e.number == number), None)
    if episode is None:
        return {"episodes": listed}
    segments = []
    for segment in episode.segments:
        words = short_answer(docs, segment.answer) if segment.answer else []
        result = segment.result()
        segments.append(
            {
                "number": segment.number,
                "question": segment.question,
                "viewer": segment.viewer,
                "start": clock.worded(segment.start) if segment.start is not None else "",
                "short_answer": " ".join(words),
                "headline": result.answer.headline if result else "",
                "verdict": result.answer.verdict.word if result and result.answer.verdict else "",
                "referred": f"{segment.referred.to}: {segment.referred.why}" if segment.referred else "",
                "seconds": -(-len(words) * 60 // WORDS_A_MINUTE),
                "calculator": segment.calculator,
                "inputs": result.values.given() if result else {},
                "address": page_link(episode, segment, settings),
            }
        )
    return {"episodes": listed, "number": episode.number, "title": episode.title, "segments": segments}


def short_answer(docs: Path, answer: str) -> list[str]:
    """The words of an answer page's short answer, figures computed."""
    text = (docs / "answers" / f"{answer}.md").read_text("utf-8")
    uses = scan("\n".join(text.split("\n")[front_matter_lines(text) :]), answer)
    body = next((use.body for use in uses.blocks if use.name == "short-answer"), [])
    return spoken("\n".join(line for _, line in body))


if __name__ == "__main__":
    print(json.dumps(reply(Path.cwd(), json.loads(sys.stdin.read())), ensure_ascii=True))
