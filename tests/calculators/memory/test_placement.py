"""Placement against a brute force of its own: every slot takes any stick or none, wrong ways thrown out."""

from collections import Counter
from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.memory.kits.slot_placement import Stick, best, every_way, paired_gb, slot_names, worst_paired_gb

STICKS = st.builds(Stick, st.sampled_from([0, 1]), st.sampled_from([1, 2, 4, 8, 16, 24, 32, 48, 512]))
BOARDS = st.sampled_from([(2, 1), (2, 2), (4, 1), (4, 2)])


def brute_paired(sticks, slots, channels):
    """All amounts that can run in pairs, found the long way round."""
    amounts = []
    for filling in product([None, *set(sticks)], repeat=slots):
        if Counter(s for s in filling if s is not None) != Counter(sticks):
            continue
        if channels == 1:
            amounts.append(0)
            continue
        half = slots // 2
        sums = [sum(s.size_gb for s in part if s is not None) for part in (filling[:half], filling[half:])]
        amounts.append(sum(sums) - abs(sums[0] - sums[1]))
    return amounts


@given(st.lists(STICKS, min_size=1, max_size=4), BOARDS)
def test_the_best_and_the_worst_are_those_of_the_brute_force(sticks, board):
    ways = every_way(tuple(sticks), *board)
    amounts = brute_paired(sticks, *board)
    assert len(ways) == len(amounts)
    if ways:
        assert best(ways).paired_gb() == max(amounts)
        assert worst_paired_gb(ways) == min(amounts)
    else:
        assert len(sticks) > board[0]


@given(st.lists(STICKS, min_size=1, max_size=4), BOARDS)
def test_the_best_way_holds_every_stick_and_fills_far_slots_before_near_ones(sticks, board):
    ways = every_way(tuple(sticks), *board)
    if not ways:
        return
    way = best(ways)
    assert Counter(s for s in way.slots if s) == Counter(sticks)
    assert sum(way.channel_gb(n) for n in (0, 1)) == sum(s.size_gb for s in sticks)
    for number in range(way.channels):
        channel = way.channel(number)
        assert not any(near and not far for near, far in pairwise(channel))


@given(st.integers(0, 2048), st.integers(0, 2048))
def test_pairs_and_rest_make_the_whole(a, b):
    assert paired_gb(a, b) + abs(a - b) == a + b


@pytest.mark.parametrize(
    ("have", "add", "slots", "channels", "expected"),
    [
        # own edge cases: (count, size) of both kits, the board, and what each slot holds
        ((2, 8), (2, 16), 4, 2, ["8", "16", "8", "16"]),
        ((2, 8), (2, 8), 4, 2, ["8", "8", "8", "8"]),
        ((1, 8), (1, 8), 4, 2, ["-", "8", "-", "8"]),
        ((2, 8), (1, 16), 4, 2, ["-", "16", "8", "8"]),
        ((1, 16), (1, 8), 2, 2, ["16", "8"]),
        ((1, 16), (1, 8), 2, 1, ["8", "16"]),
        ((3, 8), (1, 24), 4, 2, ["8", "24", "8", "8"]),
        ((1, 32), (1, 8), 4, 1, ["-", "-", "8", "32"]),
    ],
)
def test_where_each_stick_goes(have, add, slots, channels, expected):
    sticks = (Stick(0, have[1]),) * have[0] + (Stick(1, add[1]),) * add[0]
    way = best(every_way(sticks, slots, channels))
    assert [str(s.size_gb) if s else "-" for s in way.slots] == expected


def test_alike_kits_each_share_both_channels_and_the_one_at_hand_stands_farther_out():
    way = best(every_way((Stick(0, 8), Stick(0, 8), Stick(1, 8), Stick(1, 8)), 4, 2))
    assert [s.kit for s in way.slots if s] == [1, 0, 1, 0]


@pytest.mark.parametrize(
    ("slots", "channels", "names"),
    [(4, 2, ("A1", "A2", "B1", "B2")), (2, 2, ("A1", "B1")), (2, 1, ("A1", "A2")), (4, 1, ("A1", "A2", "A3", "A4"))],
)
def test_slots_are_named_by_channel(slots, channels, names):
    assert slot_names(slots, channels) == names
