"""Sizes and rates of footage, exact until they are worded."""

from __future__ import annotations

from calculators.trade.ratio import Ratio

SAMPLES = {"4444": Ratio(4), "444": Ratio(3), "422": Ratio(2), "420": Ratio(3, 2), "raw": Ratio(1)}
WORDS32_BYTES = Ratio(4, 3)  # three samples of ten bits and two bits of padding in four bytes
WORDS16_BYTES = Ratio(2)
CALM_SHARE = Ratio(70, 100)  # of a disk, above which every seek is felt; common practice, no source


def sample_bytes(bits: int, packing: str) -> Ratio:
    """
    Bytes that one sample takes.

    Args:
        bits: Bits a sample. [bit]
        packing: tight (no padding), words32 (three samples of ten bits in four bytes) or words16 (two bytes). [text]

    Returns:
        The bytes, exact. [byte]

    Source:
        SMPTE ST 268, packing of image data (from memory); tight is arithmetic.

    Example:
        >>> sample_bytes(10, "tight").value, sample_bytes(10, "words32"), sample_bytes(12, "words16").value
        (1.25, Ratio(over=4, under=3), 2.0)
    """
    if packing == "words32":
        return WORDS32_BYTES
    return WORDS16_BYTES if packing == "words16" else Ratio(bits, 8)


def frame_bytes(width: int, height: int, chroma: str, bits: int, packing: str) -> Ratio:
    """
    Size of one frame without compression and without padding at line ends.

    Args:
        width: Pixels a line. [px]
        height: Lines. [px]
        chroma: 4444, 444, 422, 420 or raw (one sample a pixel). [text]
        bits: Bits a sample. [bit]
        packing: tight, words32 or words16. [text]

    Returns:
        width × height × samples a pixel × bytes a sample, exact. [byte]

    Source:
        Samples a pixel: ITU-R BT.601 and BT.2020, sampling lattices (from memory); the rest is arithmetic.

    Example:
        >>> frame_bytes(1920, 1080, "422", 10, "tight").value
        5184000.0
    """
    samples, each = SAMPLES[chroma], sample_bytes(bits, packing)
    return Ratio(width * height).times(samples.over, samples.under).times(each.over, each.under)


def bits_to_bytes(mbps: Ratio) -> Ratio:
    """
    Megabytes of so many megabits.

    Args:
        mbps: A camera's bit rate, exact. [Mb/s]

    Returns:
        An eighth of it. [MB/s]

    Source:
        IEC 80000-13: a byte of eight bits (from memory).

    Example:
        >>> bits_to_bytes(Ratio(400)).value
        50.0
    """
    return mbps.times(1, 8)


def streams_fit(disk: Ratio, stream: Ratio) -> int:
    """
    How many streams a disk carries at most.

    Args:
        disk: What the disk gives without pause, exact. [MB/s]
        stream: What one stream needs, exact. [MB/s], above 0.

    Returns:
        The whole number at or below disk ÷ stream. [1]

    Source:
        Arithmetic.

    Example:
        >>> streams_fit(Ratio(500), Ratio(125)), streams_fit(Ratio(499), Ratio(125))
        (4, 3)
    """
    return disk.times(stream.under, stream.over).floor()
