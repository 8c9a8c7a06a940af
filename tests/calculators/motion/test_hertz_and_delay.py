"""Hertz and delay: what the parts add up to, how they scale, ranges where something is not known, wrong inputs."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.errors import InputErrors
from calculators.trade.frame_rates import exact_rate

SETTLED = 1e-10  # figures hold 12 significant digits, and several are added up
RATE = st.one_of(st.sampled_from([59.94, 60, 120, 143.856, 144, 240]), st.integers(10, 1000))
FRAMES = st.one_of(st.sampled_from([59.94, 60, 100, 144]), st.floats(1, 2000))
PARTS = ("poll_ms", "wait_ms", "make_ms", "queue_ms", "sync_ms", "scan_ms", "display_ms", "response_ms")


def figures(name, **inputs):
    return {f.key: f.value for f in find(name).run(inputs).answer.figures}


def notes(name, **inputs):
    return {n.title: n.text for n in find(name).run(inputs).answer.notes}


def problems(name, **inputs):
    with pytest.raises(InputErrors) as wrong:
        find(name).run(inputs)
    return {p.input: p.message for p in wrong.value.problems}


def exact(typed):
    found = exact_rate(float(typed))
    return Fraction(found.over, found.under)


@given(RATE, RATE, FRAMES, st.floats(0, 20000), st.floats(1, 100))
@settings(max_examples=150, deadline=None)
def test_hertz_by_fractions(rate_a, rate_b, frames, speed, lit):
    inputs = {"rate_a": rate_a, "rate_b": rate_b, "frames": frames, "speed": speed, "lit": lit}
    values = find("motion.hertz").run(inputs).values  # read to twelve digits
    speed, lit = Fraction(values["speed"]), Fraction(values["lit"])
    ours = figures("motion.hertz", **inputs)
    for key, typed in (("a", rate_a), ("b", rate_b)):
        rate = exact(typed)
        shown = min(exact(values["frames"].low), rate)
        assert ours[f"frame_ms_{key}"] == pytest.approx(float(1000 / rate), rel=SETTLED)
        assert ours[f"shown_{key}"] == pytest.approx(float(shown), rel=SETTLED)
        assert ours[f"step_px_{key}"] == pytest.approx(float(speed / shown), rel=SETTLED)
        blur = speed * (1 / shown - (1 - lit / 100) / rate)
        assert ours[f"blur_px_{key}"] == pytest.approx(float(blur), rel=1e-9)
        assert (f"images_{key}" in ours) == (lit < 100)
        if lit < 100:
            assert ours[f"images_{key}"] == pytest.approx(float(rate / shown), rel=SETTLED)
    gain = abs(1000 / exact(rate_a) - 1000 / exact(rate_b))
    assert ours["gain_ms"] == pytest.approx(float(gain), rel=SETTLED, abs=1e-12)


def test_doubling_halves_the_wait_and_the_gain():
    gains = [figures("motion.hertz", rate_a=r, rate_b=2 * r)["gain_ms"] for r in (60, 120, 240)]
    assert gains[0] == pytest.approx(2 * gains[1], rel=SETTLED)
    assert gains[1] == pytest.approx(2 * gains[2], rel=SETTLED)
    table = find("motion.hertz").run({}).answer.tables[0]
    assert [row[0] for row in table.rows] == ["60 Hz", "120 Hz", "240 Hz", "480 Hz"]


def test_with_fewer_frames_the_rate_sets_the_wait_only():
    ours = figures("motion.hertz", rate_a=144, rate_b=240, frames=100)
    assert ours["blur_px_a"] == ours["blur_px_b"] == 10
    assert ours["gain_ms"] > 2
    assert "Frames set the blur, the rate only the wait" in notes("motion.hertz", rate_b=240, frames=100)
    assert "Frames set the blur, the rate only the wait" not in notes("motion.hertz", rate_b=144, frames=144)


def test_a_speed_may_be_given_by_the_time_to_cross_the_picture():
    assert figures("motion.hertz", crossing=2)["speed_px_s"] == 960
    assert figures("motion.hertz", crossing="1,5 seconds", width=3840)["speed_px_s"] == 2560
    assert "no eye follows" in problems("motion.hertz", crossing=0.01)["crossing"]


def test_slowed_rates_are_exact_and_said_to_be():
    ours = figures("motion.hertz", rate_a=59.94, frames=59.94, rate_b=119.88)
    assert ours["frame_ms_a"] == pytest.approx(1001 / 60, rel=SETTLED)
    assert ours["shown_a"] == ours["shown_b"] == pytest.approx(60000 / 1001, rel=SETTLED)
    assert "120 × 1000/1001" in notes("motion.hertz", rate_b=119.88)["Exact rates"]


def test_what_is_not_known_gives_both_ends_and_no_single_figure():
    ours = figures("motion.hertz", frames="unsure", rate_b=240)
    assert "blur_px_b" not in ours
    assert ours["blur_px_b_low"] == pytest.approx(1000 / 240, rel=SETTLED)
    assert ours["blur_px_b_high"] == pytest.approx(1000 / 30, rel=SETTLED)
    delay = figures("motion.delay", queued="unsure", sync="unsure", poll_hz="unsure")
    assert "total_ms" not in delay
    assert delay["total_ms_low"] < delay["total_ms_high"]
    assert delay["queue_ms_low"] == 0
    assert delay["queue_ms_high"] == 30
    for choice, frames in (("none", 0), ("usual", 1), ("many", 3)):
        assert figures("motion.delay", queued=choice)["queue_ms"] == 10 * frames


@given(
    st.sampled_from([125, 250, 500, 1000, 2000, 4000, 8000]), FRAMES, st.floats(0, 5), RATE,
    st.sampled_from(["off", "on", "adaptive"]), st.floats(0, 100), st.floats(0, 200), st.floats(0, 50),
)  # fmt: skip
@settings(max_examples=200, deadline=None)
def test_delay_by_fractions_and_its_parts_add_up(polls, frames, queued, rate, sync, down, display, response):
    inputs = {
        "poll_hz": polls, "frames": frames, "queued": queued, "rate": rate, "sync": sync, "down": down,
        "display_ms": display, "response_ms": response,
    }  # fmt: skip
    values = find("motion.delay").run(inputs).values
    ours = figures("motion.delay", **inputs)
    many, refresh = exact(values["frames"].low), exact(rate)
    made = many if sync == "off" else min(many, refresh)
    waits = sync == "off" or (sync == "on" and many < refresh)
    expected = {
        "poll_ms": Fraction(500, polls),
        "wait_ms": 500 / made,
        "make_ms": 1000 / made,
        "queue_ms": Fraction(values["queued"].low) * 1000 / made,
        "sync_ms": 500 / refresh if waits else Fraction(0),
        "scan_ms": Fraction(0) if sync == "off" else Fraction(values["down"]) / 100 * 1000 / refresh,
        "display_ms": Fraction(values["display_ms"].low),
        "response_ms": Fraction(values["response_ms"].low),
    }
    for key, value in expected.items():
        assert ours[key] == pytest.approx(float(value), rel=SETTLED, abs=1e-12), key
    assert ours["total_ms"] == pytest.approx(sum(ours[key] for key in PARTS), rel=SETTLED)
    chance = ours["poll_ms"] + ours["wait_ms"] + ours["sync_ms"]
    assert ours["least_ms"] == pytest.approx(ours["total_ms"] - chance, rel=1e-9, abs=1e-9)
    assert ours["most_ms"] == pytest.approx(ours["total_ms"] + chance, rel=1e-9)
    assert ours["largest"] + "_ms" in PARTS
    assert ours[ours["largest"] + "_ms"] == max(ours[key] for key in PARTS)


def test_eight_thousand_instead_of_a_thousand_wins_less_than_half_a_millisecond():
    won = figures("motion.delay", poll_hz=1000)["poll_ms"] - figures("motion.delay", poll_hz=8000)["poll_ms"]
    assert won == pytest.approx(0.4375, rel=SETTLED)
    assert "0.44 ms" in notes("motion.delay")["8000 times a second instead of 1000"]


def test_frames_pile_up_at_the_rate_with_sync_on_or_adaptive_only():
    title = "Frames pile up here"
    assert title in notes("motion.delay", sync="on", frames=144)
    assert title in notes("motion.delay", sync="adaptive", frames=200)
    assert title not in notes("motion.delay", sync="off", frames=200)
    assert title not in notes("motion.delay", sync="on", frames=143)


@pytest.mark.parametrize("typed", ["1000 Hz", "1000", 1000, 1000.0, "1000 times a second"])
def test_polling_is_read_as_people_write_it(typed):
    assert find("motion.delay").run({"poll_hz": typed}).values["poll_hz"] == "1000"


def test_wrong_inputs_are_all_told_at_once_and_the_sentence_says_what_would_do():
    said = problems("motion.delay", poll_hz=900, frames=2001, rate=0, sync="maybe", queued=6, down=101)
    assert set(said) == {"poll_hz", "frames", "rate", "sync", "queued", "down"}
    assert "from 1 to 2000" in said["frames"].replace("\u202f", "")
    assert "from 10 to 1000 Hz" in said["rate"]
    said = problems("motion.hertz", rate_a=0, rate_b="fast", frames=2001, lit=0, speed=-1)
    assert set(said) == {"rate_a", "rate_b", "frames", "lit", "speed"}


@pytest.mark.parametrize(
    ("inputs", "said"),
    [
        ({"rate_a": 59.94, "rate_b": 60}, "16.7 px at best, at both rates"),
        (
            {"rate_a": 239.76, "rate_b": 240, "frames": 240},
            "0.0042 ms less; what moves smears over 4.2 px at best, at both rates",
        ),
        ({"rate_a": 60, "rate_b": 144}, "10 px at best, not 16.7"),
    ],
)
def test_the_headline_sets_no_number_against_itself_and_no_gain_is_none(inputs, said):
    answer = find("motion.hertz").run(inputs).answer
    assert said in answer.headline
    assert next(f.text for f in answer.figures if f.key == "gain_ms") != "0 ms"


@pytest.mark.parametrize(
    ("inputs", "said"),
    [
        ({"frames": 100}, "16.67 ms at 60 Hz"),
        ({"frames": 30}, "33.33 ms at 60 Hz"),
        ({"frames": 100, "lit": 25}, "4.17 ms at 60 Hz"),
        ({"frames": "heavy"}, "16.67 to 33.33 ms at 60 Hz"),
    ],
)
def test_how_long_a_picture_stands_goes_by_frames_and_light(inputs, said):
    assert said in notes("motion.hertz", **inputs)["'1 ms' is another thing"]


def test_frames_in_everyday_words_are_told_as_numbers():
    title = "Frames set the blur, the rate only the wait"
    assert notes("motion.hertz", frames="heavy")[title].startswith("The machine makes 30 to 60 frames a second, fewer")
    assert "at times fewer than 144 Hz" in notes("motion.hertz", frames="unsure")[title]
    assert "more often, which smears" in notes("motion.hertz", frames=30, lit=25)[title]


def test_a_width_without_a_time_is_told_not_to_count():
    assert "The width is not used" in notes("motion.hertz", width=3840)
    assert "The width is not used" not in notes("motion.hertz", width=3840, crossing=2)


def test_the_name_of_each_common_case_holds_its_rates():
    for preset in find("motion.hertz").presets:
        assert {str(preset.inputs["rate_a"]), str(preset.inputs["rate_b"])} <= set(preset.label.split()), preset.label


def test_more_frames_are_not_advised_where_the_sync_setting_holds_them():
    for sync in ("on", "adaptive"):
        advice = notes("motion.delay", sync=sync, frames=300, rate=60)["Change this first"]
        assert "a faster refresh rate" in advice
        assert "lower the picture quality" not in advice
    for inputs in ({"sync": "off", "frames": 40, "rate": 60}, {"sync": "on", "frames": 40, "rate": 60}):
        assert "more frames a second: lower" in notes("motion.delay", **inputs)["Change this first"]


def test_what_may_be_is_not_told_as_sure():
    assert "Frames may pile up here" in notes("motion.delay", sync="on", frames="usual", rate=100)
    assert "Frames may pile up here" in notes("motion.delay", sync="unsure", frames=200, rate=100)
    assert "None is counted here." in notes("motion.delay", sync="on", frames=144)["Frames pile up here"]
    assert "None is counted" not in notes("motion.delay", sync="on", frames=144, queued=1)["Frames pile up here"]
    assert notes("motion.delay", queued="unsure")["Change this first"].startswith("By the middle of its range")


def test_two_rates_alike_still_say_how_wide_it_smears():
    said = find("motion.hertz").run({"rate_a": 144, "frames": 90}).answer.headline
    assert (
        said == "Both are 144 Hz: a refresh takes 6.94 ms, what moves smears over 11.1 px at best, and nothing changes."
    )


def lines(name, **inputs):
    return {line.what: (line.numbers, line.result) for line in find(name).run(inputs).answer.working}


def test_a_working_of_hertz_by_hand():
    """1450 px in 1.5 s are 966.667 px/s; at 59.94 Hz (60 × 1000/1001) that is 16.128 px a refresh of 16.683 ms."""
    crossed = {"rate_a": 59.94, "rate_b": 144, "frames": 144, "crossing": 1.5}
    assert lines("motion.hertz", **crossed, width=1450)["Speed"] == ("1450 px ÷ 1.5 s", "966.7 px/s")
    assert "as none was given" in lines("motion.hertz", **crossed)["Speed"][0]
    worked = lines("motion.hertz", **crossed, width=1450)
    assert worked["One refresh at 59.94 Hz"] == ("1000 ÷ 59.94", "16.68 ms")
    assert worked["Pictures shown at 59.94 Hz"] == ("144 and 59.94", "59.94 a second")
    assert worked["Jump at 59.94 Hz, resting eye"] == ("966.7 ÷ 59.94", "16.1 px")
    assert worked["Blur at 59.94 Hz, following eye"] == ("966.7 × 1 ÷ 59.94", "16.1 px")
    half = lines("motion.hertz", rate_a=59.94, rate_b=144, frames=144, speed=960, lit=12.346)
    assert half["Blur at 144 Hz, following eye"] == ("960 × (1 ÷ 144 − (1 − 0.1235) ÷ 144)", "0.8 px")


def test_for_what_hertz_was_worked_out():
    given = {"rate_a": 60, "rate_b": 144, "frames": 144, "speed": 966.66}
    hertz = find("motion.hertz")
    assert hertz.run({**given, "lit": 100}).worked_for() == "60 Hz against 144 Hz, 144 frames a second, 966.7 px/s"
    assert hertz.run({**given, "lit": 20}).worked_for().endswith(", lit 20 % of the time")


def test_the_table_of_doublings_marks_what_was_asked():
    """960 px/s: 16 px at 60 Hz and half of it at each doubling; with 100 frames no less than 9.6."""
    rows = find("motion.hertz").run({"rate_a": 120, "rate_b": 480, "frames": 100, "speed": 960}).answer.tables[0]
    assert rows.rows == (
        ("60 Hz", "16.67", "–", "16", "16"), ("120 Hz", "8.33", "8.33", "8", "9.6"),
        ("240 Hz", "4.17", "4.17", "4", "9.6"), ("480 Hz", "2.08", "2.08", "2", "9.6"),
    )  # fmt: skip
    assert rows.marked == (1, 3)


def test_what_the_link_must_carry_beside_hertz():
    """Reduced blanking, version 2: (1920 + 80) × 1111 lines × 60 are 133.32 MHz, times 24 bits 3.2 Gb/s."""
    rows = find("motion.hertz").run({"rate_a": 60, "rate_b": 144}).answer.tables[1].rows
    assert rows[0][:2] == ("1920 × 1080", "3.2 Gb/s")


# 100 frames a second take 10 ms each, a refresh at 160 Hz takes 6.25.
CHAIN = {"poll_hz": 1000, "frames": 100, "queued": 2, "rate": 160, "down": 50, "display_ms": 5, "response_ms": 3}


def test_a_working_of_delay_by_hand_with_sync_off():
    """0.5 + 5 + 10 + 20 + 3.125 + 5 + 3 are 46.625; the three waits, 8.625, may be none or twice as long."""
    answer = find("motion.delay").run({**CHAIN, "sync": "off"}).answer
    assert [(line.numbers, line.result) for line in answer.working] == [
        ("500 ÷ 1000", "0.5 ms"), ("500 ÷ 100", "5 ms"), ("1000 ÷ 100", "10 ms"), ("2 × 1000 ÷ 100", "20 ms"),
        ("500 ÷ 160", "3.125 ms"), ("a flip lands anywhere", "0 ms"), ("5 ms", "5 ms"), ("3 ms", "3 ms"),
        ("", "46.62 ms"), ("", "38 ms; 55.25 ms"),
    ]  # fmt: skip
    assert answer.headline.startswith("From hand to picture takes about 46.6 ms; the largest part, ")
    assert answer.headline.endswith(", takes 20 ms.")
    assert "Least 38 ms, most 55.2 ms." in answer.drawings[0].description
    assert "its middle is drawn" not in answer.drawings[0].description


@pytest.mark.parametrize(
    ("sync", "frames", "made", "waits", "scan"),
    [
        ("on", 100, 100, "500 ÷ 160", "50 ÷ 100 × 1000 ÷ 160"),
        ("on", 160, 160, "no wait", "50 ÷ 100 × 1000 ÷ 160"),
        ("on", 200, 160, "no wait", "50 ÷ 100 × 1000 ÷ 160"),
        ("adaptive", 100, 100, "no wait", "50 ÷ 100 × 1000 ÷ 160"),
        ("off", 200, 200, "500 ÷ 160", "a flip lands anywhere"),
    ],
)
def test_a_working_of_delay_counts_as_many_frames_as_are_made(sync, frames, made, waits, scan):
    numbers = [
        line.numbers for line in find("motion.delay").run({**CHAIN, "sync": sync, "frames": frames}).answer.working
    ]
    assert numbers[1:6] == [f"500 ÷ {made}", f"1000 ÷ {made}", f"2 × 1000 ÷ {made}", waits, scan]


def test_the_part_named_as_the_largest_is_the_first_of_those_alike():
    """A frame of 10 ms and a display of 10 ms: the frame comes first in the chain."""
    alike = {**CHAIN, "queued": 0, "sync": "off", "display_ms": 10}
    assert figures("motion.delay", **alike)["largest"] == "make"
    assert figures("motion.delay", **{**alike, "display_ms": 10.1})["largest"] == "display"


def test_a_middle_lies_between_the_ends():
    """A response that nobody knows: half the sum of its ends is drawn, and the whole differs by what they differ."""
    answer = find("motion.delay").run({**CHAIN, "sync": "off", "response_ms": "unsure"}).answer
    told = {figure.key: figure.value for figure in answer.figures}
    low, high = told["response_ms_low"], told["response_ms_high"]
    assert f" {(low + high) / 2:.1f} ms".replace(".0 ms", " ms") in answer.drawings[0].description
    assert answer.drawings[0].description.endswith(" Where a part is a range, its middle is drawn.")
    assert told["total_ms_high"] - told["total_ms_low"] == pytest.approx(high - low)
    assert "about" not in answer.headline


def test_for_what_delay_was_worked_out():
    delay = find("motion.delay")
    assert delay.run({**CHAIN, "sync": "on", "frames": 99.1234}).worked_for() == (
        "99.123 frames at 160 Hz, sync on, asked 1000 times a second"
    )
    told = delay.run({**CHAIN, "sync": "unsure", "frames": "heavy", "poll_hz": "unsure"}).worked_for()
    assert told == "30 to 60 frames at 160 Hz, any sync setting, an unknown polling rate"


def test_flashing_is_warned_of_where_the_rate_may_change():
    for sync, warned in (("off", False), ("on", False), ("adaptive", True), ("unsure", True)):
        assert bool(find("motion.delay").run({**CHAIN, "sync": sync}).answer.cautions) == warned


def test_a_drawing_of_hertz_tells_the_smears_in_words():
    """1000 px/s at 60 Hz are 16.67 px, at 144 Hz 6.94."""
    drawn = find("motion.hertz").run({"rate_a": 60, "rate_b": 144, "frames": 144, "speed": 1000}).answer.drawings
    assert "At 60 Hz it is smeared over 16.7 pixels, at 144 Hz over 6.9." in drawn[0].description
    assert "every 16.67 ms, at 144 Hz every 6.94 ms" in drawn[1].description


def test_a_drawing_of_hertz_says_where_it_shows_the_fewest_frames():
    def described(**inputs):
        return find("motion.hertz").run({"rate_a": 60, "rate_b": 144, **inputs}).answer.drawings[0].description

    assert described(frames="heavy").endswith(" Drawn for the fewest frames.")
    assert "fewest" not in described(frames=100)


def test_the_fastest_speed_that_may_be_typed_may_be_crossed():
    """1920 px in 0.096 s are 20 000 px/s."""
    assert figures("motion.hertz", crossing=0.096, width=1920)["speed_px_s"] == 20_000
    assert "crossing" in problems("motion.hertz", crossing=0.0959, width=1920)


def test_digits_of_a_delay():
    """Half of 1/8000 s is 0.0625 ms, half of 1/144 s 3.4722: 46.5347 in all, less and more 8.5347."""
    answer = find("motion.delay").run({**CHAIN, "poll_hz": 8000, "rate": 144, "sync": "off"}).answer
    texts = {figure.key: figure.text for figure in answer.figures}
    assert (texts["poll_ms"], texts["sync_ms"], texts["total_ms"]) == ("0.0625 ms", "3.47 ms", "46.5 ms")
    assert [line.result for line in answer.working[-2:]] == ["46.53 ms", "38 ms; 55.07 ms"]
    third = find("motion.delay").run({**CHAIN, "rate": 144, "sync": "on", "response_ms": 3.3333}).answer
    assert third.working[-1].result.startswith("41.81 ms; ")  # 10 + 20 + 3.4722 + 5 + 3.3333 without waits


def test_the_parts_of_a_delay_go_by_their_names_and_none_is_drawn_of_no_length():
    answer = find("motion.delay").run({**CHAIN, "queued": 0, "sync": "off"}).answer
    assert [line.what for line in answer.working][:4] == [
        "Asking mouse or keyboard", "Waiting for the next frame", "Making the frame", "Frames queued before it"
    ]  # fmt: skip
    assert answer.drawings[0].description.startswith("One bar: asking the mouse 0.5 ms; until the next frame 5 ms; ")
    assert " 0 ms" not in answer.drawings[0].description
