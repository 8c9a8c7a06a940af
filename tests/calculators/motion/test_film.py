"""Film: spellings, the pattern against a simulation of its own, ranges, lists and declarations, wrong inputs."""

from __future__ import annotations

import json
import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.as_json import as_json, dumps
from calculators.desk.errors import InputErrors
from calculators.display.declarations.examples import DESK, OFFICE, TELEVISION
from calculators.motion.formulas.cadence import cadence, holds, repeats
from calculators.motion.formulas.listed_rates import declared, read_rates, say_rates
from calculators.trade.frame_rates import SLOWED, exact_rate
from tests.calculators.motion.film_by_refreshes import begins, refreshes_of_frames

FILM = find("motion.film")
CONTENTS = [option.value for option in FILM.inputs[0].options]
RATES = [24, 25, 30, 48, 50, 59.94, 60, 72, 75, 96, 100, 119.88, 120, 143.86, 144, 165, 180, 240, 360]
SETTLED = 1e-11  # a figure holds 12 significant digits


def fraction(typed):
    exact = exact_rate(float(typed))
    return Fraction(exact.over, exact.under)


def figures(**inputs):
    return {f.key: f.value for f in FILM.run(inputs).answer.figures}


def notes(**inputs):
    return {n.title: n.text for n in FILM.run(inputs).answer.notes}


def problems(**inputs):
    with pytest.raises(InputErrors) as wrong:
        FILM.run(inputs)
    return {p.input: p.message for p in wrong.value.problems}


SPELLINGS = [
    (23.976, "23.976"), (23.98, "23.976"), (23.97, "23.976"), ("23.98", "23.976"), ("23,976", "23.976"),
    ("23.976 fps", "23.976"), ("23,98p", "23.976"), ("24p", "24"), ("24 fps", "24"), (24, "24"), (24.0, "24"),
    ("25 frames a second", "25"), ("29,97", "29.97"), (47.95, "47.952"), ("59.94 Hz", "59.94"), (119.88, "119.88"),
    ("50 p", "50"), ("23.976: most films as files and on discs", "23.976"),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "value"), SPELLINGS)
def test_each_spelling_means_its_rate(typed, value):
    assert FILM.run({"content": typed}).values["content"] == value


@pytest.mark.parametrize("content", [c for c in CONTENTS if "." in c])
def test_decimals_mean_exactly_a_thousandth_slower_and_the_answer_says_so(content):
    whole = round(float(content) * 1001 / 1000)
    assert fraction(content) == Fraction(whole * 1000, 1001)
    assert f"{whole} × 1000/1001" in notes(content=content, rate=60)["Exact rates"]


@pytest.mark.once
@pytest.mark.parametrize("content", CONTENTS)
def test_frames_stand_as_in_the_simulation(content):
    for rate in RATES:
        assert_as_simulated(content, rate)


def assert_as_simulated(content, rate):
    exact, refresh = fraction(content), fraction(rate)
    seen = refreshes_of_frames(exact, refresh, 400)
    found = cadence(exact_rate(float(content)), exact_rate(rate))
    ours = figures(content=content, rate=rate)
    if "slip_s" not in ours:
        assert min(seen) == found.fewest()
        assert max(seen) == found.most()
        # one whole round of the pattern holds the same numbers, whatever the place in the round at which it starts
        round_ = found.steady.reduced().under
        if round_ <= 400:
            assert sorted(holds(found.steady, round_)) == sorted(seen[:round_])
        assert ours["shortest_ms"] == pytest.approx(float(min(seen) * 1000 / refresh), rel=SETTLED)
        assert ours["longest_ms"] == pytest.approx(float(max(seen) * 1000 / refresh), rel=SETTLED)
    else:
        # as many frames stand otherwise than the cadence says as there are slips
        frames = 1500
        seen = refreshes_of_frames(exact, refresh, frames)
        steady = Fraction(found.halves, 2)
        slips = abs(sum(seen) - steady * frames)
        assert slips == pytest.approx(float(frames / exact) / ours["slip_s"], abs=1.01)


@given(
    content=st.sampled_from(CONTENTS),
    rate=st.one_of(st.sampled_from(RATES), st.integers(1000, 100_000).map(lambda n: n / 100)),
    frames=st.integers(1, 300),
)
@settings(max_examples=150, deadline=None)
def test_shown_time_never_differs_from_the_ideal_by_more_than_one_refresh(content, rate, frames):
    exact, refresh = fraction(content), fraction(rate)
    ideal = frames / exact
    # by the simulation: how long all frames so far were on the screen
    simulated = sum(refreshes_of_frames(exact, refresh, frames)) / refresh
    assert abs(simulated - ideal) <= 1 / refresh
    # by the calculator's own pattern
    ratio = cadence(exact_rate(float(content)), exact_rate(rate)).ratio
    worked = sum(holds(ratio, frames)) / refresh
    assert abs(worked - ideal) <= 1 / refresh
    # and no frame is ever shown before its time, nor more than a refresh after it
    for number, begin in enumerate(begins(exact, refresh, min(frames, 60))):
        assert begin is None or 0 <= begin - number / exact < 1 / refresh


@given(st.sampled_from(CONTENTS), st.integers(1000, 100_000).map(lambda n: n / 100))
@settings(max_examples=200, deadline=None)
def test_figures_follow_from_the_exact_ratio(content, rate):
    exact, refresh = fraction(content), fraction(rate)
    ratio = refresh / exact
    near = max(Fraction(round(2 * ratio), 2), Fraction(1, 2))
    found = abs(ratio - near) <= min(near * Fraction(5, 1000), Fraction(1, 20))
    steady = near if found else ratio
    ours = figures(content=content, rate=rate)
    assert ours["ratio"] == pytest.approx(float(ratio), rel=SETTLED)
    assert ours["shortest_ms"] == pytest.approx(float((steady // 1) * 1000 / refresh), rel=SETTLED)
    assert ours["longest_ms"] == pytest.approx(float(-(-steady // 1) * 1000 / refresh), rel=SETTLED)
    assert ours["dropped_per_s"] == pytest.approx(float(max(Fraction(0), exact - refresh)), rel=SETTLED)
    off = abs(refresh - near * exact)
    assert ("slip_s" in ours) == (found and off != 0)
    assert ours.get("cadence") == (float(near) if found else None)
    if "slip_s" in ours:
        assert ours["slip_s"] == pytest.approx(float(1 / off), rel=SETTLED)
    word = FILM.run({"content": content, "rate": rate}).answer.verdict.word
    whole = found and near.denominator == 1
    assert word == (("depends" if off else "yes") if whole else "no")


@given(st.sampled_from(CONTENTS), st.integers(1, 1000), st.integers(1, 1000))
@settings(max_examples=200, deadline=None)
def test_adaptive_shows_each_frame_the_fewest_times_that_reach_the_range(content, low, high):
    if low > high:
        low, high = high, low
    exact = fraction(content)
    fewest = next((m for m in range(1, 200) if low <= m * exact <= high), None)
    assert repeats(exact_rate(float(content)), exact_rate(low), exact_rate(high)) == fewest
    ours = figures(content=content, adaptive="yes", low=low, high=high)
    without = figures(content=content)
    if fewest is None:
        assert ours == without
    else:
        assert ours["repeats"] == fewest
        assert ours["refresh_hz"] == pytest.approx(float(fewest * exact), rel=SETTLED)
        assert ours["shortest_ms"] == ours["longest_ms"] == pytest.approx(float(1000 / exact), rel=SETTLED)
        assert not {"ratio", "slip_s", "dropped_per_s"} & set(ours)


@pytest.mark.parametrize(
    ("rate", "word"),
    [(24.12, "depends"), (24.121, "no"), (23.88, "depends"), (23.879, "no"), (241.2, "depends"), (241.21, "no")],
)
def test_half_a_percent_and_a_twentieth_still_count(rate, word):
    assert FILM.run({"content": 24, "rate": rate}).answer.verdict.word == word


def test_a_range_that_misses_by_a_thousandth_is_not_reached():
    # 2 × 23.976 is below 48
    assert figures(content=23.976, adaptive="yes", low=48, high=144)["repeats"] == 3
    assert figures(content=23.976, adaptive="yes", low=47.952, high=144)["repeats"] == 2


@pytest.mark.parametrize(
    ("text", "rates"),
    [
        ("60, 59.94, 120, 144", (60, 59.94, 120, 144)),
        ("60 Hz, 59,94 Hz and 120 Hz", (60, 59.94, 120)),
        ("60;75;60", (60, 75)),
        ("60,75", (60, 75)),
        ("59,95", (59.95,)),
        ("59.940Hz\n60.000Hz\n143.912Hz", (59.94, 60, 143.912)),
        ("24p/25p/30p", (24, 25, 30)),
        ("24 25 30", (24, 25, 30)),
    ],
)
def test_lists_are_read_as_people_write_them(text, rates):
    assert read_rates(text) == rates
    assert read_rates(say_rates(read_rates(text))) == rates


@pytest.mark.parametrize("text", ["none", "5", "2000", "60, x", ",", " ".join(str(n) for n in range(10, 60))])
def test_a_list_that_is_none_is_told_at_its_input(text):
    assert set(problems(rates=text)) == {"rates"}


def test_the_best_of_the_listed_rates_comes_first():
    assert figures(content="24", rates="59.94, 60, 75, 120, 144")["best_rate_hz"] == 144
    assert figures(content="25", rates="60, 75, 144")["best_rate_hz"] == 75
    assert figures(content="23.976", rates="60, 120")["best_rate_hz"] == 120  # with a slip, told as such
    assert "best_rate_hz" not in figures(content="24", rates="50, 60")
    assert "none is a whole multiple" in notes(content="24", rates="50, 60")["Which rate to choose"]


def test_a_rate_cut_short_asks_which_it_is():
    for inputs in ({"rates": "59, 60"}, {"rate": 59}, {"rates": "60, 119"}):
        asked = notes(**inputs)["Which exact rate is it?"]
        assert "59.94" in asked or "119.88" in asked
    assert "Which exact rate is it?" not in notes(rates="60, 120", rate=60)
    # whole 60 is sure, so it comes before 59, which may be 59.94
    assert figures(content="30", rates="59, 60")["best_rate_hz"] == 60


def test_a_declaration_gives_the_rates_at_its_preferred_size():
    def listed(declaration):
        return [row[0] for row in FILM.run({"content": "24", "declaration": declaration}).answer.tables[0].rows]

    assert listed(DESK)[0].startswith("144.")
    assert {"24 Hz", "23.976 Hz", "60 Hz", "59.94 Hz"} <= set(listed(TELEVISION))  # a format stands for both
    assert set(listed(OFFICE)) == {"60 Hz", "59.94 Hz", "50 Hz"}


def test_a_pasted_declaration_leaves_no_trace():
    result = FILM.run({"declaration": TELEVISION})
    shown = json.loads(dumps(as_json(result)))
    assert "declaration" not in shown["inputs"]
    assert TELEVISION[:40] not in dumps(as_json(result))


@pytest.mark.parametrize(
    ("refresh", "clock_khz", "meant"), [(59.9394, 148350, 59.94), (60.0, 148500, 60), (59.951, 241500, 59.951)]
)
def test_a_declared_clock_is_taken_for_the_rate_that_its_steps_stand_for(refresh, clock_khz, meant):
    assert declared(refresh, clock_khz) == meant


def test_wrong_inputs_are_all_told_at_once_in_a_viewers_words():
    said = problems(content=0, rate=0, rates="x", declaration="nothing")
    assert set(said) == {"content", "rate", "rates", "declaration"}
    assert "one of 23.976, 24" in said["content"]
    assert said["rate"] == "Refresh of the display must be a number from 10 to 1000 Hz, such as 60, got 0."


def test_an_adaptive_range_must_be_there_and_the_right_way_up():
    assert set(problems(adaptive="yes")) == {"low", "high"}
    assert set(problems(adaptive="yes", low=48)) == {"high"}
    assert "above its top" in problems(adaptive="yes", low=144, high=48)["low"]
    assert figures(low=144, high=48) == figures()  # not in use: not in the way


@pytest.mark.parametrize(("whole", "forms"), SLOWED.items())
def test_every_spelling_of_a_slowed_rate_is_a_films_rate(whole, forms):
    for typed in forms:
        for spelled in (typed, str(typed), f"{typed}".replace(".", ","), f"{typed} fps"):
            ours = figures(content=spelled, rate=whole)
            assert ours["ratio"] == pytest.approx(1.001, rel=1e-11)
            assert ours["slip_s"] == pytest.approx(1001 / whole, rel=1e-11)


def test_what_the_ends_of_a_range_mean_is_said_too():
    said = notes(content="24", rate=120, adaptive="yes", low=47.95, high=120)["Exact rates"]
    assert "47.95 means exactly 48 × 1000/1001" in said


def odd_frames(content, rate, frames):
    """By the simulation: how many of the first frames do not stand as long as most do."""
    seen = refreshes_of_frames(fraction(content), fraction(rate), frames)
    return frames - max(seen.count(held) for held in set(seen))


@pytest.mark.parametrize(
    ("content", "rate", "said", "left_out"),
    [
        ("60", 59.94, "left out", True),
        ("48", 71.928, "held one refresh shorter", False),
        ("24", 119.88, "held one refresh shorter", False),
        ("23.976", 60, "held one refresh longer", False),
    ],
)
def test_what_happens_at_a_slip_is_what_the_simulation_shows(content, rate, said, left_out):
    seen = refreshes_of_frames(fraction(content), fraction(rate), 3000)
    assert (0 in seen) == left_out
    assert f"one frame is {said}" in notes(content=content, rate=rate)["What you see"]


@pytest.mark.parametrize(("content", "rate"), [("24", 119.88), ("23.976", 120), ("60", 59.94)])
def test_a_rate_with_slips_is_advised_with_the_simulations_time_between_them(content, rate):
    advice = notes(content=content, rates=str(rate), rate=rate)["Which rate to choose"]
    (time_s,) = re.findall(r", with a slip about every ([\d.]+) s\.", advice)
    frames = 4000
    slips = float(frames / fraction(content)) / float(time_s)
    assert odd_frames(content, rate, frames) == pytest.approx(slips, abs=1.5)  # the last may be still to come


def test_a_rate_without_slips_is_advised_without_a_word_on_them():
    assert odd_frames("24", 120, 4000) == 0
    advice = notes(content="24", rates="120", rate=60)["Which rate to choose"]
    assert "120 Hz shows every frame for 5 refreshes." in advice


@pytest.mark.parametrize(("content", "rate"), [("24", 25), ("50", 51), ("60", 61), ("60", 60.31), ("23.976", 50)])
def test_what_is_uneven_looks_uneven_in_the_pattern_and_in_the_drawing(content, rate):
    answer = FILM.run({"content": content, "rate": rate}).answer
    assert answer.verdict.word == "no"
    pattern = next(f.text for f in answer.figures if f.key == "pattern")
    assert len(set(re.findall(r"\d+", pattern))) == 2, pattern
    drawn = answer.drawings[0].description.split("each of them stands: ")[1]
    assert len(set(re.findall(r"\d+", drawn))) == 2, drawn


@pytest.mark.parametrize(
    ("content", "rate", "said"),
    [
        ("24", 60, "about 12 times a second"),
        ("25", 60, "about 10 times a second"),
        ("24", 165, "about 3 times a second"),
        ("24", 50, "about twice a second"),
        ("60", 61, "about once a second"),
        ("60", 60.31, "about every 3.2 s"),
    ],
)
def test_how_often_it_stutters_is_said_as_the_simulation_counts_it(content, rate, said):
    assert f"{said}." in notes(content=content, rate=rate)["What you see"]
    seconds = 100
    counted = odd_frames(content, rate, int(content) * seconds) / seconds
    words = {"about once a second": 1, "about twice a second": 2, "about every 3.2 s": 1 / 3.2}
    told = words.get(said) or float(re.findall(r"\d+", said)[0])
    assert counted == pytest.approx(told, rel=0.05)


def test_frames_left_out_are_counted_in_words_that_are_never_none():
    assert "1 frame a second is left out" in FILM.run({"content": "25", "rate": 24}).answer.headline
    assert "96 frames a second are left out" in FILM.run({"content": "120", "rate": 24}).answer.headline
    assert "about every 3.2 s one frame is left out" in FILM.run({"content": "60", "rate": 59.69}).answer.headline
    assert "about every 17 minutes one frame is left out" in notes(content="60", rate=59.999)["What you see"]
    assert "one of every 2 frames" in notes(content="120", rate=60)["What you see"]


def test_a_rate_that_is_even_already_is_the_one_to_keep():
    for inputs in ({"rate": 96}, {"rate": 120}, {"rate": 120, "rates": "24, 60, 120, 144"}):
        answer = FILM.run({"content": "24", **inputs}).answer
        (best,) = (f for f in answer.figures if f.key == "best_rate_hz")
        assert (best.label, best.value) == ("Rate to choose", inputs["rate"])
        assert "Keep it." in notes(content="24", **inputs)["Which rate to choose"]
        assert [answer.tables[0].rows[i][0] for i in answer.tables[0].marked] == [f"{inputs['rate']} Hz"]
    (common,) = (f for f in FILM.run({"content": "24", "rate": 60}).answer.figures if f.key == "best_rate_hz")
    assert common.label == "Best of common rates"
    assert "Even, too: 144, 120, 72, 48 and 24 Hz." in notes(content="24", rate=60)["Which rate to choose"]


@pytest.mark.parametrize(
    ("content", "rate", "reason"),
    [
        ("29.97", 59, "At exactly 59 Hz uneven. It is likelier 59.94: even."),
        ("23.976", 59, "At exactly 59 Hz uneven. It is likelier 59.94: uneven, too."),
        ("24", 239, "At exactly 239 Hz even, with slips. It is likelier 239.76: even, with slips, too."),
    ],
)
def test_the_verdict_on_a_rate_cut_short_says_what_is_likelier(content, rate, reason):
    answer = FILM.run({"content": content, "rate": rate}).answer
    assert answer.verdict.reason == reason
    assert f"exactly {rate} Hz" in answer.headline
    assert f"{rate} is most likely" in notes(content=content, rate=rate)["Which exact rate is it?"]


def test_a_narrow_range_is_said_to_be_repeated_on_by_some_drivers_only():
    assert "Some drivers" in notes(content="24", adaptive="yes", low=48, high=75)["A narrow range"]
    for inputs in ({"content": "24", "low": 48, "high": 144}, {"content": "60", "low": 48, "high": 75}):
        assert "A narrow range" not in notes(adaptive="yes", **inputs)


def test_a_range_that_is_given_and_not_used_is_told():
    assert "set to no" in notes(content="24", low=48, high=144)["The range is not used"]
    assert "The range is not used" not in notes(content="24", low=48, high=144, adaptive="yes")


@pytest.mark.parametrize(("content", "few"), [("24", True), ("30", True), ("47.952", False), ("60", False)])
def test_only_few_pictures_stutter_in_pans_at_any_rate(content, few):
    assert ("Pans stutter all the same" in notes(content=content)) == few
