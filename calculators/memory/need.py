"""memory.need: how much memory is enough for the work at hand, and what a second stick changes."""

from __future__ import annotations

import math

from calculators.desk.answer import (
    COMMON_PRACTICE,
    DEPENDS,
    FROM_MEMORY,
    NO,
    YES,
    Answer,
    Caution,
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
from calculators.desk.charts import Bar, Limit, bars
from calculators.desk.inputs import HOW_TO_TELL, UNSURE, Choice, Number, Option, Values
from calculators.desk.numbers import listed, number, plural, span
from calculators.desk.svg import Drawing
from calculators.memory.amounts.work_amounts import (
    EDITING,
    EIGHT_BIT,
    FLOAT,
    GAME,
    SIXTEEN_BIT,
    SYSTEM,
    Range,
    browser_gb,
    frames_gb,
    next_size,
)
from calculators.memory.kits.kit_inputs import GENERATIONS
from calculators.memory.kits.sizes_made import kits_of
from calculators.memory.timings.data_rates import channel_gb_s, rate_label
from calculators.memory.wording.cautions import CAUTIONS
from calculators.trade.frame_rates import SOURCE as RATE_SOURCE
from calculators.trade.frame_rates import exact_rate, exact_rates_note, rate_input, say_rate

# The kits with which the second stick is explained: a common rate of each generation. Common practice, no source.
EXAMPLE_RATES = {"ddr3": 1600, "ddr4": 3200, "ddr5": 4800}
NOT_SURE = "ddr4"  # stands in for a generation that nobody knows, in the example alone

FRAMES = "Frames held"
PRACTICE, WORKED_OUT, YOURS = "common practice", "worked out", "as you gave it"

SOURCES = (
    Source("What systems, browsers, games and editing take", "", COMMON_PRACTICE),
    Source("Frames held uncompressed", "arithmetic: width × height × bytes a pixel × frames", COMMON_PRACTICE),
    Source("Capacities in which desktops are fitted", "", COMMON_PRACTICE),
    Source("JEDEC JESD79-3, JESD79-4, JESD79-5", "densities of chips, and so the sizes of sticks", FROM_MEMORY),
    Source("JEDEC JESD100B.01", "a memory's gigabyte is 2^30 bytes", FROM_MEMORY),
    Source("JEDEC JESD79-4", "bandwidth of the kit taken as an example", FROM_MEMORY),
    RATE_SOURCE,
)


def compute(given: Values) -> Answer:
    """The sum of what runs at once, as a range, and the capacity that holds it."""
    parts = _parts(given)
    generation = "" if given["generation"] == UNSURE else given["generation"]
    low = sum(r.low for _, r, _ in parts)
    high = sum(r.high for _, r, _ in parts)
    suggested = next_size(high, generation)
    floor = next_size(low, generation)
    frames = next((r for name, r, _ in parts if name == FRAMES), None)
    have = given.get("have_gb")
    return Answer(
        headline=_headline(low, high, suggested, generation),
        verdict=_verdict(have, low, high),
        figures=_figures(low, high, suggested, floor, frames, generation),
        working=_working(parts, low, high, frames, given),
        tables=(_table(parts, low, high), *_fittings(suggested, generation)),
        drawings=(_drawing(parts, low, high, have, suggested),),
        notes=(*_notes(suggested, floor, generation), *_exact_rate(given["frame_rate"], frames)),
        cautions=(
            Caution(
                "machine",
                "Before you buy, read in the board's manual which sizes and how many it takes.",
                "Some computers have memory that cannot be changed.",
            ),
            CAUTIONS[0],
        ),
        sources=SOURCES,
    )


def _parts(given: Values) -> list[tuple[str, Range, str]]:
    """What takes memory, each with its range and its standing; parts that take none are left out."""
    tabs = given["browser_tabs"]
    deepest = FLOAT if given["editing"] == "effects" else SIXTEEN_BIT
    rate = exact_rate(given["frame_rate"]).value
    stretch = (given["frame_width"], given["frame_height"], given["frame_seconds"], rate)
    machines = given["virtual_machines_gb"]
    parts = [
        ("System and background", SYSTEM[given["system"]], PRACTICE),
        (f"Browser with {tabs} tabs" if tabs != 1 else "Browser with 1 tab", browser_gb(tabs), PRACTICE),
        ("Game", GAME[given["game"]], PRACTICE),
        ("Editing program", EDITING[given["editing"]], PRACTICE),
        (FRAMES, Range(frames_gb(*stretch, EIGHT_BIT), frames_gb(*stretch, deepest)), WORKED_OUT),
        ("Virtual machines", Range(machines, machines), YOURS),
    ]
    return [part for part in parts if part[1].high > 0]


def _about(low: float, high: float) -> str:
    """The range in whole gigabytes, rounded outwards: what takes 22.5 GB does not fit 22."""
    return span(math.floor(round(low, 6)), math.ceil(round(high, 6)), "GB", 0)


def _headline(low: float, high: float, suggested: int | None, generation: str) -> str:
    need = f"What you run at once takes about {_about(low, high)}"
    if suggested is None:
        boards = f"desktop boards with {generation.upper()}" if generation else "desktop boards"
        return f"{need}, more than {boards} commonly hold."
    roomy = next_size(suggested + 1, generation)
    if suggested >= high * 1.1 or roomy is None:
        return f"{need}, so {suggested} GB is enough."
    return f"{need}, so {suggested} GB is just enough and {roomy} GB leaves room."


def _verdict(have: float | None, low: float, high: float) -> Verdict | None:
    if have is None:
        return None
    held, need = f"{number(have, 1)} GB", _about(low, high)
    if have >= high:
        return Verdict(YES, f"{held} holds even the upper end of {need}.", "Enough.")
    if have >= low:
        return Verdict(DEPENDS, f"{held} is enough on a light day, short on a heavy one.", "Tight.")
    return Verdict(NO, f"Even a light day takes more than {held}; the disk would never rest.", "Too little.")


def _figures(
    low: float, high: float, suggested: int | None, floor: int | None, frames: Range | None, generation: str
) -> tuple[Figure, ...]:
    figures = [
        figure("low_gb", "Takes at least", low, "GB", 1, main=True),
        figure("high_gb", "Takes at most", high, "GB", 1, main=True),
    ]
    if suggested is not None:
        figures.append(figure("suggested_gb", "Enough", suggested, "GB", main=True))
    if floor is not None:
        figures.append(figure("least_size_gb", "Least capacity that can do", floor, "GB"))
    following = next_size(suggested + 1, generation) if suggested is not None else None
    if following is not None:
        figures.append(figure("roomy_gb", "The next size up", following, "GB"))
    if frames is not None:
        figures.append(figure("frames_low_gb", "Frames held take at least", frames.low, "GB"))
        figures.append(figure("frames_high_gb", "Frames held take at most", frames.high, "GB"))
    label, one = _example(generation)
    figures.append(figure("one_stick_gb_s", f"One stick of {label} carries", one, "GB/s", 1))
    figures.append(figure("two_sticks_gb_s", "Two sticks, one a channel, carry", 2 * one, "GB/s", 1))
    return tuple(figures)


def _example(generation: str) -> tuple[str, float]:
    """The label of the kit taken as an example, and what one channel of it carries. [text, GB/s]"""
    rate = EXAMPLE_RATES[generation or NOT_SURE]
    return rate_label(generation or NOT_SURE, rate), channel_gb_s(rate)


def _working(
    parts: list[tuple[str, Range, str]], low: float, high: float, frames: Range | None, given: Values
) -> tuple[Working, ...]:
    lines = []
    if frames is not None:
        deepest = FLOAT if given["editing"] == "effects" else SIXTEEN_BIT
        size = f"{given['frame_width']} × {given['frame_height']}"
        count = f"{number(given['frame_seconds'], 2)} s × {say_rate(given['frame_rate'], 'fps')}"
        lines.append(
            Working(
                "Frames held",
                "width × height × bytes a pixel × seconds × frames a second",
                f"{size} × {EIGHT_BIT} to {deepest} × {count}",
                span(frames.low, frames.high, "GB", 1),
            )
        )
    lows = " + ".join(number(r.low, 1) for _, r, _ in parts)
    highs = " + ".join(number(r.high, 1) for _, r, _ in parts)
    lines.append(Working("Takes at least", "sum of the lower ends", lows, f"{number(low, 1)} GB"))
    lines.append(Working("Takes at most", "sum of the upper ends", highs, f"{number(high, 1)} GB"))
    return tuple(lines)


def _table(parts: list[tuple[str, Range, str]], low: float, high: float) -> Table:
    rows = [(name, number(r.low, 1), number(r.high, 1), standing) for name, r, standing in parts]
    rows.append(("All at once", number(low, 1), number(high, 1), "sum"))
    return Table(
        "What takes how much",
        (Column("Part"), Column("From, GB", numeric=True), Column("To, GB", numeric=True), Column("Standing")),
        tuple(rows),
        note="A gigabyte of memory is 2³⁰ bytes here, as on the sticks.",
        marked=(len(rows) - 1,),
    )


def _fittings(suggested: int | None, generation: str) -> tuple[Table, ...]:
    """The kits of equal sticks that make the capacity, of the generation at hand or of the two that are sold new."""
    if suggested is None:
        return ()
    rows = []
    for each in (generation,) if generation else ("ddr4", "ddr5"):
        label, one = _example(each)
        for count, size in kits_of(each, suggested):
            pairs, carries = ("all of it", 2 * one) if count > 1 else ("none of it", one)
            rows.append((f"{count} × {size} GB", label, pairs, f"{number(carries, 1)} GB/s"))
    return (
        Table(
            f"{suggested} GB as one stick or more",
            (Column("Sticks"), Column("Such as"), Column("In pairs"), Column("Carries", numeric=True)),
            tuple(rows),
            note="On a board with two channels. With four sticks the rate may have to be lower. Only sizes that the "
            "generation has are listed; look up what a slot of your board takes.",
        ),
    )


def _drawing(
    parts: list[tuple[str, Range, str]], low: float, high: float, have: float | None, suggested: int | None
) -> Drawing:
    rows = [Bar(name, r.high, span(r.low, r.high, "GB", 1), low=r.low) for name, r, _ in parts]
    rows.append(Bar("All at once", high, span(low, high, "GB", 1), mark=True, low=low))
    limits = [Limit(have, f"you have {number(have, 1)} GB")] if have is not None and have < high * 4 else []
    full = max(suggested or 0, high, *(limit.value for limit in limits))
    description = "; ".join(f"{row.label} {row.text}" for row in rows)
    lines = "".join(f" A line stands where {limit.label}." for limit in limits)
    return bars(
        "What takes how much",
        f"Bars, each from least to most: {description}.{lines}",
        rows,
        caption=f"Each bar runs from the least to the most; the full width is {number(full, 0)} GB.",
        limits=limits,
        full=full,
    )


def _exact_rate(typed: float, frames: Range | None) -> tuple[Note, ...]:
    """That 29.97 means 30 × 1000/1001, where frames are held and it does."""
    note = exact_rates_note(typed)
    return (Note("Exact rates", note),) if frames is not None and note else ()


def _notes(suggested: int | None, floor: int | None, generation: str) -> tuple[Note, ...]:
    label, one = _example(generation)
    notes = [
        Note(
            "What a second stick changes",
            "Not how much fits, if the total is the same, but how fast it moves. One stick feeds one channel: "
            f"{number(one, 1)} GB/s at {label}. Two sticks in the right slots feed two: "
            f"{number(2 * one, 1)} GB/s. Graphics built into the processor gain most, games some, office work little.",
        ),
        Note(
            "Full memory is not a fault",
            "Systems fill idle memory with files read before, and give it back when a program asks. What tells of a "
            "shortage is a disk that keeps working, and programs that stall when you change between them.",
        ),
        Note(
            "Minimum requirements are another number",
            "What a maker prints as the minimum starts the program. The ranges here are for working with several at "
            "once; your own system's overview, on a busy day, beats them all.",
        ),
    ]
    if suggested is None:
        notes.append(
            Note(
                "More than a desktop holds",
                "Desktop boards commonly stop at four sticks. Check the inputs first, the seconds of frames above all; "
                "if they stand, it is work for a workstation, or for fewer frames held at once.",
            )
        )
    elif not generation:
        offered = (suggested, next_size(suggested + 1, generation))
        notes[:0] = [_ddr5_only(size) for size in offered if size is not None and not kits_of("ddr4", size)]
    if suggested is not None and floor is not None and floor < suggested:
        notes.append(
            Note(
                "Between the two sizes",
                f"{floor} GB holds the lower end, {suggested} GB the upper. If you can add later, begin with two "
                "sticks and leave two slots free; if you cannot, take the larger.",
            )
        )
    return tuple(notes)


def _ddr5_only(size: int) -> Note:
    """That a size which the answer names, where no generation is told, cannot be had for every board."""
    instead = next_size(size, "ddr4")
    return Note(
        f"{size} GB is made of DDR5 sticks only",
        f"DDR4 has no sticks that make {size} GB. If your board takes DDR4, the size for you is "
        f"{f'{instead} GB' if instead else 'more than it holds'}.",
    )


def worked_for(given: Values) -> str:
    """What runs at once, in one phrase."""
    parts = [f"a {given['system']} system", plural(given["browser_tabs"], "browser tab")]
    parts += [f"a {given['game']} game"] if given["game"] != "none" else []
    parts += [f"{given['editing']} editing"] if given["editing"] != "none" else []
    parts += [f"{number(given['frame_seconds'], 1)} s of frames"] if given["frame_seconds"] else []
    machines = given["virtual_machines_gb"]
    parts += [f"{number(machines, 1)} GB of virtual machines"] if machines else []
    return listed(parts)


calculator = Calculator(
    name="memory.need",
    title="How much memory is enough, and is a second stick worth it?",
    summary="What runs at once, added up as a range, the capacity that holds it, and what a second stick changes.",
    inputs=(
        Choice(
            where_title=HOW_TO_TELL,
            key="system", label="System", group="What runs at once", default="usual",
            names=("background", "operating system"),
            options=(
                Option("lean", "lean, little in the background", ("clean", "light")),
                Option("usual", "usual", ("normal", "ordinary")),
                Option("busy", "busy, much in the background", ("loaded", "cluttered")),
            ),
            where="Look at the system's memory overview just after a start: below 2 GB is lean, above 5 GB busy.",
        ),
        Number(
            where_title=HOW_TO_TELL,
            key="browser_tabs", label="Browser tabs", group="What runs at once", low=0, high=2000, default=20,
            names=("tabs", "pages open", "tab"),
            whole=True, where="Count the pages open on a usual day; 0 if the browser is closed while you work.",
        ),
        Choice(
            where_title=HOW_TO_TELL,
            key="game", label="Game", group="What runs at once", default="none",
            names=("gaming", "games"),
            options=(
                Option("none", "none"),
                Option("small", "small or some years old"),
                Option("large", "large and current"),
                Option("huge", "large, with many add-ons or long simulations"),
            ),
            where="The game's recommended requirements: 8 GB is small, 16 GB large, 32 GB the last of these.",
        ),
        Choice(
            where_title=HOW_TO_TELL,
            key="editing", label="Editing", group="What runs at once", default="none",
            names=("editor", "edit"),
            options=(
                Option("none", "none"),
                Option("photo", "photographs", ("photos", "photo editing", "pictures")),
                Option("video", "video", ("video editing", "cutting video", "cutting films", "films")),
                Option("effects", "effects and compositing", ("effects", "compositing", "visual effects")),
            ),
            where="The program that is open while the rest runs too.",
        ),
        Number(
            where_title=HOW_TO_TELL,
            key="virtual_machines_gb", label="Virtual machines", group="What runs at once", low=0, high=4096,
            unit="GB", default=0, also={"GiB": 1, "MB": 1 / 1024}, names=("virtual machine", "virtual machines",
                "vm", "vms"),
            where="Add up the memory given to each machine that runs at the same time.",
        ),
        Number(
            key="frame_width", label="Frame width", group="Frames held in memory", low=1, high=32768, unit="px",
            default=3840, whole=True, also={"pixels": 1, "pixel": 1}, extra=True,
            names=("width", "horizontal resolution"),
            where="The project's settings: 1920, 3840 or more.",
        ),
        Number(
            key="frame_height", label="Frame height", group="Frames held in memory", low=1, high=32768, unit="px",
            default=2160, whole=True, also={"pixels": 1, "pixel": 1}, extra=True,
            names=("height", "lines", "vertical resolution"),
            where="The project's settings: 1080, 2160 or more.",
        ),
        Number(
            where_title=HOW_TO_TELL,
            key="frame_seconds", label="Seconds of frames held", group="Frames held in memory", low=0, high=36000,
            unit="s", default=0, also={"min": 60, "seconds": 1, "sec": 1}, extra=True,
            names=("seconds", "preview", "cache"),
            where="How long a stretch shall play from memory without stutter; 0 if the program keeps no frames.",
        ),
        rate_input(
            key="frame_rate", label="Frames a second", group="Frames held in memory", low=1, high=1000, unit="fps",
            default=30, extra=True, where="The project's settings.", names=("fps", "frame rate"),
        ),
        Choice(
            key="generation", label="Generation", group="Is it enough?", default=UNSURE,
            options=(*GENERATIONS, Option(UNSURE, "not sure")), names=("memory type", "kind of memory"),
            where="On a stick's sticker, as DDR3, DDR4 or DDR5, or in the board's manual. It decides which sizes there "
            "are.",
        ),
        Number(
            key="have_gb", label="Memory you have", group="Is it enough?", low=0.25, high=16384, unit="GB",
            optional=True, also={"GiB": 1, "G": 1}, names=("gb", "have", "installed", "gigabytes", "my memory", "ram"),
            where="The system's hardware overview. Leave it empty to be told how much you need.",
        ),
    ),
    compute=compute,
    version=3,
    worked_for=worked_for,
    presets=(
        Preset("everyday", "Office and browser, 16 GB", {"system": "usual", "browser_tabs": 20, "have_gb": 16}),
        Preset("game", "A large game with a browser",
               {"system": "usual", "browser_tabs": 10, "game": "large", "have_gb": 16}),
        Preset("video", "Video, 10 s of 2160 lines held",
               {"system": "usual", "browser_tabs": 10, "editing": "video", "frame_width": 3840, "frame_height": 2160,
                "frame_seconds": 10, "have_gb": 32}),
        Preset("machines", "Two virtual machines",
               {"system": "busy", "browser_tabs": 30, "virtual_machines_gb": 16, "have_gb": 32}),
    ),
)  # fmt: skip
