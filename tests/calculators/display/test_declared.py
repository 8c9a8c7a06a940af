"""display.declared: what is read from invented displays' declarations, and the settings that follow."""

from __future__ import annotations

import time
import tomllib
from base64 import b64encode
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.desk.as_html import as_html
from calculators.desk.as_json import as_json, dumps
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors
from calculators.desk.links import fragment
from calculators.display.declarations import examples
from calculators.display.declared import calculator
from calculators.trade.edid.base_block import detailed_timing
from calculators.trade.edid.cta_block import FIXED_RATES
from calculators.trade.edid.parser import read_declaration
from tests.calculators.display import declaration_builder as build

VALUES = Path(__file__).resolve().parents[2] / "check_values"
EXAMPLES = tomllib.loads((VALUES / "cta_861_example_timings.toml").read_text("utf-8"))
RATES = tomllib.loads((VALUES / "hdmi_fixed_rates.toml").read_text("utf-8"))


def run(data: bytes, **more):
    return calculator.run({"declaration": data.hex(" "), **more})


def figures(data: bytes, **more):
    return {f.key: f.value for f in run(data, **more).answer.figures}


def step(result, key):
    return next(s for s in result.answer.steps if s.key == key)


def note(result, title):
    return next((n.text for n in result.answer.notes if n.title == title), "")


def refused(raw):
    with pytest.raises(InputErrors) as caught:
        calculator.run(raw)
    return [(p.input, p.message) for p in caught.value.problems]


# Published


@pytest.mark.parametrize("row", EXAMPLES["rows"], ids=lambda row: f"{row[1]}x{row[2]}{'i' if row[3] else 'p'}")
def test_timings_that_cta_861_prints_as_examples(row):
    text, width, height, interlaced, h_total, v_total, clock_khz = row
    mode = detailed_timing(bytes.fromhex(text), "example")
    assert mode is not None
    assert (mode.width, mode.height, mode.interlaced) == (width, height, interlaced)
    assert (mode.h_total, mode.v_total, mode.clock_khz) == (h_total, v_total, clock_khz)


@pytest.mark.parametrize(("code", "lanes", "gb_s"), RATES["rows"])
def test_fixed_rates_by_their_code(code, lanes, gb_s):
    assert FIXED_RATES[code] == lanes * gb_s
    data = build.base([build.detailed(build.UHD_60)], extensions=1) + build.cta([build.second_hdmi(600, code)])
    assert figures(data)["max_fixed_rate_gb_s"] == lanes * gb_s


# What each invented display says


def test_the_desk_display():
    assert figures(build.desk_display()) == {
        "preferred_mode": "3840 × 2160 at 60 Hz",
        "preferred_width": 3840,
        "preferred_height": 2160,
        "preferred_refresh": pytest.approx(533_250_000 / (4000 * 2222)),
        "depth": 10,
        "rgb_range_selectable": 1,
        "rgb_range_default": "full",
        "television_format": 0,
        "ycbcr_444": 1,
        "ycbcr_422": 1,
        "ycbcr_420": 0,
        "hdr_pq": 1,
        "refresh_low": 48,
        "refresh_high": 144,
        "largest_width": 3840,
        "largest_height": 2160,
        "fastest_refresh": pytest.approx(1_332_280_000 / (3920 * 2360)),
        "blocks": 3,
        "checksums_wrong": 0,
    }


def test_the_mode_in_use_is_marked_with_its_own_timing_alone():
    table = next(t for t in run(build.desk_display()).answer.tables if t.title == "Modes it lists")
    assert [table.rows[i][:3] for i in table.marked] == [("3840 × 2160", "60", "computer")]
    typed = {"mode_width": 3840, "mode_height": 2160, "mode_refresh": 60}
    table = next(t for t in run(build.desk_display(), **typed).answer.tables if t.title == "Modes it lists")
    assert [table.rows[i][2] for i in table.marked] == ["television", "computer"]


def test_the_television():
    found = figures(build.television())
    assert (found["preferred_width"], found["preferred_height"], found["preferred_refresh"]) == (3840, 2160, 60)
    assert (found["television_format"], found["rgb_range_default"]) == (1, "limited")
    assert (found["ycbcr_444"], found["ycbcr_422"], found["ycbcr_420"]) == (1, 1, 1)
    assert (found["max_tmds_mhz"], found["max_fixed_rate_gb_s"]) == (600, 40)
    assert found["rgb_range_selectable"] == 1


def test_the_office_display_does_not_let_the_range_be_chosen():
    result = run(build.office_display())
    assert figures(build.office_display())["rgb_range_selectable"] == 0
    assert step(result, "range").title == "RGB range: automatic, which is limited here"
    assert "depth" not in figures(build.office_display())


def test_the_old_display_has_no_hdmi_block():
    result = run(build.old_display())
    assert "rgb_range_selectable" not in figures(build.old_display())
    assert "max_tmds_mhz" not in figures(build.old_display())
    assert "no HDMI block" in step(result, "range").why


def test_settings_come_in_their_order():
    keys = [s.key for s in run(build.television()).answer.steps]
    assert keys == ["mode", "sampling", "depth", "range", "hdr", "look"]


def test_the_presets_are_what_the_builder_builds():
    assert b64encode(build.desk_display()).decode() == examples.DESK
    assert b64encode(build.television()).decode() == examples.TELEVISION
    assert b64encode(build.office_display()).decode() == examples.OFFICE
    assert b64encode(build.old_display()).decode() == examples.OLD


# Bits


@pytest.mark.parametrize(("code", "bits"), [(1, 6), (2, 8), (3, 10), (4, 12), (5, 14), (6, 16)])
def test_bits_of_version_1_4_stand_in_the_base_block(code, bits):
    data = build.base([build.detailed(build.FULL_HD_60)], video_input=0x80 | code << 4 | 5)
    assert figures(data)["depth"] == bits


@pytest.mark.parametrize(("flags", "bits"), [(0x10, 10), (0x30, 12), (0x70, 16)])
def test_bits_of_version_1_3_come_from_the_deep_colour_flags(flags, bits):
    # in version 1.3 the same bits of the video input mean nothing: 0xB5 must not be read as ten bits
    head = build.base([build.detailed(build.FULL_HD_60)], revision=3, video_input=0xB5, extensions=1)
    assert figures(head + build.cta([build.first_hdmi(300, flags)]))["depth"] == bits


def test_without_any_bits_told_there_is_no_such_figure():
    data = build.base([build.detailed(build.FULL_HD_60)], video_input=0x80)
    assert "depth" not in figures(data)
    assert "does not say how many bits" in run(data).answer.headline


def test_bits_from_displayid_alone():
    parameters = bytes(28)[:27] + bytes([3, 0])
    data = build.base([build.detailed(build.FULL_HD_60)], video_input=0x80, extensions=1)
    assert figures(data + build.displayid([build.displayid_block(0x21, parameters)]))["depth"] == 10


# Sampling


def test_samplings_of_the_base_block_of_version_1_4():
    assert figures(build.base([build.detailed(build.FULL_HD_60)], features=0x1A))["ycbcr_422"] == 1
    found = figures(build.base([build.detailed(build.FULL_HD_60)], features=0x0A))
    assert (found["ycbcr_444"], found["ycbcr_422"], found["ycbcr_420"]) == (1, 0, 0)


def test_the_same_bits_mean_something_else_in_version_1_3():
    found = figures(build.base([build.detailed(build.FULL_HD_60)], revision=3, features=0x1A))
    assert (found["ycbcr_444"], found["ycbcr_422"]) == (0, 0)


@pytest.mark.parametrize("block", [build.extended_block(14, bytes([97])), build.extended_block(15, bytes([1]))])
def test_4_2_0_by_its_own_list_or_by_the_map(block):
    data = build.base([build.detailed(build.UHD_60)], extensions=1) + build.cta([build.formats(97), block])
    assert figures(data)["ycbcr_420"] == 1


def test_an_empty_map_means_every_listed_format_and_zeros_none():
    head = build.base([build.detailed(build.UHD_60)], extensions=1)
    assert figures(head + build.cta([build.formats(97), build.extended_block(15, b"")]))["ycbcr_420"] == 1
    assert figures(head + build.cta([build.formats(97), build.extended_block(15, b"\0")]))["ycbcr_420"] == 0


def test_the_map_counts_formats_over_several_lists():
    blocks = [build.formats(16, 4), build.formats(97, 96), build.extended_block(15, bytes([0b0100]))]
    found = read_declaration(build.base(extensions=1) + build.cta(blocks))
    assert [m.vic for m in found.modes if m.also_420] == [97]


def test_a_mode_in_4_2_0_only_asks_for_4_2_0():
    data = build.base([build.detailed(build.FULL_HD_60)], extensions=1)
    data += build.cta([build.formats(16), build.extended_block(14, bytes([97]))])
    result = run(data, mode_width=3840, mode_height=2160, mode_refresh=60)
    assert step(result, "sampling").title == "Colour format: Y′CbCr 4:2:0"
    assert step(run(data), "sampling").title == "Colour format: RGB"


# Range: by the timing, not by the resolution


def test_one_resolution_two_timings_two_defaults():
    tv, desk = (build.base([build.detailed(t)]) for t in (build.UHD_60, build.UHD_60_REDUCED))
    assert (figures(tv)["television_format"], figures(desk)["television_format"]) == (1, 0)
    assert (figures(tv)["rgb_range_default"], figures(desk)["rgb_range_default"]) == ("limited", "full")


def test_a_clock_divided_by_1_001_is_a_television_format_too():
    dropped = (148350, *build.FULL_HD_60[1:])
    assert figures(build.base([build.detailed(dropped)]))["television_format"] == 1


def test_a_clock_one_percent_away_is_none():
    off = (150000, *build.FULL_HD_60[1:])
    assert figures(build.base([build.detailed(off)]))["television_format"] == 0


def test_640_by_480_counts_as_a_computers():
    found = figures(build.base([build.detailed(build.VGA)]))
    assert (found["television_format"], found["rgb_range_default"]) == (0, "full")


@pytest.mark.parametrize(
    ("blanking", "default"), [("cta", "limited"), ("cvt-rb", "full"), ("cvt", "full"), ("cvt-rb2", "full")]
)
def test_a_typed_mode_goes_by_its_blanking(blanking, default):
    typed = {"mode_width": 1920, "mode_height": 1080, "mode_refresh": 60, "mode_blanking": blanking}
    found = figures(build.desk_display(), **typed)
    assert found["rgb_range_default"] == default
    assert found["preferred_width"] == 3840


def test_a_typed_mode_without_blanking_goes_by_what_is_listed():
    typed = {"mode_width": 1920, "mode_height": 1080, "mode_refresh": 59.94}
    assert figures(build.desk_display(), **typed)["television_format"] == 1
    both = {"mode_width": 3840, "mode_height": 2160, "mode_refresh": 60}
    result = run(build.desk_display(), **both)
    assert "rgb_range_default" not in {f.key for f in result.answer.figures}
    assert "cannot know which is in use" in note(result, "Television or computer format")
    unlisted = {"mode_width": 2560, "mode_height": 1440, "mode_refresh": 75}
    assert figures(build.desk_display(), **unlisted)["television_format"] == 0


def test_640_by_480_typed_as_cta_is_full():
    typed = {"mode_width": 640, "mode_height": 480, "mode_refresh": 60, "mode_blanking": "cta"}
    assert figures(build.television(), **typed)["rgb_range_default"] == "full"


def test_a_typed_mode_that_cta_861_does_not_list_is_refused_with_the_nearest():
    raw = {"declaration": build.old_display().hex(), "mode_width": 2560, "mode_height": 1440, "mode_refresh": 60}
    ((key, message),) = refused({**raw, "mode_blanking": "cta"})
    assert key == "mode_blanking"
    assert "CTA-861 lists no such format; the nearest are 2560×1080 at 60" in message


def test_what_is_not_typed_of_a_mode_is_the_preferred_one_s():
    only_timing = run(build.desk_display(), mode_blanking="cta").answer
    assert only_timing.headline.startswith("3840 × 2160 at 60 Hz counts as a television format")
    size = {"mode_width": 1920, "mode_height": 1080}
    assert figures(build.desk_display(), **size)["rgb_range_default"] == "limited"
    assert figures(build.desk_display(), mode_refresh=144)["rgb_range_default"] == "full"


def test_one_side_of_a_size_is_not_enough():
    assert refused({"declaration": build.old_display().hex(), "mode_width": 1920}) == [
        ("mode_height", "A mode in use needs at least width and height: the height is missing."),
    ]


def test_without_a_preferred_mode_all_of_a_mode_is_needed():
    assert [key for key, _ in refused({"declaration": build.base().hex(), "mode_blanking": "cta"})] == [
        "mode_width",
        "mode_height",
        "mode_refresh",
    ]


# Clocks, HDR, ranges


@pytest.mark.parametrize("form", ["vendor", "extended"])
def test_the_600_mhz_limit_stands_in_the_second_hdmi_block(form):
    head = build.base([build.detailed(build.UHD_60)], extensions=1)
    data = head + build.cta([build.first_hdmi(340), build.second_hdmi(600, form=form)])
    assert figures(data)["max_tmds_mhz"] == 600
    assert figures(head + build.cta([build.first_hdmi(300)]))["max_tmds_mhz"] == 300


def test_a_second_hdmi_block_without_a_limit_leaves_the_first():
    data = build.base([build.detailed(build.UHD_60)], extensions=1)
    data += build.cta([build.first_hdmi(340), build.second_hdmi(0, 3)])
    assert figures(data)["max_tmds_mhz"] == 340


def test_refresh_above_255_is_stored_with_an_offset():
    data = build.base([build.detailed(build.QHD_144), build.range_limits(48, 360, 1200, above_255=True)])
    assert (figures(data)["refresh_low"], figures(data)["refresh_high"]) == (48, 360)


def test_variable_refresh_from_the_second_hdmi_block():
    data = build.base([build.detailed(build.UHD_60)], extensions=1)
    data += build.cta([build.second_hdmi(600, 6, vrr=(48, 300))])
    assert (figures(data)["refresh_low"], figures(data)["refresh_high"]) == (48, 300)


def test_larger_and_faster_modes_of_displayid_are_told():
    result = run(build.desk_display())
    assert "up to 144.01 Hz is listed (DisplayID, block 2)" in note(result, "More than the preferred mode")


def test_a_larger_mode_is_told():
    text = note(run(build.office_display()), "More than the preferred mode")
    assert text.startswith("Larger modes are listed: 2560 × 1440")


def test_a_displayid_1_timing_counts_its_clock_in_steps_of_10_khz():
    block = build.displayid_block(0x03, build.long_timing(build.QHD_144, 10, preferred=True))
    found = read_declaration(build.base(extensions=1) + build.displayid([block], version=0x13))
    mode = next(m for m in found.modes if m.where.startswith("DisplayID"))
    assert (mode.width, mode.height, mode.clock_khz, mode.h_total, mode.v_total) == (2560, 1440, 586580, 2720, 1498)


def test_cta_blocks_inside_displayid_are_read():
    block = build.displayid_block(0x81, build.capability(True))
    data = build.base([build.detailed(build.FULL_HD_60)], extensions=1) + build.displayid([block])
    assert figures(data)["rgb_range_selectable"] == 1


def test_a_timing_of_displayid_inside_cta_is_read():
    block = build.extended_block(0x22, b"\0" + build.long_timing(build.UHD_144))
    data = build.base([build.detailed(build.UHD_60)], extensions=1) + build.cta([block])
    assert figures(data)["fastest_refresh"] == pytest.approx(1_332_280_000 / (3920 * 2360))


# Rules broken, parts missing


def test_a_wrong_checksum_is_told_and_not_fatal():
    data = bytearray(build.television())
    data[127] ^= 1
    data[255] ^= 1
    result = run(bytes(data))
    assert figures(bytes(data))["checksums_wrong"] == 2
    assert figures(bytes(data))["preferred_width"] == 3840
    assert any(c.text.startswith("2 blocks have a wrong checksum") for c in result.answer.cautions)


def test_a_missing_extension_is_an_answer_with_a_caution():
    result = run(build.desk_display()[:128])
    assert result.answer.cautions[0].text.startswith("The declaration announces 2 blocks more than was pasted whole.")
    assert figures(build.desk_display()[:128])["depth"] == 10
    assert not any("announces" in c.text for c in run(build.desk_display()).answer.cautions)


def test_a_block_that_is_cut_off_is_read_as_far_as_it_goes():
    cut = build.television()[: 128 + 60]
    assert figures(cut)["max_tmds_mhz"] == 600
    assert figures(cut)["checksums_wrong"] == 0
    assert run(cut).answer.cautions[0].text.startswith("The declaration announces 1 block more")


def test_the_override_of_the_extension_count_is_followed():
    whole = build.base([build.detailed(build.UHD_60)], extensions=1) + build.cta([build.extended_block(0x78, b"\x02")])
    more = build.displayid([build.displayid_block(0x22, build.long_timing(build.UHD_144))])
    missing = run(whole)
    assert missing.answer.cautions[0].text.startswith("The declaration announces 1 block more")
    there = run(whole + more)
    assert not any("announces" in c.text for c in there.answer.cautions)
    assert "there are 2" in note(there, "Older cards see less")
    assert figures(whole + more)["fastest_refresh"] > 144


def test_extensions_beyond_the_count_are_read_and_padding_is_not():
    data = build.base([build.detailed(build.UHD_60)], extensions=0) + build.cta([build.capability(True)])
    assert figures(data)["rgb_range_selectable"] == 1
    assert "more follow" in note(run(data), "Where it breaks the rules")
    padded = build.base([build.detailed(build.UHD_60)]) + bytes([0xFF] * 256)
    assert (figures(padded)["blocks"], figures(padded)["checksums_wrong"]) == (1, 0)


def test_without_a_preferred_mode_there_is_still_an_answer():
    result = run(build.base())
    assert result.answer.headline == (
        "The display names no preferred mode, takes 10 bits a channel and says nothing on choosing the RGB range."
    )
    assert "preferred_width" not in {f.key for f in result.answer.figures}


def test_a_data_block_that_runs_past_its_end_is_told():
    block = bytearray(build.cta([build.capability(True)]))
    block[2] = 6  # the timings begin inside the block of three bytes
    data = build.base([build.detailed(build.UHD_60)], extensions=1) + build.with_sum(bytes(block[:127]))
    assert "runs past the end" in note(run(data), "Where it breaks the rules")


def test_an_analogue_input_has_no_range_and_no_bits():
    result = run(build.base([build.detailed(build.FULL_HD_60)], revision=3, video_input=0x0F))
    assert [s.key for s in result.answer.steps] == ["mode", "hdr", "look"]
    assert "analogue" in result.answer.headline


def test_a_block_map_is_named_and_passed_over():
    data = (
        build.base([build.detailed(build.UHD_60)], extensions=2) + build.block_map(2) + build.cta([build.formats(97)])
    )
    kinds = [row[1] for row in next(t for t in run(data).answer.tables if t.title == "Its blocks").rows]
    assert kinds == ["base block", "block map", "CTA-861"]


def test_two_displays_in_one_text_are_told():
    text = f"A:\n{build.old_display().hex()}\nB:\n{build.television().hex()}\n"
    answer = calculator.run({"declaration": text}).answer
    assert any(n.title == "More than one declaration" for n in answer.notes)


# Nothing private


def test_serial_numbers_and_the_declaration_itself_are_nowhere():
    result = run(build.desk_display())
    whole = as_html(result, "p") + as_text(result) + dumps(as_json(result)) + fragment(result)
    for secret in ("A0123456789", "123456789", "00 ff ff", "00ffffff", "AP////"):
        assert secret not in whole
    assert "declaration" not in as_json(result)["inputs"]
    assert "declaration=" not in fragment(result)


def test_a_refusal_never_repeats_what_was_pasted():
    for text in ("my secret text " * 20, "00 ff 12 34", bytes(300).hex()):
        for _, message in refused({"declaration": text}):
            assert text[:12] not in message


@pytest.mark.parametrize("given_value", ["", "   ", None, 5, 2.5, True, [1, 2], "x" * 300_000])
def test_what_is_no_declaration_is_refused_at_its_input(given_value):
    ((key, message),) = refused({"declaration": given_value})
    assert key == "declaration"
    assert message.endswith(".")


# Hostile input


def test_64_kib_of_text_are_taken_and_are_quick():
    data = build.base([build.detailed(build.UHD_60)], extensions=255)
    block = build.cta([build.formats(*range(1, 31))])
    text = (data + block * 255).hex()
    assert len(text) >= 65_536
    start = time.process_time()
    result = calculator.run({"declaration": text})
    as_html(result, "p")
    assert time.process_time() - start < 5
    assert figures(data + block * 255)["blocks"] == 256


@pytest.mark.parametrize("text", ["0" * 262_144, "00 " * 87_000, "-" * 262_144, "0x" * 131_072, "00ff" * 65_536])
def test_the_longest_texts_are_answered_in_time(text):
    start = time.process_time()
    assert refused({"declaration": text})[0][0] == "declaration"
    assert time.process_time() - start < 5


def spoilt(data: bytes, changes: list[tuple[int, int]]) -> bytes:
    made = bytearray(data)
    for at, value in changes:
        made[at % len(made)] = value
    return bytes(made)


DISPLAYS = st.sampled_from([build.desk_display(), build.television(), build.office_display(), build.old_display()])


@settings(max_examples=300, deadline=None)
@given(DISPLAYS, st.lists(st.tuples(st.integers(8, 400), st.integers(0, 255)), max_size=30), st.integers(0, 400))
def test_spoilt_declarations_are_answered(data, changes, cut):
    made = spoilt(data, [(at, value) for at, value in changes if at % len(data) >= 8])[: max(cut, 128)]
    result = run(made)
    dumps(as_json(result))
    assert as_html(result, "p").endswith("</div>")
    assert figures(made)["checksums_wrong"] <= len(made) // 128


@settings(max_examples=200, deadline=None)
@given(st.binary(min_size=120, max_size=900))
def test_any_bytes_after_a_header_are_answered(body):
    result = run(build.HEADER + body)
    dumps(as_json(result))
    assert result.answer.headline


@settings(max_examples=200, deadline=None)
@given(
    st.lists(st.tuples(st.sampled_from([0x02, 0x70, 0xF0, 0x10]), st.binary(min_size=126, max_size=126)), max_size=3)
)
def test_any_extension_is_answered(blocks):
    data = build.base([build.detailed(build.UHD_60)], extensions=len(blocks))
    data += b"".join(build.with_sum(bytes([tag]) + body) for tag, body in blocks)
    found = figures(data)
    assert found["checksums_wrong"] == 0
    assert found["preferred_width"] == 3840


def test_a_hostile_name_is_only_text():
    data = build.base([build.detailed(build.UHD_60), build.text_descriptor(0xFC, "<b>&'\"</b>")])
    html = as_html(run(data), "p")
    assert "<b>" not in html
    assert "&lt;b&gt;" in html
