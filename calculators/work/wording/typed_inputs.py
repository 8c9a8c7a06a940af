"""Inputs that take what people type: '4k' for an edge, '500k' triangles, '+50 %', 'x8', 'gen 4', '10 bit'."""

from __future__ import annotations

import re

from calculators.desk.inputs import Choice, Number, quote
from calculators.desk.numbers import number

_NUMBER = r"(\d{1,9}(?:[.,]\d{1,6})?)"
_KIBI = re.compile(rf"\s*{_NUMBER}\s*k\s*(?:px|pixels)?\s*", re.I)
_THOUSANDS = re.compile(rf"\s*{_NUMBER}\s*k\s*", re.I)
_MORE = re.compile(rf"\s*(\+?)\s*{_NUMBER}\s*(?:%|percent|per cent)(\s*(?:faster|more))?\s*", re.I)
_GENERATION = re.compile(r"\s*(?:(?:pcie|pci-e|pci express|generation|gen)\s*\.?\s*){1,2}([1-7])(?:\.0)?\s*", re.I)
_TWICE = ("twice", "twice as fast", "double")
_AROUND = re.compile(r"^[x×]\s*|\s*(?:lanes?|[x×]|-?\s*bits?)$", re.I)
MILLION = 1_000_000


def _value(digits: str) -> float:
    return float(digits.replace(",", "."))


class Edge(Number):
    """Pixels along an edge, of which artists say '4k' for 4 × 1024."""

    __slots__ = ()

    def read(self, given: object) -> float | None:
        if isinstance(given, str) and (typed := _KIBI.fullmatch(given)):
            given = str(round(_value(typed[1]) * 1024))
        return super().read(given)


class Millions(Number):
    """A count in millions; '500k' is half a million, and a count that was not divided is told so."""

    __slots__ = ()

    def read(self, given: object) -> float | None:
        if isinstance(given, str) and (typed := _THOUSANDS.fullmatch(given)):
            return super().read(_value(typed[1]) / 1000)
        plain = _plain(given)
        if plain is not None and plain > self.high:
            raise ValueError(
                f"{self.label} are asked in millions, and {quote(given)} is far too many of them: "
                f"for {number(plain, 0)} write {number(plain / MILLION, 3)}."
            )
        return super().read(given)


def _plain(given: object) -> float | None:
    """A finite number given without a unit."""
    if isinstance(given, (int, float)) and not isinstance(given, bool):
        return float(given) if abs(given) < 10**15 else None
    digits = re.sub(r"[ '\u00a0\u202f\u2009]", "", given) if isinstance(given, str) else ""
    return float(digits) if re.fullmatch(r"[0-9]{1,15}", digits) else None


class Times(Number):
    """How many times as fast: 'twice' and '50 % faster' are understood, a bare '50 %' may be either and is asked."""

    __slots__ = ()

    def read(self, given: object) -> float | None:
        if isinstance(given, str):
            if given.strip().casefold() in _TWICE:
                return super().read(2)
            if typed := _MORE.fullmatch(given):
                more = 1 + _value(typed[2]) / 100
                if not typed[1] and not typed[3]:
                    raise ValueError(
                        f"{self.label}: {quote(given)} may mean two things. Write {number(more, 4)} for so much "
                        f"faster, or {number(more - 1, 4)} for that part of today's speed."
                    )
                return super().read(more)
        return super().read(given)


class Generation(Number):
    """A generation of links, as 'gen 4' or 'PCIe 4.0' name it."""

    __slots__ = ()

    def read(self, given: object) -> float | None:
        if isinstance(given, str) and (typed := _GENERATION.fullmatch(given)):
            given = int(typed[1])
        return super().read(given)


class Counted(Choice):
    """A choice among numbers, with what people put around them: 'x8', '8 lanes', '10 bit'."""

    __slots__ = ()

    def read(self, given: object) -> str:
        if isinstance(given, str) and (digits := _AROUND.sub("", given[:80].strip())).isdigit():
            try:
                return super().read(digits)
            except ValueError:
                raise self.wrong(given) from None
        return super().read(given)
