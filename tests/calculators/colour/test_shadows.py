"""Shadows in HDR mode: by two curves that agree at both ends and part in the dark."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.colour.signals.transfer_functions import srgb_light

CURVE = tomllib.loads((Path(__file__).parents[2] / "check_values/wcag_relative_luminance.toml").read_text("utf-8"))


def run(**given: object):
    return find("colour.shadows").run(given).answer


def values(answer):
    return {f.key: f.value for f in answer.figures}


@pytest.mark.parametrize("code", range(0, 256, 5))
def test_the_published_curve(code):
    signal = code / 255
    if signal <= CURVE["threshold"]:
        light = signal / CURVE["slope"]
    else:
        light = ((signal + CURVE["offset"]) / CURVE["divisor"]) ** CURVE["exponent"]
    assert values(run(code=code, white=100))["hdr_cd_m2"] == pytest.approx(100 * light, rel=1e-11)


def test_both_curves_agree_at_black_and_at_white():
    assert "times" not in values(run(code=0))
    assert values(run(code=255))["times"] == pytest.approx(1)


@pytest.mark.parametrize("code", [2, 5, 10, 20, 40])
def test_dark_tones_are_lifted(code):
    answer = run(code=code)
    assert f"{values(answer)['times']:.3g}".rstrip("0").rstrip(".") in answer.headline
    assert values(answer)["hdr_cd_m2"] > 1.1 * values(answer)["plain_cd_m2"]


@pytest.mark.parametrize("code", [120, 180, 230])
def test_the_upper_half_is_hardly_touched(code):
    assert values(run(code=code))["times"] == pytest.approx(1, abs=0.03)


def test_the_two_pieces_of_srgb_meet():
    assert srgb_light(0.04045) == pytest.approx(srgb_light(0.0404500001), rel=1e-5)


@given(st.integers(0, 254), st.floats(10, 1000))
def test_property_brighter_codes_are_never_darker_and_white_scales(code, white):
    now, then = values(run(code=code, white=white)), values(run(code=code + 1, white=white))
    assert then["hdr_cd_m2"] > now["hdr_cd_m2"]
    assert then["hdr_cd_m2"] <= white * (1 + 1e-9)
