"""What each test picture is called, what there is to see in it, and what it means if one sees something else."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.colour.test_pictures.patterns import DETAIL, GREYS, NEAR_BLACK, NEAR_WHITE, PIXELS
from calculators.desk.answer import Step


@dataclass(frozen=True, slots=True)
class Words:
    """headline: follows the title in the answer's headline. seen: the picture described for those who cannot see it."""

    headline: str
    seen: str


TITLES = {
    NEAR_BLACK: "Almost black",
    NEAR_WHITE: "Almost white",
    GREYS: "All the greys",
    DETAIL: "Fine coloured lines",
    PIXELS: "Single pixels",
}

WORDS = {
    NEAR_BLACK: Words(
        "17 steps from code 1 to 28 on black",
        "On black, a staircase of 17 dark grey steps rising to the right, each with its code below, from 1 to 28. A "
        "line runs under the steps from 1 to 16.",
    ),
    NEAR_WHITE: Words(
        "17 steps from code 254 down to 224 on white",
        "On white, a staircase of 17 light grey steps rising to the right, each with its code below, from 254 down to "
        "224. A line runs under the steps from 254 to 236.",
    ),
    GREYS: Words(
        "every code from 0 to 255, and 18 even patches",
        "Three bands on dark grey: a ramp from black on the left to white on the right, a row of 18 even grey patches, "
        "and the same ramp the other way round.",
    ),
    DETAIL: Words(
        "the same detail as it is, as 4:2:2 and as 4:2:0",
        "Three panels numbered 1 to 3 with the same small coloured letters and fine red and blue stripes. In the "
        "second the letters are smeared sideways; in the third they are smeared both ways, and the stripes are plain "
        "purple.",
    ),
    PIXELS: Words(
        "a frame on the outermost pixels, and four patches",
        "On grey, a thin white frame on the very edge, and four square patches numbered 1 to 4: a check of single "
        "pixels, upright lines, level lines, and plain grey.",
    ),
}

SEEN: dict[str, tuple[Step, ...]] = {
    NEAR_BLACK: (
        Step(
            key="black",
            title="The ground",
            do=("Dim the room, and compare the ground with the display switched off.",),
            see="Black, as dark as this display can be.",
            otherwise=(
                "If the ground is dark grey and even step 1 stands out clearly, limited range is sent and full is "
                "expected: everything is lifted."
            ),
        ),
        Step(
            key="steps",
            title="The steps above the line",
            do=("Find the first step that you can tell from the ground.",),
            see="Steps from about 3 on, the first ones only just; and every step a little lighter than the one before.",
            otherwise=(
                "If all steps above the line are gone and 17 is the first you see, full range is sent and limited is "
                "expected: shadows are swallowed."
            ),
        ),
        Step(
            key="between",
            title="Neither of the two",
            do=("If only the first few steps are missing, brighten the room no further and wait a minute.",),
            see="After a minute in a dim room your eyes find one or two steps more.",
            otherwise=(
                "If steps up to 6 or 8 stay hidden, the display's own brightness or black setting is too low, or its "
                "picture mode deepens shadows. That is not the range."
            ),
        ),
    ),
    NEAR_WHITE: (
        Step(
            key="steps",
            title="The steps above the line",
            do=("Find the first step that you can tell from the ground.",),
            see="Steps from about 252 on; and every step a little darker than the one before.",
            otherwise=(
                "If all steps above the line are gone and 235 or 234 is the first you see, full range is sent and "
                "limited is expected: the brightest parts are swallowed too."
            ),
        ),
        Step(
            key="white",
            title="The ground",
            do=("Compare the white with a plain white page in another program.",),
            see="The same white.",
            otherwise=(
                "If white looks greyish on this display and black looks grey as well, limited range is sent and full "
                "is expected."
            ),
        ),
        Step(
            key="contrast",
            title="Only white is wrong",
            do=("If near black all is right and only here steps are missing, look at the display's contrast setting.",),
            see="At its middle or factory setting all steps come back.",
            otherwise="Put the display's picture mode back to its standard one and look again.",
        ),
    ),
    GREYS: (
        Step(
            key="even",
            title="The ramps",
            do=("Look along both ramps from end to end.",),
            see="An even climb from black to white, without bands, and black and white only at the very ends.",
            otherwise=(
                "A stretch of plain black or plain white at the ends means that codes are clipped: a wrong range. Wide "
                "bands all along mean fewer bits, on the link or in the panel. A mirrored pattern of fine bands is the "
                "panel's own trick to show more shades, and harmless."
            ),
        ),
        Step(
            key="patches",
            title="The patches",
            do=("Count the patches of the middle row.",),
            see="18 patches, each clearly lighter than its neighbour to the left.",
            otherwise=(
                "If two melt together at the dark end or the bright end, see the pictures for almost black and almost "
                "white."
            ),
        ),
        Step(
            key="grey",
            title="The colour of grey",
            do=("Look whether any part has a tint.",),
            see="Grey, from one end to the other.",
            otherwise=(
                "A tint all over is night tint or the display's white setting. A tint in places is the panel, or a "
                "profile that does not belong to it. Neither is the range."
            ),
        ),
    ),
    DETAIL: (
        Step(
            key="letters",
            title="The letters",
            do=("Compare panel 1 with the other two, from close by.",),
            see=(
                "Three different panels: the letters of panel 1 are clean to the last pixel, those of 2 and 3 are "
                "smeared."
            ),
            otherwise=(
                "If panel 1 looks like panel 2, the link carries 4:2:2. If all three look like panel 3, it carries "
                "4:2:0."
            ),
        ),
        Step(
            key="stripes",
            title="The stripes",
            do=("Look at the two striped squares of each panel, with a magnifying glass or a telephone's camera.",),
            see=(
                "In panel 1 red and blue stripes in both squares; in panel 2 only in the right one; in panel 3 plain "
                "purple."
            ),
            otherwise=(
                "Plain purple in panel 1 as well means that colour detail is lost on the way, or that something scales "
                "the picture: look at the single pixels next."
            ),
        ),
        Step(
            key="mend",
            title="How to get it back",
            do=("In the card's settings choose RGB or 4:4:4, and on a television the input's computer or PC mode.",),
            see="Panel 1 becomes clean.",
            otherwise=(
                "Some televisions always work with 4:2:2 inside, whatever they receive. And if you are colour-blind "
                "for red and green, go by the blue letters and the stripes."
            ),
        ),
    ),
    PIXELS: (
        Step(
            key="frame",
            title="The frame",
            do=("Give your display's own width and height, and show the picture alone on the screen.",),
            see="Thin white lines right on all four edges of the screen.",
            otherwise=(
                "A missing edge means that the display cuts the picture off, as televisions do: look in its menu for "
                "overscan or picture size. A black border means that it is shown too small."
            ),
        ),
        Step(
            key="patches",
            title="Patches 1 to 3",
            do=("Look from close by, then from two paces away.",),
            see=(
                "From close by an even check, even upright lines and even level lines; from afar three even greys, "
                "about as bright as patch 4."
            ),
            otherwise=(
                "Waves, blots or a beat in them mean scaling: by the system's magnification, the page's zoom, the card "
                "or the display. Give the display its own resolution, and the page a zoom of 100 %."
            ),
        ),
        Step(
            key="shimmer",
            title="Shimmer",
            do=("If a patch seems to shimmer or turn green, do not stare at it.",),
            see="Stillness, on most displays.",
            otherwise=(
                "Some panels drive their pixels in an alternating pattern that such a check happens to hit. It is the "
                "panel's nature and no fault of range or cable."
            ),
        ),
    ),
}
