"""A programme's own look of its cards: what the file may say, and what stops the build."""

from pathlib import Path

import pytest

from build_tools.cards import theme
from calculators.catalogue import find
from calculators.desk.card import frames
from calculators.desk.card_theme import DARK, DEFAULT, LEAST_CONTRAST, LIGHT, READ, contrast, faults, theme_from

PROJECT = Path(__file__).parents[3]


def test_the_project_s_own_look_can_go_on_air():
    assert faults(theme.read(PROJECT)) == []


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("ink", READ)
def test_what_comes_with_the_project_stands_out_seven_to_one(colours, ink):
    assert contrast(colours[ink], colours["paper"]) >= LEAST_CONTRAST
    assert contrast(colours["on-caution"], colours["caution"]) >= LEAST_CONTRAST


# WCAG 2.2: black on white is 21:1; #767676 on white is the well-known first grey above 4.5:1.
@pytest.mark.parametrize(("one", "other", "ratio"), [("#000000", "#ffffff", 21), ("#767676", "#ffffff", 4.54)])
def test_contrast_is_wcag_s(one, other, ratio):
    assert contrast(one, other) == pytest.approx(ratio, abs=0.005)
    assert contrast(other, one) == contrast(one, other)


def test_a_file_changes_what_it_names_and_no_more(tmp_path):
    (tmp_path / theme.FILE).write_text('corner = 12\n[dark]\npaper = "#000000"\n', "utf-8")
    look = theme.read(tmp_path)
    assert look.dark == {**DARK, "paper": "#000000"}
    assert (look.light, look.corner, look.face) == (LIGHT, 12, DEFAULT.face)
    svg = frames(find("memory.rate").run({}), background="dark", theme=look)[0].svg
    assert '<rect width="1920" height="1080" fill="#000000"/>' in svg


def test_without_a_file_the_look_is_what_comes_with_the_project(tmp_path):
    assert theme.read(tmp_path) == DEFAULT


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('[dark]\nink = "#555555"', "dark: ink on paper has a contrast of"),
        ('[light]\npink = "#ff00ff"', "light has no colour 'pink'"),
        ('[light]\nink = "black"', "ink must be written as #rrggbb"),
        ("colour = 1", "the theme has no 'colour'"),
        ("corner = 900", "corner must be a number from 0 to 60, got 900"),
        ('mark = "<script>"', "mark holds something that cannot stand there"),
        ('face = "a\\"b"', "face holds something that cannot stand there"),
        ("light = 3", "light must be a table of colours"),
        ("[dark", "screen-cards.toml"),
    ],
)
def test_what_cannot_be_used_is_told_in_words(tmp_path, text, said):
    (tmp_path / theme.FILE).write_text(text, "utf-8")
    with pytest.raises(theme.WrongTheme, match=r"^screen-cards\.toml: ") as wrong:
        theme.read(tmp_path)
    assert said in str(wrong.value)


def test_a_margin_keeps_everything_further_in():
    look = theme_from({"margin": 40})
    boxes = frames(find("memory.rate").run({}), theme=look)[-1].boxes
    assert min(box.left for box in boxes) >= 96 + 40
    assert max(box.right for box in boxes) <= 1824 - 40


def test_a_title_card_bears_the_programme_s_name(tmp_path):
    (tmp_path / theme.SITE).write_text("extra:\n  programme:\n    name: Questions at Noon\n", "utf-8")
    look = theme.read(tmp_path)
    said = [box.what for box in frames(find("memory.rate").run({}), shape="title", theme=look)[0].boxes]
    assert "Questions at Noon" in said
    assert theme.read(PROJECT).name


def test_the_look_s_own_name_goes_before_that_of_the_site(tmp_path):
    (tmp_path / theme.SITE).write_text("extra:\n  programme:\n    name: Questions at Noon\n", "utf-8")
    (tmp_path / theme.FILE).write_text('name = "Noon"\n', "utf-8")
    assert theme.read(tmp_path).name == "Noon"


@pytest.mark.parametrize(
    "site", ["extra: [1]\n", "extra:\n  programme: 3\n", "a: [\n", "extra:\n  programme:\n    name: 7\n"]
)
def test_a_site_without_a_readable_name_gives_a_title_card_without_one(tmp_path, site):
    (tmp_path / theme.SITE).write_text(site, "utf-8")
    assert theme.read(tmp_path) == DEFAULT
