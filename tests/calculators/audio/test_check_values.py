"""Published figures: limits, conversions, dividers, plug sizes, binomial tables. Sources stand in check_values."""

import tomllib
from pathlib import Path

import pytest

from calculators.audio.connections import connectors
from calculators.audio.headphones import headphone_circuit
from calculators.audio.hearing import exposure_limits
from calculators.audio.statistics import binomial
from calculators.catalogue import find


def load(name):
    return tomllib.loads((Path(__file__).parents[2] / "check_values" / f"{name}.toml").read_text("utf-8"))


DURATIONS, PAGE, WEEK = load("niosh_98_126_durations"), load("niosh_noise_page"), load("itu_t_h870_week")
DECIBELS, DIVIDERS = load("headphone_decibels"), load("divider_and_damping")
SIZES, BINOMIAL = load("plug_sizes"), load("binomial_half")

# Binary fractions cannot hold half of a printed digit, so a billionth is added to each.
HALF_A_TENTH = 0.05 + 1e-9
HALF_A_HUNDREDTH = 0.005 + 1e-9
HALF_OF_FOURTH_DECIMAL = 0.00005 + 1e-9
HALF_A_MINUTE_S, HALF_A_SECOND_S = 30 + 1e-6, 0.5 + 1e-6
SETTLED = 1e-11  # a figure holds 12 significant digits


def figures(name, **inputs):
    return {f.key: f.value for f in find(name).run(inputs).answer.figures}


@pytest.mark.parametrize(("dba", "hours", "minutes", "seconds"), DURATIONS["rows"])
def test_every_row_of_niosh_table_1_1(dba, hours, minutes, seconds):
    printed_s = 3600 * hours + 60 * minutes + seconds
    # the table prints minutes down to an hour, seconds below
    printed_to = HALF_A_MINUTE_S if printed_s >= 3600 else HALF_A_SECOND_S
    ours_s = 3600 * figures("audio.exposure", level=dba)["allowed_hours_day"]
    if dba == DURATIONS["misprinted_dba"]:
        assert ours_s == pytest.approx(18 * 60 + 54, abs=HALF_A_SECOND_S)
        assert printed_s - ours_s > 4
    else:
        assert ours_s == pytest.approx(printed_s, abs=printed_to)


@pytest.mark.parametrize(("dba", "minutes"), PAGE["rows"])
def test_every_row_of_the_institutes_page(dba, minutes):
    assert 60 * exposure_limits.allowed_hours(dba, exposure_limits.WORK_DAY) == pytest.approx(minutes, rel=SETTLED)
    # and one exactly such day is a full dose
    dose = figures("audio.exposure", level=dba, hours_day=minutes / 60)["dose_percent"]
    assert dose == pytest.approx(100, rel=SETTLED)


@pytest.mark.parametrize(("mode", "dba", "hours"), WEEK["rows"])
def test_weekly_allowances_of_h_870(mode, dba, hours):
    assert figures("audio.exposure", level=dba)[f"allowed_hours_week_{mode}"] == pytest.approx(hours, rel=SETTLED)


def test_the_adults_allowance_is_the_exposure_that_h_871_names():
    pascals = 20e-6 * 10 ** (exposure_limits.ADULT_WEEK.level_dba / 20)  # 0 dB is 20 µPa
    assert pascals**2 * exposure_limits.ADULT_WEEK.hours == pytest.approx(WEEK["exposure_pa2h"], rel=1e-9)


@pytest.mark.parametrize(("ohm", "db_mw", "db_v"), DECIBELS["sensitivities"])
def test_sensitivities_convert_both_ways(ohm, db_mw, db_v):
    by_power = figures("audio.level", sensitivity=db_mw, impedance=ohm)
    assert by_power["sensitivity_db_v"] == pytest.approx(db_v, abs=HALF_A_TENTH)
    assert by_power["sensitivity_db_mw"] == pytest.approx(db_mw, rel=SETTLED)
    by_volt = figures("audio.level", sensitivity=db_v, sensitivity_unit="db_v", impedance=ohm)
    assert by_volt["sensitivity_db_mw"] == pytest.approx(db_mw, abs=HALF_A_TENTH)


@pytest.mark.parametrize(("volts", "ohm", "milliwatts"), DECIBELS["powers"])
def test_powers(volts, ohm, milliwatts):
    ours = figures("audio.level", impedance=ohm, source_volts=volts, source_impedance=0)["power_mw"]
    assert ours == pytest.approx(milliwatts, abs=HALF_A_TENTH / 10 if milliwatts < 10 else HALF_A_TENTH)


@pytest.mark.parametrize(("ratio", "decibels"), DECIBELS["ratios"])
def test_ratios_in_decibels(ratio, decibels):
    assert headphone_circuit.decibels(ratio) == pytest.approx(decibels, abs=HALF_A_HUNDREDTH)
    assert headphone_circuit.ratio(headphone_circuit.decibels(ratio)) == pytest.approx(ratio, rel=1e-12)


@pytest.mark.parametrize(("load_ohm", "source_ohm", "damping"), DIVIDERS["damping"])
def test_damping_factors(load_ohm, source_ohm, damping):
    ours = figures("audio.level", impedance=load_ohm, source_impedance=source_ohm)["damping"]
    assert ours == pytest.approx(damping, rel=SETTLED)


@pytest.mark.parametrize(("source_volts", "source_ohm", "load_ohm", "volts"), DIVIDERS["dividers"])
def test_dividers(source_volts, source_ohm, load_ohm, volts):
    ours = figures("audio.level", source_volts=source_volts, source_impedance=source_ohm, impedance=load_ohm)
    assert ours["load_volts"] == pytest.approx(volts, abs=0.0005 + 1e-9)


@pytest.mark.parametrize(("source_ohm", "low", "high", "decibels"), DIVIDERS["shifts"])
def test_rise_where_the_impedance_is_highest(source_ohm, low, high, decibels):
    assert headphone_circuit.level_shift(source_ohm, low, high) == pytest.approx(decibels, abs=HALF_A_HUNDREDTH)


@pytest.mark.parametrize(("key", "millimetres"), SIZES["diameters"])
def test_plug_diameters(key, millimetres):
    assert connectors.CONNECTORS[key].size_mm == millimetres
    assert connectors.CONNECTORS[key].label.startswith(f"{millimetres:g} mm, {key[-1]} poles")


@pytest.mark.parametrize(("over", "under", "millimetres"), SIZES["inches"])
def test_fractions_of_an_inch(over, under, millimetres):
    assert connectors.inch(over, under) == pytest.approx(millimetres, rel=1e-12)


def test_the_answer_tells_the_sizes_exactly():
    notes = " ".join(note.text for note in find("audio.plugs").run({}).answer.notes)
    assert "6.35 mm" in notes
    assert "3.175 mm" in notes


@pytest.mark.parametrize(("right", "trials", "chance"), BINOMIAL["rows"])
def test_binomial_tables(right, trials, chance):
    assert binomial.chance_of_at_least(right, trials) == pytest.approx(chance, abs=HALF_OF_FOURTH_DECIMAL)
    ours = figures("audio.blind", right=right, trials=trials)["chance_percent"]
    assert ours == pytest.approx(100 * chance, abs=100 * HALF_OF_FOURTH_DECIMAL)
