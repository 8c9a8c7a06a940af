"""What the screen shows of memory says what the bars beside it say."""

from __future__ import annotations

import pytest

from calculators.catalogue import find


@pytest.mark.parametrize(
    ("rate", "cas", "hero"),
    [
        (3200, 16, "the same: 10 ns"),
        (6000, 30, "the same: 10 ns"),
        (3600, 18, "the same: 10 ns"),
        (3200, 18, "11.2 ns"),
        (6000, 32, "10.7 ns"),
    ],
)
def test_where_all_bars_are_alike_the_hero_says_so(rate, cas, hero):
    card = find("memory.rate").run({"rate": rate, "cas": cas}).card()
    assert card.hero == hero
