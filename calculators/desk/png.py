"""
Writes pictures of exact code values: a PNG of eight bits a channel that says nothing of its colour space.

Such a picture is called untagged: a viewer shows its codes as they are, or takes them for sRGB. Knows no subject.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from zlib import crc32

from calculators.desk.deflate import deflate

_SIGNATURE = b"\x89PNG\r\n\x1a\n"
_EIGHT_BITS, _RED_GREEN_BLUE = 8, 2
_AS_IS, _LIKE_THE_ROW_ABOVE = b"\x00", b"\x02"  # filter types None and Up
_LARGEST = 16384


def _chunk(name: bytes, data: bytes) -> bytes:
    return len(data).to_bytes(4, "big") + name + data + crc32(name + data).to_bytes(4, "big")


def _filtered(rows: Sequence[bytes]) -> Iterator[bytes]:
    """Each row with its filter byte; a row equal to the one above becomes zeros, which pack small."""
    above = None
    for row in rows:
        if row is above or row == above:
            yield _LIKE_THE_ROW_ABOVE + bytes(len(row))
        else:
            yield _AS_IS + row
        above = row


def png(width: int, rows: Sequence[bytes]) -> bytes:
    """
    A picture as a PNG file, the same bytes on every machine.

    Args:
        width: Pixels in a row. [px], 1 to 16384.
        rows: The rows from the top, each red, green, blue for every pixel. [code], 0 to 255.

    Returns:
        The file: true colour, 8 bits a channel, not interlaced, with no colour space named. [bytes]

    Raises:
        ValueError: There is no row, there are too many, or one is not three bytes for every pixel.

    Source:
        W3C PNG (Third Edition), sections 5, 9 and 11, from memory.

    Example:
        >>> len(png(2, [b"\\x00\\x00\\x00\\xff\\xff\\xff"]))
        71
    """
    if not (1 <= width <= _LARGEST and 1 <= len(rows) <= _LARGEST):
        raise ValueError(f"a picture has 1 to {_LARGEST} pixels a side, got {width} by {len(rows)}")
    if any(len(row) != 3 * width for row in rows):
        raise ValueError(f"every row must hold {3 * width} bytes, three for every pixel")
    head = width.to_bytes(4, "big") + len(rows).to_bytes(4, "big") + bytes([_EIGHT_BITS, _RED_GREEN_BLUE, 0, 0, 0])
    # repeats are looked for one byte, one pixel and two pixels back: even areas and stripes of single pixels
    data = deflate(_filtered(rows), distances=(1, 3, 6))
    return _SIGNATURE + _chunk(b"IHDR", head) + _chunk(b"IDAT", data) + _chunk(b"IEND", b"")


def grey_row(codes: Iterable[int]) -> bytes:
    """A row of greys: one code for each pixel."""
    return b"".join(bytes([code]) * 3 for code in codes)
