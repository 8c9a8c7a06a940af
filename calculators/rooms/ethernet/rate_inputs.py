"""Inputs for a network's rate: bits and bytes told apart, and 'no network' answered in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from calculators.desk.inputs import Estimate, Number, quote

UNITS: Mapping[str, float] = {
    "Mbit/s": 1, "Mbps": 1, "Mbit": 1, "Mb": 1, "megabits": 1, "Gb/s": 1000, "Gbit/s": 1000, "Gbps": 1000,
    "Gbit": 1000, "gigabit": 1000, "kb/s": 0.001, "kbit/s": 0.001, "kbps": 0.001,
}  # fmt: skip
_BYTES = ("MB/s", "MB", "GB/s", "MiB/s", "KB/s", "kB/s", "megabytes")
_NONE = ("none", "no", "no network", "nothing")


def _refusal(label: str, given: object) -> ValueError | None:
    """The error for a rate in bytes and for 'no network'; None where it is neither."""
    if isinstance(given, bool):
        return None
    text = given.strip() if isinstance(given, str) else "0" if given == 0 else ""
    if text.endswith(_BYTES):
        return ValueError(
            f"{label} is asked in megabits a second, Mb/s, and {quote(text)} is in bytes: one byte is 8 bits, so "
            "multiply by 8."
        )
    digits = text.rstrip("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ/ ")
    if text.casefold() in _NONE or (digits and not digits.strip("0.,")):
        return ValueError(
            f"{label} is {quote(text)}, and without a network nothing is sent over one: give what the network "
            "carries between the two machines, such as 100."
        )
    return None


class NetworkRate(Number):
    """A network's rate in Mb/s."""

    __slots__ = ()

    def read(self, given: object) -> float | None:
        if isinstance(given, str) and (refused := _refusal(self.label, given)) is not None:
            raise refused
        return super().read(given)

    def wrong(self, given: object) -> ValueError:
        return _refusal(self.label, given) or super().wrong(given)


class NetworkEstimate(Estimate):
    """A network's rate in Mb/s, by number, everyday choice or 'not sure'."""

    __slots__ = ()

    def read(self, given: object) -> Any:
        if isinstance(given, str) and (refused := _refusal(self.label, given)) is not None:
            raise refused
        return super().read(given)

    def wrong(self, given: object) -> ValueError:
        return _refusal(self.label, given) or super().wrong(given)
