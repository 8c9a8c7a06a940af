"""One answer, four renderings: the same facts, nothing private, nothing that breaks a page."""

import json
import re
from dataclasses import replace
from html import unescape
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.answer import (
    Answer,
    Caution,
    Column,
    Figure,
    File,
    Note,
    Source,
    Step,
    Table,
    Verdict,
    Working,
    figure,
)
from calculators.desk.as_html import as_html
from calculators.desk.as_json import as_json, digest, dumps
from calculators.desk.as_text import as_text
from calculators.desk.calculator import Calculator, Preset, Result
from calculators.desk.card import frames as card_frames
from calculators.desk.charts import Axis, Bar, Limit, Line, Part, Spot, bars, even_ticks, plot, strip
from calculators.desk.form import form
from calculators.desk.inputs import HOW_TO_TELL, Number, PrivateText, Text, Values
from calculators.desk.links import fragment, read_fragment
from calculators.desk.numbers import unbroken
from calculators.desk.svg import SMALL, WIDTH, Sketch, text_width, wrap

NASTY = "<script>alert('&\"')</script>"


def compute(given: Values) -> Answer:
    text = given["text"]
    return Answer(
        headline=f"About {text}.",
        verdict=Verdict("depends", f"Because {text}."),
        figures=(figure("size", "Size", given["size"], "GB", main=True), figure("name", "Name", text)),
        working=(Working("Sum", "a + b", f"1 + {text}", "3"),),
        tables=(Table("A table", (Column("Kind"), Column("Size", True)), (("one", "1"), (text, "22")), "Note.", (1,)),),
        steps=(
            Step(key="a", title="First", do=("Do this.",), group="Gently", minutes=(1, 2), tags=("restarts",)),
            Step(
                key="b", title=text, do=("Do that.",), group="If it does not work", commands=("run it",), why="So.",
                see="This.", otherwise="That.", back="Undo.", caution="Mind.",
            ),
        ),
        drawings=(bars("Bars", f"Of {text}", [Bar(text, 1, "1")]),),
        notes=(Note("A note", text),),
        files=(File("sound.wav", "audio/wav", b"RIFF"),),
        cautions=(Caution("hearing", "Volume down first.", "Ask.", first=True), Caution("data", f"Save {text}.")),
        sources=(Source("A standard", "clause 1"), Source("A habit", "", "common practice")),
    )  # fmt: skip


CALCULATOR = Calculator(
    name="test.all",
    title="What does everything look like?",
    summary="All parts at once.",
    inputs=(
        Number(key="size", label="Size", where="sticker", low=1, high=512, unit="GB", default=8, unsure=False),
        Text(key="text", label="Text", where="anywhere", shape="a text", example="abc", default="abc"),
        PrivateText(key="secret", label="Secret", where="a file", shape="a text", example="x", default="nothing"),
    ),
    compute=compute,
    presets=(Preset("big", "Big", {"size": 512}),),
)


def run(**raw: object) -> Result:
    return CALCULATOR.run(raw)


class Tags(HTMLParser):
    """Checks that tags nest and collects ids."""

    VOID = frozenset({"img", "input", "br", "hr", "meta", "link"})

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.seen: set[str] = set()

    def handle_starttag(self, tag, attrs):
        self.seen.add(tag)
        self.ids += [value for name, value in attrs if name == "id"]
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.seen.add(tag)

    def handle_endtag(self, tag):
        assert self.open, f"</{tag}> closes nothing"
        assert self.open.pop() == tag


def checked(html: str) -> Tags:
    tags = Tags()
    tags.feed(html)
    tags.close()
    assert not tags.open
    assert len(tags.ids) == len(set(tags.ids))
    return tags


def test_html_nests_and_typed_text_stays_text():
    html = as_html(run(text=NASTY), "p")
    assert "script" not in checked(html).seen
    assert "&lt;script&gt;" in html
    assert " style=" not in html


def test_two_answers_on_one_page_do_not_clash():
    checked(as_html(run(), "one") + as_html(run(), "two"))


@given(st.text(min_size=1, max_size=80).filter(str.strip))
def test_any_text_typed_gives_sound_html_and_json(text):
    result = run(text=text)
    checked(as_html(result, "p"))
    assert json.loads(dumps(as_json(result)))["headline"] == result.answer.headline


def test_text_tells_everything_that_html_tells():
    text = as_text(run())
    for said in (
        "What does everything look like?", "Caution (hearing): Volume down first. Ask.", "About abc.",
        "It depends. Because abc.", "Size: 8 GB", "Sum: a + b = 1 + abc = 3", "A table", "*abc     22", "Gently",
        "1. First (1 to 2 min)", "If it does not work", "2. abc", "run it", "Way back: Undo.", "A note",
        "Drawing: Bars", "File: sound.wav (audio/wav, 4 bytes)", "Save abc.", "Assumed, because not given",
        "A standard, clause 1", "A habit, common practice, no source",
    ):  # fmt: skip
        assert said in text, said


def test_json_holds_the_contract_and_nothing_private():
    whole = as_json(run(size=16, secret="very private"))
    assert whole["calculator"] == "test.all"
    assert whole["inputs"] == {"size": 16, "text": "abc"}
    assert whole["assumed"] == ["text"]
    assert whole["verdict"] == {"word": "depends", "reason": "Because abc."}
    assert whole["figures"]["size"] == {"label": "Size", "value": 16, "unit": "GB", "text": "16 GB"}
    assert whole["files"] == [{"name": "sound.wav", "media": "audio/wav", "base64": "UklGRg=="}]
    assert whole["steps"][1]["commands"] == ["run it"]
    assert whole["drawings"][0].startswith("<svg ")
    everything = dumps(whole) + as_html(run(secret="very private"), "p") + fragment(run(secret="very private"))
    assert "very private" not in everything


def test_the_digest_follows_what_is_said_and_nothing_else():
    assert digest(run()) == digest(run())
    assert digest(run()) != digest(run(size=9))


@given(st.integers(1, 512), st.text(min_size=1, max_size=60).filter(str.strip))
def test_links_round_trip(size, text):
    result = run(size=size, text=text)
    link = read_fragment("#" + fragment(result))
    assert link.name == "test.all"
    assert link.version == "1"
    assert link.mark == digest(result)
    assert dict(run(**link.inputs).values) == dict(result.values)


@given(st.text(max_size=80))
def test_any_fragment_is_read(text):
    assert isinstance(read_fragment(text).inputs, dict)


def test_the_form_is_complete_and_disabled_until_a_script_wakes_it():
    html = form(CALCULATOR, "p", {"size": "512"}, ("big",))
    tags = checked(html)
    assert {"form", "fieldset", "label", "input", "textarea"} <= tags.seen
    assert '<fieldset class="wa-inputs" disabled>' in html
    assert 'name="size"' in html
    assert 'value="512"' in html
    assert 'data-preset="big"' in html
    assert "Where do I find this?" in html
    for identifier in ("p-size", "p-text", "p-secret"):
        assert f'for="{identifier}"' in html
        assert identifier in tags.ids
        assert f"{identifier}-error" in tags.ids


@pytest.mark.parametrize("word", ["maybe", "", "YES"])
def test_a_verdict_has_three_words_only(word):
    with pytest.raises(ValueError, match="yes, depends or no"):
        Verdict(word, "because")


def test_parts_that_do_not_fit_are_refused_when_made():
    with pytest.raises(ValueError, match="1 cells for 2 columns"):
        Table("t", (Column("a"), Column("b")), (("x",),))
    with pytest.raises(ValueError, match="two figures share a key"):
        Answer(headline="h", figures=(Figure("a", "A", 1), Figure("a", "B", 2)))
    with pytest.raises(ValueError, match="finite"):
        figure("a", "A", float("inf"))
    with pytest.raises(ValueError, match="hearing, data, machine or person"):
        Caution("soul", "x")
    with pytest.raises(ValueError, match="unknown standing"):
        Source("x", "", "hearsay")


def test_drawings_are_sound_and_keep_to_their_width():
    drawings = [
        bars("B", "d", [Bar("a", 3, "3 ns"), Bar("mine", 1, "1 ns", mark=True, low=0.5)], limits=[Limit(2, "limit")]),
        strip("S", "d", [Part("pairs", 16, "16 GB"), Part("alone", 8, "8 GB", hatched=True)]),
        plot("P", "d", Axis("s", 0, 10), Axis("m", -1, 1), [Line("a", [(0, 0), (10, 1)]), Line("b", [(0, 1), (10, 0)])],
             limits=[Limit(0.5, "limit")], spots=[Spot(5, 0.5, "you")]),
        bars("empty", "d", []),
        strip("empty", "d", []),
        plot("flat", "d", Axis("s", 1, 1), Axis("m", 2, 2), [Line("a", [(1, 2)])]),
    ]  # fmt: skip
    for drawing in drawings:
        svg = drawing.svg("p")
        checked(svg)
        assert 'role="img"' in svg
        assert "<title" in svg
        assert "<desc" in svg
        assert "style=" not in svg


@pytest.mark.parametrize(
    ("low", "high", "ticks"),
    [(0, 100, [0, 50, 100]), (0, 10, [0, 5, 10]), (0, 4, [0, 1, 2, 3, 4]), (-1, 1, [-1, -0.5, 0, 0.5, 1]), (3, 3, [3])],
)
def test_ticks_are_round(low, high, ticks):
    assert even_ticks(low, high) == ticks


@given(st.floats(-1e6, 1e6), st.floats(1e-3, 1e6))
def test_ticks_stay_inside_and_rise(low, width):
    ticks = even_ticks(low, low + width)
    assert ticks == sorted(set(ticks))
    assert all(low - width / 100 <= t <= low + width * 1.01 for t in ticks)


@given(st.text(max_size=120))
def test_wrapping_loses_no_word(text):
    lines = wrap(text, 100)
    assert " ".join(lines) == text
    assert all(text_width(line) <= 100 or " " not in line for line in lines)


def test_a_sketch_draws_no_negative_size():
    sketch = Sketch("t", "d", 10)
    sketch.rect(0, 0, -5, 3)
    assert 'width="0"' in sketch.done().svg()


def test_a_picture_stands_before_the_working_with_its_size_its_words_and_its_ground():
    picture = File("grey.png", "image/png", b"PNG", words="Even <greys>.", size=(640, 360), ground="#404040")
    answer = Answer(headline="A.", files=(picture,), working=(Working("Sum", "a", "1", "1"),))
    made = Calculator(name="a.b", title="T", summary="S", inputs=(), compute=lambda _: answer)
    html = as_html(made.run({}), "p")
    assert '<div class="wa-file wa-picture" data-ground="#404040">' in html
    assert 'alt="Even &lt;greys&gt;." width="640" height="360">' in html
    assert html.index("wa-picture") < html.index("wa-working")


def test_a_sound_stands_right_below_the_figures_and_the_first_cautions():
    """A viewer must meet the caution before the player, and the player before the working."""
    from calculators.catalogue import find

    html = as_html(find("audio.tones").run({"seconds": "0.5"}), "p")
    marks = ("wa-headline", "wa-gravest", 'class="wa-cautions"', "<audio", "wa-working")
    places = [html.index(mark) for mark in marks]
    assert places == sorted(places)
    assert html.count("<audio") == 1
    assert html.count("base64,") == 1, "the bytes of a sound weigh on the page: they stand in it once"


def test_no_line_of_a_command_ends_behind_a_hyphen_and_none_of_it_is_lost():
    command = "manage-bde -protectors -get C: | Format-List <all>"
    step = Step(key="a", title="Type it", do=("Type this.",), commands=(command,))
    plan = replace(CALCULATOR, compute=lambda given: replace(compute(given), steps=(step,)))
    html = as_html(plan.run({}), "a")
    (pre,) = re.findall(r'<pre class="wa-command">(.*?)</pre>', html)
    assert re.findall(r'<span class="wa-word">(.*?)</span>', pre) == [
        "manage-bde", "-protectors", "-get", "Format-List",
    ]  # fmt: skip
    assert unescape(re.sub(r"<[^>]+>", "", pre)) == command


def test_a_verdict_may_answer_in_the_words_of_its_question():
    assert [Verdict(word, "So.").said() for word in ("yes", "depends", "no")] == ["Yes.", "It depends.", "No."]
    assert Verdict("no", "So.", "Too quiet.").said() == "Too quiet."


def with_a_figure_for_programs(value: float = 28.12) -> Result:
    """A run whose second figure is for programs alone."""
    made = Answer(
        headline="Turn down.",
        figures=(
            figure("level", "Level", 115, "dB", main=True),
            figure("allowed_s", "Allowed by the table", value, "s", only_json=True),
        ),
    )
    return Calculator(name="a.b", title="T", summary="S", inputs=(), compute=lambda _: made).run({})


def test_a_figure_for_programs_alone_stands_in_json_and_nowhere_that_people_read():
    result = with_a_figure_for_programs()
    assert as_json(result)["figures"]["allowed_s"] == {
        "label": "Allowed by the table", "value": 28.12, "unit": "s", "text": "28.12 s",
    }  # fmt: skip
    code = [[(i + j) % 2 == 0 for i in range(21)] for j in range(21)]
    cards = "".join(frame.svg for frame in card_frames(result, address="https://example.org/a", qr=lambda _: code))
    for shown in (as_html(result, "p"), as_text(result), cards):
        assert "115 dB" in shown.replace("\u00a0", " ")
        assert "28.12" not in shown
        assert "Allowed by the table" not in shown


def test_the_mark_of_a_link_does_not_follow_what_no_reader_sees():
    assert digest(with_a_figure_for_programs(28.12)) == digest(with_a_figure_for_programs(14))


def test_a_figure_is_not_both_shown_large_and_for_programs_alone():
    with pytest.raises(ValueError, match="figure a cannot be both shown large and for programs alone"):
        figure("a", "A", 1, main=True, only_json=True)


def test_a_question_about_the_reader_does_not_ask_where_to_find_it():
    tell = Number(key="a", label="Hours", where="Your own count.", low=0, high=9, default=1, where_title=HOW_TO_TELL)
    found = Number(key="b", label="Rate", where="The sticker.", low=0, high=9, default=1)
    made = Calculator(name="a.b", title="T", summary="S", inputs=(tell, found), compute=lambda _: Answer(headline="A."))
    html = form(made, "f", {}, ())
    assert html.index("<summary>How do I tell?</summary>") < html.index("<summary>Where do I find this?</summary>")


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("40 Mb/s over 2 m", ["40 Mb/s", "2 m"]),
        ("at 59.94 Hz, 100 % or 3.6 ns", ["59.94 Hz", "100 %", "3.6 ns"]),
        ("59 to 218 min, 2 h", ["218 min", "2 h"]),
        ("1 minute, 2 hours, 3 models, 4 sticks, 5 Mbit", []),
    ],
)
def test_a_number_and_its_unit_are_not_parted_in_a_page(text, kept):
    assert re.findall(r"[\d.]+\u00a0[^\s,]+", unbroken(text)) == [each.replace(" ", "\u00a0") for each in kept]
    assert unbroken(text).replace("\u00a0", " ") == text
    page = as_html(find("memory.rate").run({}), "p")
    assert "10\u00a0ns" in page
    assert not re.search(r"\d (?:ns|GB/s|MHz)\b", re.sub(r"<svg.*?</svg>|<[^>]*>", "", page))
    assert "\u00a0" not in as_text(find("memory.rate").run({}))
    assert "\u00a0" not in dumps(as_json(find("memory.rate").run({})))


def test_no_limit_of_a_chart_runs_through_its_words():
    rows = [Bar("Your mode", 14.9, "14.9 to 15.3 Gb/s", mark=True, low=14.2), Bar("The link", 14.4, "14.4 Gb/s")]
    drawing = bars("B", "d", rows, limits=[Limit(14.4, "what the link carries"), Limit(0.2, "almost nothing at all")])
    page = drawing.svg("p")
    lines = re.findall(r'<line x1="([\d.]+)" y1="([\d.]+)" x2="[\d.]+" y2="([\d.]+)"', page)
    texts = re.findall(r'<text x="([\d.]+)" y="([\d.]+)"[^>]*>([^<]+)</text>', page)
    assert len(lines) == 4  # each limit, across each bar
    assert len(texts) == 6
    for _, top, bottom in lines:
        for _, baseline, said in texts:
            assert float(bottom) <= float(baseline) - SMALL or float(top) >= float(baseline), said
    for x, _, said in texts[:2]:  # the limits' own labels keep within the drawing at either end
        anchored_end = f'x="{x}"' in page and float(x) > WIDTH / 2
        left = float(x) - text_width(said, SMALL) if anchored_end else float(x)
        assert left >= 0
        assert left + text_width(said, SMALL) <= WIDTH


@pytest.mark.parametrize(("first", "last"), [(10, 0), (0, 10)])
@pytest.mark.parametrize("at", [0.5, 3, 5, 7, 9.5])
def test_no_line_of_a_plot_runs_through_the_label_of_a_point_on_it(first, last, at):
    level = first + (last - first) * at / 10
    drawing = plot(
        "t", "d", Axis("s", 0, 10), Axis("m", 0, 10), [Line("a", [(0, first), (10, last)])],
        spots=[Spot(at, level, "yours: 12")],
    )  # fmt: skip
    assert drawing.for_card is not None
    for drawn in (drawing, drawing.for_card(1200, 700, 48)):
        assert drawn is not None
        label = next(box for box in drawn.record() if box.what == "yours: 12")
        x1, y1, x2, y2 = map(float, re.findall(r'<path d="M([\d.]+) ([\d.]+) L([\d.]+) ([\d.]+)"', drawn.svg("p"))[0])
        for i in range(1001):
            x, y = x1 + (x2 - x1) * i / 1000, y1 + (y2 - y1) * i / 1000
            assert not (label.left < x < label.right and label.top < y < label.bottom), f"through the label at {x, y}"
