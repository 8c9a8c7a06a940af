"""
Whether words survive a phone held upright and a low bit rate, measured in the picture itself.

A card is drawn 1920 wide, made 390 wide, and written as JPEG with quality 30 and colour at half the resolution both
ways (4:2:0): coarser than what a video site sends. Then each text's box is read: the lightest and the darkest
twentieth of its pixels must still stand apart by the contrast that WCAG 2.2 asks of text (4.5:1, criterion 1.4.3).
"""

import io
from pathlib import Path

import pytest
from PIL import Image

from build_tools.cards.command import draw, save
from build_tools.environment import browsers
from calculators.desk.svg import Box

PROJECT = Path(__file__).parents[3]
PHONE = 390
QUALITY = 30
LEAST = 4.5
SHADE = 0.05  # of the pixels: the letters' cores and the clean ground, without the blurred edges


def seen(picture: Image.Image) -> Image.Image:
    small = picture.convert("RGB").resize((PHONE, round(picture.height * PHONE / picture.width)), Image.Resampling.BOX)
    written = io.BytesIO()
    small.save(written, "JPEG", quality=QUALITY, subsampling=2)
    return Image.open(io.BytesIO(written.getvalue())).convert("RGB")


def luminance(pixel: tuple[int, int, int]) -> float:
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in (c / 255 for c in pixel)]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def apart(picture: Image.Image, box: Box) -> float:
    scale = PHONE / 1920
    edges = (int(box.left * scale), int(box.top * scale), int(box.right * scale) + 1, int(box.bottom * scale) + 1)
    shades = sorted(luminance(pixel) for pixel in picture.crop(edges).get_flattened_data())
    at = int(len(shades) * SHADE)
    return (shades[-1 - at] + 0.05) / (shades[at] + 0.05)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("cards")


@pytest.mark.parametrize(
    ("name", "background"), [("audio.level", "light"), ("display.link", "dark"), ("drivers.reset", "light")]
)
def test_every_word_of_a_card_is_legible_on_a_phone(folder, name, background):
    browser = browsers.find()
    assert browser, "the test command provides a browser"
    last = draw(PROJECT, name, {}, background=background, address="https://answers.example/go/kit")[-1]
    (path,) = save([last], folder / f"{name}.png", "wide", browser)
    with Image.open(path) as picture:
        small = seen(picture)
    faint = {box.what: round(apart(small, box), 1) for box in last.boxes if box.size and apart(small, box) < LEAST}
    assert faint == {}
