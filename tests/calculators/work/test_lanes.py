"""work.lanes: the contract's figures, verdicts, what is said of practice, and that more lanes never carry less."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors

LANES = find("work.lanes")
WORTH = {"no": 0, "depends": 1, "yes": 2}
COUNTS = (1, 2, 4, 8, 12, 16)


def run(**inputs):
    answer = LANES.run(inputs).answer
    return answer, {f.key: f.value for f in answer.figures}


def refused(**inputs):
    with pytest.raises(InputErrors) as caught:
        LANES.run(inputs)
    return {problem.input: problem.message for problem in caught.value.problems}


@pytest.mark.parametrize(
    ("generation", "gt_s", "share"),
    [(1, 2.5, 0.8), (2, 5, 0.8), (3, 8, 128 / 130), (4, 16, 128 / 130), (5, 32, 128 / 130), (6, 64, 242 / 256),
     (7, 128, 242 / 256)],
)  # fmt: skip
def test_the_figures_of_the_contract(generation, gt_s, share):
    _, figures = run(generation=generation, lanes=8, gigabytes=12)
    lane = gt_s * share / 8  # arithmetic of our own
    assert figures["gt_s"] == gt_s
    assert figures["lane_gb_s"] == pytest.approx(lane)
    assert figures["link_gb_s"] == pytest.approx(8 * lane)
    assert figures["seconds"] == pytest.approx(12 / (8 * lane))


def test_an_empty_request_is_answered():
    assert {"gt_s", "lane_gb_s", "link_gb_s", "seconds"} <= set(run()[1])


@pytest.mark.parametrize(
    ("inputs", "word"),
    [
        ({"generation": 4, "lanes": 8}, "yes"),
        ({"generation": 3, "lanes": 8}, "yes"),
        ({"generation": 3, "lanes": 4}, "depends"),
        ({"generation": 3, "lanes": 1}, "no"),
        ({"generation": 4, "lanes": 16, "overflows": "yes"}, "no"),
        ({"generation": 4, "lanes": 16, "overflows": "unsure"}, "depends"),
        ({"generation": 4, "lanes": 16, "slot": "chipset"}, "depends"),
        ({"generation": 4, "lanes": 16, "slot": "unsure"}, "depends"),
        ({"generation": 4, "lanes": 4, "device": "disk"}, "depends"),
        ({"generation": 4, "lanes": 4, "device": "disk", "needs_gb_s": 7}, "yes"),
        ({"generation": 4, "lanes": 4, "device": "disk", "needs_gb_s": 7.5}, "no"),
        ({"generation": 3, "lanes": 4, "device": "disk", "needs_gb_s": 7}, "no"),
        ({"generation": 3, "lanes": 8, "needs_gb_s": 6.2}, "depends"),
        ({"generation": 1, "lanes": 8}, "depends"),
        ({"generation": 1, "lanes": 16}, "depends"),
        ({"generation": 1, "lanes": 16, "needs_gb_s": 1}, "yes"),
        ({"generation": 1, "lanes": 4, "device": "disk", "needs_gb_s": 7}, "no"),
        ({"generation": 4, "lanes": 16, "overflows": "yes", "needs_gb_s": 1}, "no"),
    ],
)
def test_verdicts(inputs, word):
    assert run(**inputs)[0].verdict.word == word


def test_what_practice_says_is_said():
    card, disk = (as_text(LANES.run({"device": one, "slot": "chipset"})) for one in ("card", "disk"))
    assert "75 to 85 %" in card
    assert "94 %" in disk
    for said in ("share that", "memory overflows", "shows generation 1", "wired for four", "take lanes from a slot"):
        assert said in card
    assert "128/130" in as_text(LANES.run({"generation": 6}))


def test_a_link_at_rest_is_told_before_anything_is_advised():
    verdict = run(generation=1, lanes=8)[0].verdict
    assert verdict.reason == "At rest every link shows generation 1: read it again under load."


@pytest.mark.parametrize(
    ("inputs", "said"),
    [
        ({"generation": 4, "lanes": 8, "gigabytes": 1}, "1 GB in 0.0635 s"),
        ({"generation": 4, "lanes": 8, "gigabytes": 0.001}, "0.001 GB in 0.0000635 s"),
        ({"generation": 3, "lanes": 1, "gigabytes": 1000}, "1000 GB in 16.9 min"),
        ({"generation": 1, "lanes": 1, "gigabytes": 10_000}, "10 000 GB in 11.1 h"),
    ],
)
def test_headline_and_figure_say_the_time_alike(inputs, said):
    answer, _ = run(**inputs)
    assert f": {said} at best." in answer.headline
    assert said.endswith(next(f.text for f in answer.figures if f.key == "seconds"))


def test_every_wrong_input_is_told_at_once():
    wrong = {"generation": 8, "lanes": 3, "gigabytes": -1, "slot": "moon"}
    assert set(refused(**wrong)) == set(wrong)
    assert set(refused(generation=3.5)) == {"generation"}


@given(st.integers(1, 7), st.floats(0, 10_000))
def test_more_lanes_and_later_generations_never_carry_less(generation, gigabytes):
    links = [run(generation=generation, lanes=n, gigabytes=gigabytes)[1] for n in COUNTS]
    assert [x["link_gb_s"] for x in links] == sorted(x["link_gb_s"] for x in links)
    assert [x["seconds"] for x in links] == sorted((x["seconds"] for x in links), reverse=True)
    for count, found in zip(COUNTS, links, strict=True):
        assert found["link_gb_s"] == pytest.approx(count * found["lane_gb_s"], rel=1e-11)
        assert found["link_gb_s"] < count * found["gt_s"] / 8
    if generation < 7:
        assert run(generation=generation + 1)[1]["lane_gb_s"] > links[0]["lane_gb_s"]


@given(st.integers(1, 7), st.sampled_from([(a, b) for a in COUNTS for b in COUNTS if a < b]),
       st.sampled_from(["card", "disk"]), st.floats(0.01, 300), st.sampled_from(["no", "yes", "unsure"]))  # fmt: skip
def test_more_lanes_never_worsen_the_verdict(generation, counts, device, needs, overflows):
    for more in ({}, {"needs_gb_s": needs}):
        fewer, many = (
            run(generation=generation, lanes=n, device=device, overflows=overflows, **more)[0].verdict.word
            for n in counts
        )
        assert WORTH[many] >= WORTH[fewer]


@pytest.mark.parametrize(
    ("inputs", "needed"),
    [
        ({"device": "disk", "needs_gb_s": 7, "lanes": "4"}, "the disk moves"),
        ({"device": "card", "lanes": "8"}, "a card waits"),
        ({"device": "card", "lanes": "8", "needs_gb_s": 3}, "the card moves"),
    ],
)
def test_a_card_draws_what_is_needed_beside_what_the_lanes_carry(inputs, needed):
    drawn = LANES.run(inputs).card().drawing(1000, 500, 56)
    lengths = {box.what: box.right - box.left for box in drawn.record() if not box.size}
    (line,) = [lengths[what] for what in lengths if what.startswith("need ") and needed in what]
    value = float(inputs.get("needs_gb_s", 7.5))
    own = LANES.run(inputs).answer.figures[0].value
    assert line / lengths[f"bar {inputs['lanes']} lanes"] == pytest.approx(value / own, rel=0.01)


def test_where_nothing_is_enough_no_need_is_drawn():
    drawn = LANES.run({"device": "card", "overflows": "yes", "lanes": "8"}).card().drawing(1000, 500, 56)
    assert not [box for box in drawn.record() if "waits" in box.what]
