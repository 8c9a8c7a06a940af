"""The ladder of settings for two kits: where to begin, and the steps down, or up, from there."""

from __future__ import annotations

from calculators.desk.answer import Step
from calculators.desk.numbers import number, plural
from calculators.memory.kits.kit_inputs import Kit
from calculators.memory.timings import jedec_bins
from calculators.memory.timings.data_rates import rate_label, thirds
from calculators.memory.timings.first_setting import First
from calculators.memory.timings.start_settings import STANDARD, Start, slower, standard_rate, standard_timings
from calculators.memory.timings.timing_strings import write_timings

BEGIN = "Begin here"
DOWN = "If it does not start, or a test fails: down, one step at a time"
OFF = "Profile off"
LIMIT = "The makers' limit"
BELOW = "Below the sticks' own standard rate"
FEWER = "Fewer sticks"
UP = "If that passes a memory test: up, one step at a time"

MENU = "In the firmware's memory menu"  # where most steps are done
BENCH = "At the open case, switched off and unplugged"
PREPARE = "Before you change the firmware's settings, have your disk's recovery key at hand and photograph them."
FIRST_STEP_UP_MT_S = 4000  # four DDR5 sticks commonly come up at 3600 or a little more. Common practice, no source.


def ladder(
    have: Kit, add: Kit, start: Start, doubled: bool, limit_four_mt_s: int | None, first: First,
    ask_first: tuple[str, ...] = (),
) -> tuple[Step, ...]:  # fmt: skip
    """
    What to set first, and what to try after it, each step easier on the memory than the one before.

    Args:
        have: The kit at hand. [object]
        add: The kit to add, of the same generation. [object]
        start: Settings to begin with. [object]
        doubled: Whether any channel holds two sticks.
        limit_four_mt_s: The listed limit for two sticks a channel, or None. [MT/s]
        first: Which way to begin. [object]
        ask_first: What to look up before any stick goes in. [list]

    Returns:
        The steps, in order, each with the place where it is done. [list]

    Source:
        Common practice, no source; the standard rates and their clocks as calculators/memory/timings/jedec_bins.py.

    Example:
        >>> from calculators.memory.kits.kit_inputs import sample
        >>> from calculators.memory.timings.start_settings import start
        >>> begin = start(sample(), sample(), None)
        >>> [s.key for s in ladder(sample(), sample(), begin, True, None, First.BY_HAND)][:3]
        ['begin', 'rate-2933', 'rate-2666']
    """
    generation = have.generation
    floor = slower_base(have, add)
    steps = [_begin(generation, start, first, ask_first)]
    if first == First.STEP_UP:
        steps.append(_limit(generation, start, limit_four_mt_s))
        return (*steps, *_upwards(have, add, start, floor), *_fewer(have, add))
    if first == First.NOTHING:
        return (*steps, *_fewer(have, add))
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


def _begin(generation: str, start: Start, first: First, ask_first: tuple[str, ...]) -> Step:
    label, timings = rate_label(generation, start.rate_mt_s), write_timings(start.timings)
    volts = f"{number(start.volts, 4)} V"
    title, tag = f"{label}, {timings}, {volts}", "profile-off"
    back = "If nothing appears at all, reset the firmware's settings in the way the board's manual gives."
    if first == First.NOTHING:
        title = "Nothing to set: put the sticks in and start"
        do: tuple[str, ...] = (
            f"{BENCH}, the battery out or disconnected as the computer's manual says, put the sticks in.",
            f"Start. The computer takes the sticks' standard settings, about {title_of(start, generation)}.",
        )
        tag, back = "nothing-to-set", "If nothing appears at all, put the old sticks back alone."
    elif first == First.STEP_UP:
        title = "Everything on automatic, both rated profiles off"
        do = (
            f"{MENU} leave both rated profiles off and everything on automatic.",
            "Start, and note the rate that the board chose: often one far below the sticks' rating.",
            "Run a memory test before you go up.",
        )
        tag = "automatic"
    elif first == First.PROFILES_OFF:
        do = (
            f"{MENU} leave both kits' rated profiles off, so that the board takes the standard settings.",
            f"They should come out at about {label}, {timings}, {volts}.",
            "Set the rate by hand only if the board chose a higher one.",
        )
    else:
        do = (
            f"{MENU} set {start.rate_mt_s} MT/s, {timings} and {volts}.",
            "Set no voltage that the board's manual does not allow.",
            "Leave every other memory setting on automatic.",
        )
        tag = "set-by-hand"
    return Step(
        key="begin",
        group=BEGIN,
        title=title,
        do=(*ask_first, *do),
        see="The system starts, shows the whole capacity and passes a memory test.",
        otherwise="The first start after a change can show nothing for some minutes while the memory is trained; "
        "wait that long before you take the next step.",
        back=back,
        caution="" if first == First.NOTHING else PREPARE,
        tags=("start", tag),
        minutes=(1, 15),
    )


def title_of(start: Start, generation: str) -> str:
    """The settings to begin with, in one row."""
    volts = f"{number(start.volts, 4)} V"
    return f"{rate_label(generation, start.rate_mt_s)}, {write_timings(start.timings)}, {volts}"


def _upwards(have: Kit, add: Kit, start: Start, floor: int) -> list[Step]:
    """Standard rates from what boards choose for four sticks up to the settings that both kits are rated for."""
    standard = jedec_bins.STANDARD_VOLTS[have.generation]
    steps = []
    for rate in jedec_bins.STANDARD_RATES[have.generation]:
        if thirds(rate) < thirds(FIRST_STEP_UP_MT_S) or thirds(rate) >= thirds(start.rate_mt_s):
            continue
        timings = write_timings(standard_timings(have, add, rate))
        volts = standard if thirds(rate) <= thirds(floor) else start.volts
        steps.append(
            Step(
                key=f"up-{rate}",
                group=UP,
                title=f"{rate_label(have.generation, rate)}, {timings}, {number(volts, 4)} V",
                do=(
                    f"{MENU} set {rate} MT/s and {timings}, with {number(volts, 4)} V.",
                    "Skip this step if the board chose as much by itself.",
                    "Test again. If it fails, go back to the step before and stay there.",
                ),
                tags=("jedec-rate", "up", f"rate:{rate}"),
            )
        )
    steps.append(
        Step(
            key="up-rated",
            group=UP,
            title=f"{title_of(start, have.generation)}: the most to ask for",
            do=(
                f"{MENU} set {start.rate_mt_s} MT/s, {write_timings(start.timings)} and {number(start.volts, 4)} V.",
                "Set no voltage that the board's manual does not allow.",
                "Few boards hold this with two sticks on a channel. If a test fails, go back and stay there.",
            ),
            tags=("set-by-hand", "up"),
        )
    )
    return steps


def _rate(have: Kit, add: Kit, rate: int, volts: float, group: str) -> Step:
    timings = write_timings(standard_timings(have, add, rate))
    if group == DOWN:
        do = f"{MENU} set {rate} MT/s and {timings}; leave the voltage at {number(volts, 4)} V."
    else:
        do = f"{MENU}, with the profile still off, set {rate} MT/s; the board should come to about {timings}."
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
            f"{MENU} set everything back to automatic, and the rated profile off.",
            f"Expect about {rate_label(have.generation, rate)}, {timings}, {number(volts, 4)} V.",
        ),
        why="These are the standard settings stored in the sticks themselves. If even they fail, the fault is not "
        "in your settings.",
        tags=("profile-off", "automatic"),
    )


def _limit(generation: str, start: Start, limit_mt_s: int | None) -> Step:
    if limit_mt_s is not None:
        do = (
            f"{MENU} stay at or below the {limit_mt_s} MT/s that the makers list for two sticks a channel.",
            f"The settings above begin at {start.rate_mt_s} MT/s.",
        )
    else:
        do = (
            "In the manuals of board and processor, find the rate listed for two sticks a channel.",
            f"{MENU} go no higher than that rate.",
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
                f"{BENCH}, take the other kit out.",
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
            do=(
                f"{BENCH} each time, put one stick alone into the slot that the manual names for one. Start.",
                "Try each stick so, then one good stick in each slot.",
            ),
            why="A fault that moves with the stick is the stick's. One that stays with the slot is the slot's, the "
            "board's or the processor's.",
            tags=("fewer-sticks",),
        ),
    )
