"""A kit of memory: the inputs that describe it, and what they add up to. Shared by the calculators of this room."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.inputs import HOW_TO_TELL, Choice, Follows, Input, Number, Option, Text, Values
from calculators.desk.numbers import plural
from calculators.memory.kits.printed_labels import (
    ranks_on_label,
    rate_on_label,
    size_on_label,
    volts_on_label,
    wrong_count,
    wrong_generation,
)
from calculators.memory.kits.sizes_made import sizes_made
from calculators.memory.kits.slot_placement import Stick
from calculators.memory.timings.data_rates import rate_label
from calculators.memory.timings.timing_strings import Timings, read_timings, write_timings

GENERATIONS = (
    Option("ddr3", "DDR3", ("ddr3l", "pc3", "pc3l")),
    Option("ddr4", "DDR4", ("pc4",)),
    Option("ddr5", "DDR5", ("pc5",)),
)
RANKS = (
    Option("1", "1 rank", ("1r", "1rx8", "1rx16", "single rank", "single-rank")),
    Option("2", "2 ranks", ("2r", "2rx8", "dual rank", "dual-rank")),
    Option("unknown", "not sure"),
)
MODULES = (
    Option(
        "unbuffered",
        "unbuffered",
        ("udimm", "non-ecc", "normal", "normal desktop", "normal desktop ram", "normal ram", "ordinary desktop memory"),
    ),
    Option("registered", "registered", ("rdimm", "reg", "buffered", "server memory")),
)
FORMS = (
    Option("dimm", "DIMM (desktop)", ("desktop", "udimm", "long stick")),
    Option("sodimm", "SO-DIMM (laptop, small desktop)", ("so-dimm", "laptop", "notebook", "short stick")),
)
ECC = (Option("yes", "yes"), Option("no", "no"), Option("unknown", "not sure"))

# A kit that is usual in each generation, for what a viewer does not tell. Common practice, no source.
USUAL_RATE = {"ddr3": "1600", "ddr5": "6000"}
USUAL_TIMINGS = {"ddr3": "11-11-11-28", "ddr5": "36-38-38-76"}
USUAL_VOLTS = {"ddr3": "1.5", "ddr5": "1.35"}

RATE_UNITS = {"MHz": 1, "MTs": 1, "Mbps": 1}  # people write the rate in all of these


@dataclass(frozen=True, slots=True)
class Kit:
    """What is known of a kit. Sizes in GB a stick, rates as printed in MT/s, times in clocks."""

    generation: str
    count: int
    size: int
    rate: int
    timings: Timings
    volts: float
    ranks: str
    module: str
    form: str
    ecc: str
    standard_rate: int | None

    def sticks(self, number: int) -> tuple[Stick, ...]:
        """Its sticks, each with the kit's number."""
        return (Stick(number, self.size),) * self.count

    def brief(self) -> str:
        """The kit as a shop names it: '2 × 8 GB DDR4-3200'."""
        return f"{self.count} × {self.size} GB {rate_label(self.generation, self.rate)}"

    def say(self) -> str:
        """The kit in a few words."""
        rate = rate_label(self.generation, self.rate)
        return f"{plural(self.count, 'stick')} of {self.size} GB, {rate}, {write_timings(self.timings)}"


def kit_of(given: Values, prefix: str) -> Kit:
    """The kit whose inputs start with a prefix, such as 'have'."""
    return Kit(
        generation=given[f"{prefix}_generation"],
        count=given[f"{prefix}_count"],
        size=given[f"{prefix}_size"],
        rate=given[f"{prefix}_rate"],
        timings=given[f"{prefix}_timings"],
        volts=given[f"{prefix}_volts"],
        ranks=given[f"{prefix}_ranks"],
        module=given[f"{prefix}_module"],
        form=given[f"{prefix}_form"],
        ecc=given[f"{prefix}_ecc"],
        standard_rate=given.get(f"{prefix}_standard_rate"),
    )


_SAMPLE_TIMINGS = Timings(16, 18, 18, 38)


def sample(
    generation: str = "ddr4", count: int = 2, size: int = 8, rate: int = 3200,
    timings: Timings = _SAMPLE_TIMINGS, volts: float = 1.35, ranks: str = "unknown",
    module: str = "unbuffered", form: str = "dimm", ecc: str = "no", standard_rate: int | None = None,
) -> Kit:  # fmt: skip
    """An invented kit for examples and tests; whatever matters there is told."""
    return Kit(generation, count, size, rate, timings, volts, ranks, module, form, ecc, standard_rate)


def size_follows(key: str) -> Follows:
    """A size stays when the generation in the input called `key` changes, if the new generation has it too."""
    made = {option.value: tuple(str(size) for size in sizes_made(option.value)) for option in GENERATIONS}
    return Follows(key, keeps=made)


def kit_inputs(prefix: str, group: str, size: int, standard: bool = True) -> tuple[Input, ...]:
    """
    The inputs that describe one kit.

    Args:
        prefix: Starts every key, such as "have". [text]
        group: Heading in the form. [text]
        size: Size of a stick in the worked example. [GB]
        standard: Whether to ask for the rate with the profile off.

    Returns:
        The declarations, in the order of the form. [list]

    Source:
        Ranges as the task of memory.mix lays them down.

    Example:
        >>> [entry.key for entry in kit_inputs("have", "The kit you have", 8)][:3]
        ['have_generation', 'have_count', 'have_size']
    """
    inputs: tuple[Input, ...] = (
        Choice(
            key=f"{prefix}_generation", label="Generation", group=group, options=GENERATIONS, default="ddr4",
            names=("memory type", "type of memory", "kind of memory"),
            where="On the stick's sticker, as DDR3, DDR4 or DDR5; else in the system's hardware overview.",
        ),
        Number(
            where_title=HOW_TO_TELL,
            key=f"{prefix}_count", label="Sticks", group=group, low=1, high=4, default=2, whole=True,
            names=("stick", "module", "modules", "dimms", "pieces", "pair", "kit of"),
            where="Count them. On the box, the 2 in '2 × 8 GB'.",
        ),
        Number(
            key=f"{prefix}_size", label="Size of one stick", group=group, low=1, high=512, unit="GB", default=size,
            whole=True, also={"GiB": 1, "G": 1}, follows=size_follows(f"{prefix}_generation"),
            printed=size_on_label, against=wrong_count(f"{prefix}_count", "Size of one stick"),
            names=("gb", "gigabyte", "gigabytes", "gig", "capacity"),
            where="On the sticker; on the box, the 8 in '2 × 8 GB'.",
        ),
        Number(
            key=f"{prefix}_rate", label="Rated speed", group=group, low=200, high=20000, unit="MT/s", default=3200,
            whole=True, also=RATE_UNITS, follows=Follows(f"{prefix}_generation", USUAL_RATE),
            printed=rate_on_label, against=wrong_generation(f"{prefix}_generation", "Rated speed"),
            names=("rate", "speed", "mhz", "mt/s", "megahertz", "clock speed"),
            where="On the sticker after DDR4- or DDR5-, or in the kit's name. It is often called MHz there.",
        ),
        Text(
            key=f"{prefix}_timings", label="Timings", group=group, default="16-18-18-38", example="16-18-18-38",
            shape="the sticker's timings in clocks, or CL and its number alone", parse=read_timings,
            canonical=write_timings, longest=60, follows=Follows(f"{prefix}_generation", USUAL_TIMINGS),
            names=("cl", "cas", "latency", "cas latency", "latencies"),
            where="On the sticker, behind CL or as a row of numbers. The first is the CAS latency. If the sticker "
            "shows only CL16, give that; the kit's data sheet has the others.",
        ),
        Number(
            key=f"{prefix}_volts", label="Rated voltage", group=group, low=1.0, high=2.0, unit="V", default=1.35,
            also={"mV": 0.001, "volt": 1, "volts": 1}, follows=Follows(f"{prefix}_generation", USUAL_VOLTS),
            printed=volts_on_label, names=("voltage", "volts", "volt"),
            where="On the sticker, such as 1.35 V. It belongs to the rated speed, not to the standard one.",
        ),
        Choice(
            key=f"{prefix}_ranks", label="Ranks", group=group, extra=True, options=RANKS, default="unknown",
            printed=ranks_on_label, names=("rank", "single rank", "dual rank", "1rx8", "2rx8"),
            where="Some stickers say 1R×8 or 2R×8: the digit before the R is the number of ranks.",
        ),
        Choice(
            where_title=HOW_TO_TELL,
            key=f"{prefix}_module", label="Kind of module", group=group, extra=True, options=MODULES,
            default="unbuffered", names=("buffered", "udimm", "rdimm"),
            where="Desktop sticks are unbuffered (UDIMM). Registered ones (RDIMM) are for servers and say so.",
        ),
        Choice(
            where_title=HOW_TO_TELL,
            key=f"{prefix}_form", label="Shape", group=group, extra=True, options=FORMS, default="dimm",
            names=("form factor", "format"),
            where="A DIMM is about 13 cm long, an SO-DIMM about 7 cm.",
        ),
        Choice(
            key=f"{prefix}_ecc", label="Error correction (ECC)", group=group, extra=True, options=ECC, default="no",
            names=("ecc",),
            where="The sticker or data sheet says ECC. The on-die correction that all DDR5 has does not count.",
        ),
    )  # fmt: skip
    if not standard:
        return inputs
    return (
        *inputs,
        Number(
            key=f"{prefix}_standard_rate", label="Speed with the profile off", group=group, extra=True,
            optional=True, low=200, high=20000, unit="MT/s", whole=True, also=RATE_UNITS,
            follows=Follows(f"{prefix}_generation"), printed=rate_on_label,
            against=wrong_generation(f"{prefix}_generation", "Speed with the profile off"),
            names=("jedec speed", "spd speed", "standard speed", "base speed"),
            where="What the system shows after a start with the firmware's defaults; the data sheet calls it the "
            "standard, JEDEC or SPD speed.",
        ),
    )  # fmt: skip


def slot_inputs() -> tuple[Input, ...]:
    """How many slots and channels the board has; the same in every calculator that places sticks."""
    return (
        Choice(
            where_title=HOW_TO_TELL,
            key="slots", label="Slots on the board", group="The board", options=(Option("2", "2"), Option("4", "4")),
            default="4", names=("slot", "slots", "dimm slots", "memory slots", "sockets"),
            where="Count the long sockets beside the processor, or look in the board's manual.",
        ),
        Choice(
            key="channels", label="Channels", group="The board", options=(Option("1", "1"), Option("2", "2")),
            default="2", names=("channel", "dual channel", "single channel"),
            where="The board's manual. Nearly every desktop board has two.",
        ),
    )  # fmt: skip
