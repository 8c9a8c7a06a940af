"""motion.hertz: what a faster display brings: how long a picture stands, how far it jumps, how wide it smears."""

from __future__ import annotations

from itertools import pairwise

from calculators.desk.answer import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    Answer,
    Caution,
    Column,
    Figure,
    Note,
    Source,
    Table,
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.errors import refuse
from calculators.desk.inputs import HOW_TO_TELL, NamedValue, Number, Values
from calculators.desk.numbers import number
from calculators.desk.svg import Drawing
from calculators.motion.drawings.edges import Smear, edges, refresh_line
from calculators.motion.formulas.blur import blur_px, frame_ms, images, shown_rate, step_px
from calculators.motion.wording.shared import ARITHMETIC, BLUR, EYE_FUSION, FLASHING, PHOTOSENSITIVE, exact_notes
from calculators.motion.wording.spreads import ends, say_spread, spread
from calculators.trade.frame_rates import FRAMES_SOURCE, SOURCE, exact_rate, frames_input, rate_input, say_rate
from calculators.trade.links.fitting import gigabits
from calculators.trade.modes.modes import mode
from calculators.trade.ratio import Ratio, exact_ratio

_MOST_SPEED = 20000.0
_USUAL_WIDTH = 1920.0
_DOUBLINGS = (60, 120, 240, 480)
_SIZES = ((1920, 1080), (2560, 1440), (3840, 2160))
_BITS_A_PIXEL = 24  # RGB at 8 bits a channel
_ALL_LIT = Ratio(100)
_A_PX_A_MS = Ratio(1000)  # px/s
_LEAST_TOLD = Ratio(1, 100)  # ms; a smaller gain gets more digits, so that it is not told as none

SOURCES = (
    ARITHMETIC,
    BLUR,
    SOURCE,
    EYE_FUSION,
    Source("ITU-R BT.2246", "motion portrayal: what higher frame frequencies bring", FROM_MEMORY),
    Source("VESA CVT 1.2", "second reduced blanking, for what the link must carry", FROM_MEMORY),
    PHOTOSENSITIVE,
    FRAMES_SOURCE,
    Source("Who notices which step", "", COMMON_PRACTICE),
)


class _Side:
    """One of the two rates with all that follows from it; pairs hold the fewest and the most frames."""

    def __init__(self, typed: float, frames: tuple[Ratio, ...], speed: Ratio, lit: Ratio) -> None:
        self.typed = typed
        self.rate = exact_rate(typed)
        self.frame_ms = frame_ms(self.rate)
        self.shown = tuple(shown_rate(each, self.rate) for each in frames)
        self.steps = tuple(step_px(speed, each) for each in self.shown)
        self.blurs = tuple(blur_px(speed, each, self.rate, lit) for each in self.shown)
        self.images = tuple(images(self.rate, each) for each in self.shown)
        # px at 1000 px/s are ms: from the first light of a picture to its last
        self.stands_ms = tuple(blur_px(_A_PX_A_MS, each, self.rate, lit) for each in self.shown)
        self.speed, self.lit = speed, lit

    def name(self) -> str:
        """Such as '60 Hz'."""
        return f"{number(self.typed, 3)} Hz"

    def blur_words(self, unit: str = "") -> str:
        """The least blur to the most, in words."""
        return say_spread(self.blurs[-1], self.blurs[0], unit, 1)

    def smear(self) -> Smear:
        """The edge to draw; where the frames are a range, with the fewest."""
        if not self.lit.below(_ALL_LIT):
            return Smear(self.name(), self.blurs[0].value, self.frame_ms.value)
        apart = self.speed.per(self.rate)
        lit = apart.by(self.lit).times(1, 100)
        return Smear(
            self.name(), self.blurs[0].value, self.frame_ms.value, apart.value, lit.value, self.images[0].value
        )  # fmt: skip


def compute(given: Values) -> Answer:
    """Both rates, worked out."""
    lit = exact_ratio(given["lit"])
    speed = _speed(given)
    frames = tuple(exact_rate(each) for each in ends(given["frames"]))
    one, other = (_Side(given[key], frames, speed, lit) for key in ("rate_a", "rate_b"))
    gain = one.frame_ms.minus(other.frame_ms)
    dark = lit.below(_ALL_LIT)
    return Answer(
        headline=_headline(one, other, gain),
        figures=_figures(one, other, gain, speed, dark),
        working=_working(one, other, gain, speed, given),
        tables=(_doublings(frames, speed, lit, given), _link_table(one, other)),
        drawings=_drawings(one, other, speed, say_spread(frames[0], frames[-1], "frames/s")),
        notes=(
            *exact_notes(given["rate_a"], given["rate_b"], *ends(given["frames"])),
            *_notes(one, other, frames, dark, given),
        ),
        cautions=_cautions(dark),
        sources=SOURCES,
    )


def _speed(given: Values) -> Ratio:
    """The speed as given, or from the time that something takes to cross the picture. [px/s]"""
    crossing = given.get("crossing")
    if crossing is None:
        return exact_ratio(given["speed"])
    speed = exact_ratio(given.get("width", _USUAL_WIDTH)).per(exact_ratio(crossing))
    if speed.value > _MOST_SPEED:
        raise refuse(
            "crossing",
            f"Time to cross the picture is too short: that would be {number(speed.value, 0)} px/s, and no eye follows "
            f"more than {number(_MOST_SPEED, 0)}. Give a longer time.",
        )
    return speed


def _headline(one: _Side, other: _Side, gain: Ratio) -> str:
    if not gain.over:
        return (
            f"Both are {one.name()}: a refresh takes {number(one.frame_ms.value)} ms, what moves smears "
            f"over {one.blur_words('px')} at best, and nothing changes."
        )
    way = "less" if gain.over > 0 else "more"
    won = number(abs(gain.value), _gain_places(gain))
    took = f"From {number(one.typed, 3)} to {other.name()} a refresh takes {won} ms {way}"
    if other.blur_words() == one.blur_words():
        return f"{took}; what moves smears over {one.blur_words('px')} at best, at both rates."
    return f"{took}; what moves smears over {other.blur_words('px')} at best, not {one.blur_words()}."


def _gain_places(gain: Ratio) -> int:
    """Digits after the point that leave something of the gain."""
    return 2 if not gain.over or _LEAST_TOLD.fits(gain.size()) else 4


def _figures(one: _Side, other: _Side, gain: Ratio, speed: Ratio, dark: bool) -> tuple[Figure, ...]:
    figures = [
        figure("gain_ms", "A refresh is shorter by" if gain.over >= 0 else "A refresh is longer by", abs(gain.value),
               "ms", _gain_places(gain), main=True),
        *spread(
            "blur_px_a", f"Blur at {one.name()}", one.blurs[-1], one.blurs[0], "px", 1,
            main=one.blurs[0].same(one.blurs[-1]),  # of two ranges only the second is shown large: four figures at most
        ),
        *spread("blur_px_b", f"Blur at {other.name()}", other.blurs[-1], other.blurs[0], "px", 1, main=True),
    ]  # fmt: skip
    for side, key in ((one, "a"), (other, "b")):
        name = side.name()
        figures += [
            figure(f"frame_ms_{key}", f"One refresh at {name}", side.frame_ms.value, "ms"),
            *spread(f"shown_{key}", f"Pictures shown at {name}", side.shown[0], side.shown[-1], "a second"),
            *spread(f"step_px_{key}", f"Jump at {name}, resting eye", side.steps[-1], side.steps[0], "px", 1),
        ]
        if dark:
            figures += spread(f"images_{key}", f"Images of each picture at {name}", side.images[-1], side.images[0], "")
    figures.append(figure("speed_px_s", "Speed that the eye follows", speed.value, "px/s", 1))
    return tuple(figures)


def _working(one: _Side, other: _Side, gain: Ratio, speed: Ratio, given: Values) -> tuple[Working, ...]:
    lines = []
    if given.get("crossing") is not None:
        width, crossing = number(given.get("width", _USUAL_WIDTH), 0), number(given["crossing"], 3)
        taken = "" if "width" in given else ", a usual width, as none was given"
        lines.append(
            Working("Speed", "width ÷ time to cross", f"{width} px ÷ {crossing} s{taken}",
                    f"{number(speed.value, 1)} px/s")
        )  # fmt: skip
    for side in (one, other):
        rate, moved = number(side.rate.value, 3), number(speed.value, 1)
        slow = "" if len(side.shown) == 1 else ", with the fewest frames"
        hold = f"1 ÷ {number(side.shown[0].value, 3)}"
        if side.lit.below(_ALL_LIT):
            hold = f"({hold} − (1 − {number(side.lit.value / 100, 4)}) ÷ {rate})"
        lines += [
            Working(f"One refresh at {side.name()}", "1000 ÷ rate", f"1000 ÷ {rate}",
                    f"{number(side.frame_ms.value)} ms"),
            Working(f"Pictures shown at {side.name()}", "the smaller of frames and rate",
                    f"{say_spread(exact_rate(given['frames'].low), exact_rate(given['frames'].high), '')} and {rate}",
                    say_spread(side.shown[0], side.shown[-1], "a second")),
            Working(f"Jump at {side.name()}, resting eye{slow}", "speed ÷ pictures shown",
                    f"{moved} ÷ {number(side.shown[0].value, 3)}", f"{number(side.steps[0].value, 1)} px"),
            Working(f"Blur at {side.name()}, following eye{slow}", "speed × time from first light to last",
                    f"{moved} × {hold}", f"{number(side.blurs[0].value, 1)} px"),
        ]  # fmt: skip
    places = _gain_places(gain)
    finer = places + 1  # else 16.67 − 6.94 stands beside 9.72
    lines.append(
        Working("Gain", "the one − the other",
                f"{number(one.frame_ms.value, finer)} ms − {number(other.frame_ms.value, finer)} ms",
                f"{number(gain.value, places)} ms")
    )  # fmt: skip
    return tuple(lines)


def _doublings(frames: tuple[Ratio, ...], speed: Ratio, lit: Ratio, given: Values) -> Table:
    rows, before = [], None
    for rate in _DOUBLINGS:
        exact = Ratio(rate)
        took = frame_ms(exact)
        full = blur_px(speed, exact, exact, lit)
        own = blur_px(speed, shown_rate(frames[0], exact), exact, lit)
        gain = "–" if before is None else number(before.minus(took).value)
        rows.append((f"{rate} Hz", number(took.value), gain, number(full.value, 1), number(own.value, 1)))
        before = took
    return Table(
        title="Step by step, each rate twice the one before",
        columns=(
            Column("Rate"), Column("Refresh, ms", True), Column("Gained, ms", True),
            Column("Blur with as many frames, px", True),
            Column(f"Blur with {number(frames[0].value, 3)} frames, px", True),
        ),
        rows=tuple(rows),
        note="Each doubling brings half of what the one before brought. Blur is at best: slow pixels add to it.",
        marked=tuple(i for i, rate in enumerate(_DOUBLINGS) if rate in (given["rate_a"], given["rate_b"])),
    )  # fmt: skip


def _link_table(one: _Side, other: _Side) -> Table:
    rows = []
    for width, height in _SIZES:
        cells = [
            gigabits(mode(width, height, side.typed, "cvt-rb2").clock.times(_BITS_A_PIXEL), 1)
            for side in (one, other)
        ]  # fmt: skip
        rows.append((f"{width} × {height}", *cells))
    return Table(
        title="What the link must carry",
        columns=(Column("Picture"), Column(f"At {one.name()}", True), Column(f"At {other.name()}", True)),
        rows=tuple(rows),
        note="RGB at 8 bits a channel with the shortest blanking. The answer on cables and ports says which link "
        "carries it.",
    )


def _drawings(one: _Side, other: _Side, speed: Ratio, made: str) -> tuple[Drawing, ...]:
    smears = (one.smear(), other.smear())
    description = (
        f"The same dark edge on a light ground, twice, to one scale. At {one.name()} it is smeared over "
        f"{number(smears[0].blur, 1)} pixels, at {other.name()} over {number(smears[1].blur, 1)}."
        + ("" if len(one.blurs) == 1 else " Drawn for the fewest frames.")
    )
    line = (
        f"Strokes on one line of time: at {one.name()} a refresh every {number(one.frame_ms.value)} ms, at "
        f"{other.name()} every {number(other.frame_ms.value)} ms."
    )
    return edges(smears, (f"{number(speed.value, 0)} px/s", made), description), refresh_line(smears, line)


def _notes(
    one: _Side, other: _Side, frames: tuple[Ratio, ...], dark: bool, given: Values
) -> tuple[Note, ...]:  # fmt: skip
    steps = [frame_ms(Ratio(rate)) for rate in _DOUBLINGS]
    won = [number(a.minus(b).value) for a, b in pairwise(steps)]
    notes = [
        Note(
            "Each doubling brings half as much",
            f"From 60 to 120 Hz a refresh gets {won[0]} ms shorter, from 120 to 240 Hz {won[1]} ms, from 240 to 480 Hz "
            f"{won[2]} ms. The wait halves each time, and so does what you gain.",
        )
    ]
    faster = one if other.rate.below(one.rate) else other
    if frames[0].below(faster.rate):
        sooner = "more often, which smears" if dark else "a little sooner"
        fewer = f", fewer than {faster.name()} could show"
        if not frames[-1].below(faster.rate):
            fewer = f": at times fewer than {faster.name()} could show"
        notes.append(
            Note(
                "Frames set the blur, the rate only the wait",
                f"The machine makes {say_spread(frames[0], frames[-1], 'frames a second')}{fewer}. Blur and jumps go "
                f"by the frames; the faster display then only shows each of them {sooner}. To gain the rest, the "
                "machine must make more frames.",
            )
        )
    if dark:
        notes.append(
            Note(
                "Dark between pictures",
                "A display that goes dark in each refresh smears less, and is dimmer. It wants as many frames as "
                "refreshes: with fewer, each picture flashes more than once, and a following eye sees the edge "
                "several times side by side. Some people see the flicker or get headaches from it.",
            )
        )
    if given.get("crossing") is not None:
        notes.append(Note("The speed", "It comes from the time to cross the picture; the field for the speed rests."))
    elif "width" in given:
        notes.append(
            Note("The width is not used", "It counts only together with the time to cross the picture: give that, too.")
        )
    notes += [
        Note(
            "At best",
            "These numbers are for pixels that change at once. Real ones take time, and that adds to the smear.",
        ),
        Note(
            "'1 ms' is another thing",
            "A response time says how fast a pixel changes. The smear here comes from how long a picture stands while "
            f"your eye moves on: {say_spread(one.stands_ms[-1], one.stands_ms[0], 'ms')} at {one.name()}, however fast "
            "the pixels are.",
        ),
        Note(
            "What the eye can tell",
            "Steady light stops flickering for us at 50 to 90 Hz, by the research named below; moving edges can still "
            "show flicker above 500 Hz. Most people see 60 against 120 at once, fewer see 144 against 240 side by "
            "side: common practice, no source. Try before you pay.",
        ),
        Note(
            "The link must carry it",
            f"A faster rate needs a faster link: see the table. Whether your own socket and cable carry "
            f"{faster.name()} is worked out by the answer 'Will this cable and port carry my resolution at my refresh "
            "rate?'.",
        ),
    ]
    return tuple(notes)


def _cautions(dark: bool) -> tuple[Caution, ...]:
    if not dark:
        return (FLASHING,)
    return (
        Caution(
            "person",
            "Black between pictures is flicker, even if you do not see it: it can give headaches, and it can harm "
            "photosensitive people.",
            "Switch it off if you feel unwell; who knows of such a condition follows their doctor's advice.",
            first=True,
            short="Dark frames can harm photosensitive people.",
            tag="Seizure risk",
        ),
    )


def worked_for(given: Values) -> str:
    """Both rates, the frames and the speed."""
    speed = f"{number(_speed(given).value, 1)} px/s"
    lit = f", lit {given.say('lit')} of the time" if given["lit"] < 100 else ""
    rates = f"{say_rate(given['rate_a'])} against {say_rate(given['rate_b'])}"
    return f"{rates}, {given.say('frames')}, {speed}{lit}"


_RATE_WHERE = "The system's advanced display settings show what is set; the display's data sheet what it can do."

calculator = Calculator(
    name="motion.hertz",
    version=2,
    title="How many hertz do I need?",
    summary="Two refresh rates compared: how long a picture stands, how far it jumps, how wide motion smears.",
    inputs=(
        rate_input(
            key="rate_a", label="Rate now", where=_RATE_WHERE, default=60, names=("hz", "hertz", "refresh rate", "old")
        ),
        rate_input(
            key="rate_b", label="Rate to compare", where=_RATE_WHERE, default=144,
            names=("hz", "hertz", "refresh rate", "new"),
        ),
        frames_input(
            where="A counter in the game or in the card's driver shows it. Take what it shows in the middle of a game.",
            default=100,
        ),
        Number(
            where_title=HOW_TO_TELL,
            key="speed",
            label="Speed that the eye follows",
            where="Nobody knows it by number: a slow pan is about 500, a turn in a game 1000 to 3000 pixels a second.",
            low=0,
            high=_MOST_SPEED,
            unit="px/s",
            default=1000,
            also={"pixels/s": 1, "pixels a second": 1, "pixels per second": 1},
            names=("speed", "pixels per second"),
            named=(
                NamedValue(300, "reading while scrolling", ("scrolling",)),
                NamedValue(1000, "a pan in a game", ("pan",)),
                NamedValue(3000, "a fast turn", ("turn",)),
            ),
        ),
        Number(
            where_title=HOW_TO_TELL,
            key="crossing",
            label="Time to cross the picture",
            where="Count how long something takes from one side of the picture to the other; it sets the speed, then.",
            low=0.01,
            high=1000,
            such_as=2,
            unit="s",
            optional=True,
            extra=True,
            also={"seconds": 1, "second": 1, "sec": 1},
            note="instead of the speed",
            names=("crosses my screen in",),
        ),
        Number(
            key="width",
            label="Width of the picture",
            where="The system's display settings, as the first number of the resolution; 1920 is taken if left empty.",
            low=64,
            high=16384,
            such_as=2560,
            unit="px",
            optional=True,
            extra=True,
            whole=True,
            also={"pixels": 1, "pixel": 1},
            note="only with the time to cross",
        ),
        Number(
            key="lit",
            label="Part of each refresh that is lit",
            where="100 unless the display goes dark between pictures; its manual may give the share for that mode.",
            low=1,
            high=100,
            unit="%",
            default=100,
            extra=True,
            also={"percent": 1},
            names=("strobing", "black frames", "backlight strobe"),
        ),
    ),
    compute=compute,
    presets=(
        Preset("60-to-144", "60 or 144 Hz, 100 frames a second", {"rate_a": 60, "rate_b": 144, "frames": 100}),
        Preset("144-to-240", "144 or 240 Hz, 120 frames a second", {"rate_a": 144, "rate_b": 240, "frames": 120}),
        Preset("240-to-480", "240 or 480 Hz, 400 frames a second", {"rate_a": 240, "rate_b": 480, "frames": 400}),
        Preset("desk", "60 or 120 Hz at the desk, scrolling", {"rate_a": 60, "rate_b": 120, "frames": 120,
                                                               "speed": 300}),
        Preset("dark", "60 or 120 Hz, lit a quarter of the time", {"rate_a": 60, "rate_b": 120, "frames": 120,
                                                                   "lit": 25}),
    ),
    worked_for=worked_for,
)  # fmt: skip
