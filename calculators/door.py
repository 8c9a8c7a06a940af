"""
The door between the page and Python: a name and JSON text in, JSON text out; it never raises.

A problem that the reader can mend comes back under "errors"; one that is ours under "fault", as one plain
sentence. Whole questions go on to the reader's own door. Knows no page.
"""

from __future__ import annotations

import json
from importlib import import_module
from typing import Any

from calculators.catalogue import find
from calculators.desk.as_html import as_html
from calculators.desk.as_json import as_json, digest, dumps
from calculators.desk.as_text import as_text
from calculators.desk.card import frames
from calculators.desk.card_theme import DEFAULT, theme_from
from calculators.desk.errors import InputErrors, UnknownCalculator
from calculators.desk.links import fragment

READER = "calculators.asking.door"
FAULT = (
    "The calculator stumbled over these numbers. That is our mistake, not yours; please tell us with 'this is wrong'."
)


def answer(name: str, inputs_json: str, wanted: str = "html", prefix: str = "") -> str:
    """
    One answer for the page.

    Args:
        name: The calculator's name. [text]
        inputs_json: The inputs as a JSON object. [text]
        wanted: Which renderings, by comma: html, text, json, link; or card alone; or ask alone: then the inputs are an
            order to the reader of questions, and the name does not matter. [text]
        prefix: Starts every id in the HTML; for a card, its options as in card() below. [text]

    Returns:
        JSON text: the renderings asked for and "digest"; or "errors"; or "fault". Of a question, what
        calculators/asking/door.py says. [text]

    Source:
        None: a door.

    Example:
        >>> answer("memory.rate", '{"cas": "0"}')[:24]
        '{"errors": [{"input": "c'
    """
    if wanted == "card":
        return card(name, inputs_json, prefix or "{}")
    try:
        if wanted == "ask":  # by name, when the first question comes: who only computes does not load the reader
            return str(import_module(READER).answer(inputs_json))
        return dumps(_answer(name, json.loads(inputs_json), wanted.split(","), prefix))
    except UnknownCalculator as problem:
        return dumps({"fault": f"This page asks for a calculator that is not there: {problem}"})
    except Exception:  # the last guard: a reader never meets a traceback
        return dumps({"fault": FAULT})


def card(name: str, inputs_json: str, options_json: str = "{}") -> str:
    """
    A screen card's frames for the page.

    Args:
        name: The calculator's name. [text]
        inputs_json: The inputs as a JSON object. [text]
        options_json: A JSON object with any of question, shape, background, address, font_css, theme, before, and
            code: the rows of the address's QR code. [text]

    Returns:
        JSON text: "frames", each with name and svg; or "errors"; or "fault". [text]

    Source:
        None: a door.

    Example:
        >>> card("memory.rate", "{}")[:31]
        '{"frames": [{"name": "drawing",'
    """
    try:
        options = json.loads(options_json)
        code = options.get("code")
        made = frames(
            find(name).run(json.loads(inputs_json)),
            question=options.get("question", ""),
            shape=options.get("shape", "wide"),
            background=options.get("background", "light"),
            address=options.get("address", ""),
            qr=(lambda _: code) if code else None,
            font_css=options.get("font_css", ""),
            theme=theme_from(options["theme"]) if options.get("theme") else DEFAULT,
            before=tuple(options.get("before") or ("", "")),
        )
        return dumps({"frames": [{"name": frame.name, "svg": frame.svg} for frame in made]})
    except InputErrors as problems:
        return dumps({"errors": [{"input": p.input, "message": p.message} for p in problems.problems]})
    except UnknownCalculator as problem:
        return dumps({"fault": f"This page asks for a calculator that is not there: {problem}"})
    except Exception:  # the last guard: a reader never meets a traceback
        return dumps({"fault": FAULT})


def _answer(name: str, inputs: dict[str, Any], wanted: list[str], prefix: str) -> dict[str, Any]:
    try:
        result = find(name).run(inputs)
    except InputErrors as problems:
        return {"errors": [{"input": p.input, "message": p.message} for p in problems.problems]}
    reply: dict[str, Any] = {"digest": digest(result)}
    if "html" in wanted:
        reply["html"] = as_html(result, prefix or name.replace(".", "-"))
    if "text" in wanted:
        reply["text"] = as_text(result)
    if "json" in wanted:
        reply["json"] = as_json(result)
    if "link" in wanted:
        reply["link"] = fragment(result)
    return reply
