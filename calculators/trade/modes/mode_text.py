"""A mode typed in one go, such as 3840x2160@60: read and written here."""

from __future__ import annotations

import re
from dataclasses import dataclass

_SHAPE = re.compile(
    r"\s*([0-9]{2,5})\s*(?:x|×|\*|by)\s*([0-9]{2,5})\s*p?\s*(?:@|at|,|/|\s)\s*([0-9]{1,4}(?:[.,][0-9]{1,6})?)\s*(?:hz|fps|p)?\s*",
    re.I,
)


@dataclass(frozen=True, slots=True)
class ModeText:
    """Width and height in pixels, refresh in Hz."""

    width: int
    height: int
    refresh: float


def read_mode(text: str) -> ModeText:
    """
    The mode in a text.

    Args:
        text: Such as "3840x2160@60" or "2560 × 1440 at 59.94 Hz". [text]

    Returns:
        The mode. [px, Hz]

    Raises:
        ValueError: The text is not a mode, or its numbers are out of range.

    Source:
        Common practice, no source.

    Example:
        >>> read_mode("2560 × 1440 at 59,94 Hz")
        ModeText(width=2560, height=1440, refresh=59.94)
    """
    match = _SHAPE.fullmatch(text)
    if match is None:
        raise ValueError
    width, height, refresh = int(match[1]), int(match[2]), float(match[3].replace(",", "."))
    if not (64 <= width <= 16384 and 64 <= height <= 16384):
        raise ValueError("width and height go from 64 to 16384")
    if not 10 <= refresh <= 1000:
        raise ValueError("the refresh goes from 10 to 1000 Hz")
    return ModeText(width, height, refresh)


def write_mode(mode: ModeText) -> str:
    """The one way of writing a mode: 3840x2160@60."""
    rate = f"{mode.refresh:.6f}".rstrip("0").rstrip(".")
    return f"{mode.width}x{mode.height}@{rate}"
