"""How two kits are set first: by hand, profiles off, nothing at all, or automatic and then upwards."""

from __future__ import annotations

from enum import Enum

from calculators.memory.kits.kit_inputs import Kit
from calculators.memory.timings import jedec_bins
from calculators.memory.timings.start_settings import STANDARD, Start


class First(Enum):
    """What to do first."""

    BY_HAND = "rate, timings and voltage by hand, then down if they fail"
    PROFILES_OFF = "profiles off, the standard settings"
    NOTHING = "nothing to set: a portable computer takes the standard settings"
    STEP_UP = "everything on automatic, then up"


def standard_volts(generation: str) -> set[float]:
    """The voltages at which a generation's standard settings hold. [V]"""
    standard = {jedec_bins.STANDARD_VOLTS[generation]}
    return standard | {jedec_bins.DDR3_LOW_VOLTS} if generation == "ddr3" else standard


def first_setting(have: Kit, add: Kit, begin: Start, doubled: bool, limit_four_mt_s: int | None) -> First:
    """
    Which way to begin.

    Args:
        have: One kit. [object]
        add: The other kit, of the same generation and shape. [object]
        begin: The settings that both kits can be expected to hold. [object]
        doubled: Whether any channel holds two sticks.
        limit_four_mt_s: The listed limit for two sticks a channel, or None. [MT/s]

    Returns:
        The way. [object]

    Source:
        Common practice, no source: portable computers have no memory menu and run standard settings; two DDR5
        sticks on a channel seldom hold their rating, so the board's own choice comes first.

    Example:
        >>> from calculators.memory.kits.kit_inputs import sample
        >>> from calculators.memory.timings.start_settings import start
        >>> kit = sample(generation="ddr5", rate=6000)
        >>> first_setting(kit, kit, start(kit, kit, None), True, None)
        <First.STEP_UP: 'everything on automatic, then up'>
    """
    usual = standard_volts(have.generation)
    if have.form == "sodimm" and have.volts in usual and add.volts in usual:
        return First.NOTHING
    if have.generation == "ddr5" and doubled and limit_four_mt_s is None:
        return First.STEP_UP
    return First.PROFILES_OFF if begin.way == STANDARD else First.BY_HAND
