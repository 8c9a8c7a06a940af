"""
A small packer of our own for pictures: fixed codes and runs that repeat at known distances.

The packed bytes of the library's zlib differ from build to build, and an answer must be the same bytes
everywhere, so only its checksums are used here. Knows no picture; desk/png.py packs rows with it.
"""

from __future__ import annotations

from collections.abc import Iterable
from zlib import adler32

_LONGEST, _SHORTEST = 258, 3
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


def _copy(length: int, distance: int) -> tuple[int, int]:
    """The bits that say 'repeat so many bytes from so far back', and their count."""
    if length == _LONGEST:
        bits, count = _SYMBOLS[285]
    else:
        index = max(i for i, (start, _) in enumerate(_LENGTHS) if start <= length)
        start, extra = _LENGTHS[index]
        bits, count = _SYMBOLS[257 + index]
        bits |= (length - start) << count
        count += extra
    index = max(i for i, (start, _) in enumerate(_DISTANCES) if start <= distance)
    start, extra = _DISTANCES[index]
    bits |= _reversed(index, 5) << count
    bits |= (distance - start) << (count + 5)
    return bits, count + 5 + extra


def _repeats(part: bytes, at: int, distance: int) -> int:
    """For how many bytes, at most 258, a part repeats what stands `distance` before."""
    most = min(_LONGEST, len(part) - at)
    if part[at : at + _SHORTEST] != part[at - distance : at - distance + _SHORTEST]:
        return 0
    if part[at : at + most] == part[at - distance : at - distance + most]:
        return most
    low, high = _SHORTEST, most  # the first `low` bytes agree, the first `high` do not
    while high - low > 1:
        middle = (low + high) // 2
        if part[at : at + middle] == part[at - distance : at - distance + middle]:
            low = middle
        else:
            high = middle
    return low


def _pack(part: bytes, distances: tuple[int, ...]) -> tuple[int, int]:
    """One part as bits, the first lowest, and their count."""
    bits, count, at = 0, 0, 0
    pieces: list[tuple[int, int]] = []
    while at < len(part):
        length, distance = max(((_repeats(part, at, d), -d) for d in distances if d <= at), default=(0, -1))
        if length >= _SHORTEST:
            pieces.append(_copy(length, -distance))
            at += length
        else:
            pieces.append(_SYMBOLS[part[at]])
            at += 1
    for piece, size in pieces:
        bits |= piece << count
        count += size
    return bits, count


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
