"""Dangers come first: thirty sentences of our own, none missed, and harmless ones that sound alike, none caught."""

from __future__ import annotations

import pytest

from calculators.asking.danger import dangers

# Reads texts; what every Python does with one is the same.
pytestmark = pytest.mark.once

DANGERS = [
    ("smoke", "there is smoke coming out of my pc when I press the power button, is it the gpu?"),
    ("smoke", "Since yesterday a burning smell comes from the back, but it still runs, can I keep playing?"),
    ("smoke", "it smells like burnt plastic near the graphics card"),
    ("smoke", "saw sparks when i plugged the power lead in, now it wont start"),
    ("smoke", "loud bang, then the computer was dead. which part is it"),
    ("smoke", "the power connector of the card has melted a bit, still works fine though"),
    ("smoke", "my pc stinks of something electrical after an hour of gaming"),
    ("smoke", "The adapter caught fire for a second, do I need a new cable?"),
    ("shock", "I feel a tingling when I touch the case, is that normal"),
    ("shock", "got an electric shock from the hdmi plug when connecting the tv"),
    ("shock", "the metal side of the laptop zaps me while charging"),
    ("shock", "my headphones gave me a small shock in the ear"),
    ("liquid", "spilled coffee over the keyboard of my laptop, it still runs, what now"),
    ("liquid", "my water cooling leaked onto the graphics card, can i just wipe it"),
    ("liquid", "Knocked a glass of water over and some went into the pc"),
    ("liquid", "there is coolant all over the board, but it boots"),
    ("battery", "laptop battery is swollen and pushes the touchpad up, can i still use it"),
    ("battery", "the bottom bulges, I think the battery has expanded"),
    ("battery", "my wireless headset has a puffy battery, safe to charge?"),
    ("supply", "I opened the power supply to clean the fan, which parts may I touch"),
    ("supply", "how do i fix a psu capacitor myself, lid is already off"),
    ("supply", "Want to unscrew my power supply and oil the fan"),
    ("files", "hard disk is clicking and windows does not see it any more"),
    ("files", "accidentally deleted all my wedding photos, which program gets them back"),
    ("files", "I formatted the wrong drive, how do i undo that"),
    ("files", "after the driver update my files are gone"),
    ("files", "my external drive makes grinding noises, should I copy now or later"),
    ("hearing", "my ears have been ringing for two days since I turned the amp up"),
    ("hearing", "woke up and cant hear anything on my left ear, is it the headset?"),
    ("hearing", "I get a pain in my ears after an hour with the in-ears"),
    ("hearing", "suddenly deaf on one side after a loud noise in the headphones"),
    ("hearing", "is tinnitus from headphones permanent?"),
]  # fmt: skip
HARMLESS = [
    "what do I need for burning 4K discs",
    "burn-in on my new screen, does it go away?",
    "how do I burn my old cds to the disk drive",
    "water cooling or air for a quiet machine?",
    "does a liquid crystal display need a warm up",
    "clicking the mouse gives a buzz in my speakers",
    "my mouse clicks twice, is the polling rate too high",
    "deleted the old driver, now the resolution is wrong",
    "count the rings on the plug, mine has three",
    "it is a pain to set the timings by hand",
    "this card smokes the competition, which driver does it want",
    "what sparks joy more, 144 or 240 Hz",
    "shocked by the price of memory, is 16 enough",
    "should I delete my browser cache",
    "the power supply has 750 watts, is that enough for two cards",
    "phone battery is empty after two hours",
]  # fmt: skip


@pytest.mark.parametrize(("kind", "text"), DANGERS, ids=[text[:40] for _, text in DANGERS])
def test_no_danger_is_missed(kind: str, text: str) -> None:
    found = dangers(text)
    assert kind in [danger.kind for danger in found]
    assert all(danger.words in text and danger.sentence.endswith(".") for danger in found)


@pytest.mark.parametrize("text", HARMLESS, ids=[text[:40] for text in HARMLESS])
def test_nothing_harmless_is_caught(text: str) -> None:
    assert dangers(text) == []


def test_each_kind_has_one_fixed_sentence_that_can_be_said() -> None:
    sentences = {danger.kind: danger.sentence for _, text in DANGERS for danger in dangers(text)}
    assert len(sentences) == 7
    assert all(len(sentence.split()) <= 40 for sentence in sentences.values())
    assert "do not start" in sentences["smoke"]
    assert "Stop writing" in sentences["files"]
    assert "doctor today" in sentences["hearing"]
