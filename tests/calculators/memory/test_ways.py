"""memory.ways: figures, gains, what does not fit, and money in any currency."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors
from calculators.trade.money import amount, read_currency

WAYS = find("memory.ways")


def run(**inputs):
    answer = WAYS.run(inputs).answer
    return answer, {f.key: f for f in answer.figures}


def test_every_figure_of_the_contract():
    _, figures = run(
        have_count=2, have_size=8, add_count=2, add_size=16, add_price=70, same_price=45, replace_count=2,
        replace_size=32, replace_price=130, resale=20,
    )  # fmt: skip
    values = {key: f.value for key, f in figures.items()}
    assert values == {
        "add_total_gb": 48, "add_cost": 70, "add_cost_per_gb_gained": 2.1875, "add_paired_gb": 48,
        "same_total_gb": 32, "same_cost": 45, "same_cost_per_gb_gained": 2.8125, "same_paired_gb": 32,
        "replace_total_gb": 64, "replace_cost": 110, "replace_cost_per_gb_gained": pytest.approx(110 / 48),
        "replace_paired_gb": 64,
    }  # fmt: skip


def test_where_nothing_is_gained_no_cost_for_it_is_shown():
    answer, figures = run(replace_count=1, replace_size=16)
    assert "replace_cost_per_gb_gained" not in figures
    assert figures["replace_total_gb"].value == 16
    assert any("no gain over 16 GB" in cell for row in answer.tables[0].rows for cell in row)
    assert any(n.title == "Nothing gained" for n in answer.notes)


def test_resale_counts_for_replacing_only_and_may_leave_money_over():
    _, figures = run(resale=200, replace_price=130)
    assert figures["replace_cost"].value == -70
    assert figures["replace_cost"].text == "−70 €"
    assert figures["add_cost"].value == 70


def test_a_way_that_does_not_fit_keeps_its_total_and_cost_only():
    answer, figures = run(slots=2)
    assert {"add_total_gb", "add_cost", "same_total_gb", "same_cost"} < set(figures)
    assert not {"add_paired_gb", "add_cost_per_gb_gained", "same_paired_gb"} & set(figures)
    assert figures["replace_paired_gb"].value == 64
    assert answer.headline.endswith("; the other two ways do not fit 2 slots.")
    nothing, _ = run(slots=2, replace_count=1, replace_size=8)
    assert nothing.headline.startswith("Adding a kit and the same kit again do not fit 2 slots")


def test_when_nothing_gains_the_headline_says_so():
    answer, _ = run(slots=2, replace_count=1, replace_size=8)
    assert answer.headline.endswith("none of them gains memory that fits.")


@pytest.mark.parametrize("sign", ["€", "$", "£", "¥", "₹", "kr", "zł", "CHF", "R$", "лв"])
def test_any_currency_sign_is_taken(sign):
    _, figures = run(currency=f" {sign} ")
    assert figures["add_cost"].text == f"70 {sign}"
    assert figures["add_cost"].unit == sign


@pytest.mark.parametrize("wrong", ["12", "E1", "a" * 9, "€\u0000"])
def test_a_currency_is_short_and_without_digits(wrong):
    with pytest.raises(InputErrors) as caught:
        run(currency=wrong)
    assert caught.value.problems[0].message.startswith("Currency must be a currency sign or code")


def test_a_sign_that_looks_like_markup_stays_text():
    text = as_text(WAYS.run({"currency": "<b>"}))
    assert "70 <b>" in text


@pytest.mark.parametrize(("typed", "value"), [("70 €", 70), ("1,299.50", 1299.5), ("1 299,50 kr", 1299.5), ("0", 0)])
def test_prices_as_people_type_them(typed, value):
    _, figures = run(add_price=typed)
    assert figures["add_cost"].value == value


@pytest.mark.parametrize(("value", "text"), [(70, "70 €"), (2.5, "2.50 €"), (2.1875, "2.19 €"), (-3, "−3 €")])
def test_amounts_have_no_decimals_or_two(value, text):
    assert amount(value, "€") == text


@given(st.text(max_size=40))
def test_no_sign_does_anything_but_read_or_refuse(text):
    sign, reason = read_or_refused(text)
    assert (sign is None) == bool(reason)
    if sign is not None:
        assert len(sign) <= 8
        assert read_currency(sign) == sign


@pytest.mark.parametrize("text", ["nan", "NaN", "inf", " -INF ", "Infinity", "+inf"])
def test_what_programs_write_for_no_amount_is_no_sign(text):
    assert read_or_refused(text) == (None, "it is a sign, not an amount")


def read_or_refused(text):
    """The sign, or the reason why there is none."""
    try:
        return read_currency(text), ""
    except ValueError as problem:
        return None, str(problem)


def test_the_cheapest_for_each_gigabyte_is_named():
    assert run()[0].headline == (
        "Adding a kit is cheapest for each gigabyte gained, at 2.19 €; only a new kit is tested as a whole."
    )
    assert run(replace_price=60)[0].headline.startswith("One new kit is cheapest for each gigabyte gained")
    two = run(add_price=90, replace_price=200)[0].headline
    assert two.startswith("Adding a kit and the same kit again cost least, 2.81 € for each gigabyte gained;")
    assert len(two.split()) <= 25
    same = run(add_price=48, same_price=24, replace_price=92, resale=20, replace_size=32)
    assert same[0].headline.startswith("All three ways cost the same for each gigabyte gained, at 1.50 €")


def settings(**inputs):
    return {row[0]: row[-1] for row in run(**inputs)[0].tables[0].rows}


def test_four_ddr5_sticks_are_advised_as_memory_mix_advises_them():
    told = settings(have_generation="ddr5", have_size=16)
    assert "begin on automatic, then step up" in told["Add a kit"]
    assert "begin on automatic, then step up" in told["The same kit again"]
    assert told["Replace all with one kit"] == "little: switch the profile on"
    assert "automatic" not in settings()["Add a kit"]


def test_laptop_sticks_at_standard_voltage_have_nothing_to_set():
    told = settings(have_form="sodimm", have_volts=1.2, have_count=1, add_count=1, slots=2)
    assert told["Add a kit"].startswith("none")


def test_a_size_that_the_generation_does_not_have_is_told_of():
    answer, figures = run(add_size=24)
    assert figures["add_total_gb"].value == 64
    assert "No DDR4 stick has 24 GB" in [n.title for n in answer.notes]
    assert not any("No DDR" in n.title for n in run(have_generation="ddr5", add_size=24)[0].notes)
