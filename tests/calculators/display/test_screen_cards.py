"""Cards of displays: how near it is is said, what is unseen is named, and a caution is about what is advised."""

import pytest

from calculators.catalogue import find
from calculators.desk.card import composed, frames

pytestmark = pytest.mark.once

PIXEL = 1.0  # what a bar may be shorter or longer: a pixel of the picture


def drawing(result, shape: str = "wide"):
    return [box for box in composed(result, shape=shape).canvas.boxes if box.part == "drawing"]


@pytest.mark.parametrize("length", [0.5, 2, 3, 5, 8, 10, 14, 20, 28, 60])
@pytest.mark.parametrize("link", ["dp-hbr3", "dp-uhbr20", "hdmi-tmds-600", "hdmi-frl-40", "unsure"])
def test_a_caution_speaks_of_a_kind_of_cable_only_where_it_is_advised(link, length):
    result = find("display.reach").run({"link": link, "length": length})
    cable = next(f.text for f in result.answer.figures if f.key == "cable")
    strip = result.card().caution
    assert strip
    if "optical" in strip:
        assert cable == "optical"
    if cable in ("passive copper", "active copper"):
        assert not any("optical" in each.text for each in result.answer.cautions)


def test_two_bars_that_look_alike_are_told_apart_by_the_number():
    near = 0
    for refresh in (118, 119, 120, 121):
        given = {"refresh": refresh, "blanking": "cvt-rb2", "link": "dp-hbr3", "lanes": "4"}
        result = find("display.link").run(given)
        values = {f.key: f.value for f in result.answer.figures}
        bars = {box.what: box for box in drawing(result) if box.what.startswith("bar ")}
        if not 0 <= values["headroom_percent"] < 5:
            continue
        near += 1
        assert result.card().hero == f"{values['used_percent']:.1f} % full"
        left, carries = bars["bar left over"], bars["bar DisplayPort HBR3 carries"]
        share = (left.right - left.left) / (carries.right - carries.left)
        assert share == pytest.approx(values["headroom_percent"] / 100, abs=4 * PIXEL / (carries.right - carries.left))
        assert left.right == pytest.approx(carries.right, abs=4 * PIXEL)
    assert near >= 2


@pytest.mark.parametrize("shape", ["wide", "panel", "upright", "thumbnail"])
def test_what_is_sent_and_never_seen_is_named_and_to_scale(shape):
    for preset in find("display.timing").presets:
        result = find("display.timing").run(preset.inputs)
        boxes = drawing(result, shape)
        area = {box.what: (box.right - box.left) * (box.bottom - box.top) for box in boxes if not box.size}
        unseen = area["unseen right"] + area["unseen below"]
        share = next(f.value for f in result.answer.figures if f.key == "blanking_percent")
        assert 100 * unseen / (unseen + area["seen"]) == pytest.approx(share, abs=0.2), preset.key
        said = [box for box in boxes if box.size and box.what.startswith("sent unseen: ")]
        assert len(said) == 1, preset.key
        assert float(said[0].what.removeprefix("sent unseen: ").removesuffix(" %")) == pytest.approx(share, abs=0.06)
        # the same colour stands beside the words
        assert {box.ink for box in boxes if box.what.startswith("unseen")} == {"fill-3"}


def test_what_a_display_prefers_is_one_thing_on_one_step():
    for preset in find("display.declared").presets:
        result = find("display.declared").run(preset.inputs)
        card = result.card()
        assert card.hero.endswith(" Hz")
        assert "×" in card.hero
        assert not any(c.isdigit() for c in card.line)  # no half of it stands on the step before
        steps = frames(result)
        first = next(step for step in steps if "hero" in step.new)
        words = " ".join(box.what for box in first.boxes if box.part == "hero")
        assert words == card.hero


@pytest.mark.parametrize("shape", ["wide", "upright"])
def test_a_size_and_its_rate_part_before_the_word_between_them(shape):
    result = find("display.declared").run(find("display.declared").presets[0].inputs)
    boxes = composed(result, shape=shape).canvas.boxes
    assert [box.what for box in boxes if box.part == "hero"] == ["3840×2160", "at 60 Hz"]


def test_what_has_room_only_compressed_is_answered_with_what_it_then_needs():
    result = find("display.link").run(next(p.inputs for p in find("display.link").presets if p.key == "uhd-240"))
    values = {f.key: f.text for f in result.answer.figures}
    assert result.card().hero == values["compressed_gb_s"]
    marked = {box.what for box in drawing(result) if box.ink == "mark" and box.what.startswith("bar ")}
    assert marked == {"bar compressed, it needs"}


def test_a_link_s_bars_name_the_picture_and_the_link():
    named = 0
    for preset in find("display.link").presets:
        result = find("display.link").run(preset.inputs)
        bars = {box.what for box in drawing(result) if box.what.startswith("bar ")}
        rate = f"{result.values['refresh']:g}"
        named += f"bar {result.values['width']}×{result.values['height']} at {rate} Hz needs" in bars
        assert any(bar.endswith(" carries") for bar in bars), preset.key
    assert named >= 4


def test_what_is_never_seen_is_the_answer_and_the_clock_is_worked_out_from_what_stands_there():
    for preset in find("display.timing").presets:
        result = find("display.timing").run(preset.inputs)
        card, values = result.card(), {f.key: f.value for f in result.answer.figures}
        share = float(f"{values['blanking_percent']:.1f}")
        assert card.hero == f"{share:g} % is never seen", preset.key
        assert card.line == f"of all that is sent at {result.values['refresh']:g} Hz", preset.key
        product, _, clock = card.working
        across, down, rate = (float(part.replace("\u202f", "").split()[0]) for part in product.split(" × "))
        # half of the last digit that the rate shows, and half of the clock's
        assert across * down * rate / 1e6 == pytest.approx(
            float(clock.split()[0]), abs=across * down * 0.0006 / 1e6 + 0.0006
        ), preset.key


def test_a_panel_s_picture_of_what_is_sent_is_no_stamp():
    for preset in find("display.timing").presets:
        boxes = drawing(find("display.timing").run(preset.inputs), "panel")
        seen = next(box for box in boxes if box.what == "seen")
        unseen = [box for box in boxes if box.what.startswith("unseen")]
        widest = max(box.right for box in boxes) - min(box.left for box in boxes)
        assert max(box.right for box in unseen) - seen.left >= 0.7 * widest, preset.key


@pytest.mark.parametrize("length", [0.5, 2, 3, 5, 8, 10, 14, 20, 28, 60])
@pytest.mark.parametrize("link", ["dp-hbr3", "dp-uhbr20", "hdmi-tmds-600", "hdmi-frl-40"])
def test_how_long_is_answered_with_a_length_that_was_worked_out(link, length):
    result = find("display.reach").run({"link": link, "length": length})
    texts = {f.key: f.text for f in result.answer.figures}
    card, word, kind = result.card(), result.answer.verdict.word, texts["cable"].split()[0]
    if word == "yes":
        assert card.hero == f"up to {texts[f'{kind}_low_m']}"
        greens = {box.what for box in drawing(result) if box.ink == "yes" and box.what.startswith("bar ")}
        assert greens == {f"bar {texts['cable']}"}
    elif word == "depends":
        assert card.hero == f"at best {texts[f'{kind}_high_m']}"
        assert card.line == f"in {texts['cable']}, if its maker promises it"
    else:
        assert card.hero == ""


@pytest.mark.parametrize("shape", ["wide", "panel", "upright"])
def test_the_cable_that_falls_short_stands_beside_the_one_that_does_not(shape):
    result = find("display.reach").run({"link": "dp-hbr3", "length": 3})
    bars = {box.what: box.right - box.left for box in drawing(result, shape) if box.what.startswith("bar ")}
    assert bars["bar passive copper"] < bars["bar you want"] < bars["bar active copper"]
    assert bars["bar passive copper"] / bars["bar you want"] == pytest.approx(2 / 3, abs=0.02)
