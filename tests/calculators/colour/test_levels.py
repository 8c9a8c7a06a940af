"""Output range: published codes, each pair of settings in numbers and words, and what must hold for any of them."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.colour.signals.quantisation_range import chroma_codes, codes, losses, luminance, sent, shown
from calculators.desk.errors import InputErrors

CODES = tomllib.loads((Path(__file__).parents[2] / "check_values/bt_2100_codes.toml").read_text("utf-8"))

RANGES = ("full", "limited")
DEPTHS = (8, 10, 12)
SETTLED = 1e-11  # figures keep 12 significant digits


def run(**given: object):
    return find("colour.levels").run(given).answer


def values(answer) -> dict[str, float | str]:
    return {f.key: f.value for f in answer.figures}


@pytest.mark.parametrize(("kind", "bits", "black", "white", "chroma_low", "chroma_high"), CODES["rows"])
def test_published_codes(kind, bits, black, white, chroma_low, chroma_high):
    assert codes(kind, bits) == (black, white)
    assert chroma_codes(kind, bits) == (chroma_low, chroma_high)
    found = values(run(source=kind, depth=bits))
    assert (found["black_code"], found["white_code"]) == (black, white)


@pytest.mark.parametrize(
    ("source", "display", "depth", "dark", "bright", "merged", "percent"),
    [
        ("full", "limited", 8, 16, 20, 0, 14.0625),
        ("limited", "full", 8, 0, 0, 36, 14.0625),
        ("limited", "limited", 8, 0, 0, 36, 14.0625),
        ("full", "full", 8, 0, 0, 0, 0),
        ("full", "limited", 10, 64, 83, 0, 100 * 147 / 1024),
        ("limited", "full", 10, 0, 0, 147, 100 * 147 / 1024),
        ("full", "limited", 12, 256, 335, 0, 100 * 591 / 4096),
    ],
)
def test_levels_lost(source, display, depth, dark, bright, merged, percent):
    found = values(run(source=source, display=display, depth=depth))
    assert (found["levels_lost_dark"], found["levels_lost_bright"], found["levels_merged"]) == (dark, bright, merged)
    assert found["levels_lost_percent"] == pytest.approx(percent)


@pytest.mark.parametrize("depth", DEPTHS)
@pytest.mark.parametrize("display", RANGES)
@pytest.mark.parametrize("source", RANGES)
def test_the_losses_are_those_of_the_whole_ramp_counted_one_by_one(source, display, depth):
    ramp = [sent(level, source, depth) for level in range(1 << depth)]
    low, high = codes(display, depth)
    counted = losses(source, display, depth)
    assert sum(code < low for code in ramp) == counted.dark
    assert sum(code > high for code in ramp) == counted.bright
    assert len(ramp) - len(set(ramp)) == counted.merged
    seen = [shown(code, display, depth) for code in ramp]
    assert seen == sorted(seen)
    if source == display:
        assert (seen[0], seen[-1]) == (0.0, 1.0)


def test_limited_into_full_lifts_black_to_code_16_and_lowers_white_to_235():
    found = values(run(source="limited", display="full", gamma=2.2, peak=250, black=0.25))
    assert found["black_luminance"] == pytest.approx(0.25 + 249.75 * (16 / 255) ** 2.2)
    assert found["white_luminance"] == pytest.approx(0.25 + 249.75 * (235 / 255) ** 2.2)
    assert found["contrast"] == pytest.approx(found["white_luminance"] / found["black_luminance"])


@pytest.mark.parametrize("kind", RANGES)
def test_a_matched_pair_shows_black_and_peak_themselves(kind):
    found = values(run(source=kind, display=kind, peak=400, black=0.1))
    assert (found["black_luminance"], found["white_luminance"], found["contrast"]) == (0.1, 400, 4000)


@pytest.mark.parametrize(
    ("source", "display", "word", "seen", "first"),
    [
        ("full", "limited", "no", "Clipped.", "First the display"),
        ("limited", "full", "no", "Grey and flat.", "First the computer"),
        ("full", "full", "yes", "no level is lost", "Look at the steps"),
        ("limited", "limited", "yes", "agree", "Look at the steps"),
    ],
)
def test_the_words_and_what_to_change_first(source, display, word, seen, first):
    answer = run(source=source, display=display)
    assert answer.verdict.word == word
    assert seen in f"{answer.verdict.said()} {answer.verdict.reason}"
    assert answer.steps[0].title.startswith(first)
    if source != display:
        assert answer.steps[0].why


def test_a_black_without_light_has_no_contrast_and_says_so():
    answer = run(source="full", display="full", black=0)
    assert "contrast" not in values(answer)
    assert any("endless" in note.text for note in answer.notes)


def test_black_must_be_darker_than_white():
    with pytest.raises(InputErrors, match=r"Black must be darker than white: below 250 cd/m², such as 0\.25\."):
        run(black=300)


def test_the_drawing_marks_the_clipped_ends_and_says_what_is_shown():
    ramp, transfer = run(source="full", display="limited").drawings
    assert "16 all black" in ramp.svg()
    assert "20 all white" in ramp.svg()
    assert "this pair" in transfer.svg()


@given(
    st.sampled_from(RANGES), st.sampled_from(RANGES), st.sampled_from(DEPTHS),
    st.floats(1, 3), st.floats(2, 10000), st.just(0.0) | st.floats(1e-99, 1),  # less counts as nothing
)  # fmt: skip
def test_property_no_setting_shows_more_than_the_display_has(source, display, depth, gamma, peak, black):
    found = values(run(source=source, display=display, depth=depth, gamma=gamma, peak=peak, black=black))
    assert found["black_luminance"] >= black * (1 - SETTLED)
    assert found["black_luminance"] <= found["white_luminance"] <= peak * (1 + SETTLED)
    assert luminance(0.0, gamma, peak, black) == black
