"""display.reach: how long a cable may be at a rate, and which kind to buy."""

from __future__ import annotations

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
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Bar, bars
from calculators.desk.inputs import Number, Values
from calculators.desk.numbers import number, span
from calculators.desk.svg import Drawing
from calculators.trade.links.cable_reach import KINDS, Span, kinds_for, reach
from calculators.trade.links.link_input import link_input
from calculators.trade.links.link_rates import LINKS, Link, link

_NAMES = {"passive": "passive copper", "active": "active copper", "optical": "optical"}
_A_CABLE = {kind: f"{'a' if kind == 'passive' else 'an'} {name}" for kind, name in _NAMES.items()}
_WHAT = {
    "passive": "Wires only: works in both directions, cheapest, shortest.",
    "active": "Chips in the plugs: works in one direction only, the end for the display is marked.",
    "optical": "Light in glass fibre: the longest, one direction only, some need extra power.",
}

SOURCES = (
    Source("Lengths at which cables are offered and found to work", "", COMMON_PRACTICE),
    Source("VESA and HDMI cable certification", "categories by rate; neither fixes a length", FROM_MEMORY),
)


def compute(given: Values) -> Answer:
    """The spans for one rate, and the kind of cable for one length."""
    one, length = link(given["link"]), given["length"]
    may, sure = kinds_for(one.key, length)
    return Answer(
        headline=_headline(one, length, may, sure),
        verdict=_verdict(one, length, may, sure),
        figures=_figures(one, may, sure),
        tables=(_table(one), _rates(one)),
        drawings=(_drawing(one, length),),
        notes=_notes(one),
        cautions=(
            Caution(
                "machine",
                "Do not bend a cable tighter than its maker allows: optical cables break inside without a mark.",
                "A cable inside a wall has to meet the fire rules for it: ask your local code or an electrician.",
            ),
        ),
        sources=SOURCES,
    )


def _headline(one: Link, length: float, may: str, sure: str) -> str:
    metres = f"{number(length, 1)} m"
    if sure and sure == may:
        return f"For {metres} at {one.name}, {_A_CABLE[sure]} cable will do."
    if sure:
        return f"For {metres} at {one.name}, {_A_CABLE[may]} cable may do and {_A_CABLE[sure]} one is the safe buy."
    if may:
        return f"For {metres} at {one.name}, only some {_NAMES[may]} cables will do: buy where it can be returned."
    return f"For {metres} at {one.name} no cable should be expected to work: move the computer or lower the rate."


def _verdict(one: Link, length: float, may: str, sure: str) -> Verdict:
    metres = f"{number(length, 1)} m"
    if sure and sure == may:
        return Verdict(
            YES,
            f"{metres} is within what {_A_CABLE[sure]} cable for this rate is counted on to carry.",
            f"{_NAMES[sure].capitalize()} will do.",
        )
    if sure:
        low = _span(one, may).low_m
        return Verdict(
            YES,
            f"Beyond {number(low, 1)} m it depends on the {_NAMES[may]} cable; {_A_CABLE[sure]} one settles it.",
            f"{_NAMES[sure].capitalize()} is safe.",
        )
    if may:
        return Verdict(
            DEPENDS,
            f"{metres} is beyond what can be counted on; good {_NAMES[may]} cables may reach it.",
            "With luck.",
        )
    return Verdict(NO, f"{metres} is beyond every kind of cable in common use for this rate.", "Not that long.")


def _span(one: Link, kind: str) -> Span:
    found = getattr(reach(one.key), kind)
    assert isinstance(found, Span)  # only asked for kinds that kinds_for named
    return found


def _spans(one: Link) -> list[tuple[str, Span]]:
    spans = reach(one.key)
    return [(kind, s) for kind in KINDS if (s := getattr(spans, kind)) is not None]


def _figures(one: Link, may: str, sure: str) -> tuple[Figure, ...]:
    rows = []
    for kind, one_span in _spans(one):
        label = _NAMES[kind].capitalize()
        rows.append(figure(f"{kind}_low_m", f"{label}, to count on", one_span.low_m, "m", 1, main=True))
        rows.append(figure(f"{kind}_high_m", f"{label}, at best", one_span.high_m, "m", 1))
    kind = sure or may
    rows.append(figure("cable", "Kind of cable", _NAMES[kind] if kind else "none"))
    return tuple(rows)


def _table(one: Link) -> Table:
    rows = tuple(
        (_NAMES[kind].capitalize(), span(s.low_m, s.high_m, "m", 1), s.standing, _WHAT[kind]) for kind, s in _spans(one)
    )
    return Table(
        title=f"Lengths at {one.name}",
        columns=(Column("Kind"), Column("Length", True), Column("Standing"), Column("What it is")),
        rows=rows,
        note=(
            "From the length one may count on to the length beyond which one should not hope. Certified category: "
            "cables are tested and marked for this rate; how long they then are is up to the maker."
        ),
    )


def _rates(one: Link) -> Table:
    rows = []
    for other in LINKS:
        cells = [_cell(other, kind) for kind in KINDS]
        rows.append((other.name, *cells, other.cable))
    return Table(
        title="Every rate",
        columns=(Column("Rate"), Column("Passive, m", True), Column("Active, m", True), Column("Optical, m", True),
                 Column("Certified cable")),
        rows=tuple(rows),
        marked=(LINKS.index(one),),
    )  # fmt: skip


def _cell(one: Link, kind: str) -> str:
    found = getattr(reach(one.key), kind)
    return span(found.low_m, found.high_m, "", 1) if found else "–"


def _drawing(one: Link, length: float) -> Drawing:
    rows = [
        Bar(_NAMES[kind].capitalize(), s.high_m, span(s.low_m, s.high_m, "m", 1), low=s.low_m)
        for kind, s in _spans(one)
    ]
    rows.append(Bar("Yours", length, f"{number(length, 1)} m", mark=True))
    said = "; ".join(f"{row.label} {row.text}" for row in rows)
    return bars(
        f"How far at {one.name}",
        f"Bars: {said}.",
        rows,
        caption="Each bar runs from the length to count on to the length at best.",
    )


def _notes(one: Link) -> tuple[Note, ...]:
    return (
        Note(
            "How a cable that is too long shows itself",
            "Sparkling dots, short black-outs, a picture that comes back after a second, or a mode that is simply "
            "not offered. A digital picture does not get a little worse: it breaks up or it is right.",
        ),
        Note(
            "Length is not the rate",
            f"For this rate look for the mark: {one.cable}. A version number on the cable promises none, and a "
            "longer cable of the right mark may still not be certified.",
        ),
        Note(
            "One direction only",
            "Active and optical cables carry the picture one way. Put the end marked for the display into the "
            "display; the other way round nothing breaks and nothing shows.",
        ),
    )


calculator = Calculator(
    name="display.reach",
    title="How long may the cable be?",
    summary="Passive, active and optical cable lengths by rate, as ranges with their standing.",
    inputs=(
        link_input(),
        Number(
            key="length",
            label="Length you need",
            where="Measure with a string along the path that the cable will take, and add half a metre for slack.",
            low=0.1,
            high=300,
            unit="m",
            default=3,
            also={"metres": 1, "meters": 1, "cm": 0.01, "ft": 0.3048, "feet": 0.3048},
        ),
    ),
    compute=compute,
    presets=(
        Preset("desk", "Across a desk, 2 m", {"link": "dp-hbr3", "length": 2}),
        Preset("tv-far", "Television across the room, 10 m", {"link": "hdmi-tmds-600", "length": 10}),
        Preset("fast-tv", "40 Gb/s, 5 m", {"link": "hdmi-frl-40", "length": 5}),
        Preset("fastest-dp", "UHBR20, 2 m", {"link": "dp-uhbr20", "length": 2}),
    ),
)
