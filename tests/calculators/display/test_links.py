"""What links carry and what fits them: published payloads and pairs, every rule at its edge, what to give up."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.errors import InputErrors
from calculators.display.links.compromises import ORDERS, Wish, best_offer, offers, together
from calculators.trade.links.link_rates import (
    DISPLAYPORT,
    FIXED_RATE,
    LINKS,
    TMDS,
    bits_a_pixel,
    character_clock,
    compressed_bits,
    line_coded_bits,
    link,
    needed_bits,
    payload_bits,
    usable_bits,
)
from calculators.trade.modes.modes import mode

VALUES = Path(__file__).parents[2] / "check_values"
PUBLISHED = tomllib.loads((VALUES / "link_payloads.toml").read_text("utf-8"))

HALF_OF_SECOND_DECIMAL = 0.005 + 1e-9
HALF_OF_FIRST_DECIMAL = 0.05 + 1e-9


def run(**given: object):
    return find("display.link").run(given).answer


def note(answer, title: str) -> str:
    return next(n.text for n in answer.notes if n.title == title)


def values(answer) -> dict[str, float | str]:
    return {f.key: f.value for f in answer.figures}


@pytest.mark.parametrize(("key", "lanes", "gb_s"), PUBLISHED["payloads"])
def test_published_payloads(key, lanes, gb_s):
    assert payload_bits(link(key), lanes).value / 1e9 == pytest.approx(gb_s, abs=HALF_OF_SECOND_DECIMAL)
    found = values(run(link=key, lanes=lanes, width=640, height=480))
    assert found["payload_gb_s"] == pytest.approx(gb_s, abs=HALF_OF_SECOND_DECIMAL)


@pytest.mark.parametrize(("key", "coded", "corrected", "usable"), PUBLISHED["fixed"])
def test_published_payloads_of_the_fixed_rate_link(key, coded, corrected, usable):
    one = link(key)
    assert line_coded_bits(one, 4).value / 1e9 == pytest.approx(coded, abs=HALF_OF_SECOND_DECIMAL)
    assert payload_bits(one, 4).value / 1e9 == pytest.approx(corrected, abs=HALF_OF_FIRST_DECIMAL)
    assert usable_bits(one).value / 1e9 == pytest.approx(usable, abs=HALF_OF_FIRST_DECIMAL)


@pytest.mark.parametrize(
    ("width", "height", "refresh", "depth", "sampling", "blanking", "key", "verdict", "needed"), PUBLISHED["pairs"]
)
def test_known_pairs(width, height, refresh, depth, sampling, blanking, key, verdict, needed):
    answer = run(
        width=width, height=height, refresh=refresh, depth=depth, sampling=sampling, blanking=blanking, link=key
    )
    assert answer.verdict.word == verdict
    assert values(answer)["needed_gb_s"] == pytest.approx(needed, abs=HALF_OF_SECOND_DECIMAL)


@pytest.mark.parametrize(("depth", "sampling", "mhz"), PUBLISHED["character_clocks"])
def test_published_character_clocks(depth, sampling, mhz):
    clock = mode(3840, 2160, 60, "cta").clock
    assert character_clock(clock, sampling, depth).value / 1e6 == mhz


def test_the_three_numbers_of_a_figure_agree():
    found = values(run(refresh=120, blanking="cvt-rb2"))
    assert found["used_percent"] == pytest.approx(100 * found["needed_gb_s"] / found["payload_gb_s"])
    assert found["headroom_percent"] == pytest.approx(100 - found["used_percent"])
    assert found["pixel_clock_mhz"] == 1075.804


def test_the_real_edge_is_called_an_edge_with_both_numbers():
    answer = run(refresh=120, blanking="cvt-rb2", link="dp-hbr3")
    assert "25.82 Gb/s of 25.92 Gb/s" in answer.verdict.reason
    assert "0.6 %" in note(answer, "What decides")


def test_fixed_rate_names_both_ends_of_what_it_cannot_know():
    answer = run(width=7680, height=4320, refresh=60, depth=10, sampling="420", blanking="cta", link="hdmi-frl-40")
    assert answer.verdict.word == "depends"
    assert "Between 29.86 Gb/s for the picture alone and 35.64 Gb/s" in note(answer, "What decides")
    assert "29.86 Gb/s" in answer.verdict.reason
    assert "35.64 Gb/s" in answer.verdict.reason


def test_the_published_pair_is_carried_although_clock_times_bits_is_too_much():
    answer = run(refresh=120, depth=10, blanking="cta", link="hdmi-frl-40")
    found = values(answer)
    assert found["needed_gb_s"] > found["payload_gb_s"] > found["active_gb_s"]
    assert "35.64 Gb/s, against 34.8 Gb/s" in note(answer, "What decides")
    assert run(refresh=100, depth=10, blanking="cta", link="hdmi-frl-40").verdict.word == "depends"


@pytest.mark.parametrize("depth", [8, 10, 12])
def test_hdmi_spends_24_bits_on_422_and_displayport_16_20_24(depth):
    assert bits_a_pixel(link("hdmi-frl-48"), "422", depth) == bits_a_pixel(link("hdmi-tmds-600"), "422", depth) == 24
    assert bits_a_pixel(link("dp-hbr3"), "422", depth) == 2 * depth


def test_compression_takes_error_correction_off_8b10b_links_only():
    assert payload_bits(link("dp-hbr3"), 4, True).value == pytest.approx(25.92e9 * 0.976)
    for key in ("dp-uhbr10", "hdmi-frl-48", "hdmi-tmds-600"):
        assert payload_bits(link(key), 4, True) == payload_bits(link(key), 4, False)


@pytest.mark.parametrize(
    ("given", "word"),
    [
        ({"refresh": 144, "depth": 10, "blanking": "cvt-rb2", "compressed": "yes"}, "depends"),  # only compressed
        ({"refresh": 120, "blanking": "cvt-rb2", "compressed": "yes"}, "depends"),  # 25.82 of 25.30
        ({"refresh": 60, "compressed": "yes"}, "yes"),
        ({"refresh": 60, "depth": 10, "link": "hdmi-tmds-600", "compressed": "yes"}, "no"),  # TMDS has none
        ({"width": 7680, "height": 4320, "refresh": 120, "blanking": "cta", "compressed": "yes"}, "no"),
    ],
)
def test_compression_makes_it_depend(given, word):
    assert run(**given).verdict.word == word


def test_not_sure_of_the_blanking_takes_the_television_timing_over_hdmi_and_a_reduced_one_else():
    assert values(run(link="hdmi-tmds-600"))["pixel_clock_mhz"] == 594.0
    assert values(run(link="dp-hbr3"))["pixel_clock_mhz"] == 533.25
    assert values(run(link="hdmi-tmds-600", width=2560, height=1440))["pixel_clock_mhz"] == 241.5


def test_every_link_is_in_the_drawing_and_the_table_and_says_its_cable():
    answer = run()
    every = answer.tables[-1]
    assert [row[0] for row in every.rows] == [one.name for one in LINKS]
    assert all(row[3] for row in every.rows)
    for one in LINKS:
        assert one.name.replace(",", " of") in answer.drawings[0].description


def test_a_version_number_is_said_to_promise_no_rate():
    assert any("promises no rate" in note.text for note in run().notes)


SIZES = st.sampled_from(
    [(1920, 1080), (2560, 1440), (3840, 2160), (5120, 2880), (7680, 4320), (3440, 1440), (1366, 768), (640, 480)]
)
WISHES = st.builds(
    lambda size, refresh, depth, sampling, blanking, compressed, key, lanes: Wish(
        *size, refresh, depth, sampling, blanking, compressed, link(key), lanes
    ),
    SIZES,
    st.sampled_from([24.0, 59.94, 60.0, 120.0, 144.0, 165.0, 240.0, 480.0]),
    st.sampled_from([8, 10, 12]),
    st.sampled_from(["rgb", "444", "422", "420"]),
    st.sampled_from(["usual", "cvt", "cvt-rb", "cvt-rb2"]),
    st.booleans(),
    st.sampled_from([one.key for one in LINKS]),
    st.sampled_from([1, 2, 4]),
)


def _published_as_carried(wish, listed):
    """HDMI Forum: 3840×2160 at 120 with 10 bits at 40 Gb/s, with 12 at 48, in CTA-861's timing at full colour."""
    bits = {10: 40, 12: 48}.get(wish.depth)
    full = wish.sampling in ("rgb", "444") and listed
    size = (wish.width, wish.height, wish.refresh) == (3840, 2160, 120)
    return bits is not None and full and size and wish.link.lane_mbps * wish.link.lanes >= bits * 1000


@example(Wish(3840, 2160, 120.0, 10, "rgb", "usual", False, link("hdmi-frl-40"), 1))
@example(Wish(3840, 2160, 120.0, 12, "444", "usual", False, link("hdmi-frl-40"), 1))
@given(WISHES)
@settings(max_examples=200)
def test_property_the_verdict_follows_the_rule_of_its_kind_of_link(wish):
    made, one = wish.mode(), wish.link
    found = wish.fit()
    clock = made.clock_mhz * 1e6
    bits = {"rgb": 3 * wish.depth, "444": 3 * wish.depth, "420": 1.5 * wish.depth}.get(
        wish.sampling, 2 * wish.depth if one.family == DISPLAYPORT else 24
    )
    needed, payload = clock * bits, found.payload.value
    assert found.needed.value == pytest.approx(needed)
    span = wish.untold(made)
    least, most = (span.least.value / clock, span.most.value / clock) if span else (1.0, 1.0)
    if one.dvi and (wish.sampling != "rgb" or wish.depth > 8):
        return  # DVI's own limits come before any rate: see below
    if one.family == TMDS:
        character = clock * bits / 24
        limit = one.lane_mbps * 1e6
        expected = "yes" if character * most <= limit else "no" if character * least > limit else "depends"
    elif one.family == DISPLAYPORT:
        expected = "no" if needed * least > payload else "depends" if needed * most * 1.006 > payload else "yes"
    elif _published_as_carried(wish, made.format is not None):
        expected = "yes"
    else:
        expected = "yes" if needed <= found.usable.value else "no" if found.active.value > payload else "depends"
    if wish.compressed and one.family != TMDS and expected == "no":
        expected = "depends" if compressed_bits(made.clock, wish.sampling).value * least <= payload else "no"
    assert found.word == expected


@given(WISHES, st.sampled_from(list(ORDERS)))
@settings(max_examples=150)
def test_property_what_is_given_up_asks_less_and_is_ranked(wish, use):
    made = offers(wish, use)
    order = [ORDERS[use].index(offer.key) for offer in made]
    assert order == sorted(order)
    before = wish.fit().needed.value
    for offer in made:
        assert offer.costs
        assert offer.fit == offer.wish.fit()
        assert offer.fit.needed.value < before or offer.fit.compressed is not None
    best = best_offer(made)
    if best is None:
        assert all(offer.fit.word == "no" for offer in made)
        several = together(wish, use)
        if several:
            assert several[1].fit.word != "no"
    elif best.key == "compression" and best.fit.kind == "compressed":
        assert not [o for o in made[: made.index(best)] if o.fit.word == "yes"]
    elif best.fit.word == "depends":
        assert not [o for o in made if o.fit.word == "yes"]
    else:
        assert best == next(o for o in made if o.fit.word == "yes")


def test_what_fits_needs_nothing_given_up():
    assert [t.title for t in run().tables] == ["The same mode on every link"]


@pytest.mark.parametrize(("use", "first"), [("text", "8 bits"), ("film", "24 Hz"), ("games", "8 bits")])
def test_what_to_give_up_first_depends_on_what_the_screen_is_for(use, first):
    given = {"refresh": 60, "depth": 10, "blanking": "cta", "link": "hdmi-tmds-600", "use": use}
    assert values(run(**given))["give_up_first"] == first


def test_no_mode_of_a_family_needs_more_on_a_faster_link_of_it():
    for family in (DISPLAYPORT, TMDS, FIXED_RATE):
        clock = mode(2560, 1440, 144, "cvt-rb").clock
        needs = {needed_bits(clock, one, "rgb", 10).value for one in LINKS if one.family == family}
        assert len(needs) == 1


# DVI: RGB alone, eight bits on one link, more only on the second. DVI 1.0, from memory.
@pytest.mark.parametrize(
    ("given", "word"),
    [
        ({"width": 1920, "height": 1200, "link": "dvi-single"}, "yes"),
        ({"width": 2560, "height": 1440, "link": "dvi-single"}, "no"),
        ({"width": 2560, "height": 1600, "link": "dvi-dual"}, "yes"),
        ({"width": 3840, "height": 2160, "link": "dvi-dual"}, "no"),
        ({"width": 1920, "height": 1080, "refresh": 144, "link": "dvi-dual"}, "depends"),
        ({"width": 1920, "height": 1080, "depth": 10, "link": "dvi-single"}, "no"),
        ({"width": 1920, "height": 1080, "depth": 10, "link": "dvi-dual"}, "depends"),
        ({"width": 1920, "height": 1080, "sampling": "422", "link": "dvi-dual"}, "no"),
    ],
)
def test_dvi_carries_rgb_to_165_and_330_mhz(given, word):
    assert run(**given).verdict.word == word


@pytest.mark.parametrize(
    ("key", "gb_s"), [("usb-c-2", 12.96), ("usb-c-4", 25.92), ("dvi-single", 3.96), ("dvi-dual", 7.92)]
)
def test_usb_c_and_dvi_have_their_lanes_in_the_name(key, gb_s):
    for lanes in (1, 4):
        assert values(run(link=key, lanes=lanes, width=640, height=480))["payload_gb_s"] == pytest.approx(gb_s)


# As many boxes say and people ask: each name leads to one exact limit.
@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ("HDMI, the box says 2.0 (at most 600 MHz)", "hdmi-tmds-600"),
        ("DisplayPort, the box says 1.4 (at most HBR3)", "dp-hbr3"),
        ("not sure", "unsure"),
        ("unsure", "unsure"),
    ],
)
def test_links_are_named_as_boxes_name_them(typed, key):
    assert find("display.link").run({"link": typed}).values["link"] == key


def test_every_rate_can_be_chosen_by_its_everyday_name_and_no_name_twice():
    entry = next(e for e in find("display.link").inputs if e.key == "link")
    assert {o.value for o in entry.options} >= {one.key for one in LINKS} | {"unsure"}
    names = [name for o in entry.options for name in o.names]
    assert len(set(names)) == len(names)
    by_name = {name: o.value for o in entry.options for name in o.names}
    assert (by_name["hdmi 2.0"], by_name["dp 1.4"], by_name["48gbps"]) == ("hdmi-tmds-600", "dp-hbr3", "hdmi-frl-48")
    assert not any("2k" in name for name in names)
    with_a_rate = [name for o in entry.options if not o.vague for name in o.names]
    assert by_name["hdmi 2.1"] == "hdmi-no-speed"
    assert not any("hdmi 2.1" in name for name in with_a_rate), "that version names no rate"


@pytest.mark.parametrize("open_link", ["unsure", "hdmi-no-speed", "dp-no-speed"])
@pytest.mark.parametrize("mode", [{}, {"width": 7680, "height": 4320, "refresh": 240}, {"width": 640, "height": 480}])
def test_a_link_that_is_not_known_depends_and_says_what_to_look_for(open_link, mode):
    answer = run(link=open_link, **mode)
    assert answer.verdict.word == "depends"
    assert answer.steps_title == "Find out which link you have"
    assert "payload_gb_s" not in values(answer)
    if open_link != "unsure":
        assert "fixes no speed" in answer.verdict.reason


def test_which_links_are_enough_where_the_link_is_not_known():
    found = values(run(link="unsure", refresh=60, depth=10))
    assert (found["enough_displayport"], found["enough_hdmi"]) == ("DisplayPort HBR2", "HDMI fixed rate, 24 Gb/s")
    assert "enough_displayport" not in values(run(link="hdmi-no-speed", refresh=60, depth=10))


def test_what_no_display_takes_is_refused():
    with pytest.raises(InputErrors, match="no display takes less than about 5 MHz"):
        run(width=64, height=64, refresh=10)


@pytest.mark.parametrize("one", ["unsure", "hdmi-no-speed", "hdmi-tmds-600", "dp-hbr3", "hdmi-frl-48", "dvi-single"])
def test_what_a_slowed_rate_means_is_said_whatever_the_link(one):
    answer = run(link=one, refresh=59.94)
    told = [note.text for note in answer.notes] + [line.numbers for line in answer.working]
    assert any("60 × 1000/1001" in text for text in told)


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"link": "hdmi-tmds-600"}, "HDMI 2.0 (600 MHz)"),
        ({"link": "hdmi-tmds-340"}, "HDMI 1.4 (340 MHz)"),
        ({"link": "hdmi-frl-48"}, "HDMI at 48 Gb/s"),
        ({"link": "dp-hbr3"}, "DisplayPort 1.4 (HBR3)"),
        ({"link": "dp-hbr2", "lanes": "2"}, "DisplayPort 1.2 (HBR2) on two lanes"),
        ({"link": "dp-uhbr10"}, "DisplayPort UHBR10"),
        ({"link": "usb-c-2"}, "USB-C with two lanes"),
    ],
)
def test_headlines_name_a_link_as_people_know_it_with_the_exact_rate(given, said):
    """'HDMI TMDS at 600 MHz' and 'HDMI fixed rate, 48 Gb/s' stand on no box."""
    result = find("display.link").run(given)
    assert said in result.answer.headline
    assert said in result.worked_for()
    assert "TMDS" not in result.answer.headline
    assert "fixed rate," not in result.answer.headline


def test_where_the_link_is_open_the_names_are_the_everyday_ones():
    said = find("display.link").run({"width": 1920, "height": 1080, "refresh": 240, "link": "unsure"}).answer.headline
    assert said == (
        "1920×1080 at 240 Hz, 8-bit RGB is sure to fit from DisplayPort 1.2 (HBR2) or HDMI at fixed 18 Gb/s upwards."
    )


def test_a_verdict_does_not_say_the_same_words_twice():
    for key in ("hdmi-frl-40", "dp-hbr3"):
        given = {"refresh": 240, "depth": "10", "link": key, "compressed": "yes"}
        verdict = find("display.link").run(given).answer.verdict
        assert not verdict.reason.startswith(verdict.said().rstrip("."))
        assert verdict.reason.startswith("Compressed it needs ")
