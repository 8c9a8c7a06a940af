"""The test pictures, taken apart pixel by pixel: every code is where it should be, at every size."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.colour.picture import calculator
from calculators.colour.test_pictures.canvas import Canvas, text_size
from calculators.colour.test_pictures.patterns import (
    BRIGHT_STEPS,
    DARK_STEPS,
    DETAIL,
    GREY_PATCHES,
    GREYS,
    HALF_LIGHT,
    NEAR_BLACK,
    NEAR_WHITE,
    PICTURES,
    PIXELS,
    paint,
)
from calculators.colour.test_pictures.resampling import subsample
from tests.calculators.desk.png_reader import read_png

pytestmark = pytest.mark.once

VALUES = Path(__file__).resolve().parents[2] / "check_values"
LUMA = tomllib.loads((VALUES / "bt_709_luma.toml").read_text("utf-8"))
SIZES = [(480, 270), (640, 360), (1366, 768), (1920, 1080), (3440, 1440), (481, 271)]


def decoded(key: str, width: int, height: int):
    """What another reader makes of the file that the answer gives."""
    (file,) = calculator.run({"picture": key, "width": width, "height": height}).answer.files
    assert (file.media, file.size) == ("image/png", (width, height))
    picture = read_png(file.data)
    assert (picture.width, picture.height) == (width, height)
    return picture


def runs(codes):
    """Neighbours that are equal, once each."""
    return [code for i, code in enumerate(codes) if i == 0 or codes[i - 1] != code]


@pytest.mark.parametrize(("width", "height"), SIZES)
@pytest.mark.parametrize(("key", "steps", "ground"), [(NEAR_BLACK, DARK_STEPS, 0), (NEAR_WHITE, BRIGHT_STEPS, 255)])
def test_steps_stand_side_by_side_with_exactly_their_codes(key, steps, ground, width, height):
    picture, painted = decoded(key, width, height), paint(key, width, height)
    at = painted.patches[0].y + painted.patches[0].height - 1
    row = runs([picture.pixel(x, at) for x in range(width)])
    expected = [(ground,) * 3]
    for code in steps:
        expected += [(code,) * 3, (ground,) * 3]
    assert row == expected


@pytest.mark.parametrize("key", [NEAR_BLACK, NEAR_WHITE, GREYS, PIXELS])
def test_every_plain_part_is_plain_to_its_last_pixel(key):
    picture, painted = decoded(key, 640, 360), paint(key, 640, 360)
    assert painted.patches
    for patch in painted.patches:
        for y in range(patch.y, patch.y + patch.height):
            row = picture.rows[y][3 * patch.x : 3 * (patch.x + patch.width)]
            assert row == bytes(patch.codes) * patch.width


@pytest.mark.parametrize(
    ("key", "steps"), [(NEAR_BLACK, DARK_STEPS), (NEAR_WHITE, BRIGHT_STEPS), (GREYS, GREY_PATCHES)]
)
def test_the_plain_parts_are_the_steps(key, steps):
    assert [p.codes for p in paint(key, 640, 360).patches] == [(code,) * 3 for code in steps]


def test_a_step_grows_towards_the_right():
    for key in (NEAR_BLACK, NEAR_WHITE):
        heights = [p.height for p in paint(key, 640, 360).patches]
        assert heights == sorted(set(heights))


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_the_ramps_hold_every_code_from_end_to_end(width, height):
    picture = decoded(GREYS, width, height)
    margin = height // 12
    ramp = [256 * x // width for x in range(width)]
    assert sorted(set(ramp)) == list(range(256))
    assert [picture.pixel(x, margin) for x in range(width)] == [(c,) * 3 for c in ramp]
    assert [picture.pixel(x, height - margin - 1) for x in range(width)] == [(c,) * 3 for c in reversed(ramp)]


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_the_frame_is_one_pixel_wide_on_the_outermost_pixels(width, height):
    picture = decoded(PIXELS, width, height)
    white, black = (255,) * 3, (0,) * 3
    for x in range(width):
        assert picture.pixel(x, 0) == picture.pixel(x, height - 1) == white
    for y in range(height):
        assert picture.pixel(0, y) == picture.pixel(width - 1, y) == white
    assert [picture.pixel(x, height // 4) for x in range(4)] == [white, black, white, (128,) * 3]
    assert [picture.pixel(width // 2, y) for y in range(4)] == [white, black, white, (128,) * 3]


def test_single_pixels_alternate_across_down_and_both():
    picture, painted = decoded(PIXELS, 640, 360), paint(PIXELS, 640, 360)
    plain = painted.patches[0]
    step = (640 - 4 * plain.width) // 5 + plain.width
    for number, differs in ((3, (1, 1)), (2, (1, 0)), (1, (0, 1))):
        left = plain.x - number * step
        for y in range(plain.y, plain.y + plain.height):
            for x in range(left, left + plain.width):
                light = (differs[0] * (x - left) + differs[1] * (y - plain.y)) % 2 == 0
                assert picture.pixel(x, y) == ((255,) * 3 if light else (0,) * 3)


def test_the_plain_grey_has_half_the_light_of_white():
    # IEC 61966-2-1, from memory: light = ((v + 0.055) / 1.055) ^ 2.4 above 0.04045
    light = [((code / 255 + 0.055) / 1.055) ** 2.4 for code in range(256)]
    assert min(range(256), key=lambda c: abs(light[c] - 0.5)) == HALF_LIGHT


def shared(rows: list[bytes], across: int, down: int) -> list[bytes]:
    """The same by another way: exact fractions, through Y′CbCr with BT.709's own scale factors and back."""
    made = [bytearray(row) for row in rows]
    for top in range(0, len(rows), down):
        for left in range(0, len(rows[0]) // 3, across):
            block = [(x, y) for y in range(top, top + down) for x in range(left, left + across)]
            values = tuple(rows[y][3 * x : 3 * x + 3] for x, y in block)
            for (x, y), codes in zip(block, shared_block(values), strict=True):
                made[y][3 * x : 3 * x + 3] = codes
    return [bytes(row) for row in made]


@cache  # a picture has the same few blocks many times
def shared_block(values: tuple[bytes, ...]) -> list[bytes]:
    """The codes of neighbours that share one pair of colour differences."""
    red, green, blue = (Fraction(str(LUMA[name])) for name in ("red", "green", "blue"))
    luma = [red * r + green * g + blue * b for r, g, b in values]
    cb = sum((codes[2] - light) / (2 * (1 - blue)) for codes, light in zip(values, luma, strict=True)) / len(values)
    cr = sum((codes[0] - light) / (2 * (1 - red)) for codes, light in zip(values, luma, strict=True)) / len(values)
    made = []
    for light in luma:
        r = light + 2 * (1 - red) * cr
        b = light + 2 * (1 - blue) * cb
        g = (light - red * r - blue * b) / green
        made.append(bytes(min(max(int(v + Fraction(1, 2)), 0), 255) for v in (r, g, b)))
    return made


@settings(max_examples=50, deadline=None)
@given(st.integers(1, 4), st.integers(1, 3), st.data())
def test_subsampling_is_what_the_standard_gives(across, down, data):
    rows = [data.draw(st.binary(min_size=6 * across, max_size=6 * across)) for _ in range(2 * down)]
    assert subsample(rows, "422") == shared(rows, 2, 1)
    assert subsample(rows, "420") == shared(rows, 2, 2)
    assert subsample(rows, "444") == rows


@pytest.mark.parametrize(("width", "height"), [(480, 270), (640, 360)])
def test_the_panels_hold_the_same_detail_really_subsampled(width, height):
    picture, painted = decoded(DETAIL, width, height), paint(DETAIL, width, height)
    assert [size[2:] for size in painted.panels] == [painted.panels[0][2:]] * 3
    first, second, third = (
        [picture.rows[at][3 * x : 3 * (x + wide)] for at in range(y, y + tall)] for x, y, wide, tall in painted.panels
    )
    assert second == shared(first, 2, 1)
    assert third == shared(first, 2, 2)
    assert all(x % 2 == 0 and y % 2 == 0 for x, y, _, _ in painted.panels)  # so that a link shares the same neighbours


def test_the_stripes_of_the_detail_vanish_as_said():
    picture, painted = decoded(DETAIL, 640, 360), paint(DETAIL, 640, 360)
    x, y, wide, tall = painted.panels[0]
    step = painted.panels[1][0] - x

    def colours(panel: int, right: bool) -> set[tuple[int, int, int]]:
        left, bottom = x + panel * step + (wide // 2 // 2 * 2 if right else 0) + 8, y + tall - 8
        return {picture.pixel(left + i, bottom - j) for i in range(8) for j in range(8)}

    def striped(found: set[tuple[int, int, int]]) -> bool:
        return any(abs(a[0] - b[0]) > 100 for a in found for b in found)

    assert [striped(colours(0, False)), striped(colours(0, True))] == [True, True]
    assert [striped(colours(1, False)), striped(colours(1, True))] == [False, True]
    assert [striped(colours(2, False)), striped(colours(2, True))] == [False, False]


def test_striped_parts_stay_small():
    """No patch of single pixels is wider than 160 pixels, whatever the screen's size."""
    for width, height in SIZES:
        assert paint(PIXELS, width, height).patches[0].width <= 160
        assert all(wide <= 240 and tall <= 320 for _, _, wide, tall in paint(DETAIL, width, height).panels)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(PICTURES), st.integers(480, 5120), st.integers(270, 2880))
def test_any_size_gives_a_whole_picture(key, width, height):
    painted = paint(key, width, height)
    assert len(painted.rows) == height
    assert {len(row) for row in painted.rows} == {3 * width}
    for patch in painted.patches:
        assert 0 <= patch.x <= patch.x + patch.width <= width
        assert 0 <= patch.y <= patch.y + patch.height <= height


def test_what_lies_outside_the_canvas_is_left_out():
    canvas = Canvas(4, 3, (0, 0, 0))
    canvas.rect(-2, -2, 4, 3, (9, 9, 9))
    canvas.rect(3, 2, 10, 10, (5, 5, 5))
    canvas.rect(7, 0, 2, 2, (1, 1, 1))
    assert [row[::3].hex() for row in canvas.rows] == ["09090000", "00000000", "00000005"]


def test_letters_stand_where_they_are_put():
    canvas = Canvas(12, 9, (0, 0, 0))
    canvas.text(1, 1, "1", (7, 7, 7))
    assert text_size("1", 1) == (5, 7)
    assert [row[::3].hex() for row in canvas.rows[1:4]] == ["000000070000000000000000", "000007070000000000000000",
                                                            "000000070000000000000000"]  # fmt: skip
