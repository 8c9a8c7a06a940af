"""A kit of memory: the inputs that describe it, and what they add up to. Shared by the calculators of this room."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.inputs import Choice, Input, Number, Option, Text, Values
from calculators.desk.numbers import plural
from calculators.memory.kits.slot_placement import Stick
from calculators.memory.timings.data_rates import rate_label
from calculators.memory.timings.timing_strings import Timings, read_timings, write_timings

GENERATIONS = (Option("ddr3", "DDR3"), Option("ddr4", "DDR4"), Option("ddr5", "DDR5"))
RANKS = (Option("1", "1 rank"), Option("2", "2 ranks"), Option("unknown", "not sure"))
MODULES = (Option("unbuffered", "unbuffered"), Option("registered", "registered"))
FORMS = (Option("dimm", "DIMM (desktop)"), Option("sodimm", "SO-DIMM (laptop, small desktop)"))
ECC = (Option("yes", "yes"), Option("no", "no"), Option("unknown", "not sure"))

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

    Raises:
        Nothing.

    Source:
        Ranges as the task of memory.mix lays them down.

    Example:
        >>> [entry.key for entry in kit_inputs("have", "The kit you have", 8)][:3]
        ['have_generation', 'have_count', 'have_size']
    """
    inputs: tuple[Input, ...] = (
        Choice(
            key=f"{prefix}_generation", label="Generation", group=group, options=GENERATIONS, default="ddr4",
            where="On the stick's sticker, as DDR3, DDR4 or DDR5; else in the system's hardware overview.",
        ),
        Number(
            key=f"{prefix}_count", label="Sticks", group=group, low=1, high=4, default=2, whole=True,
            where="Count them. On the box, the 2 in '2 × 8 GB'.",
        ),
        Number(
            key=f"{prefix}_size", label="Size of one stick", group=group, low=1, high=512, unit="GB", default=size,
            whole=True, also={"GiB": 1, "G": 1},
            where="On the sticker; on the box, the 8 in '2 × 8 GB'.",
        ),
        Number(
            key=f"{prefix}_rate", label="Rated speed", group=group, low=200, high=20000, unit="MT/s", default=3200,
            whole=True, also=RATE_UNITS,
            where="On the sticker after DDR4- or DDR5-, or in the kit's name. It is often called MHz there.",
        ),
        Text(
            key=f"{prefix}_timings", label="Timings", group=group, default="16-18-18-38", example="16-18-18-38",
            shape="the sticker's three or four timings in clocks", parse=read_timings, canonical=write_timings,
            longest=60,
            where="On the sticker, behind CL or as a row of numbers. The first is the CAS latency. If the sticker "
            "shows only CL16, the kit's data sheet has the others.",
        ),
        Number(
            key=f"{prefix}_volts", label="Rated voltage", group=group, low=1.0, high=2.0, unit="V", default=1.35,
            also={"mV": 0.001, "volt": 1, "volts": 1},
            where="On the sticker, such as 1.35 V. It belongs to the rated speed, not to the standard one.",
        ),
        Choice(
            key=f"{prefix}_ranks", label="Ranks", group=group, extra=True, options=RANKS, default="unknown",
            where="Some stickers say 1R×8 or 2R×8: the digit before the R is the number of ranks.",
        ),
        Choice(
            key=f"{prefix}_module", label="Kind of module", group=group, extra=True, options=MODULES,
            default="unbuffered",
            where="Desktop sticks are unbuffered (UDIMM). Registered ones (RDIMM) are for servers and say so.",
        ),
        Choice(
            key=f"{prefix}_form", label="Shape", group=group, extra=True, options=FORMS, default="dimm",
            where="A DIMM is about 13 cm long, an SO-DIMM about 7 cm.",
        ),
        Choice(
            key=f"{prefix}_ecc", label="Error correction (ECC)", group=group, extra=True, options=ECC, default="no",
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
            where="What the system shows after a start with the firmware's defaults; the data sheet calls it the "
            "standard, JEDEC or SPD speed.",
        ),
    )  # fmt: skip


def slot_inputs() -> tuple[Input, ...]:
    """How many slots and channels the board has; the same in every calculator that places sticks."""
    return (
        Choice(
            key="slots", label="Slots on the board", group="The board", options=(Option("2", "2"), Option("4", "4")),
            default="4", where="Count the long sockets beside the processor, or look in the board's manual.",
        ),
        Choice(
            key="channels", label="Channels", group="The board", options=(Option("1", "1"), Option("2", "2")),
            default="2", where="The board's manual. Nearly every desktop board has two.",
        ),
    )  # fmt: skip
