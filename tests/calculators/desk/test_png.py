"""The picture writer: a file that another reader takes apart byte by byte gives back exactly the codes put in."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.desk.png import grey_row, png
from tests.calculators.desk.png_reader import read_png


@settings(deadline=None)
@given(st.integers(1, 40), st.integers(1, 12), st.data())
def test_every_code_comes_back(width, height, data):
    rows = [data.draw(st.binary(min_size=3 * width, max_size=3 * width)) for _ in range(height)]
    rows += rows[-1:] * 3 + rows[:1]
    picture = read_png(png(width, rows))
    assert (picture.width, picture.height) == (width, len(rows))
    assert picture.rows == rows


def test_all_greys_in_one_row():
    row = grey_row(range(256))
    assert row[:6] == b"\0\0\0\1\1\1"
    assert read_png(png(256, [row] * 3)).rows == [row] * 3


def test_no_colour_space_is_named():
    assert read_png(png(1, [b"\x01\x02\x03"])).chunks == ["IHDR", "IDAT", "IEND"]


@pytest.mark.parametrize(
    ("width", "rows", "message"),
    [
        (2, [b"\0" * 5], "every row must hold 6 bytes, three for every pixel"),
        (0, [b""], "a picture has 1 to 16384 pixels a side, got 0 by 1"),
        (1, [], "a picture has 1 to 16384 pixels a side, got 1 by 0"),
    ],
)
def test_what_is_no_picture_is_refused(width, rows, message):
    with pytest.raises(ValueError, match=f"^{message}$"):
        png(width, rows)
