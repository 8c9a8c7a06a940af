"""
The DisplayID extension, versions 1 and 2, where large and fast modes are often listed.

Layouts: VESA DisplayID 1.3 and DisplayID 2.0, from memory, held against edid-decode in tests/references/display.
"""

from __future__ import annotations

from calculators.trade.edid.cta_block import read_data_blocks
from calculators.trade.edid.declaration import Declaration
from calculators.trade.edid.displayid_timings import read_timings

_HEAD = 5  # tag, version, length, use, further sections
_BITS = (6, 8, 10, 12, 14, 16)
# Blocks that say nothing which settings to choose: identity, colour, serial number, text, power, stereo, container.
_NO_MATTER = frozenset({0x00, 0x02, 0x0A, 0x0B, 0x0C, 0x0D, 0x0E, 0x10, 0x20, 0x27, 0x29})


def read_displayid(block: bytes, number: int, into: Declaration) -> None:
    """
    Read one DisplayID extension.

    Args:
        block: Its bytes; fewer than 128 where the declaration was cut. [bytes]
        number: The block's number, the base block being 0. [1]
        into: What was found so far; filled further. [object]

    Returns:
        Nothing.

    Raises:
        Nothing: what cannot be right is told in `into.broken` and read as far as it goes.

    Source:
        VESA DisplayID 2.0, section 2 (structure) and 4 (data blocks); DisplayID 1.3 likewise, from memory.

    Example:
        >>> found = Declaration()
        >>> parts = bytes([0x70, 0x20, 12, 0, 0, 0x26, 0, 9, 6, 6, 4, 0, 0, 0, 0, 0, 0])
        >>> read_displayid(parts, 1, found)
        >>> found.displayid_depth, found.ycbcr_444, found.ycbcr_422
        (10, True, True)
    """
    if len(block) < _HEAD:
        return
    where = f"DisplayID, block {number}"
    end = _HEAD + block[2]
    if end > min(len(block), 126):
        if len(block) >= 128:
            into.broken.append(f"The section in block {number} says it is longer than the block.")
        end = min(len(block), 126)
    if len(block) >= 128 and _HEAD + block[2] <= 126 and sum(block[1 : end + 1]) % 256:
        into.broken.append(f"The DisplayID section in block {number} has a wrong checksum of its own.")
    at = _HEAD
    while at + 3 <= end:
        tag, flags, length = block[at : at + 3]
        if not (tag or flags or length):
            break  # zeros fill the rest
        part = block[at + 3 : min(at + 3 + length, end)]
        if len(part) < length:
            into.broken.append(f"A data block in {where} runs past the end; it is read as far as it goes.")
        _data_block(tag, flags, part, where, into)
        at += 3 + length


def _data_block(tag: int, flags: int, part: bytes, where: str, into: Declaration) -> None:
    if read_timings(tag, flags, part, where, into):
        return
    if tag == 0x01 and len(part) >= 12:
        _native_size(part, into)
        into.displayid_depth = max(into.displayid_depth, (part[11] & 15) + 1)
    elif tag == 0x21 and len(part) >= 28:
        _native_size(part, into)
        code = part[27] & 7
        if 1 <= code <= 6:
            into.displayid_depth = max(into.displayid_depth, _BITS[code - 1])
    elif tag == 0x0F and len(part) >= 5:
        _sampling(part[2], part[3], part[4], 0, into)
    elif tag == 0x26 and len(part) >= 4:
        _sampling(part[0], part[1], part[2], part[3], into)
        _colour_spaces(part, into)
    elif tag == 0x09 and len(part) >= 15:
        _range(part[10], part[11], _clock(part, 3) * 10, where, into)
    elif tag == 0x25 and len(part) >= 9:
        high = part[7] | ((part[8] & 3) << 8 if flags & 7 else 0)
        _range(part[6], high, _clock(part, 3), where, into)
        if part[8] & 0x80:
            into.variable.append(f"{part[6]} to {high} Hz without a break ({where})")
    elif tag == 0x2B:
        _adaptive(flags, part, where, into)
    elif tag in (0x12, 0x28) and len(part) >= 4:
        across = (part[1] >> 4 & 15 | (part[3] >> 2 & 0x30)) + 1
        down = (part[1] & 15 | (part[3] & 0x30)) + 1
        into.tiles = (across, down)
        into.single_tile_behaviour = part[0] & 7
        if len(part) >= 8:
            into.tile_size = ((part[4] | part[5] << 8) + 1, (part[6] | part[7] << 8) + 1)
    elif tag == 0x81:
        read_data_blocks(part, where, into)
    elif tag not in _NO_MATTER:
        into.unread.append(f"data block {tag} of {where}")


def _native_size(part: bytes, into: Declaration) -> None:
    width, height = part[4] | part[5] << 8, part[6] | part[7] << 8
    if width and height:
        into.native_size = (width, height)


def _clock(part: bytes, at: int) -> int:
    """A clock of three bytes, in the block's own unit, stored less one."""
    return (part[at] | part[at + 1] << 8 | part[at + 2] << 16) + 1


def _sampling(rgb: int, full: int, half: int, quarter: int, into: Declaration) -> None:
    """Bits a channel for each sampling, one bit for each depth."""
    depths = [bits for i, bits in enumerate(_BITS) if rgb >> i & 1]
    into.displayid_depth = max([into.displayid_depth, *depths])
    into.ycbcr_444 |= bool(full)
    into.ycbcr_422 |= bool(half)
    into.ycbcr_420 |= bool(quarter)


# Which colour space goes with which curve. DisplayID 2.0, section 4.7, display interface features, from memory.
_SPACES = {5: "DCI-P3", 6: "BT.2020 RGB"}
_CURVES = {8: "PQ", 9: "HLG"}


def _colour_spaces(part: bytes, into: Declaration) -> None:
    """Wider colour and HDR curves, as one byte of fixed pairs and a list of further ones."""
    pairs = []
    if len(part) > 6:
        pairs += [pair for bit, pair in ((0x10, (5, 0)), (0x20, (6, 0)), (0x40, (6, 8))) if part[6] & bit]
    if len(part) > 8:
        pairs += [(byte >> 4, byte & 15) for byte in part[9 : 9 + min(part[8], 7)]]
    for space, curve in pairs:
        if space in _SPACES and _SPACES[space] not in into.wide_colour:
            into.wide_colour.append(_SPACES[space])
        if curve in _CURVES and _CURVES[curve] not in into.transfers:
            into.transfers.append(_CURVES[curve])


def _range(low: int, high: int, clock_khz: int, where: str, into: Declaration) -> None:
    if not 0 < low <= high:
        into.broken.append(f"The refresh range in {where} runs from {low} to {high} Hz and is left out.")
        return
    into.add_range(low, high, where, clock_khz / 1000)


def _adaptive(flags: int, part: bytes, where: str, into: Declaration) -> None:
    """Adaptive-Sync: pieces of 6 bytes or more, each with its least and most refresh."""
    size = 6 + (flags >> 4 & 7)
    for start in range(0, len(part) - size + 1, size):
        low, high = part[start + 2], (part[start + 3] | (part[start + 4] & 3) << 8) + 1
        _range(low, high, 0, f"{where}, adaptive refresh", into)
        if 0 < low <= high:
            into.variable.append(f"{low} to {high} Hz, adaptive ({where})")
