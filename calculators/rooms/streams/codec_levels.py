"""The levels of three video codecs: the largest picture, the most samples a second and the highest bit rate of each."""

from __future__ import annotations

from dataclasses import dataclass
from math import isqrt

from calculators.desk.answer import FROM_MEMORY, LIBRARY, Source
from calculators.desk.numbers import settled
from calculators.trade.ratio import Ratio

H264, H265, AV1 = "h264", "h265", "av1"

SOURCES = {
    H264: Source("ITU-T H.264, Table A-1", "levels, by way of an open-source library's own table", LIBRARY),
    H265: Source("ITU-T H.265, clause A.4", "levels, by way of an open-source library's own table",
                 LIBRARY),
    AV1: Source("AV1 Bitstream and Decoding Process Specification", "annex A, levels"),
    "high": Source("ITU-T H.264, Table A-2; H.264 and H.265, most frames a second of a level", "", FROM_MEMORY),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Level:
    """
    One level. Sizes and rates count luma samples, for H.264 macroblocks of 16 × 16.

    most_kbps: of the main tier and of the high tier, 0 where there is no high tier; H.264 has no tiers, so its High
    profile's bit rate stands first. most_side: longest width and height, in the same units as sizes. most_frames:
    frames a second.
    """

    name: str
    most_size: int
    most_rate: int
    most_kbps: tuple[float, float]
    most_side: tuple[int, int]
    most_frames: int


_HIGH_PROFILE = 1250 / 1000  # H.264, Table A-2: 1250 bits in the High profile where A-1 counts 1000; from memory

# (level, MaxMBPS, MaxFS, MaxBR): H.264, Table A-1
_H264 = (
    ("1", 1485, 99, 64), ("1.1", 3000, 396, 192), ("1.2", 6000, 396, 384), ("1.3", 11_880, 396, 768),
    ("2", 11_880, 396, 2000), ("2.1", 19_800, 792, 4000), ("2.2", 20_250, 1620, 4000), ("3", 40_500, 1620, 10_000),
    ("3.1", 108_000, 3600, 14_000), ("3.2", 216_000, 5120, 20_000), ("4", 245_760, 8192, 20_000),
    ("4.1", 245_760, 8192, 50_000), ("4.2", 522_240, 8704, 50_000), ("5", 589_824, 22_080, 135_000),
    ("5.1", 983_040, 36_864, 240_000), ("5.2", 2_073_600, 36_864, 240_000), ("6", 4_177_920, 139_264, 240_000),
    ("6.1", 8_355_840, 139_264, 480_000), ("6.2", 16_711_680, 139_264, 800_000),
)  # fmt: skip

# (level, MaxLumaPs, MaxLumaSr, MaxBR of the main and of the high tier): H.265, A.4
_H265 = (
    ("1", 36_864, 552_960, 128, 0), ("2", 122_880, 3_686_400, 1500, 0), ("2.1", 245_760, 7_372_800, 3000, 0),
    ("3", 552_960, 16_588_800, 6000, 0), ("3.1", 983_040, 33_177_600, 10_000, 0),
    ("4", 2_228_224, 66_846_720, 12_000, 30_000), ("4.1", 2_228_224, 133_693_440, 20_000, 50_000),
    ("5", 8_912_896, 267_386_880, 25_000, 100_000), ("5.1", 8_912_896, 534_773_760, 40_000, 160_000),
    ("5.2", 8_912_896, 1_069_547_520, 60_000, 240_000), ("6", 35_651_584, 1_069_547_520, 60_000, 240_000),
    ("6.1", 35_651_584, 2_139_095_040, 120_000, 480_000), ("6.2", 35_651_584, 4_278_190_080, 240_000, 800_000),
)  # fmt: skip

# (level, MaxPicSize, MaxHSize, MaxVSize, MaxDisplayRate, MainMbps, HighMbps, MaxHeaderRate): AV1, annex A
# A frame has at least one header, so the last is taken for the most frames a second.
_AV1 = (
    ("2.0", 147_456, 2048, 1152, 4_423_680, 1.5, 0, 150), ("2.1", 278_784, 2816, 1584, 8_363_520, 3, 0, 150),
    ("3.0", 665_856, 4352, 2448, 19_975_680, 6, 0, 150), ("3.1", 1_065_024, 5504, 3096, 31_950_720, 10, 0, 150),
    ("4.0", 2_359_296, 6144, 3456, 70_778_880, 12, 30, 300), ("4.1", 2_359_296, 6144, 3456, 141_557_760, 20, 50, 300),
    ("5.0", 8_912_896, 8192, 4352, 267_386_880, 30, 100, 300),
    ("5.1", 8_912_896, 8192, 4352, 534_773_760, 40, 160, 300),
    ("5.2", 8_912_896, 8192, 4352, 1_069_547_520, 60, 240, 300),
    ("6.0", 35_651_584, 16_384, 8704, 1_069_547_520, 60, 240, 300),
    ("6.1", 35_651_584, 16_384, 8704, 2_139_095_040, 100, 480, 300),
    ("6.2", 35_651_584, 16_384, 8704, 4_278_190_080, 160, 800, 300),
)  # fmt: skip


def levels(codec: str) -> tuple[Level, ...]:
    """The levels of a codec, least first."""
    if codec == H264:
        # no side longer than the root of 8 × MaxFS; 172 frames a second, 300 from level 6 on: A.3, from memory
        return tuple(
            Level(name, size, rate, (bits * _HIGH_PROFILE, 0), _sides(size), 300 if name[0] == "6" else 172)
            for name, rate, size, bits in _H264
        )
    if codec == H265:
        return tuple(Level(name, size, rate, (main, high), _sides(size), 300) for name, size, rate, main, high in _H265)
    return tuple(
        Level(name, size, rate, (main * 1000, high * 1000), (wide, tall), frames)
        for name, size, wide, tall, rate, main, high, frames in _AV1
    )


def _sides(size: int) -> tuple[int, int]:
    """The longest side that H.264 and H.265 allow for a picture size: the root of eight times it."""
    root = isqrt(8 * size)
    return root, root


def coded_size(codec: str, width: int, height: int) -> tuple[int, int]:
    """
    A picture as a codec counts it.

    Args:
        codec: h264, h265 or av1. [text]
        width: Pixels a line. [px]
        height: Lines. [px]

    Returns:
        Macroblocks of 16 for H.264; samples filled up to eights for H.265, as they are for AV1. [1]

    Source:
        ITU-T H.264, 7.4.2.1; ITU-T H.265, least coding block of 8; from memory. AV1, annex A.

    Example:
        >>> coded_size("h264", 1920, 1080), coded_size("h265", 1366, 768)
        ((120, 68), (1368, 768))
    """
    if codec == H264:
        return -(-width // 16), -(-height // 16)
    if codec == H265:
        return -(-width // 8) * 8, -(-height // 8) * 8
    return width, height


def least_level(codec: str, width: int, height: int, rate: Ratio, mbps: float) -> tuple[str, str] | None:
    """
    The least level that holds a mode.

    Args:
        codec: h264, h265 or av1. [text]
        width: Pixels a line. [px]
        height: Lines. [px]
        rate: Frames a second, exact. [frames/s]
        mbps: Bit rate of the stream. [Mb/s]

    Returns:
        The level and its tier ('main' or 'high'; '' for H.264), or None where no level holds it. [text]

    Source:
        ITU-T H.264, Table A-1; ITU-T H.265, A.4; AV1 specification, annex A.

    Example:
        >>> least_level("h264", 1920, 1080, Ratio(60), 20), least_level("av1", 3840, 2160, Ratio(60), 60)
        (('4.2', ''), ('5.1', 'high'))
    """
    wide, tall = coded_size(codec, width, height)
    kbps = settled(mbps * 1000)
    for level in levels(codec):
        if wide * tall > level.most_size or wide > level.most_side[0] or tall > level.most_side[1]:
            continue
        if not rate.times(wide * tall).fits(Ratio(level.most_rate)) or not rate.fits(Ratio(level.most_frames)):
            continue
        for tier, most in zip(("main", "high"), level.most_kbps, strict=True):
            if kbps <= most:
                return level.name, tier if codec != H264 else ""
    return None
