"""Timing strings as people type them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.errors import InputErrors
from calculators.memory.timings.timing_strings import MOST_CLOCKS, Timings, read_timings, write_timings

FOUR = Timings(16, 18, 18, 38)


@pytest.mark.parametrize(
    "typed",
    [
        "16-18-18-38", "16 18 18 38", "CL16-18-18-38", "cl 16-18-18-38", "C16 18 18 38", "CAS 16-18-18-38",
        "16-18-18-38 2T 1.35V", "16-18-18-38 1,35 V", "CL16-18-18-38 @ 1.35V",
        "16–18–18–38", "16/18/18/38", "16,18,18,38", "16.18.18.38", " 16 - 18 - 18 - 38 ", "16-18-18-38-2T",
        "16-18-18-38 1N", "16-18-18-38-56", "tCL16-18-18-38", "CL: 16-18-18-38", "016-18-18-38", "CL=16-18-18-38",
    ],
)  # fmt: skip
def test_what_viewers_type_is_understood(typed):
    assert read_timings(typed) == FOUR


@pytest.mark.parametrize("typed", ["16-18-18", "CL16-18-18", "16 18 18", "16-18-18 2T"])
def test_three_numbers_leave_row_active_time_open(typed):
    assert read_timings(typed) == Timings(16, 18, 18, None)


@pytest.mark.parametrize("typed", ["16", "CL16", "cl 16", "CAS 16", "CL16 2T", "C16"])
def test_the_cas_latency_alone_leaves_the_others_open(typed):
    assert read_timings(typed) == Timings(16, None, None, None)


@pytest.mark.parametrize(
    ("typed", "reason"),
    [
        ("16-18", "it needs the CAS latency alone or at least three numbers, and there are 2"),
        ("CL", "it needs the CAS latency alone or at least three numbers, and there is none"),
        ("1-2-3-4-5-6", "the first four numbers will do, and there are 6"),
        ("16-x-18-38", "'x' is not a whole number of clocks"),
        ("0-18-18-38", "each number is from 1 to 400 clocks, and 0 is not"),
        ("16-18-18-401", "each number is from 1 to 400 clocks, and 401 is not"),
        ("１６-18-18-38", "'１６' is not a whole number of clocks"),
    ],
)
def test_what_is_wrong_is_said(typed, reason):
    with pytest.raises(ValueError, match=r".") as caught:
        read_timings(typed)
    assert str(caught.value) == reason


def test_the_calculator_names_the_input_and_gives_an_example():
    with pytest.raises(InputErrors) as caught:
        find("memory.mix").run({"have_timings": "16-18"})
    (problem,) = caught.value.problems
    assert problem.input == "have_timings"
    assert problem.message == (
        "Timings must be the sticker's timings in clocks, or CL and its number alone, such as 16-18-18-38: it needs "
        "the CAS latency alone or at least three numbers, and there are 2."
    )


def read_or_refused(text):
    """The timings, or the reason why there are none."""
    try:
        return read_timings(text), ""
    except ValueError as problem:
        return None, str(problem)


COUNTS = st.integers(1, MOST_CLOCKS)


@given(st.builds(Timings, COUNTS, COUNTS, COUNTS, st.none() | COUNTS) | COUNTS.map(Timings))
def test_writing_and_reading_give_the_same(timings):
    assert read_timings(write_timings(timings)) == timings


@given(st.text(max_size=60))
def test_no_text_does_anything_but_read_or_refuse(text):
    timings, reason = read_or_refused(text)
    assert (timings is None) == bool(reason)
    if timings is not None:
        assert all(t is None or 1 <= t <= MOST_CLOCKS for t in timings)
