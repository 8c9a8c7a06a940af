"""
A film on a display played through, refresh by refresh: knows time and frame numbers, and nothing of cadences.

Written apart from calculators/motion, which works with multiples of a half; shares no code with it.
"""

from __future__ import annotations

from fractions import Fraction


def refreshes_of_frames(content: Fraction, rate: Fraction, frames: int) -> list[int]:
    """
    How many refreshes show each of the first frames.

    At every refresh the display shows the newest frame whose time has come; the clock starts with both.
    """
    seen = [0] * frames
    tick = 0
    while True:
        now = tick / rate
        newest = int(now * content)
        if newest >= frames:
            return seen
        seen[newest] += 1
        tick += 1


def begins(content: Fraction, rate: Fraction, frames: int) -> list[Fraction | None]:
    """When each of the first frames is first shown, in seconds; None for a frame that is never shown."""
    first: list[Fraction | None] = [None] * frames
    tick = 0
    while True:
        now = tick / rate
        newest = int(now * content)
        if newest >= frames:
            return first
        if first[newest] is None:
            first[newest] = now
        tick += 1
