"""audio.level: is an output loud enough for a pair of headphones, and no louder?"""

from __future__ import annotations

from collections.abc import Callable

from calculators.audio.headphones.headphone_circuit import (
    current_ma,
    level_shift,
    power_mw,
    ratio,
    source_ohm_from_drop,
)
from calculators.audio.headphones.headphone_inputs import (
    Point,
    Span,
    check_impedances,
    headphones_in_words,
    inputs,
    output_in_words,
    points,
    span_of,
)
from calculators.audio.headphones.typical_values import headphone_table, output_table
from calculators.audio.hearing.exposure_limits import (
    ADULT_WEEK,
    WORK_DAY,
    Criterion,
    allowed_hours,
    is_long_enough_to_tell,
    roughly,
    too_loud,
)
from calculators.desk.answer import (
    COMMON_PRACTICE,
    DEPENDS,
    FROM_MEMORY,
    NO,
    YES,
    Answer,
    Caution,
    Figure,
    Note,
    Source,
    Verdict,
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Axis, Line, plot
from calculators.desk.inputs import Values
from calculators.desk.numbers import number, settled, significant, span, with_unit
from calculators.desk.svg import Drawing

_TOO_MUCH_DB = 10.0  # headroom above the wanted peak that a slip of the hand can reach; common practice
_ENOUGH_DB = 80.0  # an average at which nothing is too quiet: from here the weekly allowance counts (H.870)
_CARE_DB = 100.0  # an average whose daily limit at work is 15 minutes (NIOSH): never a plain yes
_FILM_SPEECH_DB = (20.0, 30.0)  # how far speech in films lies below full scale; common practice
_TURN_DOWN = "; turn the volume right down before you plug in"
_PAIN_DB = 120.0  # where sound begins to hurt, whatever was wanted; textbooks of acoustics, from memory

CAUTIONS = (
    Caution(
        "hearing",
        "Set the volume to nothing before you plug in, put the headphones on after the sound has started, and then "
        "turn up slowly. A setting that was right for other headphones can be far too loud for these.",
        "Ringing, a dull ear or pain after listening are signs to stop; if they last, see a hearing specialist.",
        first=True,
        short="Volume to nothing before you plug in.",
    ),
    Caution(
        "machine",
        "Long peaks far above what a maker allows can damage headphones as well.",
        "The headphones' manual states the most power they take.",
    ),
)

SOURCES = (
    Source("IEC 60268-7, headphones and earphones", "characteristic sensitivity, rated impedance", FROM_MEMORY),
    Source("Ohm's law and the voltage divider", "impedances taken as resistances; any textbook", COMMON_PRACTICE),
    Source("NIOSH 98-126, Occupational Noise Exposure, 1998", "section 1.1: 85 dBA, 8 h, 3 dB", FROM_MEMORY),
    Source("ITU-T H.870, Guidelines for safe listening devices", "80 dBA for 40 h a week", FROM_MEMORY),
    Source("IEC 61938, analogue audio interfaces", "120 Ω for headphone outputs of the past", FROM_MEMORY),
    Source(
        "Usual ranges, the three named peaks, 14 dB crest, film speech 20 to 30 dB below full scale, an eighth for the "
        "source impedance",
        "",
        COMMON_PRACTICE,
    ),
)


def compute(given: Values) -> Answer:
    """The level that these headphones reach on this output."""
    swing = check_impedances(given)
    corners = points(given)
    wanted, crest = given["wanted_peak"], given["crest"]
    most = span_of(corners, lambda p: p.max_spl)
    headroom = Span(most.low - wanted, most.high - wanted)
    figures = _figures(given, corners, swing)
    unsure = [k for k in ("sensitivity", "impedance", "source_volts", "source_impedance") if given[k] is None]
    return Answer(
        headline=_headline(most, headroom, wanted, crest),
        verdict=_verdict(most, headroom, wanted, crest),
        figures=figures,
        working=_working(given, corners[0], swing) if not unsure else (),
        tables=(output_table(given["output"]), headphone_table(given["headphones"])),
        drawings=(_drawing(most, wanted, crest),),
        notes=_notes(given, corners, most, swing, unsure),
        cautions=CAUTIONS,
        sources=SOURCES,
    )


QUIET, SHORT, FITS, LOUD = "quiet", "short", "fits", "loud"


def _how(most_db: float, wanted: float, crest: float) -> str:
    """
    What full volume means: too quiet, short of the peaks alone, just right, or easily too loud.

    Decided on the tenth of a decibel that is shown, so that no figure of 100 dB stands beside a plain yes, and never
    on last bits. A louder output never moves it backwards.
    """
    average = round(most_db - crest, 1)
    headroom = round(most_db - wanted, 1)
    if average >= _CARE_DB or headroom > _TOO_MUCH_DB or _hurts(most_db):
        return LOUD
    if headroom >= 0:
        return FITS
    return SHORT if average >= _ENOUGH_DB else QUIET


def _verdict(most: Span, headroom: Span, wanted: float, crest: float) -> Verdict:
    least, best = _how(most.low, wanted, crest), _how(most.high, wanted, crest)
    peak = with_unit(number(wanted, 1), "dB")
    if least != best:
        return _open(least, best, peak)
    if best == QUIET:
        short = number(-headroom.high, 1)
        return Verdict(NO, f"Even at full volume, peaks stay {short} dB below the {peak} wanted.", "Too quiet.")
    if best == SHORT:
        short = f"fall {number(-headroom.low, 1)} dB" if headroom.exact else "may fall"
        return Verdict(
            DEPENDS,
            f"Loud enough for speech and everyday music; peaks {short} short of {peak}.",
            "Enough, but not for every peak.",
        )
    if best == FITS:
        return Verdict(YES, f"Peaks of {peak} fit, and full volume is not far above them.", "Loud enough.")
    return Verdict(DEPENDS, _why_loud(most, headroom, crest), "Far too loud." if _hurts(most.low) else _EASILY)


_EASILY = "Easily too loud."


def _why_loud(most: Span, headroom: Span, crest: float) -> str:
    """The gravest reason why full volume is not to be used: of a range, what its loud end would mean."""
    average = most.high - crest
    at = f"At full volume music {'averages' if most.exact else 'may average'} {number(average, 1)} dB"
    allowed = allowed_hours(average, WORK_DAY)
    if too_loud(average):
        return f"{at}: too loud for any length of time."
    if round(average, 1) >= _CARE_DB:
        if not is_long_enough_to_tell(allowed):
            return f"{at}; work's daily limit is gone at once."
        return f"{at}; work's limit: {roughly(allowed)} a day."
    if _hurts(most.high):
        return "At full volume, peaks reach the level from which sound hurts."
    beyond = f"{number(headroom.low, 1)} dB" if headroom.exact else "far"
    return f"Full volume goes {beyond} beyond the peaks you want."


def _open(least: str, best: str, peak: str) -> Verdict:
    """The verdict where it is open, since the ends of the usual ranges lead to different ones."""
    if least == QUIET and best == LOUD:
        return Verdict(
            DEPENDS,
            "Find the numbers you are not sure of; until then, start with the volume low.",
            "Too quiet or too loud: the numbers decide.",
        )
    if best == LOUD:
        return Verdict(
            DEPENDS, "By usual numbers full volume may go far beyond what you want: start low.", "Perhaps too loud."
        )
    if least == QUIET:
        return Verdict(
            DEPENDS, "By usual numbers it may fall short. Find the numbers you are not sure of.", "Perhaps too quiet."
        )
    return Verdict(
        DEPENDS,
        f"Loud enough for speech and everyday music; peaks may fall short of {peak}.",
        "Enough, perhaps not for every peak.",
    )


def _hurts(level_db: float) -> bool:
    """Whether a level is beyond where sound begins to hurt; decided on whole millionths of a decibel."""
    return round(level_db, 6) > _PAIN_DB


def _headline(most: Span, headroom: Span, wanted: float, crest: float) -> str:
    care = _TURN_DOWN if _how(most.high, wanted, crest) == LOUD else ""
    if not most.exact:
        return (
            f"These headphones reach {span(most.low, most.high, 'dB', 0)} here; you want "
            f"{number(wanted, 1)} dB for peaks{care}."
        )
    reach = f"These headphones reach about {number(most.low, 0)} dB here"
    gap = headroom.low
    if abs(gap) < 0.05:
        return f"{reach}, just what you want for peaks{care}."
    side = "more than" if gap > 0 else "less than"
    return f"{reach}, {number(abs(gap), 1)} dB {side} you want for peaks{care}."


def _figures(given: Values, corners: list[Point], swing: tuple[float, float] | None) -> tuple[Figure, ...]:
    wanted, crest = given["wanted_peak"], given["crest"]
    rows: list[tuple[str, str, Callable[[Point], float], str, int, bool]] = [
        ("max_spl_db", "Loudest undistorted level", lambda p: p.max_spl, "dB", 1, True),
        ("headroom_db", "Beyond the wanted peak", lambda p: p.max_spl - wanted, "dB", 1, True),
        ("volts_wanted", "Voltage for the wanted peak", lambda p: ratio(wanted - p.db_v), "V", 0, True),
        ("average_full_db", "Average of music at full volume", lambda p: p.max_spl - crest, "dB", 1, True),
        ("load_volts", "Voltage at the headphone", lambda p: p.volts, "V", 0, False),
        ("power_mw", "Power into the headphone", lambda p: power_mw(p.volts, p.ohm), "mW", 0, False),
        ("current_ma", "Current through the headphone", lambda p: current_ma(p.volts, p.ohm), "mA", 0, False),
        ("sensitivity_db_mw", "Sensitivity for one milliwatt", lambda p: p.db_mw, "dB", 1, False),
        ("sensitivity_db_v", "Sensitivity for one volt", lambda p: p.db_v, "dB", 1, False),
    ]
    if all(p.source_ohm > 0 for p in corners):
        rows.append(("damping", "Damping factor", lambda p: p.ohm / p.source_ohm, "", 2, False))
    if swing is not None:
        low, high = swing
        rows.append(
            (
                "level_shift_db",
                "Rise where the impedance is highest",
                lambda p: level_shift(p.source_ohm, low, high),
                "dB",
                2,
                False,
            )
        )
    shown: list[Figure] = []
    for key, label, result, unit, places, main in rows:
        value = span_of(corners, result)
        if value.exact:
            shown.append(_figure(key, label, value.low, unit, places, main))
            continue
        large = main and key == "max_spl_db"
        shown.append(_figure(f"{key}_low", f"{label}, at least", value.low, unit, places, large))
        shown.append(_figure(f"{key}_high", f"{label}, at most", value.high, unit, places, large))
    return tuple(shown)


def _figure(key: str, label: str, value: float, unit: str, places: int, main: bool) -> Figure:
    """A figure; with no places told, four significant digits, since volts and milliwatts come in all sizes."""
    if places:
        return figure(key, label, value, unit, places, main)
    return Figure(key, label, settled(value), unit, with_unit(significant(value, 4), unit), main)


def _working(given: Values, point: Point, swing: tuple[float, float] | None) -> tuple[Working, ...]:
    volts, r, z = number(point.source_volts, 4), number(point.source_ohm, 2), number(point.ohm, 2)
    divider = point.source_volts * point.ohm / (point.ohm + point.source_ohm)
    lines = []
    if given["sensitivity_unit"] == "db_v":
        lines.append(
            Working(
                "Sensitivity for one milliwatt",
                "dB/V − 10 · log(1000 ÷ impedance)",
                f"{number(point.db_v, 3)} − 10 · log(1000 ÷ {z})",
                f"{number(point.db_mw, 3)} dB",
            )
        )
    else:
        lines.append(
            Working(
                "Sensitivity for one volt",
                "dB/mW + 10 · log(1000 ÷ impedance)",
                f"{number(point.db_mw, 3)} + 10 · log(1000 ÷ {z})",
                f"{number(point.db_v, 3)} dB",
            )
        )
    lines.append(
        Working(
            "Voltage at the headphone",
            "voltage × impedance ÷ (impedance + source impedance)",
            f"{volts} V × {z} ÷ ({z} + {r})",
            f"{significant(divider, 4)} V",
        )
    )
    if point.limit_ma is not None and point.volts < divider:
        lines.append(
            Working(
                "But the current limit is lower",
                "current × impedance",
                f"{number(point.limit_ma, 1)} mA × {z} Ω",
                f"{significant(point.volts, 4)} V",
            )
        )
    lines.append(
        Working(
            "Power",
            "voltage² ÷ impedance",
            f"{significant(point.volts, 4)}² ÷ {z}",
            f"{significant(power_mw(point.volts, point.ohm))} mW",
        )
    )
    lines.append(
        Working(
            "Loudest level",
            "sensitivity for one volt + 20 · log(voltage)",
            f"{number(point.db_v, 3)} + 20 · log({significant(point.volts, 4)})",
            f"{number(point.max_spl, 1)} dB",
        )
    )
    wanted = given["wanted_peak"]
    lines.append(
        Working(
            "Voltage for the wanted peak",
            "10^((wanted − sensitivity for one volt) ÷ 20)",
            f"10^(({number(wanted, 3)} − {number(point.db_v, 3)}) ÷ 20)",
            f"{significant(ratio(wanted - point.db_v), 4)} V",
        )
    )
    if swing is not None:
        low, high = swing
        lines.append(
            Working(
                "Rise where the impedance is highest",
                "20 · log(part of the voltage at the highest ÷ part at the lowest impedance)",
                f"20 · log(({number(high)} ÷ {number(high + point.source_ohm)}) ÷ "
                f"({number(low)} ÷ {number(low + point.source_ohm)}))",
                f"{number(level_shift(point.source_ohm, low, high), 2)} dB",
            )
        )
    return tuple(lines)


def _drawing(most: Span, wanted: float, crest: float) -> Drawing:
    """Level against the output's setting, from 60 dB below full up to full."""
    top = max(most.high, wanted, _ENOUGH_DB + 6) + 6
    low = min(most.high - 60, wanted - 50, 70.0)
    lines = [
        Line("peaks", [(-60, most.high - 60), (0, most.high)], "fill-1", width=2.5),
        Line("average", [(-60, most.high - crest - 60), (0, most.high - crest)], "fill-3", "7 4", 2.5),
    ]
    if not most.exact:
        lines = [
            Line("peaks, at most", [(-60, most.high - 60), (0, most.high)], "fill-1", width=2.5),
            Line("peaks, at least", [(-60, most.low - 60), (0, most.low)], "fill-1", "2 3", 2),
            Line("average, at most", [(-60, most.high - crest - 60), (0, most.high - crest)], "fill-3", "7 4", 2.5),
        ]
    # across the picture, and named below it: at the lines themselves the names would lie under the others
    across = [
        (wanted, f"wanted peak: {number(wanted, 1)} dB", "mark", ""),
        (85.0, "average 85: work's 8-hour limit", "no", "6 3"),
        (_ENOUGH_DB, "average 80: take care from here", "depends", "2 3"),
    ]
    lines = [line_within(line, low) for line in lines] + [
        Line(name, [(-60, level), (0, level)], ink, dash, 1.5)
        for level, name, ink, dash in across
        if low <= level <= top
    ]
    description = (
        f"Peaks rise to {number(most.high, 0)} dB at full volume, the average of music to "
        f"{number(most.high - crest, 0)} dB. Lines across stand at the wanted peak of {number(wanted, 1)} dB, at an "
        "average of 80 dB, from which hearing needs care, and at 85 dB, the limit for eight hours of work."
    )
    return plot(
        "Level against the output's setting",
        description,
        Axis("setting, dB below full", -60, 0, (-60, -45, -30, -15, 0)),
        Axis("level, dB SPL", low, top),
        lines,
        height=280,
    )


def line_within(line: Line, low: float) -> Line:
    """A straight line cut off where it leaves the picture at the bottom."""
    (x1, y1), (x2, y2) = line.points
    if y1 < low < y2:
        line = Line(
            line.name, [(x1 + (x2 - x1) * (low - y1) / (y2 - y1), low), (x2, y2)], line.ink, line.dash, line.width
        )
    return line


def _notes(
    given: Values, corners: list[Point], most: Span, swing: tuple[float, float] | None, unsure: list[str]
) -> tuple[Note, ...]:
    crest = given["crest"]
    average = most.high - crest
    notes = []
    if unsure:
        notes.append(
            Note(
                "What stands for 'not sure'",
                f"For {_names(given, unsure)} the usual range of the kind you chose is taken, from common practice and "
                "without a source. The answer is worked out at both ends, so it is a range as well.",
            )
        )
    notes.append(
        Note(
            "What full volume would mean for your ears",
            f"Music with {number(crest, 1)} dB between average and peak would average "
            f"{'up to ' if not most.exact else ''}{number(average, 1)} dB at full volume. {_how_long(average)} Both "
            "limits count A-weighted levels in a free field; a level at the ear is not the same, so take them as a "
            "guide.",
        )
    )
    film = Span(most.low - _FILM_SPEECH_DB[1], most.high - _FILM_SPEECH_DB[0])
    notes.append(
        Note(
            "Films",
            "Films keep room for their loudest moments: speech lies some "
            f"{number(_FILM_SPEECH_DB[0])} to {number(_FILM_SPEECH_DB[1])} dB below full scale. Here that is "
            f"{span(film.low, film.high, 'dB', 0)} at full volume; talk at a table has about 60.",
        )
    )
    notes.append(_source_note(given, corners, swing))
    ohm = number(source_ohm_from_drop(0.1, 0.07, 47), 0)
    notes.append(
        Note(
            "How to measure the output",
            "With the headphones unplugged, play a quiet tone of about 500 Hz and read it with a meter on AC: say "
            "0.100 V. Put a resistor of 47 Ω across and read again: say 0.070 V. The source impedance is 47 × "
            f"(0.100 ÷ 0.070 − 1), about {ohm} Ω. Keep the tone well below full volume, so that the resistor does "
            "not make the output reach its limit.",
        )
    )
    notes.append(
        Note(
            "What these levels are",
            "Levels of a steady tone, as data sheets give them. The tip of such a tone's wave lies 3 dB higher still, "
            "and data sheets themselves are good to a few decibels.",
        )
    )
    return tuple(notes)


def _how_long(average: float) -> str:
    """How long the limits allow an average, in a sentence; no time where it could mislead."""
    if too_loud(average):
        return "That is too loud for any length of time."

    def gone(criterion: Criterion) -> str:
        hours = allowed_hours(average, criterion)
        return f"in about {roughly(hours)}" if is_long_enough_to_tell(hours) else "at once"

    return (
        f"The limit for work reaches its daily dose at that level {gone(WORK_DAY)}, the weekly allowance for adults "
        f"{gone(ADULT_WEEK)}."
    )


def _names(given: Values, keys: list[str]) -> str:
    names = [given.input(key).label.casefold() for key in keys]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _source_note(given: Values, corners: list[Point], swing: tuple[float, float] | None) -> Note:
    """What the source impedance does, in words; the only word on damping where there is no source impedance."""
    title = "What the source impedance does"
    if all(p.source_ohm == 0 for p in corners):
        return Note(
            title,
            "With a source impedance of 0 Ω the whole voltage reaches the headphones at every frequency. The damping "
            "factor, impedance over source impedance, has no number then: it grows without end. Real outputs have a "
            "little, and below an eighth of the headphones' impedance it hardly matters.",
        )
    text = (
        "It forms a divider with the headphones. Where their impedance changes over frequency, so does the level. A "
        "common rule asks for no more than an eighth of the headphones' impedance, a damping factor of 8; then the "
        "change stays below about 1 dB."
    )
    damping = span_of([p for p in corners if p.source_ohm > 0], lambda p: p.ohm / p.source_ohm)
    if damping.exact:
        verb = "keeps" if round(damping.low, 6) >= 8 else "breaks"
        text += f" A damping factor of {number(damping.low, 1)} {verb} that rule."
    if swing is not None:
        shift = span_of(corners, lambda p: level_shift(p.source_ohm, *swing))
        text += (
            f" Between {number(swing[0])} and {number(swing[1])} Ω the level moves by "
            f"{span(shift.low, shift.high, 'dB', 1)}."
        )
    elif given.get("impedance_low") is not None or given.get("impedance_high") is not None:
        text += " To see by how much, give both the lowest and the highest impedance."
    return Note(title, text)


def _worked_for(given: Values) -> str:
    return f"{headphones_in_words(given)} on {output_in_words(given)}, peaks of {number(given['wanted_peak'], 1)} dB"


calculator = Calculator(
    name="audio.level",
    title="Are these headphones too quiet, or too loud, for this output?",
    summary="Level at the ear from sensitivity, impedance and the output's voltage, with room above the wanted peak.",
    version=3,
    inputs=inputs(),
    compute=compute,
    worked_for=_worked_for,
    presets=(
        Preset(
            "old-studio",
            "Old studio headphones, front socket",
            {
                "sensitivity": 96,
                "sensitivity_unit": "db_mw",
                "impedance": 600,
                "headphones": "studio",
                "source_volts": 1,
                "source_impedance": 20,
                "output": "front",
            },
        ),
        Preset(
            "in-ear",
            "In-ear on a headphone amplifier",
            {
                "sensitivity": 110,
                "sensitivity_unit": "db_mw",
                "impedance": 16,
                "headphones": "in-ear",
                "source_volts": 4,
                "source_impedance": 1,
                "output": "amplifier",
            },
        ),
        Preset(
            "office",
            "Office headphones, laptop",
            {
                "sensitivity": 102,
                "sensitivity_unit": "db_mw",
                "impedance": 32,
                "headphones": "portable",
                "source_volts": 0.8,
                "source_impedance": 4,
                "output": "portable",
            },
        ),
        Preset(
            "rear",
            "32 Ω on the line output at the back",
            {
                "sensitivity": 98,
                "sensitivity_unit": "db_mw",
                "impedance": 32,
                "headphones": "portable",
                "impedance_low": 30,
                "impedance_high": 110,
                "source_volts": 1.2,
                "source_impedance": 220,
                "output": "rear",
            },
        ),
        Preset(
            "not-sure",
            "Studio headphones, numbers unknown",
            {
                "sensitivity": "unsure",
                "impedance": "unsure",
                "headphones": "studio",
                "source_volts": "unsure",
                "source_impedance": "unsure",
                "output": "front",
            },
        ),
    ),
)
