"""A day's waits and what faster parts make of them: Amdahl's law, plain arithmetic."""

from __future__ import annotations

from collections.abc import Sequence


def day_min(waits: Sequence[float], times: Sequence[float]) -> float:
    """
    A day's waits with other parts.

    Args:
        waits: Minutes that one waits for each part alone; they do not overlap. [min]
        times: How many times as fast each part becomes. [1], above 0.

    Returns:
        The sum of each wait ÷ its part's times. [min]

    Source:
        Amdahl's law, as textbooks and lecture notes of computer architecture give it.

    Example:
        >>> day_min([60, 40], [1, 10])
        64.0
    """
    return sum((wait / faster for wait, faster in zip(waits, times, strict=True)), 0.0)


def saved_min(waits: Sequence[float], times: Sequence[float]) -> float:
    """
    What other parts save, without losing digits where it is little.

    Args:
        waits: Minutes that one waits for each part alone. [min]
        times: How many times as fast each part becomes. [1], above 0.

    Returns:
        The day now less the day then; below 0 where it becomes longer. [min]

    Source:
        Arithmetic: wait × (times − 1) ÷ times, summed.

    Example:
        >>> saved_min([60, 40], [1, 10])
        36.0
    """
    return sum((wait * (faster - 1) / faster for wait, faster in zip(waits, times, strict=True)), 0.0)


def limit(waits: Sequence[float], part: int) -> float | None:
    """
    How many times as fast the whole day would be if one part took no time at all.

    Args:
        waits: Minutes that one waits for each part alone. [min]
        part: Which of them takes no time any more. [place in the list]

    Returns:
        The day ÷ what is left of it; 1 where the part takes no time now; None where nothing is left. [1]

    Source:
        Amdahl's law with a part without end as fast.

    Example:
        >>> limit([5, 95], 1), limit([5, 95], 0), limit([0, 3], 1)
        (20.0, 1.0526315789473684, None)
    """
    if not waits[part]:
        return 1.0
    left = sum((wait for place, wait in enumerate(waits) if place != part), 0.0)
    return sum(waits) / left if left else None


def days_to_pay(price: float, saved_min_a_day: float, hour_value: float) -> float:
    """
    After how many such days a wait that is gone has paid for the part.

    Args:
        price: What it costs. [currency]
        saved_min_a_day: What it saves on such a day. [min], above 0.
        hour_value: What an hour is worth to the one who waits. [currency/h], above 0.

    Returns:
        The days. [d]

    Source:
        Arithmetic.

    Example:
        >>> days_to_pay(600, 30, 20)
        60.0
    """
    return price * 60 / (saved_min_a_day * hour_value)
