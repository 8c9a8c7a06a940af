"""A picture's size with the refresh behind it, and whole display modes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from calculators.asking.facts import Facts, PictureSize
from calculators.asking.inputs.plan import Plan, needs_a_name
from calculators.asking.inputs.refresh_rates import refresh_of
from calculators.asking.inputs.values import Reading, tidy
from calculators.desk.inputs import Number, Text

_BESIDE_A_SIZE = 14  # characters: a word so close before a size, or half as close behind it, says of what it is
_TEXTURE_SIDE = 1024  # pixels in each k of a texture, whose sides are powers of two; a picture's k are not


def by_size(facts: Facts, plan: Plan) -> Iterator[Reading]:
    """Width, height and the refresh behind them, where a calculator asks for a picture's size."""
    keys = list(plan.asked)
    width = next((k for k in keys if k.endswith("width") and not needs_a_name(plan.asked[k].entry)), None)
    height = next((k for k in keys if k.endswith("height") and not needs_a_name(plan.asked[k].entry)), None)
    if width is None or height is None:
        return
    of_others = dict(_sizes_of_others(facts, plan, width, height))
    for key, size in of_others.items():
        words = facts.text[size.start : size.end]
        yield Reading(key, int(words[0]) * _TEXTURE_SIDE if words[1:2] in "kK" else size.width, words, size.start)
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
            yield Reading(rate, tidy(size.refresh), words, size.start)


def _another_is_wanted(facts: Facts, size: PictureSize) -> bool:
    """Whether a refresh is told as what there is, and another stands in the text: 'gives 1440p at 60, it does 165'."""
    return size.weight < 0 and any(
        q.weight >= 0 and (size.start > q.end or q.start > size.end) and refresh_of(facts, q) is not None
        and refresh_of(facts, q) != size.refresh
        for q in facts.quantities
    )  # fmt: skip


def _sizes_of_others(facts: Facts, plan: Plan, width: str, height: str) -> Iterator[tuple[str, PictureSize]]:
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
                    side = int(word.text) * _TEXTURE_SIDE
                    yield key, PictureSize(side, side, None, word.start, unit.end)
                    break


def by_mode(facts: Facts, plan: Plan, readings: Mapping[str, Reading]) -> Iterator[Reading]:
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
            rates = [(q, r) for q in facts.quantities if (r := refresh_of(facts, q)) is not None]
            if not rates:
                continue
            quantity, refresh = max(rates, key=lambda pair: pair[0].weight)
            start, end = min(start, quantity.start), max(end, quantity.end)
        try:
            value = entry.echo(entry.read(f"{size.width}x{size.height}@{tidy(refresh)}"))
        except ValueError:
            continue
        yield Reading(key, value, facts.text[start:end], start)
