"""Two inputs with the same options, such as the two ends of a cable: which of them each name in a text is for."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

from calculators.asking.facts import Facts
from calculators.asking.inputs.naming import words_away
from calculators.asking.inputs.plan import Plan
from calculators.asking.inputs.values import Place, Reading, reading_at
from calculators.asking.phrases import Mention
from calculators.asking.words import stem

# The words by which a text says which of two like inputs is meant: from what to what, and by which device.
_TO = frozenset({"to", "into", "in", "onto", ">", "→"})


_BOXES = frozenset("hub dock docking dongle adapter adaptor converter box cable lead".split())
_SHOWS = frozenset("monitor tv television projector beamer screen display".split())
_SENDS = frozenset("pc card gpu laptop notebook console computer board machine tablet phone handheld player".split())
_ASKS = frozenset("does do did will would can could should is are".split())
_WORKS = frozenset("work works worked fine ok okay".split())
_WAYS = (("from", "to"), ("plug", "socket"))  # pairs of inputs that are the two ends of a connection
_FROM_TO = 9  # words between the two ends: 'from the HDMI of my PC into the DVI socket of an old monitor'
_AT_A_DEVICE = 5  # words before an end in which the device it is at is named
_THROUGH = 6  # words: 'USB-C hub with an HDMI output'
_WORKS_WITHIN = 4  # words behind a name in which it is told as working
_MORE_OF_IT = 3  # words: 'one plug with 3 rings'


def twin_readings(
    facts: Facts, plan: Plan, first: str, second: str, of_first: Sequence[Mention], of_second: Sequence[Mention]
) -> Iterator[Reading]:
    """Two inputs with the same options: which is meant is read from 'X to Y' or from words near by; else neither."""
    places: dict[Place, tuple[Mention, object]] = {}
    for mention in (*of_first, *of_second):
        places.setdefault((mention.first, mention.last), (mention, mention.stands_for[1]))
    mentioned = _without_what_works(facts, [places[place] for place in sorted(places)])
    only_first = {m.stands_for[1] for m in of_first} - {m.stands_for[1] for m in of_second}
    given: dict[str, tuple[object, Mention]] = {}
    if second == "other_" + first:
        for mention, value in mentioned:
            key = first if first not in given else second
            if key == second and value == given[first][0]:
                continue
            given.setdefault(key, (value, mention))
    else:
        by_device = dict(_by_device(facts, mentioned)) if (first, second) == ("from", "to") else {}
        if len(by_device) == 2 and by_device["from"][0] != by_device["to"][0]:
            given |= by_device  # 'the screen has VGA in only, the pc HDMI out'
        for (one, value), (other, beyond) in itertools.pairwise(mentioned) if not given else ():
            between = [w.text for w in facts.words[one.last + 1 : other.first]]
            apart = other.first - one.last - 1
            if apart <= _FROM_TO and any(text in _TO for text in between) and "." not in between and value != beyond:
                given.setdefault(first, (value, one))
                given.setdefault(second, (beyond, other))
                break
        if (first, second) == ("from", "to"):
            given |= {side: one for side, one in _by_device(facts, mentioned) if side not in given}
        if not given and (first, second) in _WAYS:
            given |= _through_a_box(facts, first, second, mentioned)
        for mention, value in mentioned:
            if any(mention.first <= used.last and used.first <= mention.last for _, used in given.values()):
                continue
            if any(value == worn and _tells_more_of(facts, used, mention) for worn, used in given.values()):
                continue
            side = first if value in only_first else _side_of(facts, plan, first, second, mention)
            if side and side not in given:
                given[side] = (value, mention)
    for key, (value, mention) in given.items():
        yield reading_at(facts, key, value, (mention.first, mention.last))


def _tells_more_of(facts: Facts, one: Mention, other: Mention) -> bool:
    """Whether the second name only says more of the first: 'one plug with 3 rings'."""
    between = [w.text for w in facts.words[one.last + 1 : other.first]]
    return 0 < len(between) <= _MORE_OF_IT and bool({"with", "has", "having"} & set(between)) and "," not in between


def _without_what_works(facts: Facts, mentioned: list[tuple[Mention, object]]) -> list[tuple[Mention, object]]:
    """Of several things those that are not told as working: '4-pin ones work. If I plug in 3-pin ones …'."""
    if len({value for _, value in mentioned}) < 2:
        return mentioned
    left = []
    for mention, value in mentioned:
        after = [
            w
            for w in facts.words[mention.last + 1 : mention.last + 1 + _WORKS_WITHIN]
            if w.sentence == facts.words[mention.last].sentence
        ]
        texts = [w.text for w in after]
        works = next((n for n, text in enumerate(texts) if text in _WORKS), None)
        asked = {w.text for w in facts.words[: mention.first] if w.sentence == facts.words[mention.first].sentence}
        if works is not None and asked & _ASKS:
            works = None
        if works is None or {"not", "dont", "doesnt", "no", "never", "wont", "to", "if", "will"} & set(texts[:works]):
            left.append((mention, value))
    return left or mentioned


def _by_device(
    facts: Facts, mentioned: Sequence[tuple[Mention, object]]
) -> Iterator[tuple[str, tuple[object, Mention]]]:
    """'HDMI out on the pc, the projector just has VGA': an end by what it is at."""
    for mention, value in mentioned:
        after = [w.text for w in facts.words[mention.last + 1 : mention.last + 3]]
        before = [w.text for w in facts.words[max(0, mention.first - _AT_A_DEVICE) : mention.first]]
        boxed = any(text in _BOXES for text in before)
        if after[:1] in (["out"], ["output"]) and not boxed:
            yield "from", (value, mention)
        elif after[:1] in (["in"], ["input"]) and after[1:] not in (["the"], ["my"], ["a"]):
            yield "to", (value, mention)
        elif any(t in ("has", "have", "takes", "wants", "with") for t in before[-3:]) and not boxed:
            shows = any(t in _SHOWS for t in before)
            sends = any(t in _SENDS for t in before)
            if shows != sends:
                yield ("to" if shows else "from"), (value, mention)


def _through_a_box(
    facts: Facts, first: str, second: str, mentioned: Sequence[tuple[Mention, object]]
) -> dict[str, tuple[object, Mention]]:
    """'USB-C hub with an HDMI output': a box between two different ends leads from one to the other."""
    for (one, value), (other, beyond) in itertools.pairwise(mentioned):
        between = facts.words[one.last + 1 : other.first]
        led = [w.text for w in between]
        if value != beyond and len(led) <= _THROUGH and any(text in _BOXES for text in led[:2]) and "." not in led:
            return {first: (value, one), second: (beyond, other)}
    return {}


def _side_of(facts: Facts, plan: Plan, first: str, second: str, mention: Mention) -> str:
    following = facts.roots[mention.last + 1 : mention.last + 2]
    own = set(facts.roots[mention.first : mention.last + 1])
    for key, other in ((first, second), (second, first)):
        if following == (stem(key),) or (stem(key) in own and stem(other) not in own):
            return key  # 'a 6.3 socket', 'separate sockets'
    before = [w.text for w in facts.words[max(0, mention.first - 3) : mention.first]]
    if (first, second) in _WAYS and any(text in ("to", "into") for text in before):
        return second
    if (first, second) in _WAYS and "from" in before[-2:]:
        return first
    distance = {key: words_away(facts, plan.asked[key].near, mention.first, mention.last) for key in (first, second)}
    if distance[first] == distance[second]:
        return ""
    return min(distance, key=lambda key: distance[key])
