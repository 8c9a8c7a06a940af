"""Amounts as people type them: a comma before three digits groups them, and what a link writes reads back the same."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.trade.money import AMOUNT_SIGNS, Amount

PRICE = Amount(key="price", label="Price", where="", low=0, high=1_000_000, also=AMOUNT_SIGNS)


@pytest.mark.parametrize(
    ("typed", "amount"),
    [("1,299", 1299), ("$1,299", 1299), ("12,345 €", 12_345), ("1,299.50", 1299.5), ("1.299,50", 1299.5),
     ("12,5", 12.5), ("12,50 €", 12.5), ("0,125", 0.125), ("1.299", 1.299), (1299, 1299)],
)  # fmt: skip
def test_a_comma_before_three_digits_groups_them(typed, amount):
    assert PRICE.read(typed) == amount


@given(st.floats(0, 1_000_000))
def test_what_is_written_reads_back(amount):
    value = PRICE.read(amount)
    assert PRICE.read(PRICE.write(value)) == value


@pytest.mark.parametrize(
    ("name", "key"), [("memory.ways", "add_price"), ("rooms.ways", "price_copper"), ("work.gain", "a_price")]
)
def test_every_price_reads_so(name, key):
    assert find(name).run({key: "1,299"}).values[key] == 1299
