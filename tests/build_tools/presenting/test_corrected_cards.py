"""A corrected card that a desk takes says what was said before and what holds now, as the sheet tells it."""

from pathlib import Path

from build_tools.presenting import answers

PROJECT = Path(__file__).parents[3]


def test_a_corrected_card_says_before_and_now_also_where_a_desk_takes_it():
    cards = answers.reply(PROJECT, {"what": "cards", "episode": 1})["cards"]
    waits = next(card for card in cards if card["question"].startswith("3600 on the box"))

    def words(**more: object) -> str:
        frames = answers.reply(PROJECT, {"what": "card", **waits, **more})["frames"]
        return " ".join(frame["words"] for frame in frames) + " ".join(frame["svg"] for frame in frames)

    for told in ({}, {"question": "as the presenter put it"}, {"address": ""}):
        corrected = words(shape="corrected", **told)
        assert "15 ns" in corrected, "what was said"
        assert "14.06 ns" in corrected, "what holds"
    assert "15 ns" not in words(shape="wide"), "a card of another kind shows what holds, and nothing else"
    strange = words(shape="corrected", question="another question", address="")
    assert "15 ns" not in strange, "what no sheet tells is not told"
    other = words(shape="corrected", inputs={**waits["inputs"], "rate": "3600"})
    assert "15 ns" not in other, "nor of other numbers than the sheet's"
    assert "15 ns" not in words_of_nothing(waits), "nor where there is no answer"


def words_of_nothing(card: dict[str, object]) -> str:
    """What is told of a card whose inputs are wrong."""
    return str(answers.reply(PROJECT, {"what": "card", **card, "shape": "corrected", "inputs": {"rate": "?"}}))
