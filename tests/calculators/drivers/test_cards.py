"""
What the drivers' cards show on the picture says no more than the answer does. Own rules of this project: a presenter
reads a card aloud.
"""

from __future__ import annotations

import pytest

from calculators.desk.card_declared import fitted
from calculators.drivers import screen_cards
from calculators.drivers.listings.examples import LINUX_TWO, WINDOWS_LEFT_OVER
from calculators.drivers.reset import calculator as reset
from calculators.drivers.which import calculator as which
from tests.calculators.drivers.test_which_told import ONLY_VERSION, TWO_CARDS

DEVICES = WINDOWS_LEFT_OVER[: WINDOWS_LEFT_OVER.index("Published")]


def card_of_which(said: str):
    result = which.run({"said": said})
    return screen_cards.which(result.values, result.answer)


def card_of_reset(inputs: dict[str, str]):
    result = reset.run(inputs)
    return screen_cards.reset(result.values, result.answer)


def shown(card) -> str:
    drawn = card.drawing(900, 600, 56) if card.drawing else None
    return f"{card.hero} {card.line} {drawn.svg() if drawn else ''}"


@pytest.mark.parametrize(
    "said",
    [ONLY_VERSION, "01:00.0 VGA compatible controller [0300]: Maker A [a1a1:0001]", LINUX_TWO.split("\tKernel")[0]],
)
def test_a_driver_that_is_not_told_is_not_drawn_as_one_of_its_own(said):
    card = card_of_which(said)
    assert "own" not in shown(card)
    assert card.hero == "not told yet"
    assert card.line == "one more command tells it"


def test_of_two_adapters_only_the_one_that_is_told_is_drawn_as_on_its_own():
    words = shown(card_of_which(TWO_CARDS.format("--\n")))
    assert "on a driver of its own" in words
    assert "driver not told" in words
    assert "2 of 2" not in words


@pytest.mark.parametrize(
    ("said", "hero"),
    [
        (DEVICES.replace("Started", "Stopped", 1), "does not run"),
        (LINUX_TWO.replace("in use: maker-a", "in use: vfio-pci"), "one is lent"),
        (DEVICES.replace("Started", "Gestartet"), "nothing to do"),
        (DEVICES, "nothing to do"),
    ],
)
def test_no_adapter_is_said_to_run_well(said, hero):
    card = card_of_which(said)
    assert card.hero == hero
    assert "well" not in shown(card)


@pytest.mark.parametrize(
    ("inputs", "line"),
    [
        ({"change": "none", "trouble": "crashes"}, "if heat, dust and leads are ruled out"),
        ({"change": "moved_card", "trouble": "none"}, "only if it does not run by itself"),
        ({"change": "moved_card", "trouble": "wrong_settings"}, "if it is the basic driver"),
        ({"change": "none", "trouble": "wrong_settings"}, "if the settings are right"),
        ({"change": "same_maker", "trouble": "no_picture", "logo": "unsure"}, "if the logo is seen"),
        ({"change": "none", "trouble": "no_picture", "logo": "yes", "password": "no"}, "if there is a way in"),
    ],
)
def test_what_a_plan_depends_on_is_this_troubles_own(inputs, line):
    card = card_of_reset(inputs)
    assert card.line == line
    assert card.hero in ("reinstall the driver", "remove and reinstall", "clean out by hand")


def test_a_plan_s_card_names_its_step_and_how_long_it_takes():
    for preset in reset.presets:
        result = reset.run(preset.inputs)
        values = {f.key: f.value for f in result.answer.figures}
        card = screen_cards.reset(result.values, result.answer)
        depth = next(f.text for f in result.answer.figures if f.key == "depth").partition(":")[0]
        if depth == "0" or result.answer.verdict.word == "depends":
            continue
        hours = f"about {round(values['minutes_low'] / 60)} to {round(values['minutes_high'] / 60)} hours"
        assert card.line.startswith(hours), preset.key
        assert fitted(card, result.answer).hero == card.hero, preset.key


def test_every_stage_has_its_words_before_the_answer_comes():
    card = card_of_reset({"change": "none", "trouble": "crashes"})
    boxes = card.drawing(900, 600, 56).record()
    assert {box.what for box in boxes if box.size and box.stage == 0} == set(screen_cards._RUNGS)
    assert not [box for box in boxes if box.size and box.stage]


@pytest.mark.parametrize(
    ("inputs", "hero"),
    [
        ({"change": "same_maker", "trouble": "no_picture", "logo": "no"}, "sockets first"),
        ({"change": "none", "trouble": "no_picture", "logo": "no", "machine": "laptop"}, "outside display"),
        ({"change": "none", "trouble": "no_picture", "logo": "no", "at_the_machine": "no"}, "ask there"),
        ({"change": "none", "trouble": "crashes", "logo": "no"}, "look once more"),
        ({"change": "none", "trouble": "none"}, "leave it alone"),
        ({"change": "same_maker", "trouble": "none", "machine": "laptop"}, "ask its maker"),
        ({"change": "none", "trouble": "crashes", "at_the_machine": "no", "admin": "no"}, "be there first"),
        ({"change": "none", "trouble": "crashes", "admin": "no"}, "ask for the rights"),
    ],
)
def test_no_time_is_shown_for_a_plan_that_is_not_there(inputs, hero):
    card = card_of_reset(inputs)
    assert card.hero == hero
    assert "minutes" not in card.line
    assert "hours" not in card.line
    drawn = card.drawing(900, 600, 56)
    assert drawn is not None
    for rung in ("install", "remove", "safe start"):
        assert rung not in drawn.svg(), "a plan that is not there has no rungs"
    assert fitted(card, reset.run(inputs).answer).hero == hero, "not too long for the picture"
