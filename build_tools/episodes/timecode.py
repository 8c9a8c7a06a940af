"""Time codes: seconds of a recording as hours, minutes, seconds and frames, with numbers dropped or not."""

from __future__ import annotations

from fractions import Fraction

# What recordings have, as it is written: frames a second, exactly, and how many numbers a second holds.
RATES: dict[str, tuple[Fraction, int]] = {
    "23.976": (Fraction(24000, 1001), 24),
    "24": (Fraction(24), 24),
    "25": (Fraction(25), 25),
    "29.97": (Fraction(30000, 1001), 30),
    "30": (Fraction(30), 30),
    "50": (Fraction(50), 50),
    "59.94": (Fraction(60000, 1001), 60),
    "60": (Fraction(60), 60),
}
DROPPING = ("29.97", "59.94")


def rate_fault(rate: str, drop: bool = False) -> str:
    """What is wrong with a recording's rate; '' where nothing is."""
    if rate not in RATES:
        return f"a recording's rate is one of {', '.join(RATES)}; got '{rate}'"
    if drop and rate not in DROPPING:
        return f"numbers are dropped at {' and '.join(DROPPING)} only, not at {rate}"
    return ""


def frame(time_s: float, rate: str) -> int:
    """The frame that is shown at a time, counted from 0."""
    return int(Fraction(time_s).limit_denominator(1_000_000) * RATES[rate][0])


def timecode(number: int, rate: str, drop: bool = False) -> str:
    """
    A frame's time code.

    Args:
        number: The frame, counted from 0. [1]
        rate: One of RATES. [Hz]
        drop: Whether numbers are dropped, so that the code keeps up with the clock; 29.97 and 59.94 only.

    Returns:
        Such as "00:01:00;02": a semicolon before the frames where numbers are dropped. [text]

    Raises:
        ValueError: The rate is not known, or drops no numbers.

    Source:
        SMPTE ST 12-1: two numbers are dropped at each minute but every tenth at 29.97, four at 59.94; from memory.

    Example:
        >>> timecode(1800, "29.97", drop=True), timecode(17982, "29.97", drop=True), timecode(250, "25")
        ('00:01:00;02', '00:10:00;00', '00:00:10:00')
    """
    if fault := rate_fault(rate, drop):
        raise ValueError(fault)
    whole = RATES[rate][1]
    if drop:
        left_out = whole // 15
        minute, ten = 60 * whole - left_out, 600 * whole - 9 * left_out
        tens, rest = divmod(number, ten)
        number += 9 * left_out * tens
        if rest >= 60 * whole:  # behind the first minute of ten, which drops nothing
            number += left_out * ((rest - 60 * whole) // minute + 1)
    seconds, frames = divmod(number, whole)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{seconds:02}{';' if drop else ':'}{frames:02}"
