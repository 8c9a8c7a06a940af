"""The test pictures by two general-purpose libraries: Pillow reads the file, colour-science knows the luma."""

from __future__ import annotations

import io

import pytest

from calculators.colour.picture import calculator
from calculators.colour.test_pictures import patterns

numpy = pytest.importorskip("numpy")
images = pytest.importorskip("PIL.Image")


def opened(key: str, width: int = 640, height: int = 360):
    (file,) = calculator.run({"picture": key, "width": width, "height": height}).answer.files
    return images.open(io.BytesIO(file.data))


@pytest.mark.parametrize("key", patterns.PICTURES)
@pytest.mark.parametrize(("width", "height"), [(480, 270), (640, 360), (1920, 1080)])
def test_pillow_reads_the_very_codes_that_were_painted(key, width, height):
    image = opened(key, width, height)
    assert (image.format, image.mode, image.size) == ("PNG", "RGB", (width, height))
    painted = numpy.frombuffer(b"".join(patterns.paint(key, width, height).rows), numpy.uint8)
    assert numpy.array_equal(numpy.asarray(image), painted.reshape(height, width, 3))


@pytest.mark.parametrize("key", patterns.PICTURES)
def test_no_colour_space_is_named(key):
    assert not {"gamma", "icc_profile", "srgb", "chromaticity"} & set(opened(key).info)


def test_inks_and_papers_have_the_same_luma():
    colour = pytest.importorskip("colour")
    weights = colour.WEIGHTS_YCBCR["ITU-R BT.709"]
    pairs = [*patterns._INKS[:3], (patterns._RED, patterns._BLUE)]
    for pair in pairs:
        first, second = (
            colour.RGB_to_YCbCr(numpy.array(c) / 255, weights, out_int=False, out_legal=False)[0] * 255 for c in pair
        )
        assert abs(first - second) < 1  # less than one code apart: an eye that sees no colour sees nothing
