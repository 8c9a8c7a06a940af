"""
A small deflate compressor for pictures: fixed Huffman codes, and repeats at known distances alone.

The compressed bytes of the standard library's zlib differ from build to build, and an answer must be the same bytes
everywhere, so only its checksums are used here. Knows no picture; desk/png.py packs rows with it.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from zlib import adler32

_LONGEST = 258
_END = 256


def _reversed(code: int, bits: int) -> int:
    """A code with its bits in the order in which they are written: the most significant first."""
    return int(f"{code:0{bits}b}"[::-1], 2)


def _symbols() -> list[tuple[int, int]]:
    """The fixed code of every literal and length symbol: (bits as written, count). RFC 1951, section 3.2.6."""
    table = []
    for symbol in range(288):
        if symbol < 144:
            code, bits = 0x30 + symbol, 8
        elif symbol < 256:
            code, bits = 0x190 + symbol - 144, 9
        elif symbol < 280:
            code, bits = symbol - 256, 7
        else:
            code, bits = 0xC0 + symbol - 280, 8
        table.append((_reversed(code, bits), bits))
    return table


def _ranges(first: int, extra: Iterable[int]) -> list[tuple[int, int]]:
    """The start of each symbol's range and its extra bits. RFC 1951, section 3.2.5."""
    table, start = [], first
    for bits in extra:
        table.append((start, bits))
        start += 1 << bits
    return table


_SYMBOLS = _symbols()
_LENGTHS = _ranges(3, [0] * 8 + [b for b in range(1, 6) for _ in range(4)])  # 257 to 284; 285 is the longest alone
_DISTANCES = _ranges(1, [0, 0] + [b for b in range(14) for _ in range(2)])  # 0 to 29


# Pieces of the stream are written as text, bit by bit in their order: whole numbers of that many bits are slow to join.
def _text(bits: int, count: int) -> str:
    return f"{bits:0{count}b}"[::-1] if count else ""


_LITERALS = tuple(_text(*_SYMBOLS[byte]) for byte in range(256))


@lru_cache(maxsize=4096)
def _copy(length: int, distance: int) -> str:
    """The bits that say 'repeat so many bytes from so far back'."""
    if length == _LONGEST:
        bits = _text(*_SYMBOLS[285])
    else:
        index = max(i for i, (start, _) in enumerate(_LENGTHS) if start <= length)
        start, extra = _LENGTHS[index]
        bits = _text(*_SYMBOLS[257 + index]) + _text(length - start, extra)
    index = max(i for i, (start, _) in enumerate(_DISTANCES) if start <= distance)
    start, extra = _DISTANCES[index]
    return bits + _text(_reversed(index, 5), 5) + _text(distance - start, extra)


_UNLIKE = bytes([0] + [1] * 255)


def _likeness(part: bytes, distance: int) -> bytes:
    """For every byte from `distance` on: 0 where it is the one that stands so far before it, 1 where it is not."""
    size = len(part) - distance
    if size <= 0:
        return b""
    differs = int.from_bytes(part[distance:], "little") ^ int.from_bytes(part[:size], "little")
    return differs.to_bytes(size, "little").translate(_UNLIKE)


def _pack(part: bytes, distances: tuple[int, ...]) -> tuple[int, int]:
    """One part as bits, the first lowest, and their count."""
    size, at = len(part), 0
    pieces: list[str] = []
    rows = [(distance, _likeness(part, distance)) for distance in sorted(distances)]
    nexts = [-1] * len(rows)  # where each row's next repeat begins, as far as it has been looked for
    while at < size:
        # Where the next repeat of three begins, by whichever distance; up to there every byte stands for itself.
        begins = size
        for i, (distance, row) in enumerate(rows):
            if nexts[i] < at:
                zeros_at = row.find(b"\0\0\0", max(at - distance, 0))
                nexts[i] = zeros_at + distance if zeros_at >= 0 else size
            begins = min(begins, nexts[i])
        if begins > at:
            pieces += [_LITERALS[byte] for byte in part[at:begins]]
            at = begins
            continue
        longest, nearest = 0, 0  # of equals the nearest
        for distance, row in rows:
            if at >= distance:
                end = row.find(1, at - distance, at - distance + _LONGEST)
                length = (end if end >= 0 else min(at - distance + _LONGEST, len(row))) - (at - distance)
                if length > longest:
                    longest, nearest = length, distance
        pieces.append(_copy(longest, nearest))
        at += longest
    text = "".join(pieces)
    return int(text[::-1] or "0", 2), len(text)


def deflate(parts: Iterable[bytes], distances: tuple[int, ...] = (1,)) -> bytes:
    """
    Pack bytes into a zlib stream, the same bytes on every machine.

    Args:
        parts: The bytes in parts; each is packed by itself, and equal parts only once. [bytes]
        distances: How far back repeats are looked for. [byte], 1 to 32768.

    Returns:
        A zlib stream of one block with fixed codes. [bytes]

    Source:
        RFC 1950 (stream and checksum), RFC 1951, sections 3.2.5 and 3.2.6 (codes), from memory.

    Example:
        >>> from zlib import decompress
        >>> decompress(deflate([b"aaaaaaaaab", b"c"]))
        b'aaaaaaaaabc'
    """
    made = bytearray(b"\x78\x01")  # deflate, window of 32 KiB, fastest
    bits, count = 0b011, 3  # the last block, with fixed codes
    checksum = 1
    known: dict[bytes, tuple[int, int]] = {}
    for part in parts:
        checksum = adler32(part, checksum)
        packed = known.get(part)
        if packed is None:
            packed = known[part] = _pack(part, distances)
        bits |= packed[0] << count
        count += packed[1]
        whole = count // 8
        made += (bits & ((1 << 8 * whole) - 1)).to_bytes(whole, "little")
        bits >>= 8 * whole
        count -= 8 * whole
    bits |= _SYMBOLS[_END][0] << count
    count += _SYMBOLS[_END][1]
    made += bits.to_bytes((count + 7) // 8, "little")
    return bytes(made) + checksum.to_bytes(4, "big")
