"""colour.levels: source and display each on full or limited range: what does one see, and what to change first?"""

from __future__ import annotations

from calculators.colour.signals.quantisation_range import (
    FULL,
    LIMITED,
    Losses,
    chroma_codes,
    codes,
    losses,
    luminance,
    sent,
    shown,
)
from calculators.desk.answer import (
    FROM_MEMORY,
    NO,
    YES,
    Answer,
    Caution,
    Figure,
    Note,
    Source,
    Step,
    Verdict,
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Axis, Line, plot
from calculators.desk.errors import refuse
from calculators.desk.inputs import Choice, Number, Option, Values
from calculators.desk.numbers import number, plural, significant
from calculators.desk.svg import SMALL, WIDTH, Drawing, Sketch
from calculators.trade.modes.picture_inputs import DEPTH_NAMES, DEPTHS

_RANGES = (
    Option(FULL, "full range", ("full", "full rgb", "0-255", "pc levels", "rgb full")),
    Option(LIMITED, "limited range", ("limited", "16-235", "video levels", "rgb limited", "narrow")),
)

SOURCES = (
    Source("ITU-R BT.709-6", "item 3.4, narrow range at 8 and 10 bits", FROM_MEMORY),
    Source("ITU-R BT.2100-2", "table 9, narrow and full range at 10 and 12 bits", FROM_MEMORY),
    Source("CTA-861-I", "default RGB range of television and computer formats", FROM_MEMORY),
    Source(
        "Power law above the display's own black", "the model of this page; BT.1886 differs near black", FROM_MEMORY
    ),
)

_SEEN = {
    (FULL, LIMITED): "Clipped.",
    (LIMITED, FULL): "Grey and flat.",
}


def compute(given: Values) -> Answer:
    """What one pair of settings does to black, white and everything between."""
    source, display, depth = given["source"], given["display"], int(given["depth"])
    gamma, peak, black = given["gamma"], given["peak"], given["black"]
    if not black < peak:
        raise refuse("black", f"Black must be darker than white: below {number(peak, 4)} cd/m², such as 0.25.")
    low, high = codes(source, depth)
    ends = tuple(shown(code, display, depth) for code in (low, high))
    black_lum, white_lum = (luminance(signal, gamma, peak, black) for signal in ends)
    lost = losses(source, display, depth)
    return Answer(
        headline=_headline(source, display, depth, lost, black_lum, white_lum),
        verdict=_verdict(source, display, depth, lost),
        figures=_figures(low, high, lost, depth, black_lum, white_lum),
        working=_working(source, display, depth, lost, ends, (black_lum, white_lum), (gamma, peak, black)),
        steps=_steps(source, display),
        steps_title="Which setting first",
        drawings=(_ramps(source, display, depth, lost), _transfer(source, display, depth)),
        notes=_notes(source, display, depth, black_lum, white_lum),
        cautions=(
            Caution(
                "person",
                "A full-screen test picture with hard contrast can trouble photosensitive people, even a still one.",
                "Look away if it is unpleasant, and ask first when others watch.",
                short="Pattern-sensitive? Let others look.",
                tag="Seizure risk",
            ),
            Caution(
                "machine",
                "A still picture left on for long can mark some panels.",
                "The display's manual says what its menu names mean: note the settings before you change them.",
            ),
        ),
        sources=SOURCES,
    )


def _headline(source: str, display: str, depth: int, lost: Losses, black: float, white: float) -> str:
    levels = 1 << depth
    if source == display:
        squeezed = "" if source == FULL else f", with {lost.merged} of {levels} levels squeezed together on the way"
        return f"{source.capitalize()} range into a display that expects {display} is right{squeezed}."
    if source == FULL:
        return (
            f"Full range into a display that expects limited swallows {lost.dark} dark and burns out {lost.bright} "
            f"bright levels of {levels}."
        )
    return (
        f"Limited range into a display that expects full looks grey and flat: black rises to {significant(black)} "
        f"and white falls to {significant(white)} cd/m²."
    )


def _verdict(source: str, display: str, depth: int, lost: Losses) -> Verdict:
    if source == display == FULL:
        return Verdict(YES, "The two agree and no level is lost.", "It looks right.")
    if source == display:
        return Verdict(
            YES,
            f"The two agree; the range costs {lost.merged} of {1 << depth} levels, which is seldom seen.",
            "It looks right.",
        )
    return Verdict(NO, "The two disagree about which numbers mean black and white.", _SEEN[source, display])


def _has_contrast(black: float, white: float) -> bool:
    """Whether the ratio says anything: beyond a thousand million to one no black can be told from none."""
    return black * 1e9 > white


def _figures(low: int, high: int, lost: Losses, depth: int, black: float, white: float) -> tuple[Figure, ...]:
    rows = [
        figure("black_luminance", "Black shows as", black, "cd/m²", 3, main=True),
        figure("white_luminance", "White shows as", white, "cd/m²", 1, main=True),
    ]
    if _has_contrast(black, white):
        rows.append(figure("contrast", "Contrast", white / black, "to 1", 0, main=True))
    rows += [
        figure("levels_lost_percent", "Levels lost", 100 * lost.total / (1 << depth), "%", 1, main=True),
        figure("black_code", "Code sent for black", low),
        figure("white_code", "Code sent for white", high),
        figure("levels_lost_dark", "Dark levels clipped", lost.dark),
        figure("levels_lost_bright", "Bright levels clipped", lost.bright),
        figure("levels_merged", "Levels merged by the source", lost.merged),
    ]
    return tuple(rows)


def _working(
    source: str, display: str, depth: int, lost: Losses,
    ends: tuple[float, ...], lums: tuple[float, float], model: tuple[float, float, float],
) -> tuple[Working, ...]:  # fmt: skip
    low, high = codes(source, depth)
    floor, ceiling = codes(display, depth)
    gamma, peak, black = (number(value, 3) for value in model)
    lines = [
        Working("Codes sent", f"{source} range at {depth} bits", "", f"{low} for black, {high} for white"),
        Working("Codes expected", f"{display} range at {depth} bits", "", f"{floor} for black, {ceiling} for white"),
    ]
    for name, code, signal, lum in zip(("Black", "White"), (low, high), ends, lums, strict=True):
        lines.append(
            Working(
                f"Shown signal of {name.lower()}",
                "(code − black expected) ÷ (white − black expected), clipped",
                f"({code} − {floor}) ÷ ({ceiling} − {floor})",
                number(signal, 4),
            )
        )
        lines.append(
            Working(
                f"{name} shows as",
                "black + (peak − black) × signal^gamma",
                f"{black} + ({peak} − {black}) × {number(signal, 4)}^{gamma}",
                f"{number(lum, 3)} cd/m²",
            )
        )
    lines.append(
        Working(
            "Levels lost",
            "(dark + bright + merged) ÷ levels",
            f"({lost.dark} + {lost.bright} + {lost.merged}) ÷ {1 << depth}",
            f"{number(100 * lost.total / (1 << depth), 1)} %",
        )
    )
    return tuple(lines)


def _steps(source: str, display: str) -> tuple[Step, ...]:
    look = Step(
        key="look",
        title="Look at the steps near black and near white",
        do=(
            "Open a test picture with steps at exact code values, one image pixel to one screen pixel.",
            "Turn off night tint, the system's HDR and the display's picture modes: each of them moves the steps.",
        ),
        see="Every step down to the last but one on both sides, and a black that is black.",
        otherwise="Put the setting back and change the other one.",
    )
    if source == display:
        return (look,)
    if source == LIMITED:
        return (
            Step(
                key="source",
                title="First the computer: set its output range to full",
                do=("In the graphics driver's display page, as output range; on a player, in its video menu.",),
                why=(
                    "The display already expects full, and only the computer squeezes. So all levels come back, "
                    "and the display stays right for everything else."
                ),
                back="Set it back to limited or automatic.",
            ),
            Step(
                key="display",
                title="Only if the computer offers no choice: the display",
                do=("Set the input's range or black-level setting to limited, or to automatic.",),
                why="It then stretches what the computer squeezed. Contrast is right; the merged levels stay merged.",
                back="Set it back to full.",
            ),
            look,
        )
    return (
        Step(
            key="display",
            title="First the display: let this input expect full range",
            do=("In the input's picture menu, as RGB range, video range or black level; or its computer mode.",),
            why="The computer sends every level. If the display takes them all, none needs squeezing.",
            back="Set it back to limited or automatic.",
        ),
        Step(
            key="source",
            title="If the display has no such setting: the computer",
            do=("In the graphics driver's display page, set the output range to limited.",),
            why="Contrast is right then; a few levels are merged, which is far less than shadows swallowed.",
            back="Set it back to full or automatic.",
        ),
        look,
    )


_CELLS = 32


def _grey(signal: float) -> str:
    return "#" + f"{int(255 * signal + 0.5):02x}" * 3


def _ramps(source: str, display: str, depth: int, lost: Losses) -> Drawing:
    top = (1 << depth) - 1
    low, high = codes(source, depth)
    description = (
        f"Two grey ramps from dark to bright. As sent: codes {low} to {high} of 0 to {top}. As shown: "
        + {
            (FULL, LIMITED): f"the {lost.dark} darkest codes are all black and the {lost.bright} brightest all white",
            (LIMITED, FULL): "the dark end is a dark grey and the bright end a light grey",
        }.get((source, display), "from black to white")
        + "."
    )
    sketch = Sketch("The ramp as sent and as shown", description, 152)
    width = (WIDTH - 4) / _CELLS
    rows = (
        (f"As sent: codes {low} to {high}", 22.0, lambda code: code / top),
        ("As shown", 90.0, lambda code: shown(code, display, depth)),
    )
    for title, y, tone in rows:
        sketch.text(2, y - 7, title, bold=True)
        for i in range(_CELLS):
            code = sent((2 * i * top + _CELLS - 1) // (2 * (_CELLS - 1)), source, depth)
            sketch.rect(2 + i * width, y, width + 0.3, 34, fill=_grey(tone(code)))
        sketch.rect(2, y, WIDTH - 4, 34, fill="none", line="ink")
    dark, bright = ((WIDTH - 4) * n / (top + 1) for n in (lost.dark, lost.bright))
    if lost.dark:
        sketch.line(2, 128, 2 + dark, 128, ink="mark", width=4)
        sketch.text(2, 146, f"{lost.dark} all black", size=SMALL, ink="mark")
    if lost.bright:
        sketch.line(WIDTH - 2 - bright, 128, WIDTH - 2, 128, ink="mark", width=4)
        sketch.text(WIDTH - 2, 146, f"{lost.bright} all white", size=SMALL, anchor="end", ink="mark")
    if not lost.dark:
        words = "nothing clipped" if source == display else "nothing clipped, but never black and never white"
        sketch.text(2, 146, words, size=SMALL, ink="soft")
    return sketch.done()


def _transfer(source: str, display: str, depth: int) -> Drawing:
    top = (1 << depth) - 1
    black, white = codes(display, depth)
    levels = sorted({0, top, *(i * top // 16 for i in range(17)), *((black, white) if source == FULL else ())})
    points = [(float(level), 100 * shown(sent(level, source, depth), display, depth)) for level in levels]
    wrong = source != display
    return plot(
        "What becomes of each level",
        f"A line from level 0 to level {top}: it starts at {number(points[0][1], 1)} percent and ends at "
        f"{number(points[-1][1], 1)} percent of the display's signal; a right pair runs from 0 to 100.",
        Axis("level in the picture", 0, top, (0, *(top * i // 4 for i in (1, 2, 3)), top)),
        Axis("shown signal, %", 0, 100, (0, 25, 50, 75, 100)),
        (
            Line("a right pair", [(0, 0), (top, 100)], ink="soft", dash="4 3", width=1.5),
            Line("this pair", points, ink="mark" if wrong else "fill-1", width=2.5),
        ),
        height=220,
    )


def _notes(source: str, display: str, depth: int, black_lum: float, white_lum: float) -> tuple[Note, ...]:
    low, high = chroma_codes(LIMITED, depth)
    first = Note(
        "Before anything else",
        "Put back what you changed, and look again. Then ask: is it only games, or one of them, or the desktop too? If "
        "the almost-black test picture looks right on the desktop, the range of the output is right, and the setting "
        "to change is in the game or player.",
    )
    notes = [
        *([first] if source != display else []),
        Note(
            "Why there are two ranges",
            "Television kept room below black and above white for overshoot, and films and players still use it; "
            "computers never did. Both carry the same picture, as long as both ends mean the same one. In limited "
            f"range the colour differences go a little further, from {low} to {high}.",
        ),
        Note(
            "Automatic usually follows the mode",
            "On automatic, the range follows the timing: television formats mean limited for RGB, computer formats "
            "full, 640×480 too. That is why one resolution can be right and the next one wrong on the same cable.",
        ),
    ]
    if source == display == LIMITED:
        levels = 1 << depth
        lost = losses(source, display, depth)
        notes.append(
            Note(
                "Limited is not worse, only tighter",
                f"{levels - lost.merged} codes carry {levels} levels, so {plural(lost.merged, 'level')} share one with "
                "a neighbour. On film one never sees it; in a slow gradient one may.",
            )
        )
    if not _has_contrast(black_lum, white_lum):
        notes.append(
            Note(
                "No contrast figure",
                "A black that gives no light at all would make the contrast endless, so none is stated.",
            )
        )
    return tuple(notes)


def _worked_for(given: Values) -> str:
    return f"{given['source']} range sent, {given['display']} expected, {given['depth']} bits"


calculator = Calculator(
    name="colour.levels",
    title="What do I see when the output range is wrong?",
    summary="Full or limited range at source and display: codes, levels lost, black and white as shown.",
    inputs=(
        Choice(
            key="source",
            label="The computer sends",
            names=("output range", "dynamic range", "sends", "send", "output", "player", "driver", "computer", "card",
                   "console", "laptop", "box", "receiver", "pc"),
            where="The graphics driver's display page, as output range or dynamic range; a player's video settings.",
            options=_RANGES,
            default=FULL,
        ),
        Choice(
            key="display",
            label="The display expects",
            names=("black level", "rgb range", "video range", "monitor", "television", "tv", "screen", "set",
                "projector",
                   "beamer"),
            where="The display's picture menu for this input, as RGB range, video range or black level.",
            options=_RANGES,
            default=LIMITED,
        ),
        Choice(
            key="depth",
            label="Bits a channel",
            where="The driver's display page as colour depth, or the system's advanced display settings.",
            names=DEPTH_NAMES,
            options=DEPTHS,
            default="8",
        ),
        Number(
            key="gamma",
            label="Gamma",
            where="The display's picture menu; 2.2 is usual for computers, 2.4 for a dark room.",
            low=1,
            high=3,
            default=2.2,
            extra=True,
        ),
        Number(
            key="peak",
            label="White",
            where="Measured, or from the data sheet as brightness; many desks use 100 to 250.",
            low=1,
            high=10000,
            unit="cd/m²",
            default=250,
            also={"nits": 1, "nit": 1},
            extra=True,
        ),
        Number(
            key="black",
            label="Black",
            where="White divided by the contrast ratio of the data sheet; 0 where every pixel makes its own light.",
            low=0,
            high=1000,
            unit="cd/m²",
            default=0.25,
            also={"nits": 1, "nit": 1},
            extra=True,
        ),
    ),
    compute=compute,
    version=2,
    worked_for=_worked_for,
    presets=(
        Preset("swallowed", "Dark scenes are pitch black", {"source": FULL, "display": LIMITED}, (
            "pitch black", "dark scenes just black", "dark scenes are black", "shadows are black", "black crush",
                "crushed",
            "crushed blacks", "no detail in the dark", "no detail in dark scenes", "lose shadow detail",
        )),
        Preset("grey", "Everything looks grey", {"source": LIMITED, "display": FULL}, (
            "black is grey", "black is gray", "blacks are grey", "blacks are gray", "black looks grey",
                "blacks look grey",
            "black is dark grey", "black looks gray", "blacks look gray", "grey blacks", "grey instead of black",
                "washed out",
            "everything grey", "everything looks grey", "milky", "faded",
        )),
        Preset("tv", "Television on limited, both ends", {"source": LIMITED, "display": LIMITED}),
        Preset("monitor", "Monitor on full, both ends", {"source": FULL, "display": FULL}),
        Preset("ten", "Grey, at 10 bits on a self-lit panel",
               {"source": LIMITED, "display": FULL, "depth": "10", "peak": 600, "black": 0}),
    ),
)  # fmt: skip
