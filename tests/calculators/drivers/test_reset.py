"""drivers.reset as the reader gets it: figures, headline, verdict, renderings. Properties and own edge cases."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.desk.answer import YES
from calculators.desk.as_html import as_html
from calculators.desk.as_json import as_json, dumps
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors
from calculators.desk.inputs import HOW_TO_TELL
from calculators.desk.links import fragment, read_fragment
from calculators.drivers.plans.situation import ANSWERS, situation
from calculators.drivers.plans.step_tags import MEANING
from calculators.drivers.reset import calculator
from tests.calculators.drivers.every_plan import judged, plans

pytestmark = pytest.mark.once

ANY = st.fixed_dictionaries({}, optional={key: st.sampled_from(values) for key, values in ANSWERS.items()})


def figures(inputs: dict[str, str]) -> dict[str, float]:
    return {f.key: f.value for f in calculator.run(inputs).answer.figures}


def test_the_form_offers_just_the_combinations_that_the_rules_are_held_against():
    assert {entry.key: tuple(o.value for o in entry.options) for entry in calculator.inputs} == {
        entry.key: ANSWERS[entry.key] for entry in calculator.inputs
    }
    assert {entry.key for entry in calculator.inputs} == set(ANSWERS)


def test_questions_about_the_reader_are_told_and_not_found():
    assert [entry.key for entry in calculator.inputs if entry.where_title != HOW_TO_TELL] == []


def test_a_refusal_says_what_it_refuses():
    assert calculator.run({"at_the_machine": "no"}).answer.verdict.said() == "Not from afar."
    assert calculator.run({"admin": "no"}).answer.verdict.said() == "Not without an administrator."


def test_figures_are_counted_from_the_steps_of_every_plan():
    for plan in plans():
        result = calculator.run(plan.situations[0]._asdict())
        assert [step.key for step in result.answer.steps] == [step.key for step in plan.steps]
        deeper = ("If it does not work", "If nothing of this works")
        first = [step for step in result.answer.steps if not step.group.startswith(deeper)]
        found = {f.key: f.value for f in result.answer.figures}
        assert found["steps"] == len(first)
        assert found["restarts"] == sum("restarts" in step.tags for step in first)
        assert found["minutes_low"] == sum(step.minutes[0] for step in first)
        assert found["minutes_high"] == sum(step.minutes[1] for step in first)
        assert found["minutes_low"] < found["minutes_high"]
        assert found["steps_in_all"] == len(result.answer.steps)


def test_steps_have_keys_that_do_not_clash_and_tags_that_are_known():
    for plan in plans():
        keys = [step.key for step in plan.steps]
        assert len(set(keys)) == len(keys), keys
        assert all(re.fullmatch(r"[a-z]+(-[a-z]+)+", key) for key in keys)
        assert {tag for step in plan.steps for tag in step.tags} <= set(MEANING)


def test_ticks_keep_their_step_when_an_answer_about_the_lock_changes():
    """A tick is kept by the step's key, so the same work must have the same key in every plan that has it."""
    titles: dict[tuple[bool, str], set[str]] = {}
    for plan in plans():
        windows = plan.situations[0].windows
        for step in plan.steps:
            titles.setdefault((windows, step.key), set()).add(re.sub(r"\d+ restarts?", "N restarts", step.title))
    assert all(len(found) == 1 for (_, key), found in titles.items() if key != "end-check"), titles


@pytest.mark.parametrize(
    ("inputs", "depth", "word"),
    [
        ({"change": "same_maker", "trouble": "none", "logo": "yes"}, 1, "yes"),
        ({"change": "other_maker", "trouble": "none", "logo": "yes"}, 2, "yes"),
        ({"change": "moved_card", "trouble": "none", "logo": "yes"}, 1, "depends"),
        ({"change": "other_maker", "trouble": "no_picture", "logo": "no"}, 0, "no"),
        ({"change": "other_maker", "trouble": "no_picture", "logo": "yes"}, 3, "yes"),
        ({"change": "none", "trouble": "no_picture", "logo": "yes", "other_picture": "yes"}, 1, "yes"),
        ({"change": "none", "trouble": "no_picture", "logo": "unsure"}, 3, "depends"),
        ({"change": "none", "trouble": "crashes", "logo": "yes"}, 1, "depends"),
        ({"change": "same_maker", "trouble": "installer_fails", "logo": "yes"}, 2, "yes"),
        ({"change": "none", "trouble": "none", "logo": "yes"}, 0, "no"),
        ({"change": "none", "trouble": "crashes", "admin": "no"}, 0, "no"),
        ({"change": "none", "trouble": "crashes", "at_the_machine": "no"}, 0, "no"),
        ({"system": "linux", "change": "none", "trouble": "no_picture", "logo": "yes"}, 3, "yes"),
    ],
)
def test_how_deep_it_goes(inputs, depth, word):
    answer = calculator.run(inputs).answer
    assert figures(inputs)["depth"] == depth
    assert answer.verdict.word == word


@settings(deadline=None)  # a busy machine is no fault of these
@given(ANY)
def test_every_answer_renders_and_its_link_comes_back(inputs):
    result = calculator.run(inputs)
    html, text, whole = as_html(result, "p"), as_text(result), as_json(result)
    assert "RESTARTS" not in text
    assert "COUNT" not in re.sub(r"ACCOUNT", "", text)
    assert dumps(whole)
    assert html.count('class="wa-step"') == len(whole["steps"])
    assert read_fragment(fragment(result)).inputs == inputs
    assert result.answer.headline.endswith(".")
    assert result.answer.verdict.reason.endswith(".")
    if result.answer.verdict.word == YES:
        assert "way back" in result.answer.steps_title


def test_headline_and_verdict_are_short_enough_to_be_said():
    """A headline has at most 25 words, a verdict's reason 15: rules of this project."""
    counts = 8  # 'n steps, n restarts, n to n minutes' are added to the lead of a plan
    for found in judged().values():
        assert len(found.lead.split()) + (counts if found.depth else 0) <= 25, found.lead
        assert len(found.reason.split()) <= 15, found.reason
    for plan in plans()[::40]:
        answer = calculator.run(plan.situations[0]._asdict()).answer
        assert len(answer.headline.split()) <= 25, answer.headline


@settings(deadline=None)  # a busy machine is no fault of these
@given(ANY)
def test_data_and_keys_are_cautioned_about_before_everything_else(inputs):
    answer = calculator.run(inputs).answer
    tags = {tag for step in answer.steps for tag in step.tags}
    first = " ".join(c.text for c in answer.cautions if c.first)
    later = " ".join(c.text for c in answer.cautions)
    s = situation(calculator.run(inputs).values)
    dark = s.dark_from_the_start and not s.sees  # nobody can copy anything from a screen that shows nothing
    assert ("Data first" in first) == (bool(tags & {"installs:driver", "removes:driver", "restarts"}) and not dark)
    assert ("unplugged before a hand" in first) == (dark and "needs:power_off" in tags)
    assert ("filmed" in first) == ("matches:key" in tags)
    assert ("Never open a power supply" in later) == ("needs:power_off" in tags)
    assert ("modular" in later) == ("needs:power_off" in tags)
    for words in ("desktop machines alone", "support a heavy card", "power supply can feed"):
        assert (words in later) == ("touches:card" in tags)
    assert ("stars" in later) == ("removes:driver" in tags)
    assert "manuals" in later
    assert "technician" in answer.cautions[-1].defer


@pytest.mark.parametrize(
    ("inputs", "words"),
    [
        ({"system": "amiga"}, "System must be one of windows, linux, got 'amiga'"),
        ({"trouble": ""}, "What goes wrong is empty"),
        ({"encrypted": "perhaps"}, "must be one of yes, no, unsure"),
        ({"depth": "3"}, "There is no input 'depth'"),
    ],
)
def test_wrong_inputs_are_told_in_words(inputs, words):
    with pytest.raises(InputErrors) as caught:
        calculator.run(inputs)
    assert words in str(caught.value)


def test_a_card_that_may_just_run_is_tried_before_anything_is_installed():
    answer = calculator.run({"change": "moved_card", "trouble": "none", "logo": "yes"}).answer
    assert "only if it does not run" in answer.headline
    assert answer.verdict.said() == "Only if it does not run by itself."


@settings(deadline=None)  # a busy machine is no fault of these
@given(ANY)
def test_the_verdict_answers_the_question_in_words(inputs):
    assert calculator.run(inputs).answer.verdict.said() not in ("Yes.", "No.", "It depends.")


@pytest.mark.parametrize("preset", calculator.presets, ids=lambda p: p.key)
def test_presets_are_told_apart(preset):
    assert len(preset.label) <= 32
    others = [calculator.run(p.inputs).answer.headline for p in calculator.presets if p is not preset]
    assert calculator.run(preset.inputs).answer.headline not in others


def test_the_versions_that_the_steps_were_written_for_are_told():
    for system, words in (("windows", "Versions 10 (from 2004 on) and 11"), ("linux", "Debian 12 and 13")):
        notes = " ".join(n.text for n in calculator.run({"system": system}).answer.notes)
        assert words in notes
        assert "2026-11-24" in notes
        assert "out of its maker's support gets no fixes" in notes


@pytest.mark.parametrize(
    ("inputs", "words"),
    [
        ({"change": "none", "trouble": "none", "encrypted": "no"}, "a desktop with Windows"),
        ({"change": "other_maker", "trouble": "none", "encrypted": "yes"},
         "a desktop with Windows, a card of another maker, an encrypted disk"),
        ({"change": "none", "trouble": "no_picture", "encrypted": "unsure", "machine": "laptop"},
         "a laptop with Windows, no picture, a disk that may be encrypted"),
        ({"system": "linux", "family": "arch", "change": "moved_card", "trouble": "crashes", "encrypted": "no"},
         "a desktop with Arch and its kin, a card from another machine, crashes"),
    ],
)  # fmt: skip
def test_for_what_a_plan_was_worked_out(inputs, words):
    assert calculator.run(inputs).worked_for() == words


def test_secure_boot_is_told_to_stay_on_where_it_may_be_on():
    def told(**inputs):
        answer = calculator.run({"change": "other_maker", "trouble": "none", **inputs}).answer
        return any("Leave it on. Under this system" in note.text for note in answer.notes)

    assert [told(secure_boot=state) for state in ("yes", "unsure", "no")] == [True, True, False]
    assert not told(secure_boot="yes", system="linux", family="debian")


def test_the_ladder_begins_at_one_rung():
    """The rung where one begins is the one drawn bold; those above are not needed, those below wait."""
    drawn = calculator.run({"change": "other_maker", "trouble": "none", "logo": "yes"}).answer.drawings[0]
    states = re.findall(r"\d, [^:]+: ([a-z ]+)", drawn.description)
    assert states == ["not needed here", "begin here", "only if that fails"]
    assert re.findall(r"font-weight[^>]*>(\d)  ", drawn.svg("x")) == ["2"]
