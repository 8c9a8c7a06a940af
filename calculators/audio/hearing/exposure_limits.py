"""How long one may listen: the limits for work and for leisure, and a time in words. Knows no page."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.functions import log10, power
from calculators.desk.numbers import number

_EXCHANGE_DB = 3.0  # NIOSH 98-126: 3 dB more halves the time; H.870 counts equal energy, which is 3.01 dB


@dataclass(frozen=True, slots=True)
class Criterion:
    """A level and the hours that go with it; 3 dB more halves the hours."""

    level_dba: float
    hours: float


WORK_DAY = Criterion(85, 8)  # NIOSH 98-126, recommended exposure limit, a day
ADULT_WEEK = Criterion(80, 40)  # ITU-T H.870, mode 1, a week
CHILD_WEEK = Criterion(75, 40)  # ITU-T H.870, mode 2, a week

# From here no time is said: the last level of 29 CFR 1910.95, table G-16, and the ceiling of NIOSH's draft of 1996.
CEILING_DBA = 115.0
_SHORTEST_SAID_H = 1 / 60  # nobody can keep to seconds, and a decibel's error doubles them; common practice


def allowed_hours(level_dba: float, criterion: Criterion) -> float:
    """
    Hours until a limit is used up, at a steady average level.

    Not capped at a day or a week: below the limit's own level the formula gives more hours than there are.

    Args:
        level_dba: Average level, A-weighted. [dBA], 0 to 150.
        criterion: The limit. [object]

    Returns:
        The hours. [h], a day or a week, as the limit is meant.

    Source:
        NIOSH 98-126, section 1.1.1: T = 480 min / 2^((L - 85) / 3); ITU-T H.870 by the same halving.

    Example:
        >>> print(f"{allowed_hours(100, WORK_DAY) * 60:.1f} min")
        15.0 min
    """
    return criterion.hours * power(2, (criterion.level_dba - level_dba) / _EXCHANGE_DB)


def dose_percent(hours: float, allowed: float) -> float:
    """
    How much of an allowance some hours use.

    Args:
        hours: Time spent. [h], 0 or more.
        allowed: Time allowed. [h], above 0.

    Returns:
        The dose; 100 uses the allowance up. [%]

    Raises:
        ZeroDivisionError: Nothing is allowed.

    Source:
        NIOSH 98-126, section 1.1.3: D = 100 C / T.

    Example:
        >>> dose_percent(2, 8)
        25.0
    """
    return 100 * hours / allowed


def too_loud(level_dba: float) -> bool:
    """
    Whether a level is too loud for any length of time; decided on whole millionths of a decibel.

    Args:
        level_dba: Average level, A-weighted. [dBA]

    Returns:
        True from 115 dBA on. [yes or no]

    Source:
        29 CFR 1910.95, table G-16, whose last level is 115 dBA; NIOSH, revised criteria, draft of 1996, which calls
        115 dBA the ceiling limit.

    Example:
        >>> too_loud(114.9), too_loud(115)
        (False, True)
    """
    return round(level_dba, 6) >= CEILING_DBA


def is_long_enough_to_tell(hours: float) -> bool:
    """
    Whether an allowance is long enough to be told to people: an allowance under a minute invites to use it.

    Args:
        hours: The time. [h]

    Returns:
        True from a minute on. [yes or no]

    Source:
        Common practice, no source.

    Example:
        >>> is_long_enough_to_tell(0.01), is_long_enough_to_tell(0.02)
        (False, True)
    """
    return round(hours, 9) >= round(_SHORTEST_SAID_H, 9)


def level_for(hours: float, criterion: Criterion) -> float:
    """
    Highest average level for so many hours.

    Args:
        hours: Time in the period that the limit is for. [h], above 0.
        criterion: The limit. [object]

    Returns:
        The level. [dBA]

    Raises:
        ValueError: The hours are 0 or less.

    Source:
        allowed_hours, solved for the level.

    Example:
        >>> print(f"{level_for(1, WORK_DAY):.1f}")
        94.0
    """
    return criterion.level_dba + _EXCHANGE_DB * log10(criterion.hours / hours) / log10(2)


def duration(hours: float) -> str:
    """
    A time in words that can be read out.

    Args:
        hours: The time. [h], 0 or more.

    Returns:
        Such as "2 h 31 min". [text]

    Source:
        Common practice, no source.

    Example:
        >>> duration(40), duration(2.5198), duration(0.25), duration(0.315), duration(0.002)
        ('40 h', '2 h 31 min', '15 min', '18 min 54 s', '7 s')
    """
    seconds = hours * 3600
    if seconds == 0:
        return "no time"
    if seconds < 0.95:
        return "less than a second"
    if seconds < 59.5:
        return f"{number(seconds, 0)} s"
    if seconds < 3599.5:
        minutes, rest = divmod(int(seconds + 0.5), 60)
        return f"{minutes} min" + (f" {rest} s" if rest else "")
    if hours < 99.9:
        whole, rest = divmod(int(hours * 60 + 0.5), 60)
        return f"{whole} h" + (f" {rest} min" if rest else "")
    return f"{number(hours, 0)} h"


def roughly(hours: float) -> str:
    """
    A time in words, as exact as the levels behind it deserve: whole minutes, rounded down where they are few.

    Args:
        hours: The time. [h], 0 or more.

    Returns:
        Such as "1 h". [text]

    Source:
        Common practice, no source: a tenth of a decibel is already two per cent of the time, and what is rounded up
        is more than the limit allows.

    Example:
        >>> roughly(0.9921), roughly(0.315), roughly(0.124), roughly(2.5198), roughly(0.002)
        ('1 h', '19 min', '7 min', '2 h 31 min', '7 s')
    """
    if not is_long_enough_to_tell(hours):
        return duration(hours)
    minutes = int(round(hours * 60, 6)) if hours < 1 / 6 else int(hours * 60 + 0.5)
    return duration(minutes / 60)
