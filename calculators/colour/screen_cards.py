"""What the calculators of colour show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from calculators.desk.answer import Answer
from calculators.desk.card_declared import Card, Figures, Raised, first_drawn, own_drawing
from calculators.desk.inputs import Values
from calculators.desk.numbers import number, significant
from calculators.desk.screen_drawings import (
    Row,
    screen_bars,
    screen_edges,
    screen_fields,
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
        words = ("black glows", "white is dim")
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


_KEPT = {
    "444": "every pixel keeps its own colour",
    "422": "two pixels share one colour",
    "420": "four pixels share one colour",
}


def chroma(given: Values, answer: Answer) -> Card:
    """Coloured letters before and after."""
    figures = Figures(answer)
    return Card(
        hero=f"{figures.text('bits_per_pixel').removesuffix(' bit')} bits a pixel", line=_KEPT[given["sampling"]],
        drawing=own_drawing(answer),
    )  # fmt: skip


_PICTURES = {"greys": "Is no grey lost?", "detail": "Is colour sharp?", "pixels": "Is no edge lost?"}


def picture(given: Values, answer: Answer) -> Card:
    """The steps of a test picture, those struck out that a wrong range swallows."""
    figures = Figures(answer)
    steps, lost = figures.number("steps"), figures.number("steps_swallowed")
    grey = screen_ramps([("every grey, black to white", [i / 31 for i in range(32)], ("", ""))])
    if steps is None or given["picture"] not in ("near-black", "near-white"):
        lines = {
            "greys": ("no step missing", "every grey should differ from the next"),
            "detail": ("fine lines stay", "coloured lines blur when colour is shared"),
            "pixels": ("every edge shows", "where the picture is not scaled"),
        }
        hero, line = lines.get(given["picture"], ("look closely", ""))
        drawn = {"greys": grey, "detail": screen_stripes(), "pixels": screen_edges()}.get(given["picture"], grey)
        return Card(hero=hero, line=line, drawing=drawn, drawn_hero=True, topic=_PICTURES.get(given["picture"], ""))
    count, gone = int(steps), int(lost or 0)
    end = "dark" if given["picture"] == "near-black" else "bright"
    return Card(
        hero=f"{count} steps", line="what the right range lets you see",
        drawing=first_drawn(
            screen_fields(count, gone, f"{count} {end} steps", f"{gone} vanish on the wrong range"),
        ),
        drawn_hero=True,
    )  # fmt: skip


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
