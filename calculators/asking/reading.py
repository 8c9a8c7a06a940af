"""
A calculator's inputs read from a text, by what the calculator declares: units, names, choices, labels.

Never a guess: what could be two inputs, or two values of one, is left out. Every reading tells the words it came from.
"""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any

from calculators.asking import kits as kit_words
from calculators.asking.facts import Facts, PictureSize, Quantity, behind
from calculators.asking.phrases import Mention, Name, by_first, mentions, name
from calculators.asking.words import SAYS_NOTHING, cut, root, stem
from calculators.catalogue import find
from calculators.desk.calculator import Calculator
from calculators.desk.errors import InputErrors
from calculators.desk.inputs import Choice, Estimate, Input, Number, PrivateText, Text, YesNo, read_all

# How people write units, beside what an input declares. Common practice, no source.
_EVERYDAY_UNITS = {
    "gig": "gb", "gigs": "gb", "gigabyte": "gb", "gigabytes": "gb", "g": "gb", "gbs": "gb", "gbytes": "gb",
    "mts": "mt/s", "mt": "mt/s", "c": "cl", "megahertz": "mhz",
    "mbitps": "mbit/s", "mbits": "mbit", "mbits/s": "mbit/s", "mbits/sec": "mbit/s", "mbit/sec": "mbit/s",
    "megabit": "mbit", "megabits": "mbit", "gigabits": "gbit", "gbits/sec": "gbit/s", "gig/s": "gb/s",
    "metre": "m", "metres": "m", "meter": "m", "meters": "m", "mtr": "m", "feet": "ft", "foot": "ft", "'": "ft",
    "ohm": "ω", "ohms": "ω", "Ω": "ω", "decibel": "db", "decibels": "db", "dbs": "db", "volt": "v", "volts": "v",
    "hrs": "h", "hr": "h", "hour": "h", "hours": "h", "mins": "min", "minute": "min", "minutes": "min",
    "sec": "s", "secs": "s", "second": "s", "seconds": "s", "millisecond": "ms", "milliseconds": "ms", "msec": "ms",
    "percent": "%", "herz": "hz", "hertz": "hz", "framespersecond": "fps", "frames": "fps", "nits": "nits",
    "gbe": "gbit/s", "pixels": "px", "pixel": "px", "mio": "million", "mil": "million", "mill": "million",
}  # fmt: skip
# Units of other things: a number with one of these is none of a calculator that does not ask for it.
_OTHER_UNITS = frozenset(
    "w watt watts kw € euro euros eur bucks dollars dollar pounds quid usd years year months month weeks week days day "
    "minutes minute hours hour times inch inches zoll cm mm ghz rpm percent % pc pcs pins pin rings ring bit "
    "bits fps hz "
    "mhz khz gb mb tb kb ms ns s px dpi ohm v db x m st nd rd th".split()
)
# Single words that stand in texts for too many things to choose by, unless the words before them say what for.
_WEAK = frozenset(
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
_THINKS_OF = frozenset("worth buy buying need worthwhile sense".split())
# Refresh and frame rates that people write without a unit.
_BARE_RATES = frozenset({30, 50, 60, 75, 90, 100, 120, 144, 160, 165, 170, 180, 200, 240, 280, 300, 360, 480, 540})
# The words by which a text says which of two like inputs is meant: from what to what, and by which device.
_TO = frozenset({"to", "into", "in", "onto"})
_BOXES = frozenset("hub dock docking dongle adapter adaptor converter box cable lead".split())
_SHOWS = frozenset("monitor tv television projector beamer screen display".split())
_SENDS = frozenset("pc card gpu laptop notebook console computer board machine tablet phone handheld player".split())
_THINGS = frozenset({"device"})  # choices of one thing among several that a sentence may all name
_ASKS = frozenset("does do did will would can could should is are".split())
_WORKS = frozenset("work works worked fine ok okay".split())
_WAYS = (("from", "to"), ("plug", "socket"))  # pairs of inputs that are the two ends of a connection
_MODES = frozenset("film movie cinema game gaming video".split())
_NEAR = 7  # words within which a name speaks for a number
_APART = 500.0  # two values that are compared do not differ by more: common practice, no source
_ASKED_OF_ALL = 1.2  # by so much an ordinary input is preferred to an extra one
_FLASHES = ("flash", "flicker", "blink")
_MAKES_FRAMES = frozenset("card gpu game games pc".split())
_NOW = frozenset("have got present current now".split())
# Between two numbers: the first is a part of the second, as in '12 out of 16'.
_OUT_OF = (
    ["from"],
    ["times", "in"],
    ["right", "in"],
    ["correct", "in"],
    ["right", "out", "of"],
    ["correct", "out", "of"],
    ["times", "from"],
    ["wrong", "out", "of"],
    ["wrong", "of"],
    ["wrong", "in"],
    ["of"],
    ["out", "of"],
    ["/"],
    ["times", "out", "of"],
    ["times", "of"],
    ["right", "of"],
    ["out", "of", "the"],
)
_MISSED, _HITS = frozenset("wrong missed mistakes errors".split()), frozenset("right correct hits".split())
# Between two numbers: they are compared.
_AGAINST = (["or"], ["vs"], ["vs", "."], ["to"], ["versus"], ["over"], ["instead", "of"], ["rather", "than"], ["/"])
_SLOT = frozenset("in on into slot board motherboard socket".split())
_BESIDE_A_SIZE = 14  # characters
_DISPLAYS = tuple((stem(word),) for word in "panel monitor screen display tv television".split())
_NETWORKS = frozenset("link network ethernet lan port switch nic connection networking".split())
_NETWORK_GIGS = frozenset("1 2.5 2,5 5 10".split())  # of a card with so many gigs it is no memory
_LINK_RATES = (100, 1000, 2500, 5000, 10_000)  # Mb/s, as _move_what_no_link_has tells
_LIMITS = (["limit"], ["limit", "of"], ["limit", "about"], ["limit", "is"], ["limit", "around"])
_EXACT = 3.0  # the score of a number with the very unit that an input declares
_RANGED = frozenset(stem(word) for word in "sync adaptive vrr variable range".split())
_BESIDE = frozenset("behind after before than ahead".split())

# Words that may stand between an input's name and its number: 'ping of about 12'.
_FILLERS = frozenset(
    "of is = : around about was e express only just like maybe roughly up to says say shows gives drops drop dropped "
    "falls fall fell dips dip goes sinks under below down sits sit hovers hover hangs in my most".split()
)

# Words between a number's unit and the name of what it tells: '10 min waiting on the disk'.
_LEADS_TO = frozenset("of for on in with at the a an my waiting wait is was goes into per".split())
_ARTICLES = (("the",), ("a",))

Place = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Reading:
    """One input read: its key, its value as JSON has it, and the words of the text that it was read from."""

    key: str
    value: Any
    words: str
    start: int = 0


@dataclass(frozen=True, slots=True)
class _Asked:
    """An input, and by what it is recognised in a text."""

    entry: Input
    units: Mapping[str, float]  # unit as typed, small letters: 1 its own, less for others
    names: tuple[tuple[str, ...], ...]  # the roots of its names and its label
    near: frozenset[str]  # single roots that speak for it when they stand near
    alone: frozenset[str]  # of those, the ones that are names by themselves, or stand in the label
    choices_near: frozenset[str]  # roots of its everyday choices, which speak for it a little
    counted: frozenset[str]  # names declared for one and for many: what is counted
    speaks: frozenset[str]  # all roots of its names and label, those too that it shares with others


@dataclass(slots=True)
class _Plan:
    calculator: Calculator
    asked: dict[str, _Asked] = field(default_factory=dict)
    choices: dict[str, list[Name]] = field(default_factory=dict)
    named: dict[str, list[Name]] = field(default_factory=dict)
    presets: dict[str, list[Name]] = field(default_factory=dict)
    twins: dict[str, str] = field(default_factory=dict)
    called: dict[str, list[Name]] = field(default_factory=dict)


def read_inputs(facts: Facts, calculator_name: str) -> list[Reading]:
    """
    The inputs of one calculator that a text gives.

    Args:
        facts: The text. [object]
        calculator_name: Such as "memory.rate". [text]

    Returns:
        Readings in the order of the inputs; each value is one that the calculator accepts. [list]

    Raises:
        UnknownCalculator: There is none of this name.

    Source:
        Common practice, no source: how people write down what they have.

    Example:
        >>> from calculators.asking.facts import gather
        >>> [(r.key, r.value) for r in read_inputs(gather("is 3600c18 any good"), "memory.rate")]
        [('rate', 3600), ('cas', 18)]
    """
    plan = _plan(calculator_name)
    found: dict[str, Reading] = {}
    pairs = _paired(plan)
    parts: tuple[Callable[[], Iterable[Reading]], ...] = (
        lambda: _by_preset(facts, plan, pairs),
        lambda: _by_choice(facts, plan, pairs),
        lambda: _by_size(facts, plan),
        lambda: _by_label(facts, plan, pairs),
        lambda: _by_adjective(facts, plan),
        lambda: () if pairs else _total(facts, plan),
        lambda: _by_number(facts, plan, pairs, _settled(plan, found)),
        lambda: _by_kit(facts, plan, pairs) if pairs else (),
        lambda: _by_mode(facts, plan, found),
    )
    worded: set[str] = set()
    for part in parts:
        for reading in part():
            if reading.key in worded and isinstance(plan.asked[reading.key].entry, Estimate):
                found[reading.key] = reading  # a number says more than a word
            found.setdefault(reading.key, reading)
        if not worded:
            worded = {key for key in found if not isinstance(found[key].value, (int, float))}
    kept = [
        replace(found[entry.key], value=value)
        for entry in plan.calculator.inputs
        if entry.key in found and (value := _read(entry, found[entry.key].value)) is not None
    ]
    return _accepted(plan.calculator, kept)


def _settled(plan: _Plan, found: Mapping[str, Reading]) -> set[str]:
    """The inputs that are read already. An estimate read from a word is not among them: a number would say more."""
    return {key for key in found if not isinstance(plan.asked[key].entry, Estimate)}


def _accepted(calculator: Calculator, readings: Sequence[Reading]) -> list[Reading]:
    """Readings that the inputs take together: what one refuses beside another is left out. Nothing is computed."""
    kept = list(readings)
    for _ in range(len(kept) + 1):
        try:
            read_all(calculator.inputs, {reading.key: reading.value for reading in kept})
        except InputErrors as problems:
            wrong = {problem.input for problem in problems.problems}
            left = [reading for reading in kept if reading.key not in wrong]
            if len(left) == len(kept):
                return kept
            kept = left
        else:
            return kept
    return kept


# ---------------------------------------------------------------- by what a calculator's inputs are recognised


@lru_cache(maxsize=256)
def _plan(calculator_name: str) -> _Plan:
    calculator = find(calculator_name)
    plan = _Plan(calculator)
    choices: list[Name] = []
    named: list[Name] = []
    for entry in calculator.inputs:
        if isinstance(entry, PrivateText):
            continue
        plan.asked[entry.key] = _asked(entry)
        if isinstance(entry, Choice):
            choices += _option_names(entry)
            if _is_yes_no(entry):
                named += [name(said, (entry.key, "yes")) for said in entry.names]
            choices += [
                name(said, (entry.key, option.value))
                for said in entry.names
                for option in entry.options
                if said[:1] == "x" and said[1:] == option.value
            ]
        for said in entry.names:
            first, _, rest = said.partition(" ")
            counted = isinstance(entry, Choice) or (isinstance(entry, Number) and not entry.unit)
            if first in ("single", "dual") and rest and counted and not isinstance(entry, YesNo):
                choices.append(name(said, (entry.key, "1" if first == "single" else "2")))
        if isinstance(entry, Estimate):
            choices += [
                name(said, (entry.key, choice.value))
                for choice in entry.choices
                for said in choice.names
                if " " in said
            ]
    plan.choices, plan.named = by_first(choices), by_first(named)
    plan.presets = by_first(
        name(said, preset.key) for preset in calculator.presets for said in getattr(preset, "names", ())
    )
    plan.twins = _twins(calculator)
    _keep_own(plan)
    return plan


def _keep_own(plan: _Plan) -> None:
    """Words that speak for several inputs speak for none of them."""
    times = Counter(word for asked in plan.asked.values() for word in asked.near)
    for key, asked in plan.asked.items():
        own = frozenset(word for word in asked.near if times[word] == 1)
        plan.asked[key] = replace(asked, near=own, alone=own & asked.alone)
    plan.called = by_first(
        Name(said, key) for key, asked in plan.asked.items() for said in asked.names if len(said) > 1
    )  # fmt: skip


def _is_yes_no(entry: Input) -> bool:
    return isinstance(entry, Choice) and {"yes", "no"} <= {option.value for option in entry.options}


def _asked(entry: Input) -> _Asked:
    units: dict[str, float] = {}
    if isinstance(entry, Number):
        units = {_unit(unit): 0.6 for unit in entry.also} | ({_unit(entry.unit): 1.0} if entry.unit else {})
    elif isinstance(entry, Choice):
        units = {_unit(unit): 0.3 for unit in getattr(entry, "units", ())}
    names = [tuple(stem(w.text) for w in cut(said)) for said in (*entry.names, entry.label)]
    near = {word for said in names for word in said if word not in SAYS_NOTHING and word[0].isalpha() and len(word) > 1}
    nothing = {stem(word) for word in (*SAYS_NOTHING, "machine", "computer", "thing")} | set(units)
    choices: set[str] = set()
    if isinstance(entry, Estimate):
        choices = {stem(w.text) for c in entry.choices for said in c.names for w in cut(said) if len(w.text) > 2}
    single = {said[0] for said in names if len(said) == 1} | {stem(w.text) for w in cut(entry.label)}
    return _Asked(entry, units, tuple(dict.fromkeys(names)), frozenset(near - nothing),
        frozenset(near & single - nothing),
                  frozenset(choices - nothing - near), _counted(entry), frozenset(near - nothing))  # fmt: skip


def _counted(entry: Input) -> frozenset[str]:
    return frozenset(stem(one) for one in entry.names if {one + "s", one + "es"} & set(entry.names))


def _unit(unit: str) -> str:
    return unit.replace(" ", "").casefold().replace("μ", "µ")


def _option_names(entry: Choice) -> Iterator[Name]:
    for option in entry.options:
        if option.value in ("unsure", "unknown"):
            continue
        if isinstance(entry, YesNo) and option.value in ("yes", "no") and not option.names:
            continue
        said = [one.replace("displayport", "display port") for one in option.names if "displayport" in one]
        said += option.names
        if option.value.isalnum() and not option.value.isalpha() and not option.value[0].isdecimal():
            said.append(option.value)  # h264, as its label has it with a point
        bare = option.label.casefold()
        if not bare.replace(".", "").replace(" ", "").isdecimal() and option.value != "none":
            said.append(bare.partition(" (")[0])
        if ":" in option.label and option.value.isdecimal() and option.label.replace(":", "") == option.value:
            said.append(option.value)
        for one in dict.fromkeys(said):
            if one not in ("none", "no", "yes", "other", "another"):
                yield name(one, (entry.key, option.value))


def _twins(calculator: Calculator) -> dict[str, str]:
    """Choices that offer the same things: the first, and the one that is its counterpart."""
    found: dict[str, str] = {}
    entries = [entry for entry in calculator.inputs if isinstance(entry, Choice) and not isinstance(entry, YesNo)]
    for n, first in enumerate(entries):
        for second in entries[n + 1 :]:
            values = {o.value for o in first.options} & {o.value for o in second.options} - {
                "unsure",
                "unknown",
                "none",
            }
            if len(values) > 1 and first.key not in found.values() and not _is_paired_key(first.key):
                found.setdefault(first.key, second.key)
    return found


def _is_paired_key(key: str) -> bool:
    return key.startswith((kit_words.HAVE, kit_words.ADD))


def _paired(plan: _Plan) -> set[str]:
    """What the two kits have in common: 'count', 'size' and so on, for have_count with add_count."""
    have = {key.removeprefix(kit_words.HAVE) for key in plan.asked if key.startswith(kit_words.HAVE)}
    return {part for part in have if kit_words.ADD + part in plan.asked}


def _is_kit_key(key: str, pairs: set[str]) -> bool:
    return any(key == start + part for start in (kit_words.HAVE, kit_words.ADD) for part in pairs) or (
        bool(pairs) and key.startswith((kit_words.HAVE, kit_words.ADD, "replace_"))
    )


# ---------------------------------------------------------------- choices and presets


def _by_preset(facts: Facts, plan: _Plan, pairs: set[str]) -> Iterator[Reading]:
    """A case whose symptom the text tells, where the text also names what the case is about."""
    if not plan.presets:
        return
    told = [m for m in mentions(facts, plan.presets) if not m.denied]
    cases = {m.stands_for for m in told}
    if len(cases) != 1:
        return
    preset = next(p for p in plan.calculator.presets if p.key in cases)
    named = {m.stands_for[0] for m in mentions(facts, plan.choices)}
    named |= {key for key in preset.inputs if key in plan.asked and _names_in(facts, plan.asked[key])}
    outright = [r for r in _by_choice(facts, plan, pairs) if r.key in preset.inputs]
    between = {w.sentence for w in facts.words for r in outright if w.start == r.start}
    if len(outright) == len(preset.inputs) and len(between) == 1:
        return  # the text tells it all outright, in one breath
    if named & set(preset.inputs):
        for key, value in preset.inputs.items():
            yield _reading(facts, key, value, (told[0].first, told[0].last))


def _names_in(facts: Facts, asked: _Asked) -> bool:
    wanted = [n for n in asked.names if len(n) > 1]
    return bool(mentions(facts, by_first(Name(n, True) for n in wanted)))


def _by_choice(facts: Facts, plan: _Plan, pairs: set[str]) -> Iterator[Reading]:
    by_key: dict[str, list[Mention]] = {}
    for mention in mentions(facts, plan.choices):
        key, _ = mention.stands_for
        if mention.denied or _is_kit_key(key, pairs) or not _is_clear(facts, plan, mention):
            continue
        if any(w.text.startswith(_FLASHES) for w in facts.words[max(0, mention.first - 2) : mention.first + 1]):
            continue  # what only flashes is not gone
        around = [w.text for w in facts.words[mention.first : mention.last + 4]]
        if any(around[n : n + 3] in (["on", "or", "off"], ["off", "or", "on"]) for n in range(len(around))):
            continue
        led = [w.text for w in facts.words[max(0, mention.first - 4) : mention.first]]
        if led[-1:] == ["as"] and {"as", "same"} & set(led[:-1]):
            continue  # it is held against that: 'the same as 10 bit', '8 bit as good as 10 bit'
        entry = plan.asked[key].entry
        seldom = isinstance(entry, Estimate) or (_needs_a_name(entry) and not _says_it_all(facts, entry, mention))
        seldom = seldom and key not in plan.twins.values()
        if seldom and not _is_called(facts, plan.asked[key], mention):
            continue
        by_key.setdefault(key, []).append(mention)
    for first, second in plan.twins.items():
        if first in by_key or second in by_key:
            yield from _twin_readings(facts, plan, first, second, by_key.pop(first, []), by_key.pop(second, []))
    for key, said in by_key.items():
        vague = {option.value for option in getattr(plan.asked[key].entry, "options", ()) if option.vague}
        exact = [mention for mention in said if mention.stands_for[1] not in vague]
        chosen = _one_of(facts, plan, key, exact or said)
        if chosen is not None and not _another_is_named(facts, plan, chosen):
            yield _reading(facts, key, chosen.stands_for[1], (chosen.first, chosen.last))
    for mention in mentions(facts, plan.named):
        key, _ = mention.stands_for
        before = [w.text for w in facts.words[max(0, mention.first - 3) : mention.first]]
        if any(
            text in ("need", "should", "worth", "or", "if", "would", "could", "can", "does", "do", "will")
            for text in before
        ):
            continue  # it is asked, not told
        if not _is_kit_key(key, pairs):
            yield _reading(facts, key, "no" if mention.denied else "yes", (mention.first, mention.last))


def _another_is_named(facts: Facts, plan: _Plan, chosen: Mention) -> bool:
    """Whether a sentence with 'ssd' has a 'card' too, a word that alone says too little: either may be meant."""
    if chosen.size > 1 or chosen.stands_for[0] not in _THINGS:
        return False
    sentence = facts.words[chosen.first].sentence
    entry = plan.asked[chosen.stands_for[0]].entry
    labels = {o.value: {stem(w.text) for w in cut(o.label)} for o in entry.options}  # type: ignore[attr-defined]
    others = set().union(*(words for value, words in labels.items() if value != chosen.stands_for[1]))
    own = labels[chosen.stands_for[1]]
    return any(
        facts.words[at].sentence == sentence and root in (others - own) & _WEAK and at != chosen.first
        for at, root in enumerate(facts.roots)
    )


def _says_it_all(facts: Facts, entry: Input, mention: Mention) -> bool:
    """Whether a choice that few tell is told by its very name, and is no usual one: 'a hard drive'."""
    if not isinstance(entry, Choice) or mention.size > 1 or not entry.label.startswith("Kind of"):
        return False
    value = mention.stands_for[1]
    option = next((o for o in entry.options if o.value == value), None)
    word = facts.words[mention.first].text
    return option is not None and value != entry.default and word in option.names and stem(word) not in _WEAK


def _is_called(facts: Facts, asked: _Asked, mention: Mention) -> bool:
    """Whether the input itself is named in a choice's sentence."""
    sentence = facts.words[mention.first].sentence
    said = mentions(facts, by_first(Name(n, True) for n in asked.names))
    return any(facts.words[m.first].sentence == sentence and m.first != mention.first for m in said)


def _is_clear(facts: Facts, plan: _Plan, mention: Mention) -> bool:
    """Whether a name says enough: a weak single word needs to be what something is for."""
    if mention.size > 1 or facts.roots[mention.first] not in _WEAK | SAYS_NOTHING:
        return True
    key = mention.stands_for[0]
    led = [w for w in facts.words[: mention.first] if not any(s.start <= w.start < s.end for s in facts.sizes)]
    before = [w.text for w in led[-2:]]  # 'want 4k60 films'
    if key == "use" or plan.asked[key].entry.label.casefold().startswith("what for"):
        start = mention.first == 0 or facts.words[mention.first - 1].sentence != facts.words[mention.first].sentence
        return start or any(text in _FOR for text in before)
    return False


def _one_of(facts: Facts, plan: _Plan, key: str, said: Sequence[Mention]) -> Mention | None:
    """The one meant of several: the first that is not told as what there is in its stead."""
    best = list(said)
    values = {mention.stands_for[1] for mention in best}
    if len(values) > 1 and any(
        one.stands_for != other.stands_for and one.first <= other.last and other.first <= one.last
        for one in best for other in best
    ):  # fmt: skip
        return None  # 'on or off'
    if len(values) > 1:
        entry = plan.asked[key].entry
        wider = [m for m in best if any(_is_wider(entry, facts, m, other) for other in best)]
        best = wider or best
        if any(_either(facts, one, other) for one, other in itertools.pairwise(best)):
            return None
        if entry.key == "lanes":  # a link runs at the width that both ends have, the narrower one
            return min(best, key=lambda m: int(m.stands_for[1]))
        best = [m for m in best if not _is_left(facts, m)] or best
    return best[0]


def _either(facts: Facts, one: Mention, other: Mention) -> bool:
    """Whether a text asks which of two numbers it shall be: '10 bit or 8 bit'."""
    numeric = any(c.isdecimal() for c in f"{one.stands_for[1]}{other.stands_for[1]}")
    between = [w.text for w in facts.words[one.last + 1 : other.first]]
    return numeric and one.stands_for != other.stands_for and len(between) <= 3 and bool({"or", "vs"} & set(between))


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
    said = _one_form(facts, other) - _one_form(facts, one)
    return one.stands_for != other.stands_for and bool(said) and said <= label


def _one_form(facts: Facts, mention: Mention) -> set[str]:
    return {root(word.text) for word in facts.words[mention.first : mention.last + 1]}


def _twin_readings(
    facts: Facts, plan: _Plan, first: str, second: str, of_first: Sequence[Mention], of_second: Sequence[Mention]
) -> Iterator[Reading]:
    """Two inputs with the same options: which is meant is read from 'X to Y' or from words near by; else neither."""
    places: dict[Place, tuple[Mention, object]] = {}
    for mention in (*of_first, *of_second):
        places.setdefault((mention.first, mention.last), (mention, mention.stands_for[1]))
    said = _without_what_works(facts, [places[place] for place in sorted(places)])
    only_first = {m.stands_for[1] for m in of_first} - {m.stands_for[1] for m in of_second}
    given: dict[str, tuple[object, Mention]] = {}
    if second == "other_" + first:
        for mention, value in said:
            key = first if first not in given else second
            if key == second and value == given[first][0]:
                continue
            given.setdefault(key, (value, mention))
    else:
        for (one, value), (other, beyond) in itertools.pairwise(said):
            between = [w.text for w in facts.words[one.last + 1 : other.first]]
            apart = other.first - one.last - 1
            if apart <= 9 and any(text in _TO for text in between) and "." not in between and value != beyond:
                given.setdefault(first, (value, one))
                given.setdefault(second, (beyond, other))
                break
        if (first, second) == ("from", "to"):
            given |= {side: one for side, one in _ends(facts, said) if side not in given}
        if not given and (first, second) in _WAYS:
            given |= _through(facts, first, second, said)
        for mention, value in said:
            if any(mention.first <= used.last and used.first <= mention.last for _, used in given.values()):
                continue
            if any(value == worn and _tells_more_of(facts, used, mention) for worn, used in given.values()):
                continue
            side = first if value in only_first else _side(facts, plan, first, second, mention)
            if side and side not in given:
                given[side] = (value, mention)
    for key, (value, mention) in given.items():
        yield _reading(facts, key, value, (mention.first, mention.last))


def _tells_more_of(facts: Facts, one: Mention, other: Mention) -> bool:
    """Whether the second name only says more of the first: 'one plug with 3 rings'."""
    between = [w.text for w in facts.words[one.last + 1 : other.first]]
    return 0 < len(between) <= 3 and bool({"with", "has", "having"} & set(between)) and "," not in between


def _without_what_works(facts: Facts, said: list[tuple[Mention, object]]) -> list[tuple[Mention, object]]:
    """Of several things those that are not told as working: '4-pin ones work. If I plug in 3-pin ones …'."""
    if len({value for _, value in said}) < 2:
        return said
    left = []
    for mention, value in said:
        after = [
            w
            for w in facts.words[mention.last + 1 : mention.last + 5]
            if w.sentence == facts.words[mention.last].sentence
        ]
        texts = [w.text for w in after]
        works = next((n for n, text in enumerate(texts) if text in _WORKS), None)
        asked = {w.text for w in facts.words[: mention.first] if w.sentence == facts.words[mention.first].sentence}
        if works is not None and asked & _ASKS:
            works = None
        if works is None or {"not", "dont", "doesnt", "no", "never", "wont", "to", "if", "will"} & set(texts[:works]):
            left.append((mention, value))
    return left or said


def _ends(facts: Facts, said: Sequence[tuple[Mention, object]]) -> Iterator[tuple[str, tuple[object, Mention]]]:
    """'HDMI out on the pc, the projector just has VGA': an end by what it is at."""
    for mention, value in said:
        after = [w.text for w in facts.words[mention.last + 1 : mention.last + 3]]
        before = [w.text for w in facts.words[max(0, mention.first - 5) : mention.first]]
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


def _through(
    facts: Facts, first: str, second: str, said: Sequence[tuple[Mention, object]]
) -> dict[str, tuple[object, Mention]]:
    """'USB-C hub with an HDMI output': a box between two different ends leads from one to the other."""
    for (one, value), (other, beyond) in itertools.pairwise(said):
        between = facts.words[one.last + 1 : other.first]
        led = [w.text for w in between]
        if value != beyond and len(led) <= 6 and any(text in _BOXES for text in led[:2]) and "." not in led:
            return {first: (value, one), second: (beyond, other)}
    return {}


def _side(facts: Facts, plan: _Plan, first: str, second: str, mention: Mention) -> str:
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
    distance = {
        key: _distance(facts, plan.asked[key].near, mention.first, mention.last, own=True) for key in (first, second)
    }
    if distance[first] == distance[second]:
        return ""
    return min(distance, key=lambda key: distance[key])


def _distance(facts: Facts, near: frozenset[str], first: int, last: int, own: bool = False) -> int:
    """How many words away the nearest of these stands in the same sentence; a large number where none does."""
    best = 99
    for at in range(max(0, first - _NEAR), min(len(facts.words), last + _NEAR + 1)):
        if first <= at <= last or facts.words[at].sentence != facts.words[first].sentence:
            continue
        if facts.roots[at] in near and not _is_a_mode(facts, at):
            low, high = (at, first) if at < first else (last, at)
            if at > last and any(w.text in _BESIDE for w in facts.words[last + 1 : at]):
                continue  # 'lags 150 ms behind the picture' tells of what lags
            away = high - low
            if any(w.text == "," for w in facts.words[low:high]):
                away += 4  # what stands in another part of the sentence speaks less
            elif at > last:
                away += 1  # and what follows a little less than what leads
            best = min(best, away)
    return best


def _is_a_mode(facts: Facts, at: int) -> bool:
    """Whether a word only says which setting a television is in: 'film mode' tells of no film."""
    return facts.words[at].text in _MODES and [w.text for w in facts.words[at + 1 : at + 2]] == ["mode"]


# ---------------------------------------------------------------- numbers


def _by_size(facts: Facts, plan: _Plan) -> Iterator[Reading]:
    """Width, height and the refresh behind them, where a calculator asks for a picture's size."""
    keys = list(plan.asked)
    width = next((k for k in keys if k.endswith("width") and not _needs_a_name(plan.asked[k].entry)), None)
    height = next((k for k in keys if k.endswith("height") and not _needs_a_name(plan.asked[k].entry)), None)
    if width is None or height is None:
        return
    of_others = dict(_sizes_of_others(facts, plan, width, height))
    for key, size in of_others.items():
        words = facts.text[size.start : size.end]
        yield Reading(key, int(words[0]) * 1024 if words[1:2] in "kK" else size.width, words, size.start)
    sizes = [size for size in facts.sizes if size not in of_others.values()]
    if not sizes:
        return
    size = max(sizes, key=lambda s: s.weight)
    words = facts.text[size.start : size.end]
    yield Reading(width, size.width, words, size.start)
    yield Reading(height, size.height, words, size.start)
    if size.refresh is not None and not _another_is_wanted(facts, size):
        rate = next((k for k, a in plan.asked.items() if "hz" in a.units and isinstance(a.entry, Number)), None)
        if rate:
            yield Reading(rate, _tidy(size.refresh), words, size.start)


def _another_is_wanted(facts: Facts, size: PictureSize) -> bool:
    """Whether a refresh is told as what there is, and another stands in the text: 'gives 1440p at 60, it does 165'."""
    return size.weight < 0 and any(
        q.weight >= 0 and (size.start > q.end or q.start > size.end) and _refresh(facts, q) is not None
        and _refresh(facts, q) != size.refresh
        for q in facts.quantities
    )  # fmt: skip


def _sizes_of_others(facts: Facts, plan: _Plan, width: str, height: str) -> Iterator[tuple[str, PictureSize]]:
    """'8k textures', '120 textures 4k each': sizes of something else than the picture, by the word beside them."""
    for key, asked in plan.asked.items():
        if key in (width, height) or "px" not in asked.units or key.endswith(("width", "height")):
            continue
        speaks = asked.speaks - plan.asked[width].speaks - plan.asked[height].speaks
        for size in facts.sizes:
            beside = {
                root for root, word in zip(facts.roots, facts.words, strict=True)
                if size.start - _BESIDE_A_SIZE <= word.start < size.end + _BESIDE_A_SIZE // 2
            }  # fmt: skip
            if speaks & beside:
                yield key, size
                break
        else:
            for at, word in enumerate(facts.words[:-1]):
                unit = facts.words[at + 1]
                near = set(facts.roots[max(0, at - 2) : at + 4])
                if word.is_number and unit.text == "k" and f"{word.text}k" in asked.entry.names and speaks & near:
                    side = int(word.text) * 1024
                    yield key, PictureSize(side, side, None, word.start, unit.end)
                    break


def _by_mode(facts: Facts, plan: _Plan, found: Mapping[str, Reading]) -> Iterator[Reading]:
    """A whole mode in one text input, where size and refresh both stand in the text."""
    for key, asked in plan.asked.items():
        entry = asked.entry
        if not isinstance(entry, Text) or ("mode",) not in asked.names or not facts.sizes or entry.optional:
            continue
        size = max(facts.sizes, key=lambda s: s.weight)
        refresh, start, end = size.refresh, size.start, size.end
        if refresh is not None and _another_is_wanted(facts, size):
            continue
        if refresh is None:
            rates = [(q, r) for q in facts.quantities if (r := _refresh(facts, q)) is not None]
            if not rates:
                continue
            quantity, refresh = max(rates, key=lambda pair: pair[0].weight)
            start, end = min(start, quantity.start), max(end, quantity.end)
        try:
            value = entry.echo(entry.read(f"{size.width}x{size.height}@{_tidy(refresh)}"))
        except ValueError:
            continue
        yield Reading(key, value, facts.text[start:end], start)


def _refresh(facts: Facts, quantity: Quantity) -> float | None:
    if quantity.denied:
        return None
    units = [text for text, _ in behind(facts, quantity.at)]
    if "hz" in units or "hertz" in units or _is_bare_rate(facts, quantity):
        return quantity.value
    return None


def _is_bare_rate(facts: Facts, quantity: Quantity) -> bool:
    """Whether a number alone is a refresh: a usual one, behind such as 'get', 'only offers', 'at'."""
    if quantity.value not in _BARE_RATES or quantity.spelled or quantity.borrowed >= 0:
        return False
    before = [w.text for w in facts.words[max(0, quantity.at - 2) : quantity.at]]
    after = facts.words[quantity.at + 1].text if quantity.at + 1 < len(facts.words) else "."
    led = any(
        t
        in (
            "get",
            "at",
            "to",
            "offers",
            "lists",
            "only",
            "does",
            "do",
            "want",
            "present",
            "current",
            "over",
            "have",
            "got",
        )
        for t in before
    )
    if _is_of_a_display(facts, quantity) or _stands_behind_a_display(facts, quantity):
        return True
    if before[-1:] == ["on"] and _are_frames_told(facts, quantity) and not _foreign(facts, quantity.at):
        return True  # '50 fps on 144'
    if _MAKES_FRAMES & {w.text for w in facts.words[max(0, quantity.at - 3) : quantity.at]}:
        return False  # 'my card only 90' are frames
    return led and after not in "%€$" and (not after[0].isalnum() or after in SAYS_NOTHING)


def _is_of_two_rates(facts: Facts, quantity: Quantity) -> bool:
    """Whether a bare number is one of two refresh rates that are held against each other: '360 vs 240'."""
    rates = [q for q in facts.quantities if q.value in _BARE_RATES and q.value >= 60 and not q.spelled]
    for other in rates:
        first, second = sorted((quantity, other), key=lambda q: q.at)
        between = [w.text for w in facts.words[first.at + 1 : second.at] if w.text not in ("worth", "it")]
        if first.at != second.at and quantity in rates and between in _AGAINST:
            return True
    return False


def _is_of_a_display(facts: Facts, quantity: Quantity) -> bool:
    """Whether a number stands right before a display: a 144 monitor."""
    return facts.roots[quantity.at + 1 : quantity.at + 2] in _DISPLAYS


def _stands_behind_a_display(facts: Facts, quantity: Quantity) -> bool:
    """Whether a number alone ends what is said of a display: 'monitor 144', 'the display is 120 and …'."""
    at = quantity.at - 1
    while at > 0 and facts.words[at].text in ("is", "a", "an", ":", "=", "runs", "at", "does", "has", "can", "do"):
        at -= 1
    if (
        at < 0
        or facts.roots[at : at + 1] not in _DISPLAYS
        or facts.words[at].sentence != facts.words[quantity.at].sentence
    ):
        return False
    after = facts.words[quantity.at + 1].text if quantity.at + 1 < len(facts.words) else "."
    return not after[0].isalnum() or (after in SAYS_NOTHING and after != "x")


def _needs_a_name(entry: Input) -> bool:
    """Whether an input is read only where the text names it, since few people give it."""
    return entry.extra or (entry.optional and entry.start is None)


def _by_label(facts: Facts, plan: _Plan, pairs: set[str]) -> Iterator[Reading]:
    """Labels in the text, read by the inputs' own functions for labels (`printed`)."""
    for key, asked in plan.asked.items():
        if asked.entry.printed is None or _is_kit_key(key, pairs) or _needs_a_name(asked.entry):
            continue
        for text, start, end in (*facts.labels, *facts.rows):
            value = asked.entry.printed(text)
            if value is not None and (read := _read(asked.entry, value)) is not None:
                yield Reading(key, read, facts.text[start:end], start)
                break


def _by_number(facts: Facts, plan: _Plan, pairs: set[str], known: set[str]) -> Iterator[Reading]:
    best: dict[str, list[tuple[float, float, Quantity, str]]] = {}
    called: dict[str, list[Mention]] = {}
    for mention in mentions(facts, plan.called):
        called.setdefault(str(mention.stands_for), []).append(mention)
    blocked = {key for key, asked in plan.asked.items() if _needs_a_name(asked.entry)}
    used: set[int] = set()
    ends = list(_spans(facts, plan, used))
    taken = {end.key for end in ends}  # the ends of a range are told: a further number is neither of them
    for quantity in facts.quantities:
        if quantity.denied or quantity.at in used:
            continue
        scored = []
        for key, asked in plan.asked.items():
            if (
                key not in taken
                and not _is_kit_key(key, pairs)
                and (found := _score(facts, asked, quantity, called.get(key, ()))) is not None
            ):
                scored.append((*found, key))
        if not scored:
            continue
        scored = _best_named(facts, plan, quantity, scored)
        scored.sort(key=lambda one: -one[0])
        plain = [one for one in scored if not plan.asked[one[2]].entry.extra]
        if plain and plain[0][0] >= scored[0][0] - _ASKED_OF_ALL:
            scored = plain  # what is asked of everybody comes before what few give
        top = [one for one in scored if scored[0][0] - one[0] < 0.3]
        if len(top) > 1 and not _in_order([key for _, _, key in top]):
            top = _apart(facts, plan, quantity, top, blocked)
        if len(top) == 1:
            scored = top
        if len(top) > 1:
            numbered = [key for _, _, key in top]
            if not _in_order(numbered):
                continue
            for score, typed, key in top:
                best.setdefault(key, []).append((score, quantity.weight, quantity, typed))
            continue
        score, typed, key = scored[0]
        alone = len(scored) == 1 and not plan.asked[key].entry.extra and " " in typed  # its unit is no other's
        told = alone or (key.startswith("measured_") and _is_short_of_a_link(quantity))
        if key in blocked and not told and not _is_named(facts, plan.asked[key], quantity):
            continue
        best.setdefault(key, []).append((score, quantity.weight, quantity, typed))
    _turn_round(facts, best)
    _the_lower(facts, plan, best)
    _tell_measured(best)
    _move_what_no_link_has(facts, plan, best)
    yield from _parts_of_a_link(facts, plan, used)
    yield from ends
    yield from _out_of(facts, plan, used)
    for key, offers in best.items():
        if key in known:
            continue
        offers = [offer for offer in offers if offer[2].at not in used]
        if key.startswith(kit_words.HAVE) and len(facts.quantities) > 1:
            offers = [offer for offer in offers if not _is_compared(facts, offer[2])]
        if not offers:
            continue
        top_score = max(offer[0] + 2.5 * offer[1] for offer in offers)
        likely = [
            offer for offer in offers if top_score - offer[0] - 2.5 * offer[1] < (9.0 if _has_twin(key, plan) else 0.8)
        ]
        score, _, quantity, typed = min(likely, key=lambda offer: offer[2].at)
        value = _read(plan.asked[key].entry, typed)
        if value is None or _lacks_its_unit(plan.asked[key].entry, typed, best):
            continue
        if _has_twin(key, plan) and key.endswith("_a"):
            used.add(quantity.at)
            second = key[:-1] + "b"
            alone = all(offer[2].at == quantity.at for offer in best.get(second, ()))
            if alone and _is_thought_of(facts, plan.asked[second].entry, value):
                key = second
        yield Reading(key, value, _as_written(facts, plan.asked[key], quantity), quantity.start)


def _is_thought_of(facts: Facts, second: Input, value: object) -> bool:
    """Whether one rate alone is what somebody thinks of buying: 'is 144 Hz worth it', set against what is usual now."""
    usual = second.default if isinstance(second, Number) else None
    if usual is None or not isinstance(value, (int, float)) or value < usual:
        return False
    return any(word.text in _THINKS_OF for word in facts.words)


def _lacks_its_unit(entry: Input, typed: str, best: Mapping[str, Sequence[tuple[float, float, Quantity, str]]]) -> bool:
    """
    Whether a bare number would be read in another unit than its writer meant: beside '2.5 gbit', 2.35 is no 2.35 Mb/s.

    It is where something of its kind is told with a unit, and the two would lie further apart than any two that are
    compared.
    """
    if " " in typed:
        return False
    bare = _read(entry, typed)
    for _, _, _, other in (offer for offers in best.values() for offer in offers):
        told = _read(entry, other) if " " in other else None
        if isinstance(bare, (int, float)) and isinstance(told, (int, float)) and 0 < bare * _APART < told:
            return True
    return False


def _best_named(
    facts: Facts, plan: _Plan, quantity: Quantity, scored: list[tuple[float, str, str]]
) -> list[tuple[float, str, str]]:
    """Those whose longest name stands right before a number: 'output impedance 120 ohm' is no plain impedance."""
    lengths = {one[2]: _name_before(facts, plan.asked[one[2]], quantity.at) for one in scored}
    longest = max(lengths.values())
    if longest < 2 or all(one[0] < _EXACT for one in scored if lengths[one[2]] == longest):
        return scored
    named = [one for one in scored if lengths[one[2]] == longest]
    return named if all(" " in one[1] for one in named) else scored


def _apart(
    facts: Facts, plan: _Plan, quantity: Quantity, top: Sequence[tuple[float, str, str]], blocked: set[str]
) -> list[tuple[float, str, str]]:
    """Of inputs that a number fits equally, those that are asked of everybody, then those that the text speaks of."""
    left = [one for one in top if one[2] not in blocked] or list(top)
    part = _part(facts, quantity.at)
    before = set(facts.roots[: quantity.at])
    for said, shared in ((part, True), (before, False)):
        if len(left) < 2 or (not shared and left[0][0] < _EXACT):
            break
        asked = {one[2]: plan.asked[one[2]] for one in left}
        told = {key: len((one.speaks if shared else one.alone) & said) for key, one in asked.items()}
        most = max(told.values())
        left = [one for one in left if told[one[2]] == most]
    return left


def _part(facts: Facts, at: int) -> set[str]:
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


def _turn_round(facts: Facts, best: dict[str, list[tuple[float, float, Quantity, str]]]) -> None:
    """'120 over 60': the second is what there is now. The first number is taken from the first of the pair."""
    for key in [key for key in best if key.endswith("_a") and key[:-1] + "b" in best]:
        places = sorted({offer[2].at for offer in best[key]})
        led = {w.text for w in facts.words[max(0, places[-1] - 2) : places[-1]]}
        between = {w.text for w in facts.words[places[0] : places[-1]]}
        if len(places) == 2 and ({"over", "instead"} & between or _NOW & led):
            best[key] = [offer for offer in best[key] if offer[2].at == places[1]]


def _the_lower(facts: Facts, plan: _Plan, best: dict[str, list[tuple[float, float, Quantity, str]]]) -> None:
    """'a gen 4 card in a gen 3 slot': a link runs at the generation that both ends know, the lower one."""
    for key, offers in best.items():
        if ("gen",) not in plan.asked[key].names or len(offers) != 2:
            continue
        first, second = sorted(offers, key=lambda offer: offer[2].at)
        between = {w.text for w in facts.words[first[2].at : second[2].at + 3]}
        if between & _SLOT and not between & {"or", "vs", "than", "versus", "instead"}:
            best[key] = [min(offers, key=lambda offer: offer[2].value)]


def _is_compared(facts: Facts, quantity: Quantity) -> bool:
    """Whether a number is one of two that are weighed against each other, '64 over 32', and none that one has."""
    before = [w.text for w in facts.words[max(0, quantity.at - 3) : quantity.at]]
    if any(text in ("have", "got", "with", "has", "my", "only") for text in before):
        return False
    for other in facts.quantities:
        first, second = sorted((quantity, other), key=lambda q: q.at)
        between = [w.text for w in facts.words[first.at + 1 : second.at]]
        if first.at != second.at and len(between) <= 4 and any(t in ("over", "vs", "versus") for t in between):
            return True
    return False


def _as_written(facts: Facts, asked: _Asked, quantity: Quantity) -> str:
    """A number with its unit, in the very words of the text."""
    _, last, _ = _unit_behind(facts, asked, quantity.at)
    return facts.text[quantity.start : max(quantity.end, facts.words[last].end)]


def _tell_measured(best: dict[str, list[tuple[float, float, Quantity, str]]]) -> None:
    """'2.35 on a 2.5 Gbit link': no link carries more than its own rate, so the smaller one is what was measured."""
    for key in [key for key in best if key.startswith("link_")]:
        measured = "measured_" + key.removeprefix("link_")
        offers = sorted(best[key], key=lambda offer: _amount(offer[3]))
        if len(offers) == 2 and measured not in best and _amount(offers[0][3]) < _amount(offers[1][3]):
            best[key], best[measured] = [offers[1]], [offers[0]]


def _move_what_no_link_has(
    facts: Facts, plan: _Plan, best: dict[str, list[tuple[float, float, Quantity, str]]]
) -> None:
    """
    94 or 940 Mb/s of a network is what was measured: no wired link has such a rate, and a full one carries nearly it.

    The rates of wired links: IEEE 802.3, from memory.
    """
    for key in [key for key in best if key.startswith("link_")]:
        measured = "measured_" + key.removeprefix("link_")
        short = [
            o for o in best[key]
            if any(0.85 * rate <= _amount(o[3]) < 0.99 * rate for rate in _LINK_RATES)
            and not _name_before(facts, plan.asked[key], o[2].at)  # over the air a link may be of 866
        ]  # fmt: skip
        if short:
            best[key] = [offer for offer in best[key] if offer not in short]
            best.setdefault(measured, []).extend(short)


def _parts_of_a_link(facts: Facts, plan: _Plan, used: set[int]) -> Iterator[Reading]:
    """'94 of 100 Mb/s': what was measured, and the link."""
    for key, asked in plan.asked.items():
        measured = "measured_" + key.removeprefix("link_")
        if not key.startswith("link_") or measured not in plan.asked:
            continue
        by_at = {q.at: q for q in facts.quantities}
        for quantity in facts.quantities:
            for gap in (2, 3, 4):
                whole = by_at.get(quantity.at + gap)
                between = [w.text for w in facts.words[quantity.at + 1 : quantity.at + gap]]
                if whole is None or between[-1:] not in (["of"], ["from"]) or quantity.value >= whole.value:
                    continue
                unit, last, _ = _unit_behind(facts, asked, whole.at)
                own, _, _ = _unit_behind(facts, asked, quantity.at)
                if not unit or (own and own != unit) or (len(between) > 1 and not own):
                    continue
                used |= {quantity.at, whole.at}
                for one, of in ((key, whole), (measured, quantity)):
                    typed = f"{facts.text[of.start : of.end]} {_declared_unit(asked, facts, whole.at, last, unit)}"
                    if (value := _read(plan.asked[one].entry, typed)) is not None:
                        yield Reading(one, value, facts.text[quantity.start : facts.words[last].end], of.start)
                return


def _amount(typed: str) -> float:
    """A rate as typed, in Mb/s, near enough to tell which of two is the larger."""
    number, _, unit = typed.partition(" ")
    return float(number.replace(",", ".")) * (1000 if unit[:1].casefold() == "g" else 1)


def _is_short_of_a_link(quantity: Quantity) -> bool:
    """Whether a number alone is what a full wired link carries, in Mb/s: 94, 940."""
    return any(0.9 * rate <= quantity.value < 0.97 * rate for rate in _LINK_RATES)


def _has_twin(key: str, plan: _Plan) -> bool:
    return key[-2:] in ("_a", "_b") and {key[:-1] + "a", key[:-1] + "b"} <= set(plan.asked)


def _in_order(keys: Sequence[str]) -> bool:
    """Whether inputs are a first and a second of one thing: rate_a, rate_b."""
    return len(keys) == 2 and keys[0][:-1] == keys[1][:-1] and keys[0][-2:] == "_a" and keys[1][-2:] == "_b"


def _score(facts: Facts, asked: _Asked, quantity: Quantity, called: Sequence[Mention] = ()) -> tuple[float, str] | None:
    """How well a number fits an input, and the number with its unit as typed; None where it does not."""
    entry = asked.entry
    if not isinstance(entry, (Number, Choice)) or isinstance(entry, YesNo):
        return None
    if isinstance(entry, Choice) and not any(o.value.replace(".", "").isdecimal() for o in entry.options):
        return None
    home = quantity.borrowed if quantity.borrowed >= 0 else quantity.at
    before_it = [w.text for w in facts.words[max(0, quantity.at - 2) : quantity.at]]
    if "gb" in asked.units and (before_it in _LIMITS or before_it[-1:] in _LIMITS):
        return None  # a limit is nothing that is there or taken
    unit, last, strength = _unit_behind(facts, asked, home)
    if unit == "hz" and isinstance(entry, Choice) and ("fps",) in asked.names and _are_frames_told(facts, quantity):
        return None  # '48 fps on 120 Hz': the film's are told
    foreign = "" if unit else _foreign(facts, home)
    before = _name_before(facts, asked, quantity.at)
    after = _name_after(facts, asked, home) if not unit else 0
    if unit == "p" and quantity.value < 300 and not {"hz", "fps"} & set(asked.units):
        return None  # 25p is a rate, 1080p a height
    if unit:
        score = 2.0 + strength
        if (stem(unit),) in asked.names or (unit,) in asked.names:
            score += 0.9
    elif isinstance(entry, Number) and _is_bare_memory_rate(asked, quantity, foreign):
        score = 2.6
    elif entry.key[-2:] in ("_a", "_b") and "hz" in asked.units and not foreign and _is_of_two_rates(facts, quantity):
        score = 1.6
    elif (
        "hz" in asked.units
        and isinstance(entry, Number)
        and _is_bare_rate(facts, quantity)
        and (("hz",) in asked.names or not _is_of_two_rates(facts, quantity))  # no frames: '240 worth it over 144'
    ):
        score = 1.6 + (0.4 if ("hz",) in asked.names else 0.0) + (0.8 if _is_of_a_display(facts, quantity) else 0.0)
    elif before and foreign in ("", "x"):
        score = 2.5
    elif entry.key.startswith("measured_") and not foreign and not quantity.spelled and _is_short_of_a_link(quantity):
        score = 1.6
    elif after and not asked.units:
        score = 3.0
    elif isinstance(entry, Number) and quantity.value in (23.976, 29.97, 59.94) and "hz" in asked.units:
        score = 1.5
    elif isinstance(entry, Choice) and asked.units and quantity.value in (23.976, 29.97):
        score = 2.6
    else:
        return None
    if quantity.spelled and not (unit or after):
        return None
    if isinstance(entry, Number) and not unit and _is_width(facts, quantity.at):
        return None  # 'x2 gen 3' counts lanes
    if quantity.spelled and any(m.first <= quantity.at <= m.last and m.last - m.first < m.size for m in called):
        return None  # it belongs to the input's name: a single core
    away = _distance(facts, asked.alone, quantity.at, max(last, quantity.at))
    sentence = facts.words[quantity.at].sentence
    for mention in called:
        if facts.words[mention.first].sentence == sentence:
            away = min(away, max(1, quantity.at - mention.last, mention.first - quantity.at))
    if (
        isinstance(entry, Choice)
        and unit
        and (quantity.value not in _BARE_RATES or _is_shown_elsewhere(facts, quantity, unit))
        and any(o.value == _plain(quantity.value) for o in entry.options)
    ):
        score += 1.3
    if before:
        score += 1.2
    elif unit and _named_next(facts, asked, last):
        score += 1.9
    elif away <= _NEAR:
        score += 1.6 * (1 - away / 12)
    else:
        aside = _distance(facts, asked.choices_near, quantity.at, max(last, quantity.at))
        score += 0.5 * (1 - aside / 12) if aside <= _NEAR else 0.0
    typed = facts.text[quantity.start : quantity.end]
    if quantity.spelled:
        typed = _plain(quantity.value)
    if unit:
        typed = f"{typed} {_declared_unit(asked, facts, home, last, unit)}"
    if _read(entry, typed) is None:
        return None
    return score, typed


def _unit_behind(facts: Facts, asked: _Asked, at: int) -> tuple[str, int, float]:
    follows = [word.text for word in facts.words[at + 1 : at + 3]]
    if (
        "gbit/s" in asked.units
        and follows[:1] in (["g"], ["gig"], ["gb"])
        and (follows[-1] in _NETWORKS or (follows[-1] == "card" and facts.words[at].text in _NETWORK_GIGS))
    ):
        return "gbit/s", at + 1, asked.units["gbit/s"]
    for text, place in behind(facts, at):
        beyond = [w.text for w in facts.words[place + 1 : place + 3]]
        if beyond[:1] == ["/"] and text[-1] != "/" and beyond[-1] in ("s", "sec", "second", "mw", "v"):
            continue  # 'GB/s' is no GB
        for spelled in (text, _EVERYDAY_UNITS.get(text, "")):
            if spelled in asked.units:
                return spelled, place, asked.units[spelled]
            if spelled.replace("ω", "Ω") in asked.units:
                return spelled.replace("ω", "Ω"), place, 1.0
    if "clocks" in asked.units and at:
        word = facts.words[at - 1]
        if word.text in ("cl", "c", "cas") and facts.words[at].start - word.end <= 1:
            return "cl", at, 1.0
    return "", at, 0.0


def _declared_unit(asked: _Asked, facts: Facts, at: int, last: int, unit: str) -> str:
    """The unit as the input declares it, where upper and lower case tell bits from bytes as it was typed."""
    if last > at:
        typed = facts.text[facts.words[at + 1].start : facts.words[last].end].replace(" ", "")
        if _unit(typed) in asked.units and typed[:2] in ("MB", "GB", "KB", "Mb", "Gb", "Kb"):
            return typed
    entry = asked.entry
    declared = [entry.unit, *entry.also] if isinstance(entry, Number) else list(getattr(entry, "units", ()))
    return next((one for one in declared if _unit(one) == unit), unit)


def _foreign(facts: Facts, at: int) -> str:
    for text, _ in behind(facts, at):
        if text in _OTHER_UNITS or text in _EVERYDAY_UNITS:
            return text
    return ""


def _are_frames_told(facts: Facts, quantity: Quantity) -> bool:
    """Whether another number is told as frames."""
    others = (q for q in facts.quantities if q.at != quantity.at)
    return any(text in ("p", "fps") for q in others for text, _ in behind(facts, q.at))


def _is_shown_elsewhere(facts: Facts, quantity: Quantity, unit: str) -> bool:
    """Whether frames are told beside a refresh: '24p on a 144 Hz panel'."""
    others = (q for q in facts.quantities if q.at != quantity.at)
    return unit in ("p", "fps") and any("hz" in (text for text, _ in behind(facts, q.at)) for q in others)


def _is_width(facts: Facts, at: int) -> bool:
    """Whether an x stands glued before a number and none before the x: x4, no 2x4."""
    if not at or facts.words[at - 1].text != "x" or facts.words[at - 1].end != facts.words[at].start:
        return False
    return at < 2 or not facts.words[at - 2].is_number


def _named_next(facts: Facts, asked: _Asked, last: int) -> bool:
    """Whether the input's name stands right behind a number's unit: '4 hours (of) grading', '20 min for one core'."""
    at, sentence = last + 1, facts.words[last].sentence
    while at < min(len(facts.words), last + 4) and facts.words[at].text in _LEADS_TO:
        at += 1
    if at >= len(facts.words) or facts.words[at].sentence != sentence:
        return False
    if facts.roots[at] in asked.alone:
        return True
    return any(
        (said[:1] in _ARTICLES and facts.roots[at : at + len(said) - 1] == said[1:])
        or (len(said) > 1 and facts.roots[at : at + len(said)] == said)
        for said in asked.names
    )  # fmt: skip


def _name_before(facts: Facts, asked: _Asked, at: int) -> int:
    """How long a name of the input's stands right before a number: 'mtu 9000', 'gen 4', 'ping of 12'. 0 where none."""
    place, longest = at - 1, 0
    while place >= 0 and facts.words[place].text in _FILLERS:
        place -= 1
    for said in asked.names:
        if not said or _has_digits(said) or (len(said) == 1 and (said[0] in SAYS_NOTHING or len(said[0]) < 2)):
            continue
        if len(said) == 1 and said[0] in asked.counted:
            continue  # 'pass 3' is the third one, not three
        if place + 1 >= len(said) and facts.roots[place + 1 - len(said) : place + 1] == said:
            if len(said) == 1 and said[0] in _OTHER_UNITS and place and facts.words[place - 1].is_number:
                continue  # '95 dB 2 h': the unit of what stands before it
            longest = max(longest, len(said) * (facts.words[place].sentence == facts.words[at].sentence))
    return longest


def _name_after(facts: Facts, asked: _Asked, at: int) -> bool:
    """Whether one of the input's names stands right behind a number, or one word further: '40 browser tabs'."""
    sized = _size_behind(facts, at)
    for skip in (1, 2, sized) if sized else (1, 2):
        for said in asked.names:
            if not said or _has_digits(said) or (len(said) == 1 and said[0] in SAYS_NOTHING):
                continue
            if facts.roots[at + skip : at + skip + len(said)] == said:
                between = facts.words[at + 1 : at + skip]
                if skip == sized or all(
                    w.text not in SAYS_NOTHING
                    and not w.is_number
                    and w.text[0].isalpha()
                    and w.text not in ("x", "on", "in", "for")
                    for w in between
                ):
                    return facts.words[at].sentence == facts.words[at + skip].sentence
    return False


def _size_behind(facts: Facts, at: int) -> int:
    """How many words a picture's size right behind a number takes, and one more: '200 4k textures'. 0 where none."""
    for size in facts.sizes:
        if 0 <= size.start - facts.words[at].end <= 1:
            return 1 + sum(size.start <= word.start < size.end for word in facts.words)
    return 0


def _has_digits(said: Sequence[str]) -> bool:
    return any(word[0].isdecimal() for word in said)


def _is_named(facts: Facts, asked: _Asked, quantity: Quantity) -> bool:
    """Whether one of an input's own names stands in a number's sentence, or is its unit."""
    sentence = facts.words[quantity.at].sentence
    home = quantity.borrowed if quantity.borrowed >= 0 else quantity.at
    unit = _unit_behind(facts, asked, home)[0]
    if (stem(unit),) in asked.names:
        return True
    said = mentions(facts, by_first(Name(n, True) for n in asked.names))
    return any(facts.words[m.first].sentence == sentence and abs(m.first - quantity.at) <= 10 for m in said)


def _by_adjective(facts: Facts, plan: _Plan) -> Iterator[Reading]:
    """'a gigabit network': a unit that is said as a word, without a number, is one of it."""
    for at, word in enumerate(facts.words):
        if word.text == "gigabit" and not (at and facts.words[at - 1].is_number):
            for key, asked in plan.asked.items():
                value = (
                    _read(asked.entry, "1 gigabit")
                    if ("gigabit",) in asked.names and "gigabit" in asked.units
                    else None
                )
                if value is not None:
                    yield Reading(key, value, facts.text[word.start : word.end], word.start)


def _is_bare_memory_rate(asked: _Asked, quantity: Quantity, foreign: str) -> bool:
    """A data rate alone, as people write it: 3200, 3600c18; no year."""
    if "mt/s" not in asked.units or foreign not in ("", "c", "cl") or quantity.spelled:
        return False
    value = quantity.value
    return value == int(value) and 1066 <= value <= 12000 and not 1990 <= value <= 2035 and value % 10 in (0, 3, 6, 7)


def _spans(facts: Facts, plan: _Plan, used: set[int]) -> Iterator[Reading]:
    """'48 to 144 Hz', where a calculator asks for the bottom and the top of a range."""
    low, high = plan.asked.get("low"), plan.asked.get("high")
    if low is None or high is None:
        return
    by_at = {q.at: q for q in facts.quantities}
    for quantity in facts.quantities:
        other = by_at.get(quantity.borrowed)
        if other is None or not quantity.value < other.value:
            continue
        between = {w.text for w in facts.words[quantity.at + 1 : other.at]}
        unit, _, _ = _unit_behind(facts, low, other.at)
        glued = facts.text[quantity.end : other.start] == "-" and quantity.value >= 20 and other.value <= 600
        before = [w.text for w in facts.words[max(0, quantity.at - 3) : quantity.at]]
        glued = glued or (quantity.value >= 20 and other.value <= 600 and bool({"range", "vrr"} & set(before)))
        told = glued and not _foreign(facts, other.at) and any(r in _RANGED for r in facts.roots)
        if (unit or told) and between <= {"to", "-", "up"} and between - {"up"}:
            used |= {quantity.at, other.at}
            for key, one in (("low", quantity), ("high", other)):
                if (value := _read(plan.asked[key].entry, facts.text[one.start : one.end])) is not None:
                    yield Reading(key, value, facts.text[quantity.start : other.end], one.start)
            return


def _out_of(facts: Facts, plan: _Plan, used: set[int]) -> Iterator[Reading]:
    """'9 out of 12', where an input goes by 'out of' and the one before it is counted too."""
    keys = list(plan.asked)
    key = next((k for k in keys if ("out", "of") in plan.asked[k].names), None)
    if key is None or keys.index(key) == 0:
        return
    part = keys[keys.index(key) - 1]
    by_at = {q.at: q for q in facts.quantities}
    for quantity in facts.quantities:
        for gap in (2, 3, 4):
            other = by_at.get(quantity.at + gap)
            between = [w.text for w in facts.words[quantity.at + 1 : quantity.at + gap]]
            if other is not None and between in _OUT_OF and quantity.value <= other.value:
                used |= {quantity.at, other.at}
                words = facts.text[quantity.start : other.end]
                around = {w.text for w in facts.words[max(0, quantity.at - 3) : other.at + 3]}
                missed = bool(around & _MISSED) and not around & _HITS  # 'wrong 3 times out of 16'
                yield Reading(
                    part, _tidy(other.value - quantity.value if missed else quantity.value), words, quantity.start
                )
                yield Reading(key, _tidy(other.value), words, other.start)
                return


# ---------------------------------------------------------------- two kits


def _by_kit(facts: Facts, plan: _Plan, pairs: set[str]) -> Iterator[Reading]:
    found = kit_words.find_kits(facts)
    given: dict[str, dict[str, tuple[Any, str, int]]] = {kit_words.HAVE: {}, kit_words.ADD: {}}
    for kit in found:
        words = facts.text[kit.start : kit.end]
        if kit.count is not None and "count" in pairs:
            given[kit.role]["count"] = (kit.count, words, kit.start)
        if kit.size_gb is not None and "size" in pairs:
            given[kit.role]["size"] = (kit.size_gb, words, kit.start)
    for part in sorted(pairs - {"count", "size"}):
        asked = plan.asked[kit_words.HAVE + part]
        told = list(_attributes(facts, plan, part, asked))
        if not told:
            continue
        values = {value for value, _, _, _ in told}
        if part == "form" and (turned := kit_words.into_another_form(facts)):
            for role, one in turned.items():
                given[role].setdefault(part, one)
            continue
        if part in ("generation", "form") and len(values) == 1:
            for role in given:
                given[role].setdefault(part, told[0][:3])
            continue
        if not found and any(quantity.weight < 0 for quantity in facts.quantities) and len(facts.quantities) > 1:
            shown = [quantity.start for quantity in facts.quantities if quantity.weight < 0]
            if len(values) > 1 or part != "rate" or told[0][2] > shown[0]:
                continue  # some of it is told of something that only happens
        if not found:
            roles = [kit_words.HAVE] if len(values) == 1 else [kit_words.HAVE, kit_words.ADD]
            distinct = list({value: one for one in reversed(told) for value in (one[0],)}.values())[::-1]
            if len(distinct) > 1 and not kit_words.are_joined(facts.small, distinct[0][3], distinct[1][2]):
                continue
            if len(distinct) > 1 and kit_words.stands_beside(facts.small, distinct[0][3], distinct[1][2]):
                roles = [kit_words.ADD, kit_words.HAVE]
            for role, one in zip(roles, distinct, strict=False):
                given[role].setdefault(part, one[:3])
            continue
        for value, words, start, end in told:
            lead = facts.small[max(0, start - 14) : start]
            if any(word in lead.split() for word in ("both", "all", "each")):
                for role in given:
                    given[role].setdefault(part, (value, words, start))
                continue
            owner = _kit_of(facts, found, start, end)
            if owner is not None:
                given[owner.role].setdefault(part, (value, words, start))
    if kit_words.same_again(facts) and given[kit_words.HAVE]:
        for part, one in given[kit_words.HAVE].items():
            given[kit_words.ADD].setdefault(part, one)
    for role, parts in given.items():
        for part, (value, words, start) in parts.items():
            key = role + part
            if key in plan.asked and (read := _read(plan.asked[key].entry, value)) is not None:
                yield Reading(key, read, words, start)


def _attributes(facts: Facts, plan: _Plan, part: str, asked: _Asked) -> Iterator[tuple[Any, str, int, int]]:
    """Values of one attribute of a kit in the text: (value, words, start, end)."""
    entry = asked.entry
    if isinstance(entry, Choice):
        for mention in mentions(facts, plan.choices):
            key, value = mention.stands_for
            if key == entry.key and not mention.denied:
                single = mention.size == 1
                if single and (value == entry.start or (facts.roots[mention.first] in _WEAK and part != "form")):
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
            if word and word.text in ("cl", "c", "cas") and quantity.start - word.end <= 1 and not within:
                text = facts.text[word.start : quantity.end]
                yield f"CL{int(quantity.value)}", text, word.start, quantity.end
        return
    if _needs_a_name(entry):
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
        scored = _score(facts, asked, quantity)
        if scored is not None and (value := _read(entry, scored[1])) is not None:
            offers.append((quantity.weight, value, quantity))
    offers.sort(key=lambda offer: -offer[0])
    for weight, value, quantity in offers:
        if weight >= 0:
            yield value, facts.text[quantity.start : quantity.end], quantity.start, quantity.end


def _kit_of(facts: Facts, found: Sequence[kit_words.Kit], start: int, end: int) -> kit_words.Kit | None:
    """The kit that an attribute belongs to: the last one before it, unless it stands close before the next."""
    before = [kit for kit in found if kit.start <= start]
    after = [kit for kit in found if kit.start >= end]
    apart = "," in facts.small[end : after[0].start] if after else True
    if (
        after
        and not apart
        and after[0].start - end <= 14
        and (not before or start - before[-1].end > after[0].start - end)
    ):
        return after[0]
    if before:
        return before[-1]
    return after[0] if after and after[0].start - end < 60 else None


def _total(facts: Facts, plan: _Plan) -> Iterator[Reading]:
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
    if (value := _read(asked.entry, _tidy(total))) is not None:
        yield Reading(key, value, facts.text[kit.start : kit.end], kit.start)


# ---------------------------------------------------------------- small help


def _reading(facts: Facts, key: str, value: Any, place: Place) -> Reading:
    start, end = facts.words[place[0]].start, facts.words[place[1]].end
    return Reading(key, value, facts.text[start:end], start)


def _read(entry: Input, typed: object) -> Any:
    """The value as JSON has it, or None where the input refuses it."""
    try:
        return entry.echo(entry.read(typed))
    except ValueError:
        return None


def _plain(value: float) -> str:
    return str(_tidy(value))


def _tidy(value: float) -> float | int:
    return int(value) if value == int(value) else value
