"""work.footage: the contract's figures, bits and bytes kept apart, verdicts at their edges, exact scaling."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors
from calculators.work.screen_cards import footage as footage_card

FOOTAGE = find("work.footage")
CAMERA = {"width": 3840, "height": 2160, "rate": 25, "chroma": "422", "bits": "10"}
WORTH = {"no": 0, "depends": 1, "yes": 2}


def run(**inputs):
    answer = FOOTAGE.run({**CAMERA, **inputs}).answer
    return answer, {f.key: f.value for f in answer.figures}


def refused(**inputs):
    with pytest.raises(InputErrors) as caught:
        FOOTAGE.run({**CAMERA, **inputs})
    return {problem.input: problem.message for problem in caught.value.problems}


def test_the_figures_of_the_contract():
    _, figures = run(ratio=5, streams=3, hours=2, disk_mb_s=900)
    frame = 3840 * 2160 * 2 * 1.25 / 1e6  # arithmetic of our own
    profiles = {key: figures.pop(key) for key in list(figures) if key.startswith("profile_")}
    assert figures == pytest.approx({
        "frame_mb": frame, "raw_mb_s": frame * 25, "stream_mb_s": frame * 5, "all_mb_s": frame * 15,
        "total_gb": frame * 15 * 3600 * 2 / 1000, "disk_percent": 100 * frame * 15 / 900,
        "streams_fit": int(900 / (frame * 5)), "stream_mbps": frame * 40,
    })  # fmt: skip
    assert profiles == {"profile_h264": "High 4:2:2", "profile_h265": "Main 4:2:2 10", "profile_av1": "Professional"}


def test_an_empty_request_gives_every_figure_that_needs_no_disk():
    answer = FOOTAGE.run({}).answer
    assert {f.key for f in answer.figures} == {
        "frame_mb", "raw_mb_s", "stream_mb_s", "stream_mbps", "all_mb_s", "total_gb",
        "profile_h264", "profile_h265", "profile_av1",
    }  # fmt: skip
    assert answer.verdict is None


def test_a_named_bit_rate_replaces_the_compression():
    _, figures = run(mbps=400, ratio=7, streams=2)
    assert figures["stream_mb_s"] == 50
    assert figures["all_mb_s"] == 100
    assert figures["ratio_named"] == pytest.approx(figures["raw_mb_s"] / 50)


@pytest.mark.parametrize(
    ("chroma", "bits", "packing", "bytes_a_pixel"),
    [("4444", 8, "tight", 4), ("444", 12, "tight", 4.5), ("422", 10, "words16", 4), ("420", 8, "tight", 1.5),
     ("raw", 12, "tight", 1.5), ("raw", 16, "words16", 2), ("444", 10, "words32", 4)],
)  # fmt: skip
def test_bytes_a_pixel(chroma, bits, packing, bytes_a_pixel):
    _, figures = run(width=1000, height=1000, chroma=chroma, bits=bits, packing=packing)
    assert figures["frame_mb"] == bytes_a_pixel


def test_a_rate_of_1001_is_exact_and_said():
    result = FOOTAGE.run({**CAMERA, "rate": 59.94})
    figures = {f.key: f.value for f in result.answer.figures}
    assert figures["raw_mb_s"] == pytest.approx(20.736 * 60_000 / 1001, rel=1e-11)
    assert "59.94 frames/s (60 × 1000/1001)" in as_text(result)


@pytest.mark.parametrize(
    ("inputs", "word"),
    [
        ({"disk_mb_s": 100}, "yes"),
        ({"disk_mb_s": 71.43}, "yes"),
        ({"disk_mb_s": 71.42}, "depends"),
        ({"disk_mb_s": 50}, "depends"),
        ({"disk_mb_s": 49.9}, "no"),
        ({"disk_mb_s": 500, "streams": 4, "disk_kind": "spinning"}, "depends"),
        ({"disk_mb_s": 500, "streams": 1, "disk_kind": "spinning"}, "yes"),
    ],
)
def test_verdicts_of_a_stream_of_50(inputs, word):
    assert run(mbps=400, **inputs)[0].verdict.word == word


def test_a_disk_that_is_too_slow_is_not_said_to_hold_the_footage():
    assert ", the disk gives 49 MB/s, and 1 h fills" in run(mbps=400, disk_mb_s=49)[0].headline
    assert "needs 50 MB/s of the disk's 50 MB/s" in run(mbps=400, disk_mb_s=50)[0].headline


def test_a_disk_of_unknown_kind_is_told_about_several_streams():
    assert "if it spins" in run(mbps=400, disk_mb_s=500, streams=4)[0].verdict.reason
    assert "spins" not in run(mbps=400, disk_mb_s=500, streams=4, disk_kind="solid")[0].verdict.reason
    assert "spins" not in run(mbps=400, disk_mb_s=500)[0].verdict.reason


@pytest.mark.parametrize(
    ("inputs", "begins"),
    [
        ({"codec": "h265"}, "H.265 with 4:2:2 at 10 bits is the profile Main 4:2:2 10;"),
        (
            {"codec": "h264", "bits": 12, "chroma": "444"},
            "H.264 with 4:4:4 at 12 bits is the profile High 4:4:4 Predictive;",
        ),
        ({"codec": "av1", "bits": 16}, "No profile of AV1 holds 4:2:2 at 16 bits;"),
        ({"codec": "h265", "chroma": "raw"}, "Raw is in no profile of H.265;"),
        ({"codec": "h265", "disk_mb_s": 1000}, "Uncompressed, 1 stream of your footage needs"),
    ],
)
def test_a_named_codec_asks_for_its_profile(inputs, begins):
    answer, _ = run(**inputs)
    assert answer.headline.startswith(begins)
    assert answer.tables[0].marked


@pytest.mark.parametrize(
    ("inputs", "word", "says"),
    [
        ({"codec": "h264", "chroma": "420", "bits": 8}, "depends", "Very likely."),
        ({"codec": "h265", "chroma": "420", "bits": 10}, "depends", "Likely."),
        ({"codec": "h264", "chroma": "420", "bits": 10}, "depends", "Look it up."),
        ({"codec": "h265"}, "depends", "Look it up."),
        ({"codec": "av1", "bits": 16}, "no", "Not by a decoder."),
    ],
)
def test_a_codec_asked_about_without_a_disk_has_a_verdict(inputs, word, says):
    verdict = run(**inputs)[0].verdict
    assert (verdict.word, verdict.says) == (word, says)
    assert run(codec="h265", chroma="raw")[0].verdict is None  # raw is developed by the program, not decoded


@pytest.mark.parametrize("told", [{}, {"chroma": "420"}, {"bits": 10}, {"chroma": "420", "bits": 10}])
def test_a_codec_s_name_alone_is_no_profile(told):
    answer = FOOTAGE.run({"codec": "h265", "mbps": 100, **told}).answer
    whole = len(told) == 2
    assert answer.verdict.word == "depends"
    assert ("the profile Main 10" in answer.headline) == whole
    assert ("Sampling and depth decide" in answer.verdict.reason) != whole
    assert [f.key for f in answer.figures if f.main and f.key.startswith("profile")] == ["profile_h265"] * whole


@pytest.mark.parametrize(
    ("inputs", "hero"),
    [
        ({"codec": "h265", "chroma": "422", "bits": 10}, "Main 4:2:2 10"),
        ({"codec": "h265"}, "sampling and depth"),
        ({"codec": "h264", "chroma": "444", "bits": 8}, "a rare profile"),
        ({"codec": "av1", "chroma": "422", "bits": 16}, "no profile"),
        ({"codec": "h265", "chroma": "raw", "bits": 12, "mbps": 400}, "50 MB/s"),
        ({"mbps": 400}, "50 MB/s"),
    ],
)
def test_the_card_of_a_codec_shows_its_profile(inputs, hero):
    result = FOOTAGE.run(inputs)
    assert footage_card(result.values, result.answer).hero == hero


def test_a_codec_without_its_bit_rate_is_not_sized_as_if_it_did_not_compress():
    assert run(codec="h265")[0].headline.endswith("; give the bit rate, and the disk is worked out too.")
    assert run(codec="h265", mbps=200)[0].headline.endswith("; 1 stream needs 25 MB/s, and 1 h fills 90 GB.")


@pytest.mark.parametrize(("hours", "size"), [(1, "720 GB"), (2, "1.44 TB")])
def test_headline_and_figure_say_the_size_in_one_unit(hours, size):
    answer, figures = run(mbps=400, streams=4, hours=hours)
    figure = next(f for f in answer.figures if f.key == "total_gb")
    assert figure.text == size
    assert answer.headline.endswith(f"fill{'s' if hours == 1 else ''} {size}.")
    assert figures["total_gb"] == 720 * hours


def test_raw_and_too_deep_are_in_no_profile():
    assert not any(key.startswith("profile_") for key in run(chroma="raw", bits=12)[1])
    assert {key for key in run(chroma="444", bits=16)[1] if key.startswith("profile_")} == {"profile_h265"}


def test_exactly_so_many_streams_fit():
    assert run(mbps=400, disk_mb_s=150)[1]["streams_fit"] == 3
    assert run(mbps=400, disk_mb_s=149.999)[1]["streams_fit"] == 2
    assert run(mbps=400, disk_mb_s=49)[1]["streams_fit"] == 0


def test_words_of_32_bits_hold_ten_bits_only():
    assert refused(packing="words32", bits=12) == {
        "packing": "Words of 32 bits hold three samples of 10 bits, and the depth is 12 bits: choose 10 bits, or "
        "another packing."
    }


@pytest.mark.parametrize("typed", ["50 MB/s", "50 MB", "50 megabytes", "1 GB/s", "50 MByte/s", "50 MiB/s"])
def test_bytes_are_not_taken_for_the_camera_s_bits(typed):
    assert "multiply by 8" in refused(mbps=typed)["mbps"]


@pytest.mark.parametrize("typed", ["400 Mb/s", "400 Mbit/s", "400 mbps", "4 Gb/s", "400 megabits", "400 Mbps"])
def test_bits_are_not_taken_for_the_disk_s_bytes(typed):
    assert "divide by 8" in refused(disk_mb_s=typed)["disk_mb_s"]


@pytest.mark.parametrize(
    ("key", "typed", "value"),
    [("mbps", "400 Mb/s", 400), ("mbps", "0,4 Gbit/s", 400), ("mbps", "400 mbps", 400), ("disk_mb_s", "7 GB/s", 7000),
     ("disk_mb_s", "560 MB/s", 560), ("disk_mb_s", "560 mb/s", 560), ("hours", "90 min", 1.5)],
)  # fmt: skip
def test_rates_as_people_type_them(key, typed, value):
    assert FOOTAGE.run({**CAMERA, key: typed}).values[key] == value


def test_every_wrong_input_is_told_at_once():
    wrong = {"width": 8, "rate": 0, "chroma": "411", "bits": 9, "streams": 1.5, "hours": -1, "disk_mb_s": "quick"}
    assert set(refused(**wrong)) == set(wrong)


def test_the_first_question_and_the_decoder_are_said():
    text = as_text(FOOTAGE.run({**CAMERA, "mbps": 400, "disk_mb_s": 500}))
    for said in ("stutter while the disk idles", "proxy", "Mb is not MB", "at most", "length of a take", "profile"):
        assert said in text


@given(st.integers(16, 8192), st.integers(16, 8192), st.integers(1, 240), st.sampled_from(["444", "422", "420", "raw"]),
       st.integers(2, 4))  # fmt: skip
def test_sizes_scale_exactly(width, height, rate, chroma, by):
    one = run(width=width, height=height, rate=rate, chroma=chroma)[1]
    wider = run(width=width * by, height=height, rate=rate, chroma=chroma)[1]
    more = run(width=width, height=height, rate=rate, chroma=chroma, streams=by, hours=by)[1]
    assert wider["frame_mb"] == pytest.approx(one["frame_mb"] * by, rel=1e-11)
    assert more["all_mb_s"] == pytest.approx(one["all_mb_s"] * by, rel=1e-11)
    assert more["total_gb"] == pytest.approx(one["total_gb"] * by * by, rel=1e-11)


@given(st.floats(1, 5000), st.floats(1, 3), st.floats(1, 5000))
def test_a_faster_disk_never_worsens_the_verdict_and_more_bits_never_improve_it(disk, factor, mbps):
    base = run(disk_mb_s=disk, mbps=mbps)[0].verdict.word
    assert WORTH[run(disk_mb_s=disk * factor, mbps=mbps)[0].verdict.word] >= WORTH[base]
    assert WORTH[run(disk_mb_s=disk, mbps=mbps * factor)[0].verdict.word] <= WORTH[base]


@given(st.floats(1, 1000), st.floats(1, 100_000), st.integers(1, 16))
def test_as_many_streams_as_fit_are_within_the_disk(mbps, disk, streams):
    answer, figures = run(mbps=mbps, disk_mb_s=disk, streams=streams)
    assert (streams <= figures["streams_fit"]) == (answer.verdict.word != "no")


@given(
    st.floats(1, 1000), st.one_of(st.none(), st.floats(0.01, 1e6)), st.floats(0.1, 1e6), st.integers(1, 16)
)  # fmt: skip
def test_numbers_of_many_digits_are_not_cut(ratio, mbps, disk, streams):
    """Six decimals of a small number would lose a part in ten thousand."""
    given_ = {"ratio": ratio, "disk_mb_s": disk, "streams": streams} | ({} if mbps is None else {"mbps": mbps})
    figures = {f.key: f.value for f in FOOTAGE.run(given_).answer.figures}
    stream = figures["raw_mb_s"] / ratio if mbps is None else mbps / 8
    assert figures["stream_mb_s"] == pytest.approx(stream, rel=1e-11)
    assert figures["disk_percent"] == pytest.approx(100 * stream * streams / disk, rel=1e-11)


def _bars(**inputs):
    drawing = run(**inputs)[0].drawings[0]
    return [row.rsplit(" ", 2)[0] for row in drawing.description.removeprefix("Bars: ").removesuffix(".").split("; ")]


def test_the_bars_are_those_that_decide():
    """Without a disk what compression saves; with one what it gives and its 70 %; all streams where there are two."""
    assert _bars(ratio=1) == ["One stream"]
    assert _bars(ratio=5) == ["Without compression", "One stream"]
    assert _bars(mbps=400) == ["Without compression", "One stream"]
    assert _bars(ratio=5, streams=2) == ["Without compression", "One stream", "All 2 streams"]
    assert _bars(ratio=5, disk_mb_s=900) == ["One stream", "70 % of the disk", "The disk"]
    assert _bars(ratio=1, streams=3, disk_mb_s=900) == [
        "One stream", "All 3 streams", "70 % of the disk", "The disk"
    ]  # fmt: skip


def test_hours_are_said_to_the_hundredth():
    """3840 × 2160 × 2 × 1.25 bytes × 25 are 518.4 MB/s: 2.49 TB in 1.3333 h."""
    assert run(hours=1.3333)[0].headline.endswith("1.33 h fill 2.49 TB.")


def test_padding_by_words_is_told_where_words_are_chosen():
    def note(**inputs):
        return next(note.text for note in run(**inputs)[0].notes if note.title == "What is not counted")

    assert note(chroma="444", packing="words32").startswith("Three samples of ten bits fill a word of 32. ")
    assert "Three samples" not in note(packing="words16")


@pytest.mark.parametrize("side", ["width", "height"])
def test_a_side_ends_at_thirty_two_thousand(side):
    assert set(refused(**{side: 32_769})) == {side}
    run(**{side: 32_768})


def test_a_disk_that_may_spin_is_measured_with_two_streams():
    """12.96 MB/s each (3840 × 2160 × 2.5 × 25 ÷ 40): far below 70 % of 900 MB/s, so only jumps are to fear."""
    verdicts = {
        (kind, streams): run(ratio=40, disk_mb_s=900, disk_kind=kind, streams=streams)[0].verdict
        for kind in ("spinning", "unsure")
        for streams in (1, 2)
    }
    assert {at: verdict.word for at, verdict in verdicts.items()} == {
        ("spinning", 1): "yes", ("spinning", 2): "depends", ("unsure", 1): "yes", ("unsure", 2): "yes"
    }  # fmt: skip
    assert [at for at, verdict in verdicts.items() if "if it spins" in verdict.reason] == [("unsure", 2)]


def test_a_named_bit_rate_is_noted_where_one_is_named():
    """518.4 MB/s without compression: a tenth is 51.84."""
    title = "The named bit rate counts"
    assert title in [note.title for note in run(mbps=400)[0].notes]
    assert title not in [note.title for note in run(ratio=10)[0].notes]
    texts = {figure.key: figure.text for figure in run(ratio=10)[0].figures}
    assert (texts["all_mb_s"], texts["stream_mb_s"], texts["raw_mb_s"]) == ("51.84 MB/s", "51.84 MB/s", "518.4 MB/s")
    assert {figure.key: figure.text for figure in run(ratio=7)[0].figures}["all_mb_s"] == "74.06 MB/s"
