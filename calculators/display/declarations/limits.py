"""
What a display's own stated limits leave of what it lists: its highest clocks, against clock times bits and sampling.

A declaration can list a mode that its limits do not carry, or carry only with fewer bits or less colour resolution.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.trade.edid.cta_block import FIXED_RATES
from calculators.trade.edid.declaration import Declaration, ListedMode
from calculators.trade.links.fitting import fit
from calculators.trade.links.link_rates import character_clock, link
from calculators.trade.modes.modes import OWN, Mode, mode
from calculators.trade.ratio import Ratio

_KHZ = 1000
# What a display is sent best, best first; the fewer bits and the less colour, the further down. Common practice.
_FORMATS = (("rgb", 10), ("rgb", 8), ("422", 12), ("420", 10), ("420", 8))
_STEP_MHZ = 10  # the base block's highest clock is stated in steps of 10 MHz


@dataclass(frozen=True, slots=True)
class Limits:
    """
    What a display states as its most; 0 where it states none. [MHz, Gb/s]

    clock_mhz: highest pixel clock of its refresh ranges. tmds_mhz: highest HDMI character clock. fixed_rate_gb_s:
    highest fixed-rate HDMI link.
    """

    clock_mhz: float
    tmds_mhz: int
    fixed_rate_gb_s: int

    def say(self) -> str:
        """The HDMI limit in words, such as '600 MHz' or '40 Gb/s'."""
        if self.fixed_rate_gb_s:
            return f"{self.fixed_rate_gb_s} Gb/s"
        return f"{self.tmds_mhz} MHz"


def limits(edid: Declaration) -> Limits:
    """
    What a display states as its most.

    Args:
        edid: The declaration. [object]

    Returns:
        The limits. [MHz, Gb/s]

    Source:
        VESA E-EDID A.2, display range limits; HDMI 1.4b, section 8.3.2; HDMI 2.1, section 10.3.2; from memory.

    Example:
        >>> limits(Declaration(tmds_mhz=340, tmds_second_mhz=600)).tmds_mhz
        600
    """
    clock = max((one.clock_mhz for one in edid.ranges), default=0)
    return Limits(clock, max(edid.tmds_mhz, edid.tmds_second_mhz), FIXED_RATES.get(edid.fixed_rate, 0))


def clock_of(listed: ListedMode) -> Ratio | None:
    """
    A listed mode's pixel clock; where the declaration tells none, the one of the reduced blanking.

    Args:
        listed: The mode. [object]

    Returns:
        The clock; None where it has no size or refresh to compute one from. [Hz]

    Source:
        VESA CVT 1.2, first reduced blanking, by way of cvt.py.

    Example:
        >>> found = clock_of(ListedMode(2560, 1440, 60, ""))
        >>> found and found.value
        241500000.0
    """
    if listed.clock_khz:
        return Ratio(listed.clock_khz * _KHZ)
    if listed.width < 64 or listed.height < 64 or not 10 <= listed.refresh_hz <= 1000:
        return None
    return mode(listed.width, listed.height, listed.refresh_hz, "cvt-rb").clock


def carries(edid: Declaration, listed: ListedMode, sampling: str, depth: int) -> bool:
    """
    Whether a display's stated limits carry a listed mode in a format. What is not stated limits nothing.

    Args:
        edid: The declaration. [object]
        listed: The mode. [object]
        sampling: rgb, 422 or 420. [text]
        depth: Bits a channel. [bit], 8, 10 or 12.

    Returns:
        Whether the stated HDMI clock or fixed-rate link suffices. [yes/no]

    Source:
        HDMI 1.4b and 2.1, character clock and fixed-rate link, from memory; see fitting.py. The highest clock of a
        refresh range bounds only what is not listed by itself, so it takes nothing away here: VESA E-EDID A.2, from
        memory.

    Example:
        >>> uhd = ListedMode(3840, 2160, 60, "", 4400, 2250, 594000)
        >>> [carries(Declaration(tmds_second_mhz=600, hdmi=True), uhd, "rgb", bits) for bits in (8, 10)]
        [True, False]
    """
    clock = clock_of(listed)
    if clock is None:
        return True
    most = limits(edid)
    if not (edid.hdmi or edid.hdmi_second):
        return True
    if most.tmds_mhz and character_clock(clock, sampling, depth).fits(Ratio(most.tmds_mhz * 1_000_000)):
        return True
    if most.fixed_rate_gb_s:
        h_total, v_total = listed.h_total or listed.width, listed.v_total or listed.height
        made = Mode(listed.width, listed.height, h_total, v_total, clock, OWN)
        return fit(made, link(f"hdmi-frl-{most.fixed_rate_gb_s}"), 4, sampling, depth, False).word != "no"
    return not most.tmds_mhz


def over_displayport(edid: Declaration) -> bool:
    """Whether the declaration is a DisplayPort input's, so that HDMI's limits, if they stand in it, do not count."""
    return edid.port == "DisplayPort"


_Picture = tuple[int, int, int, bool]


def _picture(listed: ListedMode) -> _Picture:
    return listed.width, listed.height, round(listed.refresh_hz), listed.interlaced


def _with_420(edid: Declaration) -> frozenset[_Picture]:
    """What is listed with 4:2:0 anywhere: a detailed timing of the same picture does not repeat it."""
    return frozenset(_picture(one) for one in edid.modes if one.only_420 or one.also_420)


def formats(
    edid: Declaration, listed: ListedMode, with_420: frozenset[_Picture] | None = None
) -> list[tuple[str, int]]:
    """
    The formats in which a display takes a listed mode, by what it declares, best first.

    Args:
        edid: The declaration. [object]
        listed: The mode. [object]
        with_420: What is listed with 4:2:0, where it is known already. [set]

    Returns:
        Sampling and bits a channel, such as ('rgb', 8). [list]

    Source:
        CTA-861-I, 4:2:0 data blocks; HDMI 1.4b, deep colour; from memory. The order: common practice, no source.

    Example:
        >>> uhd = ListedMode(3840, 2160, 60, "", 4400, 2250, 594000)
        >>> formats(Declaration(tmds_second_mhz=600, hdmi=True, base_depth=10, ycbcr_422=True), uhd)
        [('rgb', 8), ('422', 12)]
    """
    depth = edid.depth or 8
    in_420 = _picture(listed) in (_with_420(edid) if with_420 is None else with_420)
    carried = []
    for sampling, bits in _FORMATS:
        if sampling == "420":
            there = in_420 and bits <= max(edid.deep_420_depth, 8)
        elif sampling == "422":
            there = edid.ycbcr_422 and not listed.only_420 and depth > 8
        else:
            there = bits <= max(depth, 8) and not listed.only_420
        if there and carries(edid, listed, sampling, bits):
            carried.append((sampling, bits))
    return carried


def beyond(edid: Declaration) -> list[ListedMode]:
    """
    The listed modes that the display's own limits carry in no format.

    Args:
        edid: The declaration. [object]

    Returns:
        The modes, largest and fastest first. [list]

    Source:
        As carries.

    Example:
        >>> uhd = ListedMode(3840, 2160, 60, "", 4400, 2250, 594000)
        >>> [m.refresh_hz for m in beyond(Declaration(tmds_mhz=300, hdmi=True, modes=[uhd]))]
        [60]
    """
    tried: dict[tuple[object, ...], ListedMode] = {}
    for one in edid.modes:  # a declaration may list one format hundreds of times
        tried.setdefault(
            (one.width, one.height, one.refresh_hz, one.clock_khz, one.only_420, one.also_420, one.interlaced), one
        )
    with_420 = _with_420(edid)
    over = [one for one in tried.values() if not formats(edid, one, with_420)]
    return sorted(over, key=lambda m: (-m.width * m.height, -m.refresh_hz))


def above_range(edid: Declaration, listed: ListedMode) -> bool:
    """Whether a mode's own clock is above the highest that the display states with its refresh ranges."""
    most = limits(edid).clock_mhz
    return bool(most) and listed.clock_khz / 1000 >= most + _STEP_MHZ
