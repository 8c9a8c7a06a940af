"""work.lanes: what a link of so many lanes carries, and when fewer are felt."""

from __future__ import annotations

from calculators.desk.answer import (
    COMMON_PRACTICE,
    DEPENDS,
    NO,
    YES,
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
from calculators.desk.charts import Bar, bars
from calculators.desk.inputs import HOW_TO_CHOOSE, HOW_TO_TELL, Choice, Number, Option, Values
from calculators.desk.numbers import number, plural, settled, significant, span
from calculators.desk.svg import Drawing
from calculators.work.formulas.lane_rates import (
    GT_S,
    KERNEL,
    SOURCE,
    copy_s,
    generation_of_rate,
    lane_gb_s,
    share_of_data,
)
from calculators.work.wording.cautions import POWER, STATIC
from calculators.work.wording.typed_inputs import Counted, Generation

LANES = ("1", "2", "4", "8", "12", "16")
_IN_WORDS = {"1": ("one lane",), "2": ("two lanes",), "4": ("four lanes",), "8": ("eight lanes",)}
_DRAWN = ("4", "8", "16")
_TIMES = (("h", 3600, 7200), ("min", 60, 300))  # unit, its seconds, from how many seconds on it is used
# Shares of the link that copies reach, and rates below which a card with room in its memory is felt to wait.
CARD_SHARE_LOW, CARD_SHARE_HIGH, DISK_SHARE = 0.75, 0.85, 0.94
CARD_ENOUGH_GB_S, CARD_LITTLE_GB_S = 7.5, 3.5  # eight and four lanes of generation 3, nearly
PRACTICE = Source(
    "Copies to a card reach about 75 to 85 % of a link, disks up to about 94 %; when fewer lanes are felt",
    "",
    COMMON_PRACTICE,
)
SOURCES = (SOURCE, KERNEL, PRACTICE)


def compute(given: Values) -> Answer:
    """One link, what it carries, and whether that is felt."""
    generation, lanes = int(given["generation"]), int(given["lanes"])
    lane = lane_gb_s(generation)
    link = lane * lanes
    seconds = copy_s(given["gigabytes"], link)
    return Answer(
        headline=(
            f"{plural(lanes, 'lane')} of generation {generation} {'carries' if lanes == 1 else 'carry'} at most "
            f"{_gb_s(link)} each way: {_size(given['gigabytes'])} in {_seconds(seconds)} at best."
        ),
        verdict=_verdict(given, link),
        figures=_figures(given, generation, lane, link, seconds),
        working=_working(given, generation, lanes, lane, link, seconds),
        tables=(_table(given, generation, lane),),
        drawings=(_drawing(given, generation, lane),),
        notes=_notes(given, generation),
        cautions=(STATIC, POWER),
        sources=SOURCES,
    )


def _gb_s(value: float) -> str:
    return f"{significant(value, 3)} GB/s"


def _seconds(value: float) -> str:
    """A time as one says it: in seconds, minutes or hours."""
    for unit, seconds, least in _TIMES:
        if value >= least:
            return f"{significant(value / seconds, 3)} {unit}"
    return f"{significant(value, 3)} s"


def _size(gigabytes: float) -> str:
    return f"{number(gigabytes, 2) if gigabytes >= 1 else significant(gigabytes, 3)} GB"


def _shares(given: Values) -> tuple[float, float]:
    return (DISK_SHARE, DISK_SHARE) if given["device"] == "disk" else (CARD_SHARE_LOW, CARD_SHARE_HIGH)


def _verdict(given: Values, link: float) -> Verdict:
    low, high = (settled(link * share) for share in _shares(given))
    slot, needs = given["slot"], given.get("needs_gb_s")
    card = given["device"] == "card"
    if card and given["overflows"] == "yes":
        return Verdict(NO, "When the card's memory overflows, every lane is felt, and none is enough.",
                       "It is never enough.")  # fmt: skip
    if card and given["generation"] == 1 and not (needs is not None and settled(needs) <= low):
        return Verdict(DEPENDS, "At rest every link shows generation 1: read it again under load.", "Look under load.")
    if needs is not None:
        if settled(needs) > high:
            return Verdict(NO, "The device moves more than this link carries in practice.", "The link holds it back.")
        if settled(needs) > low:
            return Verdict(DEPENDS, "The device moves about as much as such a link carries in practice.", "Only just.")
    elif not card:
        return Verdict(DEPENDS, "Compare the link with the reading rate that the disk's maker names.", "That depends.")
    elif settled(link) < CARD_LITTLE_GB_S:
        return Verdict(NO, "A card is felt to wait below about four lanes of generation 3.", "Too little.")
    if slot == "chipset":
        return Verdict(DEPENDS, "Behind the chipset all its slots and sockets share one way up.", "That depends.")
    if slot == "unsure":
        return Verdict(DEPENDS, "First find out whether the slot hangs on the processor.", "That depends.")
    if needs is not None:
        return Verdict(YES, "The link carries more than the device moves.", "That is enough.")
    if given["overflows"] == "unsure":
        return Verdict(DEPENDS, "First see whether the card's memory overflows: then lanes are felt.", "That depends.")
    if settled(link) < CARD_ENOUGH_GB_S:
        return Verdict(DEPENDS, "Loading and moving frames is felt; work inside the card's memory is not.", "Mostly.")
    return Verdict(YES, "While all fits the card's memory, more lanes are hardly felt.", "That is enough.")


def _figures(given: Values, generation: int, lane: float, link: float, seconds: float) -> tuple[Figure, ...]:
    low, high = _shares(given)
    rows = [
        figure("link_gb_s", "The link, each way, at most", link, "GB/s", 3, main=True),
        Figure("seconds", "The copy, at best", settled(seconds), "s", _seconds(seconds), main=True),
        figure("gt_s", "Transfers a second and lane", GT_S[generation].value, "GT/s", 1),
        figure("lane_gb_s", "One lane", lane, "GB/s", 3),
    ]
    if low == high:
        rows.append(figure("practice_gb_s", "In practice, up to about", link * low, "GB/s", 2))
    else:
        rows.append(figure("practice_low_gb_s", "In practice, from about", link * low, "GB/s", 2))
        rows.append(figure("practice_high_gb_s", "In practice, to about", link * high, "GB/s", 2))
    return tuple(rows)


def _working(
    given: Values, generation: int, lanes: int, lane: float, link: float, seconds: float
) -> tuple[Working, ...]:
    share, gt_s = share_of_data(generation), number(GT_S[generation].value, 1)
    put = f"{gt_s} × {share.over}/{share.under} ÷ 8"
    return (
        Working("One lane", "transfers × share of data ÷ 8", put, f"{number(lane, 4)} GB/s"),
        Working("The link", "lane × lanes", f"{number(lane, 4)} × {lanes}", f"{number(link, 3)} GB/s"),
        Working("The copy, at best", "gigabytes ÷ link", f"{number(given['gigabytes'], 2)} ÷ {number(link, 3)}",
                _seconds(seconds)),
    )  # fmt: skip


def _table(given: Values, generation: int, lane: float) -> Table:
    rows = []
    for lanes in LANES:
        link = lane * int(lanes)
        low, high = (copy_s(given["gigabytes"], link * share) for share in reversed(_shares(given)))
        rows.append((lanes, significant(link, 3), span(low, high, "", 3 if high < 1 else 1)))
    return Table(
        title=f"Lanes of generation {generation}",
        columns=(Column("Lanes", True), Column("GB/s at most", True), Column("Copy in practice, s", True)),
        rows=tuple(rows),
        note=f"For {_size(given['gigabytes'])}. The ceiling is one direction's, before packet headers.",
        marked=(LANES.index(given["lanes"]),),
    )


def _drawing(given: Values, generation: int, lane: float) -> Drawing:
    shown = sorted({*_DRAWN, given["lanes"]}, key=int)
    rows = [Bar(plural(int(n), "lane"), lane * int(n), _gb_s(lane * int(n)), mark=n == given["lanes"]) for n in shown]
    description = "; ".join(f"{row.label} {row.text}" for row in rows)
    return bars(
        f"What lanes of generation {generation} carry",
        f"Bars: {description}.",
        rows,
        caption="Longer carries more. Each way, at most.",
    )


def _notes(given: Values, generation: int) -> tuple[Note, ...]:
    reach = (
        "Disks reach up to about 94 % of it with long reads." if given["device"] == "disk" else
        "Copies to a card reach about 75 to 85 % of it."
    )  # fmt: skip
    notes = [
        Note(
            "A ceiling, not a promise", f"{reach} Common practice: packets carry headers, and both ends must keep up."
        ),
        Note(
            "When eight instead of sixteen is felt",
            "Most when the card's memory overflows, because the scene then runs over the link again and again. Also "
            "when textures load, when frames of footage go to the card and back, and when two cards share one piece "
            "of work. Hardly in a render that fits.",
        ),
        Note(
            "Read it under load",
            "A link at rest saves power and shows generation 1. Start something that works the card, and read "
            "generation and lanes then, in the card driver's information or the system's device list.",
        ),
        Note(
            "A long slot may be wired for less",
            "Length says nothing: a slot as long as sixteen lanes may be wired for four. A disk in one of the board's "
            "sockets may take lanes from a slot. The board's manual has a table of both.",
        ),
    ]
    if given["slot"] != "processor":
        notes.insert(
            0,
            Note(
                "Behind the chipset",
                "The chipset hangs on the processor by one link of its own, and slots, disks, network and USB behind "
                "it share that. Each is quick alone; together they wait for one another.",
            ),
        )
    if generation >= 6:
        notes.append(
            Note(
                "What is counted from generation 6 on",
                "Of each 256 bytes 242 are for packets and link messages, the rest for checking. This counts as "
                "128/130 does before, so it stands before packet headers, too.",
            )
        )
    return tuple(notes)


def _worked_for(given: Values) -> str:
    what = {"card": "a card", "disk": "a disk"}[given["device"]]
    slot = {"processor": "at the processor", "chipset": "behind the chipset", "unsure": "in a slot of unknown wiring"}
    lanes = plural(int(given["lanes"]), "lane")
    return f"{what} on {lanes} of generation {given['generation']}, {slot[given['slot']]}"


calculator = Calculator(
    name="work.lanes",
    version=2,
    title="Does my card or disk need all its lanes?",
    summary="What a link of so many lanes carries, how long a copy takes, and when fewer lanes are felt.",
    inputs=(
        Generation(
            key="generation", label="Generation", low=1, high=7, default=4, whole=True,
            where="The card driver's information page or the system's device list, read under load; at rest it shows "
            "1. The lower of slot and device counts.",
            names=("gen", "pcie", "pci express", "version"), printed=generation_of_rate,
        ),
        Counted(
            key="lanes", label="Lanes in use", default="1",
            options=tuple(Option(n, n, _IN_WORDS.get(n, ())) for n in LANES),
            where="The same page as the generation, such as '8 lanes' or 'x8'; else the board's manual for that slot.",
            names=("x1", "x2", "x4", "x8", "x12", "x16", "width", "lane", "lanes"),
        ),
        Number(
            where_title=HOW_TO_TELL,
            key="gigabytes", label="What is copied", low=0, high=10_000, unit="GB", default=1,
            also={"TB": 1000, "MB": 0.001, "GiB": 1.073741824},
            where="The size of the textures, the footage or the file that crosses the link.", names=("size", "copy"),
        ),
        Choice(
            key="slot", label="The slot hangs on", default="processor",
            options=(Option("processor", "the processor", ("cpu",)),
                     Option("chipset", "the chipset", ("pch", "chipset", "via the chipset")),
                     Option("unsure", "not sure")),
            where="The board's manual, in the table of slots; the slot nearest to the processor is its own on most.",
        ),
        Choice(
            where_title=HOW_TO_CHOOSE,
            key="device", label="What hangs on the link", default="card",
            options=(Option("card", "a graphics card", ("gpu", "graphics")),
                     Option("disk", "a disk", ("ssd", "drive", "nvme"))),
            where="What you mean to plug in.",
        ),
        Choice(
            where_title=HOW_TO_TELL,
            key="overflows", label="The card's memory overflows", default="no",
            options=(Option("no", "no"), Option("yes", "yes"), Option("unsure", "not sure")), extra=True,
            where="The system's process list shows the card's memory: full to the brim, while shared memory grows.",
        ),
        Number(
            key="needs_gb_s", label="What the device moves", low=0.01, high=300, unit="GB/s", optional=True,
            extra=True, where="The maker's data sheet: a disk's reading rate in GB/s. 7000 MB/s are 7 GB/s.",
            also={"MB/s": 0.001}, names=("read speed", "reads at", "reads"),
        ),
    ),
    compute=compute,
    worked_for=_worked_for,
    presets=(
        Preset("card-eight", "A card on eight lanes of generation 4",
               {"generation": 4, "lanes": "8", "gigabytes": 12}),
        Preset("card-sixteen", "A card on sixteen lanes of generation 4",
               {"generation": 4, "lanes": "16", "gigabytes": 12}),
        Preset("card-older", "A card on eight lanes of generation 3",
               {"generation": 3, "lanes": "8", "gigabytes": 12, "overflows": "unsure"}),
        Preset("card-chipset", "A second card behind the chipset",
               {"generation": 4, "lanes": "4", "gigabytes": 12, "slot": "chipset"}),
        Preset("disk", "A disk that reads 7 GB/s on four lanes of 4",
               {"generation": 4, "lanes": "4", "gigabytes": 100, "device": "disk", "needs_gb_s": 7}),
        Preset("disk-older", "The same disk in a socket of generation 3",
               {"generation": 3, "lanes": "4", "gigabytes": 100, "device": "disk", "needs_gb_s": 7}),
    ),
)  # fmt: skip
