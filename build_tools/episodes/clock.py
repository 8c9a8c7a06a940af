"""Times of a recording: read and worded as minutes and seconds."""

from __future__ import annotations

import re

_TIME = re.compile(r"(?:(\d{1,2}):)?(\d{1,2}):(\d{2})")


def seconds(time: object) -> int:
    """
    Seconds since the start.

    Args:
        time: Such as "4:05" or "1:02:03". YAML reads an unquoted 4:05 as a number in base 60, which is taken as well.

    Returns:
        The time. [s]

    Raises:
        ValueError: It is not a time.

    Source:
        ISO 8601 in its everyday form; YAML 1.1 sexagesimal integers.

    Example:
        >>> seconds("4:05"), seconds("1:02:03"), seconds(245)
        (245, 3723, 245)
    """
    if isinstance(time, int) and not isinstance(time, bool) and 0 <= time < 360_000:
        return time
    match = _TIME.fullmatch(str(time).strip())
    if match is None or int(match[3]) > 59 or (match[1] and int(match[2]) > 59):
        raise ValueError(f"a time is written 4:05 or 1:02:03, got '{str(time)[:20]}'")
    return int(match[1] or 0) * 3600 + int(match[2]) * 60 + int(match[3])


def worded(time_s: int) -> str:
    """A time as it stands in a description: 4:05, or 1:02:03 from an hour on."""
    hours, rest = divmod(time_s, 3600)
    minutes, left = divmod(rest, 60)
    return f"{hours}:{minutes:02}:{left:02}" if hours else f"{minutes}:{left:02}"
