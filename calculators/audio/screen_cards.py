"""What the calculators of audio show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from dataclasses import replace
from math import ceil, floor

from calculators.audio.connections.connection_picture import connection, end_of
from calculators.audio.hearing.exposure_limits import CEILING_DBA, WORK_DAY
from calculators.audio.statistics.binomial import choices
from calculators.desk.answer import DEPENDS, YES, Answer
from calculators.desk.card_declared import Card, Figures, ScreenDrawing, own_drawing
from calculators.desk.inputs import Values
from calculators.desk.numbers import listed, number, plural, span
from calculators.desk.screen_drawings.bars import screen_bars
from calculators.desk.screen_drawings.ladders import screen_columns
from calculators.desk.screen_drawings.marks import Pin, Row, Zone, narrow_or
from calculators.desk.screen_drawings.scale import screen_scale

# What each is about, in a line of a side panel.
TOPICS = {
    "level": "Loud enough?",
    "noise": "Will it hiss?",
    "exposure": "How long so loud?",
    "plugs": "Which adapter?",
    "tones": "Is left left?",
    "blind": "Did I hear it?",
}


_SCALE_DB = (60.0, 140.0)


def _scale_db(*levels: float) -> tuple[float, float]:
    """A scale of levels whose ends, and every second number between them, are 40 dB apart or half of that."""
    low, high = _SCALE_DB
    return low - 40 * ceil(max(low - min(levels), 0) / 40), high + 40 * ceil(max(max(levels) - high, 0) / 40)


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
    ends = _scale_db(low, high, wanted)
    warned = answer.verdict is not None and answer.verdict.word != YES
    spans = [Zone(ends[0], low, "", "fill-1", step=1)]
    if not exact:
        spans.append(Zone(low, high, f"{span(low, high, 'dB', 0)}, by usual numbers", "fill-3", step=1))
    if warned and high > wanted:  # what is louder than asked for is the danger, and has its colour
        spans.append(Zone(wanted, high, "", "no", step=1))
    pins = [Pin(wanted, f"your loudest peaks: {number(wanted, digits)} dB", step=0)]
    pins.append(Pin(high, f"they reach {number(high, digits if exact else 0)} dB", True, step=1))
    verdict = _LEVEL_SAID.get(answer.verdict.said(), "") if answer.verdict else ""
    scale = screen_scale(*ends, zones=spans, pins=pins, unit="dB")
    question = "Are these headphones too quiet, or too loud?"
    return Card(hero=hero, line=line, verdict=verdict, drawing=scale, question=question)


# What a verdict of more than five words is on a card.
_LEVEL_SAID = {
    "Enough, but not for every peak.": "Not for every peak",
    "Enough, perhaps not for every peak.": "Perhaps not for every peak",
    "Too quiet or too loud: the numbers decide.": "Too quiet or too loud",
}


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
    exact = low == high
    hero = f"hiss about {number(high, digits)} dBA" if exact else f"hiss up to {number(high, 0)} dBA"
    above = high - room
    if not exact:
        line = f"your room {number(room, digits)} dBA; hiss by usual figures"
    elif above > 0:
        line = f"at the ear, {number(above, 1)} dB above your room"
    else:
        line = f"at the ear, {number(-above, 1)} dB below your room"
    other = figures.number("other_noise_spl_db")
    rows = [high, room, *([] if other is None else [other])]
    least, most = 10.0 * floor(min(0.0, *rows) / 10), 10.0 * ceil((max(19.0, *rows) + 1) / 10)
    pins = [Pin(room, f"your room: {number(room, digits)} dBA")]
    start = least if exact else max(low, least)
    hiss = f"this hiss: {span(low, high, 'dBA', 0)}" if low >= least else f"this hiss: at most {number(high, 0)} dBA"
    up_to = low < least  # only what it is at most is told, so the words lead to the end
    words = "" if exact or above > 0 else hiss
    zones = [Zone(start, min(high, room), words, "mark", to_end=up_to)] if start < room else []
    if above > 0:  # the part that can be heard is told apart from the one that the room hides
        zones.append(Zone(max(start, room), high, "" if exact else hiss, "fill-3", to_end=up_to))
    if exact:
        pins.append(Pin(high, f"this hiss: {number(high, digits)} dBA", True))
    if other is not None:
        pins.append(Pin(other, f"other output: {number(other, 0)} dBA"))
    open_ = answer.verdict is not None and answer.verdict.word == DEPENDS
    return Card(
        hero=hero, line=line, verdict="You may hear hiss" if open_ else "",
        drawing=screen_scale(least, most, zones=zones, pins=pins, unit="dBA"),
    )  # fmt: skip


def exposure(given: Values, answer: Answer) -> Card:
    """The hours of a week against what the allowances hold, to scale."""
    figures = Figures(answer)
    hours = figures.numbers("allowed_hours_week_adult", "allowed_hours_week_child", "week_hours")
    shares = figures.numbers("week_percent_adult", "week_percent_child")
    if not hours:
        return Card(hero="turn it down", line="too loud for any time", drawing=_too_loud(given), drawn_hero=True)
    said = answer.verdict.said() if answer.verdict else ""
    verdict = _TOO_LONG if said == "For adults only." else ""  # on a screen that reads as an age limit
    if len(given_levels(given)) > 1 and shares:
        rows = [
            Row("your week, for adults", shares[0], f"{number(shares[0], 0)} %", True),
            Row("your week, for children", shares[1], f"{number(shares[1], 0)} %", True),
            Row("the allowance", 100.0, "100 %"),
        ]
        line = "all your levels together, for adults"
        if answer.verdict and answer.verdict.word == DEPENDS:
            line = "for adults, if the week is spread"
        return Card(hero=f"{number(shares[0], 0)} % used", line=line, verdict=verdict, drawing=screen_bars(rows))
    adult, child, week = hours
    full = max(min(max(adult, child), _WEEK_H), week)
    adults, children = (
        figures.text(f"allowed_hours_week_{who}") if most < _WEEK_H else "all week"
        for who, most in (("adult", adult), ("child", child))
    )
    level = f"{number(float(given['level']), 1)} dBA"
    # the viewer's own hours are there first; what they are held against is the answer
    rows = [
        Row(f"your week at {level}", week, figures.text("week_hours"), True, step=0),
        Row("adults at most", min(adult, full), _a_week(adults), step=1),
        Row("children at most", min(child, full), _a_week(children), step=1),
    ]
    line = f"for adults at {level}"
    if adult < _WEEK_H:
        line = f"at most, for adults, at {level}"
    elif child < _WEEK_H:
        line = f"for adults at {level}; children {children}"
    if said == "Not all on one day.":
        line = f"for adults at {level}, if spread out"
    # in a panel the period has no room behind the bars, and stands in their names
    narrow = [
        rows[0],
        replace(rows[1], label="adults a week, at most", text=adults),
        replace(rows[2], label="children a week, at most", text=children),
    ]
    drawing = narrow_or(screen_bars(narrow), screen_bars(rows))
    hero = _a_week(adults)
    if verdict:  # whose the hours are stands with them: under a verdict about children they would be taken for theirs
        verdict, hero, line = (
            f"{figures.text('week_hours')}: adults only",
            f"adults: {adults}",
            f"a week at most, at {level}",
        )
    return Card(hero=hero, line=line, verdict=verdict, drawing=drawing)


_WEEK_H = 168.0
_TOO_LONG = "Too long for children"


def _a_week(hours: str) -> str:
    """An allowance with its period: without it hours are taken for those of a day."""
    return hours if hours == "all week" else f"{hours} a week"


def _too_loud(given: Values) -> ScreenDrawing:
    """The loudest level on a scale with the level at which time begins to be counted."""
    loudest = max(float(given[key]) for key in given_levels(given))
    pins = [Pin(WORK_DAY.level_dba, f"limit for a working day: {number(WORK_DAY.level_dba, 0)} dBA")]
    pins.append(Pin(loudest, f"yours: {number(loudest, 1)} dBA", True))
    ends = _scale_db(20.0, loudest)  # from a quiet room on
    return screen_scale(*ends, zones=[Zone(CEILING_DBA, ends[1], "no time is named", "no")], pins=pins, unit="dBA")


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
    pieces = int(count or 0)
    between = hero if pieces and safe else ""
    line = f"{listed(works)} {'work' if len(works) > 1 else 'works'}"
    if not works or not safe:
        line = ""
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if you read on the page how"
    plug, socket = end_of(given["plug"]), end_of(given["socket"])
    named = ""
    if between and pieces == 1 and plug.words[0] != socket.words[0]:
        one, other = (end.words[0].replace("2 × ", "2×") for end in (plug, socket))
        hero = f"{one.removesuffix(' mm') if other.endswith('mm') else one} to {other}"
        between, named = thing, f"{hero} {thing}"
        line = f"{thing}, {line}" if line.startswith("if") else f"{thing}: {line}" if line else thing
    opening = answer.verdict.said() if answer.verdict else ""
    verdict = "With the right lead" if "right lead" in opening else ""
    return Card(
        hero=hero, line=line, verdict=verdict, drawn_hero=True,
        drawing=connection(plug, socket, between, pieces, safe, named),
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
    if chance >= 1:
        near = abs(chance - 5) < 1 and number(chance, 0) == "5"  # on which side of the line at 5 it lies must show
        hero = f"about {number(chance, 1 if near else 0)} in 100"
    elif chance >= 0.1:
        hero = f"about {number(10 * chance, 0)} in 1000"
    else:
        hero = "below 1 in 1000"
    needed = figures.number("needed")
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = f"{number(needed, 0)} of {trials} would settle it" if needed else "more trials would settle it"
    else:
        line = f"guessers get {right}{' or more' if right < trials else ''} of {trials}"
    heights, bound = _luck(trials, right)
    drawn = screen_columns(
        heights,
        marked=lambda column: column >= bound,
        ends=("0 right", f"{trials}"),
        label=f"{right} or more: {hero.removeprefix('about ')}",
        title="what pure guessing gives",
        own=(bound, f"you: {right}"),
    )
    return Card(hero=hero, line=line, drawing=drawn, judged_last=True)
