"""Inputs for a calculator, made from its declaration by a seeded chance: mostly usable, some wrong on purpose."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from typing import Any

from calculators.desk.calculator import Calculator
from calculators.desk.inputs import UNSURE, Choice, Estimate, Input, Number, Text

WRONG: tuple[Any, ...] = (
    "", " ", "x", "-1", "1e400", "nan", "inf", "0x10", "1,5", "1.5.5", "½", "\u0000", "<b>&amp;</b>", "12" * 40,
    None, True, -1, 1e300, 3.5, 10**30, [], {},
)  # fmt: skip


def random_inputs(calculator: Calculator, count: int, seed: int) -> Iterator[dict[str, Any]]:
    """
    `count` sets of inputs, the same for the same seed.

    Half of them are a common case with a few inputs changed, since inputs drawn each for itself seldom go together;
    half leave out what is optional, since such inputs often come in pairs; one in eight holds something wrong.
    """
    chance = random.Random(f"{calculator.name} {seed}")
    leaves_out = random.Random(f"{calculator.name} {seed} without what is optional")
    for _ in range(count):
        inputs: dict[str, Any] = {}
        if calculator.presets and chance.random() < 0.5:
            inputs.update(chance.choice(calculator.presets).inputs)
            changed = chance.sample(calculator.inputs, min(len(calculator.inputs), chance.randint(0, 4)))
        else:
            changed = [entry for entry in calculator.inputs if chance.random() < (0.4 if entry.optional else 0.8)]
        spare = leaves_out.random() < 0.5
        for entry in changed:
            if spare and entry.optional:
                continue
            inputs[entry.key] = usable(entry, chance, [preset.inputs.get(entry.key) for preset in calculator.presets])
        if chance.random() < 1 / 8:
            key = chance.choice([entry.key for entry in calculator.inputs] + ["no_such_input"])
            inputs[key] = chance.choice(WRONG)
        yield inputs


def usable(entry: Input, chance: random.Random, common: Sequence[Any] = ()) -> Any:
    """
    A value that the input by itself takes, or, for texts with a shape, one that it may well take.

    common: what the common cases give for it; a text without a default is one of these, varied.
    """
    if entry.unsure and chance.random() < 0.1:
        return UNSURE
    if isinstance(entry, Choice):
        return chance.choice(entry.options).value
    if isinstance(entry, Estimate) and entry.choices and chance.random() < 0.3:
        return chance.choice(entry.choices).value
    if isinstance(entry, Number):
        if entry.named and chance.random() < 0.2:
            return chance.choice(entry.named).label
        return _number(entry, chance)
    if isinstance(entry, Text):
        known = [text for text in common if isinstance(text, str)]
        return _varied(entry.default or (chance.choice(known) if known else entry.example), chance)
    raise TypeError(f"no random values for {entry.kind}")


def _number(entry: Number, chance: random.Random) -> Any:
    drawn = chance.random()
    if drawn < 0.1:
        value: float = chance.choice((entry.low, entry.high))
    elif drawn < 0.5 and entry.low > 0:
        value = entry.low * (entry.high / entry.low) ** chance.random()
    else:
        value = chance.uniform(entry.low, entry.high)
    value = min(max(round(value, 0 if entry.whole else chance.randint(0, 4)), entry.low), entry.high)
    if entry.whole:
        value = int(value)
    form = chance.random()
    if form < 0.3:
        return value
    text = f"{value}"
    if form < 0.5 and "e" not in text:
        text = text.replace(".", ",")
    return f"{text} {entry.unit}" if form > 0.85 else text


def _varied(text: str, chance: random.Random) -> str:
    """The same text with a few digits changed."""
    return "".join(chance.choice("0123456789") if c.isdigit() and chance.random() < 0.2 else c for c in text)
