"""
Checks what a page asks to have drawn: it names a card by calculator and inputs, and can send no drawing of its own.

So nothing can come to the picture that was not drawn here.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

LONGEST_TEXT = 2_000  # characters of a question, an address or a name
TEXTS = ("calculator", "question", "address", "shape", "background")


def request_of(body: Mapping[str, Any]) -> dict[str, Any]:
    """
    What a card is drawn from, and nothing else that a page may have sent.

    Args:
        body: As sent. [mapping]

    Returns:
        calculator, inputs, question, address, shape and background, as texts. [mapping]

    Raises:
        ValueError: A drawing was sent, or something is no text, or a text is too long.

    Example:
        >>> request_of({"calculator": "memory.rate", "inputs": {"rate": 3600}, "frame": 1})["inputs"]
        {'rate': '3600'}
    """
    if "svg" in body or "frames" in body or "html" in body:
        raise ValueError("The picture is drawn here: send calculator and inputs, not a drawing.")
    inputs = body.get("inputs") or {}
    if not isinstance(inputs, dict):
        raise ValueError("The inputs are no list of keys and values.")
    wanted: dict[str, Any] = {"inputs": {str(key): _text(value, None) for key, value in sorted(inputs.items())}}
    for name in TEXTS:
        wanted[name] = _text(body.get(name) or "", LONGEST_TEXT)
    return wanted


def _text(value: object, longest: int | None) -> str:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise ValueError("What was sent for the card is no text.")
    text = str(value)
    if longest is not None and len(text) > longest:
        raise ValueError(f"A text on a card has at most {longest} characters, got {len(text)}.")
    if any("\ud800" <= sign <= "\udfff" for sign in text):
        raise ValueError("What was sent for the card is no text.")
    return text
