"""What the calculators of colour show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

import math
from dataclasses import replace

from calculators.colour.test_pictures.patterns import BRIGHT_STEPS, DARK_STEPS, GREY_PATCHES
from calculators.colour.test_pictures.steps_on_screen import gone_of, screen_steps
from calculators.desk.answer import Answer
from calculators.desk.card_declared import LONGEST_HERO, Card, Figures, first_drawn, own_drawing
from calculators.desk.functions import log10
from calculators.desk.inputs import Values
from calculators.desk.numbers import number, significant
from calculators.desk.screen_drawings.bars import screen_bars
from calculators.desk.screen_drawings.marks import Row, narrow_or
from calculators.desk.screen_drawings.shades import screen_edges, screen_ramps, screen_stripes

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
    lost, said = dark + bright, ""
    if lost:
        hero = f"{number(lost, 0)} greys lost"
        line = f"of {number(256 * unit, 0)}: {number(dark, 0)} dark ones, {number(bright, 0)} bright ones"
        words = ("all black", "all white")
        said = "Both ends cut off" if dark and bright else ""
    elif answer.verdict and answer.verdict.word == "no":
        hero, line = "a grey veil", f"contrast falls to {contrast}" if contrast else "black glows, white is dim"
        words = ("not black", "not white")
    else:
        hero, line, words = "nothing lost", "source and display agree", ("", "")
    seen = ("as you see it", shown, words)
    ramps = first_drawn(screen_ramps([("as it is meant", meant, ("", "")), seen]), screen_ramps([seen]))
    return Card(hero=hero, line=line, verdict=said, drawing=ramps, drawn_hero=True)


# Which depth does for which signal, and what the others are for: as docs/answers/colour/how-many-bits.md says.
_ENOUGH = {"gamma": 8, "pq": 10}
_FOR = {8: "HDR off", 10: "for HDR", 12: "for editing"}


def depth(given: Values, answer: Answer) -> Card:
    """Which depth does, and for what; how many shades each has, to scale."""
    own, signal = int(given["depth"]), given["signal"]
    enough = _ENOUGH[signal]
    rows = [
        Row(
            f"{bits} bits, {_FOR[bits]}" if bits in _FOR else f"yours: {bits} bits",
            float(1 << bits),
            f"{number(1 << bits, 0)} shades",
            bits == enough,
        )
        for bits in sorted({*_FOR, own})
    ]
    line, other = "HDR off: desktop, games and video", ("for HDR", f"{_ENOUGH['pq']} bits")
    if signal == "pq":
        line, other = "for HDR, if the link has room", ("with HDR off", f"{_ENOUGH['gamma']} bits")
    return Card(
        hero=f"{enough} bits will do", line=line, drawing=screen_bars(rows), figures=(other,),
        question=f"8, 10 or 12 bits a channel, {'in HDR' if signal == 'pq' else 'HDR off'}?",
    )  # fmt: skip


_NAMES = {"444": "4:4:4", "422": "4:2:2", "420": "4:2:0"}


_SHARE = {"444": "all", "422": "half", "420": "a quarter"}  # of the colour samples of 4:4:4; ITU-R BT.2100-2, table 7


def chroma(given: Values, answer: Answer) -> Card:
    """What the sampling is good for, and why; coloured letters before and after, and where their edges blur."""
    sampling = given["sampling"]
    line = f"{_NAMES[sampling]} keeps {_SHARE[sampling]} of the colour detail"
    if sampling == "444":
        return Card(hero="right for text", line=line, drawing=own_drawing(answer), figures=(("as sharp", "RGB"),))
    return Card(
        hero="4:4:4 for text", line=f"{_NAMES[sampling]} blurs text, suits films", drawing=own_drawing(answer),
        figures=(("as sharp", "RGB"), (f"of the colour, {_NAMES[sampling]} keeps", _SHARE[sampling])),
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
    count, left = len(codes), len(codes) - _lost(codes, ground)
    black, grey = ("black", "black is grey") if dark else ("white", "white is grey")
    right, wrong, veiled = f"right: nearly all {count}", f"wrong: only {left}", f"wrong too: {grey}"
    caption = f"{'brightened' if dark else 'darkened'} for this card"
    steps = first_drawn(
        screen_steps(codes, ground, labels=(right, wrong, veiled), caption=caption),
        screen_steps(codes, ground, labels=(right, wrong), caption=caption),
    )
    return Card(
        hero="count the bars",
        line=f"nearly {count}: agree; only {left}: {'shadows' if dark else 'whites'} lost",
        question=f"Do computer and display agree on {black}?",
        topic=f"Is {black} right?",
        drawing=steps,
        drawn_hero=True,
    )


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
    # as many places in both, so that they compare
    places = max(1 - math.floor(log10(min(plain, hdr))), 0) if min(plain, hdr) > 0 else 0
    rows = [
        Row("HDR off", plain, f"{plain:.{places}f} cd/m²"),
        Row("HDR on", hdr, f"{hdr:.{places}f} cd/m²", True),
    ]
    tone = next((words for most, words in _TONES if int(given["code"]) <= most), _LIGHTEST)
    hero = f"{significant(times, 2)} times as bright"
    said = replace(rows[1], label=f"HDR on: {hero}")  # in a side panel the bar says so, and no hero
    return Card(
        hero=hero if len(hero) <= LONGEST_HERO else f"{significant(times, 2)} times",
        line=f"{tone} grey, with HDR on",
        drawing=narrow_or(screen_bars([rows[0], said]), screen_bars(rows)),
    )


# What a grey is called up to which code of 8 bits.
_TONES = ((32, "a near-black"), (96, "a dark"), (160, "a middle"))
_LIGHTEST = "a light"
