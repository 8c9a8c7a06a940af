"""audio.exposure: how long may one listen at a level, by the limit for work and the allowances for leisure?"""

from __future__ import annotations

from calculators.audio.hearing.exposure_limits import (
    ADULT_WEEK,
    CHILD_WEEK,
    WORK_DAY,
    Criterion,
    allowed_hours,
    dose_percent,
    duration,
    level_for,
    roughly,
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
from calculators.desk.charts import Axis, Line, Spot, plot
from calculators.desk.inputs import Number, Values
from calculators.desk.numbers import number, settled, significant
from calculators.desk.svg import Drawing

CAUTIONS = (
    Caution(
        "hearing",
        "Hearing that noise has taken does not come back. Ringing or hissing in the ears, a dull or full feeling after "
        "listening, sounds that hurt, or speech that has become hard to follow are signs to stop and to have your "
        "hearing tested.",
        "See a hearing specialist; sudden loss of hearing is an emergency, so see a doctor the same day.",
        first=True,
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
    Source("ITU-T H.870, Guidelines for safe listening devices", "80 dBA or 75 dBA for 40 h a week", FROM_MEMORY),
    Source("ITU-T H.871, summary", "1.6 Pa²h a week corresponds to 80 dBA for 40 h"),
    Source("ISO 11904-1 and -2", "levels at the ear and in a manikin against free or diffuse field", FROM_MEMORY),
)

_TABLE_LEVELS = (75, 80, 85, 88, 91, 94, 97, 100, 105, 110)


def compute(given: Values) -> Answer:
    """The hours allowed, and what the viewer's own hours use up."""
    level, hours_day, days = given["level"], given["hours_day"], given["days_week"]
    day = allowed_hours(level, WORK_DAY)
    adult, child = allowed_hours(level, ADULT_WEEK), allowed_hours(level, CHILD_WEEK)
    week = hours_day * days
    dose = dose_percent(hours_day, day)
    adult_share, child_share = dose_percent(week, adult), dose_percent(week, child)
    figures = (
        _hours("allowed_hours_week_adult", "Adults, a week", adult),
        _hours("allowed_hours_week_child", "Children, a week", child),
        _hours("allowed_hours_day", "Limit for work, a day", day),
        figure("dose_percent", "Your day's dose by the limit for work", dose, "%", 1, main=True),
        figure("week_hours", "Your hours a week", week, "h", 2),
        figure("week_percent_adult", "Your week by the allowance for adults", adult_share, "%", 1),
        figure("week_percent_child", "Your week by the allowance for children", child_share, "%", 1),
    )
    at = f"{number(level, 1)} dBA"
    return Answer(
        headline=_headline(at, day, adult, child),
        verdict=_verdict(dose, adult_share, child_share),
        figures=figures,
        working=(
            Working(
                "Limit for work",
                "8 h ÷ 2^((level − 85) ÷ 3)",
                f"8 h ÷ 2^(({number(level, 1)} − 85) ÷ 3)",
                duration(day),
            ),
            Working(
                "Your day's dose",
                "hours ÷ allowed hours",
                f"{number(hours_day)} h ÷ {significant(day, 4)} h",
                f"{number(dose, 1)} %",
            ),
            Working(
                "Adults, a week",
                "40 h ÷ 2^((level − 80) ÷ 3)",
                f"40 h ÷ 2^(({number(level, 1)} − 80) ÷ 3)",
                duration(adult),
            ),
            Working(
                "Children, a week",
                "40 h ÷ 2^((level − 75) ÷ 3)",
                f"40 h ÷ 2^(({number(level, 1)} − 75) ÷ 3)",
                duration(child),
            ),
        ),
        tables=(_table(),),
        drawings=(_drawing(level, hours_day, days),),
        notes=_notes(day, adult, child),
        cautions=CAUTIONS,
        sources=SOURCES,
    )


def _headline(at: str, day: float, adult: float, child: float) -> str:
    if day >= 24 and adult >= 168 and child >= 168:
        return f"At an average of {at} neither the weekly allowances nor the limit for work run out."
    weeks = [
        f"the allowance for {who} {'does not run out' if hours >= 168 else 'is used up after ' + roughly(hours)}"
        for who, hours in (("adults", adult), ("children", child))
    ]
    work = "is not reached" if day >= 24 else f"is reached after {roughly(day)}"
    return f"At an average of {at}, {weeks[0]} in a week, {weeks[1]}, and the limit for work {work} in a day."


def _hours(key: str, label: str, hours: float) -> Figure:
    """Hours as a number, and in the words of a clock."""
    return Figure(key, label, settled(hours), "h", roughly(hours), True)


def _verdict(dose: float, adult: float, child: float) -> Verdict:
    if round(dose, 6) > 100 or round(adult, 6) > 100:
        over = []
        if round(adult, 6) > 100:
            over.append(f"the week comes to {number(adult, 0)} % of the allowance for adults")
        if round(dose, 6) > 100:
            over.append(f"each day to {number(dose, 0)} % of the limit for work")
        said = " and ".join(over)
        return Verdict(NO, f"{said[:1].upper()}{said[1:]}. Turn down; 3 dB less doubles the time.", "Too much.")
    if round(child, 6) > 100:
        return Verdict(
            DEPENDS,
            f"Your week comes to {number(adult, 0)} % of the allowance for adults, but is over the one for children "
            "and people with sensitive ears.",
            "For adults only.",
        )
    return Verdict(
        YES, f"The week comes to {number(child, 0)} % of the children's allowance.", "Within all three."
    )


def _cell(hours: float) -> str:
    """A time for a cell of a table: on a narrow screen it may break between hours and minutes, nowhere else."""
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


def _drawing(level: float, hours_day: float, days: float) -> Drawing:
    """The highest level for so many hours a day, and where the viewer stands."""
    top, low = 125.0, min(65.0, level - 5)
    top = max(top, level + 5)
    hours = [0.02, 0.05, 0.1, 0.2, 0.35, 0.5, 0.75, *(h / 2 for h in range(2, 33))]
    lines = [Line("limit for work, a day", _curve(hours, WORK_DAY, 1, low, top), "fill-1", width=2.5)]
    if days > 0:
        lines += [
            Line(
                f"adults, {number(days)} days a week", _curve(hours, ADULT_WEEK, days, low, top), "fill-3", "7 4", 2.5
            ),
            Line(
                f"children, {number(days)} days a week", _curve(hours, CHILD_WEEK, days, low, top), "fill-2", "2 3", 2.5
            ),
        ]
    said = (
        "Three falling curves: the more hours a day, the lower the level must be. Your "
        f"{number(hours_day)} hours at {number(level, 1)} dBA are marked."
    )
    spots = [Spot(min(hours_day, 16.0), level, "yours")]
    return plot(
        "The highest average level for your hours",
        said,
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


def _notes(day: float, adult: float, child: float) -> tuple[Note, ...]:
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
        Note(
            "One printed figure that does not fit",
            "NIOSH's table prints 18 min 59 s for 99 dBA; its own formula gives "
            f"{duration(allowed_hours(99, WORK_DAY))}. We follow the formula.",
        ),
    ]
    if day > 24 or adult > 168 or child > 168:
        notes.insert(
            0,
            Note(
                "More hours than there are",
                "These are the formula's hours, not capped: a day has 24 and a week 168. Where the formula gives more, "
                "the level alone does not use the allowance up.",
            ),
        )
    return tuple(notes)


calculator = Calculator(
    name="audio.exposure",
    title="How long may I listen this loud?",
    summary="Hours until the limit for work and the weekly allowances for adults and children are used up.",
    inputs=(
        Number(
            key="level",
            label="Average level",
            where=(
                "A sound level meter, or a telephone that shows the level of its own headphones in dB. As a "
                "feeling: 60 dBA is talk at a table, 80 a busy street, 100 a loud concert."
            ),
            low=0,
            high=140,
            unit="dBA",
            default=85,
            also={"dB": 1, "dB(A)": 1, "dBSPL": 1},
        ),
        Number(
            key="hours_day",
            label="Hours a day",
            where="Your own count, on a day when you listen. Telephones and players often show it.",
            low=0,
            high=24,
            unit="h",
            default=2,
            also={"hours": 1, "hour": 1, "min": 1 / 60, "minutes": 1 / 60},
        ),
        Number(
            key="days_week",
            label="Days a week",
            where="Your own count.",
            low=0,
            high=7,
            unit="days",
            default=5,
            also={"day": 1},
        ),
    ),
    compute=compute,
    presets=(
        Preset("calm", "Two hours a day, calm", {"level": 70, "hours_day": 2, "days_week": 7}),
        Preset("workday", "Eight hours at the work limit", {"level": 85, "hours_day": 8, "days_week": 5}),
        Preset("loud", "An hour a day, loud", {"level": 95, "hours_day": 1, "days_week": 7}),
        Preset("concert", "One evening at 100 dBA", {"level": 100, "hours_day": 3, "days_week": 1}),
    ),
)
