"""Which settings to choose for a display, in order, from what it declares. Words only; the facts come ready."""

from __future__ import annotations

from calculators.desk.answer import Step
from calculators.desk.numbers import number
from calculators.display.declarations.limits import above_range, clock_of, formats, limits, over_displayport
from calculators.display.declarations.mode_in_use import COMPUTER, SAME_REFRESH_HZ, TELEVISION, ModeInUse, kind_of
from calculators.trade.edid.declaration import Declaration, ListedMode


def settings(edid: Declaration, mode: ModeInUse | None) -> tuple[Step, ...]:
    """
    The settings to choose, each with its reason and what to do if it does not look right.

    Args:
        edid: The declaration. [object]
        mode: The mode in use; None where the declaration prefers none. [object]

    Returns:
        Steps in the order in which to do them. [list]

    Source:
        CTA-861-I, section 5.1 and 6.4 (range by format, selectable range), from memory; the order is common practice.

    Example:
        >>> [s.key for s in settings(Declaration(digital=True), None)]
        ['mode', 'sampling', 'depth', 'range', 'hdr', 'look']
    """
    steps = [_mode(edid, mode)]
    if edid.digital:
        steps += [_sampling(edid, mode), _depth(edid, mode), _range(edid, mode)]
    return (*steps, _hdr(edid), _look())


def fastest_at(edid: Declaration, width: int, height: int) -> ListedMode | None:
    """The listed mode of this size with the highest refresh, or None."""
    return max(_of_size(edid, width, height), key=lambda m: m.refresh_hz, default=None)


def _of_size(edid: Declaration, width: int, height: int) -> list[ListedMode]:
    return [m for m in edid.modes if (m.width, m.height) == (width, height) and not m.interlaced]


def advised(edid: Declaration, mode: ModeInUse | None) -> ListedMode | None:
    """
    The mode that the settings are for: the one in use, else the fastest at the display's own size within its limits.

    Args:
        edid: The declaration. [object]
        mode: The mode in use; None where the declaration prefers none. [object]

    Returns:
        A listed mode, or None where none of that size is listed. [object]

    Source:
        Common practice, no source; limits.py.

    Example:
        >>> advised(Declaration(), None) is None
        True
    """
    if mode is None:
        return None
    width, height = (mode.width, mode.height) if mode.typed else _own_size(edid, mode)
    same = _of_size(edid, width, height)
    if mode.typed:
        same = [m for m in same if abs(m.refresh_hz - mode.refresh_hz) < SAME_REFRESH_HZ]
    within = [m for m in same if formats(edid, m)]
    return max(within or same, key=lambda m: m.refresh_hz, default=None)


def _own_size(edid: Declaration, mode: ModeInUse) -> tuple[int, int]:
    """The display's own grid where a mode of that size is listed, else the size of its preferred mode."""
    if edid.native_size and _of_size(edid, *edid.native_size):
        return edid.native_size
    return mode.width, mode.height


def _mode(edid: Declaration, mode: ModeInUse | None) -> Step:
    otherwise = (
        "If your system offers less than the display lists, the loss is in a setting, the port, a dock or the cable, "
        "not in the display."
    )
    if mode is None:
        return Step(
            key="mode",
            title="Resolution and refresh",
            do=("Choose the size that the display's manual gives as native, with the highest refresh offered.",),
            why="The declaration names no preferred mode.",
            otherwise=otherwise,
        )
    width, height = _own_size(edid, mode)
    size = f"{number(width)} × {number(height)}"
    chosen = advised(edid, mode)
    if mode.typed:
        do = [f"The settings below are for {mode.say()}, the mode that you gave."]
    else:
        do = [f"Choose {size}."]
        if chosen:
            do.append(f"The highest refresh listed at {size} is {_hz(chosen.refresh_hz)}: choose it.")
    parts = [_why_size(edid, mode, (width, height)), _too_fast(edid, chosen)]
    if chosen and above_range(edid, chosen):
        clock = f"{number(limits(edid).clock_mhz)} MHz"
        otherwise = (
            f"Its clock is above the {clock} that the display states with its refresh range. If the screen stays dark, "
            f"wait for the old mode to come back and choose a lower refresh. {otherwise}"
        )
    return Step(
        key="mode",
        title="Resolution and refresh",
        do=tuple(do),
        why=" ".join(filter(None, parts)),
        otherwise=otherwise,
    )


def _why_size(edid: Declaration, mode: ModeInUse, size: tuple[int, int]) -> str:
    if edid.native_size and size == edid.native_size:
        return "The display gives this as its own grid of pixels, so nothing is scaled."
    if edid.native_size:
        own = f"{number(edid.native_size[0])} × {number(edid.native_size[1])}"
        return f"Its own grid of pixels is {own}, but it lists no mode of that size here."
    if edid.declares_native:
        return "The display says that its preferred mode is also its native one, so nothing is scaled."
    if mode.typed:
        return ""
    return "It is the preferred mode. The display does not say that it is also the native one; its manual does."


def _too_fast(edid: Declaration, chosen: ListedMode | None) -> str:
    """What is listed faster at the same size and beyond the display's own limits."""
    if chosen is None:
        return ""
    faster = [
        m
        for m in _of_size(edid, chosen.width, chosen.height)
        if m.refresh_hz > chosen.refresh_hz + 1 and not formats(edid, m)
    ]
    if not faster:
        return ""
    top = max(faster, key=lambda m: m.refresh_hz)
    return f"It lists {_hz(top.refresh_hz)} too, which is more than the {limits(edid).say()} that it states over HDMI."


def _hz(refresh_hz: float) -> str:
    return f"{number(refresh_hz)} Hz"


def _best(edid: Declaration, mode: ModeInUse | None) -> tuple[ListedMode | None, list[tuple[str, int]]]:
    """The mode that the settings are for, and the formats in which the display's limits carry it, best first."""
    chosen = advised(edid, mode)
    return chosen, formats(edid, chosen) if chosen else []


def _sampling(edid: Declaration, mode: ModeInUse | None) -> Step:
    if mode and mode.only_420:
        return Step(
            key="sampling",
            title="Colour format: Y′CbCr 4:2:0",
            do=("Choose Y′CbCr 4:2:0 for this mode.",),
            why="The display lists this mode with 4:2:0 only: a quarter of the colour samples.",
            otherwise="For sharp coloured text choose a lower refresh that RGB can carry.",
        )
    chosen, carried = _best(edid, mode)
    if chosen and carried and carried[0][0] in _LESS:
        name = _LESS[carried[0][0]]
        return Step(
            key="sampling",
            title=f"Colour format: {name}",
            do=(f"Choose {name} for {_hz(chosen.refresh_hz)}, or a lower refresh in RGB.",),
            why=f"RGB at this refresh asks for more than the {limits(edid).say()} that the display states.",
            otherwise="For sharp coloured text choose a lower refresh that RGB can carry.",
        )
    others = [s for s, there in (("4:4:4", edid.ycbcr_444), ("4:2:2", edid.ycbcr_422)) if there]
    also = f"It takes Y′CbCr {' and '.join(others)} too, which gain nothing over RGB here." if others else ""
    return Step(
        key="sampling",
        title="Colour format: RGB",
        do=("Choose RGB, every pixel with its own colour.",),
        why=" ".join(filter(None, ["Every display takes RGB.", also])),
        otherwise=(
            "If RGB is not offered at this refresh, the link is too narrow for it: give up bits before you give up "
            "colour resolution."
        ),
    )


_LESS = {"422": "Y′CbCr 4:2:2", "420": "Y′CbCr 4:2:0"}


def _depth(edid: Declaration, mode: ModeInUse | None) -> Step:
    depth = edid.depth
    if not depth:
        return Step(
            key="depth",
            title="Bits a channel: 8",
            do=("Choose 8 bits, which every such link carries.",),
            why="The display does not say how many bits it takes.",
        )
    chosen, carried = _best(edid, mode)
    wanted = min(depth, 10) if depth > 8 else depth
    most = next((bits for sampling, bits in carried if sampling == "rgb"), carried[0][1] if carried else wanted)
    if chosen and carried and carried[0][0] == "rgb" and most < wanted:
        return _fewer_bits(edid, chosen, carried, wanted)
    origin = {
        depth == edid.base_depth: "the base block says so",
        depth == edid.deep_colour_depth and not edid.base_depth: "its deep-colour flags say so",
    }.get(True, "a DisplayID block says so")
    more = ""
    if edid.base_depth and edid.deep_colour_depth > edid.base_depth:
        more = f" Its HDMI block accepts up to {edid.deep_colour_depth} bits on the link, more than it says it shows."
    bits = min(wanted, max(most, 8)) if depth > 8 else depth
    return Step(
        key="depth",
        title=f"Bits a channel: {bits}",
        do=(
            f"Choose {bits} bits if your card offers them at this refresh."
            if depth <= 10 or bits < 10
            else f"Choose 10 bits; the display takes up to {depth}, but few pictures hold more than 10.",
        ),
        why=f"The display takes {depth} bits a channel: {origin}.{more}",
        otherwise="8 bits are enough for ordinary pictures; more bits matter for HDR and for smooth gradients.",
    )


def _fewer_bits(edid: Declaration, chosen: ListedMode, carried: list[tuple[str, int]], wanted: int) -> Step:
    """Where the display's own limits carry RGB at this refresh with 8 bits and no more."""
    clock = clock_of(chosen)
    asks = f"{number(clock.value * wanted / 8 / 1e6, 1)} MHz" if clock else "more"
    way = next((f"{_LESS[s]} with {bits} bits" for s, bits in carried if s in _LESS and bits >= wanted), "")
    slower = max(
        (
            m.refresh_hz
            for m in _of_size(edid, chosen.width, chosen.height)
            if m.refresh_hz < chosen.refresh_hz - 1 and ("rgb", wanted) in formats(edid, m)
        ),
        default=0.0,
    )
    ways = [f"{way} for HDR films" if way else "", f"a refresh of {_hz(slower)}" if slower else ""]
    return Step(
        key="depth",
        title="Bits a channel: 8",
        do=(f"Choose 8 bits with RGB at {_hz(chosen.refresh_hz)}.",),
        why=(
            f"The display takes {edid.depth} bits a channel, but {wanted} at this refresh run at {asks}, above the "
            f"{limits(edid).say()} that it states itself."
        ),
        otherwise=(
            f"For {wanted} bits take {' or '.join(filter(None, ways))}." if any(ways) else "8 bits are enough for "
            "ordinary pictures."
        ),
    )  # fmt: skip


def _another_kind(edid: Declaration, mode: ModeInUse | None) -> str:
    """A sentence where the fastest mode of the size counts as the other kind."""
    fastest = fastest_at(edid, mode.width, mode.height) if mode and not mode.typed else None
    if mode is None or fastest is None or {mode.kind, kind_of(fastest)} != {TELEVISION, COMPUTER}:
        return ""
    return f" At {_hz(fastest.refresh_hz)} it would be a {kind_of(fastest)} format, with the other default."


def _range(edid: Declaration, mode: ModeInUse | None) -> Step:
    kind = mode.kind if mode else ""
    other = _another_kind(edid, mode)
    if edid.rgb_range_selectable:
        default = (
            "This mode is a television format, limited by default; the card must say that it sends full, and this "
            "display says that it listens."
            if kind == TELEVISION
            else "The display says that it follows what the card tells it, so both ends agree."
        )
        return Step(
            key="range",
            title="RGB range: full",
            do=(
                "Leave the display's own range or black-level menu on automatic.",
                "Set the card's output range to full.",
            ),
            why=default,
            see="Steps just above black can be told apart, and black stays black.",
            otherwise=(
                "Put the card back to automatic: some displays declare that they follow and do not. Change one end "
                "at a time."
            ),
        )
    if over_displayport(edid):
        return Step(
            key="range",
            title="RGB range: full, then look",
            do=("Set the card's output range to full.", "Then look at the steps near black."),
            why="Over DisplayPort computers send full range, and monitors expect it, whatever the timing.",
            see="Steps just above black can be told apart, and black stays black.",
            otherwise=(
                "Swallowed shadows mean that the display expects limited: look for a range or black-level setting in "
                "its menu, else send limited."
            ),
        )
    statement = "The display says" if edid.rgb_range_selectable is False else "The display does not say"
    follows = "that it does not follow a chosen range" if edid.rgb_range_selectable is False else "that it follows one"
    if kind == TELEVISION and not (edid.hdmi or edid.hdmi_second or edid.port in ("HDMI", "DisplayPort")):
        return Step(
            key="range",
            title="RGB range: automatic, which is full in practice",
            do=("Leave the card's output range on automatic.",),
            why=(
                "By its timing this mode is a television format. But there is no HDMI block, so cards treat the "
                f"display as DVI, which is sent full range.{other}"
            ),
            see="Steps just above black can be told apart, and black stays black.",
            otherwise="If shadows are swallowed or blacks look grey, set the card's output range by hand.",
        )
    if kind == TELEVISION:
        return Step(
            key="range",
            title="RGB range: automatic, which is limited here",
            do=(
                "Leave the card's output range and the display's range menu on automatic.",
                "Where a menu has no automatic, set both ends to limited.",
            ),
            why=f"This mode is a television format, whose default is limited. {statement} {follows}.{other}",
            see="Steps just above black can be told apart, and black stays black.",
            otherwise=(
                "Grey blacks mean that the display expects full; swallowed shadows mean that it got full and expects "
                "limited. Mend it at the display's menu first, else at the card, never at both at once."
            ),
        )
    if kind == COMPUTER:
        return Step(
            key="range",
            title="RGB range: full",
            do=("Leave the card's output range on automatic, or set it to full.",),
            why=f"This mode is a computer format, whose default is full. {statement} {follows}.{other}",
            see="Steps just above black can be told apart, and black stays black.",
            otherwise="If blacks look grey, look for a range menu at the display and set it to full or automatic.",
        )
    return Step(
        key="range",
        title="RGB range: automatic, then look",
        do=("Leave both ends on automatic and look at the near-black picture.",),
        why="The default goes by the timing in use, and that is not known here.",
        see="Steps just above black can be told apart, and black stays black.",
        otherwise="Find out the timing (totals and clock) that your system uses, and give it above.",
    )


def _hdr(edid: Declaration) -> Step:
    curves = [name for name in ("PQ", "HLG") if name in edid.transfers]
    if not curves:
        return Step(
            key="hdr",
            title="HDR: off",
            do=("Leave HDR off.",),
            why="The display declares no HDR curve, so it would show an HDR picture flat and dim.",
        )
    peak = f" It asks for pictures mastered for about {number(edid.peak_nits, 0)} cd/m²." if edid.peak_nits else ""
    return Step(
        key="hdr",
        title="HDR: off until the rest is right",
        do=("Leave HDR off while you set range and bits.", "Then turn it on for HDR games and films."),
        why=f"The display takes {' and '.join(curves)}.{peak} HDR on a desktop changes how ordinary pictures look.",
        otherwise="If HDR looks washed out, the range is usually not the reason; see the answer on that.",
    )


def _look() -> Step:
    return Step(
        key="look",
        title="Look with your own eyes",
        do=("Open the test pictures, near black first, at one image pixel to one screen pixel.",),
        why="A declaration tells what a display means to do; the picture tells what it does.",
    )
