"""Which input each number of a text is for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from calculators.asking import kits as kit_words
from calculators.asking.facts import Facts, Quantity
from calculators.asking.inputs.measured_links import (
    is_short_of_a_link,
    move_what_no_link_has,
    parts_of_a_link,
    tell_measured,
)
from calculators.asking.inputs.naming import is_named, name_before
from calculators.asking.inputs.plan import Plan, is_kit_key, needs_a_name
from calculators.asking.inputs.ranges import (
    has_twin,
    in_order,
    is_compared,
    is_thought_of,
    out_of,
    spans,
    the_lower,
    turn_round,
)
from calculators.asking.inputs.scores import EXACT, score_of
from calculators.asking.inputs.units import NETWORKS, as_written
from calculators.asking.inputs.values import Offer, Reading, Score, accepted
from calculators.asking.phrases import Mention, mentions
from calculators.desk.inputs import Input

# Two values that are compared do not differ by more: common practice, no source.
_COMPARED_WITHIN = 500.0
# By so much an ordinary input is preferred to an extra one: less than between a unit and none (scores.py).
_ASKED_OF_ALL = 1.2
_EQUAL = 0.3  # points: what differs by less fits equally well, since one word further away makes less than that
# A number that is wanted weighs above 0, one that is only seen below it (facts.py): times this, more than a name near.
_FOR_BEING_WANTED = 4.5
_AS_LIKELY = 0.8  # points: of a value's numbers within so much of the best the first in the text is taken …
_OF_ANY_LIKELIHOOD = 9.0  # … of a first and a second of one thing the first of all, more than any score


def by_label(facts: Facts, plan: Plan, pairs: set[str]) -> Iterator[Reading]:
    """Labels in the text, read by the inputs' own functions for labels (`printed`)."""
    for key, asked in plan.asked.items():
        if asked.entry.printed is None or is_kit_key(key, pairs) or needs_a_name(asked.entry):
            continue
        for text, start, end in (*facts.labels, *facts.rows):
            value = asked.entry.printed(text)
            if value is not None and (read := accepted(asked.entry, value)) is not None:
                yield Reading(key, read, facts.text[start:end], start)
                break


def by_number(facts: Facts, plan: Plan, pairs: set[str], known: set[str]) -> Iterator[Reading]:
    """Numbers, each for the input that it fits best; one that fits several equally is left out."""
    used: set[int] = set()
    range_ends = list(spans(facts, plan, used))
    offers = _offers(facts, plan, pairs, used, {end.key for end in range_ends})
    turn_round(facts, offers)
    the_lower(facts, plan, offers)
    tell_measured(offers)
    move_what_no_link_has(facts, plan, offers)
    yield from parts_of_a_link(facts, plan, used)
    yield from range_ends
    yield from out_of(facts, plan, used)
    for key in offers:
        if key in known:
            continue
        offer = _likeliest(facts, plan, key, [offer for offer in offers[key] if offer.quantity.at not in used])
        if offer is None:
            continue
        value = accepted(plan.asked[key].entry, offer.typed)
        if value is None or _lacks_its_unit(plan.asked[key].entry, offer, offers):
            continue
        into = key
        if has_twin(key, plan) and key.endswith("_a"):
            used.add(offer.quantity.at)
            second = key[:-1] + "b"
            has_no_other = all(other.quantity.at == offer.quantity.at for other in offers.get(second, ()))
            if has_no_other and is_thought_of(facts, plan.asked[second].entry, value):
                into = second
        yield Reading(into, value, as_written(facts, plan.asked[into], offer.quantity), offer.quantity.start)


def _offers(facts: Facts, plan: Plan, pairs: set[str], used: set[int], ended: set[str]) -> dict[str, list[Offer]]:
    """By input the numbers that it may take. `ended` are the ends of a range: a further number is neither of them."""
    offers: dict[str, list[Offer]] = {}
    called: dict[str, list[Mention]] = {}
    for mention in mentions(facts, plan.called):
        called.setdefault(str(mention.stands_for), []).append(mention)
    blocked = {key for key, asked in plan.asked.items() if needs_a_name(asked.entry)}
    for quantity in facts.quantities:
        if quantity.denied or quantity.at in used:
            continue
        scores = [
            score
            for key, asked in plan.asked.items()
            if key not in ended
            and not is_kit_key(key, pairs)
            and (score := score_of(facts, asked, quantity, called.get(key, ()))) is not None
        ]
        for score in _best(facts, plan, quantity, scores, blocked):
            offers.setdefault(score.key, []).append(Offer(score.points, quantity, score.typed))
    return offers


def _best(facts: Facts, plan: Plan, quantity: Quantity, scores: list[Score], blocked: set[str]) -> Sequence[Score]:
    """The score that a number counts for: of a first and a second of one thing both, of others that are equal none."""
    if not scores:
        return ()
    scores = _best_named(facts, plan, quantity, scores)
    scores.sort(key=lambda score: -score.points)
    of_all = [score for score in scores if not plan.asked[score.key].entry.extra]
    if of_all and of_all[0].points >= scores[0].points - _ASKED_OF_ALL:
        scores = of_all  # what is asked of everybody comes before what few give
    top = [score for score in scores if scores[0].points - score.points < _EQUAL]
    if len(top) > 1 and not in_order([score.key for score in top]):
        top = _narrowed(facts, plan, quantity, top, blocked)
    if len(top) == 1:
        scores = top
    if len(top) > 1:
        return top if in_order([score.key for score in top]) else ()
    score = scores[0]
    unit_is_no_others = len(scores) == 1 and not plan.asked[score.key].entry.extra and score.has_unit
    needs_no_name = unit_is_no_others or (score.key.startswith("measured_") and is_short_of_a_link(quantity))
    if score.key in blocked and not needs_no_name and not is_named(facts, plan.asked[score.key], quantity):
        return ()
    return (score,)


def _likeliest(facts: Facts, plan: Plan, key: str, offers: Sequence[Offer]) -> Offer | None:
    """Of the numbers that an input may take the first that is as likely as the best; the wanted beats the seen."""
    if key.startswith(kit_words.HAVE) and len(facts.quantities) > 1:
        offers = [offer for offer in offers if not is_compared(facts, offer.quantity)]
    if not offers:
        return None
    within = _OF_ANY_LIKELIHOOD if has_twin(key, plan) else _AS_LIKELY
    most = max(_likelihood(key, offer) for offer in offers)
    return min((o for o in offers if most - _likelihood(key, o) < within), key=lambda offer: offer.quantity.at)


def _likelihood(key: str, offer: Offer) -> float:
    """How well a number fits, and whether it is wanted; what one has got is none the likelier for being wanted."""
    weight = offer.quantity.weight
    return offer.points + _FOR_BEING_WANTED * (min(weight, 0.0) if key.startswith(kit_words.HAVE) else weight)


def _lacks_its_unit(entry: Input, offer: Offer, offers: Mapping[str, Sequence[Offer]]) -> bool:
    """
    Whether a bare number would be read in another unit than its writer meant: beside '2.5 gbit', 2.35 is no 2.35 Mb/s.

    It is where something of its kind is told with a unit, and the two would lie further apart than any two that are
    compared.
    """
    if offer.has_unit:
        return False
    without_unit = accepted(entry, offer.typed)
    for other in (other for several in offers.values() for other in several):
        with_unit = accepted(entry, other.typed) if other.has_unit else None
        both = isinstance(without_unit, (int, float)) and isinstance(with_unit, (int, float))
        if both and 0 < without_unit * _COMPARED_WITHIN < with_unit:
            return True
    return False


def _best_named(facts: Facts, plan: Plan, quantity: Quantity, scores: list[Score]) -> list[Score]:
    """Those whose longest name stands right before a number: 'output impedance 120 ohm' is no plain impedance."""
    lengths = {score.key: name_before(facts, plan.asked[score.key], quantity.at) for score in scores}
    longest = max(lengths.values())
    if longest < 2 or all(score.points < EXACT for score in scores if lengths[score.key] == longest):
        return scores
    named = [score for score in scores if lengths[score.key] == longest]
    return named if all(score.has_unit for score in named) else scores


def _narrowed(facts: Facts, plan: Plan, quantity: Quantity, top: Sequence[Score], blocked: set[str]) -> list[Score]:
    """Of inputs that a number fits equally, those that are asked of everybody, then those that the text speaks of."""
    left = [score for score in top if score.key not in blocked] or list(top)
    part = _part_of_sentence(facts, quantity.at)
    before = set(facts.roots[: quantity.at])
    for roots_there, shared in ((part, True), (before, False)):
        if len(left) < 2 or (not shared and left[0].points < EXACT):
            break
        asked = {score.key: plan.asked[score.key] for score in left}
        spoken_for = {key: len((one.speaks if shared else one.sure_names) & roots_there) for key, one in asked.items()}
        most = max(spoken_for.values())
        left = [score for score in left if spoken_for[score.key] == most]
    return left


def _part_of_sentence(facts: Facts, at: int) -> set[str]:
    """The roots in a word's part of its sentence, from comma to comma."""
    first = last = at
    sentence = facts.words[at].sentence
    while first and facts.words[first - 1].sentence == sentence and facts.words[first - 1].text not in ",:()":
        first -= 1
    while last + 1 < len(facts.words) and facts.words[last + 1].sentence == sentence:
        last += 1
        if facts.words[last].text in ",:()":
            break
    return set(facts.roots[first : last + 1])


def by_adjective(facts: Facts, plan: Plan) -> Iterator[Reading]:
    """'a gigabit network', 'gig fibre': a unit that is said as a word, without a number, is one of it."""
    for at, word in enumerate(facts.words):
        behind = facts.words[at + 1].text if at + 1 < len(facts.words) else ""
        of_a_network = behind in NETWORKS
        if word.text not in ("gigabit", "gig") or (word.text == "gig" and not of_a_network):
            continue
        if at and (facts.words[at - 1].is_number or facts.words[at - 1].text in ("ten", "five", "multi")):
            continue
        for key, asked in plan.asked.items():
            named = ("gigabit",) in asked.names or (of_a_network and (behind,) in asked.names)
            value = accepted(asked.entry, "1 gigabit") if named and "gigabit" in asked.units else None
            if value is not None:
                yield Reading(key, value, facts.text[word.start : word.end], word.start)
