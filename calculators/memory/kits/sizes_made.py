"""Which sizes of stick a generation has: what its chips can add up to."""

from __future__ import annotations

# Densities of one chip for which the standards are written. [Gb] JESD79-3: 512 Mb to 8 Gb; JESD79-4: 2 to 16 Gb;
# JESD79-5: 8 to 32 Gb and later 64 Gb, of which no unbuffered stick is commonly sold. From memory.
DENSITIES = {"ddr3": (1, 2, 4, 8), "ddr4": (2, 4, 8, 16), "ddr5": (8, 16, 24, 32)}

_DATA_BITS = 64  # of a module: JESD21-C and JESD400-5, from memory
_UNBUFFERED_WIDTHS = (8, 16)  # data bits of one chip on unbuffered sticks. Common practice, no source.
_MOST_REGISTERED_GB = {"ddr3": 64, "ddr4": 256, "ddr5": 512}  # stacked chips included. Common practice, no source.


def sizes_made(generation: str, module: str = "unbuffered") -> tuple[int, ...]:
    """
    Sizes in which sticks of a generation can be made.

    Args:
        generation: ddr3, ddr4 or ddr5. [text]
        module: unbuffered or registered. [text]

    Returns:
        The sizes, smallest first. Shape (n,). [GB]

    Source:
        Arithmetic: chips of one density, 8 or 16 bits wide, fill 64 data bits once or twice (one or two ranks);
        the densities as DENSITIES. Registered sticks: whatever can be doubled from these, common practice.

    Example:
        >>> sizes_made("ddr4"), 24 in sizes_made("ddr5"), 32 in sizes_made("ddr3")
        ((1, 2, 4, 8, 16, 32), True, False)
    """
    sizes = {
        density * (_DATA_BITS // width) * ranks // 8
        for density in DENSITIES[generation]
        for width in _UNBUFFERED_WIDTHS
        for ranks in (1, 2)
        if density * (_DATA_BITS // width) * ranks % 8 == 0
    }
    if module == "registered":
        most = _MOST_REGISTERED_GB[generation]
        sizes |= {size << doubled for size in sizes for doubled in range(6) if size << doubled <= most}
    return tuple(sorted(sizes))


def kits_of(generation: str, total_gb: int) -> tuple[tuple[int, int], ...]:
    """
    Kits of one, two or four equal unbuffered sticks that make a capacity.

    Args:
        generation: ddr3, ddr4 or ddr5. [text]
        total_gb: The capacity. [GB], 1 or more.

    Returns:
        Pairs of number of sticks and size of one, two sticks first: they fill both channels of a desktop and load
        neither twice. Shape (n, 2). [1, GB]

    Source:
        As sizes_made.

    Example:
        >>> kits_of("ddr4", 32), kits_of("ddr4", 24), kits_of("ddr5", 24)
        (((2, 16), (1, 32), (4, 8)), (), ((2, 12), (1, 24)))
    """
    made = sizes_made(generation)
    return tuple((n, total_gb // n) for n in (2, 1, 4) if total_gb % n == 0 and total_gb // n in made)
