"""memory.mix where something must be asked or looked up first, and the ways to begin that are not by hand."""

import pytest

from calculators.catalogue import find
from calculators.desk.as_text import as_text
from tests.random_inputs import random_inputs

MIX = find("memory.mix")
CONTRACT = ("start_rate", "start_cas", "start_trcd", "start_trp", "start_tras", "start_volts", "start_latency_ns")
PLACES = ("firmware's memory menu", "open case", "manual", "Start.")


def run(**inputs):
    answer = MIX.run(inputs).answer
    return answer, {f.key: f.value for f in answer.figures}


def both(**inputs):
    return {f"{prefix}_{key}": value for prefix in ("have", "add") for key, value in inputs.items()}


DDR5 = both(generation="ddr5", count=2, size=16, rate=6000, timings="36-38-38-76", volts=1.35)
LAPTOP = both(generation="ddr4", count=1, size=8, rate=2666, timings="19-19-19-43", volts=1.2, form="sodimm")
DDR3 = both(generation="ddr3", count=2, size=4, rate=1600, timings="11-11-11-28", volts=1.5)


def notes(answer):
    return {note.title: note.text for note in answer.notes}


def test_four_ddr5_sticks_without_a_limit_are_never_a_plain_yes():
    answer, figures = run(**DDR5)
    assert answer.verdict.word == "depends"
    assert "look up the makers' limit" in answer.verdict.reason
    assert [figures[key] for key in CONTRACT] == [6000, 36, 38, 38, 76, 1.35, 12]
    assert run(**DDR5, rate_limit_four=6000)[0].verdict.word == "yes"
    assert run(**{**DDR5, **both(count=1)})[0].verdict.word == "yes"


def test_three_ddr5_sticks_share_a_channel_too():
    assert run(**{**DDR5, "add_count": 1})[0].verdict.word == "depends"


def test_four_ddr5_sticks_begin_on_automatic_and_step_up():
    answer, _ = run(**DDR5)
    assert "begin on automatic" in answer.headline
    assert "automatic" in answer.steps[0].title
    rates = [int(s.key.removeprefix("up-")) for s in answer.steps if "jedec-rate" in s.tags]
    assert rates == sorted(rates)
    assert rates[-1] < 6000
    keys = [s.key for s in answer.steps]
    assert keys.index("begin") < keys.index("four-stick-limit") < keys.index("up-rated") < keys.index("one-kit")
    assert not any(s.key.startswith("rate-") for s in answer.steps)


def test_with_a_limit_four_ddr5_sticks_begin_there_and_step_down():
    answer, figures = run(**DDR5, rate_limit_two=5600, rate_limit_four=3600)
    assert figures["start_rate"] == 3600
    assert "start at DDR5-3600" in answer.headline


@pytest.mark.parametrize(
    ("generation", "size"), [("ddr4", 12), ("ddr4", 24), ("ddr4", 48), ("ddr4", 7), ("ddr5", 7), ("ddr3", 32)]
)
def test_a_size_that_the_generation_does_not_have_asks_instead_of_refusing(generation, size):
    kits = {"ddr3": DDR3, "ddr5": DDR5}.get(generation, {})
    answer, figures = run(**{**kits, **both(size=size)})
    assert answer.verdict.word == "depends"
    server = " for desktops or laptops" if (generation, size) == ("ddr3", 32) else ""  # servers' sticks have it
    assert answer.verdict.reason == f"No {generation.upper()} stick{server} has {size} GB: read the sticker once more."
    assert figures["total_gb"] == 4 * size
    assert "add up to" in notes(answer)["Is that what the sticker says?"]


@pytest.mark.parametrize(
    ("changed", "reason"),
    [
        (both(rate=6000), "No DDR4 stick is faster than 5600 MT/s: read the sticker once more."),
        (both(rate=1200), "No DDR4 stick is slower than 1600 MT/s: read the sticker once more."),
        (both(timings="7-7-7-20"), "DDR4 has no CAS latency below 9: read the sticker once more."),
        (both(volts=1.1), "No DDR4 stick is rated below 1.2 V: read the sticker once more."),
    ],
)
def test_what_the_generation_does_not_have_asks_too(changed, reason):
    answer, figures = run(**{**changed, "add_size": 8})
    assert (answer.verdict.word, answer.verdict.reason) == ("depends", reason)
    assert "start_rate" in figures


def test_bigger_sticks_ask_for_what_a_slot_and_the_board_take():
    title = "Two numbers to look up before you buy"
    answer, _ = run()
    assert "look up the largest stick a slot takes" in answer.verdict.reason
    assert "at least 16 GB" in notes(answer)[title]
    assert "at least 48 GB" in notes(answer)[title]
    assert title in notes(run(slot_most_gb="unsure", board_most_gb="not sure")[0])
    assert title not in notes(run(slot_most_gb=32, board_most_gb=128)[0])
    assert title not in notes(run(add_size=8)[0])


@pytest.mark.parametrize(
    ("told", "reason"),
    [
        ({"slot_most_gb": 8}, "A stick of 16 GB is more than the 8 GB that a slot takes."),
        ({"board_most_gb": 32}, "48 GB are more than the 32 GB that the board takes."),
        ({"slot_most_gb": 8, "board_most_gb": 32}, "16 GB beyond the slot's 8 and 48 GB beyond the board's 32."),
    ],
)
def test_more_than_the_board_takes_is_a_no(told, reason):
    answer, figures = run(**told)
    assert (answer.verdict.word, answer.verdict.reason) == ("no", reason)
    assert set(figures) == {"total_gb"}


@pytest.mark.parametrize(("size", "cautioned"), [(24, True), (48, True), (16, False)])
def test_sizes_that_older_firmware_does_not_know_are_cautioned(size, cautioned):
    answer, _ = run(**{**DDR5, "add_size": size})
    assert any("firmware that knows this size" in c.text for c in answer.cautions) == cautioned


@pytest.mark.parametrize("typed", ["CL16", "16"])
def test_the_cas_latency_alone_is_answered_and_the_others_are_not_invented(typed):
    answer, figures = run(have_timings=typed, add_timings="16-18-18-38")
    assert (figures["start_rate"], figures["start_cas"], figures["start_latency_ns"]) == (3200, 16, 10)
    assert not {"start_trcd", "start_trp", "start_tras"} & set(figures)
    assert "not told: leave them to the profile or to automatic" in notes(answer)["CAS latency alone"]
    assert "18" not in answer.headline
    assert not any("-" in s.title.partition(", ")[2].partition(",")[0] for s in answer.steps if s.key == "begin")


def test_at_two_voltages_the_cas_latency_alone_stays_alone_too():
    _, figures = run(have_timings="CL16", add_volts=1.2, add_rate=2666, add_timings="19-19-19-43")
    assert figures["start_cas"] == 15
    assert not {"start_trcd", "start_trp", "start_tras"} & set(figures)


def test_laptop_sticks_at_standard_voltage_have_nothing_to_set():
    answer, figures = run(**LAPTOP, slots=2)
    assert "nothing to set" in answer.headline
    assert answer.steps[0].title.startswith("Nothing to set")
    assert not any("jedec-rate" in s.tags or "profile-off" in s.tags for s in answer.steps)
    assert figures["start_rate"] == 2666
    assert "by hand" not in as_text(MIX.run({**LAPTOP, "slots": 2})).partition("Cautions")[0]


def test_rated_laptop_sticks_are_set_like_others():
    assert "nothing to set" not in run(**{**LAPTOP, **both(volts=1.35)}, slots=2)[0].headline


def test_two_rated_voltages_go_down_and_up_only_with_the_makers_word():
    answer, figures = run(add_volts=1.4)
    assert (figures["start_volts"], figures["start_rate"]) == (1.2, 2133)
    text = notes(answer)["A way up, only with the maker's word"]
    assert "the 1.35 V kit allows 1.4 V in writing" in text
    assert not any("1.4 V" in " ".join((s.title, *s.do)) for s in answer.steps)


@pytest.mark.parametrize("volts", [1.2, 1.35])
def test_no_way_up_for_plain_sticks_and_none_where_there_is_one_voltage(volts):
    answer, _ = run(have_volts=1.35, add_volts=volts)
    assert not any("way up" in title for title in notes(answer))


def test_ddr3_asks_first_whether_the_board_takes_low_voltage_only():
    mixed = {**DDR3, "have_volts": 1.35}
    answer, figures = run(**mixed)
    assert figures["start_volts"] == 1.5
    assert answer.verdict.word == "depends"
    assert "DDR3L only" in answer.verdict.reason
    assert "DDR3L only" in answer.steps[0].do[0]
    assert "DDR3L only" in run(**mixed, ddr3l_only="unsure")[0].verdict.reason
    refused, _ = run(**mixed, ddr3l_only="yes")
    assert refused.verdict.word == "no"
    assert refused.verdict.reason == "This board takes 1.35 V sticks only, so no 1.5 V stick may go in."
    assert not refused.steps
    allowed, _ = run(**mixed, ddr3l_only="no")
    assert "DDR3L" not in allowed.verdict.reason
    assert "DDR3L" not in allowed.steps[0].do[0]


def test_low_voltage_sticks_in_a_low_voltage_board_are_no_question():
    answer, figures = run(**{**DDR3, **both(volts=1.35)}, ddr3l_only="yes")
    assert answer.verdict.word == "yes"
    assert figures["start_volts"] == 1.35


def test_ddr5_says_why_a_tool_shows_four_channels():
    title = "Why a tool may show four channels"
    assert title in notes(run(**DDR5)[0])
    assert title not in notes(run()[0])


def test_every_step_says_where_it_is_done():
    for inputs in [dict(p.inputs) for p in MIX.presets] + [LAPTOP, *valid(60)]:
        for step in MIX.run(inputs).answer.steps:
            assert any(place in " ".join(step.do) for place in PLACES), step.key


def valid(count):
    """Random inputs that can be read."""
    for inputs in random_inputs(MIX, count, 3):
        try:
            MIX.run(inputs)
        except ValueError:
            continue
        yield inputs


def test_a_change_of_generation_brings_its_own_usual_kit():
    values = MIX.run({"have_generation": "ddr5", "add_generation": "ddr3"}).values
    assert (values["have_rate"], values["have_volts"], values["have_timings"].cas) == (6000, 1.35, 36)
    assert (values["add_rate"], values["add_volts"], values["add_timings"].cas) == (1600, 1.5, 11)
    assert {"have_rate", "have_timings", "have_volts"} <= set(values.assumed)


ALIKE = both(size=16)


@pytest.mark.parametrize(
    ("have", "add"),
    [("CL16", "16-18-18-38"), ("16-18-18-38", "CL16"), ("CL16", "16-18-18"), ("16-18-18", "16-18-18-38"), ("16", "16")],
)
def test_what_is_not_told_of_the_timings_is_no_difference_and_no_plain_yes(have, add):
    answer, _ = run(**ALIKE, have_timings=have, add_timings=add)
    assert answer.verdict.word == "depends"
    assert "differ" not in answer.verdict.reason
    assert "Alike as far as told" in answer.verdict.reason


def test_another_cas_latency_is_a_difference_though_the_rest_is_not_told():
    answer, _ = run(**ALIKE, have_timings="CL16", add_timings="18-22-22-42")
    assert "differ in timings" in answer.verdict.reason


@pytest.mark.parametrize("told", [{}, {"ddr3l_only": "unsure"}])
@pytest.mark.parametrize("volts", [(1.5, 1.5), (1.35, 1.5), (1.5, 1.35), (1.65, 1.65)])
def test_ddr3_above_1_35_v_is_no_plain_yes_until_the_manual_was_read(told, volts):
    given = {**DDR3, "have_volts": volts[0], "add_volts": volts[1], **told}
    answer, _ = run(**given)
    assert answer.verdict.word == "depends"
    assert answer.verdict.reason == "If the board's manual says DDR3L only, no 1.5 V stick goes in: look first."
    assert "DDR3L only" in answer.steps[0].do[0]


def test_ddr3_at_1_5_v_is_a_yes_where_the_manual_allows_it_and_a_no_where_not():
    assert run(**DDR3, ddr3l_only="no")[0].verdict.word == "yes"
    assert run(**DDR3, ddr3l_only="yes")[0].verdict.word == "no"
    assert run(**{**DDR3, **both(volts=1.35)})[0].verdict.word == "yes"


def test_two_ddr5_sticks_a_channel_in_a_laptop_are_not_promised_their_rating():
    laptop = {**DDR5, **both(form="sodimm", rate=5600, volts=1.1, timings="46-45-45-90")}
    assert "nothing to set: expect DDR5-5600 or less" in run(**laptop)[0].headline
    assert "expect about DDR5-5600" in run(**{**laptop, **both(count=1)}, slots=2)[0].headline


def test_a_size_that_only_servers_sticks_have_is_told_so():
    answer, _ = run(**both(size=64))
    assert answer.verdict.reason == "No DDR4 stick for desktops or laptops has 64 GB: read the sticker once more."
