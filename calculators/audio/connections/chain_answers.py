"""Answers for chains of adapters: what works over the best one, what does not and why, wire by wire."""

from __future__ import annotations

from calculators.audio.connections.adapter_chains import (
    PHANTOM,
    SHORTED_BALANCED,
    WANTED,
    Chain,
    Outcome,
    best,
    chains,
    judge,
    met,
    start,
)
from calculators.audio.connections.connection_case import LINE, Case
from calculators.audio.connections.connectors import CONNECTORS, fits
from calculators.audio.connections.contact_wiring import (
    BALANCED,
    OTHER,
    SINGLE_ENDED,
    UNKNOWN,
    USUAL,
    WIRE_NAMES,
    is_balanced,
    socket_roles,
)
from calculators.audio.connections.plug_drawing import draw, wire_words
from calculators.audio.connections.plug_words import (
    HARM,
    SIDES,
    SOURCES,
    WEAKLY,
    cautions,
    phantom_step,
    side_figure,
    sizes,
)
from calculators.desk.answer import DEPENDS, NO, YES, Answer, Column, Note, Step, Table, Verdict, figure
from calculators.desk.numbers import listed
from calculators.desk.svg import Drawing


def by_chain(case: Case) -> Answer:
    """The answer by trying every chain of adapters, wire by wire."""
    device, plug, socket = case.device, case.plug, case.socket
    pinout = USUAL if case.pinout == UNKNOWN else case.pinout
    all_chains = list(chains(device, plug, socket, pinout, case.wiring))
    chosen = best(all_chains, device)
    wanted = frozenset(WANTED[device])
    arrives = chosen.outcome.works if chosen else frozenset()
    harmful = [c for c in all_chains if c.outcome.harm and len(c.adapters) <= 1]
    harms = sorted({c.outcome.harm for c in harmful})
    shown = chosen or (harmful[0] if harmful else None)  # where nothing is safe, the harm is shown contact by contact
    verdict, headline = _verdict(case, chosen, all_chains)
    return Answer(
        headline=headline,
        verdict=verdict,
        figures=(
            figure("adapters", "Adapters", len(chosen.adapters) if chosen else 0, main=True),
            *(
                side_figure(name, name in arrives & wanted, main=name in wanted, weakly=verdict.says == WEAKLY)
                for name in SIDES
            ),
        ),
        tables=(_table(shown, socket, safe=bool(chosen)),) if shown else (),
        drawings=(_drawing(device, plug, shown, start(device, plug, pinout, case.wiring), safe=bool(chosen)),),
        steps=(*phantom_step(case), *_steps(chosen, socket, device)) if chosen else (),
        steps_title="What goes into what",
        notes=_notes(case, chosen, pinout),
        cautions=(*(HARM[h] for h in harms), *cautions(case, chosen.adapters if chosen else ())),
        sources=SOURCES,
    )


_WAYS = ("It plugs straight in", "One adapter will do", "Two adapters in a row will do", "It takes three adapters")
_FITS = ("It goes in", "One adapter makes it fit", "Two adapters make it fit", "Three adapters make it fit")


def _verdict(case: Case, chosen: Chain | None, chains: list[Chain]) -> tuple[Verdict, str]:
    device, socket = case.device, case.socket
    wanted = WANTED[device]
    if chosen is None:
        return _refusal(case, chains)
    works = [w for w in wanted if w in chosen.outcome.works]
    lost = [w for w in wanted if w not in chosen.outcome.works]
    count = len(chosen.adapters)
    way = _WAYS[count]
    if count == 1 and chosen.active:
        way = "It takes a small device of its own"
    ends = f"{_named(works)} {'works' if len(works) == 1 else 'work'}"
    ends += f", {_named(lost)} {'does' if len(lost) == 1 else 'do'} not" if lost else ""
    headline = f"{way}: {ends}."
    if count == 1:
        name = chosen.adapters[0].name.partition(":")[0]
        named = f"{way}, {'an' if name.startswith('a') else 'a'} {name}: {ends}."
        headline = named if len(named.split()) <= _HEADLINE_WORDS else headline
    if lost:
        return Verdict(DEPENDS, _sentence(_why_lost(case, chosen, lost)), "Not all of it works."), headline
    if chosen.outcome.shorts:
        return Verdict(
            DEPENDS, f"The plug shorts {_shorted(chosen.outcome)} of the output.", "Works, with a short."
        ), headline
    if weak := _weak(case, chosen):
        but, reason = weak
        return Verdict(DEPENDS, reason, WEAKLY), f"{_FITS[count]}, but {but}."
    if case.pinout == UNKNOWN and _differs(case, chosen):
        return (
            Verdict(
                DEPENDS,
                "Right for today's order of contacts; an older headset may need an adapter swapping two.",
                "It works with today's headsets.",
            ),
            headline,
        )
    if is_balanced(socket, case.wiring) and CONNECTORS[socket].poles == 4 and CONNECTORS[socket].phone:
        return (
            Verdict(
                DEPENDS,
                "Balanced 4-pole sockets have no common order of contacts: compare with the maker's manual.",
                "Compare the contacts first.",
            ),
            headline,
        )
    return Verdict(YES, "Everything you want arrives, and nothing is shorted.", "It works."), headline


def _sentence(clause: str) -> str:
    return f"{clause[:1].upper()}{clause[1:]}."


def _named(parts: list[str]) -> str:
    return listed([{"microphone": "the microphone"}.get(part, part) for part in parts])


def _refusal(case: Case, chains: list[Chain]) -> tuple[Verdict, str]:
    """Why there is no safe way."""
    plug, socket = case.plug, case.socket
    harms = {c.outcome.harm for c in chains}
    if plug == "usb":
        return (
            Verdict(NO, "A USB device holds its own converter; an analogue socket has no data for it.", _NO_ADAPTER),
            "No adapter makes this work: a USB device needs a USB socket.",
        )
    if socket == "usb":
        return (
            Verdict(NO, "An analogue plug needs a sound device; an adapter of wire makes none.", _NO_ADAPTER),
            "No adapter makes this work: find a USB sound device that takes this plug.",
        )
    if is_balanced(socket, case.wiring) and socket != "xlr-3" and CONNECTORS[socket].poles == 3:
        return (
            Verdict(
                NO,
                "It carries one channel twice, once upside down: hollow sound, and some plugs short it.",
                "Do not plug it in.",
            ),
            "Do not plug this in: a balanced line output is not made for it.",
        )
    if SHORTED_BALANCED in harms:
        return (
            Verdict(
                NO,
                "Every way joins contacts that a balanced output drives apart, and shorts the amplifier.",
                "No adapter is safe.",
            ),
            "Do not connect these: use the amplifier's single-ended socket, or have the headphones rewired.",
        )
    if PHANTOM in harms:
        return (
            Verdict(NO, "Plain wire would put phantom power on a plug that is not made for it.", "No adapter is safe."),
            "Do not connect these by plain wire.",
        )
    return (
        Verdict(NO, "No adapter on sale carries what this plug has to that socket.", _NO_ADAPTER),
        "No adapter makes this work: they carry different things.",
    )


_NO_ADAPTER = "No adapter does it."
_HEADLINE_WORDS, _REASON_WORDS = 25, 15  # what one says in a breath


def _weak(case: Case, chosen: Chain) -> tuple[str, str] | None:
    """Where everything arrives, but at the wrong level: the end of the headline and the reason; else nothing."""
    device, plug, socket = case.device, case.plug, case.socket
    if device == "headphones" and socket == "rca-pair":
        return (
            "it will hardly be loud enough",
            "RCA sockets give line level: a headphone amplifier belongs between them and headphones.",
        )
    if device != "microphone":
        return None
    size = CONNECTORS[plug].size_mm
    if chosen.active and size and socket != "usb":  # the converter feeds a small microphone from phantom power
        if CONNECTORS[socket].size_mm == LARGE_MM:
            return (
                "the converter gets no phantom power there",
                "Large sockets seldom carry phantom power: use the microphone input's XLR socket.",
            )
        if size == LARGE_MM:
            return (
                "the converter between feeds small microphones, and one with the large plug mostly wants no supply",
                "Use a large socket made for microphones, or a matching transformer to XLR.",
            )
    if chosen.active or socket in ("xlr-3", "usb"):
        return None
    if plug == "xlr-3":
        return (
            "an XLR microphone stays too weak there",
            "A computer's socket amplifies too little and gives no phantom power: take a microphone interface.",
        )
    if size == LARGE_MM and CONNECTORS[socket].size_mm != LARGE_MM:
        return (
            "a microphone with the large plug stays too weak there",
            "It is made for a mixer, and computers amplify too little: take a microphone interface.",
        )
    if size and size != LARGE_MM and CONNECTORS[socket].size_mm == LARGE_MM:
        return (
            "a computer microphone gets no supply there",
            "It lives on the small voltage of a computer's socket, which a large socket lacks.",
        )
    return None


LARGE_MM = 6.35


def _differs(case: Case, chosen: Chain) -> bool:
    """Whether the other order of a 4-pole plug would change the answer."""
    all_chains = list(chains(case.device, case.plug, case.socket, OTHER, case.wiring))
    other = best(all_chains, case.device)
    return other is None or other.adapters != chosen.adapters or other.outcome.works != chosen.outcome.works


def _shorted(outcome: Outcome) -> str:
    pairs = [f"{WIRE_NAMES[a]} and {WIRE_NAMES[b]}" for a, b in outcome.shorts]
    return listed(pairs)


def _why_lost(case: Case, chosen: Chain, lost: list[str]) -> str:
    """The reason for each thing that does not work, in words."""
    device = case.device
    carried: frozenset[str] = frozenset().union(*chosen.plugs[0][1])
    roles = chosen.roles
    reasons = []
    if "microphone" in lost:
        if not carried & {"M", "H", "D"}:
            reasons.append("this plug has no contact for a microphone")
        elif "M" not in roles and "H" not in roles:
            reasons.append("this socket has no contact for a microphone")
        else:
            reasons.append("the microphone's contact meets nothing that listens to it")
    sides = [side for side in lost if side != "microphone"]
    if sides:
        if "H" in carried or (device in LINE and not carried & {"R", "R+", "D"}):
            reasons.append("each such plug carries one channel, and the other side takes a second lead")
        elif not carried & {"R", "R+", "D"}:
            reasons.append("a 2-pole plug carries one channel")
        elif not set(roles) & {"R", "R+"}:
            reasons.append("a 2-pole socket gives one channel")
        else:
            reasons.append(_why_sides(chosen.outcome, roles))
    whole = ", and ".join(reasons)
    return whole if len(whole.split()) <= _REASON_WORDS else reasons[-1]  # of two, the one that is heard first


def _why_sides(outcome: Outcome, roles: tuple[str, ...]) -> str:
    if outcome.shorts:
        return f"the plug shorts {_shorted(outcome)}"
    ground = [w for role, w in zip(roles, outcome.meets, strict=True) if role == "G"]
    if not any("G" in wires for wires in ground):
        return "the ground contact is lost: what is left sounds thin, with voices gone"
    return "left and right do not reach their own contacts"


def _steps(chosen: Chain, socket: str, device: str) -> tuple[Step, ...]:
    steps = []
    for i, adapter in enumerate(chosen.adapters):
        how = f", {chosen.hows[i]}" if chosen.hows[i] else ""
        source = "your plug" if i == 0 else "that adapter's plug"
        steps.append(
            Step(
                key=f"adapter-{i + 1}",
                title=adapter.name[0].upper() + adapter.name[1:],
                do=(f"Put {source} into it{how}.",),
                tags=("active",) if adapter.active else (),
            )
        )
    how = f", {chosen.hows[-1]}" if chosen.hows[-1] else ""
    source = "your plug" if not chosen.adapters else "the last adapter's plug"
    steps.append(
        Step(
            key="socket",
            title=f"The socket: {CONNECTORS[socket].label}",
            do=(f"Put {source} into the socket{how}, all the way in.",),
            see=(
                "Speak, and watch the input's level move in the system's sound settings."
                if device == "microphone"
                else "Play a quiet sound on the left only ('Is left really left?' makes one): the left ear hears "
                "it, the right one nothing."
            ),
            otherwise="A plug that is half in, or held off by its case's cut-out, loses a contact.",
        )
    )
    return tuple(steps)


def _table(chosen: Chain, socket: str, safe: bool) -> Table:
    contacts = CONNECTORS[socket].contacts
    rows = tuple(
        (contact, WIRE_NAMES[role], wire_words(wires))
        for contact, role, wires in zip(contacts, chosen.roles, chosen.outcome.meets, strict=True)
    )
    return Table(
        "What meets what at the socket" if safe else "What would meet what at the socket: not safe",
        (Column("Contact of the socket"), Column("It carries"), Column("Of your device it meets")),
        rows,
    )


def _drawing(device: str, plug: str, chosen: Chain | None, own: tuple[frozenset[str], ...], safe: bool) -> Drawing:
    """Your own plug and that of every adapter; of a harmful chain too, named as such."""
    first = (f"Your {device}: {CONNECTORS[plug].label}", plug, own)
    if chosen is None:
        return draw([first])
    word = "Adapter" if safe else "Not safe: adapter"
    rest = [(f"{word} {i}: {CONNECTORS[key].label}", key, wires) for i, (key, wires) in enumerate(chosen.plugs[1:], 1)]
    return draw([first, *rest])


def _notes(case: Case, chosen: Chain | None, pinout: str) -> tuple[Note, ...]:
    device, plug, socket, wiring = case.device, case.plug, case.socket, case.wiring
    notes = [sizes()]
    if chosen is None or chosen.adapters:
        notes.append(Note("Without an adapter", _direct(device, plug, socket, pinout, wiring)))
    if CONNECTORS[plug].poles == 4 and CONNECTORS[plug].phone and not (plug == "2.5-4" and device == "headphones"):
        notes.append(
            Note(
                "Two orders of four contacts",
                "Most headsets of today have left, right, ground, microphone from the tip on; older ones have the "
                "last two swapped. In the wrong socket the sound is thin and voices are gone, and the microphone is "
                "dead; holding its button down can bring the sound back. Where a 3-pole socket's ground spring "
                "reaches the sleeve instead of ring 2, it is the usual order that suffers.",
            )
        )
    if socket in ("4.4-5", "xlr-4") and case.at_socket == SINGLE_ENDED:
        notes.append(
            Note(
                "This socket is balanced",
                "By its kind this socket is balanced, so it is treated as balanced whatever was chosen.",
            )
        )
    if case.at_socket == BALANCED and not is_balanced(socket, case.at_socket):
        notes.append(
            Note(
                "Not a balanced socket",
                f"A {CONNECTORS[socket].label} socket cannot be balanced; it is treated as single-ended.",
            )
        )
    if "usb" in (plug, socket):
        notes.append(
            Note(
                "USB",
                "USB type A and USB-C carry the same data, so an adapter between the two is fine. A small adapter "
                "from USB-C to 3.5 mm holds a sound device, unless it is of the kind that needs an analogue signal "
                "from a telephone; on a computer buy one that says it has a converter.",
            )
        )
    return tuple(notes)


def _direct(device: str, plug: str, socket: str, pinout: str, wiring: str) -> str:
    """What happens where the plug is put into the socket as it is."""
    ways = fits(CONNECTORS[plug], CONNECTORS[socket])
    if not ways:
        return "The plug does not go into the socket."
    roles, balanced = socket_roles(device, socket, wiring), is_balanced(socket, wiring)
    outcome = judge(roles, met(start(device, plug, pinout, wiring), ways[0]), device, balanced)
    works = [w for w in WANTED[device] if w in outcome.works]
    text = (
        f"The plug goes in, and {listed(works)} {'works' if len(works) == 1 else 'work'}."
        if works
        else ("The plug goes in, but nothing works as it should.")
    )
    if outcome.harm == SHORTED_BALANCED:
        return "The plug goes in, and shorts the balanced output. Do not do it."
    if outcome.harm == PHANTOM:
        return "The plug goes in, and phantom power reaches it. Do not do it."
    if outcome.shorts:
        text += f" It shorts {_shorted(outcome)} of the output, which some outputs do not take for long."
    elif not {"left", "right"} & outcome.works and "left" in WANTED[device]:
        text += f" In particular {_why_sides(outcome, roles)}."
    return text
