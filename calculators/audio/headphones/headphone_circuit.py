"""A headphone on an output: voltage, power, current and level, with plain Ohm's law. Knows no page."""

from __future__ import annotations

from calculators.desk.functions import log10, power


def decibels(times: float) -> float:
    """
    A ratio of two voltages or two sound pressures in decibels.

    Args:
        times: The ratio. [1], above 0.

    Returns:
        Twenty times its logarithm. [dB]

    Raises:
        ValueError: The ratio is 0 or less.

    Source:
        IEC 60027-3, definition of the level of a field quantity, from memory.

    Example:
        >>> print(f"{decibels(10):.3f}")
        20.000
    """
    return 20 * log10(times)


def ratio(level_db: float) -> float:
    """
    The ratio of two voltages behind a number of decibels.

    Args:
        level_db: The level. [dB]

    Returns:
        Ten to a twentieth of it. [1]

    Raises:
        OverflowError: The level is beyond 6000 dB.

    Source:
        IEC 60027-3, from memory.

    Example:
        >>> print(f"{ratio(6):.3f}")
        1.995
    """
    return power(10, level_db / 20)


def per_volt(db_per_milliwatt: float, impedance_ohm: float) -> float:
    """
    Sensitivity by voltage from sensitivity by power.

    Args:
        db_per_milliwatt: Level for one milliwatt. [dB SPL]
        impedance_ohm: Impedance of the headphone. [Ω], above 0.

    Returns:
        Level for one volt, which puts 1000 / impedance milliwatts in. [dB SPL]

    Raises:
        ValueError: The impedance is 0 or less.

    Source:
        P = U² / R with U = 1 V; IEC 60268-7, characteristic sensitivity, from memory.

    Example:
        >>> print(f"{per_volt(100, 32):.1f}")
        114.9
    """
    return db_per_milliwatt + 10 * log10(1000 / impedance_ohm)


def per_milliwatt(db_per_volt: float, impedance_ohm: float) -> float:
    """
    Sensitivity by power from sensitivity by voltage.

    Args:
        db_per_volt: Level for one volt. [dB SPL]
        impedance_ohm: Impedance of the headphone. [Ω], above 0.

    Returns:
        Level for one milliwatt. [dB SPL]

    Raises:
        ValueError: The impedance is 0 or less.

    Source:
        As per_volt, the other way round.

    Example:
        >>> print(f"{per_milliwatt(114.9485, 32):.1f}")
        100.0
    """
    return db_per_volt - 10 * log10(1000 / impedance_ohm)


def share(impedance_ohm: float, source_ohm: float) -> float:
    """
    The part of the output's voltage that reaches the headphone.

    Args:
        impedance_ohm: Impedance of the headphone. [Ω], above 0.
        source_ohm: Source impedance of the output. [Ω], 0 or more.

    Returns:
        The divider's ratio. [1], above 0 to 1.

    Raises:
        ZeroDivisionError: Both are 0.

    Source:
        Voltage divider, Ohm's and Kirchhoff's laws; both impedances taken as resistances.

    Example:
        >>> share(32, 32)
        0.5
    """
    return impedance_ohm / (impedance_ohm + source_ohm)


def load_volts(source_volts: float, source_ohm: float, impedance_ohm: float, limit_ma: float | None = None) -> float:
    """
    Highest undistorted voltage at the headphone.

    Args:
        source_volts: The output's highest undistorted voltage with nothing plugged in. [V rms]
        source_ohm: Its source impedance. [Ω], 0 or more.
        impedance_ohm: Impedance of the headphone. [Ω], above 0.
        limit_ma: Most current that the output gives, if it is known. [mA rms]

    Returns:
        The voltage by the divider, or by the current limit where that is lower. [V rms]

    Source:
        Voltage divider; U = I R for the limit.

    Example:
        >>> load_volts(2, 32, 32), load_volts(2, 0, 32, limit_ma=25)
        (1.0, 0.8)
    """
    volts = source_volts * share(impedance_ohm, source_ohm)
    return volts if limit_ma is None else min(volts, limit_ma * impedance_ohm / 1000)


def power_mw(volts: float, impedance_ohm: float) -> float:
    """
    Power into the headphone.

    Args:
        volts: Voltage at the headphone. [V rms]
        impedance_ohm: Its impedance. [Ω], above 0.

    Returns:
        The power. [mW]

    Source:
        P = U² / R, the impedance taken as a resistance.

    Example:
        >>> power_mw(1, 32)
        31.25
    """
    return 1000 * volts * volts / impedance_ohm


def current_ma(volts: float, impedance_ohm: float) -> float:
    """
    Current through the headphone.

    Args:
        volts: Voltage at the headphone. [V rms]
        impedance_ohm: Its impedance. [Ω], above 0.

    Returns:
        The current. [mA rms]

    Source:
        I = U / R, the impedance taken as a resistance.

    Example:
        >>> current_ma(1, 32)
        31.25
    """
    return 1000 * volts / impedance_ohm


def level_shift(source_ohm: float, low_ohm: float, high_ohm: float) -> float:
    """
    How much the level rises where a headphone's impedance is high, against where it is low.

    Args:
        source_ohm: Source impedance of the output. [Ω], 0 or more.
        low_ohm: Lowest impedance over frequency. [Ω], above 0.
        high_ohm: Highest impedance over frequency. [Ω], above 0.

    Returns:
        The difference, positive where the level rises at the high impedance. [dB]

    Source:
        The voltage divider, taken twice.

    Example:
        >>> print(f"{level_shift(100, 30, 300):.1f}")
        10.2
    """
    return decibels(share(high_ohm, source_ohm) / share(low_ohm, source_ohm))


def noise_volts(full_volts: float, ratio_db: float) -> float:
    """
    Noise voltage behind a signal-to-noise ratio.

    Args:
        full_volts: The voltage that the ratio was measured against. [V rms]
        ratio_db: The ratio. [dB]

    Returns:
        The noise. [V rms]

    Raises:
        OverflowError: The ratio is beyond -6000 dB.

    Source:
        Definition of the ratio; AES17, from memory.

    Example:
        >>> print(f"{noise_volts(2, 100) * 1e6:.1f}")
        20.0
    """
    return full_volts * ratio(-ratio_db)


def source_ohm_from_drop(open_volts: float, loaded_volts: float, load_ohm: float) -> float:
    """
    Source impedance of an output, from two readings with a voltmeter.

    Args:
        open_volts: Reading with nothing but the meter. [V]
        loaded_volts: Reading with a resistor across. [V], above 0.
        load_ohm: The resistor. [Ω], above 0.

    Returns:
        The source impedance. [Ω]

    Raises:
        ZeroDivisionError: The second reading is 0.

    Source:
        The voltage divider, solved for the source.

    Example:
        >>> print(f"{source_ohm_from_drop(0.1, 0.0625, 47):.1f}")
        28.2
    """
    return load_ohm * (open_volts / loaded_volts - 1)
