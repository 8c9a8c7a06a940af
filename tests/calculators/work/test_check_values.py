"""Published figures: examples of Amdahl's law, link rates, footage without compression, textures, decoder profiles."""

import tomllib
from pathlib import Path

import pytest

from calculators.catalogue import find
from calculators.work.formulas.waits import day_min, limit
from calculators.work.tables.decoder_profiles import least_profile

VALUES = Path(__file__).parents[2] / "check_values"


def read(name):
    return tomllib.loads((VALUES / f"{name}.toml").read_text("utf-8"))


AMDAHL = read("amdahl_examples")
KERNEL = read("kernel_link_rates")
LINKS = read("link_generations")
CAPTURE = read("capture_table_ten_bits")
HANDBOOK = read("television_handbook_frames")
SERIAL = read("serial_digital_rates")
TEXTURES = read("textures_and_blocks")
WORDS = read("st_268_words")
PROFILES = read("decoder_profiles")
UNCOMPRESSED = read("uncompressed_video")
SAMPLING = {20: ("422", 10), 24: ("444", 8)}  # bits a pixel
MIB = 2**20
LAST_BITS = 1e-9
LAST_DIGIT = 1  # some are rounded, one is cut


def figures(name, **inputs):
    return {f.key: f.value for f in find(name).run(inputs).answer.figures}


def day(share, **inputs):
    """A day of 100 minutes of which a share waits for all cores."""
    return figures("work.gain", one_core_min=100 - share, all_cores_min=share, card_min=0, disk_min=0, **inputs)


@pytest.mark.parametrize(("share", "times", "printed", "half"), AMDAHL["rows"] + AMDAHL["from_memory"])
def test_examples_of_amdahl_s_law(share, times, printed, half):
    assert 100 / day_min([100 - share, share], [1, times]) == pytest.approx(printed, abs=half + LAST_BITS)
    if times <= 100:  # more than an input takes
        assert day(share, a_all_cores=times)["a_speedup"] == pytest.approx(printed, abs=half + LAST_BITS)


@pytest.mark.parametrize(("share", "times", "printed", "last"), AMDAHL["cut"])
def test_the_example_that_is_cut(share, times, printed, last):
    assert 0 <= day(share, a_all_cores=times)["a_speedup"] - printed < last


@pytest.mark.parametrize(("share", "printed", "half"), AMDAHL["limits"])
def test_limits_of_amdahl_s_law(share, printed, half):
    assert limit([100 - share, share], 1) == pytest.approx(printed, abs=half + LAST_BITS)
    assert day(share)["limit_all_cores"] == pytest.approx(printed, abs=half + LAST_BITS)


@pytest.mark.parametrize(("generation", "lanes", "gb_s"), KERNEL["rows"])
def test_rates_that_a_kernel_reports(generation, lanes, gb_s):
    lane_mbps = int(figures("work.lanes", generation=generation)["lane_gb_s"] * 8000)
    assert lane_mbps * lanes / 1000 == gb_s


@pytest.mark.parametrize(("generation", "lanes", "gb_s", "half"), LINKS["rows"] + LINKS["from_memory"])
def test_printed_tables_of_generations(generation, lanes, gb_s, half):
    found = figures("work.lanes", generation=generation, lanes=lanes)
    assert found["link_gb_s"] == pytest.approx(gb_s, abs=half + LAST_BITS)


@pytest.mark.parametrize(("width", "height", "rate", "chroma", "second", "minute"), CAPTURE["rows"])
def test_a_handbook_s_disk_rates(width, height, rate, chroma, second, minute):
    found = figures("work.footage", width=width, height=height, rate=rate, chroma=chroma, bits=10, packing="words32")
    mib_s = found["stream_mb_s"] * 1e6 / MIB
    assert mib_s == pytest.approx(second, abs=0.5)
    assert mib_s * 60 == pytest.approx(minute, abs=LAST_DIGIT)


@pytest.mark.parametrize(("width", "height", "chroma", "bits", "printed", "half"), HANDBOOK["rows"])
def test_a_handbook_s_frames(width, height, chroma, bits, printed, half):
    found = figures("work.footage", width=width, height=height, chroma=chroma, bits=bits)
    assert found["frame_mb"] == pytest.approx(printed, abs=half + LAST_BITS)


@pytest.mark.parametrize(("width", "height", "chroma", "bits", "rate", "printed", "half"), HANDBOOK["rates"])
def test_rates_of_disc_formats_without_compression(width, height, chroma, bits, rate, printed, half):
    found = figures("work.footage", width=width, height=height, chroma=chroma, bits=bits, rate=rate)
    assert found["raw_mb_s"] == pytest.approx(printed, abs=half + LAST_BITS)


@pytest.mark.parametrize(("width", "height", "rate", "mbps"), SERIAL["rows"])
def test_rates_of_serial_interfaces(width, height, rate, mbps):
    found = figures("work.footage", width=width, height=height, rate=rate, chroma="422", bits=10)
    assert found["stream_mb_s"] * 8 == pytest.approx(mbps, rel=1e-11)


def test_the_slowed_rate_of_the_serial_interface():
    width, height, rate, mbps = SERIAL["slowed"]
    found = figures("work.footage", width=width, height=height, rate=rate, chroma="422", bits=10)
    assert found["stream_mb_s"] * 8 == pytest.approx(mbps / 1.001, rel=1e-11)


@pytest.mark.parametrize(("width", "height", "rate", "bits_per_pixel", "printed"), UNCOMPRESSED["rows"])
def test_payloads_of_the_picture_alone(width, height, rate, bits_per_pixel, printed):
    chroma, bits = SAMPLING[bits_per_pixel]
    found = figures("work.footage", width=width, height=height, rate=rate, chroma=chroma, bits=bits)
    assert found["stream_mb_s"] * 8 / 1000 == pytest.approx(printed, abs=0.005 + LAST_BITS)


@pytest.mark.parametrize(("width", "height", "size"), WORDS["rows"])
def test_frames_in_words_of_32_bits(width, height, size):
    found = figures("work.footage", width=width, height=height, chroma="444", bits=10, packing="words32")
    assert found["frame_mb"] * 1e6 == pytest.approx(size, rel=1e-11)


def test_a_texture_with_its_smaller_copies():
    edge, pixels = TEXTURES["mipmap_pixels"]
    found = figures("work.scene", textures=1000, texture_px=edge, texture_bytes=1, mipmaps="yes")
    assert int(found["textures_gb"] * 1e6) == pixels


@pytest.mark.parametrize(("block_bytes", "ratio"), TEXTURES["blocks"])
def test_packed_blocks(block_bytes, ratio):
    found = figures("work.scene", textures=1, texture_px=4096, mipmaps="no", packing=ratio)
    assert found["textures_gb"] * 1e9 == pytest.approx(4096 // 4 * (4096 // 4) * block_bytes, rel=1e-11)


@pytest.mark.parametrize(("codec", "chroma", "bits", "profile"), PROFILES["rows"] + PROFILES["from_memory"])
def test_profiles_that_hold_a_chroma_and_a_depth(codec, chroma, bits, profile):
    assert least_profile(codec, chroma, bits) == profile
    table = find("work.footage").run({"chroma": chroma, "bits": bits}).answer.tables[0]
    assert (codec, profile or "none") in table.rows


def test_there_are_at_least_fifty():
    rows = [
        *AMDAHL["rows"], *AMDAHL["cut"], *AMDAHL["limits"], *AMDAHL["from_memory"], *KERNEL["rows"], *LINKS["rows"],
        *LINKS["from_memory"], *CAPTURE["rows"], *HANDBOOK["rows"], *HANDBOOK["rates"], *SERIAL["rows"],
        *UNCOMPRESSED["rows"], *WORDS["rows"], *TEXTURES["blocks"], *PROFILES["rows"], *PROFILES["from_memory"],
    ]  # fmt: skip
    assert len(rows) >= 50
