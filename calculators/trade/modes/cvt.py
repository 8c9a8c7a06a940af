"""
VESA's Coordinated Video Timings 1.2 for progressive modes without margins, in whole-number arithmetic.

The standard's spreadsheet rounds down in six places; each is done here on exact ratios, in the standard's own
order, so that no tolerance is needed and every platform rounds alike.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.trade.ratio import Ratio

_MICRO = 1_000_000  # time is counted in µs

# VESA CVT 1.2, table of constants, from memory
_CELL = 8  # characters of 8 pixels; the second reduced blanking counts single pixels
_FRONT_PORCH_LINES = 3
_LEAST_BACK_PORCH_LINES = 7
_LEAST_SYNC_AND_BACK_PORCH_US = 550
_C_PRIME, _M_PRIME = 30, 300  # duty cycle of the blanking, in % and % per ms
_LEAST_DUTY = 20
_CLOCK_STEP_KHZ = 250
_REDUCED_BLANK_US = 460
_REDUCED_H_BLANK = 160
_SECOND_H_BLANK = 80
_SECOND_FRONT_PORCH_LINES = 1
_SECOND_SYNC_LINES = 8
_SECOND_LEAST_BACK_PORCH_LINES = 6
_SECOND_CLOCK_STEP_KHZ = 1

BLANKINGS = ("cvt", "cvt-rb", "cvt-rb2")


@dataclass(frozen=True, slots=True)
class CvtTiming:
    """Totals and clock by CVT. width: as the blanking was computed for, a multiple of 8 except for cvt-rb2."""

    width: int
    height: int
    h_total: int
    v_total: int
    clock_khz: int


def sync_lines(width: int, height: int) -> int:
    """
    Length of the vertical sync, by which CVT marks the picture's aspect.

    Args:
        width: Active pixels a line, a multiple of 8. [px]
        height: Active lines. [px]

    Returns:
        4 for 4:3, 5 for 16:9, 6 for 16:10, 7 for 5:4 and 15:9, 10 for all others. [lines]

    Source:
        VESA CVT 1.2, table of vertical sync widths, from memory.

    Example:
        >>> sync_lines(1024, 768), sync_lines(1920, 1080), sync_lines(1920, 1200), sync_lines(3440, 1440)
        (4, 5, 6, 10)
    """
    for across, down, lines in ((4, 3, 4), (16, 9, 5), (16, 10, 6), (5, 4, 7), (15, 9, 7)):
        if width == height * across // down // _CELL * _CELL:
            return lines
    return 10


def cvt(width: int, height: int, refresh: Ratio, blanking: str) -> CvtTiming:
    """
    Totals and pixel clock of one mode.

    Args:
        width: Active pixels a line; rounded down to a multiple of 8 except for cvt-rb2. [px], 8 to 100000.
        height: Active lines. [px], 1 to 100000.
        refresh: Frames a second, exact: 60000/1001 for 59.94. [Hz], up to 1000.
        blanking: cvt (for tubes), cvt-rb (first reduced) or cvt-rb2 (second reduced). [text]

    Returns:
        The timing. [px, lines, kHz]

    Raises:
        ValueError: The blanking's name is not one of the three.

    Source:
        VESA CVT 1.2, computation of timing parameters and its spreadsheet, steps 1 to 17, from memory;
        held against two independent programs in tests/references/display.

    Example:
        >>> cvt(3840, 2160, Ratio(60_000_000, 1_000_000), "cvt-rb")
        CvtTiming(width=3840, height=2160, h_total=4000, v_total=2222, clock_khz=533250)
    """
    if blanking == "cvt":
        return _for_tubes(width // _CELL * _CELL, height, refresh)
    if blanking == "cvt-rb":
        rounded = width // _CELL * _CELL
        least = _FRONT_PORCH_LINES + sync_lines(rounded, height) + _LEAST_BACK_PORCH_LINES
        return _reduced(rounded, height, refresh, _REDUCED_H_BLANK, least, _CLOCK_STEP_KHZ)
    if blanking == "cvt-rb2":
        least = _SECOND_FRONT_PORCH_LINES + _SECOND_SYNC_LINES + _SECOND_LEAST_BACK_PORCH_LINES
        return _reduced(width, height, refresh, _SECOND_H_BLANK, least, _SECOND_CLOCK_STEP_KHZ)
    raise ValueError(f"blanking must be one of {', '.join(BLANKINGS)}, got {blanking}")


def _for_tubes(width: int, height: int, refresh: Ratio) -> CvtTiming:
    """The full blanking, CVT 1.2 steps 8 to 15."""
    # step 8: estimated line time = (frame time - 550 µs) / (lines + front porch)
    frame_left = _MICRO * refresh.under - _LEAST_SYNC_AND_BACK_PORCH_US * refresh.over
    line_us = Ratio(frame_left, refresh.over * (height + _FRONT_PORCH_LINES))
    # step 9: lines of sync and back porch
    sync_and_back = _LEAST_SYNC_AND_BACK_PORCH_US * line_us.under // line_us.over + 1
    sync_and_back = max(sync_and_back, sync_lines(width, height) + _LEAST_BACK_PORCH_LINES)
    v_total = height + sync_and_back + _FRONT_PORCH_LINES  # step 11
    # step 12: ideal duty cycle in %, C' - M' × line time in ms
    duty = Ratio(1000 * _C_PRIME * line_us.under - _M_PRIME * line_us.over, 1000 * line_us.under)
    if duty.over < _LEAST_DUTY * duty.under:
        duty = Ratio(_LEAST_DUTY)
    # step 13: blanking in pairs of characters
    pair = 2 * _CELL
    h_blank = width * duty.over // ((100 * duty.under - duty.over) * pair) * pair
    h_total = width + h_blank
    # step 15: clock, rounded down to its step; pixels a µs are MHz
    steps = h_total * line_us.under * 1000 // (line_us.over * _CLOCK_STEP_KHZ)
    return CvtTiming(width, height, h_total, v_total, steps * _CLOCK_STEP_KHZ)


def _reduced(width: int, height: int, refresh: Ratio, h_blank: int, least_lines: int, step_khz: int) -> CvtTiming:
    """Either reduced blanking, CVT 1.2 steps 8 to 13 of the second column."""
    # step 8: estimated line time = (frame time - 460 µs) / lines
    line_us = Ratio(_MICRO * refresh.under - _REDUCED_BLANK_US * refresh.over, refresh.over * height)
    # steps 9 and 10: lines of blanking, at least both porches and the sync
    blank_lines = max(_REDUCED_BLANK_US * line_us.under // line_us.over + 1, least_lines)
    v_total = height + blank_lines
    h_total = width + h_blank
    # step 13: clock, rounded down to its step
    steps = refresh.over * v_total * h_total // (refresh.under * 1000 * step_khz)
    return CvtTiming(width, height, h_total, v_total, steps * step_khz)
