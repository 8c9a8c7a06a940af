"""What a text tells of two kits of memory, the one that is there and the one to come."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from calculators.asking import kits as kit_words
from calculators.asking.facts import Facts
from calculators.asking.inputs.choices import WEAK
from calculators.asking.inputs.plan import AskedInput, Plan, needs_a_name
from calculators.asking.inputs.scores import score_of
from calculators.asking.inputs.values import Reading, accepted, tidy
from calculators.asking.phrases import mentions
from calculators.desk.inputs import Choice, Number, Text

_STICKS_TO = 14  # characters: what stands so close before a kit is that kit's: 'a 3200 2x8'
_REACHES = 60  # characters: what stands further before the only kit is of something else
_LEAD = 14  # characters in which 'both' or 'each' stands before what is of both kits


def by_kit(facts: Facts, plan: Plan, pairs: set[str]) -> Iterator[Reading]:
    """Count, size and everything else of either kit, each for the kit that it stands with."""
    kits = kit_words.find_kits(facts)
    given: dict[str, dict[str, tuple[Any, str, int]]] = {kit_words.HAVE: {}, kit_words.ADD: {}}
    for kit in kits:
        words = facts.text[kit.start : kit.end]
        if kit.count is not None and "count" in pairs:
            given[kit.role]["count"] = (kit.count, words, kit.start)
        if kit.size_gb is not None and "size" in pairs:
            given[kit.role]["size"] = (kit.size_gb, words, kit.start)
    own = {key.removeprefix(kit_words.HAVE) for key in plan.asked if key.startswith(kit_words.HAVE)}
    for part in sorted(own - {"count", "size"}):
        asked = plan.asked[kit_words.HAVE + part]
        attributes = list(_attributes(facts, plan, part, asked))
        if not attributes:
            continue
        values = {value for value, _, _, _ in attributes}
        if part == "form" and (turned := kit_words.into_another_form(facts)):
            for role, one in turned.items():
                given[role].setdefault(part, one)
            continue
        if part in ("generation", "form") and len(values) == 1:
            for role in given:
                given[role].setdefault(part, attributes[0][:3])
            continue
        if not kits and any(quantity.weight < 0 for quantity in facts.quantities) and len(facts.quantities) > 1:
            seen_at = [quantity.start for quantity in facts.quantities if quantity.weight < 0]
            if len(values) > 1 or part != "rate" or attributes[0][2] > seen_at[0]:
                continue  # some of it is told of something that only happens
        if not kits:
            roles = [kit_words.HAVE] if len(values) == 1 else [kit_words.HAVE, kit_words.ADD]
            distinct = list({value: one for one in reversed(attributes) for value in (one[0],)}.values())[::-1]
            if len(distinct) > 1 and not kit_words.are_joined(facts.small, distinct[0][3], distinct[1][2]):
                continue
            if len(distinct) > 1 and kit_words.stands_beside(facts.small, distinct[0][3], distinct[1][2]):
                roles = [kit_words.ADD, kit_words.HAVE]
            for role, one in zip(roles, distinct, strict=False):
                given[role].setdefault(part, one[:3])
            continue
        for value, words, start, end in attributes:
            lead = facts.small[max(0, start - _LEAD) : start]
            if any(word in lead.split() for word in ("both", "all", "each")):
                for role in given:
                    given[role].setdefault(part, (value, words, start))
                continue
            owner = _kit_of(facts, kits, start, end)
            if owner is not None:
                given[owner.role].setdefault(part, (value, words, start))
    if kit_words.same_again(facts) and given[kit_words.HAVE]:
        for part, one in given[kit_words.HAVE].items():
            given[kit_words.ADD].setdefault(part, one)
    for role, parts in given.items():
        for part, (value, words, start) in parts.items():
            key = role + part
            if key in plan.asked and (read := accepted(plan.asked[key].entry, value)) is not None:
                yield Reading(key, read, words, start)


def _attributes(facts: Facts, plan: Plan, part: str, asked: AskedInput) -> Iterator[tuple[Any, str, int, int]]:
    """Values of one attribute of a kit in the text: (value, words, start, end)."""
    entry = asked.entry
    if isinstance(entry, Choice):
        for mention in mentions(facts, plan.choices):
            key, value = mention.stands_for
            if key == entry.key and not mention.denied:
                single = mention.size == 1
                if single and (value == entry.start or (facts.roots[mention.first] in WEAK and part != "form")):
                    continue
                first, last = facts.words[mention.first], facts.words[mention.last]
                yield value, facts.text[first.start : last.end], first.start, last.end
        for mention in mentions(facts, plan.named):
            if mention.stands_for[0] == entry.key:
                first, last = facts.words[mention.first], facts.words[mention.last]
                yield "no" if mention.denied else "yes", facts.text[first.start : last.end], first.start, last.end
        return
    if isinstance(entry, Text):
        for row, start, end in facts.rows:
            yield row, row, start, end
        for quantity in facts.quantities:
            word = facts.words[quantity.at - 1] if quantity.at else None
            within = any(start <= quantity.start < end for _, start, end in facts.rows)
            if word and word.text in ("is", "=", ":") and quantity.at > 1:
                word = facts.words[quantity.at - 2]
            glued = word is not None and facts.small[word.end : quantity.start].strip() in ("", "is", "=", ":")
            if word and word.text in ("cl", "c", "cas") and glued and not within:
                text = facts.text[word.start : quantity.end]
                yield f"CL{int(quantity.value)}", text, word.start, quantity.end
        return
    if needs_a_name(entry):
        return
    for text, start, end in facts.labels:
        value = entry.printed(text) if entry.printed else None
        if value is not None:
            yield value, facts.text[start:end], start, end
    taken = [(start, end) for _, start, end in facts.labels]
    offers = []
    for quantity in facts.quantities:
        if quantity.denied or any(start <= quantity.start < end for start, end in taken):
            continue
        scored = score_of(facts, asked, quantity)
        if scored is not None and (value := accepted(entry, scored.typed)) is not None:
            offers.append((quantity.weight, value, quantity))
    offers.sort(key=lambda offer: -offer[0])
    for weight, value, quantity in offers:
        if weight >= 0:
            yield value, facts.text[quantity.start : quantity.end], quantity.start, quantity.end


def _kit_of(facts: Facts, kits: Sequence[kit_words.Kit], start: int, end: int) -> kit_words.Kit | None:
    """The kit that an attribute belongs to: the last one before it, unless it stands close before the next."""
    before = [kit for kit in kits if kit.start <= start]
    after = [kit for kit in kits if kit.start >= end]
    apart = any(sign in facts.small[end : after[0].start] for sign in ",.!?;\n") if after else True
    if (
        after
        and not apart
        and after[0].start - end <= _STICKS_TO
        and (not before or start - before[-1].end > after[0].start - end)
    ):
        return after[0]
    if before:
        return before[-1]
    return after[0] if after and after[0].start - end < _REACHES else None


def by_total(facts: Facts, plan: Plan) -> Iterator[Reading]:
    """The memory in all, where a calculator asks for that alone: 2 × 8 GB as 16."""
    sized = {
        key: asked for key, asked in plan.asked.items()
        if "gb" in asked.units and ("gb",) in asked.names and isinstance(asked.entry, Number)
    }  # fmt: skip
    if len(sized) != 1:
        return
    kits = [kit for kit in kit_words.find_kits(facts) if kit.count and kit.size_gb]
    if not kits:
        return
    kit = next((k for k in kits if k.role == kit_words.HAVE), kits[0])
    total = kit.count * kit.size_gb  # type: ignore[operator]
    if kit_words.same_again(facts) and len(kits) == 1:
        total *= 2
    key, asked = next(iter(sized.items()))
    if (value := accepted(asked.entry, tidy(total))) is not None:
        yield Reading(key, value, facts.text[kit.start : kit.end], kit.start)
