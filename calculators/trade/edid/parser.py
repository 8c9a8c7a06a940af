"""Walks through an EDID block by block, 128 bytes each: which kind a block is, and whether its checksum is right."""

from __future__ import annotations

from calculators.desk.numbers import plural
from calculators.trade.edid.base_block import read_base
from calculators.trade.edid.cta_block import read_cta
from calculators.trade.edid.declaration import Block, Declaration
from calculators.trade.edid.displayid_block import read_displayid
from calculators.trade.edid.pasted_text import BLOCK, HEADER

_CTA, _DISPLAYID, _MAP = 0x02, 0x70, 0xF0
# VESA E-EDID A.2, section 2.2.1 and its list of extension tags, from memory.
_KINDS = {
    _CTA: "CTA-861",
    0x10: "timings of a video terminal",
    0x40: "display information",
    0x50: "localised text",
    0x60: "digital packet link",
    _DISPLAYID: "DisplayID",
    _MAP: "block map",
    0xFF: "the maker's own",
}


def read_declaration(data: bytes) -> Declaration:
    """
    Read a whole declaration.

    Args:
        data: From the base block on. [bytes], 128 or more.

    Returns:
        Everything found. [object]

    Raises:
        ValueError: There are fewer than 128 bytes.

    Source:
        VESA E-EDID Standard Release A, Revision 2, section 2 (blocks and their map), from memory; HDMI 2.1,
        section 10.3.6 (override of the extension count), from memory.

    Example:
        >>> found = read_declaration(bytes([0, 255, 255, 255, 255, 255, 255, 0]) + bytes(120))
        >>> found.version, found.checksums_wrong
        ('0.0', 1)
    """
    if len(data) < BLOCK:
        raise ValueError(f"a declaration has at least {BLOCK} bytes, got {len(data)}")
    edid = Declaration()
    if data[:8] != HEADER:
        edid.broken.append("The first eight bytes are damaged.")
    for start in range(0, len(data), BLOCK):
        block = data[start : start + BLOCK]
        announced = 1 + (edid.extensions_override or edid.extensions_counted)
        if start // BLOCK >= announced and len(set(block)) == 1:
            continue  # what a program padded its file with, not a block
        _read_block(block, start // BLOCK, edid)
    if edid.preferred is None or not edid.preferred.where.startswith("base block"):
        instead = "DisplayID's is taken" if edid.preferred else "no mode is said to be preferred"
        edid.broken.append(f"The first descriptor of the base block holds no detailed timing: {instead}.")
    announced = 1 + (edid.extensions_override or edid.extensions_counted)
    if edid.blocks[-1].number >= announced:
        edid.broken.append(f"It announces {plural(announced - 1, 'extension')}, but more follow; they were read too.")
    return edid


def _read_block(block: bytes, number: int, edid: Declaration) -> None:
    whole = len(block) == BLOCK
    kind = "base block" if number == 0 else _KINDS.get(block[0], f"unknown kind {block[0]}")
    edid.blocks.append(Block(number, kind, whole, whole and sum(block) % 256 == 0))
    if number == 0:
        read_base(block, edid)
    elif block[0] == _CTA:
        read_cta(block, number, edid)
    elif block[0] == _DISPLAYID:
        read_displayid(block, number, edid)
    elif block[0] == _MAP and number != 1 and number != BLOCK:
        edid.broken.append(f"Block {number} is a block map, which belongs in block 1 or 128.")
