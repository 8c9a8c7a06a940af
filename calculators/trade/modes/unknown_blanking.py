"""
How fast a mode may be sent where nobody has told its blanking: from what displays on sale declare, not from a formula.

Displays of 100 Hz and more mostly have timings of their own. They lie between little more than the visible picture
and the totals of CTA-861, and few of them are either of the two reduced blankings.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import COMMON_PRACTICE, Source
from calculators.trade.frame_rates import exact_rate
from calculators.trade.modes.cta_861 import find_format
from calculators.trade.modes.modes import Mode, mode
from calculators.trade.ratio import Ratio

SOURCE = Source(
    "Timings that displays of 100 Hz and more declare: from the visible picture plus 2 % to CTA-861's totals",
    "",
    COMMON_PRACTICE,
)

FAST_FROM = Ratio(100)  # Hz
LEAST_BLANKING = (102, 100)  # the visible picture and 2 %


@dataclass(frozen=True, slots=True)
class ClockRange:
    """The least and the most pixel clock with which a mode may be sent. [Hz]"""

    least: Ratio
    most: Ratio


def clock_range(width: int, height: int, refresh_hz: float, usual: Mode) -> ClockRange | None:
    """
    Between which pixel clocks a display's own timing of a fast mode lies.

    Args:
        width: Active pixels a line. [px]
        height: Active lines. [px]
        refresh_hz: Frames a second, as typed. [Hz]
        usual: The mode with its usual blanking. [object]

    Returns:
        The range: 1.02 × visible pixels a second, to the larger of the usual clock and CTA-861's where that lists the
        mode; None below 100 Hz, where the usual blanking is what displays use. [Hz]

    Source:
        Common practice, no source: declarations of displays; tests/check_values/declared_fast_timings.toml.

    Example:
        >>> found = clock_range(2560, 1440, 144, mode(2560, 1440, 144, "cvt-rb"))
        >>> found and (round(found.least.value / 1e6, 2), found.most.value / 1e6)
        (541.46, 604.25)
    """
    refresh = exact_rate(refresh_hz)
    if not FAST_FROM.fits(refresh):
        return None
    least = refresh.times(width * height).times(*LEAST_BLANKING)
    most = usual.clock
    if find_format(width, height, refresh_hz):
        listed = mode(width, height, refresh_hz, "cta").clock
        most = listed if most.fits(listed) else most
    return ClockRange(least, most)
