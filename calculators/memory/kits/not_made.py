"""Finds values of a kit that its generation does not have: most often a slip, or the wrong generation was chosen."""

from __future__ import annotations

from typing import NamedTuple

from calculators.desk.numbers import listed, number
from calculators.memory.kits.kit_inputs import Kit
from calculators.memory.kits.sizes_made import sizes_made
from calculators.memory.timings import jedec_bins
from calculators.memory.timings.data_rates import thirds

# No stick is sold as faster. [MT/s] Common practice, no source: rounded up from what was ever on offer.
FASTEST = {"ddr3": 3200, "ddr4": 5600, "ddr5": 12000}

# The least voltage for which the generation has a rating. [V] JESD79-3-1, JESD79-4, JESD79-5, from memory.
LEAST_VOLTS = {"ddr3": jedec_bins.DDR3_LOW_VOLTS, "ddr4": 1.2, "ddr5": 1.1}

READ_AGAIN = "read the sticker once more"


class NotMade(NamedTuple):
    """A value that does not exist. short: at most 15 words, with what to do. text: what the generation has instead."""

    short: str
    text: str


def not_made(kit: Kit) -> list[NotMade]:
    """
    Values of a kit that no stick of its generation has.

    Args:
        kit: The kit. [object]

    Returns:
        Each with a sentence for the verdict and a longer one. [list]

    Source:
        Sizes as sizes_made; rates, CAS latencies and voltages as jedec_bins; FASTEST is common practice.

    Example:
        >>> from calculators.memory.kits.kit_inputs import sample
        >>> [each.short for each in not_made(sample(size=24))]
        ['No DDR4 stick has 24 GB: read the sticker once more.']
    """
    name, odd = kit.generation.upper(), []
    sizes = sizes_made(kit.generation, kit.module)
    if kit.size not in sizes:
        larger = kit.size in sizes_made(kit.generation, "registered")  # then a server's stick has that size
        odd.append(
            NotMade(
                f"No {name} stick {'for desktops or laptops ' if larger else ''}has {kit.size} GB: {READ_AGAIN}.",
                f"{name} sticks are made of chips that add up to {listed([str(s) for s in sizes], 'or')} GB.",
            )
        )
    slowest = jedec_bins.STANDARD_RATES[kit.generation][0]
    if not thirds(slowest) <= thirds(kit.rate) <= thirds(FASTEST[kit.generation]):
        slow = thirds(kit.rate) < thirds(slowest)
        bound = f"slower than {slowest}" if slow else f"faster than {FASTEST[kit.generation]}"
        odd.append(
            NotMade(
                f"No {name} stick is {bound} MT/s: {READ_AGAIN}.",
                f"{name} begins at {slowest} MT/s, and nothing above {FASTEST[kit.generation]} MT/s was ever sold. "
                "The clock, which some screens show, is half of the rate.",
            )
        )
    least = jedec_bins.LEAST_CAS[kit.generation]
    if kit.timings.cas < least:
        odd.append(
            NotMade(
                f"{name} has no CAS latency below {least}: {READ_AGAIN}.",
                f"{name} knows no CAS latency below {least}. The figure here is the arithmetic; the board will offer "
                f"{least}, which is slower and safe.",
            )
        )
    if kit.volts < LEAST_VOLTS[kit.generation]:
        volts = number(LEAST_VOLTS[kit.generation], 4)
        odd.append(
            NotMade(
                f"No {name} stick is rated below {volts} V: {READ_AGAIN}.",
                f"{name} sticks are rated for {volts} V or more. Another generation may be meant.",
            )
        )
    return odd
