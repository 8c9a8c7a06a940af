"""work.gain: which part to buy first, from where a day's waits go and what two options would do for them."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import (
    COMMON_PRACTICE,
    DEPENDS,
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
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Bar, bars
from calculators.desk.errors import refuse
from calculators.desk.inputs import HOW_TO_CHOOSE, HOW_TO_TELL, Choice, Number, Option, Text, Values
from calculators.desk.numbers import listed, number, settled, significant
from calculators.desk.svg import Drawing
from calculators.trade.money import AMOUNT_SIGNS, Amount, amount, read_currency
from calculators.work.formulas.waits import day_min, days_to_pay, limit, saved_min
from calculators.work.wording.cautions import BACK_UP, POWER, STATIC
from calculators.work.wording.typed_inputs import Times

# The parts that money makes faster: (key, as it is named in a sentence, its label)
PARTS = (
    ("one_core", "one core", "One core"),
    ("all_cores", "all cores", "All cores"),
    ("card", "the card", "The card"),
    ("disk", "the disk", "The disk"),
)
_LITTLE_MIN = 1  # saved of a day, below which nothing is advised; common practice, no source
_MOST_TIMES = 1000  # a limit above it is said as 'over 1000 times': nine digits make no headline
_BEST = ("the fastest core", "endless cores", "the best card", "the best disk")  # in the same order
OPTIONS = ("a", "b")
_UNNAMED = ("your first option", "your second option")  # where its speeds do not say what an option is
DAY_LONGEST_MIN = 10_080
_DAY_MIN = 1440

SOURCES = (
    Source(
        "Amdahl's law, as textbooks and lecture notes of computer architecture give it",
        "the law and its worked examples",
    ),
    Source("That waits do not overlap, and that full memory looks like waiting for the disk", "", COMMON_PRACTICE),
    Source("That less than a minute of a day is worth no part", "", COMMON_PRACTICE),
)


@dataclass(frozen=True, slots=True)
class Way:
    """
    One option worked out. name: as it stands in a sentence; saved: below 0 where the day becomes longer; each: minutes
    saved for 100 of money.
    """

    key: str
    name: str
    minutes: float
    speedup: float
    saved: float
    price: float | None
    pays_days: float | None

    @property
    def title(self) -> str:
        """Its name at the beginning of a sentence."""
        return self.name[0].upper() + self.name[1:]

    @property
    def helps(self) -> bool:
        """Whether it saves anything that a clock would show."""
        return settled(self.saved) > 0

    @property
    def each(self) -> float | None:
        """Minutes saved for each 100 paid; None where nothing is saved or nothing is paid. [min]"""
        return 100 * self.saved / self.price if self.price and self.helps else None


@dataclass(frozen=True, slots=True)
class Day:
    """A day worked out: its waits part by part with the rest last, the limits of the parts, and the two options."""

    waits: tuple[float, ...]
    limits: tuple[float | None, ...]
    ways: tuple[Way, ...]

    @property
    def now(self) -> float:
        """All waits together. [min]"""
        return sum(self.waits)

    @property
    def largest(self) -> int | None:
        """The part with the most waiting, the first of equals; None where no part is waited for."""
        most = max(self.waits[: len(PARTS)])
        return self.waits.index(most) if most else None


def option_names(first: tuple[float, ...], second: tuple[float, ...]) -> tuple[str, str]:
    """
    What to call two options: by the one part that each makes faster, since a letter says nothing to who hears it.

    Args:
        first: How many times as fast the parts become with it, in the order of PARTS. [1]
        second: The same of the other option. [1]

    Returns:
        Two names as they stand in a sentence, never the same. [text]

    Source:
        Wording of this project.

    Example:
        >>> option_names((1, 1, 2, 1), (1.3, 1.8, 1, 1))
        ('the faster card', 'the faster processor')
    """
    one, other = _part_named(first), _part_named(second)
    if one == other:
        return _UNNAMED
    return one or _UNNAMED[0], other or _UNNAMED[1]


def _part_named(times: tuple[float, ...]) -> str:
    """The one part that becomes faster; empty where none does, more than one, or another becomes slower."""
    one_core, all_cores, card, disk = times
    processor = "the faster processor" if one_core > 1 else "the many-core processor"
    faster = [
        name
        for name, is_faster in (
            (processor, one_core > 1 or all_cores > 1),
            ("the faster card", card > 1),
            ("the faster disk", disk > 1),
        )
        if is_faster
    ]
    # More cores that are each slower are still what one buys such a processor for.
    slower = min(card, disk) < 1 or (one_core > 1 and all_cores < 1)
    return faster[0] if len(faster) == 1 and not slower else ""


def work_out(given: Values) -> Day:
    """Everything that the answer words."""
    waits = (*(given[f"{key}_min"] for key, _, _ in PARTS), given["other_min"])
    if not any(waits):
        raise refuse(
            "one_core_min",
            "All waits are 0, and a day without waiting needs no part: give the minutes of at least one of them.",
        )
    hour = given.get("hour_value")
    ways = []
    speeds = [tuple(given[f"{option}_{key}"] for key, _, _ in PARTS) for option in OPTIONS]
    for option, name, faster in zip(OPTIONS, option_names(*speeds), speeds, strict=True):
        times = (*faster, 1)
        minutes, saved, price = day_min(waits, times), saved_min(waits, times), given.get(f"{option}_price")
        pays = days_to_pay(price, saved, hour) if price and hour and settled(saved) > 0 else None
        ways.append(Way(option, name, minutes, sum(waits) / minutes, saved, price, pays))
    return Day(waits, tuple(limit(waits, place) for place in range(len(PARTS))), tuple(ways))


def compute(given: Values) -> Answer:
    """Two options against one day."""
    day, ranked = work_out(given), given["memory_fills"] != "yes"
    return Answer(
        headline=_headline(given, day),
        verdict=_verdict(given, day),
        figures=_figures(given, day),
        working=_working(given, day),
        tables=(_parts(day, ranked),),
        drawings=(_drawing(day, ranked),),
        notes=_notes(given, day),
        cautions=_cautions(given),
        sources=SOURCES,
    )


def _cautions(given: Values) -> tuple[Caution, ...]:
    """What belongs to the options: footage moves where a disk is bought, and a card asks for its supply first."""
    if not _options_given(given) and given["memory_fills"] != "yes":
        return ()  # nothing is advised yet, so that a warning would stand there as if it were the answer
    opening = (POWER, STATIC) if _buys(given, "card") else (STATIC, POWER)
    return (BACK_UP, *opening) if _buys(given, "disk") else opening


def _options_given(given: Values) -> bool:
    """Whether anything was said of either option: what it makes faster or slower, or what it costs."""
    changed = any(given[f"{option}_{key}"] != 1 for option in OPTIONS for key, _, _ in PARTS)
    return changed or any(given.get(f"{option}_price") is not None for option in OPTIONS)


def _buys(given: Values, part: str) -> bool:
    return any(given[f"{option}_{part}"] > 1 for option in OPTIONS)


def _minutes(value: float) -> str:
    return f"{significant(value, 3)} min"


def _times(value: float) -> str:
    """How many times, with so many digits that what does change something is not said to be once as fast."""
    return next((text for digits in range(3, 8) if (text := significant(value, digits)) != "1"), "1")


def _headline(given: Values, day: Day) -> str:
    if given["memory_fills"] == "yes":
        return "Memory fills up, so it comes first: until it no longer does, these waits cannot be ranked."
    place = day.largest
    if place is None:
        return "You wait for no part of these, so no part shortens this day."
    most, best = day.limits[place], _BEST[place]
    a, b = day.ways
    if most is None:
        limit_words, makes = f"{best[0].upper()}{best[1:]} could end every wait", "makes the day {} times as fast"
    else:
        limit_words, makes = f"Even {best} could only make the day {_times(most)} times as fast", "makes it {} times"
        if most > _MOST_TIMES:
            limit_words = f"{best[0].upper()}{best[1:]} could make the day over {_times(_MOST_TIMES)} times as fast"
    if not _options_given(given):
        return f"{limit_words}; now say what your two options make faster."
    still = [way for way in (a, b) if settled(way.saved) == 0]
    if len(still) == len(OPTIONS):
        return f"{limit_words}; neither of your two options changes it."
    if still:
        (changing,) = (way for way in (a, b) if way not in still)
        sentence = f"{limit_words}; {changing.name} {makes.format(_times(changing.speedup))}"
        # A second option of which nothing was told is none.
        return f"{sentence}, {still[0].name} changes nothing." if still[0].price is not None else f"{sentence}."
    return f"{limit_words}; {a.name} {makes.format(_times(a.speedup))}, {b.name} {_times(b.speedup)}."


def _verdict(given: Values, day: Day) -> Verdict:
    if given["memory_fills"] == "yes":
        return Verdict(NO, "Full memory looks like waiting for the disk: nothing else is ranked.", "Memory first.")
    if given["memory_fills"] == "unsure":
        return Verdict(
            DEPENDS, "First see whether memory fills up: that looks like waiting for the disk.", "That depends."
        )
    if not _options_given(given):
        return Verdict(DEPENDS, "No option is told yet: say what each would make faster.", "That depends.")
    helping = [way for way in day.ways if way.helps]
    if not helping:
        return Verdict(NO, "Neither option shortens this day.", "Neither.")
    if max(settled(way.saved) for way in helping) < _LITTLE_MIN:
        return Verdict(DEPENDS, "All that can be saved is less than a minute of the day.", "Hardly worth it.")
    if len(helping) == 1:
        (best,) = helping
        return Verdict(YES, f"Only {best.name} shortens this day: by {_minutes(best.saved)}.", _buy(best))
    best, other = sorted(helping, key=lambda way: -settled(way.saved))
    if settled(best.saved) == settled(other.saved):
        return _between_equals(best, other)
    if best.each is not None and other.each is not None and settled(other.each) > settled(best.each):
        return Verdict(DEPENDS, f"{best.title} saves more minutes, {other.name} more for its price.", "That depends.")
    return Verdict(
        YES, f"{best.title} saves {_minutes(best.saved)} of the day, {other.name} {_minutes(other.saved)}.", _buy(best)
    )  # fmt: skip


def _buy(way: Way) -> str:
    return f"Buy {way.name}." if way.name in _UNNAMED else f"{way.title} first."


def _between_equals(one: Way, other: Way) -> Verdict:
    """Two that save the same: the cheaper one, where both prices are known and differ."""
    if one.price is None or other.price is None or one.price == other.price:
        return Verdict(DEPENDS, "Both save the same: let the price decide.", "Either.")
    cheap = min(one, other, key=lambda way: way.price or 0)
    return Verdict(YES, f"Both save the same, and {cheap.name} costs less.", _buy(cheap))


def _figures(given: Values, day: Day) -> tuple[Figure, ...]:
    place, ranked = day.largest, given["memory_fills"] != "yes"
    rows = [figure("now_min", "The day's waits now", day.now, "min", 1, main=True)]
    for way in day.ways:
        rows.append(figure(f"{way.key}_min", f"With {way.name}", way.minutes, "min", 1, main=ranked))
    for i, (key, _, label) in enumerate(PARTS):
        most = day.limits[i]
        if most is not None:
            rows.append(
                figure(f"limit_{key}", f"{label}: at most", most, "times as fast", 2, main=ranked and i == place)
            )
    for way in day.ways:
        rows.append(figure(f"{way.key}_speedup", f"{way.title} makes the day", way.speedup, "times as fast", 2))
        rows.append(figure(f"{way.key}_saved_min", f"{way.title} saves", way.saved, "min", 1))
        if way.each is not None:
            unit = f"min for each 100 {given['currency']}"
            rows.append(figure(f"{way.key}_min_per_100", f"{way.title} saves for its price", way.each, unit, 3))
        if way.pays_days is not None:
            rows.append(
                figure(f"{way.key}_pays_days", f"{way.title} has paid for itself after", way.pays_days, "days", 0)
            )
    return tuple(rows)


def _working(given: Values, day: Day) -> tuple[Working, ...]:
    put = " + ".join(number(wait, 2) for wait in day.waits)
    lines = [Working("The day's waits", "one core + all cores + card + disk + rest", put, _minutes(day.now))]
    if (place := day.largest) is not None:
        most, wait = day.limits[place], number(day.waits[place], 2)
        now = number(day.now, 2)
        lines.append(Working(f"{PARTS[place][2]}: the most it can bring", "now ÷ (now − its wait)",
                             f"{now} ÷ ({now} − {wait})",
                             "no end" if most is None else f"{number(most, 3)} times as fast"))  # fmt: skip
    for way in day.ways:
        times = (*(given[f"{way.key}_{key}"] for key, _, _ in PARTS), 1)
        each = " + ".join(f"{number(w, 2)} ÷ {number(t, 2)}" for w, t in zip(day.waits, times, strict=True) if w)
        lines.append(Working(f"With {way.name}", "each wait ÷ times as fast", each, _minutes(way.minutes)))
        lines.append(Working(f"{way.title} saves", "now − then", f"{number(day.now, 2)} − {number(way.minutes, 2)}",
                             _minutes(way.saved)))  # fmt: skip
        if way.each is not None and way.price is not None:
            lines.append(Working(f"{way.title} for its price", "100 × saved ÷ price",
                                 f"100 × {number(way.saved, 2)} ÷ {amount(way.price, given['currency'])}",
                                 _minutes(way.each)))  # fmt: skip
    return tuple(lines)


def _parts(day: Day, ranked: bool) -> Table:
    rows = []
    for i, (_, _, label) in enumerate(PARTS):
        most = day.limits[i]
        most_text = "no end" if most is None else number(most, 2)
        rows.append((label, number(day.waits[i], 1), number(100 * day.waits[i] / day.now, 0), most_text))
    share = number(100 * day.waits[-1] / day.now, 0)
    rows.append(("Anything else", number(day.waits[-1], 1), share, "—"))
    place = day.largest
    return Table(
        title="What each part can bring at the very most",
        columns=(
            Column("You wait for"),
            Column("Minutes", True),
            Column("Share, %", True),
            Column("Times, at most", True),
        ),
        rows=tuple(rows),
        note="At most: if that part took no time at all, and all else stayed as it is.",
        marked=() if place is None or not ranked else (place,),
    )


def _drawing(day: Day, ranked: bool) -> Drawing:
    rows = [Bar("The day now", day.now, _minutes(day.now))]
    rows += [Bar(f"With {way.name}", way.minutes, _minutes(way.minutes), mark=ranked) for way in day.ways]
    if (place := day.largest) is not None:  # a bar and no line across, which would run through the others' words
        left = sum(wait for i, wait in enumerate(day.waits) if i != place)
        rows.append(Bar(f"If {PARTS[place][1]} took no time", left, _minutes(left), fill="fill-1"))
    description = "; ".join(f"{row.label} {row.text}" for row in rows)
    return bars("A day's waits", f"Bars: {description}.", rows, caption="Shorter is better.")


def _notes(given: Values, day: Day) -> tuple[Note, ...]:
    notes = [
        Note(
            "Use is not waiting",
            "A part that shows 100 % while you do something else costs you nothing, and a part at 30 % may be what you "
            "wait for. Rendering overnight is no waiting either, unless it is not done in the morning.",
        ),
        Note(
            "'Times as fast' is two scores of your own task",
            "Time the same project on both parts, or find somebody who has. A score of another program says little. "
            "One part may speed several rows: a new processor has its one core and all its cores.",
        ),
        Note(
            "The price is the whole price",
            "Count what must come along: a board, memory, a supply, a cooler. Take off what the old part still brings.",
        ),
        Note(
            "When a wait pays for itself",
            "Price ÷ (hours saved a day × what an hour is worth to you) is the number of such days. Give what an hour "
            "is worth, and it stands among the figures.",
        ),
    ]
    if given["memory_fills"] != "no":
        notes.insert(
            0,
            Note(
                "Full memory comes first",
                "When memory is full, the system moves parts of it to the disk and back. It looks like waiting for the "
                "disk, and a faster disk hides it only a little. Look at the busiest moment: nearly full, and the disk "
                "at work without pause.",
            ),
        )
    if settled(day.now) > _DAY_MIN:
        notes.insert(
            0,
            Note(
                "More than a day has",
                f"You told {number(day.now, 0)} min, and a day has {_DAY_MIN}: perhaps they are a week's. How many "
                "times as fast still holds; minutes saved, and the days until a part has paid for itself, do not.",
            ),
        )
    slower = [way.name for way in day.ways if settled(way.saved) < 0]
    if slower:
        notes.append(Note("Longer, not shorter", f"With {listed(slower)} the day takes longer than now."))
    return tuple(notes)


def _worked_for(given: Values) -> str:
    parts = [
        f"{number(given[f'{key}_min'], 1)} min for {name}" for key, name, _ in PARTS if given[f"{key}_min"]
    ]  # fmt: skip
    if given["other_min"]:
        parts.append(f"{number(given['other_min'], 1)} min for anything else")
    return f"a day with {listed(parts)}"


def _wait(key: str, label: str, default: float, where: str, names: tuple[str, ...] = ()) -> Number:
    return Number(
        key=f"{key}_min", label=label, group="A typical day: minutes you wait for", low=0, high=DAY_LONGEST_MIN,
        unit="min", default=default, where=where, where_title=HOW_TO_TELL, names=names,
        also={"minutes": 1, "minute": 1, "h": 60, "hours": 60, "hour": 60, "s": 1 / 60, "seconds": 1 / 60},
    )  # fmt: skip


def _option(key: str, group: str) -> tuple[Number, ...]:
    rows: list[Number] = []
    for part, name, label in PARTS:
        rows.append(
            Times(
                key=f"{key}_{part}", label=f"{label}, times as fast", group=group, low=0.1, high=100, unit="times",
                default=1, also={"x": 1, "times as fast": 1},
                where=f"Two scores of your own task, the new {name.removeprefix('the ')} ÷ what you have; 1 where it "
                "stays as it is.",
            )
        )  # fmt: skip
    rows.append(
        Amount(
            key=f"{key}_price", label="Price", group=group, low=0, high=1_000_000, optional=True, places=2,
            also=AMOUNT_SIGNS, where="The shop, with board, memory, supply and cooler where they must come along.",
        )
    )  # fmt: skip
    return tuple(rows)


calculator = Calculator(
    name="work.gain",
    version=4,
    title="Which part should I buy first?",
    summary="What two options save of a day's waiting, and the most that the best part could ever bring.",
    inputs=(
        _wait("one_core", "One core", 30,
              "The system's process list while you wait, cores shown one by one: one is full, the others rest. "
              "Windows: Task Manager, Performance; macOS: Activity Monitor, CPU history; Linux: top, then 1.",
              ("single core", "one core", "single thread", "modelling", "viewport")),
        _wait("all_cores", "All cores", 20,
              "The same list: all cores are full while you wait. Windows: Task Manager, Performance; macOS: Activity "
              "Monitor, CPU history; Linux: top, then 1.",
              ("multicore", "all cores", "cpu rendering", "rendering on the cpu", "render on the cpu", "render on cpu",
               "rendering on the processor")),
        _wait("card", "The card", 60,
              "The card's load is full while you wait, and the cores rest. Windows: Task Manager, Performance, GPU; "
              "macOS: Activity Monitor, GPU history; Linux: the card driver's own monitor.",
              ("gpu", "gpu rendering", "graphics card", "card rendering",
               "render on the gpu", "render on the card", "rendering on the card")),
        _wait("disk", "The disk", 10,
              "The disk is busy without pause and all else rests. Windows: Task Manager, Performance, Disk; macOS: "
              "Activity Monitor, Disk; Linux: iostat -x, the last column.",
              ("loading", "copying", "waiting on disk", "disk", "ssd", "hdd", "copies")),
        _wait("other", "Anything else", 0,
              "The network, a licence, another person: whatever no part of the machine shortens.", ("network",)),
        Choice(
            where_title=HOW_TO_TELL,
            key="memory_fills", label="Does memory fill up?", group="A typical day: minutes you wait for",
            default="unsure",
            options=(Option("yes", "yes"), Option("no", "no"), Option("unsure", "not sure")),
            where="At the busiest moment: memory nearly full while the disk works without pause. Windows: Task "
            "Manager, Performance, Memory; macOS: Activity Monitor, Memory, where the pressure turns yellow or red; "
            "Linux: top, the swap in use, growing while you wait.",
            names=("memory fills up", "memory is full", "out of memory", "memory runs out",
                "starts swapping", "starts to swap", "swap file grows"),
        ),
        *_option("a", "Your first option"),
        *_option("b", "Your second option"),
        Amount(
            where_title=HOW_TO_CHOOSE,
            key="hour_value", label="What an hour is worth to you", group="Money", low=0.01, high=1_000_000,
            optional=True, places=2, also=AMOUNT_SIGNS, extra=True,
            where="What you earn in an hour, or what you would pay for one.",
        ),
        Text(
            key="currency", label="Currency", group="Money", default="€", example="€", longest=40,
            shape="a currency sign or code of at most eight characters, without digits", parse=read_currency,
            where="As you write it after an amount; nothing is converted.", extra=True,
        ),
    ),
    compute=compute,
    worked_for=_worked_for,
    presets=(
        Preset("render-card", "Renders on the card: card or processor?",
               {"one_core_min": 20, "all_cores_min": 10, "card_min": 90, "disk_min": 5, "memory_fills": "no",
                "a_card": 2, "a_price": 900, "b_one_core": 1.3, "b_all_cores": 1.8, "b_price": 600}),
        Preset("cutting", "Cutting long takes: disk or processor?",
               {"one_core_min": 15, "all_cores_min": 45, "card_min": 10, "disk_min": 20, "memory_fills": "no",
                "a_disk": 4, "a_price": 150, "b_one_core": 1.3, "b_all_cores": 2, "b_price": 700}),
        Preset("modelling", "Modelling: faster cores or more cores?",
               {"one_core_min": 60, "all_cores_min": 15, "card_min": 10, "disk_min": 5, "memory_fills": "no",
                "a_one_core": 1.4, "a_all_cores": 1.2, "a_price": 500, "b_one_core": 1, "b_all_cores": 2,
                "b_price": 500}),
        Preset("full", "Memory is full at the busiest moment",
               {"one_core_min": 20, "all_cores_min": 10, "card_min": 20, "disk_min": 60, "memory_fills": "yes",
                "a_disk": 2, "a_price": 150}),
        Preset("unsure", "Not sure about memory",
               {"card_min": 60, "disk_min": 30, "a_card": 1.5, "a_price": 500, "b_disk": 3, "b_price": 120}),
    ),
)  # fmt: skip
