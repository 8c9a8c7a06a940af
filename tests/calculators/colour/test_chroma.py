"""Subsampling: counts against the definition, and a picture really subsampled."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.colour.signals.chroma_subsampling import (
    GROUND,
    INK,
    SHARED,
    coloured_text,
    samples,
    subsample,
    to_rgb,
    to_ycc,
)


def values(**given: object) -> dict[str, float | str]:
    return {f.key: f.value for f in find("colour.chroma").run(given).answer.figures}


@pytest.mark.parametrize(
    ("sampling", "depth", "bits", "share", "megabytes"),
    [
        ("444", 8, 24, 100, 24.8832),
        ("422", 8, 16, 200 / 3, 16.5888),
        ("420", 8, 12, 50, 12.4416),
        ("444", 10, 30, 100, 31.104),
        ("420", 10, 15, 50, 15.552),
        ("422", 12, 24, 200 / 3, 24.8832),
    ],
)
def test_a_frame_of_3840_by_2160(sampling, depth, bits, share, megabytes):
    found = values(sampling=sampling, depth=depth)
    assert found["luma_samples"] == 3840 * 2160
    assert found["bits_per_pixel"] == pytest.approx(bits)
    assert found["share_percent"] == pytest.approx(share)
    assert found["frame_mb"] == pytest.approx(megabytes)


@given(st.integers(1, 200), st.integers(1, 200), st.sampled_from(list(SHARED)))
def test_property_samples_are_those_of_the_groups_counted_one_by_one(width, height, sampling):
    across, down = SHARED[sampling]
    groups = {(x // across, y // down) for x in range(width) for y in range(height)}
    assert samples(width, height, sampling) == (width * height, 2 * len(groups))


COLOURS = st.tuples(*[st.integers(0, 255)] * 3)


@given(COLOURS)
def test_round_trip_of_a_colour(colour):
    assert to_rgb(*to_ycc(colour)) == colour


@given(st.lists(st.lists(COLOURS, min_size=5, max_size=5), min_size=1, max_size=5), st.sampled_from(list(SHARED)))
def test_property_an_even_picture_stays_and_a_shape_is_kept(picture, sampling):
    after = subsample(picture, sampling)
    assert [len(row) for row in after] == [len(row) for row in picture]
    even = [[picture[0][0]] * 5 for _ in picture]
    assert subsample(even, sampling) == even
    if sampling == "444":
        assert after == picture


def test_greys_lose_nothing_at_all():
    picture = [[(v, v, v) for v in (0, 255, 20, 200, 90)] for _ in range(3)]
    assert subsample(picture, "420") == picture


def test_the_letters_are_spoilt_more_the_fewer_colours_are_kept():
    before = coloured_text()
    changed = {
        key: sum(a != b for new, old in zip(subsample(before, key), before, strict=True)
                 for a, b in zip(new, old, strict=True))
        for key in SHARED
    }  # fmt: skip
    assert 0 == changed["444"] < changed["422"] < changed["420"]
    assert {colour for row in before for colour in row} == {INK, GROUND}


def test_the_common_mistake_is_put_right():
    notes = find("colour.chroma").run({"sampling": "444"}).answer.notes
    assert notes[0].title == "4:4:4 does not mean more bits"
    assert values(sampling="444", depth=8)["bits_per_pixel"] == 24


def test_the_drawing_shows_before_and_after_in_few_bytes():
    drawing = find("colour.chroma").run({"sampling": "420"}).answer.drawings[0].svg()
    assert "Before" in drawing
    assert "After 4:2:0" in drawing
    assert len(drawing) < 8000
