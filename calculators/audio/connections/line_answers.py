"""Answers for lines: leads from an output to an input where a connector carries one channel, and what never works."""

from __future__ import annotations

from calculators.audio.connections.adapter_chains import WANTED
from calculators.audio.connections.connection_case import Case
from calculators.audio.connections.connectors import CONNECTORS
from calculators.audio.connections.contact_wiring import WIRE_NAMES
from calculators.audio.connections.line_leads import End, Lead, plug_wires
from calculators.audio.connections.plug_drawing import draw
from calculators.audio.connections.plug_words import SIDES, SOURCES, cautions, phantom_step, side_figure, sizes
from calculators.desk.answer import DEPENDS, NO, YES, Answer, Column, Note, Step, Table, Verdict, figure


def subtracts(case: Case, output: End, input_: End) -> bool:
    """Whether a stereo plug would sit in one balanced input: its own plug fits there, or there is one input only."""
    if not (output.stereo and input_.balanced):
        return False
    own_plug = case.device == "source" and CONNECTORS[output.connector].phone and CONNECTORS[input_.connector].phone
    return own_plug or case.one


def left_minus_right(case: Case, output: End, input_: End) -> Answer:
    """The answer where one balanced input would take the difference of two channels."""
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
            *(side_figure(name, False, main=name in WANTED[case.device]) for name in SIDES),
        ),
        tables=(
            Table(
                "What the balanced input would make of it",
                (Column("Contact of the input"), Column("It takes"), Column("Of your stereo it meets")),
                ((hot, WIRE_NAMES["H"], WIRE_NAMES["L"]), (cold, WIRE_NAMES["C"], WIRE_NAMES["R"])),
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
            sizes(),
        ),
        cautions=cautions(case, ()),
        sources=SOURCES,
    )


def by_leads(case: Case, output: End, input_: End, lead: Lead) -> Answer:
    """The answer where every channel has a lead of its own, from one socket to the other."""
    kind = "balanced leads" if output.balanced and input_.balanced else "leads"
    if lead.count == 2:
        way = f"An ordinary pair of {kind} will do"
    else:
        way = "An ordinary lead with one plug for each channel will do"
    end = f", with {cold_contact(output)} open or grounded, by the output's manual" if lead.open_cold else ""
    return Answer(
        headline=f"{way}{end}: left and right work.",
        verdict=_lead_verdict(output, input_, lead),
        figures=(
            figure("adapters", "Leads", lead.count, main=True),
            *(side_figure(name, name in WANTED[case.device], main=name in WANTED[case.device]) for name in SIDES),
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
        notes=(*_lead_notes(output, input_), sizes()),
        cautions=cautions(case, ()),
        sources=SOURCES,
    )


def cold_contact(output: End) -> str:
    """The contact of a balanced output that an unbalanced input has no use for, as one says it."""
    cold = output.channel("left")["cold"]
    return cold if cold.startswith("pin") else f"the {cold}"


def _lead_plug(word: str, end: End, other: End) -> tuple[str, str, tuple[frozenset[str], ...]]:
    """A lead's plug for the drawing."""
    return f"At the {word}: {CONNECTORS[end.connector].label}", end.connector, plug_wires(end, other)


def _lead_verdict(output: End, input_: End, lead: Lead) -> Verdict:
    if lead.open_cold:
        return Verdict(
            DEPENDS,
            f"The output's manual says whether {cold_contact(output)} stays open or goes to ground.",
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
        do.append(
            f"See in the output's manual what becomes of {cold_contact(output)}: left open, or joined to ground. If it "
            "does not say, leave it open."
        )
    return (
        *phantom_step(case),
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
