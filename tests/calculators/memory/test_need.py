"""memory.need: sums, sizes, frames reckoned a second way, verdicts."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.memory.amounts.work_amounts import SIZES, next_size
from calculators.memory.kits.sizes_made import sizes_made

NEED = find("memory.need")
TWELVE_DIGITS = 1e-11  # a figure leaves the calculator with twelve significant digits


def run(**inputs):
    answer = NEED.run(inputs).answer
    return answer, {f.key: f.value for f in answer.figures}


def test_the_sum_of_the_parts_is_the_range():
    answer, figures = run(system="usual", browser_tabs=20)
    assert (figures["low_gb"], figures["high_gb"], figures["suggested_gb"]) == (4.4, 11, 16)
    assert answer.tables[0].rows[-1] == ("All at once", "4.4", "11", "sum")


def test_every_part_tells_its_standing():
    answer, _ = run(game="large", editing="video", frame_seconds=5, virtual_machines_gb=8)
    standings = {row[0]: row[3] for row in answer.tables[0].rows}
    assert standings["Game"] == standings["Editing program"] == "common practice"
    assert standings["Frames held"] == "worked out"
    assert standings["Virtual machines"] == "as you gave it"


def test_frames_are_width_times_height_times_bytes_times_frames():
    quiet = {"system": "lean", "browser_tabs": 0}
    _, none = run(**quiet)
    _, some = run(**quiet, frame_width=1024, frame_height=1024, frame_seconds=16, frame_rate=64)
    # 2^20 pixels × 2^10 frames × 4 and 8 bytes = 4 and 8 GB of 2^30 bytes
    assert some["low_gb"] - none["low_gb"] == pytest.approx(4, rel=TWELVE_DIGITS)
    assert some["high_gb"] - none["high_gb"] == pytest.approx(8, rel=TWELVE_DIGITS)


def test_effects_hold_frames_in_floating_point():
    inputs = {"frame_width": 1024, "frame_height": 1024, "frame_seconds": 16, "frame_rate": 64}
    difference = run(editing="effects", **inputs)[1]["high_gb"] - run(editing="effects")[1]["high_gb"]
    assert difference == pytest.approx(16, rel=TWELVE_DIGITS)


@pytest.mark.parametrize(("have", "word"), [(16, "yes"), (11, "yes"), (8, "depends"), (4.4, "depends"), (4, "no")])
def test_is_what_one_has_enough(have, word):
    assert run(have_gb=have)[0].verdict.word == word


def test_without_what_one_has_there_is_no_verdict():
    assert run()[0].verdict is None


def test_more_than_a_desktop_holds_leaves_the_size_out_and_says_so():
    answer, figures = run(virtual_machines_gb=1000)
    assert "suggested_gb" not in figures
    assert answer.headline.endswith("more than desktop boards commonly hold.")


@given(st.floats(0, 400))
def test_the_next_size_holds_the_need_and_no_smaller_one_does(need):
    size = next_size(need)
    if size is None:
        assert need > SIZES[-1]
    else:
        assert size >= need
        assert all(smaller < need for smaller in SIZES if smaller < size)


def test_a_second_stick_doubles_what_flows():
    _, figures = run()
    assert (figures["one_stick_gb_s"], figures["two_sticks_gb_s"]) == (25.6, 51.2)


def test_a_range_in_words_is_rounded_outwards_and_just_enough_names_the_next_size():
    answer = NEED.run({"browser_tabs": 10, "game": "large", "have_gb": 16}).answer
    assert {f.key: f.value for f in answer.figures}["high_gb"] == 22.5
    assert "to 23 GB, so 24 GB is just enough and 32 GB leaves room" in answer.headline
    assert answer.verdict.said() == "Tight."


LARGE_GAME = {"browser_tabs": 10, "game": "large"}


@pytest.mark.parametrize(
    ("generation", "suggested"), [("ddr3", 32), ("ddr4", 32), ("ddr5", 24), ("unsure", 24), ("not sure", 24)]
)
def test_only_capacities_that_the_generation_has_are_suggested(generation, suggested):
    answer, figures = run(**LARGE_GAME, generation=generation)
    assert figures["suggested_gb"] == suggested
    assert str(suggested) in answer.headline


@pytest.mark.parametrize("generation", ["ddr3", "ddr4", "ddr5", "unsure"])
@pytest.mark.parametrize("machines", [0, 8, 20, 40, 80, 100])
def test_only_kits_that_the_generation_has_are_offered(generation, machines):
    answer, figures = run(generation=generation, virtual_machines_gb=machines)
    kits = [row for table in answer.tables[1:] for row in table.rows]
    assert bool(kits) == ("suggested_gb" in figures)
    for sticks, such_as, _, _ in kits:
        count, size = (int(part.removesuffix(" GB")) for part in sticks.split(" × "))
        assert size in sizes_made(such_as[:4].lower())
        assert count * size == figures["suggested_gb"]


def test_who_does_not_know_the_generation_is_told_that_24_is_of_ddr5_only():
    titles = [n.title for n in run(**LARGE_GAME)[0].notes]
    assert "24 GB is made of DDR5 sticks only" in titles
    assert not any("only" in n.title for n in run(**LARGE_GAME, generation="ddr5")[0].notes)


def test_what_a_generation_cannot_hold_is_said_of_it():
    answer, figures = run(virtual_machines_gb=100, generation="ddr3")
    assert "suggested_gb" not in figures
    assert answer.headline.endswith("more than desktop boards with DDR3 commonly hold.")


@pytest.mark.parametrize("typed", ["29.97", "29,97 fps", "29.97p", 29.97])
def test_a_slowed_frame_rate_is_exact_and_said(typed):
    frames = {"frame_width": 1024, "frame_height": 1024, "frame_seconds": 1001}
    answer, figures = run(**frames, frame_rate=typed)
    # 2^20 pixels × 30 000 frames × 4 bytes, in GB of 2^30 bytes
    assert figures["frames_low_gb"] == pytest.approx(30_000 * 4 / 2**10, rel=TWELVE_DIGITS)
    assert "29.97 means exactly 30 × 1000/1001" in {n.title: n.text for n in answer.notes}["Exact rates"]
    assert "Exact rates" not in {n.title for n in run(frame_rate=typed)[0].notes}  # no frames are held


def test_every_size_that_ddr4_does_not_have_is_told_where_the_generation_is_not():
    """'32 GB is just enough and 48 GB leaves room': 48 GB is no kit of DDR4."""
    given = {"game": "large", "browser_tabs": 40}
    answer = NEED.run(given).answer
    assert "48 GB" in answer.headline
    told = {n.title: n.text for n in answer.notes}["48 GB is made of DDR5 sticks only"]
    assert "the size for you is 64 GB" in told
    assert not any("DDR5 sticks only" in n.title for n in NEED.run({**given, "generation": "ddr4"}).answer.notes)
