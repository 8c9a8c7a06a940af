"""rooms.network: the contract's figures, what a measurement is told, and refusals in words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors

NETWORK = find("rooms.network")


def run(**inputs):
    answer = NETWORK.run(inputs).answer
    return answer, {f.key: f.value for f in answer.figures}


def refused(**inputs):
    with pytest.raises(InputErrors) as caught:
        NETWORK.run(inputs)
    return {problem.input: problem.message for problem in caught.value.problems}


def test_an_empty_request_gives_every_figure_of_the_contract():
    _, figures = run()
    assert figures == {  # arithmetic of our own
        "payload_bytes": 1448, "wire_bytes": 1538, "efficiency_percent": pytest.approx(100 * 1448 / 1538),
        "goodput_mbps": pytest.approx(1000 * 1448 / 1538), "goodput_mb_s": pytest.approx(125 * 1448 / 1538),
        "frames_per_s": pytest.approx(1e9 / (8 * 1538)),
    }  # fmt: skip


@pytest.mark.parametrize(
    ("measured", "word"),
    [(941, "yes"), (930, "yes"), (95, "no"), (94.1, "no"), (700, "depends"), (300, "no"), (1200, "depends")],
)
def test_what_a_measurement_on_a_link_of_1000_is_told(measured, word):
    answer, _ = run(measured_mbps=measured)
    assert answer.verdict.word == word


def test_ninety_five_of_a_thousand_points_to_a_link_at_100():
    answer, _ = run(measured_mbps=95)
    assert "100 Mb/s" in answer.verdict.reason
    assert "televisions" in as_text(NETWORK.run({"measured_mbps": 95}))


@pytest.mark.parametrize(
    ("link", "measured", "said"),
    [(1000, 112, "MB/s, it would be about all there is"), (1000, 117.7, "MB/s, it would be about all there is"),
     (100, 11.4, "MB/s, it would be about all there is"), (1000, 11.4, "MB/s, a link at 100 gives that"),
     (1000, 300, "find the part at fault")],
)  # fmt: skip
def test_a_file_copy_s_bytes_are_thought_of_where_too_little_was_measured(link, measured, said):
    verdict = run(link_mbps=link, measured_mbps=measured)[0].verdict
    assert verdict.word == "no"
    assert said in verdict.reason


@pytest.mark.parametrize(("measured", "mtu", "word"), [(957, 1500, "yes"), (980, 1500, "depends"), (990, 9000, "yes")])
def test_more_than_such_packets_bring_is_not_as_it_should_be(measured, mtu, word):
    assert run(measured_mbps=measured, mtu=mtu)[0].verdict.word == word


@pytest.mark.parametrize(
    ("link", "measured", "word"), [(866, 430, "depends"), (1000, 430, "no"), (200, 94, "no"), (866, 200, "no")]
)
def test_half_of_a_rate_that_no_wire_has_may_be_the_air(link, measured, word):
    answer = run(link_mbps=link, measured_mbps=measured)[0]
    assert answer.verdict.word == word
    assert (answer.notes[0].title == "No wired link has that rate") == (link != 1000)


@pytest.mark.parametrize(("measured", "hero"), [(94.1, "94.1 of 941 Mb/s"), (941, "941 of 941 Mb/s")])
def test_the_card_shows_what_was_measured_beside_its_verdict(measured, hero):
    assert NETWORK.run({"measured_mbps": measured}).card().hero == hero
    assert NETWORK.run({}).card().hero == "at most 941.5 Mb/s"


def test_without_a_measurement_there_is_no_verdict():
    assert run()[0].verdict is None


def test_ipv6_refuses_small_packets_in_words():
    assert refused(mtu=1279, address="ipv6") == {
        "mtu": "IPv6 needs packets of at least 1280 bytes, got 1279: give 1280 or more, or choose IPv4."
    }
    assert run(mtu=1280, address="ipv6")[1]["payload_bytes"] == 1280 - 40 - 20 - 12
    assert run(mtu=576)[1]["payload_bytes"] == 524


@pytest.mark.parametrize("typed", [0, "0", "0 Mb/s", "none", "no network"])
def test_no_network_is_told_at_its_input(typed):
    assert "without a network nothing is sent" in refused(link_mbps=typed)["link_mbps"]


@pytest.mark.parametrize("typed", ["12 MB/s", "117 megabytes", "1 GB/s"])
def test_bytes_are_not_taken_for_bits(typed):
    assert "one byte is 8 bits" in refused(link_mbps=typed)["link_mbps"]


@pytest.mark.parametrize(
    ("typed", "mbps"), [("2.5 Gb/s", 2500), ("100 Mbit/s", 100), ("1 000", 1000), ("1 gigabit", 1000)]
)
def test_rates_as_people_type_them(typed, mbps):
    assert NETWORK.run({"link_mbps": typed}).values["link_mbps"] == mbps


def test_every_wrong_input_is_told_at_once():
    assert set(refused(link_mbps="x", mtu=100, address="ipv5", stamps="maybe")) == {
        "link_mbps", "mtu", "address", "stamps",
    }  # fmt: skip


@given(
    mtu=st.integers(1280, 9216), address=st.sampled_from(["ipv4", "ipv6"]), stamps=st.sampled_from(["yes", "no"]),
    tag=st.sampled_from(["yes", "no"]), link=st.floats(1, 400_000),
)  # fmt: skip
def test_nothing_carries_more_than_the_link(mtu, address, stamps, tag, link):
    _, figures = run(mtu=mtu, address=address, stamps=stamps, tag=tag, link_mbps=link)
    assert 0 < figures["goodput_mbps"] < link
    assert figures["payload_bytes"] < mtu < figures["wire_bytes"]
    assert figures["goodput_mb_s"] * 8 == pytest.approx(figures["goodput_mbps"])
    assert figures["frames_per_s"] * figures["wire_bytes"] * 8 == pytest.approx(link * 1e6)


@given(st.integers(576, 9215))
def test_a_larger_packet_never_carries_a_smaller_share(mtu):
    assert run(mtu=mtu)[1]["efficiency_percent"] < run(mtu=mtu + 1)[1]["efficiency_percent"]


@given(
    st.sampled_from([10, 100, 200, 866, 1000, 1600, 2402, 2500, 5000, 10_000]), st.floats(0.02, 0.94), st.floats(0.5, 1)
)
def test_less_measured_never_improves_the_verdict(link, share, less):
    worth = {"no": 0, "depends": 1, "yes": 2}
    more, fewer = (run(link_mbps=link, measured_mbps=link * part)[0].verdict.word for part in (share, share * less))
    assert worth[fewer] <= worth[more]
