"""
A text that a calculator's private input takes as it is: a display's declaration, a system's list of drivers.

Knows calculators by what they declare, and no such text's form: the input itself reads it.
"""

from __future__ import annotations

from calculators.asking.listings.listing import Listing, Shown, accepted_inputs
from calculators.catalogue import find, names
from calculators.desk.errors import InputErrors
from calculators.desk.inputs import Input, PrivateText


def read_private(text: str) -> Listing | None:
    """A text that a calculator's private input takes as it is: a display's declaration, a system's list of drivers."""
    if text.count("\n") < 1 and len(text.strip()) < 200:
        return None
    for name in names():
        calculator = find(name)
        for entry in calculator.inputs:
            if not isinstance(entry, PrivateText) or entry.optional or not _is_taken(entry, text):
                continue
            try:
                result = calculator.run({entry.key: text})
            except InputErrors:
                continue
            answers = [Shown("", name, {entry.key: text})]
            figures = {figure.key: figure.value for figure in result.answer.figures}
            wanted = {
                "width": figures.get("preferred_width"),
                "height": figures.get("preferred_height"),
                "refresh": figures.get("fastest_refresh") or figures.get("preferred_refresh"),
            }
            if all(wanted.values()):
                answers.append(Shown("display/carry-my-mode", "display.link", accepted_inputs("display.link", wanted)))
            return Listing(calculator.title, tuple(answers))
    return None


def _is_taken(entry: Input, text: str) -> bool:
    try:
        entry.read(text)
    except ValueError:
        return False
    return True
