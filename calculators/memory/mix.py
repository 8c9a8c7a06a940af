"""memory.mix: whether two kits can run together, where each stick goes, and what to set first."""

from __future__ import annotations

from typing import NamedTuple

from calculators.desk.answer import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    NO,
    Answer,
    Column,
    Figure,
    Note,
    Source,
    Table,
    Verdict,
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.inputs import UNSURE, Choice, Follows, Number, Option, Values
from calculators.desk.numbers import listed, number, plural
from calculators.memory.kits.kit_inputs import RATE_UNITS, Kit, kit_inputs, kit_of, slot_inputs
from calculators.memory.kits.printed_labels import rate_on_label, size_on_label
from calculators.memory.kits.slot_drawings import pairs, slots
from calculators.memory.kits.slot_placement import Placement, best, every_way, slot_names, worst_paired_gb
from calculators.memory.timings import jedec_bins
from calculators.memory.timings.data_rates import channel_gb_s, clocks_ns, cycle_ns, rate_label, thirds
from calculators.memory.timings.first_setting import First, first_setting
from calculators.memory.timings.settings_ladder import ladder
from calculators.memory.timings.start_settings import DDR3_VOLTS, SAME_VOLTS, Start, start
from calculators.memory.timings.timing_strings import write_timings
from calculators.memory.wording.cautions import CAUTIONS, cautions_at
from calculators.memory.wording.mix_notes import (
    LOW_VOLTS_ONLY,
    MOST_WORDS,
    Board,
    asks_for_ddr3l,
    notes_on,
    open_limit,
    size_cautions,
    verdict_on,
)

KIT_NAMES = ("your kit", "new kit")
TIMING_NAMES = (
    ("start_cas", "CAS latency", "cas"),
    ("start_trcd", "Row to column (tRCD)", "trcd"),
    ("start_trp", "Precharge (tRP)", "trp"),
    ("start_tras", "Row active (tRAS)", "tras"),
)

SOURCES = (
    Source("JEDEC JESD79-3, JESD79-3-1, JESD79-4, JESD79-5", "speed bins, voltages, CAS latencies", FROM_MEMORY),
    Source("JEDEC JESD21-C annexes K and L, JESD400-5", "rounding of module contents", FROM_MEMORY),
    Source("JEDEC JESD79-3, JESD79-4, JESD79-5", "densities of chips, and so the sizes of sticks", FROM_MEMORY),
    Source("JEDEC JESD79-5", "two halves of 32 data bits on a DDR5 stick", FROM_MEMORY),
    Source("Each timing keeps its nanoseconds when the rate changes", "", COMMON_PRACTICE),
    Source("Memory pairs as far as both channels hold it", "", COMMON_PRACTICE),
    Source("Order of slots and of the steps up and down", "", COMMON_PRACTICE),
    Source("Four DDR5 sticks begin on automatic; laptops take the standard settings", "", COMMON_PRACTICE),
)


def compute(given: Values) -> Answer:
    """Verdict, placement and settings for two kits."""
    have, add = kit_of(given, "have"), kit_of(given, "add")
    slot_count, channels = int(given["slots"]), int(given["channels"])
    sticks = have.sticks(0) + add.sticks(1)
    total = sum(s.size_gb for s in sticks)
    board = _board_of(given)
    against = _against(have, add, slot_count, board)
    if against:
        return _refusal(have, add, slot_count, total, board, against)
    ways = every_way(sticks, slot_count, channels)
    place, worst = best(ways), worst_paired_gb(ways)
    doubled = place.doubled()
    limit = board.limit_four if doubled and board.limit_four is not None else board.limit_two
    begin = start(have, add, limit)
    first = first_setting(have, add, begin, doubled, board.limit_four)
    ask_first = (LOW_VOLTS_ONLY,) if asks_for_ddr3l(have, add, board) else ()
    return Answer(
        headline=_headline(have, place, total, begin, first, open_limit(have, doubled, board)),
        verdict=verdict_on(have, add, begin, doubled, board),
        figures=_figures(have.generation, place, worst, total, begin, first),
        working=_working(have, add, place, begin, limit),
        tables=(_places(place),),
        steps=ladder(have, add, begin, doubled, board.limit_four, first, ask_first),
        steps_title=_STEPS_TITLE[first],
        drawings=(
            slots(place, KIT_NAMES),
            *([pairs(place.paired_gb(), total - place.paired_gb())] if channels > 1 else []),
        ),
        notes=notes_on(have, add, place, worst, begin, first, board),
        cautions=(*cautions_at(have.generation, begin.volts), *size_cautions(have, add)),
        sources=SOURCES,
    )


def _board_of(given: Values) -> Board:
    return Board(
        limit_two=given.get("rate_limit_two"),
        limit_four=given.get("rate_limit_four"),
        slot_most_gb=given.get("slot_most_gb"),
        most_gb=given.get("board_most_gb"),
        ddr3l_only=given.get("ddr3l_only", UNSURE),
    )


class _Obstacle(NamedTuple):
    """A reason why both kits cannot run together. clause: in full; few: in few words, beside other reasons."""

    clause: str
    few: str


def _against(have: Kit, add: Kit, slot_count: int, board: Board) -> list[_Obstacle]:
    """All reasons why both kits cannot run together."""
    reasons = []
    if have.generation != add.generation:
        names = have.generation.upper(), add.generation.upper()
        differ = f"{names[0]} and {names[1]} differ in notch, voltage and signals, and no slot takes both"
        reasons.append(_Obstacle(differ, f"{names[0]} beside {names[1]}"))
    if have.form != add.form:
        reasons.append(_Obstacle("a DIMM and an SO-DIMM need different slots", "DIMM beside SO-DIMM"))
    if have.module != add.module:
        share = "registered and unbuffered sticks cannot share a controller"
        reasons.append(_Obstacle(share, "registered beside unbuffered"))
    count, total = have.count + add.count, have.count * have.size + add.count * add.size
    if count > slot_count:
        more = f"more than {slot_count} slots hold"
        reasons.append(_Obstacle(f"{count} sticks are {more}", more))
    largest = max(have.size, add.size)
    if board.slot_most_gb is not None and largest > board.slot_most_gb:
        takes = f"a stick of {largest} GB is more than the {board.slot_most_gb} GB that a slot takes"
        reasons.append(_Obstacle(takes, f"{largest} GB beyond the slot's {board.slot_most_gb}"))
    if board.most_gb is not None and total > board.most_gb:
        takes = f"{total} GB are more than the {board.most_gb} GB that the board takes"
        reasons.append(_Obstacle(takes, f"{total} GB beyond the board's {board.most_gb}"))
    if have.generation == add.generation == "ddr3" and board.ddr3l_only == "yes":
        high = max(have.volts, add.volts)
        if high > jedec_bins.DDR3_LOW_VOLTS:
            volts = f"{number(high, 4)} V"
            takes = f"this board takes 1.35 V sticks only, so no {volts} stick may go in"
            reasons.append(_Obstacle(takes, f"{volts} beside DDR3L only"))
    return reasons


def _refusal(have: Kit, add: Kit, slot_count: int, total: int, board: Board, against: list[_Obstacle]) -> Answer:
    figures = [figure("total_gb", "Both kits add up to", total, "GB", main=True)]
    notes = []
    same_kind = have.generation == add.generation and have.form == add.form and have.module == add.module
    short_of_slots = have.count + add.count > slot_count
    if same_kind and short_of_slots and len(against) == 1:  # only the slots are short: say what they can hold
        sizes = sorted((s.size_gb for s in have.sticks(0) + add.sticks(1)), reverse=True)[:slot_count]
        figures.append(figure("fits_gb", "The largest sticks that fit make", sum(sizes), "GB", main=True))
        notes.append(
            Note(
                "What would fit",
                f"The {slot_count} largest sticks, {listed([f'{s} GB' for s in sizes])}, make {sum(sizes)} GB. Leave "
                "the others out and ask again with fewer sticks.",
            )
        )
    elif same_kind:
        each = f" of at most {board.slot_most_gb} GB each" if board.slot_most_gb is not None else ""
        in_all = f", and at most {board.most_gb} GB in all" if board.most_gb is not None else ""
        low = ", rated at 1.35 V" if board.ddr3l_only == "yes" and have.generation == "ddr3" else ""
        notes.append(
            Note("What you can do instead", f"Look for at most {slot_count} sticks{each}{low}{in_all}, and ask again.")
        )
    else:
        notes.append(
            Note(
                "What you can do instead",
                "Look for sticks of the same generation, shape and kind as those you have, or replace all of them. "
                "Which generation a board takes is fixed; its manual says which.",
            )
        )
    return Answer(
        headline=f"These two kits cannot run together: {against[0].clause}.",
        verdict=Verdict(NO, _refused(against)),
        figures=tuple(figures),
        notes=tuple(notes),
        cautions=CAUTIONS[:1],
        sources=SOURCES[:1],
    )


def _refused(against: list[_Obstacle]) -> str:
    """The reasons as one sentence: a single one in full, else as many of them in few words as the limit allows."""
    if len(against) == 1:
        reason = against[0].clause
    else:
        few = [each.few for each in against]
        reason = listed(few)
        while len(reason.split()) > MOST_WORDS:
            few.pop()
            reason = f"{', '.join(few)} and more"
    return f"{reason[:1].upper()}{reason[1:]}."


_STEPS_TITLE = {
    First.BY_HAND: "What to set, and what to try if it does not start",
    First.PROFILES_OFF: "What to set, and what to try if it does not start",
    First.NOTHING: "What to do, and what to try if it does not start",
    First.STEP_UP: "Where to begin, and how to go up",
}


def _headline(have: Kit, place: Placement, total: int, begin: Start, first: First, lower: bool) -> str:
    """What both make and what to set first. lower: the rate may come down, nobody knows to what."""
    paired = place.paired_gb()
    if place.channels == 1:
        share = "on one channel"
    elif paired == total:
        share = "all of it in pairs"
    elif paired:
        share = f"{paired} GB in pairs"
    else:
        share = "none of it in pairs"
    label = rate_label(have.generation, begin.rate_mt_s)
    settings = f"{write_timings(begin.timings)} and {number(begin.volts, 4)} V"
    then = {
        First.BY_HAND: f"start at {label} with {settings}, and test before you trust it",
        First.PROFILES_OFF: f"start at {label} with {settings}, and test before you trust it",
        First.NOTHING: f"nothing to set: expect {_about(label, lower)}, and test before you trust it",
        First.STEP_UP: f"begin on automatic, test, then step up, at most to {label}",
    }
    return f"Together the kits make {total} GB, {share}; {then[first]}."


def _about(label: str, lower: bool) -> str:
    return f"{label} or less" if lower else f"about {label}"


# What the figures to start with are called, by the way to begin: the rate as such, and what comes with it.
_START_LABELS = {
    First.BY_HAND: ("Start at", "with timings", "to start with"),
    First.PROFILES_OFF: ("Start at", "with timings", "to start with"),
    First.NOTHING: ("Expect about", "with timings", "to expect"),
    First.STEP_UP: ("Step up, at most to", "with timings", "at most"),
}


def _figures(
    generation: str, place: Placement, worst: int, total: int, begin: Start, first: First
) -> tuple[Figure, ...]:
    paired = place.paired_gb()
    timings = begin.timings
    rate_name, timings_name, setting_name = _START_LABELS[first]
    figures = [
        figure("total_gb", "Together", total, "GB", main=True),
        figure("paired_gb", "Runs in pairs", paired, "GB", main=True),
        figure("start_rate", rate_name, begin.rate_mt_s, "MT/s", main=True),
        figure("start_timings", timings_name, write_timings(timings), main=True),
        figure("channel_a_gb", "Channel A holds", place.channel_gb(0), "GB"),
        figure("channel_b_gb", "Channel B holds", place.channel_gb(1), "GB"),
        figure("unpaired_gb", "Runs on one channel", total - paired, "GB"),
        figure("worst_paired_gb", "In pairs in the worst slots", worst, "GB"),
        figure("start_label", "Label of that rate", rate_label(generation, begin.rate_mt_s)),
    ]
    figures += [
        figure(key, f"{label} {setting_name}", getattr(timings, name), "clocks")
        for key, label, name in TIMING_NAMES
        if getattr(timings, name) is not None
    ]
    figures.append(figure("start_volts", f"Voltage {setting_name}", begin.volts, "V", 4))
    latency = clocks_ns(timings.cas, begin.rate_mt_s)
    figures.append(figure("start_latency_ns", "CAS latency then", latency, "ns"))
    channel = channel_gb_s(begin.rate_mt_s)
    if paired:
        figures.append(figure("paired_gb_s", "The part in pairs carries up to", 2 * channel, "GB/s", 1))
    if total > paired:
        figures.append(figure("unpaired_gb_s", "The rest carries up to", channel, "GB/s", 1))
    return tuple(figures)


def _working(have: Kit, add: Kit, place: Placement, begin: Start, limit: int | None) -> tuple[Working, ...]:
    lines = []
    if place.channels == 2:
        a, b = place.channel_gb(0), place.channel_gb(1)
        lines += [
            Working("In pairs", "2 × the smaller channel", f"2 × {min(a, b)} GB", f"{place.paired_gb()} GB"),
            Working("On one channel", "the larger − the smaller", f"{max(a, b)} − {min(a, b)} GB", f"{abs(a - b)} GB"),
        ]
    rate = begin.rate_mt_s
    if begin.way in (SAME_VOLTS, DDR3_VOLTS):
        asked, which = [f"{have.rate}", f"{add.rate}"], "slower of the kits"
    else:
        asked, which = [f"{begin.uncapped_mt_s}"], "slower standard rate"
    if limit is not None:
        asked.append(f"limit {limit}")
        which += " and the limit"
    lines.append(Working("Rate", which, f"least of {listed(asked)}" if len(asked) > 1 else "", f"{rate} MT/s"))
    lines.append(
        Working(
            "Length of one clock",
            "2000 ÷ rate",
            f"2000 ÷ {number(thirds(rate) / 3, 2)}",
            f"{number(cycle_ns(rate), 4)} ns",
        )
    )
    for _, label, name in TIMING_NAMES:
        clocks = getattr(begin.timings, name)
        if clocks is None:
            continue
        if begin.way in (SAME_VOLTS, DDR3_VOLTS):
            times = [clocks_ns(getattr(k.timings, name), k.rate) for k in (have, add)]
            formula = "longer time ÷ length of a clock, rounded up"
            longest = f"{number(max(times), 3)} ns ÷ {number(cycle_ns(rate), 4)} ns"
        else:
            formula = "JEDEC's standard time, rounded by its rule"
            index = ("cas", "trcd", "trp", "tras").index(name)
            time_ns = jedec_bins.standard_times_ps(have.generation, rate)[index] / 1000
            own = jedec_bins.standard_clocks(have.generation, rate)[index]
            longest = f"{number(time_ns, 3)} ns" if own == clocks else "a kit's own longer time"
        even = ", to an even number" if name == "cas" and _only_even(have.generation, clocks) else ""
        lines.append(Working(label, formula + even, longest, plural(clocks, "clock")))
    lines.append(
        Working("CAS latency as time", "clocks × length", f"{begin.timings.cas} × {number(cycle_ns(rate), 4)} ns",
                f"{number(clocks_ns(begin.timings.cas, rate))} ns")
    )  # fmt: skip
    return tuple(lines)


def _only_even(generation: str, cas: int) -> bool:
    return generation == "ddr5" or (generation == "ddr4" and cas > 24)


def _places(place: Placement) -> Table:
    names = slot_names(len(place.slots), place.channels)
    each = len(names) // place.channels
    rows = []
    for i, (name, stick) in enumerate(zip(names, place.slots, strict=True)):
        if each == 1:
            where = "the only one of its channel"
        elif each == 2:
            where = "nearer the processor" if i % each == 0 else "farther from it"
        else:
            where = f"number {i % each + 1} from the processor"
        rows.append((name, where, f"{stick.size_gb} GB, {KIT_NAMES[stick.kit]}" if stick else "empty"))
    return Table(
        "Which stick goes where",
        (Column("Slot"), Column("Where"), Column("Stick")),
        tuple(rows),
        note="Names printed on boards differ, and so does the order to fill them: the board's manual decides.",
    )


def worked_for(given: Values) -> str:
    """The two kits and the slots, in one phrase."""
    have, add = kit_of(given, "have"), kit_of(given, "add")
    return f"{have.brief()} and {add.brief()}, {plural(int(given['slots']), 'slot')}"


_PLAIN = {
    "have_generation": "ddr4", "have_count": 2, "have_size": 8, "have_rate": 3200,
    "have_timings": "16-18-18-38", "have_volts": 1.35,
}  # fmt: skip


def _added(**changed: object) -> dict[str, object]:
    """The plain kit, and one to add that differs from it in what is named."""
    added: dict[str, object] = {f"add_{key.removeprefix('have_')}": value for key, value in _PLAIN.items()}
    return {**_PLAIN, **added, **changed}


_DDR5 = {
    f"{prefix}_{key}": value
    for prefix in ("have", "add")
    for key, value in (("generation", "ddr5"), ("count", 2), ("size", 16), ("rate", 6000),
                       ("timings", "36-38-38-76"), ("volts", 1.35))
}  # fmt: skip

_DDR3 = {
    f"{prefix}_{key}": value
    for prefix in ("have", "add")
    for key, value in (("generation", "ddr3"), ("count", 2), ("size", 4), ("rate", 1600),
                       ("timings", "11-11-11-28"), ("volts", 1.5))
}  # fmt: skip

calculator = Calculator(
    name="memory.mix",
    title="Can these sticks run together, where does each go, and what do I set first?",
    summary="Two kits in one board: capacity, pairs, slots, settings to start with, and the steps down.",
    inputs=(
        *kit_inputs("have", "The kit you have", 8),
        *kit_inputs("add", "The kit to add", 16),
        *slot_inputs(),
        Number(
            key="rate_limit_two", label="Listed limit, one stick a channel", group="The board", extra=True,
            optional=True, low=200, high=20000, unit="MT/s", whole=True, also=RATE_UNITS, printed=rate_on_label,
            follows=Follows("have_generation"), names=("1dpc", "limit for two sticks"),
            where="The processor's and the board's data sheets list it for one module a channel, so for two sticks "
            "on two channels; take the lower.",
        ),
        Number(
            key="rate_limit_four", label="Listed limit, two sticks a channel", group="The board", extra=True,
            optional=True, low=200, high=20000, unit="MT/s", whole=True, also=RATE_UNITS, printed=rate_on_label,
            follows=Follows("have_generation"), names=("2dpc", "limit for four sticks"),
            where="The same data sheets, for two modules a channel, so for four sticks on two channels; take the "
            "lower. It holds as soon as any channel has two sticks.",
        ),
        Number(
            key="slot_most_gb", label="Largest stick a slot takes", group="The board", extra=True, optional=True,
            unsure=True, low=1, high=512, unit="GB", whole=True, also={"GiB": 1, "G": 1}, printed=size_on_label,
            follows=Follows("have_generation"), names=("largest stick", "biggest stick", "maximum module size"),
            where="The manual of the board or computer, under memory; often given as the largest module.",
        ),
        Number(
            key="board_most_gb", label="Most memory in all", group="The board", extra=True, optional=True,
            unsure=True, low=1, high=4096, unit="GB", whole=True, also={"GiB": 1, "G": 1, "TB": 1024},
            follows=Follows("have_generation"), names=("maximum memory", "most memory", "memory limit"),
            where="The same place in the manual; the processor's data sheet has a limit of its own. Take the lower.",
        ),
        Choice(
            key="ddr3l_only", label="DDR3: does the manual say DDR3L only?", group="The board", extra=True,
            optional=True, names=("ddr3l", "low voltage"),
            options=(Option("yes", "yes"), Option("no", "no, 1.5 V too"), Option("unsure", "not sure")),
            where="The manual of the board or laptop, under memory: DDR3L or 1.35 V alone means yes.",
        ),
    ),
    compute=compute,
    version=3,
    worked_for=worked_for,
    presets=(
        Preset("bigger-sticks", "Bigger sticks beside mine", _added(add_size=16)),
        Preset("same-again", "The same kit again", _added()),
        Preset("faster-new", "A faster kit beside mine", _added(add_rate=3600, add_timings="18-22-22-42")),
        Preset("other-voltage", "Plain sticks beside a rated kit",
               _added(add_rate=2666, add_timings="19-19-19-43", add_volts=1.2, have_standard_rate=2133,
                      add_standard_rate=2666)),
        Preset("four-ddr5", "Four DDR5 sticks, limit listed",
               {**_DDR5, "rate_limit_two": 5600, "rate_limit_four": 3600}),
        Preset("four-ddr5-open", "Four DDR5 sticks, no limit known", _DDR5),
        Preset("old-ddr3", "DDR3: 1.35 V beside 1.5 V", {**_DDR3, "add_volts": 1.35}),
    ),
)  # fmt: skip
