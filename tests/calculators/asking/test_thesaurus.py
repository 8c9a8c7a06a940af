"""Words of one field, turns of phrase, words with one letter wrong: lists that a person reads, held together."""

from __future__ import annotations

import re

import pytest

from calculators.asking import thesaurus
from calculators.asking.finding import prepare, rank
from calculators.asking.words import SAYS_NOTHING, root, roots

# Reads texts; what every Python does with one is the same.
pytestmark = pytest.mark.once

PAGES = [
    {
        "page": "one/drums", "title": "Drums", "question": "Drums", "subject": "one", "words": ["drum", "snare"],
        "asked": [], "fields": ["buzz"], "short": "", "calculators": [],
    },
    {
        "page": "one/flutes", "title": "Flutes", "question": "Flutes", "subject": "one", "words": ["flute", "breath"],
        "asked": [], "fields": ["range"], "short": "", "calculators": [],
    },
]  # fmt: skip


def best(text: str) -> str:
    hits = rank(roots(text), prepare({"pages": PAGES}), thesaurus.phrase_fields(text))
    return hits[0].page.name if hits else ""


def test_a_field_holds_no_word_that_says_nothing_and_none_twice() -> None:
    for field, said in thesaurus._FIELDS.items():
        words = said.split()
        assert not [word for word in words if word in SAYS_NOTHING], field
        assert len(set(words)) == len(words), field


def test_every_turn_of_phrase_is_of_a_field_and_catches_no_empty_text() -> None:
    assert set(thesaurus._PHRASES) <= set(thesaurus._FIELDS)
    for field, said in thesaurus._phrase_patterns():
        assert not said.search(""), field
        assert not said.search("hello there, thank you for the programme"), (field, said.pattern)


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("Sound on the other side than in the picture", "sides"),
        ("what gives me the most for the money", "first"),
        ("it does not even start with both", "nostart"),
        ("black is grey over hdmi", "range"),
        ("DP to HDMI for a television", "between"),
    ],
)
def test_turns_of_phrase_speak_for_their_field(text: str, field: str) -> None:
    assert field in thesaurus.phrase_fields(text)


def test_a_word_of_a_field_speaks_for_the_page_of_that_field_a_little() -> None:
    assert "buzz" in thesaurus.fields_of(root("drone"))
    assert best("flute or drum, with a drone") == "one/drums"
    assert best("flute or drum, with a ramp") == "one/flutes"


def test_one_wrong_letter_is_forgiven_in_a_long_word_and_two_are_not() -> None:
    assert best("my breth") == ""  # too short to tell
    assert best("all about breaht") == "one/flutes"
    assert best("all about braehtt") == ""


def test_no_turn_of_phrase_takes_long() -> None:
    hostile = "left " * 300 + "to " * 300 + "1440p at " * 100
    assert re.search("left", hostile)
    thesaurus.phrase_fields(hostile)
