"""
The inputs of a calculator: what may be asked of viewers, and how what they typed is read.

A declaration is the only place where an input's key, label, unit, range, default, help and whereabouts live;
form, terminal, link, JSON and documentation are made from it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from calculators.desk.errors import InputErrors, Problem, nearest_names
from calculators.desk.numbers import NotANumber, number, read_number, settled, with_unit

UNSURE = "unsure"
WHERE_TO_FIND = "Where do I find this?"
HOW_TO_TELL, HOW_TO_CHOOSE = "How do I tell?", "How do I choose?"
_UNSURE_WORDS = frozenset({"unsure", "not sure", "unknown", "don't know", "dont know", "?"})
_LONGEST_QUOTE = 40
_NOTHING = 1e-100  # what is smaller is no quantity of anything, and its inverse would not fit a float
_LONGEST_SHORT_TEXT = 400


@dataclass(frozen=True, slots=True)
class Follows:
    """
    How an input depends on a choice before it, as a memory rate does on the generation.

    key: the key of that choice. defaults: for each of the choice's values this input's default, as one would type it;
    where a value has no entry, the input's own default holds. keeps: for each of the choice's values, what may stay in
    this input's field when the viewer changes the choice to it; anything else gives way to the default.
    """

    key: str
    defaults: Mapping[str, str] = field(default_factory=dict)
    keeps: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """
    What all kinds of input share.

    key: its name in links, terminal and JSON. label: its name in the form.
    where: where a viewer finds the value (sticker, menu, command). where_title: the form's question above that; for
    an input about the reader, or one answered by looking or choosing, HOW_TO_TELL or HOW_TO_CHOOSE.
    group: the heading under which the form puts it. note: a line below the field.
    extra: kept in a fold of the form, for inputs that few need.
    optional: may be left empty, and is then left out. default: holds where nothing is given; the answer then lists the
    input as assumed. unsure: a viewer may say 'not sure'; the calculator then sees None.
    private: never enters a link, a card, copied text, storage or JSON.
    names: further everyday names under which people speak of it ('cl', 'latency'), in small letters, for the reader of
    whole questions; it knows key, label, unit and option names anyway.
    follows: another input that decides what is usual here.
    printed: a function that reads the value from the text of a label, such as 'DDR4-3200' where a rate is asked for;
    it returns None where the text is no label.
    against: a function that gets the text typed here and the inputs before this one; where they contradict each other
    it returns the sentence that says so, else ''.
    """

    key: str
    label: str
    where: str
    where_title: str = WHERE_TO_FIND
    group: str = ""
    names: tuple[str, ...] = ()
    extra: bool = False
    optional: bool = False
    unsure: bool = False
    private: bool = False
    note: str = ""
    follows: Follows | None = None
    printed: Callable[[str], Any] | None = None
    against: Callable[[str, Mapping[str, Any]], str] | None = None

    def start_beside(self, values: Mapping[str, Any]) -> Any:
        """The default, which may follow from inputs that were read before; None where there is none."""
        typed = self.follows.defaults.get(values.get(self.follows.key, "")) if self.follows else None
        return self.start if typed is None else self.read(typed)

    @property
    def kind(self) -> str:
        """The kind's name, as it stands in forms and JSON."""
        raise NotImplementedError

    @property
    def start(self) -> Any:
        """The default, or None where the input is optional and has none."""
        raise NotImplementedError

    def expected(self) -> str:
        """What may be given, in words that complete 'must be …'."""
        raise NotImplementedError

    def read(self, given: object) -> Any:
        """The value that was given; ValueError with a whole sentence where it does not fit."""
        raise NotImplementedError

    def write(self, value: Any) -> str:
        """A value as one would type it; reading it back gives the same value."""
        raise NotImplementedError

    def say(self, value: Any) -> str:
        """A value as it is worded in an answer."""
        raise NotImplementedError

    def echo(self, value: Any) -> Any:
        """A value for JSON: as one would type it."""
        return self.write(value)

    def wrong(self, given: object) -> ValueError:
        """The error for a value that does not fit: what is expected, and what came."""
        return ValueError(f"{self.label} must be {self.expected()}, got {quote(given)}.")


@dataclass(frozen=True, slots=True)
class NamedValue:
    """A value that a number's field offers under an everyday name, as a button: 'music' for 100."""

    value: float
    label: str
    names: tuple[str, ...] = ()

    def called(self, typed: str) -> bool:
        """Whether this is what somebody typed, small letters."""
        return typed == self.label.casefold() or typed in self.names


@dataclass(frozen=True, slots=True, kw_only=True)
class Number(Input):
    """
    A number with a unit and a range.

    low, high: the range. places: most digits after the point where the value is shown. also: other units that may be
    typed, each with its factor to `unit`. whole: takes whole numbers only; for things that are counted. named: values
    that have everyday names; the form offers each as a button, and the name may be typed. such_as: an example that
    makes sense, where there is no default.
    """

    low: float
    high: float
    unit: str = ""
    default: float | None = None
    whole: bool = False
    places: int = 6
    also: Mapping[str, float] = field(default_factory=dict)
    named: tuple[NamedValue, ...] = ()
    such_as: float | None = None

    @property
    def kind(self) -> str:
        return "number"

    @property
    def start(self) -> float | None:
        return self.default

    def expected(self) -> str:
        kind = "a whole number" if self.whole else "a number"
        bounds = f"{number(self.low, self.places)} to {with_unit(number(self.high, self.places), self.unit)}"
        return f"{kind} from {bounds}, such as {self.example()}"

    def example(self) -> str:
        """One value that would do."""
        value = next(each for each in (self.default, self.such_as, self.low) if each is not None)
        return number(value, self.places).replace("\u202f", "")

    def read(self, given: object) -> float | None:
        if isinstance(given, str):
            if self.unsure and given.strip().casefold() in _UNSURE_WORDS:
                return None
            if len(given) > _LONGEST_SHORT_TEXT or (self.whole and _thousands(given)):
                raise self.wrong(given)
            if self.named and (called := given.strip().casefold()):
                for known in self.named:
                    if known.called(called):
                        given = repr(known.value)
                        break
            label = self.printed(given) if self.printed else None
            try:
                value: float = read_number(given, self.unit, self.also) if label is None else label
            except NotANumber:
                raise self.wrong(given) from None
        elif (
            isinstance(given, bool)
            or not isinstance(given, (int, float))
            or (isinstance(given, int) and abs(given) > 10**15)
        ):
            raise self.wrong(given)
        else:
            value = given
        if abs(value) < _NOTHING:
            value = 0.0
        if not self.low <= value <= self.high:  # refuses NaN too
            raise self.wrong(given)
        if self.whole:
            if not math.isfinite(value) or value != int(value):
                raise ValueError(
                    f"{self.label} must be a whole number (no comma or point), such as {self.example()}, "
                    f"got {quote(given)}."
                )
            return int(value)
        return settled(value)

    def wrong(self, given: object) -> ValueError:
        plain = _thousands(given) if self.whole else ""
        if not plain:
            return super(Number, self).wrong(given)  # zero-argument super() fails in a class with slots
        return ValueError(
            f"{self.label} must be {self.expected()}, got {quote(given)}: write {plain}, without a comma."
        )

    def write(self, value: float | None) -> str:
        if value is None:
            return UNSURE
        if isinstance(value, int):
            return str(value)
        text = repr(value)
        return text[:-2] if text.endswith(".0") else text

    def say(self, value: float | None) -> str:
        return "not sure" if value is None else with_unit(number(value, self.places), self.unit)

    def echo(self, value: Any) -> Any:
        return self.write(value) if value is None else value


@dataclass(frozen=True, slots=True)
class Span:
    """
    A quantity of which only the least and the most are known; both are the same where a number was given.

    choice: the everyday choice that stands for it, `unsure`, or nothing.
    """

    low: float
    high: float
    choice: str = ""

    @property
    def exact(self) -> bool:
        """Whether a number was given."""
        return not self.choice


@dataclass(frozen=True, slots=True)
class Everyday:
    """An everyday choice that stands for a range: 'a game controller's television mode' for 10 to 25 ms."""

    value: str
    label: str
    low: float
    high: float
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate(Number):
    """
    A number that hardly anybody knows: given as a number, by an everyday choice, or as 'not sure'.

    The calculator sees a Span. choices: the everyday choices, offered as buttons; their value or label may be typed.
    unsure_low, unsure_high: the range that 'not sure' stands for. default: a number; start_with: in its place, a
    choice's value or 'unsure'.
    """

    choices: tuple[Everyday, ...] = ()
    unsure_low: float
    unsure_high: float
    unsure: bool = True
    start_with: str = ""

    @property
    def start(self) -> Span | None:  # type: ignore[override]
        if self.start_with:
            return self.read(self.start_with)
        return None if self.default is None else Span(self.default, self.default)

    def expected(self) -> str:
        words = [choice.value for choice in self.choices] + [UNSURE]
        return f"{super(Estimate, self).expected()}, or one of {', '.join(words)}"

    def read(self, given: object) -> Span:  # type: ignore[override]
        if isinstance(given, str):
            typed = given[:80].strip().casefold()
            if typed in _UNSURE_WORDS:
                return Span(self.unsure_low, self.unsure_high, UNSURE)
            for choice in self.choices:
                if typed in (choice.value, choice.label.casefold(), *choice.names):
                    return Span(choice.low, choice.high, choice.value)
        value = super(Estimate, self).read(given)
        if value is None:
            raise self.wrong(given)
        return Span(value, value)

    def write(self, value: Any) -> str:
        return value.choice or super(Estimate, self).write(value.low)

    def say(self, value: Any) -> str:
        if value.exact:
            return super(Estimate, self).say(value.low)
        low, high = number(value.low, self.places), number(value.high, self.places)
        label = next((choice.label for choice in self.choices if choice.value == value.choice), "not sure")
        return f"{label} ({low} to {with_unit(high, self.unit)})"

    def echo(self, value: Any) -> Any:
        return value.choice or value.low


@dataclass(frozen=True, slots=True)
class Option:
    """
    One of a choice's values, with its label; names: further everyday names of it, small letters.

    vague: its names tell less than those of the others, so that in a question another one that is named counts.
    """

    value: str
    label: str
    names: tuple[str, ...] = ()
    vague: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice(Input):
    """One of a few named values. An option called 'unknown' or 'unsure' stands for 'not sure'."""

    options: tuple[Option, ...]
    default: str | None = None

    @property
    def kind(self) -> str:
        return "choice"

    @property
    def start(self) -> str | None:
        return self.default

    def expected(self) -> str:
        return "one of " + ", ".join(o.value for o in self.options)

    def read(self, given: object) -> str:
        if isinstance(given, bool):
            given = "yes" if given else "no"
        elif isinstance(given, (int, float)):
            given = self._as_typed(given)
        if isinstance(given, str):
            typed = given[:80].strip().casefold()
            for option in self.options:
                if typed in (option.value.casefold(), option.label.casefold()):
                    return option.value
            if self.printed and (label := self.printed(given[:80])) is not None:
                return str(label)
            if typed in _UNSURE_WORDS:
                for option in self.options:
                    if option.value in (UNSURE, "unknown"):
                        return option.value
        raise self.wrong(given)

    @staticmethod
    def _as_typed(given: float) -> str:
        if isinstance(given, int):
            return str(given) if abs(given) < 10**15 else "a very large number"
        return str(int(given)) if math.isfinite(given) and given == int(given) and abs(given) < 1e15 else str(given)

    def write(self, value: str) -> str:
        return value

    def say(self, value: str) -> str:
        return next(o.label for o in self.options if o.value == value)


YES_NO = (Option("yes", "yes"), Option("no", "no"))


@dataclass(frozen=True, slots=True, kw_only=True)
class YesNo(Choice):
    """Yes or no; with `options` of its own it may add 'not sure'."""

    options: tuple[Option, ...] = YES_NO


def _as_is(text: str) -> str:
    return text


@dataclass(frozen=True, slots=True, kw_only=True)
class Text(Input):
    """
    A text with a shape of its own, such as a timing string.

    parse: the text to its meaning; raises ValueError with what is wrong, in words that complete 'must be …'.
    canonical: the meaning back to the one way of writing it.
    """

    example: str
    shape: str
    parse: Callable[[str], Any] = _as_is
    canonical: Callable[[Any], str] = str
    default: str | None = None
    longest: int = _LONGEST_SHORT_TEXT
    rows: int = 1

    @property
    def kind(self) -> str:
        return "text"

    @property
    def start(self) -> Any:
        return None if self.default is None else self.parse(self.default)

    def expected(self) -> str:
        return f"{self.shape}, such as {self.example}"

    def read(self, given: object) -> Any:
        if isinstance(given, (int, float)) and not isinstance(given, bool):
            given = Choice._as_typed(given)
        if not isinstance(given, str):
            raise self.wrong(given)
        if len(given) > self.longest:
            raise ValueError(f"{self.label} must be at most {self.longest} characters long, got {len(given)}.")
        try:
            return self.parse(given)
        except ValueError as problem:
            reason = str(problem)
            if reason:
                raise ValueError(f"{self.label} must be {self.expected()}: {reason}.") from None
            raise self.wrong("what was pasted" if self.private else given) from None

    def write(self, value: Any) -> str:
        return self.canonical(value)

    def say(self, value: Any) -> str:
        return self.canonical(value)


@dataclass(frozen=True, slots=True, kw_only=True)
class PrivateText(Text):
    """A text that never enters a link, a card, copied text, storage or the JSON echo."""

    private: bool = True
    longest: int = 262_144
    rows: int = 8

    @property
    def kind(self) -> str:
        return "private"

    def say(self, value: Any) -> str:
        return "as pasted, not shown"


def _thousands(given: object) -> str:
    """'3200' for '3,200': where things are counted, a comma before three digits groups them; else nothing."""
    if not isinstance(given, str):
        return ""
    before, comma, after = given.strip().partition(",")
    grouped = before.isascii() and before.isdigit() and after.isascii() and after.isdigit() and len(after) == 3
    return before + after if comma and grouped and len(before) <= 3 else ""


def quote(given: object) -> str:
    """A value that was given, quoted for an error message and shortened."""
    if given is None:
        return "nothing"
    if isinstance(given, bool):
        return "true" if given else "false"
    if isinstance(given, int):
        return str(given) if abs(given) < 10**15 else "a very large number"
    if isinstance(given, float):
        return str(given)
    if not isinstance(given, str):
        return "a list or an object"
    text = " ".join(given.split())
    if not text:
        return "nothing"
    return f"'{text if len(text) <= _LONGEST_QUOTE else text[: _LONGEST_QUOTE - 1] + '…'}'"


class Values(Mapping[str, Any]):
    """
    The inputs as understood: what was given, and the defaults for what was not.

    `assumed` lists the keys that were not given but have a default. An optional input left out is not a key;
    `get` then gives None.
    """

    def __init__(self, inputs: Sequence[Input], values: dict[str, Any], assumed: tuple[str, ...]) -> None:
        self.inputs = tuple(inputs)
        self.assumed = assumed
        self._values = values

    def __getitem__(self, key: str) -> Any:
        return self._values[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._values)

    def __len__(self) -> int:
        return len(self._values)

    def say(self, key: str) -> str:
        """A value as it is worded in an answer."""
        return self.input(key).say(self._values[key])

    def input(self, key: str) -> Input:
        """The declaration behind a key."""
        return next(i for i in self.inputs if i.key == key)

    def label(self, key: str) -> str:
        """An input's label; where another input has the same one, with its group before it."""
        entry = self.input(key)
        if not entry.group:
            return entry.label
        shared = sum(i.label == entry.label for i in self.inputs) > 1
        return f"{entry.group}, {entry.label}" if shared else entry.label

    def echo(self) -> dict[str, Any]:
        """The values for JSON: numbers as numbers, all else as one would type it, nothing private."""
        shown: dict[str, Any] = {}
        for entry in self.inputs:
            if entry.key in self._values and not entry.private:
                shown[entry.key] = entry.echo(self._values[entry.key])
        return shown

    def given(self, private: bool = False) -> dict[str, str]:
        """
        What was given, as one would type it, for a link: nothing assumed, nothing private.

        private: private inputs too. Only for a page's own examples, whose author wrote them for all to see.
        """
        return {
            entry.key: entry.write(self._values[entry.key])
            for entry in self.inputs
            if entry.key in self._values and entry.key not in self.assumed and (private or not entry.private)
        }


def _whole_text(given: object) -> object:
    """A text without lone surrogates (halves of a UTF-16 pair), which no page and no terminal can hold."""
    if isinstance(given, str) and not given.isascii() and any("\ud800" <= c <= "\udfff" for c in given):
        return given.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    return given


def read_all(inputs: Sequence[Input], raw: Mapping[str, object]) -> Values:
    """
    Read everything at once.

    Args:
        inputs: The declarations, in the order of the form. [list]
        raw: What was given, by key; text, numbers or yes/no. [mapping]

    Returns:
        The values as understood. [mapping]

    Raises:
        InputErrors: With every problem found: unknown keys, values that do not fit, missing values.

    Source:
        DESIGN rule of this project: all wrong inputs at once.

    Example:
        >>> cas = Number(key="cas", label="CAS", where="sticker", low=1, high=99, whole=True)
        >>> read_all([cas], {"cas": "16"})["cas"]
        16
    """
    problems: list[Problem] = []
    values: dict[str, Any] = {}
    assumed: list[str] = []
    for entry in inputs:
        given = _whole_text(raw.get(entry.key))
        empty = given is None or (isinstance(given, str) and not given.strip())
        if empty:
            if entry.optional:
                continue
            start = entry.start_beside(values)
            if entry.key in raw or start is None:
                problems.append(Problem(entry.key, f"{entry.label} is empty: give {entry.expected()}."))
            else:
                values[entry.key] = start
                assumed.append(entry.key)
            continue
        try:
            values[entry.key] = entry.read(given)
        except ValueError as problem:
            problems.append(Problem(entry.key, str(problem)))
            continue
        if entry.against and isinstance(given, str) and (sentence := entry.against(given, values)):
            problems.append(Problem(entry.key, sentence))
    known = [entry.key for entry in inputs]
    for key in raw:
        if key not in known:
            name = str(_whole_text(key))
            near = nearest_names(name, known)
            hint = f"; did you mean {near[0]}?" if near else f"; the inputs are {', '.join(known)}."
            problems.append(Problem(name[:80], f"There is no input {quote(name)}{hint}"))
    if problems:
        raise InputErrors(problems)
    return Values(inputs, values, tuple(assumed))
