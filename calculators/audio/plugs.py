"""audio.plugs: from the plug one has to the socket one has, over the shortest safe chain of adapters."""

from __future__ import annotations

from dataclasses import dataclass, replace

from calculators.audio.connections.adapter_catalogue import Adapter
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
from calculators.audio.connections.line_leads import End, Lead, lead_between, plug_wires
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
from calculators.desk.inputs import HOW_TO_TELL, UNSURE, Choice, Option, Values
from calculators.desk.numbers import listed, number
from calculators.desk.svg import Drawing

DEVICES = (
    Option("headphones", "headphones"),
    Option("headset", "headset with microphone"),
    Option("microphone", "microphone"),
    Option("speakers", "powered speakers"),
    Option("line", "line equipment that takes sound in: mixer, recorder, amplifier"),
    Option("source", "line equipment that gives sound: player, instrument, a mixer's output"),
)
_DEVICE_NAMES: dict[str, tuple[str, ...]] = {
    "headphones": ("headphone", "earphones", "earbuds", "in-ears", "cans"),
    "headset": ("gaming headset", "phone headset", "headphones with mic"),
    "microphone": ("mic", "mike", "condenser", "dynamic mic"),
    "speakers": ("speaker", "monitors", "studio monitors", "active speakers"),
    "line": ("mixer", "recorder", "amplifier", "receiver", "hifi", "stereo"),
    "source": ("player", "turntable", "synthesizer", "keyboard", "guitar"),
}
_CONNECTOR_NAMES: dict[str, tuple[str, ...]] = {
    "2.5-3": ("2.5 mm", "2.5mm"),
    "2.5-4": ("2.5 mm balanced", "2.5mm balanced"),
    "3.5-2": ("3.5 mm mono", "mono mini jack"),
    "3.5-3": ("3.5 mm", "3.5mm", "1/8 inch", "eighth inch", "mini jack", "minijack", "aux", "headphone jack"),
    "3.5-4": ("3.5 mm trrs", "trrs", "combo jack", "headset jack", "phone plug"),
    "6.35-2": ("guitar plug", "mono jack", "6.35 mm mono"),
    "6.35-3": ("6.35 mm", "6.35mm", "6.3 mm", "6.3mm", "1/4 inch", "1/4\"", "quarter inch", "big jack", "large jack"),
    "4.4-5": ("4.4 mm", "4.4mm", "balanced headphone plug"),
    "3.5-pair": ("two plugs", "two jacks", "pink and green", "headphone and mic jacks"),
    "rca-pair": ("rca", "phono", "cinch", "red and white"),
    "xlr-3": ("xlr", "3-pin xlr", "mic cable"),
    "xlr-4": ("4-pin xlr",),
    "usb": ("usb-c", "usb c", "type c", "usb-a"),
}
_DEVICE_OPTIONS = tuple(replace(option, names=_DEVICE_NAMES[option.value]) for option in DEVICES)
_CONNECTOR_OPTIONS = tuple(Option(c.key, c.label, _CONNECTOR_NAMES.get(c.key, ())) for c in CONNECTORS.values())
_WIRING_OPTIONS = (
    Option(SINGLE_ENDED, "unbalanced, single-ended (usual)", ("unbalanced", "single ended")),
    Option(BALANCED, "balanced"),
    Option(UNSURE, "not sure"),
)
_SENDS = ("microphone", "source")  # what gives sound; all else takes it
_LINE = ("speakers", "line", "source")

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
PHANTOM_OFF = Caution(
    "machine",
    "Switch phantom power off, and wait half a minute, before anything is plugged into a microphone input or pulled "
    "out of it.",
    "The input's manual says where the switch is and what may be supplied.",
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
    Source(
        "Hot to hot, ground to cold and ground; cold open or grounded from a balanced output; left minus right from a "
        "stereo plug",
        "as makers of leads and interfaces publish it",
        COMMON_PRACTICE,
    ),
    Source("Kirchhoff's laws", "which contacts a plug joins, followed wire by wire", COMMON_PRACTICE),
    Source(
        "Both orders of 4-pole headset plugs, balanced 2.5 mm and 4-pin XLR, where a socket's ground spring touches, "
        "and which adapters are sold",
        "",
        COMMON_PRACTICE,
    ),
)


@dataclass(frozen=True, slots=True)
class Case:
    """What is to be joined, with nothing left open: output and input each single-ended or balanced."""

    device: str
    plug: str
    socket: str
    output: str
    input_: str
    pinout: str
    one: bool

    @property
    def told(self) -> str:
        """What was said of the socket: it is the input where the device gives sound, else the output."""
        return self.input_ if self.device in _SENDS else self.output

    @property
    def wiring(self) -> str:
        """How socket and plug are wired for the search: a socket that cannot be balanced leaves it to the plug."""
        if is_balanced(self.socket, self.told):
            return self.told
        own = self.output if self.device in _SENDS else self.input_
        return own if self.device in _LINE else SINGLE_ENDED

    @property
    def ends(self) -> tuple[End, End]:
        """The output and the input of a line connection."""
        socket = "3.5-3" if self.socket == "3.5-pair" and self.device != "source" else self.socket
        keys = (self.plug, socket) if self.device in _SENDS else (socket, self.plug)
        first, second = (
            End(key, key == "xlr-3" or (is_balanced(key, said_) and CONNECTORS[key].poles == 3))
            for key, said_ in zip(keys, (self.output, self.input_), strict=True)
        )
        return first, second


def compute(given: Values) -> Answer:
    """The chain, what works over it, and what does not and why."""
    device, plug, socket = given["device"], given["plug"], given["socket"]
    if (device, plug) in NOT_MADE:
        return _not_made(device, plug)
    one = given.get("sockets") == "one"
    usual, *others = (
        _solve(Case(device, plug, socket, output, input_, given["pinout"], one))
        for output in _possible(given["output"])
        for input_ in _possible(given["input"])
    )
    if all((other.headline, other.verdict) == (usual.headline, usual.verdict) for other in others):
        return usual
    return replace(usual, verdict=_LOOK_BESIDE)


def _possible(told: str) -> tuple[str, ...]:
    """What an end may be, by what was said of it; the usual first."""
    return (SINGLE_ENDED, BALANCED) if told == UNSURE else (told,)


_LOOK_BESIDE = Verdict(
    DEPENDS,
    "This holds for an unbalanced one; 'balanced' or 'bal' beside the socket changes it.",
    "Look beside the socket first.",
)


def _solve(case: Case) -> Answer:
    """The answer to a case with nothing left open."""
    if case.device in _LINE:
        output, input_ = case.ends
        if _subtracts(case, output, input_):
            return _left_minus_right(case, output, input_)
        lead = lead_between(output, input_)
        if lead:
            return _by_leads(case, output, input_, lead)
    return _by_chain(case)


def _subtracts(case: Case, output: End, input_: End) -> bool:
    """Whether a stereo plug would sit in one balanced input: its own plug fits there, or there is one input only."""
    if not (output.stereo and input_.balanced):
        return False
    own_plug = case.device == "source" and CONNECTORS[output.connector].phone and CONNECTORS[input_.connector].phone
    return own_plug or case.one


def _left_minus_right(case: Case, output: End, input_: End) -> Answer:
    names = CONNECTORS[input_.connector].contacts
    hot, cold = ("pin 2", "pin 3") if input_.connector == "xlr-3" else (names[0], names[1])
    rest = (
        "use the left channel alone, or a mixer that sums both"
        if case.one
        else "take a lead with a plug for each channel, into two inputs"
    )
    return Answer(
        headline=f"Not one stereo plug into a balanced input: {rest}.",
        verdict=Verdict(
            NO, "The input takes left minus right: what both share, voices above all, vanishes.", "Not with this plug."
        ),
        figures=(
            figure("adapters", "Adapters", 0, main=True),
            *(_works(name, False, main=name in WANTED[case.device]) for name in _SIDES),
        ),
        tables=(
            Table(
                "What the balanced input would make of it",
                (Column("Contact of the input"), Column("It takes"), Column("Of your stereo it meets")),
                ((hot, SAID["H"], SAID["L"]), (cold, SAID["C"], SAID["R"])),
                "A balanced input gives hot less cold.",
            ),
        ),
        notes=(
            Note(
                "What works instead",
                "Two inputs, one for each channel, and an ordinary pair of leads: each channel to hot, its ground to "
                "cold and ground. With one input only, one channel alone loses nothing that is in the middle; two "
                "channels must never be tied together with bare wire, since each output would then drive the other.",
            ),
            _sizes(),
        ),
        cautions=_cautions(case, ()),
        sources=SOURCES,
    )


def _by_leads(case: Case, output: End, input_: End, lead: Lead) -> Answer:
    """The answer where every channel has a lead of its own, from one socket to the other."""
    kind = "balanced leads" if output.balanced and input_.balanced else "leads"
    if lead.count == 2:
        way = f"An ordinary pair of {kind} will do"
    else:
        way = "An ordinary lead with one plug for each channel will do"
    end = ", with the cold pin as the output's manual says" if lead.open_cold else ""
    return Answer(
        headline=f"{way}{end}: left and right work.",
        verdict=_lead_verdict(output, input_, lead),
        figures=(
            figure("adapters", "Leads", lead.count, main=True),
            *(_works(name, name in WANTED[case.device], main=name in WANTED[case.device]) for name in _SIDES),
        ),
        tables=(
            Table(
                "What goes to what, for each channel",
                (Column("Channel"), Column("Contact of the output"), Column("Contact of the input")),
                lead.joins,
            ),
        ),
        drawings=(draw([_lead_plug("output", output, input_), _lead_plug("input", input_, output)]),),
        steps=_lead_steps(case, output, lead),
        steps_title="What goes into what",
        notes=(*_lead_notes(output, input_), _sizes()),
        cautions=_cautions(case, ()),
        sources=SOURCES,
    )


def _lead_plug(word: str, end: End, other: End) -> tuple[str, str, tuple[frozenset[str], ...]]:
    """A lead's plug for the drawing."""
    return f"At the {word}: {CONNECTORS[end.connector].label}", end.connector, plug_wires(end, other)


def _lead_verdict(output: End, input_: End, lead: Lead) -> Verdict:
    if lead.open_cold:
        cold = output.channel("left")["cold"]
        return Verdict(
            DEPENDS,
            f"The output's manual says whether {cold} is left open or goes to ground.",
            "It works, with the right lead.",
        )
    if output.balanced:
        return Verdict(YES, "One balanced lead for each channel, contact to contact; nothing is shorted.", "It works.")
    if input_.balanced:
        hot = "tip or ring" if output.stereo and output.connector != "rca-pair" else output.channel("left")["hot"]
        hot, ground = hot.removeprefix("left "), output.channel("left")["ground"].removeprefix("left ")
        into = input_.channel("left")
        both = "pins 1 and 3" if input_.connector == "xlr-3" else "ring and sleeve"
        return Verdict(YES, f"Each channel: {hot} to {into['hot']}, {ground} to {both}.", "It works.")
    return Verdict(YES, "Each channel has its own plug: hot to hot, ground to ground.", "It works.")


def _lead_steps(case: Case, output: End, lead: Lead) -> tuple[Step, ...]:
    do = ["Follow the table above, one row for each contact."]
    if lead.open_cold:
        cold = output.channel("left")["cold"]
        do.append(
            f"See in the output's manual what becomes of {cold}: left open, or joined to ground. If it does not say, "
            "leave it open."
        )
    return (
        *_phantom_step(case),
        Step(
            key="level",
            title="Turn the input down",
            do=("Turn the level of the input, and of the speakers behind it, all the way down.",),
        ),
        Step(
            key="leads",
            title="Join left to left and right to right",
            do=tuple(do),
            see="A quiet sound on the left only ('Is left really left?' makes one) is heard on the left alone.",
            otherwise="Thin, with voices gone: a stereo plug sits in one balanced input. Take a plug for each channel.",
        ),
    )


def _lead_notes(output: End, input_: End) -> tuple[Note, ...]:
    notes = []
    if output.balanced != input_.balanced:
        notes.append(
            Note(
                "Nothing to rewire, nothing shorted",
                "A balanced input takes an unbalanced output if its cold contact is grounded at the output's end. A "
                "balanced output feeds an unbalanced input through hot and ground alone. Which is right for its cold "
                "contact depends on how the output is made: most leave it open, some, with a transformer or a "
                "circuit that imitates one, want it grounded.",
            )
        )
        notes.append(
            Note(
                "Levels",
                "Professional line outputs give about 1.2 V where consumer inputs expect 0.3 V, some 12 dB more; the "
                "other way round it is as much less. Set the levels after plugging in, from nothing upwards.",
            )
        )
    if output.stereo and input_.balanced:
        notes.append(
            Note(
                "Not one stereo plug into one balanced input",
                "Such adapters are sold. The input takes hot less cold, so left minus right: voices vanish.",
            )
        )
    return tuple(notes)


def _phantom_step(case: Case) -> tuple[Step, ...]:
    if not _may_supply(case, ()):
        return ()
    return (
        Step(
            key="phantom",
            title="Phantom power off",
            do=("Switch phantom power off at the input, wait half a minute, and only then plug anything in.",),
            why="48 V on a plug that is just going in can damage what is plugged in, and the bang hurts ears.",
            otherwise="A microphone that needs it gets it back at the end, once everything is plugged in.",
        ),
    )


def _may_supply(case: Case, adapters: tuple[Adapter, ...]) -> bool:
    """Whether a microphone input that may feed phantom power is in the way."""
    if any((adapter.socket == "xlr-3" and adapter.active) or adapter.plug == "xlr-3" for adapter in adapters):
        return case.device in _SENDS
    if case.device in _SENDS:
        return case.socket == "xlr-3" or (case.input_ == BALANCED and is_balanced(case.socket, BALANCED))
    return case.device in ("line", "headset") and "xlr-3" in (case.plug, case.socket)


def _cautions(case: Case, adapters: tuple[Adapter, ...]) -> tuple[Caution, ...]:
    return (
        *((PHANTOM_OFF,) if _may_supply(case, adapters) else ()),
        *((VOLUME,) if case.device != "microphone" else ()),
        LEVER,
    )


def _by_chain(case: Case) -> Answer:
    """The answer by trying every chain of adapters, wire by wire."""
    device, plug, socket = case.device, case.plug, case.socket
    pinout = USUAL if case.pinout == UNKNOWN else case.pinout
    found = list(chains(device, plug, socket, pinout, case.wiring))
    chosen = best(found, device)
    wanted = WANTED[device]
    works = chosen.outcome.works if chosen else frozenset()
    harmful = [c for c in found if c.outcome.harm and len(c.adapters) <= 1]
    harms = sorted({c.outcome.harm for c in harmful})
    shown = chosen or (harmful[0] if harmful else None)  # where nothing is safe, the harm is shown contact by contact
    verdict, headline = _verdict(case, chosen, found)
    return Answer(
        headline=headline,
        verdict=verdict,
        figures=(
            figure("adapters", "Adapters", len(chosen.adapters) if chosen else 0, main=True),
            *(
                _works(name, name in works and name in wanted, main=name in wanted, weakly=verdict.says == _WEAKLY)
                for name in _SIDES
            ),
        ),
        tables=(_table(shown, socket, safe=bool(chosen)),) if shown else (),
        drawings=(_drawing(device, plug, shown, start(device, plug, pinout, case.wiring), safe=bool(chosen)),),
        steps=(*_phantom_step(case), *_steps(chosen, socket, device)) if chosen else (),
        steps_title="What goes into what",
        notes=_notes(case, chosen, pinout),
        cautions=(*(HARM[h] for h in harms), *_cautions(case, chosen.adapters if chosen else ())),
        sources=SOURCES,
    )


_SIDES = ("left", "right", "microphone")


_WEAKLY = "It fits, but weakly."


def _works(name: str, does: bool, main: bool, weakly: bool = False) -> Figure:
    """1 or 0 for machines, whether the contacts carry it; yes, weakly or no for people."""
    said_ = ("weakly" if weakly else "yes") if does else "no"
    return Figure(name, f"{name.capitalize()} works", int(does), "", said_, main)


def _not_made(device: str, plug: str) -> Answer:
    reason = NOT_MADE[device, plug]
    return Answer(
        headline=f"Look again at the plug: {reason}.",
        verdict=Verdict(
            NO, "No such device comes with this plug, so there is nothing safe to adapt.", "Look again at the plug."
        ),
        figures=(
            figure("adapters", "Adapters", 0, main=True),
            *(_works(name, False, main=False) for name in _SIDES),
        ),
        notes=(_sizes(),),
        cautions=(VOLUME, LEVER),
        sources=SOURCES,
    )


_WAYS = ("It plugs straight in", "One adapter will do", "Two adapters in a row will do", "It takes three adapters")
_FITS = ("It goes in", "One adapter makes it fit", "Two adapters make it fit", "Three adapters make it fit")


def _verdict(case: Case, chosen: Chain | None, found: list[Chain]) -> tuple[Verdict, str]:
    device, socket = case.device, case.socket
    wanted = WANTED[device]
    if chosen is None:
        return _refusal(case, found)
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
        return Verdict(DEPENDS, reason, _WEAKLY), f"{_FITS[count]}, but {but}."
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


def _refusal(case: Case, found: list[Chain]) -> tuple[Verdict, str]:
    """Why there is no safe way."""
    plug, socket = case.plug, case.socket
    harms = {c.outcome.harm for c in found}
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
    if device != "microphone" or chosen.active or socket in ("xlr-3", "usb"):
        return None
    size = CONNECTORS[plug].size_mm
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
    found = list(chains(case.device, case.plug, case.socket, OTHER, case.wiring))
    other = best(found, case.device)
    return other is None or other.adapters != chosen.adapters or other.outcome.works != chosen.outcome.works


def _shorted(outcome: Outcome) -> str:
    pairs = [f"{SAID[a]} and {SAID[b]}" for a, b in outcome.shorts]
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
        if "H" in carried or (device in _LINE and not carried & {"R", "R+", "D"}):
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
        return (
            "the ground contact is lost: what is left sounds thin, with voices gone"
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


def _notes(case: Case, chosen: Chain | None, pinout: str) -> tuple[Note, ...]:
    device, plug, socket, wiring = case.device, case.plug, case.socket, case.wiring
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
    if socket in ("4.4-5", "xlr-4") and case.told == SINGLE_ENDED:
        notes.append(
            Note(
                "This socket is balanced",
                "By its kind this socket is balanced, so it is treated as balanced whatever was chosen.",
            )
        )
    if case.told == BALANCED and not is_balanced(socket, case.told):
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


_SHORT_DEVICES = {"line": "line equipment", "source": "line equipment that sends", "speakers": "powered speakers"}


def _worked_for(given: Values) -> str:
    plug, socket = (CONNECTORS[given[key]].label.replace(", ", " with ", 1) for key in ("plug", "socket"))
    device = _SHORT_DEVICES.get(given["device"], given["device"])
    ends = [
        f"{word} {'balanced' if given[key] == BALANCED else 'not known'}"
        for key, word in (("output", "output"), ("input", "input"))
        if given[key] != SINGLE_ENDED
    ]
    return f"{device} on {plug}, socket {socket}{', ' if ends else ''}{', '.join(ends)}"


calculator = Calculator(
    name="audio.plugs",
    title="Which adapter do I need, and what works then?",
    summary="From the plug one has to the socket one has: the shortest safe chain of adapters, contact by contact.",
    inputs=(
        Choice(
            key="device",
            label="What you want to connect",
            where_title=HOW_TO_TELL,
            where="Your choice. A headset is headphones with a microphone on the same plug or pair of plugs.",
            names=("device", "connect", "plug in"),
            options=_DEVICE_OPTIONS,
            default="headphones",
        ),
        Choice(
            key="plug",
            label="Its plug",
            where_title=HOW_TO_TELL,
            where=(
                "Count the black rings on the metal: one ring means 2 poles, two mean 3, three mean 4. The thick "
                "plug is 6.35 mm, the common thin one 3.5 mm, the needle 2.5 mm. Of speakers and line equipment, the "
                "connector at the back."
            ),
            names=("plug", "jack", "connector", "cable", "lead"),
            options=_CONNECTOR_OPTIONS,
            default="6.35-3",
        ),
        Choice(
            key="socket",
            label="The socket you have",
            where_title=HOW_TO_TELL,
            where=(
                "By size and by the picture beside it: headphones alone mean 3 poles, headphones with a microphone "
                "in one picture mean 4. Two sockets side by side, one for each, are the pair."
            ),
            names=("socket", "port", "hole", "computer's socket", "jack"),
            options=_CONNECTOR_OPTIONS,
            default="3.5-3",
        ),
        Choice(
            key="output",
            label="The output, where the sound comes from, is",
            where=(
                "Computers and laptops are unbalanced. 'Balanced' or 'bal' is printed beside the socket of some "
                "amplifiers, players and audio interfaces; XLR and 4.4 mm always are."
            ),
            names=("output", "balanced output", "unbalanced output"),
            options=_WIRING_OPTIONS,
            default=SINGLE_ENDED,
        ),
        Choice(
            key="input",
            label="The input, where the sound goes, is",
            where=(
                "Matters for line equipment, powered speakers and microphones. Studio speakers, mixers and audio "
                "interfaces print 'balanced' or 'bal' beside the socket; XLR always is."
            ),
            names=("input", "balanced input", "unbalanced input"),
            options=_WIRING_OPTIONS,
            default=SINGLE_ENDED,
        ),
        Choice(
            key="sockets",
            label="Free balanced inputs",
            where_title=HOW_TO_TELL,
            where="By looking: stereo takes two balanced inputs, one for each channel. Left empty, there are two.",
            extra=True,
            optional=True,
            options=(Option("two", "two, or a pair"), Option("one", "one only")),
        ),
        Choice(
            key="pinout",
            label="A 4-pole plug's order, from the tip",
            names=("order of contacts", "pinout", "ctia", "omtp"),
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
    version=2,
    worked_for=_worked_for,
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
            {"device": "headphones", "plug": "3.5-3", "socket": "4.4-5", "output": "balanced"},
        ),
        Preset(
            "studio-microphone",
            "XLR microphone, 3.5 mm",
            {"device": "microphone", "plug": "xlr-3", "socket": "3.5-pair"},
        ),
        Preset(
            "studio-speakers",
            "Computer to balanced speakers",
            {"device": "speakers", "plug": "xlr-3", "socket": "3.5-3", "output": "single-ended", "input": "balanced"},
        ),
    ),
)
