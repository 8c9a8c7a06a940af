"""The ladder of steps down, for two kits that do not start with the settings to begin with."""

from __future__ import annotations

from calculators.desk.answer import Step
from calculators.desk.numbers import number, plural
from calculators.memory.kits.kit_inputs import Kit
from calculators.memory.timings import jedec_bins
from calculators.memory.timings.data_rates import rate_label, thirds
from calculators.memory.timings.start_settings import STANDARD, Start, slower, standard_rate, standard_timings
from calculators.memory.timings.timing_strings import write_timings

BEGIN = "Begin here"
DOWN = "If it does not start, or a test fails: down, one step at a time"
OFF = "Profile off"
LIMIT = "The makers' limit"
BELOW = "Below the sticks' own standard rate"
FEWER = "Fewer sticks"


def ladder(have: Kit, add: Kit, start: Start, doubled: bool, limit_four_mt_s: int | None) -> tuple[Step, ...]:
    """
    What to set first, and what to try after it, each step easier on the memory than the one before.

    Args:
        have: The kit at hand. [object]
        add: The kit to add, of the same generation. [object]
        start: Settings to begin with. [object]
        doubled: Whether any channel holds two sticks.
        limit_four_mt_s: The listed limit for two sticks a channel, or None. [MT/s]

    Returns:
        The steps, in order. [list]

    Raises:
        Nothing.

    Source:
        Common practice, no source; the standard rates and their clocks as calculators/memory/timings/jedec_bins.py.

    Example:
        >>> from calculators.memory.kits.kit_inputs import sample
        >>> from calculators.memory.timings.start_settings import start
        >>> [s.key for s in ladder(sample(), sample(), start(sample(), sample(), None), True, None)][:3]
        ['begin', 'rate-2933', 'rate-2666']
    """
    generation = have.generation
    floor = slower_base(have, add)
    steps = [_begin(generation, start)]
    lower = [r for r in reversed(jedec_bins.STANDARD_RATES[generation]) if thirds(r) < thirds(start.rate_mt_s)]
    if start.way != STANDARD:
        steps += [_rate(have, add, r, start.volts, DOWN) for r in lower if thirds(r) > thirds(floor)]
        floor = slower([floor, start.rate_mt_s])
        steps.append(_profile_off(have, add, floor))
    if doubled:
        steps.append(_limit(generation, start, limit_four_mt_s))
    volts = jedec_bins.STANDARD_VOLTS[generation]
    steps += [_rate(have, add, r, volts, BELOW) for r in lower if thirds(r) < thirds(floor)]
    return (*steps, *_fewer(have, add))


def slower_base(have: Kit, add: Kit) -> int:
    """The slower of what two kits run at with their profiles off, as printed. [MT/s]"""
    return slower([standard_rate(have), standard_rate(add)])


def _begin(generation: str, start: Start) -> Step:
    label, timings = rate_label(generation, start.rate_mt_s), write_timings(start.timings)
    volts = f"{number(start.volts, 4)} V"
    if start.way == STANDARD:
        do = (
            "Leave both kits' rated profiles off, so that the board takes the standard settings.",
            f"They should come out at about {label}, {timings}, {volts}.",
            "Set the rate by hand only if the board chose a higher one.",
        )
    else:
        do = (
            f"In the firmware's memory menu set {start.rate_mt_s} MT/s, {timings} and {volts}.",
            "Set no voltage that the board's manual does not allow.",
            "Leave every other memory setting on automatic.",
        )
    return Step(
        key="begin",
        group=BEGIN,
        title=f"{label}, {timings}, {volts}",
        do=do,
        see="The system starts, shows the whole capacity and passes a memory test.",
        otherwise="The first start after a change can show nothing for some minutes while the memory is trained; "
        "wait that long before you take the next step down.",
        back="If nothing appears at all, reset the firmware's settings in the way the board's manual gives. First "
        "have your disk's recovery key at hand.",
        tags=("start", "set-by-hand" if start.way != STANDARD else "profile-off"),
        minutes=(1, 15),
    )


def _rate(have: Kit, add: Kit, rate: int, volts: float, group: str) -> Step:
    timings = write_timings(standard_timings(have, add, rate))
    if group == DOWN:
        do = f"Set {rate} MT/s and {timings}; leave the voltage at {number(volts, 4)} V."
    else:
        do = f"With the profile still off, set {rate} MT/s; the board should come to about {timings}."
    return Step(
        key=f"rate-{rate}",
        group=group,
        title=f"{rate_label(have.generation, rate)}, {timings}, {number(volts, 4)} V",
        do=(do,),
        tags=("jedec-rate", f"rate:{rate}"),
    )


def _profile_off(have: Kit, add: Kit, rate: int) -> Step:
    timings = write_timings(standard_timings(have, add, rate))
    low = {have.volts, add.volts} == {jedec_bins.DDR3_LOW_VOLTS} and have.generation == "ddr3"
    volts = jedec_bins.DDR3_LOW_VOLTS if low else jedec_bins.STANDARD_VOLTS[have.generation]
    return Step(
        key="profile-off",
        group=OFF,
        title="Everything on automatic, rated profile off",
        do=(
            "Load the firmware's default memory settings.",
            f"Expect about {rate_label(have.generation, rate)}, {timings}, {number(volts, 4)} V.",
        ),
        why="These are the standard settings stored in the sticks themselves. If even they fail, the fault is not "
        "in your settings.",
        tags=("profile-off", "automatic"),
    )


def _limit(generation: str, start: Start, limit_mt_s: int | None) -> Step:
    if limit_mt_s is not None:
        do = (
            f"Stay at or below the {limit_mt_s} MT/s that the makers list for two sticks a channel.",
            f"The settings above begin at {start.rate_mt_s} MT/s.",
        )
    else:
        do = (
            "In the manuals of board and processor, find the rate listed for two sticks a channel.",
            "If it is lower than what you have reached, set that rate.",
        )
    return Step(
        key="four-stick-limit",
        group=LIMIT,
        title="The makers' limit for two sticks a channel",
        do=do,
        why=f"Two sticks on one channel load its wires more. The limit can lie below the standard rate of the "
        f"sticks, and with {generation.upper()} sticks of two ranks it is lowest.",
        tags=("maker-limit",),
    )


def _fewer(have: Kit, add: Kit) -> tuple[Step, ...]:
    larger, name = (add, "the new kit") if add.size * add.count > have.size * have.count else (have, "your kit")
    return (
        Step(
            key="one-kit",
            group=FEWER,
            title=f"Only {name}: {plural(larger.count, 'stick')}, {larger.size * larger.count} GB",
            do=(
                "Switch off, unplug, and take the other kit out.",
                "Put these sticks into the slots that the manual names for so many.",
                "Then try the other kit by itself.",
            ),
            why="If each kit runs alone and only the two together fail, nothing is broken: they do not suit each "
            "other on this board.",
            tags=("fewer-sticks",),
        ),
        Step(
            key="one-stick",
            group=FEWER,
            title="One stick, then the next",
            do=("Try each stick alone in the slot that the manual names for one, then one good stick in each slot.",),
            why="A fault that moves with the stick is the stick's. One that stays with the slot is the slot's, the "
            "board's or the processor's.",
            tags=("fewer-sticks",),
        ),
    )
