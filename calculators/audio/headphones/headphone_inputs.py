"""
A viewer's headphones on their output: the inputs that audio.level and audio.noise share, and what comes out.

A number that the viewer is not sure of stands for its usual range; results are then worked out at every corner
of the ranges, so that a result is a span as well. Knows the inputs' keys; words nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from calculators.audio.headphones.headphone_circuit import decibels, load_volts, per_milliwatt, per_volt
from calculators.audio.headphones.typical_values import (
    HEADPHONE_OPTIONS,
    OUTPUT_OPTIONS,
    UNKNOWN,
    headphone_kind,
    output_kind,
)
from calculators.desk.errors import refuse
from calculators.desk.inputs import HOW_TO_CHOOSE, HOW_TO_TELL, Choice, Input, NamedValue, Number, Option, Values
from calculators.desk.numbers import number, with_unit

_HEADPHONES, _OUTPUT = "The headphones", "The output"


@dataclass(frozen=True, slots=True)
class Point:
    """One possible truth: headphones and output with definite numbers."""

    db_mw: float
    db_v: float
    ohm: float
    source_volts: float
    source_ohm: float
    limit_ma: float | None

    @property
    def volts(self) -> float:
        """Highest undistorted voltage at the headphone. [V rms]"""
        return load_volts(self.source_volts, self.source_ohm, self.ohm, self.limit_ma)

    @property
    def max_spl(self) -> float:
        """Highest undistorted level. [dB SPL]"""
        return self.db_v + decibels(self.volts)


@dataclass(frozen=True, slots=True)
class Span:
    """A result: one number, or the two ends of a range."""

    low: float
    high: float

    @property
    def exact(self) -> bool:
        """Whether both ends are the same number."""
        return abs(self.high - self.low) <= 1e-9 * max(1.0, abs(self.low))


def points(given: Values, source_key: str = "source_impedance", output_key: str = "output") -> list[Point]:
    """
    Every corner of what the viewer is not sure of; one point where all is known.

    Between corners the level has at most one more extreme, where impedance and source impedance are equal, and
    one kink, where the current limit takes over; both are corners too.
    """
    kind, output = headphone_kind(given["headphones"]), output_kind(given[output_key])
    known = given["sensitivity"]
    sensitivities = [known] if known is not None else [kind.db_mw.low, kind.db_mw.high]
    by_volt = known is not None and given["sensitivity_unit"] == "db_v"
    impedance, volts, source = given["impedance"], given["source_volts"], given[source_key]
    all_volts = [volts] if volts is not None else [output.volts.low, output.volts.high]
    all_sources = [source] if source is not None else [output.ohm.low, output.ohm.high]
    limit = given.get("source_current")
    corners = []
    for u in all_volts:
        for r in all_sources:
            ohms = [impedance]
            if impedance is None:
                low, high = kind.ohm.low, kind.ohm.high
                kink = [1000 * u / limit - r] if limit is not None else []
                ohms = [low, high, *(z for z in (r, *kink) if low < z < high)]
            for z in ohms:
                for s in sensitivities:
                    db_mw, db_v = (per_milliwatt(s, z), s) if by_volt else (s, per_volt(s, z))
                    corners.append(Point(db_mw, db_v, z, u, r, limit))
    return corners


def span_of(corners: Iterable[Point], result: Callable[[Point], float]) -> Span:
    """The smallest and the largest of a result over all corners."""
    values = [result(point) for point in corners]
    return Span(min(values), max(values))


_SHORT_HEADPHONES = {
    "in-ear": "in-ear headphones",
    "portable": "portable headphones",
    "studio": "studio headphones",
    "planar": "planar headphones",
}
_SHORT_OUTPUTS = {
    "rear": "a line output at the back",
    "front": "a headphone socket at the front",
    "portable": "a laptop's headphone socket",
    "usb": "a small USB sound adapter",
    "amplifier": "a headphone amplifier",
}


def headphones_in_words(given: Values) -> str:
    """The viewer's headphones in a phrase: their numbers, or their kind where these are not known."""
    sensitivity, impedance = given["sensitivity"], given["impedance"]
    unit = "dB/V" if given["sensitivity_unit"] == "db_v" else "dB/mW"
    known = [with_unit(number(sensitivity, 1), unit)] if sensitivity is not None else []
    known += [with_unit(number(impedance, 1), "Ω")] if impedance is not None else []
    kind = given["headphones"]
    named = _SHORT_HEADPHONES.get(kind, "headphones")
    if not known:
        return f"{named}, numbers not known," if kind != UNKNOWN else "headphones that nobody knows the numbers of,"
    return f"{'headphones' if len(known) == 2 else named} of {' and '.join(known)}"


def output_in_words(given: Values) -> str:
    """The viewer's output in a phrase: its numbers, or its kind where these are not known."""
    volts, source = given["source_volts"], given["source_impedance"]
    behind = "" if source is None else f" behind {with_unit(number(source, 2), 'Ω')}"
    if volts is None:
        return _SHORT_OUTPUTS.get(given["output"], "an output that is not known") + behind
    return with_unit(number(volts, 3), "V") + behind


def check_impedances(given: Values) -> tuple[float, float] | None:
    """The lowest and the highest impedance over frequency, where both are given; refused the wrong way round."""
    low, high = given.get("impedance_low"), given.get("impedance_high")
    if low is None or high is None:
        return None
    if low > high:
        raise refuse(
            "impedance_low",
            "Lowest impedance must not be above the highest impedance: give the lower of the two here.",
        )
    return low, high


def inputs(folded: tuple[str, ...] = ()) -> tuple[Input, ...]:
    """The inputs that audio.level and audio.noise share, in the order of the form; some behind the fold."""
    return tuple(replace(one, extra=True) if one.key in folded else one for one in _all_inputs())


def _all_inputs() -> tuple[Input, ...]:
    return (
        Number(
            key="sensitivity",
            label="Sensitivity",
            where=(
                "The data sheet in the box or on the maker's site, often called SPL or efficiency. It comes in two "
                "units: choose the right one below. Not sure? Then the usual range is taken, and the answer says so."
            ),
            group=_HEADPHONES,
            names=("db", "spl", "efficiency", "loudness", "db/mw", "db/v"),
            low=40,
            high=160,
            unit="dB",
            default=100,
            unsure=True,
            also={"dBSPL": 1, "dB/mW": 1, "dB/V": 1, "dBSPL/mW": 1, "dBSPL/V": 1},
        ),
        Choice(
            key="sensitivity_unit",
            label="Sensitivity is for",
            where=(
                "Beside the number: dB/mW, dB SPL at 1 mW or 'per milliwatt' is the first; dB/V, dB SPL at 1 V rms or "
                "'per volt' the second. With neither, a number below 108 for large headphones is most likely per mW."
            ),
            group=_HEADPHONES,
            options=(
                Option("db_mw", "one milliwatt (dB/mW)", ("per milliwatt", "db/mw", "per mw", "db at 1 mw")),
                Option(
                    "db_v",
                    "one volt (dB/V)",
                    ("db/v", "per volt", "at 1 v rms", "db at 1 v", "db @ 1 v", "db @ 1vrms", "db at 1 vrms"),
                ),
            ),
            default="db_mw",
        ),
        Number(
            key="impedance",
            label="Impedance",
            where=(
                "On the ear cup, the plug or the data sheet, in ohms (Ω). A multimeter across tip and sleeve of the "
                "unplugged headphones reads a little less than it."
            ),
            group=_HEADPHONES,
            names=("ohm", "ohms", "headphone impedance", "resistance"),
            low=1,
            high=10000,
            unit="Ω",
            default=32,
            unsure=True,
            also={"ohm": 1, "ohms": 1},
        ),
        Choice(
            key="headphones",
            label="Kind of headphones",
            where_title=HOW_TO_TELL,
            where="By looking. It matters only for numbers that are 'not sure': it picks their usual range.",
            group=_HEADPHONES,
            names=("headphones", "headset", "earphones", "cans"),
            options=HEADPHONE_OPTIONS,
            default="unknown",
        ),
        Number(
            key="impedance_low",
            label="Lowest impedance over frequency",
            where="The lowest point of an impedance curve in the maker's or a tester's measurements.",
            group=_HEADPHONES,
            extra=True,
            optional=True,
            low=1,
            high=10000,
            unit="Ω",
            also={"ohm": 1, "ohms": 1},
        ),
        Number(
            key="impedance_high",
            label="Highest impedance over frequency",
            where="The highest point of the same curve: often a hump near 100 Hz, or the treble of in-ear models.",
            group=_HEADPHONES,
            extra=True,
            optional=True,
            low=1,
            high=10000,
            unit="Ω",
            also={"ohm": 1, "ohms": 1},
        ),
        Number(
            key="source_volts",
            label="Highest undistorted voltage",
            where=(
                "The data sheet of board, adapter or amplifier: 'full-scale output' or 'maximum output', in V rms, "
                "with nothing plugged in. Measured: play a 20 dB quieter tone at full volume, read it with a meter "
                "on AC with the headphones unplugged, and multiply by ten."
            ),
            group=_OUTPUT,
            names=("volt", "volts", "voltage", "vrms", "output voltage", "line level"),
            low=0.001,
            high=100,
            unit="V",
            default=1,
            unsure=True,
            also={"Vrms": 1, "mV": 0.001, "mVrms": 0.001},
        ),
        Number(
            key="source_impedance",
            label="Source impedance",
            where=(
                "The data sheet, as 'output impedance'. Measured: read a quiet tone with a meter, once alone and once "
                "with a resistor across; the answer below shows the sum."
            ),
            group=_OUTPUT,
            names=(
                "output impedance",
                "output resistance",
                "source resistance",
                "ohm output",
                "output imp",
                "output z",
            ),
            low=0,
            high=10000,
            unit="Ω",
            default=10,
            unsure=True,
            also={"ohm": 1, "ohms": 1},
        ),
        Choice(
            key="output",
            label="Kind of output",
            where_title=HOW_TO_TELL,
            where="By looking where the plug goes. It picks the usual range for numbers that are 'not sure'.",
            group=_OUTPUT,
            names=("output", "socket", "jack", "dac", "sound card", "soundcard", "amp"),
            options=OUTPUT_OPTIONS,
            default="unknown",
        ),
        Number(
            key="source_current",
            label="Current limit",
            where="The data sheet of an amplifier or adapter, in mA; many do not say. Leave it empty then.",
            group=_OUTPUT,
            names=("current", "milliamps"),
            extra=True,
            optional=True,
            low=0.1,
            high=10000,
            unit="mA",
            also={"A": 1000},
        ),
        Number(
            key="wanted_peak",
            label="Peaks you want to reach",
            where_title=HOW_TO_CHOOSE,
            where=(
                "Your choice; the buttons name three. With peaks of 100 dB, music averages about 86 dB, which is "
                "lively. More is for moments, not for listening."
            ),
            group="The listening",
            names=("peak", "peaks", "loudest", "wanted level"),
            low=40,
            high=115,
            unit="dB",
            default=100,
            also={"dBSPL": 1},
            named=(
                NamedValue(90, "speech and games", ("speech", "games", "gaming", "talk")),
                NamedValue(100, "music", ()),
                NamedValue(110, "an orchestra's loudest moment", ("orchestra", "classical")),
            ),
        ),
        Number(
            where_title=HOW_TO_TELL,
            key="crest",
            label="From average up to peak",
            where="About 8 dB in loud modern music, 14 in much other music, 20 in orchestral recordings.",
            group="The listening",
            names=("crest", "crest factor", "dynamic range"),
            extra=True,
            low=0,
            high=40,
            unit="dB",
            default=14,
        ),
    )
