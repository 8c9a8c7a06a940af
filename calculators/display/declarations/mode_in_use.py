"""Which mode an answer is about, and whether it counts as a television's or a computer's: by its timing alone."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.errors import InputErrors, Problem, refuse
from calculators.desk.inputs import Values
from calculators.desk.numbers import listed, number
from calculators.trade.edid.declaration import Declaration, ListedMode, television_format
from calculators.trade.modes.cta_861 import find_format, nearest_formats

TELEVISION, COMPUTER, UNTOLD = "television", "computer", "untold"
_VGA = 1  # VIC 1, 640×480: the one format of CTA-861 whose default range is full. CTA-861-I, section 5.1, from memory
_NEARLY_WHOLE_HZ = 0.05  # CVT's clock steps of 0.25 MHz shift 60 Hz by less; a rate ÷1.001, such as 59.94, by more
SAME_REFRESH_HZ = 0.5  # systems list 59.81, 59.94 and 60 for one mode


@dataclass(frozen=True, slots=True)
class ModeInUse:
    """
    The mode that settings are chosen for.

    typed: whether the viewer typed it; else it is the declaration's preferred mode. why: the reason for its kind.
    only_420: listed with 4:2:0 alone. both: the declaration lists this size and refresh with a television's and with
    a computer's timing.
    """

    width: int
    height: int
    refresh_hz: float
    kind: str
    why: str
    typed: bool
    only_420: bool = False
    both: bool = False

    def say(self) -> str:
        """Such as '3840 × 2160 at 60 Hz'."""
        return say_mode(self.width, self.height, self.refresh_hz)


def say_mode(width: int, height: int, refresh_hz: float, interlaced: bool = False) -> str:
    """A mode in words fit to be read out."""
    lines = " interlaced" if interlaced else ""
    return f"{number(width)} × {number(height)}{lines} at {number(refresh_hz)} Hz"


def kind_of(mode: ListedMode) -> str:
    """
    Whether a listed mode is a television's or a computer's.

    Args:
        mode: One mode of the declaration. [object]

    Returns:
        television, computer, or untold where only a size is listed that both have. [text]

    Source:
        CTA-861-I, section 5.1: its formats are limited range by default, 640×480 and all else full; from memory.

    Example:
        >>> kind_of(ListedMode(1920, 1080, 60, "standard timings")), kind_of(ListedMode(2560, 1440, 60, "the same"))
        ('untold', 'computer')
    """
    if mode.vic or mode.h_total:
        entry = television_format(mode)
        return TELEVISION if entry and entry.vic != _VGA else COMPUTER
    standard = find_format(mode.width, mode.height, mode.refresh_hz)
    return UNTOLD if standard and standard[0].vic != _VGA else COMPUTER


def mode_in_use(given: Values, edid: Declaration) -> ModeInUse | None:
    """
    The mode that the viewer typed, else the preferred one.

    Args:
        given: The inputs; mode_width, mode_height, mode_refresh and mode_blanking where typed. [values]
        edid: The declaration, whose preferred mode fills in what was not typed. [object]

    Returns:
        The mode with its kind; None where none was typed and none is preferred. [object]

    Raises:
        InputErrors: Only one side of a size is typed, or CTA-861 has no format with the numbers.

    Source:
        CTA-861-I, section 5.1, from memory.

    Example:
        >>> mode_in_use(Values((), {}, ()), Declaration()) is None
        True
    """
    typed = [key for key in ("mode_width", "mode_height", "mode_refresh", "mode_blanking") if key in given]
    if not typed:
        return _preferred(edid)
    mode = edid.preferred
    words = {"mode_width": "the width", "mode_height": "the height", "mode_refresh": "the refresh"}
    missing = [key for key in words if key not in given]
    if mode and "mode_width" not in typed and "mode_height" not in typed:
        width, height, missing = mode.width, mode.height, []
    else:
        width, height = given.get("mode_width", 0), given.get("mode_height", 0)
        missing = [key for key in missing if key != "mode_refresh" or mode is None]
    if missing:
        raise InputErrors(
            Problem(key, f"A mode in use needs at least width and height: {words[key]} is missing.") for key in missing
        )
    refresh_hz = given.get("mode_refresh") or (mode.refresh_hz if mode else 0)
    return _typed(width, height, refresh_hz, given.get("mode_blanking"), edid)


def _preferred(edid: Declaration) -> ModeInUse | None:
    mode = edid.preferred
    if mode is None:
        return None
    kind = kind_of(mode)
    if kind == TELEVISION:
        why = "its clock and totals are those of a CTA-861 format"
    elif kind == UNTOLD:
        why = "only its size and refresh are told, and both a television's and a computer's timing exist for them"
    elif (mode.width, mode.height) == (640, 480):
        why = "640 × 480 counts as a computer's even where CTA-861 lists it"
    else:
        why = "its clock and totals are no CTA-861 format's"
    kinds = {kind_of(m) for m in _alike(edid, mode.width, mode.height, mode.refresh_hz)}
    return ModeInUse(
        mode.width, mode.height, mode.refresh_hz, kind, why, typed=False, both={TELEVISION, COMPUTER} <= kinds
    )


def _alike(edid: Declaration, width: int, height: int, refresh_hz: float) -> list[ListedMode]:
    """The listed modes that a system would show as this one."""
    return [
        m
        for m in edid.modes
        if (m.width, m.height) == (width, height)
        and not m.interlaced
        and abs(m.refresh_hz - refresh_hz) < SAME_REFRESH_HZ
    ]


def _whole(refresh_hz: float) -> float:
    """The whole refresh that a system's 59.997 stands for; what is farther away stays."""
    return round(refresh_hz) if abs(refresh_hz - round(refresh_hz)) < _NEARLY_WHOLE_HZ else refresh_hz


def _typed(width: int, height: int, refresh_hz: float, blanking: str | None, edid: Declaration) -> ModeInUse:
    alike = _alike(edid, width, height, refresh_hz)
    only_420 = bool(alike) and all(m.only_420 for m in alike)
    if blanking == "cta":
        entry = find_format(width, height, refresh_hz) or find_format(width, height, _whole(refresh_hz))
        if entry is None:
            near = listed([f.say() for f in nearest_formats(width, height, refresh_hz)], "or")
            raise refuse("mode_blanking", f"CTA-861 lists no such format; the nearest are {near}. Choose a CVT timing.")
        if entry[0].vic == _VGA:
            why = "640 × 480 is the one CTA-861 format whose default is full range"
            return ModeInUse(width, height, refresh_hz, COMPUTER, why, True, only_420)
        why = "it is sent with the timing of CTA-861"
        return ModeInUse(width, height, refresh_hz, TELEVISION, why, True, only_420)
    if blanking not in (None, "unknown"):
        why = "it is sent with a computer's timing"
        return ModeInUse(width, height, refresh_hz, COMPUTER, why, True, only_420)
    listed_there = find_format(width, height, refresh_hz) or find_format(width, height, _whole(refresh_hz))
    kinds = {kind_of(m) for m in alike} or {UNTOLD if listed_there else COMPUTER}
    if kinds == {TELEVISION}:
        why = "the display lists it only with the timing of CTA-861"
    elif kinds == {COMPUTER}:
        why = "no format of CTA-861 fits it here"
    else:
        why = "both a television's and a computer's timing exist for it, and a declaration cannot know which is in use"
    kind = kinds.pop() if len(kinds) == 1 else UNTOLD
    return ModeInUse(width, height, refresh_hz, kind, why, True, only_420)
