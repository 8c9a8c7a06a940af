"""Steps with tags get a box to tick and a place for the plan's tools; steps without get neither."""

from __future__ import annotations

from calculators.catalogue import find, names
from calculators.desk.answer import Answer, Step
from calculators.desk.as_html import as_html
from calculators.desk.calculator import Calculator
from calculators.desk.links import DONE, MADE, read_fragment


def html(*steps: Step) -> str:
    calculator = Calculator(
        name="a.b", title="A?", summary="A.", inputs=(), compute=lambda _: Answer(headline="A.", steps=steps)
    )
    return as_html(calculator.run({}), "p")


def test_a_step_with_tags_can_be_ticked():
    made = html(Step(key="over-restart", title='Restart & "wait"', do=("Now.",), tags=("restarts",)))
    assert made.count('<div class="wa-plan-tools"></div>') == 1
    assert 'value="over-restart" aria-label="Done: Restart &amp; &quot;wait&quot;"' in made


def test_deeper_groups_are_folded_and_the_numbers_go_on():
    made = html(
        Step(key="a", title="Gentle", do=("Now.",), group="The plan"),
        Step(key="b", title="Deep", do=("Now.",), group="If it does not work", deeper=True),
        Step(key="c", title="Deeper", do=("Now.",), group="If even that fails", deeper=True),
        Step(key="d", title="Report", do=("Now.",), group="Last"),
    )
    assert made.count('<details class="wa-deeper">') == made.count("</ol></details>") == 2
    assert '<summary class="wa-steps-group">If it does not work</summary><ol class="wa-steps" start="2">' in made
    assert '</ol><details class="wa-deeper"><summary class="wa-steps-group">If it does' in made
    assert '</ol></details><p class="wa-steps-group">Last</p><ol class="wa-steps" start="4">' in made


def test_steps_without_tags_are_as_they_were():
    made = html(Step(key="a", title="Restart", do=("Now.",)))
    assert "wa-plan-tools" not in made
    assert "checkbox" not in made


def test_a_link_carries_ticks_beside_its_inputs():
    link = read_fragment("#a.b:rate=3&made=1-0a1b2c3d&done=abc123")
    assert (link.inputs, link.mark, link.ticks) == ({"rate": "3"}, "0a1b2c3d", "abc123")
    assert read_fragment("#a.b:rate=3").ticks == ""


def test_no_calculator_has_an_input_of_a_name_that_links_use():
    for name in names():
        assert not {MADE, DONE} & {entry.key for entry in find(name).inputs}, name
