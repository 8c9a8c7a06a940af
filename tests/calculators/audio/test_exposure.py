"""audio.exposure: halving, doses, verdicts, and words for a time."""

import re
import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.audio.hearing import exposure_limits
from calculators.catalogue import find
from calculators.desk.as_html import as_html
from calculators.desk.as_json import as_json
from calculators.desk.as_text import as_text
from calculators.desk.card import frames
from calculators.desk.errors import InputErrors

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
        ({"level": 70, "hours_day": 2, "days_week": 7}, "yes", "Within all limits"),
        ({"level": 78, "hours_day": 5, "days_week": 7}, "depends", "children"),
        ({"level": 95, "hours_day": 1, "days_week": 7}, "no", "Too much"),
        ({"level": 85, "hours_day": 9, "days_week": 1}, "no", "limit for work"),
        ({"level": 110, "hours_day": 0, "days_week": 0}, "yes", "0 %"),
        ({"level": 140, "hours_day": 0, "days_week": 0}, "no", "Too loud"),  # the level is asked about, not the hours
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


CEILING = tomllib.loads((Path(__file__).parents[2] / "check_values/noise_ceiling.toml").read_text("utf-8"))
# A time as this site words it: '28 s', '1 min 29 s', '3 h', with any space between.
TIME = re.compile(r"\d\s(?:s|min|h)\b")
SOON_H = 1 / 60


def test_the_ceiling_is_the_published_one():
    assert exposure_limits.CEILING_DBA == CEILING["last_level_dba"] == CEILING["ceiling_dba"]


@pytest.mark.parametrize("level", [115, 115.5, 120, 130, 140])
def test_from_the_ceiling_on_no_time_is_told_to_people(level):
    result = EXPOSURE.run({"level": level, "hours_day": 2, "days_week": 5})
    answer = result.answer
    assert "too loud for any length of time: turn down" in answer.headline
    assert "without hearing protection" in answer.headline
    assert answer.verdict.word == "no"
    told = [answer.headline, answer.verdict.said(), answer.verdict.reason]
    assert answer.shown_figures() == ()
    told += [n.text for n in answer.notes] + [d.svg("d") for d in answer.drawings]
    told += [w.result + w.numbers for w in answer.working] + [cell for t in answer.tables for r in t.rows for cell in r]
    assert [text for text in told if TIME.search(text)] == []
    for hidden in ("allowed_hours_day", "allowed_hours_week_adult", "allowed_hours_week_child"):
        figure = next(f for f in answer.figures if f.key == hidden)
        assert figure.only_json
        assert as_json(result)["figures"][hidden]["value"] > 0
        assert figure.label not in as_text(result) + as_html(result, "a")


@given(level=st.floats(0, 140))
def test_an_allowance_under_a_minute_is_never_told(level):
    answer = run(level=level)
    short = {exposure_limits.duration(f.value) for f in answer.figures if f.unit == "h" and f.value < SOON_H}
    for f in answer.figures:
        assert f.only_json or f.unit != "h" or f.key == "week_hours" or f.value >= SOON_H - 1e-9
    told = answer.headline + answer.verdict.reason + " ".join(w.result for w in answer.working)
    assert not any(re.search(rf"(?<!min) {re.escape(words)}\b", told) for words in short)


def test_114_dba_is_gone_at_once_and_not_after_56_seconds():
    answer = run(level=114)
    assert answer.headline == "At 114 dBA on average the weekly allowances are used up at once: turn down."
    assert "56 s" not in as_text(EXPOSURE.run({"level": 114}))
    assert "gone at once for children" in run(level=110).headline


MIXED = {"level": 80, "hours_day": 2, "days_week": 5, "level_2": 100, "hours_week_2": 3}


def test_a_mixed_week_sums_its_shares():
    ours = figures(**MIXED)
    # by hand, from H.870's own pairs: 10 h of 40 h at 80 dBA, and 3 h of 40 h / 2^(20/3) at 100 dBA
    assert ours["week_percent_adult"] == pytest.approx(100 * (10 / 40 + 3 / (40 / 2 ** (20 / 3))), rel=1e-9)
    assert ours["week_percent_child"] == pytest.approx(ours["week_percent_adult"] * 2 ** (5 / 3), rel=1e-9)
    assert ours["week_hours"] == 13
    answer = run(**MIXED)
    assert answer.verdict.word == "no"
    assert "Together" in answer.headline


def test_the_shares_of_a_mixed_week_do_not_depend_on_their_order():
    levels = [(88, 3.0), (70, 20.0), (97, 0.25), (91, 1.0), (60, 5.0)]
    keys = [(f"level_{i}", f"hours_week_{i}") for i in range(2, 7)]

    def week(order):
        given_ = {"level": 75, "hours_day": 1, "days_week": 2}
        for (level_key, hours_key), (level, hours) in zip(keys, order, strict=True):
            given_ |= {level_key: level, hours_key: hours}
        return figures(**given_)

    assert week(levels) == pytest.approx(week(levels[::-1]))


@pytest.mark.parametrize(
    ("days", "dose"),
    [
        (5, 300.0),  # 3 h of 1 h at 94 dBA (NIOSH's table), on an evening of its own
        (7, 325.0),  # every day has its 2 of 8 h at 85 dBA as well
    ],
)
def test_the_loudest_day_decides(days, dose):
    given_ = {"level": 85, "hours_day": 2, "days_week": days, "level_2": 94, "hours_week_2": 3}
    assert figures(**given_)["dose_percent"] == pytest.approx(dose, rel=1e-9)


def test_what_fits_the_week_but_no_single_day_depends_on_how_it_is_spread():
    inside = run(level=60, hours_day=1, days_week=5, level_2=94, hours_week_2=1.5)
    assert inside.verdict.word == "depends"
    assert "one day" in inside.verdict.said() + inside.verdict.reason
    # the same hours every day of the week are over by any spreading
    assert run(level=60, hours_day=1, days_week=5, level_2=94, hours_week_2=8).verdict.word == "no"


def test_one_further_level_beyond_the_ceiling_decides_alone():
    answer = run(level=60, hours_day=1, days_week=5, level_4=118, hours_week_4=0.1)
    assert answer.verdict.word == "no"
    assert "118 dBA is too loud for any length of time" in answer.headline
    assert run(level=60, level_4=118, hours_week_4=0).verdict.word == "yes"


@pytest.mark.parametrize(
    ("inputs", "key", "said"),
    [
        ({"level_2": 90}, "hours_week_2", "how many hours a week"),
        ({"hours_week_3": 2}, "level_3", "how loud"),
        ({"hours_day": 24, "days_week": 7, "level_2": 60, "hours_week_2": 1}, "hours_week_2", "168"),
    ],
)
def test_a_mixed_week_that_lacks_or_exceeds_something_is_told_at_its_input(inputs, key, said):
    with pytest.raises(InputErrors) as caught:
        run(**inputs)
    (problem,) = caught.value.problems
    assert problem.input == key
    assert said in problem.message


def test_for_which_week_it_was_worked_out():
    assert EXPOSURE.run({}).worked_for() == "2 h a day at 85 dBA, 5 days a week"
    assert EXPOSURE.run(MIXED).worked_for() == "2 h a day at 80 dBA, 5 days a week, and 3 h a week at 100 dBA"


@pytest.mark.parametrize("shape", ["wide", "upright"])
def test_a_card_at_the_ceiling_shows_no_time(shape):
    code = [[(i + j) % 2 == 0 for i in range(21)] for j in range(21)]
    result = EXPOSURE.run({"level": 118, "hours_day": 1, "days_week": 1})
    made = frames(result, shape=shape, address="https://example.org/a", qr=lambda _: code)
    said = " ".join(" ".join(re.findall(r">([^<]+)<", frame.svg)) for frame in made)
    assert "too loud for any" in said
    said = said.split("Assumed")[0].split("Sources")[0]
    own = said.replace("1 h a day", "")  # what the viewer told may be repeated
    assert not TIME.search(own), TIME.findall(own)


@pytest.mark.parametrize(
    ("level_dba", "too_loud"), [(114.4, False), (114.6, False), (114.999, False), (115, True), (114.9999999, True)]
)
def test_the_ceiling_begins_at_115_dba_and_not_at_what_rounds_to_it(level_dba, too_loud):
    """NIOSH 98-126: no exposure above 115 dBA, however short; here from it on. Own edge cases."""
    assert exposure_limits.too_loud(level_dba) is too_loud


@pytest.mark.parametrize(("hours", "said"), [(1 / 60, True), (1 / 60 - 1e-12, True), (59.9 / 3600, False), (0, False)])
def test_an_allowance_is_told_from_one_whole_minute_on(hours, said):
    assert exposure_limits.is_long_enough_to_tell(hours) is said


@pytest.mark.parametrize(
    ("hours", "words"),
    [(1 / 60, "1 min"), (0.1028, "6 min"), (0.1597, "9 min"), (1 / 6, "10 min"), (0.5028, "30 min"), (0.0021, "8 s")],
)
def test_seconds_are_not_told_and_few_minutes_never_rounded_up(hours, words):
    assert exposure_limits.roughly(hours) == words


def test_beside_a_level_that_is_too_loud_no_time_is_told_for_the_others():
    """A mixed week: the hours at the quiet level, and shares in percent, would sound like what may be used."""
    result = EXPOSURE.run({"level": 70, "hours_day": 2, "days_week": 6, "level_2": 120, "hours_week_2": 2})
    assert result.answer.shown_figures() == ()
    assert as_json(result)["figures"]["week_percent_adult"]["value"] > 100
    assert "403 h" not in as_text(result)
    made = frames(result, shape="wide")
    assert "too loud for any" in " ".join(re.findall(r">([^<]+)<", made[-1].svg))
    assert not any("%" in text for text in re.findall(r">([^<]+)<", made[-1].svg))


def test_the_reason_at_the_ceiling_holds_at_every_level_above_it():
    for level in (115, 130, 140):
        assert "From 115 dBA no time is safe to name" in run(level=level).verdict.reason


@pytest.mark.parametrize("level", [114.95, 114.96, 114.999])
def test_a_level_just_below_the_ceiling_does_not_read_as_the_ceiling(level):
    said = run(level=level).headline
    assert "At just under 115 dBA" in said
    assert "used up at once" in said


@pytest.mark.parametrize(
    ("level", "word", "says"),
    [(108, "yes", "children's allowance"), (109, "depends", "gone at once"), (113.7, "no", "used up at once")],
)
def test_what_is_gone_at_once_is_never_a_yes_however_few_seconds_were_given(level, word, says):
    verdict = run(level=level, hours_day=0.002, days_week=1).verdict
    assert verdict.word == word
    assert says in verdict.reason
    mixed = run(level=60, hours_day=0.1, days_week=1, level_2=level, hours_week_2=0.002).verdict
    assert mixed.word == word


def test_minutes_are_said_without_seconds():
    assert run(level=100).headline == (
        "At 100 dBA on average the weekly allowance lasts 24 min for adults and 7 min for children."
    )


@pytest.mark.parametrize("key", [preset.key for preset in EXPOSURE.presets])
def test_a_card_s_hero_is_for_adults_and_never_without_its_words(key):
    # the hero answered for children where the adults' allowance outlasts the week
    result = EXPOSURE.run(next(preset.inputs for preset in EXPOSURE.presets if preset.key == key))
    card = result.card()
    assert card.hero
    assert card.line
    assert "adults" in card.line or card.hero == "turn it down"
    assert not card.line.startswith("a week for children")


def test_a_card_for_adults_only_tells_the_children_s_time_beside_it():
    result = EXPOSURE.run({"level": 80, "hours_day": 2, "days_week": 7})
    assert result.answer.verdict.said() == "For adults only."
    card = result.card()
    assert (card.verdict, card.hero) == ("14 h: adults only", "adults: 40 h")
    assert card.line == "a week at most, at 80 dBA"
    for room in ((900, 560, 48), (608, 460, 48)):  # a wide card's, and a panel's
        drawn = card.drawing(*room)
        assert drawn is not None
        said = [box.what for box in drawn.record() if box.size]
        assert {"12 h 36 min", "12 h 36 min a week"} & set(said), said
        words = " ".join(said)
        assert "at most" in words[words.index("children") :], said
