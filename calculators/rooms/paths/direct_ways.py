"""Ways that carry the display's own signal: copper, glass or booster, an extender pair, a wireless pair."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import COMMON_PRACTICE, DEPENDS, FROM_MEMORY, NO, YES, Source
from calculators.desk.numbers import number, span
from calculators.rooms.paths.control_ways import Control, best_control
from calculators.rooms.paths.way import Case, Way, least, within
from calculators.trade.links.cable_reach import reach
from calculators.trade.links.fitting import fit
from calculators.trade.links.link_rates import DISPLAYPORT, FIXED_RATE, LINKS, Link
from calculators.trade.modes.cta_861 import find_format
from calculators.trade.modes.modes import mode
from calculators.trade.modes.unknown_blanking import SOURCE as BLANKING_SOURCE
from calculators.trade.modes.unknown_blanking import clock_range
from calculators.trade.ratio import Ratio

SOURCES = (
    Source("HDMI 1.4b, 2.0, 2.1 and 2.2; VESA DisplayPort 1.4 and 2.1", "what each link carries; neither states a "
           "length", FROM_MEMORY),
    BLANKING_SOURCE,
    Source("Lengths at which display cables, extender pairs and wireless pairs are offered and found to work", "",
           COMMON_PRACTICE),
)  # fmt: skip

# To this length one may count on an extender pair, and beyond that one should not hope; by the least link that
# carries the mode. Above 340 MHz most pairs compress lightly or drop chroma. Common practice, no source.
_EXTENDER_M = {"hdmi-tmds-165": (70, 100), "hdmi-tmds-340": (40, 100), "hdmi-tmds-600": (30, 100)}
_SQUEEZED = "hdmi-tmds-600"
_MOST_420_HZ = 60  # HDMI 2.0: 4:2:0 for formats of 50 and 60 Hz, from memory
# A wireless pair: never to be counted on through a wall; beyond this not to be hoped for. Common practice, no source.
_PAIR_M = {"hdmi-tmds-165": 30, "hdmi-tmds-340": 10, "hdmi-tmds-600": 10}


@dataclass(frozen=True, slots=True)
class Carrier:
    """The least link that carries a mode. word: yes, or depends where the fit itself does."""

    link: Link
    word: str
    needed: Ratio


def _carriers(case: Case, displayport: bool, sampling: str) -> list[Carrier]:
    """Every link of one standard with its word for the mode, the slowest first; by display.link's own functions."""
    listed = not displayport and find_format(case.width, case.height, case.refresh) is not None
    made = mode(case.width, case.height, case.refresh, "cta" if listed else "cvt-rb")
    # a display's own timing of a fast mode may be slower than the usual one: a fixed rate needs no exact clock
    untold = clock_range(case.width, case.height, case.refresh, made)
    carriers = []
    for one in LINKS:
        if (one.family == DISPLAYPORT) == displayport and not one.dvi and not one.key.startswith("usb-c"):
            outcome = fit(made, one, 4, sampling, case.depth, False, None if one.family == FIXED_RATE else untold)
            carriers.append(Carrier(one, outcome.word, outcome.needed))
    return carriers


def least_carrier(case: Case, displayport: bool, sampling: str = "rgb") -> Carrier | None:
    """
    The slowest link of one standard that carries a mode; where none surely does, one that may.

    Args:
        case: The mode that is asked for. [object]
        displayport: DisplayPort on four lanes, else HDMI.
        sampling: rgb for full colour, or 420. [text]

    Returns:
        The link with its word, or None where there is none. [object]

    Source:
        As the functions behind display.link: VESA DisplayPort, HDMI, from memory.

    Example:
        >>> least_carrier(Case(10, 3840, 2160, 60, 8, "film", False, "any"), False).link.key
        'hdmi-tmds-600'
    """
    carriers = _carriers(case, displayport, sampling)
    return next((one for word in (YES, DEPENDS) for one in carriers if one.word == word), None)


def direct_ways(case: Case) -> tuple[Way, ...]:
    """The four ways that carry the display's own signal."""
    carriers = [carrier for carrier in (least_carrier(case, False), least_carrier(case, True)) if carrier]
    boxes = _for_boxes(case)
    hand = best_control(case)
    return (_copper(case, carriers, hand), _optical(case, carriers, hand), _extender(case, boxes, hand),
            _pair(case, boxes, hand))  # fmt: skip


def _for_boxes(case: Case) -> Carrier | None:
    """What boxes in common use must carry: the mode in full colour, else with 4:2:0, which HDMI has up to 60 Hz."""
    in_use = [one for one in _carriers(case, False, "rgb") if one.link.key in _EXTENDER_M]
    for word in (YES, DEPENDS):
        full = next((one for one in in_use if one.word == word), None)
        if full:
            return full
    halved = least_carrier(case, False, "420") if case.refresh <= _MOST_420_HZ else None
    return Carrier(halved.link, DEPENDS, halved.needed) if halved and halved.link.key == _SQUEEZED else None


def _hand(case: Case, hand: Control) -> tuple[str, str]:
    """Whether control reaches the machine beside a way that does not carry it: yes, depends or no, and the words."""
    if not case.control:
        return YES, "not asked for; sound goes along"
    if hand.word == NO:
        return NO, "none reaches; sound goes along"
    return hand.word, f"by {hand.name}; sound goes along"


def _metres(value: float) -> str:
    return f"{number(value, 1)} m"


def _reason(case: Case, picture: str, control: str, what: str, limit: str) -> str:
    """The one reason: the picture's where that decides, else the hand's."""
    if picture == NO:
        return limit
    if control == NO:
        return f"No way for keyboard or pad reaches {_metres(case.distance_m)} here."
    if picture == DEPENDS:
        return limit
    if control == DEPENDS:
        return "The picture is sure, the way for keyboard or pad is not."
    return what


@dataclass(frozen=True, slots=True)
class _Cable:
    """What one kind of cable promises: word, over which link, its reach in words, and why it only may do."""

    word: str
    carrier: Carrier | None
    reach: str
    doubt: str = ""

    @property
    def displayport(self) -> bool:
        """Whether it promises that by DisplayPort."""
        return self.carrier is not None and self.carrier.link.family == DISPLAYPORT


def _best_cable(case: Case, carriers: list[Carrier], kinds: tuple[str, ...], too_long: str) -> _Cable:
    """The best that one of these kinds of cable promises; what DisplayPort alone carries so far is no plain yes."""
    best = _Cable(NO, None, "none is made for it")
    for carrier in carriers:
        spans = [s for s in (getattr(reach(carrier.link.key), kind) for kind in kinds) if s is not None]
        if not spans:
            continue
        count_on, at_best = max(s.low_m for s in spans), max(s.high_m for s in spans)
        length = within(case.distance_m, count_on, at_best)
        promise = f"{span(count_on, at_best, 'm', 1)} at this rate"
        doubt = too_long if length == DEPENDS else "Whether the link carries this mode, both ends decide."
        one = _Cable(least(carrier.word, length), carrier, promise, doubt)
        if one.displayport:  # HDMI came first: a television seldom has the other socket
            doubt = "Uncompressed, only DisplayPort carries it this far, and both ends must have it."
            one = _Cable(least(one.word, DEPENDS), carrier, f"{promise}, by DisplayPort", doubt)
        if best.carrier is None or (one.word != NO and best.word == NO):
            best = one
    return best


def _copper(case: Case, carriers: list[Carrier], hand: Control) -> Way:
    far = _metres(case.distance_m)
    cable = _best_cable(case, carriers, ("passive",),
                        f"{far} is beyond what one may count on; good copper may do.")  # fmt: skip
    word = cable.word if case.wire == "any" else NO
    control, words = _hand(case, hand)
    mark = cable.carrier.link.cable if cable.carrier else ""
    if case.wire != "any":
        limit = "It needs a display cable laid from room to room."
    elif not cable.carrier:
        limit = "No link in use carries this mode."
    elif word == NO:
        limit = f"{far} is beyond what plain copper carries at this rate."
    else:
        limit = cable.doubt
    return Way(
        key="copper", name="a long copper cable", word=least(word, control),
        reason=_reason(case, word, control, "Plain copper of this length carries it, and nothing is simpler.", limit),
        condition=f"The cable bears the mark for the rate: {mark}." if mark else "None helps here.",
        first="Lay it across the floor first and run the picture for an evening.",
        reach=cable.reach, late_ms=(0, 1), loses="nothing", control=words, lay="the display cable itself",
        displayport=cable.displayport,
    )  # fmt: skip


def _optical(case: Case, carriers: list[Carrier], hand: Control) -> Way:
    far = _metres(case.distance_m)
    cable = _best_cable(case, carriers, ("active", "optical"),
                        f"{far} is beyond what one may count on with glass or booster.")  # fmt: skip
    word = cable.word if case.wire == "any" else NO
    control, words = _hand(case, hand)
    if case.wire != "any":
        limit = "It needs a display cable laid from room to room."
    elif not cable.carrier:
        limit = "No such cable is made for this mode."
    elif word == NO:
        limit = f"{far} is beyond glass and boosters in common use."
    else:
        limit = cable.doubt
    both = "Both ends have DisplayPort, and its" if cable.displayport else "Its"
    return Way(
        key="optical", name="a display cable with glass fibre or booster", word=least(word, control),
        reason=_reason(case, word, control, "Glass or a booster carries the whole picture this far.", limit),
        condition=f"{both} source end lies at the machine: it works in one direction only.",
        first="Try it unrolled on the floor before you pull it through a wall.",
        reach=cable.reach, late_ms=(0, 1), loses="on some, adaptive refresh or the sound's way back", control=words,
        lay="the cable, bent no tighter than its maker allows", displayport=cable.displayport,
    )  # fmt: skip


def _extender(case: Case, boxes: Carrier | None, hand: Control) -> Way:
    limits = _EXTENDER_M.get(boxes.link.key) if boxes else None
    allowed = case.wire != "none"
    word = least(boxes.word, within(case.distance_m, *limits)) if boxes and limits and allowed else NO
    squeezed = bool(boxes and boxes.link.key == _SQUEEZED)
    if squeezed or case.wire == "network":
        word = least(word, DEPENDS)
    late = (0.0, 17.0) if squeezed else (0.0, 1.0)
    control, words = _hand(case, hand)
    if not allowed:
        limit = "It needs a network-type cable of its own."
    elif not limits:
        limit = "Extender pairs in common use do not carry this mode."
    elif word == NO:
        limit = f"{_metres(case.distance_m)} is beyond what a pair of boxes carries."
    elif case.wire == "network":
        limit = "The cable must be free: the pair needs it for itself, without a network."
    elif squeezed:
        limit = "At this rate most pairs compress or drop chroma: ask the maker."
    else:
        limit = f"At {_metres(case.distance_m)} it depends on the boxes and on the cable."
    return Way(
        key="extender", name="an extender pair over one network-type cable",
        word=least(word, control),
        reason=_reason(case, word, control, "A pair of boxes carries it over one cable without a network.", limit),
        condition="The cable is unbroken, Category 6A, and goes into no switch.",
        first="Buy a pair that names your mode with its chroma, and that can go back.",
        reach=f"{span(*limits, 'm', 0)} for this mode" if limits else "not for this mode",
        late_ms=late, loses="often chroma, adaptive refresh and part of HDR" if squeezed else "adaptive refresh",
        control=words + ("; many pairs carry USB too" if case.control else ""),
        lay="one network-type cable of its own, unbroken",
    )  # fmt: skip


def _pair(case: Case, boxes: Carrier | None, hand: Control) -> Way:
    farthest = _PAIR_M.get(boxes.link.key) if boxes else None
    late = (1.0, 120.0)  # so a pair may come too late, but never surely does: the wall decides before
    word = within(case.distance_m, 0, farthest) if farthest else NO
    control, words = _hand(case, hand)
    if not farthest:
        limit = "Wireless pairs in common use do not carry this mode."
    elif word == NO:
        limit = f"{_metres(case.distance_m)} is beyond a wireless pair."
    else:
        limit = "A wall may stop it, and some come late: only trying tells."
    return Way(
        key="pair", name="a wireless display pair", word=least(word, control),
        reason=_reason(case, word, control, limit, limit),
        condition="It is bought where it can be returned.",
        first="Set it up between the two rooms with the doors shut.",
        reach=f"{farthest} m at best, fewer through walls" if farthest else "not for this mode", late_ms=late,
        loses="often chroma, HDR and adaptive refresh", control=words, lay="nothing",
    )  # fmt: skip
