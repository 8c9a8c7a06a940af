"""audio.blind: exact chances, verdicts, and what does not go together."""

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.audio.statistics import binomial
from calculators.catalogue import find
from calculators.desk.errors import InputErrors

BLIND = find("audio.blind")


def run(right, trials):
    return BLIND.run({"right": right, "trials": trials}).answer


@pytest.mark.parametrize("trials", range(1, 11))
def test_against_every_way_of_guessing_written_out(trials):
    scores = [sum(way) for way in product((0, 1), repeat=trials)]
    for right in range(trials + 1):
        by_hand = Fraction(sum(score >= right for score in scores), len(scores))
        assert binomial.chance_of_at_least(right, trials) == float(by_hand)  # both are exact in binary


@given(trials=st.integers(1, 300))
def test_the_mark_is_the_first_score_that_is_rare_enough(trials):
    mark = binomial.needed(trials)
    if mark is None:
        assert binomial.chance_of_at_least(trials, trials) > 0.05
    else:
        assert binomial.chance_of_at_least(mark, trials) <= 0.05 < binomial.chance_of_at_least(mark - 1, trials)


def test_who_hears_nothing_passes_as_often_as_a_guesser_and_who_hears_all_always():
    assert binomial.chance_to_pass(12, 16, 0) == pytest.approx(binomial.chance_of_at_least(12, 16), rel=1e-12)
    assert binomial.chance_to_pass(12, 16, 100) == 1


@pytest.mark.parametrize(
    ("right", "trials", "word"),
    [(12, 16, "yes"), (11, 16, "depends"), (9, 16, "no"), (4, 4, "depends"), (0, 1, "depends"), (0, 16, "no")],
)
def test_verdicts(right, trials, word):
    assert run(right, trials).verdict.word == word


def test_more_right_than_trials_is_refused_in_words():
    with pytest.raises(InputErrors, match="at most 3, got 5"):
        run(5, 3)


def test_a_tiny_chance_is_never_shown_as_nothing():
    shown = {f.key: f for f in run(1000, 1000).figures}["chance_percent"]
    assert 0 < shown.value < 1e-290
    assert shown.text == "less than 0.000001 %"


def test_oddly_few_right_answers_are_remarked_on():
    assert any(n.title == "Oddly few right" for n in run(2, 16).notes)
    assert not any(n.title == "Oddly few right" for n in run(8, 16).notes)
