"""Plugs and sockets: names, contacts, sizes, and which contact of a plug touches which of a socket. Knows no page."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Connector:
    """
    A kind of plug, and of the socket that takes it.

    size_mm: diameter of the sleeve, 0 where it is no phone connector. contacts: from the tip on; of a pair, those
    of the first plug and then those of the second.
    """

    key: str
    label: str
    contacts: tuple[str, ...]
    size_mm: float = 0.0

    @property
    def poles(self) -> int:
        """How many contacts it has."""
        return len(self.contacts)

    @property
    def phone(self) -> bool:
        """Whether it is a phone plug: one pin whose contacts are a tip, rings and a sleeve."""
        return self.size_mm > 0


_POLES = {
    2: (("tip", "sleeve"), "TS"),
    3: (("tip", "ring", "sleeve"), "TRS"),
    4: (("tip", "ring 1", "ring 2", "sleeve"), "TRRS"),
    5: (("tip", "ring 1", "ring 2", "ring 3", "sleeve"), "TRRRS"),
}


def _phone(size: str, poles: int) -> Connector:
    contacts, short = _POLES[poles]
    return Connector(f"{size}-{poles}", f"{size} mm, {poles} poles ({short})", contacts, float(size))


_ALL = (
    *(_phone("2.5", n) for n in (2, 3, 4)),
    *(_phone("3.5", n) for n in (2, 3, 4)),
    *(_phone("6.35", n) for n in (2, 3, 4)),
    _phone("4.4", 5),
    Connector(
        "3.5-pair",
        "pair of 3.5 mm: sound, microphone",
        (
            "headphones tip",
            "headphones ring",
            "headphones sleeve",
            "microphone tip",
            "microphone ring",
            "microphone sleeve",
        ),
    ),
    Connector("rca-pair", "RCA pair", ("left pin", "left shell", "right pin", "right shell")),
    Connector("xlr-3", "XLR, 3 pins", ("pin 1", "pin 2", "pin 3")),
    Connector("xlr-4", "XLR, 4 pins", ("pin 1", "pin 2", "pin 3", "pin 4")),
    Connector("usb", "USB", ("data and power",)),
)

CONNECTORS = {connector.key: connector for connector in _ALL}

# Length of the plug beyond its handle. IEC 60603-11 for 6.35, 3.5 and 2.5 mm, JEITA RC-8141C for 4.4 mm, both from
# memory. How long each contact is drawn is the usual proportion, without a source. [mm]
LENGTH_MM = {2.5: 11.0, 3.5: 14.0, 4.4: 19.5, 6.35: 30.5}

MILLIMETRES_AN_INCH = 25.4  # exact, by definition


def inch(over: int, under: int) -> float:
    """
    A fraction of an inch in millimetres.

    Args:
        over: The numerator. [1]
        under: The denominator. [1], not 0.

    Returns:
        The length. [mm]

    Raises:
        ZeroDivisionError: The denominator is 0.

    Source:
        International yard and pound agreement, 1959: an inch is 25.4 mm.

    Example:
        >>> inch(1, 4), inch(1, 8)
        (6.35, 3.175)
    """
    return MILLIMETRES_AN_INCH * over / under


# (poles of the plug, poles of the socket): for each contact of the socket, the number of the plug's contact that it
# touches. Where a 3-pole plug has its sleeve, a 4-pole plug has ring 2 and, further back, its sleeve; a 3-pole socket's
# sleeve contact is taken to touch ring 2 there, as most do. Common practice, no source.
_TOUCH = {
    (2, 3): (0, 1, 1),
    (2, 4): (0, 1, 1, 1),
    (3, 2): (0, 2),
    (3, 4): (0, 1, 2, 2),
    (4, 2): (0, 2),
    (4, 3): (0, 1, 2),
}


@dataclass(frozen=True, slots=True)
class Fit:
    """One way of putting a plug into a socket: for each contact of the socket, the plug's contact or None."""

    touches: tuple[int | None, ...]
    how: str = ""


def fits(plug: Connector, socket: Connector) -> tuple[Fit, ...]:
    """
    Every way in which a plug goes into a socket.

    Args:
        plug: The plug. [object]
        socket: The socket. [object]

    Returns:
        The ways, the most sensible first; none where it does not go in. [list]

    Source:
        Sizes: IEC 60603-11, from memory. Which contacts meet: common practice, no source.

    Example:
        >>> fits(CONNECTORS["2.5-3"], CONNECTORS["3.5-3"])
        ()
        >>> fits(CONNECTORS["3.5-2"], CONNECTORS["3.5-3"])[0].touches
        (0, 1, 1)
    """
    if plug.key == socket.key:
        return (Fit(tuple(range(plug.poles))),)
    if plug.phone and socket.phone and plug.size_mm == socket.size_mm:
        return (Fit(_TOUCH[plug.poles, socket.poles]),)
    if plug.size_mm == 3.5 and socket.key == "3.5-pair":
        inner = tuple(range(3)) if plug.poles == 3 else _TOUCH[plug.poles, 3]
        return (
            Fit((*inner, None, None, None), "in the headphone socket"),
            Fit((None, None, None, *inner), "in the microphone socket"),
        )
    if plug.key == "3.5-pair" and socket.size_mm == 3.5:
        inner = tuple(range(3)) if socket.poles == 3 else _TOUCH[3, socket.poles]
        return (
            Fit(inner, "the headphone plug only"),
            Fit(tuple(i + 3 for i in inner), "the microphone plug only"),
        )
    return ()
