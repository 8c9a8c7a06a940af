"""display.declared: what a display says of itself, in plain words, and which settings follow from it, in order."""

from __future__ import annotations

from calculators.desk.answer import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    LIBRARY,
    Answer,
    Caution,
    Figure,
    Note,
    Source,
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.inputs import Choice, Number, Option, PrivateText, Values
from calculators.desk.numbers import listed, number, plural
from calculators.display.declarations.examples import DESK, OFFICE, OLD, TELEVISION
from calculators.display.declarations.limits import above_range, beyond, limits, over_displayport
from calculators.display.declarations.mode_in_use import TELEVISION as TELEVISION_KIND
from calculators.display.declarations.mode_in_use import UNTOLD, ModeInUse, mode_in_use, say_mode
from calculators.display.declarations.settings_advice import fastest_at, settings
from calculators.display.declarations.shape import shape_notes
from calculators.display.declarations.tables import blocks, facts, modes, refresh_drawing
from calculators.trade.edid.cta_block import FIXED_RATES
from calculators.trade.edid.declaration import Declaration
from calculators.trade.edid.parser import read_declaration
from calculators.trade.edid.pasted_text import Pasted, read_text
from calculators.trade.frame_rates import rate_input
from calculators.trade.modes.modes import BLANKING_OPTIONS

_MOST_SENTENCES = 6
_MOST_NAMED = 3

SOURCES = (
    Source("VESA E-EDID Standard Release A, Revision 1 and 2", "base block, EDID 1.3 and 1.4", FROM_MEMORY),
    Source("CTA-861-I", "section 5.1 (default range), 7.5 (data blocks)", FROM_MEMORY),
    Source("HDMI 1.4b and 2.1", "the two HDMI blocks, override of the extension count", FROM_MEMORY),
    Source("VESA DisplayID 1.3 and 2.0", "data blocks", FROM_MEMORY),
    Source("The video drivers' own maintainers' reader of declarations", "reads the same in the tests", LIBRARY),
    Source("Order of the settings", "", COMMON_PRACTICE),
)


def compute(given: Values) -> Answer:
    """Read the declaration and word what follows from it."""
    pasted: Pasted = given["declaration"]
    edid = read_declaration(pasted.data)
    mode = mode_in_use(given, edid)
    drawing = refresh_drawing(edid, mode)
    listed_modes = modes(edid, mode)
    return Answer(
        headline=_headline(edid, mode),
        figures=_figures(edid, mode),
        working=_working(pasted, edid),
        tables=(facts(edid), *([listed_modes] if listed_modes else []), blocks(edid)),
        steps=settings(edid, mode),
        steps_title="Which settings to choose, in order",
        drawings=(drawing,) if drawing else (),
        notes=_notes(pasted, edid, mode),
        cautions=_cautions(edid),
        sources=SOURCES,
    )


def _headline(edid: Declaration, mode: ModeInUse | None) -> str:
    chosen = {
        True: "lets the card choose the RGB range",
        False: "fixes the RGB range",
        None: "says nothing on the RGB range",
    }[edid.rgb_range_selectable]
    if not edid.digital:
        name = mode.say() if mode else "no mode"
        return f"This declaration is from an analogue input: it prefers {name}, and range and bits do not apply."
    if mode is None:
        depth = f"takes {edid.depth} bits a channel" if edid.depth else "does not say how many bits it takes"
        range_words = "says nothing on choosing the RGB range" if edid.rgb_range_selectable is None else chosen
        return f"The display names no preferred mode, {depth} and {range_words}."
    kind = {TELEVISION_KIND: "a television format", UNTOLD: ""}.get(mode.kind, "a computer format")
    if mode.typed:
        counts = f"counts as {kind}" if kind else "may be a television or a computer format"
        return f"{mode.say()} {counts}; the display {chosen}."
    prefers = f"The display prefers {mode.say()}{f' as {kind}' if kind else ''}"
    if edid.depth:
        return f"{prefers}, takes {edid.depth} bits and {chosen}."
    without = {True: "leaves the range to the card", None: "says nothing on the range"}
    range_words = without.get(edid.rgb_range_selectable, chosen)
    return f"{prefers}, {range_words} and does not say how many bits."


def _yes_no(key: str, label: str, there: bool | None, main: bool = False) -> Figure:
    return Figure(key, label, int(bool(there)), "", "yes" if there else "no", main)


def _figures(edid: Declaration, mode: ModeInUse | None) -> tuple[Figure, ...]:
    figures: list[Figure] = []
    preferred = edid.preferred
    if preferred:
        words = say_mode(preferred.width, preferred.height, preferred.refresh_hz, preferred.interlaced)
        figures += [
            Figure("preferred_mode", "Preferred mode", words, "", words, main=True),
            figure("preferred_width", "Preferred width", preferred.width, "px"),
            figure("preferred_height", "Preferred height", preferred.height, "px"),
            figure("preferred_refresh", "Preferred refresh", preferred.refresh_hz, "Hz", 3),
        ]
    if edid.digital and edid.depth:
        figures.append(figure("depth", "Bits a channel", edid.depth, "bits", main=True))
    if edid.rgb_range_selectable is not None:
        figures.append(_yes_no("rgb_range_selectable", "RGB range can be chosen", edid.rgb_range_selectable, main=True))
    if mode and mode.kind != UNTOLD and edid.digital:
        television = mode.kind == TELEVISION_KIND
        default = "limited" if television else "full"
        # over DisplayPort the timing decides nothing: no reader sees 'limited' there
        shown = not (television and over_displayport(edid))
        figures.append(
            Figure("rgb_range_default", "RGB range by default", default, "", default, main=shown, only_json=not shown)
        )
        figures.append(_yes_no("television_format", "Counts as a television format", television))
    figures += [
        _yes_no("ycbcr_444", "Takes Y′CbCr 4:4:4", edid.ycbcr_444),
        _yes_no("ycbcr_422", "Takes Y′CbCr 4:2:2", edid.ycbcr_422),
        _yes_no("ycbcr_420", "Takes Y′CbCr 4:2:0", edid.ycbcr_420),
        _yes_no("hdr_pq", "Takes HDR by the PQ curve", "PQ" in edid.transfers),
    ]
    if any(name.startswith("BT.2020") for name in edid.wide_colour):
        figures.append(_yes_no("bt_2020", "Takes BT.2020 colour", True))
    if edid.variable:
        figures.append(_yes_no("variable_refresh", "Lets the refresh vary", True))
    clock = max(edid.tmds_mhz, edid.tmds_second_mhz)
    if clock:
        figures.append(figure("max_tmds_mhz", "Highest HDMI clock", clock, "MHz"))
    if edid.fixed_rate in FIXED_RATES:
        rate = FIXED_RATES[edid.fixed_rate]
        figures.append(figure("max_fixed_rate_gb_s", "Highest fixed-rate HDMI link", rate, "Gb/s"))
    first = next(iter(edid.ranges), None)
    if first:
        figures.append(figure("refresh_low", "Lowest refresh", first.low, "Hz"))
        if first.high:
            figures.append(figure("refresh_high", "Highest refresh of the range", first.high, "Hz"))
    if edid.modes:
        largest = max(edid.modes, key=lambda m: (m.width * m.height, m.width, m.refresh_hz))
        figures += [
            figure("largest_width", "Width of the largest mode", largest.width, "px"),
            figure("largest_height", "Height of the largest mode", largest.height, "px"),
        ]
    if preferred:
        fastest = fastest_at(edid, preferred.width, preferred.height)
        if fastest:
            figures.append(
                figure("fastest_refresh", "Highest refresh at the preferred size", fastest.refresh_hz, "Hz", 3)
            )
    figures += [
        figure("blocks", "Blocks read", len(edid.blocks)),
        figure("checksums_wrong", "Blocks with a wrong checksum", edid.checksums_wrong),
    ]
    return tuple(figures)


def _working(pasted: Pasted, edid: Declaration) -> tuple[Working, ...]:
    lines = [Working("What was pasted", "", f"{len(pasted.data)} bytes, as {pasted.written}", "")]
    mode = edid.preferred
    if mode and mode.clock_khz:
        lanes = "2 × clock" if mode.interlaced else "clock"
        lines.append(
            Working(
                "Refresh of the preferred mode",
                f"{lanes} ÷ (pixels a line × lines), blanking counted",
                f"{number(mode.clock_khz / 1000, 3)} MHz ÷ ({mode.h_total} × {mode.v_total})",
                f"{number(mode.refresh_hz, 3)} Hz",
            )
        )
    return tuple(lines)


def _notes(pasted: Pasted, edid: Declaration, mode: ModeInUse | None) -> tuple[Note, ...]:
    notes = []
    if mode and edid.digital:
        kind = {
            TELEVISION_KIND: f"{mode.say()} counts as a television format: {mode.why}. Its default is limited range, "
            "where black is code 16 and white 235 at 8 bits.",
            UNTOLD: f"For {mode.say()}: {mode.why}. A television format would be limited by default, a computer format "
            "full.",
        }.get(mode.kind, f"{mode.say()} counts as a computer format: {mode.why}. Its default is full range.")
        both = " The display lists it with the other timing too, and your system may use either." if mode.both else ""
        displayport = (
            " That is HDMI's rule. Over DisplayPort computers send full range: set full, then look."
            if over_displayport(edid)
            else ""
        )
        notes.append(
            Note(
                "Television or computer format",
                f"{kind} It follows the timing, not the resolution.{both}{displayport}",
            )
        )
    notes += shape_notes(edid)
    over = _beyond_limits(edid)
    if over:
        notes.append(Note("Listed beyond its own limits", over))
    more = _larger_or_faster(edid)
    if more:
        notes.append(Note("More than the preferred mode", more))
    if pasted.further:
        others = plural(pasted.further, "other display", "other displays")
        notes.append(
            Note("More than one declaration", f"The text holds the declarations of {others} too; the first was read.")
        )
    if edid.extensions_override:
        notes.append(
            Note(
                "Older cards see less",
                f"The base block counts {plural(edid.extensions_counted, 'extension')}, and a later block says that "
                f"there are {edid.extensions_override}. A card or system that does not know this override misses "
                "what stands in the rest.",
            )
        )
    if edid.broken:
        notes.append(Note("Where it breaks the rules", _sentences(edid.broken)))
    if edid.unread:
        kinds = list(dict.fromkeys(edid.unread))
        rest = f" and {len(kinds) - _MOST_SENTENCES} more" if len(kinds) > _MOST_SENTENCES else ""
        notes.append(
            Note(
                "Found and not read",
                f"{'; '.join(kinds[:_MOST_SENTENCES])}{rest}. What stands there is not in this answer; it may hold "
                "further modes or abilities.",
            )
        )
    notes.append(
        Note(
            "Where your text stays",
            "It is read in this page and goes nowhere: not into the link, the copied text or the screen card, and to "
            "no server. A declaration often holds the display's serial number, which this answer leaves out.",
        )
    )
    return tuple(notes)


def _sentences(parts: list[str]) -> str:
    distinct = list(dict.fromkeys(parts))
    rest = f" And {len(distinct) - _MOST_SENTENCES} more." if len(distinct) > _MOST_SENTENCES else ""
    return " ".join(distinct[:_MOST_SENTENCES]) + rest


def _beyond_limits(edid: Declaration) -> str:
    """The modes that are listed and that the display's own stated clocks do not carry, in any format it takes."""
    over = beyond(edid)
    parts = []
    if over:
        names = [say_mode(m.width, m.height, m.refresh_hz, m.interlaced) for m in over]
        distinct = list(dict.fromkeys(names))
        rest = f" and {len(distinct) - _MOST_NAMED} more" if len(distinct) > _MOST_NAMED else ""
        parts.append(
            f"{listed(distinct[:_MOST_NAMED])}{rest}: each asks for more than the {limits(edid).say()} that it states "
            "over HDMI."
        )
        if over_displayport(edid):
            parts.append("This input is DisplayPort, where that limit does not count.")
        else:
            parts.append("Do not force such a mode; the limit or the list is wrong.")
    wild = [m for m in edid.modes if above_range(edid, m)]
    if wild:
        top = max(wild, key=lambda m: m.clock_khz)
        parts.append(
            f"{say_mode(top.width, top.height, top.refresh_hz)} has a clock of {number(top.clock_khz / 1000)} MHz, "
            f"above the {number(limits(edid).clock_mhz)} MHz that the display states with its refresh range."
        )
    return " ".join(parts)


def _larger_or_faster(edid: Declaration) -> str:
    preferred = edid.preferred
    if preferred is None:
        return ""
    parts = []
    size = preferred.width * preferred.height
    larger = {(m.width, m.height, m.where) for m in edid.modes if m.width * m.height > size}
    if larger:
        top = sorted(larger, key=lambda m: (-m[0] * m[1], m[2]))[:3]
        parts.append(
            "Larger modes are listed: "
            + listed([f"{number(w)} × {number(h)} ({where})" for w, h, where in top])
            + ". A display may take a larger picture than it has pixels, and scale it down."
        )
    other = edid.preferred_too
    if other:
        parts.append(
            f"DisplayID prefers {say_mode(other.width, other.height, other.refresh_hz, other.interlaced)} "
            f"({other.where}); a system that reads it may start with that."
        )
    fastest = fastest_at(edid, preferred.width, preferred.height)
    if fastest and fastest.refresh_hz > preferred.refresh_hz + 1:
        parts.append(
            f"At the preferred size up to {number(fastest.refresh_hz)} Hz is listed ({fastest.where}): preferred does "
            "not mean fastest."
        )
    return " ".join(parts)


def _cautions(edid: Declaration) -> tuple[Caution, ...]:
    cautions = []
    if edid.blocks_missing:
        cautions.append(
            Caution(
                "data",
                f"The declaration announces {plural(edid.blocks_missing, 'block')} more than was pasted whole. What "
                "the missing part declares is not in this answer: higher modes, range and HDR often stand there.",
                "Save it again, the whole of it.",
                first=True,
            )
        )
    if edid.checksums_wrong:
        cautions.append(
            Caution(
                "data",
                f"{plural(edid.checksums_wrong, 'block has', 'blocks have')} a wrong checksum. It was read all the "
                "same, but a digit may be wrong: compare the numbers with the display's manual.",
                "Save it again; if it stays wrong, the cable, an adapter or the display itself is the reason.",
                first=True,
            )
        )
    cautions.append(
        Caution(
            "machine",
            "Choose modes that the display lists. A forced one can leave the screen dark, or strain an old display; "
            "wait for your system to go back by itself.",
            "The display's manual comes before what is said here.",
            short="A forced mode can darken the screen.",
            tag="Dark screen",
        )
    )
    return tuple(cautions)


def _pasted_again(pasted: Pasted) -> str:
    """The declaration written in the one way that reads back the same: sixteen bytes a line, which fits a phone."""
    lines = [pasted.data[i : i + 16].hex() for i in range(0, len(pasted.data), 16)]
    return "\n".join(lines)


def _worked_for(given: Values) -> str:
    edid = read_declaration(given["declaration"].data)
    mode = mode_in_use(given, edid)
    phrase = "the declaration that was pasted"
    if mode is None:
        return phrase
    return f"{phrase}, {'for' if mode.typed else 'which prefers'} {mode.say()}"


_PROPERTIES = "In your system's display settings; the answer page says where to find what a display declares."

calculator = Calculator(
    name="display.declared",
    title="What does my display declare, and which settings follow?",
    summary="A display's own declaration in plain words, and the settings to choose from it, in order.",
    inputs=(
        PrivateText(
            key="declaration",
            label="The display's declaration",
            names=("edid", "declaration", "displayid"),
            where=(
                "Your system keeps it: a file called edid on Linux, a registry value called EDID on Windows, a "
                "property called IODisplayEDID on many Macs. The answer page shows the commands."
            ),
            note="It stays in this page, on this device",
            example="00 FF FF FF FF FF FF 00 …",
            shape="what the system saved, as hexadecimal, base64 or a dump",
            parse=read_text,
            canonical=_pasted_again,
        ),
        Number(
            key="mode_width",
            label="Width in use",
            names=("width", "resolution"),
            where=_PROPERTIES,
            group="The mode in use, if it is not the preferred one",
            extra=True,
            optional=True,
            low=64,
            high=65536,
            unit="px",
            whole=True,
            also={"pixels": 1, "pixel": 1},
        ),
        Number(
            key="mode_height",
            label="Height in use",
            names=("height",),
            where=_PROPERTIES,
            group="The mode in use, if it is not the preferred one",
            extra=True,
            optional=True,
            low=64,
            high=65536,
            unit="px",
            whole=True,
            also={"pixels": 1, "pixel": 1, "lines": 1},
        ),
        rate_input(
            key="mode_refresh",
            label="Refresh in use",
            names=("refresh", "hz", "hertz"),
            where=_PROPERTIES,
            group="The mode in use, if it is not the preferred one",
            extra=True,
            optional=True,
            default=None,
            low=1,
        ),
        Choice(
            key="mode_blanking",
            label="Timing in use",
            where=(
                "The card maker's settings panel, where it shows totals or a timing standard. Systems seldom say; "
                "leave it out if you do not know."
            ),
            group="The mode in use, if it is not the preferred one",
            extra=True,
            optional=True,
            options=(*BLANKING_OPTIONS, Option("unknown", "not sure")),
        ),
    ),
    compute=compute,
    version=2,
    worked_for=_worked_for,
    presets=(
        Preset("desk", "Invented desk display, 144 in DisplayID", {"declaration": DESK}),
        Preset("television", "Invented television", {"declaration": TELEVISION}),
        Preset("office", "Invented office display, range not selectable", {"declaration": OFFICE}),
        Preset("old", "Invented older display, no extension", {"declaration": OLD}),
    ),
)
