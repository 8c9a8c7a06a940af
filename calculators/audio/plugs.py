"""audio.plugs: from the plug one has to the socket one has, over the shortest safe chain of adapters."""

from __future__ import annotations

from dataclasses import replace

from calculators.audio.connections.chain_answers import by_chain
from calculators.audio.connections.connection_case import LINE, SENDS, Case
from calculators.audio.connections.connectors import CONNECTORS
from calculators.audio.connections.contact_wiring import BALANCED, NOT_MADE, OTHER, SINGLE_ENDED, UNKNOWN, USUAL
from calculators.audio.connections.line_answers import by_leads, left_minus_right, subtracts
from calculators.audio.connections.line_leads import lead_between
from calculators.audio.connections.plug_words import LEVER, SIDES, SOURCES, VOLUME, side_figure, sizes
from calculators.desk.answer import DEPENDS, NO, Answer, Verdict, figure
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.inputs import HOW_TO_TELL, UNSURE, Choice, Option, Values

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
    "headset": (
        "headset",
        "headsets",
        "gaming headset",
        "phone headset",
        "headphones with mic",
        "earphones with mic",
        "earphones with microphone",
        "earbuds with mic",
        "headphones with microphone",
    ),
    "microphone": ("mic", "mike", "condenser", "dynamic mic"),
    "speakers": ("speaker", "monitors", "studio monitors", "active speakers"),
    "line": ("mixer", "recorder", "amplifier", "receiver", "hifi", "stereo"),
    "source": (
        "player",
        "turntable",
        "synthesizer",
        "keyboard",
        "guitar",
        "from the mixer",
        "mixer out",
        "mixer outs",
        "mixer output",
        "out of the mixer",
        "from a mixer",
        "from my mixer",
    ),
}
_CONNECTOR_NAMES: dict[str, tuple[str, ...]] = {
    "2.5-3": ("2.5 mm", "2.5mm"),
    "2.5-4": ("2.5 mm balanced", "2.5mm balanced"),
    "3.5-2": ("3.5 mm mono", "mono mini jack"),
    "3.5-3": (
        "3.5 mm",
        "3.5mm",
        "3.5",
        "3-pin",
        "3 pin",
        "two rings",
        "2 rings",
        "trs",
        "small hole",
        "small plug",
        "3 pole",
        "1/8 inch",
        "eighth inch",
        "mini jack",
        "minijack",
        "aux",
        "headphone jack",
    ),
    "3.5-4": (
        "3.5 mm trrs",
        "combined 3.5",
        "combined socket",
        "combined hole",
        "combo hole",
        "combined headset hole",
        "small combined hole",
        "combined jack",
        "combo socket",
        "combined audio jack",
        "three rings",
        "3 rings",
        "4-pin",
        "4 pin",
        "4 pole",
        "four poles",
        "4 poles",
        "four pole",
        "one plug for both",
        "one plug",
        "one 3.5",
        "single 3.5",
        "single plug",
        "four-pole",
        "four-pole plug",
        "4-pole",
        "4-pole plug",
        "4 contacts",
        "four contacts",
        "microphone on the same plug",
        "trrs",
        "combo jack",
        "headset jack",
        "headset socket",
        "phone plug",
    ),
    "6.35-2": ("guitar plug", "mono jack", "6.35 mm mono"),
    "6.35-3": (
        "6.35",
        "6.3",
        "big plug",
        "thick plug",
        "fat plug",
        "large plug",
        "thick jack",
        "6.35 mm",
        "6.35mm",
        "6.3 mm",
        "6.3mm",
        "1/4 inch",
        '1/4"',
        "quarter inch",
        "big jack",
        "large jack",
    ),
    "4.4-5": ("4.4 mm", "4.4mm", "balanced headphone plug"),
    "3.5-pair": (
        "separate mic and headphone",
        "seperate mic and headphone",
        "mic and headphone jacks",
        "green and pink",
        "two sockets",
        "two holes",
        "two plugs",
        "two jacks",
        "pink and green",
        "pink socket",
        "pink hole",
        "pink jack",
        "wants two",
        "separate sockets",
        "separate holes",
        "separate jacks",
        "one for the mic",
        "one for mic",
        "headphone and mic jacks",
    ),
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


def compute(given: Values) -> Answer:
    """The chain, what works over it, and what does not and why."""
    device, plug, socket = given["device"], given["plug"], given["socket"]
    if (device, plug) in NOT_MADE:
        return _not_made(device, plug)
    one = given.get("sockets") == "one"
    ends = _ends(given)
    usual, *others = (
        _solve(Case(device, plug, socket, output, input_, given["pinout"], one))
        for output in _possible(ends["output"])
        for input_ in _possible(ends["input"])
    )
    if all((other.headline, other.verdict) == (usual.headline, usual.verdict) for other in others):
        return usual
    return replace(usual, verdict=_LOOK_BESIDE)


def _ends(given: Values) -> dict[str, str]:
    """How output and input are wired: as told, else as was said of the socket, which is one of them."""
    ends = {key: given[key] for key in ("output", "input")}
    side = "input" if given["device"] in SENDS else "output"
    if side in given.assumed and given.get("wiring") is not None:
        ends[side] = given["wiring"]
    return ends


def _possible(wiring: str) -> tuple[str, ...]:
    """How an end may be wired: as told; where that is not sure, both ways, the usual one first."""
    return (SINGLE_ENDED, BALANCED) if wiring == UNSURE else (wiring,)


_LOOK_BESIDE = Verdict(
    DEPENDS,
    "This holds for an unbalanced one; 'balanced' or 'bal' beside the socket changes it.",
    "Look beside the socket first.",
)


def _solve(case: Case) -> Answer:
    """The answer to a case with nothing left open."""
    if case.device in LINE:
        output, input_ = case.ends
        if subtracts(case, output, input_):
            return left_minus_right(case, output, input_)
        lead = lead_between(output, input_)
        if lead:
            return by_leads(case, output, input_, lead)
    return by_chain(case)


def _not_made(device: str, plug: str) -> Answer:
    reason = NOT_MADE[device, plug]
    return Answer(
        headline=f"Look again at the plug: {reason}.",
        verdict=Verdict(
            NO, "No such device comes with this plug, so there is nothing safe to adapt.", "Look again at the plug."
        ),
        figures=(
            figure("adapters", "Adapters", 0, main=True),
            *(side_figure(name, False, main=False) for name in SIDES),
        ),
        notes=(sizes(),),
        cautions=(VOLUME, LEVER),
        sources=SOURCES,
    )


_SHORT_DEVICES = {"line": "line equipment", "source": "line equipment that sends", "speakers": "powered speakers"}


def _worked_for(given: Values) -> str:
    plug, socket = (CONNECTORS[given[key]].label.replace(", ", " with ", 1) for key in ("plug", "socket"))
    device = _SHORT_DEVICES.get(given["device"], given["device"])
    ends = [
        f"{word} {'balanced' if wired == BALANCED else 'not known'}"
        for word, wired in _ends(given).items()
        if wired != SINGLE_ENDED
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
            names=(
                "plug",
                "connector",
                "cable",
                "lead",
                "headphones",
                "headset",
                "earphones",
                "microphone",
                "speakers",
            ),
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
            names=(
                "socket",
                "port",
                "hole",
                "holes",
                "computer's socket",
                "laptop",
                "pc",
                "notebook",
                "amplifier",
                "amp",
                "phone",
                "mixer",
            ),
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
            key="wiring",
            label="The socket itself",
            where=(
                "Another way to say it, which older links use: the socket is the output, or for a microphone and for "
                "equipment that gives sound the input. What you choose for output or input counts before this."
            ),
            extra=True,
            optional=True,
            options=tuple(option for option in _WIRING_OPTIONS if option.value != UNSURE),
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
    version=3,
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
