"""
What a display declares in its EDID, gathered from every block: facts, modes, and rules of the standards it breaks.

Knows what a display may declare; knows no bytes. base_block, cta_block and displayid_block read the blocks and put
what they find in here; parser finds the blocks.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from calculators.trade.modes.cta_861 import FORMATS, Format

# A declared clock counts as a format's own if it differs by no more than this from the format's clock, or from that
# clock divided by 1.001. An EDID holds clocks in steps of 10 kHz: 0.02 % of the slowest, 25.175 MHz, is half a step.
_CLOCK_TOLERANCE = Fraction(2, 10_000)
_DROPPED = Fraction(1000, 1001)  # 60 Hz to 59.94 Hz


@dataclass(frozen=True, slots=True)
class ListedMode:
    """
    One mode that a display lists.

    refresh_hz: frames a second, or fields where interlaced. h_total, v_total, clock_khz: the timing, where the
    EDID gives it, else 0; v_total counts a whole frame's lines. where: the block it stands in, in words.
    only_420: taken only with 4:2:0 sampling; also_420: with 4:2:0 too.
    """

    width: int
    height: int
    refresh_hz: float
    where: str
    h_total: int = 0
    v_total: int = 0
    clock_khz: int = 0
    interlaced: bool = False
    preferred: bool = False
    vic: int = 0
    only_420: bool = False
    also_420: bool = False


@dataclass(frozen=True, slots=True)
class RefreshRange:
    """A range of refresh rates that a display follows. [Hz]; clock_mhz: the highest pixel clock told with it, or 0."""

    low: int
    high: int
    where: str
    clock_mhz: float = 0


@dataclass(frozen=True, slots=True)
class Block:
    """One block of 128 bytes: its number from 0, its kind in words, whether it is whole, whether its sum is right."""

    number: int
    kind: str
    whole: bool
    sum_right: bool


@dataclass(slots=True)
class Declaration:
    """
    Everything found. Filled by the block readers; False, 0, None and empty mean 'not declared'.

    declares_native: whether the EDID says that the preferred mode is the panel's own. preferred_too: the mode that
    DisplayID prefers, where the base block prefers another. tmds_mhz, tmds_second_mhz: the limits
    of the first and the second HDMI block. fixed_rate: the code of the highest fixed-rate link. *_depth: bits a channel
    by the base block, the deep-colour flags, a DisplayID block. variable: how the refresh may vary, as phrases.
    tiles, tile_size: how many across and down, and the size of this one; single_tile_behaviour: what the display does
    with this tile's picture where no other input feeds it (2: spreads it over the whole). extensions_counted: how
    many extension blocks the base block announces; extensions_override: the count that replaces it, where a later
    block gives one. broken: rules of the standards that the EDID breaks, as sentences. unread: parts that were found
    and not read.
    """

    version: str = ""
    name: str = ""
    digital: bool | None = None
    port: str = ""
    declares_native: bool | None = None
    native_size: tuple[int, int] | None = None
    preferred: ListedMode | None = None
    preferred_too: ListedMode | None = None
    modes: list[ListedMode] = field(default_factory=list)
    ranges: list[RefreshRange] = field(default_factory=list)
    base_depth: int = 0
    deep_colour_depth: int = 0
    displayid_depth: int = 0
    deep_420_depth: int = 0
    ycbcr_444: bool = False
    ycbcr_422: bool = False
    ycbcr_420: bool = False
    rgb_range_selectable: bool | None = None
    ycc_range_selectable: bool | None = None
    hdmi: bool = False
    hdmi_second: bool = False
    tmds_mhz: int = 0
    tmds_second_mhz: int = 0
    fixed_rate: int = 0
    compression: bool = False
    transfers: list[str] = field(default_factory=list)
    peak_nits: float = 0
    dynamic_hdr: bool = False
    wide_colour: list[str] = field(default_factory=list)
    variable: list[str] = field(default_factory=list)
    tiles: tuple[int, int] | None = None
    tile_size: tuple[int, int] | None = None
    single_tile_behaviour: int = 0
    extensions_counted: int = 0
    extensions_override: int = 0
    blocks: list[Block] = field(default_factory=list)
    broken: list[str] = field(default_factory=list)
    unread: list[str] = field(default_factory=list)
    _seen: set[ListedMode] = field(default_factory=set)

    @property
    def depth(self) -> int:
        """Bits a channel: the base block's field, else the deep-colour flags, else a DisplayID block; 0 if none."""
        return self.base_depth or self.deep_colour_depth or self.displayid_depth

    @property
    def checksums_wrong(self) -> int:
        """How many whole blocks do not sum to 0 modulo 256."""
        return sum(b.whole and not b.sum_right for b in self.blocks)

    @property
    def blocks_missing(self) -> int:
        """How many blocks the declaration announces that are not there whole."""
        announced = 1 + (self.extensions_override or self.extensions_counted)
        return max(announced - sum(b.whole for b in self.blocks), 0)

    def add_range(self, low: int, high: int, where: str, clock_mhz: float = 0) -> None:
        """Add a range of refresh rates, unless the same one is there already."""
        refresh_range = RefreshRange(low, high, where, clock_mhz)
        if refresh_range not in self.ranges:
            self.ranges.append(refresh_range)

    def add_mode(self, mode: ListedMode) -> None:
        """Add a mode, unless the same one is there already, and note the first two different preferred ones."""
        if mode.preferred:
            if self.preferred is None:
                self.preferred = mode
            elif self.preferred_too is None and (mode.width, mode.height, round(mode.refresh_hz)) != (
                self.preferred.width, self.preferred.height, round(self.preferred.refresh_hz)
            ):  # fmt: skip
                self.preferred_too = mode
        if mode not in self._seen:
            self._seen.add(mode)
            self.modes.append(mode)


def television_format(mode: ListedMode) -> Format | None:
    """
    The format of CTA-861 whose timing a mode has, if any: it goes by the timing, not by the size.

    Args:
        mode: A mode; without totals and clock it is taken by its VIC alone. [object]

    Returns:
        The format, or None where the timing is a computer's. [object]

    Source:
        CTA-861-I, tables of detailed timing, from memory.

    Example:
        >>> uhd = ListedMode(3840, 2160, 60, "", 4400, 2250, 594000)
        >>> found = television_format(uhd)
        >>> found and found.vic, television_format(ListedMode(3840, 2160, 60, "", 4000, 2222, 533250))
        (97, None)
    """
    if mode.vic:
        return FORMATS.get(mode.vic)
    for entry in _BY_TOTALS.get((mode.width, mode.height, mode.interlaced, mode.h_total, mode.v_total), ()):
        ratio = Fraction(mode.clock_khz, entry.clock_khz)
        if any(abs(ratio / pace - 1) <= _CLOCK_TOLERANCE for pace in (1, _DROPPED)):
            return entry
    return None


def _by_totals() -> dict[tuple[int, int, bool, int, int], list[Format]]:
    table: dict[tuple[int, int, bool, int, int], list[Format]] = {}
    for entry in FORMATS.values():
        key = (entry.width, entry.height, entry.interlaced, entry.h_total, entry.v_total)
        table.setdefault(key, []).append(entry)
    return table


_BY_TOTALS = _by_totals()
