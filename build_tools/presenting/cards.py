"""
The cards that this run has drawn, kept by what they were drawn from: so that what is taken is what was seen.

A page names a card by its calculator and inputs, and never sends a drawing: nothing can come to the picture that was
not drawn here.
"""

from __future__ import annotations

import json
import threading
from collections import OrderedDict
from collections.abc import Mapping
from typing import Any

MOST = 40  # cards kept; each some hundred kilobytes
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

    Source:
        None.

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


class Cards:
    """The last cards drawn."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._cards: OrderedDict[str, list[dict[str, str]]] = OrderedDict()

    def keep(self, wanted: Mapping[str, Any], frames: list[dict[str, str]]) -> None:
        """Keeps the frames of the card that was drawn from this request."""
        with self._lock:
            self._cards[_key(wanted)] = frames
            self._cards.move_to_end(_key(wanted))
            while len(self._cards) > MOST:
                self._cards.popitem(last=False)

    def find(self, wanted: Mapping[str, Any]) -> list[dict[str, str]] | None:
        """The frames of the card that was drawn from this request, or None where it is not kept."""
        with self._lock:
            return self._cards.get(_key(wanted))


def _key(wanted: Mapping[str, Any]) -> str:
    return json.dumps(wanted, sort_keys=True)
