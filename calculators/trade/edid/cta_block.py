"""
The CTA-861 extension: television formats, sampling, range, HDR, and both HDMI blocks.

Layouts: CTA-861-I (data blocks, video capability, colorimetry, HDR, 4:2:0), HDMI 1.4b section 8.3 (first HDMI
block) and HDMI 2.1 section 10.3 (second HDMI block, override of the extension count), all from memory, held
against edid-decode in tests/references/display.
"""

from __future__ import annotations

from calculators.desk.functions import power
from calculators.trade.edid.base_block import detailed_timing
from calculators.trade.edid.declaration import Declaration, ListedMode
from calculators.trade.edid.displayid_timings import read_timings
from calculators.trade.modes.cta_861 import FORMATS

_HDMI_FIRST = b"\x03\x0c\x00"  # registered identifiers of the two HDMI blocks, low byte first
_HDMI_SECOND = b"\xd8\x5d\xc4"
_OVERRIDE, _CAPABILITY, _COLORIMETRY, _HDR, _HDR_DYNAMIC, _ONLY_420, _ALSO_420, _SECOND = (
    0x78, 0, 5, 6, 7, 14, 15, 0x79,
)  # fmt: skip
_TIMINGS = (0x22, 0x2A)  # types VII and X in DisplayID's shape, under the same numbers
_HDMI_FORMATS = {1: 95, 2: 94, 3: 93, 4: 98}  # HDMI 1.4b, table 8-13: its own codes, by the VIC of the same timing
_TRANSFERS = ("traditional gamma, standard range", "traditional gamma, high range", "PQ", "HLG")

# Gb/s over all lanes by the code of the highest fixed-rate link. HDMI 2.1, table 10-8, from memory.
FIXED_RATES = {1: 9, 2: 18, 3: 24, 4: 32, 5: 40, 6: 48}


def read_cta(block: bytes, number: int, into: Declaration) -> None:
    """
    Read one CTA-861 extension.

    Args:
        block: Its bytes; fewer than 128 where the declaration was cut. [bytes]
        number: The block's number, the base block being 0. [1]
        into: What was found so far; filled further. [object]

    Returns:
        Nothing.

    Raises:
        Nothing: what cannot be right is told in `into.broken` and left out.

    Source:
        CTA-861-I, section 7.5 and 7.6, from memory.

    Example:
        >>> found = Declaration()
        >>> read_cta(bytes([2, 3, 7, 0x30, 0xE2, 0, 0x40]) + bytes(121), 1, found)
        >>> found.ycbcr_444, found.ycbcr_422, found.rgb_range_selectable
        (True, True, True)
    """
    if len(block) < 4:
        return
    revision, timings_at = block[1], block[2]
    if revision >= 2:
        into.ycbcr_444 |= bool(block[3] & 0x20)
        into.ycbcr_422 |= bool(block[3] & 0x10)
    if timings_at > 127:
        into.broken.append(f"Block {number} says its timings begin at byte {timings_at}, past its end.")
        timings_at = 127
    if revision >= 3 and timings_at > 4:
        read_data_blocks(block[4 : min(timings_at, len(block))], f"block {number}", into)
    if timings_at < 4:
        return
    for start in range(timings_at, min(127, len(block)) - 17, 18):
        part = block[start : start + 18]
        if not (part[0] or part[1]):
            break
        mode = detailed_timing(part, f"block {number}, detailed timing")
        if mode:
            into.add_mode(mode)


def read_data_blocks(data: bytes, where: str, into: Declaration) -> None:
    """
    Read a row of CTA-861 data blocks; DisplayID 2 can hold the same.

    Args:
        data: The row. [bytes]
        where: Where it stands, in words. [text]
        into: What was found so far; filled further. [object]

    Returns:
        Nothing.

    Raises:
        Nothing: a block that runs past the end is told and read as far as it goes.

    Source:
        CTA-861-I, section 7.5, from memory.

    Example:
        >>> found = Declaration()
        >>> read_data_blocks(bytes([0x41, 97]), "here", found)
        >>> found.modes[0].width, found.modes[0].vic
        (3840, 97)
    """
    codes: list[int] = []  # the listed formats in order, for the 4:2:0 map that counts them
    also_420: bytes | None = None
    at = 0
    while at < len(data):
        tag, length = data[at] >> 5, data[at] & 31
        part = data[at + 1 : at + 1 + length]
        if len(part) < length:
            into.broken.append(f"A data block in {where} runs past the end; it is read as far as it goes.")
        at += 1 + length
        if tag == 2:
            codes += [_vic(b) for b in part]
        elif tag == 3:
            _vendor(part, into)
        elif tag == 7 and part and part[0] == _ALSO_420:
            also_420 = part[1:]
        elif tag == 7 and part:
            _extended(part[0], part[1:], where, into)
        elif tag not in (1, 4):  # audio formats and loudspeakers have no part in the picture
            into.unread.append(f"data block {tag} in {where}")
    _listed(codes, also_420, where, into)


def _vic(code: int) -> int:
    """A format's VIC: from 129 to 192 the top bit only marks a native format."""
    return code & 127 if 129 <= code <= 192 else code


def _listed(codes: list[int], also_420: bytes | None, where: str, into: Declaration) -> None:
    if also_420 is not None:
        into.ycbcr_420 |= bool(codes) if not also_420 else any(also_420)
    for i, vic in enumerate(codes):
        mapped = also_420 is not None and (not also_420 or (i // 8 < len(also_420) and also_420[i // 8] >> i % 8 & 1))
        _add_format(vic, f"{where}, listed formats", into, also=bool(mapped))


def _add_format(vic: int, where: str, into: Declaration, *, only: bool = False, also: bool = False) -> None:
    entry = FORMATS.get(vic)
    if entry is None:
        into.broken.append(f"Format code {vic} in {where} stands for no format that is known here.{_meant(vic)}")
        return
    into.add_mode(
        ListedMode(
            entry.width, entry.height, entry.refresh, where, entry.h_total, entry.v_total, entry.clock_khz,
            entry.interlaced, vic=vic, only_420=only, also_420=also,
        )
    )  # fmt: skip


def _meant(code: int) -> str:
    """What a code probably means that carries the mark of a native format where that mark does not exist."""
    entry = FORMATS.get(code & 127) if code > 192 else None
    if entry is None:
        return ""
    return f" Perhaps {code & 127} is meant, {entry.say()}, marked as native: codes above 64 have no such mark."


def _vendor(part: bytes, into: Declaration) -> None:
    if part[:3] == _HDMI_FIRST:
        _first_hdmi(part, into)
    elif part[:3] == _HDMI_SECOND:
        _second_hdmi(part, into)
    else:
        into.unread.append("a maker's own data block")


def _first_hdmi(part: bytes, into: Declaration) -> None:
    """HDMI 1.4b, section 8.3.2: deep colour, the first clock limit, and four formats under codes of their own."""
    into.hdmi = True
    if len(part) > 5:
        for bit, depth in ((0x40, 16), (0x20, 12), (0x10, 10)):
            if part[5] & bit:
                into.deep_colour_depth = max(into.deep_colour_depth, depth)
    if len(part) > 6:
        into.tmds_mhz = max(into.tmds_mhz, part[6] * 5)
    if len(part) > 7 and part[7] & 0x20:
        at = 8 + (2 if part[7] & 0x80 else 0) + (2 if part[7] & 0x40 else 0) + 1
        count = part[at] >> 5 if at < len(part) else 0
        for code in part[at + 1 : at + 1 + count]:
            if code in _HDMI_FORMATS:
                _add_format(_HDMI_FORMATS[code], "first HDMI block", into)


def _second_hdmi(part: bytes, into: Declaration) -> None:
    """HDMI 2.1, section 10.3.2: the second clock limit, fixed rates, 4:2:0 depth, variable refresh, compression."""
    into.hdmi_second = True
    if len(part) > 4:
        into.tmds_second_mhz = max(into.tmds_second_mhz, part[4] * 5)
    if len(part) > 6:
        into.fixed_rate = max(into.fixed_rate, part[6] >> 4)
        for bit, depth in ((4, 16), (2, 12), (1, 10)):
            if part[6] & bit:
                into.deep_420_depth = max(into.deep_420_depth, depth)
    if len(part) > 7 and part[7] & 0x40:
        into.variable.append("film rates without a black screen between them (second HDMI block)")
    if len(part) > 9:
        low, high = part[8] & 63, (part[8] & 0xC0) << 2 | part[9]
        if low and high > low:
            into.add_range(low, high, "second HDMI block, variable refresh")
            into.variable.append(f"{low} to {high} Hz over HDMI (second HDMI block)")
        elif low and not high:  # 0 means: up to the refresh of the mode in use
            into.add_range(low, 0, "second HDMI block, variable refresh")
            into.variable.append(f"from {low} Hz to the mode's own refresh over HDMI (second HDMI block)")
    if len(part) > 10:
        into.compression |= bool(part[10] & 0x80)


def _extended(tag: int, part: bytes, where: str, into: Declaration) -> None:
    if tag == _CAPABILITY and part:
        into.ycc_range_selectable = bool(into.ycc_range_selectable) or bool(part[0] & 0x80)
        into.rgb_range_selectable = bool(into.rgb_range_selectable) or bool(part[0] & 0x40)
    elif tag == _COLORIMETRY and part:
        spaces: tuple[tuple[int, int, str], ...] = ((part[0], 0x80, "BT.2020 RGB"), (part[0], 0x40, "BT.2020 Y′CbCr"))
        spaces += ((part[0], 0x20, "BT.2020 constant luminance"),)
        spaces += ((part[1], 0x80, "DCI-P3"),) if len(part) > 1 else ()
        into.wide_colour += [n for byte, bit, n in spaces if byte & bit and n not in into.wide_colour]
    elif tag == _HDR and part:
        names = [name for i, name in enumerate(_TRANSFERS) if part[0] >> i & 1]
        into.transfers += [name for name in names if name not in into.transfers]
        if len(part) > 2 and part[2]:
            into.peak_nits = 50 * power(2, part[2] / 32)  # CTA-861-I, section 7.5.13
    elif tag == _HDR_DYNAMIC:
        into.dynamic_hdr = True
    elif tag == _ONLY_420:
        for code in part:
            _add_format(_vic(code), f"{where}, formats in 4:2:0 only", into, only=True)
        into.ycbcr_420 |= bool(part)
    elif tag == _OVERRIDE and part:
        into.extensions_override = part[0]
    elif tag == _SECOND:
        _second_hdmi(b"\0" + part, into)  # two bytes are reserved where the other form has an identifier of three
    elif not (tag in _TIMINGS and part and read_timings(tag, part[0], part[1:], where, into)):
        into.unread.append(f"extended data block {tag} in {where}")
