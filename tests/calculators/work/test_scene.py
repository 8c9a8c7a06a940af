"""work.scene: the contract's figures, verdicts at their edges, refusals, and sizes that scale exactly."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors
from calculators.work.screen_cards import scene as scene_card

SCENE = find("work.scene")
GIB = 1.073741824
PLAIN = {
    "textures": 60, "texture_px": 4096, "texture_bytes": 4, "mipmaps": "yes", "packing": 1, "triangles_m": 20,
    "triangle_bytes_low": 50, "triangle_bytes_high": 200, "frame_width": 3840, "frame_height": 2160, "passes": 8,
    "pass_bytes": 16, "card_gb": 12, "taken_gb": 1,
}  # fmt: skip
TRIANGLES_ALONE = {"textures": 0, "triangles_m": 1000, "frame_width": 16, "frame_height": 16, "passes": 1}


def run(**inputs):
    answer = SCENE.run({**PLAIN, **inputs}).answer
    return answer, {f.key: f.value for f in answer.figures}


def refused(**inputs):
    with pytest.raises(InputErrors) as caught:
        SCENE.run({**PLAIN, **inputs})
    return {problem.input: problem.message for problem in caught.value.problems}


def test_the_figures_of_the_contract():
    _, figures = run()
    textures, frame, room = 60 * 4096**2 * 4 * 4 / 3 / 1e9, 3840 * 2160 * 8 * 16 / 1e9, 11 * GIB
    low, high = textures + 1 + frame, textures + 4 + frame  # arithmetic of our own
    assert figures == pytest.approx({
        "textures_gb": textures, "geometry_low_gb": 1, "geometry_high_gb": 4, "frame_gb": frame, "low_gb": low,
        "high_gb": high, "room_gb": room, "share_low_percent": 100 * low / room,
        "share_high_percent": 100 * high / room, "over_gb": high - 0.85 * room,
    })  # fmt: skip


def test_without_a_card_there_is_no_verdict_and_no_share():
    answer = SCENE.run({}).answer
    assert {f.key for f in answer.figures} == {
        "textures_gb", "geometry_low_gb", "geometry_high_gb", "frame_gb", "low_gb", "high_gb",
    }  # fmt: skip
    assert answer.verdict is None


@pytest.mark.parametrize(
    ("low", "high", "word"),
    [(5, 8.49, "yes"), (5, 8.6, "depends"), (5, 10.1, "depends"), (9.99, 12, "depends"), (10.01, 12, "no")],
)
def test_verdicts_in_shares_of_ten(low, high, word):
    # A room of 10 GB, filled by a thousand million triangles of so many bytes.
    inputs = {**TRIANGLES_ALONE, "triangle_bytes_low": low, "triangle_bytes_high": high}
    assert run(**inputs, card_gb=10 / GIB + 1)[0].verdict.word == word


def test_a_scene_that_is_too_large_is_not_said_to_be_of_what_is_left():
    assert run(card_gb=8)[0].headline.endswith("; the card has 7.52 GB left.")
    assert run()[0].headline.endswith(" of the 11.8 GB that the card has left.")
    assert run(half_peak_gb=9, quarter_peak_gb=6)[0].headline.endswith("; the card has 11 GB left, as programs count.")


def test_what_is_taken_must_leave_something():
    for taken in (12, 13):
        assert "leaves nothing" in refused(taken_gb=taken)["taken_gb"]


def test_the_most_is_not_below_the_least():
    assert set(refused(triangle_bytes_low=300)) == {"triangle_bytes_low"}


def test_two_faults_are_told_at_once():
    assert set(refused(triangle_bytes_low=300, taken_gb=12)) == {"triangle_bytes_low", "taken_gb"}
    assert set(refused(textures=-1, packing=0.5, passes=0, mipmaps="perhaps")) == {
        "textures", "packing", "passes", "mipmaps",
    }  # fmt: skip


def test_two_small_renders_tell_the_full_one():
    assert run(half_peak_gb=5, quarter_peak_gb=4.25)[1]["peak_full_gb"] == 8
    assert "Both peaks are needed" in refused(half_peak_gb=5)["quarter_peak_gb"]
    assert "Both peaks are needed" in refused(quarter_peak_gb=5)["half_peak_gb"]
    assert "must not be above" in refused(half_peak_gb=4, quarter_peak_gb=5)["quarter_peak_gb"]


@pytest.mark.parametrize(
    ("half", "quarter", "word"),
    [(5, 4.25, "yes"), (6, 5.18, "yes"), (6, 5.15, "depends"), (6, 4.75, "depends"), (6, 4.7, "no"), (9, 6, "no")],
)
def test_what_was_measured_decides(half, quarter, word):
    answer, figures = run(half_peak_gb=half, quarter_peak_gb=quarter, textures=0, triangles_m=0)
    assert answer.verdict.word == word
    assert figures["peak_percent"] == pytest.approx(100 * (half + 4 * (half - quarter)) / 11)
    assert answer.headline.startswith("Your two renders foretell a peak of about ")
    assert "over_gb" not in figures
    assert len(answer.tables[0].columns) == 3
    assert ("If it does not fit" in [n.title for n in answer.notes]) == (word != "yes")
    assert scene_card(SCENE.run({**PLAIN, "half_peak_gb": half, "quarter_peak_gb": quarter}).values, answer).hero


def test_two_renders_without_a_card_have_no_verdict():
    answer = SCENE.run({"half_peak_gb": 5, "quarter_peak_gb": 4.25}).answer
    assert answer.verdict is None
    assert (
        answer.headline
        == "Your two renders foretell a peak of about 8 GB; by the counts the scene takes 7.43 to 10.4 GB."
    )


@given(st.floats(0.1, 100), st.floats(0, 100))
def test_the_two_renders_add_up(rest, textures):
    half, quarter = rest + textures / 4, rest + textures / 16
    found = SCENE.run({"half_peak_gb": half, "quarter_peak_gb": quarter}).answer.figures
    assert next(f.value for f in found if f.key == "peak_full_gb") == pytest.approx(rest + textures)


def test_what_to_make_smaller_first_and_by_how_much():
    answer, figures = run()
    table = answer.tables[0]
    assert table.rows[0][0] == "Textures of half the edge"
    assert "must go" in table.note
    assert run(card_gb=100)[0].tables[0].note == "Nothing must go."
    assert figures["over_gb"] > 0


def test_what_is_not_counted_is_said():
    text = as_text(SCENE.run(PLAIN))
    for said in ("Ray structures", "subdivision", "volumes", "denoiser", "Two cards rarely add", "file's size"):
        assert said in text


@given(st.integers(0, 5000), st.integers(16, 8192), st.floats(0, 5000), st.integers(2, 4))
def test_sizes_scale_exactly(textures, edge, triangles, by):
    one = run(textures=textures, texture_px=edge, triangles_m=triangles)[1]
    more = run(textures=textures * by, texture_px=edge, triangles_m=triangles * by)[1]
    larger = run(textures=textures, texture_px=edge * by, triangles_m=triangles)[1]
    assert more["textures_gb"] == pytest.approx(one["textures_gb"] * by, rel=1e-11)
    assert more["geometry_high_gb"] == pytest.approx(one["geometry_high_gb"] * by, rel=1e-11)
    assert larger["textures_gb"] == pytest.approx(one["textures_gb"] * by * by, rel=1e-11)


@given(st.floats(2, 100), st.floats(1, 4), st.floats(1, 500))
def test_a_larger_card_never_worsens_the_verdict(card, factor, triangles):
    worth = {"no": 0, "depends": 1, "yes": 2}
    small, large = (run(card_gb=c, triangles_m=triangles)[0].verdict.word for c in (card, card * factor))
    assert worth[large] >= worth[small]


# A hundred textures, 100 × 4096² × 4 × 4/3 bytes, are 8.948 GB; 50 million triangles of 100 to 250 bytes are 5 to
# 12.5 GB; 3840 × 2160 × 10 × 16 bytes 1.327 GB.
BY_HAND = {
    "textures": 100, "triangles_m": 50, "triangle_bytes_low": 100, "triangle_bytes_high": 250, "passes": 10,
    "card_gb": 24, "taken_gb": 2,
}  # fmt: skip


def test_a_scene_by_hand():
    answer = run(**BY_HAND)[0]
    assert answer.headline == "The scene takes about 15.3 to 22.8 GB of the 23.6 GB that the card has left."
    assert [(line.what, line.numbers, line.result) for line in answer.working] == [
        ("Textures", "100 × 4096² × 4 × 4/3 ÷ 1 ÷ 10⁹", "8.948 GB"),
        ("Triangles", "50 × (100 to 250) ÷ 1000", "5 to 12.5 GB"),
        ("The picture", "3840 × 2160 × 10 × 16 ÷ 10⁹", "1.327 GB"),
        ("The scene", "8.948 + (5 to 12.5) + 1.327", "15.275 to 22.775 GB"),
        ("Left on the card", "(24 − 2) × 1.073741824", "23.622 GB"),
        ("Share", "100 × (15.275 to 22.775) ÷ 23.622", "64.7 to 96.4 %"),
    ]
    assert answer.tables[0].rows == (
        ("Textures of half the edge", "6.71", "16.1", "yes"),
        ("Textures packed 4 times smaller", "6.71", "16.1", "yes"),
        ("Half the triangles", "6.25", "16.5", "yes"), ("Half the layers", "0.664", "22.1", "no"),
    )  # fmt: skip
    assert answer.tables[0].note == "To come down to a calm 85 %, 2.7 GB must go."
    assert answer.drawings[0].description == (
        "Bars: Textures 8.95 GB; Triangles 5 to 12.5 GB; Picture and layers 1.33 GB; The scene 15.3 to 22.8 GB; "
        "A calm 85 % of what is left 20.1 GB; Left on the card 23.6 GB."
    )
    without = {line.what: line for line in run(mipmaps="no", triangles_m=12.3456, packing=4)[0].working}
    assert without["Textures"].numbers == "60 × 4096² × 4 ÷ 4 ÷ 10⁹"
    assert without["Triangles"].numbers.startswith("12.346 × ")
    packed = [row[0] for row in run(**BY_HAND, packing=4)[0].tables[0].rows]
    assert "Textures packed 4 times smaller" not in packed


def test_a_scene_from_two_renders_by_hand():
    """8 + 4 × (8 − 5) are 20 of the 22 that the card has left, as programs count: 90.9 %."""
    answer = run(**BY_HAND, half_peak_gb=8, quarter_peak_gb=5)[0]
    assert answer.headline == (
        "Your two renders foretell a peak of about 20 GB of the 22 GB that the card has left, as programs count."
    )
    assert answer.verdict.reason == "By your two renders it takes above 85 % of what is left."
    last = answer.working[-1]
    assert (last.numbers, last.result) == ("8 + 4 × (8 − 5)", "20 GB")
    assert answer.drawings[0].description == (
        "Bars: The scene, from your two renders 20 GB; A calm 85 % of what is left 18.7 GB; Left on the card 22 GB."
    )
    assert {f.key: f.text for f in answer.figures}["peak_percent"] == "90.9 %"
    assert len(answer.tables[0].columns) == 3
    assert all(len(row) == 3 for row in answer.tables[0].rows)
    alone = SCENE.run({key: value for key, value in PLAIN.items() if not key.endswith("_gb")}).answer
    assert alone.tables[0].note == "Give the card's memory, and this says what is enough."
    assert run(textures=1, triangles_m=1)[0].tables[0].note == "Nothing must go."


@pytest.mark.parametrize(
    ("half", "word"),
    [(17 / 2, "yes"), (18.7 / 2, "yes"), (18.8 / 2, "depends"), (22 / 2, "depends"), (22.1 / 2, "no")],
)
def test_two_renders_at_the_edges(half, word):
    """Twice the first peak where the second is three quarters of it: half + 4 × (half − 3/4 half)."""
    assert run(**BY_HAND, half_peak_gb=half, quarter_peak_gb=half * 3 / 4)[0].verdict.word == word


def test_for_what_a_scene_was_worked_out():
    counted = "60 textures of 4096 px, 20 million triangles"
    alone = {key: value for key, value in PLAIN.items() if key not in ("card_gb", "taken_gb")}
    assert SCENE.run(alone).worked_for() == counted
    assert SCENE.run(PLAIN).worked_for() == f"{counted}, a card of 12 GB"
    measured = SCENE.run({**PLAIN, "half_peak_gb": 8.126, "quarter_peak_gb": 5}).worked_for()
    assert measured == "two renders that peak at 8.13 and 5 GB, a card of 12 GB"


def test_which_figures_are_the_main_ones_by_what_was_measured():
    """Two renders with a card decide; without a card they only stand beside what is counted."""
    counted = {"low_gb", "high_gb", "room_gb", "share_high_percent"}
    main = {figure.key for figure in run()[0].figures if figure.main}
    assert main == counted
    main = {figure.key for figure in run(half_peak_gb=8, quarter_peak_gb=5)[0].figures if figure.main}
    assert main == {"peak_full_gb", "peak_percent"}
    alone = {key: value for key, value in PLAIN.items() if key not in ("card_gb", "taken_gb")}
    told = SCENE.run({**alone, "half_peak_gb": 8, "quarter_peak_gb": 5}).answer.figures
    assert {figure.key for figure in told if figure.main} == {"low_gb", "high_gb"}
    assert {"peak_percent", "room_gb"}.isdisjoint(figure.key for figure in told)
