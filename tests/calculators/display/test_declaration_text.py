"""From pasted text to bytes: every way in which systems print them, and every way to go wrong."""

from __future__ import annotations

from base64 import b64encode

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.trade.edid.pasted_text import BLOCK, HEADER, read_text
from tests.calculators.display.declaration_builder import desk_display, old_display, television

DESK = desk_display()
OLD = old_display()


def lines_of(data: bytes, width: int = 16) -> list[tuple[int, bytes]]:
    return [(i, data[i : i + width]) for i in range(0, len(data), width)]


def letters(part: bytes) -> str:
    return "".join(chr(b) if 32 <= b < 127 else "." for b in part)


def canonical_dump(data: bytes) -> str:
    """As `hexdump -C` prints: two groups of eight, letters between bars, a star for lines that repeat."""
    rows, last = [], b""
    for offset, part in lines_of(data):
        if part == last:
            if rows[-1] != "*":
                rows.append("*")
            continue
        last = part
        halves = part[:8].hex(" "), part[8:].hex(" ")
        rows.append(f"{offset:08x}  {halves[0]}  {halves[1]}  |{letters(part)}|")
    return "\n".join([*rows, f"{len(data):08x}"])


def words_low_first(data: bytes) -> str:
    """As `hexdump` prints without options: words of sixteen bits, the low byte second."""
    rows = [
        f"{offset:07x} " + " ".join(f"{part[i + 1]:02x}{part[i]:02x}" for i in range(0, len(part), 2))
        for offset, part in lines_of(data)
    ]
    return "\n".join([*rows, f"{len(data):07x}"])


def in_fours(data: bytes) -> str:
    """As `xxd` prints."""
    rows = []
    for offset, part in lines_of(data):
        groups = " ".join(part[i : i + 2].hex() for i in range(0, 16, 2))
        rows.append(f"{offset:08x}: {groups}  {letters(part)}")
    return "\n".join(rows)


def octal_offsets(data: bytes) -> str:
    """As `od -t x1` prints: the offset counts in eights."""
    rows = [f"{offset:07o} {part.hex(' ')}" for offset, part in lines_of(data)]
    return "\n".join([*rows, f"{len(data):07o}"])


def with_a_head(data: bytes) -> str:
    """As the Windows shell's Format-Hex prints: a head of column numbers, then offset, bytes, letters."""
    head = "           Path: edid.bin\n\n           " + " ".join(f"{i:02X}" for i in range(16)) + "\n\n"
    return head + "\n".join(f"{o:08X}   {p.hex(' ').upper()}  {letters(p)}" for o, p in lines_of(data))


def tabbed(data: bytes) -> str:
    """As certutil prints: a short offset, a tab, letters."""
    return "\n".join(f"{o:04x}\t{p[:8].hex(' ')}  {p[8:].hex(' ')}   {letters(p)}" for o, p in lines_of(data))


def registry_file(data: bytes) -> str:
    pairs = data.hex(",").split(",")
    rows = [pairs[i : i + 25] for i in range(0, len(pairs), 25)]
    body = ",\\\n  ".join(",".join(row) for row in rows)
    return f'Windows Registry Editor Version 5.00\n\n[HKEY_LOCAL_MACHINE\\A\\B]\n"EDID"=hex:{body}\n'


def tree_of_properties(data: bytes) -> str:
    """As macOS prints its registry of devices."""
    return (
        '  | {\n  |   "IOClass" = "Something"\n  |   "IODisplayEDID" = <'
        + data.hex()
        + '>\n  |   "IODisplayFlags" = 12\n  |   "AAPL,DisplayCount" = 1\n  | }\n'
    )


def property_list(data: bytes) -> str:
    text = b64encode(data).decode()
    rows = "\n\t\t".join(text[i : i + 52] for i in range(0, len(text), 52))
    return f'<?xml version="1.0"?>\n<dict>\n\t<key>IODisplayEDID</key>\n\t<data>\n\t\t{rows}\n\t</data>\n</dict>\n'


def window_system(data: bytes) -> str:
    rows = "\n".join(f"\t\t{part.hex()}" for _, part in lines_of(data))
    return (
        "DP-1 connected primary 3840x2160+0+0 (normal) 597mm x 336mm\n\tEDID:\n"
        + rows
        + "\n\tBroadcast RGB: Automatic\n\t\tsupported: Automatic, Full, Limited 16:235\n   3840x2160 60.00*+ 144.01\n"
    )


def log_of_the_window_system(data: bytes) -> str:
    rows = "\n".join(f"[    12.345] (II) modeset(0): \t{part.hex()}" for _, part in lines_of(data))
    return f"[    12.340] (II) modeset(0): EDID (in hex):\n{rows}\n[    12.346] (II) modeset(0): EDID vendor, 5 modes\n"


def base64_below_its_path(data: bytes) -> str:
    """As a shell prints several files, each below its path."""
    text = b64encode(data).decode()
    rows = "\n".join(text[i : i + 76] for i in range(0, len(text), 76))
    return (
        f"/sys/class/drm/card1-DP-1/edid\n/sys/class/drm/card1-DP-2/edid\n{rows}\n/sys/class/drm/card1-HDMI-A-1/edid\n"
    )


def pairs_below_its_path(data: bytes) -> str:
    rows = "\n".join(f" {part.hex(' ')}" for _, part in lines_of(data))
    return (
        f"/sys/class/drm/card1-DP-1/edid\n/sys/class/drm/card1-DP-2/edid\n{rows}\n/sys/class/drm/card1-HDMI-A-1/edid\n"
    )


def hyphens_below_its_key(data: bytes) -> str:
    key = "Registry::HKEY_LOCAL_MACHINE\\SYSTEM\\Enum\\DISPLAY\\QQQ0001\\5&1a2b3c4d&0&UID4352\\Device Parameters"
    return f"{key}\r\n{data.hex('-').upper()}\r\n"


WRITTEN = {
    "base64 below its path": base64_below_its_path(DESK),
    "pairs below its path": pairs_below_its_path(DESK),
    "hyphens below its key": hyphens_below_its_key(DESK),
    "pairs": DESK.hex(" "),
    "one long line": DESK.hex(),
    "capitals": DESK.hex(" ").upper(),
    "rows": "\n".join(p.hex(" ") for _, p in lines_of(DESK)),
    "hyphens": DESK.hex("-").upper(),
    "colons": DESK.hex(":"),
    "C array": "{ " + ", ".join(f"0x{b:02x}" for b in DESK) + " };",
    "C array, short": ", ".join(f"0x{b:x}" for b in DESK),
    "backslashes": "".join(f"\\x{b:02x}" for b in DESK),
    "base64": b64encode(DESK).decode(),
    "base64, the other alphabet": b64encode(DESK).decode().replace("+", "-").replace("/", "_"),
    "base64 in rows": "\n".join(b64encode(DESK[i : i + 57]).decode() for i in range(0, len(DESK), 57)),
    "base64 framed": "-----BEGIN CERTIFICATE-----\n" + b64encode(DESK).decode() + "\n-----END CERTIFICATE-----\n",
    "data address": "data:application/octet-stream;base64," + b64encode(DESK).decode(),
    "decimal": "\r\n".join(str(b) for b in DESK),
    "decimal list": "[" + ", ".join(str(b) for b in DESK) + "]",
    "hexdump -C": canonical_dump(DESK),
    "hexdump": words_low_first(DESK),
    "xxd": in_fours(DESK),
    "od": octal_offsets(DESK),
    "Format-Hex": with_a_head(DESK),
    "certutil": tabbed(DESK),
    "registry file": registry_file(DESK),
    "registry query": f"    EDID    REG_BINARY    {DESK.hex().upper()}\r\n",
    "tree of properties": tree_of_properties(DESK),
    "property list": property_list(DESK),
    "window system": window_system(DESK),
    "log": log_of_the_window_system(DESK),
    "broken in mid-pair": "\n".join(DESK.hex()[i : i + 79] for i in range(0, 2 * len(DESK), 79)),
    "byte order mark": "\ufeff" + DESK.hex(),
}


@pytest.mark.parametrize("way", WRITTEN)
def test_every_way_of_writing_gives_the_same_bytes(way):
    found = read_text(WRITTEN[way])
    assert found.data[: len(DESK)] == DESK
    assert len(found.data) == len(DESK)
    assert found.further == 0


def test_a_star_in_a_dump_stands_for_the_lines_that_repeat():
    padded = old_display() + bytes(128)
    text = canonical_dump(padded)
    assert "*" in text
    assert read_text(text).data == padded


def test_two_displays_in_one_output_are_told_and_the_first_is_read():
    text = window_system(DESK) + window_system(television()).replace("DP-1", "HDMI-1")
    found = read_text(text)
    assert found.data == DESK
    assert found.further == 1


def test_the_same_display_twice_is_no_further_one():
    assert read_text(tree_of_properties(DESK) * 2).further == 0


def test_bytes_before_the_header_are_left():
    assert read_text("12 34 " + OLD.hex(" ")).data == OLD


def test_a_damaged_header_is_read_as_long_as_most_of_it_is_there():
    damaged = b"\x00\xff\xff\xfe\xff\xff\xff\x00" + OLD[8:]
    assert read_text(damaged.hex()).data == damaged


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "nothing was pasted"),
        ("   \n", "nothing was pasted"),
        ("please see the file I attached", "no bytes were found in it"),
        ("00 ff ff", "only 3 bytes were found, and a declaration has at least 128"),
        (OLD[:127].hex(), "only 127 bytes were found, and a declaration has at least 128"),
        (bytes(200).hex(), "200 bytes were found, but nowhere the eight bytes 00 FF FF FF FF FF FF 00"),
        ("é" * 1000, "no bytes were found in it"),
        ("\x00" * 300, "no bytes were found in it"),
    ],
)
def test_what_cannot_be_read_is_said_in_a_sentence(text, reason):
    with pytest.raises(ValueError, match=f"^{reason}") as caught:
        read_text(text)
    assert "attached" not in str(caught.value)


def test_no_more_than_256_blocks_are_kept():
    assert len(read_text((OLD + bytes(40_000)).hex()).data) == 256 * BLOCK


@settings(deadline=None)
@given(st.binary(min_size=BLOCK - 8, max_size=3 * BLOCK), st.sampled_from(["", " ", "\n", ",", ", ", "-", ":", "\t"]))
def test_any_bytes_round_trip_through_pairs(body, between):
    data = HEADER + body
    assert read_text(between.join(f"{b:02x}" for b in data)).data == data


@settings(deadline=None)
@given(st.binary(min_size=BLOCK - 8, max_size=3 * BLOCK))
def test_any_bytes_round_trip_through_dumps_and_base64(body):
    data = HEADER + body + bytes(-(8 + len(body)) % 16)
    for text in (canonical_dump(data), in_fours(data), octal_offsets(data), tabbed(data), with_a_head(data)):
        assert read_text(text).data == data
    assert read_text(b64encode(data).decode()).data == data


def outcome(text: str) -> bool:
    """Whether a text gave a declaration of allowed length, or a refusal in words; anything else is raised."""
    try:
        found = read_text(text)
    except ValueError as problem:
        return type(problem) is ValueError and len(str(problem).split()) > 2
    return BLOCK <= len(found.data) <= 256 * BLOCK


@settings(deadline=None)
@given(st.text(max_size=2000))
def test_any_text_gives_bytes_or_a_sentence(text):
    assert outcome(text)


@settings(deadline=None)
@given(st.data())
def test_a_spoilt_dump_gives_bytes_or_a_sentence(data):
    text = WRITTEN[data.draw(st.sampled_from(sorted(WRITTEN)))]
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(text)))
        gone = data.draw(st.integers(0, 40))
        text = text[:at] + data.draw(st.text(max_size=8)) + text[at + gone :]
    assert outcome(text)
