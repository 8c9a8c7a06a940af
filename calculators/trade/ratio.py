"""Exact ratios of whole numbers: they tell what just fits from what just does not, and load at once."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Ratio:
    """
    `over / under`, two whole numbers, under above 0. Not reduced: it is compared and printed, never shown.

    A refresh of 59.94 is 59940000 / 1000000, a clock of 594 MHz ÷ 1.001 is 594000000000 / 1001.
    """

    over: int
    under: int = 1

    @property
    def value(self) -> float:
        """As a number. [as the ratio]"""
        return self.over / self.under

    def times(self, over: int, under: int = 1) -> Ratio:
        """Multiplied by over / under."""
        return Ratio(self.over * over, self.under * under)

    def fits(self, room: Ratio) -> bool:
        """Whether it is at most `room`."""
        return self.over * room.under <= room.over * self.under

    def floor(self) -> int:
        """The whole number at or below."""
        return self.over // self.under


_MILLIONTHS = 1_000_000


def decimal_ratio(value: float) -> Ratio:
    """
    A typed number as the decimal that was typed, in millionths, not as its nearest binary fraction.

    Args:
        value: Such as 59.94. [any], 0 to a million.

    Returns:
        The ratio: 59940000 / 1000000. [as given]

    Raises:
        Nothing.

    Source:
        Arithmetic: inputs are read to six decimals.

    Example:
        >>> decimal_ratio(59.94)
        Ratio(over=59940000, under=1000000)
    """
    return Ratio(round(value * _MILLIONTHS), _MILLIONTHS)
