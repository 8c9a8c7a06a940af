"""Cards of colour: what is lost is seen on a phone, is named, and the drawing is told for what it is."""

from itertools import pairwise

import pytest

from calculators.catalogue import find
from calculators.colour.chroma import softest
from calculators.colour.signals.chroma_subsampling import coloured_text, subsample
from calculators.colour.test_pictures.patterns import BRIGHT_STEPS, DARK_STEPS
from calculators.desk.card import composed

pytestmark = pytest.mark.once

# Grey codes that differ by less run together in 4:2:0 video at a low bit rate; common practice, no source.
TOLD_APART = 5


def drawing(name: str, key: str, shape: str = "wide"):
    preset = next(each for each in find(name).presets if each.key == key)
    return [box for box in composed(find(name).run(preset.inputs), shape=shape).canvas.boxes if box.part == "drawing"]


def greys(boxes) -> list[int]:
    return [int(box.ink[1:3], 16) for box in boxes]


def test_the_first_common_case_of_the_samplings_shows_a_loss_and_where_it_is():
    first = find("colour.chroma").presets[0]
    result = find("colour.chroma").run(first.inputs)
    assert first.inputs["sampling"] == "420"
    card = result.card()
    assert card.hero == "4:4:4 for text"
    assert card.line == "4:2:0 blurs text, suits films"
    assert card.figures == (("as sharp", "RGB"), ("of the colour, 4:2:0 keeps", "a quarter"))
    told = {f.key: f.value for f in result.answer.figures}
    assert told["chroma_samples"] * 4 == 2 * told["luma_samples"]  # of two signals for every pixel
    for shape in ("wide", "panel", "upright", "thumbnail"):
        boxes = drawing("colour.chroma", first.key, shape)
        words = [box for box in boxes if box.size]
        (bracket,) = [box for box in boxes if box.what == "blurred here"]
        (title,) = [box for box in words if box.what == "After 4:2:0"]
        (below,) = [box for box in words if box.what == "blurred edges"]
        assert bracket.comes_with != "drawing"  # after the picture as it was
        # about all of the e, the pixel into which it runs included: 7 columns of pictures ten pixels high
        cell = (bracket.right - bracket.left) / 7
        assert bracket.top >= title.bottom + 10 * cell, shape  # below the picture, of which it covers nothing
        assert bracket.bottom <= below.top, shape


def test_the_bracket_spans_the_letter_that_loses_most():
    before = coloured_text("Te")
    first, last = softest(before, subsample(before, "420"))
    assert (first, last) == (7, 13)  # the e: its strokes end inside blocks of two by two
    assert not [box for box in drawing("colour.chroma", "desk") if box.what == "blurred here"]


@pytest.mark.parametrize(("key", "codes", "ground"), [("near-black", DARK_STEPS, 0), ("near-white", BRIGHT_STEPS, 255)])
@pytest.mark.parametrize("shape", ["wide", "panel", "upright", "thumbnail"])
def test_both_rows_of_steps_are_seen_and_told_as_stand_ins(key, codes, ground, shape):
    boxes = drawing("colour.picture", key, shape)
    tiles = [box for box in boxes if box.what.startswith(("step ", "gone "))]
    right, wrong, veiled = (tiles[len(codes) * i : len(codes) * (i + 1)] for i in range(3))
    shown = greys(right)
    apart = [b - a if ground == 0 else a - b for a, b in pairwise(shown)]
    assert min(apart) >= TOLD_APART
    assert max(shown) - min(shown) >= 200
    # ITU-R BT.709-6: limited range ends at 16 and 235, so all up to these look like the ground
    lost = [code <= 16 if ground == 0 else code >= 235 for code in codes]
    assert [box.what.startswith("gone") for box in wrong] == lost
    assert {grey for grey, gone in zip(greys(wrong), lost, strict=True) if gone} == {ground}
    said = " ".join(box.what for box in boxes if box.size)
    colour = "black" if ground == 0 else "white"
    assert f"right: nearly all {len(codes)}" in said
    assert f"wrong: only {lost.count(False)}" in said
    assert f"{'brightened' if ground == 0 else 'darkened'} for this card" in said
    # of the opposite error every step shows, on a ground that is grey: it must not pass for right
    grounds = [int(box.ink[1:3], 16) for box in boxes if box.what.startswith("ground ")]
    if len(grounds) == 3:
        assert f"wrong too: {colour} is grey" in said
        assert grounds[:2] == [ground, ground]
        assert 0 < grounds[2] < 255
        assert len(set(greys(veiled))) == len(codes)
    else:
        assert (len(grounds), veiled) == (2, [])
    assert all(box.comes_with == "drawing" for box in right)
    assert all(box.comes_with != "drawing" for box in wrong)


def test_the_card_counts_the_same_steps_as_the_answer():
    for key, codes in (("near-black", DARK_STEPS), ("near-white", BRIGHT_STEPS)):
        result = find("colour.picture").run({"picture": key})
        told = {f.key: f.value for f in result.answer.figures}
        gone = [box for box in drawing("colour.picture", key) if box.what.startswith("gone ")]
        assert (told["steps"], told["steps_swallowed"]) == (len(codes), len(gone))


@pytest.mark.parametrize("shape", ["wide", "panel", "upright", "thumbnail"])
def test_the_words_at_a_ramp_s_ends_are_two(shape):
    for preset in find("colour.levels").presets:
        red = [box for box in drawing("colour.levels", preset.key, shape) if box.size and box.ink == "no"]
        assert len(red) in (0, 2), preset.key
        if red:
            first, last = sorted(red, key=lambda box: box.left)
            assert last.left - first.right >= first.size, preset.key


@pytest.mark.parametrize("name", ["colour.levels", "colour.picture"])
def test_the_strip_of_a_panel_leaves_the_drawing_its_room(name):
    for preset in find(name).presets:
        boxes = composed(find(name).run(preset.inputs), shape="panel").canvas.boxes
        lines = [box for box in boxes if box.part == "caution" and box.size]
        assert 1 <= len(lines) <= 2, preset.key


@pytest.mark.parametrize(
    ("inputs", "hero", "marked"),
    [
        ({"depth": "8", "signal": "gamma"}, "8 bits will do", "8 bits, HDR off"),
        ({"depth": "10", "signal": "gamma"}, "8 bits will do", "8 bits, HDR off"),
        ({"depth": "8", "signal": "pq"}, "10 bits will do", "10 bits, for HDR"),
        ({"depth": "12", "signal": "pq"}, "10 bits will do", "10 bits, for HDR"),
    ],
)
def test_a_depth_is_chosen_and_its_bar_says_for_what(inputs, hero, marked):
    result = find("colour.depth").run(inputs)
    assert result.card().hero == hero
    for shape in ("wide", "panel", "upright", "thumbnail"):
        boxes = [box for box in composed(result, shape=shape).canvas.boxes if box.part == "drawing"]
        assert marked in [box.what for box in boxes if box.size and box.ink == "mark"], shape


def test_shadows_are_told_as_how_bright_and_to_as_many_places():
    card = find("colour.shadows").run({"code": 20}).card()
    assert (card.hero, card.line) == ("1.9 times as bright", "a near-black grey, with HDR on")
    assert {"0.74 cd/m²", "1.40 cd/m²"} <= {box.what for box in drawing("colour.shadows", "night") if box.size}


def test_the_levels_lost_are_told_of_all():
    card = find("colour.levels").run({}).card()
    assert (card.verdict, card.hero) == ("Both ends cut off", "36 greys lost")
    assert card.line == "of 256: 16 dark ones, 20 bright ones"
