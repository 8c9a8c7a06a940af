"""audio.tones: the samples themselves, read back with the standard library's wave module."""

import io
import struct
import wave
from itertools import pairwise
from zlib import crc32

import pytest

from calculators.audio.signals import fixed_point, waveforms
from calculators.catalogue import find
from calculators.desk.errors import InputErrors

TONES = find("audio.tones")
KINDS = ("left", "right", "both", "reversed", "sweep", "staircase")

# Own edge case, not published: what CPython 3.11 on Linux made. The same suite runs in WebAssembly and on every
# CPython, so a machine that makes other bytes is found out.
CHECKSUMS = {
    "left": 0x571EA60C,
    "right": 0x037B42D7,
    "both": 0xC5C5B4B5,
    "reversed": 0x1ACF55B7,
    "sweep": 0x1D131CDA,
    "staircase": 0xF6A4EA8B,
}


def made(**inputs):
    answer = TONES.run(inputs).answer
    (file,) = answer.files
    with wave.open(io.BytesIO(file.data)) as opened:
        assert (opened.getnchannels(), opened.getsampwidth(), opened.getcomptype()) == (2, 2, "NONE")
        frames, rate = opened.getnframes(), opened.getframerate()
        samples = struct.unpack(f"<{2 * frames}h", opened.readframes(frames))
    return answer, {f.key: f.value for f in answer.figures}, samples[0::2], samples[1::2], rate


@pytest.mark.parametrize("kind", KINDS)
def test_the_file_holds_what_the_figures_say(kind):
    answer, figures, left, right, rate = made(kind=kind, seconds=1.5, level_dbfs=-30)
    assert figures["frames"] == len(left) == round(1.5 * rate)
    assert figures["peak"] == max(abs(v) for v in left + right)
    assert answer.files[0].media == "audio/wav"
    assert figures["bytes"] == len(answer.files[0].data) == 44 + 4 * len(left)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("level", [-20, -33.3, -60, -80])
def test_never_above_the_level_asked_for_and_hardly_below(kind, level):
    _, figures, *_ = made(kind=kind, seconds=1, level_dbfs=level, frequency=440)
    asked = 32767 * 10 ** (level / 20)
    assert asked - 1 <= figures["peak"] <= asked


@pytest.mark.parametrize("kind", KINDS)
def test_it_fades_at_both_ends_and_never_jumps(kind):
    _, figures, left, right, rate = made(kind=kind, seconds=1, level_dbfs=-20, frequency=500)
    # between two samples a sine of this frequency moves by at most 2π f / rate of its peak; a fade adds a little
    steepest = 2 * 3.14159266 * 500 / rate * 3277 + 3277 * 3.15 / (2 * 0.02 * rate) + 1
    for side in (left, right):
        assert side[0] == side[-1] == 0
        assert max(abs(a - b) for a, b in pairwise(side)) <= steepest
        assert max(abs(v) for v in side[: rate // 200]) <= figures["peak"] // 20  # the first 5 ms
        assert max(abs(v) for v in side[-rate // 200 :]) <= figures["peak"] // 20


def test_the_silent_side_is_nothing_but_zeros():
    _, _, left, right, _ = made(kind="left")
    assert any(left)
    assert not any(right)
    _, _, left, right, _ = made(kind="right")
    assert any(right)
    assert not any(left)


def test_both_is_the_same_and_reversed_is_the_mirror_image():
    _, _, left, right, _ = made(kind="both")
    assert left == right
    _, _, left, right, _ = made(kind="reversed")
    assert left == tuple(-v for v in right)
    assert any(left)


@pytest.mark.parametrize("frequency", [100, 440, 500, 1000, 3000, 7000, 15000])
def test_the_frequency_by_counting_rising_zeros(frequency):
    _, _, left, _, rate = made(kind="both", frequency=frequency, seconds=2, level_dbfs=-20)
    middle = left[rate // 4 : -rate // 4]
    rising = sum(a <= 0 < b for a, b in pairwise(middle))
    assert abs(rising - frequency * len(middle) / rate) <= 2


def test_the_staircase_climbs_by_three_decibels():
    _, _, left, _, rate = made(kind="staircase", frequency=500, seconds=6, level_dbfs=-20)
    peaks = [max(left[i * rate + rate // 4 : i * rate + 3 * rate // 4]) for i in range(6)]
    for lower, higher in pairwise(peaks):
        assert higher / lower == pytest.approx(10 ** (3 / 20), rel=0.003)


def test_the_sweep_climbs_from_20_hz_to_the_frequency():
    _, _, left, _, rate = made(kind="sweep", frequency=2000, seconds=10, level_dbfs=-20)
    # each octave takes the same time: after half of it the tone is at the geometric mean, 200 Hz
    middle = left[5 * rate - rate // 4 : 5 * rate + rate // 4]
    assert sum(a <= 0 < b for a, b in pairwise(middle)) / 0.5 == pytest.approx(200, rel=0.05)
    end = left[-rate // 5 : -rate // 20]
    assert 1880 <= sum(a <= 0 < b for a, b in pairwise(end)) / 0.15 <= 2000


@pytest.mark.parametrize("kind", KINDS)
def test_the_bytes_are_the_same_on_every_machine(kind):
    file = TONES.run({"kind": kind, "frequency": 440, "seconds": 0.75, "level_dbfs": -27.5}).answer.files[0]
    assert crc32(file.data) == CHECKSUMS[kind]


@pytest.mark.parametrize(
    ("frequency", "rate"), [(20, 8000), (3360, 8000), (3361, 16000), (13440, 32000), (20000, 48000)]
)
def test_the_lowest_rate_that_carries_the_frequency(frequency, rate):
    assert waveforms.sample_rate(frequency) == rate
    assert frequency <= 0.42 * rate


def test_louder_than_minus_20_is_refused_in_words():
    with pytest.raises(InputErrors, match=r"Level must be a number from −80 to −20 dBFS, such as −60, got '-10'"):
        TONES.run({"level_dbfs": "-10"})


def test_the_caution_stands_before_the_first_sound():
    first = next(c for c in TONES.run({}).answer.cautions if c.first)
    assert "volume all the way down, headphones off the ears" in first.text


def test_the_default_is_quiet():
    _, figures, *_ = made()
    assert figures["peak"] == 32  # 32767 at −60 dB is 32.767


def test_pi_and_ln_2_by_other_series():
    """Machin's formula and the sum of 1 / (k 2^k), in whole numbers with 32 bits to spare."""
    bits = fixed_point.BITS + 32

    def arctan_of_one_over(n):
        term = total = (1 << bits) // n
        k = 1
        while term:
            term //= -n * n
            k += 2
            total += term // k
            if -n < term < 0:
                break
        return total

    pi = 4 * (4 * arctan_of_one_over(5) - arctan_of_one_over(239))
    assert abs((pi >> 32) - fixed_point._PI) <= 1
    ln2 = sum((1 << bits) // (k << k) for k in range(1, bits))
    assert abs((ln2 >> 32) - fixed_point._LN2) <= 1


@pytest.mark.parametrize(
    ("max_spl", "dbfs", "ear"),
    [
        (102, -60, 42),  # 0 dBFS is the sine that gives the loudest level: AES17 (tests/check_values has none of it)
        (139.5, -20, 119.5),
        (96.5, -80, 16.5),
    ],
)
def test_how_loud_the_tone_is_at_the_ear(max_spl, dbfs, ear):
    answer = TONES.run({"max_spl": max_spl, "level_dbfs": dbfs, "seconds": 0.5}).answer
    figure = next(f for f in answer.figures if f.key == "level_at_ear_db")
    assert figure.value == pytest.approx(ear, abs=1e-9)
    assert figure.main
    (note,) = [n.text for n in answer.notes if n.title == "How loud that is at your ear"]
    assert f"about {ear:.0f} dB" in note
    assert "full volume" in note
    assert any("max" in w.formula or "loudest" in w.formula for w in answer.working if w.what == "Level at the ear")


def test_without_the_loudest_level_nothing_is_said_of_the_ear():
    answer = TONES.run({"seconds": 0.5}).answer
    assert "level_at_ear_db" not in {f.key for f in answer.figures}
    assert "dB at the ear" not in answer.headline


def test_a_tone_that_would_harm_is_not_told_as_a_mere_number():
    loud = TONES.run({"max_spl": 140, "level_dbfs": -20, "seconds": 0.5}).answer  # 120 dB
    assert "too loud for any length of time" in " ".join(n.text for n in loud.notes)
    assert "turn right down" in loud.headline
    care = TONES.run({"max_spl": 110, "level_dbfs": -20, "seconds": 0.5}).answer  # 90 dB
    assert "hearing needs care" in " ".join(n.text for n in care.notes)


def test_for_which_sound_it_was_worked_out():
    assert TONES.run({"kind": "left", "frequency": 500, "seconds": 1}).worked_for() == (
        "a tone of 500 Hz on the left only, 1 s at −60 dBFS"
    )
    assert "headphones that reach 102 dB" in TONES.run({"max_spl": 102, "seconds": 0.5}).worked_for()
