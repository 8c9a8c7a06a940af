"""The input by which a viewer names a link: as boxes and people name it, with what that exactly means."""

from __future__ import annotations

from calculators.desk.inputs import UNSURE, Choice, Option
from calculators.trade.links.link_rates import LINKS

# A version of a standard that fixes no speed: an answer asks for the speed and shows every one that it may be.
HDMI_NO_SPEED, DISPLAYPORT_NO_SPEED = "hdmi-no-speed", "dp-no-speed"
OPEN = (HDMI_NO_SPEED, DISPLAYPORT_NO_SPEED, UNSURE)
OPEN_WORDS = {
    UNSURE: "a link not known",
    HDMI_NO_SPEED: "HDMI of an untold speed",
    DISPLAYPORT_NO_SPEED: "DisplayPort of an untold speed",
}

# What each link is called on boxes and by people, and the names by which questions speak of it. Which version has
# which highest rate: VESA DisplayPort 1.1 to 2.1 and HDMI 1.0 to 2.2, from memory.
_LABELS: dict[str, tuple[str, tuple[str, ...]]] = {
    "hdmi-tmds-600": (
        "HDMI, the box says 2.0 (at most 600 MHz)",
        ("hdmi 2.0", "hdmi 2.0a", "hdmi 2.0b", "hdmi 2", "hdmi2.0", "hdmi 18 gb/s", "premium high speed"),
    ),
    "hdmi-tmds-340": (
        "HDMI, the box says 1.3 or 1.4 (at most 340 MHz)",
        ("hdmi 1.4", "hdmi 1.4a", "hdmi 1.4b", "hdmi 1.3", "hdmi1.4", "hdmi 10.2 gb/s"),
    ),
    "hdmi-tmds-165": (
        "HDMI, the box says 1.2 or older (at most 165 MHz)",
        ("hdmi 1.2", "hdmi 1.1", "hdmi 1.0"),
    ),
    HDMI_NO_SPEED: (
        "HDMI, the box says 2.1 or 2.2 and no speed (that fixes none)",
        ("hdmi 2.1", "hdmi 2.1a", "hdmi 2.1b", "hdmi 2.2", "hdmi2.1", "hdmi2.2"),
    ),
    "hdmi-frl-9": ("HDMI, 9 Gb/s is named (fixed rate)", ("hdmi 9 gb/s", "frl 9")),
    "hdmi-frl-18": ("HDMI, 18 Gb/s is named as fixed rate", ("frl 18",)),
    "hdmi-frl-24": ("HDMI, 24 Gb/s is named (fixed rate)", ("hdmi 24 gb/s", "hdmi 24gbps", "frl 24")),
    "hdmi-frl-32": ("HDMI, 32 Gb/s is named (fixed rate)", ("hdmi 32 gb/s", "hdmi 32gbps", "frl 32")),
    "hdmi-frl-40": ("HDMI, 40 Gb/s is named (fixed rate)", ("hdmi 40 gb/s", "hdmi 40gbps", "frl 40", "40 gb/s hdmi")),
    "hdmi-frl-48": (
        "HDMI, 48 Gb/s is named (fixed rate; cable Ultra High Speed)",
        ("hdmi 48 gb/s", "hdmi 48gbps", "48gbps", "48 gb/s", "48 gbps", "frl 48", "ultra high speed"),
    ),
    "hdmi-frl-64": ("HDMI, 64 Gb/s is named (cable Ultra96)", ("hdmi 64 gb/s", "hdmi 64gbps")),
    "hdmi-frl-80": ("HDMI, 80 Gb/s is named (cable Ultra96)", ("hdmi 80 gb/s", "hdmi 80gbps")),
    "hdmi-frl-96": ("HDMI, 96 Gb/s is named (cable Ultra96)", ("hdmi 96 gb/s", "hdmi 96gbps", "ultra96")),
    "dp-hbr3": (
        "DisplayPort, the box says 1.4 (at most HBR3)",
        ("dp 1.4", "dp1.4", "dp 1.4a", "displayport 1.4", "displayport 1.4a", "dp 1.3", "displayport 1.3", "hbr3"),
    ),
    "dp-hbr2": (
        "DisplayPort, the box says 1.2 (at most HBR2)",
        ("dp 1.2", "dp1.2", "dp 1.2a", "displayport 1.2", "displayport 1.2a", "hbr2"),
    ),
    "dp-hbr": ("DisplayPort, the box says 1.1 (at most HBR)", ("dp 1.1", "displayport 1.1", "dp 1.0", "hbr")),
    "dp-rbr": ("DisplayPort at its slowest (RBR)", ("rbr",)),
    DISPLAYPORT_NO_SPEED: (
        "DisplayPort, the box says 2.0 or 2.1 and no speed (that fixes none)",
        ("displayport 2.0", "displayport 2.1", "dp 2.0", "dp 2.1", "dp2.0", "dp2.1"),
    ),
    "dp-uhbr10": ("DisplayPort, UHBR10 is named (cable DP40)", ("uhbr10", "uhbr 10", "dp40")),
    "dp-uhbr13.5": ("DisplayPort, UHBR13.5 is named (cable DP54)", ("uhbr13.5", "uhbr 13.5", "dp54")),
    "dp-uhbr20": ("DisplayPort, UHBR20 is named (cable DP80)", ("uhbr20", "uhbr 20", "dp80")),
    "usb-c-4": ("USB-C, four lanes for the picture (at most HBR3)", ("usb-c four lanes", "usb c 4 lanes")),
    "usb-c-2": (
        "USB-C, two lanes for the picture, two for USB data (at most HBR3)",
        ("usb-c two lanes", "usb c 2 lanes"),
    ),
    "dvi-single": (
        "DVI, single link (at most 165 MHz; 18 pins with a gap)",
        ("dvi", "dvi-d", "single-link dvi", "dvi single link"),
    ),
    "dvi-dual": ("DVI, dual link (at most 330 MHz; 24 pins)", ("dual-link dvi", "dual link dvi", "dvi dual link")),
    UNSURE: ("not sure", ()),
}  # fmt: skip

_RATES = {one.key for one in LINKS}


def link_input(group: str = "", *, unsure: bool = False) -> Choice:
    """The link; with unsure also 'not sure' and the versions that fix no speed, which are no key of a link."""
    return Choice(
        key="link",
        group=group,
        label="Link",
        names=("cable", "port", "connection"),
        where=(
            "The box, the data sheet and the mark on the cable, for this very socket. A version number is the most "
            "that a socket may do, not what it does; a named speed counts more. Take the slowest part of the chain."
        ),
        options=tuple(
            Option(key, label, names, vague=key in OPEN)
            for key, (label, names) in _LABELS.items()
            if unsure or key in _RATES
        ),
        default="dp-hbr3",
    )  # fmt: skip
