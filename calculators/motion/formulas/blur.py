"""
How long a picture stands, how far it jumps, and how wide it smears for an eye that follows it.

All of it at best: a display whose pixels change at once. Exact ratios in, exact ratios out.
"""

from __future__ import annotations

from calculators.trade.ratio import Ratio, smaller

_WHOLE = Ratio(1)
_PERCENT = Ratio(100)


def frame_ms(rate: Ratio) -> Ratio:
    """
    How long one refresh, or one frame, takes.

    Args:
        rate: Refreshes or frames a second. [Hz], above 0.

    Returns:
        1000 / rate. [ms]

    Source:
        Arithmetic: the period is the inverse of the frequency.

    Example:
        >>> round(frame_ms(Ratio(60)).value, 3)
        16.667
    """
    return Ratio(1000).per(rate)


def shown_rate(frames: Ratio, rate: Ratio) -> Ratio:
    """
    How many different pictures a second a display can show.

    Args:
        frames: Frames a second that the machine makes. [1/s]
        rate: Refreshes a second. [Hz]

    Returns:
        The smaller of both. [1/s]

    Source:
        Arithmetic: a display shows no frame that was not made, and no more than it has refreshes.

    Example:
        >>> shown_rate(Ratio(100), Ratio(144)).value
        100.0
    """
    return smaller(frames, rate)


def step_px(speed: Ratio, shown: Ratio) -> Ratio:
    """
    How far a moving thing jumps from one picture to the next, for an eye at rest.

    Args:
        speed: Speed over the screen. [px/s]
        shown: Pictures a second. [1/s], above 0.

    Returns:
        speed / shown. [px]

    Source:
        Arithmetic: way = speed × time.

    Example:
        >>> step_px(Ratio(1200), Ratio(60)).value
        20.0
    """
    return speed.per(shown)


def blur_px(speed: Ratio, shown: Ratio, rate: Ratio, lit_percent: Ratio) -> Ratio:
    """
    How wide an edge smears for an eye that follows it: the way the eye goes while one picture is lit.

    From the first light of a picture to its last; where the display goes dark in each refresh, the dark end of the
    last refresh does not count. Holds for pixels that change at once; slower ones add to it.

    Args:
        speed: Speed that the eye follows. [px/s]
        shown: Pictures a second. [1/s], above 0, at most rate.
        rate: Refreshes a second. [Hz]
        lit_percent: Share of each refresh in which the picture is lit. [%], 1 to 100.

    Returns:
        speed × (1/shown − (1 − lit/100)/rate). [px]

    Source:
        ICDM Information Display Measurements Standard, chapter on motion artefacts (hold-type blur: speed times
        hold time), from memory.

    Example:
        >>> blur_px(Ratio(1200), Ratio(60), Ratio(60), Ratio(100)).value
        20.0
    """
    dark = _WHOLE.minus(lit_percent.per(_PERCENT)).per(rate)
    return speed.by(_WHOLE.per(shown).minus(dark))


def images(rate: Ratio, shown: Ratio) -> Ratio:
    """
    How often each picture lights up on a display that goes dark in each refresh.

    Args:
        rate: Refreshes a second. [Hz]
        shown: Pictures a second. [1/s], above 0.

    Returns:
        rate / shown; the eye that follows sees so many images side by side. [1]

    Source:
        Arithmetic.

    Example:
        >>> images(Ratio(120), Ratio(60)).value
        2.0
    """
    return rate.per(shown)
