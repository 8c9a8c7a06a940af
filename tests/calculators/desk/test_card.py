"""Screen cards: nothing overlaps, is cut, too small or outside the safe area; what stands stays; few words."""

import math
import os
import random
import re
from dataclasses import replace
from functools import cache
from importlib import import_module
from itertools import pairwise, product

import pytest

from calculators.audio.connections.connection_picture import connection, end_of
from calculators.catalogue import find, names
from calculators.desk.answer import Answer, Caution, Source, Verdict, Working, figure
from calculators.desk.calculator import Calculator, Result
from calculators.desk.card import composed, frames, motion, stepped
from calculators.desk.card_canvas import BACKGROUNDS, SHAPES, Frame, balanced, fits, lines_of
from calculators.desk.card_checks import STEPPED, UNCOUNTED, faults, jumps
from calculators.desk.card_declared import MOST_LINE, Card, words
from calculators.desk.card_forms.corrected import same_number
from calculators.desk.card_forms.fitting import drawn_for
from calculators.desk.card_forms.plan import Plan
from calculators.desk.card_parts import QUESTION
from calculators.desk.card_theme import DARK, DEFAULT, LIGHT
from calculators.desk.charts import Bar, bars
from calculators.desk.errors import InputErrors
from calculators.desk.inputs import read_all
from calculators.desk.screen_drawings.bars import screen_bars
from calculators.desk.screen_drawings.marks import Row, Zone
from calculators.desk.screen_drawings.names import evenly
from calculators.desk.screen_drawings.scale import screen_scale, ticks
from calculators.desk.svg import Box, Drawing, Sketch, steps_of, text_width
from tests.random_inputs import random_inputs

# On another Python, and in the page's runtime, the answers are the same bytes: tests/digests.py.
pytestmark = pytest.mark.once

# The shapes of a code are not our subject here: a square of a plausible size is.
CODE = [[(i * j) % 3 == 0 for i in range(25)] for j in range(25)]
ADDRESS = "https://example.org/go/sticks"
PIXEL = 1.0  # what a bar may be shorter or longer: a pixel of the picture
# The answers of an ordinary run; `test --all` tries 200 of each calculator.
RANDOM_ANSWERS = 200 if os.environ.get("WORKED_ANSWERS_ALL") else 10


def made(result: Result, shape: str, **how) -> Plan:
    return composed(result, shape=shape, address=ADDRESS, qr=lambda _: CODE, **how)


# Several tests look at the same pictures, and none changes them.
@cache
def answered(name: str, key: str) -> Result:
    """The answer of a common case."""
    return find(name).run(next(preset.inputs for preset in find(name).presets if preset.key == key))


@cache
def made_of_preset(name: str, key: str, shape: str) -> Plan:
    """The card of a common case."""
    return made(answered(name, key), shape)


def steps(result: Result, plan: Plan, shape: str, background: str = "light") -> list[Frame]:
    """The steps of a card that has been composed already, as frames() gives them."""
    label = result.answer.headline
    return stepped(plan, shape=shape, background=background, theme=DEFAULT, font_css="", label=label)


def wrong_with(result: Result, shape: str) -> list[str]:
    return faults(made(result, shape), result, shape, DEFAULT)


@pytest.mark.parametrize("name", names())
def test_every_preset_in_every_form_can_go_on_air(name):
    for preset in find(name).presets:
        result = answered(name, preset.key)
        for shape in SHAPES:
            plan = made_of_preset(name, preset.key, shape)
            assert faults(plan, result, shape, DEFAULT) == [], (preset.key, shape)


@pytest.mark.parametrize("name", names())
def test_random_answers_of_every_calculator_can_go_on_air(name):
    calculator, tried = find(name), 0
    for raw in random_inputs(calculator, RANDOM_ANSWERS, 18):
        try:
            result = calculator.run(raw)
        except InputErrors:
            continue
        tried += 1
        for shape in SHAPES:
            assert wrong_with(result, shape) == [], (raw, shape)
    assert tried


@pytest.mark.parametrize("name", names())
def test_every_calculator_declares_its_card_and_shows_a_drawing(name):
    calculator = find(name)
    subject, _, own = name.partition(".")
    card = getattr(import_module(f"calculators.{subject}.screen_cards"), own)
    for preset in calculator.presets:
        result = answered(name, preset.key)
        plan = made_of_preset(name, preset.key, "wide")
        assert {"drawing", "hero", "address"} <= set(plan.canvas.parts), preset.key
        declared = card(result.values, result.answer)
        assert words(declared.line) <= MOST_LINE, declared.line
        area = plan.canvas.areas.get("drawing")
        if area:
            hero = [box for box in plan.canvas.boxes if box.part == "hero"]
            largest = max(((b.right - b.left) * (b.bottom - b.top) for b in hero), default=0)
            assert (area[2] - area[0]) * (area[3] - area[1]) > largest, preset.key


@pytest.mark.parametrize("name", names())
def test_what_stands_stays_in_its_place(name):
    for preset in find(name).presets:
        result = answered(name, preset.key)
        for shape in STEPPED:
            shown = steps(result, made_of_preset(name, preset.key, shape), shape)
            assert jumps([step.boxes for step in shown]) == [], (preset.key, shape)
            for before, after in pairwise(shown):
                # and as drawn: each part's group of the step before is in the next, sign by sign
                groups = re.findall(r"<g data-part=.*?</g>(?=<g data-part|</svg>)", before.svg)
                assert groups, (preset.key, shape)
                assert all(group in after.svg for group in groups), (preset.key, shape)


@pytest.mark.parametrize("shape", STEPPED)
@pytest.mark.parametrize("name", names())
def test_a_drawing_builds_up_and_is_whole_on_the_last_step(name, shape):
    # it stood complete on the first step, with the answer to be read off it before the answer came
    for preset in find(name).presets:
        plan = made_of_preset(name, preset.key, shape)
        coming = [(part, i) for i, (_, new) in enumerate(plan.steps) for part in new if part.startswith("drawing")]
        assert len(coming) > 1, preset.key
        first, rest = coming[0][1], [step for _, step in coming[1:]]
        assert all(step >= first for step in rest), preset.key
        answer = next((i for i, (_, new) in enumerate(plan.steps) if "hero" in new), None)
        if answer is not None and rest:
            assert rest[0] >= answer > first, preset.key


def test_what_is_one_s_own_comes_with_the_answer_and_what_it_is_compared_with_before():
    drawn = screen_bars([Row("yours", 3, "3 h", True), Row("limit", 2, "2 h")])(900, 500, 56)
    stages = {box.what: box.stage for box in drawn.record()}
    assert stages == {"yours": 0, "3 h": 1, "bar yours": 1, "limit": 0, "2 h": 0, "bar limit": 0}
    told = screen_bars([Row("yours", 3, "3 h", True, step=0), Row("limit", 2, "2 h", step=2)])(900, 500, 56)
    assert {box.what: box.stage for box in told.record() if box.stage} == {"2 h": 2, "bar limit": 2}


@pytest.mark.parametrize(
    ("name", "key", "given", "worked_out"),
    [
        ("audio.exposure", "concert", "3 h", "24 min a week"),
        ("audio.level", "old-studio", "your loudest peaks: 100 dB", "98 dB"),
        ("memory.check", "after-change", "0", "at most 9.5 h"),
        ("motion.adaptive", "below", "40 frames a second", "80 Hz: each twice"),
        ("work.lanes", "disk", "the disk moves 7 GB/s", "7.88 GB/s"),
    ],
)
def test_what_is_given_stands_before_what_is_worked_out(name, key, given, worked_out):
    boxes = made_of_preset(name, key, "wide").canvas.boxes
    stages = {box.what: box.stage for box in boxes if box.part == "drawing" and box.size}
    assert (stages[given], stages[worked_out]) == (0, 1)


@pytest.mark.parametrize(
    ("said", "own", "steps"),
    [
        ([None, None], [True, False], [1, 0]),
        ([None, None, None], [False, False, False], [0, 0, 1]),
        ([None], [True], [1]),
        ([0, None], [True, True], [0, 1]),
        ([], [], []),
    ],
)
def test_with_which_step_things_come_where_nothing_is_declared(said, own, steps):
    assert steps_of(said, own) == steps


def test_a_drawing_s_stages_are_painted_in_the_order_in_which_they_were_drawn():
    # a stretch that comes later lay upon the pins that were drawn above it
    from calculators.desk.card_canvas import Canvas, finished

    sketch = Sketch("a", "b", 300, 300)
    sketch.rect(0, 0, 300, 300, fill="fill-4")
    with sketch.later():
        sketch.rect(0, 0, 200, 200, fill="fill-1")
    sketch.line(0, 0, 300, 300, ink="ink", width=9)
    canvas = Canvas()
    canvas.drawing("drawing", sketch.done(), 100, 100)
    how = {"font_css": "", "label": "", "step": 1}
    first = finished(canvas, ["drawing"], SHAPES["wide"], "light", DEFAULT, [], **how)
    whole = finished(canvas, ["drawing", "drawing 1"], SHAPES["wide"], "light", DEFAULT, [], **how)
    assert LIGHT["fill-1"] not in first
    assert whole.index(LIGHT["fill-4"]) < whole.index(LIGHT["fill-1"]) < whole.index('stroke-width="9"')


def test_a_way_with_a_price_of_seven_digits_can_go_on_air():
    """Its line has no room for what it is for; what stands there in its place is whole before the hero comes."""
    result = find("memory.ways").run({
        "have_size": "38", "have_rate": "20000", "have_volts": "1.6", "have_module": "registered",
        "have_form": "sodimm", "add_count": "2", "add_size": "373", "add_price": "7854506", "same_price": "4268401",
        "replace_size": "18", "resale": "8283893", "slots": "4", "channels": "2",
    })  # fmt: skip
    assert "nobody has tested" in result.card().line
    for shape in SHAPES:
        assert wrong_with(result, shape) == [], shape


@pytest.mark.parametrize("line", ["if you read on", "with one side reversed, it sits", "your week asks most of", "so,"])
def test_the_checks_see_half_a_sentence_that_stands_before_its_hero(line):
    answer = Answer(headline="x", figures=(figure("a", "A", 3, "GB", main=True),))
    drawing = screen_bars([Row("a", 1, "1 GB"), Row("b", 2, "2 GB", True)])
    calculator = Calculator(
        name="a.b", title="T", summary="", inputs=(), compute=lambda _: answer,
        card=lambda *_: Card(hero="3 GB", line=line, drawing=drawing),
    )  # fmt: skip
    found = wrong_with(Result(calculator, read_all((), {}), answer), "wide")
    assert any("no whole without the hero" in fault for fault in found), found


def random_result(seed: int) -> Result:
    """An answer of random words of random length, the worst cases included, from a calculator that declares no card."""
    dice = random.Random(seed)

    def text(most: int) -> str:
        signs = "abcdefghijklmnopqrstuvwxyzMWÄß0123456789-/.,"
        return " ".join(
            "".join(dice.choice(signs) for _ in range(dice.choice((1, 3, 6, 9, 14, 40))))
            for _ in range(dice.randint(1, most))
        )

    def compute(_):
        word = dice.choice(("yes", "depends", "no"))
        return Answer(
            headline=text(30),
            verdict=dice.choice((None, Verdict(word, text(30), dice.choice(("", text(5)))))),
            figures=tuple(
                figure(f"f{i}", text(6), dice.choice((dice.random() * 1e6, text(2))), "GB/s", main=True)
                for i in range(dice.randint(0, 6))
            ),
            working=tuple(Working(text(8), text(8), text(8), text(3)) for _ in range(dice.randint(0, 6))),
            drawings=(
                bars(text(6), text(6), [Bar(text(5), dice.random(), text(1)) for _ in range(dice.randint(1, 6))]),
            ),
            cautions=tuple(
                Caution("data", text(40), text(9), dice.random() < 0.3) for _ in range(dice.randint(0, 2))
            ),
            sources=tuple(Source(text(12)) for _ in range(dice.randint(0, 4))),
        )  # fmt: skip

    calculator = Calculator(name="test.random", title=text(14), summary="", inputs=(), compute=compute)
    return Result(calculator, read_all((), {}), compute(None))


def test_a_calculator_that_declares_nothing_has_a_sound_card():
    for seed in range(100):
        result = random_result(seed)
        for shape in SHAPES:
            assert wrong_with(result, shape) == [], (seed, shape)


# Gb/s that three links carry; earlier bars for them were all as long as the frame.
RATES = (38.68, 52.22, 77.37)


def bar_lengths(boxes: list[Box]) -> list[float]:
    return [box.right - box.left for box in boxes if box.what.startswith("bar ")]


def test_bars_are_in_proportion():
    drawn = screen_bars([Row(f"{rate} Gb/s", rate, "") for rate in RATES])(900, 600, 56)
    assert drawn is not None
    lengths = bar_lengths(drawn.record())
    for length, rate in zip(lengths, RATES, strict=True):
        assert length == pytest.approx(lengths[-1] * rate / RATES[-1], abs=PIXEL)
    assert lengths[0] < lengths[1] < lengths[2]


@pytest.mark.parametrize("preset", find("display.link").presets, ids=lambda p: p.key)
def test_a_link_s_bars_are_as_long_as_its_figures(preset):
    result = find("display.link").run(preset.inputs)
    plan = made(result, "wide")
    by_key = {f.key: f.value for f in result.answer.figures}
    lengths = {b.what: b.right - b.left for b in plan.canvas.boxes if b.what.startswith("bar ")}
    carries = next(length for bar, length in lengths.items() if bar.endswith(" carries"))
    drawn = {"Hz needs": "needed_gb_s", "bar what you see of it": "active_gb_s"}
    found = [(lengths[bar], by_key[key]) for said, key in drawn.items() for bar in lengths if said in bar]
    assert len(found) == 1
    for length, rate in found:
        assert length / carries == pytest.approx(rate / by_key["payload_gb_s"], abs=PIXEL / carries * 2)


def test_words_of_an_end_lead_there_and_only_those_of_a_stretch_to_its_middle():
    # "up to 11 GB" had its dot at 8: whoever looked took that for the value
    def leads(to_end: bool) -> tuple[bool, bool]:
        drawn = screen_scale(0, 100, zones=[Zone(37, 77, "up to 77", to_end=to_end)], unit="m")(1000, 500, 56)
        assert drawn is not None
        left = re.search(r'<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)"[^>]*>', drawn.svg())
        assert left is not None
        start, width = map(float, left.groups())
        at = {round(float(x)) for x in re.findall(r'<line x1="([\d.]+)"', drawn.svg())}
        assert round(start + width * (0.77 if to_end else 0.57)) in at
        return "<circle" in drawn.svg(), round(start + width * (0.57 if to_end else 0.77)) in at

    assert leads(to_end=False)[0]
    assert not leads(to_end=True)[0]
    assert not leads(to_end=True)[1]


def test_a_scale_puts_its_stretches_where_they_belong():
    from calculators.desk.screen_drawings.marks import Zone

    drawn = screen_scale(0, 100, zones=[Zone(0, 100, "all"), Zone(20, 70, "here")], unit="m")(1000, 500, 56)
    assert drawn is not None
    whole, zone = (next(box for box in drawn.record() if box.what == f"zone {name}") for name in ("all", "here"))
    wide = whole.right - whole.left
    assert wide > 800
    assert (zone.left - whole.left) / wide == pytest.approx(0.2, abs=0.005)
    assert (zone.right - zone.left) / wide == pytest.approx(0.5, abs=0.005)


@pytest.mark.parametrize("room", [(1700, 420, 68), (900, 560, 56), (560, 500, 48)])
def test_a_plug_and_the_adapter_s_own_are_to_one_scale_and_no_needles(room):
    drawn = connection(end_of("6.35-3"), end_of("3.5-3"), "1 adapter", 1, True)(*room)
    assert drawn is not None
    boxes = {box.what: box for box in drawn.record()}
    high = {name: box.bottom - box.top - 4 for name, box in boxes.items() if name.startswith("ring")}
    assert high["ring 0 0"] / high["ring 10 0"] == pytest.approx(6.35 / 3.5, rel=0.01)
    plug = boxes["plug 0"]
    shaft = (plug.right - plug.left) * 0.64 / 0.36  # behind a grip of 36 % of the plug
    assert high["ring 0 0"] > 0.15 * shaft, "a shaft like a needle says nothing"


@pytest.mark.parametrize("shape", ["wide", "panel", "upright", "thumbnail"])
def test_an_adapter_that_is_the_answer_is_drawn_and_comes_with_it(shape):
    for preset in find("audio.plugs").presets:
        result = answered("audio.plugs", preset.key)
        boxes = made_of_preset("audio.plugs", preset.key, shape).canvas.boxes
        boxes = [box for box in boxes if box.what == "adapter" and not box.size]
        count = next(f.value for f in result.answer.figures if f.key == "adapters")
        assert len(boxes) == int(bool(count) and result.answer.verdict.word != "no"), preset.key
        assert all(box.stage == 1 for box in boxes), preset.key


@pytest.mark.parametrize(("low", "high"), [(0, 150), (40, 140), (-10, 60), (-300, 200), (0, 8), (0, 0.4), (0, 720)])
def test_a_scale_s_ticks_are_round_even_and_inside(low, high):
    found = ticks(low, high)
    assert 3 <= len(found) <= 6
    assert all(low < value < high for value in found)
    steps = [b - a for a, b in pairwise(found)]
    assert steps == pytest.approx([steps[0]] * len(steps))
    assert min(abs(math.log10(steps[0] / digit) % 1 - whole) for digit in (1, 2, 2.5, 5) for whole in (0, 1)) < 1e-9


def test_a_range_is_not_parted_where_the_word_before_it_can_stand_alone():
    result = find("memory.check").run(find("memory.check").presets[1].inputs)
    assert [box.what for box in made(result, "wide").canvas.boxes if box.part == "hero"] == ["about", "2 to 10 h"]


@pytest.mark.parametrize("name", names())
def test_address_and_code_take_little_of_a_picture_and_leave_most_of_it_to_the_drawing(name):
    plan = made_of_preset(name, find(name).presets[0].key, "wide")
    left, top, right, bottom = plan.canvas.areas["drawing"]
    address = [box for box in plan.canvas.boxes if box.part == "address"]
    assert {box.right for box in address if box.what == "code"} == {SHAPES["wide"].right}
    assert all(box.top >= bottom for box in address)
    rest = sum((box.right - box.left) * (box.bottom - box.top) for box in address)
    assert (right - left) * (bottom - top) > 2 * rest


def test_red_is_only_what_is_wrong():
    for colours in (LIGHT, DARK):
        assert colours["mark"] not in (colours["no"], colours["caution"])
    right = find("audio.exposure").run(find("audio.exposure").presets[0].inputs)
    assert right.answer.verdict.word == "yes"
    last = frames(right)[-1].svg
    strip = last.index('data-part="caution"')
    assert LIGHT["no"] not in last[:strip]
    assert LIGHT["caution"] in last[strip:]


def test_the_first_step_of_a_hero_brings_its_caution_and_its_condition():
    result = find("audio.level").run(find("audio.level").presets[0].inputs)
    steps = frames(result, address=ADDRESS, qr=lambda _: CODE)
    shown = [{box.part for box in step.boxes} for step in steps]
    assert all({"caution", "line"} <= parts for parts in shown if "hero" in parts)
    assert any("hero" in parts for parts in shown)


@pytest.mark.parametrize("name", names())
def test_no_step_brings_words_alone_where_the_answer_is_open(name):
    # the verdict came alone behind the drawing, and a presenter had to talk over a picture that stood still
    for preset, shape in product(find(name).presets, ("wide", "upright")):
        result = answered(name, preset.key)
        if result.answer.verdict is not None and result.answer.verdict.word != "depends" and result.card().line:
            continue
        plan = composed(result, shape=shape)
        for _, new in plan.steps[1:]:
            said = {part for part in new if part != "caution"}
            assert not said or not said <= {"verdict", "line"}, (preset.key, shape, plan.steps)


@pytest.mark.parametrize("name", names())
def test_only_a_programme_s_own_mark_stands_at_a_card_s_head(name):
    # two strokes at the right were taken for a menu, and a short bar under the question for one that has stopped
    result = find(name).run(find(name).presets[0].inputs)
    for shape in ("wide", "panel", "upright"):
        assert not [box for box in made(result, shape).canvas.boxes if box.what == "mark"]
        assert LIGHT["mark"] not in frames(result, shape="question")[0].svg
    own = replace(DEFAULT, mark="M0 0h100v100H0z")
    assert [box for box in made(result, "wide", theme=own).canvas.boxes if box.what == "mark"]


@pytest.mark.parametrize("name", names())
def test_a_lower_third_keeps_the_number_with_its_condition_where_both_have_room(name):
    for preset in find(name).presets:
        result, canvas = answered(name, preset.key), made_of_preset(name, preset.key, "lower").canvas
        card, boxes = result.card(), canvas.boxes
        word = result.answer.verdict.word if result.answer.verdict else ""
        if word != "depends" or not card.hero:
            continue
        assert "line" in canvas.parts or "hero" not in canvas.parts, preset.key
        if "hero" not in canvas.parts:
            said, most = text_width(card.line, 56), 1824 - 96
            hero, verdict = text_width(card.hero, 140, True), text_width(card.verdict, 64, True) + 86
            assert max(hero, verdict) > most or min(hero, verdict) + 60 + said > most, preset.key
        assert not faults(made_of_preset(name, preset.key, "lower"), result, "lower", DEFAULT)
        assert boxes


@pytest.mark.parametrize("name", names())
def test_a_thumbnail_s_tag_names_the_danger(name):
    for preset in find(name).presets:
        card = answered(name, preset.key).card()
        said = " ".join(
            box.what
            for box in made_of_preset(name, preset.key, "thumbnail").canvas.boxes
            if box.part == "caution" and box.size
        )
        assert said not in ("Stay safe", "Take care", "Data first"), preset.key
        if card.caution:
            assert said in (card.tag, "Hearing loss"), preset.key


def test_a_caution_s_tag_has_two_words_at_most():
    with pytest.raises(ValueError, match="at most two words"):
        Caution("data", "Save.", tag="Copy all files")


def test_without_an_address_there_is_no_code():
    steps = frames(find("memory.rate").run({}), qr=lambda _: CODE)
    assert not [box for step in steps for box in step.boxes if box.what == "code"]


@pytest.mark.parametrize(
    ("address", "code"),
    [
        ("https://example.org/go/sticks", True),
        ("https://example.org/a/very/long/way/to/an/answer/about/sticks.html", False),
        ("https://example.org/go?a=1", False),
    ],
)
def test_a_code_stands_only_beside_a_word_that_can_be_said(address, code):
    steps = frames(find("memory.rate").run({}), address=address, qr=lambda _: CODE)
    assert any(box.what == "code" for box in steps[-1].boxes) == code


def test_no_code_on_a_picture_for_phones():
    steps = frames(find("memory.rate").run({}), shape="upright", address=ADDRESS, qr=lambda _: CODE)
    said = [box.what for box in steps[-1].boxes]
    assert "code" not in said
    assert "example.org/go/sticks" in said


def test_a_long_question_is_cut_at_a_word():
    question = (
        "Why does the picture of my rather old display look so grey whenever I switch the computer to its HDR mode"
    )
    plan = made(find("colour.levels").run({}), "wide", question=question)
    (said,) = [box.what for box in plan.canvas.boxes if box.part == "question" and box.size]
    assert said.endswith(" …")
    assert question.startswith(said.removesuffix(" …") + " ")


@pytest.mark.parametrize("background", BACKGROUNDS)
def test_a_card_stands_alone(background):
    for frame in frames(find("memory.rate").run({}), background=background, font_css="@font-face{}"):
        assert "var(" not in frame.svg
        assert "<style>@font-face{}</style>" in frame.svg
        assert frame.svg.count('<rect width="1920" height="1080"') == (0 if background == "transparent" else 1)


def test_a_transparent_card_covers_only_what_it_needs():
    plan = made(find("memory.rate").run({}), "wide", background="transparent")
    first = frames(find("memory.rate").run({}), background="transparent")[0]
    plates = re.findall(r'width="([\d.]+)" height="([\d.]+)" rx=', first.svg)
    assert plates
    assert sum(float(w) * float(h) for w, h in plates) < 0.6 * 1920 * 1080
    assert plan.steps


def test_an_unknown_background_is_refused_in_words():
    with pytest.raises(ValueError, match="background must be one of light, dark, transparent, got blue"):
        frames(find("memory.rate").run({}), background="blue")


def test_the_motion_of_a_step_ends_with_the_step_and_shows_no_other_number():
    result = find("memory.rate").run({})
    plan = made(result, "wide")
    steps = frames(result, address=ADDRESS, qr=lambda _: CODE, background="dark")
    for number, step in enumerate(steps, 1):
        pictures = motion(
            plan, number, 5, shape="wide", background="dark", theme=DEFAULT, font_css="", label=result.answer.headline
        )
        assert pictures[-1] == step.svg
        shares = [re.findall(r' opacity="([\d.]+)"', picture) for picture in pictures[:-1]]
        assert all(set(found) == {f"{(i + 1) / 5:.3f}"} for i, found in enumerate(shares))
        texts = [re.findall(r">([^<]+)</text>", picture) for picture in pictures]
        assert all(found == texts[-1] for found in texts)


@pytest.mark.parametrize("name", names())
def test_every_preset_has_its_drawing_held_upright_too(name):
    for preset in find(name).presets:
        plan = made_of_preset(name, preset.key, "upright")
        assert "drawing" in plan.canvas.parts, preset.key


@pytest.mark.parametrize("name", names())
def test_a_panel_shows_the_drawing_and_no_number_is_lost_with_the_hero(name):
    for preset in find(name).presets:
        card = answered(name, preset.key).card()
        plan = made_of_preset(name, preset.key, "panel")
        assert "drawing" in plan.canvas.parts, preset.key
        if "hero" not in plan.canvas.parts and not card.drawn_hero:
            drawn = " ".join(box.what for box in plan.canvas.boxes if box.part == "drawing")
            numbers = [part for part in card.hero.split() if any(c.isdigit() for c in part)] or card.hero.split()
            assert all(part in drawn.split() for part in numbers), (preset.key, card.hero, drawn)


@pytest.mark.parametrize("name", names())
def test_the_first_step_has_words_at_the_left_and_the_drawing_at_the_right(name):
    for preset in find(name).presets:
        plan = made_of_preset(name, preset.key, "wide")
        _, first = plan.steps[0]
        words_there = [box for box in plan.canvas.boxes if box.part in first and box.part in ("verdict", "line")]
        assert bool(words_there) != answered(name, preset.key).card().judged_last, preset.key
        assert all(box.right < 1000 for box in words_there), preset.key
        assert "drawing" in first, preset.key
        assert plan.canvas.areas["drawing"][2] > 1700, preset.key


@pytest.mark.parametrize("name", names())
def test_no_calculator_s_own_question_is_cut_in_a_picture_held_upright(name):
    for preset in find(name).presets:
        plan = made_of_preset(name, preset.key, "upright")
        asked = " ".join(box.what for box in plan.canvas.boxes if box.part == "question" and box.size)
        assert asked, preset.key
        assert "…" not in asked, preset.key


@pytest.mark.parametrize("shape", ["wide", "panel", "upright"])
def test_a_chain_s_names_stand_at_their_own_things(shape):
    # a name of several lines above another's, in a row of leaders, was read as one text with it
    for preset in find("audio.plugs").presets:
        plan = made(find("audio.plugs").run(preset.inputs), shape)
        drawn = [box for box in plan.canvas.boxes if box.part == "drawing" and box.size]
        (name,) = [box for box in drawn if box.what.endswith("adapter")] or [None]
        if name:
            others = [box for box in drawn if box is not name and box.bottom <= name.top]
            assert all(name.top - box.bottom > box.size * 0.4 for box in others), preset.key


@pytest.mark.parametrize("name", names())
def test_a_panel_says_itself_what_it_is_about(name):
    # grids and bars stood there that only the presenter's words explained
    for preset in find(name).presets:
        result, boxes = answered(name, preset.key), made_of_preset(name, preset.key, "panel").canvas.boxes
        said = " ".join(box.what for box in boxes if box.part == "question" and box.size)
        card = result.card()
        assert said in (card.question or result.calculator.title, card.topic), (preset.key, said)
        assert card.topic, name
        assert text_width(card.topic, QUESTION) <= SHAPES["panel"].right - SHAPES["panel"].left - 90, card.topic


def test_a_viewer_s_own_question_stands_on_a_panel_where_it_is_whole_there():
    result = find("work.balance").run({})
    for asked, said in (
        ("Card or cores first?", "Card or cores first?"),
        ("Is it " * 20 + "so?", "Which part counts?"),
    ):
        boxes = made(result, "panel", question=asked).canvas.boxes
        assert " ".join(box.what for box in boxes if box.part == "question" and box.size) == said


@pytest.mark.parametrize("name", names())
def test_a_lower_third_shows_no_number_without_its_word(name):
    for preset in find(name).presets:
        result, parts = answered(name, preset.key), made_of_preset(name, preset.key, "lower").canvas.parts
        if "hero" in parts and any(c.isdigit() for c in result.card().hero):
            assert "line" in parts, preset.key
        depends = result.answer.verdict is not None and result.answer.verdict.word == "depends"
        if "line" in parts and not depends and result.card().hero:  # and no line that needs the number without it
            assert "hero" in parts, preset.key


@pytest.mark.parametrize("name", names())
def test_a_thumbnail_is_filled_and_its_answer_is_its_largest(name):
    shape = SHAPES["thumbnail"]
    for preset in find(name).presets:
        result, canvas = answered(name, preset.key), made_of_preset(name, preset.key, "thumbnail").canvas
        boxes = canvas.boxes
        assert any(box.part == "drawing" for box in boxes), preset.key
        stands = [box for box in boxes if box.part != "caution"]
        # no half of the picture is empty: the answer and its drawing reach over most of it
        # (a drawing whose shapes have no boxes is as large as its frame)
        right, bottom = canvas.ends["drawing"]
        if any(box.part == "drawing" and not box.size for box in stands):
            right = max(box.right for box in stands)
        assert right - shape.left > 0.65 * (shape.right - shape.left), preset.key
        assert bottom - shape.top > 0.55 * (shape.bottom - shape.top), preset.key
        largest = max((box for box in boxes if box.size), key=lambda box: box.size)
        asks = result.card().grave and result.answer.verdict is not None and result.answer.verdict.word == "yes"
        assert largest.part == "question" if asks else largest.part in ("hero", "verdict"), preset.key
        drawn = " ".join(box.what for box in boxes if box.part == "drawing" and box.size).split()
        numbers = [word for word in result.card().hero.split() if any(c.isdigit() for c in word)]
        if largest.part == "verdict" and any(box.part == "hero" for box in boxes):
            assert not numbers, preset.key
        if largest.part == "verdict" and numbers and result.answer.verdict.word != "depends":
            assert all(number in drawn for number in numbers), preset.key


@pytest.mark.parametrize("name", names())
def test_a_thumbnail_has_no_small_print_and_its_danger_is_honest(name):
    # the strip's letters were 5 pixels high where the still is 168 wide
    for preset in find(name).presets:
        result = answered(name, preset.key)
        card, boxes = result.card(), made_of_preset(name, preset.key, "thumbnail").canvas.boxes
        warned = [box for box in boxes if box.part == "caution"]
        assert bool(warned) == bool(card.caution), preset.key
        said = [box for box in warned if box.size]
        assert all(len(box.what.split()) <= 2 and box.size * 168 / 1920 >= 9 for box in said), preset.key
        word = result.answer.verdict.word if result.answer.verdict else ""
        if word == "yes" and card.grave:  # no tick without the words that go before everything else
            assert not [box for box in boxes if box.part in ("verdict", "hero")], preset.key


def test_the_verdict_of_every_lower_third_is_of_one_size():
    sizes = set()
    for name in names():
        for preset in find(name).presets:
            boxes = made_of_preset(name, preset.key, "lower").canvas.boxes
            sizes |= {box.size for box in boxes if box.part == "verdict" and box.size}
    assert len(sizes) == 1


@pytest.mark.parametrize("name", names())
def test_a_corrected_card_says_what_was_wrong(name):
    for preset in find(name).presets:
        result = answered(name, preset.key)
        plan = composed(
            result, shape="corrected", address=ADDRESS, qr=lambda _: CODE, before=("about 8 GB", "12 to 14 GB")
        )
        said = [box.what for box in plan.canvas.boxes if box.part == "figures"]
        assert said[:2] == ["before", "about 8 GB"], preset.key
        assert "now" in said, preset.key
        assert faults(plan, result, "corrected", DEFAULT) == [], preset.key


def test_a_corrected_card_tells_one_number_in_one_way():
    result = find("memory.rate").run({"rate": 2133, "cas": 15})
    plan = composed(result, shape="corrected", before=("15 ns", "14.06 ns"))
    said = [box.what for box in plan.canvas.boxes if box.part in ("figures", "hero")]
    assert "14.06 ns" not in said
    assert said.count("14.1 ns") == 2
    assert not same_number("15 ns", "14.1 ns")
    assert not same_number("16 steps", "about 1 to 4 hours")


def test_a_thumbnail_of_a_scene_says_whether_it_fits():
    result = find("work.scene").run(find("work.scene").presets[0].inputs)
    boxes = [box for box in made(result, "thumbnail").canvas.boxes if box.size]
    assert max(boxes, key=lambda box: box.size).what == "It fits"


@pytest.mark.parametrize("shape", ["wide", "panel", "upright", "thumbnail"])
def test_what_a_link_is_said_to_carry_is_not_drawn_longer_than_the_link(shape):
    for preset in find("display.link").presets:
        result = find("display.link").run(preset.inputs)
        if result.answer.verdict.word != "yes":
            continue
        boxes = [box for box in made(result, shape).canvas.boxes if box.what.startswith("bar ")]
        link = next(box for box in boxes if box.what == "bar this link carries")
        assert len(boxes) > 1
        assert all(box.right <= link.right for box in boxes), preset.key


def test_the_plugs_of_a_panel_are_drawn_to_scale_and_never_as_signs():
    for preset in find("audio.plugs").presets:
        result = find("audio.plugs").run(preset.inputs)
        whats = {box.what.partition(" ")[0] for box in made(result, "panel").canvas.boxes if box.part == "drawing"}
        whole = {box.what.partition(" ")[0] for box in made(result, "wide").canvas.boxes if box.part == "drawing"}
        assert {"plug", "socket"} <= whats or "plug" not in whole, preset.key
    assert preset


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("the range: 48 to 144 Hz", ["the range:", "48 to 144 Hz"]),
        ("3840×2160 at 60 Hz", ["3840×2160", "at 60 Hz"]),
        ("your sound: 75 to 290 ms late", ["your sound:", "75 to 290 ms late"]),
    ],
)
def test_no_line_of_a_scale_s_name_parts_what_is_read_together(text, lines):
    assert evenly(text, len(lines), 600, 56, False) == lines


def test_the_names_of_a_narrow_scale_take_two_lines_at_most_where_smaller_words_do():
    for preset in find("motion.adaptive").presets:
        boxes = made(find("motion.adaptive").run(preset.inputs), "panel").canvas.boxes
        said = [box.what for box in boxes if box.part == "drawing" and box.size]
        assert not {"the", "range: 48", "to 144 Hz"} & set(said), preset.key


def test_what_a_memory_test_s_drawing_says_is_what_its_hero_says():
    for preset in find("memory.check").presets:
        result = find("memory.check").run(preset.inputs)
        drawn = " ".join(box.what for box in made(result, "wide").canvas.boxes if box.part == "drawing").split()
        assert all(part in drawn for part in result.card().hero.split() if part[0].isdigit()), preset.key


@pytest.mark.parametrize("name", names())
def test_no_step_leaves_a_hole_between_the_verdict_and_a_condition(name):
    for preset in find(name).presets:
        result = answered(name, preset.key)
        for shape in ("wide", "upright"):
            plan = composed(result, shape=shape)
            later = "hero" in plan.canvas.parts
            for frame in steps(result, plan, shape):
                shown = {box.part for box in frame.boxes}
                assert not ({"verdict", "line"} <= shown and later and "hero" not in shown), (preset.key, shape)


def test_hiss_and_room_are_told_apart_where_the_verdict_tells_them_apart():
    for preset in find("audio.noise").presets:
        drawn = made(find("audio.noise").run(preset.inputs), "wide").canvas.boxes
        said = {box.what.partition(": ")[0]: box.what for box in drawn if box.part == "drawing" and box.size}
        hiss = " ".join(box.what for box in drawn if box.part == "hero").removeprefix("about ")
        assert said["your room"] != f"your room: {hiss}", preset.key


def test_a_question_s_lines_are_of_about_one_length():
    boxes = [box for box in made(find("memory.ways").run({}), "question").canvas.boxes if box.size]
    wide = [box.right - box.left for box in boxes]
    assert len(wide) > 1
    assert min(wide) > 0.5 * max(wide)


def test_a_caution_s_words_begin_where_the_verdict_s_do_in_a_panel():
    result = find("display.reach").run(find("display.reach").presets[0].inputs)
    boxes = made(result, "panel").canvas.boxes
    left = {part: min(box.left for box in boxes if box.part == part and box.size) for part in ("verdict", "caution")}
    assert left["verdict"] == left["caution"]
    assert max(box.right for box in boxes if box.part == "caution") <= SHAPES["panel"].right


def plates(svg: str) -> list[tuple[float, float, float, float]]:
    found = re.findall(r'<rect x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)" rx=', svg)
    return [(float(x), float(y), float(x) + float(w), float(y) + float(h)) for x, y, w, h in found]


@pytest.mark.parametrize(("shape", "what"), [("question", "rule"), ("title", "mark")])
def test_rule_and_mark_of_a_large_question_stand_on_its_plate(shape, what):
    result = find("rooms.lips").run({})
    (box,) = [box for box in made(result, shape).canvas.boxes if box.what == what]
    ((left, top, right, bottom),) = plates(frames(result, shape=shape, background="transparent")[0].svg)
    assert left < box.left < box.right < right
    assert top < box.top < box.bottom < bottom


PLATED = ("wide", "upright", "corrected", "panel", "thumbnail", "lower")


@pytest.mark.parametrize("name", names())
def test_over_another_picture_a_card_is_one_rectangle_on_every_step(name):
    for preset, shape in product(find(name).presets, PLATED):
        what, result = (preset.key, shape), answered(name, preset.key)
        plan = made(result, shape, background="transparent")
        strip = plan.canvas.areas.get("caution")
        standing: list[str] = []
        for frame in steps(result, plan, shape, "transparent"):
            standing += frame.new
            found = plates(frame.svg)
            assert found, what
            assert all(edge == int(edge) for plate in found for edge in plate), what
            left, right = found[0][0], found[0][2]
            ends = [plan.canvas.ends["drawing"][1]] if "drawing" in standing and "drawing" in plan.canvas.ends else []
            assert {(plate[0], plate[2]) for plate in found} == {(left, right)}, (what, frame.name)
            low = found[0][3]
            for _, top, _, bottom in found[1:]:  # each begins within the one above it
                assert top <= low, (what, frame.name)
                low = max(low, bottom)
            for box in frame.boxes:
                on_strip = box.part == "caution" and shape == "lower"  # a field of its own, as wide as the plate
                assert left <= box.left, (what, box)
                assert box.right <= right, (what, box)
                assert box.bottom <= low + 1 or on_strip, (what, box)
            assert all(end <= low + 1 for end in ends), what
            if strip and shape == "lower":
                assert abs(strip[1] - low) <= 1, what
                field = re.search(r'<rect x="([\d.]+)"[^>]* width="([\d.]+)"[^>]*fill="#8a1520"', frame.svg)
                assert abs(float(field[1]) - left) <= 1, what
                assert abs(float(field[1]) + float(field[2]) - right) <= 1, what


@pytest.mark.parametrize(("low", "high", "unit"), [(0, 150, "Hz"), (0, 100, "ms"), (-10, 60, "dBA"), (40, 140, "dB")])
@pytest.mark.parametrize("width", [560, 800, 1100])
def test_every_number_of_a_scale_stands_under_its_own_place(low, high, unit, width):
    drawn = screen_scale(low, high, zones=[Zone(low, high, "all")], unit=unit)(width, 420, 48)
    assert drawn is not None
    record = drawn.record()
    zone = next(box for box in record if box.what == "zone all")
    numbers = [box for box in record if box.size and re.match(r"[−\d]", box.what)]
    steps = []
    for box in numbers:
        text = box.what.removesuffix(f" {unit}")
        value = float(text.replace("−", "-"))
        steps.append(value)
        place = zone.left + (zone.right - zone.left) * (value - low) / (high - low)
        assert box.left + text_width(text, 48) / 2 == pytest.approx(place, abs=1), text
    assert {low, high} <= set(steps)
    assert len(numbers) >= 3
    steps = sorted(steps)
    inner = {round(b - a, 6) for a, b in pairwise(steps[1:-1])}
    assert len(inner) <= 1, "even steps between the ends"


def test_a_hero_of_two_lines_is_parted_evenly_and_no_article_ends_the_first():
    heroes = {}
    for shape in ("upright", "panel", "thumbnail"):
        for name, at in (("colour.chroma", 0), ("memory.ways", 0), ("rooms.ways", 0)):
            boxes = made(find(name).run(find(name).presets[at].inputs), shape).canvas.boxes
            heroes[name, shape] = [box.what for box in boxes if box.part == "hero"]
    assert heroes["colour.chroma", "upright"] in (["4:4:4 for text"], ["4:4:4", "for text"])
    assert heroes["memory.ways", "thumbnail"] in (["cheapest: add a kit"], ["cheapest:", "add a kit"])
    assert heroes["rooms.ways", "upright"] == ["a stream", "by wire"]


def test_one_way_to_buy_is_drawn_in_the_hero_s_own_words():
    preset = next(each for each in find("memory.ways").presets if each.key == "two-slots")
    result = find("memory.ways").run(preset.inputs)
    for shape in ("wide", "panel", "upright"):
        boxes = made(result, shape).canvas.boxes
        drawn = [box.what for box in boxes if box.part == "drawing" and box.size]
        assert result.card().hero in drawn
        assert {"16 GB", "32 GB"} <= set(drawn)
        lengths = {box.what: box.right - box.left for box in boxes if box.what.startswith("bar ")}
        assert lengths["bar one new kit"] / lengths["bar you have"] == pytest.approx(32 / 16, abs=0.02)


def test_bars_in_a_narrow_room_are_in_proportion_and_their_values_stand_behind_them():
    rows = [Row(f"a picture at {rate} Gb/s needs", rate, f"{rate} Gb/s") for rate in RATES]
    drawn = screen_bars(rows)(560, 520, 48)
    assert drawn is not None
    boxes = drawn.record()
    lengths = bar_lengths(boxes)
    for length, rate in zip(lengths, RATES, strict=True):
        assert length == pytest.approx(lengths[-1] * rate / RATES[-1], abs=PIXEL)
    for rate in RATES:
        bar = next(box for box in boxes if box.what == f"bar a picture at {rate} Gb/s needs")
        value = next(box for box in boxes if box.what == f"{rate} Gb/s")
        assert bar.right < value.left
        assert bar.top < (value.top + value.bottom) / 2 < bar.bottom


def test_a_scale_s_names_break_into_lines_where_the_room_is_narrow():
    from calculators.desk.screen_drawings.marks import Pin, Zone

    pins = [Pin(85, "limit for a working day: 85 dBA"), Pin(115, "yours: 115 dBA", True)]
    drawn = screen_scale(40, 140, zones=[Zone(120, 140, "no time is named")], pins=pins, unit="dBA")(600, 420, 48)
    assert drawn is not None
    said = [box for box in drawn.record() if box.size]
    assert "limit for a working day: 85 dBA" not in [box.what for box in said]
    words_said = " ".join(box.what for box in said)
    assert all(word in words_said for word in ("limit", "working", "85", "115", "named"))
    assert not [(a, b) for i, a in enumerate(said) for b in said[i + 1 :] if a.meets(b)]


@pytest.mark.parametrize(("trials", "right"), [(16, 12), (200, 113), (1000, 520)])
def test_marked_columns_hold_the_chance_that_the_answer_tells(trials, right):
    result = find("audio.blind").run({"trials": trials, "right": right})
    drawn = result.card().drawing(900, 480, 56)
    assert drawn is not None
    columns = [box for box in drawn.record() if box.what.startswith("column ")]
    heights = [box.bottom - box.top for box in columns]
    marked = sum(high for high, box in zip(heights, columns, strict=True) if box.ink == "mark")
    told = next(f.value for f in result.answer.figures if f.key == "chance_percent")
    # a column is at least three units high, so that none vanishes
    assert marked / sum(heights) * 100 == pytest.approx(told, abs=300 * len(columns) / sum(heights))


def test_sticks_stand_in_their_slots_and_the_kits_are_told_apart_without_colour():
    result = find("memory.mix").run(find("memory.mix").presets[0].inputs)
    drawn = result.card().drawing(900, 480, 48)
    assert drawn is not None
    sticks = [box for box in drawn.record() if box.what.startswith("stick ")]
    assert len(sticks) == 4
    assert {box.ink for box in sticks} == {"fill-1", "paper"}
    sizes = [box for box in drawn.record() if box.what.endswith(" GB")]
    assert len(sizes) == 4
    for stick, size in zip(sticks, sizes, strict=True):
        assert stick.left < size.left < size.right < stick.right


# What the checks see when something is wrong: each fault is put into a sound card's boxes.
SOUND = find("memory.rate").run({})


def spoilt(change) -> list[str]:
    plan = made(SOUND, "wide")
    plan.canvas.boxes = change(list(plan.canvas.boxes))
    return faults(plan, SOUND, "wide", DEFAULT)


def test_the_checks_find_nothing_in_a_sound_card():
    assert spoilt(lambda boxes: boxes) == []


@pytest.mark.parametrize(
    ("box", "fault"),
    [
        (Box("far out", 1700, 300, 1900, 340, 56, part="line", ink="ink"), "outside the safe area"),
        (Box("in the captions", 500, 900, 800, 960, 56, part="line", ink="ink"), "outside the safe area"),
        (Box("small", 100, 700, 200, 720, 40, part="line", ink="ink"), "type of 40 where 56 is the least"),
        (Box("small", 1000, 250, 1100, 270, 44, part="drawing", ink="ink"), "type of 44 where 48 is the least"),
        (Box("hero", 100, 300, 300, 420, 120, part="hero", ink="ink"), "type of 120 where 140 is the least"),
        (Box("pale", 100, 700, 200, 740, 56, part="line", ink="line"), "contrast below 7 to 1"),
        (Box("in its room", 1300, 300, 1400, 340, 56, part="line", ink="ink"), "stands in the room of the drawing"),
    ],
)
def test_the_checks_see_each_fault(box, fault):
    assert any(fault in found for found in spoilt(lambda boxes: [*boxes, box]))


def test_the_checks_see_words_upon_words():
    def twice(boxes):
        hero = next(box for box in boxes if box.part == "hero")
        return [*boxes, hero.moved(10, 10, 1, "line")]

    assert any("one upon the other" in found for found in spoilt(twice))


def test_the_checks_see_too_many_words_and_a_cut_line():
    many = Box(" ".join(["word"] * 30), 100, 600, 700, 640, 56, part="line", ink="ink")
    found = spoilt(lambda boxes: [*boxes, many])
    assert any("words" in each for each in found)
    assert any("line is cut" in each for each in found)


def test_the_checks_see_a_thing_that_moves():
    steps = [step.boxes for step in frames(SOUND)]
    moved = [steps[0], [box.moved(3, 0, 1, box.part) for box in steps[1]]]
    assert jumps(moved) == [2]


def test_a_drawing_with_words_upon_words_is_left_to_the_page():
    def drawn(width: float, height: float, size: float) -> Drawing:
        sketch = Sketch("a", "b", height, width)
        sketch.text(0, 100, "one", size=size)
        sketch.text(10, 110, "other", size=size)
        return sketch.done()

    assert drawn_for(drawn, 900, 500) is None


def test_widths_of_words_are_the_face_s_own():
    plan = made(SOUND, "wide")
    for box in plan.canvas.boxes:
        if box.size:
            assert box.right - box.left == pytest.approx(text_width(box.what, box.size, box.bold), abs=0.1)


def test_a_word_wider_than_its_line_stands_alone():
    assert lines_of("a b " + "c" * 80, 500, 96) == ["a b", "c" * 80]


def narrowed(text, width, size, most, bold):
    """What balanced() gives, by trying every width."""
    lines, narrow = fits(text, width, size, most, bold), width
    while lines and len(lines) > 1 and narrow > width / 2:
        narrow -= size / 4
        tried = fits(text, narrow, size, len(lines), bold)
        if tried is None:
            break
        lines = tried
    return lines


def test_lines_of_about_one_length_are_those_of_the_narrowest_width():
    dice, parted = random.Random(7), 0
    some = ("a", "an", "about", "12", "GB", "of", "the", "sticks", "ms", "3840×2160", "7", "it", "w" * 30)
    for _ in range(2000):
        text = " ".join(dice.choices(some, k=dice.randint(0, 14)))
        how = (text, dice.uniform(50, 1700), dice.choice((48, 56, 72.0, 140)), dice.randint(1, 9), dice.random() < 0.5)
        lines = balanced(*how)
        assert lines == narrowed(*how), how
        parted += len(lines or ()) > 1
    assert parted > 300


def test_a_number_stays_with_its_unit():
    assert lines_of("it takes 25 GB", 800, 140) == ["it takes", "25 GB"]


def test_a_card_s_limits_leave_out_and_never_cut():
    answer = Answer(headline="x", verdict=Verdict("depends", "It depends on very many things that nobody can know."))
    result = Result(
        Calculator(
            name="a.b", title="T", summary="", inputs=(), compute=lambda _: answer,
            card=lambda *_: Card(hero="about 12 GB", line="nine words are one too many for a card"),
        ),
        read_all((), {}), answer,
    )  # fmt: skip
    card = result.card()
    assert (card.hero, card.line) == ("", "")  # no condition, so no number
    said = [box.what for box in made(result, "wide").canvas.boxes if box.part not in UNCOUNTED]
    assert "about 12 GB" not in said


def test_light_and_dark_name_the_same_colours():
    assert set(LIGHT) == set(DARK)


def test_a_still_s_tag_belongs_to_the_caution_that_the_card_shows():
    for preset in find("rooms.ways").presets:
        result = answered("rooms.ways", preset.key)
        card = result.card()
        shown = [caution.tag for caution in result.answer.cautions if caution.short == card.caution]
        assert not shown or card.tag == shown[0], preset.key
