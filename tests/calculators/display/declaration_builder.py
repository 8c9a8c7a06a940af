"""
Builds declarations of invented displays, from what they should say to bytes.

Written from the layouts anew, sharing nothing with the reader but VESA's and CTA's own numbers, so that the two
check each other; tests/references/display holds what it builds against edid-decode.
"""

from __future__ import annotations

from collections.abc import Sequence

HEADER = bytes([0, 255, 255, 255, 255, 255, 255, 0])

# Clock [kHz], then active, front porch, sync and total of a line and of a frame.
FULL_HD_60 = (148500, (1920, 88, 44, 2200), (1080, 4, 5, 1125))
UHD_60 = (594000, (3840, 176, 88, 4400), (2160, 8, 10, 2250))
UHD_60_REDUCED = (533250, (3840, 48, 32, 4000), (2160, 3, 5, 2222))
QHD_60_REDUCED = (241500, (2560, 48, 32, 2720), (1440, 3, 5, 1481))
QHD_144 = (586586, (2560, 48, 32, 2720), (1440, 3, 5, 1498))
UHD_144 = (1332280, (3840, 8, 32, 3920), (2160, 139, 8, 2360))
VGA = (25175, (640, 16, 96, 800), (480, 10, 2, 525))

Timing = tuple[int, tuple[int, int, int, int], tuple[int, int, int, int]]


def with_sum(block: bytes) -> bytes:
    """127 bytes and the one that makes them sum to 0 modulo 256."""
    assert len(block) == 127
    return block + bytes([-sum(block) % 256])


def detailed(timing: Timing, interlaced: bool = False) -> bytes:
    """A detailed timing of 18 bytes; an interlaced one is given by a field's lines."""
    clock, (width, h_front, h_sync, h_total), (height, v_front, v_sync, v_total) = timing
    h_blank, v_blank = h_total - width, v_total - height
    return bytes(
        [
            *(clock // 10).to_bytes(2, "little"),
            width & 255, h_blank & 255, width >> 8 << 4 | h_blank >> 8,
            height & 255, v_blank & 255, height >> 8 << 4 | v_blank >> 8,
            h_front & 255, h_sync & 255, (v_front & 15) << 4 | v_sync & 15,
            h_front >> 8 << 6 | h_sync >> 8 << 4 | v_front >> 4 << 2 | v_sync >> 4,
            600 & 255, 340 & 255, 600 >> 8 << 4 | 340 >> 8,
            0, 0, 0x1E | (0x80 if interlaced else 0),
        ]
    )  # fmt: skip


def text_descriptor(tag: int, text: str) -> bytes:
    """A name, serial number or free text of at most 13 letters."""
    return bytes([0, 0, 0, tag, 0]) + (text.encode("ascii") + b"\n").ljust(13)[:13]


def range_limits(low: int, high: int, clock_mhz: int, above_255: bool = False) -> bytes:
    """Refresh from low to high; with above_255 the high end is stored less 255."""
    high_stored = high - 255 if above_255 else high
    head = bytes([0, 0, 0, 0xFD, 2 if above_255 else 0, low, high_stored, 30, 255, (clock_mhz + 9) // 10])
    return head + b"\x01\n" + b" " * 6


SPARE = bytes([0, 0, 0, 0x10, 0]) + bytes(13)


def base(
    descriptors: Sequence[bytes] = (),
    *,
    revision: int = 4,
    video_input: int = 0xB5,
    features: int = 0x02,
    extensions: int = 0,
    serial: int = 0,
    established: bytes = b"\x21\x08\x00",
    standard: bytes = b"\x01\x01" * 8,
) -> bytes:
    """A base block: EDID 1.`revision`; video_input 0xB5 is digital, 10 bits, DisplayPort."""
    parts = [*descriptors, *[SPARE] * 4][:4]
    head = HEADER + b"\x46\x31" + b"\x01\x00" + serial.to_bytes(4, "little") + bytes([10, 35, 1, revision])
    shape = bytes([video_input, 60, 34, 120, features])
    chromaticity = bytes.fromhex("ee91a3544c99260f5054")
    return with_sum(head + shape + chromaticity + established + standard + b"".join(parts) + bytes([extensions]))


def data_block(tag: int, payload: bytes) -> bytes:
    """A CTA-861 data block."""
    return bytes([tag << 5 | len(payload)]) + payload


def extended_block(tag: int, payload: bytes) -> bytes:
    """A CTA-861 data block with an extended tag."""
    return data_block(7, bytes([tag]) + payload)


def formats(*vics: int) -> bytes:
    """The listed formats."""
    return data_block(2, bytes(vics))


def first_hdmi(clock_mhz: int = 340, deep: int = 0, codes: Sequence[int] = ()) -> bytes:
    """The first HDMI block: deep is its byte of deep-colour flags, codes HDMI's own format codes."""
    payload = bytes([0x03, 0x0C, 0x00, 0x10, 0x00, deep, clock_mhz // 5])
    if codes:
        payload += bytes([0x20, 0, len(codes) << 5, *codes])
    return data_block(3, payload)


def second_hdmi_payload(clock_mhz: int, fixed_rate: int, deep_420: int, vrr: tuple[int, int]) -> bytes:
    """What both forms of the second HDMI block hold after their identifier."""
    low, high = vrr
    return bytes([1, clock_mhz // 5, 0x80, fixed_rate << 4 | deep_420, 0, (high >> 8) << 6 | low, high & 255, 0, 0, 0])


def second_hdmi(
    clock_mhz: int = 600, fixed_rate: int = 0, deep_420: int = 0, vrr: tuple[int, int] = (0, 0), form: str = "vendor"
) -> bytes:
    """The second HDMI block, as a vendor's block or under its own extended tag."""
    payload = second_hdmi_payload(clock_mhz, fixed_rate, deep_420, vrr)
    if form == "vendor":
        return data_block(3, bytes([0xD8, 0x5D, 0xC4]) + payload)
    return extended_block(0x79, bytes(2) + payload)


def capability(rgb: bool, ycc: bool = False) -> bytes:
    """The video capability block with both quantization-range bits."""
    return extended_block(0, bytes([(0x80 if ycc else 0) | (0x40 if rgb else 0)]))


def hdr(transfers: int = 0b0101, peak_code: int = 0) -> bytes:
    """The HDR static metadata block; transfers as its bits."""
    return extended_block(6, bytes([transfers, 1]) + (bytes([peak_code]) if peak_code else b""))


def cta(blocks: Sequence[bytes] = (), timings: Sequence[Timing] = (), *, flags: int = 0x30, revision: int = 3) -> bytes:
    """A CTA-861 extension; flags 0x30 are both Y′CbCr samplings."""
    data = b"".join(blocks)
    body = bytes([2, revision, 4 + len(data), flags]) + data + b"".join(detailed(t) for t in timings)
    return with_sum(body.ljust(127, b"\0"))


def displayid_block(tag: int, payload: bytes, flags: int = 0) -> bytes:
    """A DisplayID data block."""
    return bytes([tag, flags, len(payload)]) + payload


def long_timing(timing: Timing, unit_khz: int = 1, preferred: bool = False) -> bytes:
    """A DisplayID timing of 20 bytes: type VII with a unit of 1 kHz, type I with 10 kHz."""
    clock, horizontal, vertical = timing
    stored = bytearray((clock // unit_khz - 1).to_bytes(3, "little"))
    stored.append((0x80 if preferred else 0) | 4)
    for active, front, sync, total in (horizontal, vertical):
        for value in (active, total - active, front, sync):
            stored += (value - 1).to_bytes(2, "little")
    return bytes(stored)


def displayid(blocks: Sequence[bytes], *, version: int = 0x20) -> bytes:
    """A DisplayID extension with the sums of its section and of the block."""
    data = b"".join(blocks)
    section = bytes([version, len(data), 3 if version < 0x20 else 4, 0]) + data
    return with_sum((bytes([0x70]) + section + bytes([-sum(section) % 256])).ljust(127, b"\0"))


def interface_features(spaces: int = 0, further: Sequence[tuple[int, int]] = (), rgb: int = 0x06) -> bytes:
    """DisplayID 2's interface features: fixed pairs of colour space and curve as bits, further ones as pairs."""
    pairs = bytes(space << 4 | curve for space, curve in further)
    return displayid_block(0x26, bytes([rgb, 0, 0, 0, 0, 0, spaces, 0, len(pairs)]) + pairs)


def dynamic_range(low: int, high: int, clock_khz: int, seamless: bool = False) -> bytes:
    """DisplayID 2's dynamic timing range."""
    clocks = (25_000).to_bytes(3, "little") + (clock_khz - 1).to_bytes(3, "little")
    return displayid_block(0x25, clocks + bytes([low, high, 0x80 if seamless else 0]))


def tiles(across: int, down: int, width: int, height: int, alone: int = 0) -> bytes:
    """DisplayID 2's tiled topology: the first of across × down tiles."""
    size = (width - 1).to_bytes(2, "little") + (height - 1).to_bytes(2, "little")
    return displayid_block(0x28, bytes([0x80 | alone, (across - 1) << 4 | down - 1, 0, 0]) + size + bytes(14))


def parameters(width: int, height: int) -> bytes:
    """DisplayID 2's display parameters with the native grid of pixels."""
    size = width.to_bytes(2, "little") + height.to_bytes(2, "little")
    return displayid_block(0x21, bytes(4) + size + bytes(19) + bytes([3, 0]))


def block_map(*tags: int) -> bytes:
    """A block map."""
    return with_sum(bytes([0xF0, *tags]).ljust(127, b"\0"))


def desk_display() -> bytes:
    """Maker A's invented desk display: 3840 by 2160, reduced blanking at 60, 144 in DisplayID."""
    return (
        base(
            [
                detailed(UHD_60_REDUCED),
                range_limits(48, 144, 1340),
                text_descriptor(0xFC, "Maker A 27"),
                text_descriptor(0xFF, "A0123456789"),
            ],
            extensions=2,
            serial=123456789,
        )
        + cta([formats(97, 96, 16, 4, 1), capability(True, True), hdr(0b0101, 0x60)])
        + displayid(
            [
                displayid_block(0x22, long_timing(UHD_144, preferred=False)),
                displayid_block(0x26, bytes([0x06, 0x06, 0x06, 0, 0, 0, 0, 0, 0])),
            ]
        )
    )


def television() -> bytes:
    """Maker B's invented television: 3840 by 2160 as a television format, 4:2:0, both HDMI blocks."""
    return base(
        [detailed(UHD_60), detailed(FULL_HD_60), text_descriptor(0xFC, "Maker B TV"), range_limits(24, 120, 600)],
        revision=3,
        video_input=0x80,
        features=0x0A,
        extensions=1,
    ) + cta(
        [
            formats(97, 96, 95, 94, 93, 16, 31, 4, 19, 1),
            extended_block(15, bytes([0b11])),
            first_hdmi(340, 0b0111_1000, (1, 2)),
            second_hdmi(600, 5, 0b011, (48, 120)),
            capability(True, False),
            extended_block(5, bytes([0xC0, 0x80])),
            hdr(0b1101, 0x70),
        ]
    )


def old_display() -> bytes:
    """Maker C's invented older display: 1920 by 1080, version 1.3, a DVI input, no extension."""
    return base(
        [detailed(FULL_HD_60), range_limits(56, 76, 170), text_descriptor(0xFC, "Maker C 22")],
        revision=3,
        video_input=0x80,
        features=0x0A,
        established=b"\xa5\x4b\x00",
        standard=bytes([0xD1, 0xC0, 0x81, 0xC0, 0xB3, 0x00]) + b"\x01\x01" * 5,
    )


def office_display() -> bytes:
    """Maker D's invented office display: Full HD over HDMI, limited range only as a television format."""
    return base(
        [detailed(FULL_HD_60), range_limits(50, 75, 170), text_descriptor(0xFC, "Maker D 24")],
        revision=3,
        video_input=0x80,
        features=0x0A,
        extensions=1,
    ) + cta([formats(16, 31, 4, 3, 1), first_hdmi(165, 0), capability(False)], [QHD_60_REDUCED])
