"""How much memory kinds of work take: ranges with their standing, frames exactly. A GB here is 2^30 bytes."""

from __future__ import annotations

from typing import NamedTuple

from calculators.memory.amounts.test_times import BYTES_A_GB
from calculators.memory.kits.sizes_made import kits_of


class Range(NamedTuple):
    """Least and most. [GB]"""

    low: float
    high: float


# All ranges here: common practice, no source. They are what such work is commonly seen to take while it runs.
SYSTEM = {"lean": Range(1, 2), "usual": Range(3, 5), "busy": Range(5, 8)}
GAME = {"none": Range(0, 0), "small": Range(2, 5), "large": Range(8, 14), "huge": Range(14, 24)}
EDITING = {"none": Range(0, 0), "photo": Range(3, 8), "video": Range(4, 10), "effects": Range(8, 16)}
BROWSER = Range(0.4, 1.0)  # the program itself, once a page is open
TAB = Range(0.05, 0.25)  # each open page; pages put to sleep take less

# Bytes of one picture element in memory: four components of one, two or four bytes. Arithmetic.
EIGHT_BIT, SIXTEEN_BIT, FLOAT = 4, 8, 16

# Capacities in which desktops are commonly fitted. [GB] Common practice, no source.
SIZES = (8, 16, 24, 32, 48, 64, 96, 128, 192, 256)


def browser_gb(tabs: int) -> Range:
    """
    What a browser takes.

    Args:
        tabs: Open pages. [1], 0 or more.

    Returns:
        The range; nothing where no page is open. [GB]

    Source:
        Common practice, no source: the constants above.

    Example:
        >>> browser_gb(20)
        Range(low=1.4, high=6.0)
    """
    if tabs == 0:
        return Range(0, 0)
    return Range(BROWSER.low + tabs * TAB.low, BROWSER.high + tabs * TAB.high)


def frames_gb(width: int, height: int, seconds: float, frame_rate: float, bytes_a_pixel: int) -> float:
    """
    Memory for pictures held uncompressed, as a preview or an effects cache holds them.

    Args:
        width: Width of a frame. [pixel], 1 or more.
        height: Height of a frame. [pixel], 1 or more.
        seconds: How long a stretch is held. [s], 0 or more.
        frame_rate: Frames a second. [1/s], above 0.
        bytes_a_pixel: 4 for 8 bits a component, 8 for 16, 16 for floating point. [byte]

    Returns:
        The memory. [GB]

    Source:
        Arithmetic: width × height × bytes × frames, four components a pixel.

    Example:
        >>> print(f"{frames_gb(3840, 2160, 10, 30, 4):.2f} GB")
        9.27 GB
    """
    return width * height * bytes_a_pixel * seconds * frame_rate / BYTES_A_GB


def next_size(need_gb: float, generation: str = "") -> int | None:
    """
    The smallest common capacity that holds a need and can be fitted.

    Args:
        need_gb: The need. [GB], 0 or more.
        generation: ddr3, ddr4 or ddr5; empty where any will do. [text]

    Returns:
        The capacity; None where a desktop's common ones are too small. [GB]

    Source:
        As SIZES; what sticks a generation has, as sizes_made.

    Example:
        >>> next_size(11.5), next_size(16), next_size(300), next_size(20), next_size(20, "ddr4")
        (16, 16, None, 24, 32)
    """
    sizes = (size for size in SIZES if not generation or kits_of(generation, size))
    return next((size for size in sizes if size >= need_gb), None)
