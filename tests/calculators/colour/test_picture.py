"""colour.picture: the figures, the words and the file of each picture."""

from __future__ import annotations

import base64

import pytest

from calculators.colour.picture import calculator
from calculators.colour.test_pictures.patterns import PICTURES, paint
from calculators.desk.as_html import as_html
from calculators.desk.as_json import as_json
from calculators.desk.errors import InputErrors
from tests.calculators.desk.png_reader import read_png


def figures(**raw):
    return {f.key: f.value for f in calculator.run(raw).answer.figures}


def test_eleven_steps_vanish_at_either_end():
    # ITU-R BT.709-6: black is code 16 and white 235, so codes to 16 show as black and codes from 235 as white
    assert figures(picture="near-black")["steps_swallowed"] == sum(
        c <= 16 for c in (1, 2, 3, 4, 6, 8, 10, 12, 14, 15, 16)
    )
    assert figures(picture="near-white")["steps_swallowed"] == 12
    assert "steps_swallowed" not in figures(picture="greys")


def test_figures_of_the_default():
    assert figures() == {
        "steps": 17, "first_code": 1, "last_code": 28, "steps_swallowed": 11, "width": 640, "height": 360,
        "file_kb": pytest.approx(7.7, abs=0.2),
    }  # fmt: skip


@pytest.mark.parametrize("key", PICTURES)
def test_each_picture_tells_what_to_see_and_what_else_it_may_be(key):
    answer = calculator.run({"picture": key}).answer
    assert len(answer.steps) == 3
    assert all(step.see and step.otherwise for step in answer.steps)
    assert answer.cautions[0].first
    assert "photosensitive" in answer.cautions[0].text
    assert any("mark some panels" in c.text for c in answer.cautions)


@pytest.mark.parametrize("key", PICTURES)
def test_the_page_holds_the_very_file(key):
    result = calculator.run({"picture": key})
    (file,) = result.answer.files
    html = as_html(result, "p")
    assert html.count(base64.b64encode(file.data).decode("ascii")) == 1
    assert base64.b64decode(as_json(result)["files"][0]["base64"]) == file.data
    assert f'data-ground="{file.ground}"' in html


@pytest.mark.parametrize("key", PICTURES)
def test_the_ground_is_the_colour_of_the_picture_s_corner_or_beside_its_frame(key):
    (file,) = calculator.run({"picture": key}).answer.files
    picture = read_png(file.data)
    at = (4, 4) if key == "pixels" else (0, 0)
    assert "#" + bytes(picture.pixel(*at)).hex() == file.ground


def test_the_same_inputs_give_the_same_bytes():
    once, again = (calculator.run({"picture": "detail"}).answer.files[0].data for _ in range(2))
    assert once == again


@pytest.mark.parametrize(
    ("raw", "message"),
    [
        ({"width": 100}, "Width must be a whole number from 480 to 5120 px, such as 640, got 100."),
        ({"height": 9000}, "Height must be a whole number from 270 to 2880 px, such as 360, got 9000."),
        ({"picture": "bars"}, "Picture must be one of near-black, near-white, greys, detail, pixels, got 'bars'."),
    ],
)
def test_wrong_inputs_are_said(raw, message):
    with pytest.raises(InputErrors) as caught:
        calculator.run(raw)
    assert [p.message for p in caught.value.problems] == [message]


@pytest.mark.parametrize("key", ["near-black", "near-white", "greys"])
def test_the_table_tells_steps_that_are_in_the_picture(key):
    (table,) = calculator.run({"picture": key}).answer.tables
    codes = {patch.codes[0] for patch in paint(key, 640, 360).patches}
    assert {int(row[0]) for row in table.rows} <= codes


def test_the_table_near_black():
    (table,) = calculator.run({"picture": "near-black"}).answer.tables
    rows = {row[0]: row[1:] for row in table.rows}
    # limited expected: (17 − 16) ÷ 219; limited sent: 16 + 219 × 16 ÷ 255 = 29.7, sent as 30, and 30 ÷ 255
    assert rows["17"] == ("6.7 %", "0.5 %", "12.2 %")
    assert rows["16"] == ("6.3 %", "0 %", "11.8 %")
