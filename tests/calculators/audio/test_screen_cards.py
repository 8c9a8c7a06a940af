"""What the cards of audio say and draw: numbers with their period, level and condition, and plugs that fit."""

from itertools import pairwise

import pytest

from calculators.audio.connections.connection_picture import connection, end_of
from calculators.audio.hearing.exposure_limits import ADULT_WEEK, CHILD_WEEK, allowed_hours
from calculators.audio.statistics.binomial import chance_of_at_least
from calculators.catalogue import find
from calculators.desk.card import composed
from calculators.desk.card_forms.fitting import says
from calculators.desk.card_theme import LIGHT
from calculators.desk.svg import Box

pytestmark = pytest.mark.once

FORMS = ("wide", "panel", "upright", "thumbnail")


def boxes(name: str, shape: str = "wide", **given) -> list[Box]:
    return composed(find(name).run(given), shape=shape).canvas.boxes


def said(drawn: list[Box], *parts: str) -> str:
    return " ".join(box.what for box in drawn if box.size and (not parts or box.part in parts))


def minutes(text: str) -> int:
    """'adults: 12 h 36 min', or '12 h 36 min a week', as minutes."""
    parts = text.removeprefix("adults: ").removesuffix(" a week").split()
    return sum(int(n) * {"h": 60, "min": 1}[unit] for n, unit in zip(parts[::2], parts[1::2], strict=True))


def test_an_allowance_has_its_period_its_level_and_both_numbers():
    # "at most 12 h 36 min" was read as the hours of a day, and "this loud" had no level
    card = find("audio.exposure").run({"level": 85, "hours_day": 2, "days_week": 5}).card()
    assert card.verdict == "10 h: adults only"  # the viewer's own hours: beside the allowance's they are told apart
    assert card.hero.startswith("adults: ")
    assert card.line.startswith("a week at most")
    assert minutes(card.hero) == round(allowed_hours(85, ADULT_WEEK) * 60)
    assert {"85", "dBA"} <= set(card.line.split())
    for shape in FORMS:
        drawn = boxes("audio.exposure", shape, level=85, hours_day=2, days_week=5)
        words = said(drawn, "drawing")
        assert "your week at 85 dBA" in words, shape
        assert "week" in words.replace("your week", ""), shape  # the allowances' own period
        child = allowed_hours(85, CHILD_WEEK) * 60
        assert minutes("3 h 58 min") <= child < minutes("3 h 58 min") + 2
        assert "3 h 58 min" in words, shape


def test_a_strip_says_how_long_for_whom_and_how_loud():
    words = said(boxes("audio.exposure", "lower", level=85, hours_day=2, days_week=5))
    assert "adults: 12 h 36 min" in words
    assert "a week at most" in words
    assert "85 dBA" in words
    assert "10 h: adults only" in words


@pytest.mark.parametrize("preset", find("audio.exposure").presets, ids=lambda p: p.key)
def test_no_time_stands_without_its_week(preset):
    card = find("audio.exposure").run(preset.inputs).card()
    if any(unit in card.hero.split() for unit in ("h", "min")):
        assert card.hero.endswith(" a week")
    assert "For adults only" not in card.verdict


@pytest.mark.parametrize("shape", FORMS)
def test_hiss_above_the_room_has_a_colour_of_its_own_and_is_no_sliver(shape):
    drawn = boxes("audio.noise", shape)
    zones = [box for box in drawn if box.what.startswith("zone ")]
    hidden, heard = sorted(zones, key=lambda box: box.left)
    assert (hidden.ink, heard.ink) == ("mark", "fill-3")
    assert hidden.right == pytest.approx(heard.left, abs=1)
    assert heard.right - heard.left > 0.08 * (heard.right - hidden.left)
    assert "28 dBA" in said(drawn, "drawing")


def test_an_open_question_of_hiss_is_answered_with_both_levels():
    card = find("audio.noise").run({}).card()
    assert (card.verdict, card.hero) == ("You may hear hiss", "hiss up to 28 dBA")
    assert "25 dBA" in card.line
    assert {"hiss up to 28 dBA", card.line} <= {box.what for box in boxes("audio.noise", "lower")}


def test_a_plain_verdict_about_hiss_is_not_called_open():
    for preset in find("audio.noise").presets:
        result = find("audio.noise").run(preset.inputs)
        open_ = result.answer.verdict.word == "depends"
        assert (result.card().verdict == "You may hear hiss") == open_, preset.key


@pytest.mark.parametrize("shape", FORMS)
def test_what_is_louder_than_asked_for_has_the_colour_of_danger(shape):
    drawn = boxes("audio.level", shape)
    (over,) = [box for box in drawn if box.what.startswith("zone ") and box.ink == "no"]
    (safe,) = [box for box in drawn if box.what.startswith("zone ") and box.ink == "fill-1"]
    assert safe.left < over.left < over.right
    assert over.right == pytest.approx(safe.right, abs=1)
    numbers = [float(box.what.split()[0]) for box in drawn if box.part == "drawing" and box.what[:1].isdigit()]
    steps = {b - a for a, b in pairwise(sorted(number for number in numbers if number >= 60 and number % 20 == 0))}
    assert len(steps) == 1, "even numbers on the scale"
    assert "you want" not in said(drawn)
    assert "your loudest peaks: 100 dB" in said(drawn, "drawing")
    assert over.left > safe.left


def test_a_level_outside_the_usual_scale_stands_in_its_place():
    quiet = {"sensitivity": 60, "impedance": 600, "source_volts": 0.1, "source_impedance": 100}
    drawn = boxes("audio.level", **quiet)
    reach = find("audio.level").run(quiet).answer
    level = next(f.value for f in reach.figures if f.key == "max_spl_db")
    assert level < 60
    ends = [box.what.replace("−", "-").split()[0] for box in drawn if box.part == "drawing" and box.ink == "soft"]
    numbers = [float(end) for end in ends]
    assert min(numbers) <= level


@pytest.mark.parametrize("room", [(1700, 420, 68), (900, 560, 56), (560, 500, 48), (881, 420, 48)])
@pytest.mark.parametrize(
    ("plug", "socket"), [("6.35-3", "3.5-3"), ("3.5-3", "6.35-3"), ("3.5-4", "3.5-pair"), ("3.5-pair", "3.5-4")]
)
def test_every_plug_fits_the_hole_that_it_goes_into(room, plug, socket):
    drawn = connection(end_of(plug), end_of(socket), "adapter", 1, True, "6.35 to 3.5 mm adapter")(*room)
    assert drawn is not None
    by_name = {box.what: box for box in drawn.record() if not box.size}
    for shaft, hole in (("shaft 0", "hole 10"), ("shaft 10", "hole 0")):
        one, other = by_name[shaft], by_name[hole]
        assert one.right - one.left == pytest.approx(other.right - other.left, abs=1)
        assert one.bottom - one.top == pytest.approx(other.bottom - other.top, abs=1)
    assert all(box.left >= 0 and box.right <= room[0] for box in by_name.values())


@pytest.mark.parametrize("shape", ["wide", "panel", "upright"])
def test_an_adapter_is_named_by_what_it_joins(shape):
    words = said(boxes("audio.plugs", shape, device="headphones", plug="6.35-3", socket="3.5-3"))
    assert "6.35 to 3.5 mm" in words
    assert "adapter" in words
    assert "1 adapter" not in words


def test_a_score_is_the_viewer_s_own_and_stands_before_the_verdict():
    plan = composed(find("audio.blind").run({"right": 12, "trials": 16}))
    first, second = plan.steps[0][1], plan.steps[1][1]
    own = next(box for box in plan.canvas.boxes if box.what == "you: 12")
    assert own.comes_with in first
    assert "verdict" not in first
    assert {"verdict", "hero"} <= set(second)
    assert "what pure guessing gives" in said(plan.canvas.boxes, "drawing")
    column = next(box for box in plan.canvas.boxes if box.what == "column 12")
    assert own.left < (column.left + column.right) / 2 < own.right


@pytest.mark.parametrize(
    ("right", "trials", "hero"),
    # 2517 of 65536, 11 of 1024 and 1 of 1024 by adding up a row of Pascal's triangle by hand
    [(12, 16, "about 4 in 100"), (9, 10, "about 1 in 100"), (10, 10, "below 1 in 1000"), (16, 24, "about 8 in 100")],
)
def test_how_often_a_guesser_does_as_well_is_a_whole_number(right, trials, hero):
    card = find("audio.blind").run({"right": right, "trials": trials}).card()
    assert card.hero == hero
    assert card.line.startswith("guessers get ") == (chance_of_at_least(right, trials) <= 0.05)


def test_near_the_line_at_five_a_digit_more_tells_on_which_side():
    near = 0
    for trials in range(10, 80):
        for right in range(trials // 2, trials):
            chance = chance_of_at_least(right, trials) * 100
            if 4.5 <= chance < 5.5:
                card = find("audio.blind").run({"right": right, "trials": trials}).card()
                told = float(card.hero.removeprefix("about ").removesuffix(" in 100"))
                assert (told < 5) == (chance < 5) or told == 5 == round(chance, 1), (right, trials, card.hero)
                near += 1
    assert near > 5


@pytest.mark.parametrize("kind", ["left", "right", "both", "reversed"])
def test_a_panel_of_a_tone_keeps_what_is_to_be_heard(kind):
    result = find("audio.tones").run({"kind": kind})
    drawn = composed(result, shape="panel").canvas.boxes
    if kind == "left":
        assert (said(drawn, "hero"), said(drawn, "line")) == ("left only", "what you should hear")
    assert "left" in said(drawn, "drawing")
    assert ("silence" in said(drawn, "drawing")) == (kind in ("left", "right"))


def test_nothing_of_a_strip_about_a_level_is_lost():
    drawn = boxes("audio.level", "lower")
    card = find("audio.level").run({}).card()
    for part, whole in (("verdict", card.verdict), ("hero", card.hero), ("line", card.line)):
        assert says_all(drawn, part, whole)
    assert LIGHT["no"] != LIGHT["mark"]


def says_all(drawn: list[Box], part: str, whole: str) -> bool:
    return said(drawn, part).split() == whole.split()


def test_a_panel_s_drawing_says_what_the_hero_says():
    for name in ("audio.exposure", "audio.noise", "audio.level", "audio.blind"):
        result = find(name).run({})
        plan = composed(result, shape="panel")
        if "hero" not in plan.canvas.parts:
            drawn = result.card().drawing(608, 420, 48)
            assert drawn is not None, name
            assert says(drawn, result.card().hero), name
