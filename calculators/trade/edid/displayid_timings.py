"""
Timings in DisplayID's shapes, which DisplayID blocks and CTA-861 blocks both hold.

Layouts: VESA DisplayID 1.3 (types I, II, III and V) and DisplayID 2.0 (types VII, IX and X), from memory, held against
edid-decode in tests/references/display.
"""

from __future__ import annotations

from collections.abc import Callable

from calculators.trade.edid.base_block import timing
from calculators.trade.edid.declaration import Declaration, ListedMode

_ASPECTS = ((1, 1), (5, 4), (4, 3), (15, 9), (16, 9), (16, 10), (64, 27), (256, 135))


def _pieces(data: bytes, size: int) -> list[bytes]:
    """Whole pieces of one size; a ragged end is dropped."""
    return [data[i : i + size] for i in range(0, len(data) - size + 1, size)] if size > 0 else []


def _word(data: bytes, at: int) -> int:
    return data[at] | data[at + 1] << 8


def _long_timing(part: bytes, unit_khz: int, where: str, into: Declaration) -> None:
    """Types I and VII: 20 bytes, every count stored less one, the clock in its own unit."""
    clock = (part[0] | part[1] << 8 | part[2] << 16) + 1
    mode = timing(
        clock * unit_khz, _word(part, 4) + 1, _word(part, 6) + 1, _word(part, 12) + 1, _word(part, 14) + 1,
        bool(part[3] & 0x10), where, bool(part[3] & 0x80),
    )  # fmt: skip
    if mode:
        into.add_mode(mode)


def _type_i(flags: int, data: bytes, where: str, into: Declaration) -> None:
    """Detailed timings of 20 bytes, clock in steps of 10 kHz. DisplayID 1.3, section 4.4.1, from memory."""
    for part in _pieces(data, 20):
        _long_timing(part, 10, where, into)


def _type_vii(flags: int, data: bytes, where: str, into: Declaration) -> None:
    """Detailed timings of 20 bytes, clock in steps of 1 kHz. DisplayID 2.0, section 4.3.1, from memory."""
    for part in _pieces(data, 20):
        _long_timing(part, 1, where, into)


def _type_ii(flags: int, data: bytes, where: str, into: Declaration) -> None:
    """Detailed timings of 11 bytes, horizontal counts in steps of 8. DisplayID 1.3, section 4.4.2, from memory."""
    for part in _pieces(data, 11):
        clock = (part[0] | part[1] << 8 | part[2] << 16) + 1
        width, h_blank = ((part[4] | (part[5] & 1) << 8) + 1) * 8, ((part[5] >> 1) + 1) * 8
        height, v_blank = (part[7] | (part[8] & 15) << 8) + 1, part[9] + 1
        flags_here = part[3]
        mode = timing(
            clock * 10, width, h_blank, height, v_blank, bool(flags_here & 0x10), where, bool(flags_here & 0x80)
        )
        if mode:
            into.add_mode(mode)


def _type_iii(flags: int, data: bytes, where: str, into: Declaration) -> None:
    """Short timings of 3 bytes: width, aspect, refresh. DisplayID 1.3, section 4.4.3, from memory."""
    for part in _pieces(data, 3):
        aspect = part[0] & 15
        if aspect >= len(_ASPECTS):
            continue
        across, down = _ASPECTS[aspect]
        width = (part[1] + 1) * 8
        into.add_mode(
            ListedMode(
                width, width * down // across, (part[2] & 127) + 1, where,
                interlaced=bool(part[2] & 128), preferred=bool(part[0] & 128),
            )
        )  # fmt: skip


def _type_v(flags: int, data: bytes, where: str, into: Declaration) -> None:
    """Short timings of 7 bytes: size and refresh. DisplayID 1.3, section 4.4.5, from memory."""
    for part in _pieces(data, 7):
        into.add_mode(
            ListedMode(_word(part, 2) + 1, _word(part, 4) + 1, part[6] + 1, where, preferred=bool(part[0] & 0x80))
        )


def _type_ix(flags: int, data: bytes, where: str, into: Declaration) -> None:
    """Timings by formula, 6 bytes: size and refresh. DisplayID 2.0, section 4.3.3, from memory."""
    for part in _pieces(data, 6):
        into.add_mode(ListedMode(_word(part, 1) + 1, _word(part, 3) + 1, part[5] + 1, where))


def _type_x(flags: int, data: bytes, where: str, into: Declaration) -> None:
    """Timings by formula with refresh up to 1024 Hz, 6 bytes or more. DisplayID 2.0, section 4.3.4, from memory."""
    size = 6 + (flags >> 4 & 7)
    for part in _pieces(data, size):
        more = (part[6] & 3) << 8 if size > 6 else 0
        into.add_mode(ListedMode(_word(part, 1) + 1, _word(part, 3) + 1, (part[5] | more) + 1, where))


_READERS: dict[int, Callable[[int, bytes, str, Declaration], None]] = {
    0x03: _type_i, 0x04: _type_ii, 0x05: _type_iii, 0x11: _type_v, 0x22: _type_vii, 0x24: _type_ix, 0x2A: _type_x,
}  # fmt: skip


def read_timings(tag: int, flags: int, data: bytes, where: str, into: Declaration) -> bool:
    """
    Read a block of timings, if it is one.

    Args:
        tag: The block's tag in DisplayID; CTA-861 uses the same numbers for those that it holds. [1]
        flags: The block's byte of flags and revision. [1]
        data: What the block holds. [bytes]
        where: Where it stands, in words. [text]
        into: What was found so far; filled further. [object]

    Returns:
        Whether the tag is one of timings that are read here. [yes/no]

    Raises:
        Nothing: a ragged end is dropped.

    Source:
        VESA DisplayID 1.3, section 4.4, and DisplayID 2.0, section 4.3, from memory.

    Example:
        >>> found = Declaration()
        >>> read_timings(0x24, 0, bytes([2, 255, 9, 159, 5, 143]), "here", found)
        True
        >>> found.modes[0].width, found.modes[0].height, found.modes[0].refresh_hz
        (2560, 1440, 144)
    """
    reader = _READERS.get(tag)
    if reader is None:
        return False
    reader(flags, data, where, into)
    return True
