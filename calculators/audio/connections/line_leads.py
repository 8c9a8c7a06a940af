"""
Leads between line outputs and line inputs where a connector carries one channel: which contact goes to which.

Headphones and headsets are followed wire by wire elsewhere; here both ends are sockets, and a lead joins them.
Knows no page.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.audio.connections.connectors import CONNECTORS

Wires = tuple[frozenset[str], ...]

_STEREO = {"left": 0, "right": 1}


@dataclass(frozen=True, slots=True)
class End:
    """One end of a line connection: its kind of connector, and whether it is balanced."""

    connector: str
    balanced: bool

    @property
    def one_channel(self) -> bool:
        """Whether each connector carries one channel, so that stereo takes two of them."""
        kind = CONNECTORS[self.connector]
        return self.connector == "xlr-3" or (kind.phone and (kind.poles == 2 or self.balanced))

    @property
    def stereo(self) -> bool:
        """Whether one such connector, or one such pair, carries left and right with a common ground."""
        kind = CONNECTORS[self.connector]
        return self.connector == "rca-pair" or (kind.phone and kind.poles in (3, 4) and not self.balanced)

    def channel(self, side: str) -> dict[str, str]:
        """The names of the contacts of one channel: hot, ground, and cold where it is balanced."""
        names = CONNECTORS[self.connector].contacts
        if self.connector == "xlr-3":
            return {"hot": "pin 2", "cold": "pin 3", "ground": "pin 1"}
        if self.connector == "rca-pair":
            return {"hot": f"{side} pin", "ground": f"{side} shell"}
        if self.one_channel:
            return {"hot": "tip", "ground": "sleeve"} | ({"cold": "ring"} if self.balanced else {})
        return {"hot": names[_STEREO[side]], "ground": names[2]}


@dataclass(frozen=True, slots=True)
class Lead:
    """
    What joins an output to an input. count: leads to have. joins: (channel, contact of the output, of the input).

    open_cold: the output's cold contact is left open or grounded, as its manual says.
    """

    count: int
    joins: tuple[tuple[str, str, str], ...]
    open_cold: bool


def lead_between(output: End, input_: End) -> Lead | None:
    """
    The leads from an output to an input, contact by contact.

    Args:
        output: Where the sound comes from. [object]
        input_: Where it goes. [object]

    Returns:
        The leads; None where both ends carry stereo on one connector, or one is no line connector. [object]

    Source:
        Hot, cold and ground: AES14 and IEC 61076-2-103, from memory. Unbalanced into balanced: hot to hot, ground to
        cold and ground; balanced into unbalanced: cold open or grounded, by the output's kind; common practice, as
        several makers of leads and interfaces publish it (check values line_leads).

    Example:
        >>> lead_between(End("rca-pair", False), End("xlr-3", True)).joins[1]
        ('left', 'left shell', 'pin 1 and pin 3')
    """
    ends = (output, input_)
    if not all(end.one_channel or end.stereo for end in ends) or all(end.stereo for end in ends):
        return None
    joins = []
    for side in _STEREO:
        out, into = output.channel(side), input_.channel(side)
        joins.append((side, out["hot"], into["hot"]))
        if "cold" in out and "cold" in into:
            joins += [(side, out["cold"], into["cold"]), (side, out["ground"], into["ground"])]
        elif "cold" in into:
            joins.append((side, out["ground"], " and ".join(sorted((into["ground"], into["cold"])))))
        elif "cold" in out:
            joins += [(side, out["ground"], into["ground"]), (side, out["cold"], "open, or ground")]
        else:
            joins.append((side, out["ground"], into["ground"]))
    one_plug = any(end.stereo and end.connector != "rca-pair" for end in ends)  # left and right part inside one lead
    return Lead(1 if one_plug else 2, tuple(joins), output.balanced and not input_.balanced)


def plug_wires(end: End, other: End) -> Wires:
    """
    What the lead's plug at one end carries on each contact, for a drawing.

    Args:
        end: This end. [object]
        other: The other end of the lead. [object]

    Returns:
        For each contact of the connector the wires on it. [list of sets]

    Source:
        As lead_between.

    Example:
        >>> [sorted(wires) for wires in plug_wires(End("xlr-3", True), End("rca-pair", False))]
        [['G'], ['H'], ['G']]
    """
    cold = frozenset({"C"}) if end.balanced and other.balanced else frozenset({"G"})
    hot, ground = frozenset({"H"}), frozenset({"G"})
    if end.connector == "xlr-3":
        return (ground, hot, cold)
    if end.connector == "rca-pair":
        return (frozenset({"L"}), ground, frozenset({"R"}), ground)
    if end.one_channel:
        return (hot, cold, ground) if end.balanced else (hot, ground)
    rest = CONNECTORS[end.connector].poles - 3
    return (frozenset({"L"}), frozenset({"R"}), ground, *(frozenset[str]() for _ in range(rest)))
