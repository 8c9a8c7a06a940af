"""Two numbers of one kind: ends of a range, a part of a whole, two that are held against each other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from calculators.asking.facts import Facts, Quantity
from calculators.asking.inputs.naming import name_after
from calculators.asking.inputs.plan import Plan
from calculators.asking.inputs.units import foreign_unit, unit_behind
from calculators.asking.inputs.values import Offer, Reading, accepted, tidy
from calculators.asking.words import stem
from calculators.desk.inputs import Input, Number

# By these one tells that a rate is thought of, and not there.
_THINKS_OF = frozenset("worth buy buying need worthwhile sense".split())


# Before a number: it is what there is, not what is thought of.
_NOW = frozenset("have got present current now".split())
# Between two numbers: the first is a part of the second, as in '12 out of 16'.
_OUT_OF = tuple(
    between.split()
    for between in (
        "of",
        "out of",
        "out of the",
        "outta",
        "right outta",
        "correct outta",
        "from",
        "/",
        "times of",
        "times in",
        "times from",
        "times out of",
        "right of",
        "right in",
        "right out of",
        "correct in",
        "correct out of",
        "wrong of",
        "wrong in",
        "wrong out of",
    )
)
# Of what is counted out of a whole: what went wrong, what went right.
_MISSED, _HITS = frozenset("wrong missed mistakes errors".split()), frozenset("right correct hits".split())
# Before the part, where it stands alone: 'got 8', and what may stand behind it.
_GOT, _PAUSES = (
    frozenset("got guessed heard hit scored caught".split()),
    frozenset([*".,!?;)", "and"]),
)
# Between two generations: the one sits in the other.
_SLOT = frozenset("in on into slot board motherboard socket".split())
# By these a text speaks of a range of refresh rates.
_RANGED = frozenset(stem(word) for word in "sync adaptive vrr variable range".split())
_LEAST_REFRESH, _MOST_REFRESH = (
    20,
    600,
)  # Hz; such numbers without a unit may be a range. Common practice, no source.
_COMPARED_WITHIN = 4  # words between two numbers that are held against each other: '64 GB of memory over 32'
_LONGEST_BETWEEN = 3  # words between a part and the whole: '9 times out of 12'
_CALLED_WITHIN = 7  # words before a range in which it is called one
_BEFORE, _BEHIND = 3, 3  # words in which it is said that a part is what went wrong


def is_thought_of(facts: Facts, second: Input, value: object) -> bool:
    """Whether one rate alone is what somebody thinks of buying: 'is 144 Hz worth it', set against what is usual now."""
    usual = second.default if isinstance(second, Number) else None
    if usual is None or not isinstance(value, (int, float)) or value < usual:
        return False
    return any(word.text in _THINKS_OF for word in facts.words)


def turn_round(facts: Facts, offers_of: dict[str, list[Offer]]) -> None:
    """'120 over 60': the second is what there is now. The first number is taken from the first of the pair."""
    for key in [key for key in offers_of if key.endswith("_a") and key[:-1] + "b" in offers_of]:
        places = sorted({offer.quantity.at for offer in offers_of[key]})
        led = {w.text for w in facts.words[max(0, places[-1] - 2) : places[-1]]}
        between = {w.text for w in facts.words[places[0] : places[-1]]}
        if len(places) == 2 and ({"over", "instead"} & between or _NOW & led or "from" in led):
            offers_of[key] = [offer for offer in offers_of[key] if offer.quantity.at == places[1]]


def the_lower(facts: Facts, plan: Plan, offers_of: dict[str, list[Offer]]) -> None:
    """'a gen 4 card in a gen 3 slot': a link runs at the generation that both ends know, the lower one."""
    for key, offers in offers_of.items():
        if ("gen",) not in plan.asked[key].names or len(offers) != 2:
            continue
        first, second = sorted(offers, key=lambda offer: offer.quantity.at)
        between = {w.text for w in facts.words[first.quantity.at : second.quantity.at + 3]}
        if between & _SLOT and not between & {"or", "vs", "than", "versus", "instead"}:
            offers_of[key] = [min(offers, key=lambda offer: offer.quantity.value)]


def is_compared(facts: Facts, quantity: Quantity) -> bool:
    """Whether a number is one of two that are weighed against each other, '64 over 32', and none that one has."""
    before = [w.text for w in facts.words[max(0, quantity.at - 3) : quantity.at]]
    if any(text in ("have", "got", "with", "has", "my", "only") for text in before):
        return False
    for other in facts.quantities:
        first, second = sorted((quantity, other), key=lambda q: q.at)
        between = [w.text for w in facts.words[first.at + 1 : second.at]]
        if (
            first.at != second.at
            and len(between) <= _COMPARED_WITHIN
            and any(t in ("over", "vs", "versus") for t in between)
        ):
            return True
    return False


def has_twin(key: str, plan: Plan) -> bool:
    """Whether an input is a first or a second of one thing: rate_a beside rate_b."""
    return key[-2:] in ("_a", "_b") and {key[:-1] + "a", key[:-1] + "b"} <= set(plan.asked)


def in_order(keys: Sequence[str]) -> bool:
    """Whether inputs are a first and a second of one thing: rate_a, rate_b."""
    return len(keys) == 2 and keys[0][:-1] == keys[1][:-1] and keys[0][-2:] == "_a" and keys[1][-2:] == "_b"


def spans(facts: Facts, plan: Plan, used: set[int]) -> Iterator[Reading]:
    """'48 to 144 Hz', where a calculator asks for the bottom and the top of a range."""
    low, high = plan.asked.get("low"), plan.asked.get("high")
    if low is None or high is None:
        return
    by_at = {q.at: q for q in facts.quantities}
    pairs = [(q, by_at.get(q.borrowed) or _up_to(facts, q, by_at)) for q in facts.quantities]
    of_frames = [q for q, other in pairs if other is not None and _counts_frames(facts, other)]
    called = [q for q, other in pairs if other is not None and _is_called_a_range(facts, q)]
    for quantity, other in pairs:
        if quantity in of_frames or (called and quantity not in called):
            continue  # '38-45 fps', where the display's range stands elsewhere or nowhere
        if other is None or not quantity.value < other.value:
            continue
        between = {w.text for w in facts.words[quantity.at + 1 : other.at]} - {"hz", "hertz"}
        unit, _, _ = unit_behind(facts, low, other.at)
        before = {w.text for w in facts.words[max(0, quantity.at - _BEFORE) : quantity.at]}
        could_be = quantity.value >= _LEAST_REFRESH and other.value <= _MOST_REFRESH
        could_be = could_be and (facts.text[quantity.end : other.start] == "-" or bool({"range", "vrr"} & before))
        is_a_range = could_be and not foreign_unit(facts, other.at) and any(r in _RANGED for r in facts.roots)
        if (unit or is_a_range) and between <= {"to", "-", "up"} and between - {"up"}:
            used |= {quantity.at, other.at}
            for key, one in (("low", quantity), ("high", other)):
                if (value := accepted(plan.asked[key].entry, facts.typed(one))) is not None:
                    yield Reading(key, value, facts.text[quantity.start : other.end], one.start)
            return


def _counts_frames(facts: Facts, quantity: Quantity) -> bool:
    """Whether a number counts frames that are made: '38 to 45 fps'."""
    behind = facts.words[quantity.at + 1 : quantity.at + 2]
    return bool(behind) and behind[0].text in ("fps", "frames")


def _is_called_a_range(facts: Facts, quantity: Quantity) -> bool:
    """Whether a number's sentence calls it a range before it: 'range in the menu says 48-144'."""
    sentence = facts.words[quantity.at].sentence
    before = [w.text for w in facts.words[max(0, quantity.at - _CALLED_WITHIN) : quantity.at] if w.sentence == sentence]
    return bool({"range", "vrr", "window"} & set(before))


def _up_to(facts: Facts, quantity: Quantity, by_at: Mapping[int, Quantity]) -> Quantity | None:
    """The top of a range whose ends both have their unit: '48hz-165hz', '48 Hz to 165 Hz'."""
    texts = [w.text for w in facts.words[quantity.at + 1 : quantity.at + 3]]
    return by_at.get(quantity.at + 3) if texts[:1] in (["hz"], ["hertz"]) and texts[-1] in ("-", "to") else None


def out_of(facts: Facts, plan: Plan, used: set[int]) -> Iterator[Reading]:
    """'9 out of 12', where an input goes by 'out of' and the one before it is counted too."""
    keys = list(plan.asked)
    key = next((k for k in keys if ("out", "of") in plan.asked[k].names), None)
    if key is None or keys.index(key) == 0:
        return
    part = keys[keys.index(key) - 1]
    by_at = {q.at: q for q in facts.quantities}
    for quantity in facts.quantities:
        for gap in range(2, _LONGEST_BETWEEN + 2):
            other = by_at.get(quantity.at + gap)
            between = [w.text for w in facts.words[quantity.at + 1 : quantity.at + gap]]
            if other is not None and between in _OUT_OF and quantity.value <= other.value:
                used |= {quantity.at, other.at}
                words = facts.text[quantity.start : other.end]
                around = {w.text for w in facts.words[max(0, quantity.at - _BEFORE) : other.at + _BEHIND]}
                missed = bool(around & _MISSED) and not around & _HITS  # 'wrong 3 times out of 16'
                yield Reading(
                    part, tidy(other.value - quantity.value if missed else quantity.value), words, quantity.start
                )
                yield Reading(key, tidy(other.value), words, other.start)
                return
    yield from _counted_apart(facts, plan, part, key, used)


def _counted_apart(facts: Facts, plan: Plan, part: str, key: str, used: set[int]) -> Iterator[Reading]:
    """'did 10 rounds, got 8': the whole is counted by its name, the part stands behind 'got'."""
    wholes = [q for q in facts.quantities if not q.denied and name_after(facts, plan.asked[key], q.at)]
    parts = [
        q for q in facts.quantities if q.at and not q.denied and facts.words[q.at - 1].text in _GOT and q not in wholes
    ]
    if len(wholes) == len(parts) == 1 and parts[0].value <= wholes[0].value:
        behind = facts.words[parts[0].at + 1 : parts[0].at + 2]
        if not behind or behind[0].text in _HITS | _PAUSES:
            used.add(parts[0].at)
            yield Reading(part, tidy(parts[0].value), facts.text[parts[0].start : parts[0].end], parts[0].start)
