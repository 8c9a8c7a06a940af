"""memory.ways: add a kit, buy the same kit again, or replace everything, compared by capacity and cost."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import COMMON_PRACTICE, Answer, Column, Figure, Note, Source, Table, Working, figure
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Bar, bars
from calculators.desk.inputs import Number, Text, Values
from calculators.desk.numbers import listed, number, settled
from calculators.desk.svg import Drawing
from calculators.memory.kits.kit_inputs import (
    ECC,
    FORMS,
    MODULES,
    Kit,
    kit_inputs,
    kit_of,
    size_follows,
    slot_inputs,
)
from calculators.memory.kits.printed_labels import size_on_label, wrong_count
from calculators.memory.kits.sizes_made import sizes_made
from calculators.memory.kits.slot_placement import Stick, best, every_way
from calculators.memory.timings.data_rates import rate_label
from calculators.memory.timings.first_setting import standard_volts
from calculators.memory.timings.timing_strings import write_timings
from calculators.memory.wording.cautions import CAUTIONS
from calculators.trade.money import AMOUNT_SIGNS, Amount, amount, read_currency

SOURCES = (
    Source("Memory pairs as far as both channels hold it", "", COMMON_PRACTICE),
    Source("How much hand-setting to expect", "", COMMON_PRACTICE),
)


@dataclass(frozen=True, slots=True)
class Way:
    """One way to more memory. fits: whether the slots hold it; paired_gb and doubled only count where it does."""

    key: str
    name: str
    sticks: tuple[Stick, ...]
    cost: float
    gained_gb: int
    fits: bool
    paired_gb: int
    doubled: bool
    setting: str

    @property
    def total_gb(self) -> int:
        """What the sticks add up to. [GB]"""
        return sum(s.size_gb for s in self.sticks)

    @property
    def cost_per_gb(self) -> float | None:
        """Cost for each gigabyte gained; None where nothing is gained. [currency/GB]"""
        return cost_per_gb_gained(self.cost, self.gained_gb) if self.fits else None


def cost_per_gb_gained(cost: float, gained_gb: int) -> float | None:
    """
    Cost for each gigabyte that there is more than before.

    Args:
        cost: What is paid, less what comes back. [currency]
        gained_gb: Capacity after less capacity before. [GB]

    Returns:
        The cost; None where nothing is gained. [currency/GB]

    Source:
        Arithmetic.

    Example:
        >>> cost_per_gb_gained(70, 32), cost_per_gb_gained(70, 0)
        (2.1875, None)
    """
    return settled(cost / gained_gb) if gained_gb > 0 else None


def compute(given: Values) -> Answer:
    """Three ways to more memory, side by side."""
    have = kit_of(given, "have")
    slots, channels, currency = int(given["slots"]), int(given["channels"]), given["currency"]
    mine = have.sticks(0)
    added = (Stick(1, given["add_size"]),) * given["add_count"]
    fresh = (Stick(1, given["replace_size"]),) * given["replace_count"]
    net = given["replace_price"] - given["resale"]
    ways = (
        _way("add", "Add a kit", mine + added, given["add_price"], have, slots, channels),
        _way("same", "The same kit again", mine + have.sticks(1), given["same_price"], have, slots, channels),
        _way("replace", "Replace all with one kit", fresh, net, have, slots, channels),
    )
    figures = [f for way in ways for f in _figures(way, currency)]
    return Answer(
        headline=_headline(ways, currency, slots),
        figures=tuple(figures),
        working=tuple(w for way in ways for w in _working(way, given, currency)),
        tables=(_table(ways, have, slots, currency),),
        drawings=_drawings(ways, have, currency),
        notes=(*_odd_sizes(have, given), *_notes(have, ways)),
        cautions=CAUTIONS,
        sources=SOURCES,
    )


def _way(key: str, name: str, sticks: tuple[Stick, ...], cost: float, have: Kit, slots: int, channels: int) -> Way:
    arranged = every_way(sticks, slots, channels)
    place = best(arranged) if arranged else None
    doubled = place.doubled() if place else False
    setting = _setting(key, have, doubled)
    total = sum(s.size_gb for s in sticks)
    return Way(
        key=key,
        name=name,
        sticks=sticks,
        cost=settled(cost),
        gained_gb=total - have.count * have.size,
        fits=place is not None,
        paired_gb=place.paired_gb() if place else 0,
        doubled=doubled,
        setting=setting,
    )


def _setting(key: str, have: Kit, doubled: bool) -> str:
    """How much there is to set, as memory.mix advises it for the kit at hand."""
    if have.form == "sodimm" and have.volts in standard_volts(have.generation):
        return "none: the computer takes the standard settings"
    if doubled and have.generation == "ddr5":
        return "much: begin on automatic, then step up; two sticks on a channel seldom hold their rating"
    setting = {
        "add": "much: rate and timings by hand",
        "same": "some: the profile may hold",
        "replace": "little: switch the profile on",
    }[key]
    return f"{setting}; two sticks on a channel may need a lower rate" if doubled else setting


def _figures(way: Way, currency: str) -> list[Figure]:
    figures = [figure(f"{way.key}_total_gb", f"{way.name}: capacity", way.total_gb, "GB", main=way.fits)]
    cost = settled(way.cost)
    figures.append(Figure(f"{way.key}_cost", f"{way.name}: cost", cost, currency, amount(cost, currency)))
    each = way.cost_per_gb
    if each is not None:
        unit = f"{currency}/GB"
        text = f"{amount(each, currency)}/GB"
        figures.append(Figure(f"{way.key}_cost_per_gb_gained", f"{way.name}: for each GB gained", each, unit, text))
    if way.fits:
        figures.append(figure(f"{way.key}_paired_gb", f"{way.name}: in pairs", way.paired_gb, "GB"))
    return figures


def _working(way: Way, given: Values, currency: str) -> list[Working]:
    sizes = " + ".join(str(s.size_gb) for s in way.sticks)
    lines = [Working(f"{way.name}: capacity", "sum of the sticks", sizes, f"{way.total_gb} GB")]
    if way.key == "replace":
        put = f"{amount(given['replace_price'], currency)} − {amount(given['resale'], currency)}"
        lines.append(Working(f"{way.name}: cost", "price − resale", put, amount(way.cost, currency)))
    each = way.cost_per_gb
    if each is not None:
        put = f"{amount(way.cost, currency)} ÷ {way.gained_gb} GB"
        lines.append(Working(f"{way.name}: for each GB gained", "cost ÷ gain", put, f"{amount(each, currency)}/GB"))
    return lines


_SHORT = {"add": "adding a kit", "same": "the same kit again", "replace": "one new kit"}


def _headline(ways: tuple[Way, ...], currency: str, slots: int) -> str:
    """The cheapest way for what it gains, and the gravest thing to know beside it; the table has the rest."""
    short_of_slots = [_SHORT[way.key] for way in ways if not way.fits]
    misfit = f"{listed(short_of_slots)} {'does' if len(short_of_slots) == 1 else 'do'} not fit {slots} slots"
    priced = [(way.cost_per_gb, way.key) for way in ways if way.cost_per_gb is not None]
    if not priced:
        text = f"{misfit}; none of them gains memory that fits" if short_of_slots else "no way gains any memory"
    else:
        least = min(priced)[0]
        cheapest = [_SHORT[key] for each, key in priced if each == least]
        each_gb = f"for each gigabyte gained, at {amount(least, currency)}"
        if len(cheapest) == len(ways):
            text = f"all three ways cost the same {each_gb}"
        elif len(cheapest) == 1:
            text = f"{cheapest[0]} is cheapest {each_gb}"
        else:  # two names leave little room in a headline
            text = f"{listed(cheapest)} cost least, {amount(least, currency)} for each gigabyte gained"
        if len(short_of_slots) == 2:
            text += f"; the other two ways do not fit {slots} slots"
        elif short_of_slots:
            text += f"; {misfit}"
        elif cheapest == ["one new kit"]:
            text += ", and tested as a whole"
        else:
            text += "; only a new kit is tested as a whole"
    return f"{text[:1].upper()}{text[1:]}."


def _table(ways: tuple[Way, ...], have: Kit, slots: int, currency: str) -> Table:
    now = have.count * have.size
    rows = []
    for way in ways:
        each = way.cost_per_gb
        none = f"no gain over {now} GB" if way.fits else "—"
        rows.append(
            (
                way.name,
                f"{way.total_gb} GB",
                f"{way.paired_gb} GB" if way.fits else "—",
                amount(way.cost, currency),
                f"{amount(each, currency)}/GB" if each is not None else none,
                way.setting if way.fits else f"does not fit {slots} slots",
            )
        )
    return Table(
        "Three ways to more memory",
        (
            Column("Way"),
            Column("Capacity", numeric=True),
            Column("In pairs", numeric=True),
            Column("Cost", numeric=True),
            Column("For each GB gained", numeric=True),
            Column("Setting by hand"),
        ),
        tuple(rows),
        note=f"You have {now} GB now. The cost of replacing is less what the old kit brings. Prices "
        "are as typed; those of the examples are invented.",
    )


def _drawings(ways: tuple[Way, ...], have: Kit, currency: str) -> tuple[Drawing, ...]:
    now = have.count * have.size
    rows = [Bar("What you have", now, f"{now} GB", mark=True)]
    rows += [Bar(w.name, w.total_gb, f"{w.total_gb} GB, {amount(w.cost, currency)}") for w in ways if w.fits]
    description = "; ".join(f"{row.label} {row.text}" for row in rows)
    drawings = [bars("Capacity of each way", f"Bars: {description}.", rows, caption="A longer bar holds more.")]
    priced = [(w.name, w.cost_per_gb) for w in ways if w.cost_per_gb is not None and w.cost_per_gb >= 0]
    if priced:
        costs = [Bar(name, each, f"{amount(each, currency)}/GB") for name, each in priced]
        description = "; ".join(f"{row.label} {row.text}" for row in costs)
        drawings.append(
            bars(
                "Cost of each gigabyte gained",
                f"Bars: {description}.",
                costs,
                caption="A shorter bar is the better buy.",
            )
        )
    return tuple(drawings)


def _notes(have: Kit, ways: tuple[Way, ...]) -> tuple[Note, ...]:
    names = {
        "module": next(o.label for o in MODULES if o.value == have.module),
        "form": next(o.label for o in FORMS if o.value == have.form),
        "ecc": next(o.label for o in ECC if o.value == have.ecc),
    }
    ecc = {"yes": "with error correction", "no": "without error correction"}.get(
        names["ecc"], "with error correction or without, as yours"
    )
    notes = [
        Note(
            "What to look for if you add",
            f"{rate_label(have.generation, have.rate)}, {write_timings(have.timings)} at {number(have.volts, 4)} V, "
            f"{names['module']}, {names['form']}, {ecc}. The nearer the new kit is to that, the less there is to set.",
        ),
        Note(
            "Why the same kit again is not the same",
            "A name on a box stands for speed and timings, not for the chips inside. The same kit, bought a year "
            "later, can hold other chips, and nobody has tested the two boxes together.",
        ),
    ]
    if any(w.gained_gb <= 0 for w in ways):
        notes.append(
            Note(
                "Nothing gained",
                "Where a way gives no more memory than there is now, a cost for each gigabyte gained has no meaning, "
                "and none is shown. A faster kit of the same size can still be worth its price, for other reasons.",
            )
        )
    if any(not w.fits for w in ways):
        notes.append(
            Note(
                "What does not fit",
                "A way with more sticks than slots is shown with its capacity and cost only. Taking some of the old "
                "sticks out makes another mix; ask about it with the sticks that stay.",
            )
        )
    return tuple(notes)


def _odd_sizes(have: Kit, given: Values) -> tuple[Note, ...]:
    """Sizes that no stick of the generation has, so that nobody hunts for them."""
    made = sizes_made(have.generation, have.module)
    odd = sorted({given[key] for key in ("have_size", "add_size", "replace_size")} - set(made))
    if not odd:
        return ()
    name = have.generation.upper()
    return (
        Note(
            f"No {name} stick has {listed([str(size) for size in odd], 'or')} GB",
            f"{name} sticks are made of chips that add up to {listed([str(size) for size in made], 'or')} GB. Read the "
            "offer or the sticker once more: it may be a stick of another generation, or a whole kit's size.",
        ),
    )


def worked_for(given: Values) -> str:
    """The kit at hand and the two that compete, in one phrase."""
    have = kit_of(given, "have")
    return (
        f"{have.brief()}: {given['add_count']} × {given['add_size']} GB more, the same again, or "
        f"{given['replace_count']} × {given['replace_size']} GB instead, {given['slots']} slots"
    )


def _price(key: str, label: str, group: str, default: float, where: str, names: tuple[str, ...]) -> Amount:
    return Amount(
        key=key, label=label, group=group, low=0, high=10_000_000, default=default, places=2, also=AMOUNT_SIGNS,
        names=("price", "cost", *names), where=where,
    )  # fmt: skip


def _count(key: str, group: str) -> Number:
    return Number(
        key=key, label="Sticks", group=group, low=1, high=4, default=2, whole=True,
        names=("stick", "module", "modules", "pieces", "kit of"),
        where="On the offer: the 2 in '2 × 16 GB'.",
    )  # fmt: skip


def _size(key: str, group: str, default: int) -> Number:
    return Number(
        key=key, label="Size of one stick", group=group, low=1, high=512, unit="GB", default=default, whole=True,
        also={"GiB": 1, "G": 1}, follows=size_follows("have_generation"), printed=size_on_label,
        against=wrong_count(key.replace("size", "count"), "Size of one stick"),
        names=("gb", "gigabyte", "gigabytes", "gig", "capacity"),
        where="On the offer: the 16 in '2 × 16 GB'.",
    )  # fmt: skip


_ADD, _SAME, _REPLACE = "Add a kit", "The same kit again", "Replace all with one kit"

calculator = Calculator(
    name="memory.ways",
    title="Add a kit, buy the same again, or replace everything?",
    summary="Three ways to more memory: capacity, pairs, cost for each gigabyte gained, and setting by hand.",
    inputs=(
        *kit_inputs("have", "The kit you have", 8),
        _count("add_count", _ADD),
        _size("add_size", _ADD, 16),
        _price("add_price", "Price of the kit to add", _ADD, 70, "On the offer, for the whole kit with delivery.",
               ("second kit", "further kit", "kit to add", "adding", "add a kit", "add another")),
        _price("same_price", "Price of the same kit", _SAME, 45, "On the offer, for the whole kit with delivery.",
               ("same kit", "same again", "same ones", "same pair", "another of the same")),
        _count("replace_count", _REPLACE),
        _size("replace_size", _REPLACE, 32),
        _price("replace_price", "Price of the new kit", _REPLACE, 130, "On the offer, for the whole kit.",
               ("replace", "new kit", "all new", "and get", "then get", "and buy", "then buy")),
        _price("resale", "What the old kit brings", _REPLACE, 20, "What such kits sell for used; 0 if you keep it.",
               ("sell", "selling", "sold", "resale", "would get", "would bring")),
        Text(
            key="currency", label="Currency", group="Prices", default="€", example="€", longest=40,
            shape="a currency sign or code of at most eight characters, without digits", parse=read_currency,
            names=("money",),
            where="Whatever stands on the offers. Nothing is converted, so use one currency for all.",
        ),
        *slot_inputs(),
    ),
    compute=compute,
    version=2,
    worked_for=worked_for,
    presets=(
        Preset("three-ways", "2 × 8 GB, three ways",
               {"have_count": 2, "have_size": 8, "add_count": 2, "add_size": 16, "add_price": 70, "same_price": 45,
                "replace_count": 2, "replace_size": 32, "replace_price": 130, "resale": 20}),
        Preset("two-slots", "Two slots, both full",
               {"have_count": 2, "have_size": 8, "slots": 2, "replace_count": 2, "replace_size": 16,
                "replace_price": 65, "resale": 20}),
        Preset("one-stick", "One stick of 16 GB",
               {"have_count": 1, "have_size": 16, "add_count": 1, "add_size": 16, "add_price": 35,
                "same_price": 38, "replace_count": 2, "replace_size": 16, "replace_price": 65, "resale": 15}),
    ),
)  # fmt: skip
