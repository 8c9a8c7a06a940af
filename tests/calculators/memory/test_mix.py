"""memory.mix as a whole: verdicts, figures, limits, the ladder of settings to try, and what is left out."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.as_json import as_json
from calculators.desk.as_text import as_text

MIX = find("memory.mix")
# The figures that every answer with sticks that fit has: links, JSON and pages rely on these keys.
CONTRACT = {
    "total_gb", "channel_a_gb", "channel_b_gb", "paired_gb", "unpaired_gb", "worst_paired_gb", "start_rate",
    "start_cas", "start_trcd", "start_trp", "start_tras", "start_volts", "start_latency_ns", "paired_gb_s",
}  # fmt: skip


def run(**inputs):
    answer = MIX.run(inputs).answer
    return answer, {f.key: f.value for f in answer.figures}


def both(**inputs):
    return {f"{prefix}_{key}": value for prefix in ("have", "add") for key, value in inputs.items()}


def test_every_figure_of_the_contract_is_there():
    _, figures = run()
    assert set(figures) >= CONTRACT


def test_bigger_sticks_beside_smaller_ones():
    answer, figures = run(have_size=8, add_size=16, add_rate=3600, add_timings="18-22-22-42")
    assert (figures["total_gb"], figures["channel_a_gb"], figures["channel_b_gb"]) == (48, 24, 24)
    assert (figures["paired_gb"], figures["unpaired_gb"], figures["worst_paired_gb"]) == (48, 0, 32)
    assert figures["start_rate"] == 3200
    # 18 clocks at 3600 are 10 ns, 22 are 12.22 ns: 16 and 20 clocks at 3200
    assert [figures[f"start_{k}"] for k in ("cas", "trcd", "trp", "tras")] == [16, 20, 20, 38]
    assert figures["start_latency_ns"] == 10
    assert figures["paired_gb_s"] == 51.2
    assert answer.verdict.word == "depends"
    assert "size, rated speed and timings" in answer.verdict.reason


def test_kits_alike_get_yes_and_are_still_told_what_is_not_promised():
    answer, _ = run(add_size=8)
    assert answer.verdict.word == "yes"
    assert "makers promise it only for sticks sold together as one kit" in answer.verdict.reason
    assert any("four sticks may be rated lower than two" in n.text for n in answer.notes)


@pytest.mark.parametrize(
    ("changed", "word"),
    [
        ({"add_count": 1}, "number of sticks"), ({"add_size": 32}, "size"), ({"add_rate": 3000}, "rated speed"),
        ({"add_timings": "16-18-18-36"}, "timings"), ({"add_volts": 1.36}, "rated voltage"),
        ({"add_ranks": "2"}, "ranks"), ({"add_ecc": "yes"}, "error correction"),
        ({"add_standard_rate": 2400}, "speed with the profile off"),
    ],
)  # fmt: skip
def test_any_input_that_differs_makes_it_depend(changed, word):
    answer, _ = run(**{**both(size=8), **changed})
    assert answer.verdict.word == "depends"
    assert f"The kits differ in {word}" in answer.verdict.reason


@pytest.mark.parametrize("spelled", ["1,35", "1.350", "1350 mV", 1.35, "1.35 V"])
def test_one_voltage_spelled_differently_is_one_voltage(spelled):
    answer, figures = run(add_size=8, add_volts=spelled)
    assert answer.verdict.word == "yes"
    assert figures["start_volts"] == 1.35


def test_2666_and_2667_are_the_same_rate():
    assert run(add_size=8, have_rate=2666, add_rate=2667)[0].verdict.word == "yes"


@pytest.mark.parametrize(
    ("changed", "reason"),
    [
        ({"add_generation": "ddr5"}, "DDR4 and DDR5 differ in notch"),
        ({"add_module": "registered"}, "Registered and unbuffered sticks"),
        ({"add_form": "sodimm"}, "A DIMM and an SO-DIMM"),
        ({"add_count": 3}, "5 sticks are more than 4 slots hold"),
        ({"slots": 2}, "4 sticks are more than 2 slots hold"),
    ],
)
def test_what_cannot_be_is_a_no_with_the_total_and_nothing_made_up(changed, reason):
    answer, figures = run(**changed)
    assert answer.verdict.word == "no"
    assert answer.verdict.reason.startswith(reason)
    assert figures["total_gb"] == 16 + 16 * changed.get("add_count", 2)
    assert not set(figures) & (CONTRACT - {"total_gb"})
    assert not answer.steps


def test_all_that_stands_in_the_way_is_named():
    answer, _ = run(add_generation="ddr5", add_form="sodimm", add_module="registered", slots=2)
    for word in ("DDR5", "SO-DIMM", "registered", "more than 2 slots"):
        assert word in answer.verdict.reason


def test_too_many_sticks_are_told_what_would_fit():
    _, figures = run(slots=2)
    assert figures["fits_gb"] == 32


@pytest.mark.parametrize(
    ("counts", "channels", "slots", "limits", "rate"),
    [
        ((2, 2), 2, 4, {"rate_limit_two": 3000}, 3000),  # no limit for four given: that for two still holds
        ((2, 2), 2, 4, {"rate_limit_two": 3000, "rate_limit_four": 2666}, 2666),
        ((1, 1), 2, 4, {"rate_limit_two": 3000, "rate_limit_four": 2666}, 3000),  # one stick a channel
        ((2, 1), 2, 4, {"rate_limit_four": 2666}, 2666),  # three sticks: one channel holds two
        ((1, 1), 1, 4, {"rate_limit_four": 2666}, 2666),  # two sticks on the only channel
        ((1, 1), 2, 2, {"rate_limit_four": 2666}, 3200),
        ((2, 2), 2, 4, {"rate_limit_four": 4000}, 3200),
    ],
)
def test_which_limit_applies(counts, channels, slots, limits, rate):
    _, figures = run(have_count=counts[0], add_count=counts[1], channels=channels, slots=slots, **limits)
    assert figures["start_rate"] == rate


def test_a_limit_that_lowers_the_rate_of_kits_alike_makes_it_depend():
    answer, figures = run(add_size=8, rate_limit_four="2666")
    assert answer.verdict.word == "depends"
    assert "2666 MT/s" in answer.verdict.reason
    assert [figures[f"start_{k}"] for k in ("cas", "trcd", "trp", "tras")] == [14, 15, 15, 32]
    assert run(add_size=8, rate_limit_four="3200")[0].verdict.word == "yes"


def test_other_voltages_start_from_the_slower_standard_rate():
    inputs = {"add_rate": 2666, "add_timings": "19-19-19-43", "add_volts": 1.2}
    answer, figures = run(**inputs, have_standard_rate=2400, add_standard_rate=2666)
    assert (figures["start_rate"], figures["start_volts"]) == (2400, 1.2)
    assert [figures[f"start_{k}"] for k in ("cas", "trcd", "trp", "tras")] == [17, 17, 17, 39]
    assert any("do not hold at 1.2 V" in n.text for n in answer.notes)
    assert run(**inputs)[1]["start_rate"] == 2133  # JEDEC's, when not given


def test_a_limit_below_the_standard_rate_holds_there_too():
    inputs = {"add_volts": 1.2, "have_standard_rate": 2666, "add_standard_rate": 2666}
    assert run(**inputs, rate_limit_four=1866)[1]["start_rate"] == 1866


def test_ddr3_at_two_voltages_has_its_own_rule():
    kits = both(generation="ddr3", size=4, rate=1600, timings="11-11-11-28", volts=1.5)
    answer, figures = run(**{**kits, "add_volts": 1.35})
    assert (figures["start_volts"], figures["start_rate"], figures["start_cas"]) == (1.5, 1600, 11)
    assert any("1.35 V DDR3 stick is also specified for 1.5 V" in n.text for n in answer.notes)


def test_one_channel_has_nothing_in_pairs():
    answer, figures = run(channels=1)
    assert (figures["paired_gb"], figures["channel_b_gb"], figures["channel_a_gb"]) == (0, 0, 48)
    assert (figures["unpaired_gb"], figures["worst_paired_gb"]) == (48, 0)
    assert "paired_gb_s" not in figures
    assert len(answer.drawings) == 1


def test_a_timing_not_known_is_left_out():
    answer, figures = run(add_timings="16-18-18")
    assert "start_tras" not in figures
    assert any("Leave the fourth" in n.text for n in answer.notes)


def test_the_ladder_goes_down_and_ends_with_fewer_sticks():
    answer, _ = run()
    rates = [int(s.key.removeprefix("rate-")) for s in answer.steps if "jedec-rate" in s.tags]
    assert rates == sorted(rates, reverse=True)
    assert rates == [2933, 2666, 2400, 1866, 1600]  # 2133 is the standard rate with the profile off
    keys = [s.key for s in answer.steps]
    assert keys[0] == "begin"
    assert keys.index("profile-off") < keys.index("four-stick-limit") < keys.index("one-kit")
    assert "fewer-sticks" in answer.steps[-1].tags
    by_key = {s.key: s for s in answer.steps}
    assert by_key["rate-2666"].title == "DDR4-2666, 19-19-19-43, 1.35 V"
    assert "15-15-15-36" in " ".join(by_key["profile-off"].do)


def test_one_stick_a_channel_has_no_step_for_two():
    answer, _ = run(have_count=1, add_count=1)
    assert "four-stick-limit" not in [s.key for s in answer.steps]


def test_what_stays_on_automatic_is_said():
    text = as_text(MIX.run({}))
    for word in ("refresh time", "ratio", "command rate", "Not simply one kit's profile for both"):
        assert word in text


def test_the_slots_are_drawn_with_their_sticks():
    answer, _ = run()
    svg = answer.drawings[0].svg()
    for name in ("A1", "A2", "B1", "B2", "16 GB", "8 GB", "farther from the processor"):
        assert name in svg
    assert answer.drawings[0].description.startswith("From the processor outwards: A1 holds 8 GB, your kit")


def test_error_correction_in_one_kit_only():
    answer, _ = run(add_ecc="yes", add_size=8)
    assert answer.verdict.word == "depends"
    assert any("run without error correction" in n.text for n in answer.notes)


def test_a_voltage_above_the_usual_is_warned_of_first():
    answer, _ = run(have_volts=1.9, add_volts=1.9)
    assert answer.cautions[0].first
    assert "1.9 V is above" in answer.cautions[0].text


def kit(prefix):
    number = st.integers(1, 4)
    return st.fixed_dictionaries(
        {
            f"{prefix}_generation": st.sampled_from(["ddr3", "ddr4", "ddr5"]),
            f"{prefix}_count": number,
            f"{prefix}_size": st.integers(1, 512),
            f"{prefix}_rate": st.integers(200, 20000),
            f"{prefix}_timings": st.lists(st.integers(1, 400), min_size=3, max_size=4).map(
                lambda t: "-".join(map(str, t))
            ),
            f"{prefix}_volts": st.sampled_from([1.1, 1.2, 1.35, 1.5, 1.65, 2]),
        },
        optional={
            f"{prefix}_ranks": st.sampled_from(["1", "2", "unknown"]),
            f"{prefix}_module": st.sampled_from(["unbuffered", "registered"]),
            f"{prefix}_form": st.sampled_from(["dimm", "sodimm"]),
            f"{prefix}_ecc": st.sampled_from(["yes", "no", "unknown"]),
            f"{prefix}_standard_rate": st.integers(200, 20000),
        },
    )


BOARD = st.fixed_dictionaries(
    {"slots": st.sampled_from([2, 4]), "channels": st.sampled_from([1, 2])},
    optional={"rate_limit_two": st.integers(200, 20000), "rate_limit_four": st.integers(200, 20000)},
)


@settings(max_examples=150, deadline=None)
@given(kit("have"), kit("add"), BOARD)
def test_properties_of_every_mix(have, add, board):
    result = MIX.run({**have, **add, **board})
    figures = {f.key: f.value for f in result.answer.figures}
    assert figures["total_gb"] == have["have_count"] * have["have_size"] + add["add_count"] * add["add_size"]
    assert as_json(result)["verdict"]["word"] == result.answer.verdict.word
    if result.answer.verdict.word == "no":
        return
    assert figures["paired_gb"] + figures["unpaired_gb"] == figures["total_gb"]
    assert figures["channel_a_gb"] + figures["channel_b_gb"] == figures["total_gb"]
    assert figures["worst_paired_gb"] <= figures["paired_gb"]
    assert ("paired_gb_s" in figures) == (figures["paired_gb"] > 0)
    if have["have_volts"] == add["add_volts"]:
        assert figures["start_volts"] == have["have_volts"]
