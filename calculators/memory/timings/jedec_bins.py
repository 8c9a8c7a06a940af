"""
JEDEC's standard rates, speed bins and ways of rounding, generation by generation.

The documents were not at hand: what stands here is from memory, and tests/check_values names it so.
Known gap: the tables print a cycle of 0.682 ns for 2933 MT/s, rounded up, where the rule of truncation gives
681 ps. By the rule a long time can come out one clock higher there; it never comes out lower.
"""

from __future__ import annotations

from calculators.memory.timings.data_rates import thirds

GENERATIONS = ("ddr3", "ddr4", "ddr5")

# Rates with a speed bin of their own. [MT/s] JESD79-3, JESD79-4 and JESD79-5, speed bin tables, from memory.
STANDARD_RATES = {
    "ddr3": (800, 1066, 1333, 1600, 1866, 2133),
    "ddr4": (1600, 1866, 2133, 2400, 2666, 2933, 3200),
    "ddr5": (3200, 3600, 4000, 4400, 4800, 5200, 5600, 6000, 6400, 6800, 7200, 7600, 8000, 8400, 8800),
}

# The rate at which every desktop stick of the generation can be expected to run without its rated profile.
# [MT/s] Common practice, no source: slower sticks were hardly sold for desktops.
BASE_RATE = {"ddr3": 1333, "ddr4": 2133, "ddr5": 4800}

# [V] JESD79-3 (1.5; the addendum JESD79-3-1 adds 1.35), JESD79-4, JESD79-5, from memory.
STANDARD_VOLTS = {"ddr3": 1.5, "ddr4": 1.2, "ddr5": 1.1}
DDR3_LOW_VOLTS = 1.35

# The least CAS latency that the generation's mode register knows. [clocks] Same documents, from memory.
LEAST_CAS = {"ddr3": 5, "ddr4": 9, "ddr5": 22}

# CAS latency, row to column, precharge, row active. [ps] Speed bins DDR3 (by rate), DDR4-3200AA, DDR5 "B", from memory.
_DDR3_TIMES = {
    800: (15000, 15000, 15000, 37500),
    1066: (13125, 13125, 13125, 37500),
    1333: (13500, 13500, 13500, 36000),
    1600: (13750, 13750, 13750, 35000),
    1866: (13910, 13910, 13910, 34000),
    2133: (13090, 13090, 13090, 33000),
}
_DDR4_FIRST = 13750
_DDR4_ROW_ACTIVE = {1600: 35000, 1866: 34000, 2133: 33000}
_DDR4_ROW_ACTIVE_ELSE = 32000
_DDR5_TIMES = (16000, 16000, 16000, 32000)


def cycle_ps(rate_mt_s: int) -> int:
    """
    Length of one clock, truncated to whole picoseconds as JEDEC's rounding wants it.

    Args:
        rate_mt_s: The rate as printed. [MT/s], 200 to 20000.

    Returns:
        The cycle. [ps]

    Source:
        JESD21-C, annex L (DDR4) and JESD400-5 (DDR5), rounding algorithms, from memory.

    Example:
        >>> cycle_ps(3200), cycle_ps(2666), cycle_ps(2133)
        (625, 750, 937)
    """
    return 6_000_000 // thirds(rate_mt_s)


def ddr3_clocks(time_ps: int, rate_mt_s: int) -> int:
    """
    A time in clocks, simply rounded up: DDR3 has no allowance for times stored a little too long.

    Args:
        time_ps: The time. [ps], 1 or more.
        rate_mt_s: The rate as printed. [MT/s], 200 to 20000.

    Returns:
        The clocks. [1]

    Source:
        JESD21-C, annex K (DDR3 module contents), from memory.

    Example:
        >>> ddr3_clocks(13750, 1600), ddr3_clocks(13500, 1333)
        (11, 9)
    """
    return -(-time_ps * thirds(rate_mt_s) // 6_000_000)


def ddr4_clocks(time_ps: int, clock_ps: int) -> int:
    """
    A time in clocks by the DDR4 rule: up, but not for an excess of up to 2.6 % of a clock.

    Args:
        time_ps: The time, truncated to whole picoseconds. [ps], 1 or more.
        clock_ps: Length of one clock, truncated to whole picoseconds. [ps], 1 or more.

    Returns:
        The clocks. [1]

    Source:
        JESD21-C, annex L, rounding algorithm: trunc((trunc(t × 1000 / tCK) + 974) / 1000), from memory.

    Example:
        >>> [ddr4_clocks(13750, cycle_ps(r)) for r in (3200, 2666, 2133)]
        [22, 19, 15]
    """
    return (time_ps * 1000 // clock_ps + 974) // 1000


def ddr5_clocks(time_ps: int, clock_ps: int) -> int:
    """
    A time in clocks by the DDR5 rule: the time is taken 0.3 % shorter, then rounded up past a whole clock.

    Args:
        time_ps: The time, truncated to whole picoseconds. [ps], 1 or more.
        clock_ps: Length of one clock, truncated to whole picoseconds. [ps], 1 or more.

    Returns:
        The clocks, before a CAS latency is brought to an even number. [1]

    Source:
        JESD400-5, rounding algorithm: trunc((trunc(t × 997 / tCK) + 1000) / 1000), from memory.

    Example:
        >>> ddr5_clocks(295_000, 250)
        1177
    """
    return (time_ps * 997 // clock_ps + 1000) // 1000


def clocks(generation: str, time_ps: int, rate_mt_s: int) -> int:
    """
    A time in clocks by the generation's own rule.

    Args:
        generation: ddr3, ddr4 or ddr5. [text]
        time_ps: The time, truncated to whole picoseconds. [ps], 1 or more.
        rate_mt_s: The rate as printed. [MT/s], 200 to 20000.

    Returns:
        The clocks, before a CAS latency is brought to an even number. [1]

    Source:
        As ddr3_clocks, ddr4_clocks and ddr5_clocks.

    Example:
        >>> clocks("ddr4", 13750, 2400), clocks("ddr5", 16000, 4800)
        (17, 39)
    """
    if generation == "ddr3":
        return ddr3_clocks(time_ps, rate_mt_s)
    rule = ddr4_clocks if generation == "ddr4" else ddr5_clocks
    return rule(time_ps, cycle_ps(rate_mt_s))


def even_cas(generation: str, cas: int) -> int:
    """
    The CAS latency that the generation knows at or above a count of clocks.

    Args:
        generation: ddr3, ddr4 or ddr5. [text]
        cas: The clocks wanted. [1], 1 or more.

    Returns:
        The same, or one more where only even numbers exist: DDR5 always, DDR4 above 24. [1]

    Source:
        JESD79-4 and JESD79-5, mode register 0, from memory.

    Example:
        >>> even_cas("ddr5", 39), even_cas("ddr4", 23), even_cas("ddr4", 25)
        (40, 23, 26)
    """
    only_even = generation == "ddr5" or (generation == "ddr4" and cas > 24)
    return cas + cas % 2 if only_even else cas


def standard_times_ps(generation: str, rate_mt_s: int) -> tuple[int, int, int, int]:
    """
    The times that a standard stick of this rate keeps.

    Args:
        generation: ddr3, ddr4 or ddr5. [text]
        rate_mt_s: The rate as printed; between two standard rates the slower one's times hold. [MT/s]

    Returns:
        CAS latency, row to column, precharge and row active. [ps]

    Source:
        JESD79-3 speed bins 800E to 2133N; JESD79-4 bin 3200AA; JESD79-5 bins "B", all from memory.

    Example:
        >>> standard_times_ps("ddr4", 2133)
        (13750, 13750, 13750, 33000)
    """
    if generation == "ddr5":
        return _DDR5_TIMES
    rate = slower_standard(generation, rate_mt_s)
    if generation == "ddr3":
        return _DDR3_TIMES[rate]
    return (_DDR4_FIRST, _DDR4_FIRST, _DDR4_FIRST, _DDR4_ROW_ACTIVE.get(rate, _DDR4_ROW_ACTIVE_ELSE))


def slower_standard(generation: str, rate_mt_s: int) -> int:
    """
    The highest standard rate that is not above a rate.

    Args:
        generation: ddr3, ddr4 or ddr5. [text]
        rate_mt_s: The rate as printed. [MT/s], 200 to 20000.

    Returns:
        The standard rate; the lowest there is where all are above. [MT/s]

    Source:
        As STANDARD_RATES.

    Example:
        >>> slower_standard("ddr4", 3600), slower_standard("ddr4", 2667), slower_standard("ddr5", 1000)
        (3200, 2666, 3200)
    """
    rates = STANDARD_RATES[generation]
    return max((r for r in rates if thirds(r) <= thirds(rate_mt_s)), default=rates[0])


def standard_clocks(generation: str, rate_mt_s: int) -> tuple[int, int, int, int]:
    """
    The standard settings at a rate, as a board finds them in a standard stick.

    Args:
        generation: ddr3, ddr4 or ddr5. [text]
        rate_mt_s: The rate as printed. [MT/s], 200 to 20000.

    Returns:
        CAS latency, row to column, precharge and row active. [clocks]

    Source:
        As standard_times_ps, counted by the generation's own rule.

    Example:
        >>> standard_clocks("ddr4", 2133), standard_clocks("ddr5", 4800)
        ((15, 15, 15, 36), (40, 39, 39, 77))
    """
    counts = [clocks(generation, t, rate_mt_s) for t in standard_times_ps(generation, rate_mt_s)]
    cas = max(even_cas(generation, counts[0]), LEAST_CAS[generation])
    return (cas, counts[1], counts[2], counts[3])
