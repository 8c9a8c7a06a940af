"""colour.picture: a test picture of exact codes, with what one should see and what it means if one does not."""

from __future__ import annotations

from calculators.colour.signals.quantisation_range import FULL, LIMITED, codes, sent, shown
from calculators.colour.test_pictures.patterns import (
    BRIGHT_STEPS,
    DARK_STEPS,
    DETAIL,
    GREY_PATCHES,
    GREYS,
    NEAR_BLACK,
    NEAR_WHITE,
    PICTURES,
    PIXELS,
    Picture,
    paint,
)
from calculators.colour.test_pictures.wording import SEEN, TITLES, WORDS
from calculators.desk.answer import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    Answer,
    Caution,
    Column,
    Figure,
    File,
    Note,
    Source,
    Table,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.inputs import HOW_TO_CHOOSE, Choice, Number, Option, Values
from calculators.desk.numbers import number
from calculators.desk.png import png

_STEPS = {NEAR_BLACK: DARK_STEPS, NEAR_WHITE: BRIGHT_STEPS, GREYS: GREY_PATCHES}
# The steps that tell the ranges apart; a table of all would push what to look for out of sight.
_CODES = {
    NEAR_BLACK: (1, 8, 15, 16, 17, 28),
    NEAR_WHITE: (254, 245, 236, 235, 234, 224),
    GREYS: (0, 15, 120, 240, 255),
}

SOURCES = (
    Source("ITU-R BT.709-6", "codes of black and white in limited range; luma and colour difference", FROM_MEMORY),
    Source("W3C PNG (Third Edition)", "8 bits a channel, no colour space named", FROM_MEMORY),
    Source("IEC 61966-2-1", "the grey with half of white's light", FROM_MEMORY),
    Source("Layout of the pictures and what to look for", "", COMMON_PRACTICE),
)

CAUTIONS = (
    Caution(
        "person",
        "Nothing here moves or flashes. Strong contrast and fine stripes over a whole screen can still trouble "
        "photosensitive and pattern-sensitive people.",
        "If you may be one, let somebody else look, and look away at the first discomfort.",
        first=True,
        short="Pattern-sensitive? Let others look.",
        tag="Seizure risk",
    ),
    Caution(
        "machine",
        "A still picture left on for long can mark some panels. Close it when you have looked.",
        "What your panel bears stands in its manual.",
    ),
)


def compute(given: Values) -> Answer:
    """Paint the picture that was asked for and say what to look for."""
    picture = paint(given["picture"], given["width"], given["height"])
    file = png(picture.width, picture.rows)
    ground = "#" + bytes(picture.ground).hex()
    size = picture.width, picture.height
    name = f"{picture.key}-{picture.width}x{picture.height}.png"
    return Answer(
        headline=f"{TITLES[picture.key]}: {WORDS[picture.key].headline}, {picture.width} by {picture.height} pixels.",
        figures=_figures(picture, len(file)),
        tables=_tables(picture.key),
        steps=SEEN[picture.key],
        steps_title="What you should see, and what it means if you do not",
        files=(File(name, "image/png", file, WORDS[picture.key].seen, size, ground),),
        notes=_notes(),
        cautions=CAUTIONS,
        sources=SOURCES,
    )


def _at_risk(key: str) -> int:
    """How many steps look like the ground where full range is sent and limited expected."""
    steps = _STEPS.get(key, ())
    end = {NEAR_BLACK: 0.0, NEAR_WHITE: 1.0}.get(key)
    return sum(shown(code, LIMITED, 8) == end for code in steps)


def _figures(picture: Picture, size: int) -> tuple[Figure, ...]:
    figures = []
    steps = _STEPS.get(picture.key, ())
    if steps:
        figures += [
            figure("steps", "Steps", len(steps), main=True),
            figure("first_code", "First step's code", steps[0], main=True),
            figure("last_code", "Last step's code", steps[-1], main=True),
        ]
    if picture.key in (NEAR_BLACK, NEAR_WHITE):
        label = "Of them lost, full sent and limited expected"
        figures.append(figure("steps_swallowed", label, _at_risk(picture.key), main=True))
    figures += [
        figure("width", "Width", picture.width, "px"),
        figure("height", "Height", picture.height, "px"),
        figure("file_kb", "File", size / 1000, "kB", 1),
    ]
    return tuple(figures)


def _tables(key: str) -> tuple[Table, ...]:
    listed_codes = _CODES.get(key)
    if not listed_codes:
        return ()
    rows = []
    for code in listed_codes:
        squeezed = sent(code, LIMITED, 8)
        rows.append(
            (
                str(code),
                _percent(code / codes(FULL, 8)[1]),
                _percent(shown(code, LIMITED, 8)),
                _percent(shown(squeezed, FULL, 8)),
            )
        )
    return (
        Table(
            "What becomes of some of the steps",
            (
                Column("Code", True),
                Column("Both ends alike", True),
                Column("Full sent, limited expected", True),
                Column("Limited sent, full expected", True),
            ),
            tuple(rows),
            "The signal that the display makes of it, 0 % for its black and 100 % for its white. It is not light: "
            "half the signal is about a fifth of the light.",
        ),
    )


def _percent(share: float) -> str:
    return f"{number(100 * share, 1)} %"


def _notes() -> tuple[Note, ...]:
    return (
        Note(
            "What spoils the test",
            "Turn off night tint, the system's HDR, any picture mode that changes contrast by itself, and zoom in the "
            "page. Use the display's own number of pixels. A video, a screen recording or a photograph of the screen "
            "proves nothing: each has a range of its own. Look at the screen itself, in a dim room.",
        ),
        Note(
            "Exact codes, and what colour management does to them",
            "The picture is a PNG of eight bits that names no colour space, and its codes are those in the table. A "
            "browser takes such a picture for sRGB. Where your system has a profile for the display, it may turn code "
            "1 into 0 or 2 on the way; greys stay grey and the order of the steps stays. If single steps are missing "
            "here and there, that is the profile; if all from one end are missing, that is the range.",
        ),
        Note(
            "One image pixel to one screen pixel",
            "The page shows the picture unscaled, and alone on the screen if you ask for it. If your display does not "
            "run at its own number of pixels, the display scales it all the same.",
        ),
    )


def _worked_for(given: Values) -> str:
    return f"{TITLES[given['picture']]}, {given['width']} by {given['height']} pixels"


calculator = Calculator(
    name="colour.picture",
    title="How do I see with my own eyes which range I am on?",
    summary="Test pictures of exact codes, each with what one should see and what it means if one does not.",
    inputs=(
        Choice(
            where_title=HOW_TO_CHOOSE,
            key="picture",
            label="Picture",
            names=("test picture", "test pattern"),
            where="Begin with the one near black; the others follow when it is right.",
            options=tuple(Option(key, TITLES[key]) for key in PICTURES),
            default=NEAR_BLACK,
        ),
        Number(
            key="width",
            label="Width",
            where="Your display's own number of pixels across, in its manual or the system's display settings.",
            low=480,
            high=5120,
            unit="px",
            default=640,
            whole=True,
            also={"pixels": 1, "pixel": 1},
        ),
        Number(
            key="height",
            label="Height",
            where="Your display's own number of pixels down, in its manual or the system's display settings.",
            low=270,
            high=2880,
            unit="px",
            default=360,
            whole=True,
            also={"pixels": 1, "pixel": 1},
        ),
    ),
    compute=compute,
    worked_for=_worked_for,
    presets=(
        Preset("near-black", TITLES[NEAR_BLACK], {"picture": NEAR_BLACK}),
        Preset("near-white", TITLES[NEAR_WHITE], {"picture": NEAR_WHITE}),
        Preset("greys", TITLES[GREYS], {"picture": GREYS}),
        Preset("detail", TITLES[DETAIL], {"picture": DETAIL}),
        Preset("pixels", TITLES[PIXELS], {"picture": PIXELS}),
    ),
)
