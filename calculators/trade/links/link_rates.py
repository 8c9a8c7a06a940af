"""
The links by the standards' own rate names: what each carries after its line coding, and what a mode asks of it.

A version number of a standard promises no rate; what a box may mean by one stands in link_input.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.trade.ratio import Ratio

DISPLAYPORT, TMDS, FIXED_RATE = "displayport", "tmds", "fixed-rate"

# Share of the raw rate left by DisplayPort's two line codings. 8b/10b: 8 of 10. 128b/132b with link control and
# error correction: 96.71 %. VESA DisplayPort 2.1, from memory.
_EIGHT_OF_TEN = (8, 10)
_LONG_CODE = (9671, 10_000)
# What error correction takes on 8b/10b links once compression is on: 2.4 %. VESA DisplayPort 1.4, from memory.
_CORRECTION_ON_8B10B = (976, 1000)
# HDMI's fixed-rate link: 16b/18b, and Reed-Solomon (255,251). HDMI 2.1, from memory.
_SIXTEEN_OF_EIGHTEEN = (16, 18)
_REED_SOLOMON = (251, 255)
# Display stream compression came with DisplayPort 1.4, whose own rate is HBR3. VESA DisplayPort 1.4, from memory.
_COMPRESSION_FROM_MBPS = 8100
_TMDS_BITS_A_CHARACTER = 24  # three data pairs, eight bits each before 8b/10b


@dataclass(frozen=True, slots=True)
class Link:
    """
    One rate of one standard.

    lane_mbps: raw rate of a lane; for TMDS the highest character clock. [Mb/s, MHz]
    lanes: fixed for HDMI, DVI and USB-C; 0 where the viewer says. cable: the certification mark of cables tested for
    this rate, or what the cable is called.
    """

    key: str
    name: str
    family: str
    lane_mbps: int
    lanes: int
    cable: str

    @property
    def dvi(self) -> bool:
        """Whether it is DVI: TMDS as HDMI's, but RGB alone and 8 bits on one link."""
        return self.key.startswith("dvi-")

    @property
    def may_compress(self) -> bool:
        """Whether both ends may offer compression: from HBR3 on, and on HDMI's fixed-rate link."""
        return self.family == FIXED_RATE or (self.family == DISPLAYPORT and self.lane_mbps >= _COMPRESSION_FROM_MBPS)

    @property
    def long_code(self) -> bool:
        """Whether it is a DisplayPort link with 128b/132b coding."""
        return self.family == DISPLAYPORT and self.lane_mbps >= 10_000

    def say(self, lanes: int) -> str:
        """As people know it, with the exact rate: 'DisplayPort 1.4 (HBR3)'; fewer than all four lanes are said."""
        name = _USUAL_NAMES.get(self.key, self.name)
        if self.family != DISPLAYPORT or self.lanes or lanes == _ALL_LANES:
            return name
        return f"{name} on {LANE_WORDS[lanes]}"


LANE_WORDS = {1: "one lane", 2: "two lanes", 4: "four lanes"}
_ALL_LANES = 4

# What a box calls the link of which this is the highest rate: VESA DisplayPort 1.1 to 1.4 and HDMI 1.2 to 2.0, from
# memory. Rates that boxes name themselves are said as such.
_USUAL_NAMES = {
    "dp-hbr": "DisplayPort 1.1 (HBR)",
    "dp-hbr2": "DisplayPort 1.2 (HBR2)",
    "dp-hbr3": "DisplayPort 1.4 (HBR3)",
    "hdmi-tmds-165": "HDMI 1.2 (165 MHz)",
    "hdmi-tmds-340": "HDMI 1.4 (340 MHz)",
    "hdmi-tmds-600": "HDMI 2.0 (600 MHz)",
    "hdmi-frl-9": "HDMI at 9 Gb/s",
    "hdmi-frl-18": "HDMI at fixed 18 Gb/s",
    "hdmi-frl-24": "HDMI at 24 Gb/s",
    "hdmi-frl-32": "HDMI at 32 Gb/s",
    "hdmi-frl-40": "HDMI at 40 Gb/s",
    "hdmi-frl-48": "HDMI at 48 Gb/s",
    "hdmi-frl-64": "HDMI at 64 Gb/s",
    "hdmi-frl-80": "HDMI at 80 Gb/s",
    "hdmi-frl-96": "HDMI at 96 Gb/s",
}

_ANY_DP = "any certified"
_UHS = "Ultra High Speed"
_U96 = "Ultra96"

LINKS: tuple[Link, ...] = (
    Link("dp-rbr", "DisplayPort RBR", DISPLAYPORT, 1620, 0, _ANY_DP),
    Link("dp-hbr", "DisplayPort HBR", DISPLAYPORT, 2700, 0, _ANY_DP),
    Link("dp-hbr2", "DisplayPort HBR2", DISPLAYPORT, 5400, 0, _ANY_DP),
    Link("dp-hbr3", "DisplayPort HBR3", DISPLAYPORT, 8100, 0, "DP8K"),
    Link("dp-uhbr10", "DisplayPort UHBR10", DISPLAYPORT, 10_000, 0, "DP40"),
    Link("dp-uhbr13.5", "DisplayPort UHBR13.5", DISPLAYPORT, 13_500, 0, "DP54"),
    Link("dp-uhbr20", "DisplayPort UHBR20", DISPLAYPORT, 20_000, 0, "DP80"),
    Link("usb-c-2", "USB-C with two lanes at HBR3", DISPLAYPORT, 8100, 2, "full-featured USB-C"),
    Link("usb-c-4", "USB-C with four lanes at HBR3", DISPLAYPORT, 8100, 4, "full-featured USB-C"),
    Link("dvi-single", "single-link DVI", TMDS, 165, 3, "DVI, single link"),
    Link("dvi-dual", "dual-link DVI", TMDS, 330, 6, "DVI, dual link"),
    Link("hdmi-tmds-165", "HDMI TMDS at 165 MHz", TMDS, 165, 3, "High Speed"),
    Link("hdmi-tmds-340", "HDMI TMDS at 340 MHz", TMDS, 340, 3, "High Speed"),
    Link("hdmi-tmds-600", "HDMI TMDS at 600 MHz", TMDS, 600, 3, "Premium High Speed"),
    Link("hdmi-frl-9", "HDMI fixed rate, 9 Gb/s", FIXED_RATE, 3000, 3, _UHS),
    Link("hdmi-frl-18", "HDMI fixed rate, 18 Gb/s", FIXED_RATE, 6000, 3, _UHS),
    Link("hdmi-frl-24", "HDMI fixed rate, 24 Gb/s", FIXED_RATE, 6000, 4, _UHS),
    Link("hdmi-frl-32", "HDMI fixed rate, 32 Gb/s", FIXED_RATE, 8000, 4, _UHS),
    Link("hdmi-frl-40", "HDMI fixed rate, 40 Gb/s", FIXED_RATE, 10_000, 4, _UHS),
    Link("hdmi-frl-48", "HDMI fixed rate, 48 Gb/s", FIXED_RATE, 12_000, 4, _UHS),
    Link("hdmi-frl-64", "HDMI fixed rate, 64 Gb/s", FIXED_RATE, 16_000, 4, _U96),
    Link("hdmi-frl-80", "HDMI fixed rate, 80 Gb/s", FIXED_RATE, 20_000, 4, _U96),
    Link("hdmi-frl-96", "HDMI fixed rate, 96 Gb/s", FIXED_RATE, 24_000, 4, _U96),
)


def link(key: str) -> Link:
    """The link of this key."""
    return next(entry for entry in LINKS if entry.key == key)


def raw_bits(one: Link, lanes: int) -> Ratio:
    """
    Rate on the wires before any line coding is taken off.

    Args:
        one: The link. [object]
        lanes: Lanes in use; counts for DisplayPort's own sockets only. [1], 1, 2 or 4.

    Returns:
        The rate. TMDS counts ten bits for each eight, as its advertised 18 Gb/s does. [bit/s]

    Source:
        VESA DisplayPort 2.1, link rates; HDMI 2.1, TMDS and fixed-rate link rates; both from memory.

    Example:
        >>> raw_bits(link("dp-hbr3"), 4).value / 1e9
        32.4
    """
    if one.family == TMDS:
        return Ratio(one.lane_mbps * 1_000_000 * 30)
    return Ratio(one.lane_mbps * 1_000_000 * (one.lanes or lanes))


def line_coded_bits(one: Link, lanes: int) -> Ratio:
    """
    What is left of the raw rate after line coding alone.

    Args:
        one: The link. [object]
        lanes: Lanes in use; counts for DisplayPort only. [1], 1, 2 or 4.

    Returns:
        The rate: 8 of 10 bits on TMDS and up to HBR3, 16 of 18 on HDMI's fixed-rate link, 128 of 132 on
        UHBR links. [bit/s]

    Source:
        VESA DisplayPort 2.1 and HDMI 2.1, channel coding; both from memory.

    Example:
        >>> round(line_coded_bits(link("hdmi-frl-48"), 4).value / 1e9, 2)
        42.67
    """
    raw = raw_bits(one, lanes)
    if one.family == FIXED_RATE:
        return raw.times(*_SIXTEEN_OF_EIGHTEEN)
    return raw.times(128, 132) if one.long_code else raw.times(*_EIGHT_OF_TEN)


def payload_bits(one: Link, lanes: int, compressed: bool = False) -> Ratio:
    """
    What the link carries for picture, blanking and sound.

    Args:
        one: The link. [object]
        lanes: Lanes in use; counts for DisplayPort only. [1], 1, 2 or 4.
        compressed: Whether compression is on; 8b/10b DisplayPort links then also spend 2.4 % on error correction.

    Returns:
        The payload after line coding and whatever error correction is always on. [bit/s]

    Source:
        VESA DisplayPort 2.1, channel coding efficiency 96.71 %; HDMI 2.1, Reed-Solomon (255,251); from memory.

    Example:
        >>> payload_bits(link("dp-hbr3"), 4).value / 1e9, round(payload_bits(link("dp-uhbr20"), 4).value / 1e9, 2)
        (25.92, 77.37)
    """
    if one.family == FIXED_RATE:
        return line_coded_bits(one, lanes).times(*_REED_SOLOMON)
    if one.long_code:
        return raw_bits(one, lanes).times(*_LONG_CODE)
    coded = line_coded_bits(one, lanes)
    return coded.times(*_CORRECTION_ON_8B10B) if compressed and one.family == DISPLAYPORT else coded


def usable_bits(one: Link) -> Ratio:
    """
    What a fixed-rate HDMI link is sure to carry once every margin of its standard is taken off.

    Of each super block of 4 × 510 characters and one more a lane, that one, 32 of error correction and 2.5 of
    mapping are not picture; 0.3 % is kept for sound and control.

    Args:
        one: A fixed-rate link. [object]

    Returns:
        The rate. [bit/s]

    Source:
        HDMI 2.1, capacity computation of the fixed-rate link, from memory; an open-source driver computes the same.

    Example:
        >>> round(usable_bits(link("hdmi-frl-40")).value / 1e9, 1)
        34.8
    """
    block = 4 * 510 + one.lanes
    # 1 - (lanes + 32 + 2.5) / block - 0.003, in two-thousandths of a block
    share = (2000 * block - 2000 * one.lanes - 69_000 - 6 * block, 2000 * block)
    return line_coded_bits(one, one.lanes).times(*share)


def bits_a_pixel(one: Link, sampling: str, depth: int) -> int:
    """
    What one pixel costs on a link.

    Args:
        one: The link. [object]
        sampling: rgb, 444, 422 or 420. [text]
        depth: Bits a channel. [bit], 8, 10 or 12.

    Returns:
        Bits a pixel. HDMI packs 4:2:2 into 24 whatever the depth; DisplayPort spends 16, 20 or 24 on it. [bit]

    Source:
        HDMI 1.4b and 2.1, pixel encodings; VESA DisplayPort 1.4, pixel packing; from memory.

    Example:
        >>> bits_a_pixel(link("hdmi-tmds-600"), "422", 8), bits_a_pixel(link("dp-hbr2"), "422", 8)
        (24, 16)
    """
    if sampling == "420":
        return depth * 3 // 2
    if sampling == "422":
        return 2 * depth if one.family == DISPLAYPORT else 24
    return 3 * depth


def character_clock(clock: Ratio, sampling: str, depth: int) -> Ratio:
    """
    The clock that HDMI's older transmission runs at for a mode.

    Args:
        clock: Pixel clock. [Hz]
        sampling: rgb, 444, 422 or 420. [text]
        depth: Bits a channel. [bit], 8, 10 or 12.

    Returns:
        The character clock: the pixel clock times depth ÷ 8, the same for 4:2:2 at any depth, half for 4:2:0. [Hz]

    Source:
        HDMI 1.4b, deep colour; HDMI 2.0, YCbCr 4:2:0; from memory.

    Example:
        >>> character_clock(Ratio(594_000_000), "420", 8).value / 1e6
        297.0
    """
    if sampling == "422":
        return clock
    return clock.times(depth, 16) if sampling == "420" else clock.times(depth, 8)


def needed_bits(clock: Ratio, one: Link, sampling: str, depth: int) -> Ratio:
    """
    What a mode asks of a link, blanking included and no margin inside.

    Args:
        clock: Pixel clock; or the rate of visible pixels, for what the picture alone asks. [Hz]
        one: The link. [object]
        sampling: rgb, 444, 422 or 420. [text]
        depth: Bits a channel. [bit], 8, 10 or 12.

    Returns:
        The rate. [bit/s]

    Source:
        Arithmetic: clock times bits a pixel; for TMDS 24 times the character clock.

    Example:
        >>> needed_bits(Ratio(1_188_000_000), link("hdmi-frl-40"), "rgb", 10).value / 1e9
        35.64
    """
    if one.family == TMDS:
        return character_clock(clock, sampling, depth).times(_TMDS_BITS_A_CHARACTER)
    return clock.times(bits_a_pixel(one, sampling, depth))


# Least bits a pixel that compression is used with: 8 for RGB and 4:4:4, 7 for 4:2:2, 6 for 4:2:0.
# VESA DSC 1.2a and DisplayPort 1.4, from memory.
_LEAST_COMPRESSED_BITS = {"rgb": 8, "444": 8, "422": 7, "420": 6}


def compressed_bits(clock: Ratio, sampling: str) -> Ratio:
    """
    What a mode asks at the strongest compression in use.

    Args:
        clock: Pixel clock. [Hz]
        sampling: rgb, 444, 422 or 420. [text]

    Returns:
        The rate, blanking included. [bit/s]

    Source:
        VESA DSC 1.2a: 8 bits a pixel and more; DisplayPort 1.4: 7 and 6 for 4:2:2 and 4:2:0; from memory.

    Example:
        >>> compressed_bits(Ratio(1_000_000_000), "rgb").value / 1e9
        8.0
    """
    return clock.times(_LEAST_COMPRESSED_BITS[sampling])
