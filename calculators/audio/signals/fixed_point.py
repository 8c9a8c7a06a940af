"""
Sine, logarithm and exponential in whole numbers, so that a sound has the same bytes on every machine.

Numbers are fixed-point with 64 bits after the point. Knows no sound.
"""

from __future__ import annotations

BITS = 64
ONE = 1 << BITS
_PI = 57952155664616982739  # π · 2^64, rounded
_LN2 = 12786308645202655660  # ln 2 · 2^64, rounded


def logarithm(over: int, under: int) -> int:
    """
    Natural logarithm of a fraction of two whole numbers.

    Args:
        over: The numerator. [1], 1 or more.
        under: The denominator. [1], 1 or more.

    Returns:
        The logarithm times 2^64, good to a few units in the last place. [2^-64]

    Raises:
        ZeroDivisionError: The denominator is 0.

    Source:
        ln(x · 2^k) = ln x + k ln 2 and ln x = 2 artanh((x - 1) / (x + 1)), its power series; any handbook.

    Example:
        >>> print(f"{logarithm(10, 1) / ONE:.12f}")
        2.302585092994
    """
    power_of_two = over.bit_length() - under.bit_length()
    if power_of_two >= 0:
        under <<= power_of_two
    else:
        over <<= -power_of_two
    if over < under:  # keep the fraction from 1 to 2: a negative term would never shrink to 0
        over, power_of_two = over << 1, power_of_two - 1
    ratio = ((over - under) << BITS) // (over + under)
    square = ratio * ratio >> BITS
    term, total, divisor = ratio, 0, 1
    while term:
        total += term // divisor
        term = term * square >> BITS
        divisor += 2
    return 2 * total + power_of_two * _LN2


def exponential(exponent: int) -> int:
    """
    e to a fixed-point power.

    Args:
        exponent: The exponent times 2^64. [2^-64]

    Returns:
        e to it, times 2^64, rounded down. [2^-64]

    Source:
        e^(x + k ln 2) = 2^k e^x and the power series; any handbook.

    Example:
        >>> print(f"{exponential(ONE) / ONE:.12f}")
        2.718281828459
    """
    power_of_two, rest = divmod(exponent, _LN2)
    term, total, count = ONE, 0, 0
    while term:
        total += term
        count += 1
        term = (term * rest >> BITS) // count
    return total << power_of_two if power_of_two >= 0 else total >> -power_of_two


def quarter_sine(steps: int) -> list[int]:
    """
    Sine from 0 to a quarter turn, both ends included.

    Args:
        steps: Into how many parts the quarter is cut. [1], 1 or more.

    Returns:
        steps + 1 values, each the sine times 2^30, rounded. [2^-30]

    Raises:
        ZeroDivisionError: steps is 0.

    Source:
        The power series of the sine; any handbook.

    Example:
        >>> quarter_sine(3)[1] / 2**30
        0.5
    """
    values = []
    for i in range(steps + 1):
        angle = _PI * i // (2 * steps)
        square = angle * angle >> BITS
        term, total, n = angle, 0, 1
        while term:
            total += term if n % 4 == 1 else -term
            term = (term * square >> BITS) // ((n + 1) * (n + 2))
            n += 2
        values.append((total + (1 << 33)) >> 34)
    return values
