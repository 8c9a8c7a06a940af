"""How long a memory test takes: bytes over what the memory carries, or over what one core checks if that is less."""

from __future__ import annotations

BYTES_A_GB = 2**30  # a stick's gigabyte: JEDEC JESD100B.01, from memory

# How often one full pass goes over the whole memory, all patterns together: a quick set and a thorough one.
# [1] Common practice, no source.
SWEEPS = (400, 1000)

# Share of the bandwidth that a test reaches, at best and at worst: it waits for every answer and checks it.
# [1] Common practice, no source.
EFFICIENCY = (0.5, 0.2)


# How much memory one core writes and checks in a second, at best and at worst: the test's own work, and what people
# wait for. [GB/s] Measured by us on one machine: a plain loop that reads, compares and writes 64 bits at a time, on
# one core of a shared server, went through 512 MiB at 3 to 9 GB/s. No published source.
CHECKED_GB_S = (8, 4)


def hours_of_testing(
    total_gb: float, channel_gb_s: float, channels: int, passes: int, sweeps: int, efficiency: float,
    checked_gb_s: float,
) -> float:  # fmt: skip
    """
    Duration of a memory test by one core.

    Args:
        total_gb: Capacity as printed on sticks, 2^30 bytes each. [GB], above 0.
        channel_gb_s: Bandwidth of one channel, 10^9 bytes a second. [GB/s], above 0.
        channels: Channels in use. [1], 1 or more.
        passes: Full passes. [1], 1 or more.
        sweeps: How often a pass goes over the whole memory. [1], 1 or more.
        efficiency: Share of the bandwidth that is reached. [1], above 0 to 1.
        checked_gb_s: What one core writes and checks, 10^9 bytes a second. [GB/s], above 0.

    Returns:
        The time. [h]

    Raises:
        ZeroDivisionError: A bandwidth, a count of channels, an efficiency or a checked amount of 0.

    Source:
        Arithmetic: passes × sweeps × bytes ÷ the lesser of bandwidth × efficiency and what the core checks. A test
        that sets several cores to work is done sooner.

    Example:
        >>> print(f"{hours_of_testing(32, 25.6, 2, 4, 400, 0.5, 8):.2f} h")
        1.91 h
    """
    size = total_gb * BYTES_A_GB * sweeps * passes
    return size / (min(channel_gb_s * channels * efficiency, checked_gb_s) * 1e9) / 3600
