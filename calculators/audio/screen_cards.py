"""What the calculators of audio show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from calculators.audio.connections.connection_picture import connection, end_of
from calculators.audio.hearing.exposure_limits import CEILING_DBA, WORK_DAY
from calculators.audio.statistics.binomial import choices
from calculators.desk.answer import DEPENDS, Answer
from calculators.desk.card_declared import Card, Figures, ScreenDrawing, own_drawing
from calculators.desk.inputs import Values
from calculators.desk.numbers import listed, number, plural, span
from calculators.desk.screen_drawings import (
    Pin,
    Row,
    Zone,
    screen_bars,
    screen_columns,
    screen_scale,
)

# What each is about, in a line of a side panel.
TOPICS = {
    "level": "Loud enough?",
    "noise": "Will it hiss?",
    "exposure": "How long so loud?",
    "plugs": "Which adapter?",
    "tones": "Is left left?",
    "blind": "Did I hear it?",
}


_SCALE_DB = (40.0, 140.0)


def level(given: Values, answer: Answer) -> Card:
    """The level reached on a scale of levels, beside the one wanted."""
    figures = Figures(answer)
    ends, head = figures.ends("max_spl_db"), figures.ends("headroom_db")
    if ends is None or head is None:
        return Card(line="Find the numbers you are not sure of.")
    low, high = ends
    wanted = high - head[1]
    exact = low == high
    digits = _agreeing(wanted, high, abs(head[1]))
    hero = f"about {number(high, digits)} dB" if exact else span(low, high, "dB", 0)
    if head[1] < 0:
        line = f"about {number(-head[1], digits)} dB short of the loudest peaks"
    elif head[0] < 0:
        line = "whether it is enough, your numbers decide"
    elif exact:
        line = f"at full volume, {number(head[0], digits)} dB beyond your peaks"
    else:
        line = f"at full volume, {number(head[0], 0)} dB beyond your peaks"
    spans = [Zone(_SCALE_DB[0], low, "", "fill-1", step=1)]
    if not exact:
        spans.append(Zone(low, high, f"{span(low, high, 'dB', 0)}, by usual numbers", "fill-3", step=1))
    pins = [Pin(wanted, f"you want {number(wanted, digits)} dB", step=0)]
    pins.append(Pin(high, f"they reach {number(high, digits if exact else 0)} dB", True, step=1))
    enough = answer.verdict is not None and answer.verdict.word == DEPENDS and head[1] < 0
    verdict = "The numbers decide" if not exact else "Not for every peak" if enough else ""
    scale = screen_scale(*_SCALE_DB, zones=spans, pins=pins, unit="dB")
    question = "Are these headphones too quiet, or too loud?"
    return Card(hero=hero, line=line, verdict=verdict, drawing=scale, question=question)


def _agreeing(one: float, other: float, apart: float) -> int:
    """With how many digits two values and how far they are apart agree on the screen: 0, or else 1."""
    return 0 if abs(abs(round(one) - round(other)) - round(apart)) < 0.5 and round(apart) else 1


def noise(given: Values, answer: Answer) -> Card:
    """The hiss against what is left of the room."""
    figures = Figures(answer)
    ends, room = figures.ends("noise_spl_db"), figures.number("room_left_db")
    if ends is None or room is None:
        return Card()
    low, high = ends
    # as many digits as tell hiss and room apart
    digits = 1 if low == high and number(high, 0) == number(room, 0) and number(high, 1) != number(room, 1) else 0
    hero = f"about {number(high, digits)} dBA" if low == high else span(low, high, "dBA", 0)
    above = high - room
    if low != high:
        line = "at the ear, by usual numbers"
    elif above > 0:
        line = f"at the ear, {number(above, 1)} dB above your room"
    else:
        line = f"at the ear, {number(-above, 1)} dB below your room"
    other = figures.number("other_noise_spl_db")
    rows = [low, high, room, *([] if other is None else [other])]
    least, most = min(-10.0, *rows), max(60.0, *rows)
    pins = [Pin(room, f"your room: {number(room, digits)} dBA")]
    if low == high:
        pins.append(Pin(high, f"this hiss: {number(high, digits)} dBA", True))
    if other is not None:
        pins.append(Pin(other, f"other output: {number(other, 0)} dBA"))
    zones = [Zone(least, room, "", "fill-2")]
    if low != high:
        zones.append(Zone(low, high, f"this hiss: {hero}", "mark"))
    return Card(
        hero=hero, line=line, verdict="The numbers decide" if low != high else "",
        drawing=screen_scale(least, most, zones=zones, pins=pins, unit="dBA"),
    )  # fmt: skip


def exposure(given: Values, answer: Answer) -> Card:
    """The hours of a week against what the allowances hold, to scale."""
    figures = Figures(answer)
    hours = figures.numbers("allowed_hours_week_adult", "allowed_hours_week_child", "week_hours")
    shares = figures.numbers("week_percent_adult", "week_percent_child")
    if not hours:
        return Card(hero="turn it down", line="too loud for any time", drawing=_too_loud(given), drawn_hero=True)
    if len(given_levels(given)) > 1 and shares:
        rows = [
            Row("your week, for adults", shares[0], f"{number(shares[0], 0)} %", True),
            Row("your week, for children", shares[1], f"{number(shares[1], 0)} %", True),
            Row("the allowance", 100.0, "100 %"),
        ]
        line = "all your levels together, for adults"
        if answer.verdict and answer.verdict.word == DEPENDS:
            line = "for adults, if the week is spread"
        return Card(hero=f"{number(shares[0], 0)} % used", line=line, drawing=screen_bars(rows))
    adult, child, week = hours
    full = max(min(max(adult, child), _WEEK_H), week)
    adults, children = (
        figures.text(f"allowed_hours_week_{who}") if most < _WEEK_H else "all week"
        for who, most in (("adult", adult), ("child", child))
    )
    # the viewer's own hours are there first; what they are held against is the answer
    rows = [
        Row("your week", week, figures.text("week_hours"), True, step=0),
        Row("adults' allowance", min(adult, full), adults, step=1),
        Row("children's", min(child, full), children, step=1),
    ]
    level = f"{number(float(given['level']), 0)} dBA"
    line = f"a week for adults at {level}"
    if adult >= _WEEK_H:
        line = f"for adults at {level}; children {children}"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = f"for adults; children {children}" if answer.verdict.said() == "For adults only." else _SPREAD
    return Card(hero=f"at most {adults}" if adult < _WEEK_H else adults, line=line, drawing=screen_bars(rows))


_WEEK_H = 168.0
_SPREAD = "a week for adults, if it is spread"


def _too_loud(given: Values) -> ScreenDrawing:
    """The loudest level on a scale with the level at which time begins to be counted."""
    loudest = max(float(given[key]) for key in given_levels(given))
    pins = [Pin(WORK_DAY.level_dba, f"limit for a working day: {number(WORK_DAY.level_dba, 0)} dBA")]
    pins.append(Pin(loudest, f"yours: {number(loudest, 1)} dBA", True))
    return screen_scale(
        *_SCALE_DB, zones=[Zone(CEILING_DBA, _SCALE_DB[1], "no time is named", "no")], pins=pins, unit="dBA"
    )


def given_levels(given: Values) -> list[str]:
    """The levels that a week is made of, by their inputs' keys."""
    return [
        key for key in ("level", "level_2", "level_3", "level_4", "level_5", "level_6") if given.get(key) is not None
    ]


def plugs(given: Values, answer: Answer) -> Card:
    """The plug, the adapter between, and what it is to go into, cut open, with their poles."""
    figures = Figures(answer)
    count = figures.number("adapters")
    works = [name for name in ("left", "right", "microphone") if figures.text(name) == "yes"]
    safe = answer.verdict is None or answer.verdict.word != "no"
    thing = "lead" if figures.label("adapters") == "Leads" else "adapter"
    hero = "do not connect"
    if count is not None and safe:
        hero = plural(int(count), thing) if count else f"no {thing}"
    line = f"{listed(works)} {'work' if len(works) > 1 else 'works'}"
    if not works or not safe:
        line = ""
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if you read on the page how"
    opening = answer.verdict.said() if answer.verdict else ""
    verdict = "With the right lead" if "right lead" in opening else ""
    pieces = int(count or 0)
    between = hero if pieces and safe else ""
    return Card(
        hero=hero, line=line, verdict=verdict, drawn_hero=True,
        drawing=connection(end_of(given["plug"]), end_of(given["socket"]), between, pieces, safe),
    )  # fmt: skip


_TONES = {
    "left": ("left only", "what you should hear"),
    "right": ("right only", "what you should hear"),
    "both": ("in the middle", "where the sound should sit"),
    "reversed": ("in no place", "where the sound should sit"),
    "sweep": ("one smooth climb", "what you should hear"),
    "staircase": ("six even steps", "what you should hear"),
}


_ASKED = {"both": "Both sides alike: where is it?", "reversed": "One side reversed: where is it?"}


def tones(given: Values, answer: Answer) -> Card:
    """What each side gets, as waves."""
    hero, line = _TONES[given["kind"]]
    return Card(
        hero=hero, line=line, drawing=own_drawing(answer), drawn_hero=True, question=_ASKED.get(given["kind"], "")
    )


_MOST_COLUMNS = 60


def _luck(trials: int, right: int) -> tuple[list[float], int]:
    """How often each score comes by luck, several to a column where there are many; and the first column from right."""
    each = -(-(trials + 1) // _MOST_COLUMNS)
    first = right % each - each if right % each else 0  # so that a column begins at right
    whole = 1 << trials
    shares = [ways / whole for ways in choices(trials)]
    columns = [sum(shares[max(k, 0) : k + each]) for k in range(first, trials + 1, each)]
    return columns, (right - first) // each


def blind(given: Values, answer: Answer) -> Card:
    """How often each score comes by luck, this one and better marked."""
    figures = Figures(answer)
    chance, right, trials = figures.number("chance_percent"), int(given["right"]), int(given["trials"])
    if chance is None:
        return Card()
    if chance >= 0.1:
        hero = f"about {number(chance, 1 if chance < 10 else 0)} in 100"
    else:
        hero = "below 1 in 1000"
    needed = figures.number("needed")
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = f"{number(needed, 0)} of {trials} would settle it" if needed else "more trials would settle it"
    else:
        line = (
            f"get {right} or more of {trials} by luck" if right < trials else f"get {right} of {trials} by luck alone"
        )
    heights, bound = _luck(trials, right)
    drawn = screen_columns(
        heights,
        marked=lambda column: column >= bound,
        ends=("0 right", f"{trials} right"),
        label=f"{right} or more: {hero.removeprefix('about ')}",
    )
    return Card(hero=hero, line=line, drawing=drawn)
