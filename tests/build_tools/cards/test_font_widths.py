"""The table of widths is the shipped face's own."""

from pathlib import Path

import pytest

from build_tools.cards.font_widths import FACE, WEIGHTS, widths
from calculators.desk import font_widths

PROJECT = Path(__file__).parents[3]


@pytest.mark.parametrize(("name", "weight"), WEIGHTS)
def test_the_table_holds_the_advances_of_the_shipped_face(name, weight):
    assert getattr(font_widths, name) == widths(PROJECT / FACE, weight)
