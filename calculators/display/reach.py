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
from calculators.desk.inputs import HOW_TO_TELL, UNSURE, Number, Values
from calculators.desk.numbers import listed, number, span
from calculators.desk.svg import Drawing
from calculators.trade.links.cable_reach import EACH_MAKER_FROM_M, KINDS, Span, kinds_for, reach
from calculators.trade.links.link_input import DISPLAYPORT_NO_SPEED, HDMI_NO_SPEED, OPEN, OPEN_WORDS, link_input
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
    length = given["length"]
    if given["link"] in OPEN:
        return _any_rate(given["link"], length)
    one = link(given["link"])
    may, sure = kinds_for(one.key, length)
    return Answer(
        headline=_headline(one, length, may, sure),
        verdict=_verdict(one, length, may, sure),
        figures=_figures(one, may, sure),
        tables=(_table(one), _rates(one)),
        drawings=(_drawing(one, length),),
        notes=_notes(one),
        cautions=_cautions(length, sure or may),
        sources=SOURCES,
    )


def _cautions(length: float, kind: str) -> tuple[Caution, ...]:
    # of the kind that is advised; where that is not known, of both
    breaks = "" if kind in ("passive", "active") else ": optical cables break inside without a mark"
    bend = Caution(
        "machine",
        f"Do not bend a cable tighter than its maker allows{breaks}.",
        "A cable inside a wall has to meet the fire rules for it: ask your local code or an electrician.",
        short="Bend no optical cable tightly." if kind == "optical" else "Bend no cable too tightly.",
        tag="No kinks",
    )
    if length <= EACH_MAKER_FROM_M:
        return (bend,)
    own = Caution(
        "machine",
        f"Beyond {EACH_MAKER_FROM_M} m each maker states its own length, rate and modes. Lay no cable for good before "
        "your own mode has run over it.",
        "The maker's data sheet for that very cable and length decides.",
    )
    return own, bend


def _any_rate(choice: str, length: float) -> Answer:
    """Where the rate is not known: to which rate each kind of cable is counted on for this length."""
    metres = f"{number(length, 1)} m"
    within = [
        one for one in LINKS if not one.key.startswith(("usb-c", "dvi")) and one.key.startswith(_OPEN_KINDS[choice])
    ]
    rows, passive = [], []
    for kind in KINDS:
        cells = []
        for family in ("dp-", "hdmi-"):
            sure = [
                o
                for o in within
                if o.key.startswith(family) and (s := getattr(reach(o.key), kind)) and length <= s.low_m
            ]
            cells.append(sure[-1].name if sure else "none")
            if sure and kind == "passive":
                passive.append(sure[-1].say(4))
        rows.append((_NAMES[kind].capitalize(), *cells))
    headline, verdict = _any_verdict(within, metres, length, passive)
    return Answer(
        headline=headline,
        verdict=verdict,
        figures=(figure("cable", "Kind of cable", "depends on the rate"),),
        tables=(
            Table(
                title=f"The fastest rate to count on over {metres}",
                columns=(Column("Kind"), Column("DisplayPort"), Column("HDMI")),
                rows=tuple(rows),
                note="Find the rate in the data sheets, as Gb/s, MHz, HBR or UHBR; a version number fixes none.",
            ),
            _rates(None),
        ),
        notes=_notes(None),
        cautions=_cautions(length, ""),
        sources=SOURCES,
    )  # fmt: skip


def _any_verdict(within: list[Link], metres: str, length: float, passive: list[str]) -> tuple[str, Verdict]:
    """What holds whatever the rate turns out to be: a kind of cable is named only where some rate goes so far on it."""
    if passive:
        headline = f"For {metres}, passive copper will do up to {listed(passive)}; faster rates take another cable."
    else:
        kinds = [kind for kind in KINDS[1:] if any(_reaches(one, kind, length) for one in within)]
        if not kinds:
            return (
                f"For {metres} no cable should be expected to work at any rate: move the computer, or use a network.",
                Verdict(NO, f"{metres} is beyond every kind of cable in common use.", "Not that long."),
            )
        own = f"{metres} is possible with an optical cable alone; each maker states its own length."
        cables = listed([_NAMES[kind] for kind in kinds], "or")
        headline = (
            own
            if length > EACH_MAKER_FROM_M
            else f"For {metres}, passive copper is counted on at no rate: take an {cables} cable."
        )
    return headline, Verdict(
        DEPENDS, "How far a cable reaches depends on the rate it carries.", "Find out the rate first."
    )


def _reaches(one: Link, kind: str, length: float) -> bool:
    """Whether some cable of this kind may go so far at a rate."""
    lengths = getattr(reach(one.key), kind)
    return lengths is not None and length <= lengths.high_m


_OPEN_KINDS = {UNSURE: ("dp-", "hdmi-"), HDMI_NO_SPEED: ("hdmi-",), DISPLAYPORT_NO_SPEED: ("dp-",)}


def _headline(one: Link, length: float, may: str, sure: str) -> str:
    metres = f"{number(length, 1)} m"
    if sure and sure == may:
        return f"For {metres} at {one.say(4)}, {_A_CABLE[sure]} cable will do."
    if sure:
        return f"For {metres} at {one.say(4)}, {_A_CABLE[may]} cable may do and {_A_CABLE[sure]} one is the safe buy."
    if may == "optical" and length > EACH_MAKER_FROM_M:
        return f"{metres} at {one.say(4)} is possible with an optical cable; each maker states its own length."
    if may:
        return f"For {metres} at {one.say(4)}, only some {_NAMES[may]} cables will do: buy where it can be returned."
    return f"For {metres} at {one.say(4)} no cable should be expected to work: move the computer or lower the rate."


def _verdict(one: Link, length: float, may: str, sure: str) -> Verdict:
    metres = f"{number(length, 1)} m"
    if sure and sure == may:
        return Verdict(
            YES,
            f"{_A_CABLE[sure].capitalize()} cable for this rate is counted on to go {metres}.",
            f"{_NAMES[sure].capitalize()} will do.",
        )
    if sure:
        low = _span(one, may).low_m
        return Verdict(
            YES,
            f"Beyond {number(low, 1)} m {_NAMES[may]} is not certain; {_A_CABLE[sure]} cable is.",
            f"{_NAMES[sure].capitalize()} is safe.",
        )
    if may == "optical" and length > EACH_MAKER_FROM_M:
        return Verdict(DEPENDS, "Optical cables go that far; each maker states its own length.", "Possible.")
    if may:
        return Verdict(
            DEPENDS,
            f"Good {_NAMES[may]} cables may reach {metres}; nobody can count on it.",
            "With luck.",
        )
    return Verdict(NO, f"{metres} is beyond every kind of cable in common use for this rate.", "Not that long.")


def _span(one: Link, kind: str) -> Span:
    lengths = getattr(reach(one.key), kind)
    assert isinstance(lengths, Span)  # only asked for kinds that kinds_for named
    return lengths


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


def _rates(one: Link | None) -> Table:
    rows = []
    for other in LINKS:
        cells = [_cell(other, kind) for kind in KINDS]
        rows.append((other.name, *cells, other.cable))
    return Table(
        title="Every rate",
        columns=(Column("Rate"), Column("Passive, m", True), Column("Active, m", True), Column("Optical, m", True),
                 Column("Certified cable")),
        rows=tuple(rows),
        marked=(LINKS.index(one),) if one else (),
    )  # fmt: skip


def _cell(one: Link, kind: str) -> str:
    lengths = getattr(reach(one.key), kind)
    return span(lengths.low_m, lengths.high_m, "", 1) if lengths else "–"


def _drawing(one: Link, length: float) -> Drawing:
    rows = [
        Bar(_NAMES[kind].capitalize(), s.high_m, span(s.low_m, s.high_m, "m", 1), low=s.low_m)
        for kind, s in _spans(one)
    ]
    rows.append(Bar("Yours", length, f"{number(length, 1)} m", mark=True))
    description = "; ".join(f"{row.label} {row.text}" for row in rows)
    return bars(
        f"How far at {one.name}",
        f"Bars: {description}.",
        rows,
        caption="Each bar runs from the length to count on to the length at best.",
    )


def _notes(one: Link | None) -> tuple[Note, ...]:
    mark = f"For this rate look for the mark: {one.cable}." if one else "Look for the mark of the rate: see the table."
    return (
        Note(
            "How a cable that is too long shows itself",
            "Sparkling dots, short black-outs, a picture that comes back after a second, or a mode that is simply "
            "not offered. A digital picture does not get a little worse: it breaks up or it is right.",
        ),
        Note(
            "Length is not the rate",
            f"{mark} A version number on the cable promises none, and a "
            "longer cable of the right mark may still not be certified.",
        ),
        Note(
            "One direction only",
            "Active and optical cables carry the picture one way. Put the end marked for the display into the "
            "display; the other way round nothing breaks and nothing shows.",
        ),
    )


def _worked_for(given: Values) -> str:
    rate = OPEN_WORDS[given["link"]] if given["link"] in OPEN else link(given["link"]).say(4)
    return f"{number(given['length'], 1)} m at {rate}"


calculator = Calculator(
    name="display.reach",
    title="How long may the cable be?",
    summary="Passive, active and optical cable lengths by rate, as ranges with their standing.",
    inputs=(
        link_input(unsure=True),
        Number(
            where_title=HOW_TO_TELL,
            key="length",
            label="Length you need",
            names=("length", "cable length", "long", "metres", "meters", "feet"),
            where="Measure with a string along the path that the cable will take, and add half a metre for slack.",
            low=0.1,
            high=300,
            unit="m",
            default=3,
            also={"metres": 1, "meters": 1, "cm": 0.01, "ft": 0.3048, "feet": 0.3048},
        ),
    ),
    compute=compute,
    version=3,
    worked_for=_worked_for,
    presets=(
        Preset("desk", "Across a desk, 2 m", {"link": "dp-hbr3", "length": 2}),
        Preset("tv-far", "Television across the room, 10 m", {"link": "hdmi-tmds-600", "length": 10}),
        Preset("fast-tv", "40 Gb/s, 5 m", {"link": "hdmi-frl-40", "length": 5}),
        Preset("fastest-dp", "UHBR20, 2 m", {"link": "dp-uhbr20", "length": 2}),
    ),
)
