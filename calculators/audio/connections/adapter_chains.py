"""
The shortest safe chain of adapters from a plug to a socket, found by trying them all. Knows no page.

Every chain is followed wire by wire: which wire of the device meets which contact of the socket. What works, what
is shorted and what does harm follows from that, not from a list of known cases.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from calculators.audio.connections.adapter_catalogue import ADAPTERS, Adapter
from calculators.audio.connections.connectors import CONNECTORS, Fit, fits
from calculators.audio.connections.contact_wiring import device_wires, is_balanced, socket_roles

Wires = tuple[frozenset[str], ...]

LONGEST = 3  # more adapters than this nobody should stack
WANTED = {
    "headphones": ("left", "right"),
    "headset": ("left", "right", "microphone"),
    "microphone": ("microphone",),
    "speakers": ("left", "right"),
    "line": ("left", "right"),
    "source": ("left", "right"),
}
_DRIVEN = frozenset({"L", "R", "L+", "L-", "R+", "R-", "H", "C"})
_NONE: frozenset[str] = frozenset()

# For every plug, the adapters whose socket takes it, and how.
_FITTING = {
    plug.key: [(adapter, fit) for adapter in ADAPTERS for fit in fits(plug, CONNECTORS[adapter.socket])]
    for plug in CONNECTORS.values()
}

PHANTOM, SHORTED_BALANCED = "phantom", "balanced"


@dataclass(frozen=True, slots=True)
class Outcome:
    """
    What happens at a socket. works: left, right, microphone. shorts: pairs of roles joined by the plug.

    harm: phantom or balanced, empty where nothing is hurt. meets: for each contact, the device's wires on it.
    """

    works: frozenset[str]
    shorts: tuple[tuple[str, str], ...]
    harm: str
    meets: Wires


@dataclass(frozen=True, slots=True)
class Chain:
    """Some adapters in order, how each plug is put in, and what comes out."""

    adapters: tuple[Adapter, ...]
    hows: tuple[str, ...]
    outcome: Outcome
    roles: tuple[str, ...]
    plugs: tuple[tuple[str, Wires], ...]

    @property
    def active(self) -> int:
        """How many of the adapters are devices of their own."""
        return sum(a.active for a in self.adapters)


def met(wires: Wires, fit: Fit) -> Wires:
    """The wires on each contact of a socket."""
    return tuple(_NONE if i is None else wires[i] for i in fit.touches)


def judge(roles: tuple[str, ...], meets: Wires, device: str, balanced: bool) -> Outcome:
    """
    What works, what is shorted and what is harmed where wires meet a socket's contacts.

    Args:
        roles: What each contact of the socket gives or takes. [list of text]
        meets: The device's wires on each contact. [list of sets]
        device: What is plugged in. [text]
        balanced: Whether the socket is balanced.

    Returns:
        The outcome. [object]

    Source:
        Kirchhoff's laws; a bridged output drives both ends of a channel and must see neither grounded: any
        textbook of amplifiers. 48 V phantom power on pins 2 and 3: IEC 61938, from memory.

    Example:
        >>> wires = tuple(frozenset({w}) for w in ("L", "R", "G"))
        >>> sorted(judge(("L", "R", "G"), wires, "headphones", False).works)
        ['left', 'right']
    """
    shorts = []
    for i, first in enumerate(roles):
        for j in range(i + 1, len(roles)):
            second = roles[j]
            if first != second and meets[i] & meets[j] and (first in _DRIVEN or second in _DRIVEN):
                shorts.append((first, second))
    return Outcome(_working(roles, meets), tuple(shorts), _harm(roles, meets, shorts, device, balanced), meets)


def _working(roles: tuple[str, ...], meets: Wires) -> frozenset[str]:
    on: dict[str, frozenset[str]] = {}
    for role, wires in zip(roles, meets, strict=True):
        on[role] = on.get(role, _NONE) | wires
    ground = on.get("G", _NONE)
    works = set()
    for name, side, own, plus, minus in (("left", "L", "L", "L+", "L-"), ("right", "R", "R", "R+", "R-")):
        hot, back = on.get(side, _NONE), ground
        if plus in on:
            hot, back = on[plus], on[minus]
        if hot == {own} and "G" in back and plus not in on and own not in back:
            works.add(name)
        if hot == {plus} and minus in back and plus not in back:
            works.add(name)
    # one balanced line is one channel: it is called left, and takes a second lead for the other
    if on.get("H", _NONE) == {"H"} and on.get("C", _NONE) == {"C"}:
        works |= {"left", "microphone"}
    if on.get("L", _NONE) == {"H"} and ground & {"C", "G"} and "H" not in ground:
        works.add("left")
    microphone = on.get("M", _NONE)
    if microphone == {"M"} and "G" in ground and "M" not in ground:
        works.add("microphone")
    if microphone == {"H"} and ground & {"C", "G"} and "H" not in ground:
        works.add("microphone")
    if "M" in on and microphone == {"M", "G"} and "M" not in ground and roles.count("M") == 2:
        works.add("microphone")  # a 2-pole plug grounds the ring, on which the socket only feeds a supply
    if "D" in on and on["D"] == {"D"}:
        works |= {"left", "right", "microphone"}
    return frozenset(works)


def _harm(roles: tuple[str, ...], meets: Wires, shorts: list[tuple[str, str]], device: str, balanced: bool) -> str:
    """What is hurt: an output that is shorted, or a plug that gets a supply it is not made for."""
    if balanced and device in ("microphone", "headset"):
        supplied = [w for role, w in zip(roles, meets, strict=True) if role in ("H", "C")]
        if any("M" in wires for wires in supplied):
            return PHANTOM
    if balanced and device != "microphone":
        grounded = any(
            role in ("L-", "R-", "L+", "R+") and ("G" in wires or len(wires) > 1)
            for role, wires in zip(roles, meets, strict=True)
        )
        if shorts or grounded:
            return SHORTED_BALANCED
    return ""


def start(device: str, plug: str, pinout: str, wiring: str) -> Wires:
    """The device's own plug; KeyError where no such device comes with it."""
    return tuple(frozenset({w}) if w else _NONE for w in device_wires(device, plug, pinout, wiring))


def chains(device: str, plug: str, socket: str, pinout: str, wiring: str) -> Iterator[Chain]:
    """
    Every chain of at most three adapters that ends in the socket, the harmful ones too, shortest first.

    Args:
        device: What is plugged in. [text]
        plug: Key of its plug. [text]
        socket: Key of the socket. [text]
        pinout: Order of a 4-pole plug's contacts. [text]
        wiring: single-ended or balanced. [text]

    Returns:
        The chains; two that end with the same plug wired the same way count once. [iterator]

    Raises:
        KeyError: No such device comes with this plug.

    Source:
        Breadth-first search; any textbook of algorithms.

    Example:
        >>> found = list(chains("headphones", "6.35-3", "3.5-3", "left-right-ground-mic", "single-ended"))
        >>> best(found, "headphones").adapters[0].plug
        '3.5-3'
    """
    roles, balanced = socket_roles(device, socket, wiring), is_balanced(socket, wiring)
    first = start(device, plug, pinout, wiring)
    passed = frozenset({"left", "right", "microphone"})
    states: list[tuple[str, Wires, frozenset[str], Chain]] = [
        (plug, first, passed, Chain((), (), Outcome(_NONE, (), "", ()), roles, ((plug, first),)))
    ]
    seen: set[tuple[str, Wires, frozenset[str]]] = {(plug, first, passed)}
    for length in range(LONGEST + 1):
        following = []
        for key, wires, able, so_far in states:
            for fit in fits(CONNECTORS[key], CONNECTORS[socket]):
                outcome = judge(roles, met(wires, fit), device, balanced)
                outcome = Outcome(outcome.works & able, outcome.shorts, outcome.harm, outcome.meets)
                yield Chain(so_far.adapters, (*so_far.hows, fit.how), outcome, roles, so_far.plugs)
            if length == LONGEST:
                continue
            for adapter, fit in _FITTING[key]:
                if adapter.for_devices and device not in adapter.for_devices:
                    continue
                state = _through(adapter, met(wires, fit), able, device)
                if state is None or (adapter.plug, *state) in seen:
                    continue
                seen.add((adapter.plug, *state))
                chain = Chain(
                    (*so_far.adapters, adapter),
                    (*so_far.hows, fit.how),
                    so_far.outcome,
                    roles,
                    (*so_far.plugs, (adapter.plug, state[0])),
                )
                following.append((adapter.plug, *state, chain))
        states = following


def _through(adapter: Adapter, meets: Wires, able: frozenset[str], device: str) -> tuple[Wires, frozenset[str]] | None:
    """What an adapter's plug carries and what can still work; None where nothing gets through."""
    if adapter.active:
        outcome = judge(adapter.roles, meets, device, balanced=False)
        works = outcome.works & able
        if not works or outcome.shorts:
            return None
        return tuple(frozenset({w}) for w in adapter.gives), works
    wires = tuple(
        meets[inner[0]] if len(inner) == 1 else _NONE.union(*(meets[i] for i in inner)) for inner in adapter.joins
    )
    return (wires, able) if any(wires) else None


def best(chains: list[Chain], device: str) -> Chain | None:
    """
    The chain to use: safe, then the most that works, then nothing shorted, then the shortest, then wire alone.

    Args:
        chains: Chains, shortest first. [list]
        device: What is plugged in. [text]

    Returns:
        The chain, or None where nothing safe works. [object]

    Source:
        None: an order of preference.

    Example:
        >>> best([], "headphones") is None
        True
    """
    wanted = frozenset(WANTED[device])
    usable = [c for c in chains if not c.outcome.harm and c.outcome.works & wanted]
    if not usable:
        return None
    return min(
        usable, key=lambda c: (-len(c.outcome.works & wanted), bool(c.outcome.shorts), len(c.adapters), c.active)
    )
