"""display.adapter: which adapter between DisplayPort, USB-C, HDMI, DVI and VGA, and in which direction."""

from __future__ import annotations

from dataclasses import replace

from calculators.desk.answer import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    YES,
    Answer,
    Caution,
    Column,
    Note,
    Source,
    Step,
    Table,
    Verdict,
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.inputs import UNSURE, Choice, Option, Text, Values
from calculators.desk.numbers import number
from calculators.desk.svg import SMALL, WIDTH, Drawing, Sketch, wrap
from calculators.display.adapters.adapter_rules import KIND_WORDS, NAMES, Adapter, choose, eight_bits_only
from calculators.display.links.every_link import refuse_too_slow
from calculators.trade.links.link_rates import character_clock
from calculators.trade.modes.cta_861 import find_format
from calculators.trade.modes.mode_text import ModeText, read_mode, write_mode
from calculators.trade.modes.modes import BLANKING_WORDS, SOURCES, Mode, mode
from calculators.trade.modes.picture_inputs import DEPTH_NAMES, DEPTHS

_EVERYDAY: dict[str, tuple[str, ...]] = {
    "displayport": ("dp", "displayport", "display port", "mini displayport", "mini dp"),
    "usb-c": ("usb-c", "usb c", "usbc", "type c", "type-c", "typec", "usb4"),
    "hdmi": ("hdmi",),
    "dvi-single": ("dvi", "dvi-d", "dvi-i", "single-link dvi"),
    "dvi-dual": ("dual-link dvi", "dual link dvi"),
    "vga": ("vga", "d-sub", "analogue"),
}
_SOCKETS = (*(Option(key, name, _EVERYDAY[key]) for key, name in NAMES.items()), Option(UNSURE, "not sure"))

ALL_SOURCES = (
    Source("VESA DisplayPort Dual-Mode 1.1", "type 1 to 165 MHz, type 2 to 300 MHz", FROM_MEMORY),
    Source("VESA DisplayPort Alt Mode on USB-C", "", FROM_MEMORY),
    Source("HDMI 2.0 and 2.1", "TMDS to 600 MHz, fixed-rate link above", FROM_MEMORY),
    Source("DVI 1.0", "165 MHz a link, two links; 8 bits a channel", FROM_MEMORY),
    Source("Which adapters are on sale", "", COMMON_PRACTICE),
    SOURCES["cta"],
    SOURCES["cvt"],
)


def compute(given: Values) -> Answer:
    """The adapter for one direction and one mode."""
    source, display, wanted = given["from"], given["to"], given["mode"]
    depth = 8 if eight_bits_only(source, display) else int(given["depth"])
    made = _mode(wanted)
    refuse_too_slow(made, "mode")
    character = character_clock(made.clock, "rgb", depth).value / 1e6
    choice = _with_bits_reason(choose(source, display, character), int(given["depth"]), depth)
    names = f"{_name(source)} to {_name(display)}"
    return Answer(
        headline=_headline(source, display, wanted, choice),
        verdict=Verdict(choice.word, choice.reason, _says(choice)),
        figures=(
            figure("adapter", "What to use", choice.kind, main=True),
            figure("character_clock_mhz", "Clock the mode would ask of HDMI", character, "MHz", 2, main=True),
            figure("pixel_clock_mhz", "Pixel clock", made.clock_mhz, "MHz", 3),
        ),
        working=(
            Working("Pixel clock", BLANKING_WORDS[made.by], f"{made.h_total} × {made.v_total} with blanking",
                    f"{number(made.clock_mhz, 3)} MHz"),
            Working("Character clock", "pixel clock × bits ÷ 8", f"{number(made.clock_mhz, 3)} MHz × {depth} ÷ 8",
                    f"{number(character, 2)} MHz"),
        ),
        tables=(_table(source, display, character),),
        steps=_steps(names, choice),
        steps_title="Before you buy",
        drawings=(_drawing(source, display, choice),) if choice.kind in ("cable", "passive", "active") else (),
        notes=_notes(source, display, choice),
        cautions=(
            Caution(
                "machine",
                "Use an adapter with a plug on each end rather than a stack of two or three: leverage breaks sockets.",
                "Follow the maker's manual where it names the adapters it was tested with.",
                short="Stacked adapters can break sockets.",
                tag="Breaks sockets",
            ),
        ),
        sources=ALL_SOURCES,
    )  # fmt: skip


def _with_bits_reason(adapter: Adapter, wanted: int, depth: int) -> Adapter:
    """The adapter; where more bits are wanted than these sockets carry, the reason says so."""
    if wanted <= depth or adapter.word != YES:
        return adapter
    return replace(
        adapter, reason=f"It works with {depth} bits a channel, not the {wanted} chosen: DVI and VGA end there."
    )


def _name(socket: str) -> str:
    return NAMES.get(socket, "a socket not known")


def _mode(wanted: ModeText) -> Mode:
    listed = find_format(wanted.width, wanted.height, wanted.refresh)
    return mode(wanted.width, wanted.height, wanted.refresh, "cta" if listed else "cvt-rb")


def _named(socket: str) -> str:
    """A socket's name within a sentence."""
    return _SHORT_NAMES.get(socket, NAMES[socket])


_SHORT_NAMES = {"dvi-single": "single-link DVI", "dvi-dual": "dual-link DVI"}


def _capital(name: str) -> str:
    return f"{name[:1].upper()}{name[1:]}"


def _headline(source: str, display: str, wanted: ModeText, adapter: Adapter) -> str:
    size = f"{wanted.width}×{wanted.height} at {number(wanted.refresh, 3)} Hz"
    if adapter.kind == "unsure":
        return "Which adapter it takes depends on the shape of both sockets: look at them, then choose."
    if adapter.kind == "cable":
        return f"{_capital(_named(source))} to {_named(display)} at {size} takes {KIND_WORDS['cable']} and no adapter."
    if adapter.kind == "none":
        return f"{size} does not go from {_named(source)} to {_named(display)}, whatever the adapter."
    way = f"From {_named(source)} on the computer to {_named(display)} on the display"
    return f"{way}, {size} takes {KIND_WORDS[adapter.kind]}."


def _says(adapter: Adapter) -> str:
    """The words of the verdict: which kind of adapter to use."""
    if adapter.kind == "unsure":
        return "Look first."
    if adapter.kind == "none":
        return "No adapter does that."
    kind = KIND_WORDS[adapter.kind]
    return f"{kind[:1].upper()}{kind[1:]}."


def _table(source: str, display: str, character: float) -> Table:
    rows: list[tuple[str, ...]] = []
    marked: list[int] = []
    for first in NAMES:
        for second in NAMES:
            if UNSURE not in (source, display) and first != source and second != display:
                continue
            one = choose(first, second, character)
            if (first, second) == (source, display):
                marked.append(len(rows))
            rows.append((NAMES[first], NAMES[second], one.kind, one.word, one.power))
    return Table(
        title="From your socket and to your display, for this mode",
        columns=(Column("Computer"), Column("Display"), Column("What"), Column("Will it do"), Column("Power")),
        rows=tuple(rows),
        note=(
            "From left to right only: an adapter for one direction does not work in the other, but for the simple "
            "ones between HDMI and DVI."
        ),
        marked=tuple(marked),
    )


def _steps(names: str, adapter: Adapter) -> tuple[Step, ...]:
    if adapter.kind in ("none", "unsure"):
        return (Step(key="socket", title="Look at the sockets on both ends", do=(adapter.check,)),)
    return (
        Step(key="socket", title="Check the socket on the computer", do=(adapter.check,)),
        Step(key="box", title="Read the box", do=(f"It must say: {adapter.buy}.",),
             why="The direction and the mode are what cheap listings leave out."),
        Step(key="power", title="Mind the power", do=(f"Power: {adapter.power}.",)),
        Step(key="return", title="Keep the receipt", do=("Try your own mode on the first day, with sound and HDR.",),
             see="Your mode in the system's list, and a picture that does not drop out in an hour.",
             otherwise="Try a shorter cable, then a lower refresh; if that works, the adapter or cable is the limit."),
    )  # fmt: skip


def _drawing(source: str, display: str, adapter: Adapter) -> Drawing:
    sketch = Sketch(
        "From computer to display",
        f"A computer with a socket for {NAMES[source]}, {KIND_WORDS[adapter.kind]} in the middle, "
        "and a display with one "
        f"for {NAMES[display]}; the picture goes from left to right.",
        118,
    )
    boxes = ((2, "Computer", NAMES[source]), (236, "Display", NAMES[display]))
    for x, title, socket in boxes:
        sketch.rect(x, 20, 102, 58, fill="paper", line="ink", line_width=1.5, radius=4)
        sketch.text(x + 51, 44, title, anchor="middle")
        sketch.text(x + 51, 66, socket, anchor="middle", bold=True)
    sketch.line(104, 49, 228, 49, ink="ink", width=2)
    sketch.path([(228, 43), (236, 49), (228, 55)], ink="ink", width=2)
    if adapter.kind != "cable":
        sketch.rect(132, 33, 76, 32, fill="paper", line="ink", radius=4, dash="" if adapter.kind == "active" else "4 3")
    word = "adapter" if adapter.kind != "cable" else ""
    sketch.text(170, 27 if word else 43, adapter.kind, anchor="middle", bold=True)
    if word:
        sketch.text(170, 53, word, anchor="middle", size=SMALL)
    turned = "It works from left to right. Turned round, it does not."
    plain = "A plain cable: it does not matter which end goes where, unless one is marked for the display."
    for i, line in enumerate(wrap(plain if adapter.kind == "cable" else turned, WIDTH - 4, SMALL)):
        sketch.text(2, 98 + 15 * i, line, size=SMALL, ink="soft")
    return sketch.done()


def _notes(source: str, display: str, adapter: Adapter) -> tuple[Note, ...]:
    notes = [
        *([Note("Good to know", adapter.more)] if adapter.more else []),
        Note(
            "Passive and active",
            "A passive adapter only fits the plug and the voltage: the computer itself must make the other signal. An "
            "active one holds a converter chip that makes it anew.",
        ),
        Note(
            "What an active adapter may lose",
            "Variable refresh often, HDR and 10 bits sometimes, copy protection now and then. It reads the display's "
            "declaration and may pass on its own instead, so the list of modes can change.",
        ),
    ]
    if "usb-c" in (source, display):
        notes.append(
            Note(
                "The shape of the plug says little",
                "USB-C is a shape. Charging, USB data and a picture are three abilities, and a socket or cable may "
                "have one without the others. With fast USB data beside it, only two of four lanes carry picture.",
            )
        )
    return tuple(notes)


def _worked_for(given: Values) -> str:
    return f"{write_mode(given['mode'])} from {_name(given['from'])} to {_name(given['to'])}"


calculator = Calculator(
    name="display.adapter",
    title="Which adapter between DisplayPort, USB-C, HDMI, DVI and VGA, and in which direction?",
    summary="Passive or active, for one direction and one mode, with what the box must say.",
    inputs=(
        Choice(
            key="from",
            label="Socket on the computer",
            names=("graphics card", "laptop", "notebook", "console"),
            where="The back of the computer, on the graphics card if it has one; the side of a notebook or its dock.",
            options=_SOCKETS,
            default="displayport",
        ),
        Choice(
            key="to",
            label="Socket on the display",
            names=("monitor", "television", "tv", "projector", "beamer", "screen"),
            where="The back or underside of the display; its manual says which sockets take your mode.",
            options=_SOCKETS,
            default="hdmi",
        ),
        Text(
            key="mode",
            label="Mode you want",
            names=("mode", "resolution"),
            where="The resolution and refresh in the display's data sheet, or in the system's display settings.",
            shape="a width, a height and a refresh",
            example="3840x2160@60",
            default="3840x2160@60",
            parse=read_mode,
            canonical=write_mode,
        ),
        Choice(
            key="depth",
            label="Bits a channel",
            names=DEPTH_NAMES,
            where="The driver's display page as colour depth. Take 10 for HDR, else 8; DVI and VGA take 8 alone.",
            options=DEPTHS,
            default="8",
            extra=True,
        ),
    ),
    compute=compute,
    version=3,
    worked_for=_worked_for,
    presets=(
        Preset("dp-tv", "DisplayPort to a television", {"from": "displayport", "to": "hdmi", "mode": "3840x2160@60"}),
        Preset("dp-old", "DisplayPort to an older display",
               {"from": "displayport", "to": "hdmi", "mode": "1920x1080@60"}),
        Preset("wrong-way", "HDMI to a DisplayPort monitor",
               {"from": "hdmi", "to": "displayport", "mode": "2560x1440@60"}),
        Preset("notebook", "USB-C notebook to DisplayPort",
               {"from": "usb-c", "to": "displayport", "mode": "3840x2160@60"}),
        Preset("dvi", "HDMI to an older DVI display", {"from": "hdmi", "to": "dvi-single", "mode": "1920x1080@60"}),
        Preset("one-cable", "Desktop card to a USB-C display",
               {"from": "displayport", "to": "usb-c", "mode": "3840x2160@60"}),
    ),
)  # fmt: skip
