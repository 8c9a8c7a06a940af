"""What the calculators of colour show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from calculators.colour.test_pictures.patterns import BRIGHT_STEPS, DARK_STEPS, GREY_PATCHES
from calculators.colour.test_pictures.steps_on_screen import gone_of, screen_steps
from calculators.desk.answer import Answer
from calculators.desk.card_declared import Card, Figures, Raised, first_drawn, own_drawing
from calculators.desk.inputs import Values
from calculators.desk.numbers import number, significant
from calculators.desk.screen_drawings import (
    Row,
    screen_bars,
    screen_edges,
    screen_ramps,
    screen_stripes,
)

# What each is about, in a line of a side panel.
TOPICS = {
    "levels": "Is the range right?",
    "depth": "How many shades?",
    "chroma": "Is colour kept?",
    "picture": "Is the range right?",
    "shadows": "Shadows in HDR",
}


_TILES = 32


def levels(given: Values, answer: Answer) -> Card:
    """A ramp as it is meant and as it is shown."""
    figures = Figures(answer)
    values = figures.numbers("black_code", "white_code", "levels_lost_dark", "levels_lost_bright", "levels_merged")
    if not values:
        return Card()
    black, white, dark, bright, _ = values
    unit = 1 << (int(given["depth"]) - 8)
    expected = (0, 256 * unit - 1) if given["display"] == "full" else (16 * unit, 235 * unit)
    codes = [black + (white - black) * i / (_TILES - 1) for i in range(_TILES)]
    shown = [(code - expected[0]) / (expected[1] - expected[0]) for code in codes]
    meant = [i / (_TILES - 1) for i in range(_TILES)]
    contrast = figures.text("contrast")
    lost = dark + bright
    if lost:
        hero, line = (
            f"{number(lost, 0)} levels lost",
            f"{number(dark, 0)} in the shadows, {number(bright, 0)} in the lights",
        )
        words = ("all black", "all white")
    elif answer.verdict and answer.verdict.word == "no":
        hero, line = "a grey veil", f"contrast falls to {contrast}" if contrast else "black glows, white is dim"
        words = ("not black", "not white")
    else:
        hero, line, words = "nothing lost", "source and display agree", ("", "")
    seen = ("as you see it", shown, words)
    ramps = first_drawn(screen_ramps([("as it is meant", meant, ("", "")), seen]), screen_ramps([seen]))
    return Card(hero=hero, line=line, drawing=ramps, drawn_hero=True)


def depth(given: Values, answer: Answer) -> Card:
    """How many shades each depth has, to scale."""
    figures = Figures(answer)
    own = int(given["depth"])
    shades = figures.number("shades")
    if shades is None:
        return Card()
    rows = [
        Row(f"{bits} bits", float(1 << bits), f"{number(1 << bits, 0)} shades", bits == own)
        for bits in sorted({8, 10, 12, own})
    ]
    return Card(
        hero=f"{number(shades, 0)} shades", line=f"for each colour, at {own} bits", drawing=screen_bars(rows),
        working=(Raised("2", str(own)), "=", number(shades, 0), "shades"),
    )  # fmt: skip


_NAMES = {"444": "4:4:4", "422": "4:2:2", "420": "4:2:0"}


def chroma(given: Values, answer: Answer) -> Card:
    """How much of the colour is kept; coloured letters before and after, and where they go soft."""
    values = Figures(answer).numbers("luma_samples", "chroma_samples")
    if not values:
        return Card(drawing=own_drawing(answer))
    pixels, colours = values
    return Card(
        hero=f"{number(100 * colours / (2 * pixels), 0)} % colour", line=f"what {_NAMES[given['sampling']]} keeps",
        drawing=own_drawing(answer),
    )  # fmt: skip


_PICTURES = {"greys": "Is no grey lost?", "detail": "Is colour sharp?", "pixels": "Is no edge lost?"}


def picture(given: Values, answer: Answer) -> Card:
    """The steps of a test picture, and below them what the wrong range leaves."""
    kind = given["picture"]
    greys = screen_steps(
        GREY_PATCHES, -1,
        labels=(f"right range: {len(GREY_PATCHES)} greys", f"wrong range: {_lost(GREY_PATCHES, -1)} lost"),
    )  # fmt: skip
    if kind not in ("near-black", "near-white"):
        lines = {
            "greys": ("no step missing", "every grey should differ from the next"),
            "detail": ("fine lines stay", "where each pixel has its own colour"),
            "pixels": ("every edge shows", "where the picture is not scaled"),
        }
        hero, line = lines.get(kind, ("look closely", ""))
        drawn = {"greys": greys, "detail": screen_stripes(), "pixels": screen_edges()}.get(kind, greys)
        return Card(hero=hero, line=line, drawing=drawn, drawn_hero=True, topic=_PICTURES.get(kind, ""))
    dark = kind == "near-black"
    codes, ground = (DARK_STEPS, 0) if dark else (BRIGHT_STEPS, 255)
    count, gone = len(codes), _lost(codes, ground)
    steps = screen_steps(
        codes, ground,
        labels=(
            f"right range: {count} steps", f"wrong range: {count - gone}, rest {'black' if dark else 'white'}",
        ),
        caption=f"drawn {'brighter' if dark else 'darker'} than real",
    )  # fmt: skip
    return Card(hero=f"{count} steps", line="what the right range lets you see", drawing=steps, drawn_hero=True)


def _lost(codes: tuple[int, ...], ground: int) -> int:
    """How many steps the wrong range swallows."""
    return sum(gone_of(codes, ground))


def shadows(given: Values, answer: Answer) -> Card:
    """The light of one dark tone with HDR off and on, to scale."""
    figures = Figures(answer)
    values = figures.numbers("plain_cd_m2", "hdr_cd_m2", "times")
    if not values:
        return Card(line="black stays black in both")
    plain, hdr, times = values
    rows = [
        Row("HDR off", plain, f"{significant(plain, 3)} cd/m²"),
        Row("HDR on", hdr, f"{significant(hdr, 3)} cd/m²", True),
    ]
    return Card(
        hero=f"{significant(times, 2)} times",
        line=f"the light from a dark tone, code {given['code']}",
        drawing=screen_bars(rows),
        drawn_hero=True,
    )
