"""By what the inputs of one calculator are recognised in a text: names, units and options."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache

from calculators.asking import kits as kit_words
from calculators.asking.phrases import Name, by_first, name
from calculators.asking.words import SAYS_NOTHING, cut, stem
from calculators.catalogue import find
from calculators.desk.calculator import Calculator
from calculators.desk.inputs import Choice, Estimate, Input, Number, PrivateText, YesNo

_SAYS_ENOUGH = 8  # letters: a single word so long is the name of one thing, 'soundbar'; 'tv' is of many
# How near a unit is to what an input asks for, in points (scores.py): its own; one that it takes too; one of the units
# that a choice of numbers is told in, which are often something else's.
_OWN_UNIT, _FURTHER_UNIT, _UNIT_OF_A_CHOICE = 1.0, 0.6, 0.3


@dataclass(frozen=True, slots=True)
class AskedInput:
    """An input, and by what it is recognised in a text."""

    entry: Input
    units: Mapping[str, float]  # unit as typed, small letters: 1 its own, less for others
    names: tuple[tuple[str, ...], ...]  # the roots of its names and its label
    near: frozenset[str]  # single roots that speak for it when they stand near
    sure_names: frozenset[str]  # of those, the ones that are names by themselves, or stand in the label
    choices_near: frozenset[str]  # roots of its everyday choices, which speak for it a little
    counted: frozenset[str]  # names declared for one and for many: what is counted
    speaks: frozenset[str]  # all roots of its names and label, those too that it shares with others


@dataclass(slots=True)
class Plan:
    """What of one calculator is looked for in a text: its inputs, and by first root the names that tell them."""

    calculator: Calculator
    asked: dict[str, AskedInput] = field(default_factory=dict)
    choices: dict[str, list[Name]] = field(default_factory=dict)  # options: (key, value)
    named: dict[str, list[Name]] = field(default_factory=dict)  # inputs that are yes where they are named
    without: dict[str, list[Name]] = field(default_factory=dict)  # inputs that are none where they are denied
    presets: dict[str, list[Name]] = field(default_factory=dict)  # common cases by their symptoms
    twins: dict[str, str] = field(default_factory=dict)  # a choice and the one with the same options
    called: dict[str, list[Name]] = field(default_factory=dict)  # names of several words: the input's key


@lru_cache(maxsize=256)
def plan_of(calculator_name: str) -> Plan:
    """How the inputs of a calculator are recognised."""
    calculator = find(calculator_name)
    plan = Plan(calculator)
    choices: list[Name] = []
    named: list[Name] = []
    without: list[Name] = []
    for entry in calculator.inputs:
        if isinstance(entry, PrivateText):
            continue
        plan.asked[entry.key] = _asked_input(entry)
        if isinstance(entry, Choice):
            choices += _option_names(entry)
            if _is_yes_no(entry):
                named += [name(phrase, (entry.key, "yes")) for phrase in entry.names]
            elif any(option.value == "none" for option in entry.options):
                without += [name(phrase, (entry.key, "none")) for phrase in entry.names]
            choices += [
                name(phrase, (entry.key, option.value))
                for phrase in entry.names
                for option in entry.options
                if phrase[:1] == "x" and phrase[1:] == option.value
            ]
        for phrase in entry.names:
            first, _, rest = phrase.partition(" ")
            counted = isinstance(entry, Choice) or (isinstance(entry, Number) and not entry.unit)
            if first in ("single", "dual") and rest and counted and not isinstance(entry, YesNo):
                choices.append(name(phrase, (entry.key, "1" if first == "single" else "2")))
        if isinstance(entry, Estimate):
            choices += [
                name(phrase, (entry.key, choice.value))
                for choice in entry.choices
                for phrase in choice.names
                if " " in phrase or len(phrase) >= _SAYS_ENOUGH
            ]
    plan.choices, plan.named, plan.without = by_first(choices), by_first(named), by_first(without)
    plan.presets = by_first(
        name(phrase, preset.key) for preset in calculator.presets for phrase in getattr(preset, "names", ())
    )
    plan.twins = _counterparts(calculator)
    _keep_own(plan)
    return plan


def _keep_own(plan: Plan) -> None:
    """Take from each input the words that it shares with others, since they tell no input from another."""
    times = Counter(word for asked in plan.asked.values() for word in asked.near)
    by_name = Counter(word for asked in plan.asked.values() for word in _declared_roots(asked.entry))
    for key, asked in plan.asked.items():
        declared = _single_names(asked.entry)  # a name says more than a word of another's label
        own = frozenset(word for word in asked.near if times[word] == 1 or (word in declared and by_name[word] == 1))
        plan.asked[key] = replace(asked, near=own, sure_names=own & asked.sure_names)
    plan.called = by_first(
        Name(name_roots, key) for key, asked in plan.asked.items() for name_roots in asked.names if len(name_roots) > 1
    )  # fmt: skip


def _single_names(entry: Input) -> set[str]:
    """The roots of an input's declared names of one word."""
    return {stem(one) for one in entry.names if one.isalpha()}


def _declared_roots(entry: Input) -> set[str]:
    """The roots of all words of an input's declared names, its label's left out."""
    return {stem(word.text) for one_name in entry.names for word in cut(one_name)}


def _is_yes_no(entry: Input) -> bool:
    return isinstance(entry, Choice) and {"yes", "no"} <= {option.value for option in entry.options}


def _asked_input(entry: Input) -> AskedInput:
    units: dict[str, float] = {}
    if isinstance(entry, Number):
        units = {unit_key(unit): _FURTHER_UNIT for unit in entry.also} | (
            {unit_key(entry.unit): _OWN_UNIT} if entry.unit else {}
        )
    elif isinstance(entry, Choice):
        units = {unit_key(unit): _UNIT_OF_A_CHOICE for unit in getattr(entry, "units", ())}
    names = [tuple(stem(w.text) for w in cut(one_name)) for one_name in (*entry.names, entry.label)]
    near = {
        word
        for one_name in names
        for word in one_name
        if word not in SAYS_NOTHING and word[0].isalpha() and len(word) > 1
    }
    nothing = {stem(word) for word in (*SAYS_NOTHING, "machine", "computer", "thing")} | set(units)
    choices: set[str] = set()
    if isinstance(entry, Estimate):
        choices = {
            stem(w.text) for c in entry.choices for one_name in c.names for w in cut(one_name) if len(w.text) > 2
        }
    single = {one_name[0] for one_name in names if len(one_name) == 1} | {stem(w.text) for w in cut(entry.label)}
    return AskedInput(entry, units, tuple(dict.fromkeys(names)), frozenset(near - nothing),
        frozenset(near & single - nothing),
                  frozenset(choices - nothing - near), _counted(entry), frozenset(near - nothing))  # fmt: skip


def _counted(entry: Input) -> frozenset[str]:
    """Names declared in singular and plural, pass and passes: of these a text tells a number, '3 passes'."""
    return frozenset(stem(one) for one in entry.names if {one + "s", one + "es"} & set(entry.names))


def unit_key(unit: str) -> str:
    """A unit as units are looked up: small letters, no blanks."""
    return unit.replace(" ", "").casefold().replace("μ", "µ")


def _option_names(entry: Choice) -> Iterator[Name]:
    for option in entry.options:
        if option.value in ("unsure", "unknown"):
            continue
        if isinstance(entry, YesNo) and option.value in ("yes", "no") and not option.names:
            continue
        phrases = [phrase.replace("displayport", "display port") for phrase in option.names if "displayport" in phrase]
        phrases += option.names
        if option.value.isalnum() and not option.value.isalpha() and not option.value[0].isdecimal():
            phrases.append(option.value)  # typed as h264; the label has a point in it
        label = option.label.casefold()
        if not label.replace(".", "").replace(" ", "").isdecimal() and option.value != "none":
            phrases.append(label.partition(" (")[0])
        if ":" in option.label and option.value.isdecimal() and option.label.replace(":", "") == option.value:
            phrases.append(option.value)
        for phrase in dict.fromkeys(phrases):
            if phrase not in ("none", "no", "yes", "other", "another"):
                yield name(phrase, (entry.key, option.value))


def _counterparts(calculator: Calculator) -> dict[str, str]:
    """Choices that offer the same things: the first, and the one that is its counterpart."""
    counterparts: dict[str, str] = {}
    entries = [entry for entry in calculator.inputs if isinstance(entry, Choice) and not isinstance(entry, YesNo)]
    for n, first in enumerate(entries):
        for second in entries[n + 1 :]:
            values = {o.value for o in first.options} & {o.value for o in second.options} - {
                "unsure",
                "unknown",
                "none",
            }
            if len(values) > 1 and first.key not in counterparts.values() and not is_kits_own(first.key):
                counterparts.setdefault(first.key, second.key)
    return counterparts


def is_kits_own(key: str) -> bool:
    """Whether an input is of one of two kits, by its key."""
    return key.startswith((kit_words.HAVE, kit_words.ADD))


def parts_of_two_kits(plan: Plan) -> set[str]:
    """What the two kits have in common: 'count', 'size' and so on, for have_count with add_count."""
    have = {key.removeprefix(kit_words.HAVE) for key in plan.asked if key.startswith(kit_words.HAVE)}
    return {part for part in have if kit_words.ADD + part in plan.asked}


def is_kit_key(key: str, pairs: set[str]) -> bool:
    """Whether two_kits.py reads an input: it has a counterpart in the other kit, or stands beside such."""
    return any(key == start + part for start in (kit_words.HAVE, kit_words.ADD) for part in pairs) or (
        bool(pairs) and key.startswith((kit_words.HAVE, kit_words.ADD, "replace_"))
    )


def needs_a_name(entry: Input) -> bool:
    """Whether an input is read only where the text names it, since few people give it."""
    return entry.extra or (entry.optional and entry.start is None)
