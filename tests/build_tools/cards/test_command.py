"""The card command: pictures of the right size, a code that says the address, and plain sentences where it cannot."""

from pathlib import Path

import pytest
from PIL import Image

from build_tools.cards.command import FADE_MS, CannotDraw, draw, draw_motion, qr, save
from build_tools.cards.sheet import write
from build_tools.environment import browsers
from calculators.catalogue import find
from calculators.desk.card_canvas import SHAPES

PROJECT = Path(__file__).parents[3]
ADDRESS = "https://answers.example/go/kit"


def test_svg_frames_carry_their_own_face(tmp_path):
    made = draw(PROJECT, "memory.rate", {"rate": "3600"}, address=ADDRESS)
    written = save(made, tmp_path / "card.svg", "wide", None)
    assert [p.name for p in written[:2]] == ["card.svg", "card-2.svg"]
    assert len(written) == len(made)
    text = "".join(path.read_text("utf-8") for path in written)
    assert "data:font/woff2;base64," in text
    assert "answers.example/go/kit" in text


@pytest.mark.parametrize(("shape", "size"), [("wide", (1920, 1080)), ("upright", (1080, 1920))])
def test_png_is_of_the_pictures_size_and_not_empty(tmp_path, shape, size):
    browser = browsers.find()
    assert browser, "the test command provides a browser"
    made = draw(PROJECT, "memory.rate", {}, shape=shape, background="dark")[:1]
    (path,) = save(made, tmp_path / "card.png", shape, browser)
    with Image.open(path) as picture:
        assert picture.size == size
        assert len(picture.convert("L").histogram()) == 256
        low, high = picture.convert("L").getextrema()
        assert high - low > 150


def test_a_transparent_png_is_open_around_its_plate(tmp_path):
    browser = browsers.find()
    assert browser
    made = draw(PROJECT, "memory.rate", {}, background="transparent")[:1]
    (path,) = save(made, tmp_path / "card.png", "wide", browser, transparent=True)
    with Image.open(path) as picture:
        assert picture.convert("RGBA").getpixel((5, 5))[3] == 0
        assert picture.convert("RGBA").getpixel((100, 60))[3] == 255


def test_the_code_is_square_and_has_its_three_finders():
    rows = qr(ADDRESS)
    assert {len(row) for row in rows} == {len(rows)}
    finder = [[True] * 7, [True, *[False] * 5, True]]
    for top, left in ((0, 0), (0, len(rows) - 7), (len(rows) - 7, 0)):
        assert rows[top][left : left + 7] == finder[0]
        assert rows[top + 1][left : left + 7] == finder[1]


def test_what_cannot_be_drawn_is_told_in_words(tmp_path):
    with pytest.raises(CannotDraw, match=r"no calculator memory.rat; did you mean memory.rate\?"):
        draw(PROJECT, "memory.rat", {})
    with pytest.raises(CannotDraw, match="rate: Rate must be a whole number"):
        draw(PROJECT, "memory.rate", {"rate": "x"})
    with pytest.raises(CannotDraw, match=r"written as .svg or .png, got 'card.gif'"):
        save([], tmp_path / "card.gif", "wide", None)
    with pytest.raises(CannotDraw, match="needs a Chromium"):
        save([], tmp_path / "card.png", "wide", None)
    with pytest.raises(CannotDraw, match="too long for a QR code"):
        qr("x" * 5000)


@pytest.mark.parametrize("shape", sorted(SHAPES))
def test_every_form_is_drawn_by_its_name(shape):
    made = draw(PROJECT, "memory.rate", {}, shape=shape)
    wide, high = SHAPES[shape].pixels
    assert all(f'width="{wide}" height="{high}"' in frame.svg for frame in made)


def test_a_step_s_motion_is_a_numbered_sequence_with_the_same_bytes_every_time(tmp_path):
    made = draw_motion(PROJECT, "memory.rate", {}, 2, 25)
    written = save(made, tmp_path / "step.svg", "wide", None, numbered=True)
    pictures = round(FADE_MS * 25 / 1000)
    assert [path.name for path in written] == [f"step-{i:04d}.svg" for i in range(1, pictures + 1)]
    assert [frame.svg for frame in draw_motion(PROJECT, "memory.rate", {}, 2, 25)] == [frame.svg for frame in made]
    assert written[-1].read_text("utf-8") == draw(PROJECT, "memory.rate", {})[1].svg


def test_pictures_of_a_motion_are_the_same_bytes_from_the_browser_too(tmp_path):
    browser = browsers.find()
    assert browser
    picture = draw_motion(PROJECT, "memory.rate", {}, 2, 25)[3:4]
    (one,) = save(picture, tmp_path / "one.png", "wide", browser)
    (other,) = save(picture, tmp_path / "other.png", "wide", browser)
    assert one.read_bytes() == other.read_bytes()


@pytest.mark.parametrize(
    ("step", "rate", "said"), [(9, 50, "steps 1 to 3, got 9"), (0, 50, "got 0"), (1, 500, "from 10 to 120, got 500")]
)
def test_a_motion_that_is_not_there_is_told(step, rate, said):
    with pytest.raises(CannotDraw, match=said):
        draw_motion(PROJECT, "memory.rate", {}, step, rate)


def test_the_contact_sheet_shows_every_form_and_finds_nothing_wrong(tmp_path):
    count = write(PROJECT, tmp_path / "cards.html", "memory.rate")
    text = (tmp_path / "cards.html").read_text("utf-8")
    assert count == len(find("memory.rate").presets) * len(SHAPES)
    assert text.count("<h2>") == len(find("memory.rate").presets)
    assert all(f"<p>{shape}, " in text for shape in SHAPES)
    assert 'class="wrong"' not in text
    with pytest.raises(CannotDraw, match="no calculator's name begins with 'nothing'"):
        write(PROJECT, tmp_path / "none.html", "nothing")
