"""What a network link could carry, and what was measured on it."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.asking.facts import Facts, Quantity
from calculators.asking.inputs.naming import name_before
from calculators.asking.inputs.plan import Plan
from calculators.asking.inputs.units import declared_unit, unit_behind
from calculators.asking.inputs.values import Offer, Reading, accepted

_LINK_RATES = (100, 1000, 2500, 5000, 10_000)  # Mb/s: wired links, IEEE 802.3, from memory
# What a full wired link carries beside its headers and gaps, as a share of its rate (about 94 or 95 %; with other heads
# and large frames a little less or more): IEEE 802.3's and TCP/IP's headers, from memory.
_FULL_LINK = (0.85, 0.99)  # where the text says that the number is a link's or a measured rate
_FULL_LINK_ALONE = (0.9, 0.97)  # where it stands alone, without a unit: narrower, since much else is near 1000
_LONGEST_BETWEEN = 3  # words between a part and the whole: '94 Mb/s out of 100'


def tell_measured(offers_of: dict[str, list[Offer]]) -> None:
    """'2.35 on a 2.5 Gbit link': no link carries more than its own rate, so the smaller one is what was measured."""
    for key in [key for key in offers_of if key.startswith("link_")]:
        measured = "measured_" + key.removeprefix("link_")
        offers = sorted(offers_of[key], key=lambda offer: _in_mbit(offer.typed))
        if len(offers) == 2 and measured not in offers_of and _in_mbit(offers[0].typed) < _in_mbit(offers[1].typed):
            offers_of[key], offers_of[measured] = [offers[1]], [offers[0]]


def move_what_no_link_has(facts: Facts, plan: Plan, offers_of: dict[str, list[Offer]]) -> None:
    """
    94 or 940 Mb/s of a network is what was measured: no wired link has such a rate, and a full one carries nearly it.
    """
    for key in [key for key in offers_of if key.startswith("link_")]:
        measured = "measured_" + key.removeprefix("link_")
        short = [
            o for o in offers_of[key]
            if any(_FULL_LINK[0] * rate <= _in_mbit(o.typed) < _FULL_LINK[1] * rate for rate in _LINK_RATES)
            and not name_before(facts, plan.asked[key], o.quantity.at)  # over the air a link may be of 866
        ]  # fmt: skip
        if short:
            offers_of[key] = [offer for offer in offers_of[key] if offer not in short]
            offers_of.setdefault(measured, []).extend(short)


def parts_of_a_link(facts: Facts, plan: Plan, used: set[int]) -> Iterator[Reading]:
    """'94 of 100 Mb/s': what was measured, and the link."""
    for key, asked in plan.asked.items():
        measured = "measured_" + key.removeprefix("link_")
        if not key.startswith("link_") or measured not in plan.asked:
            continue
        by_at = {q.at: q for q in facts.quantities}
        for quantity in facts.quantities:
            for gap in range(2, _LONGEST_BETWEEN + 2):
                whole = by_at.get(quantity.at + gap)
                between = [w.text for w in facts.words[quantity.at + 1 : quantity.at + gap]]
                if whole is None or between[-1:] not in (["of"], ["from"]) or quantity.value >= whole.value:
                    continue
                unit, last, _ = unit_behind(facts, asked, whole.at)
                own, _, _ = unit_behind(facts, asked, quantity.at)
                if not unit or (own and own != unit) or (len(between) > 1 and not own):
                    continue
                used |= {quantity.at, whole.at}
                for one, of in ((key, whole), (measured, quantity)):
                    typed = f"{facts.typed(of)} {declared_unit(asked, facts, whole.at, last, unit)}"
                    if (value := accepted(plan.asked[one].entry, typed)) is not None:
                        yield Reading(one, value, facts.text[quantity.start : facts.words[last].end], of.start)
                return


def _in_mbit(typed: str) -> float:
    """A rate as typed, in Mb/s, near enough to tell which of two is the larger."""
    number, _, unit = typed.partition(" ")
    return float(number.replace(",", ".")) * (1000 if unit[:1].casefold() == "g" else 1)


def is_short_of_a_link(quantity: Quantity) -> bool:
    """Whether a number alone is what a full wired link carries, in Mb/s: 94, 940."""
    return any(_FULL_LINK_ALONE[0] * rate <= quantity.value < _FULL_LINK_ALONE[1] * rate for rate in _LINK_RATES)
