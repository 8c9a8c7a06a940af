"""How long a memory test takes: bytes over bandwidth at an efficiency."""

from __future__ import annotations

BYTES_A_GB = 2**30  # a stick's gigabyte: JEDEC JESD100B.01, from memory

# How often one full pass goes over the whole memory, all patterns together: a quick set and a thorough one.
# [1] Common practice, no source.
SWEEPS = (400, 1000)

# Share of the bandwidth that a test reaches, at best and at worst: it waits for every answer and checks it.
# [1] Common practice, no source.
EFFICIENCY = (0.5, 0.2)


def hours_of_testing(
    total_gb: float, channel_gb_s: float, channels: int, passes: int, sweeps: int, efficiency: float
) -> float:
    """
    Duration of a memory test.

    Args:
        total_gb: Capacity as printed on sticks, 2^30 bytes each. [GB], above 0.
        channel_gb_s: Bandwidth of one channel, 10^9 bytes a second. [GB/s], above 0.
        channels: Channels in use. [1], 1 or more.
        passes: Full passes. [1], 1 or more.
        sweeps: How often a pass goes over the whole memory. [1], 1 or more.
        efficiency: Share of the bandwidth that is reached. [1], above 0 to 1.

    Returns:
        The time. [h]

    Raises:
        ZeroDivisionError: A bandwidth, a count of channels or an efficiency of 0.

    Source:
        Arithmetic: passes × sweeps × bytes ÷ (bandwidth × efficiency). It leaves out that large memories are
        often tested by several cores at once, and small ones faster than the range says.

    Example:
        >>> print(f"{hours_of_testing(32, 25.6, 2, 4, 400, 0.5):.2f} h")
        0.60 h
    """
    size = total_gb * BYTES_A_GB * sweeps * passes
    return size / (channel_gb_s * 1e9 * channels * efficiency) / 3600
