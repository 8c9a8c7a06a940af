"""What stands printed on sticks and boxes, read where one number of it is asked for: DDR4-3200, PC4-25600, 2 × 8 GB."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from calculators.memory.timings.data_rates import bandwidth_name, channel_gb_s, thirds
from calculators.memory.timings.timing_strings import read_timings

_BY_RATE = re.compile(r"(ddr[345])l?[\s-]*([0-9]{3,5})\s*(?:mhz|mt/?s|mbps)?", re.I)
_BY_NAME = re.compile(r"pc([345])l?[\s-]*([0-9]{3,5})\s?[a-z]{0,3}(?:-[a-z0-9]{2,4}(?:-[a-z0-9]{2,4})*)?", re.I)
_SIZE = re.compile(
    r"(?:([1-4])\s*[x×*]\s*)?([0-9]{1,3})\s*g(?:i?b)?(?:\s+[12]r\s*[x×]?\s*(?:4|8|16)?)?", re.I
)  # fmt: skip
_VOLTS = re.compile(r"(?<![0-9.,])([12][.,][0-9]{1,3})\s?v(?![a-z])", re.I)
_RANKS = re.compile(r"(?:([124])\s*r\s*(?:[x×]\s*(?:4|8|16))?|(single|dual)[\s-]rank(?:ed)?)", re.I)

# The least bandwidth of a name by bandwidth, generation by generation: DDR3-800 is PC3-6400, and so on. [MB/s]
# A smaller number behind PC3-, PC4- or PC5- is a rate, as newer stickers print it. JESD21-C, from memory.
_LEAST_BANDWIDTH = {"ddr3": 6400, "ddr4": 12800, "ddr5": 25600}


class RateLabel(NamedTuple):
    """What a label says of generation and rate. rate_mt_s: as printed elsewhere. [MT/s]"""

    generation: str
    rate_mt_s: int


def read_rate_label(text: str) -> RateLabel | None:
    """
    Generation and rate in a label by rate or by bandwidth.

    Args:
        text: Such as "DDR4-3200", "PC4-25600", "PC4-3200AA" or "PC3L-12800S". [text]

    Returns:
        Both; None where the text is no such label. [object]

    Source:
        JESD21-C module chapters (names by bandwidth) and JESD79-4 (names by rate), from memory; newer stickers
        print the rate behind PC4- and PC5- too, with the speed bin's letters behind it.

    Example:
        >>> read_rate_label("PC4-21300"), read_rate_label("PC4-2666V"), read_rate_label("PC4")
        (RateLabel(generation='ddr4', rate_mt_s=2666), RateLabel(generation='ddr4', rate_mt_s=2666), None)
    """
    typed = text.strip()
    if match := _BY_RATE.fullmatch(typed):
        return RateLabel(match[1].lower(), int(match[2]))
    if not (match := _BY_NAME.fullmatch(typed)):
        return None
    generation, printed = f"ddr{match[1]}", int(match[2])
    if printed < _LEAST_BANDWIDTH[generation]:
        return RateLabel(generation, printed)
    for rate in range(printed // 8 - 20, printed // 8 + 20):
        # PC3-10600, PC3-10660 and PC3-10666 all stand for 1333: the name as rounded down, or not rounded
        exact = thirds(rate) * 8 / 3
        if rate % 100 in (0, 33, 50, 66) and (bandwidth_name(generation, rate)[4:] == str(printed) or
                                              abs(exact - printed) < 10):  # fmt: skip
            return RateLabel(generation, rate)
    return RateLabel(generation, printed // 8)


def rate_on_label(text: str) -> int | None:
    """The rate in a label, or None. [MT/s]"""
    label = read_rate_label(text)
    return label.rate_mt_s if label else None


def bandwidth_on_label(text: str) -> float | None:
    """The bandwidth of one channel in a label, or None. [GB/s]"""
    label = read_rate_label(text)
    return channel_gb_s(label.rate_mt_s) if label else None


def size_on_label(text: str) -> int | None:
    """The size of one stick in '2 × 8 GB' or '16GB 2Rx8', or None. [GB]"""
    match = _SIZE.fullmatch(text.strip())
    return int(match[2]) if match else None


def volts_on_label(text: str) -> float | None:
    """The one voltage in a row such as '16-18-18-38 2T 1.35V', or None. [V]"""
    volts = {match.replace(",", ".") for match in _VOLTS.findall(text)}
    return float(volts.pop()) if len(volts) == 1 else None


def ranks_on_label(text: str) -> str | None:
    """The option of the ranks' choice in '2Rx8' or 'dual rank', or None: what has four ranks is no option."""
    match = _RANKS.fullmatch(text.strip())
    ranks = (match[1] or {"single": "1", "dual": "2"}[match[2].lower()]) if match else None
    return ranks if ranks in ("1", "2") else None


def cas_on_label(text: str) -> int | None:
    """The CAS latency in a whole row of timings, or None. [clocks]"""
    try:
        timings = read_timings(text)
    except ValueError:
        return None
    return timings.cas if timings.trcd is not None else None


def wrong_generation(key: str, label: str) -> Callable[[str, Mapping[str, Any]], str]:
    """For `against`: what a label says against the generation that stands in the input called `key`."""

    def against(text: str, values: Mapping[str, Any]) -> str:
        printed, chosen = read_rate_label(text), values.get(key)
        if printed is None or chosen is None or printed.generation == chosen:
            return ""
        return (
            f"{label} must belong to the generation above, got {printed.generation.upper()} beside "
            f"{chosen.upper()}: choose {printed.generation.upper()} there, or look at the sticker once more."
        )

    return against


def wrong_count(key: str, label: str) -> Callable[[str, Mapping[str, Any]], str]:
    """For `against`: what '2 × 8 GB' says against the number of sticks that stands in the input called `key`."""

    def against(text: str, values: Mapping[str, Any]) -> str:
        match, count = _SIZE.fullmatch(text.strip()), values.get(key)
        if match is None or match[1] is None or count is None or int(match[1]) == count:
            return ""
        return f"{label} says {match[1]} sticks, but the number of sticks is {count}: change one of the two."

    return against
