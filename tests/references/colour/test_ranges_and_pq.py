"""Range conversion, HDR's curve and the eye's threshold held against colour-science, over whole ramps."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from calculators.colour.signals.chroma_subsampling import to_ycc
from calculators.colour.signals.quantisation_range import codes, sent, shown
from calculators.colour.signals.transfer_functions import (
    pq_luminance,
    pq_signal,
    sensitivity,
    srgb_light,
    threshold_percent,
)

colour: Any = None


@pytest.fixture(scope="module", autouse=True)
def colour_science():
    """Brings the library for these tests alone: each process that collects them would take seconds to load it."""
    global colour
    with pytest.MonkeyPatch.context() as patch:  # it warns about libraries for plotting that are not installed
        patch.setenv("COLOUR_SCIENCE__FILTER_USAGE_WARNINGS", "True")
        colour = pytest.importorskip("colour")


THIRTEEN_DIGITS = 2e-9  # our powers are rounded to 13 digits, and PQ raises one of them to the power 1/0.159
FLAT_TOP = 1e-4  # the highest point of a flat curve: our search and this one come near it in different ways


@pytest.mark.parametrize("depth", [8, 10, 12])
def test_every_limited_code_of_the_ramp(depth):
    levels = np.arange(1 << depth)
    theirs = colour.models.full_to_legal(levels / levels[-1], bit_depth=depth, out_int=True)
    ours = np.array([sent(int(level), "limited", depth) for level in levels])
    exact = levels / levels[-1] * (codes("limited", depth)[1] - codes("limited", depth)[0])
    halves = np.abs(exact - np.floor(exact) - 0.5) < 1e-9  # a half may go either way
    assert np.array_equal(ours[~halves], np.asarray(theirs)[~halves])
    assert not halves.any() or np.max(np.abs(ours - theirs)) <= 1


@pytest.mark.parametrize("depth", [8, 10, 12])
def test_every_limited_code_read_back(depth):
    ramp = np.arange(1 << depth)
    theirs = np.clip(colour.models.legal_to_full(ramp, bit_depth=depth, in_int=True, out_int=False), 0, 1)
    ours = np.array([shown(int(code), "limited", depth) for code in ramp])
    assert ours == pytest.approx(theirs, abs=1e-12)


@pytest.mark.parametrize("depth", [8, 10, 12])
def test_every_pq_code(depth):
    ramp = np.arange(1 << depth) / ((1 << depth) - 1)
    theirs = colour.models.eotf_ST2084(ramp)
    assert np.array([pq_luminance(float(v)) for v in ramp]) == pytest.approx(theirs, rel=THIRTEEN_DIGITS, abs=1e-12)


def test_every_srgb_code():
    ramp = np.arange(256) / 255
    theirs = colour.models.eotf_sRGB(ramp)
    assert np.array([srgb_light(float(v)) for v in ramp]) == pytest.approx(theirs, rel=THIRTEEN_DIGITS, abs=1e-15)


def test_pq_signals_of_luminances():
    luminances = np.logspace(-4, 4, 400)
    theirs = colour.models.eotf_inverse_ST2084(luminances)
    assert np.array([pq_signal(float(v)) for v in luminances]) == pytest.approx(theirs, rel=THIRTEEN_DIGITS)


def test_luma_and_colour_differences():
    rng = np.random.default_rng(7)
    for rgb in rng.integers(0, 256, (200, 3)):
        theirs = colour.RGB_to_YCbCr(rgb / 255, K=colour.WEIGHTS_YCBCR["ITU-R BT.709"], in_legal=False, out_legal=False)
        assert np.array(to_ycc(tuple(int(v) for v in rgb))) / 255 == pytest.approx(theirs, abs=1e-12)


# The constants of Barten's model, by the names that the library gives them.
CONDITIONS = {"k": 3.0, "T": 0.1, "X_max": 12, "N_max": 15, "n": 0.03, "p": 1.2274e6, "phi_0": 3e-8, "u_0": 7}


def barten(cycles, luminance: float):
    pupil = colour.contrast.pupil_diameter_Barten1999(luminance, 60)
    return colour.contrast.contrast_sensitivity_function_Barten1999(
        u=cycles,
        sigma=colour.contrast.sigma_Barten1999(0.5 / 60, 0.08 / 60, pupil),
        E=colour.contrast.retinal_illuminance_Barten1999(luminance, pupil, True),
        X_0=60,
        **CONDITIONS,
    )


@pytest.mark.parametrize("luminance", [0.001, 0.01, 0.1, 1, 10, 100, 1000, 10000])
def test_the_eye_after_barten(luminance):
    for cycles in (0.5, 1, 2, 4, 8, 16):
        assert sensitivity(cycles, luminance) == pytest.approx(float(barten(cycles, luminance)), rel=THIRTEEN_DIGITS)
    best = np.max(barten(np.logspace(-1, 1.4, 4000), luminance))
    assert threshold_percent(luminance) == pytest.approx(100 * 2 / best / 1.27, rel=FLAT_TOP)
