"""Amounts of money: what each is the price of, by the declared names in its part of the text."""

from __future__ import annotations

import re
from collections.abc import Iterator

from calculators.asking.facts import Facts
from calculators.asking.inputs.plan import Plan
from calculators.asking.inputs.values import Reading, accepted
from calculators.asking.words import cut, stem

# A currency before or behind a number: the signs and words that people write.
_AMOUNT = re.compile(
    r"(?:(?P<before>[€$£])\s?(?P<first>\d{1,5}(?:[.,]\d{1,2})?))(?![\w.,]*\d)"
    r"|(?<![\w.,−-])(?P<second>\d{1,5}(?:[.,]\d{1,2})?)\s?(?P<behind>[€$£]|(?:euros?|eur|bucks|dollars?|quid|pounds?)\b)"
)
_SIGNS = {"euro": "€", "euros": "€", "eur": "€", "€": "€", "£": "£", "quid": "£", "$": "$"}
_PARTS = re.compile(r"[.!?;\n]\s")  # ends of what is said of one thing
_ANY_PRICE = frozenset({("price",), ("cost",)})  # names that all prices share


def by_price(facts: Facts, plan: Plan) -> Iterator[Reading]:
    """Prices, each for the input whose name stands last before it; one that no name tells apart is left out."""
    priced = {key: one for key, one in plan.asked.items() if "€" in one.units and not _ANY_PRICE.isdisjoint(one.names)}
    if not priced:
        return
    end, taken = 0, set()
    currencies: dict[str, re.Match[str]] = {}  # by sign, where it is first told
    for match in _AMOUNT.finditer(facts.small):
        begin = max([end, *(m.end() for m in _PARTS.finditer(facts.small, end, match.start()))])
        roots = [stem(word.text) for word in cut(facts.small[begin : match.start()])]
        places = {key: _last(roots, one.names) for key, one in priced.items() if key not in taken}
        end = match.end()
        key = max(places, key=lambda each: places[each], default="")
        if not key or places[key] < 0 or list(places.values()).count(places[key]) > 1:
            continue
        value = accepted(priced[key].entry, match["first"] or match["second"])
        if value is not None:
            taken.add(key)
            currencies.setdefault(_SIGNS.get(match["before"] or match["behind"], ""), match)
            yield Reading(key, value, facts.text[match.start() : match.end()], match.start())
    sign = next(iter(currencies)) if len(currencies) == 1 else ""
    if sign and "currency" in plan.asked and accepted(plan.asked["currency"].entry, sign) is not None:
        start, stop = currencies[sign].span("before" if currencies[sign]["before"] else "behind")
        yield Reading("currency", sign, facts.text[start:stop], start)


def _last(roots: list[str], names: tuple[tuple[str, ...], ...]) -> int:
    """Where the last of an input's own names ends; -1 where none stands there."""
    ends = [
        at + len(name)
        for name in names
        if name not in _ANY_PRICE
        for at in range(len(roots) - len(name) + 1)
        if tuple(roots[at : at + len(name)]) == name
    ]
    return max(ends, default=-1)


def bought_instead(readings: dict[str, Reading]) -> None:
    """Where the old kit is sold, the kit bought after that is no addition: it takes its place."""
    sold = readings.get("resale")
    for part in ("count", "size"):
        added = readings.get(f"add_{part}")
        if sold is not None and added is not None and added.start > sold.start:
            readings[f"replace_{part}"] = Reading(f"replace_{part}", added.value, added.words, added.start)
            del readings[f"add_{part}"]
