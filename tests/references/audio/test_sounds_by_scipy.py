"""The test sounds, read by SciPy, and their spectrum by NumPy: the tone stands where it was asked for."""

import io

import numpy as np
import pytest

from calculators.catalogue import find

TONES = find("audio.tones")


def read(**inputs):
    from scipy.io import wavfile  # here, and not by each process that only collects these tests

    answer = TONES.run(inputs).answer
    rate, data = wavfile.read(io.BytesIO(answer.files[0].data))
    return {f.key: f.value for f in answer.figures}, rate, data


@pytest.mark.parametrize("kind", ["left", "right", "both", "reversed", "sweep", "staircase"])
def test_scipy_reads_the_file(kind):
    figures, rate, data = read(kind=kind, seconds=1)
    assert data.dtype == np.int16
    assert data.shape == (figures["frames"], 2)
    assert rate == figures["rate_hz"]
    assert np.abs(data.astype(int)).max() == figures["peak"]


@pytest.mark.parametrize("frequency", [20, 55.5, 440, 500, 999.9, 3360, 5000, 12345.678, 19999])
def test_the_peak_of_the_spectrum_is_the_frequency_asked_for(frequency):
    seconds = 4
    _, rate, data = read(kind="both", frequency=frequency, seconds=seconds, level_dbfs=-20)
    spectrum = np.abs(np.fft.rfft(data[:, 0] * np.hanning(len(data))))
    at = int(spectrum.argmax())
    # the true peak lies between bins: a parabola through three of them, in decibels, finds it
    a, b, c = np.log(spectrum[at - 1 : at + 2])
    found = (at + (a - c) / (2 * (a - 2 * b + c))) * rate / len(data)
    hundredth_of_a_bin = 0.05 / seconds
    assert found == pytest.approx(frequency, abs=hundredth_of_a_bin)


@pytest.mark.parametrize(("level", "least_db"), [(-20, 65), (-60, 30)])
def test_all_but_the_tone_lies_where_sixteen_bits_put_it(level, least_db):
    """Rounding to 16 bits leaves about 98 dB below full scale: 78 below a tone at −20, 38 below one at −60."""
    _, rate, data = read(kind="both", frequency=440, seconds=4, level_dbfs=level)
    middle = data[rate // 4 : -rate // 4, 0].astype(float)
    t = np.arange(len(middle)) / rate
    basis = np.stack([np.sin(2 * np.pi * 440 * t), np.cos(2 * np.pi * 440 * t)], axis=1)
    weights, *_ = np.linalg.lstsq(basis, middle, rcond=None)
    rest = middle - basis @ weights
    assert 10 * np.log10((weights @ weights / 2) / np.mean(rest**2)) > least_db
    # and the tone itself is as strong as asked for, within a twentieth of a decibel
    assert 20 * np.log10(np.hypot(*weights) / 32767) == pytest.approx(level, abs=0.05)


def test_every_sample_is_the_nearest_to_the_sine():
    _, rate, data = read(kind="left", frequency=440, seconds=1, level_dbfs=-20)
    flat = slice(rate // 10, rate - rate // 10)
    sine = 32767 * 10 ** (-20 / 20) * np.sin(2 * np.pi * 440 * np.arange(len(data)) / rate)
    just_over_a_half = 0.51  # rounding, and a table whose straight lines are off by a thousandth of a sample
    cut = np.minimum(np.abs(sine), 3276) * np.sign(sine)  # never above the level asked for
    assert np.abs(data[flat, 0] - cut[flat]).max() <= just_over_a_half


def test_the_sweep_passes_each_octave_in_the_same_time():
    _, rate, data = read(kind="sweep", frequency=2560, seconds=7, level_dbfs=-20)  # seven octaves above 20 Hz
    for octave in range(1, 7):
        part = data[octave * rate - rate // 8 : octave * rate + rate // 8, 0]
        spectrum = np.abs(np.fft.rfft(part * np.hanning(len(part)), 1 << 16))
        found = spectrum.argmax() * rate / (1 << 16)
        assert found == pytest.approx(20 * 2**octave, rel=0.05)
