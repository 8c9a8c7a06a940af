"""rooms.stream: the contract's figures, ranges, verdicts, levels, and that more delay never helps."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors
from calculators.rooms.streams.codec_levels import least_level, levels
from calculators.trade.ratio import Ratio

STREAM = find("rooms.stream")
WORTH = {"no": 0, "depends": 1, "yes": 2}
DELAYS = ("encode_ms", "round_trip_ms", "buffer_ms", "decode_ms", "display_ms")
PLAIN = {
    "width": 1920, "height": 1080, "rate": 60, "bits_per_pixel": 0.1, "network_mbps": 94, "share_limit": 70,
    "encode_ms": 8, "round_trip_ms": 4, "buffer_ms": 5, "decode_ms": 6, "display_ms": 12, "use": "action",
}  # fmt: skip


def run(**inputs):
    answer = STREAM.run({**PLAIN, **inputs}).answer
    return answer, {f.key: f.value for f in answer.figures}


def test_the_figures_of_the_contract():
    _, figures = run()
    mbps, wait = 1920 * 1080 * 60 * 0.1 / 1e6, 500 / 60  # arithmetic of our own
    send = 1000 * 1920 * 1080 * 0.1 / 94e6
    delay = wait + 8 + send + 2 + 5 + 6 + 12
    assert figures == pytest.approx({
        "stream_mbps": mbps, "gb_per_hour": mbps * 0.45, "share_percent": 100 * mbps / 94, "room_mbps": 65.8,
        "bits_per_pixel_fit": 65.8e6 / (1920 * 1080 * 60), "frame_wait_ms": wait, "send_ms": send,
        "delay_ms": delay, "hand_ms": delay + 2,
    })  # fmt: skip


def test_an_empty_request_gives_every_plain_figure():
    figures = {f.key for f in STREAM.run({}).answer.figures}
    assert figures == {
        "stream_mbps", "gb_per_hour", "share_percent", "room_mbps", "bits_per_pixel_fit", "frame_wait_ms", "send_ms",
        "delay_ms", "hand_ms",
    }  # fmt: skip


def test_a_rate_of_1001_is_exact_and_said():
    answer, figures = run(rate=59.94)
    assert figures["frame_wait_ms"] == pytest.approx(500 * 1001 / 60_000, abs=1e-11)
    assert "59.94 frames/s (60 × 1000/1001)" in answer.headline


def test_what_nobody_knows_is_worked_from_to():
    answer, figures = run(bits_per_pixel="unsure", display_ms="unsure", codec="h265")
    assert figures["stream_mbps_low"] == pytest.approx(1920 * 1080 * 60 * 0.07 / 1e6)
    assert figures["stream_mbps_high"] == pytest.approx(1920 * 1080 * 60 * 0.16 / 1e6)
    assert figures["delay_ms_low"] < 50 < figures["delay_ms_high"]
    assert not {"stream_mbps", "delay_ms", "hand_ms", "send_ms", "share_percent", "gb_per_hour"} & set(figures)
    assert answer.verdict.word == "depends"


def test_a_range_in_the_delays_leaves_the_rate_plain():
    _, figures = run(buffer_ms="air")
    assert "stream_mbps" in figures
    assert figures["delay_ms_high"] - figures["delay_ms_low"] == pytest.approx(70)


@pytest.mark.parametrize("key", ["bits_per_pixel", "encode_ms", "buffer_ms", "decode_ms", "display_ms"])
def test_every_everyday_choice_and_not_sure_is_taken(key):
    entry = next(one for one in STREAM.inputs if one.key == key)
    for choice in (*entry.choices, None):
        _, figures = run(**{key: choice.value if choice else "unsure"})
        assert "delay_ms_low" in figures


@pytest.mark.parametrize(
    ("inputs", "word"),
    [
        ({"network_mbps": 900}, "yes"),
        ({"network_mbps": 10}, "no"),  # less than the stream itself
        ({"network_mbps": 15, "use": "desk"}, "depends"),  # above the limit, below the whole
        ({"buffer_ms": 60}, "no"),
        ({"buffer_ms": 55, "use": "desk"}, "yes"),
        ({"buffer_ms": 400, "use": "film"}, "yes"),
        ({"buffer_ms": 600, "use": "film"}, "no"),
        ({"buffer_ms": 12.5, "display_ms": 9}, "depends"),  # the picture is in time, the hand is not
        ({"codec": "h264", "rate": 500, "width": 7680, "height": 4320, "network_mbps": 400_000}, "depends"),
    ],
)
def test_verdicts(inputs, word):
    assert run(**inputs)[0].verdict.word == word


@pytest.mark.parametrize("use", ["film", "desk", "action"])
def test_the_limit_of_each_use_is_said_and_its_standing(use):
    text = as_text(STREAM.run({**PLAIN, "use": use}))
    assert "Film 500 ms" in text
    assert "desktop work 100 ms" in text
    assert "fast action 50 ms" in text
    assert "Common practice" in text


def test_the_decoder_s_list_is_named():
    answer, _ = run(codec="h265", width=3840, height=2160)
    note = next(n for n in answer.notes if n.title == "What the other end must be able to do")
    assert "level 5.1, high tier on" in note.text
    assert "4:2:0" in note.text
    assert len(answer.tables[1].rows) == 3


def test_a_mode_that_no_level_holds_is_no_plain_yes_where_the_codec_is_unknown():
    wide = {"width": 7680, "height": 4320, "network_mbps": 9400, "use": "desk"}
    assert run(**wide, rate=60)[0].verdict.word == "yes"
    answer = run(**wide, rate=240)[0]
    assert answer.verdict.word == "depends"
    assert "No level of the usual codecs" in answer.verdict.reason


def test_what_is_not_compressed_needs_no_decoder():
    titles = [table.title for table in run(codec="raw", bits_per_pixel=20, network_mbps=9400)[0].tables]
    assert titles == ["Usual bits a pixel"]


def test_fewer_bits_than_usual_are_told():
    def told(**inputs):
        return any(note.title == "Leaner than usual" for note in run(**inputs)[0].notes)

    assert told(bits_per_pixel=0.005)
    assert told(bits_per_pixel=0.069, codec="h265")
    assert not told(bits_per_pixel=0.07, codec="h265")
    assert not told(bits_per_pixel="unsure")
    assert not told(bits_per_pixel=1, codec="raw")


def test_what_is_not_compressed_takes_twelve_bits_or_more():
    assert any(n.title == "That is not uncompressed" for n in run(codec="raw")[0].notes)
    assert not any(n.title == "That is not uncompressed" for n in run(codec="raw", bits_per_pixel=12)[0].notes)


@pytest.mark.parametrize(
    ("key", "wrong"),
    [("width", 15), ("height", 40_000), ("rate", 0), ("bits_per_pixel", 0), ("network_mbps", 0), ("share_limit", 0),
     ("encode_ms", -1), ("use", "golf"), ("codec", "vcr"), ("width", 1920.5), ("round_trip_ms", "unsure")],
)  # fmt: skip
def test_what_does_not_fit_is_told_at_its_input(key, wrong):
    with pytest.raises(InputErrors) as caught:
        run(**{key: wrong})
    assert [problem.input for problem in caught.value.problems] == [key]


@given(st.sampled_from(DELAYS), st.floats(0, 600), st.floats(0, 400), st.sampled_from(["film", "desk", "action"]))
def test_more_delay_never_improves_a_verdict(key, ms, more, use):
    before, after = (run(**{key: value, "use": use})[0].verdict.word for value in (ms, ms + more))
    assert WORTH[after] <= WORTH[before]


@given(st.floats(0.1, 1000), st.floats(1, 10))
def test_more_network_never_worsens_a_verdict(network, factor):
    before, after = (run(network_mbps=value)[0].verdict.word for value in (network, network * factor))
    assert WORTH[after] >= WORTH[before]


@given(st.floats(0.005, 40), st.floats(1, 1.2))
def test_more_bits_never_improve_a_verdict(bits, factor):
    before, after = (run(bits_per_pixel=value)[0].verdict.word for value in (bits, bits * factor))
    assert WORTH[after] <= WORTH[before]


@given(st.integers(16, 8192), st.integers(16, 8192), st.floats(1, 300).map(lambda r: round(r, 2)), st.floats(1, 100))
def test_the_bits_that_fit_just_fit(width, height, rate, share):
    _, figures = run(width=width, height=height, rate=rate, share_limit=share)
    bits = figures["bits_per_pixel_fit"]
    if 0.005 <= bits <= 48:
        again = run(width=width, height=height, rate=rate, share_limit=share, bits_per_pixel=bits)[1]
        assert again["stream_mbps"] == pytest.approx(figures["room_mbps"])


@given(
    st.sampled_from(["h264", "h265", "av1"]), st.integers(16, 8192), st.integers(16, 4320), st.integers(1, 240),
    st.floats(0.1, 700),
)  # fmt: skip
def test_a_larger_mode_never_needs_a_lower_level(codec, width, height, rate, mbps):
    names = [level.name for level in levels(codec)]

    def place(*mode):
        found = least_level(codec, *mode)
        return (names.index(found[0]), found[1] == "high") if found else (len(names), True)

    small = place(width, height, Ratio(rate), mbps)
    for larger in ((width + 16, height, Ratio(rate), mbps), (width, height, Ratio(rate + 1), mbps)):
        assert place(*larger)[0] >= small[0]
    assert place(width, height, Ratio(rate), mbps * 1.5) >= small
