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


# A picture of a million pixels, so that each step can be done in the head: 50 frames/s of 1 bit a pixel are 50 Mb/s, a
# frame is sent in 10 ms over 100 Mb/s and waits 10 ms for the next: with these parts it comes 100 ms late.
MILLION = {
    "width": 1000, "height": 1000, "rate": 50, "bits_per_pixel": 1, "network_mbps": 100, "share_limit": 70,
    "encode_ms": 20, "round_trip_ms": 0, "buffer_ms": 20, "decode_ms": 20, "display_ms": 20, "use": "desk",
}  # fmt: skip


@pytest.mark.parametrize(
    ("inputs", "sentence"),
    [
        ({}, "1000×1000 at 50 frames/s takes 50 of 100 Mb/s and comes 100 ms late."),
        ({"bits_per_pixel": 1.234567}, "1000×1000 at 50 frames/s takes 61.7 of 100 Mb/s and comes 102 ms late."),
        ({"bits_per_pixel": 20, "network_mbps": 9456},  # 1000 Mb/s is a gigabit; a frame takes 2.1 ms of 9456 Mb/s
         "1000×1000 at 50 frames/s takes 1 of 9.46 Gb/s and comes 92 ms late."),
        ({"buffer_ms": 4920, "encode_ms": 5000, "decode_ms": 40},
         "1000×1000 at 50 frames/s takes 50 of 100 Mb/s and comes 10 s late."),
        ({"buffer_ms": 5000, "encode_ms": 5000, "display_ms": "picture"},  # 10 + 10000 + 10 + 20 and 50 to 150
         "1000×1000 at 50 frames/s takes 50 of 100 Mb/s and comes 10 s late."),
    ],
)  # fmt: skip
def test_the_headline_says_what_was_worked_out_by_hand(inputs, sentence):
    assert STREAM.run({**MILLION, **inputs}).answer.headline == sentence


@pytest.mark.parametrize(
    ("inputs", "word"),
    [
        ({}, "yes"),  # late by just what desktop work bears, and from the hand as well
        ({"encode_ms": 19.5, "round_trip_ms": 1}, "depends"),  # the hand half a millisecond later
        ({"encode_ms": 21}, "no"),
        ({"bits_per_pixel": 1.4, "encode_ms": 0}, "yes"),  # 70 Mb/s, just the share of one stream
        ({"bits_per_pixel": 1.41, "encode_ms": 0}, "depends"),
        ({"bits_per_pixel": 2, "encode_ms": 0}, "depends"),  # 100 Mb/s, just the network
        ({"bits_per_pixel": 2.01, "encode_ms": 0}, "no"),
    ],
)
def test_what_just_fits_fits(inputs, word):
    assert STREAM.run({**MILLION, **inputs}).answer.verdict.word == word


def test_the_richer_end_just_at_its_share_fits():
    """Between 0.05 and 0.12 bit a pixel for H.264 on the desk: 2000 × 1000 × 50 × 0.12 are 12 Mb/s."""
    wide = {**MILLION, "width": 2000, "bits_per_pixel": "unsure", "codec": "h264", "encode_ms": 0}
    words = {share: STREAM.run({**wide, "share_limit": share}).answer.verdict.word for share in (12, 11.9)}
    assert words == {12: "yes", 11.9: "depends"}


def test_a_working_adds_up_the_parts_that_it_shows():
    """The frame of 1920×1080 at 0.1 bit takes 2.2059574… ms over 94 Mb/s, and half of 5 ms is each way."""
    lines = {line.what: line for line in run(round_trip_ms=5, codec="h264")[0].working}
    assert lines["The stream"].numbers == "1920 × 1080 × 60 × 0.1 ÷ 10⁶"
    assert (lines["Room for it"].numbers, lines["Room for it"].result) == ("94 × 70 %", "65.8 Mb/s")
    assert (lines["Waiting for a frame"].numbers, lines["Waiting for a frame"].result) == ("500 ÷ 60", "8.33 ms")
    assert lines["Sending a frame"].result == "2.21 ms"
    assert lines["Late by"].numbers == "8.33 + 8 + 2.21 + 2.5 + 5 + 6 + 12"
    assert lines["From the hand"].numbers.endswith(" + 2.5")
    more = {line.what: line for line in run(rate=59.94, network_mbps=94.06, round_trip_ms=4.5)[0].working}
    assert more["The stream"].numbers == "1920 × 1080 × 59.94 × 0.1 ÷ 10⁶"
    assert more["Room for it"].numbers == "94.1 × 70 %"
    assert more["From the hand"].numbers.endswith(" + 2.25")


def test_both_ends_of_a_share_are_shares_of_the_network():
    _, figures = run(bits_per_pixel="unsure", codec="h265", network_mbps=50)
    for end in ("low", "high"):
        assert figures[f"share_percent_{end}"] == pytest.approx(2 * figures[f"stream_mbps_{end}"])


def test_the_bars_are_the_parts_of_the_delay():
    drawing = run(round_trip_ms=5)[0].drawings[0]
    bars = [
        tuple(part.rsplit(" ", 2)[:2]) for part in drawing.description.split(". ")[0].removeprefix("Bars: ").split("; ")
    ]
    assert bars == [
        ("Next frame", "8.3"), ("Encoding", "8"), ("Network", "4.7"), ("Buffer", "5"), ("Decoding", "6"),
        ("Display", "12"), ("Together", "44"),
    ]  # fmt: skip
    assert "Encoding" not in run(encode_ms=0)[0].drawings[0].description  # nothing is drawn of what takes no time
    assert "Encoding 0.5 ms" in run(encode_ms=0.5)[0].drawings[0].description
    spread = run(bits_per_pixel="unsure", round_trip_ms=5)[0].drawings[0].description
    assert "Network 3.8 to 8 ms" in spread  # 0.06 and 0.25 bit: 1.32 and 5.51 ms, with 2.5 ms on the way


def test_for_what_it_was_worked_out():
    assert STREAM.run({**MILLION, "network_mbps": 94.06, "codec": "av1"}).worked_for() == (
        "desktop work of 1000×1000 at 50 frames/s with AV1, over 94.1 Mb/s"
    )
    assert "with" not in STREAM.run(MILLION).worked_for()


def test_only_the_codec_that_is_known_must_hold_the_stream():
    """1000 Mb/s: H.264's level 6.2 takes 800 000 × 1.25 kb/s in the High profile, and H.265's 6.2 at most 800 Mb/s."""
    rich = {"width": 1000, "height": 1000, "rate": 100, "bits_per_pixel": 10, "network_mbps": 9400, "use": "desk"}
    assert {codec: run(**rich, codec=codec)[0].verdict.word for codec in ("h264", "h265", "unknown")} == {
        "h264": "yes", "h265": "depends", "unknown": "yes"
    }  # fmt: skip


def test_a_profile_for_ten_bits_is_named_where_it_is_another():
    rows = {row[0]: row[2] for row in run(codec="h264")[0].tables[1].rows}
    assert rows == {"H.264": "High; High 10 for 10 bits", "H.265": "Main; Main 10 for 10 bits", "AV1": "Main"}


def test_figures_have_the_digits_that_can_be_read():
    """1920 × 1080 × 240 × 0.1 are 49.7664 Mb/s; 2.0833 + 0.2 + 0.2206 + 0.25 + 0.35 + 0.31 are 3.4139 ms."""
    quick = {"rate": 240, "encode_ms": 0.2, "buffer_ms": 0, "decode_ms": 0.35, "display_ms": 0.31,
             "round_trip_ms": 0.5, "network_mbps": 940}  # fmt: skip
    answer = run(**quick)[0]
    texts = {figure.key: figure.text for figure in answer.figures}
    assert (texts["stream_mbps"], texts["delay_ms"], texts["hand_ms"]) == ("49.77 Mb/s", "3.4 ms", "3.7 ms")
    lines = {line.what: (line.numbers, line.result) for line in answer.working}
    assert lines["Late by"] == ("2.08 + 0.2 + 0.22 + 0.25 + 0 + 0.3 + 0.3", "3.4 ms")
    assert lines["From the hand"] == ("3.4 + 0.25", "3.7 ms")
    assert {line.what: line.result for line in run(network_mbps=94.056)[0].working}["Room for it"] == "65.84 Mb/s"
    eighth = {line.what: line.numbers for line in run(round_trip_ms=0.254)[0].working}
    assert eighth["From the hand"].endswith(" + 0.13")
