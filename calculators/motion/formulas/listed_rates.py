"""
The refresh rates that a display lists, typed as a row of numbers or read from its declaration, each made exact.

A list that a system shows cuts decimals off: 59 there is mostly 59.94, and only the exact rate tells.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from calculators.desk.numbers import NotANumber, number, read_number
from calculators.trade.frame_rates import SLOWED, cut_short, exact_rate, slowed_from
from calculators.trade.ratio import Ratio

LEAST_HZ, MOST_HZ, MOST_RATES = 10.0, 1000.0, 40

_APART = re.compile(r"[;/|\n\t]+|,\s+|\s+(?:and|or|to)\s+|(?<=[zs])\s*,")
_SPACES = re.compile(r"\s+")
_UNITS = {"Hz": 1.0, "hertz": 1.0, "fps": 1.0, "p": 1.0}
# Whole rates that displays list. Common practice, no source: tells '60,75' (two rates) from '59,95' (one).
_COMMON = frozenset((23, 24, 25, 29, 30, 48, 50, 56, 59, 60, 70, 72, 75, 85, 90, 96, 99, 100, 119, 120, 143, 144, 165,
                     170, 175, 180, 200, 239, 240, 270, 280, 300, 320, 360, 390, 480, 500, 540))  # fmt: skip
_CLOCK_STEP_KHZ = 10  # a declaration holds the clock in such steps; VESA E-EDID A.2, from memory


@dataclass(frozen=True, slots=True)
class Listed:
    """One listed rate: as listed, the exact rate that is most likely meant, and the whole rate it may be cut from."""

    typed: float
    exact: Ratio
    cut_from: int | None = None

    def say(self) -> str:
        """Such as '59.94 Hz', or '59 Hz, if that is 59.94'."""
        if self.cut_from is None:
            return f"{number(self.typed, 3)} Hz"
        return f"{number(self.typed, 3)} Hz, if that is {number(self.exact.value, 3)}"


def listed(typed_hz: float) -> Listed:
    """
    One listed rate with what it most likely means.

    Args:
        typed_hz: As listed. [Hz]

    Returns:
        59.94 as 60000/1001; 59 the same, with the question whether it is so. [object]

    Source:
        Common practice, no source: display settings cut decimals off.

    Example:
        >>> listed(59).say(), listed(144).say()
        ('59 Hz, if that is 59.94', '144 Hz')
    """
    whole = cut_short(typed_hz)
    if whole is None:
        return Listed(typed_hz, exact_rate(typed_hz))
    return Listed(typed_hz, Ratio(whole * 1000, 1001), whole)


def read_rates(text: str) -> tuple[float, ...]:
    """
    The rates in a list that somebody typed.

    Args:
        text: Such as '60, 59.94, 120 and 144 Hz'; decimal commas are understood. [text]

    Returns:
        The rates, each once, in the order typed. [Hz]

    Raises:
        ValueError: There is no rate in it, one is no rate from 10 to 1000 Hz, or there are more than 40.

    Source:
        None: reading.

    Example:
        >>> read_rates("60, 59,94; 120 Hz"), read_rates("60,75,144"), read_rates("23,976")
        ((60.0, 59.94, 120.0), (60.0, 75.0, 144.0), (23.976,))
    """
    rates: list[float] = []
    for part in _APART.split(text):
        for word in _words(part.strip(" ,")):
            try:
                value = read_number(word, "Hz", _UNITS)
            except NotANumber:
                raise ValueError(f"'{word[:20]}' is no rate") from None
            if not LEAST_HZ <= value <= MOST_HZ:
                raise ValueError(f"{word[:20]} is not from {number(LEAST_HZ)} to {number(MOST_HZ)} Hz")
            if value not in rates:
                rates.append(value)
    if not rates:
        raise ValueError("there is no rate in it")
    if len(rates) > MOST_RATES:
        raise ValueError(f"that are {len(rates)} rates, and {MOST_RATES} are the most")
    return tuple(rates)


def _words(part: str) -> list[str]:
    """The rates in a part without separators other than commas and spaces; a unit stays with its number."""
    words: list[str] = []
    for word in _SPACES.split(part):
        if word and words and not word[:1].isdigit():
            words[-1] += f" {word}"
        elif word:
            words.append(word)
    return [each for word in words for each in _commas(word)]


def _commas(word: str) -> list[str]:
    pieces = word.split(",")
    if len(pieces) == 1:
        return pieces
    if len(pieces) == 2:
        both = all(piece.isdigit() and int(piece) in _COMMON for piece in pieces)
        return pieces if both or "." in word else [word]
    return [piece for piece in pieces if piece]


def say_rates(rates: tuple[float, ...]) -> str:
    """The list in the one way of writing it that reads back the same."""
    return ", ".join(f"{rate:.12g}" for rate in rates)


def declared(refresh_hz: float, clock_khz: int = 0) -> float:
    """
    A refresh worked out of a declaration's clock as the rate that the clock's steps stand for.

    Args:
        refresh_hz: Clock divided by totals. [Hz]
        clock_khz: The clock; 0 where the rate was declared by itself. [kHz]

    Returns:
        The whole rate or its slowed sister where that is within one step of the clock, else what came. [Hz]

    Source:
        VESA E-EDID Standard Release A, Revision 2: clocks in steps of 10 kHz, from memory.

    Example:
        >>> declared(59.9394, 148350), declared(60.0, 0), declared(59.951, 241500)
        (59.94, 60.0, 59.951)
    """
    whole = round(refresh_hz)
    step = refresh_hz * _CLOCK_STEP_KHZ / clock_khz if clock_khz else 1e-6
    if abs(refresh_hz - whole) <= step:
        return float(whole)
    for one, forms in SLOWED.items():
        if abs(refresh_hz - one * 1000 / 1001) <= step:
            return min(forms, key=lambda form: abs(form - one * 1000 / 1001))
    return round(refresh_hz, 3)


def slowed_form(whole_hz: float) -> float | None:
    """
    How the sister of a whole rate, slowed by 1000/1001, is typed.

    Args:
        whole_hz: A whole rate. [Hz]

    Returns:
        59.94 for 60; None where there is no such sister, and for 59.94 itself. [Hz]

    Source:
        CTA-861-I: its formats at whole multiples of 6 Hz are also sent slowed, from memory.

    Example:
        >>> slowed_form(60), slowed_form(75)
        (59.94, None)
    """
    whole = int(whole_hz) if whole_hz == int(whole_hz) else 0
    if whole not in SLOWED or slowed_from(whole_hz) is not None:
        return None
    return min(SLOWED[whole], key=lambda form: abs(form - whole * 1000 / 1001))
