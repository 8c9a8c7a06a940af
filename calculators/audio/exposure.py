"""audio.exposure: how long may one listen at a level, by the limit for work and the allowances for leisure?"""

from __future__ import annotations

from dataclasses import dataclass, replace

from calculators.audio.hearing.exposure_limits import (
    ADULT_WEEK,
    CEILING_DBA,
    CHILD_WEEK,
    WORK_DAY,
    Criterion,
    allowed_hours,
    dose_percent,
    duration,
    is_long_enough_to_tell,
    level_for,
    roughly,
    too_loud,
)
from calculators.desk.answer import (
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
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Axis, Bar, Limit, Line, Spot, bars, plot
from calculators.desk.errors import InputErrors, Problem
from calculators.desk.inputs import HOW_TO_TELL, Input, NamedValue, Number, Values
from calculators.desk.numbers import listed, number, settled, significant, with_unit
from calculators.desk.svg import Drawing

CAUTIONS = (
    Caution(
        "hearing",
        "Hearing that noise has taken does not come back. Ringing or hissing in the ears, a dull or full feeling after "
        "listening, sounds that hurt, or speech that has become hard to follow are signs to stop and to have your "
        "hearing tested.",
        "See a hearing specialist; sudden loss of hearing is an emergency, so see a doctor the same day.",
        first=True,
        short="Hearing that is lost does not come back.",
    ),
    Caution(
        "hearing",
        "The limit for work is a limit with some risk left: about one worker in twelve still loses hearing over a "
        "working life at 85 dBA. It is not an allowance for music on top of a noisy day; all loud hours count "
        "together.",
        "Local rules for work may be stricter.",
    ),
)

SOURCES = (
    Source(
        "NIOSH 98-126, Criteria for a Recommended Standard: Occupational Noise Exposure, 1998",
        "section 1.1 and table 1-1; excess risk 8 % in table 1-2 of its summary",
        FROM_MEMORY,
    ),
    Source("29 CFR 1910.95, Occupational noise exposure", "table G-16, whose last level is 115 dBA"),
    Source("NIOSH, revised criteria for occupational noise, draft of 1996", "115 dBA as the ceiling limit"),
    Source("ITU-T H.870, Guidelines for safe listening devices", "80 dBA or 75 dBA for 40 h a week", FROM_MEMORY),
    Source("ITU-T H.871, summary", "1.6 Pa²h a week corresponds to 80 dBA for 40 h"),
    Source("ISO 11904-1 and -2", "levels at the ear and in a manikin against free or diffuse field", FROM_MEMORY),
)

_TABLE_LEVELS = (75, 80, 85, 88, 91, 94, 97, 100, 105)
_FURTHER = (2, 3, 4, 5, 6)  # numbers of the further levels of a mixed week
_WEEK_H, _DAYS = 168, 7
_MANY_PERCENT = 1000.0  # beyond this a percentage is told as 'more than ten times'


@dataclass(frozen=True, slots=True)
class _Stretch:
    """Hours of a week at one level."""

    level: float
    hours: float

    def share(self, criterion: Criterion) -> float:
        """Part of a limit that these hours use. [%]"""
        return dose_percent(self.hours, allowed_hours(self.level, criterion))


def compute(given: Values) -> Answer:
    """The hours allowed, and what the viewer's own hours use up."""
    level, hours_day, days = given["level"], given["hours_day"], given["days_week"]
    further = _further(given)
    week = [_Stretch(level, hours_day * days), *further]
    adult, child = (sum(s.share(criterion) for s in week) for criterion in (ADULT_WEEK, CHILD_WEEK))
    own_day = dose_percent(hours_day, allowed_hours(level, WORK_DAY))
    most, least = _loudest_day(own_day, days, further)
    loudest = max([level, *(s.level for s in further)])
    deafening = too_loud(loudest)
    loudest_heard = max((s.level for s in week if s.hours > 0), default=0.0)
    figures = (
        *(_hours(key, label, allowed_hours(level, limit), level, bool(further)) for key, label, limit in _TIMES),
        figure(
            "dose_percent",
            "Your loudest day by the limit for work" if further else "Your day's dose by the limit for work",
            most,
            "%",
            1,
            main=True,
        ),
        figure("week_hours", "Your hours a week", sum(s.hours for s in week), "h", 2),
        figure("week_percent_adult", "Your week by the allowance for adults", adult, "%", 1, main=bool(further)),
        figure("week_percent_child", "Your week by the allowance for children", child, "%", 1, main=bool(further)),
    )
    if deafening:  # no time, and no share of one: what can be counted would sound like what may be used
        figures = tuple(replace(each, main=False, only_json=True) for each in figures)
    return Answer(
        headline=_headline(level, loudest, adult, child, mixed=bool(further)),
        verdict=_too_loud() if deafening else _verdict(most, least, adult, child, week, loudest_heard),
        figures=figures,
        working=() if deafening else (*_working(level, hours_day), *_sums(week, adult, child)),
        tables=() if deafening else (_table(),),
        drawings=_drawings(given, week, deafening),
        notes=_notes(level, further, deafening),
        cautions=CAUTIONS,
        sources=SOURCES,
    )


_TIMES = (
    ("allowed_hours_week_adult", "Adults, a week", ADULT_WEEK),
    ("allowed_hours_week_child", "Children, a week", CHILD_WEEK),
    ("allowed_hours_day", "Limit for work, a day", WORK_DAY),
)


def _further(given: Values) -> list[_Stretch]:
    """The further levels of a mixed week, each with its hours; refused where one lacks the other."""
    problems, stretches = [], []
    total = given["hours_day"] * given["days_week"]
    for n in _FURTHER:
        level, hours = given.get(f"level_{n}"), given.get(f"hours_week_{n}")
        if level is None:
            if hours is not None:
                problems.append(Problem(f"level_{n}", f"Say how loud these {number(hours)} hours are, such as 95 dBA."))
        elif hours is None:
            problems.append(
                Problem(f"hours_week_{n}", f"Say how many hours a week you have {number(level, 1)} dBA, such as 3.")
            )
        else:
            total += hours
            if round(total, 6) > _WEEK_H:
                problems.append(
                    Problem(
                        f"hours_week_{n}",
                        f"With these the week has {number(total)} hours; there are only {_WEEK_H}. Give fewer.",
                    )
                )
            if hours > 0:
                stretches.append(_Stretch(level, hours))
    if problems:
        raise InputErrors(problems)
    return stretches


def _loudest_day(own_day: float, days: float, further: list[_Stretch]) -> tuple[float, float]:
    """
    The highest and the lowest dose that the loudest day may have. [%]

    Highest: the hours of each further level fall on one day, and on one without the daily listening as long as the
    week has such days. Lowest: they are spread evenly over the week.
    """
    if further and not days:
        own_day = 0.0  # the daily listening never happens
    at_once = sorted((_Stretch(s.level, min(s.hours, 24.0)).share(WORK_DAY) for s in further), reverse=True)
    free = int(_DAYS - days)
    together = own_day + at_once[free] if len(at_once) > free else own_day
    spread = sum(s.share(WORK_DAY) for s in further) / _DAYS
    least = own_day + spread if days == _DAYS else max(own_day, spread)
    return max([together, *at_once[:free]]), least


def _level(level: float) -> str:
    """A level to a tenth, as exact as meters are; but one just below the ceiling never reads as the ceiling."""
    text = number(level, 1)
    below = not too_loud(level) and round(level, 1) >= CEILING_DBA
    return f"just under {text}" if below else text


def _headline(level: float, loudest: float, adult: float, child: float, mixed: bool) -> str:
    if too_loud(loudest):
        return (
            f"{_level(loudest)} dBA is too loud for any length of time: turn down; at a concert, never stay "
            "without hearing protection."
        )
    if mixed:
        if round(adult, 6) > _MANY_PERCENT:
            return "Together your week comes to more than ten times the allowance for adults: turn down."
        return (
            f"Together your week comes to {number(adult, 0)} % of the allowance for adults and {number(child, 0)} % "
            "of the one for children."
        )
    at = f"At {_level(level)} dBA on average"
    weeks = [(who, allowed_hours(level, criterion)) for who, criterion in _WHO]
    if all(hours >= _WEEK_H for _, hours in weeks):
        return f"{at} neither the weekly allowances nor the limit for work run out."
    if not any(is_long_enough_to_tell(hours) for _, hours in weeks):
        return f"{at} the weekly allowances are used up at once: turn down."
    (_, adults), (_, children) = weeks
    first = "does not run out for adults" if adults >= _WEEK_H else f"lasts {roughly(adults)} for adults"
    then = f"{roughly(children)} for children" if is_long_enough_to_tell(children) else "is gone at once for children"
    return f"{at} the weekly allowance {first} and {'lasts ' if adults >= _WEEK_H else ''}{then}."


_WHO = (("adults", ADULT_WEEK), ("children", CHILD_WEEK))


def _hours(key: str, label: str, hours: float, level: float, mixed: bool) -> Figure:
    """Hours as a number, and in hours and minutes; in the JSON alone where a reader would be misled by a time."""
    hidden = too_loud(level) or not is_long_enough_to_tell(hours)
    if mixed:
        label = f"At the first level alone: {label[:1].lower()}{label[1:]}"
    return Figure(key, label, settled(hours), "h", roughly(hours), not (mixed or hidden), hidden)


def _too_loud() -> Verdict:
    return Verdict(
        NO, f"From {number(CEILING_DBA)} dBA no time is safe to name; lost hearing does not come back.", "Too loud."
    )


def _verdict(
    most: float, least: float, adult: float, child: float, week: list[_Stretch], loudest_heard: float
) -> Verdict:
    """
    By the shares of the week and of its loudest day.

    Where an allowance is too short to be told, as is 'gone at once', even moments are no yes: loudest_heard is the
    loudest level of which there are any hours. [dBA]
    """
    mixed = len(week) > 1
    at = f"At {_level(loudest_heard)} dBA"
    if round(adult, 6) > 100:
        reason = f"Your week is {number(adult, 0)} % of the adults' allowance; 3 dB less doubles the time."
        if mixed:
            worst = max(week, key=lambda s: s.share(ADULT_WEEK))
            reason = f"Mostly from {number(worst.hours)} h at {number(worst.level, 1)} dBA; 3 dB less doubles the time."
        elif round(adult, 6) > _MANY_PERCENT:
            reason = "Your week is more than ten times the adults' allowance: turn down."
        return Verdict(NO, reason, "Too much.")
    if round(least, 6) > 100:
        day = "Your loudest day" if mixed else "Each day"
        return Verdict(NO, f"{day} is {number(least, 0)} % of the limit for work: turn down.", "Too much.")
    if not is_long_enough_to_tell(allowed_hours(loudest_heard, ADULT_WEEK)):
        return Verdict(NO, f"{at} the weekly allowances are used up at once: turn down.", "Too loud.")
    if round(most, 6) > 100:
        return Verdict(
            DEPENDS,
            f"Spread the loud hours: all on one day come to {number(most, 0)} % of work's limit.",
            "Not all on one day.",
        )
    if round(child, 6) > 100:
        return Verdict(
            DEPENDS,
            f"{number(adult, 0)} % of the adults' allowance, but too much for children and sensitive ears.",
            "For adults only.",
        )
    if not is_long_enough_to_tell(allowed_hours(loudest_heard, CHILD_WEEK)):
        return Verdict(DEPENDS, f"{at} the children's weekly allowance is gone at once: turn down.", "For adults only.")
    return Verdict(YES, f"Your week comes to {number(child, 0)} % of the children's allowance.", "Within all limits.")


def _working(level: float, hours_day: float) -> tuple[Working, ...]:
    """How long the level of the day lasts; a time too short to be said has no line."""
    at = number(level, 1)
    day = allowed_hours(level, WORK_DAY)
    lines = []
    if is_long_enough_to_tell(day):
        lines = [
            Working("Limit for work", "8 h ÷ 2^((level − 85) ÷ 3)", f"8 h ÷ 2^(({at} − 85) ÷ 3)", duration(day)),
            Working(
                "Your day's dose",
                "hours ÷ allowed hours",
                f"{number(hours_day)} h ÷ {significant(day, 4)} h",
                f"{number(dose_percent(hours_day, day), 1)} %",
            ),
        ]
    for who, criterion in _WHO:
        hours, most = allowed_hours(level, criterion), number(criterion.level_dba)
        if is_long_enough_to_tell(hours):
            lines.append(
                Working(
                    f"{who.capitalize()}, a week",
                    f"40 h ÷ 2^((level − {most}) ÷ 3)",
                    f"40 h ÷ 2^(({at} − {most}) ÷ 3)",
                    duration(hours),
                )
            )
    return tuple(lines)


def _sums(week: list[_Stretch], adult: float, child: float) -> tuple[Working, ...]:
    """How the shares of a mixed week add up."""
    if len(week) < 2:
        return ()
    return tuple(
        Working(
            f"Your week, {who}",
            "the sum of hours ÷ allowed hours",
            " + ".join(f"{number(s.share(criterion), 1)} %" for s in week),
            f"{number(total, 1)} %",
        )
        for (who, criterion), total in zip(_WHO, (adult, child), strict=True)
    )


def _cell(hours: float) -> str:
    """A time for a cell of a table: on a narrow screen it may break between hours and minutes, nowhere else."""
    if not is_long_enough_to_tell(hours):
        return "none"
    words = duration(hours).split(" ")
    return " ".join(f"{a}\u00a0{b}" for a, b in zip(words[::2], words[1::2], strict=True))


def _table() -> Table:
    rows = tuple(
        (
            f"{level} dBA",
            *(_cell(allowed_hours(level, criterion)) for criterion in (WORK_DAY, ADULT_WEEK, CHILD_WEEK)),
        )
        for level in _TABLE_LEVELS
    )
    rows += ((f"{number(CEILING_DBA)} dBA and more", "none", "none", "none"),)
    return Table(
        "How long each level lasts",
        (
            Column("Average level"),
            Column("Work, a day", numeric=True),
            Column("Adults, a week", numeric=True),
            Column("Children, a week", numeric=True),
        ),
        rows,
        "Hours of the formula: a day has no more than 24 and a week no more than 168.",
    )


def _drawings(given: Values, week: list[_Stretch], deafening: bool) -> tuple[Drawing, ...]:
    """A curve for one level, bars for a mixed week; nothing where no time is told."""
    if deafening:
        return ()
    if len(week) == 1:
        return (_drawing(given["level"], given["hours_day"], given["days_week"]),)
    rows = [
        Bar(
            f"{with_unit(number(s.hours), 'h')} at {number(s.level, 1)} dBA",
            s.share(ADULT_WEEK),
            f"{number(s.share(ADULT_WEEK), 0)} %",
        )
        for s in week
    ]
    return (
        bars(
            "What fills your week",
            "; ".join(f"{row.label}: {row.text} of the adults' allowance" for row in rows) + ".",
            rows,
            caption="part of the weekly allowance for adults",
            limits=[Limit(100, "all of it")],
        ),
    )


def _drawing(level: float, hours_day: float, days: float) -> Drawing:
    """The highest level for so many hours a day, and where the viewer stands."""
    top, low = CEILING_DBA, min(65.0, level - 5)
    hours = [0.02, 0.05, 0.1, 0.2, 0.35, 0.5, 0.75, *(h / 2 for h in range(2, 33))]
    lines = [Line("limit for work, a day", _curve(hours, WORK_DAY, 1, low, top), "fill-1", width=2.5)]
    if days > 0:
        often = f"{number(days)} {'day' if days == 1 else 'days'} a week"
        lines += [
            Line(f"adults, {often}", _curve(hours, ADULT_WEEK, days, low, top), "fill-3", "7 4", 2.5),
            Line(f"children, {often}", _curve(hours, CHILD_WEEK, days, low, top), "fill-2", "2 3", 2.5),
        ]
    description = (
        "Three falling curves: the more hours a day, the lower the level must be. Your "
        f"{number(hours_day)} hours at {number(level, 1)} dBA are marked."
    )
    spots = [Spot(min(hours_day, 16.0), level, "yours")]
    return plot(
        "The highest average level for your hours",
        description,
        Axis("hours a day", 0, 16, (0, 4, 8, 12, 16)),
        Axis("average level, dBA", low, top),
        lines,
        spots=spots,
        height=270,
    )


def _curve(hours: list[float], criterion: Criterion, days: float, low: float, top: float) -> list[tuple[float, float]]:
    """The level over hours a day, inside the picture."""
    points = [(h, level_for(h * days, criterion)) for h in hours]
    return [(h, level) for h, level in points if low <= level <= top] or [(0, top), (0.01, top)]


def _notes(level: float, further: list[_Stretch], deafening: bool) -> tuple[Note, ...]:
    notes = [
        Note(
            "Where the level should come from",
            "The limits speak of A-weighted levels in the open sound field, averaged over the time. A level measured "
            "at the ear, in a coupler or a manikin's ear canal, is higher than that by several decibels, since the "
            "ear itself amplifies around 3 kHz; ISO 11904 gives the corrections. A telephone's microphone held to an "
            "ear cup is a rough guess at best, good to 5 or 10 dB.",
        ),
        Note(
            "Three decibels",
            "Three decibels more are twice the energy and half the time, though they hardly sound louder. Ten decibels "
            "more are heard as about twice as loud and leave a tenth of the time.",
        ),
    ]
    if deafening:
        notes.insert(
            0,
            Note(
                "Why no time is given",
                "The formula gives less than a minute here, and soon no more than moments. Nobody can keep to that, "
                "and a meter's error of three decibels would double or halve it. The law's table for workplaces in "
                f"the United States ends at {number(CEILING_DBA)} dBA.",
            ),
        )
        return tuple(notes)
    notes.append(
        Note(
            "One printed figure that does not fit",
            "NIOSH's table prints 18 min 59 s for 99 dBA; its own formula gives "
            f"{duration(allowed_hours(99, WORK_DAY))}. We follow the formula.",
        )
    )
    if further:
        notes.insert(
            0,
            Note(
                "How the loudest day is found",
                "The limit for work counts each day for itself. The hours at a further level are taken as those of one "
                "day, a day without your daily listening as long as the week has one. Spread over several days they "
                "weigh less on each; the week stays the same.",
            ),
        )
    day, adult, child = (allowed_hours(level, c) for c in (WORK_DAY, ADULT_WEEK, CHILD_WEEK))
    if day > 24 or adult > _WEEK_H or child > _WEEK_H:
        notes.insert(
            0,
            Note(
                "More hours than there are",
                "These are the formula's hours, not capped: a day has 24 and a week 168. Where the formula gives more, "
                "the level alone does not use the allowance up.",
            ),
        )
    return tuple(notes)


def _worked_for(given: Values) -> str:
    daily = (
        f"{number(given['hours_day'])} h a day at {number(given['level'], 1)} dBA, {number(given['days_week'])} "
        f"{'day' if given['days_week'] == 1 else 'days'} a week"
    )
    more = [f"{number(s.hours)} h at {number(s.level, 1)} dBA" for s in _further(given)]
    if len(more) == 1:
        return f"{daily}, and {more[0].replace(' h at', ' h a week at')}"
    return f"{daily}, and in the week {listed(more)}" if more else daily


_ALSO_DBA = {"dB": 1, "dB(A)": 1, "dBSPL": 1}
_ALSO_HOURS = {"hours": 1, "hour": 1, "min": 1 / 60, "minutes": 1 / 60}


def _further_inputs() -> tuple[Input, ...]:
    """The optional further levels of a mixed week."""
    pairs: list[Input] = []
    for n in _FURTHER:
        group = f"Another level in the week ({n})"
        pairs += [
            Number(
                key=f"level_{n}",
                label="Level",
                where_title=HOW_TO_TELL,
                where="What else is loud in your week: a concert, a workshop, the train, the gym. Leave it empty if "
                "there is nothing.",
                group=group,
                extra=True,
                optional=True,
                low=0,
                high=140,
                unit="dBA",
                also=_ALSO_DBA,
            ),
            Number(
                key=f"hours_week_{n}",
                label="Hours a week",
                where_title=HOW_TO_TELL,
                where="Your own count: all the hours of a week at this level, together.",
                group=group,
                extra=True,
                optional=True,
                low=0,
                high=_WEEK_H,
                unit="h",
                also=_ALSO_HOURS,
            ),
        ]
    return tuple(pairs)


calculator = Calculator(
    name="audio.exposure",
    title="How long may I listen this loud?",
    summary="Hours until the limit for work and the weekly allowances for adults and children are used up.",
    version=3,
    inputs=(
        Number(
            key="level",
            label="Average level",
            where=(
                "A sound level meter, or a telephone that shows the level of its own headphones in dB. The buttons "
                "are for a feeling only."
            ),
            names=("db", "dba", "decibels", "decibel", "volume", "loudness", "loud", "average"),
            low=0,
            high=140,
            unit="dBA",
            default=85,
            also=_ALSO_DBA,
            named=(
                NamedValue(60, "talk at a table", ("talk", "conversation")),
                NamedValue(80, "a busy street", ("street", "traffic")),
                NamedValue(100, "a loud concert", ("concert", "gig", "club", "festival")),
            ),
        ),
        Number(
            key="hours_day",
            label="Hours a day",
            where_title=HOW_TO_TELL,
            where="Your own count, on a day when you listen. Telephones and players often show it.",
            names=("hours", "a day", "per day", "daily", "every day"),
            low=0,
            high=24,
            unit="h",
            default=2,
            also=_ALSO_HOURS,
        ),
        Number(
            key="days_week",
            label="Days a week",
            where_title=HOW_TO_TELL,
            where="Your own count.",
            names=("days", "a week", "per week", "weekly"),
            low=0,
            high=_DAYS,
            unit="days",
            default=5,
            also={
                "day": 1,
                "a week": 1,
                "times a week": 1,
                "times per week": 1,
                "evenings a week": 1,
                "nights a week": 1,
            },
        ),
        *_further_inputs(),
    ),
    compute=compute,
    worked_for=_worked_for,
    presets=(
        Preset("calm", "Two hours a day, calm", {"level": 70, "hours_day": 2, "days_week": 7}),
        Preset("workday", "Eight hours at the work limit", {"level": 85, "hours_day": 8, "days_week": 5}),
        Preset("loud", "An hour a day, loud", {"level": 95, "hours_day": 1, "days_week": 7}),
        Preset("concert", "One evening at 100 dBA", {"level": 100, "hours_day": 3, "days_week": 1}),
        Preset(
            "mixed",
            "Calm days and one concert",
            {"level": 70, "hours_day": 2, "days_week": 6, "level_2": 98, "hours_week_2": 2},
        ),
        Preset("too-loud", "Beside the loudspeakers, 115 dBA", {"level": 115, "hours_day": 1, "days_week": 1}),
    ),
)
