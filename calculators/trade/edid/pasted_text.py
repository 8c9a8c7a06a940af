"""
From what somebody pasted to bytes: a display's declaration as hexadecimal, base64, decimal numbers, a dump
with offsets, or buried in a command's longer output.

Each reader knows one way of writing and gives None where the text is not written so. The first reading that
begins as a declaration begins wins; without one, the first that could be read at all.
"""

from __future__ import annotations

import re
from binascii import Error as NotBase64
from binascii import a2b_base64
from dataclasses import dataclass

HEADER = b"\x00\xff\xff\xff\xff\xff\xff\x00"  # VESA E-EDID A.2, section 3.3: every base block begins so
BLOCK = 128
_MOST_BLOCKS = 256
_HEADER_BYTES_ENOUGH = 5  # of eight: a header damaged more than this is not taken for one

# One byte as people write it, and a run of such bytes with the usual signs between them.
_PAIR = r"(?:0x|\\x)?[0-9a-f]{2}"
_RUN = re.compile(rf"(?<![0-9a-z]){_PAIR}(?:[\s,:;-]*{_PAIR})*(?![0-9a-z])", re.I)
_PREFIXES = re.compile(r"0x|\\x", re.I)
_SINGLE = re.compile(r"\b0x([0-9a-f])\b", re.I)
_SIGNS = re.compile(r"[\s,;:\\<>{}()\[\]\"'-]+")
_HEX = re.compile(r"(?:[0-9a-f]{2})+", re.I)
_DUMP_LINE = re.compile(r"[^0-9A-Za-z]{0,8}(?:0x)?([0-9A-Fa-f]{2,16})[\]:h|]*(?:[ \t]+(\S.*))?")
_BASE64 = re.compile(r"[0-9A-Za-z+/]{40,}={0,2}")
_BASE64_HEADER = "AP///////w"  # the eight bytes above in base64, but for the last four bits
_LEAST_RUN = 8  # bytes: shorter runs in a longer output are times, sizes and numbers
_WIDEST_LINE = 64


@dataclass(frozen=True, slots=True)
class Pasted:
    """The bytes of one declaration; how they were written; whether the text held further, different ones."""

    data: bytes
    written: str
    further: int = 0


def read_text(text: str) -> Pasted:
    """
    The declaration in a text.

    Args:
        text: What was pasted: hexadecimal, base64, decimal numbers, a dump, or a longer output that holds one
            of these. [text], any length.

    Returns:
        Its bytes from the header on, at most 256 blocks, and how they were written. [object]

    Raises:
        ValueError: There is no declaration in it, or less than one block of 128 bytes. The sentence part says
            what was found, and never repeats the text.

    Source:
        VESA E-EDID Standard Release A, Revision 2, section 3.3 (header), from memory; RFC 4648 (base64).

    Example:
        >>> read_text("00 FF FF FF FF FF FF 00 " + "00 " * 120).written
        'hexadecimal'
    """
    text = text.lstrip("\ufeff").strip()
    if not text:
        raise ValueError("nothing was pasted")
    readings = [
        Pasted(data, written, further)
        for written, reader in _READERS
        for data, further in [reader(text)]
        if data is not None
    ]
    begun = [Pasted(f.data[f.data.find(HEADER) :], f.written, f.further) for f in readings if HEADER in f.data]
    likeliest = sorted(
        readings, key=lambda f: -_header_bytes_right(f.data)
    )  # stable: equals keep the order of the readers
    chosen = next((f for f in begun if len(f.data) >= BLOCK), None) or next(iter(begun or likeliest), None)
    if chosen is None:
        raise ValueError(
            "no bytes were found in it; copy the whole output, or the file's contents as hexadecimal or base64"
        )
    if len(chosen.data) < BLOCK:
        raise ValueError(f"only {len(chosen.data)} bytes were found, and a declaration has at least {BLOCK}")
    if _header_bytes_right(chosen.data) < _HEADER_BYTES_ENOUGH:
        raise ValueError(
            f"{len(chosen.data)} bytes were found, but nowhere the eight bytes 00 FF FF FF FF FF FF 00 with "
            "which every declaration begins"
        )
    return Pasted(chosen.data[: BLOCK * _MOST_BLOCKS], chosen.written, chosen.further)


def _header_bytes_right(data: bytes) -> int:
    return sum(a == b for a, b in zip(data, HEADER, strict=False))


_Reading = tuple[bytes | None, int]
_NONE: _Reading = (None, 0)


def _dump(text: str) -> _Reading:
    """Lines that begin with their offset, as hexdump, xxd, od, certutil and Format-Hex print them."""
    for base in (16, 8, 10):
        data = _dump_in_base(text.splitlines(), base)
        if data:
            return data, 0
    return _NONE


def _dump_in_base(lines: list[str], base: int) -> bytes | None:
    rows: list[tuple[int, str]] = []  # offset, the rest; offset -1 for the '*' that stands for repeated lines
    for line in lines:
        if line.strip() == "*":
            rows.append((-1, ""))
            continue
        match = _DUMP_LINE.fullmatch(line.rstrip())
        if match is None:
            continue
        try:
            rows.append((int(match[1], base), match[2] or ""))
        except ValueError:
            continue
    start = next((i for i in range(len(rows) - 1) if rows[i][0] == 0 and rows[i + 1][0] != 0), None)
    if start is None:
        return None
    data, width, repeat = bytearray(), 0, False
    for i in range(start, len(rows)):
        offset, rest = rows[i]
        if offset == -1:
            repeat = True
            continue
        gap = offset - len(data)
        if repeat and width and gap > 0 and gap % width == 0 and offset <= BLOCK * _MOST_BLOCKS:
            data += bytes(data[-width:]) * (gap // width)
        elif gap:
            break
        repeat = False
        following = rows[i + 1][0] - offset if i + 1 < len(rows) else 0
        if not width:
            width = following if following > 0 else 16
            if width > _WIDEST_LINE:
                return None
        part = _row_bytes(rest, width)
        data += part
        if len(part) < width:
            break
    if data[:8] == b"\xff\x00\xff\xff\xff\xff\x00\xff":  # hexdump without options prints words, low byte second
        data = bytearray(data[i ^ 1] for i in range(len(data) // 2 * 2))
    return bytes(data) if len(data) > width else None


def _row_bytes(rest: str, width: int) -> bytes:
    """The bytes at the start of a dump's line, no more than `width`; the column of letters is left."""
    data = bytearray()
    for token in rest.replace("-", " ").split():
        if not _HEX.fullmatch(token):
            break
        data += bytes.fromhex(token)
        if len(data) >= width:
            break
    return bytes(data[:width])


def _plain_hex(text: str) -> _Reading:
    """Nothing but hexadecimal digits in whole pairs, and the signs between them."""
    parts = _digits(text).split()
    whole = bool(parts) and all(_HEX.fullmatch(p) for p in parts)
    return (bytes.fromhex("".join(parts)), 0) if whole else _NONE


def _joined_hex(text: str) -> _Reading:
    """Hexadecimal digits whose lines break within a pair. Tried last, since a stray digit shifts all that follow it."""
    digits = "".join(_digits(text).split())
    return (bytes.fromhex(digits), 0) if _HEX.fullmatch(digits) else _NONE


def _digits(text: str) -> str:
    """The text with single spaces for all signs between digits."""
    return _SIGNS.sub(" ", _PREFIXES.sub(" ", _SINGLE.sub(r"0\1", text)))


def _base64(text: str) -> _Reading:
    """Nothing but base64, with or without line ends, a frame of dashes, or a data address before it."""
    text_only = "".join(line.strip() for line in text.splitlines() if not line.startswith("-----"))
    text_only = text_only.rpartition("base64,")[2].strip("\"'").replace(" ", "").replace("\t", "")
    if not any(sign in text_only for sign in "+/"):  # the other alphabet of RFC 4648, never a mixture of both
        text_only = text_only.replace("-", "+").replace("_", "/")
    return (_decoded(text_only), 0) if _BASE64.fullmatch(text_only) else _NONE


def _decoded(digits: str) -> bytes | None:
    """Base64 decoded; a ragged end is cut to whole bytes."""
    digits = digits.rstrip("=")
    digits = digits[: len(digits) - (len(digits) % 4 == 1)]
    try:
        return a2b_base64(digits + "=" * (-len(digits) % 4))
    except NotBase64:
        return None


def _decimal(text: str) -> _Reading:
    """Numbers from 0 to 255, as some shells print bytes."""
    tokens = re.split(r"[\s,;]+", text.strip("[](){} \t\r\n,;"))
    if len(tokens) < BLOCK or not all(t.isascii() and t.isdigit() and len(t) <= 3 for t in tokens):
        return _NONE
    values = [int(t) for t in tokens]
    return (bytes(values), 0) if max(values) < 256 else _NONE


def _buried(text: str) -> _Reading:
    """The first declaration inside a longer output, line by line, and how many different ones follow."""
    edids: list[bytes] = []
    current: bytearray | None = None
    for line in [*text.splitlines(), "end"]:
        if current is not None and not line.strip():
            continue
        part = _longest_run(line)
        at = part.find(HEADER)
        if at >= 0 and (current is None or len(current) >= BLOCK):
            if current:
                edids.append(bytes(current))
            current = bytearray(part[at:])
        elif current is not None and (len(part) >= _LEAST_RUN or (part and _plain_hex(line)[0])):
            current += part
        elif current is not None:
            edids.append(bytes(current))
            current = None
    if not edids:
        return _buried_base64(text)
    edids.sort(key=lambda d: len(d) < BLOCK)  # a stable sort: whole ones stand before cut ones, each kind in its order
    return edids[0], len({d for d in edids if d != edids[0]})


def _longest_run(line: str) -> bytes:
    runs = [bytes.fromhex("".join(_digits(m[0]).split())) for m in _RUN.finditer(line)]
    return max(runs, key=len, default=b"")


def _buried_base64(text: str) -> _Reading:
    """Lines of base64 inside other text: they are of one length, and a shorter one is the last."""
    lines = [line.strip() for line in text.splitlines()]
    first = next((i for i, line in enumerate(lines) if _BASE64_HEADER in line), None)
    if first is None:
        return _NONE
    start = re.match(r"[0-9A-Za-z+/]+=*", lines[first][lines[first].find(_BASE64_HEADER) :])
    digits = start[0] if start else ""
    for line in lines[first + 1 :] if lines[first].endswith(digits) else ():
        if digits.endswith("=") or not re.fullmatch(r"[0-9A-Za-z+/]+=*", line):
            break
        digits += line
        if len(line) < len(lines[first]):
            break
    return _decoded(digits), 0


_READERS = (
    ("a dump with offsets", _dump),
    ("hexadecimal", _plain_hex),
    ("base64", _base64),
    ("decimal numbers", _decimal),
    ("part of a longer output", _buried),
    ("hexadecimal", _joined_hex),
)
