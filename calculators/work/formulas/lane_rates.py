"""What lanes carry: transfers a second, less what the line code or the packets' frame takes."""

from __future__ import annotations

import re

from calculators.desk.answer import FROM_MEMORY, LIBRARY, Source
from calculators.trade.ratio import Ratio

SOURCE = Source(
    "PCI Express Base Specification, revisions 1.0 to 7.0",
    "transfers a second; 8b/10b, 128b/130b, flits of 256 bytes with 242 for packets and link messages",
    FROM_MEMORY,
)
KERNEL = Source("Linux kernel, drivers/pci/pci.h", "rates less their encoding, PCIE_SPEED2MBS_ENC, to 32 GT/s", LIBRARY)

GT_S = {1: Ratio(5, 2), 2: Ratio(5), 3: Ratio(8), 4: Ratio(16), 5: Ratio(32), 6: Ratio(64), 7: Ratio(128)}
_LINE_CODE = {1: Ratio(8, 10), 2: Ratio(8, 10), 3: Ratio(128, 130), 4: Ratio(128, 130), 5: Ratio(128, 130)}
_FLITS = Ratio(242, 256)
_TRANSFERS = re.compile(r"\s*(\d{1,3}(?:[.,]\d)?)\s*gt/s(?:ec)?\s*", re.I)


def generation_of_rate(text: str) -> float | None:
    """
    The generation whose lanes run at a rate that a system shows, such as '8.0 GT/s'.

    Args:
        text: As typed. [text]

    Returns:
        1 to 7, or None where the text is no such rate. [1]

    Source:
        PCI Express Base Specification, transfers a second (from memory).

    Example:
        >>> generation_of_rate("8.0 GT/s"), generation_of_rate("16GT/s"), generation_of_rate("9 GT/s")
        (3.0, 4.0, None)
    """
    match = _TRANSFERS.fullmatch(text)
    rate = float(match[1].replace(",", ".")) if match else 0.0
    return next((float(generation) for generation, known in GT_S.items() if known.value == rate), None)


def share_of_data(generation: int) -> Ratio:
    """
    What of the transfers is left for packets.

    Args:
        generation: 1 to 7. [1]

    Returns:
        8/10, 128/130 or 242/256; before packet headers. [1]

    Source:
        PCI Express Base Specification, encodings and flit layout (from memory).

    Example:
        >>> share_of_data(2).value, share_of_data(4), share_of_data(7)
        (0.8, Ratio(over=128, under=130), Ratio(over=242, under=256))
    """
    return _LINE_CODE.get(generation, _FLITS)


def lane_gb_s(generation: int) -> float:
    """
    What one lane carries in one direction, at most.

    Args:
        generation: 1 to 7. [1]

    Returns:
        transfers a second × share of data ÷ 8, before packet headers. [GB/s]

    Source:
        PCI Express Base Specification (from memory); the kernel's reported rates of a free operating system agree.

    Example:
        >>> lane_gb_s(1), lane_gb_s(7)
        (0.25, 15.125)
    """
    share = share_of_data(generation)
    return GT_S[generation].times(share.over, share.under).times(1, 8).value


def copy_s(gigabytes: float, gb_s: float) -> float:
    """
    How long a copy takes.

    Args:
        gigabytes: What is copied. [GB]
        gb_s: At what rate. [GB/s], above 0.

    Returns:
        The time. [s]

    Source:
        Arithmetic.

    Example:
        >>> copy_s(12, 4)
        3.0
    """
    return gigabytes / gb_s
