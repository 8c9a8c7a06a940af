"""The usual cautions of work on memory, and one for voltages above the usual."""

from __future__ import annotations

from calculators.desk.answer import Caution
from calculators.desk.numbers import number

# The highest voltage that rated kits commonly ask for. [V] Common practice, no source.
MOST_VOLTS = {"ddr3": 1.65, "ddr4": 1.5, "ddr5": 1.45}

CAUTIONS = (
    Caution(
        "person",
        "Switch off, unplug, and press the power button once before you open the case; touch bare metal to lose "
        "static charge.",
        "Follow the manuals of board and computer.",
        short="Off, unplugged, static gone before you open.",
        tag="Unplug first",
    ),
    Caution(
        "data",
        "Memory errors damage files without a word. Back up first, test before you trust, and do not install or "
        "update a system on untested settings.",
    ),
    Caution(
        "data",
        "Resetting the firmware can call for the disk's recovery key and change how the system starts. Have the key "
        "at hand and photograph the settings first.",
    ),
    Caution(
        "machine",
        "Set voltages only within what the makers of sticks, board and processor allow; the memory controller sits "
        "in the processor and can be harmed.",
        "Their manuals prevail over this page.",
    ),
    Caution(
        "machine",
        "Rates, timings and voltages set by hand, and in places a rated profile too, can void the warranty of sticks, "
        "board or processor.",
        "Read their terms before you set anything.",
    ),
)


def cautions_at(generation: str, volts: float) -> tuple[Caution, ...]:
    """The usual cautions, and first a warning where a voltage is above what rated kits commonly ask for."""
    usual = MOST_VOLTS[generation]
    if volts <= usual:
        return CAUTIONS
    high = Caution(
        "machine",
        f"{number(volts, 4)} V is above the {number(usual, 4)} V that rated "
        f"{generation.upper()} kits commonly ask for. Read the sticker once more.",
        "Do not set it unless sticks, board and processor are all specified for it.",
        first=True,
    )
    return (high, *CAUTIONS)
