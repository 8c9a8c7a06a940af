"""
Declarations held against edid-decode, a reader of the video drivers' own maintainers that Debian packages.

Every declaration is built here, from fixed seeds: hundreds of timings and flags that no one chose by hand.
"""

from __future__ import annotations

import re
import shutil
import subprocess
from random import Random

import pytest

from calculators.trade.edid.parser import read_declaration
from calculators.trade.modes.cta_861 import FORMATS
from tests.calculators.display import declaration_builder as build

EDID_DECODE = shutil.which("edid-decode")
if EDID_DECODE is None:
    pytest.skip("edid-decode is not on this machine (Debian: edid-decode)", allow_module_level=True)

TIMING = re.compile(
    r"^ +(?:DTD(?: \d+)?|VTDB \d+|(?:HDMI )?VIC +\d+|DMT 0x\w\w|IBM|Apple|VESA|GTF|EDID|CVT ?(?:\(RB[v\d]*\))?)\s*: +"
    r"(?P<width>\d+)x(?P<height>\d+)(?P<interlaced>i)? +(?P<refresh>[\d.]+) Hz .*?(?P<clock>[\d.]+) MHz",
    re.M,
)
HALF_OF_SIXTH_DECIMAL = 6e-7  # edid-decode prints refresh with six decimals
NAMED_HZ = 0.9  # a mode named 72 Hz runs at 72.81, one named 88 at 87.85


def decoded(data: bytes) -> str:
    assert EDID_DECODE is not None
    done = subprocess.run([EDID_DECODE, "--skip-hex-dump", "-"], input=data, capture_output=True)
    return done.stdout.decode("utf-8", "replace")


def timings(text: str) -> list[tuple[int, int, bool, float, float]]:
    return [
        (int(m["width"]), int(m["height"]), bool(m["interlaced"]), float(m["refresh"]), float(m["clock"]))
        for m in TIMING.finditer(text)
    ]


def a_timing(dice: Random, most: int = 4095, clock_khz: int = 655_350, step_khz: int = 10) -> build.Timing:
    width, height = dice.randrange(320, most), dice.randrange(200, most)
    h_front, h_sync = dice.randrange(1, 200), dice.randrange(1, 200)
    v_front, v_sync = dice.randrange(1, 15), dice.randrange(1, 15)
    horizontal = (width, h_front, h_sync, width + h_front + h_sync + dice.randrange(1, 400))
    vertical = (height, v_front, v_sync, height + v_front + v_sync + dice.randrange(1, 100))
    return (dice.randrange(2000, clock_khz // step_khz) * step_khz, horizontal, vertical)


def check_clocked(data: bytes, expected: int) -> None:
    """Every mode that has a clock stands in the reference's output with the same numbers, and none is missing."""
    text = decoded(data)
    theirs = timings(text)
    ours = [m for m in read_declaration(data).modes if m.clock_khz and not m.vic]
    assert len(ours) == expected
    for mode in ours:
        near = [
            t
            for t in theirs
            if t[:3] == (mode.width, mode.height, mode.interlaced)
            and t[3] == pytest.approx(mode.refresh_hz, abs=HALF_OF_SIXTH_DECIMAL)
            and t[4] == pytest.approx(mode.clock_khz / 1000, abs=HALF_OF_SIXTH_DECIMAL)
        ]
        assert near, f"{mode} is not in:\n{text}"


@pytest.mark.parametrize("seed", range(20))
def test_detailed_timings_of_the_base_block_and_cta_861(seed):
    dice = Random(seed)
    mine = [a_timing(dice) for _ in range(4)]
    theirs = [a_timing(dice) for _ in range(3)]
    data = build.base([build.detailed(t) for t in mine], extensions=1) + build.cta(timings=theirs)
    check_clocked(data, 7)


@pytest.mark.parametrize("seed", range(5))
def test_interlaced_timings(seed):
    dice = Random(100 + seed)
    parts = [build.detailed(a_timing(dice, 2000), interlaced=True) for _ in range(4)]
    check_clocked(build.base(parts), 4)


@pytest.mark.parametrize(("tag", "unit", "version"), [(0x03, 10, 0x13), (0x22, 1, 0x20)])
@pytest.mark.parametrize("seed", range(5))
def test_long_timings_of_displayid(seed, tag, unit, version):
    dice = Random(200 + seed)
    made = [build.long_timing(a_timing(dice, 9000, 4_000_000, unit), unit) for _ in range(5)]
    block = build.displayid_block(tag, b"".join(made))
    check_clocked(build.base(extensions=1) + build.displayid([block], version=version), 5)


@pytest.mark.parametrize("seed", range(5))
def test_timings_of_eleven_bytes(seed):
    dice = Random(300 + seed)
    parts = b""
    for _ in range(6):
        head = (dice.randrange(5000, 100_000)).to_bytes(3, "little") + bytes([0])
        parts += head + bytes([dice.randrange(40, 255), dice.randrange(0, 255) & 0xFE, dice.randrange(256)])
        parts += bytes([dice.randrange(256), dice.randrange(1, 8), dice.randrange(20, 255), dice.randrange(256)])
    data = build.base(extensions=1) + build.displayid([build.displayid_block(0x04, parts)], version=0x13)
    check_clocked(data, 6)


def sizes(data: bytes, where: str) -> list[tuple[int, int, float]]:
    found = read_declaration(data)
    return sorted({(m.width, m.height, m.refresh_hz) for m in found.modes if m.where.startswith(where)})


def rounded(text: str, start: str) -> list[tuple[int, int, float]]:
    part = text[text.index(start) :]
    return sorted({(w, h, round(r)) for w, h, _, r, _ in timings(part)})


@pytest.mark.parametrize("seed", range(8))
def test_timings_by_formula_of_displayid_2(seed):
    dice = Random(400 + seed)
    nine = b"".join(
        bytes([2])
        + dice.randrange(640, 5000).to_bytes(2, "little")
        + dice.randrange(480, 3000).to_bytes(2, "little")
        + bytes([dice.randrange(23, 240)])
        for _ in range(4)
    )
    data = build.base(extensions=1, established=bytes(3)) + build.displayid([build.displayid_block(0x24, nine)])
    assert sizes(data, "DisplayID") == rounded(decoded(data), "Timing Modes Type 9")


@pytest.mark.parametrize("seed", range(8))
def test_timings_by_formula_inside_cta_861(seed):
    dice = Random(500 + seed)
    ten = b"".join(
        bytes([2])
        + dice.randrange(640, 5000).to_bytes(2, "little")
        + dice.randrange(480, 3000).to_bytes(2, "little")
        + bytes([dice.randrange(23, 255), dice.randrange(2)])
        for _ in range(3)
    )
    data = build.base(extensions=1, established=bytes(3)) + build.cta([build.extended_block(0x2A, b"\x10" + ten)])
    theirs = rounded(decoded(data), "DisplayID Type X")
    assert sizes(data, "block 1") == theirs


def test_established_and_standard_timings():
    standard = bytes([0xD1, 0xC0, 0xB3, 0x00, 0x81, 0x80, 0xA9, 0x40, 0x61, 0x4F, 0x81, 0xC0, 0x95, 0x00, 0x71, 0x4F])
    data = build.base(established=b"\xff\xff\x80", standard=standard, extensions=0)
    text = decoded(data)
    theirs = sorted({(w, h, r) for w, h, _, r, _ in timings(text[text.index("Established Timings") :])})
    ours = sorted({(m.width, m.height, m.refresh_hz) for m in read_declaration(data).modes})
    assert len(ours) == len(theirs) > 20
    for mine, their in zip(ours, theirs, strict=True):
        assert mine[:2] == their[:2]
        assert mine[2] == pytest.approx(their[2], abs=NAMED_HZ)


def test_further_established_timings():
    part = bytes([0, 0, 0, 0xF7, 0, 10, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xF0, 0, 0, 0, 0, 0, 0])
    data = build.base([part], established=bytes(3))
    ours = sorted({(m.width, m.height, round(m.refresh_hz)) for m in read_declaration(data).modes})
    assert ours == rounded(decoded(data), "Established timings III")
    assert len(ours) > 30


@pytest.mark.parametrize("seed", range(8))
def test_coded_timings(seed):
    dice = Random(600 + seed)
    rows = b"".join(
        bytes([dice.randrange(100, 256), dice.randrange(1, 5) << 4 | dice.randrange(4) << 2, dice.randrange(1, 32)])
        for _ in range(4)
    )
    data = build.base([bytes([0, 0, 0, 0xF8, 0, 1]) + rows], established=bytes(3))
    ours = sorted({(m.width, m.height, round(m.refresh_hz)) for m in read_declaration(data).modes})
    assert ours == rounded(decoded(data), "CVT 3 Byte")


def test_every_listed_format():
    vics = list(FORMATS)
    for start in range(0, len(vics), 30):
        part = vics[start : start + 30]
        data = build.base(extensions=1) + build.cta([build.formats(*part)])
        text = decoded(data)
        found = [m for m in read_declaration(data).modes if m.vic]
        assert [m.vic for m in found] == part
        for mode in found:
            shown = f"{mode.width}x{mode.height}{'i' if mode.interlaced else ''} "
            assert re.search(rf"VIC +{mode.vic}: +{shown}", text), f"VIC {mode.vic} is not {shown} in:\n{text}"


def test_formats_marked_native():
    data = build.base(extensions=1) + build.cta([build.formats(0x80 | 16, 0x80 | 4, 0x80 | 64, 193)])
    text = decoded(data)
    assert [m.vic for m in read_declaration(data).modes if m.vic] == [16, 4, 64, 193]
    assert [int(v) for v in re.findall(r"VIC +(\d+):", text)] == [16, 4, 64, 193]


@pytest.mark.parametrize("deep", [0, 0x10, 0x30, 0x70])
@pytest.mark.parametrize("rate", range(7))
def test_both_hdmi_blocks(deep, rate):
    blocks = [build.first_hdmi(300, deep, (1, 4)), build.second_hdmi(600, rate, 0b010, (40, 144))]
    data = build.base(extensions=1) + build.cta(blocks)
    text, found = decoded(data), read_declaration(data)
    assert f"Maximum TMDS clock: {found.tmds_mhz} MHz" in text
    assert f"Maximum TMDS Character Rate: {found.tmds_second_mhz} MHz" in text
    for bits, name in ((10, "DC_30bit\n"), (12, "DC_36bit\n"), (16, "DC_48bit\n")):
        assert (found.deep_colour_depth >= bits) == (name in text)
    assert found.deep_420_depth == 12
    assert "12-bits/component Deep Color 4:2:0" in text
    assert "VRRmin: 40 Hz" in text
    assert "VRRmax: 144 Hz" in text
    assert [(r.low, r.high) for r in found.ranges] == [(40, 144)]
    assert [m.vic for m in found.modes if m.where == "first HDMI block"] == [95, 98]
    line = re.search(r"Max Fixed Rate Link: (.*)", text)
    assert bool(line) == bool(rate)
    if line:
        assert re.findall(r"\d+", line[1])[-2] == str([0, 3, 6, 6, 8, 10, 12][found.fixed_rate])


@pytest.mark.parametrize("bits", range(4))
def test_the_range_bits(bits):
    rgb, ycc = bool(bits & 1), bool(bits & 2)
    data = build.base(extensions=1) + build.cta([build.capability(rgb, ycc)])
    text, found = decoded(data), read_declaration(data)
    assert found.rgb_range_selectable == ("RGB quantization: Selectable" in text) == rgb
    assert found.ycc_range_selectable == ("YCbCr quantization: Selectable" in text) == ycc


@pytest.mark.parametrize("code", range(8))
def test_bits_and_port_of_version_1_4(code):
    data = build.base(video_input=0x80 | code << 4 | 5)
    line = re.search(r"Bits per primary color channel: (\d+)", decoded(data))
    assert read_declaration(data).base_depth == (int(line[1]) if line else 0)
    assert read_declaration(data).port == "DisplayPort"


@pytest.mark.parametrize("features", [0x02, 0x0A, 0x12, 0x1A])
def test_samplings_of_version_1_4(features):
    data = build.base(features=features)
    text = re.search(r"Supported color formats: (.*)", decoded(data))
    assert text is not None
    found = read_declaration(data)
    assert found.ycbcr_444 == ("YCrCb 4:4:4" in text[1])
    assert found.ycbcr_422 == ("YCrCb 4:2:2" in text[1])


@pytest.mark.parametrize("transfers", range(16))
def test_hdr(transfers):
    data = build.base(extensions=1) + build.cta([build.hdr(transfers, 0x50 + transfers)])
    text, found = decoded(data), read_declaration(data)
    for ours, name in (("PQ", "SMPTE ST2084"), ("HLG", "Hybrid Log-Gamma")):
        assert (ours in found.transfers) == (name in text)
    peak = re.search(r"max luminance: \d+ \(([\d.]+) cd/m\^2\)", text)
    assert peak is not None
    assert found.peak_nits == pytest.approx(float(peak[1]), abs=6e-4)


@pytest.mark.parametrize("block", [build.extended_block(14, bytes([97, 96])), build.extended_block(15, bytes([5]))])
def test_4_2_0(block):
    data = build.base(extensions=1) + build.cta([build.formats(97, 16, 96), block])
    text = decoded(data)
    start = text.index("YCbCr 4:2:0")
    theirs = [int(v) for v in re.findall(r"VIC +(\d+):", text[start:])]
    found = read_declaration(data)
    assert [m.vic for m in found.modes if m.only_420 or m.also_420] == theirs


def test_displayid_interface_and_size():
    parameters = bytes(4) + (5120).to_bytes(2, "little") + (2880).to_bytes(2, "little") + bytes(19) + bytes([3, 0])
    interface = bytes([0x0E, 0x06, 0x02, 0x02, 0, 0, 0, 0, 0])
    blocks = [build.displayid_block(0x21, parameters), build.displayid_block(0x26, interface)]
    data = build.base(extensions=1) + build.displayid(blocks)
    text, found = decoded(data), read_declaration(data)
    assert "5120x2880" in text
    assert found.native_size == (5120, 2880)
    assert "RGB encoding: 8, 10, 12" in text
    assert found.displayid_depth == 12
    assert (found.ycbcr_444, found.ycbcr_422, found.ycbcr_420) == (True, True, True)
    assert all(f"YCbCr {s} encoding" in text for s in ("4:4:4", "4:2:2", "4:2:0"))


def test_ranges_of_displayid():
    dynamic = (25_000).to_bytes(3, "little") + (1_400_000).to_bytes(3, "little") + bytes([48, 240, 0x80])
    old = bytes(3) + (59_999).to_bytes(3, "little") + bytes([30, 160, 0, 0, 40, 165, 0, 0, 0])
    two = build.base(extensions=1) + build.displayid([build.displayid_block(0x25, dynamic)])
    one = build.base(extensions=1) + build.displayid([build.displayid_block(0x09, old)], version=0x13)
    assert [(r.low, r.high) for r in read_declaration(two).ranges] == [(48, 240)]
    assert re.search(r"Minimum Vertical Refresh Rate: 48 Hz\s+Maximum Vertical Refresh Rate: 240 Hz", decoded(two))
    assert f"Maximum Pixel Clock: {read_declaration(two).ranges[0].clock_mhz * 1000:.0f} kHz" in decoded(two)
    assert [(r.low, r.high) for r in read_declaration(one).ranges] == [(40, 165)]
    assert "Vertical Refresh: 40-165 Hz" in decoded(one)
    assert f"-{read_declaration(one).ranges[0].clock_mhz:.3f} MHz" in decoded(one)


@pytest.mark.parametrize("seed", range(30))
def test_checksums(seed):
    dice = Random(700 + seed)
    data = bytearray(build.desk_display())
    for _ in range(dice.randrange(3)):
        data[dice.choice([127, 255, 383])] ^= dice.randrange(1, 256)
    theirs = len(re.findall(r"^Checksum: 0x\w\w \(should be", decoded(bytes(data)), re.M))
    assert read_declaration(bytes(data)).checksums_wrong == theirs


@pytest.mark.parametrize(
    "data", [build.desk_display(), build.television(), build.office_display(), build.old_display()]
)
def test_the_invented_displays(data):
    text, found = decoded(data), read_declaration(data)
    assert found.preferred is not None
    first = next(iter(timings(text[text.index("Detailed Timing") :])))
    assert first[:2] == (found.preferred.width, found.preferred.height)
    assert f"Display Product Name: '{found.name}'" in text
    assert "(should be" not in text


def test_colour_spaces_and_curves_of_displayid():
    for bits in range(0, 128, 8):
        blocks = [build.interface_features(bits, [(6, 8), (5, 9), (3, 3)])]
        data = build.base(extensions=1) + build.displayid(blocks)
        text, found = decoded(data), read_declaration(data)
        assert "additional combinations:BT.2020/SMPTE ST 2084, DCI-P3/Hybrid Log, BT.709/BT.1886" in text
        assert set(found.transfers) == {"PQ", "HLG"}
        plain = build.base(extensions=1) + build.displayid([build.interface_features(bits)])
        text, found = decoded(plain), read_declaration(plain)
        line = re.search(r"EOTF standard combination 1: (.*)", text)
        named = line[1].split(", ") if line else []
        assert ("PQ" in found.transfers) == ("BT.2020/SMPTE ST 2084" in named)
        assert ("BT.2020 RGB" in found.wide_colour) == any(name.startswith("BT.2020") for name in named)
        assert ("DCI-P3" in found.wide_colour) == ("DCI-P3" in named)


@pytest.mark.parametrize("alone", range(4))
def test_tiles(alone):
    data = build.base(extensions=1) + build.displayid([build.tiles(2, 3, 1920, 2160, alone)])
    text, found = decoded(data), read_declaration(data)
    assert "Num horizontal tiles: 2 Num vertical tiles: 3" in text
    assert "Tile resolution: 1920x2160" in text
    assert (found.tiles, found.tile_size) == ((2, 3), (1920, 2160))
    assert (found.single_tile_behaviour == 2) == ("scaled to fit the entire tiled display" in text)


@pytest.mark.parametrize("seamless", [True, False])
def test_refresh_that_varies(seamless):
    data = build.base(extensions=1) + build.displayid([build.dynamic_range(48, 240, 1_400_000, seamless)])
    text, found = decoded(data), read_declaration(data)
    assert f"Seamless Dynamic Video Timing Support: {'Yes' if seamless else 'No'}" in text
    assert bool(found.variable) == seamless
    for features in (0x02, 0x03):
        base = build.base(features=features)
        assert bool(read_declaration(base).variable) == ("Display is continuous frequency" in decoded(base))


def test_the_preferred_mode_of_displayid():
    block = build.displayid_block(0x22, build.long_timing(build.UHD_144, preferred=True))
    data = build.base(extensions=1) + build.displayid([block])
    found = read_declaration(data)
    assert re.search(r"DTD:  3840x2160 .*preferred", decoded(data))
    assert found.preferred is not None
    assert (found.preferred.width, found.preferred.clock_khz) == (3840, 1332280)
