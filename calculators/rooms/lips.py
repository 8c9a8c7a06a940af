"""rooms.lips: how far sound and picture are apart where one sits, and what to set."""

from __future__ import annotations

from calculators.desk.answer import (
    COMMON_PRACTICE,
    DEPENDS,
    FROM_MEMORY,
    NO,
    YES,
    Answer,
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
from calculators.desk.inputs import HOW_TO_TELL, Estimate, Everyday, NamedValue, Number, Span, Values
from calculators.desk.numbers import number, settled
from calculators.rooms.lipsync.offset_drawing import draw, say_offset
from calculators.rooms.lipsync.sound_travel import speed_m_s, travel_ms
from calculators.rooms.lipsync.sync_tolerances import ACCEPTABLE, ATSC, DETECTABLE, EBU, TOLERANCES, judged
from calculators.rooms.lipsync.sync_tolerances import SOURCES as TOLERANCE_SOURCES
from calculators.rooms.wording.cautions import EARS
from calculators.rooms.wording.ranges import ranged, say_range
from calculators.rooms.wording.units import METRES, MILLISECONDS

SOURCES = (
    *TOLERANCE_SOURCES,
    Source("Speed of sound in dry air, handbooks of acoustics", "331.3 m/s at 0 °C", FROM_MEMORY),
    Source("What televisions, sound bars and wireless headphones usually take", "", COMMON_PRACTICE),
)


def compute(given: Values) -> Answer:
    """Picture's delay against the sound's, air included."""
    picture: Span = given["picture_ms"]
    sound: Span = given["sound_ms"]
    distance, temperature = given["distance_m"], given["temperature_c"]
    speed = speed_m_s(temperature)
    air = travel_ms(distance, temperature)
    low = settled(picture.low - (sound.high + air))
    high = settled(picture.high - (sound.low + air))
    exact = picture.exact and sound.exact
    word = judged(low, high)
    return Answer(
        headline=_headline(word, low, high, exact),
        verdict=_verdict(word, low, high, exact),
        figures=_figures(low, high, exact, air, speed),
        working=_working(given, picture, sound, speed, air, low, high),
        tables=(_table(low, high),),
        drawings=(
            draw(
                "Your sound against three yardsticks",
                f"Four bands around 'in step': {_yardsticks()}. Yours: sound {say_offset(low, high)}.",
                low, high, f"Yours: {say_offset(low, high, 0)}",
            ),
        ),
        notes=_notes(low, high),
        cautions=(EARS,),
        sources=SOURCES,
    )  # fmt: skip


def _yardsticks() -> str:
    return "; ".join(f"{one.name} {one.say()}" for one in TOLERANCES)


def _headline(word: str, low: float, high: float, exact: bool) -> str:
    offset = say_offset(low, high, 0)
    if offset == "in step":
        return "Sound and picture are in step where you sit; there is nothing to set."
    if word == YES:
        return f"The sound is {offset}, which most viewers do not notice, so nothing needs setting."
    if "late" not in offset and not exact:  # nobody can set a range
        return f"The sound is {offset}: film a clap, and delay the sound by what it shows."
    if "late" not in offset:
        return f"The sound is {offset}: delay the sound by {say_range(low, high, 'ms', 0)}."
    if "early" not in offset:
        return f"The sound is {offset}: shorten its path, or delay the picture, for sound cannot be hurried."
    return f"The sound is {offset}: film a clap to know which, before you set anything."


def _verdict(word: str, low: float, high: float, exact: bool) -> Verdict:
    if word == YES:
        says = "In step." if say_offset(low, high, 0) == "in step" else "Not noticed."
        return Verdict(YES, "Most viewers would not notice that.", says)
    if word == NO:
        side = "early" if low > 0 else "late"
        return Verdict(NO, f"The sound is {side} by more than most viewers put up with.", "Apart.")
    if not exact and not (ACCEPTABLE.holds(low) and ACCEPTABLE.holds(high)):
        return Verdict(
            DEPENDS, "The range runs from what passes to what annoys: film a clap.", "Not known well enough."
        )
    if not exact and (DETECTABLE.holds(low) or DETECTABLE.holds(high)):
        return Verdict(DEPENDS, "One end of the range is noticed and the other is not: film a clap.", "Perhaps.")
    return Verdict(DEPENDS, "Noticed by some viewers, put up with by most.", "Just about.")


def _figures(low: float, high: float, exact: bool, air: float, speed: float) -> tuple[Figure, ...]:
    return (
        *ranged("offset_ms", "Sound early (minus: late)", low, high, exact, "ms", 1, main=True),
        *ranged("delay_sound_ms", "Delay the sound by", max(0, low), max(0, high), exact, "ms", 1, main=high > 0),
        figure("air_ms", "Through the air", air, "ms", 1),
        figure("speed_m_s", "Speed of sound", speed, "m/s", 1),
    )


def _working(
    given: Values, picture: Span, sound: Span, speed: float, air: float, low: float, high: float
) -> tuple[Working, ...]:  # fmt: skip
    shown, heard = say_range(picture.low, picture.high, "ms"), say_range(sound.low, sound.high, "ms")
    return (
        Working("Speed of sound", "331.3 × √(1 + t ÷ 273.15)",
                f"331.3 × √(1 + {number(given['temperature_c'], 1)} ÷ 273.15)", f"{number(speed, 1)} m/s"),
        Working("Through the air", "1000 × distance ÷ speed",
                f"1000 × {number(given['distance_m'], 2)} ÷ {number(speed, 1)}", f"{number(air, 1)} ms"),
        Working("Sound early", "picture − (sound + air)", f"{shown} − ({heard} + {number(air, 1)} ms)",
                say_range(low, high, "ms")),
        Working("Delay the sound", "that, but not below 0", say_range(low, high, "ms"),
                say_range(max(0, low), max(0, high), "ms")),
    )  # fmt: skip


def _table(low: float, high: float) -> Table:
    rows = []
    for one in TOLERANCES:
        inside = [one.holds(low), one.holds(high)]
        word = "within" if all(inside) else "partly" if any(inside) or (low < 0 < high) else "outside"
        rows.append((one.name, one.say().removesuffix(" ms"), word, one.what))
    return Table(
        title="Three yardsticks",
        columns=(Column("Yardstick"), Column("Early/late, ms", True), Column("Yours"), Column("What it is")),
        rows=tuple(rows),
        note="Plus: the sound comes first. The verdict goes by BT.1359-1, which asked viewers; the other two are for "
        "those who broadcast, whose share of the error must be small, since more is added at home.",
    )


def _notes(low: float, high: float) -> tuple[Note, ...]:
    notes = [
        Note(
            "The three numbers",
            f"BT.1359-1: noticed beyond {DETECTABLE.say()}, no longer put up with beyond {ACCEPTABLE.say()}. EBU R37: "
            f"{EBU.say()} and ATSC IS-191: {ATSC.say()}, both for a broadcaster's own chain.",
        ),
        Note(
            "How to find your own numbers",
            "Play a film of one loud clap. Film screen and loudspeaker with "
            "a telephone at 120 frames a second or more, from where you sit. Count the frames from the hands meeting "
            f"on the screen to the sound's first peak: at 120 each is {number(1000 / 120, 1)} ms, at 240 half of that. "
            "Repeat five times and take the middle one. Clap once before the telephone itself: what is apart there is "
            "the telephone's own, so take it off. What is left is the whole difference, air included. If the sound "
            "came first, put it in at 'Picture takes', else at 'Sound takes', and 0 at the other and at the distance.",
        ),
    ]
    if low < 0:
        notes.append(
            Note(
                "Sound that is late",
                "No setting can hurry it. Shorten its path: a wire instead of the air, headphones in a fast mode, the "
                "sound taken from the machine and not behind the television. Or delay the picture: many players have "
                "a setting for it. In a game the picture must not wait, so the path is all there is.",
            )
        )
    if high > 0:
        notes.append(
            Note(
                "Sound that is early",
                "Look for a sound delay in the player, the television, the sound bar or the amplifier, and set it in "
                "one of them only. Switch the television to its quickest picture mode first: then there is less to "
                "make up for.",
            )
        )
    return tuple(notes)


def _worked_for(given: Values) -> str:
    picture, sound = given["picture_ms"], given["sound_ms"]
    return (
        f"a picture that takes {say_range(picture.low, picture.high, 'ms')}, a sound that takes "
        f"{say_range(sound.low, sound.high, 'ms')}, {number(given['distance_m'], 1)} m of air at "
        f"{number(given['temperature_c'], 1)} °C"
    )


calculator = Calculator(
    name="rooms.lips",
    version=2,
    title="Why are the lips late?",
    summary="How early or late the sound is where you sit, against what viewers notice, and what to set.",
    inputs=(
        Estimate(
            where_title=HOW_TO_TELL,
            key="picture_ms",
            label="Picture takes",
            where="Nobody knows it by heart: film a clap (below), take an independent measurement, or choose.",
            low=0,
            high=2000,
            unit="ms",
            default=120,
            also=MILLISECONDS,
            choices=(
                Everyday("game", "television, game mode", 10, 25, ("game mode", "gaming mode", "low latency mode")),
                Everyday("film", "television, film mode", 50, 150,
                         ("film mode", "cinema mode", "movie mode", "standard mode")),
                Everyday("monitor", "computer monitor", 3, 15, ("screen", "desk monitor")),
                Everyday("stream", "streamed from another room", 60, 250, ("streaming", "wireless display")),
            ),
            unsure_low=10,
            unsure_high=250,
            names=("projector", "television", "tv", "picture", "image", "picture delay", "video delay", "video lag",
                "tv lag", "input lag", "picture late"),
        ),
        Estimate(
            where_title=HOW_TO_TELL,
            key="sound_ms",
            label="Sound takes",
            where="As for the picture: film a clap. Wires take next to nothing, radio headphones a lot.",
            low=0,
            high=2000,
            unit="ms",
            default=20,
            also=MILLISECONDS,
            choices=(
                Everyday("wire", "by wire", 0, 5, ("wired", "cable", "jack", "analog", "analogue")),
                Everyday("bar", "sound bar or amplifier", 10, 80, ("soundbar", "sound bar", "receiver", "amp")),
                Everyday("radio", "wireless headphones", 100, 300, ("wireless headset", "wireless earbuds", "earbuds")),
                Everyday("fast-radio", "wireless, fast mode or own stick", 15, 60, ("dongle", "low latency")),
            ),
            unsure_low=0,
            unsure_high=300,
            names=("bluetooth", "speakers", "soundbar", "sound", "audio", "earbuds", "buds", "headphones", "headset",
                "sound delay",
                "audio delay", "audio lag", "sound lag", "sound late"),
        ),
        Number(
            where_title=HOW_TO_TELL,
            key="distance_m",
            label="From loudspeaker to ear",
            where="Measure with a tape, or count steps; 0 for headphones.",
            low=0,
            high=100,
            unit="m",
            default=3,
            also=METRES,
            named=(NamedValue(0, "headphones", ("headset", "earphones")),),
            names=("distance", "away", "from the speakers"),
        ),
        Number(
            key="temperature_c",
            label="Temperature of the air",
            where="A room thermometer; it matters little.",
            low=-20,
            high=50,
            unit="°C",
            default=20,
            extra=True,
            also={"C": 1, "degrees": 1, "°": 1},
            names=("temperature",),
        ),
    ),
    compute=compute,
    worked_for=_worked_for,
    presets=(
        Preset("television", "Television 120 ms, sound 20 ms", {"picture_ms": 120, "sound_ms": 20, "distance_m": 3}),
        Preset("headphones", "Wireless headphones, game mode",
               {"picture_ms": "game", "sound_ms": "radio", "distance_m": 0}),
        Preset("bar", "Sound bar, film mode", {"picture_ms": "film", "sound_ms": "bar", "distance_m": 3}),
        Preset("hall", "A hall, 30 m away", {"picture_ms": 20, "sound_ms": 5, "distance_m": 30}),
        Preset("late", "Sound 200 ms late", {"picture_ms": 30, "sound_ms": 230, "distance_m": 0}),
    ),
)  # fmt: skip
