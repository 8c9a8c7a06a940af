"""The answers about memory as a viewer meets them: short answers that can be said, and an order that hurts nobody."""

import re
from pathlib import Path

import pytest

PAGES = sorted((Path(__file__).parents[3] / "docs" / "answers" / "memory").glob("*.md"))
SHORT_ANSWER_WORDS = 40


def test_there_are_pages():
    assert len(PAGES) >= 6


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_the_short_answer_can_be_said_in_a_breath_or_two(page):
    found = re.search(r"/// short-answer\n(.*?)\n///", page.read_text("utf-8"), re.S)
    assert found, "no short answer"
    assert len(found[1].split()) <= SHORT_ANSWER_WORDS, found[1]


def test_what_can_be_done_on_a_dark_screen_comes_first_and_hand_settings_last():
    page = next(page for page in PAGES if page.stem == "does-not-start").read_text("utf-8")
    listed = page.partition("On a dark screen, in this order:")[2].partition("/// calculator")[0]
    steps = re.findall(r"^\d\. (.*)$", listed, re.M)
    order = [
        "Wait",
        "old sticks back",
        "One new stick",
        "One kit",
        "Reset the firmware",
        "on automatic",
        "by hand, last",
    ]
    assert len(steps) == len(order)
    for step, words in zip(steps, order, strict=True):
        assert words in step
    reset = next(step for step in steps if "Reset" in step)
    assert "only with the key and the photographs" in reset
    assert "recovery key on another device" in steps[1]
