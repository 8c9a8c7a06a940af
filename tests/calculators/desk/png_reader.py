"""A reader of PNG files for the tests, written from the standard and not from our writer: W3C PNG, from memory."""

from __future__ import annotations

from dataclasses import dataclass
from zlib import crc32, decompress


@dataclass(frozen=True)
class Picture:
    width: int
    height: int
    rows: list[bytes]
    chunks: list[str]

    def pixel(self, x: int, y: int) -> tuple[int, int, int]:
        red, green, blue = self.rows[y][3 * x : 3 * x + 3]
        return red, green, blue


def read_png(file: bytes) -> Picture:
    """An 8-bit true-colour picture, not interlaced; every check of the standard that applies is made."""
    assert file[:8] == bytes([137, 80, 78, 71, 13, 10, 26, 10])
    at, names, head, packed = 8, [], b"", b""
    while at < len(file):
        length = int.from_bytes(file[at : at + 4], "big")
        name, data = file[at + 4 : at + 8], file[at + 8 : at + 8 + length]
        assert int.from_bytes(file[at + 8 + length : at + 12 + length], "big") == crc32(name + data)
        names.append(name.decode("ascii"))
        head = data if name == b"IHDR" else head
        packed += data if name == b"IDAT" else b""
        at += 12 + length
    width, height = int.from_bytes(head[:4], "big"), int.from_bytes(head[4:8], "big")
    assert tuple(head[8:]) == (8, 2, 0, 0, 0)
    data = decompress(packed)
    stride = 3 * width + 1
    assert len(data) == stride * height
    # A row as one number: of each byte the low seven bits are added apart from the eighth, so none carries over.
    high = int.from_bytes(b"\x80" * 3 * width, "big")
    low = int.from_bytes(b"\x7f" * 3 * width, "big")
    rows: list[bytes] = []
    for y in range(height):
        kind, row = data[y * stride], data[y * stride + 1 : (y + 1) * stride]
        assert kind in (0, 2)
        if kind == 2:
            above = int.from_bytes(rows[-1] if rows else bytes(3 * width), "big")
            change = int.from_bytes(row, "big")
            row = (((change & low) + (above & low)) ^ ((change ^ above) & high)).to_bytes(3 * width, "big")
        rows.append(row)
    return Picture(width, height, rows, names)
