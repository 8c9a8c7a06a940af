"""What the calculators of memory show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

import math
from dataclasses import replace

from calculators.desk.answer import DEPENDS, NO, YES, Answer
from calculators.desk.card_declared import (
    LONGEST_HERO,
    MOST_LINE,
    Card,
    Equation,
    Figures,
    Over,
    ScreenDrawing,
    first_drawn,
    own_drawing,
    words,
)
from calculators.desk.inputs import Values
from calculators.desk.numbers import number, plural, span
from calculators.desk.screen_drawings.bars import screen_bars
from calculators.desk.screen_drawings.marks import Pin, Row, Zone, narrow_or
from calculators.desk.screen_drawings.scale import round_end, screen_scale
from calculators.memory.timings.data_rates import clocks_ns

# What each is about, in a line of a side panel.
TOPICS = {
    "rate": "How long a wait?",
    "mix": "Will they mix?",
    "ways": "What costs least?",
    "check": "How long a test?",
    "need": "Enough memory?",
}


def rate(given: Values, answer: Answer) -> Card:
    """The wait for the first data beside two common kits, who moves more meanwhile, and how it is worked out."""
    figures = Figures(answer)
    values = figures.numbers("latency_ns")
    if not values:
        return Card()
    latency, own_rate, clocks = values[0], int(given["rate"]), int(given["cas"])
    own = f"yours: {figures.text('rate_label')}, CAS {clocks}"
    common = [(f"{name}-{speed}", speed, others) for name, speed, others in _COMMON]
    common = [kit for kit in common if own != f"yours: {kit[0]}, CAS {kit[2]}"]
    rows = [Row(own, latency, f"{number(latency, 1)} ns", True)]
    for label, speed, cas in common:
        wait = clocks_ns(cas, speed)
        rows.append(Row(f"{label}, CAS {cas}", wait, f"{number(wait, 1)} ns"))
    same = all(row.text == rows[0].text for row in rows)
    wait_text = f"{number(latency, 1)} ns"
    hero, line = wait_text, "from asking to the first data"
    working: Equation = (_clocks_over(clocks, own_rate),)
    drawing = screen_bars(rows)
    if same:  # the wait is not all: a viewer would take the faster kit for no faster
        hero = f"{'both' if len(rows) == 2 else 'all'} {wait_text}"
        fastest, most = max(((label, speed) for label, speed, _ in common), key=lambda kit: kit[1])
        faster = ""
        if most > own_rate:
            faster = f"{fastest}, {number(most / own_rate, 1)}× the data"
            line = f"same wait; {fastest} moves {number(most / own_rate, 1)} times the data"
        elif len(rows) == 2 and most < own_rate:
            faster = f"yours, {number(own_rate / most, 1)}× the data"
            line = f"same wait; yours moves {number(own_rate / most, 1)} times the data"
        if len(rows) == 2:
            working = (*working, "=", _clocks_over(common[0][2], common[0][1]))
        if faster:  # a side panel, which has no room for the line, says it at the bar
            who = faster.partition(",")[0]
            drawing = narrow_or(
                screen_bars([replace(row, label=faster) if row.label.startswith(who) else row for row in rows]), drawing
            )
    return Card(
        hero=hero, line=line, drawing=drawing, working=(*working, "=", wait_text),
        question="How long does memory take to answer?",
    )  # fmt: skip


def _clocks_over(clocks: int, rate: int) -> Over:
    """A wait in clocks over the clock, written so that the rate on the label is seen in it: two transfers a clock."""
    return Over(plural(clocks, "clock"), f"{rate} ÷ 2 MHz")


# Two kits that many know. Common practice, no source.
_COMMON = (("DDR4", 3200, 16), ("DDR5", 6000, 30))


def mix(given: Values, answer: Answer) -> Card:
    """Which stick goes where."""
    figures = Figures(answer)
    total, paired = figures.number("total_gb"), figures.number("paired_gb")
    if total is None or paired is None:
        return Card(
            verdict="They do not go together", drawing=own_drawing(answer), question="Can these sticks run together?"
        )
    line = "all in pairs" if paired == total else f"{number(paired, 0)} GB in pairs"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if the board takes them and tests pass"
    elif answer.verdict:
        line = f"{line}; test before you trust it"
    return Card(
        hero=f"{number(total, 0)} GB together", line=line, drawing=own_drawing(answer), drawn_hero=True,
        question="Can these sticks run together?",
    )  # fmt: skip


# By key: on a bar, in the hero, and whether a maker tested all of it together.
_WAYS = {
    "add": ("add a kit", "add a kit", False),
    "same": ("the same again", "same again", False),
    "replace": ("one new kit", "a new kit", True),
}


def ways(given: Values, answer: Answer) -> Card:
    """What a gigabyte more costs by each way that fits, and which of them was tested as one."""
    figures = Figures(answer)
    priced = [(key, value) for key in _WAYS if (value := figures.number(f"{key}_cost_per_gb_gained")) is not None]
    if not priced:
        return Card(line="none of the ways fits these slots")
    best, least = min(priced, key=lambda way: way[1])
    label, short, tested = _WAYS[best]
    only = len(priced) == 1
    more = figures.number(f"{best}_total_gb") or 0.0
    more -= int(given["have_count"]) * float(given["have_size"])
    for_what = f"+{number(more, 0)} GB for {figures.text(f'{best}_cost')}"
    if only:
        line = f"the one way priced, {'and' if tested else 'not'} tested as one"
    elif tested:
        line = f"{for_what}, tested as one"
    else:  # it opens the hero: the price alone would read as advice
        line = f"{for_what}, if they run together"
        line = line if words(line) <= MOST_LINE else "nobody has tested old and new together"
    rows = [
        Row(f"{_WAYS[key][0]}, {'tested' if _WAYS[key][2] else 'untested'}", value,
            figures.text(f"{key}_cost_per_gb_gained").replace("/GB", " a GB"), key == best)
        for key, value in priced
    ]  # fmt: skip
    drawing = screen_bars(rows) if least > 0 and not only else _grown(given, answer, best)
    return Card(
        hero=label if only else f"cheapest: {short}",
        line=line,
        drawing=drawing,
        drawn_hero=True,  # its shortest bar, with whether it was tested
    )


def _grown(given: Values, answer: Answer, way: str) -> ScreenDrawing | None:
    """How much there is now and how much by the one way, named as on its bar."""
    total = Figures(answer).number(f"{way}_total_gb")
    have = int(given["have_count"]) * float(given["have_size"])
    if total is None or have <= 0:
        return own_drawing(answer)
    return screen_bars(
        [Row("you have", have, f"{number(have, 0)} GB"), Row(_WAYS[way][0], total, f"{number(total, 0)} GB", True)]
    )


def check(given: Values, answer: Answer) -> Card:
    """The hours to plan, on a day's scale."""
    figures = Figures(answer)
    values = figures.numbers("hours_low", "hours_high")
    if not values:
        return Card()
    low, high = values
    digits = 1 if high < 10 else 0
    least, most = (f"{number(v, digits)} h" if v >= 1 else f"{number(v * 60, 0)} min" for v in (low, high))
    if high < 1:
        hero = f"{number(low * 60, 0)} to {number(high * 60, 0)} minutes"
    elif low < 1:
        hero = f"{number(low * 60, 0)} min to {number(high, 1)} h"
    else:
        hero = span(low, high, "hours", digits)
        whole = round(low), round(high)
        if digits and whole[0] < whole[1]:  # as one plans an evening; the drawing has the tenths
            hero = f"about {whole[0]} to {whole[1]} h"
    full = next((hours for hours in (4.0, 12.0, 24.0, 48.0, 168.0, 720.0) if high <= hours), high)
    passes, size = plural(int(given["passes"]), "pass", "passes"), f"{float(given['total_gb']):g}"
    fails = "one error fails"
    line = f"{passes} over {size} GB; {fails}"
    alone = f"{hero} for {line}", f"{hero}; {fails}"  # a side panel has room for the drawing alone
    zones = [Zone(low, high, "", "mark")]
    pins = [Pin(low, f"at least {least}", step=1), Pin(high, f"at most {most}", step=1)]
    return Card(
        hero=hero,
        line=line,
        drawing=narrow_or(
            first_drawn(*(screen_scale(0, full, zones=[Zone(low, high, said, "mark")], unit="h") for said in alone)),
            screen_scale(0, full, zones=zones, pins=pins, unit="h"),
        ),
        question="How long must a memory test run?",
    )


def need(given: Values, answer: Answer) -> Card:
    """The size that is enough, on a scale with what runs at once and what is there."""
    figures = Figures(answer)
    values = figures.numbers("low_gb", "high_gb")
    if not values:
        return Card()
    low, high = values
    least, most = math.floor(round(low, 6)), math.ceil(round(high, 6))  # outwards, as the page says it
    have, suggested, roomy = given.get("have_gb"), figures.number("suggested_gb"), figures.number("roomy_gb")
    full = max(high, float(have or 0), suggested or 0)
    pins = alone = [Pin(float(have), f"you have {number(float(have), 2)} GB", step=0)] if have is not None else []
    word = answer.verdict.word if answer.verdict else ""
    line = f"you run {least} to {most} GB at once"
    if word == YES:
        hero = f"{number(float(have or 0), 2)} GB is enough"
    elif suggested is None:
        hero, line = f"about {least} to {most} GB", "run at once; desktop boards hold less"
        hero = hero if len(hero) <= LONGEST_HERO else hero.removeprefix("about ")
    else:
        just = suggested < high * 1.1 and roomy is not None
        hero = f"{number(suggested, 0)} GB{', just' if just else ' is'} enough"
        if word == NO and not just:  # beside the verdict the same would read as what is there
            hero = f"take {number(suggested, 0)} GB"
        enough = Pin(suggested, f"{number(suggested, 0)} GB", mark=True)
        pins, alone = (
            [*pins, enough],
            [*pins, replace(enough, label=f"{enough.label}{', just' if just else ' is'} enough")],
        )
    if word == DEPENDS:
        line, pins = "yours does on light days, not heavy ones", alone  # its hero stands where its condition has room
    step = int(all(pin.step == 0 for pin in pins))  # what runs comes with the answer, where nothing else does
    zones = [
        Zone(0, low, f"at least {least} GB", "fill-1", step=step, to_end=True),
        Zone(low, high, f"up to {most} GB", "fill-3", step=step, to_end=True),
    ]
    all_in_one = [Zone(0, high, f"you run up to {most} GB", "fill-3", step=step, to_end=True)]

    def scale(run: list[Zone], named: list[Pin]) -> ScreenDrawing:
        return screen_scale(0, round_end(full), zones=run, pins=named, unit="GB")

    return Card(
        hero=hero, line=line,
        drawing=narrow_or(first_drawn(scale(zones, alone), scale(all_in_one, alone)), scale(zones, pins)),
        question="How much memory is enough?",
    )  # fmt: skip
