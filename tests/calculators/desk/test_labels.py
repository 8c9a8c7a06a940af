"""Labels that two inputs share are told apart by their group wherever they stand without the form."""

from calculators.catalogue import find
from calculators.desk.as_html import as_html
from calculators.desk.as_text import as_text
from calculators.desk.inputs import Number, read_all

PAIR = [
    Number(key="a", label="Size", group="Old", where="sticker", low=1, high=9, default=2),
    Number(key="b", label="Size", group="New", where="sticker", low=1, high=9, default=3),
    Number(key="c", label="Price", group="New", where="receipt", low=1, high=9, default=4),
]


def test_a_shared_label_carries_its_group_and_a_label_of_its_own_does_not():
    values = read_all(PAIR, {})
    assert [values.label(key) for key in "abc"] == ["Old, Size", "New, Size", "Price"]


def test_what_was_assumed_can_be_told_apart():
    result = find("memory.mix").run({})
    for rendering in (as_text(result), as_html(result, "x")):
        assert "The kit you have, Sticks: 2" in rendering
        assert "The kit to add, Sticks: 2" in rendering
