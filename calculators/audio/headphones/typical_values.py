"""
What outputs and headphones usually do, for viewers who do not know their own numbers.

Every range here is common practice without a source: it says what one often meets, not what yours does.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import Column, Table
from calculators.desk.inputs import Option
from calculators.desk.numbers import number, span

UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Range:
    """The usual span of a number."""

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class OutputKind:
    """One kind of output. volts: highest undistorted. ohm: source impedance. noise_uv: A-weighted."""

    label: str
    volts: Range
    ohm: Range
    noise_uv: Range


@dataclass(frozen=True, slots=True)
class HeadphoneKind:
    """One kind of headphone. db_mw: sensitivity. isolation: how much of the room it keeps out."""

    label: str
    db_mw: Range
    ohm: Range
    isolation_db: Range


OUTPUTS = {
    "rear": OutputKind("line output at the back", Range(0.9, 2.1), Range(50, 500), Range(3, 30)),
    "front": OutputKind("headphone socket at the front", Range(0.8, 2.1), Range(2, 80), Range(5, 60)),
    "portable": OutputKind("headphone socket of a laptop", Range(0.4, 1.6), Range(1, 40), Range(2, 20)),
    "usb": OutputKind("small USB sound adapter", Range(0.5, 2.1), Range(0.2, 5), Range(1, 8)),
    "amplifier": OutputKind("headphone amplifier of its own", Range(2, 10), Range(0.1, 120), Range(1, 20)),
}

HEADPHONES = {
    "in-ear": HeadphoneKind("in-ear", Range(98, 120), Range(8, 64), Range(15, 30)),
    "portable": HeadphoneKind("portable, gaming or office", Range(94, 112), Range(16, 64), Range(5, 20)),
    "studio": HeadphoneKind("full-size studio, moving coil", Range(88, 106), Range(32, 600), Range(0, 20)),
    "planar": HeadphoneKind("full-size, planar magnetic", Range(83, 98), Range(15, 70), Range(0, 15)),
}

_EVERYDAY_OUTPUTS: dict[str, tuple[str, ...]] = {
    "rear": (
        "rear panel",
        "back panel",
        "line out",
        "motherboard",
        "onboard",
        "onboard jack",
        "onboard sound",
        "onboard audio",
        "green socket",
        "back jack",
        "rear jack",
        "back socket",
        "rear socket",
        "at the back",
        "back of the pc",
        "back of the case",
        "rear output",
    ),
    "front": (
        "front panel",
        "front jack",
        "case jack",
        "front socket",
        "front of the pc",
        "front of the case",
        "front output",
        "front headphone",
    ),
    "portable": ("laptop", "notebook", "phone", "telephone"),
    "usb": ("dongle", "usb dongle", "usb-c dongle", "usb adapter", "usb dac"),
    "amplifier": ("amp", "headphone amp", "audio interface", "interface"),
}
_EVERYDAY_HEADPHONES: dict[str, tuple[str, ...]] = {
    "in-ear": ("in-ears", "iem", "iems", "earbuds", "earphones"),
    "portable": ("gaming headset", "office headphones"),
    "studio": ("studio headphones", "studio phones", "studio cans", "dynamic", "over-ear", "monitoring headphones"),
    "planar": ("planars", "planar magnetic", "orthodynamic"),
}
OUTPUT_OPTIONS = (
    *(Option(key, kind.label, _EVERYDAY_OUTPUTS[key]) for key, kind in OUTPUTS.items()),
    Option(UNKNOWN, "not sure"),
)
HEADPHONE_OPTIONS = (
    *(Option(key, kind.label, _EVERYDAY_HEADPHONES[key]) for key, kind in HEADPHONES.items()),
    Option(UNKNOWN, "not sure"),
)


def _widest(ranges: list[Range]) -> Range:
    return Range(min(r.low for r in ranges), max(r.high for r in ranges))


def output_kind(key: str) -> OutputKind:
    """The usual numbers of a kind of output; for 'unknown' the span over all kinds."""
    if key in OUTPUTS:
        return OUTPUTS[key]
    every = list(OUTPUTS.values())
    return OutputKind(
        "any output",
        _widest([k.volts for k in every]),
        _widest([k.ohm for k in every]),
        _widest([k.noise_uv for k in every]),
    )


def headphone_kind(key: str) -> HeadphoneKind:
    """The usual numbers of a kind of headphone; for 'unknown' the span over all kinds."""
    if key in HEADPHONES:
        return HEADPHONES[key]
    every = list(HEADPHONES.values())
    return HeadphoneKind(
        "any headphones",
        _widest([k.db_mw for k in every]),
        _widest([k.ohm for k in every]),
        _widest([k.isolation_db for k in every]),
    )


_WARNING = "Typical, from common practice and without a source: what one often meets, not what yours does."


def output_table(marked: str = "", noise: bool = False) -> Table:
    """The usual numbers by kind of output; the viewer's own kind is marked."""
    last = "Noise, µV" if noise else "Highest level, V"
    rows = tuple(
        (
            kind.label,
            span(kind.noise_uv.low, kind.noise_uv.high) if noise else span(kind.volts.low, kind.volts.high),
            span(kind.ohm.low, kind.ohm.high),
        )
        for kind in OUTPUTS.values()
    )
    return Table(
        "Outputs, typically",
        (Column("Kind of output"), Column(last, numeric=True), Column("Source impedance, Ω", numeric=True)),
        rows,
        _WARNING,
        _marked(marked, list(OUTPUTS)),
    )


def headphone_table(marked: str = "", isolation: bool = False) -> Table:
    """The usual numbers by kind of headphone; the viewer's own kind is marked."""
    columns = [Column("Kind"), Column("Sensitivity, dB/mW", numeric=True), Column("Impedance, Ω", numeric=True)]
    rows: list[tuple[str, ...]] = []
    for kind in HEADPHONES.values():
        row = (kind.label, span(kind.db_mw.low, kind.db_mw.high), span(kind.ohm.low, kind.ohm.high))
        rows.append((*row, span(kind.isolation_db.low, kind.isolation_db.high)) if isolation else row)
    if isolation:
        columns.append(Column("Keeps out, dB", numeric=True))
    return Table("Headphones, typically", tuple(columns), tuple(rows), _WARNING, _marked(marked, list(HEADPHONES)))


def _marked(key: str, keys: list[str]) -> tuple[int, ...]:
    return (keys.index(key),) if key in keys else ()


def worded(value: Range, unit: str) -> str:
    """A usual range in words: '2 to 80 Ω'."""
    return f"{number(value.low)} to {number(value.high)} {unit}"
