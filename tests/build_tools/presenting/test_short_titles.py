"""A sheet's short titles stand on the cards that desk and run sheet prepare, and the viewer's words where none is."""

from dataclasses import replace
from pathlib import Path

from build_tools.episodes import programme, sheet
from build_tools.presenting import answers

PROJECT = Path(__file__).parents[3]
DOCS = PROJECT / "docs"


def episode() -> sheet.Episode:
    (path,) = (DOCS / "episodes").glob("001-*.md")
    read, mistakes = sheet.read_sheet(DOCS, path)
    assert read is not None
    assert not mistakes
    return read


def test_an_episode_s_cards_bear_the_sheet_s_short_titles():
    cards = answers.reply(PROJECT, {"what": "cards", "episode": 1})["cards"]
    chapters = {segment.chapter for segment in episode().segments if segment.calculator}
    assert len(cards) > 1
    assert {card["question"] for card in cards} <= chapters
    assert all(set(card) == {"calculator", "inputs", "question", "address"} for card in cards)


def test_the_run_sheet_keeps_the_viewer_s_words_and_hands_over_the_short_title():
    rows = answers.reply(PROJECT, {"what": "run", "episode": 1})["segments"]
    for row, segment in zip(rows, episode().segments, strict=True):
        assert row["question"] == segment.question
        assert row["on_top"] == segment.chapter


def test_without_a_short_title_the_viewer_s_words_stand_on_top():
    read = episode()
    bare = replace(read.segments[0], chapter="")
    row = answers._segment(DOCS, read, bare, programme.read(PROJECT))
    assert row["on_top"] == bare.question
