"""The headphone on its output, solved by NumPy as a circuit of two nodes, against audio.level."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.audio.headphones import headphone_circuit


@given(volts=st.floats(0.01, 50), source=st.floats(0.01, 5000), ohm=st.floats(1, 5000))
def test_nodal_analysis_gives_the_same_voltage_and_power(volts, source, ohm):
    conductance = np.array([[1 / source + 1 / ohm]])
    node = np.linalg.solve(conductance, np.array([volts / source]))[0]
    ours = headphone_circuit.load_volts(volts, source, ohm)
    assert ours == pytest.approx(node, rel=1e-9)
    assert headphone_circuit.power_mw(ours, ohm) == pytest.approx(1000 * node * node / ohm, rel=1e-9)
    assert headphone_circuit.current_ma(ours, ohm) == pytest.approx(1000 * (volts - node) / source, rel=1e-6, abs=1e-6)


@given(level=st.floats(-200, 200))
def test_decibels_by_numpy(level):
    assert headphone_circuit.ratio(level) == pytest.approx(float(np.power(10.0, level / 20)), rel=1e-11)
    assert headphone_circuit.decibels(headphone_circuit.ratio(level)) == pytest.approx(level, abs=1e-9)
