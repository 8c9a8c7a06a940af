"""What a display declares, laid out: the facts, its modes, its blocks, and a drawing of its refresh rates."""

from __future__ import annotations

from calculators.desk.answer import Column, Table
from calculators.desk.charts import Bar, bars
from calculators.desk.numbers import listed, number
from calculators.desk.svg import Drawing
from calculators.display.declarations.mode_in_use import COMPUTER, TELEVISION, UNTOLD, ModeInUse, kind_of, say_mode
from calculators.trade.edid.cta_block import FIXED_RATES
from calculators.trade.edid.declaration import Declaration, ListedMode

_MOST_ROWS = 40
_MOST_BARS = 6
_KIND_WORDS = {TELEVISION: "television", COMPUTER: "computer", UNTOLD: "not told"}


def facts(edid: Declaration) -> Table:
    """Everything that bears on settings, one fact a row. A serial number is never among them."""
    rows: list[tuple[str, str]] = [("Version of the base block", edid.version)]
    if edid.name:
        rows.append(("The display calls itself", edid.name))
    rows.append(("Input", _input(edid)))
    if edid.preferred:
        native = {
            True: "said to be native",
            False: "not said to be native",
            None: "native not told in this version",
        }
        mode = edid.preferred
        words = say_mode(mode.width, mode.height, mode.refresh_hz, mode.interlaced)
        rows.append(("Preferred mode", f"{words}, {native[edid.declares_native]}"))
        if mode.clock_khz:
            totals = f"{number(mode.clock_khz / 1000)} MHz; {mode.h_total} × {mode.v_total}"
            rows.append(("Its clock and totals", totals))
    if edid.preferred_too:
        other = edid.preferred_too
        words = say_mode(other.width, other.height, other.refresh_hz, other.interlaced)
        rows.append(("DisplayID prefers", f"{words} ({other.where})"))
    if edid.native_size:
        rows.append(("Its own grid of pixels", f"{number(edid.native_size[0])} × {number(edid.native_size[1])}"))
    for one in edid.ranges:
        top = f"{one.high} Hz" if one.high else "the refresh of the mode"
        clock = f", up to {number(one.clock_mhz)} MHz" if one.clock_mhz else ""
        rows.append((f"Refresh range ({one.where})", f"{one.low} Hz to {top}{clock}"))
    if edid.variable:
        rows.append(("Refresh that varies", "; ".join(edid.variable)))
    rows += _colour(edid) + _link(edid)
    if edid.tiles:
        size = f", of {number(edid.tile_size[0])} × {number(edid.tile_size[1])}" if edid.tile_size else ""
        rows.append(("Tiles", f"{edid.tiles[0]} × {edid.tiles[1]}{size}: each input feeds one of them"))
    return Table("What it declares", (Column("Fact"), Column("What the declaration says")), tuple(rows))


def _input(edid: Declaration) -> str:
    if not edid.digital:
        return "analogue: range, bits and sampling do not apply"
    named = [edid.port] if edid.port else []
    if edid.hdmi and "HDMI" not in named:
        named.append("HDMI")
    return f"digital, {' and '.join(named)}" if named else "digital"


def _colour(edid: Declaration) -> list[tuple[str, str]]:
    depth_by_block = [
        (edid.base_depth, "base block"),
        (edid.deep_colour_depth, "deep-colour flags"),
        (edid.displayid_depth, "DisplayID"),
    ]
    depths = [f"{bits} ({where})" for bits, where in depth_by_block if bits]
    sampling = [
        name
        for name, there in (
            ("RGB", edid.digital),
            ("Y′CbCr 4:4:4", edid.ycbcr_444),
            ("4:2:2", edid.ycbcr_422),
            ("4:2:0", edid.ycbcr_420),
        )
        if there
    ]
    selectable = {True: "yes", False: "no", None: "not declared"}
    rows = [
        ("Bits a channel", ", ".join(depths) or "not declared"),
        ("Colour formats", listed(sampling) or "not declared"),
        ("RGB range can be chosen", selectable[edid.rgb_range_selectable]),
        ("Y′CbCr range can be chosen", selectable[edid.ycc_range_selectable]),
        ("HDR curves", listed(edid.transfers) or "not declared"),
    ]
    if edid.deep_420_depth:
        rows.append(("Bits a channel with 4:2:0", f"up to {edid.deep_420_depth}"))
    if edid.peak_nits:
        rows.append(("Brightest picture wanted", f"{number(edid.peak_nits, 0)} cd/m²"))
    if edid.dynamic_hdr:
        rows.append(("HDR that changes by scene", "declared"))
    if edid.wide_colour:
        rows.append(("Wider colour", listed(edid.wide_colour)))
    return rows


def _link(edid: Declaration) -> list[tuple[str, str]]:
    rows = []
    if edid.tmds_mhz:
        rows.append(("Highest HDMI clock, first block", f"{edid.tmds_mhz} MHz"))
    if edid.tmds_second_mhz:
        rows.append(("Highest HDMI clock, second block", f"{edid.tmds_second_mhz} MHz"))
    if edid.fixed_rate:
        rate = FIXED_RATES.get(edid.fixed_rate)
        later = f"code {edid.fixed_rate}, later than this reader knows"
        rows.append(("Highest fixed-rate HDMI link", f"{rate} Gb/s" if rate else later))
    if edid.compression:
        rows.append(("Compressed pictures over HDMI", "accepted"))
    return rows


def modes(edid: Declaration, in_use: ModeInUse | None) -> Table | None:
    """The listed modes, largest first, each once for each kind; None where there are none."""
    by_mode: dict[tuple[int, int, bool, str, str], list[ListedMode]] = {}
    largest_first = sorted(edid.modes, key=lambda m: (-m.width * m.height, -m.width, -m.refresh_hz, m.interlaced))
    for mode in largest_first:
        key = (mode.width, mode.height, mode.interlaced, number(mode.refresh_hz), kind_of(mode))
        by_mode.setdefault(key, []).append(mode)
        if len(by_mode) > _MOST_ROWS:
            break
    rows: list[tuple[str, ...]] = []
    marked: list[int] = []
    for (width, height, interlaced, refresh, kind), same in list(by_mode.items())[:_MOST_ROWS]:
        own = in_use and (in_use.width, in_use.height, number(in_use.refresh_hz)) == (width, height, refresh)
        if in_use and own and in_use.kind in (kind, UNTOLD):
            marked.append(len(rows))
        size = f"{number(width)} × {number(height)}{' interlaced' if interlaced else ''}"
        where = listed(list(dict.fromkeys(m.where for m in same))[:3])
        rows.append((size, refresh, _KIND_WORDS[kind], _sampling(same), where))
    if not rows:
        return None
    note = "A television format sends RGB limited by default, a computer format full; it goes by the timing."
    if len(by_mode) > _MOST_ROWS:
        note = f"The {_MOST_ROWS} largest; {note[0].lower()}{note[1:]}"
    columns = (Column("Size"), Column("Refresh, Hz", True), Column("Timing"), Column("4:2:0"), Column("Where"))
    return Table("Modes it lists", columns, tuple(rows), note, tuple(marked))


def _sampling(same: list[ListedMode]) -> str:
    if all(m.only_420 for m in same):
        return "only"
    return "too" if any(m.only_420 or m.also_420 for m in same) else "–"


def blocks(edid: Declaration) -> Table:
    """The blocks of 128 bytes, and whether their sums are right."""
    rows = [
        (str(b.number), b.kind, ("right" if b.sum_right else "wrong") if b.whole else "cut off") for b in edid.blocks
    ]
    cut = rows[:_MOST_ROWS]
    note = f"{len(rows) - len(cut)} more blocks follow." if len(rows) > len(cut) else ""
    return Table("Its blocks", (Column("Block"), Column("Kind"), Column("Checksum")), tuple(cut), note)


def refresh_drawing(edid: Declaration, in_use: ModeInUse | None) -> Drawing | None:
    """The highest refresh listed at each of the largest sizes; None where fewer than two sizes are listed."""
    best: dict[tuple[int, int], float] = {}
    for mode in edid.modes:
        if not mode.interlaced:
            size = (mode.width, mode.height)
            best[size] = max(best.get(size, 0), mode.refresh_hz)
    largest = sorted(best, key=lambda s: (-s[0] * s[1], -s[0]))[:_MOST_BARS]
    if len(largest) < 2:
        return None
    own = (in_use.width, in_use.height) if in_use else None
    rows = [
        Bar(f"{number(w)} × {number(h)}", best[w, h], f"{number(best[w, h])} Hz", mark=(w, h) == own)
        for w, h in largest
    ]
    description = "; ".join(f"{row.label}: {row.text}" for row in rows)
    return bars("Highest refresh listed at each size", f"Bars: {description}.", rows, caption="What the display lists.")
