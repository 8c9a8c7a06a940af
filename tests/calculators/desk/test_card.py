"""Screen cards: nothing overlaps, nothing is cut, nothing too small, nothing outside the safe area."""

import random
import re
from html import unescape
from itertools import combinations, pairwise

import pytest

from calculators.catalogue import find, names
from calculators.desk.answer import Answer, Caution, Source, Verdict, Working, figure
from calculators.desk.calculator import Calculator, Result
from calculators.desk.card import (
    BACKGROUNDS,
    DARK,
    HEADLINE_SIZES,
    LIGHT,
    MOST_REVEALS,
    SHAPES,
    SMALLEST,
    UPRIGHT_SIZES,
    Box,
    frames,
    lines_of,
)
from calculators.desk.charts import Bar, bars
from calculators.desk.inputs import read_all
from calculators.desk.svg import text_width

HAIR = 0.5  # units; a rounding of the layout, a thousandth of the picture
# The shapes of a code are not our subject here: a square of a plausible size is.
# A stack of plugs with every contact named is for reading, not for a picture.
PAGE_ONLY = {"audio.plugs"}
CODE = [[(i * j) % 3 == 0 for i in range(29)] for j in range(29)]
DRAWN = re.compile(r'<svg x=[^>]*? width="([\d.]+)"[^>]*viewBox="0 0 ([\d.]+) ([\d.]+)">(.*?)</svg>', re.DOTALL)
DRAWN_TEXT = re.compile(
    r'<text x="([-\d.]+)" y="([-\d.]+)" font-size="([\d.]+)" text-anchor="(\w+)" '
    r'fill="[^"]*"( font-weight="600")?>([^<]*)</text>'
)
ADDRESS = "https://example.org/go/sticks"


def check(made, shape):
    area = SHAPES[shape]
    assert made
    for frame in made:
        for box in frame.boxes:
            assert box.left >= area.left - HAIR, box
            assert box.right <= area.right + HAIR, box
            assert box.top >= area.top - HAIR, box
            # descenders of the last line may hang below the line's box, not below the area
            assert box.bottom <= area.bottom + SMALLEST * 0.25, box
            if box.size:
                assert box.size >= SMALLEST, box
        for one, other in combinations(frame.boxes, 2):
            apart = (
                one.right <= other.left + HAIR
                or other.right <= one.left + HAIR
                or one.bottom <= other.top + SMALLEST * 0.25
                or other.bottom <= one.top + SMALLEST * 0.25
                or other.on == one.what
            )
            assert apart, (frame.name, one, other)
        for size in re.findall(r'font-size="([\d.]+)"', frame.svg.split("<svg x=")[0]):
            assert float(size) >= SMALLEST
        check_drawing(frame)


def check_drawing(frame):
    """The words inside a drawing: large enough as shown, inside it, and none upon another."""
    found = DRAWN.search(frame.svg)
    if not found:
        return
    shown, across, down = float(found[1]), float(found[2]), float(found[3])
    boxes = []
    for x, y, size, anchor, bold, text in DRAWN_TEXT.findall(found[4]):
        assert float(size) * shown / across >= SMALLEST - HAIR, (frame.name, text)
        wide = text_width(unescape(text), float(size), bool(bold))
        left = float(x) - wide * {"start": 0, "middle": 0.5, "end": 1}[anchor]
        # the letters themselves: capitals stand 0.7 high, descenders reach 0.2 down
        boxes.append(Box(text, left, float(y) - 0.7 * float(size), left + wide, float(y) + 0.2 * float(size)))
        slack = 0.06 * float(size)
        assert -slack <= left, (text, left)
        assert left + wide <= across + slack, (text, left + wide, across)
        assert float(y) - 0.75 * float(size) >= 0, text
        assert float(y) <= down, text
    for one, other in combinations(boxes, 2):
        apart = one.right <= other.left or other.right <= one.left or one.bottom <= other.top or other.bottom <= one.top
        assert apart, (one, other)


def whole_text(made):
    return " ".join(box.what for frame in made for box in frame.boxes if box.size and not box.header)


@pytest.mark.once
@pytest.mark.parametrize("shape", list(SHAPES))
@pytest.mark.parametrize("name", names())
def test_every_preset_has_a_sound_card(name, shape):
    calculator = find(name)
    for raw in [p.inputs for p in calculator.presets]:
        result = calculator.run(raw)
        made = frames(result, shape=shape, address=ADDRESS, qr=lambda _: CODE)
        check(made, shape)
        said = whole_text(made).replace(" ", "")
        assert result.answer.headline.replace(" ", "") in said
        assert any(box.size in (HEADLINE_SIZES if shape == "wide" else UPRIGHT_SIZES) for box in made[0].boxes)
        assert sum(box.what == "code" for frame in made for box in frame.boxes) == 1
        if shape == "wide" and name not in PAGE_ONLY:
            shown = {box.what for frame in made for box in frame.boxes}
            assert all(f"drawing {d.title}" in shown for d in result.answer.drawings), "a drawing does not fit"
        if result.answer.cautions:
            seen = {box.what.partition(":")[0] for box in made[0].boxes}
            assert "Caution" in seen, "the caution is not seen with the result"


def random_result(seed: int) -> Result:
    """An answer of random words of random length, the worst cases included."""
    dice = random.Random(seed)

    def words(most: int) -> str:
        signs = "abcdefghijklmnopqrstuvwxyzMWÄß0123456789-/.,"
        return " ".join(
            "".join(dice.choice(signs) for _ in range(dice.choice((1, 3, 6, 9, 14, 40))))
            for _ in range(dice.randint(1, most))
        )

    def compute(_):
        word = dice.choice(("yes", "depends", "no"))
        return Answer(
            headline=words(30),
            verdict=dice.choice((None, Verdict(word, words(30), dice.choice(("", words(5)))))),
            figures=tuple(
                figure(f"f{i}", words(6), dice.choice((dice.random() * 1e6, words(2))), "GB/s", main=True)
                for i in range(dice.randint(0, 6))
            ),
            working=tuple(
                Working(words(8), words(8), words(8), words(3)) for _ in range(dice.randint(0, 6))
            ),
            drawings=(
                bars(words(6), words(6), [Bar(words(5), dice.random(), words(1)) for _ in range(dice.randint(1, 6))]),
            ),
            cautions=tuple(
                Caution("data", words(40), words(9), dice.random() < 0.3) for _ in range(dice.randint(0, 2))
            ),
            sources=tuple(Source(words(12)) for _ in range(dice.randint(0, 4))),
        )  # fmt: skip

    calculator = Calculator(name="test.random", title=words(14), summary="", inputs=(), compute=compute)
    return Result(calculator, read_all((), {}), compute(None))


@pytest.mark.once
@pytest.mark.parametrize("seed", range(200))
def test_random_answers_never_overlap_and_lose_nothing(seed):
    result = random_result(seed)
    for shape in SHAPES:
        made = frames(result, shape=shape, address=ADDRESS, qr=lambda _: CODE)
        check(made, shape)
        said = whole_text(made).replace(" ", "")
        assert result.answer.headline.replace(" ", "") in said
        for work in result.answer.working:
            assert work.what.replace(" ", "") in said
        left_out = [s for s in result.answer.sources if s.say().replace(" ", "") not in said]
        counted = re.search(r"And(\d+)more,onthepage\.$", said)
        # a short one may be part of another text by chance
        assert len(left_out) <= (int(counted[1]) if counted else 0), "left out without a word"


def test_the_working_is_revealed_line_by_line():
    result = find("memory.rate").run({})
    made = [f for f in frames(result) if f.name == "working"]
    assert 1 < len(made) <= MOST_REVEALS
    for before, after in pairwise(made):
        assert after.boxes[: len(before.boxes)] == before.boxes or len(after.boxes) < len(before.boxes)
    said = whole_text(made).replace(" ", "")
    assert all(work.result.replace(" ", "") in said for work in result.answer.working)


def test_without_an_address_there_is_no_code():
    made = frames(find("memory.rate").run({}), qr=lambda _: CODE)
    assert not [b for f in made for b in f.boxes if b.what == "code"]


def luminance(colour: str) -> float:
    """WCAG 2.2, relative luminance."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("colours", [LIGHT, DARK])
@pytest.mark.parametrize("ink", ["ink", "soft", "yes", "depends", "no", "mark"])
def test_contrast_is_at_least_seven_to_one(colours, ink):
    low, high = sorted((luminance(colours[ink]), luminance(colours["paper"])))
    assert (high + 0.05) / (low + 0.05) >= 7


@pytest.mark.parametrize("background", BACKGROUNDS)
def test_a_card_stands_alone(background):
    for frame in frames(find("memory.rate").run({}), background=background, font_css="@font-face{}"):
        assert "var(" not in frame.svg
        assert "<style>@font-face{}</style>" in frame.svg
        assert frame.svg.count('<rect width="1920" height="1080"') == (0 if background == "transparent" else 1)


def test_an_unknown_background_is_refused_in_words():
    with pytest.raises(ValueError, match="background must be one of light, dark, transparent, got blue"):
        frames(find("memory.rate").run({}), background="blue")


def test_a_word_wider_than_the_card_is_parted_and_kept_whole():
    lines = lines_of("a" * 200 + " b", 500, 96)
    assert "".join(lines).replace(" ", "") == "a" * 200 + "b"
    assert all(text_width(line, 96) <= 500 for line in lines)
