"""A result of which only the least and the most are known: one figure where both are the same, else two."""

from __future__ import annotations

from calculators.desk.answer import Figure, figure
from calculators.desk.inputs import Span
from calculators.desk.numbers import settled, span
from calculators.trade.ratio import Ratio


def spread(
    key: str, label: str, low: Ratio, high: Ratio, unit: str, places: int = 2, main: bool = False
) -> tuple[Figure, ...]:  # fmt: skip
    """
    A result's figure; where it is a range, `<key>_low` and `<key>_high` instead, and no figure under the key itself.

    Args:
        key: Its name in JSON. [text]
        label: Its name for readers. [text]
        low: The least. [unit]
        high: The most. [unit]
        unit: The unit. [text]
        places: Most digits after the point. [1]
        main: Shown large.

    Returns:
        One figure or two. [tuple]

    Source:
        None: wording.

    Example:
        >>> [f.key for f in spread("blur_px", "Blur", Ratio(5), Ratio(9), "px")]
        ['blur_px_low', 'blur_px_high']
    """
    if settled(low.value) == settled(high.value):
        return (figure(key, label, low.value, unit, places, main),)
    return (
        figure(f"{key}_low", f"{label}, low end", low.value, unit, places, main),
        figure(f"{key}_high", f"{label}, high end", high.value, unit, places, main),
    )


def say_spread(low: Ratio, high: Ratio, unit: str, places: int = 2) -> str:
    """A result in words: '10 px', or '7 to 33 px' where it is a range."""
    return span(low.value, high.value, unit, places)


def ends(value: Span) -> tuple[float, ...]:
    """The one number that was given, or both ends of the range that an everyday choice stands for."""
    return (value.low,) if value.low == value.high else (value.low, value.high)
