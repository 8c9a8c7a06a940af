"""Cautions that several calculators of rooms share."""

from __future__ import annotations

from calculators.desk.answer import Caution

_EARTHS = (
    (
        "Between two buildings, or two parts of one with separate earths, run glass fibre without metal and never a "
        "copper cable: a fault or a stroke of lightning nearby can put a dangerous voltage on it."
    ),
    "Ask an electrician before any cable leaves the building.",
)
_GLASS = "Between buildings use fibre, never copper cable."
EARTHS = Caution("person", *_EARTHS, short=_GLASS, tag="Lightning risk")
EARTHS_FIRST = Caution("person", *_EARTHS, first=True, short=_GLASS, tag="Lightning risk")
WALLS = Caution(
    "person",
    "Before you drill, find out what runs inside the wall; keep signal cables apart from mains. A cable in a wall or "
    "floor must meet the fire rules for it, and in some places only a licensed person may lay it.",
    "Your local code, your landlord and an electrician have the last word.",
)
MAINS_ADAPTERS = Caution(
    "machine",
    "Put mains-wiring adapters straight into a wall socket, never into a surge strip: it swallows their signal, and "
    "strips chained behind one another can overheat.",
    "The adapter's own manual.",
)
EXTENDER = Caution(
    "machine",
    "An extender pair's cable goes from one box to the other and never into a network switch: it is no network, and "
    "some pairs send power along it.",
    "The pair's own manual says what its cable carries.",
)
OPEN_DOORS = Caution(
    "data",
    "A machine that can be seen and steered from another room can be from elsewhere, too: set a password, pair only "
    "devices you know, keep it to the local network, and open no port of the router for it.",
    "The manuals of the program and of the router.",
    short="Remote control needs a password.",
    tag="Set password",
)
PULLING = Caution(
    "machine",
    "Test the whole run on the floor before you pull it in, and use conduit, so that it can be changed. Active and "
    "optical cables have a source end: check which end lies where.",
    "The cable's maker names the tightest bend.",
)
WAKING = Caution(
    "data",
    "A machine that can be woken from afar can be woken by others on the same network: set it so that it asks for a "
    "password when it wakes.",
    "The manuals of the board and of the system.",
)
EARS = Caution(
    "hearing",
    "Turn the volume down before you change a delay, a cable or a sound device: a clap test or a sudden full level in "
    "headphones can hurt.",
    short="Volume down before you change a delay.",
    tag="Hearing loss",
)
