"""Money as people type it and as it is worded: an amount with any currency sign, never converted."""

from __future__ import annotations

import re

from calculators.desk.inputs import Number
from calculators.desk.numbers import number

_LONGEST_SIGN = 8
_NO_NUMBERS = frozenset({"nan", "inf", "infinity"})  # what programs write where an amount could not be had

# Signs that may stand after an amount in its own field; there they change nothing.
AMOUNT_SIGNS = dict.fromkeys(("€", "$", "£", "¥", "₹", "₩", "EUR", "USD", "GBP", "CHF", "kr", "zł"), 1.0)

# A comma before three digits: no money is counted in thousandths, so it groups them. The same with a point stays a
# fraction, because that is how a link writes one.
_GROUPED = re.compile(r"([^0-9.,]*)([1-9][0-9]{0,2}(?:,[0-9]{3})+)([^0-9.,]*)")


class Amount(Number):
    """An amount of money, in which '1,299' is one thousand two hundred and ninety-nine."""

    __slots__ = ()

    def read(self, given: object) -> float | None:
        if isinstance(given, str) and (typed := _GROUPED.fullmatch(given)):
            given = typed[1] + typed[2].replace(",", "") + typed[3]
        return super().read(given)


def read_currency(text: str) -> str:
    """
    A currency sign or code as typed.

    Args:
        text: Such as "€", "kr" or "CHF". [text]

    Returns:
        The sign without spaces around it. [text]

    Raises:
        ValueError: It is longer than eight characters, holds a digit, or is no amount, with the reason.

    Source:
        Common practice, no source: any sign will do, since nothing is converted.

    Example:
        >>> read_currency(" CHF ")
        'CHF'
    """
    sign = " ".join(text.split())
    if len(sign) > _LONGEST_SIGN:
        raise ValueError(f"it is at most {_LONGEST_SIGN} characters long")
    if any(c.isdigit() for c in sign) or not sign.isprintable():
        raise ValueError("it holds no digits")
    if sign.strip("+-−").lower() in _NO_NUMBERS:
        raise ValueError("it is a sign, not an amount")
    return sign


def amount(value: float, currency: str) -> str:
    """
    An amount in words: whole, or with two decimals.

    Args:
        value: The amount. [currency], finite.
        currency: The sign, put after the amount. [text]

    Returns:
        Such as "70 €" or "2.50 €". [text]

    Raises:
        ValueError: The amount is not finite.

    Source:
        Common practice, no source.

    Example:
        >>> amount(70, "€"), amount(2.5, "€")
        ('70 €', '2.50 €')
    """
    text = number(value, 2)
    if "." in text and len(text.partition(".")[2]) == 1:
        text += "0"
    return f"{text} {currency}"
