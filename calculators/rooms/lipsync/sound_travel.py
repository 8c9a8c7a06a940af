"""How fast sound travels in air, and how late that makes it across a room."""

from __future__ import annotations

import math

SPEED_AT_ZERO_M_S = 331.3  # dry air at 0 °C. Handbooks' rounded value, from memory
ZERO_KELVIN_C = 273.15


def speed_m_s(temperature_c: float) -> float:
    """
    Speed of sound in dry air.

    Args:
        temperature_c: Temperature of the air. [°C], −50 to 60.

    Returns:
        331.3 × √(1 + t ÷ 273.15); moist air is faster by at most 0.5 %. [m/s]

    Source:
        Ideal gas: the speed goes with the root of the absolute temperature; handbooks of acoustics, from memory.

    Example:
        >>> round(speed_m_s(20), 2), round(speed_m_s(0), 1)
        (343.21, 331.3)
    """
    return SPEED_AT_ZERO_M_S * math.sqrt(1 + temperature_c / ZERO_KELVIN_C)


def travel_ms(distance_m: float, temperature_c: float) -> float:
    """
    How long sound is on its way.

    Args:
        distance_m: From loudspeaker to ear. [m], 0 or more.
        temperature_c: Temperature of the air. [°C], −50 to 60.

    Returns:
        The time. [ms]

    Source:
        Arithmetic: distance ÷ speed.

    Example:
        >>> round(travel_ms(3, 20), 2)
        8.74
    """
    return 1000 * distance_m / speed_m_s(temperature_c)
