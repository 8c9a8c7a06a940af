"""Published figures: frame rates, efficiencies, sync thresholds, speed of sound, codec levels, uncompressed rates."""

import tomllib
from pathlib import Path

import pytest

from calculators.catalogue import find
from calculators.rooms.ethernet.frames import frames_per_s
from calculators.rooms.lipsync.sound_travel import speed_m_s
from calculators.rooms.lipsync.sync_tolerances import ACCEPTABLE, ATSC, DETECTABLE, EBU
from calculators.rooms.paths.control_ways import usb_reach_m
from calculators.rooms.streams.codec_levels import least_level
from calculators.rooms.streams.stream_rates import wake_packet_bytes
from calculators.trade.ratio import decimal_ratio

VALUES = Path(__file__).parents[2] / "check_values"


def read(name):
    return tomllib.loads((VALUES / f"{name}.toml").read_text("utf-8"))


FRAMES = read("rfc_5180_frame_rates")
SHARES = read("ethernet_efficiency")
TIMING = read("sound_and_vision_timing")
SOUND = read("speed_of_sound")
AV1 = read("av1_level_examples")
LEVELS = read("h264_h265_levels")
RAW = read("uncompressed_video")
LENGTHS = read("cable_lengths")

FRAME_BYTES, GAP_BYTES = 18, 20
HALF_OF_SECOND_DECIMAL = 0.005 + 1e-9
HALF_OF_FOURTH_DECIMAL = 0.00005 + 1e-9
LAST_DIGIT_M_S = 0.01  # some tables round, some cut


def figures(name, **inputs):
    return {f.key: f.value for f in find(name).run(inputs).answer.figures}


def frames(size, link):
    """Frames a second of a frame size, through the calculator."""
    return figures("rooms.network", mtu=size - FRAME_BYTES, link_mbps=link)["frames_per_s"]


@pytest.mark.parametrize(("size", "link", "printed"), FRAMES["rows"])
def test_published_frame_rates(size, link, printed):
    assert int(frames(size, link)) == printed


@pytest.mark.parametrize(("size", "link", "printed"), FRAMES["rounded"])
def test_the_published_frame_rate_that_is_rounded(size, link, printed):
    assert round(frames(size, link)) == printed != int(frames(size, link))


@pytest.mark.parametrize(("size", "link", "printed", "meant"), FRAMES["misprinted"])
def test_the_two_misprints_of_the_document(size, link, printed, meant):
    assert int(frames(size, link)) == meant != printed


@pytest.mark.parametrize(("size", "link", "printed"), FRAMES["small"])
def test_published_frame_rates_below_our_range(size, link, printed):
    assert int(frames_per_s(link, size + GAP_BYTES)) == printed


@pytest.mark.parametrize(("mtu", "address", "stamps", "tag", "percent"), SHARES["rows"])
def test_published_efficiencies(mtu, address, stamps, tag, percent):
    share = figures("rooms.network", mtu=mtu, address=address, stamps=stamps, tag=tag)["efficiency_percent"]
    assert share == pytest.approx(percent, abs=HALF_OF_FOURTH_DECIMAL)


@pytest.mark.parametrize(("mtu", "address", "stamps", "tag", "percent"), SHARES["from_memory"])
def test_efficiencies_of_large_packets(mtu, address, stamps, tag, percent):
    share = figures("rooms.network", mtu=mtu, address=address, stamps=stamps, tag=tag)["efficiency_percent"]
    assert share == pytest.approx(percent, abs=HALF_OF_SECOND_DECIMAL)


@pytest.mark.parametrize(
    ("ours", "published"),
    [
        (DETECTABLE, TIMING["detectability"]),
        (ACCEPTABLE, TIMING["acceptability"]),
        (ATSC, TIMING["atsc_is_191"]),
        (EBU, TIMING["ebu_r37"]),
    ],
)
def test_published_tolerances(ours, published):
    assert [ours.early_ms, -ours.late_ms] == published


@pytest.mark.parametrize(("picture", "sound", "word"), TIMING["edges"])
def test_both_sides_of_every_threshold(picture, sound, word):
    answer = find("rooms.lips").run({"picture_ms": picture, "sound_ms": sound, "distance_m": 0}).answer
    assert answer.verdict.word == word


@pytest.mark.parametrize(("celsius", "printed"), SOUND["rows"])
def test_published_speeds_of_sound(celsius, printed):
    assert speed_m_s(celsius) == pytest.approx(printed, abs=LAST_DIGIT_M_S)
    assert figures("rooms.lips", temperature_c=celsius)["speed_m_s"] == pytest.approx(printed, abs=LAST_DIGIT_M_S)


@pytest.mark.parametrize(("width", "height", "rate", "level", "main", "high"), AV1["rows"])
def test_published_examples_of_av1_levels(width, height, rate, level, main, high):
    exact = decimal_ratio(rate)
    assert least_level("av1", width, height, exact, main) == (level, "main")
    if high:
        assert least_level("av1", width, height, exact, main + 0.001) == (level, "high")
        assert least_level("av1", width, height, exact, high) == (level, "high")
        assert least_level("av1", width, height, exact, high + 0.001) != (level, "high")
    else:
        assert least_level("av1", width, height, exact, main + 0.001) != (level, "main")


@pytest.mark.parametrize(("codec", "width", "height", "rate", "mbps", "level", "tier"), LEVELS["rows"])
def test_levels_of_h264_and_h265(codec, width, height, rate, mbps, level, tier):
    assert least_level(codec, width, height, decimal_ratio(rate), mbps) == (level, tier)


@pytest.mark.parametrize(("width", "height", "rate", "bits", "gb_s"), RAW["rows"])
def test_published_rates_without_compression(width, height, rate, bits, gb_s):
    mbps = figures("rooms.stream", width=width, height=height, rate=rate, bits_per_pixel=bits)["stream_mbps"]
    assert mbps / 1000 == pytest.approx(gb_s, abs=HALF_OF_SECOND_DECIMAL)


@pytest.mark.parametrize(("hubs", "metres"), LENGTHS["usb"])
def test_how_far_usb_reaches(hubs, metres):
    assert usb_reach_m(hubs) == metres


def test_what_a_wake_packet_holds():
    assert wake_packet_bytes() == LENGTHS["wake_packet_bytes"]


def test_what_is_said_of_ten_gigabits_on_category_6():
    said = " ".join(source.say() for source in find("rooms.ways").run({}).answer.sources)
    near, far = LENGTHS["tsb_155_metres"]
    assert f"TIA TSB-155, 10 Gb/s on Category 6: {near} m, up to {far}" in said


def test_there_are_at_least_fifty():
    rows = [
        *FRAMES["rows"], *FRAMES["rounded"], *FRAMES["misprinted"], *FRAMES["small"], *SHARES["rows"],
        *SHARES["from_memory"], *TIMING["edges"], *SOUND["rows"], *AV1["rows"], *LEVELS["rows"], *RAW["rows"],
        *LENGTHS["usb"],
    ]  # fmt: skip
    assert len(rows) >= 50
