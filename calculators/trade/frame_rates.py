"""
Frame and refresh rates as people type them, read exactly: 59.94 stands for 60 000/1001. One reader for every subject.

Television's rates of 1953 are whole rates slowed by 1000/1001, and nobody types them in full.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from calculators.desk.answer import COMMON_PRACTICE, FROM_MEMORY, Source
from calculators.desk.inputs import Choice, Estimate, Everyday, NamedValue, Number
from calculators.desk.numbers import NotANumber, number, read_number, settled
from calculators.trade.ratio import Ratio, exact_ratio

SOURCE = Source("SMPTE ST 2036-1, CTA-861: rates of n × 1000/1001", "frame rates", FROM_MEMORY)

# Each whole rate that has a sister slowed by 1000/1001, with the shortened forms in which that is typed. [frames/s]
SLOWED: Mapping[int, tuple[float, ...]] = {
    24: (23.97, 23.976, 23.98),
    30: (29.97,),
    48: (47.95, 47.952),
    60: (59.94,),
    72: (71.93, 71.928),
    96: (95.904,),
    120: (119.88,),
    144: (143.86, 143.856),
    192: (191.808,),
    240: (239.76,),
    288: (287.712,),
}
_FEWEST_PLACES, _MOST_PLACES = 3, 12  # with so many decimals of the exact rate, typed or divided out, it is meant too
_BY_TYPED = {typed: whole for whole, forms in SLOWED.items() for typed in forms} | {
    round(whole * 1000 / 1001, places): whole for whole in SLOWED for places in range(_FEWEST_PLACES, _MOST_PLACES + 1)
}


def slowed_from(typed_hz: float) -> int | None:
    """
    The whole rate of which a typed rate is 1000/1001, or None where it is what it says.

    Args:
        typed_hz: A rate as typed. [frames/s], above 0.

    Returns:
        24 for 23.976, 23.98 and 23.97; None for 24. [frames/s]

    Source:
        CTA-861-I, 4.3 and SMPTE ST 2036-1, frame rates (from memory).

    Example:
        >>> slowed_from(59.94), slowed_from(60)
        (60, None)
    """
    return _BY_TYPED.get(typed_hz)


def exact_rate(typed_hz: float) -> Ratio:
    """
    A typed rate as the exact ratio that it means.

    Args:
        typed_hz: A rate as typed. [frames/s], above 0 to a million.

    Returns:
        The ratio: 60000/1001 for 59.94, else the decimal that was typed. [frames/s]

    Source:
        As slowed_from.

    Example:
        >>> exact_rate(23.98), exact_rate(50)
        (Ratio(over=24000, under=1001), Ratio(over=50000000, under=1000000))
    """
    whole = slowed_from(typed_hz)
    return exact_ratio(typed_hz) if whole is None else Ratio(whole * 1000, 1001)


def say_rate(typed_hz: float, unit: str = "Hz") -> str:
    """
    A rate in words; where it stands for n × 1000/1001, to three decimals and with that said.

    Args:
        typed_hz: A rate as typed. [frames/s]
        unit: Hz for a display, or what else is counted. [text]

    Returns:
        Such as '144 Hz' or '23.976 Hz (24 × 1000/1001)'. [text]

    Source:
        None: wording.

    Example:
        >>> say_rate(59.94), say_rate(144, "frames a second")
        ('59.94 Hz (60 × 1000/1001)', '144 frames a second')
    """
    whole = slowed_from(typed_hz)
    if whole is None:
        return f"{number(typed_hz, 3)} {unit}"
    return f"{number(whole * 1000 / 1001, 3)} {unit} ({whole} × 1000/1001)"


def exact_rates_note(*typed_hz: float) -> str:
    """
    What is to be said of those rates that stand for n × 1000/1001; nothing where none does.

    Args:
        typed_hz: Rates as typed. [frames/s]

    Returns:
        One sentence or none, such as '59.94 means exactly 60 × 1000/1001, 59.94006.' [text]

    Source:
        None: wording.

    Example:
        >>> exact_rates_note(60, 59.94)
        '59.94 means exactly 60 × 1000/1001, which is 59.94006.'
    """
    typed_by_whole = {whole: typed for typed in typed_hz if (whole := slowed_from(typed)) is not None}
    parts = [f"{number(typed, 6)} means exactly {whole} × 1000/1001, which is {number(whole * 1000 / 1001, 6)}"
             for whole, typed in typed_by_whole.items()]  # fmt: skip
    return f"{'; '.join(parts)}." if parts else ""


def cut_short(typed_hz: float) -> int | None:
    """
    The whole rate whose slowed sister a system may list under this whole number, its decimals cut off.

    Args:
        typed_hz: A rate as listed. [frames/s]

    Returns:
        60 for 59, 120 for 119; None for 60. [frames/s]

    Source:
        Common practice, no source: display settings that show whole numbers cut 59.94 to 59.

    Example:
        >>> cut_short(59), cut_short(60)
        (60, None)
    """
    return int(typed_hz) + 1 if typed_hz == int(typed_hz) and int(typed_hz) + 1 in SLOWED else None


_FRACTION = re.compile(r"\s*([0-9]{1,7})\s*/\s*([0-9]{1,7})\s*(?:Hz|fps|p)?\s*")
_UNITS = ("Hz", "hertz", "fps", "p", "frames", "frames/s", "frames a second", "frames per second", "/s")


def rate_input(
    *, key: str, label: str, where: str, default: float | None, low: float = 10, high: float = 1000, unit: str = "Hz",
    group: str = "", note: str = "", optional: bool = False, unsure: bool = False, extra: bool = False,
    names: tuple[str, ...] = (), named: tuple[NamedValue, ...] = (), such_as: float | None = None,
) -> Number:  # fmt: skip
    """The input by which a viewer names a frame or refresh rate; its value goes through exact_rate."""
    return Number(
        key=key, label=label, where=where, default=default, low=low, high=high, unit=unit, group=group, note=note,
        optional=optional, unsure=unsure, extra=extra, names=names, named=named, such_as=such_as,
        also={name: 1 for name in _UNITS if name != unit},
    )  # fmt: skip


# What people can say of a game's frames who have never counted them. Common practice, no source. [frames/s]
FRAME_CHOICES = (
    Everyday("heavy", "a heavy game, an older machine", 30, 60, ("heavy game",)),
    Everyday("usual", "a usual game, a middling machine", 60, 120, ("usual game",)),
    Everyday("light", "a light game, a fast machine", 120, 300, ("light game",)),
)
FRAMES_SOURCE = Source("Everyday words for frames a second", "", COMMON_PRACTICE)


def frames_input(
    *, where: str, default: float, key: str = "frames", label: str = "Frames the machine makes", group: str = "",
) -> Estimate:  # fmt: skip
    """The input for the frames that a machine makes: a number, an everyday choice or 'not sure'; read as a Span."""
    return Estimate(
        key=key, label=label, where=where, default=default, low=1, high=2000, unit="frames a second", group=group,
        names=("fps", "frames", "frame rate", "frames per second"),
        choices=FRAME_CHOICES, unsure_low=30, unsure_high=240,
        also=dict.fromkeys(_UNITS, 1),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class RateChoice(Choice):
    """
    One of a few frame or refresh rates, in any spelling: 23.98, '23,976', '24 fps', '24p' or a number.

    Its options' values are rates as typed; which of them is meant goes by the exact rate.
    """

    units: tuple[str, ...] = _UNITS

    def read(self, given: object) -> str:
        option = self._option_of(given)
        return option if option is not None else super(RateChoice, self).read(given)

    def _option_of(self, given: object) -> str | None:
        if isinstance(given, bool) or not isinstance(given, (int, float, str)):
            return None
        if isinstance(given, str):
            if (parts := _FRACTION.fullmatch(given[:80])) and int(parts[2]):  # as programs print it: 24000/1001
                return self._option_like(Ratio(int(parts[1]), int(parts[2])))
            try:
                value = read_number(given[:80], "", dict.fromkeys(self.units, 1.0))
            except NotANumber:
                return None
        else:
            value = float(given) if abs(given) < 10**6 else 0.0  # refuses NaN too
        if not 0 < value < 10**6:
            return None
        return self._option_like(exact_rate(settled(value)))  # twelve digits, as every other input

    def _option_like(self, meant: Ratio) -> str | None:
        rates = [o.value for o in self.options if o.value[:1].isdigit()]  # 'unsure' is no rate
        return next((rate for rate in rates if exact_rate(float(rate)).same(meant)), None)
