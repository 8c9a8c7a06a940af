"""Settings to start two kits with: exact, in whole numbers, so that no rounding adds a clock."""

from __future__ import annotations

from typing import NamedTuple

from calculators.memory.kits.kit_inputs import Kit
from calculators.memory.timings import jedec_bins
from calculators.memory.timings.data_rates import thirds
from calculators.memory.timings.timing_strings import Timings

SAME_VOLTS, DDR3_VOLTS, STANDARD = "same volts", "ddr3 volts", "standard"


class Start(NamedTuple):
    """
    Settings to begin with.

    rate_mt_s: as printed. volts: the voltage. way: SAME_VOLTS, DDR3_VOLTS (both at 1.5 V) or STANDARD (profile
    off). limit: the listed limit that lowered the rate, or 0. uncapped_mt_s: the rate without limits.
    """

    rate_mt_s: int
    timings: Timings
    volts: float
    way: str
    limit_mt_s: int
    uncapped_mt_s: int


def slower(rates_mt_s: list[int]) -> int:
    """
    The slowest of some printed rates, compared by what they stand for.

    Args:
        rates_mt_s: The rates as printed. Shape (n,), at least one. [MT/s]

    Returns:
        The slowest; the first of equals, so that 2666 before 2667 stays 2666. [MT/s]

    Raises:
        ValueError: There is none.

    Source:
        Arithmetic.

    Example:
        >>> slower([3200, 2667, 2666])
        2667
    """
    return min(rates_mt_s, key=thirds)


def same_time(clocks: int, rate_mt_s: int, new_rate_mt_s: int) -> int:
    """
    Clocks at another rate that take at least as long, and no clock more than that needs.

    Args:
        clocks: The count at the old rate. [1], 1 or more.
        rate_mt_s: The old rate as printed. [MT/s], 200 to 20000.
        new_rate_mt_s: The new rate as printed. [MT/s], 200 to 20000.

    Returns:
        The count at the new rate, rounded up. [1]

    Source:
        Arithmetic: clocks × new ÷ old, rounded up, in whole thirds of a MT/s.

    Example:
        >>> same_time(16, 3200, 2666), same_time(15, 2400, 3200)
        (14, 20)
    """
    return -(-clocks * thirds(new_rate_mt_s) // thirds(rate_mt_s))


def larger_times(have: Kit, add: Kit, rate_mt_s: int) -> Timings:
    """
    For each timing the longer of two kits' times, in clocks at a rate.

    Args:
        have: One kit. [object]
        add: The other kit, of the same generation. [object]
        rate_mt_s: The rate at which both shall run, as printed. [MT/s]

    Returns:
        The timings; past the CAS latency only those that both kits tell. CAS latency is even where it must be. [clocks]

    Source:
        Common practice, no source: a stick keeps its times, not its clocks.

    Example:
        >>> from calculators.memory.kits.kit_inputs import sample
        >>> larger_times(sample(), sample(rate=3600, timings=Timings(18, 22, 22, 42)), 3200)
        Timings(cas=16, trcd=20, trp=20, tras=38)
    """

    def longer(one: int | None, other: int | None) -> int | None:
        if one is None or other is None:
            return None
        return max(same_time(one, have.rate, rate_mt_s), same_time(other, add.rate, rate_mt_s))

    mine, theirs = have.timings, add.timings
    cas = max(same_time(mine.cas, have.rate, rate_mt_s), same_time(theirs.cas, add.rate, rate_mt_s))
    return Timings(
        jedec_bins.even_cas(have.generation, cas),
        longer(mine.trcd, theirs.trcd),
        longer(mine.trp, theirs.trp),
        longer(mine.tras, theirs.tras),
    )


def standard_rate(kit: Kit) -> int:
    """
    What a kit runs at with its rated profile off.

    Args:
        kit: The kit. [object]

    Returns:
        The rate given; else its rated rate where it is rated at the standard voltage, for then the rating is the
        standard; else the generation's base rate, or the rated one if that is slower. [MT/s]

    Source:
        Common practice, no source.

    Example:
        >>> from calculators.memory.kits.kit_inputs import sample
        >>> standard_rate(sample()), standard_rate(sample(volts=1.2)), standard_rate(sample(standard_rate=2400))
        (2133, 3200, 2400)
    """
    if kit.standard_rate is not None:
        return kit.standard_rate
    standard = {jedec_bins.STANDARD_VOLTS[kit.generation]}
    if kit.generation == "ddr3":
        standard.add(jedec_bins.DDR3_LOW_VOLTS)
    listed = [thirds(r) for r in jedec_bins.STANDARD_RATES[kit.generation]]
    if kit.volts in standard and thirds(kit.rate) in listed:
        return kit.rate
    return slower([jedec_bins.BASE_RATE[kit.generation], kit.rate])


def standard_timings(have: Kit, add: Kit, rate_mt_s: int) -> Timings:
    """
    JEDEC's timings at a rate, or a kit's own times where its rating is slower than the standard.

    Args:
        have: One kit. [object]
        add: The other kit, of the same generation. [object]
        rate_mt_s: The rate, as printed. [MT/s]

    Returns:
        The timings, always with row active time; the CAS latency alone where a kit tells no more than its own, for
        nobody knows then whether the kit keeps the standard in the others. [clocks]

    Source:
        JEDEC's rounding of module contents, as calculators/memory/timings/jedec_bins.py.

    Example:
        >>> from calculators.memory.kits.kit_inputs import sample
        >>> standard_timings(sample(), sample(), 2133)
        Timings(cas=15, trcd=15, trp=15, tras=36)
    """
    generation = have.generation
    counts = list(jedec_bins.standard_clocks(generation, rate_mt_s))
    for kit in (have, add):
        standard = jedec_bins.standard_clocks(generation, kit.rate)
        for i, own in enumerate(kit.timings):
            # Clocks within the standard's are those of a standard stick, its times rounded up: then the standard's
            # count at the new rate is enough. Only a slower stick keeps times of its own.
            if own is not None and own > standard[i]:
                counts[i] = max(counts[i], same_time(own, kit.rate, rate_mt_s))
    cas = jedec_bins.even_cas(generation, counts[0])
    if have.timings.trcd is None or add.timings.trcd is None:
        return Timings(cas)
    return Timings(cas, counts[1], counts[2], counts[3])


def start(have: Kit, add: Kit, limit_mt_s: int | None) -> Start:
    """
    Settings to begin with for two kits of one generation.

    Args:
        have: One kit. [object]
        add: The other kit, of the same generation. [object]
        limit_mt_s: The listed limit that applies, or None. [MT/s]

    Returns:
        The settings. [object]

    Source:
        Common practice, no source; for DDR3 at 1.35 and 1.5 V, JESD79-3-1, from memory: a 1.35 V part also
        keeps its times at 1.5 V, a 1.5 V part has none at 1.35 V.

    Example:
        >>> from calculators.memory.kits.kit_inputs import sample
        >>> start(sample(), sample(), 2666).timings
        Timings(cas=14, trcd=15, trp=15, tras=32)
    """
    if have.volts == add.volts:
        way, volts = SAME_VOLTS, have.volts
    elif have.generation == "ddr3" and {have.volts, add.volts} == {1.35, 1.5}:
        way, volts = DDR3_VOLTS, 1.5
    else:
        way, volts = STANDARD, jedec_bins.STANDARD_VOLTS[have.generation]
    if way == STANDARD:
        uncapped = slower([standard_rate(have), standard_rate(add)])
    else:
        uncapped = slower([have.rate, add.rate])
    capped = uncapped if limit_mt_s is None else slower([uncapped, limit_mt_s])
    limited = limit_mt_s if limit_mt_s is not None and thirds(capped) < thirds(uncapped) else 0
    timings = standard_timings(have, add, capped) if way == STANDARD else larger_times(have, add, capped)
    return Start(capped, timings, volts, way, limited or 0, uncapped)
