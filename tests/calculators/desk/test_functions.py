"""desk/functions.py against identities, and the rounding by which all platforms give the same digits."""

import math

import pytest

from calculators.desk.functions import cosine, cube_root, exponential, log10, power, sine

PLATFORM_BITS = 1e-12  # relative; the functions are settled to 13 significant digits


@pytest.mark.parametrize("exponent", range(-12, 13))
def test_log10_of_powers_of_ten(exponent):
    assert log10(float(f"1e{exponent}")) == pytest.approx(exponent, abs=1e-12)


@pytest.mark.parametrize(("base", "exponent"), [(2, 10), (10, -3), (0.25, 0.5), (1.5, 2.2), (7, 0)])
def test_power_agrees_with_the_library(base, exponent):
    assert power(base, exponent) == pytest.approx(base**exponent, rel=PLATFORM_BITS)


def test_power_at_its_edges():
    assert power(0, 0) == 1
    assert power(0, 2.2) == 0
    with pytest.raises(ValueError, match="negative power"):
        power(0, -1)
    with pytest.raises(ValueError, match="0 or more, got -1"):
        power(-1, 0.5)


@pytest.mark.parametrize("value", [-27, -1, 0, 1, 8, 1000, 0.001])
def test_cube_root_cubed_is_the_number(value):
    assert cube_root(value) ** 3 == pytest.approx(value, rel=1e-11)


def test_sine_and_cosine_on_the_circle():
    for i in range(48):
        angle = i * math.pi / 24
        assert sine(angle) ** 2 + cosine(angle) ** 2 == pytest.approx(1, abs=1e-12)
    assert sine(math.pi) == 0
    assert str(cosine(math.pi / 2)) == "0.0"


def test_exponential_undoes_the_logarithm():
    assert exponential(math.log(5)) == pytest.approx(5, rel=PLATFORM_BITS)
