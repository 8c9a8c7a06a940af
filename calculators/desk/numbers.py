"""How numbers are read from what people type, and how they are worded."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

_THIN = "\u202f"  # narrow no-break space between groups of three digits
_TYPED = re.compile(
    r"([+-]?)([0-9][0-9.,' \u00a0\u202f\u2009]*|[.,][0-9]+)(?:[eE]([+-]?[0-9]{1,3}))?\s*(.{0,24})", re.S
)
_PLAIN = re.compile(r"[0-9]*(?:[.,][0-9]*)?")
_GROUPED = re.compile(r"[0-9]{1,3}(?:[ '\u00a0\u202f\u2009][0-9]{3})+(?:[.,][0-9]*)?")
_BOTH = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+\.[0-9]*|[0-9]{1,3}(?:\.[0-9]{3})+,[0-9]*")


# The space between a digit and a unit, for the units that answers use. No letter may follow the unit: the m of 'more'
# is none. The pattern begins with the space itself: so only spaces are tried, and not every place in a text.
_BEFORE_UNIT = re.compile(
    r" (?<=[0-9] )(?=(?:%|°C|[kMGT]?(?:B|b)(?:/s)?|[KMGT]iB|[MG]T/s|[kMG]?Hz|dB(?:A|FS|m|V)?|[kmµ]?V|[kmµ]?W|m?A|k?Ω|"
    r"[nµm]?s|min|h|[kcm]?m|px(?:/s)?|cd/m²|frames/s|€)(?![A-Za-z0-9]))"
)


class NotANumber(ValueError):
    """The text is not one number, or carries a unit that this input does not know."""


def settled(value: float) -> float:
    """
    A number as it leaves a calculator: 12 significant digits, so that every platform prints the same.

    Args:
        value: The number. [any], finite.

    Returns:
        The nearest number of 12 significant digits. [as given]

    Raises:
        ValueError: The number is not finite.

    Source:
        DESIGN rule of this project: native and WebAssembly builds differ in the last bits.

    Example:
        >>> settled(0.1 + 0.2)
        0.3
    """
    if not math.isfinite(value):
        raise ValueError(f"a figure must be finite, got {value}")
    return float(f"{value:.12g}") + 0.0  # + 0.0 turns -0.0 into 0.0


def read_number(typed: str, unit: str = "", also: Mapping[str, float] | None = None) -> float:
    """
    The number in what somebody typed.

    Understands a decimal comma or point, digits grouped by spaces, an exponent, and the unit after the
    number. One comma or point is always the decimal sign: 1,350 is 1.35.

    Args:
        typed: The text, such as "1,35 V". [text]
        unit: The unit that may follow. [text]
        also: Other units that may follow, each with the factor that brings it to `unit`. [1]

    Returns:
        The number in `unit`. [unit]

    Raises:
        NotANumber: The text is not one number, or its unit is not known here.

    Source:
        Common practice, no source.

    Example:
        >>> read_number("1,35 V", "V")
        1.35
    """
    text = typed.strip().replace("\u2212", "-").replace("\uff0c", ",")
    text = _unit_behind(text, [unit, *(also or {})])
    match = _TYPED.fullmatch(text)
    if match is None:
        raise NotANumber("not a number")
    sign, digits, exponent, tail = match.groups()
    digits = digits.strip()
    if _BOTH.fullmatch(digits):
        thousands = "," if digits.index(",") < (digits.index(".") if "." in digits else len(digits)) else "."
        digits = digits.replace(thousands, "").replace(",", ".")
    elif _GROUPED.fullmatch(digits):
        digits = re.sub(r"[ '\u00a0\u202f\u2009]", "", digits).replace(",", ".")
    elif _PLAIN.fullmatch(digits):
        digits = digits.replace(",", ".")
    else:
        raise NotANumber("not one number")
    factor = 1.0
    name = _unit_name(tail)
    if name:
        known = {_unit_name(unit): 1.0} | {_unit_name(n): f for n, f in (also or {}).items()}
        if name not in known:
            raise NotANumber(f"the unit '{tail.strip()}' is not known here")
        factor = known[name]
    value = float(f"{sign}{digits}e{exponent or 0}") * factor
    if not math.isfinite(value):
        raise NotANumber("far too large")
    return settled(value) if factor != 1.0 else value


def _unit_behind(text: str, names: list[str]) -> str:
    """The text with a unit that stands before its number put behind it, as prices are written: €70 as 70 €."""
    for name in names:
        if name and text.casefold().startswith(name.casefold()) and text[len(name) :].lstrip()[:1].isdecimal():
            return f"{text[len(name) :].strip()} {name}"
    return text


def _unit_name(text: str) -> str:
    """A unit without spaces and case, as people type it."""
    return text.strip().replace(" ", "").replace("²", "2").replace("\u2126", "Ω").casefold()


def number(value: float, places: int = 2) -> str:
    """
    A number as answers show it: rounded, without trailing zeros, digits in groups of three from 10 000 on.

    Args:
        value: The number. [any], finite.
        places: Most digits after the point. [1], 0 to 12.

    Returns:
        The text. [text]

    Raises:
        ValueError: The number is not finite.

    Source:
        ISO 80000-1:2009, clause 7.3.1 (groups of three by a small space), from memory.

    Example:
        >>> number(13.750, 2), number(25600, 0)
        ('13.75', '25\\u202f600')
    """
    text = f"{settled(value):.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    if text in ("-0", "-"):
        text = "0"
    sign, text = ("\u2212", text[1:]) if text.startswith("-") else ("", text)
    whole, _, part = text.partition(".")
    if len(whole) > 4:
        whole = f"{int(whole):,}".replace(",", _THIN)
    return sign + whole + (f".{part}" if part else "")


def significant(value: float, digits: int = 3) -> str:
    """
    A number as answers show it, to about so many significant digits; digits before the point are never cut.

    Args:
        value: The number. [any], finite.
        digits: Significant digits. [1], 1 to 12.

    Returns:
        The text. [text]

    Raises:
        ValueError: The number is not finite.

    Source:
        Common practice, no source.

    Example:
        >>> significant(0.012345), significant(123.456), significant(12345.6)
        ('0.0123', '123', '12\\u202f346')
    """
    value = settled(value)
    if value == 0:
        return "0"
    exponent = int(f"{value:e}".partition("e")[2])
    return number(value, min(max(digits - 1 - exponent, 0), 12))


def with_unit(text: str, unit: str) -> str:
    """A number as text with its unit: a space between, but none before a degree sign."""
    if not unit:
        return text
    return f"{text}{unit}" if unit == "°" else f"{text} {unit}"


def unbroken(text: str) -> str:
    """
    A text for a page in which no line ends between a number and its unit.

    Args:
        text: Words with numbers in them. [text]

    Returns:
        The same words, with a no-break space before each unit that follows a number. [text]

    Source:
        Common practice, no source.

    Example:
        >>> unbroken("40 Mb/s over 2 m of cable").split("\u00a0")
        ['40', 'Mb/s over 2', 'm of cable']
    """
    return _BEFORE_UNIT.sub("\u00a0", text)


def span(low: float, high: float, unit: str = "", places: int = 2) -> str:
    """A range in words: '10 to 12 ns', or one number where both ends read the same."""
    first, last = number(low, places), number(high, places)
    return with_unit(first if first == last else f"{first} to {last}", unit)


def plural(count: int, one: str, many: str = "") -> str:
    """'1 stick', '2 sticks': a count with its noun."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def listed(parts: list[str] | tuple[str, ...], last: str = "and") -> str:
    """'a', 'a and b', 'a, b and c': a list fit to be read out."""
    items = list(parts)
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {last} {items[-1]}"
