"""rooms.lips: figures, both signs, ranges, and the three yardsticks in every answer."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors

LIPS = find("rooms.lips")
BT1359 = tomllib.loads((Path(__file__).parents[2] / "check_values/sound_and_vision_timing.toml").read_text("utf-8"))
MS = st.floats(0, 2000).map(lambda ms: round(ms, 3))


def run(**inputs):
    answer = LIPS.run(inputs).answer
    return answer, {f.key: f.value for f in answer.figures}


def test_the_figures_of_the_contract():
    _, figures = run(picture_ms=120, sound_ms=20, distance_m=3, temperature_c=20)
    speed = 331.3 * (1 + 20 / 273.15) ** 0.5  # arithmetic of our own
    assert figures == {
        "offset_ms": pytest.approx(100 - 3000 / speed), "delay_sound_ms": pytest.approx(100 - 3000 / speed),
        "air_ms": pytest.approx(3000 / speed), "speed_m_s": pytest.approx(speed),
    }  # fmt: skip


def test_sound_that_is_late_gets_no_delay_and_other_advice():
    answer, figures = run(picture_ms=10, sound_ms=150, distance_m=0)
    assert figures["offset_ms"] == -140
    assert figures["delay_sound_ms"] == 0
    assert answer.verdict.word == "depends"
    assert "sound cannot be hurried" in answer.headline
    assert any(note.title == "Sound that is late" for note in answer.notes)


@pytest.mark.parametrize(
    "inputs",
    [{}, {"picture_ms": 0, "sound_ms": 0, "distance_m": 0}, {"picture_ms": 2000}, {"sound_ms": 2000},
     {"picture_ms": "unsure"}, {"picture_ms": "game", "sound_ms": "radio"}],
)  # fmt: skip
def test_every_answer_names_all_three_yardsticks_by_number(inputs):
    text = as_text(LIPS.run(inputs))
    for words in ("BT.1359-1", "+45/−125 ms", "+90/−185 ms", "ATSC IS-191", "+15/−45 ms", "EBU R37", "+40/−60 ms"):
        assert words in text


def test_a_range_gives_both_ends_and_leaves_the_plain_key_out():
    answer, figures = run(picture_ms="game", sound_ms="radio", distance_m=0)
    assert (figures["offset_ms_low"], figures["offset_ms_high"]) == (10 - 300, 25 - 100)
    assert "offset_ms" not in figures
    assert answer.verdict.word == "depends"


def test_a_range_that_ends_beyond_on_either_side_depends():
    answer, figures = run(picture_ms="unsure", sound_ms="unsure", distance_m=0)
    assert figures["offset_ms_low"] < -185
    assert figures["offset_ms_high"] > 90
    assert answer.verdict.word == "depends"


@pytest.mark.parametrize("picture", ["film", "game", "unsure", "20", "60", "90"])
@pytest.mark.parametrize("sound", [0, 30, 75, 160, 200, 230])
def test_each_reason_says_where_both_ends_lie_among_the_published_thresholds(picture, sound):
    """ITU-R BT.1359-1: detectability and acceptability, as check_values has them."""
    answer, figures = run(picture_ms=picture, sound_ms=sound, distance_m=0)
    ends = [figures[key] for key in ("offset_ms", "offset_ms_low", "offset_ms_high") if key in figures]
    noticed, accepted = (
        [late <= end <= early for end in ends] for early, late in (BT1359["detectability"], BT1359["acceptability"])
    )
    early_throughout, late_throughout = (min(ends) > BT1359["acceptability"][0], max(ends) < BT1359["acceptability"][1])
    if all(noticed):
        assert answer.verdict.says in ("In step.", "Not noticed.")
    elif early_throughout or late_throughout:
        assert answer.verdict.says == "Apart."
    elif not all(accepted):
        assert answer.verdict.says == "Not known well enough."
    else:
        assert answer.verdict.says == ("Perhaps." if any(noticed) else "Just about.")


def test_nobody_is_told_to_set_a_range():
    answer, _ = run(picture_ms="film", sound_ms="wire")
    assert answer.headline == "The sound is 36 to 141 ms early: film a clap, and delay the sound by what it shows."


def test_nothing_is_on_neither_side():
    late, _ = run(picture_ms="film", sound_ms=150, distance_m=0)
    assert late.headline.startswith("The sound is 0 to 100 ms late,")
    early, _ = run(picture_ms="film", sound_ms=50, distance_m=0)
    for sound, hero in ((150, "0 to 100 ms late"), (50, "0 to 100 ms early")):
        assert LIPS.run({"picture_ms": "film", "sound_ms": sound, "distance_m": 0}).card().hero == hero
    assert early.headline.startswith("The sound is 0 to 100 ms early: film a clap, and")


def test_a_filmed_clap_is_put_in_as_it_was_counted():
    note = next(note for note in run()[0].notes if note.title == "How to find your own numbers")
    assert "'Picture takes', else at 'Sound takes', and 0 at the other and at the distance" in note.text
    counted = 1000 * 12 / 120  # twelve frames: the picture that much behind the sound
    assert run(picture_ms=counted, sound_ms=0, distance_m=0)[1]["offset_ms"] == counted
    assert run(picture_ms=0, sound_ms=counted, distance_m=0)[1]["offset_ms"] == -counted


def test_in_step_is_said_so():
    answer, _ = run(picture_ms=20, sound_ms=20, distance_m=0)
    assert answer.verdict.word == "yes"
    assert answer.headline == "Sound and picture are in step where you sit; there is nothing to set."


def test_what_is_late_and_not_noticed_is_not_called_in_step():
    assert run(picture_ms=20, sound_ms=5, distance_m=30)[0].verdict.says == "Not noticed."
    assert run(picture_ms=20, sound_ms=20, distance_m=0)[0].verdict.says == "In step."


def test_a_delay_of_nothing_is_no_main_figure():
    shown = {f.key for f in run(picture_ms="game", sound_ms="radio", distance_m=0)[0].figures if f.main}
    assert shown == {"offset_ms_low", "offset_ms_high"}


def test_everyday_words_and_units_are_understood():
    values = LIPS.run({"picture_ms": "0.1 s", "sound_ms": "earbuds", "distance_m": "headphones"}).values
    assert values["picture_ms"].low == 100
    assert values["sound_ms"].choice == "radio"
    assert values["distance_m"] == 0


@pytest.mark.parametrize(
    ("key", "wrong"), [("picture_ms", -1), ("sound_ms", 2001), ("distance_m", 101), ("temperature_c", 51)]
)
def test_what_does_not_fit_is_told_at_its_input(key, wrong):
    with pytest.raises(InputErrors) as caught:
        run(**{key: wrong})
    assert [problem.input for problem in caught.value.problems] == [key]


@given(MS, MS, st.floats(0, 100), st.floats(-20, 50))
def test_the_delay_to_set_brings_the_sound_into_step(picture, sound, distance, temperature):
    _, figures = run(picture_ms=picture, sound_ms=sound, distance_m=distance, temperature_c=temperature)
    if figures["offset_ms"] > 0:
        later = min(sound + figures["delay_sound_ms"], 2000)
        again = run(picture_ms=picture, sound_ms=later, distance_m=distance, temperature_c=temperature)[1]
        assert again["offset_ms"] == pytest.approx(0, abs=1e-6)
    else:
        assert figures["delay_sound_ms"] == 0


@given(MS, st.floats(0, 500))
def test_further_apart_never_improves_the_verdict(picture, more):
    worth = {"no": 0, "depends": 1, "yes": 2}
    near, far = (run(picture_ms=ms, sound_ms=0, distance_m=0)[0].verdict.word
                 for ms in (picture, min(picture + more, 2000)))  # fmt: skip
    assert worth[far] <= worth[near]


@given(st.floats(0, 99), st.floats(0, 1))
def test_sitting_further_away_makes_the_sound_later(distance, more):
    assert run(distance_m=distance + more)[1]["offset_ms"] <= run(distance_m=distance)[1]["offset_ms"]
