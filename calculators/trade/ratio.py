"""Exact ratios of whole numbers, for comparisons at the very limit, where floats may err. Quick to import."""

from __future__ import annotations

from dataclasses import dataclass
from math import gcd


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

    def ceiling(self) -> int:
        """The whole number at or above."""
        return -(-self.over // self.under)

    def by(self, other: Ratio) -> Ratio:
        """Multiplied by another ratio."""
        return Ratio(self.over * other.over, self.under * other.under)

    def per(self, other: Ratio) -> Ratio:
        """Divided by another ratio, which is above 0."""
        return Ratio(self.over * other.under, self.under * other.over)

    def plus(self, other: Ratio) -> Ratio:
        """With another ratio added."""
        return Ratio(self.over * other.under + other.over * self.under, self.under * other.under)

    def minus(self, other: Ratio) -> Ratio:
        """With another ratio taken away."""
        return Ratio(self.over * other.under - other.over * self.under, self.under * other.under)

    def size(self) -> Ratio:
        """Without its sign."""
        return Ratio(abs(self.over), self.under)

    def same(self, other: Ratio) -> bool:
        """Whether both are the same number, however they are written."""
        return self.over * other.under == other.over * self.under

    def below(self, other: Ratio) -> bool:
        """Whether it is smaller than another."""
        return self.over * other.under < other.over * self.under

    def reduced(self) -> Ratio:
        """The same number in its lowest terms."""
        common = gcd(self.over, self.under)
        return Ratio(self.over // common, self.under // common)


_MILLIONTHS = 1_000_000


def decimal_ratio(value: float) -> Ratio:
    """
    A typed number as the decimal that was typed, in millionths, not as its nearest binary fraction.

    Args:
        value: Such as 59.94. [any], 0 to a million.

    Returns:
        The ratio: 59940000 / 1000000. [as given]

    Source:
        Arithmetic: inputs are read to six decimals.

    Example:
        >>> decimal_ratio(59.94)
        Ratio(over=59940000, under=1000000)
    """
    return Ratio(round(value * _MILLIONTHS), _MILLIONTHS)


def exact_ratio(value: float) -> Ratio:
    """
    A number as the decimal that was typed where six decimals hold it, else as the binary fraction that it is.

    Args:
        value: Any finite number. [any]

    Returns:
        The ratio. [as given]

    Source:
        Arithmetic.

    Example:
        >>> exact_ratio(2.4), exact_ratio(0.1234567).value
        (Ratio(over=2400000, under=1000000), 0.1234567)
    """
    typed = decimal_ratio(value)
    return typed if typed.value == value else Ratio(*value.as_integer_ratio())


def smaller(one: Ratio, other: Ratio) -> Ratio:
    """The smaller of two ratios."""
    return other if other.below(one) else one
