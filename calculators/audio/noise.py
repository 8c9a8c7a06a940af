"""audio.noise: does one hear an output's hiss, and which of two outputs is the quieter?"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from calculators.audio.headphones.headphone_circuit import decibels, level_shift, noise_volts, share
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
from calculators.audio.headphones.typical_values import OUTPUT_OPTIONS, headphone_table, output_kind, output_table
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
    Step,
    Table,
    Verdict,
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Bar, bars
from calculators.desk.errors import refuse
from calculators.desk.inputs import HOW_TO_TELL, Choice, Number, Values
from calculators.desk.numbers import number, significant, span
from calculators.desk.svg import Drawing

_HIDDEN_DB = -10.0  # so far below the room nobody finds the hiss; common practice
_THRESHOLD_DB = 0.0  # about where hearing begins, by the reference of the decibel itself

CAUTIONS = (
    Caution(
        "hearing",
        "Do not turn the volume to full to listen for hiss while anything could start to play.",
        "Stop the player first; if a sound hurts or your ears ring afterwards, see a hearing specialist if it lasts.",
        first=True,
        short="Never turn to full to hear hiss.",
    ),
    Caution(
        "person",
        "Never cut or tape over the earth contact of a mains plug to stop a hum: it is there so that a fault does not "
        "kill you.",
        "Leave mains wiring to a licensed electrician.",
    ),
)

SOURCES = (
    Source("Ohm's law and the voltage divider", "any textbook", COMMON_PRACTICE),
    Source("IEC 61672-1, sound level meters", "A-weighting", FROM_MEMORY),
    Source("AES17, measurement of digital audio equipment", "noise against full scale, A-weighted", FROM_MEMORY),
    Source(
        "ISO 389-7, reference threshold of hearing", "0 dB lies near the threshold in the middle range", FROM_MEMORY
    ),
    Source("Usual ranges, and 10 dB below the room as 'not heard'", "", COMMON_PRACTICE),
)

BUZZ = (
    Step(
        key="tell",
        title="Tell hiss from buzz",
        do=(
            "Pause all sound and listen. Move the mouse, scroll a page, start a game or copy a large file.",
            "A steady rush that never changes is hiss.",
            "A buzz, whine or chirp that follows what the computer does is a ground loop or pick-up.",
        ),
        why="Hiss is a property of the output and the headphones. A buzz comes in on the way, and can be kept out.",
    ),
    Step(
        key="path",
        title="Find where it comes in",
        do=(
            "Try the back socket instead of the front one.",
            "With speakers, unplug what else joins them to the computer or the mains, one lead at a time.",
            "With a laptop, run it from its battery for a minute.",
        ),
        see="The step after which the buzz is gone has named the loop.",
    ),
    Step(
        key="mend",
        title="Break the loop safely",
        do=(
            "Plug computer and speakers into the same outlet strip.",
            "Use another path: the back socket, a USB sound adapter on a short lead, or an optical one, free of metal.",
            "For line leads to speakers, a ground-loop isolator with a transformer helps. It cannot drive headphones.",
        ),
        caution="Never remove the earth of a mains plug.",
    ),
)


@dataclass(frozen=True, slots=True)
class Hiss:
    """One output's noise: what made it, at each corner of what is not known, with the level it gives."""

    name: str
    volts: Span
    spl: Span
    above: Span
    how: str


def compute(given: Values) -> Answer:
    """The level of the hiss at the ear against the room."""
    swing = check_impedances(given)
    corners = points(given)
    isolation = given["isolation"]
    room = given["room_db"] - isolation
    first = _hiss(given, corners, "", room)
    second, gap = None, Span(0.0, 0.0)
    if _compares(given):
        other = _other_corners(given)
        second = _hiss(given, other, "other_", room)
        gap = _gap(first, second, corners, other)
    return Answer(
        headline=_headline(first, second, gap, room, isolation),
        verdict=_verdict(first),
        figures=_figures(given, corners, first, second, gap, room, swing),
        working=_working(given, corners[0], first) if len(corners) == 1 and first.volts.exact else (),
        tables=(
            *((_table(first, second),) if second else ()),
            output_table(given["output"], noise=True),
            headphone_table(given["headphones"], isolation=True),
        ),
        drawings=(_drawing(first, second, given["room_db"], room),),
        steps=BUZZ,
        steps_title="If it buzzes rather than hisses",
        notes=_notes(given, first, second, corners, swing),
        cautions=CAUTIONS,
        sources=SOURCES,
    )


def _compares(given: Values) -> bool:
    """Whether anything is said of another output."""
    others = (given.get(f"other_{key}") for key in ("noise_uv", "snr_db", "full_volts", "source_impedance"))
    return any(value is not None for value in others) or given["other_output"] != "unknown"


def _other_corners(given: Values) -> list[Point]:
    """The same headphones on the other output; where nothing is said of its source impedance, its usual range."""
    known = {key: given.get(key) for key in given}
    known["other_source_impedance"] = given.get("other_source_impedance")
    return points(Values(given.inputs, known, ()), "other_source_impedance", "other_output")


def _noise(given: Values, prefix: str) -> tuple[Span, str]:
    """An output's noise voltage and where it comes from, in words. [V rms, A-weighted]"""
    microvolts, ratio_db, full = (given.get(f"{prefix}{key}") for key in ("noise_uv", "snr_db", "full_volts"))
    if microvolts is not None and ratio_db is not None:
        raise refuse(
            f"{prefix}snr_db",
            "Give the noise in microvolts or the signal-to-noise ratio, not both: the two may disagree. Empty one.",
        )
    if microvolts is not None:
        return Span(microvolts / 1e6, microvolts / 1e6), "as given"
    if ratio_db is not None:
        if full is None and not prefix:
            full = given["source_volts"]
        if full is None:
            raise refuse(
                f"{prefix}full_volts",
                "The signal-to-noise ratio needs the voltage it was measured against: give it here, such as 1.",
            )
        volts = noise_volts(full, ratio_db)
        return Span(volts, volts), f"{number(ratio_db, 1)} dB below {significant(full)} V"
    usual = output_kind(given[f"{prefix}output"]).noise_uv
    return Span(usual.low / 1e6, usual.high / 1e6), "usual range"


def _hiss(given: Values, corners: list[Point], prefix: str, room: float) -> Hiss:
    noise, how = _noise(given, prefix)

    def level(volts: float) -> Callable[[Point], float]:
        return lambda p: p.db_v + decibels(volts * share(p.ohm, p.source_ohm))

    spl = Span(span_of(corners, level(noise.low)).low, span_of(corners, level(noise.high)).high)
    name = "the other output" if prefix else "this output"
    return Hiss(name, noise, spl, Span(spl.low - room, spl.high - room), how)


def _gap(first: Hiss, second: Hiss, corners: list[Point], others: list[Point]) -> Span:
    """How much louder the other output hisses: the same headphones on both, so their sensitivity drops out."""
    shares = [
        share(q.ohm, q.source_ohm) / share(p.ohm, p.source_ohm) for p in corners for q in others if p.ohm == q.ohm
    ]
    return Span(
        decibels(min(shares) * second.volts.low / first.volts.high),
        decibels(max(shares) * second.volts.high / first.volts.low),
    )


def _word(spl: float, above: float) -> str:
    """Yes where nobody finds the hiss; decided on whole millionths of a decibel."""
    if round(spl, 6) <= _THRESHOLD_DB or round(above, 6) <= _HIDDEN_DB:
        return YES
    return NO if round(above, 6) > 0 else DEPENDS


_NO_HISS = "No hiss to be heard."


def _is_hidden(hiss: Hiss) -> bool:
    """Whether nobody finds it, at either end of what is not known."""
    return {_word(hiss.spl.low, hiss.above.low), _word(hiss.spl.high, hiss.above.high)} == {YES}


def _verdict(hiss: Hiss) -> Verdict:
    words = {_word(hiss.spl.low, hiss.above.low), _word(hiss.spl.high, hiss.above.high)}
    if words == {YES}:
        return Verdict(YES, "The hiss lies so far below the room, or below hearing, that nobody finds it.", _NO_HISS)
    if words == {NO}:
        return Verdict(NO, "In pauses the hiss stands above what is left of the room.", "You will hear hiss.")
    if words == {DEPENDS}:
        return Verdict(
            DEPENDS,
            "It lies just below the room; a bright hiss can still be found there.",
            "You may hear hiss in pauses.",
        )
    return Verdict(
        DEPENDS,
        "By usual numbers it can go either way: find yours, or listen in a pause.",
        "Hiss or no hiss: the numbers decide.",
    )


def _headline(first: Hiss, second: Hiss | None, gap: Span, room: float, isolation: float) -> str:
    left = f"{number(room, 0)} dBA that is left of the room" if isolation else f"{number(room, 0)} dBA of the room"
    level = _about(first.spl)
    if second is None:
        if first.above.exact:
            side = "above" if first.above.low >= 0 else "below"
            return f"The hiss reaches {level} at the ear, {number(abs(first.above.low), 0)} dB {side} the {left}."
        return f"The hiss reaches {level} at the ear, against the {left}."
    quiet = f"with {number(room, 0)} dBA left of the room" if isolation else f"in a room of {number(room, 0)} dBA"
    if gap.exact and abs(gap.low) < 0.05:
        return f"Both outputs hiss alike: {level}, {quiet}."
    other = _about(second.spl)
    if _is_hidden(first) and _is_hidden(second):
        return f"You will hear neither output hiss: {level} here, {other} from the other, {quiet}."
    if gap.low < 0 < gap.high:
        return f"Either may hiss less: this one at {level}, the other at {other}, {quiet}."
    less, levels = ("This", (level, other)) if gap.low >= 0 else ("The other", (other, level))
    least, most = sorted((abs(gap.low), abs(gap.high)))
    by = span(least, most, "dB", 0 if least >= 2 else 1)
    return f"{less} output hisses {by} less: {levels[0]} against {levels[1]}, {quiet}."


def _about(level: Span) -> str:
    return f"about {number(level.low, 0)} dBA" if level.exact else span(level.low, level.high, "dBA", 0)


MOST_LARGE = 4  # figures that a first screen and a card have room for


def _figures(
    given: Values,
    corners: list[Point],
    first: Hiss,
    second: Hiss | None,
    gap: Span,
    room: float,
    swing: tuple[float, float] | None,
) -> tuple[Figure, ...]:
    rows: list[tuple[str, str, Span, str, int, bool]] = [
        ("noise_spl_db", "Hiss at the ear", first.spl, "dBA", 1, True),
        ("above_room_db", "Above what is left of the room", first.above, "dB", 1, True),
    ]
    if second:
        rows += [
            ("other_noise_spl_db", "Hiss of the other output", second.spl, "dBA", 1, True),
            ("other_above_room_db", "The other above what is left of the room", second.above, "dB", 1, False),
            ("other_louder_db", "The other output against this one", gap, "dB", 1, True),
        ]
    rows.append(("room_left_db", "What is left of the room", Span(room, room), "dBA", 1, False))
    most = span_of(corners, lambda p: p.max_spl)
    wanted, crest = given["wanted_peak"], given["crest"]
    below = Span(wanted - crest - first.spl.high, wanted - crest - first.spl.low)
    rows += [
        (
            "noise_uv",
            "Noise with nothing plugged in",
            Span(first.volts.low * 1e6, first.volts.high * 1e6),
            "µV",
            2,
            False,
        ),
        ("below_average_db", "Below the average of the music", below, "dB", 1, False),
        (
            "range_db",
            "From the hiss up to the loudest level",
            Span(most.low - first.spl.high, most.high - first.spl.low),
            "dB",
            1,
            False,
        ),
    ]
    if swing is not None:
        rows.append(
            (
                "level_shift_db",
                "Hiss rises where the impedance is highest by",
                span_of(corners, lambda p: level_shift(p.source_ohm, *swing)),
                "dB",
                2,
                False,
            )
        )
    shown = []
    for key, label, value, unit, places, main in rows:
        if value.exact:
            shown.append(figure(key, label, value.low, unit, places, main))
        else:
            top = main and key in ("noise_spl_db", "other_noise_spl_db")
            shown.append(figure(f"{key}_low", f"{label}, at least", value.low, unit, places, top))
            shown.append(figure(f"{key}_high", f"{label}, at most", value.high, unit, places, top))
    large = [f.key for f in shown if f.main][:MOST_LARGE]
    return tuple(replace(f, main=f.key in large) for f in shown)


def _working(given: Values, point: Point, hiss: Hiss) -> tuple[Working, ...]:
    microvolts = hiss.volts.low * 1e6
    lines = []
    if given.get("snr_db") is not None:
        lines.append(Working("Noise voltage", "voltage ÷ 10^(ratio ÷ 20)", hiss.how, f"{significant(microvolts)} µV"))
    divided = microvolts * share(point.ohm, point.source_ohm)
    lines.append(
        Working(
            "Noise at the headphone",
            "noise × impedance ÷ (impedance + source impedance)",
            f"{significant(microvolts)} µV × {number(point.ohm)} ÷ ({number(point.ohm)} + {number(point.source_ohm)})",
            f"{significant(divided)} µV",
        )
    )
    lines.append(
        Working(
            "Hiss at the ear",
            "sensitivity for one volt + 20 · log(noise in volts)",
            f"{number(point.db_v, 1)} + 20 · log({significant(divided)} ÷ 1 000 000)",
            f"{number(hiss.spl.low, 1)} dBA",
        )
    )
    room, isolation = given["room_db"], given["isolation"]
    lines.append(
        Working(
            "Above what is left of the room",
            "hiss − (room − isolation)",
            f"{number(hiss.spl.low, 1)} − ({number(room, 1)} − {number(isolation, 1)})",
            f"{number(hiss.above.low, 1)} dB",
        )
    )
    return tuple(lines)


def _cell(low: float, high: float, unit: str) -> str:
    """A range for a cell of a table, number and unit kept together on a narrow screen."""
    return span(low, high, unit, 1).replace(f" {unit}", f"\u00a0{unit}")


def _table(first: Hiss, second: Hiss) -> Table:
    rows = tuple(
        (
            hiss.name,
            _cell(hiss.volts.low * 1e6, hiss.volts.high * 1e6, "µV"),
            _cell(hiss.spl.low, hiss.spl.high, "dBA"),
            _cell(hiss.above.low, hiss.above.high, "dB"),
        )
        for hiss in (first, second)
    )
    return Table(
        "The two outputs side by side",
        (
            Column("Output"),
            Column("Noise", numeric=True),
            Column("At the ear", numeric=True),
            Column("Above the room", numeric=True),
        ),
        rows,
        "With the same headphones on both.",
    )


def _drawing(first: Hiss, second: Hiss | None, room: float, left: float) -> Drawing:
    """Hiss and room as bars from 0 dB, about where hearing begins."""
    rows = [Bar("A quiet room", max(room, 0), f"{number(room, 0)} dBA")]
    if left != room:
        rows.append(Bar("What the headphones leave of it", max(left, 0), f"{number(left, 0)} dBA"))
    hisses = [("Hiss of this output", first)] + ([("Hiss of the other output", second)] if second else [])
    for label, hiss in hisses:
        rows.append(
            Bar(
                label,
                max(hiss.spl.high, 0),
                span(hiss.spl.low, hiss.spl.high, "dBA", 0),
                mark=True,
                low=None if hiss.spl.exact else max(hiss.spl.low, 0),
            )
        )
    description = "; ".join(f"{row.label} {row.text}" for row in rows)
    return bars(
        "Hiss against the room",
        f"Bars: {description}.",
        rows,
        caption="Bars start at 0 dBA, about where hearing begins; below that there is nothing to draw.",
        full=max(40.0, *(r.value for r in rows)),
    )


def _notes(
    given: Values, first: Hiss, second: Hiss | None, corners: list[Point], swing: tuple[float, float] | None
) -> tuple[Note, ...]:
    notes = []
    if first.how == "usual range" or len(corners) > 1 or (second and not second.spl.exact):
        notes.append(
            Note(
                "What stands for the numbers you did not give",
                "The usual range of the kind you chose, from common practice and without a source. The answer is "
                "worked out at both ends, so it is a range as well.",
            )
        )
    notes += [
        Note(
            "Why sensitive headphones hiss more",
            "The hiss is there whatever you play and mostly whatever the volume. Ten decibels more sensitivity make "
            "it ten decibels louder, and closed or in-ear headphones take away the room that would have hidden it.",
        ),
        Note(
            "Hiss is not loudness",
            "This is about the rush in pauses. Whether the music itself gets loud enough is another question, 'Are "
            "these headphones too quiet, or too loud, for this output?'",
        ),
        Note(
            "What helps against hiss",
            "Less sensitive headphones, an output with less noise, or turning the output's own gain down and the "
            "player up. A resistor adapter in the lead lowers hiss and music alike, and changes the response of some "
            "headphones.",
        ),
    ]
    if swing is not None and any(p.source_ohm > 0 for p in corners):
        notes.append(
            Note(
                "The colour of the hiss",
                "Where the headphones' impedance is highest, source impedance lets more of the hiss through, as it "
                "does with the music.",
            )
        )
    return tuple(notes)


def _worked_for(given: Values) -> str:
    noise = _noise_words(given, "") or "the usual hiss of its kind"
    phrase = f"{headphones_in_words(given)} on {output_in_words(given)} with {noise}"
    if _compares(given):
        phrase += f", against another with {_noise_words(given, 'other_') or 'the usual hiss of its kind'}"
    return phrase


def _noise_words(given: Values, prefix: str) -> str:
    """An output's noise as given, in a phrase; nothing where its usual range stands for it."""
    microvolts, ratio_db = given.get(f"{prefix}noise_uv"), given.get(f"{prefix}snr_db")
    if microvolts is not None:
        return f"{number(microvolts, 2)} µV of noise"
    return f"a ratio of {number(ratio_db, 1)} dB" if ratio_db is not None else ""


_MINE, _OTHER = "The hiss", "Another output to compare, with the same headphones"

calculator = Calculator(
    name="audio.noise",
    title="Is this output free of hiss with these headphones?",
    summary="The level of an output's hiss at the ear against the room, and two outputs side by side.",
    version=3,
    inputs=(
        *inputs(folded=("source_volts", "wanted_peak")),
        Number(
            key="noise_uv",
            label="Noise",
            where=(
                "The data sheet of an adapter or amplifier, as 'output noise', A-weighted, in µV. Boards rarely say; "
                "then leave it empty and take the ratio, or the usual range."
            ),
            group=_MINE,
            names=("noise", "hiss", "output noise", "noise floor", "microvolts"),
            optional=True,
            unsure=True,
            low=0.01,
            high=100000,
            unit="µV",
            also={"uV": 1, "mV": 1000, "µVrms": 1, "uVrms": 1, "μV": 1},
        ),
        Number(
            key="snr_db",
            label="or signal-to-noise ratio",
            where="The board's or adapter's data sheet, as SNR, A-weighted, in dB.",
            group=_MINE,
            names=("snr", "s/n", "signal to noise"),
            optional=True,
            unsure=True,
            low=0,
            high=160,
            unit="dB",
            also={"dBA": 1, "dB(A)": 1},
        ),
        Number(
            key="full_volts",
            label="The ratio is against",
            where="Full scale in the same data sheet. Left empty, the highest undistorted voltage above is taken.",
            group=_MINE,
            optional=True,
            low=0.001,
            high=100,
            unit="V",
            also={"Vrms": 1, "mV": 0.001},
        ),
        Number(
            key="room_db",
            label="Quiet room",
            where=(
                "A sound level meter at your place with everything off. A bedroom at night has about 25 dBA, a living "
                "room 30 to 35, a room with a running computer 35 to 40."
            ),
            group=_MINE,
            names=("room", "room noise", "background noise"),
            low=-10,
            high=100,
            unit="dBA",
            default=25,
            also={"dB": 1, "dB(A)": 1},
        ),
        Number(
            key="isolation",
            label="The headphones keep out",
            where=(
                "The maker's data sheet, as passive isolation. About 0 dB for open headphones, 10 for closed ones, 20 "
                "and more for in-ear models."
            ),
            group=_MINE,
            names=("isolation", "attenuation", "closed back"),
            low=0,
            high=50,
            unit="dB",
            default=0,
        ),
        Choice(
            key="other_output",
            label="Kind of output",
            where_title=HOW_TO_TELL,
            where="By looking. It picks the usual range for what you leave empty below.",
            group=_OTHER,
            extra=True,
            options=OUTPUT_OPTIONS,
            default="unknown",
        ),
        Number(
            key="other_source_impedance",
            label="Source impedance",
            where="Its data sheet, or measured with a meter and one resistor.",
            group=_OTHER,
            extra=True,
            optional=True,
            unsure=True,
            low=0,
            high=10000,
            unit="Ω",
            also={"ohm": 1, "ohms": 1},
        ),
        Number(
            key="other_noise_uv",
            label="Noise",
            where="Its data sheet, A-weighted, in µV.",
            group=_OTHER,
            extra=True,
            optional=True,
            unsure=True,
            low=0.01,
            high=100000,
            unit="µV",
            also={"uV": 1, "mV": 1000, "µVrms": 1, "uVrms": 1, "μV": 1},
        ),
        Number(
            key="other_snr_db",
            label="or signal-to-noise ratio",
            where="Its data sheet, as SNR, A-weighted, in dB.",
            group=_OTHER,
            extra=True,
            optional=True,
            unsure=True,
            low=0,
            high=160,
            unit="dB",
            also={"dBA": 1, "dB(A)": 1},
        ),
        Number(
            key="other_full_volts",
            label="The ratio is against",
            where="Full scale in the same data sheet.",
            group=_OTHER,
            extra=True,
            optional=True,
            low=0.001,
            high=100,
            unit="V",
            also={"Vrms": 1, "mV": 0.001},
        ),
    ),
    compute=compute,
    worked_for=_worked_for,
    presets=(
        Preset(
            "front-and-back",
            "Front against back",
            {
                "sensitivity": 102,
                "impedance": 32,
                "source_volts": 1,
                "source_impedance": 10,
                "output": "front",
                "noise_uv": 35,
                "other_output": "rear",
                "other_source_impedance": 75,
                "other_noise_uv": 8,
            },
        ),
        Preset(
            "in-ear",
            "Sensitive in-ear on an amplifier",
            {
                "sensitivity": 112,
                "impedance": 16,
                "source_volts": 4,
                "source_impedance": 1,
                "headphones": "in-ear",
                "output": "amplifier",
                "noise_uv": 10,
                "isolation": 20,
            },
        ),
        Preset(
            "studio",
            "Studio headphones, 100 dB ratio",
            {
                "sensitivity": 96,
                "impedance": 250,
                "source_volts": 2,
                "source_impedance": 1,
                "headphones": "studio",
                "snr_db": 100,
                "full_volts": 2,
            },
        ),
        Preset(
            "not-sure",
            "Front socket, numbers unknown",
            {
                "sensitivity": "unsure",
                "impedance": "unsure",
                "headphones": "portable",
                "source_volts": "unsure",
                "source_impedance": "unsure",
                "output": "front",
                "isolation": 10,
            },
        ),
    ),
)
