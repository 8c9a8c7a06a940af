"""Choices: the options that a text names, and the common cases whose symptoms it tells."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

from calculators.asking.facts import Facts
from calculators.asking.inputs.ends import twin_readings
from calculators.asking.inputs.plan import AskedInput, Plan, is_kit_key, needs_a_name
from calculators.asking.inputs.values import Reading, reading_at
from calculators.asking.phrases import Mention, Name, by_first, mentions
from calculators.asking.words import SAYS_NOTHING, cut, root, stem
from calculators.desk.inputs import Choice, Estimate, Input

# Single words that stand in texts for too many things to choose by, unless the words before them say what for.
WEAK = frozenset(
    stem(word)
    for word in "work text desktop office game gaming film movie play video tv television screen file cpu gpu card "
    "program recorder player stereo watching typing series normal usual light clean heavy app interface dongle "
    "amp jack "
    "laptop notebook phone monitor motherboard onboard mono both left right steps quality fast slow small large yes no "
    "none other one two usb analog analogue hardware software editor front back middle cable wired wireless "
    "streaming chip".split()
)  # fmt: skip


# Before a weak word: it says what for, so the word counts.
_FOR = frozenset("for to wanna want watch play gonna as watching playing only just mostly mainly".split())
_THINGS = frozenset({"device"})  # choices of one thing among several that a sentence may all name
_FLASHES = ("flash", "flicker", "blink")
_VERBS_TOO = frozenset("work works text watching playing typing".split())
_UNITS_OF_A_MODE = frozenset("hz hertz herz fps p".split())
_ASKED_WITHIN = 3  # words before a name in which one asks for it: 'do I need …'
_HELD_AGAINST = 4  # words: 'the same as', 'as good as'
_ON_OR_OFF = 3  # words behind a name: 'is it better on or off'
_ASKED_WHICH = 3  # words between two: '10 bit, or better 8 bit'
# Before a name that is a yes: it is asked for, not told.
_ASKING = frozenset("need should worth or if would could can does do will".split())


_WITHOUT = frozenset({"no", "without", "dont", "never"})  # right before what there is none of: 'no games'
_PARTS = frozenset(",/+-:(")  # before a part of a list


def by_preset(facts: Facts, plan: Plan, pairs: set[str]) -> Iterator[Reading]:
    """A case whose symptom the text tells, where the text also names what the case is about."""
    if not plan.presets:
        return
    symptoms = [m for m in mentions(facts, plan.presets) if not m.denied]
    cases = {m.stands_for for m in symptoms}
    if len(cases) != 1:
        return
    preset = next(p for p in plan.calculator.presets if p.key in cases)
    named = {m.stands_for[0] for m in mentions(facts, plan.choices)}
    named |= {key for key in preset.inputs if key in plan.asked and _names_in(facts, plan.asked[key])}
    outright = [r for r in by_choice(facts, plan, pairs) if r.key in preset.inputs]
    between = {w.sentence for w in facts.words for r in outright if w.start == r.start}
    if len(outright) == len(preset.inputs) and len(between) == 1:
        return  # the text tells it all outright, in one breath
    if named & set(preset.inputs):
        for key, value in preset.inputs.items():
            yield reading_at(facts, key, value, (symptoms[0].first, symptoms[0].last))


def _names_in(facts: Facts, asked: AskedInput) -> bool:
    """Whether a text holds a name of the input's that has several words."""
    wanted = [n for n in asked.names if len(n) > 1]
    return bool(mentions(facts, by_first(Name(n, True) for n in wanted)))


def by_choice(facts: Facts, plan: Plan, pairs: set[str]) -> Iterator[Reading]:
    """Options that the text names, and what is yes, no or none by a name told or denied."""
    by_key: dict[str, list[Mention]] = {}
    for mention in mentions(facts, plan.choices):
        key, _ = mention.stands_for
        if mention.denied or is_kit_key(key, pairs) or not _is_clear(facts, plan, mention):
            continue
        if any(w.text.startswith(_FLASHES) for w in facts.words[max(0, mention.first - 2) : mention.first + 1]):
            continue  # what only flashes is not gone
        around = [w.text for w in facts.words[mention.first : mention.last + 1 + _ON_OR_OFF]]
        if any(around[n : n + 3] in (["on", "or", "off"], ["off", "or", "on"]) for n in range(len(around))):
            continue
        led = [w.text for w in facts.words[max(0, mention.first - _HELD_AGAINST) : mention.first]]
        if led[-1:] == ["as"] and {"as", "same"} & set(led[:-1]):
            continue  # it is held against that: 'the same as 10 bit', '8 bit as good as 10 bit'
        entry = plan.asked[key].entry
        seldom = isinstance(entry, Estimate) or (needs_a_name(entry) and not _says_it_all(facts, entry, mention))
        seldom = seldom and key not in plan.twins.values()
        own = mention.size == 1 and facts.words[mention.first].text in entry.names  # 'soundbar' names sound and choice
        if seldom and not own and not _is_called(facts, plan.asked[key], mention):
            continue
        by_key.setdefault(key, []).append(mention)
    for first, second in plan.twins.items():
        if first in by_key or second in by_key:
            yield from twin_readings(facts, plan, first, second, by_key.pop(first, []), by_key.pop(second, []))
    for key, mentioned in by_key.items():
        vague = {option.value for option in getattr(plan.asked[key].entry, "options", ()) if option.vague}
        exact = [mention for mention in mentioned if mention.stands_for[1] not in vague]
        chosen = _one_of(facts, plan, key, exact or mentioned)
        if chosen is not None and not _another_is_named(facts, plan, chosen):
            yield reading_at(facts, key, chosen.stands_for[1], (chosen.first, chosen.last))
    for mention in mentions(facts, plan.without):
        key, value = mention.stands_for
        if key not in by_key and mention.denied and facts.words[mention.first - 1].text in _WITHOUT:
            yield reading_at(facts, key, value, (mention.first - 1, mention.last))
    for mention in mentions(facts, plan.named):
        key, _ = mention.stands_for
        before = [w.text for w in facts.words[max(0, mention.first - _ASKED_WITHIN) : mention.first]]
        if any(text in _ASKING for text in before):
            continue  # it is asked, not told
        if not is_kit_key(key, pairs):
            yield reading_at(facts, key, "no" if mention.denied else "yes", (mention.first, mention.last))


def _another_is_named(facts: Facts, plan: Plan, chosen: Mention) -> bool:
    """Whether a sentence with 'ssd' has a 'card' too, a word that alone says too little: either may be meant."""
    if chosen.size > 1 or chosen.stands_for[0] not in _THINGS:
        return False
    sentence = facts.words[chosen.first].sentence
    entry = plan.asked[chosen.stands_for[0]].entry
    labels = {o.value: {stem(w.text) for phrase in (o.label, *o.names) for w in cut(phrase)} for o in entry.options}  # type: ignore[attr-defined]
    others = set().union(*(words for value, words in labels.items() if value != chosen.stands_for[1]))
    own = labels[chosen.stands_for[1]]
    return any(
        facts.words[at].sentence == sentence and root in (others - own) & WEAK and at != chosen.first
        for at, root in enumerate(facts.roots)
    )


def _says_it_all(facts: Facts, entry: Input, mention: Mention) -> bool:
    """Whether a choice that few tell is told by its very name, and is no usual one: 'a hard drive'."""
    if not isinstance(entry, Choice) or not entry.label.startswith("Kind of"):
        return False
    value = mention.stands_for[1]
    option = next((o for o in entry.options if o.value == value), None)
    words = " ".join(w.text for w in facts.words[mention.first : mention.last + 1])
    return option is not None and value != entry.default and words in option.names and stem(words) not in WEAK


def _is_called(facts: Facts, asked: AskedInput, mention: Mention) -> bool:
    """Whether the input itself is named in a choice's sentence."""
    sentence = facts.words[mention.first].sentence
    callings = mentions(facts, by_first(Name(n, True) for n in asked.names))
    return any(facts.words[m.first].sentence == sentence and m.first != mention.first for m in callings)


def _is_clear(facts: Facts, plan: Plan, mention: Mention) -> bool:
    """Whether a name says enough: a weak single word needs to be what something is for."""
    if mention.size == 1 and facts.words[mention.first].text == "window":
        return False  # 'out of the window' names no system
    if mention.size > 1 or facts.roots[mention.first] not in WEAK | SAYS_NOTHING:
        return True
    key = mention.stands_for[0]
    led = [w for w in facts.words[: mention.first] if not any(s.start <= w.start < s.end for s in facts.sizes)]
    before = [w.text for w in led[-2:]]  # 'want 4k60 films'
    counts = led[-1:] != [] and (led[-1].is_number or led[-1].text in _UNITS_OF_A_MODE)  # '1440p 120 games'
    behind_a_size = (
        len(led) < mention.first
        and mention.first - len(led)
        and any(0 <= facts.words[mention.first].start - s.end <= 1 for s in facts.sizes)
    )
    if key == "use" or plan.asked[key].entry.label.casefold().startswith("what for"):
        start = mention.first == 0 or facts.words[mention.first - 1].sentence != facts.words[mention.first].sentence
        listed = (counts or bool(behind_a_size)) and facts.words[mention.first].text not in _VERBS_TOO
        return start or listed or before[-1:][0] in _PARTS or any(t in _FOR for t in before)
    if key in _THINGS:
        return not _names_another_option(facts, plan, mention)  # 'the card runs at x8', with no disk in the text
    return False


def _names_another_option(facts: Facts, plan: Plan, mention: Mention) -> bool:
    """Whether a text names another option of the same input too."""
    key, value = mention.stands_for
    return any(other.stands_for[0] == key and other.stands_for[1] != value for other in mentions(facts, plan.choices))


def _one_of(facts: Facts, plan: Plan, key: str, mentioned: Sequence[Mention]) -> Mention | None:
    """The one meant of several: the first that is not told as what there is in its stead."""
    left = list(mentioned)
    values = {mention.stands_for[1] for mention in left}
    if len(values) > 1 and any(
        one.stands_for != other.stands_for and one.first <= other.last and other.first <= one.last
        for one in left for other in left
    ):  # fmt: skip
        return None  # 'on or off'
    if len(values) > 1:
        entry = plan.asked[key].entry
        wider = [m for m in left if any(_is_wider(entry, facts, m, other) for other in left)]
        left = wider or left
        if any(_is_asked_which(facts, one, other) for one, other in itertools.pairwise(left)):
            return None
        if entry.key == "lanes":  # a link runs at the width that both ends have, the narrower one
            return min(left, key=lambda m: int(m.stands_for[1]))
        left = [m for m in left if not _is_left(facts, m)] or left
    return left[0]


def _is_asked_which(facts: Facts, one: Mention, other: Mention) -> bool:
    """Whether a text asks which of two numbers it shall be: '10 bit or 8 bit'."""
    numeric = any(c.isdecimal() for c in f"{one.stands_for[1]}{other.stands_for[1]}")
    between = [w.text for w in facts.words[one.last + 1 : other.first]]
    return (
        numeric
        and one.stands_for != other.stands_for
        and len(between) <= _ASKED_WHICH
        and bool({"or", "vs"} & set(between))
    )


def _is_left(facts: Facts, mention: Mention) -> bool:
    """Whether a name is what something is not: 'x8 instead of x16', 'only 4:2:0'."""
    before = [w.text for w in facts.words[max(0, mention.first - 2) : mention.first]]
    after = [w.text for w in facts.words[mention.last + 1 : mention.last + 4]]
    if after[:1] == ["for"] and after[-1] in ("s", "sec", "secs", "second", "seconds", "moment"):
        return True  # and gone again
    return before[-2:] in (["instead", "of"], ["rather", "than"]) or before[-1:] in (["only"], ["than"])


def _is_wider(entry: Input, facts: Facts, one: Mention, other: Mention) -> bool:
    """Whether an option holds what another name stands for: a headset with microphone, of headset and microphone."""
    value = one.stands_for[1]
    option = next((o for o in entry.options if o.value == value), None)  # type: ignore[attr-defined]
    label = {root(w.text) for w in cut(option.label)} if option else set()
    words_of_other = _one_form(facts, other) - _one_form(facts, one)
    return one.stands_for != other.stands_for and bool(words_of_other) and words_of_other <= label


def _one_form(facts: Facts, mention: Mention) -> set[str]:
    """The roots of a mention's words, where words of one meaning have one."""
    return {root(word.text) for word in facts.words[mention.first : mention.last + 1]}
