"""One mode on every link there is: how each would go, and the table that shows it."""

from __future__ import annotations

from dataclasses import replace

from calculators.desk.answer import DEPENDS, NO, YES, Column, Table
from calculators.desk.errors import refuse
from calculators.desk.numbers import number
from calculators.display.links.compromises import SAMPLING_WORDS, Wish
from calculators.trade.links.fitting import Fit, gigabits
from calculators.trade.links.link_rates import DISPLAYPORT, FIXED_RATE, LANE_WORDS, LINKS, TMDS, Link
from calculators.trade.modes.modes import Mode, too_slow

FAMILIES = ((DISPLAYPORT, "DisplayPort"), (TMDS, "HDMI and DVI, TMDS"), (FIXED_RATE, "HDMI, fixed rate"))
VERDICT_WORDS = {YES: "yes", DEPENDS: "depends", NO: "no"}

Every = list[tuple[Link, Fit]]


def asked(wish: Wish) -> str:
    """The mode in words, such as '3840×2160 at 120 Hz, 8-bit RGB'."""
    return (
        f"{wish.width}×{wish.height} at {number(wish.refresh, 3)} Hz, {wish.depth}-bit {SAMPLING_WORDS[wish.sampling]}"
    )


def refuse_too_slow(made: Mode, key: str = "refresh") -> None:
    """InputErrors where a mode is slower than any display's."""
    words = too_slow(made)
    if words:
        raise refuse(key, words)


def every_link(wish: Wish) -> Every:
    """How the mode goes with each link; where the blanking was not told, with the one that is usual there."""
    return [(one, replace(wish, link=one).fit()) for one in LINKS]


def all_links(wish: Wish, every: Every, own: str) -> Table:
    """The same mode on every link, with the viewer's own marked."""
    needed = [
        f"{gigabits(next(outcome.needed for one, outcome in every if one.family == family))} over {title}"
        for family, title in FAMILIES
    ]
    return Table(
        title="The same mode on every link",
        columns=(Column("Link"), Column("Carried", True), Column("Fits"), Column("Cable mark")),
        rows=tuple(
            (one.name, gigabits(outcome.payload), VERDICT_WORDS[outcome.word], one.cable) for one, outcome in every
        ),
        note=(
            f"Needed with the usual blanking: {'; '.join(needed)}. DisplayPort on {LANE_WORDS[wish.lanes]}. "
            "The last column is the certification mark of cables tested for that rate, or what the cable is called; a "
            "version number on a box or a cable promises none."
        ),
        marked=tuple(i for i, (one, _) in enumerate(every) if one.key == own),
    )
