"""Which adapter goes between two kinds of socket, and in which direction. Words and limits, no calculation."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import DEPENDS, YES

# Highest character clock by kind of adapter. VESA DisplayPort Dual-Mode 1.1: type 1 and type 2 adapters, from memory.
DUAL_MODE_1_MHZ = 165
DUAL_MODE_2_MHZ = 300
TMDS_MHZ = 600  # HDMI 2.0, from memory: what the usual active converter reaches


@dataclass(frozen=True, slots=True)
class Adapter:
    """
    What to buy. kind: cable, passive or active. word, reason: the verdict. buy: what the box must say.

    check: what the socket on the computer must be able to do. power: whether it needs power of its own.
    """

    kind: str
    word: str
    reason: str
    buy: str
    check: str
    power: str = "none of its own"


NAMES = {"displayport": "DisplayPort", "usb-c": "USB-C", "hdmi": "HDMI"}
KIND_WORDS = {"cable": "a plain cable", "passive": "a passive adapter", "active": "an active adapter"}

_ALT_MODE = (
    "The USB-C socket must put out a picture (DisplayPort alternate mode, or USB4). Many do not: "
    "look for the mark beside the socket or in the manual."
)
_DUAL_MODE = (
    "The DisplayPort socket must be dual-mode, marked with two plus signs on the symbol; most full-size ones are."
)


def choose(source: str, display: str, clock_mhz: float) -> Adapter:
    """
    The adapter for one direction.

    Args:
        source: The socket on the computer: displayport, usb-c or hdmi. [text]
        display: The socket on the display: displayport, usb-c or hdmi. [text]
        clock_mhz: Character clock of the mode as HDMI's older transmission would run it. [MHz]

    Returns:
        What to buy, with the verdict. [object]

    Raises:
        KeyError: A socket is not one of the three.

    Source:
        VESA DisplayPort Dual-Mode 1.1 and DisplayPort Alt Mode 2.0, HDMI 2.0 and 2.1; from memory. What is on
        sale: common practice, no source.

    Example:
        >>> choose("displayport", "hdmi", 594.0).kind, choose("displayport", "hdmi", 148.5).kind
        ('active', 'passive')
    """
    return _PAIRS[source, display](clock_mhz)


def _same(name: str) -> Adapter:
    return Adapter(
        "cable",
        YES,
        "Both ends speak the same language.",
        f"a {name} cable marked for the rate the mode needs",
        "The slower of the two sockets sets the rate.",
    )


def _usb_c_both(clock_mhz: float) -> Adapter:
    return Adapter(
        "cable",
        DEPENDS,
        "The cable is simple; whether the computer's socket puts out a picture is not.",
        "a full-featured USB-C cable: one for charging only carries no picture",
        _ALT_MODE,
    )


def _dp_to_hdmi(clock_mhz: float) -> Adapter:
    if clock_mhz <= DUAL_MODE_2_MHZ:
        first = clock_mhz <= DUAL_MODE_1_MHZ
        return Adapter(
            "passive",
            YES,
            "The socket can put out HDMI's own signal, and the adapter only fits the voltage."
            if first
            else f"Within the {DUAL_MODE_2_MHZ} MHz of a type 2 adapter; older ones end at {DUAL_MODE_1_MHZ} MHz.",
            "DisplayPort to HDMI" + ("" if first else ", naming 3840×2160 at 30 Hz or 300 MHz (type 2)"),
            _DUAL_MODE,
        )
    if clock_mhz <= TMDS_MHZ:
        return Adapter(
            "active",
            YES,
            f"The mode is above the {DUAL_MODE_2_MHZ} MHz of passive adapters; a converter chip makes the HDMI signal.",
            "active DisplayPort to HDMI, naming your resolution and refresh",
            "Any DisplayPort socket fast enough for the mode.",
            "drawn from the socket, as a rule",
        )
    return Adapter(
        "active",
        DEPENDS,
        "Above 600 MHz only converters with HDMI's fixed-rate link will do, and they differ in what they pass on.",
        "active DisplayPort to HDMI, naming your very mode and, where you need them, HDR and variable refresh",
        "Any DisplayPort socket fast enough for the mode, often with compression.",
        "drawn from the socket, some with a USB plug",
    )


def _hdmi_to_dp(clock_mhz: float) -> Adapter:
    fast = clock_mhz > TMDS_MHZ
    return Adapter(
        "active",
        DEPENDS if fast else YES,
        "HDMI never speaks DisplayPort, so a converter is needed; few go beyond 3840×2160 at 60."
        if fast
        else "HDMI never speaks DisplayPort, so a converter chip with power is needed. The usual "
        "DisplayPort-to-HDMI cable does not work backwards.",
        "active HDMI to DisplayPort, in this direction, naming your resolution and refresh",
        "Any HDMI socket fast enough for the mode.",
        "a USB plug for power",
    )


def _usb_c_to_dp(clock_mhz: float) -> Adapter:
    return Adapter(
        "passive",
        DEPENDS,
        "The picture is already DisplayPort and goes straight through, if the socket puts one out at all.",
        "USB-C to DisplayPort, in this direction",
        _ALT_MODE,
    )


def _dp_to_usb_c(clock_mhz: float) -> Adapter:
    return Adapter(
        "active",
        DEPENDS,
        "The display waits for a USB-C conversation that a DisplayPort socket cannot hold; the adapter must hold it.",
        "DisplayPort to USB-C, in this direction, or a cable sold as working both ways",
        "It brings neither charging nor USB data: the display's hub and touch stay dead without a USB plug.",
        "often a USB plug for power",
    )


def _usb_c_to_hdmi(clock_mhz: float) -> Adapter:
    fast = clock_mhz > TMDS_MHZ
    return Adapter(
        "active",
        DEPENDS,
        "A converter sits inside; it depends on the socket putting out a picture"
        + (", and above 600 MHz on a converter for HDMI's fixed-rate link." if fast else "."),
        "USB-C to HDMI, naming your resolution and refresh",
        _ALT_MODE,
        "drawn from the socket",
    )


def _hdmi_to_usb_c(clock_mhz: float) -> Adapter:
    return Adapter(
        "active",
        DEPENDS,
        "Two conversions in one box: HDMI to DisplayPort, then the USB-C conversation. They exist, and are picky. "
        "Try the display's HDMI socket first.",
        "active HDMI to USB-C display, in this direction, naming your display's resolution",
        "Any HDMI socket fast enough for the mode.",
        "a USB plug for power",
    )


_PAIRS = {
    ("displayport", "displayport"): lambda clock: _same("DisplayPort"),
    ("hdmi", "hdmi"): lambda clock: _same("HDMI"),
    ("usb-c", "usb-c"): _usb_c_both,
    ("displayport", "hdmi"): _dp_to_hdmi,
    ("hdmi", "displayport"): _hdmi_to_dp,
    ("usb-c", "displayport"): _usb_c_to_dp,
    ("displayport", "usb-c"): _dp_to_usb_c,
    ("usb-c", "hdmi"): _usb_c_to_hdmi,
    ("hdmi", "usb-c"): _hdmi_to_usb_c,
}
