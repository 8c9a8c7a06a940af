"""Which calculators there are. A subject's `__init__` lists its own; nothing is imported before it is asked for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from calculators.desk.answer import Answer
from calculators.desk.calculator import Calculator
from calculators.desk.card_declared import Card, usual
from calculators.desk.errors import UnknownCalculator, nearest_names
from calculators.desk.inputs import Values

SHARED_ROOMS = ("asking", "desk", "trade")  # below the subjects, or above them: no subject, no calculators


@cache
def subjects() -> tuple[str, ...]:
    """The subjects, by name: every folder beside the shared rooms."""
    import calculators

    return tuple(sorted(m.name for m in iter_modules(calculators.__path__) if m.ispkg and m.name not in SHARED_ROOMS))


@cache
def names() -> tuple[str, ...]:
    """The names of all calculators, such as memory.rate, subject by subject."""
    return tuple(
        f"{subject}.{name}" for subject in subjects() for name in import_module(f"calculators.{subject}").CALCULATORS
    )


def find(name: str) -> Calculator:
    """
    The calculator of this name.

    Args:
        name: Such as "memory.rate". [text]

    Returns:
        The calculator. [object]

    Raises:
        UnknownCalculator: There is none of this name.

    Source:
        None: a look-up.

    Example:
        >>> find("memory.rate").name
        'memory.rate'
    """
    known = names()
    if name not in known:
        raise UnknownCalculator(name[:80], nearest_names(name, known))
    return _with_card(name)


@cache
def _with_card(name: str) -> Calculator:
    calculator: Calculator = import_module(f"calculators.{name}").calculator
    subject, _, own = name.partition(".")
    if calculator.card:
        return calculator
    return replace(calculator, card=_declared(f"calculators.{subject}.screen_cards", own))


def _declared(module: str, own: str) -> Callable[[Values, Answer], Card]:
    """What a subject's screen_cards.py says of one calculator, loaded with the first card that is drawn."""

    def card(given: Values, answer: Answer) -> Card:
        try:
            declared = import_module(module)
        except ModuleNotFoundError as problem:
            if problem.name != module:
                raise
            return usual(answer)
        own_card = getattr(declared, own, None)
        made: Card = own_card(given, answer) if own_card else usual(answer)
        return made if made.topic else replace(made, topic=getattr(declared, "TOPICS", {}).get(own, ""))

    return card
