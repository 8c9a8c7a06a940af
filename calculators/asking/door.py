"""
The door between the page's box and the reader: JSON text in, JSON text out; it never raises.

The index comes from the page, once. What is read goes back as labels with fields, so that it can be put right before
anybody relies on it; then the result worked out for it, what is missing, and the way to the page. Knows no page.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from calculators.asking.ask import LONGEST, Suggestion, ask, missing_of
from calculators.asking.finding import Index, prepare
from calculators.asking.pasted import answers_of, fill_form, recognise, without_names
from calculators.catalogue import find
from calculators.desk.as_html import gravest, in_short
from calculators.desk.as_json import dumps
from calculators.desk.calculator import Calculator
from calculators.desk.errors import InputErrors, UnknownCalculator
from calculators.desk.inputs import Choice, Input, Number
from calculators.desk.links import fragment

FAULT = "The question could not be read. That is our mistake, not yours; the list below still works."
TOO_LONG = "That is longer than anything that is read here. Send the part that asks."
MOST = 60_000  # characters of a pasted listing; what is longer is not looked at
_prepared: dict[str, Index] = {}


def answer(order_json: str) -> str:
    """
    What a text is answered with, or one answer's inputs as the reader has put them right.

    Args:
        order_json: A JSON object: "text" or "page", "calculator" and "inputs"; and "mark" with, the first time,
            "index" of that mark. Or "form", a calculator's name, with the "text" pasted into its form. [text]

    Returns:
        JSON text: {"wants": "index"} where the index of that mark is not here; else "danger", "refused", "pasted",
        "answers" with page, calculator, read, missing, headline, verdict, caution and link; for a form "pasted",
        "refused" and "read"; or "fault". [text]

    Source:
        None: a door.

    Example:
        >>> answer('{"text": "hello", "mark": "none"}')
        '{"wants": "index"}'
    """
    try:
        return dumps(_answer(json.loads(order_json)))
    except Exception:  # the last guard: nobody meets a traceback
        return dumps({"fault": FAULT})


def _answer(order: Mapping[str, Any]) -> dict[str, Any]:
    if "form" in order:
        return _for_a_form(str(order["form"]), str(order.get("text", "")))
    mark = str(order.get("mark", ""))
    if "index" in order:
        _prepared.clear()
        _prepared[mark] = prepare(order["index"])
    index = _prepared.get(mark)
    if index is None:
        return {"wants": "index"}
    if "calculator" in order:
        page, name = str(order.get("page", "")), str(order["calculator"])
        return {"answers": [_put_right(page, find(name), order.get("inputs", {}), index)]}
    text = str(order.get("text", ""))
    if len(text) > MOST:
        return {"refused": TOO_LONG, "answers": []}
    listing = recognise(text)
    if listing is not None:
        pages = [(page.name, page.calculators) for page in index.pages]
        filled = answers_of(listing, pages)
        return {
            "pasted": listing.title,
            "answers": [_shown(one.page, find(one.calculator), one.inputs, {}, index) for one in filled],
        }
    asked = ask(without_names(text), index)
    return {
        **({"danger": [danger.sentence for danger in asked.dangers]} if asked.dangers else {}),
        **({"refused": asked.refused} if asked.refused else {}),
        "answers": [_suggested(suggestion, index) for suggestion in asked.answers],
    }


def _for_a_form(name: str, text: str) -> dict[str, Any]:
    """What was pasted into a calculator's own form: labels of what was read, for the reader to look at before use."""
    calculator = find(name)
    if len(text) > MOST:
        return {"refused": TOO_LONG, "read": []}
    title, inputs = fill_form(text, name)
    read = [{**_field(e), **_value(e, inputs[e.key])} for e in calculator.inputs if e.key in inputs and not e.private]
    return {**({"pasted": title} if title else {}), "read": read}


def _suggested(suggestion: Suggestion, index: Index) -> dict[str, Any]:
    if not suggestion.calculator:
        return {"page": suggestion.page, "sure": suggestion.sure}
    inputs = {reading.key: reading.value for reading in suggestion.inputs}
    words = {reading.key: reading.words for reading in suggestion.inputs}
    return {**_shown(suggestion.page, find(suggestion.calculator), inputs, words, index), "sure": suggestion.sure}


def _put_right(page: str, calculator: Calculator, given: Mapping[str, Any], index: Index) -> dict[str, Any]:
    inputs = {key: value for key, value in given.items() if str(value).strip()}
    return _shown(page, calculator, inputs, {}, index)


def _shown(
    page: str, calculator: Calculator, inputs: Mapping[str, Any], words: Mapping[str, str], index: Index
) -> dict[str, Any]:
    entries = {entry.key: entry for entry in calculator.inputs}
    read = [
        {**_field(entry), **_value(entry, inputs[key]), **({"words": words[key]} if key in words else {})}
        for key, entry in entries.items()
        if key in inputs
    ]
    missing = [_field(entries[key]) for key in missing_of(calculator.name, set(inputs), index)]
    shown: dict[str, Any] = {"page": page, "calculator": calculator.name, "read": read, "missing": missing}
    if not inputs:
        return shown
    try:
        result = calculator.run(inputs)
    except InputErrors as problems:
        return {**shown, "errors": [{"input": one.input, "message": one.message} for one in problems.problems]}
    except UnknownCalculator:
        return shown
    for field in missing:
        if field["key"] in result.values.assumed:
            field["assumed"] = result.values.say(field["key"])
    verdict = result.answer.verdict
    caution = gravest(result.answer.cautions)
    return {
        **shown,
        "headline": result.answer.headline,
        **({"verdict": {"word": verdict.word, "reason": verdict.reason}} if verdict else {}),
        **({"caution": in_short(caution)} if caution else {}),
        "link": fragment(result),
    }


def _value(entry: Input, value: Any) -> dict[str, Any]:
    """A value as it is typed and as it is said; of a private one neither."""
    if entry.private:
        return {"value": "", "said": "pasted", "private": True}
    try:
        known = entry.read(value)
    except ValueError:
        return {"value": str(value), "said": str(value)}
    return {"value": entry.write(known), "said": entry.say(known)}


def _field(entry: Input) -> dict[str, Any]:
    """What a small form needs to ask for one input."""
    options: Sequence[Any] = entry.options if isinstance(entry, Choice) else ()
    return {
        "key": entry.key,
        "label": entry.label,
        **({"group": entry.group} if entry.group else {}),
        **({"options": [[option.value, option.label] for option in options]} if options else {}),
        **({"unit": entry.unit} if isinstance(entry, Number) and entry.unit else {}),
        **({"private": True} if entry.private else {}),
    }


__all__ = ["FAULT", "LONGEST", "MOST", "answer"]
