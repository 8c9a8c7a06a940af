"""
The functions whose last bits differ between a native build of C and WebAssembly, kept in one place.

Of 5,000 inputs log10 differed for 497, cbrt for 2,373 and sin for 168; sqrt and log for none.
So log10 is made of log, powers of exp and log, and sin and cos are rounded where the platforms part.
tests/test_rooms.py forbids the originals elsewhere in calculators/.
"""

from __future__ import annotations

import math

_LOG_10 = math.log(10)


def log10(value: float) -> float:
    """
    Logarithm to the base ten.

    Args:
        value: The number. [any], above 0.

    Returns:
        The exponent that ten needs. [1]

    Raises:
        ValueError: The value is 0 or less.

    Source:
        Identity log10(x) = ln(x) / ln(10).

    Example:
        >>> print(f"{log10(1000):.6f}")
        3.000000
    """
    return math.log(value) / _LOG_10


def power(base: float, exponent: float) -> float:
    """
    A power with any exponent, rounded to 13 significant digits.

    Args:
        base: The base. [any], 0 or more.
        exponent: The exponent. [1]

    Returns:
        base to the exponent. [any]

    Raises:
        ValueError: The base is below 0.
        OverflowError: The result is too large for a float.

    Source:
        Identity x^y = e^(y ln x); 0^0 = 1 and 0^y = 0 for y > 0.

    Example:
        >>> print(f"{power(2, 10):.6f}")
        1024.000000
    """
    if base < 0:
        raise ValueError(f"base must be 0 or more, got {base}")
    if base == 0:
        if exponent < 0:
            raise ValueError("0 cannot be raised to a negative power")
        return 1.0 if exponent == 0 else 0.0
    return _settled(math.exp(exponent * math.log(base)))


def cube_root(value: float) -> float:
    """
    Cube root, for either sign.

    Args:
        value: The number. [any]

    Returns:
        Its cube root. [any]

    Source:
        Identity x^(1/3) = e^(ln(x)/3), odd in x.

    Example:
        >>> print(f"{cube_root(-27):.6f}")
        -3.000000
    """
    return power(value, 1 / 3) if value >= 0 else -power(-value, 1 / 3)


def exponential(value: float) -> float:
    """
    e to a power, rounded to 13 significant digits.

    Args:
        value: The exponent. [1]

    Returns:
        e to the exponent. [1]

    Raises:
        OverflowError: The result is too large for a float.

    Source:
        The C library's exp.

    Example:
        >>> print(f"{exponential(1):.6f}")
        2.718282
    """
    return _settled(math.exp(value))


def sine(radians: float) -> float:
    """
    Sine, rounded to 13 decimals.

    Args:
        radians: The angle. [rad]

    Returns:
        Its sine. [1], -1 to 1.

    Raises:
        ValueError: The angle is infinite.

    Source:
        The C library's sin.

    Example:
        >>> print(f"{sine(math.pi / 6):.6f}")
        0.500000
    """
    return round(math.sin(radians), 13) + 0.0


def cosine(radians: float) -> float:
    """
    Cosine, rounded to 13 decimals.

    Args:
        radians: The angle. [rad]

    Returns:
        Its cosine. [1], -1 to 1.

    Raises:
        ValueError: The angle is infinite.

    Source:
        The C library's cos.

    Example:
        >>> print(f"{cosine(math.pi / 3):.6f}")
        0.500000
    """
    return round(math.cos(radians), 13) + 0.0


def _settled(value: float) -> float:
    """Thirteen significant digits: two short of what differs between platforms."""
    return float(f"{value:.13g}")
