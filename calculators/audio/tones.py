"""audio.tones: a quiet test sound, made here, to hear whether left is left and all is wired right."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.audio.headphones.headphone_circuit import decibels
from calculators.audio.hearing.exposure_limits import ADULT_WEEK, too_loud
from calculators.audio.signals.waveforms import FULL_SCALE, STAIR_DB, STAIR_STEPS, SWEEP_FROM_HZ, samples, wav
from calculators.desk.answer import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    Answer,
    Caution,
    Column,
    File,
    Note,
    Source,
    Step,
    Table,
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Axis, Line, plot
from calculators.desk.functions import power, sine
from calculators.desk.inputs import HOW_TO_CHOOSE, Choice, Number, Option, Values
from calculators.desk.numbers import number, with_unit
from calculators.desk.svg import SMALL, WIDTH, Drawing, Sketch

_LOUDEST_DBFS = -20
_QUIETEST_DBFS = -80
_UNHEARD_DB = 30.0  # about the noise of a quiet room; common practice


@dataclass(frozen=True, slots=True)
class Kind:
    """
    A kind of test sound. short: what one should hear, for a headline. hear: the same in full. otherwise: (what one
    hears instead, what it means).
    """

    label: str
    name: str
    short: str
    hear: str
    otherwise: tuple[tuple[str, str], ...]


KINDS = {
    "left": Kind(
        "left only",
        "on the left only",
        "the left ear alone should hear it",
        "The tone sits in the left ear, and the right ear has nothing.",
        (
            (
                "In the right ear",
                "Left and right are swapped: in a setting, in a lead, or the headphones sit back to front.",
            ),
            ("In both ears alike", "Mono sound is switched on in the system, or a plug joins left and right."),
            (
                "Weakly in the right ear too",
                "Some crosstalk through a shared ground wire is usual; much of it is a bad contact.",
            ),
            (
                "Nothing",
                "The left contact does not touch: a plug not fully in, a broken lead, or the balance is turned.",
            ),
        ),
    ),
    "right": Kind(
        "right only",
        "on the right only",
        "the right ear alone should hear it",
        "The tone sits in the right ear, and the left ear has nothing.",
        (
            (
                "In the left ear",
                "Left and right are swapped: in a setting, in a lead, or the headphones sit back to front.",
            ),
            ("In both ears alike", "Mono sound is switched on in the system, or a plug joins left and right."),
            ("Nothing", "A 2-pole plug in a 3-pole socket shorts the right side; or the ring contact does not touch."),
        ),
    ),
    "both": Kind(
        "both sides",
        "on both sides",
        "it should sit in the middle",
        "One tone in the middle of the head, or midway between the speakers.",
        (
            ("Off to one side", "The balance is turned, one side is weaker, or one ear hears less than the other."),
            (
                "Hollow, from nowhere",
                "One side is reversed, or the ground contact is lost. Compare with 'one side reversed'.",
            ),
            ("Faint and thin", "The ground contact is lost: a 4-pole plug with another pinout, or a plug half in."),
            ("Nothing at all", "Another device plays, the sound is muted, or a voice mode carries only low tones."),
        ),
    ),
    "reversed": Kind(
        "both sides, one reversed",
        "with one side reversed",
        "it should have no place",
        "The tone has no place: wide, hollow, hard to point at. From speakers it is weak in the middle.",
        (
            ("One firm tone in the middle", "One side is reversed already, in a lead or at a speaker's terminals."),
            ("Nothing at all", "Left and right are joined to mono somewhere, where the two sides cancel."),
            ("In one ear only", "One side does not play. Try 'left only' and 'right only'."),
        ),
    ),
    "sweep": Kind(
        "slow sweep",
        "sweeping upwards",
        "it should climb smoothly",
        "A tone that climbs smoothly, with nothing that rattles, drops out or jumps to one side.",
        (
            ("It begins late", "The lowest notes are below what these headphones or speakers, or ears, can do."),
            ("A rattle at one place", "Something is loose, or a hair lies on the diaphragm. Turn down."),
            ("It wanders to one side", "The two sides differ at that frequency, by wear, a bad seal, or hearing."),
            ("It stops early", "A wireless voice mode cuts the treble, or the sound is above what your ears hear."),
        ),
    ),
    "staircase": Kind(
        "quiet-to-loud staircase",
        "rising in steps",
        "six even steps should be heard",
        f"{STAIR_STEPS} steps, each just noticeably louder. Each is {STAIR_DB} dB more: twice the energy, half the "
        "time.",
        (
            ("The first steps are missing", "They lie below the room's noise, the output's hiss, or hearing."),
            ("All steps alike", "A loudness-levelling setting in the system or player is at work. Switch it off."),
            ("The last steps are rough", "Something in the chain is overdriven; turn one stage of volume down."),
        ),
    ),
}

_EVERYDAY: dict[str, tuple[str, ...]] = {
    "left": ("left", "left channel", "left ear", "on the left", "left side", "left speaker"),
    "right": ("right", "right channel", "right ear", "on the right", "right side", "right speaker"),
    "both": ("both", "stereo", "mono", "middle"),
    "reversed": ("reversed", "out of phase", "polarity", "phase"),
    "sweep": ("sweep", "sine sweep"),
    "staircase": ("staircase", "steps"),
}

CAUTIONS = (
    Caution(
        "hearing",
        "Before the first sound: volume all the way down, headphones off the ears. Start the sound, turn up slowly, "
        "and only then put them on. A steady tone is more tiring than music of the same level.",
        "If a sound hurts or your ears ring afterwards, stop, and see a hearing specialist if it lasts.",
        first=True,
        short="Volume all the way down first.",
    ),
    Caution(
        "hearing",
        "Never turn up to hear a tone that you cannot hear: very low and very high tones can be loud without being "
        "heard.",
    ),
    Caution(
        "machine",
        "Long steady tones, above all high ones, can overheat small loudspeakers.",
        "Keep them quiet and short; the maker's manual has the last word.",
    ),
)

SOURCES = (
    Source("Samples made in whole numbers by this project", "the same bytes on every machine", COMMON_PRACTICE),
    Source("AES17, measurement of digital audio equipment", "a full-scale sine is 0 dBFS", FROM_MEMORY),
    Source("Multimedia Programming Interface and Data Specifications 1.0, 1991", "WAVE file format", FROM_MEMORY),
)

STEPS = (
    Step(
        key="down",
        title="Volume down, headphones off",
        do=("Turn the system's volume all the way down and take the headphones off your ears.",),
        why="Nobody knows yet how loud this output is.",
    ),
    Step(
        key="start",
        title="Start the sound, then turn up",
        do=("Start it, hold an ear cup near, and turn up until the tone is clear and comfortable. Then put them on.",),
    ),
    Step(
        key="compare",
        title="Compare with what you should hear",
        do=("The table says what it means if you hear something else.",),
        otherwise="Change one thing at a time: the socket, then the adapter, then the headphones.",
    ),
)


def _how_loud(level_dbfs: float) -> str:
    """What a level below full scale means for the ears, before they know how loud the output is."""
    if level_dbfs <= -50:
        return ", very quiet"
    return ", quiet" if level_dbfs <= -30 else ""


def _headline(what: str, kind: Kind, level_dbfs: float, ear: float | None) -> str:
    """What sounds, how loud, and what one should hear."""
    if ear is None:
        return f"{what}{_how_loud(level_dbfs)}: {kind.short}."
    loud = f"{what}, about {number(ear, 0)} dB at the ear at full volume"
    if round(ear, 6) >= ADULT_WEEK.level_dba:
        return f"{loud}; turn right down first."
    return f"{loud}: {kind.short}."


def compute(given: Values) -> Answer:
    """The sound as a file, and what one should hear."""
    kind = KINDS[given["kind"]]
    frequency, seconds, level = given["frequency"], given["seconds"], given["level_dbfs"]
    data, rate = samples(given["kind"], frequency, seconds, level)
    frames = len(data) // 2
    loud = data[1::2] if given["kind"] == "right" else data[0::2]
    peak = max(max(loud), -min(loud))
    body = wav(data, rate)
    hertz = with_unit(number(frequency), "Hz")
    sweep = given["kind"] == "sweep"
    what = f"tone {kind.name}" if not sweep else f"tone {kind.name} from {number(SWEEP_FROM_HZ)} to {hertz}"
    loudest = given.get("max_spl")
    ear = None if loudest is None else loudest + level
    return Answer(
        headline=_headline(f"A {'' if sweep else hertz + ' '}{what}", kind, level, ear),
        figures=(
            *(
                []
                if ear is None
                else [figure("level_at_ear_db", "At the ear, at full volume", ear, "dB", 1, main=True)]
            ),
            figure("peak", f"Largest sample, of {FULL_SCALE}", peak),
            figure("frames", "Frames", frames),
            figure("rate_hz", "Sampling rate", rate, "Hz"),
            figure("peak_dbfs", "Level of the largest sample", decibels(peak / FULL_SCALE), "dBFS", 2),
            figure("bytes", "Size of the file", len(body), "bytes"),
        ),
        working=(
            Working(
                "Largest sample",
                "32767 × 10^(level ÷ 20), rounded down",
                f"32767 × 10^({number(level, 1)} ÷ 20)",
                number(peak, 0),
            ),
            *(
                ()
                if loudest is None
                else (
                    Working(
                        "Level at the ear",
                        "loudest level + level below full scale",
                        f"{number(loudest, 1)} − {number(-level, 1)}",
                        f"{number(loudest + level, 1)} dB",
                    ),
                )
            ),
            Working("Frames", "seconds × sampling rate", f"{number(seconds)} s × {rate} Hz", number(frames, 0)),
        ),
        tables=(
            Table(
                "If you hear something else",
                (Column("You hear"), Column("It most likely means")),
                kind.otherwise,
            ),
        ),
        drawings=(_drawing(given["kind"], frequency, seconds, level),),
        steps=STEPS,
        steps_title="How to listen",
        notes=(
            Note("What you should hear", kind.hear),
            *(() if ear is None else (_ear_note(ear),)),
            Note(
                "What is in the file",
                f"Two channels of 16 bits at {rate} Hz, the lowest rate that carries this frequency, so the file stays "
                "small. The sound fades in and out and never jumps. The side that should be silent holds nothing but "
                "zeros.",
            ),
        ),
        files=(File(_file_name(given["kind"], frequency), "audio/wav", body),),
        cautions=CAUTIONS,
        sources=SOURCES,
    )


def _ear_note(ear: float) -> Note:
    """What the level at the ear means."""
    text = f"With everything at full volume the tone comes to about {number(ear, 0)} dB; at your setting to less. "
    if too_loud(ear):
        text += "That would be too loud for any length of time: turn right down before you start it."
    elif round(ear, 6) >= ADULT_WEEK.level_dba:
        text += f"From {number(ADULT_WEEK.level_dba)} dB on hearing needs care: turn right down before you start it."
    elif ear < _UNHEARD_DB:
        text += "That is near or below what a quiet room leaves to be heard: choose a higher level, in steps of 10 dB."
    else:
        text += "That is a comfortable level for a test."
    return Note("How loud that is at your ear", text)


def _file_name(kind: str, frequency: float) -> str:
    whole = f"{frequency:.10g}".replace(".", "-")
    return f"{kind}-{whole}-hz.wav"


def _drawing(kind: str, frequency: float, seconds: float, level: float) -> Drawing:
    if kind == "sweep":
        growth = frequency / SWEEP_FROM_HZ
        points = [(seconds * i / 60, SWEEP_FROM_HZ * power(growth, i / 60)) for i in range(61)]
        return plot(
            "The sweep",
            f"The tone climbs from {number(SWEEP_FROM_HZ)} to {number(frequency)} Hz, each octave in the same time.",
            Axis("seconds", 0, seconds),
            Axis("Hz", 0, max(frequency, 40)),
            [Line("", points, "fill-1", width=2.5)],
            height=200,
        )
    if kind == "staircase":
        points = []
        for i in range(STAIR_STEPS):
            height = level - STAIR_DB * (STAIR_STEPS - 1 - i)
            points += [(seconds * i / STAIR_STEPS, height), (seconds * (i + 1) / STAIR_STEPS, height)]
        return plot(
            "The staircase",
            f"{STAIR_STEPS} steps of {STAIR_DB} dB, the last at {number(level, 1)} dBFS.",
            Axis("seconds", 0, seconds),
            Axis("dBFS", level - STAIR_DB * STAIR_STEPS, level + STAIR_DB),
            [Line("", points, "fill-1", width=2.5)],
            height=200,
        )
    return _lanes(kind)


def _lanes(kind: str) -> Drawing:
    """Three waves of each side, one above the other."""
    silent = {"left": "right", "right": "left"}.get(kind, "")
    description = {
        "left": "A wave on the left lane; the right lane is flat.",
        "right": "A wave on the right lane; the left lane is flat.",
        "both": "The same wave on both lanes.",
        "reversed": "A wave on the left lane and its mirror image on the right.",
    }[kind]

    def lanes(width: float, pitch: float, size: float) -> Drawing:
        sketch = Sketch("What each side gets", description, 2 * pitch + 4, width)
        for i, side in enumerate(("left", "right")):
            # in a low room the name keeps below the lane's top, and the wave below the name
            middle = pitch * i + max(pitch * 0.54, size * 1.05 + pitch * 0.23)
            base = max(middle - pitch * 0.35, pitch * i + size * 0.8)
            sketch.text(2, base, side, size=size, ink="soft")
            sketch.line(2, middle, width - 2, middle, width=size / SMALL)
            swing = 0.0 if side == silent else pitch * 0.23
            if kind == "reversed" and side == "right":
                swing = -swing
            points = [
                (2 + (width - 4) * t / 120, middle - swing * sine(6.283185307179586 * 3 * t / 120)) for t in range(121)
            ]
            with sketch.later():  # what each side gets is the answer
                sketch.path(points, ink="fill-1" if swing else "soft", width=(2.5 if swing else 1.5) * size / SMALL)
                if not swing:
                    sketch.text(width - 4, middle - size / 2, "silence", size=size, anchor="end", ink="soft")
        return sketch.done(on_screen)

    def on_screen(width: float, height: float, size: float) -> Drawing | None:
        pitch = min(height / 2 - 2, size * 7)
        return lanes(width, pitch, size) if size * 1.1 + pitch * 0.46 <= pitch else None  # name and wave have room

    return lanes(WIDTH, 86, SMALL)


def _worked_for(given: Values) -> str:
    kind, hertz = KINDS[given["kind"]], with_unit(number(given["frequency"]), "Hz")
    what = f"a tone {kind.name}" if given["kind"] != "sweep" else f"a tone {kind.name} up to {hertz}"
    if given["kind"] != "sweep":
        what = what.replace("a tone", f"a tone of {hertz}")
    phrase = f"{what}, {number(given['seconds'])} s at {number(given['level_dbfs'], 1)} dBFS"
    if given.get("max_spl") is not None:
        phrase += f", headphones that reach {number(given['max_spl'], 1)} dB"
    return phrase


calculator = Calculator(
    name="audio.tones",
    title="Is left really left?",
    summary="A quiet test sound to play and save: left, right, both, one side reversed, a sweep, a staircase.",
    inputs=(
        Choice(
            key="kind",
            label="Sound",
            where_title=HOW_TO_CHOOSE,
            where="Your choice. Begin with 'left only'.",
            names=("sound", "test sound", "test tone", "channel"),
            options=tuple(Option(key, kind.label, _EVERYDAY.get(key, ())) for key, kind in KINDS.items()),
            default="left",
        ),
        Number(
            key="frequency",
            label="Frequency",
            names=("hz", "khz", "pitch", "tone"),
            where_title=HOW_TO_CHOOSE,
            where="Your choice. 500 Hz is easy on the ears; a sweep climbs from 20 Hz to this.",
            low=20,
            high=20000,
            unit="Hz",
            default=500,
            also={"kHz": 1000},
        ),
        Number(
            key="seconds",
            label="Length",
            names=("duration", "seconds", "how long"),
            where_title=HOW_TO_CHOOSE,
            where="Your choice. A sweep and a staircase want at least five seconds.",
            low=0.5,
            high=10,
            unit="s",
            default=2,
            also={"sec": 1, "seconds": 1},
        ),
        Number(
            key="level_dbfs",
            label="Level",
            names=("dbfs", "volume"),
            where=(
                "Leave it at −60 for the first sound. 0 would be the loudest that a file can hold; this page makes "
                f"nothing above {number(_LOUDEST_DBFS)}."
            ),
            low=_QUIETEST_DBFS,
            high=_LOUDEST_DBFS,
            unit="dBFS",
            default=-60,
            also={"dB": 1},
        ),
        Number(
            key="max_spl",
            label="Loudest level of your headphones here",
            where=(
                "The first figure of 'Are these headphones too quiet, or too loud, for this output?'. With it, the "
                "answer says how loud the tone is at your ear."
            ),
            names=("max spl", "loudest", "maximum level"),
            optional=True,
            low=0,
            high=170,
            unit="dB",
            also={"dBSPL": 1},
        ),
    ),
    compute=compute,
    version=2,
    worked_for=_worked_for,
    presets=(
        Preset("left", "Left only", {"kind": "left", "frequency": 500, "seconds": 1, "level_dbfs": -60}),
        Preset("right", "Right only", {"kind": "right", "frequency": 500, "seconds": 1, "level_dbfs": -60}),
        Preset("both", "Both sides", {"kind": "both", "frequency": 500, "seconds": 1, "level_dbfs": -60}),
        Preset(
            "reversed", "One side reversed", {"kind": "reversed", "frequency": 500, "seconds": 1, "level_dbfs": -60}
        ),
    ),
)
