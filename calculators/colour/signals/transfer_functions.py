"""How codes become light: the PQ curve of HDR, a plain power law, and the least step that the eye can see."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import lru_cache

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

    Source:
        SMPTE ST 2084:2014, equation 5.1; ITU-R BT.2100-2, table 4; from memory, held against colour-science.

    Example:
        >>> round(pq_signal(100), 4), round(pq_signal(10000), 4)
        (0.5081, 1.0)
    """
    share = power(luminance / PQ_PEAK, _M1)
    return power((_C1 + _C2 * share) / (1 + _C3 * share), _M2)


def gamma_shown(code: int, depth: int, gamma: float, peak: float, black: float) -> float:
    """
    Luminance of a code on a power-law display.

    Args:
        code: The code, full range. [code], 0 to 2^depth - 1.
        depth: Bits a channel. [bit]
        gamma: Exponent. [1]
        peak: Luminance of white. [cd/m²]
        black: Luminance of black. [cd/m²]

    Returns:
        black + (peak - black) × signal^gamma. [cd/m²]

    Source:
        Model of this project: a power law above the display's own black.

    Example:
        >>> gamma_shown(255, 8, 2.2, 250, 0.25)
        250.0
    """
    return black + (peak - black) * power(code / ((1 << depth) - 1), gamma)


# IEC 61966-2-1, the curve by which sRGB codes become light, as W3C's WCAG 2.2 prints it (relative luminance)
_SRGB_LINEAR_TO, _SRGB_SLOPE, _SRGB_OFFSET, _SRGB_EXPONENT = 0.04045, 12.92, 0.055, 2.4


def srgb_light(signal: float) -> float:
    """
    The share of white's light that an sRGB signal stands for.

    Args:
        signal: The signal, code over the greatest code. [1], 0 to 1.

    Returns:
        The share of white's light: a straight line at the very bottom, a power above it. [1], 0 to 1.

    Source:
        W3C, WCAG 2.2, definition of relative luminance, which takes it from sRGB (IEC 61966-2-1).

    Example:
        >>> round(srgb_light(188 / 255), 3), srgb_light(1)
        (0.503, 1.0)
    """
    if signal <= _SRGB_LINEAR_TO:
        return signal / _SRGB_SLOPE
    return power((signal + _SRGB_OFFSET) / (1 + _SRGB_OFFSET), _SRGB_EXPONENT)


def pq_shown(code: int, depth: int, peak: float, black: float) -> float:
    """
    Luminance of a PQ code on a display that clips at its own black and peak.

    Args:
        code: The code, full range. [code], 0 to 2^depth - 1.
        depth: Bits a channel. [bit]
        peak: Luminance beyond which the display clips. [cd/m²]
        black: Luminance below which it shows black. [cd/m²]

    Returns:
        The luminance shown. [cd/m²]

    Source:
        SMPTE ST 2084:2014, equation 4.1, with a hard clip at both ends.

    Example:
        >>> pq_shown(0, 10, 1000, 0.05), pq_shown(1023, 10, 1000, 0.05)
        (0.05, 1000.0)
    """
    return min(max(pq_luminance(code / ((1 << depth) - 1)), float(black)), float(peak))


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
_LEAST_CYCLES, _MOST_CYCLES = -1.0, 1.4  # powers of ten between which the eye sees best
_GOLDEN, _GOLDEN_STEPS = 0.6180339887, 14


def sensitivity(cycles: float, luminance: float) -> float:
    """
    Contrast sensitivity of the eye to a fine sine pattern.

    Args:
        cycles: Fineness. [cycles/°]
        luminance: Mean luminance. [cd/m²], above 0.

    Returns:
        One over the least modulation seen half of the time. [1]

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


@lru_cache(maxsize=512)  # every depth on a curve asks about the same tones
def threshold_percent(luminance: float) -> float:
    """
    The least step between two tones that the eye can see at a luminance, at the fineness it sees best.

    Args:
        luminance: Mean luminance of the two. [cd/m²], above 0.

    Returns:
        Difference of the two over their mean. [%]

    Source:
        ITU-R BT.2246-4, figure 31: 2 ÷ sensitivity ÷ 1.27, by way of colour-science's documentation.

    Example:
        >>> print(f"{threshold_percent(100):.2f}")
        0.22
    """
    # golden section over the logarithm of the fineness: sensitivity has one maximum
    low, high = _LEAST_CYCLES, _MOST_CYCLES
    left, right = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
    at_left, at_right = (sensitivity(power(10, x), luminance) for x in (left, right))
    for _ in range(_GOLDEN_STEPS):
        if at_left < at_right:
            low, left, at_left = left, right, at_right
            right = low + _GOLDEN * (high - low)
            at_right = sensitivity(power(10, right), luminance)
        else:
            high, right, at_right = right, left, at_left
            left = high - _GOLDEN * (high - low)
            at_left = sensitivity(power(10, left), luminance)
    return 100 * 2 / (max(at_left, at_right) * _SQUARE_WAVE)


# ITU-R BT.2100-2, table 3: the reference display's black is at most this. Steps below it are not judged. [cd/m²]
DARKEST = 0.005


def steps_percent(shown: Callable[[int], float], depth: int) -> list[tuple[float, float]]:
    """
    How much brighter codes are than the one before: enough of them to draw, the largest step among them.

    Args:
        shown: Luminance of a code; never falls, and its steps grow to one maximum and shrink after it. [cd/m²]
        depth: Bits a channel. [bit]

    Returns:
        The darker luminance of a pair of neighbours and the step as a share of it, in order of code; pairs whose
        darker tone is below DARKEST, or that show no difference, are left out. Shape (n,). [cd/m², %]

    Source:
        Definition of this project: difference over the darker tone. The floor: ITU-R BT.2100-2, table 3, from memory.

    Example:
        >>> steps = steps_percent(lambda code: gamma_shown(code, 8, 2.2, 250, 0.25), 8)
        >>> max(round(size, 2) for _, size in steps)
        10.5
    """
    top = (1 << depth) - 1
    black, peak = shown(0), shown(top)
    floor = max(black, DARKEST)
    first = _first(lambda code: shown(code) >= floor and shown(code + 1) > black, top - 1)
    last = _first(lambda code: shown(code) >= peak, top) - 1
    by_code: dict[int, tuple[float, float]] = {}

    def step(code: int) -> float:
        if code not in by_code:
            low = shown(code)
            by_code[code] = (low, 100 * (shown(code + 1) - low) / low)
        return by_code[code][1]

    samples = []
    code = first
    while code <= last:
        samples.append(code)
        code += max(1, (code - first) // 5)
    if last > first:
        samples.append(last)
    if not samples or shown(first) < floor:
        return []
    best = max(range(len(samples)), key=lambda i: step(samples[i]))
    low_end, high_end = samples[max(best - 1, 0)], samples[min(best + 1, len(samples) - 1)]
    while high_end - low_end > 3:  # the one maximum lies between: cut off a third each time
        third = (high_end - low_end) // 3
        if step(low_end + third) < step(high_end - third):
            low_end += third
        else:
            high_end -= third
    for code in range(low_end, high_end + 1):
        step(code)
    return [pair for _, pair in sorted(by_code.items()) if pair[1] > 0]


def _first(holds: Callable[[int], bool], top: int) -> int:
    """The least number from 0 to top for which something holds that goes on holding; top where it never does."""
    low, high = 0, top
    while low < high:
        middle = (low + high) // 2
        if holds(middle):
            high = middle
        else:
            low = middle + 1
    return low
