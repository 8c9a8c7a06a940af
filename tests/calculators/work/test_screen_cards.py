"""What the screen shows of work answers what was asked: nothing untold is drawn as told, a need stands against bars."""

from __future__ import annotations

import pytest

from calculators.catalogue import find
from calculators.desk.card_declared import words
from calculators.work import screen_cards


def card(name, **inputs):
    result = find(f"work.{name}").run(inputs)
    return getattr(screen_cards, name)(result.values, result.answer)


def drawn(made, width=1000.0, height=520.0, size=48.0):
    return made.drawing(width, height, size).record()


def lengths(made):
    return {box.what: box.right - box.left for box in drawn(made) if not box.size}


def said(made):
    return [box.what for box in drawn(made) if box.size]


def test_a_scene_of_which_nothing_is_told_says_what_is_missing_and_warns_of_nothing():
    made = card("scene")
    assert (made.hero, made.line) == ("can't say yet", "tell the scene's size and the card's memory")
    assert {"untold your scene", "untold left on your card"} == set(lengths(made))
    assert find("work.scene").run({}).answer.cautions == ()


def test_a_scene_without_a_card_is_told_and_the_card_s_memory_stays_empty():
    # 20 textures of 4096 x 4096 x 4 byte x 4/3 are 1.79 GB, by hand; 5 million triangles 0.25 to 1 GB
    made = card("scene", textures=20, texture_px=4096, triangles_m=5)
    assert made.line == "for the scene; now tell the card's memory"
    assert "GB" in made.hero
    assert "untold left on your card" in lengths(made)
    assert "bar your scene" in lengths(made)


def test_a_scene_measured_without_a_card_shows_the_peak():
    made = card("scene", half_peak_gb=5, quarter_peak_gb=3.7)  # 5 + 4 x 1.3 = 10.2
    assert made.hero == "about 10 GB"


def test_options_not_told_are_empty_and_have_no_minutes():
    made = card("gain")
    assert (made.verdict, made.line) == ("Can't say yet", "tell us what each part would save")
    assert said(made).count("?") == 2
    assert [text for text in said(made) if text.endswith(" min")] == ["120 min"]
    one = card("gain", card_min=60, a_card=2, memory_fills="no")
    assert said(one).count("?") == 1


def test_two_options_that_save_nothing_do_not_help():
    assert card("gain", card_min=60, a_price=9, b_price=9, memory_fills="no").verdict == "Neither helps"


def test_footage_s_need_stands_against_kinds_of_disk_with_its_sum():
    made = card("footage")  # 3840 x 2160 x 4 byte x 25 = 829.44 MB/s, by hand
    assert made.line == "3840 × 2160, 25 frames/s, uncompressed"
    assert made.working == ("33.18 MB a frame × 25", "=", "829 MB/s")
    wide = lengths(made)
    need = wide["need your footage, uncompressed: 829 MB/s"]
    assert need / wide["bar SATA disk"] == pytest.approx(829.44 / 600, rel=0.01)  # 6 Gb/s, ten bits a byte
    assert need / wide["bar NVMe disk"] == pytest.approx(829.44 / 3938, rel=0.01)  # 4 x 8 GT/s x 128/130 / 8
    assert {"about 250 MB/s", "up to 600 MB/s", "up to 3938 MB/s"} <= set(said(made))


def test_footage_of_a_named_bit_rate_is_worked_out_from_that():
    made = card("footage", mbps=400, streams=4)
    assert made.line == "4 streams at 400 Mb/s"
    assert made.working == ("4 × 400 Mb/s ÷ 8", "=", "200 MB/s")


@pytest.mark.parametrize(
    ("generation", "lanes", "verdict", "hero"),
    [
        (4, "1", "1 lane is too few", "about 4 are enough"),  # 4 x 1.97 = 7.9
        (3, "1", "1 lane is too few", "about 8 are enough"),  # 8 x 0.985 = 7.9
        (2, "4", "4 lanes are too few", "about 16 are enough"),  # 16 x 0.5 = 8
        (5, "2", "2 lanes are enough", "at most 7.88 GB/s"),
    ],
)
def test_lanes_say_how_many_are_enough(generation, lanes, verdict, hero):
    made = card("lanes", generation=generation, lanes=lanes)
    assert (made.verdict, made.hero) == (verdict, hero)


def test_a_bar_of_too_few_lanes_stops_short_of_the_line():
    wide = lengths(card("lanes", lanes="1"))
    (line,) = [length for what, length in wide.items() if what.startswith("need ")]
    assert wide["bar 1 lane"] < line <= wide["bar 4 lanes"] < wide["bar 16 lanes"]


@pytest.mark.parametrize(
    ("hours", "hero", "line"),
    [
        ({}, "graphics card first", "your week loads card and card memory most"),
        ({"modelling_h": 0, "render_card_h": 0, "cutting_h": 0, "grading_h": 0, "encoding_h": 5},
         "many cores first", "your week loads it most"),
    ],
)  # fmt: skip
def test_a_week_says_which_part_comes_first_and_why(hours, hero, line):
    made = card("balance", **hours)
    assert (made.hero, made.line) == (hero, line)
    assert words(made.line) <= 8


def test_that_3d_and_editing_differ_is_no_fault_on_the_card():
    result = find("work.balance").run({})
    assert result.answer.verdict.word == "no"
    assert result.card().verdict == ""
    assert {"card's memory", "main memory", "one core at a time"} <= set(said(card("balance")))


def test_a_side_panel_of_a_week_says_its_answer_in_the_drawing():
    texts = [box.what for box in drawn(card("balance"), 608, 400, 48) if box.size]
    assert "graphics card first" in texts
