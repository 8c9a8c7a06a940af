"""How inputs are read: every problem at once, each sentence enough to mend it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.desk.errors import InputErrors
from calculators.desk.inputs import (
    Choice,
    Estimate,
    Everyday,
    Follows,
    NamedValue,
    Number,
    Option,
    PrivateText,
    Span,
    Text,
    YesNo,
    read_all,
)

RATE = Number(
    key="rate", label="Rate", where="sticker", low=200, high=20000, unit="MT/s", default=3200, whole=True,
    also={"MHz": 1},
)  # fmt: skip
VOLTS = Number(key="volts", label="Voltage", where="sticker", low=1, high=2, unit="V", unsure=True, default=1.35)
LIMIT = Number(key="limit", label="Limit", where="manual", low=1, high=9, optional=True)
ECC = Choice(
    key="ecc",
    label="Error correction",
    where="sticker",
    options=(Option("yes", "yes"), Option("no", "no"), Option("unknown", "not sure")),
    default="no",
)


def parse_pair(text: str) -> tuple[int, int]:
    first, dash, second = text.partition("-")
    if not dash or not first.isdigit() or not second.isdigit():
        raise ValueError("two numbers are needed")
    return int(first), int(second)


PAIR = Text(
    key="pair", label="Pair", where="sticker", shape="two numbers with a hyphen", example="16-18", parse=parse_pair,
    canonical=lambda pair: f"{pair[0]}-{pair[1]}", default="16-18",
)  # fmt: skip
SECRET = PrivateText(
    key="secret", label="What the display says", where="a file", shape="hex", example="00 ff", default=""
)
ALL = (RATE, VOLTS, LIMIT, ECC, PAIR)


def problems(raw, inputs=ALL):
    with pytest.raises(InputErrors) as caught:
        read_all(inputs, raw)
    return [(p.input, p.message) for p in caught.value.problems]


def test_what_is_not_given_is_assumed_and_an_optional_input_is_left_out():
    values = read_all(ALL, {"rate": "3600 MHz"})
    assert values["rate"] == 3600
    assert values.assumed == ("volts", "ecc", "pair")
    assert "limit" not in values
    assert values.get("limit") is None
    assert values.given() == {"rate": "3600"}
    assert values.echo() == {"rate": 3600, "volts": 1.35, "ecc": "no", "pair": "16-18"}


def test_all_wrong_inputs_are_told_at_once_each_with_what_is_allowed_and_what_came():
    assert problems({"rate": "0", "volts": "abc", "ecc": "maybe", "pair": "x", "limit": "99", "rat": 1}) == [
        ("rate", "Rate must be a whole number from 200 to 20\u202f000 MT/s, such as 3200, got '0'."),
        ("volts", "Voltage must be a number from 1 to 2 V, such as 1.35, got 'abc'."),
        ("limit", "Limit must be a number from 1 to 9, such as 1, got '99'."),
        ("ecc", "Error correction must be one of yes, no, unknown, got 'maybe'."),
        ("pair", "Pair must be two numbers with a hyphen, such as 16-18: two numbers are needed."),
        ("rat", "There is no input 'rat'; did you mean rate?"),
    ]


def test_an_emptied_field_is_not_silently_the_default():
    assert problems({"rate": "  "}) == [
        ("rate", "Rate is empty: give a whole number from 200 to 20\u202f000 MT/s, such as 3200.")
    ]
    assert problems({"rate": None})[0][0] == "rate"
    assert "limit" not in read_all(ALL, {"limit": ""})


@pytest.mark.parametrize("given", [3200.5, "3200.5", "3200,5"])
def test_a_fraction_where_a_whole_number_is_due_is_refused_in_words(given):
    assert "whole number" in problems({"rate": given})[0][1]


@pytest.mark.parametrize(("given", "plain"), [("3,200", "3200"), (" 4,000 ", "4000"), ("300,000", "300000")])
def test_a_comma_that_groups_digits_of_a_whole_number_is_told_how_to_write_it(given, plain):
    message = problems({"rate": given})[0][1]
    assert "whole number" in message
    assert message.endswith(f"got '{given.strip()}': write {plain}, without a comma.")


@pytest.mark.parametrize("given", ["3,20", "3,2000", "1,200,300", "x,200", ",200"])
def test_other_commas_are_not_taken_for_grouping(given):
    assert "without a comma" not in problems({"rate": given})[0][1]


def test_a_comma_that_groups_digits_is_refused_even_where_the_fraction_would_be_whole():
    sticks = Number(key="n", label="Sticks", where="w", low=1, high=8, whole=True, default=2)
    assert problems({"n": "4,000"}, (sticks,))[0][1].endswith("write 4000, without a comma.")


@pytest.mark.parametrize(
    "given", [True, False, [], {}, [1], float("nan"), float("inf"), 10**400, -(10**400), "9" * 5000, "nan", "\ud800"]
)
def test_no_value_at_all_breaks_the_reading(given):
    assert problems({"rate": given})[0][0] == "rate"


def test_not_sure_is_understood_where_the_input_offers_it():
    for typed in ("unsure", "Not sure", "unknown", "?"):
        assert read_all(ALL, {"volts": typed})["volts"] is None
    assert read_all(ALL, {"volts": "unsure"}).echo()["volts"] == "unsure"
    assert problems({"rate": "unsure"})[0][0] == "rate"
    assert read_all(ALL, {"ecc": "not sure"})["ecc"] == "unknown"


def test_yes_and_no_may_come_as_truth_values():
    wants = YesNo(key="a", label="A", where="w", default="no")
    assert read_all((wants,), {"a": True})["a"] == "yes"
    assert read_all((wants,), {"a": "No"})["a"] == "no"


def test_numbers_written_for_a_choice_find_their_option():
    depth = Choice(key="d", label="D", where="w", options=(Option("8", "8 bits"), Option("10", "10 bits")), default="8")
    assert read_all((depth,), {"d": 10})["d"] == "10"
    assert read_all((depth,), {"d": 8.0})["d"] == "8"
    assert read_all((depth,), {"d": "10 BITS"})["d"] == "10"


def test_a_private_text_is_echoed_nowhere():
    values = read_all((SECRET,), {"secret": "00 ff"})
    assert values["secret"] == "00 ff"
    assert values.echo() == {}
    assert values.given() == {}
    assert values.say("secret") == "as pasted, not shown"


def test_a_pages_own_example_may_show_its_private_text_in_the_form():
    values = read_all((SECRET, RATE), {"secret": "00 ff"})
    assert values.given(private=True) == {"secret": "00 ff"}


def test_a_text_that_is_too_long_is_refused_without_quoting_it():
    message = problems({"pair": "1" * 500})[0][1]
    assert message == "Pair must be at most 400 characters long, got 500."


@given(st.dictionaries(st.text(max_size=8), st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(), lambda c: st.lists(c, max_size=3), max_leaves=4
)) | st.fixed_dictionaries({}, optional={k.key: st.text() | st.integers() | st.floats() for k in ALL}))  # fmt: skip
def test_no_input_whatever_raises_anything_else(raw):
    wrong = None
    try:
        values = read_all(ALL, raw)
    except InputErrors as problem:
        wrong = problem
    if wrong:
        assert wrong.problems
        assert all(p.message.endswith((".", "?")) for p in wrong.problems)
    else:
        again = read_all(ALL, values.given())
        assert dict(again) == dict(values)


def test_a_number_too_small_to_be_anything_is_nothing():
    share = Number(key="s", label="Share", where="w", low=0, high=1)
    assert read_all((share,), {"s": 5e-324})["s"] == 0
    assert read_all((share,), {"s": "1e-12"})["s"] == 1e-12
    above = Number(key="s", label="Share", where="w", low=1e-6, high=1)
    with pytest.raises(InputErrors, match="Share must be a number from"):
        read_all((above,), {"s": 5e-324})


ENCODING = Estimate(
    key="encode_ms", label="Encoding", where="The sender's own statistics.", low=0, high=5000, unit="ms",
    choices=(Everyday("chip", "by the card's own encoder", 3, 15, ("hardware",)),), unsure_low=3, unsure_high=60,
    default=10,
)  # fmt: skip
PEAK = Number(
    key="wanted_peak", label="Peaks", where="How loud you want it.", low=60, high=115, unit="dB", default=100,
    named=(NamedValue(100, "music", ("songs",)),),
)  # fmt: skip


def test_an_estimate_takes_a_number_an_everyday_choice_or_not_sure():
    assert ENCODING.read("7,5 ms") == Span(7.5, 7.5)
    assert ENCODING.read("hardware") == ENCODING.read("by the card's own encoder") == Span(3, 15, "chip")
    assert ENCODING.read("not sure") == Span(3, 60, "unsure")
    assert ENCODING.start == Span(10, 10)
    for typed in ("7.5", "chip", "unsure"):
        assert ENCODING.write(ENCODING.read(typed)) == typed
    assert [ENCODING.echo(ENCODING.read(typed)) for typed in (7.5, "chip")] == [7.5, "chip"]
    assert ENCODING.say(ENCODING.read("chip")) == "by the card's own encoder (3 to 15 ms)"
    with pytest.raises(ValueError, match=r"Encoding must be a number from 0 to 5000 ms, such as 10, or one of chip, "):
        ENCODING.read("quick")


def test_a_number_takes_its_values_by_their_everyday_names():
    assert PEAK.read("Music") == PEAK.read("songs") == PEAK.read(100) == 100
    with pytest.raises(ValueError, match="Peaks must be a number from 60 to 115 dB"):
        PEAK.read("opera")


GENERATION = Choice(
    key="generation", label="Generation", where="sticker", options=(Option("old", "old"), Option("new", "new")),
    default="old",
)  # fmt: skip
SPEED = Number(
    key="speed", label="Speed", where="sticker", low=1, high=9000, default=1600, whole=True,
    follows=Follows("generation", {"new": "6000"}, {"new": ("6000", "6400")}),
    printed=lambda text: 6400 if text == "NEW-6400" else None,
    against=lambda text, values: "" if values.get("generation") == "new" or "NEW" not in text else "NEW is not old.",
)  # fmt: skip


@pytest.mark.parametrize(("raw", "speed"), [({}, 1600), ({"generation": "new"}, 6000), ({"generation": "old"}, 1600)])
def test_a_default_follows_the_choice_that_decides_it(raw, speed):
    values = read_all((GENERATION, SPEED), raw)
    assert values["speed"] == speed
    assert "speed" in values.assumed


def test_what_stands_on_a_label_is_read_and_what_speaks_against_it_is_told():
    assert read_all((GENERATION, SPEED), {"generation": "new", "speed": "NEW-6400"})["speed"] == 6400
    assert problems({"speed": "NEW-6400"}, (GENERATION, SPEED)) == [("speed", "NEW is not old.")]


def test_a_choice_reads_what_stands_on_a_label():
    ranks = Choice(
        key="ranks", label="Ranks", where="sticker", options=(Option("1", "1"), Option("2", "2")), default="1",
        printed=lambda text: "2" if text == "2Rx8" else None,
    )  # fmt: skip
    assert read_all((ranks,), {"ranks": "2Rx8"})["ranks"] == "2"
