"""audio.exposure: halving, doses, verdicts, and words for a time."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.audio.hearing import exposure_limits
from calculators.catalogue import find

EXPOSURE = find("audio.exposure")


def run(**inputs):
    return EXPOSURE.run(inputs).answer


def figures(**inputs):
    return {f.key: f.value for f in run(**inputs).figures}


@given(level=st.floats(0, 137))
def test_three_decibels_halve_the_time(level):
    for criterion in (exposure_limits.WORK_DAY, exposure_limits.ADULT_WEEK, exposure_limits.CHILD_WEEK):
        twice = exposure_limits.allowed_hours(level, criterion)
        assert exposure_limits.allowed_hours(level + 3, criterion) == pytest.approx(twice / 2, rel=1e-9)


@given(hours=st.floats(0.001, 1000))
def test_the_level_for_some_hours_allows_just_those_hours(hours):
    level = exposure_limits.level_for(hours, exposure_limits.WORK_DAY)
    assert exposure_limits.allowed_hours(level, exposure_limits.WORK_DAY) == pytest.approx(hours, rel=1e-9)


def test_hours_are_not_capped_and_the_words_say_so():
    answer = run(level=60)
    assert {f.key: f.value for f in answer.figures}["allowed_hours_day"] > 24
    assert any("not capped" in n.text for n in answer.notes)
    assert "neither" in answer.headline


def test_dose_and_week():
    ours = figures(level=88, hours_day=2, days_week=5)
    assert ours["dose_percent"] == pytest.approx(50)
    assert ours["week_hours"] == 10
    assert ours["week_percent_adult"] == pytest.approx(100 * 10 / ours["allowed_hours_week_adult"])


@pytest.mark.parametrize(
    ("inputs", "word", "says"),
    [
        ({"level": 70, "hours_day": 2, "days_week": 7}, "yes", "Within all three"),
        ({"level": 78, "hours_day": 5, "days_week": 7}, "depends", "children"),
        ({"level": 95, "hours_day": 1, "days_week": 7}, "no", "Too much"),
        ({"level": 85, "hours_day": 9, "days_week": 1}, "no", "limit for work"),
        ({"level": 140, "hours_day": 0, "days_week": 0}, "yes", "0 %"),
    ],
)
def test_verdicts(inputs, word, says):
    verdict = run(**inputs).verdict
    assert verdict.word == word
    assert says in f"{verdict.said()} {verdict.reason}"


def test_exactly_the_limit_is_within_it():
    assert run(level=80, hours_day=8, days_week=5).verdict.word == "depends"  # 40 h at 80 dBA: all of the adults' week
    assert run(level=75, hours_day=8, days_week=5).verdict.word == "yes"


def test_cautions_come_first_and_name_a_specialist():
    first = [c for c in run().cautions if c.first]
    assert first
    assert "hearing specialist" in first[0].defer
    assert "Ringing" in first[0].text
    assert any("not an allowance for music" in c.text for c in run().cautions)
    assert any("coupler" in n.text for n in run().notes)


@pytest.mark.parametrize(
    ("hours", "words"),
    [
        (0, "no time"), (1e-9, "less than a second"), (1 / 3600, "1 s"), (59.6 / 3600, "1 min"), (0.25, "15 min"),
        (3599.9 / 3600, "1 h"), (1.999, "2 h"), (2.5198, "2 h 31 min"), (40, "40 h"), (1280, "1280 h"),
    ],
)  # fmt: skip
def test_a_time_in_words(hours, words):
    assert exposure_limits.duration(hours) == words
