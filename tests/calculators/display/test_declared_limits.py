"""display.declared against the display's own stated limits, and what it must not overlook or make up."""

from __future__ import annotations

import pytest

from calculators.desk.as_text import as_text
from calculators.display.declared import calculator
from calculators.trade.edid.parser import read_declaration
from tests.calculators.display import declaration_builder as build

HDMI = {"revision": 3, "video_input": 0x80, "features": 0x0A}
UHD_30 = (297000, *build.UHD_60[1:])


def run(data: bytes, **more):
    return calculator.run({"declaration": data.hex(" "), **more})


def figures(result):
    return {f.key: f.value for f in result.answer.figures}


def step(result, key):
    return next(s for s in result.answer.steps if s.key == key)


def note(result, title):
    return next((n.text for n in result.answer.notes if n.title == title), "")


def television(*, tmds: int, codes=(97, 95, 16), deep: int = 0x10, fixed: int = 0, map_420: int | None = None) -> bytes:
    """A television with an HDMI limit, its preferred mode 3840×2160 at 30."""
    blocks = [build.formats(*codes), build.first_hdmi(min(tmds, 340), deep), build.second_hdmi(tmds, fixed)]
    if map_420 is not None:
        blocks.append(build.extended_block(15, bytes([map_420])))
    return build.base([build.detailed(UHD_30)], extensions=1, **HDMI) + build.cta(blocks)


# HDMI 2.0's limit is a character clock: 594 MHz with 8 bits, 742.5 with 10 (check_values/link_payloads.toml)
def test_bits_that_the_stated_clock_does_not_carry_are_not_advised():
    result = run(television(tmds=600))
    assert "60 Hz" in step(result, "mode").do[1]
    bits = step(result, "depth")
    assert bits.title == "Bits a channel: 8"
    assert "742.5 MHz, above the 600 MHz" in bits.why
    assert "4:2:2 with 12 bits" in bits.otherwise
    assert "30 Hz" in bits.otherwise


def test_a_fixed_rate_link_carries_what_the_clock_does_not():
    assert step(run(television(tmds=600, fixed=5)), "depth").title == "Bits a channel: 10"


def test_rgb_that_the_stated_clock_does_not_carry_is_not_advised():
    result = run(television(tmds=300, map_420=0b1))
    assert "60 Hz" in step(result, "mode").do[1]
    assert step(result, "sampling").title == "Colour format: Y′CbCr 4:2:0"
    assert "300 MHz" in step(result, "sampling").why


def test_formats_above_the_declared_clock_are_flagged_and_not_chosen():
    result = run(television(tmds=300))
    assert "30 Hz" in step(result, "mode").do[1]
    assert "60 Hz too, which is more than the 300 MHz" in step(result, "mode").why
    assert "3840 × 2160 at 60 Hz" in note(result, "Listed beyond its own limits")
    assert note(run(television(tmds=600)), "Listed beyond its own limits") == ""


def test_a_detailed_timing_above_the_clock_of_the_refresh_range_is_flagged():
    data = build.base([build.detailed(build.QHD_60_REDUCED), build.range_limits(48, 144, 300)], extensions=1)
    data += build.displayid([build.displayid_block(0x22, build.long_timing(build.QHD_144))])
    result = run(data)
    assert "above the 300 MHz" in note(result, "Listed beyond its own limits")
    assert "above the 300 MHz" in step(result, "mode").otherwise


def test_hdmi_s_limit_in_a_displayport_declaration_takes_nothing_away():
    data = build.base([build.detailed(build.UHD_60)], extensions=1) + build.cta(
        [build.formats(97), build.first_hdmi(300)]
    )
    result = run(data)
    assert "60 Hz" in step(result, "mode").do[1]
    assert "does not count" in note(result, "Listed beyond its own limits")


@pytest.mark.parametrize(
    ("code", "words"), [(225, "Perhaps 97 is meant, 3840×2160 at 60"), (0, ""), (128, ""), (254, "")]
)
def test_a_phantom_format_code_is_flagged(code, words):
    data = build.base([build.detailed(build.UHD_60)], extensions=1) + build.cta([build.formats(16, code)])
    text = note(run(data), "Where it breaks the rules")
    assert f"Format code {code} " in text
    assert words in text
    assert [m.vic for m in read_declaration(data).modes if m.vic] == [16]


def test_the_preferred_mode_of_displayid_is_kept():
    fast = build.displayid([build.displayid_block(0x22, build.long_timing(build.UHD_144, preferred=True))])
    alone = run(build.base(extensions=1) + fast)
    assert figures(alone)["preferred_refresh"] == pytest.approx(1_332_280_000 / (3920 * 2360))
    assert "DisplayID's is taken" in note(alone, "Where it breaks the rules")
    both = run(build.base([build.detailed(build.UHD_60_REDUCED)], extensions=1) + fast)
    assert figures(both)["preferred_refresh"] == pytest.approx(59.997, abs=0.001)
    assert "DisplayID prefers 3840 × 2160 at 144.01 Hz" in note(both, "More than the preferred mode")


def test_bt_2020_and_pq_of_the_interface_features_are_read():
    head = build.base([build.detailed(build.UHD_60)], extensions=1)
    found = figures(run(head + build.displayid([build.interface_features(0x40)])))
    assert (found["hdr_pq"], found["bt_2020"]) == (1, 1)
    further = read_declaration(head + build.displayid([build.interface_features(0, [(6, 9), (5, 8)])]))
    assert (further.transfers, further.wide_colour) == (["HLG", "PQ"], ["BT.2020 RGB", "DCI-P3"])
    assert step(run(head + build.displayid([build.interface_features(0x40)])), "hdr").title != "HDR: off"


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (build.base([build.detailed(build.UHD_60)], features=0x03), "any refresh within its range"),
        (
            build.base([build.detailed(build.UHD_60)], extensions=1)
            + build.displayid([build.dynamic_range(48, 240, 1_400_000, seamless=True)]),
            "48 to 240 Hz without a break",
        ),
        (
            build.base([build.detailed(build.UHD_60)], extensions=1)
            + build.cta([build.second_hdmi(600, 6, vrr=(48, 120))]),
            "48 to 120 Hz over HDMI",
        ),
    ],
)
def test_facts_of_variable_refresh_are_read(data, words):
    result = run(data)
    assert figures(result)["variable_refresh"] == 1
    facts = {row[0]: row[1] for row in result.answer.tables[0].rows}
    assert words in facts["Refresh that varies"]


def test_no_size_is_chosen_that_is_not_listed():
    head = build.base([build.detailed(build.QHD_60_REDUCED)], extensions=1)
    result = run(head + build.displayid([build.parameters(5120, 2880)]))
    assert step(result, "mode").do[0] == "Choose 2560 × 1440."
    assert "5120 × 2880, but it lists no mode of that size" in step(result, "mode").why
    listed = run(head + build.displayid([build.parameters(2560, 1440)]))
    assert "so nothing is scaled" in step(listed, "mode").why


def test_a_tiled_display_is_told_from_a_half_one():
    half_uhd = (277250, (1920, 48, 32, 2080), (2160, 3, 10, 2222))
    head = build.base([build.detailed(half_uhd)], extensions=1)
    tiled = run(head + build.displayid([build.tiles(2, 1, 1920, 2160, alone=2)]))
    text = note(tiled, "One tile of a larger display")
    assert "2 × 1 tiles of 1920 × 2160, 3840 × 2160 in all" in text
    assert "spreads its picture over the whole" in text
    assert note(tiled, "This may be half of your display") == ""
    half = run(build.base([build.detailed(half_uhd)]))
    assert "1920 × 2160 is half of 3840 × 2160" in note(half, "This may be half of your display")
    assert note(run(build.base([build.detailed(build.UHD_60)])), "This may be half of your display") == ""


def test_of_what_was_not_read_nobody_says_that_it_changes_nothing():
    data = build.base([build.detailed(build.UHD_60)], extensions=1) + build.displayid(
        [build.displayid_block(0x7E, bytes(9))]
    )
    text = note(run(data), "Found and not read")
    assert "is not in this answer" in text
    assert "changes" not in text


def test_over_displayport_it_says_full_then_look():
    data = build.base([build.detailed(build.UHD_60)])
    result = run(data)
    assert step(result, "range").title == "RGB range: full, then look"
    assert figures(result)["rgb_range_default"] == "limited"  # CTA-861's rule, for programs
    assert "RGB range by default" not in as_text(result)
    hdmi = run(build.base([build.detailed(build.UHD_60)], extensions=1, **HDMI) + build.cta([build.first_hdmi(600)]))
    assert step(hdmi, "range").title == "RGB range: automatic, which is limited here"
    assert "RGB range by default: limited" in as_text(hdmi)


@pytest.mark.parametrize("typed", [59.94, 23.98, 119.88])
def test_the_refresh_in_use_is_read_like_every_rate(typed):
    result = run(build.television(), mode_width=3840, mode_height=2160, mode_refresh=typed, mode_blanking="cta")
    assert figures(result)["television_format"] == 1
