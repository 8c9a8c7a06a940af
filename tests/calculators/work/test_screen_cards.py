"""Cards of work: none is empty, none draws what nobody has told, and the part to take first is named."""

import pytest

from calculators.catalogue import find
from calculators.desk.card import composed
from calculators.desk.card_checks import faults
from calculators.desk.card_theme import DEFAULT

pytestmark = pytest.mark.once

SHAPES = ("wide", "panel", "upright", "lower", "thumbnail")
NAMES = ("gain", "balance", "footage", "scene", "lanes")


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("shape", SHAPES)
def test_a_card_of_which_nothing_is_told_is_whole_and_says_something(name, shape):
    result = find(f"work.{name}").run({})
    plan = composed(result, shape=shape)
    assert faults(plan, result, shape, DEFAULT) == []
    said = " ".join(box.what for box in plan.canvas.boxes if box.part in ("hero", "verdict", "drawing") and box.size)
    number = next((part for part in result.card().hero.split() if any(c.isdigit() for c in part)), "")
    assert "verdict" in plan.canvas.parts or (number and number in said), shape


def test_a_scene_without_a_card_says_what_it_takes_and_what_is_open():
    result = find("work.scene").run({})
    low, high = (next(f.value for f in result.answer.figures if f.key == key) for key in ("low_gb", "high_gb"))
    card = result.card()
    assert (f"{low:.1f}", f"{high:.0f}") == ("7.4", "10")
    assert card.hero == "about 7.4 to 10 GB"
    assert card.line == "tell us your card; our example scene takes"
    assert find("work.scene").run({"textures": 80}).card().line == "tell us your card; your scene takes"


@pytest.mark.parametrize("shape", ["wide", "upright", "thumbnail"])
def test_an_option_of_which_nothing_is_told_has_no_bar(shape):
    result = find("work.gain").run({})
    assert (result.card().verdict, result.card().line) == ("Can't say yet", "tell us what each part would save")
    boxes = [box for box in composed(result, shape=shape).canvas.boxes if box.part == "drawing"]
    bars = {box.what: box.right - box.left for box in boxes if box.what.startswith("bar ")}
    assert bars.pop("bar you wait now") > 200
    assert max(bars.values()) < 10
    assert [box.what for box in boxes if box.size].count("?") == len(bars)


def test_where_memory_is_not_known_the_better_option_is_a_perhaps():
    card = find("work.gain").run({"memory_fills": "unsure", "card_min": 60, "a_card": 2, "a_disk": 1}).card()
    assert card.verdict.startswith("Perhaps")
    assert card.line == "if memory never fills up"


def test_the_part_that_a_week_loads_most_comes_first():
    card = find("work.balance").run({}).card()
    assert (card.hero, card.line) == ("graphics card first", "your week loads it and its memory most")
    for preset in find("work.balance").presets:
        made = find("work.balance").run(preset.inputs).card()
        assert made.hero.endswith((" first", " parts")) or made.hero == "nothing much", preset.key


def test_uncompressed_footage_stands_against_what_disks_carry_and_not_against_itself():
    result = find("work.footage").run({})
    card = result.card()
    assert card.line == "3840×2160 at 25, uncompressed, needs"
    assert card.working == ("3840 × 2160 × 25 × 4 bytes", "=", "829 MB/s")
    assert round(3840 * 2160 * 25 * 4 / 1e6) == 829
    drawn = card.drawing(900, 500, 56)
    lengths = {box.what: box.right - box.left for box in drawn.record() if box.what.startswith("bar ")}
    assert len(lengths) == 3
    # Serial ATA revision 3: 6 Gb/s with 8b/10b, so 600 MB/s; four lanes at 8 GT/s with 128b/130b
    assert lengths["bar serial ATA, at most"] / lengths["bar your footage, uncompressed"] == pytest.approx(
        600 / 829.44, rel=0.01
    )
    assert lengths["bar 4 lanes, generation 3, at most"] / lengths["bar serial ATA, at most"] == pytest.approx(
        4 * 8000 * 128 / 130 / 8 / 600, rel=0.01
    )


@pytest.mark.parametrize(
    ("inputs", "line"),
    [
        ({"mbps": 400}, "at 400 Mb/s the disk must give"),
        ({"ratio": 5}, "3840×2160 at 25, 5:1, needs"),
        ({"streams": 4, "mbps": 400}, "4 such streams at once need"),
    ],
)
def test_the_footage_is_named_beside_its_number(inputs, line):
    card = find("work.footage").run(inputs).card()
    assert card.line == line
    assert card.working == ()
