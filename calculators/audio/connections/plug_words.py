"""What every answer about plugs says: cautions, sources, phantom power first, and whether left and right work."""

from __future__ import annotations

from calculators.audio.connections.adapter_catalogue import Adapter
from calculators.audio.connections.adapter_chains import PHANTOM, SHORTED_BALANCED
from calculators.audio.connections.connection_case import Case, may_supply
from calculators.audio.connections.connectors import inch
from calculators.desk.answer import COMMON_PRACTICE, FROM_MEMORY, Caution, Figure, Note, Source, Step
from calculators.desk.numbers import number

LEVER = Caution(
    "machine",
    "A stack of rigid adapters is a lever that breaks sockets and boards. A short adapter made of cable is kinder, and "
    "one adapter is better than two.",
    "The manual of the amplifier, board or headset has the last word on what may be plugged in.",
    short="A stack of adapters breaks sockets.",
    tag="Breaks sockets",
)
VOLUME = Caution(
    "hearing",
    "Volume down, headphones off the ears, then plug in: another output can be far louder than the last.",
    "If a sound hurts or your ears ring afterwards, see a hearing specialist if it lasts.",
    first=True,
    short="Volume down before you plug in.",
)
PHANTOM_OFF = Caution(
    "machine",
    "Switch phantom power off, and wait half a minute, before anything is plugged into a microphone input or pulled "
    "out of it.",
    "The input's manual says where the switch is and what may be supplied.",
    first=True,
)
HARM = {
    SHORTED_BALANCED: Caution(
        "machine",
        "A balanced output drives both ends of each channel. A plug or adapter that joins two of these contacts, or "
        "puts one on ground, shorts the amplifier. Such adapters are sold; do not use one here.",
        "The amplifier's manual says which plugs its balanced output takes.",
        first=True,
    ),
    PHANTOM: Caution(
        "machine",
        "An XLR microphone socket can feed 48 V phantom power. Plain wire from there to a 3.5 mm microphone or headset "
        "can destroy it.",
        "The microphone's manual says which supply it takes.",
        first=True,
    ),
}

SOURCES = (
    Source("IEC 60603-11, concentric connectors", "sizes 2.5, 3.5 and 6.35 mm, lengths", FROM_MEMORY),
    Source("International yard and pound agreement, 1959", "an inch is 25.4 mm", FROM_MEMORY),
    Source("JEITA RC-8141C, headphones for music listening, 2016", "balanced 4.4 mm plug with 5 poles", FROM_MEMORY),
    Source("AES14 and IEC 61076-2-103", "XLR: pin 1 screen, pin 2 hot, pin 3 cold", FROM_MEMORY),
    Source("IEC 61938, interconnection of audio equipment", "phantom power", FROM_MEMORY),
    Source(
        "Hot to hot, ground to cold and ground; cold open or grounded from a balanced output; left minus right from a "
        "stereo plug",
        "as makers of leads and interfaces publish it",
        COMMON_PRACTICE,
    ),
    Source("Kirchhoff's laws", "which contacts a plug joins, followed wire by wire", COMMON_PRACTICE),
    Source(
        "Both orders of 4-pole headset plugs, balanced 2.5 mm and 4-pin XLR, where a socket's ground spring touches, "
        "and which adapters are sold",
        "",
        COMMON_PRACTICE,
    ),
)

SIDES = ("left", "right", "microphone")


WEAKLY = "It fits, but weakly."


def side_figure(name: str, does: bool, main: bool, weakly: bool = False) -> Figure:
    """1 or 0 for machines, whether the contacts carry it; yes, weakly or no for people."""
    words = ("weakly" if weakly else "yes") if does else "no"
    return Figure(name, f"{name.capitalize()} works", int(does), "", words, main)


def cautions(case: Case, adapters: tuple[Adapter, ...]) -> tuple[Caution, ...]:
    """What can hurt here, the gravest first."""
    return (
        *((PHANTOM_OFF,) if may_supply(case, adapters) else ()),
        *((VOLUME,) if case.device != "microphone" else ()),
        LEVER,
    )


def phantom_step(case: Case) -> tuple[Step, ...]:
    """Phantom power off before anything is plugged in, where the input may feed it."""
    if not may_supply(case, ()):
        return ()
    return (
        Step(
            key="phantom",
            title="Phantom power off",
            do=("Switch phantom power off at the input, wait half a minute, and only then plug anything in.",),
            why="48 V on a plug that is just going in can damage what is plugged in, and the bang hurts ears.",
            otherwise="A microphone that needs it gets it back at the end, once everything is plugged in.",
        ),
    )


def sizes() -> Note:
    """What a quarter and an eighth of an inch are in millimetres."""
    return Note(
        "Quarter inch, eighth inch",
        f"A quarter inch is {number(inch(1, 4))} mm, the size of the large plug; some standards print 6.3 mm. "
        f"'Eighth inch' is a nickname for the 3.5 mm plug: an eighth of an inch would be {number(inch(1, 8), 3)} mm.",
    )
