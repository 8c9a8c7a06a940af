"""A calculator's form as HTML, made from its declaration. Built disabled: the page's script enables it."""

from __future__ import annotations

import json
from collections.abc import Mapping

from calculators.desk.calculator import Calculator
from calculators.desk.inputs import UNSURE, Choice, Estimate, Input, Number, Text
from calculators.desk.numbers import number, with_unit
from calculators.desk.svg import escape

# Longer options would be cut off where two fields share a phone's width.
_LONG_OPTION = 12
_LONG_UNIT = 9  # letters: a longer one has no room beside its number in a third of the form
_LONG_TEXT = 11  # as many signs as a row of timings has, such as 16-18-18-36


def form(calculator: Calculator, prefix: str, shown: Mapping[str, str], presets: tuple[str, ...]) -> str:
    """
    One calculator's form.

    Args:
        calculator: The calculator whose inputs the form asks for. [object]
        prefix: Starts every id inside. [text]
        shown: What stands in the fields, as typed; a field without an entry shows its default. [mapping]
        presets: Keys of the presets offered. [list]

    Returns:
        HTML. [text]

    Source:
        WHATWG HTML standard; WCAG 2.2, 1.3.1 and 3.3.2.

    Example:
        >>> from calculators.catalogue import find
        >>> "<form" in form(find("memory.rate"), "a", {}, ())
        True
    """
    buttons = "".join(
        f'<button type="button" class="wa-preset" data-preset="{escape(p.key)}">{escape(p.label)}</button>'
        for p in calculator.presets
        if p.key in presets
    )
    parts = ['<form class="wa-form" autocomplete="off" novalidate><fieldset class="wa-inputs" disabled>']
    parts.append('<legend class="wa-legend">Your numbers</legend>')
    if buttons:
        parts.append(f'<div class="wa-presets" role="group" aria-label="Common cases">{buttons}</div>')
    groups: dict[str, list[Input]] = {}
    for entry in calculator.inputs:
        groups.setdefault(entry.group, []).append(entry)
    parts.append('<div class="wa-groups">')
    for title, entries in groups.items():
        parts.append(_group(title, entries, prefix, shown))
    parts.append("</div></fieldset></form>")
    return "".join(parts)


def _group(title: str, entries: list[Input], prefix: str, shown: Mapping[str, str]) -> str:
    parts = ['<fieldset class="wa-group">']
    parts.append(f'<legend class="wa-group-title">{escape(title)}</legend>' if title else "")
    parts += [_field(e, prefix, shown) for e in entries if not e.extra]
    extra = [e for e in entries if e.extra]
    if extra:
        opened = " open" if any(e.key in shown for e in extra) else ""
        parts.append(f'<details class="wa-extra"{opened}><summary>More, if you know it</summary>')
        parts += [_field(e, prefix, shown) for e in extra]
        parts.append("</details>")
    parts.append("</fieldset>")
    return "".join(parts)


def _field(entry: Input, prefix: str, shown: Mapping[str, str]) -> str:
    name = f"{prefix}-{entry.key.replace('_', '-')}"
    default = "" if entry.start is None else entry.write(entry.start)
    value = shown.get(entry.key, _default(entry, shown))
    note = _note(entry)
    described = f"{name}-note {name}-error" if note else f"{name}-error"
    common = f'id="{name}" name="{escape(entry.key)}" aria-describedby="{described}"'
    # 'not sure' belongs beside the field, where a thumb finds it; a choice has it among its options
    unsure = (
        f'<button type="button" class="wa-unsure" data-value="{UNSURE}">Not sure</button>'
        if entry.unsure and not isinstance(entry, Choice)
        else ""
    )
    return (
        f'<div class="wa-field{_room(entry)}" data-input="{escape(entry.key)}" data-kind="{entry.kind}" '
        f'data-default="{escape(default)}"'
        f"{' data-optional' if entry.optional else ''}{' data-private' if entry.private else ''}{_follows(entry)}>"
        f'<label for="{name}">{escape(entry.label)}</label>'
        f'<span class="wa-control">{_control(entry, common, value)}{unsure}</span>{_offers(entry)}'
        + (f'<p class="wa-note" id="{name}-note">{escape(note)}</p>' if note else "")
        + _where(entry)
        + f'<p class="wa-error" id="{name}-error" hidden></p></div>'
    )


def _where(entry: Input) -> str:
    """Where a viewer finds the value: in a fold, or open where the field itself stands in a fold already."""
    if entry.extra:
        return f'<p class="wa-note wa-where-open">{escape(entry.where)}</p>'
    return (
        f'<details class="wa-where"><summary>{escape(entry.where_title)}</summary>'
        f"<p>{escape(entry.where)}</p></details>"
    )


def _default(entry: Input, shown: Mapping[str, str]) -> str:
    """What a field shows where nothing is given: its default, which may follow from another field."""
    start = entry.start_beside(shown)
    return "" if start is None else entry.write(start)


def _follows(entry: Input) -> str:
    """What a change of another field does to this one, for the page's script."""
    if entry.follows is None:
        return ""
    change = {"key": entry.follows.key, "defaults": dict(entry.follows.defaults)}
    keeps = {value: list(kept) for value, kept in entry.follows.keeps.items()}
    return f' data-follows="{escape(json.dumps({**change, "keeps": keeps}, separators=(",", ":")))}"'


def _offers(entry: Input) -> str:
    """Buttons below a number's field, with everyday names, that fill in the value the name stands for."""
    offered: list[tuple[str, str]] = []
    if isinstance(entry, Estimate):
        offered = [(choice.value, choice.label) for choice in entry.choices]
    elif isinstance(entry, Number):
        offered = [(entry.write(known.value), known.label) for known in entry.named]
    buttons = "".join(
        f'<button type="button" class="wa-unsure" data-value="{escape(value)}">{escape(label)}</button>'
        for value, label in offered
    )
    return f'<span class="wa-offers">{buttons}</span>' if buttons else ""


def _room(entry: Input) -> str:
    """A class for fields that need more room than a number does."""
    if isinstance(entry, Choice):
        return " wa-wide" if max(len(o.label) for o in entry.options) > _LONG_OPTION else ""
    if isinstance(entry, Number):
        return " wa-wide" if len(entry.unit) > _LONG_UNIT else ""
    return " wa-wide" if isinstance(entry, Text) and (entry.rows > 1 or len(entry.example) > _LONG_TEXT) else ""


def _control(entry: Input, common: str, value: str) -> str:
    if isinstance(entry, Choice):
        options = "".join(
            f'<option value="{escape(o.value)}"{" selected" if o.value == value else ""}>{escape(o.label)}</option>'
            for o in entry.options
        )
        if entry.optional and entry.start is None:
            options = f'<option value="">not given</option>{options}'
        return f"<select {common}>{options}</select>"
    if isinstance(entry, Text) and entry.rows > 1:
        return f'<textarea {common} rows="{entry.rows}" spellcheck="false">{escape(value)}</textarea>'
    mode = ""
    unit = ""
    if isinstance(entry, Number):
        mode = ' inputmode="numeric"' if entry.whole else ' inputmode="decimal"'
        unit = f'<span class="wa-unit">{escape(entry.unit)}</span>' if entry.unit else ""
    typed = f'<input {common} type="text"{mode} value="{escape(value)}" spellcheck="false">'
    return f'<span class="wa-typed">{typed}</span>{unit}'


def _note(entry: Input) -> str:
    parts = [entry.note] if entry.note else []
    if isinstance(entry, Number):
        low, high = number(entry.low, entry.places), number(entry.high, entry.places)
        parts.append(f"{low} to {with_unit(high, entry.unit)}")
    elif isinstance(entry, Text) and entry.example and not entry.private:
        parts.append(f"such as {entry.example}")
    if entry.optional:
        parts.append("may be left empty")
    return "; ".join(parts)
