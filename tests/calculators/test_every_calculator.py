"""What holds for every calculator there is: its declaration, its presets, its answers, its links, its lines."""

from __future__ import annotations

import io
import json
import math
import re
import xml.etree.ElementTree as etree
from html.parser import HTMLParser
from typing import Any

import pytest

from calculators.__main__ import lines
from calculators.catalogue import find, names
from calculators.desk.as_html import as_html, gravest
from calculators.desk.as_json import as_json, digest, dumps
from calculators.desk.as_text import as_text
from calculators.desk.calculator import Calculator, Result
from calculators.desk.errors import InputErrors
from calculators.desk.form import form
from calculators.desk.inputs import WHERE_TO_FIND, Choice, Estimate, Number, Text
from calculators.desk.links import fragment, read_fragment
from tests.random_inputs import random_inputs

# On another Python, and in the page's runtime, the answers are the same bytes: tests/digests.py.
pytestmark = pytest.mark.once

EVERY = pytest.mark.parametrize("name", names())
PRESETS = [(name, preset.key) for name in names() for preset in find(name).presets]
RANDOM_CASES, SEED = 12, 11
LONGEST_PRESET_LABEL = 48  # what a button holds on a phone
NEXT_SENTENCE = re.compile(r"[.!?]['\"’”)]*\s+[A-Z]")
VOID = frozenset("area br col hr img input link meta source wbr".split())


def preset_of(name: str, key: str) -> Result:
    calculator = find(name)
    return calculator.run(next(p.inputs for p in calculator.presets if p.key == key))


def run(calculator: Calculator, inputs: dict[str, Any]) -> tuple[Result | None, list[str]]:
    """The result, or what is wrong with the inputs."""
    try:
        return calculator.run(inputs), []
    except InputErrors as wrong:
        return None, [problem.message for problem in wrong.problems]


class Markup(HTMLParser):
    """Reads HTML and keeps what is wrong with it: tags that do not close, ids that come twice, scripts, styles."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.faults: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in VOID:
            self.open.append(tag)
        self._read(tag, attrs)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._read(tag, attrs)

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.faults.append(f"</{tag}> closes nothing")

    def _read(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for key, value in attrs:
            if key == "id":
                self.ids.append(value or "")
            if key == "style" or key.startswith("on"):
                self.faults.append(f"{tag} has {key}")
        if tag in ("script", "style"):
            self.faults.append(f"there is a {tag}")


def markup_faults(html: str) -> list[str]:
    """What is wrong with a piece of HTML."""
    reader = Markup()
    reader.feed(html)
    reader.close()
    twice = {i for i in reader.ids if reader.ids.count(i) > 1}
    return [*reader.faults, *(f"<{t}> stays open" for t in reader.open), *(f"id {i} twice" for i in sorted(twice))]


def answer_faults(result: Result) -> list[str]:
    """What is wrong with an answer, each in a few words."""
    answer, faults = result.answer, []
    if NEXT_SENTENCE.search(answer.headline) or answer.headline[-1:] not in ".?!" or "\n" in answer.headline:
        faults.append(f"the headline is not one sentence: {answer.headline}")
    if answer.verdict and not answer.verdict.reason.endswith((".", "!")):
        faults.append(f"the verdict's reason is no sentence: {answer.verdict.reason}")
    if not answer.sources:
        faults.append("no source")
    for f in answer.figures:
        if not f.label or not f.text:
            faults.append(f"figure {f.key} has no label or no text")
        if not isinstance(f.value, str) and not math.isfinite(f.value):
            faults.append(f"figure {f.key} is {f.value}")
    if sum(f.main for f in answer.figures) > 4:
        faults.append("more than four main figures")
    for drawing in answer.drawings:
        root = etree.fromstring(drawing.svg("d"))
        said = {child.tag.partition("}")[2]: child.text for child in root if child.text}
        if not said.get("title") or not said.get("desc"):
            faults.append(f"drawing {drawing.title!r} has no title or no description")
    faults += markup_faults(as_html(result, "a"))
    phrase = result.worked_for()
    if result.calculator.worked_for and (not phrase or phrase.endswith(".") or "\n" in phrase or len(phrase) > 160):
        faults.append(f"'worked for' is no short phrase: {phrase!r}")
    text = as_text(result)
    if answer.headline not in text or not text.endswith("\n"):
        faults.append("the text lacks the headline or its last newline")
    if json.loads(dumps(as_json(result)))["headline"] != answer.headline:
        faults.append("JSON has another headline")
    return faults


def test_the_checks_find_what_is_wrong():
    assert markup_faults('<p id="a">x<b id="a"></p></b><script></script>') != []
    assert markup_faults('<p style="x">y') == ["p has style", "<p> stays open"]
    assert markup_faults('<p id="a">x<br></p>') == []
    assert NEXT_SENTENCE.search("It runs. Or not.")
    assert not NEXT_SENTENCE.search("It takes 1.35 V and 3.5 h, i.e. little.")


@EVERY
def test_the_declaration_is_whole(name):
    calculator = find(name)
    assert calculator.name == name
    assert calculator.title
    assert calculator.summary.endswith(".")
    assert calculator.version >= 1
    assert calculator.worked_for is not None, "it does not say for which parts a result was worked out"
    keys = [entry.key for entry in calculator.inputs]
    assert len(set(keys)) == len(keys)
    for entry in calculator.inputs:
        assert re.fullmatch(r"[a-z][a-z0-9_]*", entry.key)
        assert entry.label, entry.key
        assert len(entry.where) > 10, f"{entry.key} does not say where a viewer finds it"
        if entry.follows:  # a form is filled from top to bottom
            decides = next(
                other for other in calculator.inputs[: keys.index(entry.key)] if other.key == entry.follows.key
            )
            assert isinstance(decides, Choice), entry.key
            assert {*entry.follows.defaults, *entry.follows.keeps} <= {o.value for o in decides.options}, entry.key
            for typed in entry.follows.defaults.values():
                assert entry.read(typed) is not None, entry.key
        if isinstance(entry, Number) and entry.default is not None:
            assert entry.low <= entry.default <= entry.high, entry.key
        if isinstance(entry, Number):
            assert all(entry.low <= known.value <= entry.high for known in entry.named), entry.key
        if isinstance(entry, Estimate):
            assert entry.low <= entry.unsure_low <= entry.unsure_high <= entry.high, entry.key
            assert all(entry.low <= c.low <= c.high <= entry.high for c in entry.choices), entry.key
        for name_ in entry.names:
            assert name_ == name_.casefold().strip() != "", entry.key
        if isinstance(entry, Choice):
            values = [o.value for o in entry.options]
            assert len(set(values)) == len(values), entry.key
            assert entry.default is None or entry.default in values, entry.key
        if isinstance(entry, Text) and entry.default:
            assert entry.write(entry.read(entry.default)) is not None, entry.key
    presets = [p.key for p in calculator.presets]
    assert len(set(presets)) == len(presets)
    assert all(re.fullmatch(r"[a-z0-9-]+", key) for key in presets)
    assert all(p.label and len(p.label) <= LONGEST_PRESET_LABEL for p in calculator.presets)


@EVERY
def test_the_form_is_well_made_and_labels_every_input(name):
    calculator = find(name)
    html = form(calculator, "f", {}, tuple(p.key for p in calculator.presets))
    assert markup_faults(html) == []
    for entry in calculator.inputs:
        assert f'<label for="f-{entry.key.replace("_", "-")}">' in html


@EVERY
def test_every_common_case_gives_a_whole_answer(name):
    """And its gravest caution has words of its own for the line below the headline."""
    for preset in find(name).presets:
        result = find(name).run(preset.inputs)
        assert answer_faults(result) == [], preset.key
        worst = gravest(result.answer.cautions)
        assert worst is None or worst.short, (preset.key, worst)


@EVERY
def test_random_inputs_give_whole_answers_or_sentences(name):
    calculator = find(name)
    answered = 0
    for inputs in random_inputs(calculator, RANDOM_CASES, SEED):
        result, problems = run(calculator, inputs)
        assert bool(problems) == (result is None)
        assert all(message[-1:] in ".?!" for message in problems), problems
        if result is not None:
            answered += 1
            assert answer_faults(result) == [], inputs
    if not any(entry.private for entry in calculator.inputs):  # a private text of chance digits is seldom usable
        assert answered > RANDOM_CASES / 8


@EVERY
def test_the_same_inputs_give_the_same_bytes(name):
    calculator = find(name)
    for preset in calculator.presets:
        one, other = calculator.run(preset.inputs), calculator.run(dict(reversed(preset.inputs.items())))
        assert as_html(one, "a") == as_html(other, "a")
        assert as_text(one) == as_text(other)


@EVERY
def test_a_link_brings_back_the_same_answer(name):
    calculator = find(name)
    private = {entry.key for entry in calculator.inputs if entry.private}
    brought_back = 0
    for inputs in [*(p.inputs for p in calculator.presets), *random_inputs(calculator, RANDOM_CASES, SEED + 1)]:
        result, _ = run(calculator, dict(inputs))
        if result is None:
            continue
        link = read_fragment("#" + fragment(result))
        assert link.name == name
        assert link.version == str(calculator.version)
        assert link.mark == digest(result)
        assert not private & set(link.inputs)
        if private & set(inputs):
            continue
        again = calculator.run(link.inputs)
        assert digest(again) == link.mark
        assert dict(again.values) == dict(result.values)
        brought_back += 1
    if not private:
        assert brought_back > 0


def test_lines_answer_in_order_and_tell_each_wrong_line_by_itself():
    requests = [
        json.dumps({"calculator": name, "inputs": preset_of(name, key).values.given()}) for name, key in PRESETS
    ]
    wrong = ["not JSON", "[]", '{"calculator": "memory.rates"}', '{"calculator": "memory.rate", "inputs": {"cas": 0}}']
    mixed = [line for pair in zip(requests, wrong * len(requests), strict=False) for line in pair]
    out = io.StringIO()
    assert lines(io.StringIO("\n".join(mixed) + "\n"), out) == 0
    replies = [json.loads(line) for line in out.getvalue().splitlines()]
    assert len(replies) == len(mixed)
    for (name, _), reply in zip(PRESETS, replies[::2], strict=True):
        assert reply.get("calculator") == name or reply["errors"], name
    assert all(set(reply) == {"errors"} for reply in replies[1::2])


def test_many_lines_stay_in_order():
    out = io.StringIO()
    requests = [json.dumps({"calculator": "memory.rate", "inputs": {"cas": 1 + i % 200}}) for i in range(400)]
    lines(io.StringIO("".join(f"{r}\n" for r in requests)), out)
    assert [json.loads(r)["inputs"]["cas"] for r in out.getvalue().splitlines()] == [1 + i % 200 for i in range(400)]


# An input about the reader, or one that is told by looking, counting or choosing, is not found anywhere.
ABOUT_THE_READER = re.compile(
    r"^(Your (own|choice)|What (you|else|hangs)|How (long|many) |By looking|Count |Watch |Measure |'No' if|A real "
    r"password|If the system asks you|Yes (if|only)|Begin with|Where you look|A second computer|Try )"
)


@EVERY
def test_no_question_about_the_reader_asks_where_it_is_found(name: str) -> None:
    for entry in find(name).inputs:
        if entry.where_title == WHERE_TO_FIND:
            assert not ABOUT_THE_READER.match(entry.where), (entry.key, entry.where)
