"""
What a device's wires and a socket's contacts carry. Knows no page.

Wires and contacts: L and R with a common return G; M a microphone; L+ L- R+ R- a balanced pair of channels; H and C
the hot and the cold wire of one balanced line; D digital; an empty text is not connected.
"""

from __future__ import annotations

from calculators.audio.connections.connectors import CONNECTORS

USUAL, OTHER, UNKNOWN = "left-right-ground-mic", "left-right-mic-ground", "unknown"
SINGLE_ENDED, BALANCED = "single-ended", "balanced"

WIRE_NAMES = {
    "L": "left",
    "R": "right",
    "G": "ground",
    "M": "microphone",
    "L+": "left +",
    "L-": "left −",
    "R+": "right +",
    "R-": "right −",
    "H": "hot",
    "C": "cold",
    "D": "digital",
    "": "not connected",
}

# Orders of contacts. 4.4 mm: JEITA RC-8141C, from memory. XLR with 3 pins: AES14 and IEC 61076-2-103, from memory.
# XLR with 4 pins and balanced 2.5 mm: common practice, no source.
_FOUR_FOUR = ("L+", "L-", "R+", "R-", "G")
_XLR_4 = ("L+", "L-", "R+", "R-")
_BALANCED_2_5 = ("R-", "R+", "L+", "L-")
_XLR_3 = ("G", "H", "C")
_RCA = ("L", "G", "R", "G")
_PAIR = ("L", "R", "G", "M", "M", "G")

NOT_MADE = {
    ("headphones", "xlr-3"): "a 3-pin XLR plug carries one line or microphone, not headphones",
    ("headset", "xlr-3"): "a 3-pin XLR plug carries one microphone, not a headset",
    ("headset", "xlr-4"): "a headset with XLR belongs to an intercom, whose wiring is its own: see its manual",
    ("headset", "4.4-5"): "the 4.4 mm plug has no contact for a microphone",
    ("headset", "rca-pair"): "an RCA pair has no contact for a microphone",
    ("microphone", "xlr-4"): "a 4-pin XLR plug carries headphones or power, not a computer microphone",
    ("microphone", "4.4-5"): "the 4.4 mm plug is for balanced headphones",
    ("microphone", "rca-pair"): "an RCA pair carries line level, far more than a microphone gives",
    ("microphone", "3.5-pair"): "a microphone has one plug; the pair belongs to a headset",
    ("speakers", "xlr-4"): "a 4-pin XLR plug is for balanced headphones",
    ("speakers", "3.5-pair"): "the pair of plugs belongs to a headset",
    ("line", "xlr-4"): "a 4-pin XLR plug is for balanced headphones",
    ("line", "3.5-pair"): "the pair of plugs belongs to a headset",
    ("source", "xlr-4"): "a 4-pin XLR plug is for balanced headphones",
    ("source", "3.5-pair"): "the pair of plugs belongs to a headset",
}


def device_wires(device: str, plug: str, pinout: str, wiring: str) -> tuple[str, ...]:
    """
    What each contact of a device's plug is wired to.

    Args:
        device: headphones, headset, microphone, speakers, line or source. [text]
        plug: The plug's key. [text]
        pinout: Order of a 4-pole headset plug. [text]
        wiring: single-ended or balanced, as the socket is; it tells what a 6.35 mm line plug is. [text]

    Returns:
        One wire a contact. [list of text]

    Raises:
        KeyError: No such device comes with this plug; NOT_MADE has the reason.

    Source:
        Orders of contacts as named above; 4-pole headsets: TIA-920 and its neighbours, from memory.

    Example:
        >>> device_wires("headphones", "6.35-3", USUAL, SINGLE_ENDED)
        ('L', 'R', 'G')
    """
    if (device, plug) in NOT_MADE:
        raise KeyError(NOT_MADE[device, plug])
    connector = CONNECTORS[plug]
    four: tuple[str, ...] = ("L", "R", "M", "G") if pinout == OTHER else ("L", "R", "G", "M")
    if plug == "usb":
        return ("D",)
    if plug == "xlr-3":
        return _XLR_3
    if device == "microphone":
        if connector.poles == 4:
            return tuple(wire if wire in "GM" else "" for wire in four)
        if plug == "6.35-3":
            return ("H", "C", "G")
        return {2: ("M", "G"), 3: ("M", "M", "G")}[connector.poles]
    whole = {"xlr-4": _XLR_4, "4.4-5": _FOUR_FOUR, "rca-pair": _RCA, "3.5-pair": _PAIR}
    if plug in whole:
        wires = whole[plug]
        return wires if plug != "4.4-5" or device != "headphones" else (*wires[:4], "")
    if plug == "2.5-4" and device == "headphones":
        return _BALANCED_2_5
    if device in ("speakers", "line", "source"):
        if connector.poles == 3 and wiring == BALANCED:
            return ("H", "C", "G")
        four = tuple("" if wire == "M" else wire for wire in four)
    return {2: ("L", "G"), 3: ("L", "R", "G"), 4: four}[connector.poles]


def socket_roles(device: str, socket: str, wiring: str) -> tuple[str, ...]:
    """
    What each contact of the socket gives or takes.

    Args:
        device: What is to be plugged in: it tells whether a socket is an output or a microphone input. [text]
        socket: The socket's key. [text]
        wiring: single-ended or balanced, where the kind of socket leaves it open. [text]

    Returns:
        One role a contact. [list of text]

    Source:
        As device_wires; a computer's microphone socket feeds its supply to tip and ring: common practice.

    Example:
        >>> socket_roles("headphones", "3.5-3", SINGLE_ENDED)
        ('L', 'R', 'G')
    """
    whole = {
        "xlr-3": _XLR_3,
        "xlr-4": _XLR_4,
        "4.4-5": _FOUR_FOUR,
        "rca-pair": _RCA,
        "3.5-pair": _PAIR,
        "usb": ("D",),
    }
    if socket in whole:
        return whole[socket]
    poles = CONNECTORS[socket].poles
    if wiring == BALANCED and poles == 3:
        return ("H", "C", "G")
    if wiring == BALANCED and poles == 4:
        return _BALANCED_2_5 if socket == "2.5-4" else ("L+", "R+", "L-", "R-")
    if device == "microphone":
        return {2: ("M", "G"), 3: ("M", "M", "G"), 4: ("", "", "G", "M")}[poles]
    return {2: ("L", "G"), 3: ("L", "R", "G"), 4: ("L", "R", "G", "M")}[poles]


def is_balanced(socket: str, wiring: str) -> bool:
    """Whether a socket is balanced: by its kind, or because it is said to be."""
    kind = CONNECTORS[socket]
    return socket in ("4.4-5", "xlr-3", "xlr-4") or (wiring == BALANCED and kind.phone and kind.poles in (3, 4))
