"""How numbers are read and worded. Round trips and properties of our own; ISO 80000-1 for the grouping."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.desk.numbers import (
    NotANumber,
    listed,
    number,
    plural,
    read_number,
    settled,
    significant,
    span,
    with_unit,
)


@pytest.mark.parametrize(
    ("typed", "unit", "value"),
    [
        ("3200", "MT/s", 3200),
        ("3200 MT/s", "MT/s", 3200),
        ("3200mt/s", "MT/s", 3200),
        (" 1,35 V ", "V", 1.35),
        ("1.35V", "V", 1.35),
        ("1350 mV", "V", 1.35),
        ("3 200", "", 3200),
        ("3\u202f200", "", 3200),
        ("3'200", "", 3200),
        ("1,234.5", "", 1234.5),
        ("1.234,5", "", 1234.5),
        ("1,234,567.", "", 1234567),
        (".5", "", 0.5),
        (",5", "", 0.5),
        ("5.", "", 5),
        ("\u22125", "", -5),
        ("+5", "", 5),
        ("2e3", "", 2000),
        ("80 °", "°", 80),
        ("250 cd/m2", "cd/m²", 250),
        ("€70", "€", 70),
        ("€ 70,50", "€", 70.5),
        ("mV 1350", "V", 1.35),
    ],
)
def test_what_people_type_is_understood(typed, unit, value):
    assert read_number(typed, unit, {"mV": 0.001}) == value


@pytest.mark.parametrize(
    "typed",
    [
        "",
        " ",
        "abc",
        "16-18",
        "1.2.3",
        "1,2,3",
        "12 34",
        "3200 GB",
        "nan",
        "inf",
        "1e999",
        "0x10",
        "١٢",
        "1_000",
        "--5",
        "5 5 V",
    ],
)
def test_what_is_not_one_number_is_refused(typed):
    with pytest.raises(NotANumber):
        read_number(typed, "V")


@given(st.floats(allow_nan=False, allow_infinity=False, width=64))
def test_a_float_typed_out_is_read_back(value):
    assert read_number(repr(value)) == value


@given(st.text(max_size=60))
def test_any_text_is_a_number_or_is_refused(typed):
    try:
        assert isinstance(read_number(typed, "V"), float)
    except NotANumber:
        pass


@given(st.integers(-(10**12), 10**12), st.integers(0, 4))
def test_wording_is_read_back(value, places):
    assert read_number(number(value, places)) == value


@pytest.mark.parametrize(
    ("value", "places", "text"),
    [
        (0, 2, "0"),
        (-0.0, 2, "0"),
        (-0.001, 2, "0"),
        (9999, 0, "9999"),
        (25600, 0, "25\u202f600"),
        (1234567.891, 2, "1\u202f234\u202f567.89"),
        (13.750, 3, "13.75"),
        (-3.5, 1, "\u22123.5"),
        (100, 2, "100"),
    ],
)
def test_numbers_are_worded_without_needless_digits(value, places, text):
    assert number(value, places) == text


def test_significant_digits_never_cut_whole_numbers():
    assert [significant(v) for v in (0, 0.012345, 1.2345, 123.456, 9876)] == ["0", "0.0123", "1.23", "123", "9876"]


def test_settled_forgets_the_last_bits_and_refuses_what_json_cannot_hold():
    assert settled(0.1 + 0.2) == 0.3
    assert str(settled(-0.0)) == "0.0"
    for value in (float("nan"), float("inf"), float("-inf")):
        with pytest.raises(ValueError, match="finite"):
            settled(value)


def test_small_words():
    assert with_unit("5", "ns") == "5 ns"
    assert with_unit("5", "°") == "5°"
    assert with_unit("5", "") == "5"
    assert span(10, 12, "ns") == "10 to 12 ns"
    assert span(10, 10.001, "ns") == "10 ns"
    assert plural(1, "stick") == "1 stick"
    assert plural(2, "stick") == "2 sticks"
    assert plural(2, "entry", "entries") == "2 entries"
    assert listed(["a"]) == "a"
    assert listed(["a", "b", "c"]) == "a, b and c"
    assert listed(["a", "b"], "or") == "a or b"
