"""Which adapter goes between two kinds of socket, and in which direction. Words and limits, no calculation."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from calculators.desk.answer import DEPENDS, NO, YES
from calculators.desk.inputs import UNSURE

# Highest character clock by kind of adapter. VESA DisplayPort Dual-Mode 1.1: type 1 and type 2 adapters, from memory.
DUAL_MODE_1_MHZ = 165
DUAL_MODE_2_MHZ = 300
TMDS_MHZ = 600  # HDMI 2.0, from memory: what the usual active converter reaches
DVI_MHZ = {"dvi-single": 165, "dvi-dual": 330}  # DVI 1.0, from memory
# HDMI's own signal on a DVI socket, as older cards send it: HDMI 1.3, from memory.
HDMI_OVER_DVI_MHZ = 340
# What converters to and from VGA are sold for: 1920×1080 and 1920×1200 at 60. Common practice, no source.
VGA_CONVERTER_MHZ = 165
VGA_CABLE_MHZ = 400  # the fastest converters that graphics cards had for VGA. Common practice, no source.


@dataclass(frozen=True, slots=True)
class Adapter:
    """
    What to buy. kind: cable, passive, active, none or unsure. word, reason: the verdict. buy: what the box must say.

    check: what the socket on the computer must be able to do. power: whether it needs power of its own. more: what
    else there is to say.
    """

    kind: str
    word: str
    reason: str
    buy: str
    check: str
    power: str = "none of its own"
    more: str = ""


NAMES = {
    "displayport": "DisplayPort",
    "usb-c": "USB-C",
    "hdmi": "HDMI",
    "dvi-single": "DVI, single link",
    "dvi-dual": "DVI, dual link",
    "vga": "VGA",
}
KIND_WORDS = {
    "cable": "a plain cable",
    "passive": "a passive adapter",
    "active": "an active adapter",
    "none": "another socket",
    "unsure": "a look at the socket first",
}

_ALT_MODE = (
    "The USB-C socket must put out a picture (DisplayPort alternate mode, or USB4). Many do not: "
    "look for the mark beside the socket or in the manual."
)
_DUAL_MODE = (
    "The DisplayPort socket must be dual-mode, marked with two plus signs on the symbol; most full-size ones are."
)
_NOTHING = "nothing: take another socket, or a lower mode"
_OTHER_SOCKETS = "Look for a DisplayPort or HDMI socket on both ends."
_FAST_ENOUGH = "Any socket of its kind that is fast enough for the mode."
_LIKE = {"dvi-single": "dvi", "dvi-dual": "dvi"}


def eight_bits_only(source: str, display: str) -> bool:
    """Whether a socket of the two takes no more than eight bits a channel: DVI and VGA."""
    return any(one == "vga" or one in DVI_MHZ for one in (source, display))


def choose(source: str, display: str, clock_mhz: float) -> Adapter:
    """
    The adapter for one direction.

    Args:
        source: The socket on the computer: a key of NAMES, or unsure. [text]
        display: The socket on the display: likewise. [text]
        clock_mhz: Character clock of the mode as HDMI's older transmission would run it. [MHz]

    Returns:
        What to buy, with the verdict. [object]

    Raises:
        KeyError: A socket is none of them.

    Source:
        VESA DisplayPort Dual-Mode 1.1 and DisplayPort Alt Mode 2.0, HDMI 2.0 and 2.1, DVI 1.0; from memory. What is on
        sale: common practice, no source.

    Example:
        >>> choose("displayport", "hdmi", 594.0).kind, choose("displayport", "hdmi", 148.5).kind
        ('active', 'passive')
    """
    if UNSURE in (source, display):
        return _UNSURE
    limit = min((DVI_MHZ[one] for one in (source, display) if one in DVI_MHZ), default=None)
    if limit is not None and clock_mhz > limit:
        return _beyond_dvi(source, display, clock_mhz, limit)
    return _PAIRS[_LIKE.get(source, source), _LIKE.get(display, display)](clock_mhz)


_UNSURE = Adapter(
    "unsure",
    DEPENDS,
    "The shape of both sockets decides which adapter it takes.",
    "the names of both sockets, in the right order",
    "Compare the shape: DisplayPort has one slanted corner, HDMI two. USB-C is small and round at both ends, VGA has "
    "three rows of holes and two screws, DVI is the widest, with two screws.",
)


def _same(name: str, word: str = YES) -> Adapter:
    return Adapter(
        "cable",
        word,
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
            "The socket itself sends HDMI's signal; the adapter only fits the voltage."
            if first
            else f"Within the {DUAL_MODE_2_MHZ} MHz of a type 2 adapter; older ones end at {DUAL_MODE_1_MHZ}.",
            "DisplayPort to HDMI" + ("" if first else ", naming 3840×2160 at 30 Hz or 300 MHz (type 2)"),
            _DUAL_MODE,
        )
    if clock_mhz <= TMDS_MHZ:
        return Adapter(
            "active",
            YES,
            f"Passive adapters end at {DUAL_MODE_2_MHZ} MHz; a converter chip makes the faster signal.",
            "active DisplayPort to HDMI, naming your resolution and refresh",
            "Any DisplayPort socket fast enough for the mode.",
            "drawn from the socket, as a rule",
        )
    return Adapter(
        "active",
        DEPENDS,
        "Above 600 MHz only converters for HDMI's fixed-rate link do it, and they differ.",
        "active DisplayPort to HDMI, naming your very mode and, where you need them, HDR and variable refresh",
        "Any DisplayPort socket fast enough for the mode, often with compression.",
        "drawn from the socket, some with a USB plug",
    )


def _hdmi_to_dp(clock_mhz: float) -> Adapter:
    fast = clock_mhz > TMDS_MHZ
    return Adapter(
        "active",
        DEPENDS if fast else YES,
        "HDMI never speaks DisplayPort, and few converters go beyond 3840×2160 at 60."
        if fast
        else "HDMI never speaks DisplayPort; the usual cable with both plugs does not work backwards.",
        "active HDMI to DisplayPort, in this direction, naming your resolution and refresh",
        "Any HDMI socket fast enough for the mode.",
        "a USB plug for power",
        more="A converter chip with power of its own is needed, since an HDMI socket gives it too little.",
    )


def _usb_c_to_dp(clock_mhz: float) -> Adapter:
    return Adapter(
        "passive",
        DEPENDS,
        "The picture goes straight through, if the USB-C socket puts one out at all.",
        "USB-C to DisplayPort, in this direction",
        _ALT_MODE,
    )


def _dp_to_usb_c(clock_mhz: float) -> Adapter:
    return Adapter(
        "active",
        DEPENDS,
        "A USB-C display expects more than a picture; only some adapters give it.",
        "DisplayPort to USB-C, in this direction, or a cable sold as working both ways",
        "It brings neither charging nor USB data: the display's hub and touch stay dead without a USB plug.",
        "often a USB plug for power",
    )


def _usb_c_to_hdmi(clock_mhz: float) -> Adapter:
    fast = clock_mhz > TMDS_MHZ
    return Adapter(
        "active",
        DEPENDS,
        "The socket must put out a picture, and the converter must know HDMI's fixed-rate link."
        if fast
        else "A converter sits inside; the USB-C socket must put out a picture.",
        "USB-C to HDMI, naming your resolution and refresh",
        _ALT_MODE,
        "drawn from the socket",
    )


def _digital_to_usb_c(name: str) -> Adapter:
    return Adapter(
        "active",
        DEPENDS,
        "Two conversions in one box: they exist, and are picky.",
        f"active {name} to USB-C display, in this direction, naming your display's resolution",
        _FAST_ENOUGH,
        "a USB plug for power",
        more="Try another socket of the display first: DisplayPort or HDMI needs no such box.",
    )


def _dp_to_dvi(clock_mhz: float) -> Adapter:
    if clock_mhz <= DUAL_MODE_1_MHZ:
        return Adapter(
            "passive",
            YES,
            "The socket itself sends DVI's signal; the adapter only fits the voltage.",
            "DisplayPort to DVI",
            _DUAL_MODE,
        )
    return Adapter(
        "active",
        YES,
        "Above 165 MHz DVI takes two links, which only an active adapter makes.",
        "active DisplayPort to dual-link DVI",
        "Any DisplayPort socket fast enough for the mode.",
        "a USB plug for power",
    )


def _usb_c_to_dvi(clock_mhz: float) -> Adapter:
    return Adapter(
        "active",
        DEPENDS,
        "A converter sits inside; the USB-C socket must put out a picture.",
        "USB-C to DVI" + ("" if clock_mhz <= DUAL_MODE_1_MHZ else ", dual link"),
        _ALT_MODE,
        "drawn from the socket",
    )


def _hdmi_to_dvi(clock_mhz: float) -> Adapter:
    if clock_mhz <= DUAL_MODE_1_MHZ:
        return Adapter(
            "passive",
            YES,
            "HDMI and DVI are one signal up to 165 MHz; only the plugs differ.",
            "HDMI to DVI",
            _FAST_ENOUGH,
            more="DVI carries no sound as a rule, no HDR, and 8 bits.",
        )
    return Adapter(
        "active",
        DEPENDS,
        "HDMI has one link and this mode takes DVI's two; such converters are rare.",
        "active HDMI to dual-link DVI, in this direction",
        _FAST_ENOUGH,
        "a USB plug for power",
    )


def _dvi_to_hdmi(clock_mhz: float) -> Adapter:
    if clock_mhz <= DUAL_MODE_1_MHZ:
        return Adapter(
            "passive",
            YES,
            "HDMI and DVI are one signal up to 165 MHz; only the plugs differ.",
            "DVI to HDMI",
            "Any DVI socket with its digital pins: nearly all have them.",
            more="It brings no sound as a rule, no HDR, and 8 bits.",
        )
    return Adapter(
        "passive",
        DEPENDS,
        "Above 165 MHz it works only where the card sends HDMI's signal from this socket.",
        "DVI to HDMI",
        "The card's manual says whether its DVI socket can speak HDMI.",
    )


def _dvi_to_dp(clock_mhz: float) -> Adapter:
    fast = clock_mhz > DUAL_MODE_1_MHZ
    return Adapter(
        "active",
        DEPENDS if fast else YES,
        "DVI never speaks DisplayPort; converters for its two links are rare."
        if fast
        else "DVI never speaks DisplayPort, so a converter chip is needed.",
        f"active DVI to DisplayPort, in this direction{', dual link' if fast else ''}",
        _FAST_ENOUGH,
        "a USB plug for power",
    )


def _dvi_both(clock_mhz: float) -> Adapter:
    return Adapter(
        "cable",
        YES,
        "Both ends speak the same language.",
        "a DVI cable" + (", dual link" if clock_mhz > DUAL_MODE_1_MHZ else ""),
        "Both sockets and the cable must have the pins: 18 for one link, 24 for two.",
    )


def _beyond_dvi(source: str, display: str, clock_mhz: float, limit: int) -> Adapter:
    """What to say of a mode that needs a higher clock than the DVI socket of the two has."""
    if source in DVI_MHZ and display == "hdmi" and clock_mhz <= HDMI_OVER_DVI_MHZ:
        return _dvi_to_hdmi(clock_mhz)
    link = "one link" if limit == DVI_MHZ["dvi-single"] else "two links"
    return Adapter(
        "none",
        NO,
        f"DVI with {link} ends at {limit} MHz; no adapter makes it faster.",
        _NOTHING,
        _ALT_MODE if source == "usb-c" else _OTHER_SOCKETS,
    )


def _to_vga(name: str, check: str, power: str) -> Adapter:
    return Adapter(
        "active",
        YES,
        "VGA is analogue; a converter chip makes its signal.",
        f"{name} to VGA, in this direction, naming your resolution",
        check,
        power,
        more="VGA carries no sound, no HDR and no variable refresh, and a long cable softens it.",
    )


def _vga(made: Adapter, clock_mhz: float) -> Adapter:
    """An adapter to or from VGA at a clock: few converters go beyond 1920×1200 at 60."""
    if clock_mhz > VGA_CABLE_MHZ:
        return Adapter(
            "none",
            NO,
            f"VGA ends at about {VGA_CABLE_MHZ} MHz; this mode needs more.",
            _NOTHING,
            made.check if made.check == _ALT_MODE else _OTHER_SOCKETS,
        )
    if clock_mhz > VGA_CONVERTER_MHZ and made.kind == "active":
        reason = "Few converters for VGA go beyond 1920×1200 at 60."
        return Adapter(made.kind, DEPENDS, reason, made.buy, made.check, made.power, made.more)
    return made


def _usb_c_to_vga() -> Adapter:
    made = _to_vga("USB-C", _ALT_MODE, "drawn from the socket")
    reason = "A converter sits inside; the USB-C socket must put out a picture."
    return Adapter(made.kind, DEPENDS, reason, made.buy, made.check, made.power, made.more)


def _dvi_to_vga() -> Adapter:
    return Adapter(
        "passive",
        DEPENDS,
        "Passive only from a DVI-I socket, which sends VGA's signal too; else active.",
        "DVI-I to VGA; for a DVI-D socket an active DVI to VGA converter",
        "DVI-I has four small holes around the flat one. DVI-D has none, and sends nothing analogue.",
        more="VGA carries no sound, no HDR and no variable refresh.",
    )


def _vga_to(name: str) -> Adapter:
    return Adapter(
        "active",
        DEPENDS if name == "USB-C" else YES,
        "VGA is analogue; a converter must measure it and make it digital."
        if name != "USB-C"
        else "Such converters are rare: try another socket of the display first.",
        f"active VGA to {name}, in this direction, naming your resolution",
        "Any VGA socket. Sound goes by a lead of its own.",
        "a USB plug for power",
        more="The other direction is the common one: such an adapter does not work backwards.",
    )


_PAIRS: dict[tuple[str, str], Callable[[float], Adapter]] = {
    ("displayport", "displayport"): lambda clock: _same("DisplayPort"),
    ("hdmi", "hdmi"): lambda clock: _same("HDMI"),
    ("usb-c", "usb-c"): _usb_c_both,
    ("displayport", "hdmi"): _dp_to_hdmi,
    ("hdmi", "displayport"): _hdmi_to_dp,
    ("usb-c", "displayport"): _usb_c_to_dp,
    ("displayport", "usb-c"): _dp_to_usb_c,
    ("usb-c", "hdmi"): _usb_c_to_hdmi,
    ("hdmi", "usb-c"): lambda clock: _digital_to_usb_c("HDMI"),
    ("displayport", "dvi"): _dp_to_dvi,
    ("usb-c", "dvi"): _usb_c_to_dvi,
    ("hdmi", "dvi"): _hdmi_to_dvi,
    ("dvi", "dvi"): _dvi_both,
    ("dvi", "hdmi"): _dvi_to_hdmi,
    ("dvi", "displayport"): _dvi_to_dp,
    ("dvi", "usb-c"): lambda clock: _digital_to_usb_c("DVI"),
    ("dvi", "vga"): lambda clock: _vga(_dvi_to_vga(), clock),
    ("displayport", "vga"): lambda clock: _vga(_to_vga("DisplayPort", _FAST_ENOUGH, "drawn from the socket"), clock),
    ("hdmi", "vga"): lambda clock: _vga(_to_vga("HDMI", _FAST_ENOUGH, "often a USB plug for power"), clock),
    ("usb-c", "vga"): lambda clock: _vga(_usb_c_to_vga(), clock),
    ("vga", "vga"): lambda clock: _vga(_same("VGA"), clock),
    ("vga", "hdmi"): lambda clock: _vga(_vga_to("HDMI"), clock),
    ("vga", "dvi"): lambda clock: _vga(_vga_to("DVI"), clock),
    ("vga", "displayport"): lambda clock: _vga(_vga_to("DisplayPort"), clock),
    ("vga", "usb-c"): lambda clock: _vga(_vga_to("USB-C"), clock),
}
