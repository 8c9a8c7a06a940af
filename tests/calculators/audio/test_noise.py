"""audio.noise: level of the hiss, the room behind headphones, two outputs side by side."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.audio.headphones import headphone_circuit
from calculators.catalogue import find
from calculators.desk.errors import InputErrors

NOISE = find("audio.noise")
CLOSE = 1e-9


def run(**inputs):
    return NOISE.run(inputs).answer


def figures(**inputs):
    return {f.key: f.value for f in run(**inputs).figures}


def test_hiss_by_hand():
    # 20 µV on 0 Ω, 120 dB/V: 120 + 20 · log(20e-6) = 120 - 93.979 = 26.021 dBA
    ours = figures(sensitivity=120, sensitivity_unit="db_v", source_impedance=0, noise_uv=20, room_db=25)
    assert ours["noise_spl_db"] == pytest.approx(26.0206, abs=0.0001)
    assert ours["above_room_db"] == pytest.approx(1.0206, abs=0.0001)


def test_the_divider_takes_its_part_of_the_noise():
    ours = figures(sensitivity=120, sensitivity_unit="db_v", impedance=32, source_impedance=32, noise_uv=20)
    assert ours["noise_spl_db"] == pytest.approx(26.0206 - 6.0206, abs=0.0001)


def test_a_ratio_is_the_same_as_its_voltage():
    # 100 dB below 2 V is 20 µV
    by_ratio, by_voltage = figures(snr_db=100, full_volts=2), figures(noise_uv=20)
    assert by_ratio["noise_spl_db"] == pytest.approx(by_voltage["noise_spl_db"], abs=CLOSE)
    # without full_volts the highest voltage of the output is meant
    assert figures(snr_db=100, source_volts=2)["noise_spl_db"] == pytest.approx(by_ratio["noise_spl_db"], abs=CLOSE)


def test_headphones_that_keep_the_room_out_show_more_hiss():
    opened, closed = figures(noise_uv=20), figures(noise_uv=20, isolation=20)
    assert closed["above_room_db"] == pytest.approx(opened["above_room_db"] + 20, abs=CLOSE)
    assert closed["noise_spl_db"] == opened["noise_spl_db"]


@pytest.mark.parametrize(("noise", "word"), [(1, "yes"), (20, "depends"), (500, "no")])
def test_verdicts(noise, word):
    assert run(noise_uv=noise).verdict.word == word


def test_two_outputs_side_by_side():
    answer = run(noise_uv=200, source_impedance=0, other_noise_uv=50, other_source_impedance=0)
    ours = {f.key: f.value for f in answer.figures}
    assert ours["other_noise_spl_db"] == pytest.approx(ours["noise_spl_db"] - 12.0412, abs=0.0001)
    assert ours["other_louder_db"] == pytest.approx(-12.0412, abs=0.0001)
    assert answer.headline.startswith("The other output hisses 12 dB less: about ")
    assert answer.tables[0].title == "The two outputs side by side"


def test_two_outputs_that_nobody_hears_hiss_are_not_ranked_by_it():
    answer = run(noise_uv=1, source_impedance=0, other_noise_uv=0.5, other_source_impedance=0)
    assert answer.verdict.says == "No hiss to be heard."
    assert answer.headline.startswith("You will hear neither output hiss: about ")
    assert "less" not in answer.headline


def test_the_difference_of_two_outputs_does_not_hang_on_the_headphones():
    ours = figures(noise_uv=20, source_impedance=0, other_noise_uv=5, other_source_impedance=0, sensitivity="unsure")
    assert ours["other_louder_db"] == pytest.approx(-12.0412, abs=0.0001)
    assert "noise_spl_db" not in ours


def test_noise_not_known_gives_the_usual_range():
    answer = run(output="usb")
    ours = {f.key: f.value for f in answer.figures}
    assert (ours["noise_uv_low"], ours["noise_uv_high"]) == (1, 8)
    assert any("without a source" in n.text for n in answer.notes)


@pytest.mark.parametrize(
    ("inputs", "key", "says"),
    [
        ({"noise_uv": 4, "snr_db": 100}, "snr_db", "not both"),
        ({"other_noise_uv": 4, "other_snr_db": 100}, "other_snr_db", "not both"),
        ({"other_snr_db": 100}, "other_full_volts", "needs the voltage"),
        ({"snr_db": 100, "source_volts": "unsure"}, "full_volts", "needs the voltage"),
        ({"impedance_low": 90, "impedance_high": 9}, "impedance_low", "must not be above"),
    ],
)
def test_what_does_not_go_together_is_said_at_the_input(inputs, key, says):
    with pytest.raises(InputErrors) as wrong:
        run(**inputs)
    assert [(p.input, says in p.message) for p in wrong.value.problems] == [(key, True)]


def test_a_buzz_is_told_from_hiss_and_the_earth_stays_on():
    answer = run()
    steps = " ".join(" ".join(step.do) for step in answer.steps)
    assert "Move the mouse" in steps
    assert any(c.risk == "person" and "earth" in c.text for c in answer.cautions)


@given(noise=st.floats(0.01, 1e5), ohm=st.floats(1, 10000), source=st.floats(0, 10000), db=st.floats(40, 160))
def test_hiss_and_music_go_through_the_same_divider(noise, ohm, source, db):
    """From hiss to the loudest level it is as far at the ear as it is at the socket."""
    inputs = {"noise_uv": noise, "impedance": ohm, "source_impedance": source, "sensitivity": db, "source_volts": 1}
    far = headphone_circuit.decibels(1 / (noise / 1e6))
    assert figures(**inputs)["range_db"] == pytest.approx(far, abs=1e-6)


@pytest.mark.parametrize("noise", [1, 20, 500])
def test_hiss_is_never_told_in_the_words_of_loudness(noise):
    """'Quiet enough' could mean either; the page on loudness has 'too quiet', this one hiss."""
    answer = run(noise_uv=noise, other_noise_uv=8)
    said = f"{NOISE.title} {answer.headline} {answer.verdict.said()} {answer.verdict.reason}".casefold()
    assert "quiet" not in said
    assert "hiss" in answer.verdict.said()
    assert any(n.title == "Hiss is not loudness" for n in answer.notes)
    assert "hiss" not in find("audio.level").title


def test_for_which_parts_it_was_worked_out():
    phrase = NOISE.run({"noise_uv": 35, "other_snr_db": 100, "other_full_volts": 2}).worked_for()
    assert phrase == (
        "headphones of 100 dB/mW and 32 Ω on 1 V behind 10 Ω with 35 µV of noise, "
        "against another with a ratio of 100 dB"
    )
