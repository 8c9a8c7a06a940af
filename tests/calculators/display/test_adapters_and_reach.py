"""Adapters by direction, cables by length: published limits at their edges, and words that must be there."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.errors import InputErrors
from calculators.display.adapters.adapter_rules import DUAL_MODE_1_MHZ, DUAL_MODE_2_MHZ, NAMES, TMDS_MHZ, choose
from calculators.trade.links.cable_reach import KINDS, kinds_for, reach
from calculators.trade.links.link_rates import LINKS
from calculators.trade.modes.mode_text import ModeText, read_mode, write_mode


def adapter(**given: object):
    return find("display.adapter").run(given).answer


@pytest.mark.parametrize(
    ("source", "display", "mode", "kind", "word"),
    [
        ("displayport", "hdmi", "1920x1080@60", "passive", "yes"),
        ("displayport", "hdmi", "3840x2160@30", "passive", "yes"),
        ("displayport", "hdmi", "3840x2160@60", "active", "yes"),
        ("displayport", "hdmi", "3840x2160@120", "active", "depends"),
        ("hdmi", "displayport", "1920x1080@60", "active", "yes"),
        ("hdmi", "displayport", "3840x2160@120", "active", "depends"),
        ("usb-c", "displayport", "3840x2160@60", "passive", "depends"),
        ("usb-c", "hdmi", "3840x2160@60", "active", "depends"),
        ("displayport", "usb-c", "3840x2160@60", "active", "depends"),
        ("hdmi", "usb-c", "1920x1080@60", "active", "depends"),
        ("usb-c", "usb-c", "3840x2160@60", "cable", "depends"),
        ("hdmi", "hdmi", "3840x2160@60", "cable", "yes"),
        ("displayport", "displayport", "3840x2160@60", "cable", "yes"),
    ],
)
def test_every_direction(source, display, mode, kind, word):
    answer = adapter(**{"from": source, "to": display, "mode": mode})
    assert (answer.figures[0].value, answer.verdict.word) == (kind, word)


@pytest.mark.parametrize(
    ("source", "display", "mode", "kind", "word"),
    [
        ("displayport", "dvi-single", "1920x1200@60", "passive", "yes"),
        ("displayport", "dvi-dual", "2560x1600@60", "active", "yes"),
        ("displayport", "dvi-single", "2560x1440@60", "none", "no"),
        ("hdmi", "dvi-single", "1920x1080@60", "passive", "yes"),
        ("hdmi", "dvi-dual", "2560x1440@60", "active", "depends"),
        ("dvi-single", "hdmi", "1920x1080@60", "passive", "yes"),
        ("dvi-dual", "hdmi", "2560x1440@60", "passive", "depends"),
        ("dvi-dual", "dvi-dual", "2560x1600@60", "cable", "yes"),
        ("dvi-dual", "dvi-single", "2560x1600@60", "none", "no"),
        ("dvi-dual", "displayport", "3840x2160@60", "none", "no"),
        ("displayport", "vga", "1920x1080@60", "active", "yes"),
        ("displayport", "vga", "2560x1440@60", "active", "depends"),
        ("hdmi", "vga", "3840x2160@60", "none", "no"),
        ("vga", "hdmi", "1920x1080@60", "active", "yes"),
        ("dvi-dual", "vga", "1920x1080@60", "passive", "depends"),
        ("vga", "vga", "1920x1080@60", "cable", "yes"),
        ("unsure", "hdmi", "1920x1080@60", "unsure", "depends"),
        ("displayport", "unsure", "1920x1080@60", "unsure", "depends"),
    ],
)
def test_dvi_vga_and_not_sure(source, display, mode, kind, word):
    answer = adapter(**{"from": source, "to": display, "mode": mode})
    assert (answer.figures[0].value, answer.verdict.word) == (kind, word)


def test_every_pair_of_sockets_has_an_answer_in_few_words():
    for source in NAMES:
        for display in NAMES:
            for mhz in (25.0, 165.0, 165.5, 200.0, 330.0, 350.0, 594.0, 1188.0):
                found = choose(source, display, mhz)
                assert found.buy
                assert found.check
                assert len(found.reason.split()) <= 15, found.reason


def test_dvi_and_vga_take_eight_bits_whatever_was_asked():
    ten = adapter(**{"from": "hdmi", "to": "dvi-single", "mode": "1920x1080@60", "depth": 10})
    assert (ten.verdict.word, ten.figures[1].value) == ("yes", 148.5)


def test_a_mode_below_any_displays_is_refused_at_its_input():
    with pytest.raises(InputErrors) as caught:
        adapter(mode="64x64@10")
    assert caught.value.problems[0].input == "mode"


def test_dual_mode_limits_are_165_and_300_mhz_and_hdmi_ends_at_600():
    assert (DUAL_MODE_1_MHZ, DUAL_MODE_2_MHZ, TMDS_MHZ) == (165, 300, 600)
    assert [choose("displayport", "hdmi", mhz).kind for mhz in (300, 300.001)] == ["passive", "active"]
    assert [choose("displayport", "hdmi", mhz).word for mhz in (600, 600.001)] == ["yes", "depends"]
    assert "type 2" in choose("displayport", "hdmi", 166).reason


def test_more_bits_may_need_an_active_adapter():
    eight = adapter(mode="3840x2160@30", depth=8)
    ten = adapter(mode="3840x2160@30", depth=10)
    assert (eight.figures[0].value, ten.figures[0].value) == ("passive", "active")


def test_the_usual_cable_is_said_not_to_work_backwards():
    assert "does not work backwards" in adapter(**{"from": "hdmi", "to": "displayport"}).verdict.reason


def test_usb_c_always_asks_whether_the_socket_puts_out_a_picture():
    for display in NAMES:
        assert "put out a picture" in choose("usb-c", display, 594.0).check


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("3840x2160@60", ModeText(3840, 2160, 60.0)),
        ("2560 × 1440 at 144 Hz", ModeText(2560, 1440, 144.0)),
        ("1920*1080 59,94", ModeText(1920, 1080, 59.94)),
        ("1920X1080/50p", ModeText(1920, 1080, 50.0)),
    ],
)
def test_modes_as_people_type_them(typed, read):
    assert read_mode(typed) == read


@pytest.mark.parametrize("typed", ["3840x2160", "fast", "3840x2160@", "@60", "38402160@60", "1x1@60"])
def test_what_is_no_mode_is_refused_with_an_example(typed):
    with pytest.raises(InputErrors) as caught:
        adapter(mode=typed)
    assert "a width, a height and a refresh, such as 3840x2160@60" in caught.value.problems[0].message


def test_numbers_out_of_range_are_named():
    with pytest.raises(InputErrors, match="the refresh goes from 10 to 1000 Hz"):
        adapter(mode="1920x1080@5")
    with pytest.raises(InputErrors, match="width and height go from 64 to 16384"):
        adapter(mode="20000x1080@60")


@given(st.integers(64, 16384), st.integers(64, 16384), st.integers(10_000_000, 1_000_000_000))
def test_round_trip_of_modes(width, height, millionths):
    mode = ModeText(width, height, millionths / 1_000_000)
    assert read_mode(write_mode(mode)) == mode


def test_every_link_has_a_reach_that_grows_with_the_kind_and_shrinks_with_the_rate():
    for one in LINKS:
        spans = [getattr(reach(one.key), kind) for kind in KINDS]
        there = [s for s in spans if s is not None]
        assert all(0 < s.low_m <= s.high_m for s in there)
        assert [s.high_m for s in there] == sorted(s.high_m for s in there)
    for kind in {(one.family, one.dvi) for one in LINKS}:
        passive = [reach(one.key).passive for one in LINKS if (one.family, one.dvi) == kind]
        assert [s.low_m for s in passive] == sorted((s.low_m for s in passive), reverse=True)


@pytest.mark.parametrize(
    ("key", "length", "word", "cable"),
    [
        ("hdmi-tmds-600", 2, "yes", "passive copper"),
        ("hdmi-tmds-600", 4, "yes", "active copper"),
        ("hdmi-tmds-600", 80, "depends", "optical"),
        ("hdmi-tmds-600", 200, "no", "none"),
        ("hdmi-frl-48", 60, "depends", "optical"),
        ("dp-hbr3", 100, "depends", "optical"),
        ("dvi-single", 3, "yes", "passive copper"),
        ("unsure", 3, "depends", "depends on the rate"),
        ("hdmi-no-speed", 80, "depends", "depends on the rate"),
        ("hdmi-frl-96", 1.5, "depends", "passive copper"),
        ("dp-uhbr20", 1, "yes", "passive copper"),
    ],
)
def test_which_cable_for_a_length(key, length, word, cable):
    answer = find("display.reach").run({"link": key, "length": length}).answer
    assert answer.verdict.word == word
    assert {f.key: f.value for f in answer.figures}["cable"] == cable


def test_optical_cables_beyond_50_m_are_possible_and_each_maker_s_own():
    beyond = find("display.reach").run({"link": "hdmi-frl-40", "length": 60}).answer
    assert beyond.verdict.said() == "Possible."
    assert "each maker states its own length" in beyond.cautions[0].text
    within = find("display.reach").run({"link": "hdmi-frl-40", "length": 20}).answer
    assert "each maker" not in within.cautions[0].text


@pytest.mark.parametrize("length", [1, 3, 5, 9, 40, 80, 300])
def test_every_headline_has_the_right_article(length):
    said = find("display.reach").run({"link": "hdmi-tmds-600", "length": length}).answer
    for sentence in (said.headline, said.verdict.reason):
        assert not {" a active", " a optical", " an passive"} & {f" {a} {b}" for a, b in pairwise(sentence.split())}


def test_every_length_has_its_standing_and_says_that_no_standard_fixes_it():
    table = find("display.reach").run({}).answer.tables[0]
    assert {row[2] for row in table.rows} <= {"certified category", "common practice"}
    assert "up to the maker" in table.note


@given(st.sampled_from([one.key for one in LINKS]), st.floats(0.1, 300))
def test_property_what_is_sure_may_do_too(key, length):
    may, sure = kinds_for(key, length)
    if sure:
        assert may
        assert KINDS.index(may) <= KINDS.index(sure)
        assert length <= getattr(reach(key), sure).low_m
    if not may:
        assert all(length > span.high_m for kind in KINDS if (span := getattr(reach(key), kind)))


@pytest.mark.parametrize("pair", [("dvi-dual", "dvi-dual"), ("displayport", "dvi-single"), ("hdmi", "vga")])
def test_more_bits_than_dvi_or_vga_carry_are_told(pair):
    """DVI 1.0: 8 bits a channel on one link."""
    given = {"from": pair[0], "to": pair[1], "mode": "1920x1080@60"}
    assert "bits" not in find("display.adapter").run({**given, "depth": "8"}).answer.verdict.reason
    assert "8 bits a channel, not the 10" in find("display.adapter").run({**given, "depth": "10"}).answer.verdict.reason


def test_a_dvi_socket_has_its_name_as_one_says_it():
    said = find("display.adapter").run({"from": "dvi-dual", "to": "dvi-single", "mode": "1920x1080@60"}).answer.headline
    assert said.startswith("Dual-link DVI to single-link DVI at ")


@pytest.mark.parametrize("link", ["unsure", "hdmi-no-speed", "dp-no-speed"])
@pytest.mark.parametrize(
    ("metres", "word", "says", "never"),
    [
        (10, "depends", "active copper or optical", ""),
        (40, "depends", "an optical cable", "active"),
        (70, "depends", "each maker states its own length", "active"),
        (150, "no", "no cable should be expected", "take an"),
    ],
)
def test_with_the_rate_not_known_only_cables_that_reach_are_named(link, metres, word, says, never):
    answer = find("display.reach").run({"link": link, "length": metres}).answer
    assert answer.verdict.word == word
    assert says in answer.headline
    assert not never or never not in answer.headline
