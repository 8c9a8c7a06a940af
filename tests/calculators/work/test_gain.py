"""work.gain: the contract's figures, what is said of memory, refusals, and that no limit is ever passed."""

import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.as_html import gravest
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors
from calculators.work.gain import option_names
from calculators.work.screen_cards import gain as gain_card
from calculators.work.wording.cautions import BACK_UP, POWER, STATIC

GAIN = find("work.gain")
PARTS = ("one_core", "all_cores", "card", "disk")
PLAIN = {"one_core_min": 30, "all_cores_min": 20, "card_min": 60, "disk_min": 10, "other_min": 0, "memory_fills": "no"}
SLACK = 1 + 1e-9  # figures hold twelve digits
MINUTES = st.floats(0, 10_080).map(lambda m: round(m, 2))
TIMES = st.floats(0.1, 100).map(lambda t: round(t, 2))


def run(**inputs):
    answer = GAIN.run({**PLAIN, **inputs}).answer
    return answer, {f.key: f.value for f in answer.figures}


def refused(**inputs):
    with pytest.raises(InputErrors) as caught:
        GAIN.run({**PLAIN, **inputs})
    return {problem.input: problem.message for problem in caught.value.problems}


def test_the_figures_of_the_contract():
    _, figures = run(a_card=2, a_price=900, b_one_core=1.5, b_all_cores=2, b_price=400)
    assert figures == pytest.approx({  # arithmetic of our own
        "now_min": 120, "a_min": 90, "a_speedup": 120 / 90, "a_saved_min": 30, "a_min_per_100": 100 * 30 / 900,
        "b_min": 100, "b_speedup": 1.2, "b_saved_min": 20, "b_min_per_100": 5,
        "limit_one_core": 120 / 90, "limit_all_cores": 1.2, "limit_card": 2, "limit_disk": 120 / 110,
    })  # fmt: skip


def test_the_working_divides_by_a_price_where_one_was_given_and_nowhere_else():
    answer, _ = run(a_card=2, a_price=900, b_one_core=1.5, b_all_cores=2)
    (line,) = (line for line in answer.working if line.what.endswith(" for its price"))
    assert line.what.startswith("The faster card")
    assert line.numbers.replace("\u00a0", " ").startswith("100 × 30 ÷ 900")
    assert line.result.replace("\u00a0", " ") == "3.33 min"  # 100 × 30 ÷ 900, arithmetic of our own
    assert not [line for line in run(a_card=2)[0].working if "price" in line.what]


def test_an_empty_request_is_answered_and_memory_is_unsure():
    answer = GAIN.run({}).answer
    assert {f.key for f in answer.figures} == {
        "now_min", "a_min", "b_min", "a_speedup", "b_speedup", "a_saved_min", "b_saved_min",
        "limit_one_core", "limit_all_cores", "limit_card", "limit_disk",
    }  # fmt: skip
    assert answer.verdict.word == "depends"
    assert "memory" in answer.verdict.reason


def test_what_is_not_defined_is_left_out():
    _, figures = run(a_price=0, a_card=2, b_card=0.5, b_price=100)
    assert not {"a_min_per_100", "b_min_per_100"} & set(figures)
    assert figures["b_saved_min"] == -60
    _, alone = run(one_core_min=0, all_cores_min=0, disk_min=0)
    assert "limit_card" not in alone
    assert alone["limit_disk"] == 1


def test_memory_comes_first_and_nothing_is_ranked():
    answer, _ = run(memory_fills="yes", a_card=2)
    assert answer.headline.startswith("Memory fills up, so it comes first")
    assert answer.verdict.says == "Memory first."
    assert "faster card" not in answer.headline
    assert [f.key for f in answer.figures if f.main] == ["now_min"]


@pytest.mark.parametrize(
    ("inputs", "word", "says"),
    [
        ({"a_card": 2}, "yes", "The faster card first."),
        ({"a_card": 2, "b_disk": 4}, "yes", "The faster card first."),
        ({"b_card": 2, "a_disk": 4}, "yes", "The faster card first."),
        ({"b_card": 2, "a_one_core": 1.1, "a_all_cores": 1.2}, "yes", "The faster card first."),
        ({"a_all_cores": 3, "b_one_core": 1.1}, "yes", "The many-core processor first."),
        ({"a_card": 2, "b_card": 3}, "yes", "Buy your second option."),
        ({"a_card": 2, "a_disk": 2, "b_one_core": 1.1}, "yes", "Buy your first option."),
        ({}, "depends", "That depends."),
        ({"a_price": 100}, "no", "Neither."),
        ({"a_card": 0.5}, "no", "Neither."),
        ({"a_card": 2, "b_card": 2}, "depends", "Either."),
        ({"a_card": 2, "b_card": 2, "a_price": 300, "b_price": 200}, "yes", "Buy your second option."),
        ({"a_card": 2, "a_price": 900, "b_disk": 4, "b_price": 100}, "depends", "That depends."),
        ({"a_card": 2, "memory_fills": "unsure"}, "depends", "That depends."),
        ({"a_card": 1.01}, "depends", "Hardly worth it."),
        ({"a_card": 1.018}, "yes", "The faster card first."),
    ],
)
def test_verdicts(inputs, word, says):
    verdict = run(**inputs)[0].verdict
    assert (verdict.word, verdict.says) == (word, says)


def test_the_limit_stands_first_and_what_is_not_waiting_is_said():
    result = GAIN.run({**PLAIN, "a_card": 2})
    assert result.answer.headline.startswith("Even the best card could only make the day 2 times as fast; ")
    text = as_text(result)
    for said in ("Use is not waiting", "your own task", "overnight", "board, memory, a supply, a cooler"):
        assert said in text


def test_a_day_that_waits_for_one_part_alone_or_for_none():
    assert "could end every wait" in run(one_core_min=0, all_cores_min=0, disk_min=0)[0].headline
    none = run(one_core_min=0, all_cores_min=0, disk_min=0, card_min=0, other_min=5)[0]
    assert "no part shortens this day" in none.headline


@pytest.mark.parametrize(
    ("inputs", "ends"),
    [
        ({"a_card": 2}, "; the faster card makes it 1.33 times."),
        ({"b_card": 2}, "; the faster card makes it 1.33 times."),
        ({}, "; now say what your two options make faster."),
        ({"a_price": 90}, "; neither of your two options changes it."),
        ({"a_card": 2, "b_price": 90}, "; the faster card makes it 1.33 times, your second option changes nothing."),
        ({"b_card": 2, "a_disk": 1, "a_price": 0},
         "; the faster card makes it 1.33 times, your first option changes nothing."),
        ({"a_card": 2, "one_core_min": 0, "all_cores_min": 0, "disk_min": 0, "b_card": 1.5},
         "; your first option makes the day 2 times as fast, your second option 1.5."),
        ({"a_card": 1.01, "b_disk": 2}, "; the faster card makes it 1.005 times, the faster disk 1.04."),
    ],
)  # fmt: skip
def test_a_headline_says_what_changes_nothing_and_of_what_it_speaks(inputs, ends):
    assert run(**inputs)[0].headline.endswith(ends)


def test_more_minutes_than_a_day_has_are_told():
    assert "More than a day has" in [n.title for n in run(card_min=1400)[0].notes]
    assert "More than a day has" not in [n.title for n in run(card_min=1380)[0].notes]


def test_where_memory_comes_first_nothing_stands_out():
    answer = run(memory_fills="yes", a_card=2)[0]
    assert not answer.tables[0].marked
    assert "mark" not in answer.drawings[0].svg("d")
    assert "mark" in run(a_card=2)[0].drawings[0].svg("d")


@pytest.mark.parametrize(
    ("inputs", "hero"),
    [({"memory_fills": "yes", "a_card": 2}, "memory first"), ({}, "which two parts?"),
     ({"a_price": 9}, "no time saved"), ({"a_price": 9, "memory_fills": "unsure"}, "no time saved"),
     ({"a_card": 2}, "30 min saved"),
     ({"a_card": 1.01}, "under 1 min saved")],
)  # fmt: skip
def test_the_card_says_memory_only_where_memory_fills(inputs, hero):
    result = GAIN.run({**PLAIN, **inputs})
    assert gain_card(result.values, result.answer).hero == hero


@pytest.mark.parametrize(
    ("inputs", "first"),
    [
        ({"a_card": 2}, POWER),
        ({"a_card": 2, "b_disk": 3}, BACK_UP),
        ({"a_one_core": 1.4}, STATIC),
        ({"a_price": 9}, STATIC),
    ],
)
def test_the_gravest_caution_is_of_what_is_bought(inputs, first):
    cautions = run(**inputs)[0].cautions
    assert gravest(cautions) == first
    assert POWER in cautions
    assert STATIC in cautions


def test_no_warning_stands_where_no_option_is_told_yet():
    assert run()[0].cautions == ()
    assert POWER in run(memory_fills="yes")[0].cautions


def test_no_option_goes_by_a_letter_that_only_the_form_explains():
    answer, _ = run(a_card=2, a_price=900, b_one_core=1.5, b_all_cores=2, b_price=400, hour_value=30)
    assert answer.headline.endswith("; the faster card makes it 1.33 times, the faster processor 1.2.")
    text = as_text(GAIN.run({**PLAIN, "a_card": 2, "b_disk": 4}))
    assert not re.findall(r"\bB\b|\bA (?:first|makes|saves|in the)|[Oo]ption [AB]\b|With A\b", text)
    assert [f.label for f in answer.figures if f.main][1:3] == ["With the faster card", "With the faster processor"]


@given(st.lists(TIMES, min_size=4, max_size=4), st.lists(TIMES, min_size=4, max_size=4))
def test_two_options_never_have_one_name(first, second):
    one, other = option_names(tuple(first), tuple(second))
    assert one
    assert other
    assert one != other
    for name, times in ((one, first), (other, second)):
        part = {"the faster card": 2, "the faster disk": 3}.get(name)
        assert part is None or times[part] > 1


def test_when_a_wait_pays_for_itself():
    _, figures = run(a_card=2, a_price=900, hour_value=30)
    assert figures["a_pays_days"] == pytest.approx(900 / (0.5 * 30))  # half an hour a day
    assert "b_pays_days" not in figures


def test_all_zero_is_refused_at_the_first_of_them():
    assert refused(**dict.fromkeys([f"{p}_min" for p in PARTS], 0)) == {
        "one_core_min": "All waits are 0, and a day without waiting needs no part: give the minutes of at least one "
        "of them."
    }


def test_every_wrong_input_is_told_at_once():
    assert set(refused(one_core_min=-1, a_card=0, b_price=-5, memory_fills="maybe", disk_min=20_000)) == {
        "one_core_min", "a_card", "b_price", "memory_fills", "disk_min",
    }  # fmt: skip


@pytest.mark.parametrize(("typed", "minutes"), [("1.5 h", 90), ("90 minutes", 90), ("1,5", 1.5)])
def test_minutes_as_people_type_them(typed, minutes):
    assert GAIN.run({"card_min": typed}).values["card_min"] == minutes


def test_prices_with_their_sign():
    assert GAIN.run({"a_price": "€900"}).values["a_price"] == 900


@given(st.lists(MINUTES, min_size=5, max_size=5), st.integers(0, 3), TIMES)
def test_no_speed_up_of_one_part_passes_its_limit(waits, part, times):
    assume(any(waits))
    keys = [*(f"{p}_min" for p in PARTS), "other_min"]
    _, figures = run(**dict(zip(keys, waits, strict=True)), **{f"a_{PARTS[part]}": times})
    most = figures.get(f"limit_{PARTS[part]}")
    if most is not None:
        assert figures["a_speedup"] <= most * SLACK or times <= 1
        assert most >= 1


@given(st.lists(MINUTES, min_size=4, max_size=4), st.lists(TIMES, min_size=4, max_size=4), st.integers(0, 3))
def test_a_slower_part_never_shortens_the_day(waits, times, part):
    assume(any(waits))
    day = {f"{p}_min": w for p, w in zip(PARTS, waits, strict=True)}
    a = {f"a_{p}": t for p, t in zip(PARTS, times, strict=True)}
    slower = {f"b_{p}": t for p, t in zip(PARTS, times, strict=True)}
    slower[f"b_{PARTS[part]}"] = max(round(times[part] / 2, 2), 0.1)
    assume(slower[f"b_{PARTS[part]}"] <= times[part])
    _, figures = run(**day, **a, **slower)
    assert figures["b_min"] * SLACK >= figures["a_min"]
    assert figures["b_saved_min"] <= figures["a_saved_min"] + 1e-6


@given(st.lists(MINUTES, min_size=4, max_size=4), st.lists(TIMES, min_size=4, max_size=4))
def test_what_is_saved_is_the_day_now_less_the_day_then(waits, times):
    assume(any(waits))
    day = {f"{p}_min": w for p, w in zip(PARTS, waits, strict=True)}
    _, figures = run(**day, **{f"a_{p}": t for p, t in zip(PARTS, times, strict=True)})
    assert figures["now_min"] - figures["a_min"] == pytest.approx(figures["a_saved_min"], rel=1e-6, abs=1e-6)
    assert figures["a_speedup"] * figures["a_min"] == pytest.approx(figures["now_min"])


def test_a_limit_of_millions_keeps_the_headline_short():
    headline = GAIN.run({
        "card_min": 10080, "one_core_min": 0, "all_cores_min": 0, "disk_min": 0, "other_min": 0.001, "a_card": 2,
    }).answer.headline  # fmt: skip
    assert "over 1000 times as fast" in headline
    assert len(headline.split()) <= 25
