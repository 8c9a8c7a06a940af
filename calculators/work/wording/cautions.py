"""Cautions that several calculators of work share. The first sentence of each is short enough to stand alone."""

from __future__ import annotations

from calculators.desk.answer import Caution

BACK_UP = Caution(
    "data",
    "Back up before you move footage or disks. Two copies on two disks, one of them elsewhere, then move, then open "
    "what arrived, and only then delete.",
    "The manuals of the disk and of the program.",
    short="Back up before you move footage.",
    tag="Copy files",
)
POWER = Caution(
    "machine",
    "Check supply and connectors before a larger card. The card's maker names the least supply and the connectors: "
    "use the cables that came with the supply, never another supply's, and push the plug in until it sits.",
    "The manuals of the card and of the supply; nothing here sizes a supply.",
    short="Check supply and connectors before a larger card.",
    tag="Check supply",
)
HEAT = Caution(
    "machine",
    "Hours of full load need air. Watch the temperatures through a first long render, keep dust and carpets away from "
    "the inlets, and stop when a part reaches its maker's limit.",
    "The makers' limits for your parts.",
)
STATIC = Caution(
    "machine",
    "Switch off and unplug before you open it. Wait until the lights are out, touch bare metal of the case first, "
    "and hold cards and sticks by their edges.",
    "The manuals of board and case.",
    short="Switch off and unplug before you open it.",
    tag="Unplug first",
)
