"""
The base block: 128 bytes that every declaration begins with.

All layouts: VESA E-EDID Standard Release A, Revision 2 (EDID 1.4) and Revision 1 (EDID 1.3), from memory, held
against edid-decode in tests/references/display.
"""

from __future__ import annotations

from calculators.trade.edid.declaration import Declaration, ListedMode

_DEPTHS = {1: 6, 2: 8, 3: 10, 4: 12, 5: 14, 6: 16}  # section 3.6.1, video input definition, EDID 1.4
_PORTS = {1: "DVI", 2: "HDMI", 3: "HDMI", 4: "MDDI", 5: "DisplayPort"}  # the same
_FIRST_DESCRIPTOR, _DESCRIPTOR, _DESCRIPTORS = 54, 18, 4

# Section 3.8, established timings I and II, from bit 7 of byte 35 on. Width, height, refresh, interlaced.
_ESTABLISHED = (
    (720, 400, 70, False), (720, 400, 88, False), (640, 480, 60, False), (640, 480, 67, False),
    (640, 480, 72, False), (640, 480, 75, False), (800, 600, 56, False), (800, 600, 60, False),
    (800, 600, 72, False), (800, 600, 75, False), (832, 624, 75, False), (1024, 768, 87, True),
    (1024, 768, 60, False), (1024, 768, 70, False), (1024, 768, 75, False), (1280, 1024, 75, False),
    (1152, 870, 75, False),
)  # fmt: skip
# Section 3.10.3.9, established timings III (descriptor F7), from bit 7 of byte 6 on.
_ESTABLISHED_III = (
    (640, 350, 85), (640, 400, 85), (720, 400, 85), (640, 480, 85), (848, 480, 60), (800, 600, 85),
    (1024, 768, 85), (1152, 864, 75),
    (1280, 768, 60), (1280, 768, 60), (1280, 768, 75), (1280, 768, 85), (1280, 960, 60), (1280, 960, 85),
    (1280, 1024, 60), (1280, 1024, 85),
    (1360, 768, 60), (1440, 900, 60), (1440, 900, 60), (1440, 900, 75), (1440, 900, 85), (1400, 1050, 60),
    (1400, 1050, 60), (1400, 1050, 75),
    (1400, 1050, 85), (1680, 1050, 60), (1680, 1050, 60), (1680, 1050, 75), (1680, 1050, 85), (1600, 1200, 60),
    (1600, 1200, 65), (1600, 1200, 70),
    (1600, 1200, 75), (1600, 1200, 85), (1792, 1344, 60), (1792, 1344, 75), (1856, 1392, 60), (1856, 1392, 75),
    (1920, 1200, 60), (1920, 1200, 60),
    (1920, 1200, 75), (1920, 1200, 85), (1920, 1440, 60), (1920, 1440, 75),
)  # fmt: skip


def read_base(block: bytes, into: Declaration) -> None:
    """
    Read the base block.

    Args:
        block: Its 128 bytes. [bytes]
        into: What was found so far; filled further. [object]

    Returns:
        Nothing.

    Raises:
        Nothing: what cannot be right is told in `into.broken` and left out.

    Source:
        VESA E-EDID Standard Release A, Revision 2, sections 3.3 to 3.11, from memory.

    Example:
        >>> found = Declaration()
        >>> read_base(bytes(18) + bytes([1, 4, 0xB5]) + bytes(107), found)
        >>> found.version, found.base_depth, found.port
        ('1.4', 10, 'DisplayPort')
    """
    revision = block[19]
    into.version = f"{block[18]}.{revision}"
    if block[18] != 1 or revision > 4:
        into.broken.append(f"The version is given as {into.version}, which this reader takes as if it were 1.4.")
    newer = revision >= 4 or block[18] != 1
    into.digital = bool(block[20] & 0x80)
    if into.digital and newer:
        into.base_depth = _DEPTHS.get(block[20] >> 4 & 7, 0)
        into.port = _PORTS.get(block[20] & 15, "")
        into.ycbcr_444 |= bool(block[24] & 0x08)
        into.ycbcr_422 |= bool(block[24] & 0x10)
    into.declares_native = bool(block[24] & 2) if newer else None
    if newer and block[24] & 1:  # continuous frequency, section 3.6.4
        into.variable.append("any refresh within its range (base block)")
    into.extensions_counted = block[126]
    _established(block, into)
    _standard(block[38:54], newer, "standard timings", into)
    for i in range(_DESCRIPTORS):
        start = _FIRST_DESCRIPTOR + i * _DESCRIPTOR
        _descriptor(block[start : start + _DESCRIPTOR], i, newer, into)


def _descriptor(part: bytes, number: int, newer: bool, into: Declaration) -> None:
    if part[0] or part[1]:
        mode = detailed_timing(part, f"base block, detailed timing {number + 1}", preferred=number == 0)
        if mode is None:
            into.broken.append(f"Detailed timing {number + 1} of the base block has no size and is left out.")
            return
        into.add_mode(mode)
        return
    tag = part[3]
    if tag == 0xFC and not into.name:
        into.name = "".join(chr(b) for b in part[5:].partition(b"\n")[0] if 32 <= b < 127).strip()
    elif tag == 0xFD:
        _range_limits(part, newer, into)
    elif tag == 0xFA:
        _standard(part[5:17], newer, "further standard timings", into)
    elif tag == 0xF8:
        _coded_timings(part, into)
    elif tag == 0xF7:
        _established_iii(part, into)


def detailed_timing(part: bytes, where: str, preferred: bool = False) -> ListedMode | None:
    """
    A detailed timing of 18 bytes.

    Args:
        part: The bytes. [bytes]
        where: Where it stands, in words. [text]
        preferred: Whether its place makes it the preferred one.

    Returns:
        The mode, or None where it has no clock or no size. [object]

    Source:
        VESA E-EDID Standard Release A, Revision 2, section 3.10.2, from memory. An interlaced timing holds one
        field; a frame has twice its lines and one more.

    Example:
        >>> full_hd = bytes.fromhex("023a801871382d40582c4500000000000000")
        >>> mode = detailed_timing(full_hd + bytes(18 - len(full_hd)), "here")
        >>> mode and (mode.width, mode.height, mode.refresh_hz, mode.h_total, mode.v_total)
        (1920, 1080, 60.0, 2200, 1125)
    """
    clock_10khz = part[0] | part[1] << 8
    width, h_blank = part[2] | (part[4] & 0xF0) << 4, part[3] | (part[4] & 15) << 8
    height, v_blank = part[5] | (part[7] & 0xF0) << 4, part[6] | (part[7] & 15) << 8
    return timing(clock_10khz * 10, width, h_blank, height, v_blank, bool(part[17] & 0x80), where, preferred)


def timing(
    clock_khz: int, width: int, h_blank: int, height: int, v_blank: int, interlaced: bool, where: str, preferred: bool
) -> ListedMode | None:
    """
    A mode from its clock, active and blanked pixels and lines; interlaced counts one field's lines.

    Args:
        clock_khz: Pixel clock. [kHz]
        width: Active pixels a line. [px]
        h_blank: Blanked pixels a line. [px]
        height: Active lines, of one field where interlaced. [px]
        v_blank: Blanked lines, likewise. [px]
        interlaced: Whether two fields make a frame.
        where: Where it stands, in words. [text]
        preferred: Whether the declaration prefers it.

    Returns:
        The mode with its refresh, or None where clock or size is nothing. [object]

    Source:
        Arithmetic: clock over pixels of a frame. That an interlaced frame has one odd line more: VESA E-EDID A.2,
        from memory.

    Example:
        >>> mode = timing(74250, 1920, 280, 540, 22, True, "here", False)
        >>> mode and (mode.height, mode.v_total, mode.refresh_hz)
        (1080, 1125, 60.0)
    """
    if not (clock_khz and width and height):
        return None
    h_total, v_total = width + h_blank, height + v_blank
    if interlaced:
        v_total = 2 * v_total + 1
    refresh = clock_khz * (2000 if interlaced else 1000) / (h_total * v_total)
    lines = 2 * height if interlaced else height
    return ListedMode(width, lines, refresh, where, h_total, v_total, clock_khz, interlaced, preferred)


def _range_limits(part: bytes, newer: bool, into: Declaration) -> None:
    """Descriptor FD: least and most refresh, and the highest pixel clock."""
    shift = part[4] if newer else 0  # EDID 1.4 can add 255 to each end
    low = part[5] + (255 if shift & 3 == 3 else 0)
    high = part[6] + (255 if shift & 2 else 0)
    clock = float(part[9] * 10)
    if part[10] == 4 and clock:  # with the CVT flag byte 12 holds the clock's remainder in quarters of a MHz
        clock -= (part[12] >> 2) * 0.25
    if not 0 < low <= high:
        into.broken.append(f"The refresh range runs from {low} to {high} Hz, which cannot be, and is left out.")
        return
    into.add_range(low, high, "base block", clock)


def _established(block: bytes, into: Declaration) -> None:
    bits = block[35] << 16 | block[36] << 8 | block[37]
    for i, (width, height, refresh, interlaced) in enumerate(_ESTABLISHED):
        if bits >> (23 - i) & 1:
            into.add_mode(ListedMode(width, height, refresh, "established timings", interlaced=interlaced))


def _established_iii(part: bytes, into: Declaration) -> None:
    for i, (width, height, refresh) in enumerate(_ESTABLISHED_III):
        if part[6 + i // 8] >> (7 - i % 8) & 1:
            into.add_mode(ListedMode(width, height, refresh, "established timings"))


def _standard(part: bytes, newer: bool, where: str, into: Declaration) -> None:
    """Standard timings: two bytes each; 01 01 stands for none, and so do zeros in many real declarations."""
    for first, second in zip(part[::2], part[1::2], strict=True):
        if (first, second) == (1, 1) or first == 0:
            continue
        width = (first + 31) * 8
        # 16:10 has stood for code 0 since EDID 1.3; before, it was 1:1
        across, down = ((16, 10), (4, 3), (5, 4), (16, 9))[second >> 6]
        into.add_mode(ListedMode(width, width * down // across, (second & 63) + 60, where))


def _coded_timings(part: bytes, into: Declaration) -> None:
    """Descriptor F8: up to four sizes of three bytes, each with the refresh rates it takes."""
    for start in (6, 9, 12, 15):
        low, middle, rates = part[start : start + 3]
        lines = 2 * ((low | (middle & 0xF0) << 4) + 1)
        if not (low or middle or rates):
            continue
        across, down = ((4, 3), (16, 9), (16, 10), (15, 9))[middle >> 2 & 3]
        width = 8 * (lines * across // down // 8)
        for bit, refresh in ((16, 50), (8, 60), (4, 75), (2, 85), (1, 60)):
            if rates & bit:
                into.add_mode(ListedMode(width, lines, refresh, "coded timings"))
