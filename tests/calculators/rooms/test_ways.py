"""rooms.ways: which way wins when, that a longer way never becomes possible, prices, refusals."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors
from calculators.desk.inputs import Span
from calculators.rooms.paths.control_ways import control_ways, usb_reach_m
from calculators.rooms.paths.direct_ways import least_carrier
from calculators.rooms.paths.network_ways import Measured
from calculators.rooms.paths.way import Case
from calculators.rooms.ways import ranked

WAYS = find("rooms.ways")
WORTH = {"no": 0, "depends": 1, "yes": 2}
MODES = st.sampled_from(
    [(1280, 720, 60), (1920, 1080, 60), (1920, 1080, 240), (2560, 1440, 144), (3840, 2160, 60), (3840, 2160, 120),
     (7680, 4320, 60), (16_384, 16_384, 240)]
)  # fmt: skip
USES = st.sampled_from(["film", "desk", "action"])
WIRES = st.sampled_from(["none", "network", "any"])
MEASURED = st.one_of(
    st.just(Measured(Span(5, 941, "unsure"), "unsure")),
    st.tuples(st.floats(0.1, 2000), st.sampled_from(["unsure", "wire", "air"])).map(
        lambda pair: Measured(Span(pair[0], pair[0]), pair[1])
    ),
)


def run(**inputs):
    answer = WAYS.run(inputs).answer
    return answer, {f.key: f.value for f in answer.figures}


def words(distance, mode, depth, use, control, wire, measured):
    ways = ranked(Case(distance, *mode, depth, use, control, wire), measured)
    return {way.key: way.word for way in ways} | {"overall": ways[0].word}


@given(st.floats(1, 300), st.floats(0, 200), MODES, st.sampled_from([8, 10]), USES, st.booleans(), WIRES, MEASURED)
def test_a_longer_way_never_becomes_possible_where_a_shorter_is_not(
    distance, more, mode, depth, use, control, wire, measured
):
    near = words(distance, mode, depth, use, control, wire, measured)
    far = words(min(distance + more, 300), mode, depth, use, control, wire, measured)
    for key, word in far.items():
        assert WORTH[word] <= WORTH[near[key]], key


@given(st.floats(1, 300), MODES, USES, st.booleans(), MEASURED)
def test_what_may_be_laid_besides_never_takes_a_way_away(distance, mode, use, control, measured):
    less = [words(distance, mode, 8, use, control, wire, measured) for wire in ("none", "network", "any")]
    for fewer, more in pairwise(less):
        for key, word in fewer.items():
            assert WORTH[more[key]] >= WORTH[word], key


@given(st.floats(1, 300), MODES, USES, WIRES, MEASURED)
def test_to_steer_from_there_never_makes_it_easier(distance, mode, use, wire, measured):
    without, with_hand = (words(distance, mode, 8, use, control, wire, measured) for control in (False, True))
    for key, word in with_hand.items():
        assert WORTH[word] <= WORTH[without[key]], key


@given(
    st.floats(1, 100), USES, WIRES, st.floats(0.1, 500), st.floats(1, 10), st.sampled_from(["unsure", "wire", "air"])
)
def test_more_network_never_worsens_a_way(distance, use, wire, mbps, factor, over):
    slow, fast = (
        words(distance, (1920, 1080, 60), 8, use, True, wire, Measured(Span(rate, rate), over))
        for rate in (mbps, mbps * factor)
    )
    for key, word in slow.items():
        assert WORTH[fast[key]] >= WORTH[word], key


@given(st.floats(1, 300), MODES, USES, WIRES, st.booleans(), MEASURED)
def test_every_delay_runs_from_the_least_to_the_most(distance, mode, use, wire, control, measured):
    for way in ranked(Case(distance, *mode, 8, use, control, wire), measured):
        assert 0 <= way.late_ms[0] <= way.late_ms[1], way.key


@pytest.mark.parametrize(
    ("inputs", "best", "word"),
    [
        ({"distance_m": 2, "wire": "any"}, "a long copper cable", "yes"),
        ({"distance_m": 10, "wire": "any", "use": "action"}, "a display cable with glass or booster", "yes"),
        ({"distance_m": 15, "wire": "network", "use": "film", "control": "no", "network_mbps": "wire-1000"},
         "a stream by wire", "yes"),
        ({"distance_m": 60, "wire": "network", "use": "action", "control": "no", "width": 1920, "height": 1080},
         "an extender pair", "depends"),
        ({"distance_m": 10, "wire": "none", "use": "film", "control": "no", "network_mbps": 400,
          "measured_over": "air"}, "a stream over the air", "yes"),
        ({"distance_m": 10, "wire": "none", "use": "action", "network_mbps": "air-wall"},
         "a stream over the air from a wired sender", "depends"),
        ({"distance_m": 300, "wire": "none", "use": "film"}, "a second small machine there", "no"),
    ],
)  # fmt: skip
def test_which_way_wins(inputs, best, word):
    answer, figures = run(**inputs)
    assert (figures["best"], answer.verdict.word) == (best, word)
    assert figures["best"] in answer.headline or word == "no"


def test_an_empty_request_is_answered():
    answer, figures = run()
    assert answer.verdict.word == "depends"
    assert {"best", "runner_up", "delay_ms_low", "delay_ms_high", "stream_mbps_low", "stream_mbps_high"} <= set(figures)


def test_all_ways_of_the_issue_stand_in_the_tables():
    answer, _ = run()
    *every, hands = answer.tables
    assert [len(table.rows) for table in every] == [9, 9, 9]
    assert [row[0] for row in hands.rows] == ["Long USB", "USB over network-type cable", "Radio"]


def test_the_cable_s_need_is_that_of_the_display_calculator():
    _, figures = run(width=3840, height=2160, refresh=60, depth=8)
    link = find("display.link").run(
        {"width": 3840, "height": 2160, "refresh": 60, "depth": 8, "blanking": "cta", "link": "hdmi-tmds-600"}
    )
    needed = next(f.value for f in link.answer.figures if f.key == "needed_gb_s")
    assert figures["cable_gb_s"] == needed
    assert figures["least_link"] == "HDMI TMDS at 600 MHz"


def test_boxes_take_half_the_chroma_where_full_colour_is_too_much():
    case = Case(20, 3840, 2160, 60, 10, "desk", False, "any")
    assert least_carrier(case, False).link.key not in ("hdmi-tmds-165", "hdmi-tmds-340", "hdmi-tmds-600")
    extender = next(w for w in ranked(case, Measured(Span(900, 900), "wire")) if w.key == "extender")
    assert extender.word == "depends"
    assert "chroma" in extender.loses


def test_prices_are_shown_as_typed_and_the_lowest_is_named():
    answer, figures = run(
        distance_m=10,
        wire="any",
        use="action",
        price_optical=90,
        price_extender="79,50",
        price_stream=40,
        currency="kr",
    )
    assert figures["price"] == 90
    row = next(r for r in answer.tables[0].rows if r[0] == "An extender pair")
    assert row[-1] == "79.50 kr"
    note = next(n for n in answer.notes if n.title == "The cheapest that may do")
    assert "a stream by wire is the lowest at 40 kr" in note.text


def test_without_prices_none_is_shown():
    answer, figures = run()
    assert "price" not in figures
    assert not any(column.label == "Price" for table in answer.tables for column in table.columns)


@pytest.mark.parametrize(
    "words",
    ["never into a network switch", "never into a surge strip", "run glass fibre without metal", "use conduit",
     "a source end", "licensed person", "fire rules", "set a password", "apart from mains", "woken from afar"],
)  # fmt: skip
def test_every_caution_of_the_issue_is_there(words):
    assert words in as_text(WAYS.run({}))


def test_the_gravest_caution_comes_first():
    first = [c for c in run()[0].cautions if c.first]
    assert len(first) == 1
    assert "Between two buildings" in first[0].text


def test_usb_ends_after_five_hubs():
    assert usb_reach_m(5) == 30
    with pytest.raises(ValueError, match="at most 5 hubs"):
        usb_reach_m(6)
    for distance, word in ((5, "yes"), (5.1, "depends"), (30, "depends"), (30.1, "no")):
        usb = control_ways(Case(distance, 1920, 1080, 60, 8, "film", True, "any"))[0]
        assert usb.word == word


@pytest.mark.parametrize("typed", [0, "0", "none", "no network"])
def test_no_network_is_told_at_its_input(typed):
    with pytest.raises(InputErrors) as caught:
        run(network_mbps=typed)
    (problem,) = caught.value.problems
    assert problem.input == "network_mbps"
    assert "without a network nothing is sent" in problem.message


@pytest.mark.parametrize(
    ("key", "wrong"), [("distance_m", 0), ("distance_m", 301), ("depth", 12), ("wire", "string"), ("refresh", 0),
                       ("price_copper", -1), ("currency", "E1"), ("network_mbps", "50 MB/s")],
)  # fmt: skip
def test_what_does_not_fit_is_told_at_its_input(key, wrong):
    with pytest.raises(InputErrors) as caught:
        run(**{key: wrong})
    assert [problem.input for problem in caught.value.problems] == [key]


def test_everything_wrong_is_told_at_once():
    with pytest.raises(InputErrors) as caught:
        run(distance_m=0, network_mbps=0, use="golf")
    assert {problem.input for problem in caught.value.problems} == {"distance_m", "network_mbps", "use"}


def test_a_rate_of_1001_is_said():
    assert "59.94 Hz (60 × 1000/1001)" in as_text(WAYS.run({"refresh": 59.94}))


def test_the_second_way_is_said_so_that_one_hears_what_it_is():
    film = {"distance_m": 20, "wire": "none", "width": 1920, "height": 1080, "use": "film", "control": "no"}
    over_air = run(**film, network_mbps="air-mesh")[0].headline
    assert over_air.endswith(" late; with the sender wired to the router it is steadier.")
    by_wire = run(**{**film, "wire": "network"})[0].headline
    assert by_wire.endswith(" late; failing that, an extender pair.")


def test_what_displayport_alone_carries_is_no_plain_yes():
    answer, figures = run(distance_m=10, wire="any", width=7680, height=4320, control="no")
    assert figures["best"] == "a display cable with glass or booster"
    assert answer.verdict.word == "depends"
    assert "only DisplayPort" in answer.verdict.reason
    assert figures["least_link"].startswith("DisplayPort")
    assert any(note.text.startswith("Both ends have DisplayPort") for note in answer.notes)
    reaches = next(row[1] for row in answer.tables[1].rows if row[0].startswith("A display cable"))
    assert reaches.endswith("by DisplayPort")
    card = WAYS.run({"distance_m": 10, "wire": "any", "width": 7680, "height": 4320, "control": "no"}).card()
    assert card.line == "if both ends have DisplayPort"


@pytest.mark.parametrize(("mode", "link"), [((2560, 1440, 144), "hdmi-tmds-600"), ((1920, 1080, 240), "hdmi-tmds-600")])
def test_boxes_are_judged_as_the_display_calculator_judges_their_link(mode, link):
    width, height, refresh = mode
    told = find("display.link").run({"width": width, "height": height, "refresh": refresh, "link": link}).answer
    extender = next(
        way for way in ranked(Case(10, *mode, 8, "action", False, "any"), Measured(Span(900, 900), "wire"))
        if way.key == "extender"
    )  # fmt: skip
    assert extender.word == told.verdict.word == "depends"


def test_a_stream_that_no_codec_s_level_holds_is_no_plain_yes():
    wide = {"wire": "network", "width": 7680, "height": 4320, "control": "no", "network_mbps": 9400}
    assert run(**wide, refresh=60)[0].verdict.word == "yes"
    answer, figures = run(**wide, refresh=240)
    assert (figures["best"], answer.verdict.word) == ("a stream by wire", "depends")
    assert "No level of the usual codecs" in answer.verdict.reason


def test_a_wire_that_was_measured_and_may_not_be_laid_is_told():
    def titles(**inputs):
        return [note.title for note in run(**inputs)[0].notes]

    assert titles(wire="none", network_mbps="wire-1000")[0] == "There is a wire, then"
    assert titles(wire="none", network_mbps=900, measured_over="wire")[0] == "There is a wire, then"
    for other in ({"wire": "none", "network_mbps": 900}, {"wire": "network", "network_mbps": "wire-1000"}):
        assert "There is a wire, then" not in titles(**other)


def test_each_way_for_the_hand_says_what_it_adds():
    hands = run()[0].tables[-1]
    place = [column.label for column in hands.columns].index("Reaches, and adds")
    assert [row[place].rpartition("; ")[2] for row in hands.rows] == ["0 to 1 ms", "0 to 1 ms", "1 to 20 ms"]


@pytest.mark.parametrize("choice", ["air-near", "air-wall", "air-mesh"])
def test_an_everyday_choice_is_no_measurement_of_the_air(choice):
    film = {"wire": "none", "width": 1280, "height": 720, "use": "film", "control": "no"}
    answer, _ = run(**film, distance_m=10, network_mbps=choice)
    assert (answer.verdict.word, answer.verdict.reason) == ("depends", "Nobody has measured the air there yet.")
    assert run(**film, distance_m=10, network_mbps=20, measured_over="air")[0].verdict.word == "yes"
    assert run(**film, distance_m=300, network_mbps=choice)[0].verdict.word == "no"


def test_what_was_only_chosen_is_not_said_to_be_measured():
    film = {"wire": "network", "use": "film", "control": "no"}
    assert run(**film, network_mbps="wire-1000")[0].verdict.reason.startswith("Such a wired network has room")
    assert run(**film, network_mbps=900)[0].verdict.reason.startswith("What was measured has room")
