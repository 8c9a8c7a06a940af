"""Figures and words for results of which only a range is known."""

from __future__ import annotations

from calculators.desk.answer import Figure, figure
from calculators.desk.numbers import settled, span


def ranged(
    key: str, label: str, low: float, high: float, exact: bool, unit: str, places: int = 1, main: bool = False
) -> list[Figure]:
    """
    One figure where the numbers behind it were given, else its two ends under `<key>_low` and `<key>_high`.

    Args:
        key: Its name. [text]
        label: Its name for readers. [text]
        low: The least. [unit]
        high: The most. [unit]
        exact: Whether everything behind it was given as a number.
        unit: The unit. [text]
        places: Most digits after the point. [1]
        main: Shown large.

    Returns:
        One figure, or two. [list]

    Source:
        None: wording.

    Example:
        >>> [f.key for f in ranged("delay_ms", "Delay", 10, 20, False, "ms")]
        ['delay_ms_low', 'delay_ms_high']
    """
    if exact:
        return [figure(key, label, low, unit, places, main)]
    return [
        figure(f"{key}_low", f"{label}, at least", low, unit, places, main),
        figure(f"{key}_high", f"{label}, at most", high, unit, places, main),
    ]


def say_range(low: float, high: float, unit: str, places: int = 1) -> str:
    """'12 ms', or '12 to 20 ms' where the ends differ."""
    return span(settled(low), settled(high), unit, places)
