"""Data rates as they are printed and as they are: 2133 stands for 2133⅓. Exact, in whole thirds of a MT/s."""

from __future__ import annotations

_BYTES_A_TRANSFER = 8  # a module's data path is 64 bits wide: JESD21-C, module chapters; DDR5 as two halves of 32


def thirds(rate_mt_s: int) -> int:
    """
    The true data rate behind a printed one, in thirds of a MT/s.

    Args:
        rate_mt_s: The rate as printed, a whole number. [MT/s], 200 to 20000.

    Returns:
        Three times the true rate: one ending in 33 stands for +1/3, in 66 for +2/3, in 67 for -1/3. [MT/s / 3]

    Source:
        JESD79-4 speed bin tables, from memory: tCK of 0.937, 0.750 ns belong to 2133⅓ and 2666⅔ MT/s.

    Example:
        >>> thirds(2133), thirds(2666), thirds(3733), thirds(2667), thirds(3200)
        (6400, 8000, 11200, 8000, 9600)
    """
    return 3 * rate_mt_s + {33: 1, 66: 2, 67: -1}.get(rate_mt_s % 100, 0)


def cycle_ns(rate_mt_s: int) -> float:
    """
    Length of one clock, of which each carries two transfers.

    Args:
        rate_mt_s: The rate as printed. [MT/s], 200 to 20000.

    Returns:
        The clock's period. [ns]

    Source:
        Definition of double data rate, JESD79-4 section 2, from memory.

    Example:
        >>> cycle_ns(3200)
        0.625
    """
    return 6000 / thirds(rate_mt_s)


def clocks_ns(clocks: int, rate_mt_s: int) -> float:
    """
    How long a number of clocks takes.

    Args:
        clocks: The count, such as a CAS latency. [1], 1 or more.
        rate_mt_s: The rate as printed. [MT/s], 200 to 20000.

    Returns:
        The time. [ns]

    Source:
        Arithmetic: count times period.

    Example:
        >>> clocks_ns(16, 3200)
        10.0
    """
    return clocks * 6000 / thirds(rate_mt_s)


def channel_gb_s(rate_mt_s: int) -> float:
    """
    Most data that one 64-bit channel can carry.

    Args:
        rate_mt_s: The rate as printed. [MT/s], 200 to 20000.

    Returns:
        The bandwidth, decimal. [GB/s]

    Source:
        JESD21-C module chapters, from memory: 64 data bits, so 8 bytes a transfer.

    Example:
        >>> channel_gb_s(3200)
        25.6
    """
    return thirds(rate_mt_s) * _BYTES_A_TRANSFER / 3000


def bandwidth_name(generation: str, rate_mt_s: int) -> str:
    """
    The module name by bandwidth, rounded down to hundreds of MB/s.

    Args:
        generation: ddr3, ddr4 or ddr5. [text]
        rate_mt_s: The rate as printed. [MT/s], 200 to 20000.

    Returns:
        Such as "PC4-25600". [text]

    Source:
        JESD21-C module chapters, from memory.

    Example:
        >>> bandwidth_name("ddr4", 2133), bandwidth_name("ddr3", 1333)
        ('PC4-17000', 'PC3-10600')
    """
    megabytes = thirds(rate_mt_s) * _BYTES_A_TRANSFER // 3
    return f"PC{generation[-1]}-{megabytes // 100 * 100}"


def rate_label(generation: str, rate_mt_s: int) -> str:
    """
    The name by data rate, as printed on stickers.

    Args:
        generation: ddr3, ddr4 or ddr5. [text]
        rate_mt_s: The rate as printed. [MT/s], 200 to 20000.

    Returns:
        Such as "DDR4-3200". [text]

    Source:
        JESD79-4, speed bin names, from memory.

    Example:
        >>> rate_label("ddr5", 4800)
        'DDR5-4800'
    """
    return f"{generation.upper()}-{rate_mt_s}"
