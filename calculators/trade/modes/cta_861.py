"""
The video formats of CTA-861 with their totals and clocks: VIC 1 to 127 and 193 to 219.

A television format keeps one timing wherever it is sent, so it is looked up, not computed. The progressive
formats are what display.timing offers; the interlaced ones are named too: displays still declare them.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.trade.frame_rates import slowed_from
from calculators.trade.ratio import decimal_ratio

# (VICs that share the timing, width, height, refresh, horizontal total, vertical total). CTA-861-I, tables of
# detailed timing; the VICs of one row differ in picture aspect only. Read from edid-decode's own table, which
# tests/references/display holds against this one; the document itself was not at hand.
# The 240- and 288-line formats are listed with their shorter field (262 and 312 lines).
_PROGRESSIVE: tuple[tuple[tuple[int, ...], int, int, int, int, int], ...] = (
    ((1,), 640, 480, 60, 800, 525),
    ((2, 3), 720, 480, 60, 858, 525),
    ((4, 69), 1280, 720, 60, 1650, 750),
    ((8, 9), 1440, 240, 60, 1716, 262),
    ((12, 13), 2880, 240, 60, 3432, 262),
    ((14, 15), 1440, 480, 60, 1716, 525),
    ((16, 76), 1920, 1080, 60, 2200, 1125),
    ((17, 18), 720, 576, 50, 864, 625),
    ((19, 68), 1280, 720, 50, 1980, 750),
    ((23, 24), 1440, 288, 50, 1728, 312),
    ((27, 28), 2880, 288, 50, 3456, 312),
    ((29, 30), 1440, 576, 50, 1728, 625),
    ((31, 75), 1920, 1080, 50, 2640, 1125),
    ((32, 72), 1920, 1080, 24, 2750, 1125),
    ((33, 73), 1920, 1080, 25, 2640, 1125),
    ((34, 74), 1920, 1080, 30, 2200, 1125),
    ((35, 36), 2880, 480, 60, 3432, 525),
    ((37, 38), 2880, 576, 50, 3456, 625),
    ((41, 70), 1280, 720, 100, 1980, 750),
    ((42, 43), 720, 576, 100, 864, 625),
    ((47, 71), 1280, 720, 120, 1650, 750),
    ((48, 49), 720, 480, 120, 858, 525),
    ((52, 53), 720, 576, 200, 864, 625),
    ((56, 57), 720, 480, 240, 858, 525),
    ((60, 65), 1280, 720, 24, 3300, 750),
    ((61, 66), 1280, 720, 25, 3960, 750),
    ((62, 67), 1280, 720, 30, 3300, 750),
    ((63, 78), 1920, 1080, 120, 2200, 1125),
    ((64, 77), 1920, 1080, 100, 2640, 1125),
    ((79,), 1680, 720, 24, 3300, 750),
    ((80,), 1680, 720, 25, 3168, 750),
    ((81,), 1680, 720, 30, 2640, 750),
    ((82,), 1680, 720, 50, 2200, 750),
    ((83,), 1680, 720, 60, 2200, 750),
    ((84,), 1680, 720, 100, 2000, 825),
    ((85,), 1680, 720, 120, 2000, 825),
    ((86,), 2560, 1080, 24, 3750, 1100),
    ((87,), 2560, 1080, 25, 3200, 1125),
    ((88,), 2560, 1080, 30, 3520, 1125),
    ((89,), 2560, 1080, 50, 3300, 1125),
    ((90,), 2560, 1080, 60, 3000, 1100),
    ((91,), 2560, 1080, 100, 2970, 1250),
    ((92,), 2560, 1080, 120, 3300, 1250),
    ((93, 103), 3840, 2160, 24, 5500, 2250),
    ((94, 104), 3840, 2160, 25, 5280, 2250),
    ((95, 105), 3840, 2160, 30, 4400, 2250),
    ((96, 106), 3840, 2160, 50, 5280, 2250),
    ((97, 107), 3840, 2160, 60, 4400, 2250),
    ((98,), 4096, 2160, 24, 5500, 2250),
    ((99,), 4096, 2160, 25, 5280, 2250),
    ((100,), 4096, 2160, 30, 4400, 2250),
    ((101,), 4096, 2160, 50, 5280, 2250),
    ((102,), 4096, 2160, 60, 4400, 2250),
    ((108, 109), 1280, 720, 48, 2500, 750),
    ((110,), 1680, 720, 48, 2750, 750),
    ((111, 112), 1920, 1080, 48, 2750, 1125),
    ((113,), 2560, 1080, 48, 3750, 1100),
    ((114, 116), 3840, 2160, 48, 5500, 2250),
    ((115,), 4096, 2160, 48, 5500, 2250),
    ((117, 119), 3840, 2160, 100, 5280, 2250),
    ((118, 120), 3840, 2160, 120, 4400, 2250),
    ((121,), 5120, 2160, 24, 7500, 2200),
    ((122,), 5120, 2160, 25, 7200, 2200),
    ((123,), 5120, 2160, 30, 6000, 2200),
    ((124,), 5120, 2160, 48, 6250, 2475),
    ((125,), 5120, 2160, 50, 6600, 2250),
    ((126,), 5120, 2160, 60, 5500, 2250),
    ((127,), 5120, 2160, 100, 6600, 2250),
    ((193,), 5120, 2160, 120, 5500, 2250),
    ((194, 202), 7680, 4320, 24, 11000, 4500),
    ((195, 203), 7680, 4320, 25, 10800, 4400),
    ((196, 204), 7680, 4320, 30, 9000, 4400),
    ((197, 205), 7680, 4320, 48, 11000, 4500),
    ((198, 206), 7680, 4320, 50, 10800, 4400),
    ((199, 207), 7680, 4320, 60, 9000, 4400),
    ((200, 208), 7680, 4320, 100, 10560, 4500),
    ((201, 209), 7680, 4320, 120, 8800, 4500),
    ((210,), 10240, 4320, 24, 12500, 4950),
    ((211,), 10240, 4320, 25, 13500, 4400),
    ((212,), 10240, 4320, 30, 11000, 4500),
    ((213,), 10240, 4320, 48, 12500, 4950),
    ((214,), 10240, 4320, 50, 13500, 4400),
    ((215,), 10240, 4320, 60, 11000, 4500),
    ((216,), 10240, 4320, 100, 13200, 4500),
    ((217,), 10240, 4320, 120, 11000, 4500),
    ((218,), 4096, 2160, 100, 5280, 2250),
    ((219,), 4096, 2160, 120, 4400, 2250),
)

# (VICs, width, height, fields a second, horizontal total, lines of a whole frame). As above.
_INTERLACED: tuple[tuple[tuple[int, ...], int, int, int, int, int], ...] = (
    ((5,), 1920, 1080, 60, 2200, 1125),
    ((6, 7), 1440, 480, 60, 1716, 525),
    ((10, 11), 2880, 480, 60, 3432, 525),
    ((20,), 1920, 1080, 50, 2640, 1125),
    ((21, 22), 1440, 576, 50, 1728, 625),
    ((25, 26), 2880, 576, 50, 3456, 625),
    ((39,), 1920, 1080, 50, 2304, 1250),
    ((40,), 1920, 1080, 100, 2640, 1125),
    ((44, 45), 1440, 576, 100, 1728, 625),
    ((46,), 1920, 1080, 120, 2200, 1125),
    ((50, 51), 1440, 480, 120, 1716, 525),
    ((54, 55), 1440, 576, 200, 1728, 625),
    ((58, 59), 1440, 480, 240, 1716, 525),
)

# Clocks that are not the product of totals and refresh, because the field's length alternates. [kHz]
_ODD_CLOCKS = {(1440, 240): 27027, (2880, 240): 54054, (1440, 288): 27000, (2880, 288): 54000}

_MAY_DROP = (24, 30, 48, 60, 120, 240)  # the 25 and 50 family never does
_HALF_OF_SECOND_DECIMAL = 5001  # [millionths of Hz]: 23.976 is typed as 23.98, 59.9401 as 59.94


@dataclass(frozen=True, slots=True)
class Format:
    """
    One format of CTA-861 at its whole refresh number (the clock that is not divided by 1.001).

    refresh: frames a second, or fields where interlaced. v_total: lines of a whole frame. aspect is left out:
    formats that differ in nothing else are one timing.
    """

    vic: int
    width: int
    height: int
    refresh: int
    h_total: int
    v_total: int
    clock_khz: int
    interlaced: bool = False

    @property
    def clock_mhz(self) -> float:
        """Pixel clock. [MHz]"""
        return self.clock_khz / 1000

    def say(self) -> str:
        """Such as '1920×1080 at 60'."""
        return f"{self.width}×{self.height}{' interlaced' if self.interlaced else ''} at {self.refresh}"


def _formats() -> dict[int, Format]:
    table: dict[int, Format] = {}
    for vics, width, height, refresh, h_total, v_total in _PROGRESSIVE:
        khz = _ODD_CLOCKS.get((width, height), h_total * v_total * refresh // 1000)
        for vic in vics:
            table[vic] = Format(vic, width, height, refresh, h_total, v_total, khz)
    for vics, width, height, refresh, h_total, v_total in _INTERLACED:
        for vic in vics:
            khz = h_total * v_total * refresh // 2000
            table[vic] = Format(vic, width, height, refresh, h_total, v_total, khz, interlaced=True)
    return dict(sorted(table.items()))


FORMATS: dict[int, Format] = _formats()
"""Every format by its VIC, interlaced ones included."""


def progressive() -> list[Format]:
    """One format for each distinct progressive timing, the lowest VIC of those that share it."""
    return [FORMATS[row[0][0]] for row in _PROGRESSIVE]


def read_refresh(refresh_hz: float) -> tuple[int, bool] | None:
    """
    Whether a refresh is a whole number of CTA-861 or its ÷1.001 relative.

    Args:
        refresh_hz: As typed: 60, 59.94, 23.976, 23.98. [Hz]

    Returns:
        The whole number and whether the clock is divided by 1.001; None where it is neither. [Hz]

    Source:
        CTA-861-I, note to the format tables, from memory.

    Example:
        >>> read_refresh(60), read_refresh(59.94), read_refresh(23.97), read_refresh(59)
        ((60, False), (60, True), (24, True), (59, False))
    """
    slowed = slowed_from(refresh_hz)
    if slowed is not None:
        return slowed, True
    typed = decimal_ratio(refresh_hz)
    whole, rest = divmod(typed.over, typed.under)
    if not rest:
        return whole, False
    for nominal in _MAY_DROP:  # what a system lists or a declaration gives: 59.9401 is 60 divided by 1.001
        if abs(typed.over * 1001 - nominal * 1000 * typed.under) <= _HALF_OF_SECOND_DECIMAL * 1001:
            return nominal, True
    return None


def find_format(width: int, height: int, refresh_hz: float) -> tuple[Format, bool] | None:
    """
    The progressive format with these numbers.

    Args:
        width: Active pixels a line. [px]
        height: Active lines. [px]
        refresh_hz: A whole number, or its ÷1.001 relative such as 59.94. [Hz]

    Returns:
        The format and whether its clock is divided by 1.001; None where CTA-861 lists none. [object]

    Source:
        CTA-861-I, tables of detailed timing, by way of edid-decode.

    Example:
        >>> found = find_format(1920, 1080, 59.94)
        >>> found and (found[0].vic, found[0].h_total, found[1])
        (16, 2200, True)
    """
    rate = read_refresh(refresh_hz)
    if rate is None:
        return None
    for entry in progressive():
        if (entry.width, entry.height, entry.refresh) == (width, height, rate[0]):
            return entry, rate[1]
    return None


def nearest_formats(width: int, height: int, refresh_hz: float, count: int = 3) -> list[Format]:
    """
    The listed progressive formats most like a mode that is not listed, best first.

    Args:
        width: Active pixels a line. [px]
        height: Active lines. [px]
        refresh_hz: Refresh. [Hz]
        count: How many. [1]

    Returns:
        The formats: nearest in size first, then in refresh. [list]

    Source:
        Common practice, no source: distance in width and height first, refresh second.

    Example:
        >>> [f.say() for f in nearest_formats(1920, 1080, 144, 1)]
        ['1920×1080 at 120']
    """
    return sorted(
        progressive(),
        key=lambda f: (abs(f.width - width) + abs(f.height - height), abs(f.refresh - refresh_hz), f.vic),
    )[:count]
