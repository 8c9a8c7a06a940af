"""What a recognised listing is: a sentence about it, and the calculators whose inputs it fills."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from calculators.catalogue import find
from calculators.desk.inputs import Text

LEAST_LINES = 3  # of a list; fewer may be a sentence


@dataclass(frozen=True, slots=True)
class Shown:
    """One answer to a listing: page (or none), calculator, its inputs."""

    page: str
    calculator: str
    inputs: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Listing:
    """
    A listing that was recognised: one sentence about it, made of numbers alone, and the answers it fills.

    forms: inputs of further calculators, which it fills only where somebody pastes it into their own form.
    """

    title: str
    answers: tuple[Shown, ...]
    forms: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)


def accepted_inputs(name: str, inputs: Mapping[str, Any]) -> dict[str, Any]:
    """The values that a calculator has inputs for and accepts; all others are left out."""
    accepted = {}
    for entry in find(name).inputs:
        value = inputs.get(entry.key)
        if value in (None, ""):
            continue
        try:
            accepted[entry.key] = entry.echo(entry.read(value if not isinstance(entry, Text) else str(value)))
        except ValueError:
            continue
    return accepted


def tidy(value: float) -> float | int:
    """
    A number as it would be typed: whole where it has no fraction.

    Args:
        value: Any number of a listing. [unit of the listing]

    Returns:
        The whole number, else one with at most three digits behind the point. [unit of the listing]

    Source:
        Arithmetic.

    Example:
        >>> tidy(16.0), tidy(59.93999)
        (16, 59.94)
    """
    return int(value) if value == int(value) else round(value, 3)
