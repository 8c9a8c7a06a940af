"""What the calculators of memory show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from calculators.desk.answer import DEPENDS, Answer
from calculators.desk.card_declared import Card, Figures, Over, ScreenDrawing, own_drawing
from calculators.desk.inputs import Values
from calculators.desk.numbers import number, significant, span
from calculators.desk.screen_drawings import Pin, Row, Zone, round_end, screen_bars, screen_scale
from calculators.memory.timings.data_rates import clocks_ns

# What each is about, in a line of a side panel.
TOPICS = {
    "rate": "How long a wait?",
    "mix": "Will they mix?",
    "ways": "What to buy?",
    "check": "How long a test?",
    "need": "Enough memory?",
}


def rate(given: Values, answer: Answer) -> Card:
    """The wait for the first data beside two common kits, and how it is worked out."""
    figures = Figures(answer)
    values = figures.numbers("latency_ns", "clock_mhz")
    if not values:
        return Card()
    latency, clock = values
    cas = number(float(given["cas"]), 0)
    own = f"yours: {figures.text('rate_label')}, CAS {cas}"
    common = [(f"{name}-{speed}, CAS {clocks}", clocks_ns(clocks, speed)) for name, speed, clocks in _COMMON]
    others = [(label, value) for label, value in common if own != f"yours: {label}"]
    rows = [Row(own, latency, f"{number(latency, 1)} ns", True)]
    rows += [Row(label, value, f"{number(value, 1)} ns") for label, value in others]
    same = all(row.text == rows[0].text for row in rows)
    return Card(
        hero=f"{'the same: ' if same else ''}{number(latency, 1)} ns", line="from asking to the first data",
        drawing=screen_bars(rows),
        working=(Over(f"{cas} clocks", f"{significant(clock, 4)} MHz"), "=", f"{number(latency, 1)} ns"),
    )  # fmt: skip


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


_WAYS = (("add", "Add a kit"), ("same", "The same again"), ("replace", "One new kit"))


def ways(given: Values, answer: Answer) -> Card:
    """What a gigabyte more costs by each way that fits."""
    figures = Figures(answer)
    by_way = [
        (label, figures.number(f"{key}_cost_per_gb_gained"), figures.text(f"{key}_cost_per_gb_gained"))
        for key, label in _WAYS
    ]
    priced = [(label, value, text) for label, value, text in by_way if value is not None]
    if not priced:
        return Card(line="none of the ways fits these slots")
    best = min(priced, key=lambda way: way[1])
    line = "cheapest a gigabyte, not tested as one"
    if best[0] == "One new kit":
        line = "cheapest a gigabyte, and tested as one"
    if len(priced) == 1:
        line = "the one way with a price"
    rows = [Row(label, value, text.replace("/GB", " a GB"), label == best[0]) for label, value, text in priced]
    drawing = screen_bars(rows) if best[1] > 0 and len(rows) > 1 else _grown(given, answer, best[0])
    return Card(hero=best[0], line=line, verdict="", drawing=drawing)


def _grown(given: Values, answer: Answer, way: str) -> ScreenDrawing | None:
    """How much there is now and how much by the one way, named as the hero names it."""
    key = next(key for key, label in _WAYS if label == way)
    total = Figures(answer).number(f"{key}_total_gb")
    have = int(given["have_count"]) * float(given["have_size"])
    if total is None or have <= 0:
        return own_drawing(answer)
    return screen_bars(
        [Row("you have", have, f"{number(have, 0)} GB"), Row(way, total, f"{number(total, 0)} GB", True)]
    )


def check(given: Values, answer: Answer) -> Card:
    """The hours to plan, on a day's scale."""
    figures = Figures(answer)
    values = figures.numbers("hours_low", "hours_high")
    if not values:
        return Card()
    low, high = values
    digits = 1 if high < 10 else 0  # as the hero says it
    least, most = (f"{number(v, digits)} h" if v >= 1 else f"{number(v * 60, 0)} min" for v in (low, high))
    if high < 1:
        hero = f"{number(low * 60, 0)} to {number(high * 60, 0)} minutes"
    elif low < 1:
        hero = f"{number(low * 60, 0)} min to {number(high, 1)} h"
    else:
        hero = span(low, high, "hours", 1 if high < 10 else 0)
    full = next((hours for hours in (4.0, 12.0, 24.0, 48.0, 168.0, 720.0) if high <= hours), high)
    passes = int(given["passes"])
    drawing = screen_scale(
        0,
        full,
        zones=[Zone(low, high, "", "mark")],
        pins=[Pin(low, f"at least {least}", step=1), Pin(high, f"at most {most}", step=1)],
        unit="h",
    )
    return Card(hero=hero, line="plan this long; one error is a fail" if passes else "plan this long", drawing=drawing)


def need(given: Values, answer: Answer) -> Card:
    """What runs at once, against what is there."""
    figures = Figures(answer)
    values = figures.numbers("low_gb", "high_gb")
    if not values:
        return Card()
    low, high = values
    have = given.get("have_gb")
    full = max(high, float(have or 0), figures.number("suggested_gb") or 0)
    pins = [Pin(float(have), f"you have {number(float(have), 0)} GB")] if have is not None else []
    suggested = figures.number("suggested_gb")
    if suggested is not None and suggested != have:
        pins.append(Pin(suggested, f"{number(suggested, 0)} GB is enough"))
    hero = f"about {number(low, 0)} to {number(high, 0)} GB"
    line = "is what you run at once"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "enough on light days, tight on heavy ones"
    zones = [Zone(0, low, "", "fill-1"), Zone(low, high, f"you run {number(low, 0)} to {number(high, 0)} GB", "fill-3")]
    return Card(hero=hero, line=line, drawing=screen_scale(0, round_end(full), zones=zones, pins=pins, unit="GB"))
