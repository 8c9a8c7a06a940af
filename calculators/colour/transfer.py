"""How codes become light: the PQ curve of HDR, a plain power law, and the least step that the eye can see."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from calculators.desk.functions import exponential, log10, power

# SMPTE ST 2084 and ITU-R BT.2100-2, table 4 (PQ): exact fractions of the standard
_M1 = 2610 / 16384
_M2 = 2523 / 4096 * 128
_C1 = 3424 / 4096
_C2 = 2413 / 4096 * 32
_C3 = 2392 / 4096 * 32
PQ_PEAK = 10_000.0  # cd/m²


def pq_luminance(signal: float) -> float:
    """
    Luminance that a PQ signal stands for.

    Args:
        signal: The signal, code over the greatest code. [1], 0 to 1.

    Returns:
        Luminance, the same on every display that can show it. [cd/m²], 0 to 10000.

    Raises:
        Nothing.

    Source:
        SMPTE ST 2084:2014, equation 4.1; ITU-R BT.2100-2, table 4; from memory, held against colour-science.

    Example:
        >>> round(pq_luminance(0.5), 2), pq_luminance(1.0)
        (92.25, 10000.0)
    """
    root = power(signal, 1 / _M2)
    if root <= _C1:
        return 0.0
    return PQ_PEAK * power((root - _C1) / (_C2 - _C3 * root), 1 / _M1)


def pq_signal(luminance: float) -> float:
    """
    The PQ signal that stands for a luminance.

    Args:
        luminance: Luminance. [cd/m²], 0 to 10000.

    Returns:
        The signal. [1], 0 to 1.

    Raises:
        Nothing.

    Source:
        SMPTE ST 2084:2014, equation 5.1; ITU-R BT.2100-2, table 4; from memory, held against colour-science.

    Example:
        >>> round(pq_signal(100), 4), round(pq_signal(10000), 4)
        (0.5081, 1.0)
    """
    share = power(luminance / PQ_PEAK, _M1)
    return power((_C1 + _C2 * share) / (1 + _C3 * share), _M2)


def gamma_ramp(depth: int, gamma: float, peak: float, black: float) -> list[float]:
    """
    Luminance of every code on a power-law display.

    Args:
        depth: Bits a channel. [bit], 1 to 12.
        gamma: Exponent. [1]
        peak: Luminance of white. [cd/m²]
        black: Luminance of black. [cd/m²]

    Returns:
        One luminance a code, rising. Shape (2^depth,). [cd/m²]

    Raises:
        Nothing.

    Source:
        Model of this project: black + (peak - black) × signal^gamma.

    Example:
        >>> gamma_ramp(8, 2.2, 250, 0.25)[255]
        250.0
    """
    top = (1 << depth) - 1
    return [black + (peak - black) * power(code / top, gamma) for code in range(top + 1)]


def pq_ramp(depth: int, peak: float, black: float) -> list[float]:
    """
    Luminance of the PQ codes that a display can show, from its black to its peak.

    Args:
        depth: Bits a channel, full range. [bit], 1 to 12.
        peak: Luminance beyond which the display clips. [cd/m²]
        black: Luminance below which it shows black. [cd/m²]

    Returns:
        One luminance a distinct code, rising; codes outside are clipped to the ends and stand there once. [cd/m²]

    Raises:
        Nothing.

    Source:
        SMPTE ST 2084:2014, equation 4.1, with a hard clip at both ends.

    Example:
        >>> ramp = pq_ramp(10, 1000, 0.05)
        >>> ramp[0], ramp[-1], len(ramp)
        (0.05, 1000, 724)
    """
    top = (1 << depth) - 1
    seen = [min(max(pq_luminance(code / top), black), peak) for code in range(top + 1)]
    return [value for i, value in enumerate(seen) if i == 0 or value > seen[i - 1]]


# Barten's model with the conditions of ITU-R BT.2246-4, figure 31, as colour-science's documentation gives them.
_K = 3.0  # signal-to-noise ratio at threshold
_SIGMA_0 = 0.5 / 60  # line spread of the eye [°]
_C_AB = 0.08 / 60  # its growth with the pupil [° / mm]
_X_0 = 60.0  # angular size of the field [°]
_X_MAX = 12.0  # greatest area of summation [°]
_N_MAX = 15.0  # greatest number of cycles
_T = 0.1  # time of summation [s]
_ETA = 0.03  # quantum efficiency
_P = 1.2274e6  # photons [1 / s / °² / Td]
_PHI_0 = 3e-8  # neural noise [s °²]
_U_0 = 7.0  # lateral inhibition [cycles / °]
_SQUARE_WAVE = 1.27  # a step is a square wave, whose fundamental is 4/π larger
_DECADES_A_STEP = 0.02


def sensitivity(cycles: float, luminance: float) -> float:
    """
    Contrast sensitivity of the eye to a fine sine pattern.

    Args:
        cycles: Fineness. [cycles/°]
        luminance: Mean luminance. [cd/m²], above 0.

    Returns:
        One over the least modulation seen half of the time. [1]

    Raises:
        Nothing.

    Source:
        Barten, Proc. SPIE 5294 (2003), formula and its parts, with the conditions of ITU-R BT.2246-4, figure 31;
        by way of colour-science, against which it is held.

    Example:
        >>> round(sensitivity(4.0, 100.0))
        657
    """
    pupil = 5 - 3 * _tanh(0.4 * log10(luminance * _X_0 * _X_0 / 1600))  # [mm]
    sigma = math.sqrt(_SIGMA_0**2 + (_C_AB * pupil) ** 2)
    trolands = math.pi * pupil**2 / 4 * luminance * (1 - (pupil / 9.7) ** 2 + (pupil / 12.4) ** 4)
    optics = exponential(-2 * math.pi**2 * sigma**2 * cycles**2)
    area = 1 / _X_0**2 + 1 / _X_MAX**2 + cycles**2 / _N_MAX**2
    photons = 1 / (_ETA * _P * trolands)
    neural = _PHI_0 / (1 - exponential(-((cycles / _U_0) ** 2)))
    # both directions of the field are alike, so the square root of area² is area itself
    return optics / _K / math.sqrt(2 / _T * area * (photons + neural))


def _tanh(value: float) -> float:
    grown = exponential(2 * value)
    return (grown - 1) / (grown + 1)


def threshold_percent(luminance: float) -> float:
    """
    The least step between two tones that the eye can see at a luminance, at the fineness it sees best.

    Args:
        luminance: Mean luminance of the two. [cd/m²], above 0.

    Returns:
        Difference of the two over their mean. [%]

    Raises:
        Nothing.

    Source:
        ITU-R BT.2246-4, figure 31: 2 ÷ sensitivity ÷ 1.27, by way of colour-science's documentation.

    Example:
        >>> print(f"{threshold_percent(100):.2f}")
        0.22
    """
    best = max(sensitivity(power(10, k * _DECADES_A_STEP), luminance) for k in range(-50, 70))
    return 100 * 2 / (best * _SQUARE_WAVE)


# ITU-R BT.2100-2, table 3: the reference display's black is at most this. Steps below it are left out. [cd/m²]
DARKEST = 0.005


def steps_percent(ramp: Sequence[float]) -> list[tuple[float, float]]:
    """
    How much brighter each tone of a ramp is than the one before.

    Args:
        ramp: Luminances, rising. Shape (n,). [cd/m²]

    Returns:
        The darker luminance of each pair and the step as a share of it; pairs whose darker tone is below
        DARKEST are left out. Shape (up to n - 1,), order kept. [cd/m², %]

    Raises:
        Nothing.

    Source:
        Definition of this project: difference over the darker tone. The floor: ITU-R BT.2100-2, table 3, from memory.

    Example:
        >>> steps_percent([0.0, 1.0, 3.0])
        [(1.0, 200.0)]
    """
    return [(low, 100 * (high - low) / low) for low, high in pairwise(ramp) if low >= DARKEST]
