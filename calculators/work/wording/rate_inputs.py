"""Inputs for rates in bits and in bytes: each refuses the other's unit, with a sentence on how to convert."""

from __future__ import annotations

from collections.abc import Mapping

from calculators.desk.inputs import Number, quote

MEGABITS: Mapping[str, float] = {
    "Mbit/s": 1, "Mbps": 1, "Mbit": 1, "Mb": 1, "megabits": 1, "megabits a second": 1, "Gbit/s": 1000, "Gb/s": 1000,
    "Gbps": 1000, "Gbit": 1000, "kbit/s": 0.001, "kb/s": 0.001, "kbps": 0.001,
}  # fmt: skip
MEGABYTES: Mapping[str, float] = {
    "MB": 1, "megabytes": 1, "megabytes a second": 1, "GB/s": 1000, "GB": 1000, "gigabytes": 1000,
    "MiB/s": 1.048576, "GiB/s": 1073.741824,
}  # fmt: skip
# What may follow the prefix, k, M or G. Viewers type 'mb/s' for both, so that is refused by neither.
_BYTES = ("B", "B/s", "iB/s", "Bps")
_BITS = ("b", "b/s")


def _unit(given: object) -> str:
    """What stands after the number, without spaces; empty where nothing does."""
    return "".join(given.split()).lstrip("+-−0123456789.,'") if isinstance(given, str) else ""


def in_bytes(given: object) -> bool:
    """Whether what was typed is clearly a rate in bytes: 'MB/s' or 'megabytes', not 'mb/s'."""
    unit = _unit(given)
    return "byte" in unit.casefold() or unit[1:] in _BYTES


def in_bits(given: object) -> bool:
    """Whether what was typed is clearly a rate in bits: 'Mb/s', 'Mbit/s' or 'mbps', not 'mb/s'."""
    unit = _unit(given)
    named = "bit" in unit.casefold() or unit.endswith("bps")
    return named or (unit[:1].isupper() and unit[1:] in _BITS)


class BitRate(Number):
    """A rate in Mb/s that says so when bytes are given."""

    __slots__ = ()

    def read(self, given: object) -> float | None:
        if in_bytes(given):
            raise ValueError(
                f"{self.label} is asked in megabits a second, Mb/s, and {quote(given)} is in bytes: one byte is "
                "8 bits, so multiply by 8."
            )
        return super().read(given)


class ByteRate(Number):
    """A rate in MB/s that says so when bits are given."""

    __slots__ = ()

    def read(self, given: object) -> float | None:
        if in_bits(given):
            raise ValueError(
                f"{self.label} is asked in megabytes a second, MB/s, and {quote(given)} is in bits: eight bits are one "
                "byte, so divide by 8."
            )
        return super().read(given)
