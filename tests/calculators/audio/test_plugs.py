"""
audio.plugs: known cases, and every case against a second, separate account of what is wired to what.

The second account knows nothing of wires' names on the way: it joins conductors into groups, as a continuity
tester would, and looks at the groups.
"""

import tomllib
from functools import cache
from itertools import product
from pathlib import Path

import pytest

from calculators.audio.connections import adapter_chains as search
from calculators.audio.connections.adapter_catalogue import ADAPTERS
from calculators.audio.connections.connectors import CONNECTORS, fits
from calculators.audio.connections.contact_wiring import (
    BALANCED,
    NOT_MADE,
    OTHER,
    SINGLE_ENDED,
    USUAL,
    device_wires,
    is_balanced,
    socket_roles,
)
from calculators.audio.connections.line_leads import End, lead_between, plug_wires
from calculators.catalogue import find
from calculators.desk.errors import InputErrors

PLUGS = find("audio.plugs")
DEVICES = ("headphones", "headset", "microphone", "speakers", "line")


def run(**inputs):
    return PLUGS.run(inputs).answer


def figures(**inputs):
    return {f.key: f.value for f in run(**inputs).figures}


HEADPHONES, HEADSET, MICROPHONE = {"device": "headphones"}, {"device": "headset"}, {"device": "microphone"}


@pytest.mark.parametrize(
    ("inputs", "word", "adapters", "left", "right", "microphone"),
    [
        # the question itself, both ways round
        ({**HEADPHONES, "plug": "6.35-3", "socket": "3.5-3"}, "yes", 1, 1, 1, 0),
        ({**HEADPHONES, "plug": "3.5-3", "socket": "6.35-3"}, "yes", 1, 1, 1, 0),
        ({**HEADPHONES, "plug": "3.5-3", "socket": "3.5-3"}, "yes", 0, 1, 1, 0),
        ({**HEADPHONES, "plug": "2.5-3", "socket": "6.35-3"}, "yes", 2, 1, 1, 0),
        # headsets
        ({**HEADSET, "plug": "3.5-4", "socket": "3.5-4"}, "yes", 0, 1, 1, 1),
        ({**HEADSET, "plug": "3.5-4", "socket": "3.5-pair"}, "yes", 1, 1, 1, 1),
        ({**HEADSET, "plug": "3.5-pair", "socket": "3.5-4"}, "yes", 1, 1, 1, 1),
        ({**HEADSET, "plug": "3.5-4", "socket": "3.5-3"}, "depends", 0, 1, 1, 0),
        ({**HEADSET, "plug": "3.5-4", "socket": "3.5-3", "pinout": OTHER}, "depends", 1, 1, 1, 0),
        ({**HEADSET, "plug": "3.5-4", "socket": "3.5-4", "pinout": OTHER}, "yes", 1, 1, 1, 1),
        ({**HEADSET, "plug": "3.5-4", "socket": "3.5-pair", "pinout": OTHER}, "yes", 2, 1, 1, 1),
        ({**HEADSET, "plug": "3.5-4", "socket": "3.5-pair", "pinout": "unknown"}, "depends", 1, 1, 1, 1),
        ({**HEADSET, "plug": "3.5-4", "socket": "usb"}, "yes", 1, 1, 1, 1),
        ({**HEADSET, "plug": "usb", "socket": "usb"}, "yes", 0, 1, 1, 1),
        # two poles
        ({**HEADPHONES, "plug": "3.5-2", "socket": "3.5-3"}, "depends", 1, 1, 0, 0),
        ({**HEADPHONES, "plug": "3.5-3", "socket": "3.5-2"}, "depends", 0, 1, 0, 0),
        # an analogue adapter never makes a USB device, and a USB device never an analogue one
        ({**HEADSET, "plug": "usb", "socket": "3.5-4"}, "no", 0, 0, 0, 0),
        ({**HEADPHONES, "plug": "usb", "socket": "3.5-3"}, "no", 0, 0, 0, 0),
        # harm
        ({**HEADPHONES, "plug": "3.5-3", "socket": "4.4-5", "output": BALANCED}, "no", 0, 0, 0, 0),
        ({**HEADPHONES, "plug": "6.35-3", "socket": "xlr-4", "output": BALANCED}, "no", 0, 0, 0, 0),
        ({**HEADPHONES, "plug": "2.5-3", "socket": "2.5-4", "output": BALANCED}, "no", 0, 0, 0, 0),
        ({**HEADPHONES, "plug": "6.35-3", "socket": "6.35-3", "output": BALANCED}, "no", 0, 0, 0, 0),
        # the other direction is safe
        ({**HEADPHONES, "plug": "4.4-5", "socket": "6.35-3"}, "yes", 1, 1, 1, 0),
        ({**HEADPHONES, "plug": "4.4-5", "socket": "xlr-4", "output": BALANCED}, "yes", 1, 1, 1, 0),
        # microphones
        ({**MICROPHONE, "plug": "3.5-3", "socket": "3.5-4"}, "yes", 1, 0, 0, 1),
        ({**MICROPHONE, "plug": "xlr-3", "socket": "xlr-3"}, "yes", 0, 0, 0, 1),
        ({**MICROPHONE, "plug": "xlr-3", "socket": "3.5-pair"}, "depends", 1, 0, 0, 1),
        ({**MICROPHONE, "plug": "3.5-3", "socket": "xlr-3"}, "yes", 1, 0, 0, 1),
        # line level
        ({"device": "speakers", "plug": "rca-pair", "socket": "3.5-3"}, "yes", 1, 1, 1, 0),
        ({"device": "line", "plug": "3.5-3", "socket": "usb"}, "yes", 2, 1, 1, 0),
        ({**HEADPHONES, "plug": "3.5-3", "socket": "rca-pair"}, "depends", 1, 1, 1, 0),
        ({**HEADPHONES, "plug": "xlr-3", "socket": "3.5-3"}, "no", 0, 0, 0, 0),
    ],
)  # fmt: skip
def test_known_cases(inputs, word, adapters, left, right, microphone):
    answer = run(**inputs)
    ours = {f.key: f.value for f in answer.figures}
    assert (answer.verdict.word, ours) == (
        word, {"adapters": adapters, "left": left, "right": right, "microphone": microphone},
    )  # fmt: skip


@pytest.mark.parametrize(
    ("inputs", "says"),
    [
        ({**HEADPHONES, "plug": "3.5-2", "socket": "3.5-3"}, "shorts right and ground"),
        ({**HEADPHONES, "plug": "3.5-4", "socket": "3.5-3", "pinout": OTHER}, "thin, with voices gone"),
        ({**HEADSET, "plug": "3.5-4", "socket": "3.5-3"}, "no contact for a microphone"),
        ({**HEADPHONES, "plug": "3.5-3", "socket": "4.4-5"}, "shorts the amplifier"),
        ({**MICROPHONE, "plug": "3.5-3", "socket": "xlr-3"}, "48 V phantom power"),
        ({**HEADPHONES, "plug": "3.5-3", "socket": "usb"}, "USB"),
        ({"device": "speakers", "plug": "usb", "socket": "3.5-3"}, "USB device needs a USB socket"),
    ],
)
def test_the_words_say_why(inputs, says):
    answer = run(**inputs)
    words = [
        answer.headline,
        answer.verdict.reason,
        *(n.text for n in answer.notes),
        *(c.text for c in answer.cautions),
    ]
    assert any(says in text for text in words), words


def test_harm_is_told_before_everything_else():
    first = [c for c in run(device="headphones", plug="3.5-3", socket="4.4-5").cautions if c.first]
    assert first[0].risk == "machine"
    assert "shorts the amplifier" in first[0].text


def test_a_stack_of_adapters_is_warned_of():
    assert any("lever" in c.text for c in run().cautions)


@pytest.mark.parametrize(("key", "value"), [("plug", "3.5"), ("socket", "lightning"), ("device", "")])
def test_wrong_choices_are_said_at_the_input(key, value):
    with pytest.raises(InputErrors) as wrong:
        run(**{key: value})
    assert [p.input for p in wrong.value.problems] == [key]


# --- the second account -------------------------------------------------------------------------------------------


class Groups:
    """Conductors joined into groups, as a continuity tester finds them."""

    def __init__(self):
        self.parent = {}

    def root(self, a):
        self.parent.setdefault(a, a)
        while self.parent[a] != a:
            a = self.parent[a]
        return a

    def join(self, a, b):
        self.parent[self.root(a)] = self.root(b)


def continuity(device, plug, socket, pinout, wiring, adapters, ways):
    """Groups of conductors from the device's wires to the socket's contacts; None where a plug does not fit."""
    groups = Groups()
    for i, wire in enumerate(device_wires(device, plug, pinout, wiring)):
        groups.root(("plug", 0, i))
        if wire:
            groups.join(("wire", wire), ("plug", 0, i))
    at = plug
    for n, adapter in enumerate(adapters):
        options = fits(CONNECTORS[at], CONNECTORS[adapter.socket])
        if len(options) <= ways[n]:
            return None
        for contact, touched in enumerate(options[ways[n]].touches):
            if touched is not None:
                groups.join(("socket", n, contact), ("plug", n, touched))
        for contact, inner in enumerate(adapter.joins):
            for one in inner:
                groups.join(("plug", n + 1, contact), ("socket", n, one))
        at = adapter.plug
    options = fits(CONNECTORS[at], CONNECTORS[socket])
    if len(options) <= ways[-1]:
        return None
    for contact, touched in enumerate(options[ways[-1]].touches):
        if touched is not None:
            groups.join(("out", contact), ("plug", len(adapters), touched))
    return groups


def hurts(groups, device, socket, wiring):
    """Whether balanced contacts are joined to one another or to ground, or phantom power reaches an electret."""
    roles = socket_roles(device, socket, wiring)
    if not is_balanced(socket, wiring):
        return False
    supplied = [i for i, role in enumerate(roles) if role in ("H", "C")]
    if device in ("microphone", "headset"):
        return any(groups.root(("out", i)) == groups.root(("wire", "M")) for i in supplied)
    joined = [
        (a, b)
        for a, b in product(range(len(roles)), repeat=2)
        if a < b and roles[a] != roles[b] and groups.root(("out", a)) == groups.root(("out", b))
    ]
    driven = [i for i, role in enumerate(roles) if role[-1:] in ("+", "-")]
    return bool(joined) or any(groups.root(("out", i)) == groups.root(("wire", "G")) for i in driven)


ALL_CASES = [
    (device, plug, socket, pinout, wiring)
    for device, plug, socket in product(DEVICES, CONNECTORS, CONNECTORS)
    for pinout in (USUAL, OTHER)
    for wiring in (SINGLE_ENDED, BALANCED)
    if (device, plug) not in NOT_MADE and (pinout == USUAL or plug.endswith("-4"))
]


@cache
def chosen_for(device, plug, socket, pinout, wiring):
    return search.best(list(search.chains(device, plug, socket, pinout, wiring)), device)


@pytest.mark.once
@pytest.mark.parametrize("device", DEVICES)
def test_no_chosen_chain_does_harm_by_the_second_account(device):
    looked_at = 0
    for case in (c for c in ALL_CASES if c[0] == device):
        _, plug, socket, pinout, wiring = case
        chosen = chosen_for(*case)
        if chosen is None or chosen.active:
            continue
        looked_at += 1
        for ways in product((0, 1), repeat=len(chosen.adapters) + 1):
            groups = continuity(device, plug, socket, pinout, wiring, chosen.adapters, ways)
            if groups is not None and _said(device, plug, socket, chosen.adapters, ways) == chosen.hows:
                assert not hurts(groups, device, socket, wiring), case
                break
        else:
            pytest.fail(f"the chain of {case} does not fit together")
    assert looked_at > 40


def _said(device, plug, socket, adapters, ways):
    """How each plug goes in, as the chain tells it."""
    plugs, sockets = [plug, *(a.plug for a in adapters)], [*(a.socket for a in adapters), socket]
    return tuple(
        fits(CONNECTORS[p], CONNECTORS[s])[w].how for p, s, w in zip(plugs, sockets, ways, strict=True)
    )  # fmt: skip


WIRE_ONLY = [a for a in ADAPTERS if not a.active]


@pytest.mark.once
@pytest.mark.parametrize("device", DEVICES)
def test_no_single_adapter_does_more_than_the_chain_that_was_chosen(device):
    """Every single adapter tried by brute force, wire by wire, on every case: none safe works better."""
    tried = 0
    for case in (c for c in ALL_CASES if c[0] == device and c[4] == SINGLE_ENDED):
        _, plug, socket, pinout, wiring = case
        chosen = chosen_for(*case)
        worth = len(chosen.outcome.works & set(search.WANTED[device])) if chosen else 0
        for adapter in WIRE_ONLY:
            if adapter.for_devices and device not in adapter.for_devices:
                continue
            for ways in product((0, 1), repeat=2):
                groups = continuity(device, plug, socket, pinout, wiring, (adapter,), ways)
                if groups is None or hurts(groups, device, socket, wiring):
                    continue
                tried += 1
                count = _count(groups, device, socket, wiring)
                assert count <= worth, (case, adapter.name)
                if chosen is not None and count == worth and worth:
                    assert len(chosen.adapters) <= 1 or chosen.outcome.shorts == (), (case, adapter.name)
    assert tried > 40


def _count(groups, device, socket, wiring):
    """How many of left, right and microphone arrive by name, each with its return and joined to nothing else."""
    roles = socket_roles(device, socket, wiring)

    def group(role):
        return {groups.root(("out", i)) for i, r in enumerate(roles) if r == role}

    def wire(name):
        return groups.root(("wire", name))

    arrived = 0
    for side in ("L", "R"):
        own, plus, minus = wire(side), wire(f"{side}+"), wire(f"{side}-")
        single = group(side) == {own} and wire("G") in group("G") and own not in group("G")
        balanced = group(f"{side}+") == {plus} and minus in group(f"{side}-") and plus != minus
        arrived += single or balanced
    if "microphone" in search.WANTED[device] and "M" in roles:
        arrived += group("M") == {wire("M")} and wire("G") in group("G") and wire("M") not in group("G")
    return arrived


def test_a_harmful_adapter_is_on_the_list_and_refused():
    """The search must know what is sold and dangerous, so that it can say so."""
    found = list(search.chains("headphones", "3.5-3", "4.4-5", USUAL, BALANCED))
    assert any(c.outcome.harm == search.SHORTED_BALANCED and len(c.adapters) == 1 for c in found)
    assert search.best(found, "headphones") is None


def test_every_adapter_is_wired_to_contacts_that_exist():
    for adapter in ADAPTERS:
        plug, socket = CONNECTORS[adapter.plug], CONNECTORS[adapter.socket]
        if adapter.active:
            assert len(adapter.roles) == socket.poles
            assert len(adapter.gives) == plug.poles
        else:
            assert len(adapter.joins) == plug.poles
            assert all(0 <= i < socket.poles for inner in adapter.joins for i in inner)


# --- lines: output and input for themselves -------------------------------------------------------------------------

LEADS = tomllib.loads((Path(__file__).parents[2] / "check_values/line_leads.toml").read_text("utf-8"))
SPEAKERS, LINE, SOURCE = {"device": "speakers"}, {"device": "line"}, {"device": "source"}
UNBALANCED_STEREO = [End("3.5-3", False), End("6.35-3", False), End("rca-pair", False)]
BALANCED_INPUTS = [End("xlr-3", True), End("6.35-3", True)]


def all_words(answer):
    return " ".join(
        [answer.headline, answer.verdict.said(), answer.verdict.reason]
        + [n.text for n in answer.notes]
        + [line for step in answer.steps for line in (step.title, *step.do)]
        + [c.text for c in answer.cautions]
    )


def test_unbalanced_into_balanced_contact_by_contact_as_published():
    lead = lead_between(End("6.35-2", False), End("xlr-3", True))
    for side in ("left", "right"):
        assert [[out, into] for one, out, into in lead.joins if one == side] == LEADS["unbalanced_to_balanced"]


def test_balanced_into_unbalanced_contact_by_contact_as_published():
    lead = lead_between(End("xlr-3", True), End("6.35-2", False))
    assert lead.open_cold
    assert sorted([out, into] for one, out, into in lead.joins if one == "left") == sorted(
        LEADS["balanced_to_unbalanced"]
    )


@pytest.mark.parametrize("output", UNBALANCED_STEREO)
@pytest.mark.parametrize("input_", BALANCED_INPUTS)
def test_a_lead_joins_no_two_channels_and_leaves_no_contact_of_a_balanced_input_out(output, input_):
    lead = lead_between(output, input_)
    hot = {side: out for side, out, into in lead.joins if into in ("pin 2", "tip")}
    assert len(set(hot.values())) == 2
    named = " ".join(into for side, _, into in lead.joins if side == "left")
    assert all(name in named for name in CONNECTORS[input_.connector].contacts)
    assert all(plug_wires(input_, output)), "a contact of the balanced plug would float"


@pytest.mark.parametrize(
    ("inputs", "word", "leads"),
    [
        # a computer's stereo output, a pair of balanced speakers
        ({**SPEAKERS, "plug": "xlr-3", "socket": "3.5-3", "input": BALANCED}, "yes", 1),
        ({**SPEAKERS, "plug": "6.35-3", "socket": "3.5-3", "input": BALANCED}, "yes", 1),
        ({**SPEAKERS, "plug": "6.35-3", "socket": "rca-pair", "input": BALANCED}, "yes", 2),
        ({**SPEAKERS, "plug": "xlr-3", "socket": "3.5-pair"}, "yes", 1),
        # a player with RCA sockets, a mixer with XLR inputs
        ({**SOURCE, "plug": "rca-pair", "socket": "xlr-3"}, "yes", 2),
        ({**LINE, "plug": "xlr-3", "socket": "rca-pair"}, "yes", 2),
        # balanced to balanced
        ({**SPEAKERS, "plug": "xlr-3", "socket": "6.35-3", "output": BALANCED}, "yes", 2),
        ({**LINE, "plug": "xlr-3", "socket": "xlr-3"}, "yes", 2),
        # a balanced output into an unbalanced input: by the output's manual
        ({**SPEAKERS, "plug": "rca-pair", "socket": "xlr-3"}, "depends", 2),
        ({**SOURCE, "plug": "xlr-3", "socket": "3.5-3"}, "depends", 1),
        ({**LINE, "plug": "rca-pair", "socket": "6.35-3", "output": BALANCED}, "depends", 2),
        # two plain mono plugs
        ({**SPEAKERS, "plug": "6.35-2", "socket": "3.5-3"}, "yes", 1),
    ],
)
def test_leads_are_ordinary_and_nobody_is_sent_to_rewire(inputs, word, leads):
    answer = run(**inputs)
    ours = {f.key: f.value for f in answer.figures}
    assert (answer.verdict.word, ours["adapters"], ours["left"], ours["right"]) == (word, leads, 1, 1)
    said = all_words(answer).casefold()
    assert "have the headphones rewired" not in said
    assert "shorts" not in said
    assert "ordinary" in answer.headline
    if word == "depends":
        assert "output's manual" in answer.verdict.reason
        assert "open" in answer.verdict.reason
        assert "ground" in answer.verdict.reason


def test_a_stereo_plug_in_a_balanced_input_loses_voices():
    for inputs in (
        {**SOURCE, "plug": "6.35-3", "socket": "6.35-3", "input": BALANCED},
        {**SOURCE, "plug": "3.5-3", "socket": "6.35-3", "input": BALANCED},
        {**LINE, "plug": "xlr-3", "socket": "3.5-3", "sockets": "one"},
        {**SOURCE, "plug": "rca-pair", "socket": "xlr-3", "sockets": "one"},
    ):
        answer = run(**inputs)
        assert answer.verdict.word == "no"
        assert LEADS["stereo_into_balanced"] in answer.verdict.reason
        assert "voices" in answer.verdict.reason
        assert {f.value for f in answer.figures} == {0}


@pytest.mark.parametrize(
    "inputs",
    [
        {**MICROPHONE, "plug": "xlr-3", "socket": "xlr-3"},
        {**MICROPHONE, "plug": "3.5-3", "socket": "xlr-3"},
        {**MICROPHONE, "plug": "6.35-3", "socket": "6.35-3", "input": BALANCED},
        {**MICROPHONE, "plug": "xlr-3", "socket": "usb"},
        {**SOURCE, "plug": "rca-pair", "socket": "xlr-3"},
        {**LINE, "plug": "xlr-3", "socket": "3.5-3"},
    ],
)
def test_phantom_power_is_off_before_anything_is_plugged(inputs):
    answer = run(**inputs)
    first = [c.text for c in answer.cautions if c.first]
    assert any("phantom power off" in text for text in first)
    if "xlr-3" in (inputs["plug"], inputs["socket"]) and inputs["socket"] != "usb":
        assert answer.steps[0].key == "phantom"


def test_where_no_phantom_power_can_be_nobody_is_told_to_switch_it_off():
    assert "phantom power off" not in all_words(run())
    assert "phantom power off" not in all_words(run(**SPEAKERS, plug="xlr-3", socket="3.5-3"))


@pytest.mark.parametrize("socket", ["3.5-3", "3.5-4", "3.5-pair"])
@pytest.mark.parametrize(
    ("plug", "reason"),
    [("6.35-2", "made for a mixer"), ("6.35-3", "made for a mixer"), ("xlr-3", "no phantom power")],
)
def test_a_studio_microphone_in_a_computers_socket_gets_its_true_reason(plug, reason, socket):
    answer = run(**MICROPHONE, plug=plug, socket=socket)
    assert answer.verdict.word == "depends"
    assert reason in answer.verdict.reason
    assert "amplif" in answer.verdict.reason
    assert "interface" in answer.verdict.reason
    assert "too weak" in answer.headline
    assert "works." not in answer.headline


def test_what_is_not_known_of_an_end_is_told_where_it_matters_and_only_there():
    assert run(**HEADPHONES, plug="6.35-3", socket="6.35-3", output="unsure").verdict.said() == (
        "Look beside the socket first."
    )
    # XLR is balanced anyway, and a USB socket neither
    assert run(**SPEAKERS, plug="xlr-3", socket="rca-pair", output="unsure", input="unsure").verdict.word == "yes"
    assert run(**HEADPHONES, plug="usb", socket="usb", output="unsure").verdict.word == "yes"


def test_no_adapter_is_never_said_as_if_none_were_needed():
    for plug, socket in (("usb", "3.5-3"), ("3.5-3", "4.4-5")):
        assert run(**HEADPHONES, plug=plug, socket=socket).verdict.said() not in ("None.", "None: unsafe.")


def test_for_which_parts_it_was_worked_out():
    assert PLUGS.run({}).worked_for() == ("headphones on 6.35 mm with 3 poles (TRS), socket 3.5 mm with 3 poles (TRS)")
    assert PLUGS.run({**SPEAKERS, "plug": "xlr-3", "socket": "3.5-3", "input": BALANCED}).worked_for() == (
        "powered speakers on XLR with 3 pins, socket 3.5 mm with 3 poles (TRS), input balanced"
    )


@pytest.mark.parametrize(
    ("inputs", "named"),
    [
        ({}, "One adapter will do, a 3-pole adapter from a 6.35 mm socket to a 3.5 mm plug: left"),
        ({**HEADSET, "plug": "3.5-4", "socket": "3.5-pair"}, "One adapter will do, a headset splitter: left"),
        ({**HEADPHONES, "plug": "4.4-5", "socket": "6.35-3"}, "One adapter will do, an adapter from a balanced 4.4 mm"),
    ],
)
def test_the_headline_names_the_one_adapter(inputs, named):
    assert run(**inputs).headline.startswith(named)


def test_what_older_links_say_of_the_socket_is_the_wiring_of_its_side():
    """`wiring` was the only question once: the socket is the output, or the input of what gives sound."""
    for device, side in (("headphones", "output"), ("line", "output"), ("microphone", "input"), ("source", "input")):
        for plug, socket in (("3.5-3", "6.35-3"), ("6.35-3", "3.5-3"), ("3.5-3", "4.4-5"), ("6.35-3", "xlr-3")):
            for wiring in (SINGLE_ENDED, BALANCED):
                case = {"device": device, "plug": plug, "socket": socket}
                old, new = PLUGS.run({**case, "wiring": wiring}), PLUGS.run({**case, side: wiring})
                assert old.answer == new.answer, (case, wiring)
                assert old.worked_for() == new.worked_for()
                assert old.values.echo()["wiring"] == wiring


def test_what_is_said_of_output_or_input_counts_before_the_sockets_one_word():
    case = {"device": "headphones", "plug": "3.5-3", "socket": "6.35-3"}
    assert run(**case, output=SINGLE_ENDED, wiring=BALANCED) == run(**case)
    with pytest.raises(InputErrors):
        run(**case, wiring="unsure")


@pytest.mark.parametrize(
    ("output", "contact"), [("xlr-3", "pin 3 open or grounded"), ("6.35-3", "the ring open or grounded")]
)
def test_the_headline_says_which_contact_stays_open(output, contact):
    """'The cold pin' is a word that a viewer would ask back about."""
    answer = run(device="source", plug=output, socket="rca-pair", output="balanced")
    assert contact in answer.headline
    assert "cold pin" not in answer.headline
    assert len(answer.headline.split()) <= 25


@pytest.mark.parametrize(
    ("plug", "socket", "says"),
    [
        ("6.35-2", "xlr-3", "matching transformer"),  # a dynamic microphone wants no supply
        ("3.5-3", "6.35-3", "seldom carry phantom power"),  # so the converter is not fed
    ],
)
def test_a_phantom_converter_is_no_plain_yes_where_it_is_not_fed_or_feeds_what_wants_none(plug, socket, says):
    verdict = run(device="microphone", plug=plug, socket=socket, input="balanced").verdict
    assert verdict.word == "depends"
    assert says in verdict.reason
    assert run(device="microphone", plug="3.5-3", socket="xlr-3").verdict.word == "yes"
