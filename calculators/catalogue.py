"""Which calculators there are. A subject's `__init__` lists its own; nothing is imported before it is asked for."""

from __future__ import annotations

from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from calculators.desk.calculator import Calculator
from calculators.desk.errors import UnknownCalculator, nearest_names

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
    calculator: Calculator = import_module(f"calculators.{name}").calculator
    return calculator
