"""What the screen shows of memory says what the bars beside it say, and keeps its condition in every form."""

from __future__ import annotations

import math

import pytest

from calculators.catalogue import find
from calculators.desk.card import composed
from calculators.desk.card_declared import Over

FORMS = ("wide", "panel", "upright", "lower", "thumbnail")


def said(result, shape: str) -> str:
    return " ".join(box.what for box in composed(result, shape=shape).canvas.boxes if box.size)


def bars(result, shape: str) -> dict[str, float]:
    boxes = composed(result, shape=shape).canvas.boxes
    return {box.what: box.right - box.left for box in boxes if box.what.startswith(("bar ", "zone "))}


@pytest.mark.parametrize(
    ("rate", "cas", "hero"),
    [
        (3200, 16, "both 10 ns"),
        (6000, 30, "all 10 ns"),  # by its own label a DDR4-6000, beside both kits
        (3600, 18, "all 10 ns"),
        (3200, 18, "11.2 ns"),
        (6000, 32, "10.7 ns"),
    ],
)
def test_where_all_bars_are_alike_the_hero_says_so(rate, cas, hero):
    card = find("memory.rate").run({"rate": rate, "cas": cas}).card()
    assert card.hero == hero


@pytest.mark.parametrize(("generation", "rate", "cas"), [("ddr4", 3200, 16), ("ddr5", 6000, 30), ("ddr4", 3600, 18)])
def test_no_faster_kit_is_shown_as_no_faster(generation, rate, cas):
    result = find("memory.rate").run({"generation": generation, "rate": rate, "cas": cas})
    ratio = max(6000, rate) / (3200 if rate == 6000 else rate)
    assert result.card().line.endswith(f" moves {ratio:.1f} times the data")
    assert result.card().line.startswith("same wait; ")
    assert f"{ratio:.1f}× the data" in said(result, "panel")  # which has no room for the line
    waits = bars(result, "panel").values()
    assert max(waits) == pytest.approx(min(waits), rel=0.01)  # beside "both 10 ns" no bar is of anything else


@pytest.mark.parametrize(("rate", "cas"), [(3200, 16), (3200, 18), (3600, 18)])
def test_the_working_shows_the_label_s_own_numbers_and_comes_to_the_wait(rate, cas):
    result = find("memory.rate").run({"rate": rate, "cas": cas})
    latency = next(f.value for f in result.answer.figures if f.key == "latency_ns")
    fractions = [part for part in result.card().working if isinstance(part, Over)]
    assert fractions[0] == Over(f"{cas} clocks", f"{rate} ÷ 2 MHz")
    for part in fractions:  # JEDEC's two transfers a clock: clocks over half the rate, in microseconds
        clocks, halved = int(part.top.split()[0]), int(part.bottom.split()[0])
        assert 1000 * clocks / (halved / 2) == pytest.approx(latency, abs=0.05)


@pytest.mark.parametrize("have", [None, 4, 8, 12, 16, 24, 64])
@pytest.mark.parametrize("game", ["none", "large"])
def test_what_is_enough_is_the_largest_thing_on_the_card(game, have):
    given = {"game": game} | ({} if have is None else {"have_gb": have})
    result = find("memory.need").run(given)
    values = {f.key: f.value for f in result.answer.figures}
    card, word = result.card(), result.answer.verdict.word if result.answer.verdict else ""
    size = have if word == "yes" else values["suggested_gb"]
    assert f"{size:g} GB" in card.hero
    assert word == "yes" or size >= values["high_gb"]
    low, high = math.floor(values["low_gb"]), math.ceil(values["high_gb"])
    if word != "depends":
        assert card.line == f"you run {low} to {high} GB at once"
    zones = bars(result, "wide")
    least, most = zones[f"zone at least {low} GB"], zones[f"zone up to {high} GB"]
    assert least / (least + most) == pytest.approx(values["low_gb"] / values["high_gb"], abs=0.01)
    assert f"{size:g} GB" in said(result, "panel")


@pytest.mark.parametrize("shape", FORMS)
def test_a_way_that_nobody_tested_is_never_shown_without_saying_so(shape):
    untested = 0
    for preset in find("memory.ways").presets:
        result = find("memory.ways").run(preset.inputs)
        words = said(result, shape)
        if "add a kit" in result.card().hero:
            untested += 1
            assert "untested" in words or "if they run together" in words, preset.key
    assert untested >= 2


def test_the_cheapest_way_says_how_much_more_it_brings_for_how_much():
    result = find("memory.ways").run({})
    texts = {f.key: f.text for f in result.answer.figures}
    values = {f.key: f.value for f in result.answer.figures}
    more = values["add_total_gb"] - 2 * 8
    assert result.card().hero == "cheapest: add a kit"
    assert result.card().line == f"+{more:g} GB for {texts['add_cost']}, if they run together"
    assert values["add_cost"] / more == pytest.approx(values["add_cost_per_gb_gained"])
    dear = find("memory.ways").run({"add_price": 300, "same_price": 300}).card()
    assert dear.hero == "cheapest: a new kit"
    assert dear.line.endswith("tested as one")
    long = find("memory.ways").run({"add_price": 4000, "same_price": 5000, "replace_price": 9000000}).card()
    assert "run together" in long.line


@pytest.mark.parametrize("shape", ["wide", "panel", "upright", "lower"])
def test_a_memory_test_says_over_how_much_and_what_fails(shape):
    for preset in find("memory.check").presets:
        result = find("memory.check").run(preset.inputs)
        words = said(result, shape)
        assert "one error fails" in words, preset.key
        assert " over " in words, preset.key
        assert all(part in words.split() for part in result.card().hero.split()), preset.key


def test_a_stick_s_size_keeps_its_unit_where_it_is_drawn_small():
    boxes = [box for box in composed(find("memory.mix").run({}), shape="panel").canvas.boxes if box.part == "drawing"]
    sticks = [box for box in boxes if box.what.startswith("stick ")]
    units = [box for box in boxes if box.what.endswith("GB")]
    assert len(sticks) == 4
    for stick in sticks:
        inside = [box for box in units if stick.left < box.left and box.right < stick.right]
        assert len(inside) == 1, stick.what
        assert stick.top < inside[0].top
        assert inside[0].bottom < stick.bottom
