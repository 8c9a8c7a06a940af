"""audio.plugs: from the plug one has to the socket one has, over the shortest safe chain of adapters."""

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
from calculators.audio.connections.connectors import CONNECTORS, fits, inch
from calculators.audio.connections.contact_wiring import (
    BALANCED,
    NOT_MADE,
    OTHER,
    SAID,
    SINGLE_ENDED,
    UNKNOWN,
    USUAL,
    is_balanced,
    socket_roles,
)
from calculators.audio.connections.plug_drawing import draw, said
from calculators.desk.answer import (
    COMMON_PRACTICE,
    DEPENDS,
    FROM_MEMORY,
    NO,
    YES,
    Answer,
    Caution,
    Column,
    Figure,
    Note,
    Source,
    Step,
    Table,
    Verdict,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.inputs import Choice, Option, Values
from calculators.desk.numbers import listed, number
from calculators.desk.svg import Drawing

DEVICES = (
    Option("headphones", "headphones"),
    Option("headset", "headset with microphone"),
    Option("microphone", "microphone"),
    Option("speakers", "powered speakers"),
    Option("line", "line equipment: player, mixer, recorder"),
)
_CONNECTOR_OPTIONS = tuple(Option(c.key, c.label) for c in CONNECTORS.values())

LEVER = Caution(
    "machine",
    "A stack of rigid adapters is a lever that breaks sockets and boards. A short adapter made of cable is kinder, and "
    "one adapter is better than two.",
    "The manual of the amplifier, board or headset has the last word on what may be plugged in.",
)
VOLUME = Caution(
    "hearing",
    "Volume down, headphones off the ears, then plug in: another output can be far louder than the last.",
    "If a sound hurts or your ears ring afterwards, see a hearing specialist if it lasts.",
    first=True,
)
HARM = {
    SHORTED_BALANCED: Caution(
        "machine",
        "A balanced output drives both ends of each channel. A plug or adapter that joins two of these contacts, or "
        "puts one on ground, shorts the amplifier. Such adapters are sold; do not use one here.",
        "The amplifier's manual says which plugs its balanced output takes.",
        first=True,
    ),
    PHANTOM: Caution(
        "machine",
        "An XLR microphone socket can feed 48 V phantom power. Plain wire from there to a 3.5 mm microphone or headset "
        "can destroy it.",
        "The microphone's manual says which supply it takes.",
        first=True,
    ),
}

SOURCES = (
    Source("IEC 60603-11, concentric connectors", "sizes 2.5, 3.5 and 6.35 mm, lengths", FROM_MEMORY),
    Source("International yard and pound agreement, 1959", "an inch is 25.4 mm", FROM_MEMORY),
    Source("JEITA RC-8141C, headphones for music listening, 2016", "balanced 4.4 mm plug with 5 poles", FROM_MEMORY),
    Source("AES14 and IEC 61076-2-103", "XLR: pin 1 screen, pin 2 hot, pin 3 cold", FROM_MEMORY),
    Source("IEC 61938, interconnection of audio equipment", "phantom power", FROM_MEMORY),
    Source("Kirchhoff's laws", "which contacts a plug joins, followed wire by wire", COMMON_PRACTICE),
    Source(
        "Both orders of 4-pole headset plugs, balanced 2.5 mm and 4-pin XLR, where a socket's ground spring touches, "
        "and which adapters are sold",
        "",
        COMMON_PRACTICE,
    ),
)


def compute(given: Values) -> Answer:
    """The chain, what works over it, and what does not and why."""
    device, plug, socket = given["device"], given["plug"], given["socket"]
    if (device, plug) in NOT_MADE:
        return _not_made(device, plug)
    pinout = USUAL if given["pinout"] == UNKNOWN else given["pinout"]
    found = list(chains(device, plug, socket, pinout, given["wiring"]))
    chosen = best(found, device)
    wanted = WANTED[device]
    works = chosen.outcome.works if chosen else frozenset()
    harmful = [c for c in found if c.outcome.harm and len(c.adapters) <= 1]
    harms = sorted({c.outcome.harm for c in harmful})
    shown = chosen or (harmful[0] if harmful else None)  # where nothing is safe, the harm is shown contact by contact
    verdict, headline = _verdict(given, chosen, found)
    return Answer(
        headline=headline,
        verdict=verdict,
        figures=(
            figure("adapters", "Adapters", len(chosen.adapters) if chosen else 0, main=True),
            *(_works(name, name in works and name in wanted, main=name in wanted) for name in _SIDES),
        ),
        tables=(_table(shown, socket, safe=bool(chosen)),) if shown else (),
        drawings=(_drawing(device, plug, shown, start(device, plug, pinout, given["wiring"]), safe=bool(chosen)),),
        steps=_steps(chosen, socket, device) if chosen else (),
        steps_title="What goes into what",
        notes=_notes(given, chosen, pinout),
        cautions=(*(HARM[h] for h in harms), *((VOLUME,) if device != "microphone" else ()), LEVER),
        sources=SOURCES,
    )


_SIDES = ("left", "right", "microphone")


def _works(name: str, does: bool, main: bool) -> Figure:
    """1 or 0 for machines, yes or no for people."""
    return Figure(name, f"{name.capitalize()} works", int(does), "", "yes" if does else "no", main)


def _not_made(device: str, plug: str) -> Answer:
    reason = NOT_MADE[device, plug]
    return Answer(
        headline=f"Look again at the plug: {reason}.",
        verdict=Verdict(NO, "No such device comes with this plug, so there is nothing safe to adapt.", "None."),
        figures=(
            figure("adapters", "Adapters", 0, main=True),
            *(_works(name, False, main=False) for name in _SIDES),
        ),
        notes=(_sizes(),),
        cautions=(VOLUME, LEVER),
        sources=SOURCES,
    )


def _verdict(given: Values, chosen: Chain | None, found: list[Chain]) -> tuple[Verdict, str]:
    device, plug, socket = given["device"], given["plug"], given["socket"]
    wanted = WANTED[device]
    if chosen is None:
        return _refusal(given, found)
    works = [w for w in wanted if w in chosen.outcome.works]
    lost = [w for w in wanted if w not in chosen.outcome.works]
    count = len(chosen.adapters)
    way = ("It plugs straight in", "One adapter will do", "Two adapters in a row will do", "It takes three adapters")[
        count
    ]
    if count == 1 and chosen.active:
        way = "It takes a small device of its own, not a mere adapter"
    headline = f"{way}: {_named(works)} {'works' if len(works) == 1 else 'work'}"
    headline += f", {_named(lost)} {'does' if len(lost) == 1 else 'do'} not." if lost else "."
    weak = _weak(device, plug, socket, chosen)
    if lost:
        return Verdict(DEPENDS, _sentence(_why_lost(given, chosen, lost)), "Not all of it works."), headline
    if chosen.outcome.shorts:
        return Verdict(
            DEPENDS, f"The plug shorts {_shorted(chosen.outcome)} of the output.", "Works, with a short."
        ), headline
    if weak:
        return Verdict(DEPENDS, weak, "It fits, but weakly."), headline
    if given["pinout"] == UNKNOWN and _differs(given, chosen):
        return (
            Verdict(
                DEPENDS,
                "That holds for the order in use today: left, right, ground, microphone. An older headset with ground "
                "and microphone swapped needs something else.",
            ),
            headline,
        )
    if is_balanced(socket, given["wiring"]) and CONNECTORS[socket].poles == 4 and CONNECTORS[socket].phone:
        return (
            Verdict(
                DEPENDS, "Balanced 4-pole sockets have no common order of contacts: compare with the maker's manual."
            ),
            headline,
        )
    return Verdict(YES, "Everything you want arrives, and nothing is shorted.", "It works."), headline


def _sentence(clause: str) -> str:
    return f"{clause[:1].upper()}{clause[1:]}."


def _named(parts: list[str]) -> str:
    return listed([{"microphone": "the microphone"}.get(part, part) for part in parts])


def _refusal(given: Values, found: list[Chain]) -> tuple[Verdict, str]:
    """Why there is no safe way."""
    plug, socket = given["plug"], given["socket"]
    harms = {c.outcome.harm for c in found}
    if plug == "usb":
        return (
            Verdict(NO, "A USB device holds its own converter; an analogue socket has no data for it.", "None."),
            "No adapter makes this work: a USB device needs a USB socket.",
        )
    if socket == "usb":
        return (
            Verdict(
                NO,
                "An analogue adapter never makes a USB device; it takes a sound device with the right sockets.",
                "No adapter.",
            ),
            "No adapter makes this work: find a USB sound device that takes this plug.",
        )
    if is_balanced(socket, given["wiring"]) and socket != "xlr-3" and CONNECTORS[socket].poles == 3:
        return (
            Verdict(
                NO,
                "A balanced 3-pole output carries one channel twice, once upside down: a stereo plug gives a hollow "
                "sound, and a 2-pole plug shorts half of the output.",
                "None.",
            ),
            "Do not plug this in: a balanced line output is not made for it.",
        )
    if SHORTED_BALANCED in harms:
        return (
            Verdict(
                NO,
                "Every way joins contacts that a balanced output drives apart, and shorts the amplifier.",
                "None: unsafe.",
            ),
            "Do not connect these: use the amplifier's single-ended socket, or have the headphones rewired.",
        )
    if PHANTOM in harms:
        return (
            Verdict(NO, "Plain wire would put phantom power on a plug that is not made for it.", "None: unsafe."),
            "Do not connect these by plain wire.",
        )
    return (
        Verdict(NO, f"No chain of adapters carries what a {CONNECTORS[plug].label} plug has to this socket.", "None."),
        "No adapter makes this work: they carry different things.",
    )


def _weak(device: str, plug: str, socket: str, chosen: Chain) -> str:
    """Where everything arrives, but at the wrong level."""
    if device == "headphones" and socket == "rca-pair":
        return (
            "The contacts fit, but RCA sockets give line level, whose output is rarely able to drive headphones: "
            "'Are these headphones too quiet?' tells how loud it gets."
        )
    if device == "microphone" and plug == "xlr-3" and socket not in ("xlr-3", "usb") and not chosen.active:
        return (
            "The contacts fit, but a microphone with XLR gives a computer's socket too little, and one that needs "
            "phantom power gets none: a microphone interface is the better way."
        )
    return ""


def _differs(given: Values, chosen: Chain) -> bool:
    """Whether the other order of a 4-pole plug would change the answer."""
    found = list(chains(given["device"], given["plug"], given["socket"], OTHER, given["wiring"]))
    other = best(found, given["device"])
    return other is None or other.adapters != chosen.adapters or other.outcome.works != chosen.outcome.works


def _shorted(outcome: Outcome) -> str:
    pairs = [f"{SAID[a]} and {SAID[b]}" for a, b in outcome.shorts]
    return listed(pairs)


def _why_lost(given: Values, chosen: Chain, lost: list[str]) -> str:
    """The reason for each thing that does not work, in words."""
    device = given["device"]
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
        if "H" in carried or (device in ("speakers", "line") and not carried & {"R", "R+", "D"}):
            reasons.append("each such plug carries one channel, and the other side takes a second lead")
        elif not carried & {"R", "R+", "D"}:
            reasons.append("a 2-pole plug carries one channel only")
        elif not set(roles) & {"R", "R+"}:
            reasons.append("a 2-pole socket gives one channel only")
        else:
            reasons.append(_why_sides(chosen.outcome, roles))
    return ", and ".join(reasons)


def _why_sides(outcome: Outcome, roles: tuple[str, ...]) -> str:
    if outcome.shorts:
        return f"the plug shorts {_shorted(outcome)}"
    ground = [w for role, w in zip(roles, outcome.meets, strict=True) if role == "G"]
    if not any("G" in wires for wires in ground):
        return (
            "the ground contact is lost, so that only the difference of left and right is heard: thin, with voices gone"
        )
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
        (contact, SAID[role], said(wires))
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


def _sizes() -> Note:
    return Note(
        "Quarter inch, eighth inch",
        f"A quarter inch is {number(inch(1, 4))} mm, the size of the large plug; some standards print 6.3 mm. "
        f"'Eighth inch' is a nickname for the 3.5 mm plug: an eighth of an inch would be {number(inch(1, 8), 3)} mm.",
    )


def _notes(given: Values, chosen: Chain | None, pinout: str) -> tuple[Note, ...]:
    device, plug, socket, wiring = given["device"], given["plug"], given["socket"], given["wiring"]
    notes = [_sizes()]
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
    if socket in ("4.4-5", "xlr-4") and wiring == SINGLE_ENDED:
        notes.append(
            Note(
                "This socket is balanced",
                "By its kind this socket is balanced, so it is treated as balanced whatever was chosen.",
            )
        )
    if wiring == BALANCED and not is_balanced(socket, wiring):
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


calculator = Calculator(
    name="audio.plugs",
    title="Which adapter do I need, and what works then?",
    summary="From the plug one has to the socket one has: the shortest safe chain of adapters, contact by contact.",
    inputs=(
        Choice(
            key="device",
            label="What you want to connect",
            where="Your choice. A headset is headphones with a microphone on the same plug or pair of plugs.",
            options=DEVICES,
            default="headphones",
        ),
        Choice(
            key="plug",
            label="Its plug",
            where=(
                "Count the black rings on the metal: one ring means 2 poles, two mean 3, three mean 4. The thick "
                "plug is 6.35 mm, the common thin one 3.5 mm, the needle 2.5 mm."
            ),
            options=_CONNECTOR_OPTIONS,
            default="6.35-3",
        ),
        Choice(
            key="socket",
            label="The socket you have",
            where=(
                "By size and by the picture beside it: headphones alone mean 3 poles, headphones with a microphone "
                "in one picture mean 4. Two sockets side by side, one for each, are the pair."
            ),
            options=_CONNECTOR_OPTIONS,
            default="3.5-3",
        ),
        Choice(
            key="wiring",
            label="The socket is",
            where=(
                "Computers and laptops are single-ended. Balanced is printed beside the socket of some amplifiers, "
                "players and audio interfaces; 4.4 mm and 4-pin XLR always are."
            ),
            options=(Option(SINGLE_ENDED, "single-ended (usual)"), Option(BALANCED, "balanced")),
            default=SINGLE_ENDED,
        ),
        Choice(
            key="pinout",
            label="A 4-pole plug's order, from the tip",
            where=(
                "The headset's manual. With a multimeter: tip to ring 2 reads the ear piece's few ohms in the usual "
                "order; tip to sleeve does so in the other."
            ),
            options=(
                Option(USUAL, "left, right, ground, microphone"),
                Option(OTHER, "left, right, microphone, ground"),
                Option(UNKNOWN, "not sure"),
            ),
            default=USUAL,
        ),
    ),
    compute=compute,
    presets=(
        Preset(
            "large-to-small", "Large plug, small socket", {"device": "headphones", "plug": "6.35-3", "socket": "3.5-3"}
        ),
        Preset(
            "small-to-large", "Small plug, large socket", {"device": "headphones", "plug": "3.5-3", "socket": "6.35-3"}
        ),
        Preset(
            "headset-two", "Phone headset, two sockets", {"device": "headset", "plug": "3.5-4", "socket": "3.5-pair"}
        ),
        Preset("headset-one", "Two plugs, one socket", {"device": "headset", "plug": "3.5-pair", "socket": "3.5-4"}),
        Preset(
            "balanced",
            "Headphones, balanced socket",
            {"device": "headphones", "plug": "3.5-3", "socket": "4.4-5", "wiring": "balanced"},
        ),
        Preset(
            "studio-microphone",
            "XLR microphone, 3.5 mm",
            {"device": "microphone", "plug": "xlr-3", "socket": "3.5-pair"},
        ),
    ),
)
